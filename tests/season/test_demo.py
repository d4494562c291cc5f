"""The demo is a season that could have happened: sound, the same each time, and true to its day."""

from collections import Counter
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise
from statistics import median

import numpy as np
import pytest

from greenroom.desk.session import DEMO_SEED
from greenroom.ledger import Entry, Ledger
from greenroom.ledger.facts import (
    Forecast,
    HolderMade,
    OutingEnded,
    OutingStarted,
    Packet,
    SetbackSeen,
    Sown,
    SpotFact,
    Sprouted,
    Variety,
    WeatherRecord,
)
from greenroom.season.coherence import misfits
from greenroom.season.crops import pace_of
from greenroom.season.demo import demo_acts, demo_facts
from greenroom.season.hardening import going_out
from greenroom.season.packets import packets
from greenroom.season.place import latest_forecast, weather_days
from greenroom.season.ready_history import known_on, spread_history
from greenroom.season.ribbon import ribbon
from greenroom.season.round import round_of
from greenroom.season.spots import keys_of
from greenroom.season.sprouting import expected_pace, sprout_curve
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from tests.season.demo_season import own_demo
from tests.season.told import the_guide

DAYS = [date(2026, 9, 1), date(2026, 12, 1), date(2027, 3, 20), date(2027, 5, 14), date(2027, 6, 1)]
DAYS += [date(2027, 8, 1), date(2028, 3, 1)]


@pytest.fixture(scope="module")
def demo():
    return own_demo()


def told(demo, moment):
    return demo_facts(demo, moment, np.random.default_rng(DEMO_SEED))


def recorded(facts):
    return [day for fact in facts if isinstance(fact, WeatherRecord) for day in fact.days]


def on(demo, day):
    return datetime.combine(day, time(9, 54), tzinfo=demo.zone).astimezone(UTC)


def season_of(facts):
    return Season((Entry(number, 1, fact) for number, fact in enumerate(facts, start=1)), the_guide())


@pytest.fixture(scope="module")
def season(demo):
    return season_of(told(demo, demo.moment))


def test_every_fact_is_sound_and_the_ledger_keeps_it(demo):
    facts = told(demo, demo.moment)
    with Ledger.open("sqlite://") as ledger:
        for name, act in demo_acts(facts, demo.day):
            ledger.record(*act, name=name)
        assert {fact.id for fact in ledger.facts()} == {fact.id for fact in facts}
        assert len(ledger.facts()) == len(facts)


def test_no_seedling_does_what_it_cannot(demo, season):
    keys = {key for fact in told(demo, demo.moment) if isinstance(fact, SpotFact) for key in keys_of(fact)}
    assert [entry for key in keys for entry in misfits(key, season.spot_facts(key))] == []


def test_the_same_generator_tells_the_same_season(demo):
    assert told(demo, demo.moment) == told(demo, demo.moment)


@pytest.mark.parametrize("day", DAYS)
def test_nothing_is_told_from_the_future(demo, day):
    moment = on(demo, day)
    facts = told(demo, moment)
    assert all(fact.day <= day for fact in facts)
    assert all(getattr(fact, "at", moment) <= moment for fact in facts)
    assert all(known.day < day for known in recorded(facts))
    told_ahead = [fact for fact in facts if isinstance(fact, Forecast)]
    assert all(fact.taken <= moment for fact in told_ahead)
    assert all(fact.day <= known.day <= fact.day + timedelta(7) for fact in told_ahead for known in fact.days)


@pytest.mark.parametrize(("earlier", "later"), list(pairwise(DAYS)))
def test_a_later_day_tells_the_same_season_and_more_of_it(demo, earlier, later):
    """The record grows day by day and settling in is dated by the first day seen; the rest only grows."""
    once, again = told(demo, on(demo, earlier)), {fact.id: fact for fact in told(demo, on(demo, later))}
    assert set(recorded(once)) <= set(recorded(again.values()))
    for fact in once:
        if isinstance(fact, SpotFact | Variety | Packet | HolderMade | SetbackSeen):
            assert again[fact.id] == fact


@pytest.mark.parametrize("day", DAYS)
def test_on_any_day_everything_about_it_can_be_shown(demo, day):
    moment = on(demo, day)
    season = season_of(told(demo, moment))
    stages = ribbon(season, day, moment)
    assert all(one.end == other.start for one, other in pairwise(stages))
    assert isinstance(round_of(season, day, moment), list)
    for holder in season.holders():
        sprout_curve(season, holder.key, day)


def test_every_crop_is_in_the_guide_and_ripens_in_its_days(demo):
    for name, known in demo.raw["varieties"].items():
        crop = the_guide().crop(known["crop"])
        if "ripe" in known:
            assert known["ripe"] in crop.days_to_pick.value, name


def test_every_lot_comes_up_within_the_days_known_of_its_crop(demo):
    """The span for each crop at the mix's temperature, by the guide."""
    for tray in demo.raw["trays"]:
        for block in tray["blocks"]:
            crop = demo.raw["varieties"][block["variety"]]["crop"]
            pace = pace_of(the_guide(), crop, tray["mix_c"])
            assert pace.early <= block["half"] <= pace.late, block


def test_mid_may_shows_eight_trays_of_mixed_sizes_and_racks_beside_them(season):
    trays, racks = season.holders("tray"), season.holders("rack")
    assert len(trays) >= 8
    assert len({(one.rows, one.columns) for one in trays}) >= 5
    assert len(racks) >= 3
    assert all(season.counts(one.key).living > 0 for one in [*trays, *racks])
    assert all(season.counts(one.key).stages for one in trays)


def test_no_packet_gives_more_seeds_than_it_held(season):
    for view in packets(season):
        assert view.used <= view.packet.seeds


def test_the_halves_of_lots_lie_where_they_should(demo, season):
    """Half of a lot's marks lie by the day told for it, give or take two: they are drawn at random."""
    for tray in demo.raw["trays"]:
        holder = next(one for one in season.holders("tray") if one.name == tray["name"])
        for block in tray["blocks"]:
            packet = next(view for view in packets(season) if view.name == block["variety"])
            age = (demo.day - tray["sown"]).days
            if age > 2.5 * block["half"]:
                found = median(_days_to_come(season, packet.key, holder.key))
                assert abs(found - block["half"]) <= 2 + 0.15 * block["half"]
                assert expected_pace(season, holder.key, packet.key) is not None


def _days_to_come(season, packet, holder):
    for key in season.spots_sown(packet):
        if key.holder == holder:
            facts = [entry.fact for entry in season.spot_facts(key)]
            sown = next(fact.day for fact in facts if isinstance(fact, Sown))
            yield from ((fact.day - sown).days for fact in facts if isinstance(fact, Sprouted))


def test_some_harden_and_a_setback_lies_behind_one(demo, season):
    stands = [two_clocks(season, key, demo.day, demo.moment) for key in going_out(season)]
    assert len(stands) >= 3
    assert sum(stand.outing is not None for stand in stands) == 1
    assert any(stand.setbacks and stand.days_later > 0 for stand in stands)
    assert not any(stand.hardened for stand in stands)


def test_every_outing_ends(demo):
    facts = told(demo, on(demo, date(2027, 7, 1)))
    counts = Counter(type(fact) for fact in facts)
    assert counts[OutingStarted] == counts[OutingEnded] > 30


def test_no_holder_is_sent_out_on_a_day_to_hold(demo):
    moment = on(demo, date(2027, 7, 1))
    season = season_of(told(demo, moment))
    outings = [fact.day for fact in told(demo, moment) if isinstance(fact, OutingStarted)]
    days = weather_days(season)
    # A day to hold: below 10 °C, gusts of 11 m/s, or 15 mm of rain; this program's own rule.
    wrong = [day for day in outings if days[day].tmax_c < 10 or days[day].gust_ms >= 11]
    assert wrong == []


def test_the_weather_is_that_of_a_cold_winter_and_a_warm_summer(season):
    """Twenty years at the least, for the odds; frost each winter, none in July."""
    days = weather_days(season)
    years = {day.year for day in days}
    assert len(years) >= 20
    assert all(days[day].tmin_c <= days[day].tmax_c for day in days)
    assert min(days[day].tmin_c for day in days if day.month == 1) < -5
    assert all(days[day].tmin_c > 2 for day in days if day.month == 7)
    july = [(days[day].tmin_c + days[day].tmax_c) / 2 for day in days if day.month == 7]
    assert 18 < sum(july) / len(july) < 24


def test_undo_takes_back_the_last_thing_done_and_not_the_season(demo):
    acts = demo_acts(told(demo, demo.moment), demo.day)
    assert acts[0][0] == "the season up to 12 May"
    assert len(acts) > 5
    assert all(len(facts) < 400 for _, facts in acts[1:])
    assert acts[-1][0].endswith("of 14 May")


def test_the_demo_leaves_pots_free_to_try_the_potting_up_on(season):
    free = [spot for rack in season.holders("rack") for spot in season.spots(rack.key) if spot.free]
    assert free


def test_the_ready_dates_are_surer_on_the_demos_day_than_when_its_ramps_began(demo, season):
    """Each morning knew its own forecast and no more, so that the spread narrows as the days pass."""
    for key in going_out(season):
        stand = two_clocks(season, key, demo.day, demo.moment)
        history = spread_history(season, stand)
        widths = [one.late - one.early for one in history]
        assert widths[-1] < max(widths[:-1])
        assert history[-1].day == demo.day


def test_no_morning_of_the_demo_knew_more_than_its_forecast(demo, season):
    for back in range(1, 8):
        morning = demo.day - timedelta(back)
        assert max(known_on(season, morning)) == morning + timedelta(5)


def test_the_hours_of_the_demos_forecast_are_its_days_told_finer(demo, season):
    """Rain adds up to the day's, the strongest gust is the day's, and no hour is warmer or colder than it."""
    told = latest_forecast(season)
    whole = [day for day in told.days if demo.day < day.day < demo.day + timedelta(4)]
    assert len(whole) == 3
    for day in whole:
        hours = [one for one in told.hours if one.at.astimezone(demo.zone).date() == day.day]
        assert len(hours) == 24
        assert sum(one.rain_mm for one in hours) == pytest.approx(day.rain_mm, abs=0.05)
        assert max(one.gust_ms for one in hours) == day.gust_ms
        assert day.tmin_c - 0.1 <= min(one.temperature_c for one in hours)
        assert max(one.temperature_c for one in hours) <= day.tmax_c + 0.1
