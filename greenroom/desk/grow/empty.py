"""What the page says while there is no tray and no rack."""

from __future__ import annotations

from greenroom.desk.bench import Bench
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import button
from greenroom.speech import tr

TITLE = tr("Nothing grows here yet")
WORDS = tr("Sow a tray first; each of its cells then stands here, to be marked when it comes up.")


def empty_page(bench: Bench) -> NothingYet:
    """Return what stands in place of the trays."""
    sow = button(tr("Sow a tray"), lambda: bench.show_page("sow"), "primary", name="go-sow")
    return NothingYet(TITLE, WORDS, sow)
