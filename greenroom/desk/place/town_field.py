"""Finding one's town by typing its name; it brings place and clock along."""

from __future__ import annotations

from PySide6.QtCore import QStringListModel, Signal
from PySide6.QtWidgets import QCompleter, QLineEdit

from greenroom.exchange.towns import Town, find_towns
from greenroom.speech import tr

LISTED = 12
FEWEST_LETTERS = 2


class TownField(QLineEdit):
    """A line that lists towns as one types; ``found`` carries the one chosen."""

    found = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._towns: dict[str, Town] = {}
        self._words = QStringListModel(self)
        completer = QCompleter(self._words, self)
        completer.setCompletionMode(QCompleter.CompletionMode.UnfilteredPopupCompletion)
        completer.setMaxVisibleItems(LISTED)
        completer.activated.connect(lambda words: self._choose(str(words)))
        self.setCompleter(completer)
        self.setPlaceholderText(tr("type the next town; it fills in the rest"))
        self.setAccessibleName(tr("Find a town"))
        self.setObjectName("place-town")
        self.setMaxLength(120)
        self.textEdited.connect(self._look_up)
        self.returnPressed.connect(self._take_only)

    @property
    def listed(self) -> list[str]:
        """The towns listed for what is typed, in words."""
        return self._words.stringList()

    def _look_up(self, text: str) -> None:
        towns = find_towns(text, LISTED) if len(text.strip()) >= FEWEST_LETTERS else []
        self._towns = {town.words: town for town in reversed(towns)}
        self._words.setStringList([town.words for town in towns])

    def _choose(self, words: str) -> None:
        town = self._towns.get(words)
        if town is not None:
            self.found.emit(town)

    def _take_only(self) -> None:
        """Take the town that is listed first when Enter is pressed without choosing."""
        if self.text() in self._towns:
            return
        if self.listed:
            self.setText(self.listed[0])
            self._choose(self.listed[0])
