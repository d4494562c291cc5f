"""Water of beds and of pots outdoors: what the air takes, what they hold, and the day it runs short.

The daily balance of the root zone is that of Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998)
Crop evapotranspiration, FAO Irrigation and Drainage Paper 56, chapters 6 to 8; numbers of equations and
tables are its own.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import pi

import numpy as np

from greenroom.agronomy.watering import reference_et_hargreaves
from greenroom.ledger.facts import BedLaid, Forecast, PlaceSet, WeatherDay, WeatherRecord
from greenroom.season.crops import PEPPER
from greenroom.season.deeds_plot import BED, bed_laid
from greenroom.season.holders import Holder
from greenroom.season.place import place_of, weather_days
from greenroom.season.plot_plants import USUAL_CROWN_M, crop_at
from greenroom.season.spots import Spot
from greenroom.season.state import Season
from greenroom.season.watering_weights import TRIGGER, waterings_of
from greenroom.speech import tr

AHEAD_DAYS = 14
LATELY_DAYS = 5
"""A day whose weather is not known is taken for the mean of so many known days before it."""
SHALLOWEST_ROOT_M = 0.25
"""Rooted depth when set out: table 22 and equation 8 begin at 0.15 to 0.30 m (from memory)."""
SOIL_HOLDS_MM_M = 130.0
"""Water a metre of loam gives plants [mm]: table 19, the low end of loam (from memory)."""
MIX_HOLDS = 0.25
"""Share of a pot's volume that is water its plants can take: the low end of 25 to 35 %, the usual range of
nursery mixes in best-practice guides of the southern nursery trade (from memory)."""
ROOTED_AT_FIRST = 0.5
"""Share of a pot's mix that the roots reach when set out; all of it once grown: common practice, no
source."""
POT_WIDTH_TO_HEIGHT = 0.85
POT_BASE = 0.70
"""A pot is a cone cut off, as in ``agronomy.containers``: common practice, no source."""
CM = 0.01


@dataclass(frozen=True, slots=True)
class CropWater:
    """What FAO-56 says of a crop: Kc at first, in the middle and at the end (table 12), days of the four
    stages (table 11), the share ``p`` of the soil's water it takes with ease and its root depth (table 22).
    """

    name: str
    kc: tuple[float, float, float]
    stages: tuple[int, int, int, int]
    p: float
    root_m: float

    def kc_on(self, days: float) -> float:
        """Return the crop coefficient so many days after setting out: equation 66, straight between."""
        first, grown, late, end = np.cumsum(self.stages)
        low, middle, last = self.kc
        return float(np.interp(days, [first, grown, late, end], [low, middle, middle, last]))

    def grown_on(self, days: float) -> float:
        """Return how far the crown and the roots have grown, 0 to 1: as the coefficient rises."""
        return float(np.interp(days, np.cumsum(self.stages)[:2], [0.0, 1.0]))


CROPS = {
    PEPPER: CropWater(tr("sweet pepper"), (0.60, 1.05, 0.90), (30, 35, 40, 20), 0.30, 0.5),
    "tomato": CropWater(tr("tomato"), (0.60, 1.15, 0.80), (30, 40, 45, 30), 0.40, 0.7),
    "aubergine": CropWater(tr("egg plant"), (0.60, 1.05, 0.90), (30, 45, 40, 25), 0.45, 0.7),
    "cucumber": CropWater(tr("cucumber"), (0.60, 1.00, 0.75), (20, 30, 40, 15), 0.50, 0.7),
}
"""By the guide's key. Stages of tomato, egg plant and cucumber are from memory."""
OTHERS = CropWater(tr("small vegetables"), (0.70, 1.05, 0.95), (20, 30, 30, 15), 0.30, 0.3)
"""From memory."""


@dataclass(frozen=True, slots=True)
class DayLoss:
    """One day of the balance of one position [L]: used by the plant, rain caught, short at its end.

    ``held_l`` is what the position holds soaked, ``trigger_l`` what may be used of it. ``told`` is False
    where the weather was not known and that of the days before was taken.
    """

    day: date
    et0_mm: float
    kc: float
    used_l: float
    rain_l: float
    short_l: float
    held_l: float
    trigger_l: float
    told: bool


@dataclass(frozen=True, slots=True)
class OutsideWater:
    """The balance of a bed or a group of pots; amounts are of one position [L].

    ``holds_l`` is what it holds for the plant when soaked, ``trigger_l`` what may be used of that before
    it is watered. ``since`` is the watering the balance begins at, None if none was told; then there is no
    balance and no day. ``on`` is the day it runs short, None if not within the days looked at.
    """

    plants: int
    pot_litres: float | None
    area_m2: float
    crop: CropWater
    set_out: date
    since: date | None
    holds_l: float
    trigger_l: float
    today_l: float
    today_et0_mm: float
    today_kc: float
    days: tuple[DayLoss, ...]
    on: date | None


def short_by(outside: OutsideWater, day: date) -> DayLoss | None:
    """Return the day of the balance that ends with a day, or None before its first."""
    return next((one for one in outside.days if one.day == day), None)


def outside_water(season: Season, made: Holder, today: date) -> OutsideWater | None:
    """Return the water of a bed; None for what is no bed, holds no plant, or lies in unknown weather."""
    if made.form != BED:
        return None
    told = [season.numbered(kind) for kind in (WeatherRecord, Forecast, PlaceSet)]
    marks = tuple((len(facts), facts[-1][0] if facts else 0) for facts in told)
    return season.holder_memo(
        made.key, ("outside water", today, marks), lambda: _outside(season, made, today)
    )


def reference_days(
    weather: Mapping[date, WeatherDay], latitude: float, first: date, last: date
) -> dict[date, tuple[float, bool]]:
    """Return reference evapotranspiration day by day [mm], and whether the day's weather was known.

    By Hargreaves, equation 52: it asks for the day's lowest and highest temperature and no more. A day
    that is not known takes the mean of the known days just before it; without any it is left out.
    """
    days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
    told = [weather.get(day) for day in days]
    low = [one.tmin_c for one in told if one is not None and _whole(one)]
    high = [one.tmax_c for one in told if one is not None and _whole(one)]
    known = [day for day, one in zip(days, told, strict=True) if one is not None and _whole(one)]
    found: dict[date, tuple[float, bool]] = {}
    if known:
        numbers = [day.timetuple().tm_yday for day in known]
        et0 = reference_et_hargreaves(np.array(low), np.array(high), latitude, np.array(numbers))
        found = {day: (float(mm), True) for day, mm in zip(known, np.atleast_1d(et0), strict=True)}
    lately: list[float] = []
    for day in days:
        if day in found:
            lately.append(found[day][0])
        elif lately:
            found[day] = (float(np.mean(lately[-LATELY_DAYS:])), False)
    return found


def held_mm(depth_m: float, holds_mm_m: float = SOIL_HOLDS_MM_M) -> float:
    """Return the water a rooted depth of soil gives plants [mm]: equation 82."""
    return holds_mm_m * depth_m


def easy_share(p: float, etc_mm: float) -> float:
    """Return the share of it that is taken with ease: less on hot days, 0.1 to 0.8 (note of table 22)."""
    return min(0.8, max(0.1, p + 0.04 * (5.0 - etc_mm)))


def stress(short: float, held: float, share: float) -> float:
    """Return the factor by which a plant short of water slows down: equation 84, 0 to 1."""
    return min(1.0, max(0.0, (held - short) / ((1.0 - share) * held)))


def rim_m2(litres: float) -> float:
    """Return the open surface of a pot that holds so many litres [m²]."""
    slant = 1.0 + POT_BASE + POT_BASE**2
    width_cm = (litres * 1000.0 * 3.0 / (pi / 4.0 * POT_WIDTH_TO_HEIGHT * slant)) ** (1.0 / 3.0)
    return pi / 4.0 * (width_cm * CM) ** 2


def _outside(season: Season, made: Holder, today: date) -> OutsideWater | None:
    laid, place = bed_laid(season, made.key), place_of(season)
    living = [spot for spot in season.spots(made.key) if spot.up > 0]
    if laid is None or place.latitude is None or not living:
        return None
    set_out = min((day for spot in living if (day := spot.arrived or spot.first_up)), default=made.made_on)
    waterings = waterings_of(season.holder_facts(made.key), today)
    since = waterings[-1][1].day if waterings else None
    first = min(today, since or today) - timedelta(days=LATELY_DAYS)
    et0 = reference_days(weather_days(season), place.latitude, first, today + timedelta(days=AHEAD_DAYS))
    if today not in et0:
        return None
    crop, crown_m = _crop(season, living)
    ground = _Ground(made, laid, crop, crown_m, set_out)
    days = _balance(ground, weather_days(season), et0, since) if since is not None else ()
    et0_mm, _ = et0[today]
    holds, trigger = ground.holds(today, et0_mm)
    return OutsideWater(
        plants=len(living),
        pot_litres=laid.pot_litres,
        area_m2=ground.area_m2(today),
        crop=crop,
        set_out=set_out,
        since=since,
        holds_l=holds,
        trigger_l=trigger,
        today_l=et0_mm * ground.kc(today) * ground.area_m2(today),
        today_et0_mm=et0_mm,
        today_kc=ground.kc(today),
        days=days,
        on=next((one.day for one in days if one.short_l > one.trigger_l), None),
    )


def _whole(day: WeatherDay) -> bool:
    return day.tmin_c is not None and day.tmax_c is not None and day.tmin_c <= day.tmax_c


def _crop(season: Season, living: Sequence[Spot]) -> tuple[CropWater, float]:
    """Return what is known of the water of the first plant that the guide knows, and its grown crown."""
    found = next((crop for spot in living if (crop := crop_at(season, spot)) is not None), None)
    if found is None:
        return OTHERS, USUAL_CROWN_M
    crown = USUAL_CROWN_M if found.spacing_cm is None else found.spacing_cm.value.low * CM
    lineage = season.guide.lineage(found.key)
    return next((CROPS[key] for key in lineage if key in CROPS), OTHERS), crown


def _balance(
    ground: _Ground, weather: Mapping[date, WeatherDay], et0: Mapping[date, tuple[float, bool]], since: date
) -> tuple[DayLoss, ...]:
    """Return the days after a watering: equation 85, what runs off or through being lost."""
    days: list[DayLoss] = []
    short = 0.0
    for day, (et0_mm, told) in sorted(et0.items()):
        if day <= since:
            continue
        kc, area = ground.kc(day), ground.area_m2(day)
        held, trigger = ground.holds(day, et0_mm)
        used = stress(short, held, trigger / held) * kc * et0_mm * area
        known = weather.get(day)
        rain = (known.rain_mm or 0.0) * ground.catches_m2 if known is not None else 0.0
        short = min(held, max(0.0, short - rain) + used)
        days.append(DayLoss(day, et0_mm, kc, used, rain, short, held, trigger, told))
    return tuple(days)


@dataclass(frozen=True, slots=True)
class _Ground:
    """One position of a bed, or one of its pots."""

    made: Holder
    laid: BedLaid
    crop: CropWater
    crown_m: float
    set_out: date

    @property
    def catches_m2(self) -> float:
        """What rain falls on [m²]."""
        pot = self.laid.pot_litres
        return rim_m2(pot) if pot is not None else self.laid.width_m * self.laid.depth_m / self.made.spots

    def kc(self, day: date) -> float:
        return self.crop.kc_on((day - self.set_out).days)

    def area_m2(self, day: date) -> float:
        """Return what the plant takes its sun from: in a bed its ground, over a pot its crown so far."""
        if self.laid.pot_litres is None:
            return self.catches_m2
        rim, crown = self.catches_m2, pi / 4.0 * self.crown_m**2
        return rim + max(0.0, crown - rim) * self.crop.grown_on((day - self.set_out).days)

    def holds(self, day: date, et0_mm: float) -> tuple[float, float]:
        """Return the litres it holds for the plant, and those that may be used before it is watered."""
        grown = self.crop.grown_on((day - self.set_out).days)
        if self.laid.pot_litres is not None:
            rooted = ROOTED_AT_FIRST + (1.0 - ROOTED_AT_FIRST) * grown
            held = self.laid.pot_litres * MIX_HOLDS * rooted
            return held, held * TRIGGER
        root_m = SHALLOWEST_ROOT_M + (self.crop.root_m - SHALLOWEST_ROOT_M) * grown
        held = held_mm(root_m) * self.catches_m2
        return held, held * easy_share(self.crop.p, self.kc(day) * et0_mm)
