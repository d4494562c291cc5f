"""Which table the keys mean: that of the list or chart with the keyboard in it, else the first shown."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.tables.table_button import STANDS_FOR, TableButton
from greenroom.speech import tr

NONE_HERE = tr("There is no list or chart on this page that can be copied.")


def copy_nearest(bench: Bench, page: QWidget | None) -> None:
    """Copy the table that is meant."""
    found = nearest(page)
    if found is None:
        bench.say(NONE_HERE)
    else:
        found.copy()


def open_nearest(bench: Bench, page: QWidget | None) -> None:
    """Open the table that is meant, from which it can be saved."""
    found = nearest(page)
    if found is None:
        bench.say(NONE_HERE)
    else:
        found.open()


def nearest(page: QWidget | None) -> TableButton | None:
    """Return the button of the table that is meant, or None where a page has none."""
    if page is None:
        return None
    inside = QApplication.focusWidget()
    while inside is not None and page.isAncestorOf(inside):
        found = _first(inside)
        if found is not None:
            return found
        inside = inside.parentWidget()
    return _first(page)


def _first(widget: QWidget) -> TableButton | None:
    if isinstance(widget, TableButton):
        return widget
    elsewhere = widget.property(STANDS_FOR)
    if isinstance(elsewhere, TableButton):
        return elsewhere
    return next((one for one in widget.findChildren(TableButton) if one.isVisible()), None)
