"""The demo's care: told as deeds would have let it be told, and enough of it to fill what shows it."""

import pytest

from greenroom.ledger.facts import (
    BasinEmptied,
    CoolNight,
    Fed,
    Finding,
    LookedOver,
    MixFelt,
    Watered,
    Weighed,
)
from greenroom.season.deeds_care import in_use, refuse_beside
from greenroom.season.feeding import given
from greenroom.season.round import round_of
from greenroom.season.spots import SpotKey
from greenroom.season.troubles import troubles_of
from greenroom.season.troubles_found import seen_on
from greenroom.season.watering import thirst
from greenroom.season.watering_curve import water_curve
from tests.season.demo_season import demo_season, own_demo

CARE = (BasinEmptied, CoolNight, Fed, Finding, LookedOver, MixFelt, Watered, Weighed)


@pytest.fixture(scope="module")
def demo():
    return own_demo()


@pytest.fixture(scope="module")
def season(demo):
    return demo_season(demo.moment)


def holder(season, name):
    return next(one for one in season.holders() if one.name == name)


def test_every_holder_cared_for_was_in_use_on_the_day(season):
    told = [
        entry.fact
        for one in (*season.holders(), *season.holders(put_away=True))
        for entry in season.holder_facts(one.key)
        if isinstance(entry.fact, CARE)
    ] + season.facts(Finding)
    assert len(told) > 80
    for fact in told:
        made = in_use(season, fact.holder, fact.day)
        if isinstance(fact, Finding) and fact.row is not None:
            refuse_beside(made, SpotKey(fact.holder, fact.row, fact.column))


def test_every_sign_found_is_one_the_guide_knows(season):
    known = troubles_of(season)
    assert {fact.sign for fact in season.facts(Finding)} <= {*known.pests, *known.signs}


def test_the_rack_on_the_scale_shows_how_it_dries_and_wants_water_today(demo, season):
    rack = holder(season, "Rack 5")
    curve = water_curve(season, rack, demo.day)
    assert curve.weighed
    assert len(curve.points) == 3
    assert thirst(season, rack, demo.day).on == demo.day


def test_nitrogen_given_and_pests_that_grow_fewer_can_be_seen(demo, season):
    assert len(given(season, holder(season, "Tray A").key)) == 5
    counts = [
        one.count for one in seen_on(season, holder(season, "Tray C").key, troubles_of(season)) if one.sign
    ]
    assert counts == [2, 6, 11]


def test_the_round_of_the_demo_asks_for_care_of_every_kind(demo, season):
    jobs = [one.what for one in round_of(season, demo.day, demo.moment)]
    for start in (
        "Water Tray D",
        "Water Rack 5",
        "Empty the basin of Tray E",
        "Feed",
        "Look over",
        "Cool night",
    ):
        assert any(what.startswith(start) for what in jobs), start
