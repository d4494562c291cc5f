"""The gate between the door and the plot: nights, soil, and whether the plants are hardened."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.agronomy.climate import DailyWeather, date_quantile, first_warm_run
from greenroom.guide import Crop
from greenroom.ledger.facts import Packet, PlaceSet, SoilFelt, Variety, WeatherRecord
from greenroom.season import set_out_why
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening_words import day_words
from greenroom.season.place import daily_weather, place_of, weather_days
from greenroom.season.plot_plants import crop_at
from greenroom.season.set_out_why import Check, Limit, Nights, degrees
from greenroom.season.state import Season
from greenroom.speech import tr, trn

RUN_NIGHTS = 7
LOOK_AHEAD_DAYS = 400
STILL_THIS_SPRING = timedelta(days=120)
USUAL_SHARE, LATE_SHARE = 0.5, 0.9
SOIL_STAYS_DAYS = 7
"""A soil temperature tells of the soil for a week: common practice, no source."""

GROUND = ("tray", "rack")


@dataclass(frozen=True, slots=True)
class Gate:
    """Whether what stands in a holder may be set out: ``checks`` are of nights, soil and hardening."""

    holder: str
    name: str
    plants: int
    checks: tuple[Check, ...]
    today: date

    @property
    def open(self) -> bool:
        """Whether nothing speaks against setting out today; soil that was not measured does not."""
        return self.opens_on == self.today and not any(check.state == "wait" for check in self.checks)

    @property
    def opens_on(self) -> date | None:
        """The first day on which all that is known lets it out, or None where that cannot be told."""
        nights, soil, hardened = self.checks
        needed = [nights.from_day, hardened.from_day]
        if soil.state != "unknown":
            needed.append(soil.from_day)
        known = [day for day in needed if day is not None]
        return max(known) if len(known) == len(needed) else None


def gates(season: Season, stands: Iterable[TwoClocks], today: date, now: datetime) -> list[Gate]:
    """Return the gate of each holder with living plants that is on its ramp or through it."""
    return [
        gate(season, stand.holder, stand, today, now)
        for stand in stands
        if season.holder(stand.holder).form in GROUND and season.counts(stand.holder).living
    ]


def gate(season: Season, holder: str, stand: TwoClocks | None, today: date, now: datetime) -> Gate:
    """Return whether what stands in a holder may be set out, and if not, from when on."""
    crops = crops_in(season, holder)
    floor, soil = highest(crops, "night_floor_c"), highest(crops, "soil_least_c")
    checks = (
        nights_check(season, floor, today),
        soil_check(season, soil, today, now),
        hardened_check(stand, today),
    )
    made = season.holder(holder)
    return Gate(holder, made.name, season.counts(holder).seedlings, checks, today)


def crops_in(season: Season, holder: str) -> list[Crop]:
    """Return the crops of the living plants in a holder, each once."""
    box = season.memo("the seed box as it is", (Packet, Variety), object)
    return list(season.holder_memo(holder, ("crops in", box), lambda: _crops_in(season, holder)))


def nights(season: Season, floor_c: float, today: date) -> Nights:
    """Return what record and forecast say of nights that stay at or above a floor.

    Notes
    -----
    The first day, today or later, from which seven nights running stay at or above the floor: nights
    that a forecast (or the record) tells by what it tells, later ones by the record of the years past,
    as warm from the day on which half of those years had begun their first run of seven.
    """
    usual, late, years = _usual(season, floor_c, today)
    told = {
        day.day: day.tmin_c
        for day in weather_days(season).values()
        if day.day >= today and day.tmin_c is not None
    }
    ahead = (today + timedelta(days=count) for count in range(LOOK_AHEAD_DAYS))
    first = next((day for day in ahead if _warm_run(told, usual, floor_c, day)), None)
    return Nights(floor_c, first, usual, late, years, tuple(sorted(told.items())))


def nights_check(season: Season, limit: Limit | None, today: date) -> Check:
    """Return whether the nights are warm enough for the plant that asks for most."""
    if limit is None:
        return Check(tr("Nights"), "unknown", tr("The guide gives no floor for these plants."), None, today)
    found, place = nights(season, limit.value, today), place_of(season)
    why = set_out_why.nights_why(found, limit, today, place)
    floor = degrees(limit.value, place)
    if found.first is None:
        words = tr("{floor} or more is asked for; not known. Bring in weather at The place.", floor=floor)
        return Check(tr("Nights"), "unknown", words, why, None)
    if found.first == today:
        return Check(tr("Nights"), "open", tr("{floor} or more from now on.", floor=floor), why, today)
    words = tr("{floor} or more from about {day}.", floor=floor, day=day_words(found.first))
    return Check(tr("Nights"), "wait", words, why, found.first)


def soil_check(season: Season, limit: Limit | None, today: date, now: datetime) -> Check:
    """Return whether the soil is warm enough, by the latest temperature measured within a week."""
    place = place_of(season)
    if limit is None:
        return Check(
            tr("Soil"), "unknown", tr("The guide gives no soil temperature for these plants."), None, today
        )
    felt = [
        fact for fact in season.facts(SoilFelt) if fact.at <= now and _age(fact, today) <= SOIL_STAYS_DAYS
    ]
    latest = max(felt, key=lambda fact: fact.at, default=None)
    why = set_out_why.soil_why(latest, limit, place)
    least = degrees(limit.value, place)
    if latest is None:
        return Check(
            tr("Soil"),
            "unknown",
            tr("{least} or more is asked for; not measured this week.", least=least),
            why,
            None,
        )
    here = degrees(latest.celsius, place)
    if latest.celsius >= limit.value:
        return Check(
            tr("Soil"),
            "open",
            tr("{here} on {day}; {least} is enough.", here=here, day=day_words(latest.day), least=least),
            why,
            today,
        )
    words = tr(
        "{here} on {day}; wait for {least} and measure again.",
        here=here,
        day=day_words(latest.day),
        least=least,
    )
    return Check(tr("Soil"), "wait", words, why, None)


def hardened_check(stand: TwoClocks | None, today: date) -> Check:
    """Return whether the plants went through their ramp."""
    if stand is None:
        words = tr("Not hardened; begin on the Harden page.")
        return Check(tr("Hardened"), "wait", words, set_out_why.hardened_why(None, None), None)
    why = set_out_why.hardened_why(stand, stand.ready_on)
    if stand.hardened:
        return Check(tr("Hardened"), "open", tr("The whole ramp is behind them."), why, today)
    outings = stand.sun.ramp.outings
    done = min(stand.sun.step, outings)
    step = trn("{n:,} step of {outings} done", "{n:,} steps of {outings} done", done, outings=outings)
    if stand.ready_on is None:
        return Check(
            tr("Hardened"), "wait", tr("On the ramp, {step}; no end in sight.", step=step), why, None
        )
    return Check(
        tr("Hardened"),
        "wait",
        tr("{step}; through on {day}.", step=step, day=day_words(stand.ready_on)),
        why,
        stand.ready_on,
    )


def set_out_figure(season: Season, stands: Sequence[TwoClocks], today: date, now: datetime) -> str:
    """Return the live figure of setting out: what stands out, or from when on something may."""
    out = sum(season.counts(one.key).living for one in season.holders("bed"))
    known = [one for one in gates(season, stands, today, now) if one.opens_on is not None]
    if any(one.open for one in known):
        ready = sum(one.plants for one in known if one.open)
        return trn("{n:,} plant may go", "{n:,} plants may go", ready)
    days = [one.opens_on for one in known if one.opens_on is not None]
    if days:
        return tr("from {day}", day=day_words(min(days)))
    return trn("{n:,} plant out", "{n:,} plants out", out) if out else tr("none yet", sense="plants")


def _usual(season: Season, floor_c: float, today: date) -> tuple[date | None, date | None, int]:
    """Return by when half and nine in ten of the years past had warm nights, and how many years there are."""
    weather = daily_weather(season)
    if weather is None:
        return None, None, 0
    southern = place_of(season).southern

    def runs() -> list[date]:
        return [day for day in _runs_before(weather, floor_c, southern, today) if day is not None]

    name = f"warm runs of {floor_c} before {today.year}"
    starts = season.memo(name, (WeatherRecord, PlaceSet), runs)
    days = date_quantile(starts, [USUAL_SHARE, LATE_SHARE], southern=southern)
    if days is None:
        return None, None, 0
    usual, late = (_near(int(day), today) for day in days)
    return usual, late, len(starts)


def _runs_before(weather: DailyWeather, floor_c: float, southern: bool, today: date) -> list[date | None]:
    """Return the first warm run of each year past; the year under way is told by its own weather."""
    found = first_warm_run(weather, floor_c, RUN_NIGHTS, southern=southern)
    return [day for year, day in found.items() if year < today.year]


def _near(day_of_year: int, today: date) -> date:
    """Return the day in the year whose spring this is, or the next to come."""
    years = (today.year - 1, today.year, today.year + 1)
    days = [date(year, 1, 1) + timedelta(days=day_of_year - 1) for year in years]
    return next(day for day in days if day >= today - STILL_THIS_SPRING)


def _crops_in(season: Season, holder: str) -> list[Crop]:
    one_of = {spot.packet: spot for spot in season.spots(holder) if spot.up > 0}
    found = (crop_at(season, spot) for spot in one_of.values())
    return list({crop.key: crop for crop in found if crop is not None}.values())


def _warm_run(told: dict[date, float], usual: date | None, floor_c: float, first: date) -> bool:
    run = (first + timedelta(days=count) for count in range(RUN_NIGHTS))
    return all(
        told[night] >= floor_c if night in told else usual is not None and night >= usual for night in run
    )


def highest(crops: Sequence[Crop], value: str) -> Limit | None:
    """Return the greatest of what the crops ask for, with the crop that asks; None where none asks."""
    asked = [(getattr(crop, value), crop) for crop in crops if getattr(crop, value) is not None]
    if not asked:
        return None
    cited, crop = max(asked, key=lambda one: float(one[0].value))
    return Limit(float(cited.value), crop, cited, crop.others(value))


def _age(fact: SoilFelt, today: date) -> int:
    return (today - fact.day).days
