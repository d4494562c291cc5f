"""The head of the window tells how many things are still to do, and never makes anybody wait for it."""

import pytest

from greenroom.desk.bench import Bench
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.round_count import RoundCount
from greenroom.desk.window import Window
from greenroom.season.deeds_care import feel_mix, water
from greenroom.season.round import round_of
from tests.desk.conftest import TODAY, holder_named


@pytest.fixture
def window(qtbot, keeper, shelf):
    made = Window(Bench(keeper, Look(dark=False)), page_makers())
    qtbot.addWidget(made)
    made.show_page("seed")
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close()


def number(keeper):
    return len(round_of(keeper.season, keeper.today, keeper.now))


def test_the_number_follows_what_is_done(window, keeper, qtbot, shelf):
    tray = holder_named(shelf, "Tray A")
    before = number(keeper)
    qtbot.waitUntil(lambda: window.top.round.text() == f"The round · {before}")
    keeper.do(lambda: feel_mix(keeper.season, tray, TODAY, "dry"))
    qtbot.waitUntil(lambda: window.top.round.text() == f"The round · {before + 1}")
    assert window.top.round.accessibleName() == f"The round, {before + 1} things to do"
    keeper.do(lambda: water(keeper.season, tray, TODAY, "above"))
    qtbot.waitUntil(lambda: window.top.round.text() == f"The round · {before}")


def test_the_button_opens_the_round(window, qtbot):
    window.top.round.click()
    assert window.current == "round"
    assert window.top.round.isChecked()
    window.top.place.click()
    assert not window.top.round.isChecked()


def test_many_calls_in_a_row_are_counted_once(keeper, shelf, qtbot):
    count, told = RoundCount(keeper), []
    count.counted.connect(told.append)
    for _ in range(20):
        count.start()
    qtbot.waitUntil(lambda: bool(told))
    qtbot.wait(250)
    assert told == [number(keeper)]


def test_nothing_is_counted_after_it_was_stopped(keeper, shelf, qtbot):
    count, told = RoundCount(keeper), []
    count.counted.connect(told.append)
    count.start()
    count.stop()
    qtbot.wait(250)
    assert told == []


def test_an_empty_season_has_no_number(qtbot, keeper):
    window = Window(Bench(keeper, Look(dark=False)), page_makers())
    qtbot.addWidget(window)
    window.top.refresh()
    with qtbot.waitSignal(window.top.count.counted):
        window.top.count.start()
    assert window.top.round.text() == "The round"
    window.close()
