"""The plan as a picture: whole, to scale, its text still text.

Read by the standard library's XML parser, by the rules of SVG 1.1 (W3C 2011).
"""

from datetime import date, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from greenroom.exchange.chart_picture import Inks, bars_of, plan_picture
from greenroom.season.deeds_plan import want
from greenroom.season.plan import plan_of
from greenroom.season.plan_stages import Stages, stages
from tests.season.demo_season import TODAY, demo_season
from tests.season.told import Told

SVG = "{http://www.w3.org/2000/svg}"
COLOURS = [f"#{number:02x}0000" for number in range(14)]
INKS = Inks(*COLOURS)
SEASON = demo_season()


@pytest.fixture(scope="module")
def plan():
    return plan_of(SEASON, 2027, TODAY)


@pytest.fixture(scope="module")
def picture(plan):
    return ElementTree.fromstring(plan_picture(SEASON.guide, plan, INKS, 1600, 900))


def words(picture):
    return [text.text for text in picture.iter(f"{SVG}text")]


def test_every_variety_and_every_ripe_day_stands_in_it_as_text(picture, plan):
    told = words(picture)
    assert {row.name for row in plan.rows} <= set(told)
    assert "Plan of the season 2027" in told
    assert {"comes up", "grows on", "hardens", "outdoors", "pot up", "first ripe", "first frost"} <= set(told)


def test_bars_are_to_scale_and_each_begins_where_the_one_before_ends(picture, plan):
    """A bar twice as long in days is twice as wide."""
    groups = {
        group.find(f"{SVG}title").text.split(":")[0]: group
        for group in picture.iter(f"{SVG}g")
        if ":" in (group.find(f"{SVG}title").text or "")
    }
    for row in plan.rows:
        bars = bars_of(stages(SEASON.guide, row))
        drawn = [
            (float(one.get("x")), float(one.get("width"))) for one in groups[row.name].findall(f"{SVG}rect")
        ]
        assert len(drawn) == len(bars) > 0
        days = [(bar.end - bar.first).days for bar in bars]
        a_day = drawn[-1][1] / days[-1]
        assert [width for _, width in drawn] == pytest.approx([a_day * day for day in days], abs=0.3)
        for (x, width), (after, _) in pairwise(drawn):
            assert x + width == pytest.approx(after, abs=0.2)


@pytest.mark.parametrize(("width", "height"), [(300, 200), (1600, 900), (8000, 500)])
def test_nothing_lies_outside_the_picture_whatever_its_size(plan, width, height):
    drawn = ElementTree.fromstring(plan_picture(SEASON.guide, plan, INKS, width, height))
    wide, high = int(drawn.get("width")), int(drawn.get("height"))
    assert wide == max(width, 760)
    assert high >= height
    for one in drawn.iter():
        for across in ("x", "x1", "x2", "cx"):
            assert 0 <= float(one.get(across, 0)) <= wide
        for down in ("y", "y1", "y2", "cy"):
            assert 0 <= float(one.get(down, 0)) <= high


def test_a_name_with_markup_or_a_stray_sign_does_not_break_the_picture():
    told = Told()
    told.packet("<b>Ember</b> & “co”\x07")
    day = date(2027, 1, 10)
    told.do(want(told.season, "v-<b>Ember</b> & “co”\x07", 2027, 3, day))
    drawn = plan_picture(told.season.guide, plan_of(told.season, 2027, day), INKS, 1600, 900)
    assert "<b>Ember</b> & “co” " in words(ElementTree.fromstring(drawn))


def test_a_plan_of_nothing_is_an_empty_year():
    empty = Told().season
    drawn = plan_picture(empty.guide, plan_of(empty, 2027, TODAY), INKS, 800, 600)
    assert {"Jan", "Jun", "Dec"} <= set(words(ElementTree.fromstring(drawn)))


def test_stages_that_are_not_known_are_left_out():
    day = date(2027, 3, 1)
    known = Stages(day, day + timedelta(days=9), None, None, None, None)
    assert [bar.word for bar in bars_of(known)] == ["comes up"]
