"""Days to come up: the guide's, the grower's own, and the two together, at one warmth."""

from datetime import date, timedelta

import pytest

from greenroom.season import deeds_spots
from greenroom.season.coming_up import coming_up, coming_up_why
from greenroom.season.spots import SpotKey
from tests.season.plan_ground import Kind, ground
from tests.season.told import SOWN_ON, Told

BELL = "p-Brass Bell"
TODAY = SOWN_ON + timedelta(days=40)


@pytest.fixture
def told():
    made: Told = ground(Kind("Brass Bell", "bell", seeds=60), Kind("Odd One", "moonflower"))
    made.holder("T", mix_c=20.0)
    return made


def sow(told, up_on_day):
    cells = [SpotKey("T", row, column) for row in range(4) for column in range(5)]
    told.do(deeds_spots.sow(told.season, BELL, cells, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, cells, SOWN_ON + timedelta(days=up_on_day)))


def test_a_packet_never_sown_is_told_for_the_best_warmth_of_its_crop(told):
    """Bell pepper comes up best at 25 to 30 °C, where the table gives 8 days (Harrington and Minges 1954)."""
    found = coming_up(told.season, BELL, TODAY)
    assert (found.mix_c, found.sown_so, found.own) == (27.5, False, None)
    assert found.guide.days == pytest.approx(8.0)
    assert found.days == pytest.approx(8.0)
    assert found.low < 8.0 < found.high


def test_own_days_draw_the_guides_towards_them_and_narrow_the_range(told):
    """At 20 °C the table gives 13 days (Harrington and Minges 1954); here they took 18."""
    before = coming_up(told.season, BELL, TODAY)
    sow(told, 18)
    found = coming_up(told.season, BELL, TODAY)
    assert (found.mix_c, found.sown_so) == (20.0, True)
    assert found.guide.days == pytest.approx(13.0)
    assert found.own == pytest.approx(18.0)
    assert 13.0 < found.days < 18.0
    assert found.high / found.low < before.high / before.low


def test_the_reasons_name_both_figures_and_where_they_come_from(told):
    sow(told, 18)
    why = coming_up_why(told.season, coming_up(told.season, BELL, TODAY))
    told_of = dict(why.inputs)
    assert told_of["by the guide"].startswith("day 13.0")
    assert told_of["this lot's own"] == "day 18.0, of 20 seedlings"
    assert told_of["warmth of the mix"] == "20 °C, as it was last sown"
    assert any("Harrington" in source for source in why.sources)


def test_of_a_crop_that_is_not_in_the_guide_nothing_is_told(told):
    assert coming_up(told.season, "p-Odd One", TODAY) is None
    assert coming_up(told.season, "p-none", date(2027, 5, 1)) is None
