"""What is decided at the desk: wishes, sowing days, rules, light; or refused in one sentence."""

from datetime import date

import pytest

from greenroom.agronomy.sunlight import LUX_PER_PPFD
from greenroom.ledger.facts import LAMPS, LampMeasured, PlanRules, UnitsSet
from greenroom.season import deeds_plan as deeds
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.wants import (
    chosen_days,
    days_of,
    rules_of,
    sowing_span,
    span_of_sowing,
    wanted,
)
from tests.season.plan_ground import BELL, LANTERN, TODAY, YEAR, ground


@pytest.fixture
def told():
    return ground(BELL, LANTERN)


def test_the_last_word_on_a_wish_counts(told):
    told.do(deeds.want(told.season, "Brass Bell", YEAR, 9, TODAY))
    told.do(deeds.want(told.season, "Brass Bell", YEAR + 1, 2, TODAY))
    assert wanted(told.season, YEAR) == {"Brass Bell": 9, "Cinder Lantern": 6}
    assert wanted(told.season, YEAR + 1) == {"Brass Bell": 2}
    told.do(deeds.want(told.season, "Brass Bell", YEAR, 0, TODAY))
    assert wanted(told.season, YEAR) == {"Cinder Lantern": 6}
    assert deeds.want(told.season, "Brass Bell", YEAR, 0, TODAY).empty


def test_several_wishes_are_one_act_and_say_only_what_changed(told):
    act = deeds.want_each(told.season, {"Brass Bell": 6, "Cinder Lantern": 3}, YEAR, TODAY)
    assert [(fact.variety, fact.plants) for fact in act.record] == [("Cinder Lantern", 3)]
    assert act.name == "3 plants of Cinder Lantern for 2027"
    both = deeds.want_each(told.season, {"Brass Bell": 1, "Cinder Lantern": 3}, YEAR, TODAY)
    assert (both.name, len(both.record)) == ("chose plants of 2 kinds for 2027", 2)


def test_a_sowing_day_is_chosen_changed_and_left_to_the_plan_again(told):
    for day in (date(2027, 3, 1), date(2027, 3, 9)):
        told.do(deeds.choose_sowing(told.season, "Brass Bell", YEAR, day, TODAY))
    assert chosen_days(told.season, YEAR) == {"Brass Bell": date(2027, 3, 9)}
    assert deeds.choose_sowing(told.season, "Brass Bell", YEAR, date(2027, 3, 9), TODAY).empty
    told.do(deeds.forget_sowing(told.season, "Brass Bell", YEAR))
    assert chosen_days(told.season, YEAR) == {}


def test_a_season_is_sown_from_december_to_june_and_half_a_year_on_in_the_south(told):
    assert tuple(sowing_span(told.season, YEAR)) == (date(2026, 12, 1), date(2027, 6, 30))
    assert tuple(span_of_sowing(YEAR, southern=True)) == (date(2027, 6, 1), date(2027, 12, 31))
    assert date(2026, 12, 1) in span_of_sowing(YEAR, southern=False)
    assert date(2026, 11, 30) not in span_of_sowing(YEAR, southern=False)
    days = days_of(span_of_sowing(YEAR, southern=False))
    assert (len(days), days[0], days[-1]) == (212, date(2026, 12, 1), date(2027, 6, 30))


def test_rules_change_one_by_one(told):
    told.do(deeds.set_rules(told.season, TODAY, odds=0.9, run_nights=5))
    told.do(deeds.set_rules(told.season, TODAY, floor_c=12))
    rules = rules_of(told.season)
    assert (rules.odds, rules.run_nights, rules.floor_c, rules.confidence) == (0.9, 5, 12.0, 0.95)
    assert deeds.set_rules(told.season, TODAY, floor_c=12).empty
    assert len(told.season.facts(PlanRules)) == 2


def test_rules_that_are_allowed_are_those_the_ledger_keeps(told):
    """Both ends of every rule pass; what lies beyond them is refused before the ledger is asked."""
    for name, rule in deeds.RULES.items():
        for value in (rule.least, rule.most):
            (fact,) = deeds.set_rules(ground().season, TODAY, **{name: value}).record
            fact.check()
        for value in (rule.least - 1, rule.most + 1):
            with pytest.raises(RefusedError) as caught:
                deeds.set_rules(told.season, TODAY, **{name: value})
            assert rule.words in str(caught.value)


def test_light_is_written_down_by_shelf(told):
    told.do(deeds.measure_light("  top   shelf ", TODAY, lux=11_000, lamp="cool white fluorescent", hours=14))
    (fact,) = told.season.facts(LampMeasured)
    assert (fact.place, fact.lux, fact.ppfd, fact.hours) == ("top shelf", 11_000, None, 14)


def test_the_lamps_the_ledger_knows_are_those_that_can_be_reckoned_with():
    assert set(LAMPS) == set(LUX_PER_PPFD)


@pytest.mark.parametrize(
    ("ask", "words"),
    [
        (lambda s: deeds.want(s, "Brass Bell", YEAR, -1, TODAY), "0 to 500 are allowed"),
        (lambda s: deeds.want(s, "Brass Bell", YEAR, 501, TODAY), "501 plants of Brass Bell are refused"),
        (lambda s: deeds.want(s, "gone", YEAR, 1, TODAY), "not in the seed box any more"),
        (lambda s: deeds.want_each(s, {}, YEAR, TODAY), "choose at least one"),
        (
            lambda s: deeds.choose_sowing(s, "Brass Bell", YEAR, date(2026, 11, 30), TODAY),
            "1 December 2026 to 30 June 2027 is allowed",
        ),
        (
            lambda s: deeds.choose_sowing(s, "Brass Bell", YEAR, date(2027, 7, 1), TODAY),
            "cannot be sown on 1 July 2027",
        ),
        (lambda s: deeds.forget_sowing(s, "Brass Bell", YEAR), "No sowing day is chosen for Brass Bell"),
        (lambda s: deeds.set_rules(s, TODAY, odds=1.0), "cannot be 100 %; 5 % to 99 % is allowed"),
        (lambda s: deeds.set_rules(s, TODAY, floor_c=-6), "cannot be -6 °C; -5 °C to 25 °C is allowed"),
        (lambda s: deeds.set_rules(s, TODAY, run_nights=31), "cannot be 31 nights; 1 night to 30 nights is"),
        (lambda s: deeds.measure_light(" ", TODAY, lux=1), "The shelf needs a name"),
        (lambda s: deeds.measure_light("shelf", TODAY), "one of the two"),
        (lambda s: deeds.measure_light("shelf", TODAY, lux=1, ppfd=1), "one of the two"),
        (
            lambda s: deeds.measure_light("shelf", TODAY, lux=-1),
            "-1 lux of light is refused; 0 to 200,000",
        ),
        (lambda s: deeds.measure_light("shelf", TODAY, ppfd=9_000), "9000 µmol of light is refused"),
        (
            lambda s: deeds.measure_light("shelf", TODAY, ppfd=9, hours=25),
            "25 hours a day of light is",
        ),
        (
            lambda s: deeds.measure_light("shelf", TODAY, lux=9, lamp="candle"),
            "'candle' is no known kind",
        ),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(told, ask, words):
    with pytest.raises(RefusedError) as caught:
        ask(told.season)
    message = str(caught.value)
    assert words in message
    assert message.endswith(".")
    assert ". " not in message


def test_a_grower_who_reads_fahrenheit_is_refused_in_fahrenheit(told):
    told.do(Proposal("units", (UnitsSet(day=TODAY, temperature="f"),)))
    with pytest.raises(RefusedError, match="cannot be 86 °F; 23 °F to 77 °F is allowed"):
        deeds.set_rules(told.season, TODAY, floor_c=30)
