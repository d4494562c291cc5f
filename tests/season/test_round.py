"""The round names each job of the day once, with its reason, and nothing that is done."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.agronomy.hardening import Ramp
from greenroom.ledger.facts import (
    HardeningStarted,
    Held,
    OutingEnded,
    OutingStarted,
    PlaceSet,
    SetbackSeen,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season import deeds_spots
from greenroom.season.proposal import Proposal
from greenroom.season.round import DOOR, SHELF, Job, round_of, round_text
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told

BEGUN = date(2027, 5, 12)
TODAY = date(2027, 5, 14)
CELLS = [SpotKey("Tray A", 0, column) for column in range(6)]


def at(hour, minute=0, day=TODAY):
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=UTC)


@pytest.fixture
def told():
    """Six cells sown on 12 March in a tray at 25 °C, five of them up, at a place on UTC."""
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=46.0, longitude=0.0, zone="UTC")
    told.do(Proposal("set the place", (place,)))
    told.packet("Brass Bell", germination=0.9)
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, CELLS[:5], SOWN_ON + timedelta(8)))
    return told


@pytest.fixture
def hardened_two_days(told):
    facts = [HardeningStarted(day=BEGUN, holder="Tray A")]
    for number, minutes in enumerate((20, 30)):
        facts += outing(f"o{number}", BEGUN + timedelta(number), 9, minutes)
    told.do(Proposal("hardened", tuple(facts)))
    return told


def outing(key, day, hour, minutes, light="sun"):
    common = {"outing": key, "holder": "Tray A", "day": day}
    return [
        OutingStarted(**common, at=at(hour, 0, day), light=light),
        OutingEnded(**common, at=at(hour, 0, day) + timedelta(minutes=minutes)),
    ]


def jobs(told, today=TODAY, now=None):
    return [(job.where, job.what) for job in round_of(told.season, today, now or at(9, 54))]


def reason(told, what, now=None):
    return next(job.reason for job in round_of(told.season, TODAY, now or at(9, 54)) if job.what == what)


def weather(told, **known):
    day = WeatherDay(TODAY, **{"tmin_c": 9.0, "tmax_c": 19.0, "rain_mm": 0.0, "gust_ms": 4.0} | known)
    told.do(Proposal("weather", (WeatherRecord(day=TODAY, source="a file", days=(day,)),)))


def test_a_lot_that_is_due_is_looked_for(told):
    """Pepper at 25 °C: 8 days (Harrington and Minges 1954)."""
    today = SOWN_ON + timedelta(9)
    assert (SHELF, "Look for Brass Bell in Tray A") in jobs(told, today, at(9, 0, today))


def test_a_cell_that_stays_bare_is_sown_again(told):
    assert (SHELF, "Sow 2 more Brass Bell in Tray A") in jobs(told)
    assert "1 cell bare on day 63" in reason(told, "Sow 2 more Brass Bell in Tray A")


def test_a_cell_that_was_given_up_asks_for_nothing(told):
    told.do(deeds_spots.mark_lost(told.season, CELLS[5:], TODAY, "did not come up"))
    assert not [what for _, what in jobs(told) if what.startswith("Sow")]


def test_seedlings_with_two_pairs_of_leaves_want_pots(told):
    """Peppers are potted up at the second to fourth set of true leaves: the guide, for Capsicum."""
    day = SOWN_ON + timedelta(30)
    told.do(deeds_spots.set_leaves(told.season, CELLS[:3], day, 4))
    told.do(deeds_spots.set_leaves(told.season, CELLS[3:5], day, 2))
    found = {job.what: job.reason for job in round_of(told.season, day, at(9, 0, day))}
    assert found["Pot up from Tray A"] == "3 Brass Bell with 4 true leaves, or 22 days in the cell"


def test_a_cell_holds_a_seedling_for_five_weeks_whatever_was_counted(told):
    """Time in the cell: common practice, no source."""
    up = SOWN_ON + timedelta(8)
    for days, asked in ((34, False), (35, True)):
        day = up + timedelta(days)
        assert ((SHELF, "Pot up from Tray A") in jobs(told, day, at(9, 0, day))) is asked


def test_a_holder_goes_out_for_the_minutes_of_its_step(hardened_two_days):
    minutes = Ramp().minutes(2)
    assert (DOOR, "Send Tray A out, sheltered") in jobs(hardened_two_days)
    told = reason(hardened_two_days, "Send Tray A out, sheltered")
    assert told == f"{minutes} minutes of sun and {120 - minutes} of shade, step 3 of 11"


def test_a_holder_that_is_out_comes_in_when_its_minutes_are_done(hardened_two_days):
    told, minutes = hardened_two_days, Ramp().minutes(2)
    start = OutingStarted(day=TODAY, outing="today", holder="Tray A", at=at(9, 30))
    told.do(Proposal("out", (start,)))
    due = at(9, 30) + timedelta(minutes=minutes)
    what = f"Bring Tray A in at {due.hour}:{due.minute:02d}"
    assert (DOOR, what) in jobs(told)
    assert reason(told, what) == f"24 of {minutes} minutes of sun done"
    assert (DOOR, "Bring Tray A into shade, or in, now") in jobs(told, now=due)


def test_a_holder_in_the_shade_can_still_have_its_sun(hardened_two_days):
    start = OutingStarted(day=TODAY, outing="today", holder="Tray A", at=at(9, 30), light="shade")
    hardened_two_days.do(Proposal("out", (start,)))
    assert (DOOR, "Bring Tray A into the sun, or in") in jobs(hardened_two_days)


def test_what_has_had_its_minutes_is_sent_out_only_into_the_shade_it_still_wants(hardened_two_days):
    told = hardened_two_days
    told.do(Proposal("out and in", tuple(outing("today", TODAY, 8, Ramp().minutes(2)))))
    what = "Send Tray A out into shade"
    assert [what for where, what in jobs(told) if where == DOOR] == [what]
    assert reason(told, what).endswith("minutes of shade left; the sun of today is done")
    told.do(Proposal("into shade and in", tuple(outing("shade", TODAY, 10, 300, "shade"))))
    assert not [what for where, what in jobs(told, now=at(15, 30)) if where == DOOR]


def test_a_short_outing_leaves_the_rest_to_do(hardened_two_days):
    told = hardened_two_days
    told.do(Proposal("out and in", tuple(outing("today", TODAY, 8, 10))))
    assert (DOOR, "Send Tray A out again") in jobs(told)


@pytest.mark.parametrize(
    ("known", "what"),
    [
        ({"gust_ms": 11.0}, "Keep Tray A in"),
        ({"tmax_c": 9.9}, "Keep Tray A in"),
        ({"rain_mm": 15.0}, "Keep Tray A in"),
        ({"gust_ms": 7.0}, "Send Tray A out, sheltered"),
        ({}, "Send Tray A out, sheltered"),
    ],
)
def test_the_weather_of_the_day_decides(hardened_two_days, known, what):
    """Held below 10 °C, from 11 m/s or 15 mm of rain, sheltered from 7 m/s: this program's own rule.

    A pepper is tender: it stands sheltered on its first steps outdoors whatever the weather.
    """
    weather(hardened_two_days, **known)
    assert (DOOR, what) in jobs(hardened_two_days)


def test_the_day_after_leaf_scorch_is_a_day_of_rest(hardened_two_days):
    told, day = hardened_two_days, TODAY - timedelta(1)
    told.do(Proposal("scorch", (SetbackSeen(day=day, holder="Tray A", what="scorch", at=at(9, 20, day)),)))
    assert reason(told, "Keep Tray A in") == "a day of rest after leaf scorch"


def test_what_is_noted_as_kept_in_is_left_alone(hardened_two_days):
    hardened_two_days.do(Proposal("held", (Held(day=TODAY, holder="Tray A", why="gusts"),)))
    assert not [what for where, what in jobs(hardened_two_days) if where == DOOR]


def test_the_round_as_text_is_grouped_by_where_one_stands():
    text = round_text(
        [Job(SHELF, "Sow", "bare"), Job(DOOR, "Send out", "sun"), Job(SHELF, "Look", "due")], TODAY
    )
    assert text == (
        "The round, Friday 14 May 2027: 3 to do\n\nAt the shelf\n  Sow: bare\n  Look: due\n"
        "\nAt the door\n  Send out: sun\n"
    )
    assert round_text([], date(2027, 1, 2)) == "The round, Saturday 2 January 2027: 0 to do\n"
