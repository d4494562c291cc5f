"""What the page's own controls look like beyond the style sheet of the window."""

from __future__ import annotations

from greenroom.desk.look import Look


def page_style(look: Look) -> str:
    """Return the style sheet of the page."""
    palette = look.palette
    return f"""
QPushButton[tight="yes"] {{ padding: 4px 8px; }}
QListWidget#wants::item {{ min-height: 26px; padding: 0 4px; }}
QListWidget#wants::item:selected {{ background: {palette.leaf_wash}; color: {palette.ink}; }}
QListWidget#wants::indicator {{ width: 14px; height: 14px; border: 1px solid {palette.quiet};
    border-radius: 3px; background: {palette.card}; }}
QListWidget#wants::indicator:checked {{ width: 6px; height: 6px; border: 5px solid {palette.leaf};
    background: {palette.on_leaf}; }}
QLabel#packet-in-hand {{ background: {palette.soil}; color: {palette.on_soil}; font-weight: 600;
    border: 2px solid {palette.leaf}; border-radius: 8px; padding: 6px 10px; }}
"""
