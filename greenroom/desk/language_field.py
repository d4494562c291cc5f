"""The fields in which language and size are chosen; both take hold at the next start."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QApplication, QComboBox, QVBoxLayout, QWidget

from greenroom.desk.language import (
    DRAFTS,
    choose_language,
    chosen_language,
    own_language,
    system_language,
)
from greenroom.desk.look import GAP
from greenroom.desk.own_settings import SIZES, choose_size, chosen_size, size_is_the_systems, size_now
from greenroom.desk.pages import AGAIN
from greenroom.desk.parts import button, label, row, show_words
from greenroom.speech import NAMES, SPEAKER, figure, tr


class LanguageField(QWidget):
    """The languages under their own names, the system's first, and how large everything is."""

    chosen = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.languages = QComboBox()
        self.languages.setObjectName("language")
        self.languages.setAccessibleName(tr("Language"))
        self.languages.addItem(tr("as the system: {language}", language=NAMES[system_language()]), None)
        for code, name in NAMES.items():
            self.languages.addItem(name, code)
        self.sizes = QComboBox()
        self.sizes.setObjectName("size")
        self.sizes.setAccessibleName(tr("Size of text and signs"))
        for size in SIZES:
            self.sizes.addItem(figure(size / 100, ".0%"), size)
        if size_is_the_systems():
            self.sizes.setEnabled(False)
            self.sizes.setToolTip(tr("The system sets the size of this program"))
        self.words = label("", "quiet", wrap=True)
        self.again = button(tr("Start again now"), self._start_again, name="start-again")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        captions = label(tr("Language"), "quiet"), label(tr("Size"), "quiet")
        for caption, field in zip(captions, (self.languages, self.sizes), strict=True):
            caption.setBuddy(field)
        layout.addLayout(row(captions[0], self.languages, None, captions[1], self.sizes))
        layout.addWidget(self.words)
        layout.addLayout(row(self.again, None))
        self.refresh()
        self.languages.currentIndexChanged.connect(lambda _index: self._choose())
        self.sizes.currentIndexChanged.connect(lambda _index: self._choose_size())

    def refresh(self) -> None:
        """Show what is chosen on this computer."""
        with QSignalBlocker(self.languages), QSignalBlocker(self.sizes):
            self.languages.setCurrentIndex(max(self.languages.findData(chosen_language()), 0))
            self.sizes.setCurrentIndex(self.sizes.findData(chosen_size()))
        self._say()

    def _choose(self) -> None:
        choose_language(self.languages.currentData())
        self._say()
        self.chosen.emit()

    def _choose_size(self) -> None:
        choose_size(self.sizes.currentData())
        self._say()
        self.chosen.emit()

    def _say(self) -> None:
        other_size = chosen_size() != size_now() and not size_is_the_systems()
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
        if other_size:
            words.append(tr("The size is taken from the next start."))
        show_words(self.words, " ".join(words))
        self.again.setVisible(wanted != spoken or other_size)

    def _start_again(self) -> None:
        """Close the window as the grower would; the program opens it again in the language chosen."""
        self.window().close()
        QApplication.exit(AGAIN)
