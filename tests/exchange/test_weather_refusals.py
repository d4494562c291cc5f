"""Weather files with something wrong in them: one sentence says what, where and what is allowed."""

import pytest

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.weather_csv import read_weather, sniff_weather
from tests.exchange.test_text_table import assert_one_sentence, written

HEADER = "STATION,NAME,DATE,PRCP,TMAX,TMIN,WSFG\n"
GOOD = "A,x,2001-01-01,0.0,5.5,-1.5,3.0\n"


def refusal_of(folder, text, **choice) -> BadFileError:
    with pytest.raises(BadFileError) as caught:
        read_weather(written(folder, text.encode(), "weather.csv"), **choice)
    return caught.value


def row(day="2001-01-02", rain="0.0", high="5.5", low="-1.5", gust="3.0") -> str:
    return f"A,x,{day},{rain},{high},{low},{gust}\n"


@pytest.mark.parametrize(
    ("bad", "parts"),
    [
        (row(day="2001-02-29"), ("column “DATE”", "“2001-02-29” is not a date", "2001-05-31")),
        (row(day="01/02/2001"), ("column “DATE”", "“01/02/2001” is not a date")),
        (row(day="2001-13-01"), ("column “DATE”",)),
        (row(day="2001-W05-1"), ("column “DATE”", "is not a date")),
        (row(day="2001W051"), ("column “DATE”", "is not a date")),
        (row(day="1699-12-31"), ("column “DATE”", "1700 to 2200")),
        (row(day="2201-01-01"), ("column “DATE”", "1700 to 2200")),
        (row(day="2001-1-1"), ("column “DATE”",)),
        (row(day="0001-01-01"), ("column “DATE”", "1700 to 2200")),
        (row(day="２００１-01-02"), ("column “DATE”",)),
        (row(day=""), ("column “DATE”",)),
        (row(day="2001-01-01"), ("column “DATE”", "2001-01-01 is already in line 2", "once")),
        (row(high="warm"), ("column “TMAX”", "“warm” is not a number")),
        (row(low="1e1"), ("column “TMIN”", "“1e1” is not a number")),
        (row(low="T"), ("column “TMIN”", "“T” is not a number")),
        (row(low="nan()"), ("column “TMIN”",)),
        (row(rain="-1"), ("column “PRCP”", "0 to 2,000 mm")),
        (row(rain="2001"), ("column “PRCP”", "units may be wrong")),
        (row(gust="121"), ("column “WSFG”", "0 to 120 m/s")),
        (row(gust="-1"), ("column “WSFG”",)),
        (row(high="60.1"), ("column “TMAX”", "60.1 °C", "units may be wrong", "-90 to 60 °C")),
        (row(low="-90.1"), ("column “TMIN”", "-90.1 °C", "units may be wrong")),
        (row(low="5.6"), ("TMIN 5.6 is above TMAX 5.5",)),
        (row(gust="3.0,4.0"), ("8 cells", "7 are needed")),
        (row() + "A,x,2001-01-03,0.0,5.", ("cut off", "5 cells", "7 are needed")),
        (row(high="9" * 500), ("column “TMAX”", "is not a number")),
        (row(high="9" * 5_000), ("cell 5", "5,000 characters")),
    ],
)
def test_a_row_that_cannot_be_true_is_refused_with_its_line_and_column(tmp_path, bad, parts):
    refusal = refusal_of(tmp_path, HEADER + GOOD + bad, units="metric")
    assert_one_sentence(refusal, "weather.csv", "line 4" if "cut off" in parts else "line 3", *parts)


@pytest.mark.parametrize(
    ("header", "parts"),
    [
        ("DAY,TMIN,TMAX", ("no column DATE", "“DAY”, “TMIN”, “TMAX”", "DATE, TMIN and TMAX are needed")),
        (",".join("ABCDEFGH"), ("“G”, “H”; DATE",)),
        ("DATE,LOW,HIGH", ("no column TMIN and no column TMAX", "“LOW”")),
        ("DATE,TMIN,TMIN", ("no column TMAX",)),
        ("DATE,TMIN,TMAX,TMAX", ("the column TMAX is there 2 times",)),
        ("DATE,TMIN,TMAX,WSFG,WSFG", ("the column WSFG is there 2 times",)),
        (",".join(f"COLUMN{n}" for n in range(60)), ("no column DATE", "and 52 more")),
        (
            ",".join(["DATE", "TMIN", "TMAX", *(f"C{n}" for n in range(197))]),
            ("200 columns", "150 are allowed"),
        ),
    ],
)
def test_a_header_that_will_not_do_is_refused_with_what_it_holds(tmp_path, header, parts):
    text = header + "\n" + ",".join("1" for _ in header.split(",")) + "\n"
    assert_one_sentence(refusal_of(tmp_path, text), "weather.csv", *parts)
    with pytest.raises(BadFileError):
        sniff_weather(tmp_path / "weather.csv")


def test_the_widest_archive_files_of_long_records_are_allowed(tmp_path):
    """126 columns: an archive file of a first-order station, 60 elements with their attributes and 6 more."""
    more = [f"E{n:03}" for n in range(123)]
    text = ",".join(["DATE", "TMIN", "TMAX", *more]) + "\n2001-01-01,1.5,2.5" + "," * len(more) + "\n"
    assert len(read_weather(written(tmp_path, text.encode())).days) == 1


def test_the_wrong_units_are_named_as_the_likely_cause(tmp_path):
    text = "DATE,TMIN,TMAX\n2001-07-01,171,333\n"
    assert_one_sentence(refusal_of(tmp_path, text, units="metric"), "171.0 °C", "°C, mm and m/s", "units")
    assert_one_sentence(refusal_of(tmp_path, text, units="us"), "77.2 °C", "°F, inches", "units")


def test_a_file_without_one_whole_day_is_refused(tmp_path):
    text = "DATE,TMIN,TMAX\n2001-07-01,,33.3\n2001-07-02,17.1,\n"
    assert_one_sentence(refusal_of(tmp_path, text), "no day has both TMIN and TMAX")


@pytest.mark.parametrize("cut", ["1", "12", "12.", ""])
def test_a_last_number_cut_short_is_noticed(tmp_path, cut):
    rows = "".join(f"2001-01-{n:02},1.5,{n + 20}.5\n" for n in range(1, 10))
    whole = "DATE,TMIN,TMAX\n" + rows
    text = whole + "2001-01-10,0.5," + cut
    assert_one_sentence(refusal_of(tmp_path, text), "cut off", "a line end is needed")
    assert len(read_weather(written(tmp_path, (whole + "2001-01-10,0.5,12.5").encode())).days) == 10


def test_a_short_last_number_is_fine_where_others_are_short_too(tmp_path):
    text = "DATE,TMIN,TMAX\n" + "".join(f"2001-01-{n:02},1.5,{20 + n / 2:g}\n" for n in range(1, 10))
    assert len(read_weather(written(tmp_path, (text + "2001-01-10,0.5,12").encode())).days) == 10


@pytest.mark.parametrize(("last", "cut"), [("PRCP", "0."), ("PRCP", ""), ("WSFG", "1"), ("TMAX", "12")])
def test_a_cut_is_noticed_in_whatever_column_of_values_comes_last(tmp_path, last, cut):
    before = [name for name in ("DATE", "TMIN", "TMAX") if name != last]
    values = {"DATE": "2001-01-{:02}", "TMIN": "1.5", "TMAX": "12.5"}
    rows = "".join(",".join(values[name] for name in before).format(n) + ",12.5\n" for n in range(1, 5))
    text = ",".join([*before, last]) + "\n" + rows
    cut_row = ",".join(values[name] for name in before).format(5) + "," + cut
    assert_one_sentence(refusal_of(tmp_path, text + cut_row), "cut off")
    assert len(read_weather(written(tmp_path, (text + cut_row + "\n").encode()), "metric").days) == 5


def test_too_few_rows_say_nothing_about_how_numbers_are_written(tmp_path):
    text = "DATE,TMIN,TMAX\n2001-01-01,1.5,12.5\n2001-01-02,1.5,12.5\n2001-01-03,1.5,12"
    assert len(read_weather(written(tmp_path, text.encode())).days) == 3


def test_a_last_column_that_is_not_of_values_may_end_anyhow(tmp_path):
    rows = "".join(f"2001-01-0{n},1.5,12.5,4.25\n" for n in range(1, 9))
    text = "DATE,TMIN,TMAX,SNOW\n" + rows + "2001-01-09,1.5,12.5,4"
    assert len(read_weather(written(tmp_path, text.encode())).days) == 9
