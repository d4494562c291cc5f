"""One registry of examples: facts of every kind, plain and unusual, with ids that never change.

A kind without examples fails the tests, so undo, restart and the samples cannot forget a new one.
"""

from datetime import UTC, date, datetime, timedelta, timezone

from greenroom.ledger.facts import (
    KINDS,
    Fact,
    HardeningStarted,
    Held,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    LeafStage,
    Lost,
    Moved,
    Note,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Packet,
    PlaceSet,
    SetbackSeen,
    Sown,
    Sprouted,
    UnitsSet,
    Variety,
    WeatherDay,
    WeatherRecord,
)

DAY = date(2025, 2, 24)
NOON = datetime(2025, 4, 20, 12, 30, 15, 250_001, tzinfo=UTC)
SUMMER_TIME = timezone(timedelta(hours=2))
UNUSUAL = "Ñandú × «7 pots» 🌶\n\t'; -- \\ %s {}"


def _spot(holder: str = "tray-a", row: int = 0, column: int = 0) -> dict:
    return {"holder": holder, "row": row, "column": column}


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
    ),
    "holder_placed": (
        HolderPlaced(id="holder_placed-1", day=DAY, holder="tray-a", place="heat mat, top shelf", mix_c=27.5),
        HolderPlaced(id="holder_placed-2", day=DAY, holder="rack-b"),
    ),
    "holder_retired": (HolderRetired(id="holder_retired-1", day=date(2025, 6, 1), holder="tray-a"),),
    "sown": (
        Sown(id="sown-1", day=DAY, **_spot(), packet="p1"),
        Sown(id="sown-2", day=date(2024, 2, 29), **_spot(row=99, column=99), packet="p2", seeds=50),
    ),
    "sprouted": (
        Sprouted(id="sprouted-1", day=date(2025, 3, 6), **_spot()),
        Sprouted(id="sprouted-2", day=date(2025, 3, 7), **_spot(), count=2),
    ),
    "leaf_stage": (LeafStage(id="leaf_stage-1", day=date(2025, 3, 20), **_spot(), leaves=0),),
    "lost": (
        Lost(id="lost-1", day=date(2025, 3, 21), **_spot(), cause="damping-off"),
        Lost(id="lost-2", day=date(2025, 3, 21), **_spot(column=1), cause="", count=3),
    ),
    "moved": (
        Moved(id="moved-1", day=date(2025, 3, 25), **_spot(), to_holder="rack-b", to_row=2, to_column=4),
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
    ),
    "held": (
        Held(id="held-1", day=date(2025, 4, 23), holder="rack-b", why="gusts"),
        Held(id="held-2", day=date(2025, 4, 24), holder="rack-b"),
    ),
    "note": (
        Note(id="note-1", day=date(2025, 4, 24), holder="rack-b", text=UNUSUAL),
        Note(id="note-2", day=date(2025, 4, 24), **_spot(), text="x" * 10_000),
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
}


def all_examples() -> list[Fact]:
    """Return every example, kind by kind, in the order of the kinds."""
    return [fact for kind in KINDS for fact in EXAMPLES[kind]]
