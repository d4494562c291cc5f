"""A tray hardened through the page as a grower does it: out, into shade, in, and what was seen."""

from datetime import timedelta
from functools import partial

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QLabel, QPushButton

from greenroom.desk.bench import Bench
from greenroom.ledger.facts import WeatherDay
from greenroom.season import deeds_harden as deeds
from tests.desk.harden_door import (
    FIRST,
    NO_SCREEN,
    TODAY,
    at,
    click,
    go_on,
    hardened_until,
    potted,
    restarted,
    shown_page,
    stand_of,
    weather,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def page(qtbot, bench, rack):
    return shown_page(qtbot, bench)


def test_the_counter_runs_from_going_out_to_back_in(page, moment, keeper, rack):
    click(page.card.buttons.sun)
    for minutes in (0, 1, 54, 55):
        assert page.card.arc.scene.counter == str(int(stand_of(keeper, rack).counted.clock))
        go_on(page, moment, minutes=minutes)
    assert page.card.arc.scene.counter == "110"
    click(page.card.buttons.back)
    assert stand_of(keeper, rack).counted.clock == 110
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
    minutes = stand_of(keeper, rack).counted
    assert (minutes.clock, minutes.shade) == (40, 30)
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
    assert stand_of(again.keeper, rack).counted.clock == 50


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
    assert figures[1] == "30 of 110 minutes of sun today"
    assert any("mol/m²" in value for _, value in bench.explained[1].inputs)
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


@pytest.mark.parametrize("size", [(1024, 574), (1024, 614), (1440, 814)])
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
        assert page.minimumSizeHint().height() <= size[1]
        page.card.close_panel()
    settle(10)
    assert page.minimumSizeHint().height() <= size[1]
    arc_foot = page.card.arc.mapTo(page, QPoint(0, page.card.arc.height())).y()
    assert arc_foot <= page.card.buttons.mapTo(page, QPoint(0, 0)).y()
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
