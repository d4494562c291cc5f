"""The help of F1: the keys, the words of the trade, the walk, and what this program is."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.help.about_part import AboutPart
from greenroom.desk.help.words_part import WordsPart
from greenroom.desk.keys_panel import KeysPart
from greenroom.desk.look import CARD_PADDING, GAP, PAGE_MARGIN
from greenroom.desk.parts import button, label, row
from greenroom.desk.tabs import Tab, Tabs
from greenroom.guide.glossary_reading import own_glossary
from greenroom.speech import tr

WIDEST_PX, HIGHEST_PX = 980, 600
KEYS, WORDS, ABOUT = "keys", "words", "about"


class HelpPanel(QFrame):
    """Opens over the middle of the window; Escape, Close or a click elsewhere closes it."""

    def __init__(self, bench: Bench, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._bench = bench
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("help")
        self.setProperty("role", "card")
        self.setAccessibleName(tr("Help"))
        self.tabs = Tabs(
            bench.look,
            tr("Parts of the help"),
            {
                KEYS: Tab(tr("Keys"), KeysPart),
                WORDS: Tab(tr("Words"), lambda: WordsPart(own_glossary())),
                ABOUT: Tab(tr("About"), lambda: AboutPart(bench.keeper)),
            },
        )
        self.walk_button = button(tr("Walk through the demo"), self._walk, name="help-walk")
        self.close_button = button(tr("Close"), self.close, name="help-close")
        head = row(label(tr("Help"), "page-title"), self.tabs.bar, None, self.walk_button, gap=2 * GAP)
        head.setContentsMargins(PAGE_MARGIN, 0, PAGE_MARGIN, 0)
        foot = row(None, self.close_button)
        foot.setContentsMargins(PAGE_MARGIN, 0, PAGE_MARGIN, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, CARD_PADDING - 4, 1, CARD_PADDING - 4)
        layout.setSpacing(GAP)
        layout.addLayout(head)
        layout.addWidget(self.tabs, 1)
        layout.addLayout(foot)

    def open_over(self, window: QWidget, part: str = KEYS) -> None:
        """Show a part of the help over the middle of a window, and no larger than it."""
        self.tabs.open_tab(part)
        self.resize(
            min(WIDEST_PX, window.width() - 3 * PAGE_MARGIN), min(HIGHEST_PX, window.height() - 2 * GAP)
        )
        self.move(window.mapToGlobal(window.rect().center()) - self.rect().center())
        self.show()
        words = self.tabs.made.get(part)
        (words.field if isinstance(words, WordsPart) else self.tabs.bar).setFocus()

    def _walk(self) -> None:
        self.close()
        self._bench.walk()
