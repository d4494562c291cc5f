"""Daily weather files: what comes out is what stands in the file, in °C, mm and m/s, or nothing at all."""

import csv
import math
import tracemalloc
from datetime import date, timedelta
from itertools import pairwise
from pathlib import Path

import pandas
import pytest

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_csv import SeveralStationsError, Station, read_weather, sniff_weather
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from tests.exchange.test_text_table import assert_one_sentence, written

DATA = Path(__file__).parent.parent / "data"
CHAMPION_1982 = DATA / "champion_1982_metric.csv"
CHAMPION_1985 = DATA / "champion_1985_us.csv"
ARCHIVE = DATA / "archive_2019_tenths.csv"
HEADER = "STATION,NAME,DATE,PRCP,TMAX,TMIN\n"
TWO_STATIONS = HEADER + "A,Hill,2001-01-01,0,9.5,1\nB,Vale,2001-01-01,0,8.5,2\nB,Vale,2001-01-02,0,7.5,3\n"


def invented_season(day: date) -> tuple[float, float, float, float]:
    """Return an invented lowest, highest, rain and gust of a day [°C, °C, mm, m/s], whole tenths."""
    warmth = 10 - 14 * math.cos(2 * math.pi * (day.timetuple().tm_yday - 20) / 365.25)
    swing = 4 + (day.toordinal() * 7 % 11) / 3
    rain = max(0, day.toordinal() * 13 % 29 - 22) * 1.3
    return round(warmth - swing, 1), round(warmth + swing, 1), round(rain, 1), round(2 + swing, 1)


def write_invented(path: Path, first: date, days: int) -> Path:
    """Write invented weather in °C as an export would."""
    with path.open("w", newline="") as stream:
        writer = csv.writer(stream, quoting=csv.QUOTE_ALL)
        writer.writerow(["STATION", "NAME", "DATE", "PRCP", "TMAX", "TMIN", "WSF2"])
        for day in (first + timedelta(days=count) for count in range(days)):
            low, high, rain, gust = invented_season(day)
            writer.writerow(["XX000000003", "INVENTED, XX", day.isoformat(), rain, high, low, gust])
    return path


def temperatures(path: Path, text: str, **choice) -> list[tuple[float | None, float | None]]:
    days = read_weather(written(path, text.encode()), **choice).days
    return [(day.tmin_c, day.tmax_c) for day in days]


def test_a_year_in_degrees_celsius_reads_as_pandas_reads_it():
    table = pandas.read_csv(CHAMPION_1982)
    days = read_weather(CHAMPION_1982).days
    assert [day.day.isoformat() for day in days] == list(table.DATE)
    assert [day.tmin_c for day in days] == list(table.TMIN)
    assert [day.tmax_c for day in days] == list(table.TMAX)
    assert [day.rain_mm for day in days] == list(table.PRCP)


def test_a_year_in_fahrenheit_reads_as_its_source_has_it_in_celsius():
    """The source gives 1985 in °C to 0.01 and mm; the file holds whole °F and hundredths of an inch."""
    source = pandas.read_csv(DATA / "champion_1985_source.csv")
    weather = read_weather(CHAMPION_1985)
    assert weather.units == "us"
    assert [day.tmin_c for day in weather.days] == pytest.approx(list(source["Tmin(C)"]), abs=0.0101)
    assert [day.tmax_c for day in weather.days] == pytest.approx(list(source["Tmax(C)"]), abs=0.0101)
    assert [day.rain_mm for day in weather.days] == pytest.approx(list(source["Prcp(mm)"]), abs=0.127 + 0.006)


def test_the_freezing_nights_of_a_year_are_those_worked_out_elsewhere():
    """Champion 1982, worked out from the source by another program: 30 April and 21 September."""
    freezing = [day.day for day in read_weather(CHAMPION_1982).days if day.tmin_c <= 0]
    assert max(day for day in freezing if day.month < 7) == date(1982, 4, 30)
    assert min(day for day in freezing if day.month >= 7) == date(1982, 9, 21)


def test_an_archive_file_in_tenths_reads_in_whole_units():
    """Tenths of °C, of mm and of m/s: GHCN-Daily readme, section III."""
    weather = read_weather(ARCHIVE)
    assert (weather.units, weather.station, weather.name) == ("tenths", "XX000000002", "INVENTED FARM, XX")
    assert weather.days[0] == WeatherDay(date(2019, 7, 1), 14.4, 28.3, 0.0, 7.6)
    assert weather.days[2] == WeatherDay(date(2019, 7, 3), 17.2, 30.6, 12.7, 16.1)


def test_a_value_that_failed_its_check_counts_as_missing_and_is_counted():
    """The quality flag is the second of the attributes: GHCN-Daily readme, section III."""
    weather = read_weather(ARCHIVE)
    by_day = {day.day.day: day for day in weather.days}
    assert by_day[4].tmax_c is None
    assert by_day[7].rain_mm is None
    assert by_day[2].rain_mm == 0.0  # T is a measurement flag: a trace of rain
    assert weather.missing.flagged == 3


def test_a_gust_is_the_peak_where_measured_else_the_fastest_seconds_else_minutes():
    gusts = {day.day.day: day.gust_ms for day in read_weather(ARCHIVE).days}
    assert (gusts[3], gusts[2], gusts[7], gusts[6]) == (16.1, 8.9, 4.5, None)


def test_what_is_missing_is_none_and_is_counted():
    missing = read_weather(ARCHIVE).missing
    assert (missing.days, missing.tmin, missing.tmax, missing.rain, missing.gust) == (1, 1, 1, 2, 1)


@pytest.mark.parametrize("blank", ["", " ", "9999", "-9999", "-9999.0", "NA", "NaN"])
def test_every_sign_for_missing_is_understood(tmp_path, blank):
    text = HEADER + f"A,x,2001-01-01,{blank},5.5,{blank}\nA,x,2001-01-02,0,4.5,1.5\n"
    days = read_weather(written(tmp_path, text.encode())).days
    assert days[0] == WeatherDay(date(2001, 1, 1), None, 5.5, None, None)


def test_a_trace_of_rain_is_no_rain(tmp_path):
    text = HEADER + "A,x,2001-01-01,T,5.5,1\n"
    assert read_weather(written(tmp_path, text.encode())).days[0].rain_mm == 0.0


def test_days_come_in_order_whatever_the_order_of_the_file(tmp_path):
    text = HEADER + "A,x,2001-01-03,,3.5,1\nA,x,2001-01-01,,1.5,1\nA,x,20010102,,2.5,1\n"
    assert temperatures(tmp_path, text) == [(1, 1.5), (1, 2.5), (1, 3.5)]


def test_the_extremes_that_are_allowed_are_read(tmp_path):
    """Beyond all measured air, rain and gusts: World Weather and Climate Extremes Archive (WMO)."""
    text = HEADER.replace("TMIN", "TMIN,WSFG") + "A,x,1700-01-01,2000,60,-90,120\nA,x,2200-12-31,0,5,5,0\n"
    assert [tuple(day) for day in read_weather(written(tmp_path, text.encode()), "metric").days] == [
        (date(1700, 1, 1), -90, 60, 2000, 120),
        (date(2200, 12, 31), 5, 5, 0, 0),
    ]


def test_an_import_can_be_put_in_the_ledger():
    weather = read_weather(ARCHIVE)
    record = WeatherRecord(day=weather.last, source="file", station=weather.station, days=weather.days)
    record.check()
    assert (weather.first, weather.last) == (date(2019, 7, 1), date(2019, 7, 8))


@pytest.mark.parametrize("delimiter", [",", ";", "\t"])
def test_the_delimiter_and_the_case_of_the_header_do_not_matter(tmp_path, delimiter):
    text = "date,tmin,tmax\n2001-01-01,-1.5,4.5\n2001-01-02,2,3\n".replace(",", delimiter)
    assert temperatures(tmp_path, text, units="metric") == [(-1.5, 4.5), (2, 3)]


def test_a_decimal_comma_is_understood_between_semicolons(tmp_path):
    assert temperatures(tmp_path, "DATE;TMIN;TMAX\n2001-01-01;-1,5;4,5\n") == [(-1.5, 4.5)]


def test_the_units_chosen_win_over_those_guessed(tmp_path):
    text = "DATE,TMIN,TMAX\n2001-01-01,32,50\n"
    assert temperatures(tmp_path, text, units="us") == [(0, 10)]
    assert temperatures(tmp_path, text, units="metric") == [(32, 50)]
    assert temperatures(tmp_path, text, units="tenths") == [(3.2, 5)]
    with pytest.raises(ValueError, match="'kelvin' are not known"):
        read_weather(tmp_path / "list.csv", units="kelvin")


def test_the_units_shown_on_looking_are_those_used_on_reading():
    for path in (CHAMPION_1982, CHAMPION_1985, ARCHIVE):
        look = sniff_weather(path)
        assert look.units == read_weather(path).units
        assert look.reason.endswith(".")


def test_a_look_tells_columns_stations_and_how_much_was_looked_at():
    look = sniff_weather(CHAMPION_1982)
    assert look.columns == ("STATION", "NAME", "DATE", "PRCP", "TMAX", "TMIN")
    assert look.stations == (Station("XX000000001", "CHAMPION, NE US"),)
    assert look.sampled == 365
    assert look.sure


def test_several_stations_are_offered_and_never_mixed(tmp_path):
    path = written(tmp_path, TWO_STATIONS.encode())
    with pytest.raises(SeveralStationsError) as caught:
        read_weather(path)
    assert_one_sentence(caught.value, "2 stations", "A Hill", "B Vale")
    assert caught.value.stations == (Station("A", "Hill"), Station("B", "Vale"))
    assert sniff_weather(path).stations == caught.value.stations
    assert [day.tmax_c for day in read_weather(path, station="B").days] == [8.5, 7.5]
    assert read_weather(path, station="A").name == "Hill"


def test_a_station_that_is_not_there_is_refused_with_those_that_are(tmp_path):
    with pytest.raises(BadFileError) as caught:
        read_weather(written(tmp_path, TWO_STATIONS.encode()), station="C")
    assert_one_sentence(caught.value, "“C”", "A Hill", "B Vale")


def test_progress_rises_to_the_whole_and_is_told_often(tmp_path):
    path = write_invented(tmp_path / "long.csv", date(1990, 1, 1), 10_958)
    shares: list[float] = []
    read_weather(path, progress=shares.append)
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert 20 < len(shares) < 40
    assert all(later - earlier < 0.15 for earlier, later in pairwise(shares))


@pytest.mark.parametrize("asked", [1, 5, 20])
def test_reading_stops_when_called_off(tmp_path, asked):
    path = write_invented(tmp_path / "long.csv", date(1990, 1, 1), 10_958)
    answers = iter([False] * (asked - 1) + [True])
    with pytest.raises(Cancelled):
        read_weather(path, cancelled=lambda: next(answers))


def test_thirty_invented_years_come_back_day_by_day(tmp_path):
    weather = read_weather(write_invented(tmp_path / "long.csv", date(1990, 1, 1), 10_958))
    assert len(weather.days) == 10_958
    assert all(tuple(entry[1:]) == invented_season(entry.day) for entry in weather.days)


def test_a_file_of_two_million_lines_is_refused_without_being_held(tmp_path):
    path = tmp_path / "huge.csv"
    first = date(1700, 1, 1)
    many = "".join(f"{first + timedelta(days=count)},1,2\n" for count in range(180_000))
    with path.open("w") as stream:
        stream.write("DATE,TMIN,TMAX\n")
        stream.writelines([many] * 12)
    tracemalloc.start()
    with pytest.raises(BadFileError) as caught:
        read_weather(path, units="metric")
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert_one_sentence(caught.value, "huge.csv", "150,000 lines", "400 years")
    assert peak < 60_000_000


def test_a_file_of_gigabytes_is_refused_before_it_is_read(tmp_path):
    path = tmp_path / "vast.csv"
    with path.open("wb") as stream:
        stream.truncate(5_000_000_000)
    with pytest.raises(BadFileError) as caught:
        sniff_weather(path)
    assert_one_sentence(caught.value, "5,000 MB", "120 MB")
