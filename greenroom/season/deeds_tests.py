"""What a grower does with a germination test at home: begin it, count it, take it back."""

from __future__ import annotations

from datetime import date

from greenroom.ledger.facts import GerminationCount, GerminationTest, new_key
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.home_tests import HomeTest, home_test
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season
from greenroom.speech import many, tr

MOST_SEEDS = 1000
COLDEST_C, WARMEST_C = 0.0, 45.0


def begin_test(season: Season, packet: str, seeds: int, day: date, warmth_c: float | None = None) -> Proposal:
    """Set seeds of a packet to germinate, to learn what share of it does."""
    view = packet_view(season, packet)
    if view is None:
        raise RefusedError(tr("That packet is not in the seed box any more."))
    if not 1 <= seeds <= MOST_SEEDS:
        raise RefusedError(
            tr(
                "A test of {seeds:,} seeds is refused; 1 to {most:,} are allowed.",
                seeds=seeds,
                most=MOST_SEEDS,
            )
        )
    if view.left is not None and seeds > view.left:
        raise RefusedError(
            tr(
                "{variety} has {left} left and {seeds} are to be tested; take fewer or correct the packet.",
                variety=view.name,
                left=many(view.left, "seed"),
                seeds=seeds,
            )
        )
    if warmth_c is not None and not COLDEST_C <= warmth_c <= WARMEST_C:
        place = place_of(season)
        low, asked, high = (temperature_words(one, place) for one in (COLDEST_C, warmth_c, WARMEST_C))
        raise RefusedError(
            tr("A test at {asked} is refused; {low} to {high} is allowed.", asked=asked, low=low, high=high)
        )
    fact = GerminationTest(day=day, test=new_key(), packet=packet, seeds=seeds, warmth_c=warmth_c)
    return Proposal(
        tr("set {seeds} of {variety} to germinate", seeds=many(seeds, "seed"), variety=view.name), (fact,)
    )


def count_test(season: Season, test: str, day: date, count: int) -> Proposal:
    """Note how many more seeds of a test have germinated; 0 says that it was looked at."""
    found = _test(season, test)
    name = variety_name(season, found.packet)
    if day < found.begun:
        raise RefusedError(
            tr(
                "The test of {variety} began on {day}; choose that day or a later one.",
                variety=name,
                day=day_words(found.begun),
            )
        )
    left = found.seeds - found.germinated
    if count < 0 or count > left:
        raise RefusedError(
            tr(
                "{count} more germinated is refused: of {seeds} of {variety} {left} are left, so 0 to "
                "{left} is allowed.",
                count=count,
                seeds=many(found.seeds, "seed"),
                variety=name,
                left=left,
            )
        )
    fact = GerminationCount(day=day, test=test, count=count)
    words = (
        tr("counted {count} germinated of {variety}", count=count, variety=name)
        if count
        else tr("looked at the test of {variety}", variety=name)
    )
    return Proposal(words, (fact,))


def count_day(season: Season, test: str, day: date, count: int) -> Proposal:
    """Write how many seeds of a test germinated on one day, in place of what was counted that day before."""
    found = _test(season, test)
    old = _counts_of(season, test, day)
    before = sum(fact.count for fact in old)
    if old and before == count:
        return Proposal(
            tr(
                "{count} germinated of {variety}, as before",
                count=count,
                variety=variety_name(season, found.packet),
            )
        )
    left = found.seeds - sum(fact.count for fact in _counts_of(season, test)) + before
    if old and not 0 <= count <= left:
        raise RefusedError(
            tr(
                "{count} germinated on {day} is refused: of {seeds} of {variety} {left} are "
                "left for that day, so 0 to {left} is allowed.",
                count=count,
                day=day_words(day),
                seeds=many(found.seeds, "seed"),
                variety=variety_name(season, found.packet),
                left=left,
            )
        )
    if not old:
        return count_test(season, test, day, count)
    words = tr(
        "counted {count} germinated of {variety} on {day}",
        count=count,
        variety=variety_name(season, found.packet),
        day=day_words(day),
    )
    fact = GerminationCount(day=day, test=test, count=count)
    return Proposal(words, (fact,), strike=tuple(one.id for one in old))


def clear_day(season: Season, test: str, day: date) -> Proposal:
    """Strike out what was counted of a test on one day, as if it had not been looked at."""
    name = variety_name(season, _test(season, test).packet)
    old = _counts_of(season, test, day)
    return Proposal(
        tr("struck out the count of {variety} on {day}", variety=name, day=day_words(day)),
        strike=tuple(one.id for one in old),
    )


def strike_test(season: Season, test: str) -> Proposal:
    """Strike a test out with all its counts."""
    found = _test(season, test)
    begun = [fact.id for fact in season.facts(GerminationTest) if fact.test == test]
    counts = [fact.id for fact in season.facts(GerminationCount) if fact.test == test]
    return Proposal(
        tr("struck out a test of {variety}", variety=variety_name(season, found.packet)),
        strike=(*begun, *counts),
    )


def _test(season: Season, key: str) -> HomeTest:
    found = home_test(season, key)
    if found is None:
        raise RefusedError(tr("That germination test is not in the ledger any more."))
    return found


def _counts_of(season: Season, test: str, day: date | None = None) -> list[GerminationCount]:
    """Return the counts of a test, or only those of one day."""
    return [fact for fact in season.facts(GerminationCount) if fact.test == test and day in (None, fact.day)]
