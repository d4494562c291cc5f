"""The gate opens when nights, soil and hardening let it: against a real record worked out another way."""

from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from greenroom.ledger.facts import (
    HardeningStarted,
    OutingEnded,
    OutingStarted,
    Packet,
    PlaceSet,
    UnitsSet,
    Variety,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.deeds_plants import feel_soil
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.proposal import Proposal
from greenroom.season.set_out import crops_in, gate, gates, nights, set_out_figure
from greenroom.season.spots import SpotKey
from greenroom.season.two_clocks import two_clocks
from tests.agronomy._field_record import field_record
from tests.season.told import SOWN_ON, Told

FLOOR_C = 10.0


def noon(day):
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


def raised(crop="habanero", latitude=40.5):
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=latitude, longitude=16.0, zone="UTC")
    told.do(Proposal("place", (place,)))
    facts = (
        Variety(day=SOWN_ON, variety="v", name="Cinder Lantern", crop=crop),
        Packet(day=SOWN_ON, packet="p", variety="v"),
    )
    told.do(Proposal("packet", facts))
    told.holder("Rack 1", "rack", 1, 2)
    told.do(sow(told.season, "p", [SpotKey("Rack 1", 0, 0)], SOWN_ON))
    told.do(mark_up(told.season, [SpotKey("Rack 1", 0, 0)], SOWN_ON + timedelta(9)))
    return told


def weather(told, lows):
    days = tuple(WeatherDay(day, low, None if low is None else low + 12) for day, low in sorted(lows.items()))
    record = WeatherRecord(day=SOWN_ON, source="test", station="test", days=days)
    told.do(Proposal("weather", (record,)))


def lows_from(start, *lows):
    return {start + timedelta(count): low for count, low in enumerate(lows)}


def harden(told, first, outings=7):
    told.do(
        Proposal(
            "harden",
            (
                HardeningStarted(
                    day=first, holder="Rack 1", start_minutes=20, full_minutes=120, outings=outings
                ),
            ),
        )
    )
    for count in range(outings):
        day = first + timedelta(count)
        start = datetime(day.year, day.month, day.day, 8, tzinfo=UTC)
        end = start + timedelta(minutes=120)
        told.do(
            Proposal(
                "out",
                (
                    OutingStarted(day=day, outing=f"o{count}", holder="Rack 1", at=start),
                    OutingEnded(day=day, outing=f"o{count}", holder="Rack 1", at=end),
                ),
            )
        )


def gate_of(told, today):
    return gate(
        told.season, "Rack 1", two_clocks(told.season, "Rack 1", today, noon(today)), today, noon(today)
    )


def test_the_usual_day_of_warm_nights_is_that_of_a_real_record_worked_out_with_pandas():
    """Daily record of Champion, Nebraska, in the package aquacrop 3.1.0; runs found by a rolling minimum."""
    table = field_record("champion")
    told = raised()
    rows = zip(table["date"], table["tmin"], strict=True)
    weather(told, {when.date(): float(low) for when, low in rows})
    today = table["date"].iloc[-1].date() + timedelta(1)
    today = date(today.year, 4, 1) if today.month >= 4 else today
    before = table[table["date"].dt.year < today.year].set_index("date")["tmin"]
    starts = []
    for _, lows in before.groupby(before.index.year):
        run = lows.rolling(7).min()
        warm = run[run >= FLOOR_C]
        if len(warm):
            starts.append((warm.index[0] - timedelta(6)).dayofyear)
    found = nights(told.season, FLOOR_C, date(today.year, 12, 31))
    assert found.years == len(starts)
    usual = date(found.usual.year, 1, 1) + timedelta(int(np.rint(np.quantile(starts, 0.5))) - 1)
    late = date(found.late.year, 1, 1) + timedelta(int(np.rint(np.quantile(starts, 0.9))) - 1)
    assert (found.usual, found.late) == (usual, late)
    assert found.first == found.usual


def test_seven_warm_nights_ahead_open_the_nights_and_one_cold_one_puts_them_off():
    today = date(2027, 5, 20)
    told = raised()
    weather(told, lows_from(today, *[11.0] * 7))
    assert nights(told.season, FLOOR_C, today).first == today
    weather(told, lows_from(today, 11, 11, 9.9, 11, 11, 11, 11, 11, 11, 11))
    assert nights(told.season, FLOOR_C, today).first == today + timedelta(3)


@pytest.mark.parametrize("floor", [4.0, 8.0, 12.0, 15.6])
def test_a_plant_that_asks_for_warmer_nights_never_goes_out_earlier(floor):
    told = raised()
    table = field_record("champion").tail(8 * 366)
    weather(told, {when.date(): float(low) for when, low in zip(table["date"], table["tmin"], strict=True)})
    last = table["date"].iloc[-1].date()
    today = date(last.year, 4, 1)
    cooler, warmer = (nights(told.season, one, today).first for one in (floor, floor + 1))
    assert warmer is None or cooler <= warmer


def test_without_weather_nothing_is_claimed_of_the_nights():
    told = raised()
    today = date(2027, 5, 20)
    found = gate_of(told, today)
    assert [check.state for check in found.checks] == ["unknown", "unknown", "wait"]
    assert found.opens_on is None
    assert not found.open


def test_the_gate_opens_on_the_latest_of_its_days_and_each_check_says_why():
    told = raised()
    first = date(2027, 5, 10)
    harden(told, first)
    today = first + timedelta(4)
    weather(told, lows_from(first, *[12.0] * 30))
    found = gate_of(told, today)
    night, soil, hardened = found.checks
    assert (night.state, soil.state, hardened.state) == ("open", "unknown", "wait")
    assert found.opens_on == hardened.from_day > today
    assert all(check.why is not None for check in found.checks)
    assert "Habanero" in dict(night.why.inputs)["asks for the warmest nights"]
    assert gate_of(told, first + timedelta(7)).open


def test_cold_soil_keeps_the_gate_shut_until_it_is_measured_warm_and_a_week_later_nobody_knows():
    """Peppers 15.6 °C (60 °F) in the soil: University of Nebraska-Lincoln Extension 2023; the guide."""
    told = raised()
    today = date(2027, 5, 20)
    harden(told, today - timedelta(7))
    weather(told, lows_from(today, *[12.0] * 30))
    assert gate_of(told, today).open
    told.do(feel_soil(told.season, 15.5, noon(today)))
    shut = gate_of(told, today)
    assert (shut.checks[1].state, shut.open, shut.opens_on) == ("wait", False, None)
    told.do(feel_soil(told.season, 15.6, noon(today) + timedelta(minutes=1)))
    now = noon(today) + timedelta(minutes=2)
    stand = two_clocks(told.season, "Rack 1", today, now)
    assert gate(told.season, "Rack 1", stand, today, now).open
    assert gate_of(told, today + timedelta(8)).checks[1].state == "unknown"


def test_the_plant_that_asks_for_most_decides():
    """Lettuce bears nights down to 0 °C, peppers ask for 10 °C: the guide."""
    assert [crop.key for crop in crops_in(raised("lettuce").season, "Rack 1")] == ["lettuce"]
    today = date(2027, 5, 20)
    found = {}
    for crop in ("lettuce", "habanero"):
        told = raised(crop)
        weather(told, lows_from(today, *[4.0] * 10))
        found[crop] = gate_of(told, today).checks[0].state
    assert found == {"lettuce": "open", "habanero": "unknown"}


def test_the_southern_spring_is_looked_for_in_its_own_months():
    told = raised(latitude=-33.0)
    lows = {}
    for year in (2024, 2025, 2026):
        for count in range(365):
            day = date(year, 1, 1) + timedelta(count)
            lows[day] = 14.0 if day.month >= 11 or day.month <= 3 else 6.0
    weather(told, lows)
    assert nights(told.season, FLOOR_C, date(2027, 9, 20)).first == date(2027, 11, 1)


def test_the_figure_tells_from_when_then_how_many_may_go():
    told = raised()
    first = date(2027, 5, 10)
    harden(told, first)
    weather(told, lows_from(first, *[12.0] * 30))

    def figure(today):
        stands = [two_clocks(told.season, "Rack 1", today, noon(today))]
        assert len(gates(told.season, stands, today, noon(today))) == 1
        return set_out_figure(told.season, stands, today, noon(today))

    assert figure(first + timedelta(3)) == "from 16 May"
    assert figure(first + timedelta(7)) == "1 plant may go"
    assert set_out_figure(Told().season, [], first, noon(first)) == "none yet"


def test_degrees_are_told_in_the_growers_unit():
    told = raised()
    today = date(2027, 5, 20)
    weather(told, lows_from(today, *[12.0] * 10))
    told.do(Proposal("units", (UnitsSet(day=today, temperature="f", volume="ml"),)))
    night, soil, _ = gate_of(told, today).checks
    assert "50 °F" in night.words
    assert "60.1 °F" in soil.words
