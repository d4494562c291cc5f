"""What the weather card says: years and gaps, checked against a real record with pandas."""

from datetime import date, timedelta

import pytest

from greenroom.ledger.facts import WeatherDay
from greenroom.season.deeds_shelf import add_weather, set_place
from greenroom.season.weather_summary import record_summary, summarise
from tests.agronomy._field_record import field_record
from tests.season.told import Told

DAY = date(2027, 2, 20)
PLACES = {
    "champion": ("Champion", 40.4, -101.7, "America/Chicago"),
    "cordoba": ("Córdoba", -31.4, -64.2, "America/Argentina/Cordoba"),
}


@pytest.fixture
def told():
    return Told()


def bring_in(told, place):
    """A real daily record from the package aquacrop, as an imported one."""
    table = field_record(place)
    days = tuple(
        WeatherDay(stamp.date(), tmin, tmax)
        for stamp, tmin, tmax in zip(table["date"], table["tmin"], table["tmax"], strict=True)
    )
    told.do(set_place(*PLACES[place], DAY))
    told.do(add_weather(f"{place}.csv", "", days, DAY))
    return table


def test_a_record_without_gaps_is_told_whole(told):
    """Expected: counted with pandas in the same file."""
    table = bring_in(told, "champion")
    summary = record_summary(told.season)
    assert (summary.first, summary.last) == (table["date"].min().date(), table["date"].max().date())
    assert (summary.days, summary.missing, summary.longest_gap) == (len(table), 0, 0)
    assert summary.years == table["date"].dt.year.nunique()
    assert (summary.coldest_c, summary.warmest_c) == (table["tmin"].min(), table["tmax"].max())


def test_without_a_record_nothing_is_claimed(told):
    assert record_summary(told.season) is None


def test_days_without_both_temperatures_count_as_missing():
    first = date(2020, 1, 1)
    days = [WeatherDay(first + timedelta(days=one), 1.0, 9.0) for one in range(10)]
    days[3] = WeatherDay(days[3].day, None, 9.0)
    days[4] = WeatherDay(days[4].day, 1.0, None)
    del days[7]
    summary = summarise(days)
    assert (summary.days, summary.missing) == (7, 3)
    assert (summary.longest_gap, summary.gap_start) == (2, first + timedelta(days=3))


def test_a_record_of_unusable_days_is_no_record():
    assert summarise([WeatherDay(date(2020, 1, 1), None, 3.0)]) is None
