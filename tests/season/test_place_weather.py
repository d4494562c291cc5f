"""Which weather counts for a day: the record's or a forecast's, and of several the one that knows best.

The rule of precedence is this program's own, no source.
"""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger.facts import Forecast, FrostDatesGiven, HourAhead, WeatherDay, WeatherRecord
from greenroom.season.deeds_place import (
    allow_online,
    fetch_weather,
    give_frost_dates,
    hear_forecast,
    strike_frost_dates,
)
from greenroom.season.deeds_shelf import add_weather, set_place, strike_weather
from greenroom.season.hardening import todays_verdict
from greenroom.season.place import (
    daily_weather,
    hours_ahead,
    latest_forecast,
    online_allowed,
    record_days,
    weather_days,
)
from greenroom.season.proposal import RefusedError
from tests.season.plan_ground import SOUTH, ground
from tests.season.told import Told

TODAY = date(2027, 5, 14)
NOON = datetime(2027, 5, 14, 10, 0, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def told():
    made = Told()
    made.do(set_place("Ridge Lane", 46.4, 16.0, "Europe/Ljubljana", TODAY))
    return made


def days(first, count, tmin):
    return tuple(WeatherDay(first + number * DAY, tmin, tmin + 10.0) for number in range(count))


def hear(told, tmin, taken=NOON, first=TODAY - 2 * DAY, count=10, hours=()):
    told.do(hear_forecast(told.season, "a service", taken, days(first, count, tmin), hours))


def record(told, tmin, first, count, source="file.csv"):
    told.do(add_weather(source, "", days(first, count, tmin), TODAY))


def night(told, day):
    return weather_days(told.season)[day].tmin_c


def test_days_ahead_are_those_of_the_forecast(told):
    record(told, 1.0, TODAY - 30 * DAY, 29)
    hear(told, 8.0)
    assert night(told, TODAY) == night(told, TODAY + 7 * DAY) == 8.0
    assert TODAY + 8 * DAY not in weather_days(told.season)


def test_of_past_days_the_record_counts_whenever_it_was_written(told):
    record(told, 1.0, TODAY - 30 * DAY, 29)
    hear(told, 8.0)
    assert night(told, TODAY - 2 * DAY) == 1.0
    assert night(told, TODAY - 1 * DAY) == 8.0  # the record does not reach it
    record(told, 2.0, TODAY - 5 * DAY, 5)
    assert night(told, TODAY - 1 * DAY) == 2.0


def test_of_days_ahead_what_was_written_last_counts(told):
    record(told, 1.0, TODAY, 8)
    hear(told, 8.0)
    assert night(told, TODAY + DAY) == 8.0
    record(told, 3.0, TODAY, 4, "later.csv")
    assert night(told, TODAY + DAY) == 3.0
    assert night(told, TODAY + 5 * DAY) == 8.0


def test_the_newest_forecast_beats_the_older_one(told):
    hear(told, 8.0)
    hear(told, 5.0, NOON + DAY, TODAY, 10)
    assert night(told, TODAY + 2 * DAY) == 5.0
    assert night(told, TODAY - 2 * DAY) == 8.0  # only the older one knows of it


def test_a_day_of_which_a_forecast_tells_nothing_is_not_known(told):
    told.do(hear_forecast(told.season, "a service", NOON, [WeatherDay(TODAY, None, None)], ()))
    assert TODAY not in weather_days(told.season)


def test_a_forecast_is_no_part_of_the_record(told):
    record(told, 1.0, TODAY - 30 * DAY, 30)
    hear(told, 8.0)
    assert len(record_days(told.season)) == len(daily_weather(told.season)) == 30
    told.do(strike_weather(told.season, told.season.facts(WeatherRecord)[0].id))
    assert daily_weather(told.season) is None
    assert night(told, TODAY) == 8.0


def test_todays_verdict_goes_by_the_forecast(told):
    """Below 10 °C by day it holds: the rule of hardening, in the project's own contract."""
    assert todays_verdict(told.season, TODAY) is None
    hear(told, -1.0)
    assert todays_verdict(told.season, TODAY)[0] == "hold"
    hear(told, 8.0, NOON + timedelta(hours=3))
    assert todays_verdict(told.season, TODAY)[0] == "out"


def test_a_forecast_for_elsewhere_counts_no_more_once_the_place_is_moved(told):
    hear(told, 8.0)
    told.do(set_place("Ridge Lane, upper bed", 46.41, 16.02, "Europe/Ljubljana", TODAY))
    assert night(told, TODAY) == 8.0
    told.do(set_place("Mill Yard", 40.4, -101.7, "America/Chicago", TODAY))
    assert weather_days(told.season) == {}
    assert latest_forecast(told.season) is None
    assert hours_ahead(told.season) == ()


def test_hours_are_those_of_the_newest_forecast_without_past_and_far_ones(told):
    first = NOON - timedelta(hours=5)
    hours = [HourAhead(first + timedelta(hours=number), 10.0 + number) for number in range(300)]
    hear(told, 8.0, hours=hours)
    kept = hours_ahead(told.season)
    assert kept[0].at == NOON
    assert kept[-1].at == NOON + timedelta(hours=96)
    hear(told, 8.0, NOON + DAY)
    assert hours_ahead(told.season) == kept


def test_the_day_a_forecast_was_taken_is_that_of_the_place(told):
    """23:30 UTC on 14 May is 1:30 on the 15th in Ljubljana, two hours ahead in summer."""
    record(told, 1.0, TODAY, 2)
    hear(told, 8.0, datetime(2027, 5, 14, 23, 30, tzinfo=UTC))
    assert night(told, TODAY) == 1.0
    assert night(told, TODAY + DAY) == 8.0


def test_a_forecast_replaces_the_one_of_the_same_day_and_those_that_are_old(told):
    for age in (60, 3, 0):
        hear(told, float(age), NOON - age * DAY)
    hear(told, 6.0, NOON + timedelta(hours=3))
    left = [fact.taken for fact in told.season.facts(Forecast)]
    assert left == [NOON - 3 * DAY, NOON + timedelta(hours=3)]
    assert latest_forecast(told.season).taken == NOON + timedelta(hours=3)


def test_a_forecast_heard_on_a_clock_that_was_put_back_still_counts(told):
    hear(told, 8.0)
    hear(told, 5.0, NOON - 30 * DAY, TODAY, 10)
    assert latest_forecast(told.season).taken == NOON - 30 * DAY


def test_no_service_may_be_asked_until_the_grower_says_so(told):
    assert not online_allowed(told.season)
    assert allow_online(told.season, TODAY, allowed=False).empty
    told.do(allow_online(told.season, TODAY, allowed=True))
    assert online_allowed(told.season)
    assert allow_online(told.season, TODAY, allowed=True).empty
    told.do(allow_online(told.season, TODAY - 9 * DAY, allowed=False))
    assert not online_allowed(told.season)


def test_frost_dates_are_given_changed_and_struck_out(told):
    told.do(give_frost_dates(told.season, date(2027, 5, 12), date(2027, 9, 30), TODAY))
    assert (told.season.latest(FrostDatesGiven).last, told.season.latest(FrostDatesGiven).first) == (
        date(2027, 5, 12),
        date(2027, 9, 30),
    )
    assert give_frost_dates(told.season, date(2027, 5, 12), date(2027, 9, 30), TODAY).empty
    assert give_frost_dates(told.season, date(2001, 5, 12), date(2003, 9, 30), TODAY).empty
    told.do(give_frost_dates(told.season, date(2027, 5, 1), date(2027, 9, 30), TODAY))
    assert told.season.latest(FrostDatesGiven).last == date(2027, 5, 1)
    told.do(strike_frost_dates(told.season))
    assert told.season.latest(FrostDatesGiven) is None


def test_frost_dates_of_the_south_lie_on_both_sides_of_new_year():
    told = ground(place=SOUTH)
    told.do(give_frost_dates(told.season, date(2027, 10, 1), date(2027, 4, 20), TODAY))
    assert told.season.latest(FrostDatesGiven).first == date(2027, 4, 20)


def test_frost_dates_the_wrong_way_round_are_known_by_where_the_grower_is():
    autumn, spring = date(2026, 9, 28), date(2026, 5, 10)
    with pytest.raises(RefusedError, match="it is winter at Here"):
        give_frost_dates(ground().season, autumn, spring, TODAY)
    south = ground(place=SOUTH).season
    assert not give_frost_dates(south, autumn, spring, TODAY).empty
    with pytest.raises(RefusedError, match="it is winter at Here"):
        give_frost_dates(south, spring, autumn, TODAY)
    nowhere = ground(place=None).season
    assert not give_frost_dates(nowhere, autumn, spring, TODAY).empty


def test_frost_dates_without_a_season_between_them_are_refused(told):
    """From 20 September to 30 September lie 10 days."""
    with pytest.raises(RefusedError, match="10 days without frost; at least 30 are needed"):
        give_frost_dates(told.season, date(2027, 9, 20), date(2027, 9, 30), TODAY)


def test_years_fetched_again_replace_those_they_hold(told):
    told.do(fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 90 * DAY, 30, 1.0), TODAY))
    record(told, 4.0, TODAY - 90 * DAY, 30)
    told.do(fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 100 * DAY, 60, 2.0), TODAY))
    assert [(fact.source, len(fact.days)) for fact in told.season.facts(WeatherRecord)] == [
        ("file.csv", 30),
        ("a service", 60),
    ]
    assert record_days(told.season)[TODAY - 90 * DAY].tmin_c == 2.0


def test_years_that_were_fetched_for_elsewhere_or_are_not_all_held_stay(told):
    told.do(fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 90 * DAY, 30, 1.0), TODAY))
    told.do(fetch_weather(told.season, "a service", "40.4° N", days(TODAY - 90 * DAY, 30, 2.0), TODAY))
    told.do(fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 80 * DAY, 30, 3.0), TODAY))
    assert len(told.season.facts(WeatherRecord)) == 3


def test_the_very_same_days_fetched_again_are_refused(told):
    told.do(fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 90 * DAY, 30, 1.0), TODAY))
    with pytest.raises(RefusedError, match="the very same days as before"):
        fetch_weather(told.season, "a service", "46.4° N", days(TODAY - 90 * DAY, 30, 1.0), TODAY)
