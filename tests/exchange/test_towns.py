"""Finding a town without a network: typed any way, in the right place, on the right clock."""

import re
from importlib.resources import files
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.towns import CREDIT, find_towns, fold_name
from greenroom.own_files import resources_folder

EVERYWHERE = 100_000


def zone_places():
    """Yield zone, town and place of each line of the time zone database's own table, zone1970.tab.

    It names a place for each zone, in degrees and minutes: IANA time zone database, in package tzdata.
    """
    for line in (files("tzdata") / "zoneinfo" / "zone1970.tab").read_text(encoding="utf-8").splitlines():
        if line.startswith("#"):
            continue
        _, place, zone, *_ = line.split("\t")
        north, east = re.findall(r"([+-]\d+)", place)
        yield zone, zone.rpartition("/")[2].replace("_", " "), degrees(north, 2), degrees(east, 3)


def degrees(text: str, digits: int) -> float:
    """Return degrees from ±DDMM or ±DDMMSS, as ISO 6709 writes them."""
    whole, rest = int(text[1 : 1 + digits]), text[1 + digits :]
    value = whole + int(rest[:2]) / 60 + int(rest[2:] or 0) / 3600
    return -value if text[0] == "-" else value


def test_towns_keep_the_clock_that_the_time_zone_database_gives_them():
    found, wrong = 0, []
    for zone, name, latitude, longitude in zone_places():
        near = [
            town
            for town in find_towns(name, 50)
            if abs(town.latitude - latitude) < 0.5 and abs(town.longitude - longitude) < 0.5
        ]
        found += bool(near)
        if near and near[0].zone != zone:
            wrong.append((name, near[0].zone, zone))
    assert found > 220
    assert wrong == []


@pytest.mark.parametrize(
    ("typed", "name", "country"),
    [
        ("Köln", "Köln", "Germany"),
        ("koln", "Köln", "Germany"),
        ("KOELN", "Köln", "Germany"),
        ("cologne", "Köln", "Germany"),
        ("wien", "Vienna", "Austria"),
        ("bad toelz", "Bad Tölz", "Germany"),
        ("bad tolz", "Bad Tölz", "Germany"),
        ("arhus", "Århus", "Denmark"),
        ("aarhus", "Århus", "Denmark"),
        ("lodz", "Łódź", "Poland"),
        ("stratford upon", "Stratford-upon-Avon", "United Kingdom"),
        ("upon-avon", "Stratford-upon-Avon", "United Kingdom"),
        ("o fallon, illinois", "O'Fallon", "United States"),
        ("  ljubl ", "Ljubljana", "Slovenia"),
        ("москва", "Moscow", "Russia"),
        ("Αθήνα", "Athens", "Greece"),
        ("東京", "Tokyo", "Japan"),
    ],
)
def test_a_town_is_found_however_its_name_is_typed(typed, name, country):
    first = find_towns(typed)[0]
    assert (first.name, first.country) == (name, country)


@pytest.mark.parametrize("typed", ["san", "ber", "spring", "bad ", "s", "paris"])
def test_the_biggest_come_first(typed):
    people = [town.population for town in find_towns(typed, 15)]
    assert people == sorted(people, reverse=True)
    assert len(people) > 5


def test_a_region_or_country_after_a_comma_narrows_the_choice():
    assert {town.region for town in find_towns("springfield, illinois")} == {"Illinois"}
    assert {town.country for town in find_towns("valencia,  SPAIN")} == {"Spain"}
    assert find_towns("paris, texas, united")[0].words == "Paris, Texas, United States"
    assert find_towns("paris, japan") == []


def test_a_town_of_just_that_name_is_not_crowded_out_by_bigger_ones():
    """Como in Italy has 80,000 people; far bigger towns only begin so."""
    towns = find_towns("como", 5)
    assert ("Como", "Italy") in {(town.name, town.country) for town in towns}
    assert max(towns, key=lambda town: town.population).name == "Comodoro Rivadavia"


def test_a_town_named_alike_in_another_language_comes_after_those_of_that_name():
    """Lublin, which some call Ljublin, is bigger than Ljubljana."""
    names = [town.name for town in find_towns("ljub")]
    assert names.index("Ljubljana") < names.index("Lublin")


@pytest.mark.parametrize(
    "typed", ["", "  ", ",", ", slovenia", "-", "xyzzyq", "|", "\n", "\f", "\txq5", "1e9"]
)
def test_what_names_no_town_finds_none(typed):
    assert find_towns(typed) == []


@pytest.mark.parametrize("limit", [0, -1])
def test_a_limit_without_room_is_refused(limit):
    with pytest.raises(ValueError, match="limit"):
        find_towns("paris", limit)


@given(st.text(max_size=12), st.integers(1, 30))
def test_any_text_can_be_typed(typed, limit):
    towns = find_towns(typed, limit)
    assert len(towns) <= limit
    assert len(set(towns)) == len(towns)


@given(st.data())
def test_every_town_is_found_by_its_own_name_in_any_case_with_or_without_accents(data):
    letter = data.draw(st.sampled_from("abcdefghijklmnoprstuvwz"))
    town = data.draw(st.sampled_from(find_towns(letter, 400)))
    way = data.draw(st.sampled_from([str.upper, str.lower, str.title, fold_name, str]))
    assert town in find_towns(way(town.name), EVERYWHERE)


def test_every_town_stands_on_the_globe_and_keeps_a_known_time():
    towns = [town for letter in "aeiou" for town in find_towns(letter, EVERYWHERE)]
    assert len(towns) > 5_000
    assert all(-90 < town.latitude < 90 and -180 <= town.longitude <= 180 for town in towns)
    assert all(town.name.strip() == town.name != "" and town.country for town in towns)
    for zone in {town.zone for town in towns}:
        ZoneInfo(zone)


def test_the_towns_are_credited_beside_the_table_and_in_it():
    """CC BY 4.0, section 3(a)(1): name the source and the licence, link to it, say what was changed."""
    beside = (resources_folder() / "places" / "towns.txt").read_text(encoding="utf-8")
    for text in (CREDIT, beside):
        assert "GeoNames" in text
        assert "https://creativecommons.org/licenses/by/4.0/" in text
        assert "shortened" in text
