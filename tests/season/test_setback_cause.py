"""Thirst, sun and wind are told apart by water first, then by where the tray stood and how it blew.

Droop in dry mix is water loss (University of Maryland Extension 2023); in wet mix do not water (Iowa State
University); papery patches only where the sun hit are scald (Brust). Days until dry: common practice, no
source.
"""

from datetime import timedelta

import pytest

from greenroom.ledger.facts import MixFelt, Watered
from greenroom.season.deeds_harden import IN
from greenroom.season.deeds_outdoors import cause_again, setback_from
from greenroom.season.place import place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.setback_cause import dry_after_days, suspect, suspicion_why
from tests.season._yard import FIRST, TRAY, Yard, day


def yard_out(light="sun", cell_ml=66, watered=None):
    yard = Yard(cell_ml=cell_ml)
    yard.out(FIRST, "9:00", 60 if light == "sun" else 0, 0 if light == "sun" else 60, first=light)
    if watered is not None:
        yard.write(Watered(day=FIRST - timedelta(days=watered), holder=TRAY))
    return yard


def found(yard, what="droop", clock="9:45"):
    return suspect(yard.season, TRAY, what, yard.at(FIRST, clock))


@pytest.mark.parametrize(
    ("cell_ml", "days"), [(11, 1), (40, 1), (43, 2), (500, 2), (501, 3), (12000, 3), (None, 2)]
)
def test_small_cells_are_dry_sooner(cell_ml, days):
    assert dry_after_days(cell_ml) == days


@pytest.mark.parametrize(
    ("cell_ml", "watered", "cause", "sure"),
    [
        (66, 0, "sun", True),
        (66, 1, "sun", True),
        (66, 2, "thirst", True),
        (66, 5, "thirst", True),
        (25, 1, "thirst", True),
        (25, 0, "sun", True),
        (600, 2, "sun", True),
        (600, 3, "thirst", True),
        (66, None, "sun", False),
    ],
)
def test_drooping_is_thirst_when_water_is_so_many_days_ago(cell_ml, watered, cause, sure):
    said = found(yard_out(cell_ml=cell_ml, watered=watered))
    assert (said.cause, said.sure) == (cause, sure)


@pytest.mark.parametrize(("level", "cause"), [("dry", "thirst"), ("moist", "sun"), ("wet", "sun")])
def test_a_finger_in_the_mix_goes_before_the_calendar(level, cause):
    yard = yard_out(watered=2 if level != "dry" else 1)
    yard.write(MixFelt(day=FIRST, holder=TRAY, level=level))
    assert found(yard).cause == cause


def test_water_given_after_the_mix_was_felt_dry_ends_the_thirst():
    yard = yard_out()
    yard.write(MixFelt(day=FIRST, holder=TRAY, level="dry"))
    assert found(yard).cause == "thirst"
    yard.write(Watered(day=FIRST, holder=TRAY))
    assert found(yard).cause == "sun"


@pytest.mark.parametrize(("gust", "cause"), [(6.9, "sun"), (7.0, "wind"), (12.0, "wind")])
def test_in_moist_mix_gusts_are_to_blame_from_a_moderate_breeze_on(gust, cause):
    """Beaufort 4, moderate breeze, is 5.5 to 7.9 m/s (WMO-No. 8, from memory)."""
    yard = yard_out(watered=0)
    yard.weather({FIRST: {"gust_ms": gust}})
    assert found(yard).cause == cause


def test_what_droops_in_the_shade_in_moist_mix_had_too_much_wind():
    said = found(yard_out("shade", watered=0))
    assert (said.cause, said.in_sun) == ("wind", False)


@pytest.mark.parametrize(("light", "cause"), [("sun", "sun"), ("shade", "wind")])
def test_scorched_leaves_are_never_thirst(light, cause):
    assert found(yard_out(light, watered=9), "scorch").cause == cause


def test_each_cause_comes_with_what_to_do():
    assert "30 to 60 minutes" in found(yard_out(watered=3)).advice
    assert "Feel the mix" in found(yard_out()).advice
    assert "do not water" in found(yard_out(watered=0)).advice
    assert "out of the wind" in found(yard_out("shade", watered=0)).advice


def test_the_reason_tells_when_it_was_watered_and_the_rule():
    yard = yard_out(watered=2)
    why = suspicion_why(found(yard), place_of(yard.season))
    assert why.figure == "Drooping, most likely thirst"
    assert dict(why.inputs)["last watered"] == "6 May"
    assert dict(why.inputs)["the mix"] == "dry"
    assert "1 day up to 40 mL, 2 days up to 500 mL, 3 days in larger pots" in why.rule
    assert "costs no step" in why.rule


# --------------------------------------------------------------------------------- writing the cause down


def test_a_setback_is_written_with_its_cause_and_what_was_done_at_once():
    yard = yard_out()
    yard.out(day(2), "9:00", 60)
    now = yard.at(day(2), "10:30")
    act = setback_from(yard.season, TRAY, "droop", "wind", yard.at(day(2), "9:30"), now=now)
    assert act.name == "Tray C: drooping from the wind"
    assert [fact.cause for fact in act.record] == ["wind"]
    with pytest.raises(RefusedError, match="is not out"):
        setback_from(yard.season, TRAY, "droop", "wind", yard.at(day(2), "9:30"), then=IN, now=now)


def test_a_cause_no_one_knows_is_refused():
    with pytest.raises(RefusedError, match="sun, wind or thirst is allowed"):
        setback_from(Yard().season, TRAY, "droop", "frost", Yard().at(FIRST, "9:00"))


def test_a_setback_can_be_put_down_to_thirst_after_all():
    yard = yard_out()
    yard.setback(FIRST, "9:30", "droop")
    before = yard.stand(day(2))
    (seen,) = before.setbacks
    act = yard.do(cause_again(yard.season, TRAY, seen.id, "thirst"))
    after = yard.stand(day(2))
    assert act.name == "Tray C: the setback of 9:30 on 8 May came from thirst"
    assert (before.sun.step, after.sun.step) == (0, 1)
    assert [(one.what, one.at, one.cause) for one in after.setbacks] == [("droop", seen.at, "thirst")]
    (now,) = after.setbacks
    assert cause_again(yard.season, TRAY, now.id, "thirst").empty
    with pytest.raises(RefusedError, match="no such setback"):
        cause_again(yard.season, TRAY, "nothing", "sun")
