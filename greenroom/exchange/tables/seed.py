"""The seed box as tables: packets, varieties, germination tests."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import accumulate

from greenroom.exchange.tables.parts import percent, rounded
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.coming_up import coming_up
from greenroom.season.crops import crop_of
from greenroom.season.germination import germination
from greenroom.season.home_tests import home_tests
from greenroom.season.packets import PacketView, packets, packets_of, varieties, variety_name
from greenroom.season.state import Season
from greenroom.speech import tr

PACKETS = (
    Column("variety", "Variety"),
    Column("crop", "Crop"),
    Column("lot", "Lot"),
    Column("packed", "Year packed", Kind.WHOLE),
    Column("seeds", "Seeds", Kind.WHOLE),
    Column("germination", "Germination", Kind.NUMBER, "%"),
    Column("days_to_ripe", "Days to ripe", Kind.WHOLE),
    Column("used", "Sown so far", Kind.WHOLE, "seeds"),
    Column("left", "Left in the packet", Kind.WHOLE, "seeds"),
    Column("expected", "Expected up", Kind.NUMBER, "%"),
    Column("expected_low", "Expected up, low", Kind.NUMBER, "%"),
    Column("expected_high", "Expected up, high", Kind.NUMBER, "%"),
    Column("half_up", "Half up after", Kind.NUMBER, "days"),
    Column("mix", "Warmth of the mix", Kind.NUMBER, "°C"),
)
VARIETIES = (
    Column("variety", "Variety"),
    Column("crop", "Crop"),
    Column("days_to_ripe", "Days to ripe", Kind.WHOLE),
    Column("packets", "Packets", Kind.WHOLE),
)
TESTS = (
    Column("variety", "Variety"),
    Column("lot", "Lot"),
    Column("begun", "Begun", Kind.DATE),
    Column("seeds", "Seeds set", Kind.WHOLE),
    Column("warmth", "Warmth", Kind.NUMBER, "°C"),
    Column("counted", "Counted", Kind.DATE),
    Column("day", "Day of the test", Kind.WHOLE),
    Column("new", "Newly germinated", Kind.WHOLE),
    Column("so_far", "Germinated so far", Kind.WHOLE),
    Column("share", "Germinated so far", Kind.NUMBER, "%"),
    Column("over", "Test over", Kind.YES_NO),
)


def packet_table(season: Season, today: date) -> Table:
    """Return the packets as they stand; a seed list can be brought in from it again."""
    return Table.of(tr("Packets"), PACKETS, (_packet(season, view, today) for view in packets(season)))


def variety_table(season: Season) -> Table:
    """Return the varieties, by name."""
    known = sorted(varieties(season).values(), key=lambda one: one.name.casefold())
    rows = (
        (one.name, crop_name(season, one.crop), one.days_to_ripe, len(packets_of(season, one.variety)))
        for one in known
    )
    return Table.of(tr("Varieties"), VARIETIES, rows)


def home_test_table(season: Season) -> Table:
    """Return the germination tests made at home, a row a count, and one for a test not yet counted."""
    return Table.of(tr("Germination tests"), TESTS, _counts(season))


def crop_name(season: Season, crop: str | None) -> str:
    """Return what a crop is called; nothing where none was given."""
    found = crop_of(season.guide, crop) if crop is not None else None
    return found.name if found is not None else crop or ""


def _packet(season: Season, view: PacketView, today: date) -> tuple[Cell, ...]:
    fact, share, pace = view.packet, germination(season, view.key, today), coming_up(season, view.key, today)
    return (
        view.name,
        crop_name(season, view.crop),
        fact.lot,
        fact.packed,
        fact.seeds,
        percent(fact.germination),
        view.days_to_ripe,
        view.used,
        view.left,
        percent(share.share if share else None),
        percent(share.low if share else None),
        percent(share.high if share else None),
        rounded(pace.days if pace else None),
        pace.mix_c if pace else None,
    )


def _counts(season: Season) -> Iterator[tuple[Cell, ...]]:
    lots = {view.key: view.packet.lot for view in packets(season)}
    for test in home_tests(season):
        head = (variety_name(season, test.packet), lots.get(test.packet, ""), test.begun)
        set_so = (test.seeds, test.warmth_c)
        if not test.counts:
            yield (*head, *set_so, None, None, None, 0, 0.0, test.over)
        totals = accumulate(count for _, count in test.counts)
        for (day, new), so_far in zip(test.counts, totals, strict=True):
            share = percent(min(1.0, so_far / test.seeds))
            yield (*head, *set_so, day, (day - test.begun).days, new, so_far, share, test.over)
