"""One registry of examples: facts of every kind, plain and unusual, with ids that never change.

A kind without examples fails the tests, so undo, restart and the samples cannot forget a new one.
"""

from datetime import date, datetime

from greenroom.ledger.facts import (
    KINDS,
    CoolNight,
    CountingSet,
    Fact,
    Forecast,
    FrostDatesGiven,
    GerminationCount,
    GerminationTest,
    HardeningStarted,
    Held,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    HourAhead,
    LampMeasured,
    LeafStage,
    Lost,
    Moved,
    Note,
    OnlineChoice,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Packet,
    PlaceSet,
    PlanRules,
    RampSet,
    SetbackSeen,
    SkySeen,
    SowingPlanned,
    Sown,
    Sprouted,
    UnitsSet,
    Variety,
    Wanted,
    Watered,
    WeatherDay,
    WeatherRecord,
    YardSun,
)
from tests.ledger.examples_care import CARE_EXAMPLES, DAY, NOON, SUMMER_TIME, UNUSUAL, spot

EXAMPLES: dict[str, tuple[Fact, ...]] = {
    "variety": (
        Variety(id="variety-1", day=DAY, variety="v1", name="Aji Limo", crop="pepper", days_to_ripe=95),
        Variety(id="variety-2", day=DAY, variety="v2", name=UNUSUAL),
    ),
    "packet": (
        Packet(id="packet-1", day=DAY, packet="p1", variety="v1"),
        Packet(
            id="packet-2",
            day=DAY,
            packet="p2",
            variety="v2",
            lot=UNUSUAL,
            packed=2023,
            seeds=0,
            germination=0.1 + 0.2,
        ),
    ),
    "holder_made": (
        HolderMade(
            id="holder_made-1",
            day=DAY,
            holder="tray-a",
            name="Tray A",
            form="tray",
            rows=6,
            columns=12,
            cell_ml=40,
        ),
        HolderMade(
            id="holder_made-2",
            day=DAY,
            holder="rack-b",
            name="Rack B",
            form="rack",
            rows=3,
            columns=5,
            size="9 cm",
        ),
        HolderMade(
            id="holder_made-3", day=DAY, holder="bed-1", name="South bed", form="bed", rows=2, columns=7
        ),
    ),
    "holder_placed": (
        HolderPlaced(id="holder_placed-1", day=DAY, holder="tray-a", place="heat mat, top shelf", mix_c=27.5),
        HolderPlaced(id="holder_placed-2", day=DAY, holder="rack-b"),
    ),
    "holder_retired": (HolderRetired(id="holder_retired-1", day=date(2025, 6, 1), holder="tray-a"),),
    "sown": (
        Sown(id="sown-1", day=DAY, **spot(), packet="p1"),
        Sown(id="sown-2", day=date(2024, 2, 29), **spot(row=99, column=99), packet="p2", seeds=50),
    ),
    "sprouted": (
        Sprouted(id="sprouted-1", day=date(2025, 3, 6), **spot()),
        Sprouted(id="sprouted-2", day=date(2025, 3, 7), **spot(), count=2),
    ),
    "leaf_stage": (LeafStage(id="leaf_stage-1", day=date(2025, 3, 20), **spot(), leaves=0),),
    "lost": (
        Lost(id="lost-1", day=date(2025, 3, 21), **spot(), cause="damping-off"),
        Lost(id="lost-2", day=date(2025, 3, 21), **spot(column=1), cause="", count=3),
    ),
    "moved": (
        Moved(id="moved-1", day=date(2025, 3, 25), **spot(), to_holder="rack-b", to_row=2, to_column=4),
    ),
    "hardening_started": (
        HardeningStarted(id="hardening_started-1", day=date(2025, 4, 20), holder="rack-b"),
        HardeningStarted(
            id="hardening_started-2",
            day=date(2025, 4, 21),
            holder="rack-b",
            start_minutes=15,
            full_minutes=480,
            outings=14,
        ),
    ),
    "outing_started": (
        OutingStarted(
            id="outing_started-1", day=date(2025, 4, 20), outing="o1", holder="rack-b", at=NOON, light="shade"
        ),
        OutingStarted(
            id="outing_started-2",
            day=date(2025, 4, 21),
            outing="o2",
            holder="rack-b",
            at=datetime(2025, 4, 21, 1, 30, tzinfo=SUMMER_TIME),
        ),
    ),
    "outing_switched": (
        OutingSwitched(
            id="outing_switched-1", day=date(2025, 4, 20), outing="o1", holder="rack-b", at=NOON, light="sun"
        ),
    ),
    "outing_ended": (
        OutingEnded(id="outing_ended-1", day=date(2025, 4, 20), outing="o1", holder="rack-b", at=NOON),
    ),
    "setback_seen": (
        SetbackSeen(id="setback_seen-1", day=date(2025, 4, 22), holder="rack-b", what="scorch", at=NOON),
        SetbackSeen(
            id="setback_seen-2", day=date(2025, 4, 23), holder="rack-b", what="droop", at=NOON, cause="wind"
        ),
    ),
    "held": (
        Held(id="held-1", day=date(2025, 4, 23), holder="rack-b", why="gusts"),
        Held(id="held-2", day=date(2025, 4, 24), holder="rack-b"),
    ),
    "note": (
        Note(id="note-1", day=date(2025, 4, 24), holder="rack-b", text=UNUSUAL),
        Note(id="note-2", day=date(2025, 4, 24), **spot(), text="x" * 10_000),
    ),
    "place_set": (
        PlaceSet(
            id="place_set-1", day=DAY, name="Home", latitude=59.91, longitude=-179.999, zone="Europe/Oslo"
        ),
    ),
    "units_set": (
        UnitsSet(id="units_set-1", day=DAY),
        UnitsSet(id="units_set-2", day=DAY, temperature="f", volume="floz"),
    ),
    "weather_record": (
        WeatherRecord(
            id="weather_record-1",
            day=DAY,
            source="an exported file",
            station="hill",
            days=(
                WeatherDay(date(1985, 12, 31), -18.4, None),
                WeatherDay(date(1986, 1, 1), None, 1.1, 0.0, 12.3),
            ),
        ),
        WeatherRecord(id="weather_record-2", day=DAY, source="another", days=(WeatherDay(DAY, None, None),)),
    ),
    "germination_test": (
        GerminationTest(id="germination_test-1", day=DAY, test="t1", packet="p2", seeds=40),
        GerminationTest(id="germination_test-2", day=DAY, test="t2", packet="p2", seeds=1000, warmth_c=28.5),
    ),
    "germination_count": (
        GerminationCount(id="germination_count-1", day=date(2025, 3, 1), test="t1", count=0),
        GerminationCount(id="germination_count-2", day=date(2025, 3, 4), test="t1", count=31),
    ),
    "wanted": (
        Wanted(id="wanted-1", day=DAY, variety="v1", year=2025, plants=6),
        Wanted(id="wanted-2", day=DAY, variety="v2", year=2026, plants=0),
    ),
    "sowing_planned": (
        SowingPlanned(id="sowing_planned-1", day=DAY, variety="v1", year=2025, on=date(2024, 12, 28)),
    ),
    "forecast": (
        Forecast(
            id="forecast-1",
            day=DAY,
            source=UNUSUAL,
            taken=datetime(2025, 4, 21, 1, 30, tzinfo=SUMMER_TIME),
            days=(
                WeatherDay(date(2025, 4, 21), 4.5, 15),
                WeatherDay(date(2025, 4, 22), None, None, 0.0, 9.75),
            ),
            hours=(
                HourAhead(NOON, 14.2, 0.35, 8.1, 0.0, 612.0),
                HourAhead(datetime(2025, 4, 20, 15, 30, tzinfo=SUMMER_TIME), None, 1),
            ),
        ),
        Forecast(id="forecast-2", day=DAY, source="hours only", taken=NOON, hours=(HourAhead(NOON),)),
        Forecast(id="forecast-3", day=DAY, source="days only", taken=NOON, days=(WeatherDay(DAY, -3, 2),)),
    ),
    "frost_dates_given": (
        FrostDatesGiven(id="frost_dates_given-1", day=DAY, last=date(2025, 5, 12), first=date(2024, 9, 30)),
    ),
    "online_choice": (
        OnlineChoice(id="online_choice-1", day=DAY, allowed=True),
        OnlineChoice(id="online_choice-2", day=DAY, allowed=False),
    ),
    "plan_rules": (
        PlanRules(id="plan_rules-1", day=DAY),
        PlanRules(
            id="plan_rules-2",
            day=DAY,
            odds=0.9,
            confidence=0.8,
            floor_c=8.5,
            run_nights=3,
            killing_c=-1,
            hardening_days=0,
        ),
    ),
    "lamp_measured": (
        LampMeasured(id="lamp_measured-1", day=DAY, place="heat mat, top shelf", ppfd=212.5, hours=14),
        LampMeasured(
            id="lamp_measured-2", day=DAY, place=UNUSUAL, lux=11_000, lamp="cool white fluorescent", hours=0
        ),
    ),
    "ramp_set": (
        RampSet(id="ramp_set-1", day=DAY, crop="pepper"),
        RampSet(
            id="ramp_set-2",
            day=DAY,
            crop="tomato",
            start_minutes=15,
            full_minutes=480,
            outings=9,
            cold_c=7.5,
            gust_ms=9,
            rain_mm=0,
        ),
    ),
    "counting_set": (
        CountingSet(id="counting_set-1", day=DAY, holder="rack-b"),
        CountingSet(id="counting_set-2", day=DAY, holder="rack-b", by="sun"),
    ),
    "sky_seen": (
        SkySeen(id="sky_seen-1", day=date(2025, 4, 20), at=NOON),
        SkySeen(id="sky_seen-2", day=date(2025, 4, 20), at=NOON, cloud=0.625, cloth=0.3, holder="rack-b"),
    ),
    "yard_sun": (YardSun(id="yard_sun-1", day=DAY, first=9 * 60 + 40, last=24 * 60),),
    "cool_night": (CoolNight(id="cool_night-1", day=date(2025, 4, 28), holder="rack-b", low_c=8.25),),
    "watered": (
        Watered(id="watered-1", day=DAY, holder="tray-a"),
        Watered(id="watered-2", day=DAY, holder="tray-a", how="above", weight_g=2_340),
        Watered(id="watered-3", day=date(2025, 4, 20), holder="rack-b", at=NOON),
    ),
    **CARE_EXAMPLES,
}


def all_examples() -> list[Fact]:
    """Return every example, kind by kind, in the order of the kinds."""
    return [fact for kind in KINDS for fact in EXAMPLES[kind]]
