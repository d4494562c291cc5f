"""The way to the print desk, as a button for any page."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QPushButton

from greenroom.desk.bench import Bench
from greenroom.desk.paper.errand import Errand
from greenroom.desk.parts import button
from greenroom.speech import tr


def paper_button(
    bench: Bench, errand: Callable[[], Errand], words: str = tr("On paper…"), kind: str = ""
) -> QPushButton:
    """Return a button that goes to the print desk; ``errand`` is asked when it is pressed."""
    return button(words, lambda: bench.send("paper", errand()), kind, name="on-paper")
