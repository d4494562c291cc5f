"""The words of the trade that stand in a text, each a link that unfolds its meaning below."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from greenroom.desk.help.word_card import WordCard
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, column, label
from greenroom.guide.glossary import Glossary, Term
from greenroom.speech import tr

MOST = 6
ACROSS = 2


class WordsHere(QWidget):
    """Up to six words; asking for one shows it, asking again folds it away. ``folded`` tells of either."""

    folded = Signal()

    def __init__(self, text: str, glossary: Glossary) -> None:
        super().__init__()
        self._glossary = glossary
        self.terms = glossary.in_text(text)[:MOST]
        self.links = [self._link(term) for term in self.terms]
        self.card = WordCard()
        self.card.name.hide()
        self.card.hide()
        self.card.asked.connect(self._open)
        self._shown: str | None = None
        self._lay_out()
        self.setVisible(bool(self.terms))

    def _open(self, key: str) -> None:
        self._shown = None if key == self._shown else key
        self.card.setVisible(self._shown is not None)
        if self._shown is not None:
            term = self._glossary.terms[self._shown]
            self.card.show_term(term, self._glossary)
            self.card.also.setText(term.name)
            self.card.also.show()
        self.folded.emit()

    def _link(self, term: Term) -> QPushButton:
        made = button(term.name, partial(self._open, term.key), "link", name="word-here")
        made.setAccessibleName(tr("what {name} means", name=term.name))
        return made

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setSpacing(GAP // 2)
        for place, link in enumerate(self.links):
            grid.addWidget(link, place // ACROSS, place % ACROSS, Qt.AlignmentFlag.AlignLeft)
        for across in range(ACROSS):
            grid.setColumnStretch(across, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(column(label(tr("Words in it"), "strong")))
        layout.addLayout(grid)
        layout.addWidget(self.card)
