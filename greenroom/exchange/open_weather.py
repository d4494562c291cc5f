"""Daily history and forecasts from Open-Meteo, world-wide and without a key for non-commercial use.

References
----------
Open-Meteo documentation, "Weather Forecast API" and "Historical Weather API". All local times of an
answer are ``utc_offset_seconds`` ahead of UTC, also beyond a change of the clocks, as the service applies
the offset valid at the moment of asking to all of it (its makers' word in their public issue 261). The
hours are therefore asked for in Unix time, which leaves nothing to interpret.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from greenroom.exchange.open_weather_tables import CLOUD, GUST, RADIATION, RAIN, TEMPERATURE, AnswerReader
from greenroom.exchange.text_lines import shown
from greenroom.exchange.weather_gathering import Step
from greenroom.exchange.weather_service import Forecast, ForecastHour
from greenroom.exchange.web import Web
from greenroom.exchange.web_address import parse_address
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

NAME = "Open-Meteo"
CREDIT = "Weather data by Open-Meteo.com (https://open-meteo.com), licensed under CC BY 4.0."
FORECAST_URL = "https://api.open-meteo.com/v1/forecast"
HISTORY_URL = "https://archive-api.open-meteo.com/v1/archive"
DAILY = "temperature_2m_min,temperature_2m_max,precipitation_sum,wind_gusts_10m_max"
HOURLY = "temperature_2m,cloud_cover,wind_gusts_10m,precipitation,shortwave_radiation"
FORECAST_DAYS = 16
MOST_PAST_DAYS = 92
YEARS_A_REQUEST = 5
LONGEST_OFFSET_S = 14 * 3600
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


class OpenMeteo:
    """A ``WeatherService`` on the Open-Meteo interface.

    Parameters
    ----------
    forecast_url, history_url : str, optional
        Where to ask, such as a server of one's own; https, or http on this very computer.
    past_days : int, optional
        How many days before today a forecast goes back, 0 to 92.
    web : Web, optional
        What does the asking.

    Raises
    ------
    ValueError
        If an address or ``past_days`` is not allowed.
    """

    def __init__(
        self,
        forecast_url: str = FORECAST_URL,
        history_url: str = HISTORY_URL,
        past_days: int = 2,
        web: Web | None = None,
    ) -> None:
        if not 0 <= past_days <= MOST_PAST_DAYS:
            raise ValueError(f"past_days {past_days!r} is out of range; 0 to {MOST_PAST_DAYS} are allowed")
        self._forecast = parse_address(forecast_url)
        self._history = parse_address(history_url)
        self._past_days = past_days
        self._web = Web(NAME) if web is None else web

    @property
    def name(self) -> str:
        """What the service is called."""
        return NAME

    @property
    def credit(self) -> str:
        """The line to show beside its data."""
        return CREDIT

    def history(
        self,
        latitude: float,
        longitude: float,
        first: date,
        last: date,
        progress: Callable[[float], object] | None = None,
        cancelled: Callable[[], bool] | None = None,
    ) -> tuple[WeatherDay, ...]:
        """Return the days from ``first`` to ``last``, as ``WeatherService.history`` says.

        Days of which nothing is known, as those of the last week often are, are left out.
        """
        if first > last:
            raise ValueError(f"first {first} comes after last {last}; it must not")
        place = _place_fields(latitude, longitude)
        step = Step(progress, cancelled)
        step(0.0)
        spans = list(_spans(first, last))
        days: list[WeatherDay] = []
        for done, (start, end) in enumerate(spans, start=1):
            span = {"start_date": start.isoformat(), "end_date": end.isoformat()}
            answer = self._web.fetch(self._history, {**place, **span, "daily": DAILY}, cancelled)
            days += _days(AnswerReader(NAME, answer), timedelta(0), start, end)
            step(done / len(spans))
        return tuple(day for day in days if any(value is not None for value in day[1:]))

    def forecast(
        self,
        latitude: float,
        longitude: float,
        fetched_at: datetime,
        cancelled: Callable[[], bool] | None = None,
    ) -> Forecast:
        """Return the forecast for 16 days, as ``WeatherService.forecast`` says."""
        if fetched_at.tzinfo is None:
            raise ValueError(f"fetched_at {fetched_at} has no time zone; one is needed")
        span = {
            "past_days": str(self._past_days),
            "forecast_days": str(FORECAST_DAYS),
            "timeformat": "unixtime",
        }
        fields = {**_place_fields(latitude, longitude), **span, "daily": DAILY, "hourly": HOURLY}
        reader = AnswerReader(NAME, self._web.fetch(self._forecast, fields, cancelled))
        offset_s = round(reader.number("utc_offset_seconds", -LONGEST_OFFSET_S, LONGEST_OFFSET_S))
        offset = timedelta(seconds=offset_s)
        today = fetched_at.astimezone(UTC).date()
        around = timedelta(days=MOST_PAST_DAYS + FORECAST_DAYS)
        return Forecast(
            fetched_at=fetched_at.astimezone(UTC),
            source=NAME,
            credit=CREDIT,
            latitude=reader.number("latitude", -90, 90),
            longitude=reader.number("longitude", -180, 180),
            zone=_known_zone(reader.text("timezone")),
            days=tuple(_days(reader, offset, today - around, today + around)),
            hours=tuple(_hours(reader, offset)),
        )


def _place_fields(latitude: float, longitude: float) -> dict[str, str]:
    if not -90 <= latitude <= 90:
        raise ValueError(f"latitude {latitude!r} is not on the globe; -90 to 90 is allowed")
    if not -180 <= longitude <= 180:
        raise ValueError(f"longitude {longitude!r} is not on the globe; -180 to 180 is allowed")
    return {
        "latitude": f"{latitude:.4f}",
        "longitude": f"{longitude:.4f}",
        "timezone": "auto",
        "temperature_unit": "celsius",
        "wind_speed_unit": "ms",
        "precipitation_unit": "mm",
    }


def _spans(first: date, last: date) -> Iterator[tuple[date, date]]:
    """Yield stretches of a few years, each to the end of a year."""
    start = first
    while start <= last:
        end = min(last, date(start.year + YEARS_A_REQUEST - 1, 12, 31))
        yield start, end
        start = end + timedelta(days=1)


def _days(reader: AnswerReader, offset: timedelta, first: date, last: date) -> list[WeatherDay]:
    dates = [_day(reader, time, offset) for time in reader.times("daily")]
    if any(later - earlier != timedelta(days=1) for earlier, later in pairwise(dates)):
        raise reader.refusal(tr("as its days do not follow each other"))
    if dates[0] < first or dates[-1] > last:
        raise reader.refusal(
            tr(
                "as its days are {start} to {end} where {first} to {last} were asked for",
                start=dates[0],
                end=dates[-1],
                first=first,
                last=last,
            )
        )
    lows = reader.column("daily", "temperature_2m_min", TEMPERATURE)
    highs = reader.column("daily", "temperature_2m_max", TEMPERATURE)
    rains = reader.column("daily", "precipitation_sum", RAIN)
    gusts = reader.column("daily", "wind_gusts_10m_max", GUST)
    days = [WeatherDay(*values) for values in zip(dates, lows, highs, rains, gusts, strict=True)]
    for day in days:
        if day.tmin_c is not None and day.tmax_c is not None and day.tmin_c > day.tmax_c:
            raise reader.refusal(tr("as the lowest of {day} is above its highest", day=day.day))
    return days


def _hours(reader: AnswerReader, offset: timedelta) -> list[ForecastHour]:
    times = [_moment(reader, time, offset) for time in reader.times("hourly")]
    if any(later - earlier != timedelta(hours=1) for earlier, later in pairwise(times)):
        raise reader.refusal(tr("as its hours do not follow each other"))
    columns = (
        reader.column("hourly", "temperature_2m", TEMPERATURE),
        reader.column("hourly", "cloud_cover", CLOUD),
        reader.column("hourly", "wind_gusts_10m", GUST),
        reader.column("hourly", "precipitation", RAIN),
        reader.column("hourly", "shortwave_radiation", RADIATION),
    )
    return [ForecastHour(*values) for values in zip(times, *columns, strict=True)]


def _day(reader: AnswerReader, time: str | int, offset: timedelta) -> date:
    """Return the day that text names, or whose midnight on the answer's clock is nearest to a Unix time."""
    try:
        if isinstance(time, str):
            return date.fromisoformat(time)
        return (EPOCH + timedelta(seconds=time) + offset + timedelta(hours=12)).date()
    except (ValueError, OverflowError) as error:
        raise reader.refusal(tr("as {found} is no date", found=shown(str(time)[:30]))) from error


def _moment(reader: AnswerReader, time: str | int, offset: timedelta) -> datetime:
    """Return the moment of a Unix time, or of text, which is ``offset`` ahead of UTC or names its own."""
    try:
        if isinstance(time, int):
            return EPOCH + timedelta(seconds=time)
        local = datetime.fromisoformat(time)
        return (local - offset).replace(tzinfo=UTC) if local.tzinfo is None else local.astimezone(UTC)
    except (ValueError, OverflowError) as error:
        raise reader.refusal(tr("as {found} is no time", found=shown(str(time)[:30]))) from error


def _known_zone(name: str) -> str:
    """Return the name of a time zone if this computer knows it."""
    try:
        return ZoneInfo(name).key
    except (KeyError, ValueError, OSError):
        return ""
