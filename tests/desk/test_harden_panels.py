"""What is entered in the panels of the Harden page: ramps, setbacks, days kept in, and times afterwards."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QWidget

from greenroom.ledger.facts import WeatherDay
from greenroom.season import deeds_harden as deeds
from greenroom.season.hardening import going_out
from tests.desk.harden_door import (
    NO_SCREEN,
    STEPS,
    TODAY,
    at,
    click,
    go_on,
    hardened_until,
    potted,
    set_time,
    shown_page,
    stand_of,
    weather,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def page(qtbot, bench, rack):
    return shown_page(qtbot, bench)


def test_an_empty_page_begins_hardening_with_what_is_chosen(qtbot, bench, keeper, shelf):
    page = shown_page(qtbot, bench)
    panel = page.card.panel
    assert panel is page.card.start
    assert not panel.cancel.isVisible()
    assert not panel.confirm.isEnabled() or panel.holders.count() == 1
    panel.holders.item(0).setCheckState(Qt.CheckState.Checked)
    assert "20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600 minutes of sun" in panel.effect.text()
    click(panel.confirm)
    (tray, _) = keeper.season.holders()
    assert going_out(keeper.season) == [tray.key]
    assert stand_of(keeper, tray.key).started_on == TODAY
    assert page.card.panel is None
    assert page.going.model.rows[0].name == "Tray A"


def test_a_page_without_seedlings_says_where_to_mark_them_up(qtbot, bench, keeper):
    page = shown_page(qtbot, bench)
    assert page.card.nothing.isVisible()
    assert not page.card.start.isVisible()
    click(page.card.nothing.steps[0])
    assert bench.shown == ["grow"]


def test_a_ramp_of_ones_own_is_begun_on_an_earlier_day(qtbot, bench, keeper, shelf):
    page = shown_page(qtbot, bench)
    panel = page.card.start
    panel.holders.item(0).setCheckState(Qt.CheckState.Checked)
    panel.day.setDate(panel.day.date().addDays(-2))
    panel.first.setValue(30)
    panel.last.setValue(480)
    panel.outings.setValue(9)
    click(panel.confirm)
    stand = stand_of(keeper, going_out(keeper.season)[0])
    doses = stand.sun.ramp.doses
    assert (stand.started_on, doses[0], doses[-1], len(doses)) == (date(2027, 5, 12), 30, 480, 9)


def test_a_ramp_that_falls_is_refused_before_it_can_be_confirmed(qtbot, bench, keeper, shelf):
    page = shown_page(qtbot, bench)
    panel = page.card.start
    panel.holders.item(0).setCheckState(Qt.CheckState.Checked)
    panel.first.setValue(120)
    panel.last.setValue(60)
    assert panel.effect.text() == "The first outing is 120 minutes and the last 60; the last must be longer."
    assert not panel.confirm.isEnabled()


@pytest.mark.parametrize(("what", "then"), [("droop", "shade"), ("wilt", "in"), ("scorch", "in")])
def test_what_a_setback_says_it_will_do_is_what_it_does(page, moment, keeper, rack, what, then):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=60)
    before = stand_of(keeper, rack)
    click(getattr(page.card.buttons, what))
    panel = page.card.panel
    assert panel.then.currentData() == then
    said = panel.effect.text()
    assert stand_of(keeper, rack) == before
    click(panel.confirm)
    after = stand_of(keeper, rack)
    ready = f"Ready {before.ready_on.day} May becomes {after.ready_on.day} May"
    step = after.tomorrow[0] if what != "scorch" else after.sun.next_step
    step = f"becomes step {step + 1} of 11 ({STEPS[step]} minutes)"
    assert ready in said
    assert step in said
    assert after.ready_on > before.ready_on
    assert (after.outing.light if after.outing else "in") == then
    assert page.card.panel is None
    keeper.undo()
    assert stand_of(keeper, rack) == before


def test_a_setback_counts_from_the_time_it_was_seen(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=60)
    click(page.card.buttons.wilt)
    panel = page.card.panel
    late = panel.effect.text()
    set_time(panel.seen, "10:24")
    assert panel.effect.text() != late
    click(panel.confirm)
    assert stand_of(keeper, rack).sun.settled.day.setback_after == 30


def test_a_setback_on_a_tray_that_was_not_out_is_refused_in_a_sentence(page, keeper, rack):
    click(page.card.buttons.droop)
    panel = page.card.panel
    assert panel.effect.text().startswith("Rack 1 has not been out on 14 May; a setback belongs to an outing")
    assert not panel.confirm.isEnabled()
    QTest.keyClick(panel.seen, Qt.Key.Key_Escape)
    assert page.card.panel is None
    assert stand_of(keeper, rack).setbacks == ()


def test_cancel_writes_nothing(page, keeper, rack):
    click(page.card.buttons.sun)
    before = keeper.ledger.entries()
    click(page.card.buttons.scorch)
    click(page.card.panel.cancel)
    assert keeper.ledger.entries() == before


def test_kept_in_says_why_and_moves_the_ready_date(page, keeper, rack):
    click(page.card.buttons.kept)
    panel = page.card.panel
    panel.reason.setCurrentText("wind")
    assert "Ready 19 May becomes 20 May, 1 day later." in panel.effect.text()
    click(panel.confirm)
    assert stand_of(keeper, rack).held == {TODAY: "wind"}
    assert page.card.lines.next.text() == "kept in: wind"
    assert page.chart.ready.text() == "ready 20 May, 1 day later than planned"


def test_the_weathers_own_reason_is_offered_for_keeping_in(qtbot, bench, keeper, rack):
    weather(keeper, WeatherDay(TODAY, 4.0, 18.0, 0.0, 12.0))
    page = shown_page(qtbot, bench)
    assert page.card.verdict.text() == "Today's weather: keep them in: strong gusts, 43 km/h"
    click(page.card.buttons.kept)
    assert page.card.panel.reason.currentText() == "strong gusts"


def test_an_outing_is_entered_afterwards(page, keeper, rack):
    click(page.card.times)
    panel = page.card.panel
    set_time(panel.start, "7:30")
    panel.moved.setChecked(True)
    set_time(panel.moved_at, "8:30")
    set_time(panel.end, "9:00")
    click(panel.confirm)
    minutes = stand_of(keeper, rack).counted
    assert (minutes.clock, minutes.shade) == (60, 30)


def test_an_outing_that_still_goes_on_is_entered_by_its_start(page, keeper, rack):
    click(page.card.times)
    panel = page.card.panel
    set_time(panel.start, "9:00")
    panel.still_out.setChecked(True)
    click(panel.confirm)
    assert stand_of(keeper, rack).outing.start == at("9:00")
    assert page.card.arc.scene.counter == "54"


def test_a_tray_that_came_in_earlier_is_brought_in_at_that_time(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, hours=9)
    click(page.card.times)
    panel = page.card.panel
    assert not panel.start.isVisible()
    set_time(panel.end, "11:44")
    click(panel.confirm)
    assert stand_of(keeper, rack).counted.clock == 110


@pytest.mark.parametrize(
    ("start", "end", "sentence"),
    [
        ("9:30", "9:10", "it must end after it started."),
        ("9:30", "11:00", "11:00 on 14 May is still to come for Rack 1; enter a time that is past."),
    ],
)
def test_times_that_cannot_be_are_refused_in_a_sentence(page, start, end, sentence):
    click(page.card.times)
    panel = page.card.panel
    set_time(panel.start, start)
    set_time(panel.end, end)
    assert panel.effect.text().endswith(sentence)
    assert not panel.confirm.isEnabled()


def test_outings_that_overlap_are_refused_in_a_sentence(page, keeper, rack):
    start, end = at("8:00"), at("9:00")
    keeper.do(lambda: deeds.enter_outing(keeper.season, rack, [(start, "sun")], end, keeper.now))
    click(page.card.times)
    panel = page.card.panel
    set_time(panel.start, "8:30")
    set_time(panel.end, "9:30")
    assert panel.effect.text() == (
        "Rack 1 was out from 8:00 on 14 May to 9:00 on 14 May already; two outings cannot overlap."
    )


def test_an_outing_written_down_wrongly_is_struck_out_and_undone(qtbot, page, keeper, rack):
    click(page.card.times)
    panel = page.card.panel
    assert panel.latest.itemAtPosition(0, 0).widget().text() == "13 May, 9:00 to 10:20: sun"
    strike = panel.latest.itemAtPosition(0, 1).widget()
    qtbot.waitUntil(strike.isVisible)
    click(strike)
    assert stand_of(keeper, rack).sun.step == 4
    keeper.undo()
    assert stand_of(keeper, rack).sun.step == 5


def test_hardening_is_stopped_from_the_times(page, keeper, rack):
    click(page.card.times)
    click(page.card.panel.off_ramp)
    assert going_out(keeper.season) == []
    assert page.card.panel is page.card.start
    keeper.undo()
    assert page.going.model.rows[0].key == rack
    assert page.card.panel is None


def test_a_panel_about_one_holder_closes_when_another_is_chosen(qtbot, bench, keeper, shelf):
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    click(page.card.times)
    page.going.choose(page.going.model.rows[1].key)
    assert page.card.panel is None


def test_every_field_of_the_panels_has_a_name(page):
    page.card.buttons.sun.click()
    for open_it in (
        lambda: page.card.buttons.seen.emit("droop"),
        page.card.times.click,
        page.card.open_start,
    ):
        open_it()
        fields = [
            one
            for one in page.card.panel.findChildren(QWidget)
            if one.isVisible() and one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.focusProxy() is None
        ]
        inner = ("qt_spinbox_lineedit", "qt_scrollarea_viewport")
        named = [one for one in fields if one.objectName() not in inner]
        nameless = [
            one
            for one in named
            if not one.accessibleName() and not (isinstance(one, QAbstractButton) and one.text())
        ]
        assert nameless == []
        page.card.close_panel()


def test_what_a_panel_foresees_answers_why(page, moment, bench):
    click(page.card.buttons.kept)
    click(page.card.panel.why)
    page.card.close_panel()
    click(page.card.times)
    click(page.card.panel.why)
    page.card.close_panel()
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=60)
    click(page.card.buttons.wilt)
    click(page.card.panel.why)
    page.card.open_start()
    assert [why.figure for why in bench.explained] == [
        "Ready to set out 20 May",
        "Ready to set out 19 May",
        "Ready to set out 23 May",
    ]


def test_the_ramp_to_begin_answers_why(qtbot, bench, keeper, shelf):
    page = shown_page(qtbot, bench)
    click(page.card.start.why)
    assert bench.explained[0].figure == "11 outings, ready 24 May"
