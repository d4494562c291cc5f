"""Cool nights indoors before hardening: planned once or twice a week, and written down when given."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.ledger.facts import CoolNight
from greenroom.season.crops import PEPPER, crop_of
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.place import Place
from greenroom.season.ramp_rules import crops_in
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import many, tr

AIM_C = (16.0, 18.0)
"""The night aimed at: the middle and the top of what FAO gives as the best nights of peppers, 15 to 18 °C."""
COLDEST_C = 12.0
"""The coldest night of the trial that paid; colder ones were not tried and are no conditioning."""
FROM_LEAVES = 3
A_WEEK = timedelta(days=7)
MOST_A_WEEK = 3
ONE_DAY = timedelta(days=1)

SOURCES = (
    tr(
        "Deli, J. and Tiessen, H. 1969 (authors and year from memory; abstract read): "
        "'California Wonder' kept at nights of 12 °C rather than 18 °C for 25 days from the "
        "third leaf on made more flowers and branches and opened the first flower later."
    ),
    tr(
        "Food and Agriculture Organization of the United Nations, crop information on "
        "pepper: nights of 15 to 18 °C."
    ),
    tr("Javanmardi and others 2013: more than three days at 5 °C delay the first flower and cut the set."),
)


@dataclass(frozen=True, slots=True)
class CoolPlan:
    """Cool nights of one holder: ``given`` are written down, ``coming`` the evenings proposed.

    ``first`` is the evening from which they are worth it, None while its seedlings are too small;
    ``until`` the last evening before hardening begins, None where that is not known.
    """

    holder: str
    given: tuple[CoolNight, ...]
    coming: tuple[date, ...]
    first: date | None
    until: date | None
    a_week: int

    @property
    def counted(self) -> int:
        """Nights given that were cool and not too cold to count."""
        return sum(COLDEST_C <= night.low_c <= AIM_C[1] for night in self.given)

    @property
    def due(self) -> date | None:
        """The next evening proposed."""
        return self.coming[0] if self.coming else None


def cool_plan(season: Season, holder: str, today: date, *, a_week: int = 2) -> CoolPlan:
    """Return the cool nights of a holder, given and to come over the next three weeks.

    They begin with the third true leaf and end when hardening does that work. They are proposed for
    peppers alone.
    """
    nights = [entry.fact for entry in season.holder_facts(holder) if isinstance(entry.fact, CoolNight)]
    first = season.holder_memo(holder, "third leaf", lambda: _first_evening(season, holder))
    if first is not None and not _peppers(season, holder):
        first = None
    began = hardening_since(season, holder)
    until = None if began is None else began - ONE_DAY
    last = min(today + 3 * A_WEEK, until or date.max)
    rate = min(max(1, a_week), MOST_A_WEEK)
    coming = _evenings(nights, max(first, today), last, rate) if first is not None else ()
    return CoolPlan(holder, tuple(nights), tuple(coming), first, until, rate)


def cool_words(plan: CoolPlan, place: Place) -> str:
    """Return the plan in a sentence."""
    aim = aim_words(place)
    if plan.first is None:
        return tr("Cool nights are for peppers, from the third true leaf on.")
    nights = many(plan.counted, "cool night")
    if plan.due is None:
        return tr("{nights} so far; hardening takes over.", nights=nights)
    return tr("{nights} so far; the next on {day}, {aim}.", nights=nights, day=day_words(plan.due), aim=aim)


def cool_why(plan: CoolPlan, place: Place) -> Why:
    """Return why cool nights, how many, and how cool."""
    inputs = [
        (tr("cool nights given"), str(plan.counted)),
        (tr("aimed at"), aim_words(place)),
        (tr("a week"), many(plan.a_week, "night")),
    ]
    inputs += [
        (tr("night to {day}", day=day_words(night.day)), temperature_words(night.low_c, place))
        for night in plan.given[-5:]
    ]
    coldest = temperature_words(COLDEST_C, place)
    rule = tr(
        "From the third true leaf to the day hardening begins, evenly over the week; days "
        "stay warm. The trial held its nights at {coldest} for 25 nights running, against 18 "
        "°C. Once or twice a week, and no cooler than a room with the heating off, is this "
        "program's own rule: gentler than the trial, and nobody has shown that it is enough. "
        "A night below {coldest} is written down and not counted.",
        coldest=coldest,
    )
    return Why(cool_words(plan, place), rule, tuple(inputs), SOURCES)


def aim_words(place: Place) -> str:
    """Return the night aimed at: 16 to 18 °C."""
    low, high = (temperature_words(celsius, place) for celsius in AIM_C)
    return tr("{low} to {high}", low=low.split()[0], high=high)


def _peppers(season: Season, holder: str) -> bool:
    """Whether peppers stand in it: the trial was of a pepper, and nothing is known of other crops."""
    found = (crop_of(season.guide, crop) for crop in crops_in(season, holder))
    return any(crop is not None and PEPPER in season.guide.lineage(crop.key) for crop in found)


def _first_evening(season: Season, holder: str) -> date | None:
    """Return the evening by which half its seedlings had been seen with three true leaves, or None."""
    living = [spot for spot in season.spots(holder) if spot.up > 0]
    seen = [spot.leaves_on for spot in living if spot.leaves >= FROM_LEAVES]
    days = sorted(day for day in seen if day is not None)
    half = -(-len(living) // 2)
    return days[half - 1] if living and len(days) >= half else None


def _evenings(nights: Sequence[CoolNight], first: date, last: date, a_week: int) -> Iterator[date]:
    """Yield the evenings to come, evenly over the weeks, the first a fair gap after the last given.

    No seven days running hold more than ``a_week``.
    """
    given = sorted(night.day - ONE_DAY for night in nights)
    start = max([first, *(evening + (A_WEEK // a_week) for evening in given)])
    if len(given) >= a_week:
        start = max(start, given[-a_week] + A_WEEK)
    number = 0
    while (evening := start + timedelta(days=7 * number // a_week)) <= last:
        yield evening
        number += 1
