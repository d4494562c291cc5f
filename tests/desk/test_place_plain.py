"""A table of days in nobody's own form: columns matched, dates and units settled, all of it or nothing."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.ledger.facts import WeatherRecord
from tests.desk.place_hands import NO_SCREEN, choose, click, open_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

GERMAN = "Datum;Tiefsttemperatur;Höchsttemperatur;Regen\n" + "".join(
    f"{day}.5.2001;{day},5;{day + 10},5;0,4\n" for day in range(13, 20)
)
TWO_WAYS = "Day,Low,High\n3/4/2001,1,9\n5/6/2001,2,10\n"


@pytest.fixture
def tab(qtbot, bench):
    return open_page(qtbot, bench, part="record").tabs.part("record")


@pytest.fixture
def panel(tab):
    return tab.importing


@pytest.fixture
def look_at(panel, qtbot, tmp_path):
    """Name a file with this content and wait until it was looked at."""

    def open_file(content):
        file = tmp_path / "days.csv"
        file.write_text(content, encoding="utf-8")
        panel.file.path.setFocus()
        panel.file.path.clear()
        QTest.keyClicks(panel.file.path, str(file))
        QTest.keyClick(panel.file.path, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: panel.deeds.isVisible() or panel.trouble.isVisible(), timeout=5000)
        return panel

    return open_file


@pytest.fixture
def bring(panel, qtbot):
    """Bring the table in and wait until it came in or was refused."""

    def do():
        click(panel.bring)
        qtbot.waitUntil(lambda: not panel.bar.isVisible(), timeout=5000)
        return panel

    return do


@pytest.fixture
def rematch(panel, qtbot):
    """Take a column for something, and wait until the file was looked at again."""

    def do(column, field):
        with qtbot.waitSignal(panel._relooker.finished, timeout=5000):
            choose(panel.plain.table.choosers[column], field)

    return do


def days(keeper):
    return [day for fact in keeper.season.facts(WeatherRecord) for day in fact.days]


def matched(panel):
    return [chooser.currentText() for chooser in panel.plain.table.choosers]


def test_a_table_is_matched_by_its_header_and_comes_in(look_at, bring, keeper):
    panel = look_at(GERMAN)
    assert panel.plain.isVisible()
    assert not panel.known.isVisible()
    assert matched(panel) == ["date", "lowest temperature", "highest temperature", "rain"]
    assert panel.plain.order.chosen == "dmy"
    bring()
    first = days(keeper)[0]
    assert (first.day, first.tmin_c, first.tmax_c, first.rain_mm) == (date(2001, 5, 13), 13.5, 23.5, 0.4)
    assert len(days(keeper)) == 7
    assert "7 days" in panel.told.text()


def test_what_is_lacking_is_told_and_nothing_can_be_brought_in_before(look_at, rematch):
    panel = look_at("When,A,B\n2001-05-13,1,9\n2001-05-14,2,10\n")
    assert not panel.bring.isEnabled()
    assert panel.trouble.text() == (
        "No column is chosen for the date and the lowest temperature and the highest temperature; choose "
        "above the rows."
    )
    rematch(0, "day")
    rematch(1, "tmin")
    assert "for the highest temperature" in panel.trouble.text()
    rematch(2, "tmax")
    assert not panel.trouble.isVisible()
    assert panel.bring.isEnabled()


def test_dates_that_read_in_two_ways_are_asked_about(look_at, bring, keeper):
    panel = look_at(TWO_WAYS)
    assert panel.trouble.text() == "The dates can be read in two ways; choose how they are written."
    assert not panel.bring.isEnabled()
    choose(panel.plain.order, "dmy")
    assert panel.bring.isEnabled()
    bring()
    assert [day.day for day in days(keeper)] == [date(2001, 4, 3), date(2001, 6, 5)]


def test_the_units_are_guessed_with_a_reason_and_are_the_growers_to_settle(look_at, bring, keeper):
    """50 °F is 10 °C and 1 inch 25.4 mm: NIST Special Publication 811, appendix B."""
    panel = look_at("Date,Tmin,Tmax,Rain\n2001-07-01,50,68,1\n2001-07-02,50,70,0\n")
    assert panel.plain.temperature.isVisible()
    assert panel.plain.temperature.reason.text()
    choose(panel.plain.temperature, "f")
    choose(panel.plain.rain, "inch")
    bring()
    assert (days(keeper)[0].tmin_c, days(keeper)[0].rain_mm) == (10.0, 25.4)


def test_a_unit_in_the_header_is_taken_at_its_word(look_at, bring, keeper):
    """36 km/h is 10 m/s exactly."""
    panel = look_at("Date,Tmin,Tmax,Gust km/h\n2001-07-01,8,18,36\n2001-07-02,9,19,18\n")
    assert panel.plain.gust.chosen == "kmh"
    assert panel.plain.gust.reason.text() == "The header says km/h."
    assert not panel.plain.rain.isVisible()
    bring()
    assert days(keeper)[0].gust_ms == pytest.approx(10.0)


def test_a_column_matched_later_is_looked_at_for_its_unit(look_at, rematch):
    panel = look_at("Date,Tmin,Tmax,Böen km/h\n2001-07-01,8,18,36\n2001-07-02,9,19,18\n")
    rematch(3, "rain")
    assert panel.plain.rain.isVisible()
    assert not panel.plain.gust.isVisible()
    rematch(3, "gust")
    assert panel.plain.gust.chosen == "kmh"


def test_what_the_grower_chose_outlives_another_match(look_at, rematch):
    panel = look_at("Date,Tmin,Tmax,X\n2001-07-01,50,68,1\n2001-07-02,50,70,0\n")
    choose(panel.plain.temperature, "f")
    rematch(3, "rain")
    assert panel.plain.temperature.chosen == "f"


def test_another_file_starts_from_its_own_guesses(look_at):
    panel = look_at("Date,Tmin,Tmax\n2001-07-01,8,18\n2001-07-02,9,19\n")
    choose(panel.plain.temperature, "tenths")
    click(panel.cancel)
    look_at("Date,Tmin,Tmax\n2001-07-01,8.5,18\n2001-07-02,9,19.5\n")
    assert panel.plain.temperature.chosen == "c"


def test_the_date_may_stand_in_three_columns(look_at, bring, keeper):
    panel = look_at("Year,Month,Day,Tmin,Tmax\n2001,5,13,1,9\n2001,5,14,2,10\n")
    assert not panel.plain.order.isVisible()
    bring()
    assert [day.day for day in days(keeper)] == [date(2001, 5, 13), date(2001, 5, 14)]


def test_a_bad_value_gets_one_sentence_and_nothing_comes_in(look_at, bring, keeper):
    panel = look_at("Date,Tmin,Tmax\n2001-07-01,8,18\n2001-07-02,cold,19\n")
    bring()
    assert "days.csv, line 3" in panel.trouble.text()
    assert "“cold” is not a number" in panel.trouble.text()
    assert panel.trouble.text().endswith("Nothing was brought in.")
    assert days(keeper) == []
    assert panel.bring.isEnabled()


def test_the_choosers_and_the_rows_are_told_to_a_screen_reader(look_at):
    panel = look_at(GERMAN)
    names = [chooser.accessibleName() for chooser in panel.plain.table.choosers]
    assert names == [
        f"column {name} is" for name in ("Datum", "Tiefsttemperatur", "Höchsttemperatur", "Regen")
    ]
    assert panel.plain.order.accessibleName() == "How the dates are written"
    assert panel.plain.preview.index(1, 0).data() == "13.5.2001"


def test_a_table_of_forty_years_comes_in_while_the_window_goes_on(look_at, keeper, qtbot, panel):
    first = date(1980, 1, 1)
    lines = [f"{first + timedelta(days=n)},{n % 9},{12 + n % 9}" for n in range(14_600)]
    look_at("\n".join(["Date,Tmin,Tmax", *lines, ""]))
    click(panel.bring)
    assert panel.bar.isVisible()
    qtbot.waitUntil(lambda: len(days(keeper)) == 14_600, timeout=20_000)
    qtbot.waitUntil(lambda: not panel.bar.isVisible(), timeout=5000)
    assert "14,600 days" in panel.told.text()
