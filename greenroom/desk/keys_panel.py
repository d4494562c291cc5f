"""The list of keys: what each does, from the one table of shortcuts."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontMetrics
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QVBoxLayout

from greenroom.desk.look import BODY_PX, GAP, font
from greenroom.desk.parts import label
from greenroom.desk.shortcuts import GROUPS, Group
from greenroom.desk.tabs import Part

COLUMNS = 3
KEYS_PX = 144  # at least; as wide as the longest single key
KEYS_MARGIN_PX = 4
HEAD_ROWS = 2  # a heading takes about as much height as so many keys


class KeysPart(Part):
    """Every group of keys below its heading, in columns of about one height, in the order of the table."""

    def __init__(self) -> None:
        super().__init__()
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(3 * GAP)
        wide = _keys_width()
        for groups in in_columns(GROUPS):
            column = QVBoxLayout()
            column.setSpacing(2 * GAP)
            for group in groups:
                column.addLayout(_listed(group, wide))
            column.addStretch(1)
            layout.addLayout(column, 1)


def in_columns(groups: tuple[Group, ...]) -> list[list[Group]]:
    """Return groups dealt to columns: each goes on in the column that its middle falls into."""
    whole = sum(_rows(group) for group in groups)
    dealt: list[list[Group]] = [[] for _ in range(COLUMNS)]
    above = 0
    for group in groups:
        middle = above + _rows(group) / 2
        dealt[min(int(middle * COLUMNS / whole), COLUMNS - 1)].append(group)
        above += _rows(group)
    return dealt


def _rows(group: Group) -> int:
    return len(group.shortcuts) + HEAD_ROWS


def _keys_width() -> int:
    """Return the width for the keys, none of which may be broken: their names differ by language."""
    metrics = QFontMetrics(font(BODY_PX, QFont.Weight.DemiBold))
    keys = (key for group in GROUPS for shortcut in group.shortcuts for key in shortcut.shown())
    return max(KEYS_PX, max(metrics.horizontalAdvance(f"{key},") for key in keys) + KEYS_MARGIN_PX)


def _listed(group: Group, wide: int) -> QVBoxLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(GAP)
    grid.setVerticalSpacing(GAP // 2)
    grid.setColumnMinimumWidth(0, wide)
    grid.setColumnStretch(1, 1)
    for place, shortcut in enumerate(group.shortcuts):
        keys = _wrapped(", ".join(shortcut.shown()), "strong")
        keys.setFixedWidth(wide)
        grid.addWidget(keys, place, 0)
        grid.addWidget(_wrapped(shortcut.words), place, 1)
    layout = QVBoxLayout()
    layout.setSpacing(GAP // 2)
    layout.addWidget(label(group.title, "title"))
    layout.addLayout(grid)
    return layout


def _wrapped(text: str, role: str = "") -> QLabel:
    made = label(text, role, wrap=True)
    made.setAlignment(Qt.AlignmentFlag.AlignTop)
    return made
