"""What lies under the pointer is told in figures, in every chart."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QLabel, QToolTip

from greenroom.desk.care.look_over_chart import LossChart
from greenroom.desk.harden.ramp_curve import RampCurve
from greenroom.desk.harden.spread_band import SpreadBand
from greenroom.desk.harden.sun_arc import ArcScene, SunArc
from greenroom.desk.look import Look
from greenroom.season.losses import BEFORE_UP, SEED_LEAVES, Losses, Part
from greenroom.season.ramp_rules import rules_of
from greenroom.season.ready_history import SpreadOn
from greenroom.season.sun_day import sun_day
from tests.desk.conftest import NOW, TODAY, ZONE
from tests.desk.test_harden_arc import PLACE


def told_at(widget, point):
    """The tip that a pointer resting on a point brings up, without its markup."""
    tip = QHelpEvent(QEvent.Type.ToolTip, point, widget.mapToGlobal(point))
    QApplication.sendEvent(widget, tip)
    words = QToolTip.text().removeprefix("<span>").removesuffix("</span>")
    QToolTip.hideText()
    return words


@pytest.fixture
def shown(qtbot):
    """Shows a chart at a size."""

    def show(chart, width, height):
        qtbot.addWidget(chart)
        chart.resize(width, height)
        chart.show()
        return chart

    return show


def test_a_bar_of_the_harvests_tells_all_that_was_picked_from_it(shown):
    from greenroom.desk.pick.yield_chart import Bar, YieldChart

    chart = shown(YieldChart(Look(dark=False)), 500, 200)
    bars = [
        Bar("Brass <b>Bell</b>", 2027, 675.0, "675 g", "18 fruit, 2.70 kg"),
        Bar("Brass <b>Bell</b>", 2026, 500.0, "500 g", "10 fruit, 2.00 kg"),
        Bar("Cinder Lantern", 2027, 180.0, "180 g", "40 fruit, 360 g"),
    ]
    chart.show_bars(bars, "g a plant")
    box = chart.getPlotItem().getViewBox()
    for row, told in ((0.5, "2027: 675 g; 18 fruit, 2.70 kg"), (1.5, "2026: 500 g; 10 fruit, 2.00 kg")):
        point = chart.mapFromScene(box.mapViewToScene(QPointF(100.0, -row)))
        assert told_at(chart, point) == f"Brass &lt;b&gt;Bell&lt;/b&gt; {told}"
    beside = chart.mapFromScene(box.mapViewToScene(QPointF(100.0, 0.3)))
    assert chart.bar_at(beside) is None


def test_a_bar_of_the_losses_tells_at_which_stages_they_were(shown):
    chart = shown(LossChart(Look(dark=False)), 500, 120)
    parts = (
        Part("damping-off", 3, 0.75, ((BEFORE_UP, 1), (SEED_LEAVES, 2))),
        Part("slugs", 1, 0.25, ((SEED_LEAVES, 1),)),
    )
    chart.show_losses(Losses(TODAY, TODAY, total=4, thinned=0, by_cause=parts, by_variety=()))
    assert told_at(chart, QPoint(200, 36)) == "damping-off 3, 75%: 1 not up, 2 seed leaves"
    assert told_at(chart, QPoint(200, 62)) == "slugs 1, 25%: 1 seed leaves"
    assert chart.words_at(QPoint(200, 5)) == chart.words_at(QPoint(200, 300)) == ""


def test_the_suns_path_tells_when_the_sun_stands_there_and_how_high(shown):
    """On 14 May the sun's declination is 18.6 degrees (Astronomical Almanac, from memory)."""
    arc = shown(SunArc(Look(dark=False), QLabel("of 110 minutes of sun")), 480, 220)
    sun = sun_day(PLACE, TODAY)
    arc.show_scene(ArcScene(sun, PLACE, NOW, (), None, "99"), "")
    noon = 90 - PLACE.latitude + 18.6
    assert told_at(arc, arc.point(sun.noon).toPoint()).endswith(f", {noon:.0f}° high")
    hour, minute = told_at(arc, arc.point(NOW).toPoint()).partition(",")[0].split(":")
    here = NOW.astimezone(ZONE)
    assert abs(int(hour) * 60 + int(minute) - here.hour * 60 - here.minute) <= 3  # a pixel is two minutes
    assert arc.words_at(QPoint(2, 100)) == ""


def test_the_band_tells_what_was_expected_on_the_morning_under_the_pointer(shown):
    band = shown(SpreadBand(Look(dark=False)), 400, 120)
    days = [date(2027, 5, 1) + timedelta(days=ahead) for ahead in range(10)]
    spreads = (
        SpreadOn(days[0], days[4], days[6], days[9], 10),
        SpreadOn(days[1], days[5], days[6], days[7], 10),
    )
    assert band.words_at(QPoint(100, 50)) == ""
    band.show_history(spreads)
    first = band.point(days[0], days[6]).toPoint() + QPoint(20, 0)
    assert told_at(band, first) == "on 1 May 5 May to 10 May, most likely 7 May"
    assert told_at(band, band.point(days[1], days[6]).toPoint()).startswith("on 2 May 6 May to 8 May")


def test_an_outing_of_the_curve_tells_its_minutes_and_those_of_published_schedules(shown, shelf):
    """In shade the first day is 1 to 2 h (Florida IFAS) or 3 to 4 h (Beltrami County Master Gardeners)."""
    curve = shown(RampCurve(Look(dark=False)), 420, 220)
    rules = rules_of(shelf, "capsicum-annuum")
    assert curve.words_at(QPoint(200, 100)) == ""
    curve.show_ramps(rules, rules)
    first, schedules = told_at(curve, curve.point(1, 60).toPoint()).split("<br>")
    assert first == f"outing 1: sun {rules.ramp.doses[0]} min; outdoors {rules.air.doses[0]} min"
    assert schedules.startswith("Published schedules: shade 60 to 240 min; direct sun ")
