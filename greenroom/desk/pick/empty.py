"""What the page says while there is nothing to pick from, and its parts while nothing was picked."""

from __future__ import annotations

from greenroom.desk.bench import Bench
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import button
from greenroom.speech import tr

TITLE = tr("Nothing to pick yet")
WORDS = tr("Put seed into the seed box first; of every variety in it a harvest can be written down.")
NO_PICKS = tr("Nothing was picked yet")
NOTHING_RIPENS = tr("Nothing ripens yet")
NONE_WANTED = tr("Nothing is wanted this season and nothing stands in a bed.")


def empty_pick(bench: Bench) -> NothingYet:
    """Return what stands in place of the whole page."""
    seed = button(tr("Add seed"), lambda: bench.show_page("seed"), "primary", name="go-seed-first")
    return NothingYet(TITLE, WORDS, seed)


def no_picks(bench: Bench, words: str) -> NothingYet:
    """Return what stands in place of what picks come to; the step is the form on the left."""
    write = button(tr("Write down a pick"), lambda: bench.show_page("pick"), name="go-pick")
    return NothingYet(NO_PICKS, words, write)


def none_ahead(bench: Bench) -> NothingYet:
    """Return what stands in the card of what is ripe by when."""
    plan = button(tr("Go to the plan"), lambda: bench.show_page("sow"), name="go-plan")
    return NothingYet(NOTHING_RIPENS, NONE_WANTED, plan, inside=True)
