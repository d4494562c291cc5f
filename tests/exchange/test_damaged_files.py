"""Files damaged in any way: refused with a sentence or read whole, never half, never with a crash."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.seed_columns import FIELD_WORDS, ColumnMatch
from greenroom.exchange.seed_list import look_at_seed_list, read_seed_list
from greenroom.exchange.weather_csv import UNITS, read_weather, sniff_weather
from tests.exchange.test_text_table import assert_one_sentence

DATA = Path(__file__).parent.parent / "data"
WEATHER = {
    "metric": b"".join((DATA / "champion_1982_metric.csv").read_bytes().splitlines(keepends=True)[:40]),
    "tenths": (DATA / "archive_2019_tenths.csv").read_bytes(),
    "us": b"".join((DATA / "champion_1985_us.csv").read_bytes().splitlines(keepends=True)[:40]),
}
SEEDS = [(DATA / name).read_bytes() for name in ("seeds_german.csv", "seeds_french.txt", "seeds_english.csv")]
STRAY = [
    b"\x00",
    b'"',
    b",",
    b";",
    b"\t",
    b"\r",
    b"\n",
    b"\xff",
    b"\xc3",
    b"-",
    b".",
    b"9",
    b"\x1a",
    b"%",
    b"99999",
]
MATCHES = st.builds(ColumnMatch, **dict.fromkeys(FIELD_WORDS, st.none() | st.integers(-1, 9)))
OFTEN = settings(max_examples=300, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@st.composite
def damaged(draw, contents: list[bytes]) -> bytes:
    """One of ``contents`` with pieces put in, taken out, repeated or swapped at a few places."""
    data = draw(st.sampled_from(contents))
    for _ in range(draw(st.integers(1, 4))):
        start = draw(st.integers(0, len(data)))
        end = draw(st.integers(start, min(len(data), start + draw(st.sampled_from([0, 1, 5, 80])))))
        piece = draw(st.one_of(st.sampled_from(STRAY), st.binary(max_size=4), st.just(data[start:end] * 2)))
        data = data[:start] + piece + data[end:]
    return data


@OFTEN
@given(content=damaged(list(WEATHER.values())), units=st.sampled_from([*UNITS, None]))
def test_damaged_weather_is_refused_or_whole(tmp_path, content, units):
    path = tmp_path / "weather.csv"
    path.write_bytes(content)
    try:
        sniff_weather(path)
        weather = read_weather(path, units)
    except BadFileError as refusal:
        assert_one_sentence(refusal, "weather.csv")
    else:
        dates = [day.day for day in weather.days]
        assert dates == sorted(set(dates))
        assert weather.missing.days == (dates[-1] - dates[0]).days + 1 - len(dates)
        assert all(
            day.tmin_c is None or day.tmax_c is None or -90 <= day.tmin_c <= day.tmax_c <= 60
            for day in weather.days
        )


@OFTEN
@given(content=damaged(SEEDS), chosen=MATCHES)
def test_a_damaged_seed_list_is_refused_or_whole(tmp_path, content, chosen):
    path = tmp_path / "seeds.csv"
    path.write_bytes(content)
    for match in (None, chosen):
        try:
            look = look_at_seed_list(path)
            rows = read_seed_list(path, match or look.match)
        except BadFileError as refusal:
            assert_one_sentence(refusal, "seeds.csv")
        else:
            assert len(rows) == look.count
            assert all(row.name for row in rows)
            assert all(row.germination is None or 0 <= row.germination <= 1 for row in rows)
            assert len({row.line for row in rows}) == len(rows)


@OFTEN
@given(content=st.binary(max_size=400))
def test_bytes_of_any_kind_are_refused_or_read(tmp_path, content):
    path = tmp_path / "any.csv"
    path.write_bytes(content)
    for read in (sniff_weather, read_weather):
        with pytest.raises(BadFileError) as caught:
            read(path)
        assert_one_sentence(caught.value, "any.csv")


@pytest.mark.parametrize("units", ["metric", "tenths", "us"])
def test_weather_cut_off_anywhere_is_refused_or_is_every_line_before_the_cut(tmp_path, units):
    content = WEATHER[units]
    path = tmp_path / "weather.csv"
    path.write_bytes(content)
    whole = read_weather(path, units).days
    read, refused = 0, 0
    for cut in range(sum(map(len, content.splitlines(keepends=True)[:6])), len(content) - 1):
        path.write_bytes(content[:cut])
        try:
            days = read_weather(path, units).days
        except BadFileError as refusal:
            assert_one_sentence(refusal, "weather.csv")
            refused += 1
        else:
            lines = content[:cut].count(b"\n") + (not content[:cut].endswith(b"\n"))
            assert days == whole[: lines - 1]
            read += 1
    assert refused > read > 0


@pytest.mark.parametrize("content", SEEDS)
def test_a_seed_list_cut_off_in_a_line_never_loses_a_row_unsaid(tmp_path, content):
    path = tmp_path / "seeds.csv"
    path.write_bytes(content)
    match = look_at_seed_list(path).match
    for cut in range(len(content)):
        path.write_bytes(content[:cut])
        try:
            rows = read_seed_list(path, match)
        except BadFileError as refusal:
            assert_one_sentence(refusal, "seeds.csv")
        else:
            lines = content[:cut].count(b"\n") + (not content[:cut].endswith(b"\n"))
            assert len(rows) == lines - 1
