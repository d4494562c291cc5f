"""Choosing a crop of the guide, from a list or by a few words."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QCompleter, QLineEdit

from greenroom.desk.seed.crop_words import long_name
from greenroom.exchange.seed_values import UnfitError
from greenroom.guide import Guide
from greenroom.speech import tr

WIDTH_CHARACTERS = 14


class CropChooser(QComboBox):
    """Every crop of the guide; typing finds by any part of the name, or by what the guide makes of it."""

    def __init__(self, guide: Guide) -> None:
        super().__init__()
        self._guide = guide
        self._foreign: str | None = None
        self.words = QLineEdit()
        self.words.setPlaceholderText(tr("not known"))
        self.setEditable(True)
        self.setLineEdit(self.words)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.setMinimumContentsLength(WIDTH_CHARACTERS)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMaxVisibleItems(14)
        self.addItem("", None)
        for crop in guide.crops:
            self.addItem(long_name(crop), crop.key)
        completer = QCompleter(self.model(), self)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.setCompleter(completer)

    def crop(self) -> str | None:
        """Return the key of the crop chosen or typed, None if the field is empty.

        Raises
        ------
        UnfitError
            If the guide knows no such crop; the message says what is allowed.
        """
        text = self.currentText().strip()
        if not text:
            return None
        if text == self._foreign:
            return self._foreign
        place = self.findText(text, Qt.MatchFlag.MatchFixedString)
        if place >= 0:
            key: str | None = self.itemData(place)
            return key
        found = self._guide.find(text)
        if found is None:
            raise UnfitError(tr("a crop of the guide, such as pepper or habanero, or nothing"))
        return found.key

    def words_of(self, key: str | None) -> str:
        """Return what the field shows for a crop's key."""
        place = self.findData(key) if key is not None else 0
        return self.itemText(place) if place >= 0 else key or ""

    def show_crop(self, key: str | None) -> None:
        """Show a crop by its key; one that the guide does not know is shown as it is written."""
        place = self.findData(key) if key is not None else 0
        self._foreign = key if place < 0 else None
        self.setCurrentIndex(max(place, 0))
        self.setEditText(self.words_of(key))
        self.words.setCursorPosition(0)
