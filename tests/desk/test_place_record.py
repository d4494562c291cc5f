"""The record's own page: years, gaps, charts with the words and the table behind each."""

import itertools
import math
from datetime import date, timedelta

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from greenroom.desk.place.figures import figures, short_day
from greenroom.ledger.facts import WeatherDay
from greenroom.season.deeds_place import allow_online
from greenroom.season.deeds_shelf import add_weather, set_place, set_units
from greenroom.season.record_page import record_page
from greenroom.season.wants import rules_of
from tests.desk.place_hands import LEFT, NO_SCREEN, click, open_page
from tests.season.plan_ground import champion_days

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

IN_JUNE = date(2018, 6, 20)
KEYS = ("last", "first", "length", "warm", "heat")


def fill_champion(keeper):
    days = tuple(day for day in champion_days() if day.day < date(2018, 6, 12))
    keeper.do(lambda: add_weather("champion.csv", "", days, IN_JUNE))


STOCK = {"champion": fill_champion}


@pytest.fixture
def champion(keeper, moment):
    """The real record of one place on the plains, 1982 to 11 June 2018, read on 20 June 2018."""
    moment.moment = moment.moment.replace(year=IN_JUNE.year, month=IN_JUNE.month, day=IN_JUNE.day)
    return keeper.season


@pytest.fixture
def tab(qtbot, bench, champion, settle):
    page = open_page(qtbot, bench, part="record")
    page.resize(1440, 1400)
    qtbot.waitUntil(lambda: all(card.chart is not None for card in page.tabs.part("record").figures.values()))
    settle()
    return page.tabs.part("record")


def hover(qtbot, card, x):
    """Put the pointer over a chart, at a place along its lower axis."""
    box = card.chart.getPlotItem().getViewBox()
    (_, _), (low, high) = card.chart.viewRange()
    scene = box.mapViewToScene(QPointF(x, (low + high) / 2))
    card.chart.scene().sigMouseMoved.emit(scene)
    return card.chart.told


def cells(card):
    model = card.table.rows
    return [
        [model.index(row, column).data() for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def test_the_page_tells_what_the_record_holds_and_draws_five_charts(tab):
    """Champion, Nebraska 1982-2018: the dates of half the years by numpy, as in the tests of the record."""
    assert tab.card.holds.text() == "37 years, 1982 to 2018 · 13,311 days · no day missing"
    assert [key for key, card in tab.figures.items() if card.isVisible()] == list(KEYS)
    assert "10 May in half" in tab.figures["last"].summary.text()
    assert "28 September in half" in tab.figures["first"].summary.text()
    assert (
        tab.figures["warm"].summary.text().startswith("The first 7 nights running at 10 °C or above begin by")
    )
    assert tab.figures["warm"].summary.text().endswith("In 2018: 23 May.")


def test_drawing_the_charts_leaves_the_window_and_the_keyboard_alone(qtbot, bench, champion, settle):
    page = open_page(qtbot, bench)
    page.open_part("record")
    settle(200)
    assert page.isActiveWindow()
    assert page.tabs.bar.hasFocus()


def test_every_chart_says_in_words_what_it_shows(tab):
    for card in tab.figures.values():
        assert card.chart.accessibleName() == card.title.text()
        assert card.chart.accessibleDescription() == card.summary.text()
        assert card.key.accessibleName().startswith("key: ")


@pytest.mark.parametrize("key", KEYS)
def test_behind_every_chart_is_its_table_and_back(tab, key):
    card = tab.figures[key]
    click(card.turn)
    assert card.table.isVisible()
    assert not card.chart.isVisible()
    assert card.turn.text() == "Chart"
    assert len(cells(card)) >= 36
    QTest.mouseClick(card.turn, LEFT)
    assert card.chart.isVisible()
    assert card.turn.text() == "Table"


def test_the_table_of_days_holds_both_frosts_and_what_lies_between(tab):
    """1982: last frost 30 April, first 21 September, as pandas finds them; 143 days lie between."""
    card = tab.figures["length"]
    click(card.turn)
    assert cells(card)[0] == ["1982", "30 April", "21 September", "143"]
    assert (date(1982, 9, 21) - date(1982, 4, 30)).days - 1 == 143


def test_the_pointer_over_a_year_tells_its_value(qtbot, tab):
    card = tab.figures["last"]
    assert hover(qtbot, card, 1982.2) == "1982: 30 April"
    assert hover(qtbot, card, 1980.9) == ""
    assert hover(qtbot, tab.figures["length"], 1982) == "1982: 143 days"


def test_the_pointer_over_a_day_tells_this_year_against_the_usual(qtbot, tab, keeper):
    page = record_page(keeper.season, 2018)
    told = hover(qtbot, tab.figures["heat"], 150)
    assert told.startswith(f"31 May: {page.heat.this_year[150]:.0f} °C·d this year · usually ")
    assert f"{page.heat.low[150]:.0f} to {page.heat.high[150]:.0f}" in told
    assert "this year" not in hover(qtbot, tab.figures["heat"], 200)
    tab.figures["heat"].chart.leaveEvent(None)
    assert tab.figures["heat"].chart.told == ""


def test_a_pointer_outside_the_plot_tells_nothing(tab):
    chart = tab.figures["last"].chart
    chart.scene().sigMouseMoved.emit(QPointF(2, 2))
    assert chart.told == ""


def test_lines_stand_at_one_in_ten_half_and_nine_in_ten(tab, keeper):
    page = record_page(keeper.season, 2018)
    figure = tab.figures["last"].figure
    spread = page.last_frost.spread
    assert [figure.start + timedelta(days=rule.value) for rule in figure.rules] == [
        spread.early,
        spread.usual,
        spread.late,
    ]
    assert [rule.words for rule in figure.rules] == [
        f"{share} % · {short_day(day)}"
        for share, day in zip((10, 50, 90), (spread.early, spread.usual, spread.late), strict=True)
    ]


def test_labels_of_lines_never_stand_on_each_other(tab):
    for key in ("last", "first", "length", "warm"):
        chart = tab.figures[key].chart
        heights = sorted(chart.mapFromScene(label.scenePos()).y() for label in chart._labels)
        assert len(heights) == 3
        assert all(math.floor(below - above) >= 13 for above, below in itertools.pairwise(heights))


def test_heat_is_told_in_fahrenheit_days_to_those_who_read_fahrenheit(tab, keeper, settle):
    """A degree day in °C is 1.8 in °F: NIST Special Publication 811."""
    before = record_page(keeper.season, 2018).heat.this_year[150]
    keeper.do(lambda: set_units("f", "ml", keeper.today))
    settle()
    figure = tab.figures["heat"].figure
    assert figure.title == "Heat gathered above 50 °F"
    assert figure.this_year[150] == pytest.approx(1.8 * before)
    assert "50 °F or above" in tab.figures["warm"].summary.text()
    assert "°F·d" in tab.figures["heat"].summary.text()


@pytest.mark.parametrize(
    ("key", "figure"),
    [
        ("last", "Frost until about 10 May"),
        ("first", "Frost until about 10 May"),
        ("length", "days without frost"),
        ("warm", "Warm nights from about 6 June"),
        ("heat", "Heat gathered"),
    ],
)
def test_every_figure_has_its_why(tab, bench, key, figure):
    click(tab.figures[key].why)
    assert figure in bench.explained[-1].figure
    assert bench.explained[-1].sources


def test_gaps_are_listed_the_longest_first(qtbot, bench, keeper):
    first = date(2001, 1, 1)
    gone = {20, 21, 22, 60, 90, 91}
    days = tuple(WeatherDay(first + timedelta(days=n), 1.0, 9.0) for n in range(200) if n not in gone)
    keeper.do(lambda: add_weather("gaps.csv", "", days, keeper.today))
    tab = open_page(qtbot, bench, part="record").tabs.part("record")
    assert "6 days missing, at most 3 in a row from 21 January 2001" in tab.card.holds.text()
    assert not tab.card.gaps.isVisible()
    click(tab.card.list_gaps)
    model = tab.card.gaps.rows
    rows = [[model.index(row, column).data() for column in range(3)] for row in range(model.rowCount())]
    assert rows == [
        ["2001-01-21", "2001-01-23", "3"],
        ["2001-04-01", "2001-04-02", "2"],
        ["2001-03-02", "2001-03-02", "1"],
    ]
    click(tab.card.list_gaps)
    assert not tab.card.gaps.isVisible()


@pytest.mark.parametrize(
    ("gone", "words"),
    [({50}, "1 day missing, 20 February 2001"), ({50, 70}, "2 days missing, never two in a row")],
)
def test_single_days_missing_are_told_as_such(qtbot, bench, keeper, gone, words):
    first = date(2001, 1, 1)
    days = tuple(WeatherDay(first + timedelta(days=n), 1.0, 9.0) for n in range(200) if n not in gone)
    keeper.do(lambda: add_weather("gaps.csv", "", days, keeper.today))
    tab = open_page(qtbot, bench, part="record").tabs.part("record")
    assert tab.card.holds.text().endswith(words)


@pytest.mark.parametrize(("year", "shown"), [(2026, []), (2027, ["heat"])])
def test_of_a_record_of_days_only_this_years_heat_is_drawn(qtbot, bench, keeper, settle, year, shown):
    days = tuple(WeatherDay(date(year, 3, 1) + timedelta(days=n), 1.0, 9.0) for n in range(10))
    keeper.do(lambda: add_weather("short.csv", "", days, keeper.today))
    tab = open_page(qtbot, bench, part="record").tabs.part("record")
    settle(150)
    assert [key for key, card in tab.figures.items() if card.isVisible()] == shown
    assert tab.short.isVisible() is not bool(shown)


def test_a_record_that_is_struck_out_takes_its_charts_along(tab, keeper, settle):
    click(tab.card.files.findChild(type(tab.card.more), "strike-weather-0"))
    settle()
    assert not any(card.isVisible() for card in tab.figures.values())
    assert tab.import_card.isVisible()
    keeper.undo()
    settle()
    assert all(card.isVisible() for card in tab.figures.values())


def test_the_import_is_opened_and_put_away_beside_a_record(tab):
    assert not tab.import_card.isVisible()
    click(tab.card.more)
    assert tab.import_card.isVisible()
    assert tab.importing.file.path.hasFocus()
    click(tab.card.more)
    assert not tab.import_card.isVisible()


def test_the_charts_are_drawn_anew_in_the_dark(tab, bench, settle):
    chart = tab.figures["last"].chart
    light = chart.backgroundBrush().color().name()
    bench.look.set_dark(True)
    settle()
    assert chart.backgroundBrush().color().name() == bench.look.palette.card != light


def test_a_southern_season_is_drawn_from_july_on(qtbot, bench, keeper, moment):
    """The record turned by half a year: the last frost falls in the second half of the year."""
    moment.moment = moment.moment.replace(year=2018, month=12, day=20)
    days = tuple(
        day._replace(day=day.day + timedelta(days=184)) for day in champion_days() if day.day.year < 2018
    )
    keeper.do(lambda: set_place("South", -40.4, 175.6, "Pacific/Auckland", keeper.today))
    keeper.do(lambda: add_weather("south.csv", "", days, keeper.today))
    page = record_page(keeper.season, 2018)
    made = figures(page, keeper.place, rules_of(keeper.season))
    assert made["last"].start == date(2018, 7, 1)
    assert all(0 <= value < 184 for value in made["last"].points.values())
    assert all(184 <= value < 366 for value in made["first"].points.values())
    assert made["heat"].days[0] == date(2018, 7, 1)
    north = np.median([(day - date(day.year, 1, 1)).days for day in page.last_frost.by_year.values() if day])
    assert 280 < north < 340


def test_a_click_elsewhere_redraws_no_chart(tab, keeper, settle):
    drawn = []
    for card in tab.figures.values():
        card.draw = lambda: drawn.append(1)
    keeper.do(lambda: allow_online(keeper.season, keeper.today, allowed=True))
    settle(100)
    assert drawn == []


def test_the_wheel_and_the_mouse_leave_the_charts_as_they_are(tab, qtbot):
    chart = tab.figures["last"].chart
    before = chart.viewRange()
    QTest.mousePress(chart.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, QPoint(100, 60))
    QTest.mouseMove(chart.viewport(), QPoint(180, 90))
    QTest.mouseRelease(chart.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, QPoint(180, 90))
    assert chart.viewRange() == before
