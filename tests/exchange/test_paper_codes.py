"""A code opens the story of the seedling its tag was made for, wherever that stands by then."""

from datetime import date

import pytest
import segno

from greenroom.exchange.paper.codes import BadCodeError, Code, read_code
from greenroom.exchange.paper.find import find
from greenroom.exchange.paper.symbol import modules_of
from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder
from greenroom.season.deeds_spots import mark_up, move, sow
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey
from tests.season.told import Told

SOWN = date(2027, 3, 12)
HOLDER = "5e" * 16


@pytest.fixture
def season():
    """A tray with four cells sown and up, and a rack."""
    world = Told()
    world.do(add_packets(world.season, [SeedEntry("Cinder Lantern", None, "26-01", 2026, 40)], SOWN))
    for name, form, rows, columns in (("Tray A", "tray", 6, 12), ("Rack 1", "rack", 3, 6)):
        world.do(make_holder(world.season, name=name, form=form, rows=rows, columns=columns, day=SOWN))
    tray = world.season.holders()[0].key
    cells = [SpotKey(tray, 0, column) for column in range(4)]
    world.do(sow(world.season, packets(world.season)[0].key, cells, SOWN))
    world.do(mark_up(world.season, cells, date(2027, 3, 21)))
    return world


def test_a_code_reads_back_as_it_was_written():
    for code in (Code(HOLDER), Code(HOLDER, 0, 11), Code(HOLDER, 5, 2, SOWN)):
        assert read_code(code.text) == code
        assert read_code(code.text.upper()) == code
    assert Code(HOLDER, 5, 2, SOWN).text == f"greenroom:spot/{HOLDER}/6/3/2027-03-12"


def test_a_scanner_that_types_by_another_keyboards_layout_is_understood():
    """A scanner set to US keys types on a German layout Ö for the colon, - for / and ß for -."""
    assert read_code(f"greenroomÖspot-{HOLDER}-6-3-2027ß03ß12") == Code(HOLDER, 5, 2, SOWN)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "greenroom:",
        "greenroom:spot/x/1",
        "greenroom:spot/x/0/1",
        "greenroom:spot/x/1/1/2027-02-30",
        "https://example.org",
        "greenroom:spot/../../etc/1/1",
        "greenroom:tray/" + "a" * 10_000,
        "greenroom:spot/x/1/1'; drop table",
    ],
)
def test_what_is_no_code_is_told_in_one_sentence(text):
    with pytest.raises(BadCodeError) as refused:
        read_code(text)
    assert len(str(refused.value)) < 200


def test_the_symbol_is_a_qr_code_at_the_level_that_bears_soil_and_rain():
    """Expected: ISO/IEC 18004; level M bears the loss of 15 % (table of error correction levels)."""
    text = Code(HOLDER, 5, 11, SOWN).text
    rows = modules_of(text)
    assert len(rows) == len(rows[0]) == 37  # version 5: 17 + 4 x 5 modules
    assert segno.make_qr(text, error="m").error in "MQH"


def test_a_code_follows_its_seedling_from_cell_to_pot(season):
    tray, rack = season.season.holders()
    tag = Code(tray.key, 0, 1, SOWN).text
    assert find(season.season, tag) == Code(tray.key, 0, 1, SOWN)
    season.do(move(season.season, [SpotKey(tray.key, 0, 1)], SpotKey(rack.key, 2, 4), date(2027, 4, 10)))
    assert find(season.season, tag) == Code(rack.key, 2, 4, SOWN)
    packet = packets(season.season)[0].key
    season.do(sow(season.season, packet, [SpotKey(tray.key, 0, 1)], date(2027, 4, 12)))
    assert find(season.season, tag) == Code(rack.key, 2, 4, SOWN)
    later = Code(tray.key, 0, 1, date(2027, 4, 12))
    assert find(season.season, later.text) == later


@pytest.mark.parametrize(
    ("typed", "row", "column"), [("Tray A B3", 1, 2), ("tray a, f12", 5, 11), ("TRAY A", None, None)]
)
def test_a_place_may_be_typed_as_it_is_written_on_the_shelf(season, typed, row, column):
    found = find(season.season, typed)
    assert (found.holder, found.row, found.column) == (season.season.holders()[0].key, row, column)


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("Tray A G1", "rows A to F and columns 1 to 12"),
        ("Tray A B0", "there is no B0"),
        ("Tray Z B1", "no place"),
        ("  ", "Scan the code"),
        (f"greenroom:tray/{HOLDER}", "not in this ledger"),
    ],
)
def test_a_place_that_is_not_there_is_told_with_what_is(season, typed, told):
    with pytest.raises(BadCodeError, match=told):
        find(season.season, typed)
