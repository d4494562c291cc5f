"""Weather from Open-Meteo: documented answers read right, others refused, hours on the right clock.

The forms are those of the service's documentation ("Weather Forecast API", "Historical Weather API"); the
server is on this computer.
"""

import copy
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from greenroom.exchange.errors import Cancelled
from greenroom.exchange.open_weather import FORECAST_URL, HISTORY_URL, OpenMeteo
from greenroom.exchange.weather_service import Forecast, ForecastHour, ServiceError
from greenroom.exchange.web_address import parse_address
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from tests.exchange.local_server import answering, dripping, serving
from tests.exchange.test_text_table import assert_one_sentence

NOW = datetime(2025, 10, 24, 8, 30, tzinfo=UTC)
FIRST = date(2025, 10, 24)
PLACE = (47.5170, 12.0980)
DAYS = 4
UNITS = {
    "time": "iso8601",
    "temperature_2m_min": "°C",
    "temperature_2m_max": "°C",
    "precipitation_sum": "mm",
    "wind_gusts_10m_max": "m/s",
    "temperature_2m": "°C",
    "cloud_cover": "%",
    "wind_gusts_10m": "m/s",
    "precipitation": "mm",
    "shortwave_radiation": "W/m²",
}
DAILY_KEYS = ("temperature_2m_min", "temperature_2m_max", "precipitation_sum", "wind_gusts_10m_max")
HOURLY_KEYS = ("temperature_2m", "cloud_cover", "wind_gusts_10m", "precipitation", "shortwave_radiation")


def daily(first: date = FIRST, days: int = DAYS) -> dict[str, list]:
    """Return a table of days in ISO dates, as the documentation shows it."""
    dates = [(first + timedelta(days=number)).isoformat() for number in range(days)]
    columns = ([3.5] * days, [12.5] * days, [0.4] * days, [7.2] * days)
    return {"time": dates, **dict(zip(DAILY_KEYS, columns, strict=True))}


def forecast_answer(days: int = DAYS, offset_s: int = 7200) -> dict:
    """Return a forecast in ISO local times, as the documentation shows it."""
    hours = days * 24
    local = [datetime.combine(FIRST, datetime.min.time()) + timedelta(hours=n) for n in range(hours)]
    columns = ([8.0] * hours, [75] * hours, [4.5] * hours, [0.1] * hours, [120.0] * hours)
    return {
        "latitude": 47.52,
        "longitude": 12.1,
        "generationtime_ms": 0.2,
        "utc_offset_seconds": offset_s,
        "timezone": "Europe/Vienna",
        "timezone_abbreviation": "CEST",
        "elevation": 500.0,
        "daily_units": {key: UNITS[key] for key in ("time", *DAILY_KEYS)},
        "daily": daily(days=days),
        "hourly_units": {key: UNITS[key] for key in ("time", *HOURLY_KEYS)},
        "hourly": {
            "time": [f"{moment:%Y-%m-%dT%H:%M}" for moment in local],
            **dict(zip(HOURLY_KEYS, columns, strict=True)),
        },
    }


def in_unix_time(answer: dict) -> dict:
    """Return the answer as ``timeformat=unixtime`` gives it: seconds of UTC, days from local midnight."""
    changed = copy.deepcopy(answer)
    for section in ("daily", "hourly"):
        changed[f"{section}_units"]["time"] = "unixtime"
        changed[section]["time"] = [
            round(datetime.fromisoformat(text).replace(tzinfo=UTC).timestamp()) - answer["utc_offset_seconds"]
            for text in answer[section]["time"]
        ]
    return changed


def history_answer(first: date, last: date) -> dict:
    answer = forecast_answer()
    return {
        **{
            key: answer[key]
            for key in ("latitude", "longitude", "utc_offset_seconds", "timezone", "daily_units")
        },
        "daily": daily(first, (last - first).days + 1),
    }


class Canned:
    """Stands where the web is asked and gives one answer; what was asked is kept."""

    def __init__(self, answer: dict) -> None:
        self.answer = answer
        self.asked: list[dict[str, str]] = []

    def fetch(self, address, fields, cancelled=None) -> dict:
        self.asked.append(dict(fields))
        return self.answer


def forecast_of(answer: dict) -> Forecast:
    return OpenMeteo(web=Canned(answer)).forecast(*PLACE, NOW)


def refusal_of(answer: dict) -> ServiceError:
    with pytest.raises(ServiceError) as caught:
        forecast_of(answer)
    return caught.value


def changed(section: str, key: str, value: object) -> dict:
    answer = forecast_answer()
    (answer if section == "" else answer[section])[key] = value
    return answer


def archive(handler) -> None:
    """Answer as the historical interface does, for the days asked for."""
    days = [date.fromisoformat(handler.fields[name]) for name in ("start_date", "end_date")]
    answering(history_answer(*days))(handler)


@pytest.mark.parametrize("answer", [forecast_answer(), in_unix_time(forecast_answer())], ids=["iso", "unix"])
def test_a_forecast_over_the_web_reads_as_documented(answer):
    with serving(answering(answer)) as server:
        service = OpenMeteo(forecast_url=server.url, history_url=server.url)
        forecast = service.forecast(*PLACE, NOW)
    assert (forecast.fetched_at, forecast.source, forecast.zone) == (NOW, "Open-Meteo", "Europe/Vienna")
    assert (forecast.latitude, forecast.longitude) == (47.52, 12.1)
    assert forecast.days[0] == WeatherDay(date(2025, 10, 24), 3.5, 12.5, 0.4, 7.2)
    assert [day.day for day in forecast.days] == [FIRST + timedelta(days=number) for number in range(DAYS)]
    assert forecast.hours[0] == ForecastHour(
        datetime(2025, 10, 23, 22, tzinfo=UTC), 8.0, 0.75, 4.5, 0.1, 120.0
    )
    assert forecast.credit == service.credit
    assert "CC BY 4.0" in service.credit
    asked = server.requests[0].fields
    assert (asked["latitude"], asked["longitude"]) == ("47.5170", "12.0980")
    assert (asked["timezone"], asked["wind_speed_unit"]) == ("auto", "ms")
    assert set(asked["daily"].split(",")) == set(DAILY_KEYS)
    assert set(asked["hourly"].split(",")) == set(HOURLY_KEYS)


def test_hours_are_right_through_a_change_of_the_clocks():
    """The service keeps one offset through its answer (public issue 261), so each hour comes once.

    On 26 October 2025 clocks in Vienna went from 03:00 CEST back to 02:00 CET, at 01:00 UTC: IANA time
    zone database.
    """
    vienna = ZoneInfo("Europe/Vienna")
    for answer in (forecast_answer(), in_unix_time(forecast_answer())):
        hours = forecast_of(answer).hours
        assert all(later.time - earlier.time == timedelta(hours=1) for earlier, later in pairwise(hours))
        assert len({hour.time for hour in hours}) == DAYS * 24
        local = [hour.time.astimezone(vienna) for hour in hours]
        assert sum((moment.day, moment.hour) == (26, 2) for moment in local) == 2
        assert hours[0].time == datetime(2025, 10, 24, tzinfo=vienna)
        assert hours[-1].time == datetime(2025, 10, 27, 22, tzinfo=vienna)


def test_days_in_unix_time_keep_their_dates_through_a_change_of_the_clocks():
    """The times of days are those of a real answer for 47.5 N 12.1 E, given in public issue 1545."""
    answer = in_unix_time(forecast_answer())
    answer["daily"]["time"] = [1761256800, 1761343200, 1761429600, 1761516000]
    assert [day.day.day for day in forecast_of(answer).days] == [24, 25, 26, 27]
    # Days that began at local midnight on both sides of the change would have their dates, too.
    answer["daily"]["time"] = [1761256800, 1761343200, 1761429600, 1761519600]
    assert [day.day.day for day in forecast_of(answer).days] == [24, 25, 26, 27]


@pytest.mark.parametrize("offset_s", [-36000, 0, 20700, 50400])
def test_an_hour_is_the_same_moment_in_every_zone(offset_s):
    """+05:45 is Nepal's offset, +14:00 the greatest: IANA time zone database."""
    hours = forecast_of(forecast_answer(offset_s=offset_s)).hours
    midnight = datetime(2025, 10, 24, tzinfo=UTC)
    assert hours[0].time == midnight - timedelta(seconds=offset_s)
    assert hours == forecast_of(in_unix_time(forecast_answer(offset_s=offset_s))).hours


def test_what_is_not_known_is_none():
    answer = forecast_answer()
    answer["daily"]["temperature_2m_min"][1] = None
    answer["hourly"]["cloud_cover"][3] = None
    answer["hourly"]["shortwave_radiation"] = [None] * (DAYS * 24)
    answer["hourly_units"]["shortwave_radiation"] = "undefined"
    forecast = forecast_of(answer)
    assert [day.tmin_c for day in forecast.days] == [3.5, None, 3.5, 3.5]
    assert [hour.cloud for hour in forecast.hours[2:5]] == [0.75, None, 0.75]
    assert {hour.shortwave_w_m2 for hour in forecast.hours} == {None}


@pytest.mark.parametrize(
    ("key", "unit", "given_value", "expected"),
    [
        ("temperature_2m_max", "°F", 68.0, 20.0),
        ("precipitation_sum", "inch", 2.0, 50.8),
        ("wind_gusts_10m_max", "km/h", 36.0, 10.0),
        ("wind_gusts_10m_max", "mp/h", 10.0, 4.47),
        ("wind_gusts_10m_max", "kn", 10.0, 5.144),
    ],
)
def test_values_are_read_in_the_units_the_answer_names(key, unit, given_value, expected):
    """Exact by definition: NIST Special Publication 811 (2008), appendix B."""
    answer = changed("daily", key, [given_value] * DAYS)
    answer["daily_units"][key] = unit
    day = forecast_of(answer).days[0]
    assert {expected} == set(day[1:]) - {3.5, 12.5, 0.4, 7.2}


def without(section: str, key: str) -> dict:
    answer = forecast_answer()
    del (answer if section == "" else answer[section])[key]
    return answer


@pytest.mark.parametrize(
    ("answer", "parts"),
    [
        (
            changed("daily_units", "wind_gusts_10m_max", "furlongs"),
            ("wind_gusts_10m_max", "“furlongs”", "m/s"),
        ),
        (without("daily_units", "precipitation_sum"), ("precipitation_sum", "mm")),
        (without("", "daily_units"), ("daily_units", "missing")),
        (without("", "daily"), ("daily", "missing")),
        (without("", "hourly"), ("hourly", "missing")),
        (without("", "utc_offset_seconds"), ("utc_offset_seconds", "no number")),
        (without("hourly", "cloud_cover"), ("cloud_cover", "as long as its times")),
        (changed("", "daily", []), ("daily", "missing")),
        (changed("", "timezone", 5), ("timezone", "no text")),
        (changed("", "utc_offset_seconds", 10**6), ("utc_offset_seconds", "1000000", "-50,400 to 50,400")),
        (changed("daily", "time", ["24.10.2025"] * DAYS), ("“24.10.2025”", "no date")),
        (changed("daily", "time", ["2025-10-24"] * DAYS), ("do not follow each other",)),
        (changed("daily", "time", []), ("0 rows",)),
        (changed("daily", "time", [True] * DAYS), ("no list of times",)),
        (changed("daily", "time", ["1925-10-24", "1925-10-25", "1925-10-26", "1925-10-27"]), ("1925-10-24",)),
        (changed("hourly", "time", [10**15] * DAYS * 24), ("1000000000000000", "no time")),
        (changed("hourly", "time", ["2025-10-24T00:00"] * DAYS * 24), ("do not follow each other",)),
        (changed("daily", "temperature_2m_min", [3.5] * 3), ("as long as its times",)),
        (changed("daily", "temperature_2m_min", ["3.5"] * DAYS), ("no number",)),
        (changed("daily", "temperature_2m_min", [True] * DAYS), ("no number",)),
        (changed("daily", "temperature_2m_min", [99.0] * DAYS), ("99.0", "-90 to 60")),
        (changed("daily", "temperature_2m_min", [12.6] * DAYS), ("2025-10-24", "above its highest")),
        (changed("daily", "precipitation_sum", [-1.0] * DAYS), ("-1.0", "0 to 2,000")),
        (changed("daily", "precipitation_sum", [10**400] * DAYS), ("precipitation_sum", "possible")),
        (changed("daily", "precipitation_sum", [float("inf")] * DAYS), ("inf", "possible")),
        (changed("hourly", "cloud_cover", [101] * DAYS * 24), ("cloud_cover", "0 to 1")),
    ],
)
def test_an_answer_not_as_documented_is_refused_with_what_is_wrong(answer, parts):
    assert_one_sentence(refusal_of(answer), "Open-Meteo", "unknown form", "nothing of it was used", *parts)


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=10),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=8,
)


@settings(max_examples=300)
@given(st.data())
def test_an_answer_changed_anywhere_is_refused_or_read_whole(data):
    answer = forecast_answer(days=2)
    for _ in range(data.draw(st.integers(1, 3))):
        place: dict | list = answer
        key = data.draw(st.sampled_from(list(place)))
        while isinstance(place[key], dict | list) and place[key] and data.draw(st.booleans()):
            place = place[key]
            key = data.draw(st.sampled_from(range(len(place)) if isinstance(place, list) else list(place)))
        place[key] = data.draw(JSON)
    try:
        forecast = forecast_of(answer)
    except ServiceError as refusal:
        assert_one_sentence(refusal, "Open-Meteo")
    else:
        assert all(day.tmin_c is None or -90 <= day.tmin_c <= 60 for day in forecast.days)
        assert all(hour.cloud is None or 0 <= hour.cloud <= 1 for hour in forecast.hours)
        assert len({day.day for day in forecast.days}) == len(forecast.days)


def test_a_zone_this_computer_does_not_know_does_not_stop_the_forecast():
    forecast = forecast_of(changed("", "timezone", "Mars/Olympus"))
    assert forecast.zone == ""
    assert forecast.hours[0].time == datetime(2025, 10, 23, 22, tzinfo=UTC)


def test_history_comes_in_stretches_of_years_that_leave_no_day_out():
    shares: list[float] = []
    first, last = date(1999, 3, 15), date(2015, 6, 2)
    with serving(archive) as server:
        service = OpenMeteo(forecast_url=server.url, history_url=server.url)
        days = service.history(*PLACE, first, last, progress=shares.append)
    assert [day.day for day in days] == [first + timedelta(days=n) for n in range((last - first).days + 1)]
    spans = [(request.fields["start_date"], request.fields["end_date"]) for request in server.requests]
    assert spans[0] == ("1999-03-15", "2003-12-31")
    assert spans[-1] == ("2014-01-01", "2015-06-02")
    assert len(spans) == 4
    assert shares == [0.0, 0.25, 0.5, 0.75, 1.0]
    WeatherRecord(day=last, source=service.name, days=days).check()


def test_days_the_archive_does_not_have_yet_are_left_out():
    answer = history_answer(date(2024, 5, 1), date(2024, 5, 5))
    for key in DAILY_KEYS:
        answer["daily"][key][-2:] = [None, None]
    answer["daily"]["wind_gusts_10m_max"][0] = None
    days = OpenMeteo(web=Canned(answer)).history(*PLACE, date(2024, 5, 1), date(2024, 5, 5))
    assert [day.day.day for day in days] == [1, 2, 3]
    assert days[0] == WeatherDay(date(2024, 5, 1), 3.5, 12.5, 0.4, None)


def test_history_is_all_or_nothing():
    """The second stretch of years fails, so the first is not given either."""
    fails = answering({"error": True, "reason": "Parameter 'end_date' is out of allowed range"}, 400)
    with serving(archive, fails) as server, pytest.raises(ServiceError) as caught:
        OpenMeteo(history_url=server.url).history(*PLACE, date(2000, 1, 1), date(2009, 12, 31))
    assert_one_sentence(caught.value, "Open-Meteo", "400", "out of allowed range")


def test_history_is_called_off_between_and_within_its_stretches():
    asked: list[float] = []
    with serving(archive) as server, pytest.raises(Cancelled):
        OpenMeteo(history_url=server.url).history(
            *PLACE, date(2000, 1, 1), date(2019, 12, 31), asked.append, lambda: len(asked) > 1
        )
    assert len(server.requests) == 1
    with serving(dripping) as server, pytest.raises(Cancelled):
        OpenMeteo(history_url=server.url).history(
            *PLACE, date(2000, 1, 1), date(2000, 1, 2), cancelled=lambda: bool(server.requests)
        )


def test_days_that_were_not_asked_for_are_refused():
    answer = history_answer(date(2024, 5, 1), date(2024, 5, 5))
    with pytest.raises(ServiceError) as caught:
        OpenMeteo(web=Canned(answer)).history(*PLACE, date(2024, 5, 1), date(2024, 5, 4))
    assert_one_sentence(caught.value, "2024-05-05", "2024-05-04")


@pytest.mark.parametrize("place", [(91.0, 0.0), (0.0, 181.0), (float("nan"), 0.0), (0.0, float("inf"))])
def test_a_place_off_the_globe_is_refused_before_asking(place):
    canned = Canned(forecast_answer())
    service = OpenMeteo(web=canned)
    with pytest.raises(ValueError, match="not on the globe"):
        service.forecast(*place, NOW)
    with pytest.raises(ValueError, match="not on the globe"):
        service.history(*place, FIRST, FIRST)
    assert canned.asked == []


def test_what_makes_no_sense_is_refused_before_asking():
    service = OpenMeteo(web=Canned(forecast_answer()))
    with pytest.raises(ValueError, match="comes after"):
        service.history(*PLACE, date(2024, 5, 2), date(2024, 5, 1))
    with pytest.raises(ValueError, match="no time zone"):
        service.forecast(*PLACE, datetime(2025, 10, 24, 8, 30))  # noqa: DTZ001 - that is the point
    with pytest.raises(ValueError, match="https"):
        OpenMeteo(forecast_url="http://example.org/v1/forecast")
    with pytest.raises(ValueError, match="0 to 92"):
        OpenMeteo(past_days=93)


def test_the_service_is_asked_over_tls_at_its_own_addresses():
    """As its documentation names them; nothing is asked here."""
    asked = [parse_address(url) for url in (FORECAST_URL, HISTORY_URL)]
    assert all(address.secure and address.port == 443 for address in asked)
    assert [address.host for address in asked] == ["api.open-meteo.com", "archive-api.open-meteo.com"]
    assert [address.path for address in asked] == ["/v1/forecast", "/v1/archive"]
