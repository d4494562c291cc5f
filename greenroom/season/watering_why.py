"""Why a holder wants water on a day: what went in, the rule, and where the rule comes from."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime

from greenroom.ledger.facts import MixFelt
from greenroom.season.hardening_words import day_words, time_words
from greenroom.season.holders import Holder
from greenroom.season.place import Place
from greenroom.season.watering_outside import MIX_HOLDS, SOIL_HOLDS_MM_M, OutsideWater
from greenroom.season.watering_weights import DryDown, Weighing
from greenroom.season.why import Why
from greenroom.speech import many

CUSTOM = "Common practice, no source."
BY_WEIGHT = (
    "Dumroese, R. K., Montville, M. E. and Pinto, J. R. 2015. Native Plants Journal 16:67-74; "
    "watering by weight."
)
DRIER_IS_SLOWER = (
    "Zhu and others 2024. Frontiers in Plant Science 15:1436209: pepper seedlings kept at 65 to 75 % of what "
    "the mix holds for up to six days came on faster; at 45 to 55 % they were set back (abstract)."
)
EARLY_SIGN = (
    "Iowa State University Extension: leaves go dull and grey-green before they wilt; wilting may also come "
    "of too much water."
)
FAO = (
    "Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. 1998. Crop evapotranspiration. FAO Irrigation and "
    "Drainage Paper 56: equations 52 (Hargreaves), 58, 66, 82 to 85; tables 11, 12, 19 and 22."
)
NO_HOUR = "A weight was told by its day alone, so a day is told and no hour."
AN_HOUR = "Each weight carries its hour, so an hour is told: nights dry slower than days, so about."
HALF_HOUR_S = 1800
MIX_SOURCE = "Water that a nursery mix gives plants, 25 to 35 % of its volume: growers' guides, from memory."


def by_feel(made: Holder, felt: MixFelt) -> Why:
    """Return why a mix that was felt dry wants water."""
    return Why(
        f"Water {made.name}",
        "The mix was felt and found dry. A feel of the mix goes before any reckoning.",
        (("felt", f"{felt.level}, by {felt.test}"), ("on", day_words(felt.day))),
        (CUSTOM, EARLY_SIGN),
    )


def hour_words(at: datetime, place: Place) -> str:
    """Return a moment as near as a drying can tell it: to the half hour, "about 11:30"."""
    half_hours = round(at.timestamp() / HALF_HOUR_S)
    return f"about {time_words(datetime.fromtimestamp(half_hours * HALF_HOUR_S, UTC), place)}"


def when_dry(drying: DryDown, place: Place) -> str:
    """Return when half the water is gone: "4 June", or "about 11:30 on 4 June" where hours are known."""
    day = day_words(drying.on)
    return day if drying.at is None else f"{hour_words(drying.at, place)} on {day}"


def by_weight(made: Holder, drying: DryDown, place: Place) -> Why:
    """Return how a weighed holder's day was found."""
    pace = (
        "Since it was last watered it was weighed less than twice, so the pace of its last drying is taken. "
        if drying.before
        else ""
    )
    told = tuple(
        (_weight_day(one, place), f"{one.grams:,.0f} g, {one.share * 100:.0f} % held")
        for one in drying.weighings[-4:]
    )
    hour = None if drying.at is None else hour_words(drying.at, place)
    return Why(
        f"Water {made.name} on {day_words(drying.on)}{'' if hour is None else f', {hour}'}",
        f"{pace}The water it holds for its plants, soaked less dry, falls by the same part each day: the "
        "drier the mix, the slower it gives water up. It wants water when half of that is gone. "
        f"{NO_HOUR if hour is None else AN_HOUR}",
        (
            ("soaked and drained", f"{drying.wet_g:,.0f} g"),
            ("dry", f"{drying.dry_g:,.0f} g"),
            *told,
            ("the water is halved in", f"{drying.halving_days:.1f} days"),
        ),
        (BY_WEIGHT, DRIER_IS_SLOWER, EARLY_SIGN, f"The curve: {CUSTOM[0].lower()}{CUSTOM[1:]}"),
    )


def _weight_day(one: Weighing, place: Place) -> str:
    return day_words(one.day) if one.at is None else f"{day_words(one.day)}, {time_words(one.at, place)}"


def by_rhythm(made: Holder, days: Sequence[date], usual: int) -> Why:
    """Return why a holder that is not weighed wants water."""
    return Why(
        f"Water {made.name} every {many(usual, 'day')}",
        "The middle of the intervals between its latest waterings: its own rhythm, for want of weighings. "
        "Weigh it soaked, dry and as it is, and the round goes by its weight.",
        (("waterings told", str(len(days))), ("the latest", day_words(days[-1]))),
        (CUSTOM,),
    )


def by_air(made: Holder, outside: OutsideWater, today: date) -> Why:
    """Return how the day of a bed or of pots outdoors was found."""
    figure = f"Water {made.name}" if outside.on is None else f"Water {made.name} on {day_words(outside.on)}"
    return Why(figure, _air_rule(outside), _air_inputs(outside, today), _air_sources(outside))


def loss_why(made: Holder, outside: OutsideWater, today: date) -> Why:
    """Return how the litres lost today were found."""
    figure = f"{outside.today_l:.2g} L a day, {made.name}"
    return Why(figure, _air_rule(outside), _air_inputs(outside, today), _air_sources(outside))


def _air_rule(outside: OutsideWater) -> str:
    taken = (
        "Each day the plant takes reference evapotranspiration times its crop coefficient times the ground "
        "it takes its sun from. "
    )
    guess = (
        "Reference evapotranspiration is reckoned from the day's lowest and highest temperature alone; wind "
        "and dry air make it more, damp air less, and the coefficient is taken as tabled. Days past the "
        "forecast are taken as the days before."
    )
    if outside.pot_litres is not None:
        return (
            f"{taken}For a pot that is its rim at first and the crown of the plant once grown. The mix gives "
            f"{MIX_HOLDS * 100:.0f} % of its volume as far as roots reach: half of the pot when set out, all "
            f"of it once grown. Water is wanted when half of that is gone. Rain counts where it falls on the "
            f"pot. {guess}"
        )
    return (
        f"{taken}In a bed that is its share of the bed. The soil is taken for loam that gives "
        f"{SOIL_HOLDS_MM_M:.0f} mm in each metre of rooted depth; water is wanted when the part that is "
        f"taken with ease is gone. Rain counts. Sand holds half as much, so feel it. {guess}"
    )


def _air_inputs(outside: OutsideWater, today: date) -> tuple[tuple[str, str], ...]:
    crop = outside.crop
    days = tuple(
        (
            f"{day_words(one.day)}{'' if one.told else ', as the days before'}",
            f"{one.et0_mm:.1f} mm × {one.kc:.2f}: {one.used_l:.2f} L, rain {one.rain_l:.2f} L, "
            f"short {one.short_l:.2f} L",
        )
        for one in outside.days
        if outside.on is None or one.day <= max(outside.on, today)
    )
    return (
        ("crop in the table", f"{crop.name}, Kc {crop.kc[0]:.2f}, {crop.kc[1]:.2f}, {crop.kc[2]:.2f}"),
        ("set out", day_words(outside.set_out)),
        ("plants", str(outside.plants)),
        ("pot" if outside.pot_litres is not None else "soil", _ground_words(outside)),
        ("takes its sun from", f"{outside.area_m2:.2f} m²"),
        ("today", f"{outside.today_et0_mm:.1f} mm × Kc {outside.today_kc:.2f} = {outside.today_l:.2g} L"),
        ("may be used before water is wanted", f"{outside.trigger_l:.2g} L of {outside.holds_l:.2g} L"),
        ("last watered", "not told" if outside.since is None else day_words(outside.since)),
        *days[-10:],
    )


def _ground_words(outside: OutsideWater) -> str:
    return f"{outside.pot_litres:g} L" if outside.pot_litres is not None else "taken for loam"


def _air_sources(outside: OutsideWater) -> tuple[str, ...]:
    return (FAO, MIX_SOURCE) if outside.pot_litres is not None else (FAO,)
