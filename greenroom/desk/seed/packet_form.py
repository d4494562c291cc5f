"""The fields of one packet, for a new one and for one that is corrected."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from PySide6.QtCore import QStringListModel, Qt, Signal
from PySide6.QtWidgets import QCompleter, QGridLayout, QLineEdit, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.desk.seed.crop_chooser import CropChooser
from greenroom.desk.seed.form_values import (
    UnfitError,
    number_words,
    percent_words,
    read_count,
    read_days,
    read_field,
    read_percent,
    read_year,
)
from greenroom.exchange.seed_values import read_text
from greenroom.guide import Guide
from greenroom.season.packets import SeedEntry
from greenroom.speech import tr

NAME, CROP, LOT, PACKED = "variety", "crop", "lot", "packed"
SEEDS, GERMINATION, RIPE = "seeds-in-it", "germination", "days-to-ripe"
TITLES = {
    NAME: tr("Variety"),
    CROP: tr("Crop"),
    LOT: tr("Lot"),
    PACKED: tr("Packed"),
    SEEDS: tr("Seeds in it"),
    GERMINATION: tr("Germination, %"),
    RIPE: tr("Days to ripe"),
}
HINTS = {
    NAME: tr("name on the packet"),
    LOT: tr("as printed, if any"),
    PACKED: tr("year"),
    SEEDS: tr("not counted"),
    GERMINATION: tr("on the label"),
    RIPE: tr("from setting out"),
}


class PacketForm(QWidget):
    """Seven fields; ``entry`` reads them. ``edited`` tells that one was changed and left."""

    edited = Signal()
    typed = Signal()
    known_chosen = Signal(str)

    def __init__(self, guide: Guide) -> None:
        super().__init__()
        self._shown = SeedEntry("")
        self._names = QStringListModel(self)
        self.fields = {name: _line(name, hint) for name, hint in HINTS.items()}
        self.crop = CropChooser(guide)
        self.crop.setAccessibleName(TITLES[CROP])
        self._offer_names()
        self._lay_out()
        for field in self.fields.values():
            field.editingFinished.connect(self._finished)
            field.textEdited.connect(lambda _text: self.typed.emit())
        self.crop.words.editingFinished.connect(self._finished)
        self.crop.activated.connect(lambda _place: self._finished())

    @property
    def changed(self) -> bool:
        """Whether any field differs from what was shown last."""
        return self._texts() != self._written(self._shown)

    def show_entry(self, entry: SeedEntry) -> None:
        """Fill the fields; those that show the same already are left alone."""
        self._shown = entry
        self.crop.show_crop(entry.crop)
        for name, text in self._written(entry).items():
            if name != CROP and self.fields[name].text() != text:
                self.fields[name].setText(text)

    def offer_names(self, names: Iterable[str]) -> None:
        """Offer names of varieties that are known already."""
        self._names.setStringList(sorted(set(names), key=str.casefold))

    def name(self) -> str:
        """Return the variety's name as typed."""
        return self.fields[NAME].text().strip()

    def entry(self) -> SeedEntry:
        """Return the packet as typed.

        Raises
        ------
        UnfitError
            With one sentence, if a field cannot be read.
        """
        texts = {name: field.text() for name, field in self.fields.items()}
        return SeedEntry(
            name=read_text(texts[NAME]),
            crop=read_field(TITLES[CROP], self.crop.currentText(), lambda _text: self.crop.crop()),
            lot=read_text(texts[LOT]),
            packed=read_field(TITLES[PACKED], texts[PACKED], read_year),
            seeds=read_field(tr("Seeds"), texts[SEEDS], read_count),
            germination=read_field(tr("Germination"), texts[GERMINATION], read_percent),
            days_to_ripe=read_field(TITLES[RIPE], texts[RIPE], read_days),
        )

    def offer_days(self, days: int | None) -> None:
        """Fill in days to ripe where nothing was typed."""
        if days is not None and not self.fields[RIPE].text():
            self.fields[RIPE].setText(number_words(days))

    def try_entry(self) -> SeedEntry | None:
        """Return the packet as typed so far, or None while a field cannot be read."""
        try:
            return self.entry()
        except UnfitError:
            return None

    def focus_first(self) -> None:
        """Go to the first field."""
        self.fields[NAME].setFocus(Qt.FocusReason.OtherFocusReason)
        self.fields[NAME].selectAll()

    def _finished(self) -> None:
        if self.changed:
            self.edited.emit()

    def _texts(self) -> dict[str, str]:
        texts = {name: field.text() for name, field in self.fields.items()}
        return {**texts, CROP: self.crop.currentText()}

    def _written(self, entry: SeedEntry) -> dict[str, str]:
        return {
            NAME: entry.name,
            LOT: entry.lot,
            PACKED: number_words(entry.packed),
            SEEDS: number_words(entry.seeds),
            GERMINATION: percent_words(entry.germination),
            RIPE: number_words(entry.days_to_ripe),
            CROP: self.crop.words_of(entry.crop),
        }

    def _offer_names(self) -> None:
        completer = QCompleter(self._names, self)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.activated.connect(lambda text: self.known_chosen.emit(text))
        self.fields[NAME].setCompleter(completer)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        order = (NAME, CROP, LOT, PACKED, SEEDS, GERMINATION, RIPE)
        for place, name in enumerate(order):
            field = self.crop if name == CROP else self.fields[name]
            words = label(TITLES[name], "quiet")
            words.setBuddy(field)
            grid.addWidget(words, place, 0)
            grid.addWidget(field, place, 1)
        for earlier, later in pairwise(order):
            self.setTabOrder(self._field(earlier), self._field(later))

    def _field(self, name: str) -> QWidget:
        return self.crop if name == CROP else self.fields[name]


def _line(name: str, hint: str) -> QLineEdit:
    made = QLineEdit()
    made.setPlaceholderText(hint)
    made.setAccessibleName(TITLES[name])
    made.setObjectName(f"packet-{name}")
    return made
