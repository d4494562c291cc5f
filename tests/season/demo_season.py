"""The demo as it stands on one morning, made once for all tests of it and of what leaves the program."""

from datetime import UTC, date, datetime
from functools import cache

import numpy as np

from greenroom.desk.session import DEMO_SEED
from greenroom.ledger import Entry
from greenroom.own_files import resources_folder
from greenroom.season.demo import demo_facts, read_demo
from greenroom.season.state import Season
from tests.season.told import the_guide

TODAY = date(2027, 5, 14)
NOW = datetime(2027, 5, 14, 7, 54, tzinfo=UTC)


@cache
def own_demo():
    """What the demo's file says."""
    return read_demo((resources_folder() / "demo" / "season.toml").read_text(encoding="utf-8"))


@cache
def demo_entries(now=NOW):
    """Every fact of the demo up to a moment, numbered as a ledger would."""
    facts = demo_facts(own_demo(), now, np.random.default_rng(DEMO_SEED))
    return tuple(Entry(number, number, fact) for number, fact in enumerate(facts, start=1))


@cache
def demo_season(now=NOW):
    """The season those make; nobody may write to it."""
    return Season(demo_entries(now), the_guide())
