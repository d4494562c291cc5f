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
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import figure, tr, trn

BY_WEIGHT = tr(
    "Dumroese, R. K., Montville, M. E. and Pinto, J. R. 2015. Native Plants Journal "
    "16:67-74; watering by weight."
)
DRIER_IS_SLOWER = tr(
    "Zhu and others 2024. Frontiers in Plant Science 15:1436209: pepper seedlings kept "
    "at 65 to 75 % of what the mix holds for up to six days came on faster; at 45 to 55 "
    "% they were set back (abstract)."
)
EARLY_SIGN = tr(
    "Iowa State University Extension: leaves go dull and grey-green before they wilt; "
    "wilting may also come of too much water."
)
FAO = tr(
    "Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. 1998. Crop evapotranspiration. "
    "FAO Irrigation and Drainage Paper 56: equations 52 (Hargreaves), 58, 66, 82 to 85; "
    "tables 11, 12, 19 and 22."
)
NO_HOUR = tr("A weight was told by its day alone, so a day is told and no hour.")
AN_HOUR = tr("Each weight carries its hour, so an hour is told: nights dry slower than days, so about.")
TAKEN = tr(
    "Each day the plant takes reference evapotranspiration times its crop coefficient times the ground it "
    "takes its sun from."
)
BED_RULE = tr(
    "In a bed that is its share of the bed. The soil is taken for loam that gives {millimetres:.0f} mm in "
    "each metre of rooted depth; water is wanted when the part that is taken with ease is gone. Rain counts. "
    "Sand holds half as much, so feel it.",
    millimetres=SOIL_HOLDS_MM_M,
)
GUESS = tr(
    "Reference evapotranspiration is reckoned from the day's lowest and highest temperature alone; wind and "
    "dry air make it more, damp air less, and the coefficient is taken as tabled. Days past the forecast are "
    "taken as the days before."
)
PACE_BEFORE = tr(
    "Since it was last watered it was weighed less than twice, so the pace of its last drying is taken."
)
HALF_HOUR_S = 1800
FELT_DRY = {"finger": tr("dry, by finger"), "lift": tr("dry, by lift")}
MIX_SOURCE = tr(
    "Water that a nursery mix gives plants, 25 to 35 % of its volume: growers' guides, from memory."
)


def by_feel(made: Holder, felt: MixFelt) -> Why:
    """Return why a mix that was felt dry wants water."""
    return Why(
        tr("Water {tray}", sense="to water", tray=made.name),
        tr("The mix was felt and found dry. A feel of the mix goes before any reckoning."),
        ((tr("felt"), FELT_DRY[felt.test]), (tr("on", sense="a day"), day_words(felt.day))),
        (CUSTOM, EARLY_SIGN),
    )


def hour_words(at: datetime, place: Place) -> str:
    """Return a moment as near as a drying can tell it: to the half hour, "about 11:30"."""
    half_hours = round(at.timestamp() / HALF_HOUR_S)
    moment = datetime.fromtimestamp(half_hours * HALF_HOUR_S, UTC)
    return tr("about {time}", time=time_words(moment, place))


def when_dry(drying: DryDown, place: Place) -> str:
    """Return when half the water is gone: "4 June", or "about 11:30 on 4 June" where hours are known."""
    day = day_words(drying.on)
    return day if drying.at is None else tr("{hour} on {day}", hour=hour_words(drying.at, place), day=day)


def by_weight(made: Holder, drying: DryDown, place: Place) -> Why:
    """Return how a weighed holder's day was found."""
    told = tuple(
        (
            _weight_day(one, place),
            tr("{grams:,.0f} g, {percent:.0f} % held", grams=one.grams, percent=one.share * 100),
        )
        for one in drying.weighings[-4:]
    )
    return Why(
        _weight_figure(made, drying, place),
        _weight_rule(drying),
        (
            (tr("soaked and drained"), tr("{grams:,.0f} g", grams=drying.wet_g)),
            (tr("dry", sense="a weight"), tr("{grams:,.0f} g", grams=drying.dry_g)),
            *told,
            (tr("the water is halved in"), tr("{days:.1f} days", days=drying.halving_days)),
        ),
        (BY_WEIGHT, DRIER_IS_SLOWER, EARLY_SIGN, tr("The curve: common practice, no source.")),
    )


def _weight_figure(made: Holder, drying: DryDown, place: Place) -> str:
    day = day_words(drying.on)
    if drying.at is None:
        return tr("Water {tray} on {day}", tray=made.name, day=day)
    hour = hour_words(drying.at, place)
    return tr("Water {tray} on {day}, {hour}", tray=made.name, day=day, hour=hour)


def _weight_rule(drying: DryDown) -> str:
    rule = tr(
        "The water it holds for its plants, soaked less dry, falls by the same part each day: the drier the "
        "mix, the slower it gives water up. It wants water when half of that is gone."
    )
    hour = NO_HOUR if drying.at is None else AN_HOUR
    return f"{PACE_BEFORE} {rule} {hour}" if drying.before else f"{rule} {hour}"


def _weight_day(one: Weighing, place: Place) -> str:
    return day_words(one.day) if one.at is None else f"{day_words(one.day)}, {time_words(one.at, place)}"


def by_rhythm(made: Holder, days: Sequence[date], usual: int) -> Why:
    """Return why a holder that is not weighed wants water."""
    return Why(
        trn("Water {tray} every {n:,} day", "Water {tray} every {n:,} days", usual, tray=made.name),
        tr(
            "The middle of the intervals between its latest waterings: its own rhythm, for want "
            "of weighings. Weigh it soaked, dry and as it is, and the round goes by its weight."
        ),
        ((tr("waterings told"), str(len(days))), (tr("the latest"), day_words(days[-1]))),
        (CUSTOM,),
    )


def by_air(made: Holder, outside: OutsideWater, today: date) -> Why:
    """Return how the day of a bed or of pots outdoors was found."""
    figure = (
        tr("Water {tray}", sense="to water", tray=made.name)
        if outside.on is None
        else tr("Water {tray} on {day}", tray=made.name, day=day_words(outside.on))
    )
    return Why(figure, _air_rule(outside), _air_inputs(outside, today), _air_sources(outside))


def loss_why(made: Holder, outside: OutsideWater, today: date) -> Why:
    """Return how the litres lost today were found."""
    figure = tr("{litres:.2g} L a day, {bed}", litres=outside.today_l, bed=made.name)
    return Why(figure, _air_rule(outside), _air_inputs(outside, today), _air_sources(outside))


def _air_rule(outside: OutsideWater) -> str:
    if outside.pot_litres is None:
        return f"{TAKEN} {BED_RULE} {GUESS}"
    pot = tr(
        "For a pot that is its rim at first and the crown of the plant once grown. The mix gives "
        "{percent:.0f} % of its volume as far as roots reach: half of the pot when set out, all of it once "
        "grown. Water is wanted when half of that is gone. Rain counts where it falls on the pot.",
        percent=MIX_HOLDS * 100,
    )
    return f"{TAKEN} {pot} {GUESS}"


def _air_inputs(outside: OutsideWater, today: date) -> tuple[tuple[str, str], ...]:
    crop = outside.crop
    days = tuple(
        (
            day_words(one.day) if one.told else tr("{day}, as the days before", day=day_words(one.day)),
            tr(
                "{taken:.1f} mm × {kc:.2f}: {used:.2f} L, rain {rain:.2f} L, short {short:.2f} L",
                taken=one.et0_mm,
                kc=one.kc,
                used=one.used_l,
                rain=one.rain_l,
                short=one.short_l,
            ),
        )
        for one in outside.days
        if outside.on is None or one.day <= max(outside.on, today)
    )
    return (
        (
            tr("crop in the table"),
            tr(
                "{crop}, Kc {first:.2f}, {middle:.2f}, {last:.2f}",
                crop=crop.name,
                first=crop.kc[0],
                middle=crop.kc[1],
                last=crop.kc[2],
            ),
        ),
        (tr("set out", sense="on a day"), day_words(outside.set_out)),
        (tr("plants"), str(outside.plants)),
        (tr("pot") if outside.pot_litres is not None else tr("soil"), _ground_words(outside)),
        (tr("takes its sun from"), f"{figure(outside.area_m2, '.2f')} m²"),
        (
            tr("today"),
            tr(
                "{taken:.1f} mm × Kc {kc:.2f} = {litres:.2g} L",
                taken=outside.today_et0_mm,
                kc=outside.today_kc,
                litres=outside.today_l,
            ),
        ),
        (
            tr("may be used before water is wanted"),
            tr("{used:.2g} L of {held:.2g} L", used=outside.trigger_l, held=outside.holds_l),
        ),
        (tr("last watered"), tr("not told") if outside.since is None else day_words(outside.since)),
        *days[-10:],
    )


def _ground_words(outside: OutsideWater) -> str:
    return f"{figure(outside.pot_litres, 'g')} L" if outside.pot_litres is not None else tr("taken for loam")


def _air_sources(outside: OutsideWater) -> tuple[str, ...]:
    return (FAO, MIX_SOURCE) if outside.pot_litres is not None else (FAO,)
