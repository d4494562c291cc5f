"""The parts of a page behind tabs; each part is made when it first comes to the front."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QStackedWidget, QTabBar, QVBoxLayout, QWidget

from greenroom.desk.look import GAP, PAGE_MARGIN, Look


class Part(QWidget):
    """What stands behind one tab."""

    def refresh(self) -> None:
        """Show everything as it stands."""

    def closing(self) -> None:
        """Stop what still runs; called once, when the window closes."""


class Tab(NamedTuple):
    """One part: what it is called, and what makes it."""

    words: str
    make: Callable[[], Part]


class Tabs(QStackedWidget):
    """Shows one part at a time below ``bar``; a part that does not fit scrolls."""

    shown = Signal(str)

    def __init__(self, look: Look, name: str, tabs: Mapping[str, Tab]) -> None:
        super().__init__()
        self._look = look
        self._tabs = dict(tabs)
        self._areas: dict[str, QScrollArea] = {}
        self.made: dict[str, Part] = {}
        self.bar = QTabBar()
        self.bar.setObjectName("tabs")
        self.bar.setAccessibleName(name)
        self.bar.setExpanding(False)
        self.bar.setDrawBase(False)
        self.bar.setUsesScrollButtons(True)  # shown only where a language needs more room
        self.bar.setElideMode(Qt.TextElideMode.ElideNone)
        for tab in self._tabs.values():
            self.bar.addTab(tab.words)
        self.bar.currentChanged.connect(self._on_chosen)
        look.changed.connect(self._dress)
        self._dress()

    @property
    def current(self) -> str:
        """The key of the part in front."""
        return list(self._tabs)[max(0, self.bar.currentIndex())]

    def open_tab(self, key: str) -> None:
        """Bring a part to the front."""
        place = list(self._tabs).index(key)
        if self.bar.currentIndex() == place:
            self._on_chosen(place)
        else:
            self.bar.setCurrentIndex(place)

    def part(self, key: str) -> Part:
        """Return a part, made if need be."""
        if key not in self.made:
            tab = self._tabs[key]
            self.made[key] = tab.make()
            self._areas[key] = area = _scrolling(self.made[key], tab.words)
            self.addWidget(area)
        return self.made[key]

    def closing(self) -> None:
        """Stop what still runs in the parts that were made."""
        for part in self.made.values():
            part.closing()

    def area(self, key: str) -> QScrollArea:
        """Return what a part scrolls in, made if need be."""
        self.part(key)
        return self._areas[key]

    def _on_chosen(self, place: int) -> None:
        key = list(self._tabs)[place]
        self.setCurrentWidget(self.area(key))
        self.shown.emit(key)

    def _dress(self) -> None:
        self.bar.setStyleSheet(tab_style(self._look))


def _scrolling(part: QWidget, name: str) -> QScrollArea:
    inside = QWidget()
    inside.setObjectName("ground")
    sheet = QVBoxLayout(inside)
    sheet.setContentsMargins(PAGE_MARGIN, GAP // 2, PAGE_MARGIN, PAGE_MARGIN)
    sheet.addWidget(part)
    area = QScrollArea()
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setAccessibleName(name)
    area.setWidget(inside)
    return area


def tab_style(look: Look) -> str:
    """Return the style sheet of a row of tabs."""
    palette = look.palette
    return f"""
QTabBar {{ background: transparent; border: none; }}
QTabBar::tab {{ background: transparent; color: {palette.quiet}; border: 2px solid transparent;
    border-bottom: 3px solid transparent; padding: 5px 10px; min-height: 18px; font-weight: 600; }}
QTabBar::tab:hover {{ color: {palette.ink}; }}
QTabBar::tab:selected {{ color: {palette.ink}; border-bottom: 3px solid {palette.leaf}; }}
QTabBar::tab:selected:focus {{ border: 2px solid {palette.focus}; border-radius: 6px; }}
"""
