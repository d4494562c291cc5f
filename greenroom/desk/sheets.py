"""Sheets on which the parts of a page lie beside or below each other."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

BETWEEN = 12


def lay_across(sheet: QWidget, *parts: tuple[QWidget, int]) -> None:
    """Lay parts beside each other, each with its stretch."""
    layout = QHBoxLayout(sheet)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(BETWEEN)
    for part, stretch in parts:
        layout.addWidget(part, stretch)


def in_column(*parts: tuple[QWidget, int]) -> QWidget:
    """Return parts below each other, each with its stretch."""
    made = QWidget()
    layout = QVBoxLayout(made)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(BETWEEN)
    for part, stretch in parts:
        layout.addWidget(part, stretch)
    return made
