"""The night ahead: in before the sun sets until hardened, and what cold nights ask of plants set out."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.ledger.facts import WeatherDay
from greenroom.season import deeds_harden as deeds
from tests.desk.harden_door import NO_SCREEN, TODAY, shown_page, weather

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


def nights(keeper, low_c):
    """Bring in days whose mornings are as cold as told, from the day after tomorrow mild again."""
    days = [WeatherDay(TODAY + timedelta(days=ahead), 13.0, 20.0, 0.0, 3.0) for ahead in range(-1, 6)]
    days[2] = WeatherDay(TODAY + timedelta(days=1), low_c, 15.0, 0.0, 3.0)
    weather(keeper, *days)


def shown(qtbot, bench):
    page = shown_page(qtbot, bench)
    qtbot.waitUntil(lambda: bool(page.tonight.words.text()))
    return page


def test_a_tray_on_the_ramp_is_in_before_the_sun_sets(qtbot, bench, keeper, rack):
    """Sunset at 20:21: pvlib 0.16.1, solar position algorithm of Reda and Andreas 2004."""
    nights(keeper, 14.0)
    page = shown(qtbot, bench)
    qtbot.waitUntil(lambda: page.tonight.words.text() == "Tonight in before 20:21")
    assert page.tonight.words.accessibleName() == "Tonight: in before 20:21, low 14 °C"
    QTest.mouseClick(page.tonight.why, Qt.MouseButton.LeftButton)
    assert bench.explained[0].figure == "Tonight: in before 20:21, low 14 °C"


def test_without_cold_nights_nothing_is_asked_of_plants_set_out(qtbot, bench, keeper, rack):
    nights(keeper, 14.0)
    page = shown(qtbot, bench)
    assert page.tonight.snap.isHidden()
    assert page.tonight.what.isHidden()


def test_a_frost_ahead_is_told_with_what_to_do(qtbot, bench, keeper, rack):
    """Frost forms with screens at 33 to 36 °F: National Weather Service offices."""
    keeper.do(lambda: deeds.go_out(keeper.season, rack, keeper.now))
    nights(keeper, 1.0)
    page = shown(qtbot, bench)
    card = page.tonight
    qtbot.waitUntil(lambda: not card.snap.isHidden())
    assert card.snap.text().startswith("Frost on the night of 14 May, down to 1 °C, until ")
    assert card.steps.isHidden()
    card.what.setFocus()
    QTest.keyClick(card.what, Qt.Key.Key_Space)
    assert card.steps.isVisible()
    assert "Carry in whatever can be carried." in card.steps.text()
    QTest.mouseClick(card.snap_why, Qt.MouseButton.LeftButton)
    assert bench.explained[-1].figure == card.snap.text()
    assert page.minimumSizeHint().height() <= 614
