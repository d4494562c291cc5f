"""Jobs before anything stands in a tray: sow what is planned, test old seed, count a test."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from greenroom.ledger.facts import Wanted
from greenroom.season.crops import cite, crop_of
from greenroom.season.deeds_tests import begin_test, count_test
from greenroom.season.hardening_words import day_words
from greenroom.season.home_tests import HomeTest, home_tests, home_tests_of
from greenroom.season.jobs.job import CUSTOM, DESK, SHELF, Ask, Job, Urgency, Walk
from greenroom.season.packets import PacketView, packet_view, packets_of, variety_name
from greenroom.season.plan import PlanRow, plan_of
from greenroom.season.ribbon import season_year
from greenroom.season.why import Why
from greenroom.speech import many

TEST_AHEAD = timedelta(days=60)
"""Seed is tested in the two months before it is sown, so that more can still be had."""
STILL_WORTH_IT = timedelta(days=30)
"""A month after the last good day the round speaks of it no more."""
FEW, MANY = 10, 25
TEST_STAYS = timedelta(days=365)


def sow_rows(walk: Walk) -> list[PlanRow]:
    """Return the plan of what is wanted and not sown yet; empty where nothing is wanted."""
    if not walk.season.facts(Wanted):
        return []
    plan = plan_of(walk.season, season_year(walk.season, walk.today), walk.today)
    return [row for row in plan.rows if row.plants > 0 and not row.sown]


def desk_jobs(walk: Walk) -> Iterator[Job]:
    """Yield the jobs of seed."""
    for row in sow_rows(walk):
        too_late = row.latest is not None and walk.today > row.latest + STILL_WORTH_IT
        if row.on <= walk.today and not too_late:
            yield _sow_job(walk, row)
        if walk.today >= row.on - TEST_AHEAD:
            yield from _test_old(walk, row)
    yield from _count(walk)


def _sow_job(walk: Walk, row: PlanRow) -> Job:
    packets = row.seeds
    late = row.latest is not None and walk.today > row.latest
    when = f"{day_words(row.on)} {'chosen' if row.chosen else 'proposed by the plan'}"
    if row.latest is not None:
        was = f"the last good day was {day_words(row.latest)}"
        when = was if late else f"{when}, by {day_words(row.latest)} at the latest"
    need = many(packets.seeds, "seed") if packets is not None else "no packet worth sowing"
    chosen = "chosen" if row.chosen else "proposed by the plan"
    window = f"{day_words(row.window.first)} to {day_words(row.window.last)}" if row.window else "not known"
    why = Why(
        f"Sow {row.name} on {day_words(row.on)}",
        f"The day is {chosen}. The plan page shows what it rests on.",
        (("plants wanted", str(row.plants)), ("window", window), ("seeds to sow", need)),
        (CUSTOM,) if row.chosen else ("The season plan: the place's own years, or its frost dates.",),
    )
    return Job(
        SHELF,
        f"Sow {row.name}",
        f"{when}; {many(row.plants, 'plant')} wanted, {need}",
        key=f"sow {row.variety} {row.on.year}",
        urgency=Urgency.NOW if late else Urgency.TODAY,
        button="To the trays",
        page="sow",
        due=row.on,
        why=why,
    )


def _test_old(walk: Walk, row: PlanRow) -> Iterator[Job]:
    """Yield a job for each old packet of a variety that is to be sown and was not tested within a year."""
    for key in packets_of(walk.season, row.variety):
        view = packet_view(walk.season, key)
        crop = crop_of(walk.season.guide, view.crop) if view is not None else None
        if view is None or crop is None or crop.seed_life_years is None or view.packet.packed is None:
            continue
        years, life = row.on.year - view.packet.packed, crop.seed_life_years.value.low
        tests = home_tests_of(walk.season, key)
        tested = any(walk.today - one.begun <= TEST_STAYS for one in tests)
        if years > life and not tested and view.left != 0:
            yield _test_job(walk, view, years, life, cite(crop.seed_life_years))


def _test_job(walk: Walk, view: PacketView, years: int, life: float, source: str) -> Job:
    left = view.left
    seeds = min(FEW if left is not None and left < 4 * MANY else MANY, left if left is not None else MANY)
    lot = f", lot {view.packet.lot}" if view.packet.lot else ""
    why = Why(
        f"Test {view.name}{lot}",
        f"The guide gives its seed {life:g} years, well stored; older seed is tested before it is sown, so "
        "that enough is sown or more can be had.",
        (("packed", str(view.packet.packed)), ("age when sown", many(years, "year"))),
        (source,),
    )
    return Job(
        DESK,
        f"Test {view.name}{lot}",
        f"packed {view.packet.packed}; its seed keeps about {many(round(life), 'year')}",
        key=f"test {view.key}",
        urgency=Urgency.THIS_WEEK,
        button="Begun",
        page="seed",
        ask=Ask("seeds to test", seeds, 1, 1000),
        why=why,
        doing=lambda value: begin_test(walk.season, view.key, round(value), walk.today),
    )


def _count(walk: Walk) -> Iterator[Job]:
    """Yield a job for each test that is due for its first or its last count."""
    for test in home_tests(walk.season):
        looked = test.last_look
        first = test.begun + timedelta(days=_first_count(walk, test))
        due = first if looked is None else test.due
        if test.over or walk.today < due or looked == walk.today:
            continue
        yield _count_job(walk, test, due)


def _count_job(walk: Walk, test: HomeTest, due: date) -> Job:
    name = variety_name(walk.season, test.packet)
    left = test.seeds - test.germinated
    why = Why(
        f"Count the test of {name}",
        f"The first count is due when most of sound seed is out, the last after {test.final_days} days.",
        (("begun", day_words(test.begun)), ("seeds", str(test.seeds)), ("germinated", str(test.germinated))),
        ("7 CFR 201.58, Table 2: days of the first and the final count.",),
    )
    return Job(
        DESK,
        f"Count the test of {name}",
        f"{test.germinated} of {test.seeds} germinated; a count was due {day_words(due)}",
        key=f"count {test.key}",
        button="Counted",
        page="seed",
        due=due,
        ask=Ask("newly germinated", 0, 0, left),
        why=why,
        doing=lambda value: count_test(walk.season, test.key, walk.today, round(value)),
    )


def _first_count(walk: Walk, test: HomeTest) -> int:
    view = packet_view(walk.season, test.packet)
    crop = crop_of(walk.season.guide, view.crop) if view is not None else None
    days = crop.test_first_count_days if crop is not None else None
    return round(days.value) if days is not None else test.final_days // 2
