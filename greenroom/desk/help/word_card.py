"""One word of the trade: what it means, who says so, and the words to see also."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QPushButton, QVBoxLayout

from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label
from greenroom.guide.glossary import Glossary, Term
from greenroom.season.within import opening
from greenroom.speech import tr


class WordCard(QFrame):
    """Shows one word; ``asked`` carries the key of a word to see also."""

    asked = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.name = label("", "title", wrap=True)
        self.also = label("", "quiet", wrap=True)
        self.words = label("", wrap=True)
        self.sources = label("", "quiet", wrap=True)
        self.see: list[QPushButton] = []
        self._see = QHBoxLayout()
        self._see.setSpacing(GAP // 2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for part in (self.name, self.also, self.words, self.sources):
            layout.addWidget(part)
        layout.addLayout(self._see)

    def show_term(self, term: Term, glossary: Glossary) -> None:
        """Show a word."""
        self.name.setText(opening(term.name) if term.name.islower() else term.name)
        self.also.setText(tr("also: {also}", also=", ".join(term.also)) if term.also else "")
        self.also.setVisible(bool(term.also))
        self.words.setText(term.words)
        self.sources.setText(" ".join(f"{one.rstrip('.')}." for one in term.citations))
        self.setAccessibleName(tr("{name}: {what}", name=term.name, what=term.words))
        self._show_see([glossary.terms[key] for key in term.see])

    def _show_see(self, terms: list[Term]) -> None:
        while (item := self._see.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        self.see = [self._link(term) for term in terms]
        if terms:
            self._see.addWidget(label(tr("see also"), "quiet"))
        for link in self.see:
            self._see.addWidget(link)
        self._see.addStretch(1)

    def _link(self, term: Term) -> QPushButton:
        made = button(term.name, lambda: self.asked.emit(term.key), "link", name="see-word")
        made.setAccessibleName(tr("see also {name}", name=term.name))
        return made
