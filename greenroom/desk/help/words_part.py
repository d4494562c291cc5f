"""The words of the trade, searched as you type."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout

from greenroom.desk.help.word_card import WordCard
from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.desk.tabs import Part
from greenroom.guide.glossary import Glossary
from greenroom.speech import tr

LIST_PX = 240
LIST_HIGH_PX = 380
GOING = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)
NONE = tr("No word here begins, contains or tells of that.")


class WordsPart(Part):
    """A field, the words it finds, and the chosen one; arrow keys in the field go through the list."""

    def __init__(self, glossary: Glossary) -> None:
        super().__init__()
        self._glossary = glossary
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr("type a word, such as DLI or setback"))
        self.field.setAccessibleName(tr("Find a word"))
        self.field.setClearButtonEnabled(True)
        self.found = QListWidget()
        self.found.setAccessibleName(tr("Words found"))
        self.none = label(NONE, "quiet", wrap=True)
        self.card = WordCard()
        self._lay_out()
        self.field.textChanged.connect(self._find)
        self.field.installEventFilter(self)
        self.found.currentItemChanged.connect(lambda item, _before: self._show(item))
        self.card.asked.connect(self.open_word)
        self._find("")

    @property
    def key(self) -> str | None:
        """The word that is shown."""
        item = self.found.currentItem()
        return item.data(Qt.ItemDataRole.UserRole) if item is not None else None

    def open_word(self, key: str) -> None:
        """Show a word, whatever was searched for."""
        self.field.clear()
        for place in range(self.found.count()):
            if self.found.item(place).data(Qt.ItemDataRole.UserRole) == key:
                self.found.setCurrentRow(place)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.field and _goes(event):
            QCoreApplication.sendEvent(self.found, event)
            return True
        return super().eventFilter(watched, event)

    def _find(self, typed: str) -> None:
        terms = self._glossary.find(typed)
        self.found.clear()
        for term in terms:
            item = QListWidgetItem(term.name)
            item.setData(Qt.ItemDataRole.UserRole, term.key)
            self.found.addItem(item)
        self.none.setVisible(not terms)
        self.card.setVisible(bool(terms))
        self.found.setCurrentRow(0 if terms else -1)

    def _show(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.card.show_term(self._glossary.terms[item.data(Qt.ItemDataRole.UserRole)], self._glossary)

    def _lay_out(self) -> None:
        self.field.setFixedWidth(LIST_PX)
        self.found.setFixedWidth(LIST_PX)
        self.found.setMinimumHeight(LIST_HIGH_PX)
        left, right = QVBoxLayout(), QVBoxLayout()
        left.setSpacing(GAP)
        left.addWidget(self.field)
        left.addWidget(self.found, 1)
        right.addWidget(self.none)
        right.addWidget(self.card)
        right.addStretch(1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3 * GAP)
        layout.addLayout(left)
        layout.addLayout(right, 1)


def _goes(event: QEvent) -> bool:
    """Tell whether an event is the press of a key that goes through the list."""
    pressed = event.type() == QEvent.Type.KeyPress
    return pressed and isinstance(event, QKeyEvent) and Qt.Key(event.key()) in GOING
