"""A grower who sleeps or sits with guests hushes the bell, and still sees who is due."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from tests.desk.harden_door import NO_SCREEN, FakeBell, hardened_until, potted, shown_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def bell():
    return FakeBell()


@pytest.fixture
def page(qtbot, bench, keeper, shelf, bell):
    _, rack = potted(keeper)
    hardened_until(keeper, rack)
    return shown_page(qtbot, bench, bell)


def due(page, moment):
    """Out, and over its 110 minutes of sun."""
    page.card.buttons.sun.click()
    moment.go_on(minutes=111)
    page.tick(moment.moment)


def hush(page):
    page.going.hush.setFocus()
    QTest.keyClick(page.going.hush, Qt.Key.Key_Space)


def test_quiet_shows_who_is_due_and_does_not_ring(page, moment, bell):
    hush(page)
    due(page, moment)
    assert page.strip.isVisible()
    assert bell.rung == []


def test_quiet_stops_a_bell_that_rings_and_rings_again_when_it_ends(page, moment, bell):
    due(page, moment)
    assert len(bell.rung) == 1
    hush(page)
    assert bell.hushed == 1
    moment.go_on(minutes=2)
    page.tick(moment.moment)
    assert len(bell.rung) == 1
    hush(page)
    assert len(bell.rung) == 2


def test_ten_more_minutes_are_seen_until_they_are_over(page, moment, bell):
    due(page, moment)
    page.strip.later.click()
    local = page.bench.keeper.place.local(moment.moment + timedelta(minutes=10))
    assert page.going.snoozed.text() == f"Rack 1 rings again at {local:%H:%M}"
    assert page.going.snoozed.isVisible()
    moment.go_on(minutes=11)
    page.tick(moment.moment)
    assert page.going.snoozed.isHidden()
    assert len(bell.rung) == 2
