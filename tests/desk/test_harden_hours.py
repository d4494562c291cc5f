"""The best hours stand on the arc and in the days ahead, and the step's own sun is told once."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt, QTime
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest

from greenroom.desk.look import LIGHT
from greenroom.ledger.facts import WeatherDay, YardSun
from greenroom.season import deeds_harden as deeds
from tests.desk.harden_door import NO_SCREEN, TODAY, at, shown_page, weather

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)

NOON = at("12:52")
"""Solar noon at 46.4 N, 16.0 E on 14 May 2027: pvlib 0.16.1, transit of the solar position algorithm."""
MIDDAY = timedelta(hours=2)
"""The hours of strongest sun are two either side of noon: WHO, Global Solar UV Index, 2002."""


@pytest.fixture
def page(qtbot, bench, keeper, rack):
    days = (WeatherDay(TODAY + timedelta(days=ahead), 12.0, 21.0, 0.0, 4.0) for ahead in range(-1, 6))
    weather(keeper, *days)
    return worked_out(qtbot, shown_page(qtbot, bench))


def worked_out(qtbot, page):
    """The page once the hours of all its days are there."""
    qtbot.waitUntil(lambda: page.card.arc.scene.hours.best is not None and bool(page.days.lines[-1].best))
    return page


def hand_in(page, first, last):
    """Tell the sun on the step through the panel, by keyboard."""
    page.card.step_sun.setFocus()
    QTest.keyClick(page.card.step_sun, Qt.Key.Key_Space)
    page.card.yard.first.setTime(QTime.fromString(first, "H:mm"))
    page.card.yard.last.setTime(QTime.fromString(last, "H:mm"))
    QTest.mouseClick(page.card.yard.confirm, Qt.MouseButton.LeftButton)


def test_hours_that_no_longer_fit_the_morning_are_put_off_to_the_gentle_end_of_the_day(page):
    """It is 9:54 and 110 minutes are asked for: they would run into the strongest sun."""
    best = page.card.arc.scene.hours.best
    assert best.start >= NOON + MIDDAY
    assert best.end - best.start == timedelta(minutes=110)
    assert page.card.best.text().startswith("best ")
    assert page.card.best_part.text() == "late afternoon"


def test_a_day_to_come_has_its_hours_in_the_morning(page):
    assert page.days.lines[1].best.endswith("mol/m²")
    assert ", morning, " in page.days.lines[1].best
    best = page.hours.of(TODAY + timedelta(days=1)).windows.best
    assert best.end <= NOON + timedelta(days=1) - MIDDAY + timedelta(minutes=1)


def test_a_day_that_is_held_names_no_hours(qtbot, bench, keeper, rack):
    weather(keeper, WeatherDay(TODAY + timedelta(days=1), 2.0, 5.0, 0.0, 4.0))
    page = worked_out(qtbot, shown_page(qtbot, bench))
    assert [line.best for line in page.days.lines if line.minutes == "in"] == [""]


def test_the_best_hours_are_edged_on_the_path(page):
    best = page.card.arc.scene.hours.best
    middle = page.card.arc.point(best.start + (best.end - best.start) / 2)
    picture = page.card.arc.grab().toImage()
    colours = {
        picture.pixelColor(int(middle.x()) + x, int(middle.y()) + y).name()
        for x in range(-12, 13)
        for y in range(-12, 13)
    }
    assert QColor(LIGHT.leaf).name() in colours
    assert QColor(LIGHT.leaf_soft).name() in colours


def test_the_hours_answer_why(page, bench):
    QTest.mouseClick(page.card.best_why, Qt.MouseButton.LeftButton)
    assert bench.explained[0].figure.startswith("Out 14 May: ")


def test_the_arc_says_its_hours_and_warmth_to_a_screen_reader(page):
    told = page.card.arc.accessibleDescription()
    assert "The best hours are " in told
    assert "Temperature: " in told


def test_the_sun_on_the_step_closes_the_hours_without_it(qtbot, page, keeper):
    """With sun from 8:00 to 14:00 alone, no hour of the late afternoon can be proposed."""
    hand_in(page, "8:00", "14:00")
    fact = keeper.season.latest(YardSun)
    assert (fact.first, fact.last, fact.day) == (480, 840, TODAY)
    qtbot.waitUntil(lambda: page.card.arc.scene.hours.best is not None)
    assert page.card.arc.scene.hours.best.end <= at("14:00")
    assert page.card.best_part.text() == "midday"
    assert page.card.panel is None
    assert "on the step from 8:00 to 14:00" in page.card.arc.accessibleDescription()
    keeper.undo()
    qtbot.waitUntil(lambda: page.card.best_part.text() == "late afternoon")


def test_a_sun_that_leaves_before_it_comes_is_refused_in_a_sentence(page, keeper):
    hand_in(page, "15:00", "9:00")
    assert page.card.yard.effect.text().startswith("The sun cannot reach the step at 15:00")
    assert not page.card.yard.confirm.isEnabled()
    assert keeper.season.latest(YardSun) is None


def test_a_tray_that_has_had_its_sun_is_proposed_no_more_today(qtbot, page, keeper, rack, moment):
    keeper.do(lambda: deeds.go_out(keeper.season, rack, keeper.now))
    moment.go_on(minutes=110)
    page.tick(moment.moment)
    qtbot.waitUntil(lambda: page.card.arc.scene.hours.best is None)
    assert not page.card.corner.isVisible()
