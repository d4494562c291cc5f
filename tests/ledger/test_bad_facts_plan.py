"""What cannot be true of plan, tests, forecast and door is refused in one sentence, and rows in whole."""

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from greenroom.ledger import BadFactError
from greenroom.ledger.facts import HourAhead, WeatherDay
from greenroom.ledger.tables import rows_of_kind
from tests.ledger.examples import DAY, EXAMPLES, NOON

NAN = float("nan")

# kind, field, a value that cannot be, words the refusal must have
BAD = [
    ("germination_test", "seeds", 0, "1 to 1,000 are allowed"),
    ("germination_test", "seeds", 1001, "1 to 1,000 are allowed"),
    ("germination_test", "warmth_c", 61.0, "-10 to 60 is allowed"),
    ("germination_count", "count", -1, "0 to 1,000 are allowed"),
    ("germination_count", "count", 2.5, "a whole number is allowed"),
    ("wanted", "plants", -1, "0 to 500 are allowed"),
    ("wanted", "plants", 501, "0 to 500 are allowed"),
    ("wanted", "year", 25, "1900 to 2200 is allowed"),
    ("sowing_planned", "on", date(2023, 12, 31), "a day within a year of 2025 is allowed"),
    ("sowing_planned", "on", date(2027, 1, 1), "a day within a year of 2025 is allowed"),
    ("sowing_planned", "on", NOON, "a date without a time"),
    ("frost_dates_given", "first", date(1999, 5, 12), "two different days are needed"),
    ("online_choice", "allowed", 1, "true or false is allowed"),
    ("online_choice", "allowed", None, "true or false is allowed"),
    ("plan_rules", "odds", 1.0, "0.05 to 0.99 is allowed"),
    ("plan_rules", "confidence", 95.0, "0.5 to 0.999 is allowed"),
    ("plan_rules", "floor_c", 50.0, "-5 to 25 is allowed"),
    ("plan_rules", "run_nights", 0, "1 to 30 is allowed"),
    ("plan_rules", "killing_c", 10.5, "-15 to 10 is allowed"),
    ("plan_rules", "hardening_days", 31, "0 to 30 is allowed"),
    ("lamp_measured", "place", "", "at least one letter"),
    ("lamp_measured", "ppfd", None, "µmol/m²/s or lux is needed"),
    ("lamp_measured", "ppfd", -1.0, "0 to 3,000 is allowed"),
    ("lamp_measured", "lux", 200_001.0, "0 to 200,000 is allowed"),
    ("lamp_measured", "lamp", "candle", "one of sun, white led"),
    ("lamp_measured", "hours", 24.5, "0 to 24 are allowed"),
    ("ramp_set", "crop", " ", "at least one letter"),
    ("ramp_set", "outings", 22, "7 to 21 are allowed"),
    ("ramp_set", "full_minutes", 20, "at least 5 to start, more at the end, at most 960"),
    ("ramp_set", "cold_c", 26, "-5 to 25 is allowed"),
    ("ramp_set", "gust_ms", 0, "1 to 40 is allowed"),
    ("ramp_set", "rain_mm", -1, "0 to 200 is allowed"),
    ("counting_set", "by", "moon", "clock or sun is allowed"),
    ("sky_seen", "cloud", 40, "0 to 1 (0 to 100 %) is allowed"),
    ("sky_seen", "cloth", -0.1, "0 to 1 (0 to 100 %) is allowed"),
    ("sky_seen", "at", datetime(2025, 4, 20, 12), "a moment with its time zone"),  # noqa: DTZ001
    ("yard_sun", "last", 580, "0 to 1440, the last after the first, are allowed"),
    ("yard_sun", "last", 1441, "0 to 1440, the last after the first, are allowed"),
    ("cool_night", "low_c", -21, "-20 to 30 is allowed"),
    ("watered", "how", "sideways", "above or below is allowed"),
    ("watered", "weight_g", 0.0, "1 to 200,000 is allowed"),
    ("setback_seen", "cause", "spite", "sun, wind or thirst is allowed"),
    ("forecast", "days", (WeatherDay(DAY, 1, 2), WeatherDay(DAY, 1, 2)), "each day once, in order"),
    ("forecast", "days", (WeatherDay(DAY, -101, 2),), "none beyond all ever measured"),
    ("weather_record", "days", (WeatherDay(DAY, 1, 71),), "none beyond all ever measured"),
    ("weather_record", "days", (WeatherDay(DAY, 1, 7, 2001),), "none beyond all ever measured"),
    ("weather_record", "days", (WeatherDay(DAY, 1, 7, 0, 121),), "none beyond all ever measured"),
    ("forecast", "hours", (HourAhead(NOON), HourAhead(NOON)), "each hour once, in order"),
    ("forecast", "hours", (HourAhead(NOON, cloud=35),), "0 to 1 is allowed"),
    ("forecast", "hours", (HourAhead(NOON, rain_mm=NAN),), "a tuple of hours with numbers or nothing"),
    ("forecast", "hours", (HourAhead(None),), "a tuple of hours with numbers or nothing"),
    ("forecast", "hours", (HourAhead(DAY),), "a tuple of hours with numbers or nothing"),
    ("forecast", "hours", (WeatherDay(DAY, 1, 2),), "a tuple of hours with numbers or nothing"),
    ("forecast", "hours", (tuple(HourAhead(NOON)),), "a tuple of hours with numbers or nothing"),
    ("forecast", "taken", None, "a moment with its time zone"),
]


@pytest.mark.parametrize(
    ("kind", "name", "value", "words"),
    BAD,
    ids=[f"{kind} {name} {n}" for n, (kind, name, *_) in enumerate(BAD)],
)
def test_a_fact_that_cannot_be_is_refused_in_one_sentence(kind, name, value, words, empty_ledger):
    fact = replace(EXAMPLES[kind][0], **{name: value})
    with pytest.raises(BadFactError) as caught:
        empty_ledger.record(fact)
    message = str(caught.value)
    assert words in message
    assert "; " in message  # what it is, then what is allowed
    assert "\n" not in message
    assert (empty_ledger.facts(), empty_ledger.acts()) == ([], [])


def test_a_forecast_of_nothing_is_refused(empty_ledger):
    with pytest.raises(BadFactError, match="at least one day or hour is needed"):
        empty_ledger.record(replace(EXAMPLES["forecast"][0], days=(), hours=()))


def test_the_hours_of_a_forecast_come_back_in_utc_and_in_order(open_ledger):
    kept = EXAMPLES["forecast"][0]
    open_ledger().record(kept)
    (read,) = open_ledger().facts()
    assert [entry.at.tzinfo for entry in read.hours] == [UTC, UTC]
    assert read.hours == kept.hours
    assert [type(part) for part in read.hours[1][1:3]] == [type(None), float]


def test_each_fact_keeps_the_rows_that_were_told_with_it(open_ledger):
    """Days of forecasts and of records stand in one table; 1,200 are more than one statement asks."""
    several = [
        replace(
            EXAMPLES["forecast"][2],
            id=f"f{number}",
            days=(WeatherDay(date(2025, 5, 1 + number % 9), number % 60, None),),
        )
        for number in range(1200)
    ]
    records = EXAMPLES["weather_record"]
    ledger = open_ledger()
    ledger.record(*several, *records)
    ledger.strike("f7", "weather_record-1")
    assert open_ledger().facts() == [
        one for one in [*several, *records] if one.id not in ("f7", "weather_record-1")
    ]
    assert open_ledger().undo().added[0].fact == several[7]


def test_no_kind_has_two_fields_of_one_kind_of_row():
    """Their rows would be mixed: the table knows the fact, not the field."""
    for kind, rows in rows_of_kind.items():
        assert max(Counter(rows.values()).values(), default=1) == 1, kind
