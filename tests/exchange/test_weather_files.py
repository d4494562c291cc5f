"""One door for weather files: the form is seen by what stands in the file, and damage never gets through."""

from datetime import date, timedelta
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_csv import Station
from greenroom.exchange.weather_files import (
    FORM_WORDS,
    WeatherChoice,
    look_at_weather,
    read_weather_file,
    recognise,
)
from greenroom.exchange.weather_plain import PlainMatch, PlainUnits
from greenroom.ledger.facts import WeatherDay
from tests.exchange.test_damaged_files import STRAY, damaged
from tests.exchange.test_text_table import assert_one_sentence, written
from tests.exchange.weather_files_made import DATA, champion_1985, dly_text, epw_row, epw_text

SUMMARIES = "".join((DATA / "champion_1982_metric.csv").read_text().splitlines(keepends=True)[:30])
DLY = dly_text({name: dict(list(days.items())[:59]) for name, days in champion_1985().items()})
EPW = epw_text(
    epw_row(date(2001, 5, 31) + timedelta(days=day), hour, hour / 2, hour / 10)
    for day in range(2)
    for hour in range(1, 25)
)
PLAIN = "Day;low °C;high °C;rain mm;gust km/h\n" + "".join(
    f"{day}.4.2001;{day / 4:.1f};{day / 2 + 9:.1f};0,5;{20 + day}.5\n" for day in range(1, 31)
)
FILES = {"summaries": SUMMARIES, "dly": DLY, "epw": EPW, "plain": PLAIN}
ABSURD = [b"999999", b"-999999", b"1e308", b"nan", b"inf", b"-", b"0x1f", b"\xd9\xa3", b"9" * 400]
OFTEN = settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@st.composite
def with_absurd_values(draw, contents: list[bytes]) -> bytes:
    """One of ``contents`` with cells or columns overwritten by what no station measures."""
    data = draw(st.sampled_from(contents))
    for _ in range(draw(st.integers(1, 3))):
        place = draw(st.integers(0, len(data) - 1))
        value = draw(st.sampled_from([*ABSURD, *STRAY]))
        over = draw(st.sampled_from([0, len(value)]))
        data = data[:place] + value + data[place + over :]
    return data


def check_whole_or_refused(path: Path) -> None:
    """Read a damaged file: one sentence, or days in order that could have been."""
    try:
        look = look_at_weather(path)
        assert look.words in FORM_WORDS.values()
        days = read_weather_file(path).days
    except BadFileError as refusal:
        assert_one_sentence(refusal, path.name)
        return
    assert [day.day for day in days] == sorted({day.day for day in days})
    for day in days:
        assert day.tmin_c is None or day.tmax_c is None or -90 <= day.tmin_c <= day.tmax_c <= 60
        assert day.rain_mm is None or 0 <= day.rain_mm <= 24 * 2_000
        assert day.gust_ms is None or 0 <= day.gust_ms <= 120
    assert any(day.tmin_c is not None and day.tmax_c is not None for day in days)


@pytest.mark.parametrize("form", FILES)
def test_each_form_is_recognised_by_what_stands_in_it(tmp_path, form):
    path = written(tmp_path, FILES[form].encode(), "weather.txt")
    assert recognise(path) == form
    look = look_at_weather(path)
    assert (look.form, look.words) == (form, FORM_WORDS[form])
    assert len(read_weather_file(path).days) >= 2


def test_the_forms_tell_the_same_days_alike(tmp_path):
    """Champion 1985 as raw lines and as a table of the same source, which has hundredths."""
    raw = read_weather_file(written(tmp_path, DLY.encode(), "a.dly")).days
    table = read_weather_file(DATA / "champion_1985_source.csv").days[: len(raw)]
    assert [day.day for day in raw] == [day.day for day in table]
    assert [day.tmin_c for day in raw] == pytest.approx([day.tmin_c for day in table], abs=0.0501)


def test_a_table_that_only_resembles_the_summaries_is_read_with_all_its_columns(tmp_path):
    path = written(tmp_path, b"date,tmin,tmax,rain\n31/05/2001,1,9,4.5\n01/06/2001,2,8,0\n")
    assert recognise(path) == "plain"
    assert [day.rain_mm for day in read_weather_file(path).days] == [4.5, 0.0]


def test_what_a_file_leaves_open_can_be_chosen(tmp_path):
    path = written(tmp_path, b"when,n,d\n03/04/2001,41,50\n")
    choice = WeatherChoice(match=PlainMatch(day=0, tmin=1, tmax=2), order="dmy", plain_units=PlainUnits("f"))
    assert read_weather_file(path, choice).days == (WeatherDay(date(2001, 4, 3), 5, 10),)
    two = DLY + DLY.replace("XX000000001", "XX000000002")
    look = look_at_weather(written(tmp_path, two.encode(), "two.dly"))
    assert look.stations == (Station("XX000000001"), Station("XX000000002"))
    chosen = read_weather_file(tmp_path / "two.dly", WeatherChoice(station="XX000000002"))
    assert chosen.station == "XX000000002"
    summaries = written(tmp_path, SUMMARIES.encode(), "s.csv")
    assert read_weather_file(summaries, WeatherChoice(units="tenths")).units == "tenths"


def test_an_hourly_file_says_what_it_cannot_tell(tmp_path):
    look = look_at_weather(written(tmp_path, EPW.encode(), "a.epw"))
    assert look.stations == (Station("703165", "Invented Bay, AK, USA"),)
    assert look.notes
    assert look_at_weather(written(tmp_path, PLAIN.encode())).notes == ()


@pytest.mark.parametrize("form", FILES)
def test_any_form_can_be_watched_and_called_off(tmp_path, form):
    path = written(tmp_path, FILES[form].encode(), "weather.txt")
    shares: list[float] = []
    read_weather_file(path, progress=shares.append)
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    with pytest.raises(Cancelled):
        read_weather_file(path, cancelled=lambda: True)


@OFTEN
@given(content=damaged([text.encode() for text in FILES.values()]))
def test_a_damaged_file_of_any_form_is_refused_or_whole(tmp_path, content):
    check_whole_or_refused(written(tmp_path, content, "weather.txt"))


@OFTEN
@given(content=with_absurd_values([text.encode() for text in FILES.values()]))
def test_absurd_values_are_refused_or_fall_where_nothing_is_read(tmp_path, content):
    check_whole_or_refused(written(tmp_path, content, "weather.txt"))


@OFTEN
@given(content=st.binary(max_size=300), form=st.sampled_from(list(FILES)))
def test_bytes_of_any_kind_behind_a_right_beginning_are_refused_or_read(tmp_path, content, form):
    start = "".join(FILES[form].splitlines(keepends=True)[:10]).encode()
    check_whole_or_refused(written(tmp_path, start + content, "weather.txt"))


@pytest.mark.parametrize("form", ["dly", "epw", "plain"])
def test_a_file_cut_off_anywhere_is_refused_or_is_every_line_before_the_cut(tmp_path, form):
    content = FILES[form].encode()
    path = written(tmp_path, content, "weather.txt")
    whole = {day.day: day for day in read_weather_file(path).days}
    # From four rows on the last number is compared with those above it.
    read, begin = 0, len(b"".join(content.splitlines(keepends=True)[: 5 if form == "plain" else 2]))
    for cut in range(begin, len(content), 1 if form == "plain" else 7):
        path.write_bytes(content[:cut])
        try:
            days = read_weather_file(path).days
        except BadFileError as refusal:
            assert_one_sentence(refusal, "weather.txt")
        else:
            read += 1
            for day in days:
                assert differs_only_by_what_is_lacking(day, whole[day.day], form)
    assert read < (len(content) - begin) / 3


def differs_only_by_what_is_lacking(day: WeatherDay, full: WeatherDay, form: str) -> bool:
    """Whole lines of raw data may be gone, and with them an element of a month; nothing else may differ."""
    if form == "dly":
        return all(value in (None, known) for value, known in zip(day, full, strict=True))
    return day == full
