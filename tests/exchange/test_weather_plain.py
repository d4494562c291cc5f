"""Weather from any table: columns, dates and units proposed with reasons, then all of it or nothing."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_plain import (
    ORDERS,
    PlainMatch,
    PlainUnits,
    look_at_plain,
    read_plain,
)
from greenroom.exchange.weather_plain_columns import header_units, propose_match
from greenroom.exchange.weather_plain_dates import guess_order, parse_date
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from tests.exchange.test_text_table import assert_one_sentence, written
from tests.exchange.weather_files_made import SOURCE_1985, champion_1985

GERMAN = (
    "Datum;Tiefsttemperatur (°C);Höchsttemperatur (°C);Niederschlag (mm);Windspitze (km/h)\n"
    "01.04.2001;-1,5;8,0;0,4;36\n"
    "02.04.2001;2,5;11,5;-;72\n"
    "03.04.2001;;9,0;Tr;18\n"
)
GERMAN_DAYS = (
    WeatherDay(date(2001, 4, 1), -1.5, 8.0, 0.4, 10.0),
    WeatherDay(date(2001, 4, 2), 2.5, 11.5, None, 20.0),
    WeatherDay(date(2001, 4, 3), None, 9.0, 0.0, 5.0),
)
HEADER = "date,tmin,tmax\n"


def days_of(folder: Path, text: str, **choice) -> tuple[WeatherDay, ...]:
    return read_plain(written(folder, text.encode()), **choice).days


def refusal_of(folder: Path, text: str, **choice) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        days_of(folder, text, **choice)
    return caught.value


def written_out(first: date, count: int, form: str) -> list[str]:
    return [(first + timedelta(days=number)).strftime(form) for number in range(count)]


def test_a_table_as_another_program_wrote_it_reads_as_its_source_has_it():
    """Day, Month, Year, Tmin(C), Tmax(C), Prcp(mm), as in the open package aquacrop, commas for blanks."""
    source = champion_1985()
    look = look_at_plain(SOURCE_1985)
    assert look.match == PlainMatch(year=2, month=1, day_of_month=0, tmin=3, tmax=4, rain=5)
    assert (look.temperature.units, look.temperature.sure) == ("c", True)
    weather = read_plain(SOURCE_1985)
    assert [day.day for day in weather.days] == list(source["TMIN"])
    assert [day.tmin_c for day in weather.days] == list(source["TMIN"].values())
    assert [day.tmax_c for day in weather.days] == list(source["TMAX"].values())
    assert [day.rain_mm for day in weather.days] == list(source["PRCP"].values())
    assert (weather.units, weather.missing.days) == ("metric", 0)


def test_a_table_in_another_language_with_commas_and_km_an_hour_is_understood(tmp_path):
    for encoding in ("utf-8", "utf-8-sig", "cp1252"):
        weather = read_plain(written(tmp_path, GERMAN.encode(encoding)))
        assert weather.days == GERMAN_DAYS
        assert (weather.missing.tmin, weather.missing.rain) == (1, 1)


@pytest.mark.parametrize(
    ("header", "match"),
    [
        ("Date,Max Temp (°F),Min Temp (°F),Precipitation (in),Max Wind Gust", (0, 2, 1, 3, 4)),
        ("time,temperature_2m_max (°C),temperature_2m_min (°C),precipitation_sum (mm)", (0, 2, 1, 3, None)),
        ("STATIONS_ID;MESS_DATUM;QN_3;FX;FM;QN_4;RSK;RSKF;TMK;TXK;TNK;TGK;eor", (1, 10, 9, 6, 3)),
        ("Datum;Tagesminimum;Tagesmaximum;Regenmenge [l/m²];Böe [m/s]", (0, 1, 2, 3, 4)),
        ("date;température minimale;température maximale;précipitations;rafale max", (0, 1, 2, 3, 4)),
        ("Fecha,Temperatura mínima,Temperatura máxima,Precipitación,Racha máxima", (0, 1, 2, 3, 4)),
        ("data;temperatura minima;temperatura massima;pioggia;raffica", (0, 1, 2, 3, 4)),
        ("datum;minimumtemperatuur;maximumtemperatuur;neerslag;hoogste windstoot", (0, 1, 2, 3, 4)),
        ("datum;najnižja temperatura;najvišja temperatura;padavine;sunek vetra", (0, 1, 2, 3, 4)),
        ("Observed,High,Low", (None, 2, 1, None, None)),
        (
            "date,min soil temp,max soil temp,min air temperature 2 m,max air temperature 2 m",
            (0, 3, 4, None, None),
        ),
    ],
)
def test_columns_are_proposed_from_headers_in_several_languages(header, match):
    """Common practice, no source."""
    delimiter = ";" if ";" in header else ","
    assert propose_match(header.split(delimiter)) == PlainMatch(
        **dict(zip(("day", "tmin", "tmax", "rain", "gust"), match, strict=True))
    )


@pytest.mark.parametrize(
    ("header", "unit"),
    [
        ("TMAX (°F)", "f"),
        ("Gust km/h", "kmh"),
        ("gust [m/s]", "ms"),
        ("rain_mm", "mm"),
        ("Low", ""),
        ("mm", "mm"),
    ],
)
def test_the_unit_in_a_header_is_seen(header, unit):
    assert header_units(header) == unit


@pytest.mark.parametrize(
    ("form", "order"),
    [
        ("%Y-%m-%d", "ymd"),
        ("%Y/%m/%d", "ymd"),
        ("%Y%m%d", "ymd"),
        ("%Y-%m-%dT00:00:00Z", "ymd"),
        ("%d.%m.%Y", "dmy"),
        ("%d/%m/%Y", "dmy"),
        ("%d-%m-%Y 00:00", "dmy"),
        ("%m/%d/%Y", "mdy"),
        ("%m/%d/%Y 12:00 AM", "mdy"),
    ],
)
@pytest.mark.parametrize("count", [3, 11, 40])
def test_the_order_of_dates_is_told_from_days_that_follow_each_other(form, order, count):
    """Three days from 1 April could be read as 4 January, 4 February, 4 March; days in a row tell."""
    texts = written_out(date(2001, 4, 1), count, form)
    guess = guess_order(texts)
    assert (guess.order, guess.sure) == (order, True)
    assert [parse_date(text, guess.order) for text in texts] == [
        date(2001, 4, 1) + timedelta(days=number) for number in range(count)
    ]


@given(
    st.dates(date(1700, 1, 1), date(2200, 12, 31)),
    st.sampled_from([("ymd", "%Y-%m-%d"), ("dmy", "%d/%m/%Y"), ("mdy", "%m.%d.%Y"), ("ymd", "%Y%m%d")]),
)
def test_every_day_reads_back_in_its_own_order(day, form):
    order, pattern = form
    text = f"{day.year:04d}".join(day.strftime(pattern.replace("%Y", "@")).split("@"))
    assert parse_date(text, order) == day


@pytest.mark.parametrize(
    "text", ["", "1.2.01", "31.12.20011", "2001-2-30", "2001-13-01", "²001-01-01", "1/2-2001"]
)
@pytest.mark.parametrize("order", ORDERS)
def test_what_is_no_date_with_a_whole_year_is_none(text, order):
    assert parse_date(text, order) is None


def test_dates_that_could_mean_either_must_be_chosen(tmp_path):
    text = HEADER + "03/04/2001,1,9\n05/06/2001,2,8\n"
    look = look_at_plain(written(tmp_path, text.encode()))
    assert not look.dates.sure
    assert_one_sentence(refusal_of(tmp_path, text), "list.csv", "column “date”", "must be chosen")
    assert [day.day for day in days_of(tmp_path, text, order="dmy")] == [date(2001, 4, 3), date(2001, 6, 5)]
    assert [day.day for day in days_of(tmp_path, text, order="mdy")] == [date(2001, 3, 4), date(2001, 5, 6)]
    with pytest.raises(ValueError, match="'ydm' is not known"):
        days_of(tmp_path, text, order="ydm")


def test_units_chosen_win_over_those_guessed(tmp_path):
    text = "date,tmin,tmax,rain,gust\n2001-04-01,32,50,1,10\n"
    path = written(tmp_path, text.encode())
    expected = {
        PlainUnits(): (0 + 32, 50, 1, 10),
        PlainUnits("f", "inch", "mph"): (0, 10, 25.4, 4.47),
        PlainUnits("tenths", "tenths", "tenths"): (3.2, 5, 0.1, 1),
        PlainUnits("c", "cm", "knots"): (32, 50, 10, 5.144),
        PlainUnits("f", "mm", "kmh"): (0, 10, 1, 2.778),
    }
    for units, values in expected.items():
        assert read_plain(path, units=units).days[0][1:] == values
    with pytest.raises(ValueError, match="'kelvin' is not known"):
        PlainUnits(temperature="kelvin")


@pytest.mark.parametrize(
    ("factor", "header", "unit"),
    [(1.0, "gust", "ms"), (3.6, "gust", "kmh"), (3.6, "gust km/h", "kmh"), (1.9, "gust (kn)", "knots")],
)
def test_the_unit_of_gusts_is_told_by_the_header_or_by_what_is_usual(tmp_path, factor, header, unit):
    """Daily gusts of 4 to 14 m/s are usual in gardens; common practice, no source."""
    rows = [
        f"{day},1.5,9.5,{(4 + number % 11) * factor:.1f}"
        for number, day in enumerate(written_out(date(2001, 4, 1), 40, "%Y-%m-%d"))
    ]
    text = "\n".join([f"date,tmin,tmax,{header}", *rows, ""])
    look = look_at_plain(written(tmp_path, text.encode()))
    assert (look.gust.units, look.gust.sure) == (unit, header != "gust")
    gusts = [day.gust_ms for day in days_of(tmp_path, text)]
    if unit != "knots":
        assert gusts == pytest.approx([4 + number % 11 for number in range(40)], abs=0.02)


def test_fahrenheit_is_told_by_values_where_the_header_is_silent(tmp_path):
    text = HEADER + "\n".join(f"{day},50,77" for day in written_out(date(2001, 6, 1), 30, "%Y-%m-%d"))
    look = look_at_plain(written(tmp_path, text.encode()))
    assert look.temperature.units == "f"
    assert {(day.tmin_c, day.tmax_c) for day in days_of(tmp_path, text)} == {(10.0, 25.0)}


@pytest.mark.parametrize("sign", ["", " ", "-", "NA", "nan", "-999", "-9999.0", "-99.9", "9999", "null", "M"])
def test_every_sign_for_missing_is_understood(tmp_path, sign):
    text = f"date,tmin,tmax,rain\n2001-04-01,{sign},9.5,{sign}\n2001-04-02,1.5,9.5,0\n"
    assert days_of(tmp_path, text)[0] == WeatherDay(date(2001, 4, 1), None, 9.5, None)


def test_days_come_in_order_whatever_the_order_of_the_file(tmp_path):
    text = HEADER + "2001-04-03,1,9\n2001-04-02,1,8\n2001-04-01,1,7\n"
    assert [day.tmax_c for day in days_of(tmp_path, text)] == [7, 8, 9]


def test_a_look_shows_the_header_and_the_first_rows(tmp_path):
    rows = "".join(f"{day},1.5,9.5\n" for day in written_out(date(2001, 4, 1), 30, "%Y-%m-%d"))
    look = look_at_plain(written(tmp_path, (HEADER + rows).encode()))
    assert look.header == ("date", "tmin", "tmax")
    assert look.rows[1] == ("2001-04-02", "1.5", "9.5")
    assert (len(look.rows), look.sampled) == (10, 30)
    assert look.match == PlainMatch(day=0, tmin=1, tmax=2)
    assert (look.rain, look.gust) == (None, None)
    assert all(guess.reason.endswith(".") for guess in (look.dates, look.temperature))


def test_columns_can_be_chosen_by_hand(tmp_path):
    text = "when,night,day,other\n2001-04-01,1.5,9.5,x\n"
    path = written(tmp_path, text.encode())
    assert look_at_plain(path).match == PlainMatch(day=2)
    match = PlainMatch(day=0, tmin=1, tmax=2)
    assert look_at_plain(path, match).dates.order == "ymd"
    assert read_plain(path, match).days == (WeatherDay(date(2001, 4, 1), 1.5, 9.5),)


@pytest.mark.parametrize(
    ("text", "match", "parts"),
    [
        ("a,b,c\n1,2,3\n", None, ("date", "lowest temperature", "highest temperature", "is needed")),
        ("date,tmin,b\n2001-04-01,2,3\n", None, ("highest temperature",)),
        (HEADER + "2001-04-01,1,9\n", PlainMatch(day=0, tmin=1, tmax=3), ("no column 4", "1 to 3")),
        (HEADER + "2001-04-01,1,9\n", PlainMatch(day=0, tmin=1, tmax=-1), ("no column 0", "1 to 3")),
        (HEADER + "2001-04-01,1,9\n", PlainMatch(day=0, tmin=1, tmax=1), ("“tmin”", "lowest", "highest")),
        ("2001-04-01,1,9\n2001-04-02,1,9\n", None, ("first line holds a date", "header line")),
        (HEADER + "2001-04-01,1,9\nmonday,1,9\n", None, ("line 3", "“monday”", "2001-05-31", "1700 to 2200")),
        (HEADER + "2001-04-01,1,9\n2001-04-01,1,9\n", None, ("line 3", "already in line 2", "once")),
        (HEADER + "2001-04-01,10,9\n", None, ("line 2", "10 °C", "9 °C", "above")),
        (HEADER + "2001-04-01,mild,9\n", None, ("line 2", "column “tmin”", "“mild”", "12.8")),
        (HEADER + "2001-04-01,1,61.5\n", PlainMatch(day=0, tmin=1, tmax=2), ("line 2",)),
        (HEADER + "2001-04-01,,\n", None, ("no day has both",)),
        (HEADER + "2001-04-01,1.5,9.5\n" * 1, PlainMatch(tmin=1, tmax=2), ("chosen for the date",)),
        ("year,month,day,low,high\n2001,2,30,1,9\n", None, ("line 2", "“2001 2 30”", "year, month and day")),
    ],
)
def test_a_wrong_file_or_choice_is_refused_with_what_and_where(tmp_path, text, match, parts):
    units = PlainUnits()
    assert_one_sentence(refusal_of(tmp_path, text, match=match, units=units), "list.csv", *parts)


def test_a_value_that_cannot_be_names_the_unit_it_was_read_in(tmp_path):
    text = HEADER + "2001-04-01,1,95\n"
    refusal = refusal_of(tmp_path, text, units=PlainUnits("c"))
    assert_one_sentence(refusal, "line 2", "“95” in °C", "95.0 °C", "unit may be wrong", "-90 to 60")


def test_a_file_cut_off_in_its_last_number_is_refused(tmp_path):
    text = HEADER + "".join(f"{day},1.5,9.25\n" for day in written_out(date(2001, 4, 1), 9, "%Y-%m-%d"))
    assert len(days_of(tmp_path, text[:-1])) == 9
    assert_one_sentence(refusal_of(tmp_path, text[:-2]), "cut off")
    assert_one_sentence(refusal_of(tmp_path, text[:-6]), "cut off")


def test_reading_can_be_watched_and_called_off(tmp_path):
    rows = "".join(f"{day},1.5,9.5\n" for day in written_out(date(1950, 4, 1), 20_000, "%Y-%m-%d"))
    path = written(tmp_path, (HEADER + rows).encode())
    shares: list[float] = []
    assert len(read_plain(path, progress=shares.append).days) == 20_000
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    with pytest.raises(Cancelled):
        read_plain(path, cancelled=lambda: True)


def test_an_import_can_be_put_in_the_ledger(tmp_path):
    weather = read_plain(written(tmp_path, GERMAN.encode()))
    WeatherRecord(day=weather.last, source="file", station=weather.station, days=weather.days).check()
