"""How sure the ready date is, year by year of the record, and by when to start for a day."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QDate, Qt
from PySide6.QtTest import QTest

from greenroom.desk.harden.spread_band import SpreadBand
from greenroom.desk.look import Look
from greenroom.ledger.facts import WeatherDay
from greenroom.season.ready_history import SpreadOn
from tests.desk.harden_door import NO_SCREEN, TODAY, shown_page, weather

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)

YEARS = range(2017, 2027)


def years(keeper, cold=()):
    """Ten years of mild days from April to October; in those of ``cold`` 15 to 17 May are too cold."""
    days = []
    for year in YEARS:
        first = date(year, 4, 1)
        for day in (first + timedelta(days=ahead) for ahead in range(200)):
            kept = year in cold and date(year, 5, 15) <= day <= date(year, 5, 17)
            days.append(WeatherDay(day, 12.0 if not kept else 2.0, 21.0 if not kept else 5.0, 0.0, 3.0))
    weather(keeper, *days)


def asked(qtbot, bench):
    page = shown_page(qtbot, bench)
    page.chart.when.setFocus()
    QTest.keyClick(page.chart.when, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: bool(page.chart.view.words.text()))
    return page


def test_where_all_years_are_mild_the_ready_date_is_the_plan(qtbot, bench, keeper, rack):
    """Six of eleven outings are left on 14 May, one a day: the last is on 19 May."""
    years(keeper)
    page = asked(qtbot, bench)
    assert page.chart.view.words.text() == "Ready 19 May in nine of ten years."
    QTest.mouseClick(page.chart.view.why, Qt.MouseButton.LeftButton)
    assert bench.explained[-1].figure == page.chart.view.words.text()


def test_cold_years_put_the_late_end_off_and_leave_the_early_one(qtbot, bench, keeper, rack):
    """Four cold years of ten: three days in each later than the plan, and steps lost on top of them."""
    years(keeper, cold=(2018, 2020, 2022, 2024))
    page = asked(qtbot, bench)
    assert page.chart.view.words.text().startswith("Ready 19 May, from 19 May to ")
    late = int(page.chart.view.words.text().rpartition(" to ")[2].split()[0])
    assert late >= 22
    assert "14 May 19 May to " in page.chart.view.band.accessibleDescription()


def test_the_table_behind_is_of_what_the_card_shows(qtbot, bench, keeper, rack):
    years(keeper)
    page = asked(qtbot, bench)
    assert page.chart.numbers.table().column("usual")[-1] == date(2027, 5, 19)
    page.chart.when.click()
    assert set(page.chart.numbers.table().column("holder")) == {"Rack 1"}


def test_the_day_to_set_out_asks_for_a_start(qtbot, bench, keeper, rack):
    """Eleven outings in running that end on 4 June begin on 25 May."""
    years(keeper)
    page = asked(qtbot, bench)
    view = page.chart.view
    assert view.day.date() == QDate(2027, 6, 4)
    assert view.answer.text() == "Start by 25 May: ready in 10 of 10 years."
    view.day.setDate(QDate(2027, 5, 16))
    qtbot.waitUntil(lambda: view.answer.text().startswith("Even started today, ready in 0 of 10 years"))
    view.day.setDate(QDate(2027, 5, 1))
    qtbot.waitUntil(lambda: view.answer.text() == "1 May is past; choose a day to come.")


def test_without_a_record_the_page_says_what_is_missing(qtbot, bench, keeper, rack):
    page = asked(qtbot, bench)
    assert page.chart.view.words.text().startswith("Bring in a record of past weather")
    assert not page.chart.view.why.isVisible()


def test_the_chart_comes_back(qtbot, bench, keeper, rack):
    page = asked(qtbot, bench)
    assert page.minimumSizeHint().width() <= 1024
    qtbot.waitUntil(lambda: page.chart.chart is not None)
    assert not page.chart.chart.isVisible()
    page.chart.when.click()
    assert page.chart.chart.isVisible()
    assert page.chart.view.isHidden()
    assert page.chart.title.text() == "Rack 1, minutes by day"


def test_the_band_is_as_high_as_the_spread_is_wide(qtbot):
    band = SpreadBand(Look(dark=False))
    qtbot.addWidget(band)
    band.resize(400, 120)
    days = [TODAY + timedelta(days=ahead) for ahead in range(10)]
    band.show_history(
        [SpreadOn(days[0], days[4], days[6], days[9], 10), SpreadOn(days[1], days[5], days[6], days[7], 10)]
    )
    first = band.point(days[0], days[4]).y() - band.point(days[0], days[9]).y()
    last = band.point(days[1], days[5]).y() - band.point(days[1], days[7]).y()
    assert first == pytest.approx(2.5 * last)
    assert not band.grab().isNull()
