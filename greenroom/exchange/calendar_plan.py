"""The season plan and the round as events of a calendar."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta

from greenroom.exchange.calendar_file import Event, cancelled
from greenroom.ledger.facts import JobStruck, Variety, Wanted
from greenroom.season.days_out import DayOut, days_out
from greenroom.season.hardening import going_out
from greenroom.season.hardening_words import day_words, time_words, whole_minutes
from greenroom.season.jobs.desk import sow_rows
from greenroom.season.jobs.job import Job, Walk
from greenroom.season.outing_windows import OutingPlan
from greenroom.season.place import Place, place_of
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_stages import stages
from greenroom.season.reasons import reasons_words
from greenroom.season.replay import Spread
from greenroom.season.ribbon import season_year
from greenroom.season.round import DAYS_AHEAD, the_round
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import many, tr

MORNING = timedelta(hours=8)
"""When a thing of the whole day rings, after midnight by the clock of whoever reads it."""

BEFORE_AN_OUTING = timedelta(minutes=-10)


def plan_events(season: Season, plan: Plan) -> list[Event]:
    """Return the plan of a season: when to sow, pot up, harden and set out each variety.

    What was wanted for the season and no longer is comes as cancelled.
    """
    events = [event for row in plan.rows for event in _of_row(season, plan.year, row)]
    planned = {row.variety for row in plan.rows}
    dropped = {one.variety for one in season.facts(Wanted) if one.year == plan.year} - planned
    for key in sorted(dropped):
        variety = season.thing(Variety, key)
        name = variety.name if variety else key
        events += [cancelled(one) for one in _dropped(key, name, plan.year)]
    return events


def round_events(season: Season, today: date, now: datetime) -> list[Event]:
    """Return today's round and the week ahead: outings by the clock where their hours are known."""
    found, sow = the_round(season, today, now), _sow_keys(season, today, now)
    events = [_job(job, today, sow) for job in found.jobs if not _at_door(job)]
    events += [_job(job, until, sow) for job, until in found.put_off]
    events += [cancelled(_job(job, today, sow)) for job in found.struck]
    events += list(_outings(season, today, now))
    return events + list(_sowings(season, today, now, sow))


def _of_row(season: Season, year: int, row: PlanRow) -> Iterator[Event]:
    known, name = stages(season.guide, row), row.name
    if row.window is not None and not row.sown:
        told = [tr("Any day of these; the plan has {day}.", day=day_words(row.on))]
        if row.latest:
            told.append(tr("The last good day is {day}.", day=day_words(row.latest)))
        yield Event(
            _key("window", year, row.variety),
            tr("Time to sow {name}", name=name),
            row.window.first,
            row.window.last,
            " ".join(told),
        )
    sow = tr("Sow {name}", name=name) if not row.sown else tr("{name} sown", name=name)
    yield _whole_day(_key("sow", year, row.variety), sow, row.on, _seeds(row), rings=not row.sown)
    for stage, title, day, note in (
        (
            "pot up",
            tr("Pot up {name}", name=name),
            known.pot_up,
            tr("By the pairs of true leaves the guide gives."),
        ),
        ("harden", tr("Begin hardening {name}", name=name), known.hardens, ""),
        ("set out", tr("Set out {name}", name=name), known.set_out, _spread(known.out_spread)),
    ):
        if day is not None:
            yield _whole_day(_key(stage, year, row.variety), title, day, note)


def _dropped(variety: str, name: str, year: int) -> Iterator[Event]:
    for stage in ("window", "sow", "pot up", "harden", "set out"):
        yield Event(
            _key(stage, year, variety),
            tr("{name}: no longer planned", name=name),
            date(year, 1, 1),
            date(year, 1, 1),
        )


def _key(stage: str, year: int, variety: str) -> str:
    return f"plan {year} {stage} {variety}"


def _whole_day(key: str, title: str, day: date, note: str = "", *, rings: bool = True) -> Event:
    return Event(key, title, day, day, note, MORNING if rings else None)


def _seeds(row: PlanRow) -> str:
    if row.sown or row.seeds is None:
        return ""
    return tr(
        "{seeds} in {cells} for {plants}.",
        seeds=many(row.seeds.seeds, "seed"),
        cells=many(row.seeds.cells, "cell"),
        plants=many(row.plants, "plant"),
    )


def _spread(spread: Spread | None) -> str:
    if spread is None:
        return ""
    return tr("By the years: {first} to {last}.", first=day_words(spread.early), last=day_words(spread.late))


def _job(job: Job, day: date, sow: Mapping[str, str]) -> Event:
    note = tr("{where}: {reason}", where=job.where, reason=job.reason)
    return _whole_day(sow.get(job.key, f"job {job.key}"), job.what, day, note)


def _sow_keys(season: Season, today: date, now: datetime) -> dict[str, str]:
    """Return for the round's jobs of sowing the keys that the plan has for the same: they are one thing."""
    year = season_year(season, today)
    rows = sow_rows(Walk.of(season, today, now))
    return {f"sow {row.variety} {row.on.year}": _key("sow", year, row.variety) for row in rows}


def _at_door(job: Job) -> bool:
    """Whether a job is an outing of today that comes with its hours; what is out has still to come in."""
    return job.key.startswith(("out ", "keep in "))


def _outings(season: Season, today: date, now: datetime) -> Iterator[Event]:
    last = today + timedelta(days=DAYS_AHEAD)
    for key in going_out(season):
        stand = two_clocks(season, key, today, now)
        if stand is None:
            continue
        name, place = season.holder(key).name, place_of(season)
        first = today if stand.outing is None else today + timedelta(days=1)
        for out in days_out(season, stand, now):
            if first <= out.date <= last:
                yield from _outing(f"outing {key} {out.date.isoformat()}", name, out, place)


def _outing(key: str, name: str, out: DayOut, place: Place) -> Iterator[Event]:
    planned, sun = out.windows.outing, whole_minutes(out.planned.sun_minutes)
    if out.held:
        yield _whole_day(
            key,
            tr("Keep {name} in", name=name),
            out.date,
            reasons_words(out.planned.reasons),
            rings=False,
        )
    elif planned is not None and planned.out < planned.back:
        light = _light(planned, place)
        note = f"{light} {tr('Sheltered.')}" if out.sheltered else light
        yield Event(key, tr("{name} out", name=name), planned.out, planned.back, note, BEFORE_AN_OUTING)
    elif sun > 0:
        yield _whole_day(key, tr("{name} out, {sun} of sun", name=name, sun=many(sun, "minute")), out.date)


def _light(planned: OutingPlan, place: Place) -> str:
    """Return when an outing is in the sun and when in shade."""
    if planned.sun is None:
        return tr("In shade all the time.")
    first, last = time_words(planned.sun.start, place), time_words(planned.sun.end, place)
    shade = planned.shade_before >= 1 or planned.shade_after >= 1
    if shade:
        return tr("In the sun {first} to {last}, else in shade.", first=first, last=last)
    return tr("In the sun {first} to {last}.", first=first, last=last)


def _sowings(season: Season, today: date, now: datetime, sow: Mapping[str, str]) -> Iterator[Event]:
    last = today + timedelta(days=DAYS_AHEAD)
    struck = {fact.job for fact in season.facts(JobStruck)}
    for row in sow_rows(Walk.of(season, today, now)):
        key = f"sow {row.variety} {row.on.year}"
        if today < row.on <= last and key not in struck:
            yield _whole_day(sow[key], tr("Sow {name}", name=row.name), row.on, _seeds(row))
