"""Latitude and longitude in the forms people write them, and clocks that fit a longitude."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.desk.place.coordinates import (
    CoordinateError,
    degrees_words,
    read_latitude,
    read_longitude,
    split_pair,
)
from greenroom.desk.place.zones import WORLD, system_zone, zone_doubt, zones

SUMMER = datetime(2027, 7, 1, 12, tzinfo=UTC)
PAIR = (46.4, 16.0)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("46.4", 46.4),
        ("46,4", 46.4),
        ("+46.4", 46.4),
        ("-46.4", -46.4),
        ("−46.4", -46.4),
        ("46°24' N", 46.4),
        ("46°24'N", 46.4),
        ("46° 24′ n", 46.4),
        ("N 46 24", 46.4),
        ("46 24 36 N", 46.41),
        ("46°24'36\"N", 46.41),
        ("46°24′36″ S", -46.41),
        ("46º24.6' S", -46.41),
        ("46°24''N", None),
        ("0", 0.0),
        ("90 S", -90.0),
    ],
)
def test_a_latitude_is_read_in_every_usual_form(text, degrees):
    """ISO 6709 annex D forms and the decimal ones; 24' = 24/60 and 36" = 36/3600 of a degree."""
    if degrees is None:
        with pytest.raises(CoordinateError):
            read_latitude(text)
    else:
        assert read_latitude(text) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "degrees"),
    [("16", 16.0), ("16°02' E", 16 + 2 / 60), ("W 122 25 9", -(122 + 25 / 60 + 9 / 3600)), ("180", 180.0)],
)
def test_a_longitude_is_read_in_every_usual_form(text, degrees):
    assert read_longitude(text) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "north",
        "90.1",
        "-91",
        "46.4 E",
        "N 46.4 S",
        "-46.4 N",
        "46°60'",
        "46.5°30'",
        "1e1",
        "46.4.1",
        "nan",
        "4624",
        "46°2430",
        "٤٦",
    ],
)
def test_what_is_no_latitude_is_refused_with_one_sentence(text):
    with pytest.raises(CoordinateError, match=r"^Latitude: .* stands where degrees such as .* are needed\.$"):
        read_latitude(text)


@pytest.mark.parametrize("text", ["", "180.5", "16 N", "181 W", "east"])
def test_what_is_no_longitude_is_refused_with_one_sentence(text):
    with pytest.raises(CoordinateError, match=r"^Longitude: .*\.$"):
        read_longitude(text)


@given(st.floats(-90, 90, allow_nan=False))
def test_a_latitude_shown_reads_back_to_a_metre(degrees):
    assert read_latitude(degrees_words(degrees)) == pytest.approx(degrees, abs=5.1e-6)


@given(st.integers(0, 89), st.integers(0, 59), st.integers(0, 59), st.sampled_from("NS"))
def test_degrees_minutes_and_seconds_are_what_they_are_in_decimals(degrees, minutes, seconds, letter):
    value = degrees + minutes / 60 + seconds / 3600
    written = f"{degrees}°{minutes}'{seconds}\" {letter}"
    assert read_latitude(written) == pytest.approx(value if letter == "N" else -value, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    ["46.4, 16.0", "46.4 16.0", "46,4; 16,0", "46°24' N, 16°00' E", "46.4N 16E", "46°24'N 16°00'E"],
)
def test_a_pair_in_one_field_is_taken_apart(text):
    first, second = split_pair(text)
    assert (read_latitude(first), read_longitude(second)) == pytest.approx(PAIR)


@pytest.mark.parametrize("text", ["46.4", "46,4", "46 24", "46 24 36 N", "", "garden"])
def test_a_single_latitude_is_no_pair(text):
    assert split_pair(text) is None


def test_the_zones_to_choose_from_hold_the_worlds_and_this_machines():
    assert {"Europe/Ljubljana", "America/Chicago", "Pacific/Auckland", WORLD} <= set(zones())
    assert system_zone()


@pytest.mark.parametrize(
    ("zone", "longitude"),
    [
        ("Europe/Ljubljana", 16.0),
        ("America/Los_Angeles", -122.4),
        ("Asia/Shanghai", 87.6),
        ("Pacific/Kiritimati", -157.4),
        ("Pacific/Auckland", 174.8),
        ("Europe/Madrid", -8.5),
    ],
)
def test_a_zone_that_is_used_at_a_longitude_raises_no_doubt(zone, longitude):
    """The places themselves: Ljubljana, San Francisco, Urumqi, Kiritimati, Auckland, Galicia."""
    assert zone_doubt(zone, longitude, SUMMER) == ""


@pytest.mark.parametrize(
    ("zone", "longitude"), [("Europe/Oslo", -122.4), ("UTC", 116.4), ("Europe/Oslo", 170.0)]
)
def test_a_zone_on_the_other_side_of_the_world_is_doubted(zone, longitude):
    assert zone in zone_doubt(zone, longitude, SUMMER)
