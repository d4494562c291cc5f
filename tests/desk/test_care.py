"""The care of a tray, rack or bed in the window: opened by button or key, done with hands on it."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from greenroom.desk.care.care_view import CareView
from greenroom.desk.grow.page import GrowPage
from greenroom.desk.round.page import RoundPage
from greenroom.desk.set_out.page import SetOutPage
from greenroom.desk.window import Window
from greenroom.ledger.facts import BasinEmptied, Fed, MixFelt, Watered, WeatherDay, WeatherRecord, Weighed
from greenroom.season import deeds_care, deeds_plants, deeds_plot, deeds_spots
from greenroom.season.deeds_care import Feed
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.deeds_shelf import make_holder, retire_holder, set_units
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY, holder_named
from tests.desk.grow_hands import NO_SCREEN, open_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

LEFT = Qt.MouseButton.LeftButton
K = Qt.Key
BLUE = Feed("blue feed", 15, 5, 15, 100)


def named(widget, name):
    return widget.findChild(QPushButton, name)


def press(widget, name):
    QTest.mouseClick(named(widget, name), LEFT)


def strike(qtbot, card, words):
    """Strike a line out once its row is on the screen."""

    def shown():
        rows = card.findChildren(QPushButton, "strike-out")
        return [one for one in rows if one.isVisible() and words in one.accessibleName()]

    qtbot.waitUntil(lambda: bool(shown()))
    QTest.mouseClick(shown()[0], LEFT)


def told(keeper, holder, kind):
    return [entry.fact for entry in keeper.season.holder_facts(holder) if isinstance(entry.fact, kind)]


def write(field, text):
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, text)


@pytest.fixture
def tray(keeper, shelf):
    """The tray, its seedlings with four true leaves."""
    key = holder_named(shelf, "Tray A")
    up = [spot.key for spot in shelf.spots(key) if spot.up]
    keeper.do(lambda: deeds_spots.set_leaves(shelf, up, TODAY - timedelta(9), 4))
    return key


@pytest.fixture
def care(bench, qtbot, tray):
    """The care of Tray A alone, told of what changes."""
    made = CareView(bench, "Back")
    bench.keeper.changed.connect(made.take)
    qtbot.addWidget(made)
    made.resize(790, 560)
    made.show()
    made.open_for(tray, "water")
    return made


def test_care_opens_on_the_grow_page_and_follows_the_list_and_escape_goes_back(qtbot, bench, tray):
    page = open_page(qtbot, bench)
    press(page.main.headline, "care-of-holder")
    view = page.care.view
    assert page.care.open_holder == tray
    assert view.title.text() == "Care of Tray A"
    assert view.isVisible()
    page.open_holder(holder_named(bench.keeper.season, "Rack 1"))
    assert view.title.text() == "Care of Rack 1"
    QTest.keyClick(view.tabs.bar, K.Key_Escape)
    assert page.care.open_holder is None
    assert page.main.isVisible()
    page.main.view.setFocus()
    QTest.keyClick(page.main.view, K.Key_K, Qt.KeyboardModifier.ControlModifier)
    assert page.care.open_holder == tray
    page.leave()
    page.entered()
    assert page.care.open_holder == tray


def test_care_closes_when_its_rack_is_undone_or_put_away(qtbot, bench, shelf):
    keeper = bench.keeper
    page = open_page(qtbot, bench)
    keeper.do(lambda: make_holder(shelf, name="New", form="rack", rows=1, columns=2, day=TODAY))
    page.open_holder(holder_named(shelf, "Rack 1"))
    page.care.open_care(holder_named(shelf, "New"))
    assert page.care.view.title.text() == "Care of New"
    assert keeper.undo()
    assert page.care.open_holder is None
    rack = holder_named(shelf, "Rack 1")
    page.care.open_care(rack)
    page.care.view.done_on.edit.setDate(page.care.view.done_on.edit.date().addDays(-2))
    assert keeper.do(lambda: retire_holder(shelf, rack, TODAY))
    assert page.care.open_holder is None
    assert page.care.view.done_on.is_today


def test_the_round_opens_the_care_of_the_holder_a_job_is_about(qtbot, bench, tray):
    """A window of the round and the Grow on page: the job's own page opens at the tab of feed."""
    keeper = bench.keeper
    window = Window(bench, {"round": RoundPage, "grow": GrowPage})
    qtbot.addWidget(window)
    window.show()
    window.show_page("round")
    row = next(one for one in window.page("round").rows() if one.job.what.startswith("Feed Tray A"))
    opens = next(one for one in row.more.menu().actions() if one.text() == "Open its page")
    opens.trigger()
    care = window.page("grow").care
    assert window.current == "grow"
    assert (care.open_holder, care.view.tabs.current) == (tray, "feed")
    press(care.view.part.mix, "fed")
    assert told(keeper, tray, Fed)
    window.show_page("round")
    assert not any(one.job.what.startswith("Feed Tray A") for one in window.page("round").rows())


def test_water_is_told_by_button_and_struck_out_again(care, bench, tray, qtbot):
    part, keeper = care.part, bench.keeper
    assert part.next.day.text() == "Not known yet"
    assert "soaked and drained" in part.next.reason.text()
    press(part, "water-below")
    assert [fact.how for fact in told(keeper, tray, Watered)] == ["below"]
    assert "from below today" in part.next.last.text()
    assert part.basin_words.isVisible()
    press(part, "basin-emptied")
    assert told(keeper, tray, BasinEmptied)
    assert not part.basin_words.isVisible()
    qtbot.waitUntil(lambda: len(part.told.lines) == 2)
    assert [line.words for line in part.told.lines] == ["basin emptied", "watered from below at 9:54"]
    strike(qtbot, part.told, "basin emptied")
    assert not told(keeper, tray, BasinEmptied)
    assert part.basin_words.isVisible()
    assert keeper.undo()
    assert told(keeper, tray, BasinEmptied)


def test_weights_told_by_hand_give_the_curve_and_the_day(care, bench, tray, qtbot):
    """Held falls a fifth a day: half after 3.1 days (by hand), so it wants water the day after tomorrow."""
    part, keeper = care.part, bench.keeper
    for days, grams, state in ((1, "1000", 2), (1, "2000", 1), (0, "1800", 0)):
        care.done_on.edit.setDate(care.done_on.edit.maximumDate().addDays(-days))
        part.weigh.state.setCurrentIndex(state)
        write(part.weigh.grams, grams)
        QTest.keyClick(part.weigh.grams, K.Key_Return)
    weights = [(fact.day, fact.grams, fact.state) for fact in told(keeper, tray, Weighed)]
    assert weights[-1] == (TODAY, 1800, "now")
    assert part.next.day.text() == "Sun 16 May, in 2 days"
    assert part.next.why.isVisible()
    part.next.why.click()
    assert "Dumroese" in bench.explained[-1].sources[0]
    qtbot.waitUntil(lambda: part.dry.chart is not None and part.dry.chart.isVisible())
    assert part.dry.curve.words_at(1) == "14 May: 80 % held"
    part.dry.chart.tell(1.0)
    assert part.dry.chart._told.textItem.toPlainText() == "14 May: 80 % held"
    write(part.weigh.grams, "0")
    press(part.weigh, "weighed")
    assert "1 to 200,000 g is allowed" in bench.said[-1]


def test_weights_told_as_they_are_taken_give_the_hour(care, bench, tray, moment):
    """Held falls a fifth in twelve hours: half after 37.3 hours (by hand), at 23:10 tomorrow."""
    part, keeper = care.part, bench.keeper
    for hours, grams, state in ((0, "1000", 2), (0, "2000", 1), (12, "1800", 0)):
        moment.go_on(hours=hours)
        part.weigh.state.setCurrentIndex(state)
        write(part.weigh.grams, grams)
        QTest.keyClick(part.weigh.grams, K.Key_Return)
    assert told(keeper, tray, Weighed)[-1].at == moment()
    assert part.next.day.text() == "Sat 15 May, tomorrow, about 23:00"
    moment.go_on(hours=26)
    care.refresh()
    assert part.next.day.text() == "Now, since about 23:00"
    assert part.next.property("role") == "notice"


def test_without_a_scale_a_feel_of_the_mix_tells(care, bench, tray):
    part = care.part
    part.feel.test.setCurrentIndex(1)
    press(part.feel, "felt-dry")
    (felt,) = told(bench.keeper, tray, MixFelt)
    assert (felt.test, felt.level) == ("lift", "dry")
    assert part.next.day.text() == "Today"
    assert part.next.property("role") == "notice"
    assert "water now" in part.feel.last.text()


def test_feed_is_mixed_by_the_label_and_told(care, bench, tray, qtbot):
    """By hand: 100 ppm of 20 % N is 0.5 g a litre, 2.0 g in 4 L; 1:100 asks a stock of 50 g a litre."""
    keeper = bench.keeper
    care.tabs.open_tab("feed")
    part = care.part
    assert part.strength.text() == "100 ppm N"
    assert part.stage.text() == "growing away; not fed yet; next now"
    part.why.click()
    assert "Utah State" in bench.explained[-1].sources[0]
    write(part.mix.water, "4")
    QTest.keyClick(part.mix.water, K.Key_Tab)
    assert part.mix.grams.text() == "2.0 g in 4 L"
    assert "Spoons are rough" in part.mix.spoons.text()
    part.mix.injector.setCurrentIndex(part.mix.injector.findData(100))
    assert part.mix.stock.text() == "Stock: 50 g in each litre; 40 mL of it makes 4 L."
    press(part.mix, "fed")
    (fed,) = told(keeper, tray, Fed)
    assert (fed.feed, fed.n_percent, fed.ppm_n, fed.litres) == ("balanced feed", 20, 100, 4)
    qtbot.waitUntil(lambda: part.given.chart is not None and part.given.chart.isVisible())
    assert part.given.figure.text() == "0.40 g N in all, 0.04 g for each of 10 plants"
    assert part.stage.text() == "growing away; last fed 14 May; next 21 May"
    assert part.mix.water.value() == 4
    write(part.mix.label_fields[0], "0")
    QTest.keyClick(part.mix.label_fields[0], K.Key_Tab)
    assert "above 0" in part.mix.spoons.text()
    assert not part.mix.button.isEnabled()


def test_leafy_feed_after_the_first_flower_is_warned_of(care, bench, tray):
    keeper = bench.keeper
    up = [spot.key for spot in keeper.season.spots(tray) if spot.up]
    keeper.do(lambda: deeds_care.feed(keeper.season, tray, TODAY, BLUE, 1))
    care.tabs.open_tab("feed")
    part = care.part
    assert not part.warning.isVisible()
    keeper.do(lambda: deeds_plants.mark_flower(keeper.season, up[:1], TODAY))
    assert "blue feed (15-5-15)" in part.warned.text()
    assert part.mix.name.currentText() == "feed for fruit"
    assert not part.caution.isVisible()
    part.mix.name.setCurrentIndex(0)
    part.mix.name.activated.emit(0)
    assert part.mix.label_fields[0].value() == 15
    assert part.caution.isVisible()
    assert "potash" in part.caution.text()
    write(part.mix.ppm, "900")
    QTest.keyClick(part.mix.ppm, K.Key_Tab)
    assert "Stronger than the guide asks for" in part.caution.text()
    part.leafy_why.click()
    assert "more potash" in bench.explained[-1].rule


def test_a_grower_who_reads_ounces_mixes_by_the_gallon(care, bench, tray):
    """150 ppm of 20 % N is 0.75 g a litre, 2.8 g in a US gallon of 3.785 L: by hand. Through 1:200 the stock
    is 20.25 oz a gallon by the round rule of Cornell University (Mattson), 20.0 by exact mass.
    """
    keeper = bench.keeper
    keeper.do(lambda: set_units("f", "floz", TODAY))
    care.tabs.open_tab("feed")
    mix = care.part.mix
    write(mix.water, "1")
    write(mix.ppm, "150")
    QTest.keyClick(mix.ppm, K.Key_Tab)
    assert mix.grams.text() == "2.8 g in 1 gal"
    mix.injector.setCurrentIndex(mix.injector.findData(200))
    assert mix.stock.text().startswith("Stock: 20.0 oz by weight in each US gallon")
    press(mix, "fed")
    assert told(keeper, tray, Fed)[-1].litres == pytest.approx(3.785, abs=0.001)


def test_a_bed_is_cared_for_from_the_plan_and_loses_water_to_the_air(bench, qtbot, tray):
    keeper = bench.keeper
    season = keeper.season
    days = tuple(WeatherDay(TODAY + timedelta(number), 12.0, 26.0) for number in range(-20, 5))
    record = WeatherRecord(day=TODAY, source="a file", days=days)
    keeper.do(lambda: Proposal("weather", (record,)))
    keeper.do(lambda: deeds_plot.lay_bed(season, "Pots", 1, 2, Rectangle(5, 0, 1.2, 0.6), TODAY, 3.0))
    pots = holder_named(season, "Pots")
    up = [spot.key for spot in season.spots(tray) if spot.up][:2]
    keeper.do(lambda: deeds_plot.set_out(season, up, SpotKey(pots, 0, 0), TODAY))
    page = SetOutPage(bench)
    keeper.changed.connect(page.take)
    qtbot.addWidget(page)
    page.resize(1240, 760)
    page.show()
    qtbot.waitExposed(page)
    page.entered()
    press(page, "care-of-bed")
    assert bench.said[-1] == "Choose a bed or a group of pots on the plan first."
    page.plan.go_to(SpotKey(pots, 0, 0))
    press(page, "care-of-bed")
    part = page.care.view.part
    assert page.care.open_holder == pots
    assert not part.weigh.isVisible()
    assert "for 2 pots." in part.next.loss.text()
    assert "Tell a watering" in part.next.reason.text()
    press(part, "water-above")
    assert part.next.day.text().startswith(("Sat", "Sun", "Mon", "Tue"))
    qtbot.waitUntil(lambda: part.dry.chart is not None and part.dry.chart.isVisible())
    part.next.loss_why.click()
    assert any("Paper 56" in source for source in bench.explained[-1].sources)
    page.leave()
    page.closing()
