"""A crop's ramp is the grower's to choose: what it does is told first, written as one act, and taken back.

Expected minutes are those of the ramp's own rule, each outing the same share longer and rounded to 5; the
limits are those of the facts themselves, from 5 to 960 minutes and 7 to 21 outings.
"""

from dataclasses import replace
from datetime import timedelta

import pytest

from greenroom.ledger.facts import HardeningStarted, RampSet
from greenroom.season.proposal import RefusedError
from greenroom.season.ramp_choice import (
    Numbers,
    choose_ramp,
    crops_on_hand,
    effect_words,
    guides_ramp,
    minutes_today,
    ramp_effects,
    rules_if,
    set_for,
)
from greenroom.season.ramp_rules import rules_of
from greenroom.season.state import Season
from tests.season._yard import FIRST, STEPS, TRAY, Yard, day
from tests.season.told import the_guide

PEPPER = "capsicum-annuum"
TODAY = day(4)


@pytest.fixture
def yard():
    """A tray of peppers after three outings as planned, on its fourth morning."""
    made = Yard()
    for number in range(3):
        made.out(day(number + 1), "9:00", STEPS[number], 100)
    made.weather({day(number): {"tmin_c": 12.0, "tmax_c": 21.0} for number in range(1, 20)})
    return made


def numbers(yard, **changed):
    return replace(Numbers.of(rules_of(yard.season, PEPPER)), **changed)


def chosen(yard, *, begun=True, **changed):
    now = yard.at(TODAY, "9:00")
    return choose_ramp(yard.season, PEPPER, numbers(yard, **changed), TODAY, now, begun=begun)


def effect(yard, proposal):
    (found,) = ramp_effects(yard.season, PEPPER, proposal, TODAY, yard.at(TODAY, "9:00"))
    return found


def test_the_effect_told_is_what_keeping_it_does(yard):
    """Told beforehand for each number, and the same once it is written."""
    for changed in ({"start_minutes": 30.0}, {"outings": 14}, {"full_minutes": 480.0}, {"cold_c": 22.0}):
        proposal = chosen(yard, **changed)
        told = effect(yard, proposal)
        assert told.before == yard.stand(TODAY), "nothing was written"
        yard.do(proposal)
        after = yard.stand(TODAY)
        assert (told.after.ready_on, told.after.sun, told.after.rules) == (
            after.ready_on,
            after.sun,
            after.rules,
        )


def test_a_longer_ramp_moves_the_ready_date_and_the_minutes_of_today(yard):
    """Fourteen outings for eleven: three days later, and the fourth of 14 is 20·30^(3/13) = 44, so 45."""
    told = effect(yard, chosen(yard, outings=14))
    assert told.ready == (FIRST + timedelta(10), FIRST + timedelta(13))
    assert told.minutes == (55, 45)
    assert effect_words(told) == (
        "Tray C: ready 18 May becomes 21 May; today 55 min of sun becomes 45 min of sun."
    )


def test_a_gate_keeps_in_from_now_on(yard):
    """The days known, to 26 May, reach 21 °C: a floor of 22 °C keeps it in to then, and it begins anew."""
    told = effect(yard, chosen(yard, cold_c=22.0))
    assert told.minutes == (55, 0)
    assert told.ready[1] == day(20) + timedelta(10)
    assert "becomes 6 June; today 55 min of sun becomes in." in effect_words(told)


def test_those_that_have_begun_can_keep_their_minutes(yard):
    proposal = chosen(yard, begun=False, outings=14, gust_ms=9.0)
    assert [type(fact) for fact in proposal.record] == [RampSet]
    told = effect(yard, proposal)
    assert told.minutes == (55, 55)
    assert told.after.rules.limits.gust_m_s == 9.0


def test_the_guides_numbers_come_back_with_one_act(yard):
    before = yard.stand(TODAY)
    yard.do(chosen(yard, outings=14, start_minutes=30.0))
    assert set_for(yard.season, PEPPER)
    back = guides_ramp(yard.season, PEPPER, TODAY, yard.at(TODAY, "9:00"))
    yard.do(back)
    assert not set_for(yard.season, PEPPER)
    assert yard.stand(TODAY) == before
    with pytest.raises(RefusedError, match="follows the guide already"):
        guides_ramp(yard.season, PEPPER, TODAY, yard.at(TODAY, "9:00"))


def test_the_act_is_one_and_undo_leaves_all_as_it_was(yard):
    before = yard.stand(TODAY)
    proposal = yard.do(chosen(yard, outings=14))
    assert {type(fact) for fact in proposal.record} == {RampSet, HardeningStarted}
    (struck,) = proposal.strike
    old = HardeningStarted(id=struck, day=FIRST, holder=TRAY)
    yard.write(old, strike=[fact.id for fact in proposal.record])
    assert yard.stand(TODAY) == before


def test_nothing_is_proposed_where_all_stays_as_it_is(yard):
    assert chosen(yard).empty
    yard.do(chosen(yard, outings=14))
    assert chosen(yard).empty


def test_a_holder_that_is_done_stays_done(yard):
    for number in range(3, 11):
        yard.out(day(number + 1), "9:00", STEPS[number], 100)
    today = day(13)
    act = choose_ramp(yard.season, PEPPER, numbers(yard, outings=21), today, yard.at(today, "9:00"))
    assert [type(fact) for fact in act.record] == [RampSet]


def test_kin_go_by_it_unless_they_have_their_own(yard):
    """What is set for peppers holds for a bell pepper, which inherits from them."""
    yard.plant("bell", 1)
    act = yard.do(chosen(yard, outings=14))
    assert rules_of(yard.season, "bell").ramp.outings == 14
    assert act.name.endswith(", 1 holder with it")
    assert rules_if(yard.season, "tomato", act) == rules_of(yard.season, "tomato")


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"start_minutes": 4.0}, "A ramp from 4 to 600 minutes cannot be"),
        ({"start_minutes": 600.0}, "A ramp from 600 to 600 minutes cannot be"),
        ({"full_minutes": 961.0}, "A ramp from 20 to 961 minutes cannot be"),
        ({"outings": 6}, "A ramp of 6 outings cannot be: 7 to 21 are allowed."),
        ({"outings": 22}, "A ramp of 22 outings cannot be"),
        ({"cold_c": 26.0}, "A cold floor of 26 °C cannot keep trays in: -5 °C to 25 °C is allowed."),
        ({"gust_ms": 0.5}, "A gust of 2 km/h cannot keep trays in: 4 km/h to 144 km/h is allowed."),
        ({"rain_mm": 201.0}, "Rain of 201 mm cannot keep trays in: 0 mm to 200 mm is allowed."),
    ],
)
def test_numbers_that_cannot_be_are_refused_in_one_sentence(yard, changed, words):
    with pytest.raises(RefusedError) as refused:
        chosen(yard, **changed)
    assert str(refused.value).startswith(words)
    assert str(refused.value).count(". ") == 0


def test_what_is_being_hardened_is_offered_first(yard):
    yard.plant("tomato", 1)
    assert crops_on_hand(yard.season)[0] == PEPPER
    assert "tomato" in crops_on_hand(yard.season)
    assert crops_on_hand(yard.season, TRAY) == crops_on_hand(yard.season)
    assert crops_on_hand(Season(guide=the_guide())) == [PEPPER]


def test_a_day_of_rest_asks_for_no_minutes(yard):
    yard.setback(day(3), "9:20", "scorch")
    assert minutes_today(yard.stand(TODAY)) == 0
