"""Hourly files of a typical year: days from whole days of hours, in the years they are of."""

import io
from datetime import date, timedelta
from importlib.resources import files
from pathlib import Path

import pandas
import pytest
from pvlib.iotools import read_epw as read_epw_with_pvlib
from pvlib.iotools import read_tmy3

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_epw import is_epw, look_at_epw, read_epw
from greenroom.exchange.weather_layout import Station
from greenroom.ledger.facts import WeatherRecord
from tests.exchange.test_text_table import assert_one_sentence, written
from tests.exchange.weather_files_made import epw_row, epw_text

FIRST = date(2001, 5, 30)


@pytest.fixture(scope="module")
def sand_point() -> str:
    """The typical year of Sand Point, Alaska, as pvlib carries it (TMY3, station 703165), as an .epw file."""
    source = files("pvlib") / "data" / "703165TY.csv"
    table, _ = read_tmy3(str(source), map_variables=True)
    # Hour 24 of a day stands in that file as 00:00 of the next one.
    ends = table.index.tz_localize(None) - timedelta(hours=1)
    rows = [
        epw_row(
            date(*map(int, (given[6:], given[:2], given[3:5]))),
            end.hour + 1,
            celsius,
            None if depth < 0 else depth,
        )
        for end, given, celsius, depth in zip(
            ends, table["Date (MM/DD/YYYY)"], table["temp_air"], table["Lprecip depth (mm)"], strict=True
        )
    ]
    return epw_text(rows)


def invented(days: int = 3, records: int = 1) -> list[str]:
    """Return hours that warm by a degree each from 1 °C, a tenth warmer each day, 0.5 mm of rain at noon."""
    rows = []
    for number in range(days):
        for hour in range(1, 25):
            for part in range(1, records + 1):
                rain = 0.5 if (hour, part) == (12, 1) else 0.0
                minute = part * 60 // records
                rows.append(
                    epw_row(FIRST + timedelta(days=number), hour, hour + number / 10, rain, minute % 60)
                )
    return rows


def read(folder: Path, text: str):
    return read_epw(written(folder, text.encode(), "place.epw"))


def refusal_of(folder: Path, text: str) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        read(folder, text)
    return caught.value


def test_a_typical_year_reads_as_pvlib_reads_it(tmp_path, sand_point):
    table, _ = read_epw_with_pvlib(io.StringIO(sand_point))
    by_day = table.groupby([table.year, table.month, table.day]).temp_air
    weather = read(tmp_path, sand_point)
    assert [day.day for day in weather.days] == [date(*key) for key in by_day.min().index]
    assert [day.tmin_c for day in weather.days] == list(by_day.min())
    assert [day.tmax_c for day in weather.days] == list(by_day.max())


def test_a_typical_year_keeps_the_years_its_months_are_of_and_says_so(tmp_path, sand_point):
    """The months of Sand Point's typical year are of eight years: TMY3, station 703165."""
    look = look_at_epw(written(tmp_path, sand_point.encode(), "place.epw"))
    assert look.typical
    assert look.years == (1991, 1994, 1995, 1996, 1997, 1998, 1999, 2005)
    assert "different years, 1991 to 2005" in look.notes[0]
    weather = read(tmp_path, sand_point)
    assert len(weather.days) == 365
    assert {day.day.year for day in weather.days} == set(look.years)
    assert weather.missing.days == 0


def test_the_place_of_the_file_is_told(tmp_path):
    look = look_at_epw(written(tmp_path, epw_text(invented()).encode(), "place.epw"))
    assert look.station == Station("703165", "Invented Bay, AK, USA")
    assert (look.latitude, look.longitude) == (55.317, -160.517)
    assert (look.typical, look.years) == (False, (2001,))


def test_a_day_is_from_its_first_to_its_twenty_fourth_hour(tmp_path):
    """Hour 1 is 00:01 to 01:00: EPW data dictionary, field 4."""
    weather = read(tmp_path, epw_text(invented()))
    assert [(day.day, day.tmin_c, day.tmax_c, day.rain_mm) for day in weather.days] == [
        (date(2001, 5, 30), 1.0, 24.0, 0.5),
        (date(2001, 5, 31), 1.1, 24.1, 0.5),
        (date(2001, 6, 1), 1.2, 24.2, 0.5),
    ]


def test_gusts_are_unknown_as_the_file_has_none(tmp_path):
    weather = read(tmp_path, epw_text(invented()))
    assert {day.gust_ms for day in weather.days} == {None}
    assert weather.missing.gust == 3
    assert any("gusts" in note for note in look_at_epw(tmp_path / "place.epw").notes)


@pytest.mark.parametrize("sign", ["99.9", "99.90", "999", ""])
def test_a_day_with_an_hour_missing_has_no_lowest_nor_highest(tmp_path, sign):
    """99.9 is missing: EPW data dictionary, field 7."""
    rows = invented()
    rows[30] = rows[30].replace(",7.1,", f",{sign},")
    weather = read(tmp_path, epw_text(rows))
    assert [day.tmin_c for day in weather.days] == [1.0, None, 1.2]
    assert (weather.missing.tmin, weather.missing.tmax) == (1, 1)


def test_rain_is_unknown_where_an_hour_of_it_is_missing(tmp_path):
    """999 is missing: EPW data dictionary, field 34."""
    rows = invented()
    rows[40] = rows[40].removesuffix(",0.0,99") + ",999,99"
    assert [day.rain_mm for day in read(tmp_path, epw_text(rows)).days] == [0.5, None, 0.5]


def test_a_file_without_a_drop_of_rain_does_not_say_that_it_never_rained(tmp_path):
    rows = [row.replace(",0.5,99", ",0.0,99") for row in invented()]
    weather = read(tmp_path, epw_text(rows))
    assert {day.rain_mm for day in weather.days} == {None}
    assert any("rain" in note for note in look_at_epw(tmp_path / "place.epw").notes)


def test_older_files_without_rain_are_read(tmp_path):
    rows = [",".join(row.split(",")[:32]) for row in invented()]
    weather = read(tmp_path, epw_text(rows))
    assert [day.tmin_c for day in weather.days] == [1.0, 1.1, 1.2]
    assert {day.rain_mm for day in weather.days} == {None}


def test_several_records_an_hour_make_one_day(tmp_path):
    weather = read(tmp_path, epw_text(invented(records=4), records=4))
    assert [(day.tmin_c, day.rain_mm) for day in weather.days] == [(1.0, 0.5), (1.1, 0.5), (1.2, 0.5)]


def test_days_left_out_of_a_real_year_are_counted(tmp_path):
    rows = [row for row in invented(days=6) if not row.startswith(("2001,6,1,", "2001,6,2,"))]
    weather = read(tmp_path, epw_text(rows))
    assert (len(weather.days), weather.missing.days) == (4, 2)


def test_a_name_with_accents_is_read_in_the_old_encoding_too(tmp_path):
    text = epw_text(invented()).replace("Invented Bay", "Erfundene Bühöhe")
    for encoding in ("utf-8", "cp1252"):
        assert read_epw(written(tmp_path, text.encode(encoding))).name.startswith("Erfundene Bühöhe")


@pytest.mark.parametrize(
    ("change", "parts"),
    [
        (lambda text: text.replace("LOCATION", "PLACE"), ("line 1", "LOCATION,")),
        (lambda text: text.replace(",55.317", ",95.317"), ("line 1", "95.317", "-90 to 90")),
        (
            lambda text: text.replace("LOCATION,Invented Bay,AK,USA,TMY3,703165", "LOCATION"),
            ("line 1", "5 fields"),
        ),
        (lambda text: text.replace("DATA PERIODS", "PERIODS"), ("no line DATA PERIODS",)),
        (lambda text: text.replace("DATA PERIODS,1,1", "DATA PERIODS,1,7"), ("line 8", "divisor of 60")),
        (lambda text: text.replace("2001,5,31,9,", "2001,5,32,9,"), ("line 41", "2001-5-32", "not a date")),
        (lambda text: text.replace("2001,5,31,9,", "31,5,31,9,"), ("line 41", "year is 31", "1700 to 2200")),
        (lambda text: text.replace("2001,5,31,9,", "2001,5,31,0,"), ("line 41", "0:00", "1 to 24")),
        (lambda text: text.replace("2001,5,31,9,", "2001,5,31,8,"), ("line 41", "already in line 40")),
        (
            lambda text: text.replace("2001,5,31,9,", "2001,5,x,9,"),
            ("line 41", "“x”", "field 3", "whole numbers"),
        ),
        (lambda text: text.replace(",9.1,99.9", ",mild,99.9"), ("line 41", "“mild”", "field 7")),
        (lambda text: text.replace(",9.1,99.9", ",-99.9,99.9"), ("line 41", "-99.9 °C", "-90 to 60")),
        (lambda text: text.replace(",0.5,99", ",-0.5,99", 1), ("line 20", "-0.5 mm", "0 to 2,000")),
        (lambda text: text.replace(",9.1,99.9", ",9.1"), ("line 41", "34 fields", "35 are needed")),
        (lambda text: text[:-7], ("34 fields", "35 are needed")),
        (
            lambda text: "\n".join(text.splitlines()[:-1]) + "\n",
            ("cut off", "2001-06-01", "23 records", "24"),
        ),
        (lambda text: "\n".join(text.splitlines()[:8]) + "\n", ("no hour below the header",)),
    ],
)
def test_a_wrong_file_is_refused_with_what_and_where_and_what_is_allowed(tmp_path, change, parts):
    assert_one_sentence(refusal_of(tmp_path, change(epw_text(invented()))), "place.epw", *parts)


def test_a_file_without_temperatures_is_refused(tmp_path):
    rows = [epw_row(FIRST, hour, 99.9, 0.0) for hour in range(1, 25)]
    assert_one_sentence(refusal_of(tmp_path, epw_text(rows)), "no day has the temperatures")


def test_reading_can_be_watched_and_called_off(tmp_path):
    path = written(tmp_path, epw_text(invented(days=100)).encode(), "a.epw")
    shares: list[float] = []
    read_epw(path, progress=shares.append)
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    with pytest.raises(Cancelled):
        read_epw(path, cancelled=lambda: True)


def test_an_import_can_be_put_in_the_ledger(tmp_path, sand_point):
    weather = read(tmp_path, sand_point)
    assert is_epw(sand_point)
    WeatherRecord(day=weather.last, source="file", station=weather.station, days=weather.days).check()
    assert pandas.Index([day.day for day in weather.days]).is_monotonic_increasing
