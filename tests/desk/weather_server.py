"""A weather service on this computer, for the tests of the page that asks one."""

import itertools
from datetime import UTC, date, datetime, time, timedelta

from greenroom.exchange.open_weather import OpenMeteo
from greenroom.exchange.web import Patience, Web
from tests.exchange.local_server import answering
from tests.exchange.test_weather_service import forecast_answer, history_answer, in_unix_time

IMPATIENT = Patience(
    connect_s=1.0, read_s=0.3, answer_s=0.6, total_s=2.0, tries=2, first_wait_s=0.01, busy_wait_s=0.02
)
DAYS = 18


def service_at(server):
    """The service of the program, asking a server on this computer, and soon giving up."""
    return OpenMeteo(server.url, server.url, web=Web("Open-Meteo", IMPATIENT))


def forecast_from(first: date, tmin: float = 3.5):
    """Answer with a forecast from a day on, in Unix time, as the documentation shows it."""
    answer = forecast_answer(days=DAYS)
    begin = datetime.combine(first, time())
    answer["daily"]["time"] = [f"{first + timedelta(days=number)}" for number in range(DAYS)]
    answer["daily"]["temperature_2m_min"] = [tmin] * DAYS
    answer["hourly"]["time"] = [f"{begin + timedelta(hours=n):%Y-%m-%dT%H:%M}" for n in range(24 * DAYS)]
    return answering(in_unix_time(answer))


def archive(handler) -> None:
    """Answer as the historical interface does, for the days asked for."""
    first, last = (date.fromisoformat(handler.fields[name]) for name in ("start_date", "end_date"))
    answering(history_answer(first, last))(handler)


class Told:
    """A service that answers at once from this process; what was asked is kept."""

    name = "Sky Office"
    credit = "Weather data by the Sky Office."

    def __init__(self, *answers):
        self._answers = itertools.chain(answers, itertools.repeat(answers[-1]))
        self.asked = []

    def forecast(self, latitude, longitude, fetched_at, cancelled=None):
        self.asked.append((latitude, longitude, fetched_at))
        answer = next(self._answers)
        if isinstance(answer, Exception):
            raise answer
        return answer(fetched_at)

    def history(self, latitude, longitude, first, last, progress=None, cancelled=None):
        self.asked.append((latitude, longitude, first, last))
        answer = next(self._answers)
        if isinstance(answer, Exception):
            raise answer
        return answer(first, last)


def utc(day: date, hour: int, minute: int = 0) -> datetime:
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=UTC)
