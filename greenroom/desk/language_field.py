"""The field in which the language is chosen; it takes hold at the next start."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QApplication, QComboBox, QVBoxLayout, QWidget

from greenroom.desk.language import (
    DRAFTS,
    NAMES,
    choose_language,
    chosen_language,
    own_language,
    system_language,
)
from greenroom.desk.look import GAP
from greenroom.desk.pages import AGAIN
from greenroom.desk.parts import button, label, row
from greenroom.speech import SPEAKER, tr


class LanguageField(QWidget):
    """The languages under their own names, the system's first."""

    chosen = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.languages = QComboBox()
        self.languages.setObjectName("language")
        self.languages.setAccessibleName(tr("Language"))
        self.languages.addItem(tr("as the system: {language}", language=NAMES[system_language()]), None)
        for code, name in NAMES.items():
            self.languages.addItem(name, code)
        caption = label(tr("Language"), "quiet")
        caption.setBuddy(self.languages)
        self.words = label("", "quiet", wrap=True)
        self.again = button(tr("Start again now"), self._start_again, name="start-again")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(row(caption, None, self.languages))
        layout.addWidget(self.words)
        layout.addLayout(row(self.again, None))
        self.refresh()
        self.languages.currentIndexChanged.connect(lambda _index: self._choose())

    def refresh(self) -> None:
        """Show what is chosen on this computer."""
        with QSignalBlocker(self.languages):
            self.languages.setCurrentIndex(max(self.languages.findData(chosen_language()), 0))
        self._say()

    def _choose(self) -> None:
        choose_language(self.languages.currentData())
        self._say()
        self.chosen.emit()

    def _say(self) -> None:
        wanted, spoken = own_language(), SPEAKER.tongue.code
        words = []
        if wanted != spoken:
            words.append(tr("{language} is spoken from the next start.", language=NAMES[wanted]))
        if wanted in DRAFTS:
            words.append(
                tr(
                    "This translation was drafted with care, but no native reader has gone through it yet. "
                    "Where safety matters, the label on the product and local rules count."
                )
            )
        self.words.setText(" ".join(words))
        self.words.setVisible(bool(words))
        self.again.setVisible(wanted != spoken)

    def _start_again(self) -> None:
        """Close the window as the grower would; the program opens it again in the language chosen."""
        self.window().close()
        QApplication.exit(AGAIN)
