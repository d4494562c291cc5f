"""The table behind each list and chart: read, sorted, copied, saved; and the chart as a picture."""

import csv
import io
import subprocess
import sys
import zipfile
from datetime import UTC, date, datetime
from xml.etree import ElementTree

import icalendar
import pandas
import pytest
from PySide6.QtCore import QModelIndex, QSize, Qt
from PySide6.QtGui import QGuiApplication, QImage
from PySide6.QtTest import QAbstractItemModelTester, QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel, QPushButton, QVBoxLayout, QWidget

from greenroom.desk.grow.chart_card import ChartCard
from greenroom.desk.place.page import PlacePage
from greenroom.desk.round.page import RoundPage
from greenroom.desk.tables import sources
from greenroom.desk.tables.calendars import save_plan
from greenroom.desk.tables.clipboard import CSV
from greenroom.desk.tables.files_tab import TABLES
from greenroom.desk.tables.nearest import copy_nearest, nearest
from greenroom.desk.tables.own_units import as_read
from greenroom.desk.tables.picture import png_of, svg_of
from greenroom.desk.tables.plan_drawing import plan_drawing
from greenroom.desk.tables.save_card import CALLED_OFF
from greenroom.desk.tables.saving import file_name
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.tables.table_model import TableModel
from greenroom.desk.tables.table_panel import TablePanel
from greenroom.desk.window import Window
from greenroom.exchange.tables.table import Column, Kind, Table
from greenroom.season.deeds_place import give_frost_dates
from greenroom.season.deeds_plan import want
from greenroom.season.packets import varieties
from greenroom.season.place import Place
from greenroom.season.plan import plan_of
from tests.desk.conftest import TODAY, holder_named

COPY_AND_END = """
from PySide6.QtWidgets import QApplication
from greenroom.desk.tables.clipboard import copy
from greenroom.exchange.tables.table import Column, Table
application = QApplication([])
copy(Table("A list", (Column("what", "What"),), (("something",),)))
"""

SVG = "{http://www.w3.org/2000/svg}"
MIXED = Table.of(
    "Mixed",
    (
        Column("name", "Name"),
        Column("low", "Night", Kind.NUMBER, "°C"),
        Column("cell", "Cell", Kind.WHOLE, "mL"),
        Column("day", "Day", Kind.DATE),
        Column("up", "Up", Kind.YES_NO),
        Column("at", "At", Kind.MOMENT),
    ),
    [
        ("beta", 0.0, 59, date(2027, 1, 2), True, datetime(2027, 1, 2, tzinfo=UTC)),
        ("Alpha", None, None, None, None, None),
        ("gamma", -40.0, 43, date(2026, 1, 2), False, datetime(2026, 1, 2, tzinfo=UTC)),
    ],
)


def column(model, place):
    return [model.index(row, place).data() for row in range(model.rowCount())]


def click(widget):
    QTest.mouseClick(widget, Qt.MouseButton.LeftButton)


def panel_now(qtbot):
    """The table panel that is open."""
    qtbot.waitUntil(lambda: isinstance(QApplication.activePopupWidget(), TablePanel))
    return QApplication.activePopupWidget()


def answer(window, path):
    """Choose a file in the system's chooser, as the grower would."""
    dialog = next(one for one in window.findChildren(QFileDialog) if one.isVisible())
    dialog.setOption(QFileDialog.Option.DontConfirmOverwrite)
    dialog.selectFile(str(path))
    dialog.accept()


@pytest.fixture
def shown(qtbot):
    """Shows a widget in a window of its own, which is kept for as long as the test lasts."""
    kept = []

    def show(widget):
        window = QWidget()
        kept.append(window)
        layout = QVBoxLayout(window)
        layout.addWidget(widget)
        window.resize(1024, 700)
        qtbot.addWidget(window)
        window.show()
        window.activateWindow()
        qtbot.waitUntil(window.isActiveWindow)
        return window

    return show


def test_a_click_on_a_heading_sorts_and_what_is_not_known_stands_last(qtbot):
    model = TableModel(MIXED)
    QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    for place, order, expected in (
        (0, Qt.SortOrder.AscendingOrder, ["Alpha", "beta", "gamma"]),
        (1, Qt.SortOrder.AscendingOrder, ["-40", "0", ""]),
        (1, Qt.SortOrder.DescendingOrder, ["0", "-40", ""]),
        (3, Qt.SortOrder.AscendingOrder, ["2026-01-02", "2027-01-02", ""]),
        (4, Qt.SortOrder.AscendingOrder, ["no", "yes", ""]),
    ):
        model.sort(place, order)
        assert column(model, place) == expected
    assert model.table.column("name") == ("gamma", "beta", "Alpha")
    assert model.index(0, 1).data(Qt.ItemDataRole.AccessibleTextRole) == "Night (°C): -40"
    assert model.rowCount(model.index(0, 0)) == 0
    assert model.data(QModelIndex()) is None


def test_a_table_is_told_in_the_units_the_grower_reads():
    """0 °C is 32 °F and -40 °C is -40 °F (BIPM, SI Brochure, and the definition of the degree Fahrenheit);
    59 mL are 1.995 US fluid ounces (NIST Handbook 44, appendix C: 29.573 529 562 5 mL each)."""
    told = as_read(MIXED, Place(temperature="f", volume="floz"))
    assert told.headers[1:3] == ("Night (°F)", "Cell (fl oz)")
    assert told.column("low") == (32.0, None, -40.0)
    assert told.column("cell")[0] == pytest.approx(1.995, abs=0.006)
    assert as_read(MIXED, Place()) is MIXED


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Plan 2027", "plan-2027.csv"),
        ("../a: b*c?", "a-b-c.csv"),
        ("", "table.csv"),
        ("Ñandú", "ñandú.csv"),
        ("x" * 300, "x" * 80 + ".csv"),
    ],
)
def test_a_proposed_file_name_will_do_on_every_system(name, file):
    assert file_name(name, "csv") == file


def test_a_tray_that_comes_up_is_read_copied_and_saved_as_table_and_as_picture(
    bench, shelf, shown, qtbot, tmp_path
):
    card = ChartCard(bench)
    window = shown(card)
    tray = holder_named(shelf, "Tray A")
    card.show_holder(tray)
    click(card.findChild(TableButton))
    panel = panel_now(qtbot)
    assert panel.model.rowCount() > 10
    assert any("rows" in one.text() for one in panel.findChildren(QLabel))
    click(panel.copy_button)
    mime = QGuiApplication.clipboard().mimeData()
    assert mime.text().startswith("Date\tDay since sowing\tUp (seedlings)")
    assert mime.html().count("<tr>") == panel.model.rowCount() + 1
    copied = list(csv.reader(io.StringIO(bytes(mime.data(CSV).data()).decode(), newline="")))
    assert len(copied) == panel.model.rowCount() + 1
    panel.view.sortByColumn(1, Qt.SortOrder.DescendingOrder)
    click(panel.save_button)
    answer(window, tmp_path / "up.csv")
    frame = pandas.read_csv(tmp_path / "up.csv")
    days = frame["Day since sowing"].tolist()
    assert days == sorted(days, reverse=True)
    assert frame["Up (seedlings)"].max() == 10
    assert bench.said[-1] == "up.csv was saved."
    click(card.findChild(TableButton))
    panel = panel_now(qtbot)
    panel.wide.setValue(640)
    panel.high.setValue(360)
    click(panel.png_button)
    answer(window, tmp_path / "up.png")
    size = QImage(str(tmp_path / "up.png")).size()
    assert size == card.chart.size().scaled(QSize(640, 360), Qt.AspectRatioMode.KeepAspectRatio)
    click(card.findChild(TableButton))
    click(panel_now(qtbot).svg_button)
    answer(window, tmp_path / "up.svg")
    drawn = ElementTree.parse(tmp_path / "up.svg")
    told = [(text.text or "").strip() for text in drawn.iter(f"{SVG}text")]
    assert {"0 %", "50 %"} <= set(told)
    assert any(text.startswith("day ") for text in told)
    assert len(list(drawn.iter(f"{SVG}path"))) + len(list(drawn.iter(f"{SVG}polyline"))) > 2


def test_a_place_that_cannot_be_written_to_is_told_and_nothing_is_left(bench, shelf, shown, qtbot, tmp_path):
    button = TableButton(bench, sources.packets)
    window = shown(button)
    click(button)
    panel = panel_now(qtbot)
    panel.save()
    window.findChild(QFileDialog).fileSelected.emit(str(tmp_path / "gone" / "a.csv"))
    assert bench.said[-1].startswith("a.csv was not written: there is no such folder")
    assert list(tmp_path.glob("**/*.part")) == []
    window.findChild(QFileDialog).reject()


def test_the_keys_copy_the_list_that_has_the_keyboard_else_the_first_that_is_shown(bench, shelf, shown):
    first, second, box = TableButton(bench, sources.packets), TableButton(bench, sources.holders), QWidget()
    inside = QPushButton("in the second list")
    layout, outer, page = QVBoxLayout(box), QWidget(), QWidget()
    layout.addWidget(inside)
    layout.addWidget(second)
    column = QVBoxLayout(page)
    column.addWidget(first)
    column.addWidget(box)
    shown(page)
    assert nearest(page) is first
    inside.setFocus()
    assert nearest(page) is second
    first.stands_for(inside)
    assert nearest(page) is first
    second.stands_for(inside)
    copy_nearest(bench, page)
    assert bench.said[-1] == "Trays and racks: 2 rows copied."
    copy_nearest(bench, outer)
    assert bench.said[-1] == "There is no list or chart on this page that can be copied."
    copy_nearest(bench, None)
    outer.deleteLater()


def test_the_program_ends_well_with_a_table_still_on_the_clipboard():
    ended = subprocess.run([sys.executable, "-c", COPY_AND_END], capture_output=True, text=True, timeout=60)
    assert (ended.returncode, ended.stderr) == (0, "")


def test_the_keys_of_the_window_copy_and_open_the_table(bench, shelf, qtbot):
    window = Window(bench, {"round": RoundPage})
    qtbot.addWidget(window)
    window.show_page("round")
    window.show()
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(window, Qt.Key.Key_C, keys)
    assert "copied" in window.messages.text.text()
    QTest.keyClick(window, Qt.Key.Key_S, keys)
    panel = panel_now(qtbot)
    assert panel.model.table.name == "The round 2027-05-14"
    QTest.keyClick(panel, Qt.Key.Key_Escape)
    qtbot.waitUntil(lambda: QApplication.activePopupWidget() is None)
    window.close()


def test_a_list_with_nothing_in_it_says_so(bench, shown):
    button = TableButton(bench, lambda one: sources.cells(one, None))
    shown(button)
    click(button)
    button.copy()
    assert bench.said == ["There is nothing to show as a table yet.", "There is nothing to copy yet."]


@pytest.fixture
def place_page(bench, shelf, shown):
    page = PlacePage(bench)
    shown(page)
    page.open_part("files")
    return page


def test_all_facts_are_saved_off_the_windows_thread_and_can_be_called_off(
    place_page, bench, qtbot, tmp_path, ledger_path
):
    facts = place_page.tabs.part("files").facts
    click(facts.write)
    answer(place_page.window(), tmp_path / "facts.zip")
    qtbot.waitUntil(lambda: facts.told.text() == "facts.zip was saved.")
    with zipfile.ZipFile(tmp_path / "facts.zip") as packed, packed.open("packet.csv") as file:
        assert sorted(pandas.read_csv(file)["lot"]) == ["26-01", "26-02"]
    assert bench.keeper.ledger.facts("packet")
    facts.start(tmp_path / "again.zip")
    click(facts.cancel)
    assert facts.told.text() == CALLED_OFF
    assert facts.write.isVisible()
    facts.start(tmp_path / "none" / "facts.zip")
    qtbot.waitUntil(lambda: "there is no such folder" in facts.told.text())
    place_page.closing()


def test_every_table_on_the_files_part_opens_with_a_heading_for_every_column(bench, shelf):
    assert sources.years(bench) is None
    assert sources.heat(bench) is None
    for words, make in TABLES:
        table = make(bench)
        assert table is not None, words
        assert all(table.headers)
        assert as_read(table, Place(temperature="f", volume="floz")).columns


def test_a_chart_that_paints_itself_is_a_picture_too_its_text_still_text(qtbot):
    drawn = QLabel("Ripe & by when")
    qtbot.addWidget(drawn)
    drawn.resize(200, 50)
    picture = ElementTree.fromstring(svg_of(drawn, "A <title>"))
    assert [one.text.strip() for one in picture.iter(f"{SVG}text")] == ["Ripe & by when"]
    assert picture.find(f"{SVG}title").text == "A <title>"
    assert QImage.fromData(png_of(drawn, QSize(400, 400))).size() == QSize(400, 100)


def test_the_plan_is_saved_as_calendar_and_as_picture(bench, shelf, shown, tmp_path):
    keeper = bench.keeper
    key = next(key for key, one in varieties(shelf).items() if one.name == "Brass Bell")
    keeper.do(lambda: give_frost_dates(shelf, date(2027, 4, 20), date(2027, 10, 25), TODAY))
    keeper.do(lambda: want(shelf, key, 2027, 5, TODAY))
    plan = plan_of(shelf, 2027, TODAY)
    window = shown(QWidget())
    save_plan(bench, window, plan)
    answer(window, tmp_path / "plan.ics")
    events = icalendar.Calendar.from_ical((tmp_path / "plan.ics").read_bytes()).walk("VEVENT")
    assert "Set out Brass Bell" in {str(one["SUMMARY"]) for one in events}
    assert bench.said[-1] == "plan.ics was saved."
    drawing = plan_drawing(bench, lambda: plan)
    told = {one.text for one in ElementTree.fromstring(drawing.svg(QSize(1200, 600))).iter(f"{SVG}text")}
    assert {"Brass Bell", "Plan of the season 2027"} <= told
    image = QImage.fromData(drawing.png(QSize(1200, 600)))
    assert image.size() == QSize(1200, 600)
    assert len({image.pixel(x, y) for x in range(0, 1200, 7) for y in range(0, 600, 7)}) > 4


def test_the_round_is_saved_as_calendar(bench, shelf, shown, tmp_path):
    page = RoundPage(bench)
    window = shown(page)
    page.entered()
    click(page.findChild(QPushButton, "round-calendar"))
    answer(window, tmp_path / "round.ics")
    calendar = icalendar.Calendar.from_ical((tmp_path / "round.ics").read_bytes())
    assert len(calendar.walk("VEVENT")) >= len(page.rows()) > 0
    page.leave()
