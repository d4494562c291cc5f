"""Beside the trays' own cards: all of them side by side, a crop's ramp, and cool nights, by hand and key."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from PySide6.QtCore import QDate, QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from greenroom.desk.care.faces import FACES
from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.harden.measured_field import MeasuredField, Unit, gust_unit, rain_unit, warmth_unit
from greenroom.desk.harden.ramp_curve import RampCurve
from greenroom.desk.look import Look
from greenroom.ledger.facts import CoolNight, HardeningStarted, RampSet, WeatherDay
from greenroom.season import deeds_harden as deeds
from greenroom.season.deeds_shelf import set_units
from greenroom.season.deeds_spots import set_leaves
from greenroom.season.place import Place
from greenroom.season.ramp_rules import rules_of
from greenroom.season.schedules import SCHEDULES
from greenroom.season.side_by_side import Span
from greenroom.season.spots import SpotKey
from tests.desk.harden_door import NO_SCREEN, TODAY, at, hardened_until, potted, shown_page, weather

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)

PEPPER = "capsicum-annuum"
MILD = {"tmin_c": 12.0, "tmax_c": 21.0, "rain_mm": 0.0, "gust_ms": 3.0}


@pytest.fixture
def door(keeper, shelf):
    """Tray and rack on the ramp: the rack five outings on and set back once, the tray two; 17 May blows."""
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    first = TODAY - timedelta(days=6)
    days = [WeatherDay(first + timedelta(days=ahead), **MILD) for ahead in range(13)]
    days[9] = days[9]._replace(gust_ms=15.0, rain_mm=4.0)
    weather(keeper, *days)
    assert keeper.do(lambda: deeds.setback(keeper.season, rack, "droop", at("9:30", TODAY - timedelta(2))))
    return tray, rack


@pytest.fixture
def page(qtbot, bench, door):
    return shown_page(qtbot, bench)


def press(widget, name):
    found = widget.findChild(QPushButton, name)
    assert found.isVisible(), name
    QTest.mouseClick(found, Qt.MouseButton.LeftButton)


def struck_by(card):
    return card.history.findChildren(QPushButton, "strike-out")


def test_all_trays_stand_side_by_side_and_open_by_key_and_by_click(page, door, settle, bench):
    tray, rack = door
    press(page, "view-side")
    side = page.views.side
    settle(80)
    assert {line.key for line in side.lines} == {tray, rack}
    assert not page.card.isVisible()
    assert side.grid.hasFocus()
    told = {line.key: line for line in side.lines}
    assert [day.date for day in told[rack].setbacks] == [TODAY - timedelta(2)]
    assert told[rack].holds[0].date == date(2027, 5, 17)
    QTest.keyClick(side.grid, Qt.Key.Key_End)
    last = side.lines[-1].key
    assert side.grid.current == last
    assert side.grid.accessibleDescription().startswith(told[last].name)
    if last == rack:
        assert "set back drooping 12 May" in side.grid.accessibleDescription()
    row = side.grid.row_box([line.key for line in side.lines].index(rack))
    droop = QPointF(side.grid._scale.middle(TODAY - timedelta(2)), row.center().y()).toPoint()
    assert side.grid.words_at(droop).startswith("12 May: ")
    assert "drooping" in side.grid.words_at(droop)
    QTest.keyClick(side.grid, Qt.Key.Key_Return)
    assert page.card.isVisible()
    assert page.going.current == page.card.key == last
    press(page, "view-side")
    box = side.grid.row_box(0).center().toPoint()
    QTest.mouseClick(side.grid.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(box.x(), box.y()))
    assert page.going.current == side.lines[0].key
    assert not side.isVisible()


def test_the_same_stands_as_a_table_with_the_weather_told_in_words(page, door, settle, bench):
    press(page, "view-side")
    side = page.views.side
    settle(80)
    assert "17 May, measured: 12 °C to 21 °C, rain 4 mm, gusts 54 km/h, in:" in (
        side.strip.accessibleDescription()
    )
    there = side.strip.day_at(side.grid.plot_edges[1] - 1)
    assert there.date == side.lines[0].today + timedelta(days=(there.date - TODAY).days)
    assert side.strip.day_at(2) is None
    QTest.keyClick(side.as_table, Qt.Key.Key_Space)
    assert side.table.isVisible()
    rows = side.table.model()
    named = {rows.index(row, 0).data(): row for row in range(rows.rowCount())}
    assert rows.index(named["Rack 1"], 6).data() == "drooping 12 May"
    assert rows.index(named["Rack 1"], 8).data().startswith("17 May, ")
    QTest.keyClick(side.as_table, Qt.Key.Key_Escape)
    assert page.card.isVisible()


def test_the_weather_stands_under_the_bars_of_its_days_where_there_is_room(page, door, qtbot):
    qtbot.waitUntil(lambda: page.chart.chart is not None)
    strip, chart = page.chart.strip, page.chart.chart
    assert not strip.isVisible(), "a low page keeps its room for the bars"
    page.resize(1440, 814)
    qtbot.waitUntil(lambda: strip.isVisible() and strip.day_at(strip.width() / 2) is not None)
    box = chart.getPlotItem().getViewBox()
    for place, day in enumerate(page.chart.chart.days):
        bar = chart.mapFromScene(box.mapViewToScene(QPointF(place, 0))).x() + chart.x() - strip.x()
        assert strip.day_at(bar).date == day.date
    assert "17 May, measured: " in strip.accessibleDescription()


def test_a_ramp_is_changed_with_its_effect_told_before_it_is_kept(page, door, keeper, settle, bench):
    _, rack = door
    ready = page.standings.of(rack).ready_on
    press(page, "view-ramp")
    ramp = page.views.ramp
    assert ramp.crop.currentData() == PEPPER
    assert not ramp.confirm.isEnabled()
    ramp.outings.setValue(14)
    settle(80)
    assert "Rack 1: ready " in ramp.lines.text()
    assert " becomes " in ramp.lines.text()
    assert ramp.effect.text() == "2 ready dates of 2 would change."
    assert keeper.season.facts(RampSet) == [], "told, not kept"
    assert page.standings.of(rack).ready_on == ready
    ramp.outings.setValue(22)
    settle(80)
    assert ramp.effect.text() == "A ramp of 22 outings cannot be: 7 to 21 are allowed."
    assert not ramp.confirm.isEnabled()
    ramp.outings.setValue(14)
    settle(80)
    told = {line.split(":")[0]: line for line in ramp.lines.text().split("\n")}
    QTest.mouseClick(ramp.confirm, Qt.MouseButton.LeftButton)
    assert [fact.outings for fact in keeper.season.facts(RampSet)] == [14]
    later = page.standings.of(rack).ready_on
    assert f"becomes {later.day} {later:%B}" in told["Rack 1"]
    assert ramp.isVisible(), "the next crop may follow"
    press(page, "ramp-guides")
    assert keeper.season.facts(RampSet) == []
    assert page.standings.of(rack).ready_on == ready
    assert ramp.outings.value() == 11
    keeper.undo()
    assert [fact.outings for fact in keeper.season.facts(RampSet)] == [14]
    keeper.undo()
    assert keeper.season.facts(RampSet) == []
    starts = [entry.fact for entry in keeper.season.holder_facts(rack)]
    assert [one.outings for one in starts if isinstance(one, HardeningStarted)] == [11]
    QTest.keyClick(ramp.first, Qt.Key.Key_Escape)
    assert page.card.isVisible()


def test_a_published_schedule_can_be_held_against_the_ramp(page, door, settle):
    press(page, "view-ramp")
    ramp = page.views.ramp
    assert ramp.published.count() == len(SCHEDULES)
    assert ramp.published.item(0).text().startswith(f"{SCHEDULES[0].source}: shade, from 60 to 120 min")
    bare = ramp.curve.grab().toImage()
    ramp.published.setFocus()
    ramp.published.setCurrentRow(0)
    assert ramp.curve.grab().toImage() != bare
    assert ramp.note.text() == f"{SCHEDULES[0].source}: {SCHEDULES[0].note}"
    assert "10 published schedules" in ramp.curve.accessibleDescription()


def test_the_gates_are_in_the_growers_units_and_keep_what_was_told(page, keeper, settle):
    keeper.do(lambda: set_units("f", "floz", TODAY))
    press(page, "view-ramp")
    ramp = page.views.ramp
    assert (ramp.cold.text(), ramp.gust.text(), ramp.rain.text()) == ("50 °F", "25 mph", "0.59 in")
    assert not ramp.confirm.isEnabled(), "rounding for the eye changes nothing"
    ramp.cold.setValue(54)
    settle(80)
    QTest.mouseClick(ramp.confirm, Qt.MouseButton.LeftButton)
    (kept,) = keeper.season.facts(RampSet)
    assert kept.cold_c == pytest.approx(12.222, abs=0.001)  # (54 - 32) / 1.8
    assert (kept.gust_ms, kept.rain_mm) == (11.0, 15.0)


def test_cool_nights_are_planned_written_down_and_struck_out(qtbot, bench, keeper, shelf, settle):
    tray, _ = keeper.season.holders()
    cells = [SpotKey(tray.key, row, column) for row in range(5) for column in range(2)]
    keeper.do(lambda: set_leaves(keeper.season, cells, TODAY, 4))
    page = shown_page(qtbot, bench)
    press(page, "view-cool")
    cool = page.views.cool
    assert [cool.trays.item(row).text() for row in range(cool.trays.count())] == ["Tray A: tonight, 0 so far"]
    card = cool.card
    assert card.coming.text().startswith("Evenings: tonight, 17 May, 21 May")
    assert card.morning.date() == QDate(2027, 5, 14)
    card.low.setValue(16)
    press(page, "cool-record")
    (night,) = [e.fact for e in keeper.season.holder_facts(tray.key) if isinstance(e.fact, CoolNight)]
    assert (night.day, night.low_c) == (TODAY, 16)
    assert card.words.text() == "1 cool night so far; the next on 16 May, 16 to 18 °C."
    assert cool.trays.item(0).text() == "Tray A: 16 May, 1 so far"
    press(page, "cool-record")
    assert bench.said[-1] == "The cool night of Tray A to 14 May is noted already."
    QTest.mouseClick(card.why, Qt.MouseButton.LeftButton)
    assert "nobody has shown" in bench.explained[-1].rule
    assert [line.words for line in card.history.lines] == ["down to 16 °C, counted"]
    qtbot.waitUntil(lambda: any(one.isVisible() for one in struck_by(card)))
    QTest.mouseClick(next(one for one in struck_by(card) if one.isVisible()), Qt.MouseButton.LeftButton)
    assert card.history.lines == ()
    QTest.keyClick(cool.trays, Qt.Key.Key_Escape)
    assert page.card.isVisible()


def test_cool_nights_stand_in_the_care_of_a_tray_for_the_day_that_is_written_for(qtbot, bench, shelf):
    tray, _ = shelf.holders()
    cells = [SpotKey(tray.key, row, column) for row in range(5) for column in range(2)]
    bench.keeper.do(lambda: set_leaves(shelf, cells, TODAY - timedelta(3), 4))
    part = FACES["cool"].make(bench, lambda: TODAY - timedelta(2))
    qtbot.addWidget(part)
    part.show()
    part.show_holder(tray.key)
    press(part, "cool-record")
    (night,) = [e.fact for e in shelf.holder_facts(tray.key) if isinstance(e.fact, CoolNight)]
    assert night.day == TODAY - timedelta(2)
    part.card.rate.setCurrentIndex(1)
    assert part.card.words.text() == "1 cool night so far; the next on 18 May, 16 to 18 °C."


@pytest.mark.parametrize(
    ("unit", "told", "shown"),
    [
        (warmth_unit(Place(temperature="f")), 7.2, 45.0),
        (gust_unit(Place(temperature="f")), 11.0, 25.0),
        (rain_unit(Place(temperature="f")), 15.0, 0.59),
        (gust_unit(Place()), 11.0, 40.0),
        (Unit("min"), 20.0, 20.0),
    ],
)
def test_a_field_nobody_touched_gives_back_the_very_number(qtbot, unit, told, shown):
    field = MeasuredField("a-field", "A field", lambda: None)
    qtbot.addWidget(field)
    field.show_number(told, unit)
    assert field.value() == shown
    assert field.number == told
    field.setValue(shown + 1)
    assert field.number == pytest.approx((shown + 1 - unit.plus) / unit.times)


def test_days_stand_in_the_same_place_in_every_chart():
    scale = DayScale(Span(date(2027, 5, 6), date(2027, 5, 25)), 100, 500)
    assert (scale.wide, scale.x(date(2027, 5, 6)), scale.middle(date(2027, 5, 25))) == (20, 100, 490)
    assert [day.day for day, _ in scale.labels()][:3] == [6, 9, 12]


def test_each_doubling_stands_as_high_as_the_last_in_the_curve(qtbot, shelf):
    curve = RampCurve(Look(dark=False))
    qtbot.addWidget(curve)
    curve.resize(420, 220)
    curve.show_ramps(rules_of(shelf, PEPPER), rules_of(shelf, PEPPER))
    heights = [curve.point(1, minutes).y() for minutes in (15, 30, 60, 120)]
    steps = [low - high for low, high in pairwise(heights)]
    assert steps == pytest.approx([steps[0]] * 3)
    assert not curve.grab().isNull()
