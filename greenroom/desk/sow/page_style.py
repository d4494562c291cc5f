"""What the page's own controls look like beyond the style sheet of the window."""

from __future__ import annotations

from greenroom.desk.look import Look


def page_style(look: Look) -> str:
    """Return the style sheet of the page."""
    palette = look.palette
    return f"""
QPushButton[tight="yes"] {{ padding: 4px 8px; }}
QLabel#packet-in-hand {{ background: {palette.soil}; color: {palette.on_soil}; font-weight: 600;
    border: 2px solid {palette.leaf}; border-radius: 8px; padding: 6px 10px; }}
"""
