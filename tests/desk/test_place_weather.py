"""Bringing a weather file in: units guessed with a reason, progress, cancel, one act, struck out again."""

from datetime import date, timedelta
from pathlib import Path

import pandas as pd
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from greenroom.desk.place.page import PlacePage
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.place import weather_days
from tests.agronomy._field_record import field_record

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton
DATA = Path(__file__).parent.parent / "data"
TWO_STATIONS = (
    "STATION,NAME,DATE,PRCP,TMAX,TMIN\n"
    "A,Hill,2001-01-01,0,9.5,1\nB,Vale,2001-01-01,0,8.5,2\nB,Vale,2001-01-02,0,7.5,3\n"
)


@pytest.fixture
def page(qtbot, bench, keeper):
    made = PlacePage(bench)
    qtbot.addWidget(made)
    keeper.changed.connect(made.take)
    made.resize(1024, 700)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    made.tabs.open_tab("record")
    return made


@pytest.fixture
def tab(page):
    return page.tabs.part("record")


@pytest.fixture
def panel(tab):
    return tab.importing


@pytest.fixture
def look_at(panel, qtbot):
    """Name a file and wait until it was looked at."""

    def choose(file):
        panel.file.path.setFocus()
        QTest.keyClicks(panel.file.path, str(file))
        QTest.keyClick(panel.file.path, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: panel.deeds.isVisible() or panel.trouble.isVisible(), timeout=5000)
        return panel

    return choose


@pytest.fixture
def bring_in(look_at, qtbot):
    """Bring a file in as it was guessed and wait until it is read."""

    def do(file):
        panel = look_at(file)
        QTest.mouseClick(panel.bring, LEFT)
        qtbot.waitUntil(lambda: not panel.bar.isVisible(), timeout=10_000)
        return panel

    return do


def records(keeper):
    return keeper.season.facts(WeatherRecord)


def units_chosen(panel):
    return panel.known.units.checkedButton().objectName()


def test_without_a_record_the_card_says_what_it_is_for_and_what_else_there_is(page, tab):
    assert "There is no weather record of your place yet" in tab.card.holds.text()
    assert not any(card.isVisible() for card in tab.figures.values())
    QTest.mouseClick(tab.card.ask, LEFT)
    assert page.tabs.current == "service"
    page.tabs.open_tab("record")
    QTest.mouseClick(tab.card.frosts, LEFT)
    assert page.tabs.current == "where"


@pytest.mark.parametrize(
    ("name", "units", "reason"),
    [
        ("champion_1982_metric.csv", "metric", "°C"),
        ("champion_1985_us.csv", "us", "too hot for °C"),
        ("archive_2019_tenths.csv", "tenths", "tenths"),
    ],
)
def test_the_units_are_guessed_and_the_reason_is_shown(look_at, name, units, reason):
    panel = look_at(DATA / name)
    assert units_chosen(panel) == units
    assert reason in panel.known.reason.text()
    assert panel.known.reason.isVisible()


def test_a_file_comes_in_as_one_act_and_goes_again_with_undo(bring_in, keeper, tab):
    panel = bring_in(DATA / "champion_1982_metric.csv")
    assert len(records(keeper)) == 1
    assert "365 days" in panel.told.text()
    assert "365 days" in tab.card.holds.text()
    keeper.undo()
    assert records(keeper) == []
    assert "There is no weather record" in tab.card.holds.text()


def test_a_file_in_fahrenheit_comes_in_as_its_source_has_it_in_celsius(bring_in, keeper):
    """The source has °C to 0.01; the file whole °F, so half a degree Fahrenheit, 0.28 °C, may lie between."""
    source = pd.read_csv(DATA / "champion_1985_source.csv")
    bring_in(DATA / "champion_1985_us.csv")
    warmest = [day.tmax_c for day in weather_days(keeper.season).values()]
    assert warmest == pytest.approx(list(source["Tmax(C)"]), abs=0.281)


def test_the_choice_of_units_is_the_growers(look_at, keeper, qtbot):
    panel = look_at(DATA / "archive_2019_tenths.csv")
    metric = next(one for one in panel.known.units.buttons() if one.objectName() == "metric")
    QTest.mouseClick(metric, LEFT, pos=QPoint(8, metric.height() // 2))
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(panel.trouble.isVisible, timeout=5000)
    assert "units may be wrong" in panel.trouble.text()
    assert panel.trouble.text().endswith("Nothing was brought in.")
    assert records(keeper) == []
    assert panel.bring.isEnabled()


def test_of_several_stations_one_is_chosen(look_at, keeper, tmp_path, qtbot):
    file = tmp_path / "two.csv"
    file.write_text(TWO_STATIONS)
    panel = look_at(file)
    assert panel.known.station.isVisible()
    panel.known.station.setCurrentIndex(panel.known.station.findText("B Vale"))
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(lambda: bool(records(keeper)), timeout=5000)
    assert (records(keeper)[0].station, len(records(keeper)[0].days)) == ("B Vale", 2)


def test_a_station_met_late_in_a_file_is_asked_for_when_it_is_met(look_at, keeper, tmp_path, qtbot):
    first = date(1990, 1, 1)
    lines = [f"A,Hill,{first + timedelta(days=one)},0,9.5,1" for one in range(4100)]
    file = tmp_path / "late.csv"
    file.write_text("\n".join(["STATION,NAME,DATE,PRCP,TMAX,TMIN", *lines, "B,Vale,2010-01-01,0,8.5,2", ""]))
    panel = look_at(file)
    assert not panel.known.station.isVisible()
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(panel.known.station.isVisible, timeout=5000)
    assert "2 stations" in panel.trouble.text()
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(lambda: bool(records(keeper)), timeout=5000)
    assert len(records(keeper)[0].days) == 4100


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("", "empty"),
        ("STATION,DATE,TMIN,TMAX\nA,2001-01-01,12,9\n", "TMIN 12 is above TMAX 9"),
        ("DATE,TMIN,TMAX\n2001-02-30,1,9\n", "2001-02-30"),
        ("DATE,TMIN,TMAX\n2001-01-01,cold,9\n", "cold"),
        ("DATE,TMIN,TMAX\n2001-01-01,12,9\n", "the lowest of 2001-01-01, 12 °C, is above its highest"),
        ("DATE,TMIN,TMAX\n2001-01-01,1,9\n2001-01-01,2,9\n", "each day is allowed once"),
    ],
)
def test_a_bad_file_gets_one_clear_sentence_and_changes_nothing(
    look_at, keeper, tmp_path, qtbot, content, words
):
    file = tmp_path / "bad.csv"
    file.write_text(content)
    panel = look_at(file)
    if panel.bring.isVisible():
        QTest.mouseClick(panel.bring, LEFT)
        qtbot.waitUntil(panel.trouble.isVisible, timeout=5000)
    assert words in panel.trouble.text()
    assert "bad.csv" in panel.trouble.text()
    assert records(keeper) == []


def test_the_same_file_twice_is_refused_and_the_first_stays(bring_in, keeper, bench):
    bring_in(DATA / "champion_1982_metric.csv")
    bring_in(DATA / "champion_1982_metric.csv")
    assert len(records(keeper)) == 1
    assert "brought in already" in bench.said[0]


def test_a_record_is_struck_out_beside_its_name(bring_in, keeper, tab):
    bring_in(DATA / "champion_1982_metric.csv")
    strike = tab.card.files.findChild(QPushButton, "strike-weather-0")
    assert "champion_1982_metric.csv" in strike.accessibleName()
    QTest.mouseClick(strike, LEFT)
    assert records(keeper) == []
    assert not tab.card.files.isVisible()


def test_reading_can_be_called_off_and_keeps_nothing(look_at, keeper, qtbot, tmp_path):
    panel = look_at(thirty_seven_years(tmp_path))
    QTest.mouseClick(panel.bring, LEFT)
    assert panel.bar.isVisible()
    assert panel.cancel.hasFocus()
    QTest.keyClick(panel.cancel, Qt.Key.Key_Space)
    assert panel.told.text() == "Called off; nothing was brought in."
    qtbot.wait(400)
    assert records(keeper) == []
    assert panel.bring.isEnabled()


def test_thirty_seven_real_years_come_in_with_progress_and_give_frost_dates(
    look_at, keeper, qtbot, tab, bench, tmp_path
):
    """Champion, Nebraska 1982-2018; last frost in half the years by day 130, in nine of ten by 146: numpy."""
    panel = look_at(thirty_seven_years(tmp_path))
    shares = []
    panel.bar.valueChanged.connect(shares.append)
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(lambda: bool(records(keeper)), timeout=20_000)
    assert len(set(shares)) > 5
    assert shares == sorted(shares) or shares[1:] == sorted(shares[1:])
    assert tab.card.holds.text() == "37 years, 1982 to 2018 · 13,514 days · no day missing"
    frost = tab.figures["last"]
    qtbot.waitUntil(frost.isVisible, timeout=3000)
    assert "10 May in half, 26 May in nine of ten (of 37 years)" in frost.summary.text()
    QTest.mouseClick(frost.why, LEFT)
    assert bench.explained[-1].figure == "Frost until about 10 May, again from 28 September"


def test_few_years_are_said_to_be_few(bring_in, tab):
    bring_in(DATA / "champion_1982_metric.csv")
    assert tab.card.few.isVisible()
    assert "Only 1 of the 30 years" in tab.card.few.text()


def test_days_that_are_missing_are_counted(bring_in, tab, tmp_path):
    first = date(2001, 1, 1)
    days = [first + timedelta(days=one) for one in range(100) if not 20 <= one < 27]
    file = tmp_path / "gap.csv"
    file.write_text("DATE,TMIN,TMAX\n" + "".join(f"{day},1.5,9.5\n" for day in days))
    bring_in(file)
    expected = "7 days missing, at most 7 in a row from 21 January 2001"
    assert expected in tab.card.holds.text()


def thirty_seven_years(folder):
    """Write the whole record of Champion as an export in °C and mm."""
    table = field_record("champion")
    file = folder / "champion.csv"
    table = table.rename(columns={"date": "DATE", "tmin": "TMIN", "tmax": "TMAX", "rain": "PRCP"})
    table.to_csv(file, index=False, date_format="%Y-%m-%d")
    return file


def dly_line(month, element, values):
    """One line of a raw file, in the fixed columns of the GHCN-Daily readme, section III."""
    cells = "".join(f"{value:5d}  7" for value in values)
    return f"XX0000000011999{month:02d}{element}{cells}\n"


def test_a_raw_file_needs_no_choice_of_units(look_at, keeper, qtbot, tmp_path):
    """Tenths of °C: GHCN-Daily readme, section III; -35 is -3.5 °C, 82 is 8.2 °C."""
    file = tmp_path / "station.dly"
    file.write_text(dly_line(1, "TMAX", [82] * 31) + dly_line(1, "TMIN", [-35] * 31))
    panel = look_at(file)
    assert not any(one.isVisible() for one in panel.known.units.buttons())
    QTest.mouseClick(panel.bring, LEFT)
    qtbot.waitUntil(lambda: bool(records(keeper)), timeout=5000)
    days = records(keeper)[0].days
    assert (len(days), days[0].tmin_c, days[0].tmax_c) == (31, -3.5, 8.2)


def test_after_a_raw_file_a_table_is_asked_about_again(look_at, tmp_path):
    file = tmp_path / "station.dly"
    file.write_text(dly_line(1, "TMAX", [82] * 31) + dly_line(1, "TMIN", [-35] * 31))
    panel = look_at(file)
    QTest.mouseClick(panel.cancel, LEFT)
    look_at(DATA / "champion_1982_metric.csv")
    assert all(one.isVisible() for one in panel.known.units.buttons())
