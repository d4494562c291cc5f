"""Cells of seed lists: read the way growers write them, refused where they could mean two things."""

import unicodedata
from contextlib import suppress
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.seed_values import (
    UnfitCellError,
    UnfitError,
    read_count,
    read_days,
    read_germinations,
    read_text,
    read_year,
)
from greenroom.ledger.facts import Packet, Variety

DAY = date(2024, 1, 1)
PACKET_READERS = {
    "packed": read_year,
    "seeds": read_count,
    "germination": lambda text: read_germinations([text])[0],
}


@pytest.mark.parametrize(
    ("text", "year"),
    [
        ("2023", 2023),
        (" 2023 ", 2023),
        ("2023.0", 2023),
        ("2023-11", 2023),
        ("11/2023", 2023),
        ("2023-11-30", 2023),
        ("30.11.2023", 2023),
        ("11/30/2023", 2023),
        ("31.12.2023", 2023),
        ("1/1/2023", 2023),
        ("12/2023", 2023),
        ("1900", 1900),
        ("2200", 2200),
        ("", None),
        ("-", None),
        ("unbekannt", None),
    ],
)
def test_a_year_is_found_in_the_usual_dates(text, year):
    assert read_year(text) == year


@pytest.mark.parametrize(
    "text",
    [
        "23",
        "'23",
        "2023/24",
        "20233",
        "1899",
        "2201",
        "13/2023/40",
        "0/2023",
        "32.1.2023",
        "13.13.2023",
        "2023-13",
        "last",
    ],
)
def test_what_is_no_year_is_refused_with_what_is_allowed(text):
    with pytest.raises(UnfitError, match="a year such as 2023"):
        read_year(text)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("25", 25),
        ("0", 0),
        ("25.0", 25),
        ("25 seeds", 25),
        ("ca. 25", 25),
        ("~25", 25),
        ("25+", 25),
        ("1,000", 1000),
        ("1.000", 1000),
        ("1 000", 1000),
        ("1'000", 1000),
        ("1\u202f000", 1000),
        ("10 Korn", 10),
        ("20 graines", 20),
        ("30 semillas", 30),
        ("1,000,000", 1_000_000),
        ("", None),
        ("n/a", None),
    ],
)
def test_a_number_of_seeds_is_read_however_it_is_grouped(text, count):
    assert read_count(text) == count


@pytest.mark.parametrize(
    "text", ["0.5 g", "25.5", "-5", "1,0000", "20-25", "1,000,001", "many", "2 packets", "٣"]
)
def test_what_is_no_number_of_seeds_is_refused(text):
    with pytest.raises(UnfitError, match="a whole number of seeds, 0 to 1,000,000"):
        read_count(text)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("80", 80),
        ("80 days", 80),
        ("80d", 80),
        ("80.0", 80),
        ("75 Tage", 75),
        ("90 jours", 90),
        ("90 días", 90),
        ("70-80", 75),
        ("70 – 81 days", 76),
        ("70 bis 80 Tage", 75),
        ("20", 20),
        ("400", 400),
        ("?", None),
    ],
)
def test_days_to_ripe_are_read_and_a_range_counts_as_its_middle(text, days):
    assert read_days(text) == days


@pytest.mark.parametrize("text", ["19", "401", "80-70", "80.5", "10-80", "early", "-80", "3 months"])
def test_days_that_cannot_be_are_refused(text):
    with pytest.raises(UnfitError, match="20 to 400"):
        read_days(text)


@pytest.mark.parametrize(
    ("texts", "shares"),
    [
        (["85", "90", ""], [0.85, 0.9, None]),
        (["85 %", "90%", "-"], [0.85, 0.9, None]),
        (["0.85", "1", "0"], [0.85, 1.0, 0.0]),
        (["0,85", ",9"], [0.85, 0.9]),
        (["85,5 %", "100"], [0.855, 1.0]),
        (["85", "1", "0"], [0.85, 0.01, 0.0]),
        (["0.5 %", "85"], [0.005, 0.85]),
        (["85 percent"], [0.85]),
        (["1"], [1.0]),
        (["", "?"], [None, None]),
        ([], []),
    ],
)
def test_one_rule_tells_percentages_from_shares_for_a_whole_column(texts, shares):
    assert read_germinations(texts) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("texts", "place"),
    [
        (["85", "0.85"], 1),
        (["0.85", "85 %"], 0),
        (["85", "101"], 1),
        (["85", "85-90"], 1),
        (["good"], 0),
        (["85", "-1"], 1),
        (["1e1"], 0),
    ],
)
def test_a_germination_that_could_be_either_is_refused_with_its_place(texts, place):
    with pytest.raises(UnfitCellError) as caught:
        read_germinations(texts)
    assert caught.value.place == place


def test_equal_names_are_equal_however_they_are_typed():
    assert read_text("  Ají   amarillo ") == read_text(unicodedata.normalize("NFD", "Ají amarillo"))


@given(st.text(max_size=12) | st.from_regex(r"[0-9.,/ %-]{0,12}", fullmatch=True))
def test_whatever_is_read_can_be_put_in_the_ledger(text):
    """The ledger checks its facts; nothing that a reader lets through may fail there."""
    for field, read in PACKET_READERS.items():
        with suppress(UnfitError):
            Packet(day=DAY, packet="p", variety="v", **{field: read(text)}).check()
    with suppress(UnfitError):
        Variety(day=DAY, variety="v", name="n", days_to_ripe=read_days(text)).check()
