"""A crop's ramp comes from the grower, else from the guide's numbers; a mixed tray takes the most careful.

Numbers of the guide: 7.2 °C (45 °F) while hardening (University of Maryland Extension 2023), pepper leaves
harmed below 10 °C and tomato leaves below 5 °C (Michigan State University Extension 2022), cabbage hardens
at 4.4 °C (40 °F, a table quoted in a trade page), nights of 10 °C (University of Minnesota Extension),
600 to 720 minutes (University of Illinois Extension), 60 to 120 minutes outdoors at first and 60 more a day
(University of Florida).
"""

import pytest

from greenroom.agronomy.hardening import HoldLimits, OutdoorRamp, Ramp
from greenroom.ledger.facts import RampSet, UnitsSet
from greenroom.season.deeds_outdoors import clear_ramp, set_ramp
from greenroom.season.place import place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.ramp_rules import careful, crops_in, rules_of, rules_of_holder, rules_why
from tests.season._yard import FIRST, MADE, TRAY, Yard


@pytest.mark.parametrize(
    ("crop", "floor", "night", "frost", "tender"),
    [
        ("pepper", 10.0, 10.0, 0.0, True),
        ("habanero", 10.0, 10.0, 0.0, True),
        ("tomato", 7.2, 10.0, 0.0, False),
        ("cabbage", 4.4, 0.0, -6.0, False),
        ("cucumber", 10.0, 12.0, 0.0, True),
        (None, 10.0, 10.0, 0.0, True),
    ],
)
def test_the_guide_gives_each_crop_its_floors(crop, floor, night, frost, tender):
    rules = rules_of(Yard().season, crop)
    assert (rules.limits.cold_c, rules.night_floor_c, rules.frost_c) == (floor, night, frost)
    assert rules.tender is tender
    assert not rules.chosen


def test_the_working_ramp_lies_within_what_the_guide_cites():
    rules = rules_of(Yard().season, "pepper")
    assert rules.ramp == Ramp(20, 600, 11)
    assert rules.air == OutdoorRamp(120, 60, 600)
    assert rules.bearable_5_c_days == 3


def test_what_the_grower_set_counts_and_the_last_word_of_it():
    yard = Yard()
    for outings in (9, 14):
        yard.do(set_ramp(yard.season, "pepper", Ramp(15, 480, outings), HoldLimits(12, 9, 5), FIRST))
    rules = rules_of(yard.season, "pepper")
    assert (rules.ramp, rules.limits, rules.chosen) == (Ramp(15, 480, 14), HoldLimits(12, 9, 5), True)
    assert rules.air.full_minutes == 480


def test_a_ramp_set_for_the_kin_counts_unless_the_crop_has_its_own():
    yard = Yard()
    yard.do(set_ramp(yard.season, "pepper", Ramp(15, 480, 9), HoldLimits(), FIRST))
    assert rules_of(yard.season, "habanero").ramp.outings == 9
    assert not rules_of(yard.season, "tomato").chosen
    yard.do(set_ramp(yard.season, "habanero", Ramp(15, 480, 14), HoldLimits(), FIRST))
    assert rules_of(yard.season, "habanero").ramp.outings == 14
    assert rules_of(yard.season, "pepper").ramp.outings == 9


def test_no_rain_at_all_means_any_that_a_gauge_shows():
    yard = Yard()
    yard.write(RampSet(day=FIRST, crop="pepper", rain_mm=0))
    assert rules_of(yard.season, "pepper").limits.rain_mm == 0.1


def test_taking_it_back_is_the_guide_again():
    yard = Yard()
    before = rules_of(yard.season, "pepper")
    for outings in (9, 14):
        yard.do(set_ramp(yard.season, "pepper", Ramp(15, 480, outings), HoldLimits(), FIRST))
    yard.do(clear_ramp(yard.season, "pepper"))
    assert rules_of(yard.season, "pepper") == before
    with pytest.raises(RefusedError, match="follows the guide already"):
        clear_ramp(yard.season, "pepper")


def test_setting_the_same_again_writes_nothing_and_an_unknown_crop_is_refused():
    yard = Yard()
    yard.do(set_ramp(yard.season, "pepper", Ramp(), HoldLimits(), FIRST))
    assert set_ramp(yard.season, "pepper", Ramp(), HoldLimits(), FIRST).empty
    with pytest.raises(RefusedError, match="'triffid' is not in the guide"):
        set_ramp(yard.season, "triffid", Ramp(), HoldLimits(), FIRST)


def test_a_mixed_tray_is_hardened_by_the_tenderest_of_its_crops():
    yard = Yard(crop="cabbage")
    assert rules_of_holder(yard.season, TRAY).limits.cold_c == 4.4
    yard.plant("cucumber", 1)
    rules = rules_of_holder(yard.season, TRAY)
    assert crops_in(yard.season, TRAY) == ("cabbage", "cucumber")
    assert (rules.limits.cold_c, rules.night_floor_c, rules.frost_c, rules.tender) == (10.0, 12.0, 0.0, True)
    assert rules.crops == ("cabbage", "cucumber")


def test_a_mixed_tray_takes_the_gentler_ramp_of_each_number():
    yard = Yard()
    yard.do(set_ramp(yard.season, "pepper", Ramp(30, 480, 9), HoldLimits(12, 11, 15), FIRST))
    yard.do(set_ramp(yard.season, "cabbage", Ramp(15, 600, 14), HoldLimits(4, 8, 20), FIRST))
    rules = careful([rules_of(yard.season, crop) for crop in ("pepper", "cabbage")])
    assert rules.ramp == Ramp(15, 600, 14)
    assert rules.limits == HoldLimits(12, 8, 15)
    assert careful([rules_of(yard.season, "cabbage"), rules_of(yard.season, "pepper")]).ramp == rules.ramp


def test_an_empty_holder_is_hardened_as_what_is_grown_most():
    yard = Yard()
    assert rules_of_holder(yard.season, TRAY).crops == rules_of(yard.season, None).crops


def test_the_reason_cites_the_guide_and_speaks_the_growers_unit():
    yard = Yard()
    why = rules_why(yard.season, "pepper", place_of(yard.season))
    assert ("kept in below", "10 °C") in why.inputs
    assert "harden at 7 °C or warmer and leaves are chilled below 10 °C" in why.rule
    assert any("Maryland" in source for source in why.sources)
    yard.write(UnitsSet(day=MADE, temperature="f", volume="floz"))
    assert ("kept in below", "50 °F") in rules_why(yard.season, "pepper", place_of(yard.season)).inputs
    yard.do(set_ramp(yard.season, "pepper", Ramp(), HoldLimits(), FIRST))
    assert "grower's own" in rules_why(yard.season, "pepper", place_of(yard.season)).rule
