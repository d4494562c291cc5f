"""Pick: writing picks down by keys alone, what is ripe by when, and what to make of a harvest."""

from datetime import date, timedelta
from math import cos, pi

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QTabBar

from greenroom.desk.pick.page import PickPage
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.window import Window
from greenroom.ledger.facts import Picked, WeatherDay, WeatherRecord
from greenroom.season.deeds_plants import pick
from greenroom.season.deeds_plot import Rectangle, lay_bed
from greenroom.season.deeds_spots import mark_up, move
from greenroom.season.packets import varieties
from greenroom.season.picking import harvests
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from greenroom.season.wants import wanted
from tests.desk.conftest import TODAY, holder_named
from tests.desk.test_place_accessible import SMALLEST_TARGET_PX, reachable, spoken

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


def weather():
    """Six years and a spring of one wave, 3 K warmer or cooler from year to year."""
    first = date(2021, 1, 1)
    for count in range((date(2027, 5, 14) - first).days):
        day = first + timedelta(days=count)
        mean = 11 + (day.year % 3 - 1) - 11 * cos(2 * pi * (day.timetuple().tm_yday - 15) / 365)
        yield WeatherDay(day, round(mean - 6, 1), round(mean + 6, 1))


@pytest.fixture
def garden(keeper, shelf, moment):
    """Four bells and two lanterns set out in a bed on 14 May; today is 1 September."""
    tray = holder_named(keeper.season, "Tray A")
    bells = [SpotKey(tray, row, 3) for row in range(4)]
    keeper.do(lambda: mark_up(keeper.season, bells, date(2027, 3, 22)))
    keeper.do(lambda: lay_bed(keeper.season, "Bed 1", 2, 4, Rectangle(0, 0, 4, 2), TODAY))
    bed = holder_named(keeper.season, "Bed 1")
    keeper.do(lambda: move(keeper.season, bells, SpotKey(bed, 0, 0), TODAY))
    lanterns = [SpotKey(tray, row, 0) for row in range(2)]
    keeper.do(lambda: move(keeper.season, lanterns, SpotKey(bed, 1, 0), TODAY))
    record = WeatherRecord(day=TODAY, source="a record", days=tuple(weather()))
    keeper.do(lambda: Proposal("weather", (record,)))
    moment.go_on(days=110)
    return bed


def shown(bench, qtbot):
    made = PickPage(bench)
    bench.keeper.changed.connect(made.take)
    qtbot.addWidget(made)
    made.resize(1240, 760)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    return made


@pytest.fixture
def page(bench, qtbot, garden):
    return shown(bench, qtbot)


def names(page):
    return [one.words for one in page.log._targets]


def picked(keeper):
    return [(fact.count, fact.grams, fact.ripeness) for fact in keeper.season.facts(Picked)]


def table_texts(table):
    model = table.model()
    return [
        [model.index(row, column).data() for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def test_without_seed_the_page_says_what_comes_first(bench, qtbot):
    page = shown(bench, qtbot)
    assert page.empty.isVisible()
    assert not page.log.isVisible()
    QTest.mouseClick(page.empty.steps[0], LEFT)
    assert bench.shown == ["seed"]


def test_many_picks_are_written_in_a_row_by_keys_alone_and_each_can_be_taken_back(page, keeper, settle):
    log = page.log
    assert names(page) == ["Brass Bell, Bed 1", "Cinder Lantern, Bed 1"]
    log.start_at_count()
    QTest.keyClicks(log.count, "12")
    QTest.keyClick(log.count, KEY.Key_Tab)
    log.grams.selectAll()
    QTest.keyClicks(log.grams, "1900")
    QTest.keyClick(log.grams, KEY.Key_G)
    QTest.keyClick(log.grams, KEY.Key_Return)
    assert picked(keeper) == [(12, 1900.0, "green")]
    assert log.count.hasFocus()
    QTest.keyClick(log.count, KEY.Key_PageDown)
    QTest.keyClick(log.count, KEY.Key_R)
    QTest.keyClicks(log.count, "7")
    QTest.keyClick(log.count, KEY.Key_Enter)
    assert picked(keeper) == [(12, 1900.0, "green"), (7, None, "ripe")]
    assert {one.name: one.picked.count for one in harvests(keeper.season, keeper.today)} == {
        "Brass Bell": 12,
        "Cinder Lantern": 7,
    }
    settle(80)
    assert page.last.lines[0].text == "1 September: 7 Cinder Lantern, ripe, Bed 1"
    QTest.mouseClick(page.last.backs[1], LEFT)
    assert picked(keeper) == [(7, None, "ripe")]
    assert keeper.undo()
    assert len(picked(keeper)) == 2
    assert keeper.undo()
    assert picked(keeper) == [(12, 1900.0, "green")]


def test_a_single_plant_an_earlier_day_and_a_weight_that_cannot_be(page, keeper, bench, settle, garden):
    log = page.log
    log.plant.setCurrentIndex(log.plant.findText("A2"))
    log.on.edit.setDate(log.on.edit.date().addDays(-3))
    log.grams.setValue(250)
    QTest.keyClick(log.plant, KEY.Key_Return)
    (fact,) = keeper.season.facts(Picked)
    assert (fact.holder, fact.row, fact.column, fact.day) == (garden, 0, 1, date(2027, 8, 29))
    settle(80)
    totals = page.tabs.part("totals")
    assert table_texts(totals.plants)[0][:4] == ["A2 of Bed 1", "Brass Bell", "1", "250 g"]
    assert not keeper.do(lambda: pick(keeper.season, fact.variety, keeper.today, 0))
    assert "1 to 10,000" in bench.said[-1]
    page.leave()
    assert log.on.is_today


def test_the_list_tells_the_spread_and_leads_to_the_form(page, keeper, bench):
    view = page.ahead.view
    assert [one.name for one in view._rows] == ["Brass Bell", "Cinder Lantern"]
    assert all(one.days.early <= one.days.usual <= one.days.late for one in view._rows)
    assert "before the killing night in" in page.ahead.words.text()
    view.setFocus()
    QTest.keyClick(view, KEY.Key_Down)
    assert view.accessibleDescription().startswith("Cinder Lantern, Bed 1, 2 plants; ripe about")
    assert view.words_at(view.rect().topLeft()).startswith("Brass Bell, Bed 1")
    QTest.keyClick(view, KEY.Key_Return)
    assert page.log.target.name == "Cinder Lantern"
    assert page.log.count.hasFocus()
    QTest.mouseClick(page.ahead.why, LEFT)
    told = dict(bench.explained[-1].inputs)
    assert told["heat it needs"] == "1100 °C·d, as stated"  # 100 days of (27 + 15) / 2 - 10 °C·d
    assert any("McMaster" in source for source in bench.explained[-1].sources)
    QTest.mouseClick(page.ahead.due, LEFT)
    assert bench.explained[-1].inputs == (("last picked", "none yet"),)
    before = view.scale.x(keeper.today)
    page.resize(1010, 600)
    assert view.scale.x(keeper.today) != before


def fill(keeper, bed):
    """Bells picked ripe twice, lanterns once, of this season; bells of the year before from nowhere told."""
    bell, lantern = (fact.variety for fact in _varieties(keeper.season))
    days = ((bell, 8, 1200.0, 20), (bell, 10, 1500.0, 9), (lantern, 40, 360.0, 2))
    for variety, count, grams, ago in days:
        day = keeper.today - timedelta(days=ago)
        keeper.do(
            lambda v=variety, c=count, g=grams, d=day: pick(keeper.season, v, d, c, holder=bed, grams=g)
        )
    keeper.do(lambda: pick(keeper.season, bell, date(2026, 8, 20), 5, grams=700.0))


def _varieties(season):
    return sorted(varieties(season).values(), key=lambda fact: fact.name)


def test_harvests_are_totalled_compared_and_kept(page, keeper, garden, bench, settle, qtmodeltester):
    fill(keeper, garden)
    settle(120)
    totals = page.tabs.part("totals")
    # 2 x 4 places on 4 x 2 m: a plant has 1 m², so a plant and a square metre bear the same
    assert table_texts(totals.table) == [
        ["Brass Bell", "18", "2.70 kg", "675 g", "675 g"],
        ["Cinder Lantern", "40", "360 g", "180 g", "180 g"],
    ]
    assert totals.whole.text() == "58 fruit of 2 varieties, 3.06 kg"
    totals.season.setCurrentIndex(totals.season.findData(2026))
    assert table_texts(totals.table) == [["Brass Bell", "5", "700 g", "·", "·"]]
    QTest.mouseClick(totals.why, LEFT)
    assert ("plants", "not known") in bench.explained[-1].inputs
    qtmodeltester.check(totals.table.model())
    page.tabs.open_tab("compare")
    compare = page.tabs.part("compare")
    assert "Brass Bell 2027: 675 g" in compare.chart.accessibleDescription()
    assert compare.unknown.text() == "Not known: Brass Bell 2026."
    compare.measure.setCurrentIndex(compare.measure.findData("weight"))
    assert "Brass Bell 2026: 700 g" in compare.chart.accessibleDescription()
    assert compare.as_table.table().column("weight_g") == (2700.0, 360.0, 700.0)
    assert page.ahead.findChild(TableButton).table().column("picked") == (18, 40)
    assert compare.days.text().startswith("Brass Bell: 75 days stated from setting out; took 90 in 2027")
    page.tabs.open_tab("keeping")
    keeping = page.tabs.part("keeping")
    keeping.variety.setCurrentIndex(keeping.variety.findText("Brass Bell"))
    keeping.fresh.setValue(1000)
    keeping.away.setValue(0)
    # no crop is given, so it is taken for an annuum and reckoned as a hot pepper: 1000 x 0.1198 / 0.9 (USDA)
    assert keeping.result.text() == "1.00 kg fresh: 133 g dried, or 4 packs frozen"


def test_growing_again_is_weighed_in_the_open_and_goes_into_next_years_plan(page, keeper, garden, bench):
    fill(keeper, garden)
    page.tabs.open_tab("again")
    tab = page.tabs.part("again")
    tab.refresh()
    assert table_texts(tab.table)[0][0] == "Brass Bell"
    for name, field in tab.weights.items():
        field.setValue(9 if name == "losses" else 0)
    assert {row[1] for row in table_texts(tab.table)} <= {row[5] for row in table_texts(tab.table)}
    assert tab.chosen is not None
    QTest.mouseClick(tab.why, LEFT)
    assert any(name == "losses, counted 9 times" for name, _ in bench.explained[-1].inputs)
    variety = tab.chosen.variety
    tab.plants.setValue(7)
    QTest.mouseClick(tab.want, LEFT)
    assert wanted(keeper.season, 2028) == {variety: 7}
    assert keeper.undo()
    assert wanted(keeper.season, 2028) == {}


def test_a_hidden_page_catches_up_when_it_comes_to_the_front(page, keeper, garden, qtbot):
    page.hide()
    fill(keeper, garden)
    assert page._stale
    page.show()
    page.entered()
    assert page.ahead.view.row.picks
    assert table_texts(page.tabs.part("totals").table)


@pytest.mark.parametrize("part", ["totals", "compare", "again", "keeping"])
def test_every_field_has_a_name_and_is_big_enough_to_hit(page, keeper, garden, qapp, bench, settle, part):
    Window.dress_application(bench.look)
    fill(keeper, garden)
    page.resize(1024, 614)
    page.tabs.open_tab(part)
    settle(80)
    assert [one for one in reachable(page) if not spoken(one)] == []
    small = [
        one
        for one in reachable(page)
        if not isinstance(one, QTabBar) and min(one.width(), one.height()) < SMALLEST_TARGET_PX
    ]
    assert small == []
    needed = page.minimumSizeHint()
    assert (needed.width() <= 1024, needed.height() <= 614) == (True, True)
    sheet = page.tabs.area(part)
    assert sheet.widget().minimumSizeHint().width() <= sheet.viewport().width()  # nothing is cut off
