"""A row of the round opens its page at what the job is about, in the real window."""

from datetime import date

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.bench import Bench
from greenroom.desk.look import Look
from greenroom.desk.pages import page_makers
from greenroom.desk.round.page import errand_of
from greenroom.desk.window import Window
from greenroom.ledger.facts import Covered, WeatherDay, WeatherRecord
from greenroom.season.deeds_care import feel_mix
from greenroom.season.deeds_harden import start_hardening
from greenroom.season.deeds_plot import Rectangle, lay_bed
from greenroom.season.deeds_spots import mark_up, move
from greenroom.season.jobs.job import PLOT, Job
from greenroom.season.packets import varieties
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY, holder_named

SEPTEMBER = date(2027, 9, 1)


def fill_garden(keeper):
    """Four bells set out in a bed on 14 May; three in a rack; on 1 September the tray is felt dry."""
    tray, rack = (holder_named(keeper.season, name) for name in ("Tray A", "Rack 1"))
    bells = [SpotKey(tray, row, 3) for row in range(4)]
    keeper.do(lambda: mark_up(keeper.season, bells, date(2027, 3, 22)))
    keeper.do(lambda: lay_bed(keeper.season, "Bed 1", 2, 4, Rectangle(0, 0, 4, 2), TODAY))
    bed = holder_named(keeper.season, "Bed 1")
    keeper.do(lambda: move(keeper.season, bells, SpotKey(bed, 0, 0), TODAY))
    lanterns = [SpotKey(tray, row, 0) for row in range(3)]
    keeper.do(lambda: move(keeper.season, lanterns, SpotKey(rack, 0, 0), TODAY))
    keeper.do(lambda: start_hardening(keeper.season, rack, TODAY))
    keeper.do(lambda: feel_mix(keeper.season, tray, SEPTEMBER, "dry"))


STOCK = {"garden": fill_garden}


@pytest.fixture
def garden(keeper, shelf, moment):
    moment.go_on(days=110)
    return {one.name: one.key for one in keeper.season.holders()}


@pytest.fixture
def window(qtbot, keeper, garden):
    made = Window(Bench(keeper, Look(dark=False)), page_makers())
    qtbot.addWidget(made)
    made.resize(1024, 700)
    made.show_page("round")
    made.show()
    qtbot.waitExposed(made)
    made.activateWindow()
    yield made
    made.close()


def open_page(window, start):
    """Choose "Open its page" of the row whose job begins so."""
    window.show_page("round")
    rows = {row.job.what: row for row in window.page("round").rows()}
    row = next(row for what, row in rows.items() if what.startswith(start))
    act = next(one for one in row.more.menu().actions() if one.text() == "Open its page")
    act.trigger()


def care_of(window):
    care = window.page(window.current).care
    assert care.currentWidget() is care.view
    return care.open_holder, care.view.tabs.current


def test_rows_of_care_open_the_tab_of_their_holder(window, garden):
    open_page(window, "Water Tray A")
    assert (window.current, *care_of(window)) == ("grow", garden["Tray A"], "water")
    open_page(window, "Look over Tray A")
    assert (window.current, *care_of(window)) == ("grow", garden["Tray A"], "look")
    open_page(window, "Look over Bed 1")
    assert (window.current, *care_of(window)) == ("setout", garden["Bed 1"], "look")


def test_a_pick_row_opens_the_pick_page_with_the_variety_and_its_bed_chosen(window, garden, keeper):
    open_page(window, "Pick Brass Bell in Bed 1")
    target = window.page("pick").log.target
    names = {key: fact.name for key, fact in varieties(keeper.season).items()}
    assert window.current == "pick"
    assert (names[target.variety], target.holder) == ("Brass Bell", garden["Bed 1"])
    assert window.page("pick").log.count.hasFocus()
    window.show_page("setout")
    assert window.page("setout").rack.hasFocus()
    window.show_page("pick")
    assert window.page("pick").log.count.hasFocus(), "picks can be typed at once on coming to the page"


def test_rows_of_the_plot_show_their_bed_and_their_rack(window, garden):
    open_page(window, "Stake Bed 1")
    assert window.current == "setout"
    assert window.page("setout").plan.state.current == SpotKey(garden["Bed 1"], 0, 0)
    job = Job(PLOT, "Set out Rack 1", "hardened", page="setout", about=(garden["Rack 1"],))
    window.bench.send(job.page, errand_of(job))
    assert window.page("setout").ready.key == garden["Rack 1"]


def test_a_row_at_the_door_shows_its_own_tray_or_rack(window, keeper, garden):
    for name in ("Tray A", "Rack 1"):
        keeper.do(lambda name=name: start_hardening(keeper.season, garden[name], keeper.today))
    for name in ("Tray A", "Rack 1", "Tray A"):
        open_page(window, f"Send {name}")
        assert (window.current, window.page("harden").going.current) == ("harden", garden[name])


def test_a_bed_is_covered_in_one_click_from_the_plot_and_from_the_warning(window, keeper, garden, qtbot):
    """Below 45 °F (7.2 °C): University of Maryland Extension 2023."""
    cold = (WeatherDay(date(2027, 9, 2), 4.0, 14.0), WeatherDay(date(2027, 9, 3), 12.0, 20.0))
    keeper.do(lambda: Proposal("cold", (WeatherRecord(day=SEPTEMBER, source="a file", days=cold),)))
    window.show_page("harden")
    warning = window.page("harden").findChild(type(window.page("setout").cover))
    qtbot.waitUntil(warning.isVisible)
    window.show_page("setout")
    bar = window.page("setout").cover
    assert bar.words.text() == "Cover tonight: Bed 1"
    assert "4 °C" in bar.reason.text()
    assert "until" in bar.reason.text()
    QTest.mouseClick(bar.button, Qt.MouseButton.LeftButton)
    (fact,) = keeper.season.facts(Covered)
    assert fact.holder == garden["Bed 1"]
    assert keeper.place.local(fact.until).date() == date(2027, 9, 2)
    qtbot.waitUntil(lambda: bar.words.text() == "Covered tonight: Bed 1")
    assert not bar.button.isVisible()
    assert bar.reason.text().startswith("Covers off at ")
    assert bar.reason.text().endswith(" on 2 September.")
    assert keeper.undo()
    window.show_page("harden")
    assert warning.words.text() == "Cover tonight: Bed 1"
    QTest.mouseClick(warning.button, Qt.MouseButton.LeftButton)
    assert warning.words.text() == "Covered tonight: Bed 1"
    window.show_page("round")
    assert not any(row.job.what.startswith("Cover") for row in window.page("round").rows())
