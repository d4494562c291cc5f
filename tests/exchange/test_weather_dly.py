"""Raw files of the climate network: every value from its column, whole or not at all."""

import io
from datetime import date
from pathlib import Path

import pandas
import pytest

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_csv import SeveralStationsError, Station
from greenroom.exchange.weather_dly import DlyLook, is_dly, look_at_dly, read_dly
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from tests.exchange.test_text_table import assert_one_sentence, written
from tests.exchange.weather_files_made import champion_1985, dly_line, dly_text

# Real lines, public domain: NOAA GHCN-Daily, stations ACW00011604 (January 1949) and AO000066422
# (February 1958, with the flags of days that are not there stripped off the end).
ANTIGUA = (
    "ACW00011604194901TMAX  289  X  289  X  283  X  283  X  289  X  289  X  278  X  267  X  272  X  278  X"
    "  267  X  278  X  267  X  267  X  278  X  267  X  267  X  272  X  272  X  272  X  278  X  272  X  267  X"
    "  267  X  267  X  278  X  272  X  272  X  272  X  272  X  272  X"
)
ANGOLA = (
    "AO000066422195802TMIN  200  I  200  I  228  I  200  I  200  I  178  I  189  I  200  I  200  I  200  I"
    "  178  I  178  I  178  I  172  I  178  I  150  I  161  I  161  I  139  I  161  I  178  I  189  I  178  I"
    "  161  I  178  I  178  I  189  I  178  I-9999   -9999   -9999"
)
JUNE = {"TMIN": "  101  X", "TMAX": "  205  X"}


def days_of(folder: Path, *lines: str, **choice) -> tuple[WeatherDay, ...]:
    return read_dly(written(folder, ("\n".join(lines) + "\n").encode(), "station.dly"), **choice).days


def refusal_of(folder: Path, text: str, **choice) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        read_dly(written(folder, text.encode(), "station.dly"), **choice)
    return caught.value


def june(element: str, *days: str) -> str:
    return dly_line("XX000000001", 2001, 6, element, days)


def test_real_lines_read_as_the_readme_lays_them_out(tmp_path):
    """Columns by the GHCN-Daily readme, section III: the value of day 19 stands in columns 166-170."""
    coldest = ANTIGUA.replace("TMAX", "TMIN").replace("  2", "  1")
    days = days_of(tmp_path, ANTIGUA, coldest)
    assert [day.tmax_c for day in days[:6]] == [28.9, 28.9, 28.3, 28.3, 28.9, 28.9]
    assert (days[0].day, days[-1].day) == (date(1949, 1, 1), date(1949, 1, 31))
    assert days[18].tmax_c == int(ANTIGUA[165:170]) / 10 == 27.2


def test_a_line_whose_last_blank_flags_were_stripped_is_whole(tmp_path):
    days = days_of(tmp_path, ANGOLA, ANGOLA.replace("TMIN", "TMAX"))
    assert len(days) == 28
    assert [day.tmin_c for day in days[-3:]] == [17.8, 18.9, 17.8]


def test_a_year_reads_as_its_source_has_it(tmp_path):
    """Champion 1985 from its source, rounded to tenths as the form asks; an exact half may go either way."""
    source = champion_1985()
    weather = read_dly(written(tmp_path, dly_text(source).encode(), "XX000000001.dly"))
    assert [day.day for day in weather.days] == list(source["TMIN"])
    assert [day.tmin_c for day in weather.days] == pytest.approx(list(source["TMIN"].values()), abs=0.0501)
    assert [day.tmax_c for day in weather.days] == pytest.approx(list(source["TMAX"].values()), abs=0.0501)
    assert [day.rain_mm for day in weather.days] == pytest.approx(list(source["PRCP"].values()), abs=0.0501)
    assert (weather.station, weather.units, weather.missing.days) == ("XX000000001", "tenths", 0)


def test_pandas_reads_the_same_values_from_the_same_columns(tmp_path):
    text = dly_text(champion_1985())
    spans = [(0, 11), (11, 15), (15, 17), (17, 21), *((21 + 8 * day, 26 + 8 * day) for day in range(31))]
    names = ["station", "year", "month", "element", *range(1, 32)]
    table = pandas.read_fwf(io.StringIO(text), colspecs=spans, names=names, na_values=["-9999"])
    long = table.melt(["station", "year", "month", "element"], var_name="day", value_name="tenths").dropna()
    by_day = long.pivot_table(index=["year", "month", "day"], columns="element", values="tenths") / 10
    days = read_dly(written(tmp_path, text.encode(), "a.dly")).days
    assert [day.tmin_c for day in days] == list(by_day.TMIN)
    assert [day.rain_mm for day in days] == list(by_day.PRCP)


def test_a_value_that_failed_a_check_counts_as_missing_however_absurd(tmp_path):
    """The quality flag is the second of the three: GHCN-Daily readme, section III; I is inconsistent."""
    lines = [
        june("TMIN", "  101  X", "-9990 IX", "  999 GX"),
        june("TMAX", "  205  X", "  210  X", "  188  X"),
    ]
    weather = read_dly(written(tmp_path, ("\n".join(lines) + "\n").encode(), "a.dly"))
    assert [day.tmin_c for day in weather.days] == [10.1, None, None]
    assert [day.tmax_c for day in weather.days] == [20.5, 21.0, 18.8]
    assert (weather.missing.flagged, weather.missing.tmin) == (2, 2)


def test_days_without_any_value_are_absent_and_counted(tmp_path):
    lines = [
        june("TMIN", "  101  X", "-9999   ", "   99  X"),
        june("TMAX", "  205  X", "-9999   ", "  188  X"),
    ]
    weather = read_dly(written(tmp_path, ("\n".join(lines) + "\n").encode(), "a.dly"))
    assert [day.day.day for day in weather.days] == [1, 3]
    assert weather.missing.days == 1


def test_gusts_are_the_peak_where_measured_else_the_fastest_seconds_else_minutes(tmp_path):
    lines = [
        june("TMIN", *["  101  X"] * 4),
        june("TMAX", *["  205  X"] * 4),
        june("WSF2", "   45  X", "   46  X", "   47  X"),
        june("WSF5", "   89  X", "   90 IX"),
        june("WSFG", "  123  X"),
    ]
    assert [day.gust_ms for day in days_of(tmp_path, *lines)] == [12.3, 4.6, 4.7, None]


def test_elements_that_are_not_used_do_not_matter(tmp_path):
    odd = june("SNWD", *["99999  X"] * 31)
    assert len(days_of(tmp_path, june("TMIN", "  101  X"), odd, june("TMAX", "  205  X"))) == 1


def test_several_stations_are_offered_and_never_mixed(tmp_path):
    second = [june(element, value).replace("XX000000001", "XX000000002") for element, value in JUNE.items()]
    text = "\n".join([*(june(element, value) for element, value in JUNE.items()), *second, ""])
    text = text.replace("XX000000002200106TMAX  205", "XX000000002200106TMAX  299")
    with pytest.raises(SeveralStationsError) as caught:
        read_dly(written(tmp_path, text.encode(), "a.dly"))
    assert_one_sentence(caught.value, "2 stations", "XX000000001", "XX000000002")
    assert caught.value.stations == (Station("XX000000001"), Station("XX000000002"))
    assert read_dly(tmp_path / "a.dly", station="XX000000002").days[0].tmax_c == 29.9
    assert read_dly(tmp_path / "a.dly", station="XX000000001").days[0].tmax_c == 20.5
    assert_one_sentence(refusal_of(tmp_path, text, station="YY"), "no station “YY”")


def test_a_look_tells_the_stations(tmp_path):
    path = written(tmp_path, (ANTIGUA + "\n" + ANGOLA + "\n").encode(), "a.dly")
    stations = (Station("ACW00011604"), Station("AO000066422"))
    assert look_at_dly(path) == DlyLook(stations)
    assert is_dly(ANTIGUA)
    assert is_dly(ANGOLA)
    assert not is_dly("STATION,NAME,DATE,TMIN,TMAX")
    assert not is_dly(ANTIGUA[:100])


@pytest.mark.parametrize(
    ("change", "parts"),
    [
        (lambda text: text.replace("TMAX", "TM?X", 1), ("line 2", "begins with", "such as TMIN")),
        (lambda text: text.replace("200106TMIN", "200113TMIN"), ("line 1", "2001-13", "01 to 12")),
        (lambda text: text.replace("200106TMIN", "999906TMIN"), ("line 1", "9999-06", "1700 to 2200")),
        (lambda text: text.replace("200106TMAX", "200106TMIN"), ("line 2", "TMIN of 2001-06", "in line 1")),
        (
            lambda text: text.replace("  205  X", "  2o5  X"),
            ("line 2", "“  2o5”", "TMAX of 2001-06-01", "128"),
        ),
        (
            lambda text: text.replace("  205  X", "99999  X"),
            ("TMAX of 2001-06-01", "9,999.9 °C", "-90 to 60"),
        ),
        (lambda text: text.replace("  205  X", "   55  X"), ("line 2", "10.1 °C", "5.5 °C", "above")),
        (lambda text: text[:-9] + "  205  X\n", ("line 2", "205", "day 31 of 2001-06", "-9999")),
        (lambda text: text[:-20], ("line 2", "cut off", "250 characters", "269 are needed")),
        (lambda text: text[:-2], ("line 2", "cut off")),
        (lambda text: text.replace("\n", "   \n"), ("line 1", "272 characters", "269 are needed")),
        (lambda _: "\n\n", ("only blank lines",)),
        (lambda text: text.splitlines()[0] + "\n", ("no day has both",)),
        (lambda text: text.replace("TMIN", "SNOW").replace("TMAX", "SNWD"), ("no day has both",)),
    ],
)
def test_a_wrong_file_is_refused_with_what_and_where_and_what_is_allowed(tmp_path, change, parts):
    text = "\n".join([*(june(element, value) for element, value in JUNE.items()), ""])
    assert_one_sentence(refusal_of(tmp_path, change(text)), "station.dly", *parts)


def test_reading_can_be_watched_and_called_off(tmp_path):
    text = "".join(dly_text({name: dict.fromkeys(months(), 5.0) for name in ("TMIN", "TMAX")}))
    path = written(tmp_path, text.encode(), "a.dly")
    shares: list[float] = []
    read_dly(path, progress=shares.append)
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert len(shares) > 3
    with pytest.raises(Cancelled):
        read_dly(path, cancelled=lambda: len(shares) > 0)


def test_an_import_can_be_put_in_the_ledger(tmp_path):
    weather = read_dly(written(tmp_path, dly_text(champion_1985()).encode(), "a.dly"))
    WeatherRecord(day=weather.last, source="file", station=weather.station, days=weather.days).check()


def months() -> list[date]:
    return [date(year, month, 1) for year in range(1970, 2010) for month in range(1, 13)]
