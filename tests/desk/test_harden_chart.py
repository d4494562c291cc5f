"""The chart's bars are the ramp as it was walked, and the days ahead are the plan."""

import subprocess
import sys
from datetime import timedelta

import pyqtgraph as pg
import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from greenroom.agronomy.hardening import OutingDay, Ramp, replay
from greenroom.desk.harden.bar_art import ART, KEY
from greenroom.ledger.facts import WeatherDay
from greenroom.season import deeds_harden as deeds
from greenroom.season.ramp_days import DayKind
from tests.desk.harden_door import (
    FIRST,
    NO_SCREEN,
    STEPS,
    TODAY,
    at,
    shown_page,
    weather,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def page(qtbot, bench, rack):
    return drawn(qtbot, shown_page(qtbot, bench))


def drawn(qtbot, page):
    qtbot.waitUntil(lambda: page.chart.chart is not None and not page.chart._timer.isActive())
    return page


def bars(chart):
    """Heights by place of the bars that are drawn: those that ask, and those that were done."""
    items = [item for item in chart.getPlotItem().items if isinstance(item, pg.BarGraphItem)]
    return [dict(zip(item.opts["x"], item.opts["height"], strict=True)) for item in items[::2]]


def test_the_bars_are_the_ramp_replayed(page):
    """Five days done as planned, from the agronomy's own replay; then today and what is planned."""
    record = [OutingDay(FIRST + timedelta(days=n), minutes) for n, minutes in enumerate(STEPS[:5])]
    walked = replay(Ramp(), record)
    asked, done = bars(page.chart.chart)
    assert done == {place: one.day.minutes for place, one in enumerate(walked)}
    assert asked == {place: float(minutes) for place, minutes in enumerate(STEPS)}


def test_a_setback_shows_at_once_in_bars_line_and_ready_date(qtbot, page, keeper, rack):
    start = at("8:00")
    keeper.do(lambda: deeds.go_out(keeper.season, rack, start))
    keeper.do(lambda: deeds.setback(keeper.season, rack, "wilt", keeper.now, then="in", now=keeper.now))
    drawn(qtbot, page)
    asked, done = bars(page.chart.chart)
    assert done[5] == pytest.approx(114)
    assert page.chart.chart.days[5].kind is DayKind.SET_BACK
    assert len(asked) > len(STEPS)
    lines = [item for item in page.chart.chart.getPlotItem().items if isinstance(item, pg.PlotDataItem)]
    line = lines[-1]  # the first plan; the others mark the minutes outdoors
    assert line.yData.tolist() == [float(minutes) for minutes in STEPS]
    assert "later than planned" in page.chart.ready.text()
    assert page.chart.ready.property("role") == "alert"


def test_every_kind_of_day_has_a_form_of_its_own():
    """Told by fill, pattern or frame, so that it is seen without colour."""
    forms = {
        kind: (art.ground is None, art.pattern, art.line == Qt.PenStyle.SolidLine, art.ground == "sun")
        for kind, art in ART.items()
    }
    told = (DayKind.DONE, DayKind.SHORT, DayKind.SHADE, DayKind.SET_BACK, DayKind.TODAY, DayKind.COMING)
    assert len({forms[kind] for kind in told}) == len(told)
    assert {kind for kind, _ in KEY if kind} <= set(ART)


def test_the_chart_is_told_in_words(qtbot, bench, keeper, rack):
    weather(keeper, WeatherDay(TODAY + timedelta(days=1), 4.0, 20.0, 0.0, 12.0))
    page = drawn(qtbot, shown_page(qtbot, bench))
    told = page.chart.accessibleDescription()
    assert told.startswith("9 May 20 of 20 minutes, ")
    assert " mol/m², done; 10 May 30 of 30 minutes, " in told
    assert "15 May hold, strong gusts" in told
    assert "to come 5 days, from 155 minutes on 16 May to 600 on 20 May" in told
    assert told.endswith("Ready to set out 20 May, 1 day later than first planned.")
    assert page.chart.chart.accessibleDescription() == told


def test_the_day_under_the_pointer_is_told(page):
    chart = page.chart.chart
    box = chart.getPlotItem().getViewBox()
    there = chart.mapFromScene(box.mapViewToScene(QPointF(1.0, 5.0)))
    day = chart.day_at(there)
    assert day is chart.days[1]
    QApplication.sendEvent(chart, QHelpEvent(QEvent.Type.ToolTip, there, chart.mapToGlobal(there)))
    assert f">{FIRST.day + 1} May: {STEPS[1]} of {STEPS[1]} minutes" in QToolTip.text()
    assert chart.day_at(QPoint(-500, 0)) is None
    QToolTip.hideText()


def test_the_wheel_and_the_mouse_leave_the_chart_as_it_is(page):
    box = page.chart.chart.getPlotItem().getViewBox()
    assert box.state["mouseEnabled"] == [False, False]
    assert page.chart.chart.focusPolicy() is Qt.FocusPolicy.NoFocus


def test_the_chart_follows_theme_and_size(qtbot, page, bench):
    before = page.chart.chart.grab().toImage()
    bench.look.set_dark(True)
    assert page.chart.chart.grab().toImage() != before
    for size in ((1024, 614), (1440, 814)):
        page.resize(*size)
        qtbot.wait(10)
        chart = page.chart.chart
        highest = max(bar.planned for bar in chart.days)
        assert chart.getPlotItem().getViewBox().viewRange()[1][1] > highest


def test_many_changes_at_once_are_drawn_once(qtbot, page, keeper, rack, moment):
    draws = []
    page.chart.chart.show_days = lambda days, **_named: draws.append(days)
    for light in ("shade", "sun", "shade", "sun"):
        moment.go_on(minutes=1)
        if deeds.outing_of(keeper.season, rack) is None:
            keeper.do(lambda light=light: deeds.go_out(keeper.season, rack, keeper.now, light))
        else:
            keeper.do(lambda light=light: deeds.switch_light(keeper.season, rack, keeper.now, light))
    qtbot.waitUntil(lambda: bool(draws))
    qtbot.wait(60)
    assert len(draws) == 1


def test_the_days_ahead_are_the_plan_with_weather_and_nights(qtbot, bench, keeper, rack):
    weather(
        keeper,
        WeatherDay(TODAY, 8.2, 19.0, 0.0, 5.0),
        WeatherDay(TODAY + timedelta(days=1), 12.0, 21.0, 0.0, 8.0),
        WeatherDay(TODAY + timedelta(days=2), 6.0, 9.0, 0.0, 3.0),
    )
    page = shown_page(qtbot, bench)
    lines = page.days.lines
    assert [(line.day, line.minutes, line.verdict) for line in lines[:4]] == [
        ("Today", "110 min", "out"),
        ("Sat 15", "155 min", "sheltered"),
        ("Sun 16", "in", "hold"),
        ("Mon 17", "215 min", "out"),
    ]
    assert [line.reason for line in lines[:4]] == [
        "sheltered: up to 19 °C, gusts 18 km/h",  # outdoors it is on its first step still
        "and 25 of shade; sheltered spot: gusts, 29 km/h",
        "keep in: too cold, 9 °C",
        "and 25 of shade; sheltered: no forecast",
    ]
    assert [(line.low, line.cold) for line in lines[:4]] == [
        ("low 8 °C", True),
        ("low 12 °C", False),
        ("low 6 °C", True),
        ("", False),
    ]
    assert page.days.note.isHidden()


def test_today_stays_among_the_days_when_it_is_done(page, keeper, rack, moment):
    keeper.do(lambda: deeds.go_out(keeper.season, rack, keeper.now))
    moment.go_on(minutes=110)
    page.tick(moment.moment)
    assert page.days.lines[0].day == "Today"
    assert page.days.lines[0].reason == "110 done: 1 step up"


def test_fahrenheit_readers_see_fahrenheit(qtbot, bench, keeper, rack):
    """8.2 °C is 46.8 °F; 5 m/s is 11.2 mph (NIST SP 811, appendix B)."""
    from greenroom.season.deeds_shelf import set_units

    weather(keeper, WeatherDay(TODAY, 8.2, 19.0, 0.0, 5.0))
    keeper.do(lambda: set_units("f", "floz", TODAY))
    page = shown_page(qtbot, bench)
    assert page.days.lines[0].low == "low 47 °F"
    assert page.days.lines[0].reason == "sheltered: up to 66 °F, gusts 11 mph"


def test_the_page_is_made_without_the_chart_library():
    """pyqtgraph takes a third of a second to import; a page that nobody has looked at must not."""
    code = (
        "import sys; from greenroom.desk.harden.page import HardenPage; "
        "assert not {'pyqtgraph', 'scipy', 'pvlib'} & sys.modules.keys()"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
