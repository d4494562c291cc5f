"""Jobs before anything stands in a tray: sow what is planned, test old seed, count a test."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from greenroom.ledger.facts import Wanted
from greenroom.season.crops import cite, crop_of
from greenroom.season.deeds_tests import begin_test, count_test
from greenroom.season.hardening_words import day_words
from greenroom.season.home_tests import HomeTest, home_tests, home_tests_of
from greenroom.season.jobs.job import DESK, SHELF, Ask, Job, Urgency, Walk
from greenroom.season.packets import PacketView, packet_view, packets_of, variety_name
from greenroom.season.plan import PlanRow, plan_of
from greenroom.season.ribbon import season_year
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import many, tr, trn

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
    on = day_words(row.on)
    when = tr("{day} chosen", day=on) if row.chosen else tr("{day} proposed by the plan", day=on)
    if row.latest is not None:
        was = tr("the last good day was {day}", day=day_words(row.latest))
        when = was if late else tr("{when}, by {day} at the latest", when=when, day=day_words(row.latest))
    need = many(packets.seeds, "seed") if packets is not None else tr("no packet worth sowing")
    window = (
        tr("{first} to {last}", first=day_words(row.window.first), last=day_words(row.window.last))
        if row.window
        else tr("not known")
    )
    why = Why(
        tr("Sow {variety} on {day}", variety=row.name, day=on),
        tr("The day is chosen. The plan page shows what it rests on.")
        if row.chosen
        else tr("The day is proposed by the plan. The plan page shows what it rests on."),
        (
            (tr("plants wanted"), str(row.plants)),
            (tr("window", sense="span of days"), window),
            (tr("seeds to sow"), need),
        ),
        (CUSTOM,) if row.chosen else (tr("The season plan: the place's own years, or its frost dates."),),
    )
    return Job(
        SHELF,
        tr("Sow {variety}", variety=row.name),
        trn(
            "{when}; {n:,} plant wanted, {need}",
            "{when}; {n:,} plants wanted, {need}",
            row.plants,
            when=when,
            need=need,
        ),
        key=f"sow {row.variety} {row.on.year}",
        urgency=Urgency.NOW if late else Urgency.TODAY,
        button=tr("To the trays"),
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
    what = tr("Test {variety}", variety=view.name)
    if view.packet.lot:
        what = tr("Test {variety}, lot {lot}", variety=view.name, lot=view.packet.lot)
    why = Why(
        what,
        tr(
            "The guide gives its seed {life:g} years, well stored; older seed is tested before "
            "it is sown, so that enough is sown or more can be had.",
            life=life,
        ),
        ((tr("packed"), str(view.packet.packed)), (tr("age when sown"), many(years, "year"))),
        (source,),
    )
    return Job(
        DESK,
        what,
        trn(
            "packed {year}; its seed keeps about {n:,} year",
            "packed {year}; its seed keeps about {n:,} years",
            round(life),
            year=view.packet.packed,
        ),
        key=f"test {view.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Begun", sense="a test"),
        page="seed",
        ask=Ask(tr("seeds to test"), seeds, 1, 1000),
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
        tr("Count the test of {variety}", variety=name),
        tr(
            "The first count is due when most of sound seed is out, the last after {days} days.",
            days=test.final_days,
        ),
        (
            (tr("begun"), day_words(test.begun)),
            (tr("seeds"), str(test.seeds)),
            (tr("germinated"), str(test.germinated)),
        ),
        (tr("7 CFR 201.58, Table 2: days of the first and the final count."),),
    )
    return Job(
        DESK,
        tr("Count the test of {variety}", variety=name),
        tr(
            "{germinated} of {seeds} germinated; a count was due {day}",
            germinated=test.germinated,
            seeds=test.seeds,
            day=day_words(due),
        ),
        key=f"count {test.key}",
        button=tr("Counted"),
        page="seed",
        due=due,
        ask=Ask(tr("newly germinated"), 0, 0, left),
        why=why,
        doing=lambda value: count_test(walk.season, test.key, walk.today, round(value)),
    )


def _first_count(walk: Walk, test: HomeTest) -> int:
    view = packet_view(walk.season, test.packet)
    crop = crop_of(walk.season.guide, view.crop) if view is not None else None
    days = crop.test_first_count_days if crop is not None else None
    return round(days.value) if days is not None else test.final_days // 2
