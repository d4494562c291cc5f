"""The round is walked with one click or one key a job, and stays true while it is."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.parts import WhyLink
from greenroom.desk.round import page as round_page
from greenroom.desk.round.page import WORKING, RoundPage
from greenroom.desk.shortcuts import ROUND
from greenroom.ledger.facts import LampsSet, Watered
from greenroom.season.deeds_care import feel_mix, water
from greenroom.season.deeds_harden import start_hardening
from greenroom.season.deeds_shelf import make_holder
from greenroom.season.deeds_spots import sow
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY, holder_named

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def tray(shelf):
    return holder_named(shelf, "Tray A")


@pytest.fixture
def page(qtbot, bench, keeper, tray):
    """The round of a tray that feels dry, with lamps nobody told of."""
    keeper.do(lambda: feel_mix(keeper.season, tray, TODAY, "dry"))
    made = RoundPage(bench)
    qtbot.addWidget(made)
    keeper.changed.connect(made.take)
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    made.entered()
    return made


def row(page, start):
    return next((one for one in page.rows() if one.job.what.startswith(start)), None)


def press(page, what, settle):
    QTest.mouseClick(what, LEFT)
    settle(120)


def told(season, holder, cls):
    return [entry.fact for entry in season.holder_facts(holder) if isinstance(entry.fact, cls)]


def test_a_round_that_takes_long_is_worked_out_between_events(page, monkeypatch, qtbot, keeper, tray):
    monkeypatch.setattr(round_page, "AT_ONCE_MS", 0)
    page.leave()
    page.hide()
    keeper.do(lambda: water(keeper.season, tray, TODAY))
    page.show()
    page.entered()
    assert page.figure.text() == WORKING
    qtbot.waitUntil(lambda: page.figure.text() != WORKING)
    assert row(page, "Empty the basin of Tray A")
    assert page.focusWidget() is page.rows()[0]
    page.entered()
    page.leave()
    qtbot.wait(60)
    assert page.figure.text() == WORKING, "what was left is not worked out behind another page"


def test_what_is_put_aside_is_shown_at_the_top_of_the_list(page, settle):
    QTest.keyClick(page.rows()[0], Qt.Key.Key_L)
    settle(120)
    page.resize(1024, 420)
    bar = page.scroller.verticalScrollBar()
    bar.setValue(bar.maximum())
    press(page, page.aside_button, settle)
    assert page.aside.isVisible()
    assert bar.value() == 0


def test_a_job_is_done_with_one_click_and_is_gone(page, keeper, tray, settle):
    before = len(page.rows())
    press(page, row(page, "Water Tray A").done_button, settle)
    assert [fact.how for fact in told(keeper.season, tray, Watered)] == ["below"]
    assert row(page, "Water") is None
    assert row(page, "Empty the basin of Tray A")
    assert len(page.rows()) == before
    done = page.places["At the shelf"].done_rows
    assert ("✓ Tray A", "watered from below at 9:54") in [(one.what.text(), one.words.text()) for one in done]


def test_what_was_done_is_taken_back_with_one_click(page, keeper, tray, settle):
    press(page, row(page, "Water Tray A").done_button, settle)
    done = page.places["At the shelf"].done_rows
    press(page, next(one for one in done if "watered" in one.words.text()).back_button, settle)
    assert told(keeper.season, tray, Watered) == []
    assert row(page, "Water Tray A")


def test_a_job_done_on_another_page_goes_away_by_itself(page, keeper, tray, settle):
    keeper.do(lambda: water(keeper.season, tray, TODAY, "above"))
    settle(120)
    assert row(page, "Water") is None


def test_the_number_beside_a_job_is_proposed_and_can_be_corrected(page, keeper, settle):
    lamps = row(page, "Lamps on over shelf 1")
    assert lamps.number.value() == 16
    assert "hours a day" in lamps.number.accessibleName()
    lamps.number.lineEdit().selectAll()
    QTest.keyClicks(lamps.number.lineEdit(), "14.5")
    keeper.do(lambda: feel_mix(keeper.season, holder_named(keeper.season, "Tray A"), TODAY, "moist"))
    settle(120)
    assert "14.5" in lamps.number.text()
    press(page, lamps.done_button, settle)
    assert [fact.hours for fact in keeper.season.facts(LampsSet)] == [14.5]


def test_enter_in_the_number_does_the_job(page, keeper, settle):
    lamps = row(page, "Lamps on over shelf 1")
    lamps.number.lineEdit().selectAll()
    QTest.keyClicks(lamps.number.lineEdit(), "12")
    QTest.keyClick(lamps.number.lineEdit(), Qt.Key.Key_Return)
    settle(120)
    assert [fact.hours for fact in keeper.season.facts(LampsSet)] == [12]


def test_the_round_is_walked_with_keys_alone(page, keeper, tray, bench, settle):
    first, second = page.rows()[:2]
    assert QApplication.focusWidget() is first
    QTest.keyClick(first, Qt.Key.Key_Down)
    assert QApplication.focusWidget() is second
    QTest.keyClick(second, Qt.Key.Key_Up)
    assert QApplication.focusWidget() is first
    QTest.keyClick(first, Qt.Key.Key_Up)
    assert QApplication.focusWidget() is first
    QTest.keyClick(first, Qt.Key.Key_W)
    assert bench.explained[-1] is first.job.why
    wet = row(page, "Water Tray A")
    wet.setFocus()
    place = page.rows().index(wet)
    QTest.keyClick(wet, Qt.Key.Key_Space)
    settle(120)
    assert told(keeper.season, tray, Watered)
    assert QApplication.focusWidget() is page.rows()[place]


def test_every_key_of_the_round_stands_in_the_list_of_keys():
    assert {key for one in ROUND for key in one.keys} == {"Up", "Down", "Enter", "Space", "L", "W", "Delete"}


def test_later_puts_a_job_off_until_tomorrow_and_it_can_be_brought_back(page, moment, settle):
    lamps = row(page, "Lamps on")
    lamps.setFocus()
    QTest.keyClick(lamps, Qt.Key.Key_L)
    settle(120)
    assert row(page, "Lamps on") is None
    assert page.aside_button.text() == "1 put aside"
    assert any("Lamps on over shelf 1" in line.text for line in page.week.lines[0])
    press(page, page.aside_button, settle)
    assert page.aside.isVisible()
    assert page.aside.rows[0].words.text() == "put off until 15 May"
    press(page, page.aside.rows[0].back_button, settle)
    assert row(page, "Lamps on")
    assert page.aside_button.isHidden()


def test_what_was_put_off_is_there_again_the_next_day(page, keeper, moment, settle):
    press(page, row(page, "Lamps on").later_button, settle)
    moment.go_on(days=1)
    page.tick(keeper.now)
    assert row(page, "Lamps on")


def test_a_job_can_be_struck_out_for_good(page, keeper, moment, settle):
    lamps = row(page, "Lamps on")
    lamps.setFocus()
    QTest.keyClick(lamps, Qt.Key.Key_Delete)
    settle(120)
    moment.go_on(days=30)
    page.tick(keeper.now)
    assert row(page, "Lamps on") is None
    press(page, page.aside_button, settle)
    assert page.aside.rows[0].words.text() == "struck out for good"


def test_the_menu_puts_off_for_longer(page, keeper, moment, settle):
    lamps = row(page, "Lamps on")
    week_off = next(one for one in lamps.more.menu().actions() if one.text() == "In a week")
    week_off.trigger()
    settle(120)
    moment.go_on(days=6)
    page.tick(keeper.now)
    assert row(page, "Lamps on") is None
    moment.go_on(days=1)
    page.tick(keeper.now)
    assert row(page, "Lamps on")


def test_a_job_that_needs_hands_opens_its_page(page, bench, settle):
    press(page, row(page, "Pot up from Tray A").done_button, settle)
    assert bench.shown == ["grow"]


def test_what_is_done_at_the_door_is_done_at_that_moment(page, keeper, tray, moment, settle):
    keeper.do(lambda: start_hardening(keeper.season, tray, TODAY))
    settle(120)
    moment.go_on(seconds=50)
    press(page, row(page, "Send Tray A out").done_button, settle)
    (entry,) = [one for one in keeper.season.holder_facts(tray) if one.fact.kind == "outing_started"]
    assert entry.fact.at == keeper.now


def test_an_urgent_job_says_so_in_words_too(page, keeper, tray, moment, settle):
    keeper.do(lambda: start_hardening(keeper.season, tray, TODAY))
    settle(120)
    press(page, row(page, "Send Tray A out").done_button, settle)
    moment.go_on(minutes=25)
    page.tick(keeper.now)
    late = row(page, "Bring Tray A into shade, or in, now")
    assert late.accessibleName() == "Urgent: Bring Tray A into shade, or in, now"
    assert late.property("urgent") == "yes"


def test_undo_brings_a_job_back(page, keeper, settle):
    press(page, row(page, "Water Tray A").done_button, settle)
    keeper.undo()
    settle(120)
    assert row(page, "Water Tray A")


def test_a_job_that_went_away_meanwhile_is_refused_in_one_sentence(page, bench, keeper, tray):
    wet = row(page, "Water Tray A")
    keeper.do(lambda: water(keeper.season, tray, TODAY))
    QTest.mouseClick(wet.done_button, LEFT)
    assert bench.said[-1] == "Water Tray A from below: that is no longer to be done."
    assert len(told(keeper.season, tray, Watered)) == 1


def test_names_with_markup_are_shown_as_they_are_written(page, keeper, tray, settle):
    texts = [one.what.textFormat() for one in page.rows()] + [one.reason.textFormat() for one in page.rows()]
    assert set(texts) == {Qt.TextFormat.PlainText}


def test_an_empty_ledger_says_how_the_round_comes_about(qtbot, bench, keeper, settle):
    page = RoundPage(bench)
    qtbot.addWidget(page)
    page.show()
    page.entered()
    assert page.rows() == []
    assert page.nothing.isVisible()
    assert page.figure.text() == "Friday 14 May · 0 to do"
    press(page, page.to_seed, settle)
    assert bench.shown == ["seed"]


def test_a_hidden_page_is_right_when_it_comes_to_the_front(qtbot, bench, keeper, tray):
    page = RoundPage(bench)
    qtbot.addWidget(page)
    keeper.changed.connect(page.take)
    keeper.do(lambda: feel_mix(keeper.season, tray, TODAY, "dry"))
    page.show()
    page.entered()
    assert row(page, "Water Tray A")


def test_many_jobs_are_folded_until_they_are_asked_for(page, keeper, settle, shelf):
    for number in range(14):
        keeper.do(
            lambda number=number: make_holder(
                keeper.season, name=f"Flat {number}", form="tray", rows=1, columns=1, day=TODAY
            )
        )
        key = holder_named(keeper.season, f"Flat {number}")
        packet = keeper.season.spot(SpotKey(holder_named(keeper.season, "Tray A"), 0, 0)).packet
        keeper.do(lambda key=key, packet=packet: sow(keeper.season, packet, [SpotKey(key, 0, 0)], TODAY))
        keeper.do(lambda key=key: feel_mix(keeper.season, key, TODAY, "dry"))
    page.refresh()
    card = page.places["At the shelf"]
    assert len(card.ordered()) == 12
    assert card.more_jobs.isVisible()
    press(page, card.more_jobs, settle)
    assert len(card.ordered()) > 12
    assert card.more_jobs.isHidden()


def test_tomorrow_is_in_the_week(page):
    tomorrow = TODAY + timedelta(days=1)
    assert page.week.days[0].text() == f"Sat {tomorrow.day} May"


def test_the_week_tells_all_that_each_day_brings_and_by_what_rule(page, bench, settle):
    """More than four lines of a day are only counted in its column."""
    settle(120)
    QTest.mouseClick(page.week.findChild(WhyLink), LEFT)
    told = bench.explained[-1]
    assert told.inputs[0][0] == f"Sat {(TODAY + timedelta(days=1)).day} May"
    assert len(told.inputs) == len(page.week.days)
    for (_, words), lines in zip(told.inputs, page.week.lines, strict=True):
        first = lines[0].text
        assert words.startswith("nothing more" if first == "–" else first)
