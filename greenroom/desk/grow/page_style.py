"""What the page's own controls look like beyond the style sheet of the window."""

from __future__ import annotations

from greenroom.desk.look import Look


def page_style(look: Look) -> str:
    """Return the style sheet of the page."""
    palette = look.palette
    return f"""
QPushButton[tight="yes"] {{ padding: 5px 8px; }}
QPushButton::menu-indicator {{ width: 0; }}
QDateEdit[when="earlier"] {{ background: {palette.sun_wash}; border: 2px solid {palette.sun};
    font-weight: 600; }}
QAbstractScrollArea::corner {{ background: transparent; border: none; }}
QListView#holders {{ background: transparent; border: none; }}
QListView#holders:focus {{ border: none; }}
"""
