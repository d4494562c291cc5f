"""Jobs of the shelf that are of no one tray: lamps, and looking plants over."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import date, timedelta

from greenroom.guide import Cited, Span
from greenroom.ledger.facts import Finding, LampsSet, LookedOver
from greenroom.season.crops import cite
from greenroom.season.deeds_care import look_over, set_lamps
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import PLOT, SHELF, WHERE_KEYS, Ask, Job, Urgency, Walk, names_of
from greenroom.season.jobs.water import grows_in
from greenroom.season.lights import LONGEST_HOURS, ShelfLight, shelf_lights
from greenroom.season.packets import folded
from greenroom.season.plot_plants import crop_at
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import many, tr, trn

LOOK_EVERY_DAYS = 7
LOOK_OFTENER_DAYS = 4
"""Twice a week in the plot, and anywhere something was found within a fortnight."""
LOOKS = (LookedOver, Finding)
FOUND_STAYS = timedelta(days=14)
WEEKLY = tr("University of Maryland Extension (Brust 2008) and University of Delaware: scouting once a week.")


def lamp_jobs(walk: Walk) -> Iterator[Job]:
    """Yield a job for each shelf whose lamps give too little, or over which seedlings stand without word.

    Over a shelf on which nothing is sown or grows there is none.
    """
    set_on = {folded(fact.place): fact for fact in walk.season.facts(LampsSet) if fact.day <= walk.today}
    lights = shelf_lights(walk.season)
    used = _shelves_in_use(walk.season)
    for light in lights:
        told = set_on.get(folded(light.place))
        weak = folded(light.place) in used and light.ppfd > 0 and not light.enough
        if weak and not _answered(told, light):
            yield _more_light(walk, light)
    known = {folded(light.place) for light in lights} | set(set_on)
    yield from _first_light(walk, known)


def look_jobs(walk: Walk) -> Iterator[Job]:
    """Yield one job for all holders at the shelf that are due to be looked over, and one for the plot."""
    due: dict[str, list[tuple[Holder, date | None]]] = defaultdict(list)
    for made in walk.season.holders():
        if walk.season.counts(made.key).living == 0 or not _old_enough(walk, made):
            continue
        last = _last_look(walk.season, made.key, walk.today)
        on = None if last is None else last + timedelta(days=_every(walk, made))
        if on is None or on <= walk.today:
            due[PLOT if made.form == "bed" else SHELF].append((made, on))
    for where, found in due.items():
        yield _look_job(walk, where, found)


def _shelves_in_use(season: Season) -> frozenset[str]:
    made = (*season.holders("tray"), *season.holders("rack"))
    return frozenset(folded(one.place) for one in made if grows_in(season, one.key))


def _answered(told: LampsSet | None, light: ShelfLight) -> bool:
    """Whether the lamps were set since to what the shelf asks for, or as long as lamps may burn."""
    if told is None:
        return False
    wanted = LONGEST_HOURS if light.hours_needed is None else min(light.hours_needed, LONGEST_HOURS)
    return told.hours >= wanted - 0.05


def _more_light(walk: Walk, light: ShelfLight) -> Job:
    hours = LONGEST_HOURS if light.hours_needed is None else min(light.hours_needed, LONGEST_HOURS)
    hours = min(24.0, round(hours + 0.04, 1))
    return Job(
        SHELF,
        tr("Lamps over {place}: {hours:g} hours a day", place=light.place, hours=hours),
        light.words.rstrip("."),
        key=f"lamps {folded(light.place)}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Set", sense="a job is done"),
        page="sow",
        ask=Ask(tr("hours a day"), hours, 0, 24, "h", 1),
        why=light.why,
        doing=lambda value: set_lamps(light.place, walk.today, value),
    )


def _first_light(walk: Walk, known: set[str]) -> Iterator[Job]:
    """Yield a job for each place where seedlings are up and nothing was ever said of lamps."""
    places: dict[str, list[Holder]] = defaultdict(list)
    for made in walk.season.holders("tray"):
        named = made.place.strip() and folded(made.place) not in known
        if named and walk.season.counts(made.key).living:
            places[made.place].append(made)
    for place, trays in places.items():
        asked = _light_hours(walk.season, trays)
        if asked is not None:
            yield _first_light_job(walk, place, names_of([made.name for made in trays]), asked)


def _light_hours(season: Season, trays: list[Holder]) -> Cited[Span] | None:
    """Return the hours of light that the first kind of seedling in some trays asks for."""
    spots = (spot for made in trays for spot in season.spots(made.key) if spot.up > 0)
    crops = (crop for spot in spots if (crop := crop_at(season, spot)) is not None)
    return next((crop.light_hours for crop in crops if crop.light_hours is not None), None)


def _first_light_job(walk: Walk, place: str, names: str, asked: Cited[Span]) -> Job:
    hours = asked.value.high
    why = Why(
        tr("{hours:g} hours of light over {place}", hours=hours, place=place),
        tr("Seedlings need light from the day they are up; nothing was said of lamps over this place yet."),
        ((tr("trays with seedlings"), names),),
        (cite(asked),),
    )
    return Job(
        SHELF,
        tr("Lamps on over {place}", place=place),
        tr("seedlings are up in {names}; {hours:g} hours a day", names=names, hours=hours),
        key=f"lamps {folded(place)}",
        button=tr("Set", sense="a job is done"),
        ask=Ask(tr("hours a day"), hours, 0, 24, "h", 1),
        why=why,
        doing=lambda value: set_lamps(place, walk.today, value),
    )


def _look_job(walk: Walk, where: str, found: list[tuple[Holder, date | None]]) -> Job:
    holders = [made.key for made, _ in found]
    names = names_of([made.name for made, _ in found])
    plants = sum(walk.season.counts(key).living for key in holders)
    dues = [on for _, on in found if on is not None]
    last = min((day for key in holders if (day := _last_look(walk.season, key, walk.today))), default=None)
    when = (
        tr("last looked over {day}", day=day_words(last)) if last is not None else tr("not looked over yet")
    )
    pests = _pests(walk, found)
    reason = tr("{plants}, {when}; undersides, young leaves", plants=many(plants, "plant"), when=when)
    if pests:
        reason = tr("{look}; look for {pests}", look=reason, pests=pests)
    why = Why(
        trn("Look over {n:,} plant", "Look over {n:,} plants", plants),
        tr(
            "Every plant once a week; every {days} days in the plot, and where "
            "something was found within a fortnight. Undersides and young leaves first.",
            days=LOOK_OFTENER_DAYS,
        ),
        ((tr("holders"), names), (tr("plants"), str(plants)), (tr("before", sense="the last look"), when)),
        (WEEKLY, tr("Twice a week: common practice, no source.")),
    )
    return Job(
        where,
        tr("Look over {names}", names=names),
        reason,
        key=f"look over {WHERE_KEYS[where]}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Looked", sense="a job is done"),
        page="setout" if where == PLOT else "grow",
        care=(holders[0], "look"),
        due=min(dues, default=None),
        why=why,
        doing=lambda _value: look_over(walk.season, holders, walk.today),
    )


def _pests(walk: Walk, found: list[tuple[Holder, date | None]]) -> str:
    """Return what the guide tells to look for on the first plants of a kind."""
    for made, _ in found:
        for spot in walk.season.spots(made.key):
            crop = crop_at(walk.season, spot) if spot.up > 0 else None
            if crop is not None and crop.pests:
                return ", ".join(cited.value for cited in crop.pests[:2])
    return ""


def _last_look(season: Season, holder: str, today: date) -> date | None:
    """Return the latest day a holder was looked over as a whole, or something was found on it."""
    return season.memo(f"last looks by {today}", LOOKS, lambda: _last_looks(season, today)).get(holder)


def _last_looks(season: Season, today: date) -> dict[str, date]:
    told = [(fact.holder, fact.day) for fact in season.facts(LookedOver) if fact.row is None]
    told += [(fact.holder, fact.day) for fact in season.facts(Finding)]
    found: dict[str, date] = {}
    for holder, day in told:
        if day <= today:
            found[holder] = max(day, found.get(holder, day))
    return found


def _every(walk: Walk, made: Holder) -> int:
    return LOOK_OFTENER_DAYS if made.form == "bed" or made.key in _found_lately(walk) else LOOK_EVERY_DAYS


def _found_lately(walk: Walk) -> frozenset[str]:
    """Return the holders on which something was found within a fortnight."""
    season, since = walk.season, walk.today - FOUND_STAYS

    def found() -> frozenset[str]:
        return frozenset(fact.holder for fact in season.facts(Finding) if fact.day >= since)

    return season.memo(f"found since {since}", LOOKS, found)


def _first_up(season: Season, holder: str) -> date | None:
    """Return the day the oldest of what lives in a holder came up."""
    days = (spot.first_up for spot in season.spots(holder) if spot.up > 0)
    return min((day for day in days if day is not None), default=None)


def _old_enough(walk: Walk, made: Holder) -> bool:
    """Whether plants have stood there for a week: what is just up is looked at every day anyway."""
    first = walk.season.holder_memo(made.key, "first up", lambda: _first_up(walk.season, made.key))
    return first is not None and (walk.today - first).days >= LOOK_EVERY_DAYS
