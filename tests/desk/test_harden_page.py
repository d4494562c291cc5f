"""A tray hardened through the page as a grower does it: out, into shade, in, and what was seen."""

from datetime import date, timedelta
from functools import partial

import pytest
from PySide6.QtCore import QDateTime, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLabel, QPushButton, QWidget

from greenroom.desk.bench import Bench
from greenroom.ledger.facts import WeatherDay
from greenroom.season import deeds_harden as deeds
from greenroom.season.hardening import going_out
from tests.desk.harden_door import (
    FIRST,
    NO_SCREEN,
    TODAY,
    FakeBell,
    at,
    hardened_until,
    potted,
    restarted,
    shown_page,
    stand_of,
    weather,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def rack(keeper, shelf):
    """The rack, on the sixth step of its ramp on 14 May: 110 minutes."""
    _, rack = potted(keeper)
    hardened_until(keeper, rack)
    return rack


@pytest.fixture
def page(qtbot, bench, rack):
    return shown_page(qtbot, bench)


def click(button):
    assert button.isVisible(), f"{button.text()} is not shown"
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def go_on(page, moment, **time):
    """Let time pass, and the window's second with it."""
    moment.go_on(**time)
    page.tick(moment.moment)


def set_time(field, clock):
    """Type a time over the one a field shows."""
    hour, minute = (int(part) for part in clock.split(":"))
    told = field.dateTime()
    field.setDateTime(
        QDateTime(told.date(), told.time().fromString(f"{hour:02d}:{minute:02d}", "HH:mm"), told.timeZone())
    )


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
    assert page.card.start.nothing.isVisible()
    assert not page.card.start.confirm.isVisible()
    click(page.card.start.to_grow)
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
    assert (stand.started_on, stand.ramp.start_minutes, stand.ramp.outings) == (date(2027, 5, 12), 30, 9)


def test_a_ramp_that_falls_is_refused_before_it_can_be_confirmed(qtbot, bench, keeper, shelf):
    page = shown_page(qtbot, bench)
    panel = page.card.start
    panel.holders.item(0).setCheckState(Qt.CheckState.Checked)
    panel.first.setValue(120)
    panel.last.setValue(60)
    assert panel.effect.text() == "The first outing is 120 minutes and the last 60; the last must be longer."
    assert not panel.confirm.isEnabled()


def test_the_counter_runs_from_going_out_to_back_in(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    for minutes in (0, 1, 54, 55):
        assert page.card.arc.scene.counter == str(int(stand_of(keeper, rack).minutes.sun))
        go_on(page, moment, minutes=minutes)
    assert page.card.arc.scene.counter == "110"
    click(page.card.buttons.back)
    assert stand_of(keeper, rack).minutes.sun == 110
    assert page.card.lines.next.text() == "back in, step done"
    go_on(page, moment, minutes=30)
    assert page.card.arc.scene.counter == "110"


def test_the_counter_counts_the_time_that_passed_and_not_the_ticks(page, moment, keeper, rack):
    """A machine that slept for an hour ticks once when it wakes."""
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=61)
    assert page.card.arc.scene.counter == "61"
    for _ in range(50):
        page.tick(moment.moment)
    assert page.card.arc.scene.counter == "61"
    go_on(page, moment, minutes=-20)
    assert page.card.arc.scene.counter == "41"


def test_sun_and_shade_are_switched_and_counted_apart(page, moment, keeper, rack):
    click(page.card.buttons.shade)
    assert page.card.buttons.into_sun.isVisible()
    assert not page.card.buttons.into_shade.isVisible()
    go_on(page, moment, minutes=25)
    assert page.card.arc.scene.counter == "0"
    assert page.card.lines.shade.text() == "·  25 minutes in shade"
    click(page.card.buttons.into_sun)
    go_on(page, moment, minutes=40)
    click(page.card.buttons.into_shade)
    go_on(page, moment, minutes=5)
    minutes = stand_of(keeper, rack).minutes
    assert (minutes.sun, minutes.shade) == (40, 30)
    assert page.card.lines.next.text() == "70 minutes of sun left today"


def test_back_in_at_is_when_the_minutes_of_sun_are_full(page, moment):
    """Out at 9:54 for 110 minutes: 11:44; ten minutes of shade put it off to 11:54."""
    click(page.card.buttons.sun)
    assert page.card.lines.next.text() == "back in at 11:44, in 1 h 50 min"
    go_on(page, moment, minutes=30)
    click(page.card.buttons.into_shade)
    go_on(page, moment, minutes=10)
    click(page.card.buttons.into_sun)
    assert page.card.lines.next.text() == "back in at 11:54, in 1 h 20 min"


def test_the_counter_goes_on_after_a_restart(qtbot, page, bench, keeper, moment, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=47)
    page.hide()
    again = Bench(restarted(keeper), bench.look)
    page = shown_page(qtbot, again)
    assert page.card.arc.scene.counter == "47"
    moment.go_on(minutes=3)
    page.tick(moment.moment)
    assert page.card.arc.scene.counter == "50"
    click(page.card.buttons.back)
    assert stand_of(again.keeper, rack).minutes.sun == 50


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
    step = f"becomes step {after.next_step + 1} ({after.ramp.minutes(after.next_step)} minutes)"
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
    assert stand_of(keeper, rack).settled.day.setback_after == 30


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
    assert page.chart.ready.text() == "ready to set out 20 May, 1 day later than first planned"


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
    minutes = stand_of(keeper, rack).minutes
    assert (minutes.sun, minutes.shade) == (60, 30)


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
    assert stand_of(keeper, rack).minutes.sun == 110


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
    assert stand_of(keeper, rack).step == 4
    keeper.undo()
    assert stand_of(keeper, rack).step == 5


def test_hardening_is_stopped_from_the_times(page, keeper, rack):
    click(page.card.times)
    click(page.card.panel.off_ramp)
    assert going_out(keeper.season) == []
    assert page.card.panel is page.card.start
    keeper.undo()
    assert page.going.model.rows[0].key == rack
    assert page.card.panel is None


def test_undo_takes_each_step_back_on_the_page(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=20)
    click(page.card.buttons.back)
    assert page.card.buttons.sun.isVisible()
    keeper.undo()
    assert page.card.buttons.back.isVisible()
    assert page.card.arc.scene.counter == "20"
    keeper.undo()
    assert page.card.arc.scene.counter == "0"
    assert page.card.lines.next.text() == "waiting"


def test_all_go_out_and_come_in_as_one_act(qtbot, bench, keeper, moment, shelf):
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    click(page.going.send_all)
    assert all(stand_of(keeper, key).outing for key in (tray, rack))
    assert not page.going.send_all.isEnabled()
    go_on(page, moment, minutes=5)
    click(page.going.bring_all)
    assert not any(stand_of(keeper, key).outing for key in (tray, rack))
    keeper.undo()
    assert all(stand_of(keeper, key).outing for key in (tray, rack))
    keeper.undo()
    assert not any(stand_of(keeper, key).outing for key in (tray, rack))


def test_the_next_to_come_in_stands_first_and_the_chosen_one_stays_chosen(
    qtbot, bench, keeper, moment, shelf
):
    """The tray's third step is 40 minutes, the rack's sixth 110: the tray comes in first."""
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    page.going.choose(rack)
    click(page.card.buttons.sun)
    assert [here.key for here in page.going.model.rows] == [rack, tray]
    click(page.going.send_all)
    assert [here.key for here in page.going.model.rows] == [tray, rack]
    assert page.going.current == rack
    assert page.card.key == rack


def test_the_list_is_walked_with_the_arrow_keys(qtbot, bench, keeper, shelf):
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    first = page.card.key
    page.going.view.setFocus()
    QTest.keyClick(page.going.view, Qt.Key.Key_Down)
    assert page.card.key != first
    QTest.keyClick(page.going.view, Qt.Key.Key_Up)
    assert page.card.key == first


def test_a_click_on_a_card_chooses_its_holder(qtbot, bench, keeper, shelf):
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    second = page.going.view.visualRect(page.going.model.index(1))
    QTest.mouseClick(page.going.view.viewport(), Qt.MouseButton.LeftButton, pos=second.center())
    assert page.card.key == page.going.model.rows[1].key


def test_a_panel_about_one_holder_closes_when_another_is_chosen(qtbot, bench, keeper, shelf):
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    page = shown_page(qtbot, bench)
    click(page.card.times)
    page.going.choose(page.going.model.rows[1].key)
    assert page.card.panel is None


def test_without_a_place_the_counter_works_and_the_page_says_what_the_arc_needs(
    qtbot, bench, keeper, shelf, moment
):
    _, rack = potted(keeper)
    hardened_until(keeper, rack)
    while keeper.place.known:
        (place,) = keeper.ledger.entries("place_set")
        keeper.take(keeper.ledger.strike(place.fact.id))
    page = shown_page(qtbot, bench)
    assert page.card.arc.scene.sun is None
    assert "needs your place" in page.card.no_place.text()
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=30)
    assert page.card.arc.scene.counter == "30"
    assert not page.card.lines.light_why.isVisible()
    click(page.card.to_place)
    assert bench.shown == ["place"]


def test_a_change_elsewhere_is_seen_when_the_page_comes_back(page, keeper, rack):
    page.hide()
    keeper.do(lambda: deeds.go_out(keeper.season, rack, keeper.now))
    page.show()
    page.entered()
    assert page.card.buttons.back.isVisible()


def test_a_new_day_asks_for_the_next_step(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=110)
    click(page.card.buttons.back)
    go_on(page, moment, hours=20)
    assert page.card.lines.of.text() == "of 155 minutes of sun"
    assert page.card.arc.scene.counter == "0"


def test_every_figure_answers_why(page, moment, bench):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=30)
    links = (page.card.lines.minutes_why, page.card.lines.light_why, page.days.why, page.chart.why)
    for link in links:
        click(link)
    figures = [why.figure for why in bench.explained]
    assert figures[0] == "110 minutes of sun today"
    assert figures[1].endswith("of light under a clear sky")
    assert figures[2] == figures[3] == "Ready to set out 19 May"
    assert all(why.rule and why.inputs and why.sources for why in bench.explained)


def test_the_verdict_answers_why(qtbot, bench, keeper, rack):
    weather(keeper, WeatherDay(TODAY, 8.0, 19.0, 0.0, 5.0))
    page = shown_page(qtbot, bench)
    click(page.card.verdict_why)
    assert bench.explained[0].figure == "A day to go out"


def test_names_are_shown_as_they_were_written(qtbot, bench, keeper, shelf):
    from greenroom.season.deeds_shelf import make_holder
    from greenroom.season.deeds_spots import move as move_seedlings
    from greenroom.season.spots import SpotKey

    name = "<b>Rack</b> & co"
    keeper.do(lambda: make_holder(keeper.season, name=name, form="rack", rows=2, columns=2, day=FIRST))
    tray, _, odd = keeper.season.holders()
    source = [SpotKey(tray.key, 0, 0)]
    keeper.do(lambda: move_seedlings(keeper.season, source, SpotKey(odd.key, 0, 0), FIRST))
    keeper.do(lambda: deeds.start_hardening(keeper.season, odd.key, FIRST))
    page = shown_page(qtbot, bench)
    assert page.card.title.text() == name
    assert page.card.title.textFormat() is Qt.TextFormat.PlainText


def test_each_button_has_a_name_and_a_key_of_its_own(page, moment):
    """Mnemonics that are seen at the same time must differ, or Alt with a letter does nothing."""
    page.card.buttons.sun.click()
    go_on(page, moment, minutes=120)
    opening = (lambda: None, partial(page.card.buttons.seen.emit, "wilt"), page.card.times.click)
    for open_it in (*opening, partial(page.card.buttons.seen.emit, "kept"), page.card.open_start):
        open_it()
        buttons = [one for one in page.findChildren(QAbstractButton) if one.isVisible() and one.text()]
        labels = [one for one in page.findChildren(QLabel) if one.isVisible() and one.buddy() is not None]
        texts = [one.text() for one in (*buttons, *labels)]
        letters = [text[text.index("&") + 1].lower() for text in texts if "&" in text]
        assert len(letters) == len(set(letters)), sorted(texts)
        assert len(letters) > 4
        page.card.close_panel()


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


@pytest.mark.parametrize("size", [(1024, 614), (1440, 814)])
def test_the_page_fits_the_smallest_window_whatever_is_open(page, moment, size, settle):
    click(page.card.buttons.sun)
    page.resize(*size)
    go_on(page, moment, minutes=120)
    assert page.strip.isVisible()
    for open_it in (
        lambda: page.card.buttons.seen.emit("scorch"),
        page.card.times.click,
        page.card.open_start,
    ):
        open_it()
        settle(10)
        assert page.minimumSizeHint().width() <= 1024
        assert page.minimumSizeHint().height() <= 614
        page.card.close_panel()
    settle(10)
    assert page.minimumSizeHint().height() <= 614
    lowest = page.card.buttons.mapTo(page, QPoint(0, page.card.buttons.height())).y()
    assert lowest <= size[1]


def test_targets_are_large_enough_for_wet_hands(page):
    """24 px is WCAG 2.2, success criterion 2.5.8 (minimum target size)."""
    page.card.buttons.sun.click()
    small = [
        one.text()
        for one in page.findChildren(QPushButton)
        if one.isVisible() and min(one.width(), one.height()) < 24
    ]
    assert small == []


def test_a_day_of_rest_is_told_and_going_out_is_not_offered_first(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, minutes=60)
    click(page.card.buttons.scorch)
    click(page.card.panel.confirm)
    go_on(page, moment, days=1)
    assert page.card.lines.of.text() == "no sun today, a day of rest"
    assert page.card.lines.next.text() == "rest after leaf scorch"
    assert page.card.buttons.sun.property("kind") == ""


def test_the_page_is_told_apart_from_a_page_with_a_bell_of_its_own(qtbot, bench, rack):
    """Without a screen nobody hears: pages that are drawn to files do not ring."""
    from greenroom.desk.harden.bell import SilentBell, desktop_bell

    assert isinstance(desktop_bell(), SilentBell)
    assert FakeBell().rung == []


def test_time_passes_without_a_write(page, moment, keeper):
    click(page.card.buttons.sun)
    before = keeper.ledger.entries()
    for _ in range(5):
        go_on(page, moment, minutes=7)
    assert keeper.ledger.entries() == before


def test_a_tray_out_since_yesterday_says_so(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    go_on(page, moment, days=1)
    assert page.card.arc.scene.counter == str(
        int((at("9:54") + timedelta(days=1) - at("0:00", TODAY + timedelta(days=1))).total_seconds() // 60)
    )
    assert "out since 9:54 on 14 May" in page.card.arc.accessibleDescription()
