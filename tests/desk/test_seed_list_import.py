"""Bringing a seed list in through the panel: look, put the match right, all of it or nothing."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.season.packets import packets
from tests.desk.conftest import TODAY
from tests.desk.seed_hands import open_page

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton
DATA = Path(__file__).parent.parent / "data"
LIST = (
    "Variety,Species,Lot,Year,Seeds,Germ %,Notes\n"
    "Heron Tongue,C. chinense,27-01,2027,20,80,from a swap\n"
    "Brass Bell,bell pepper,26-02,2026,60,92,\n"
    "Moon Fern,Nephrolepis,,2026,,,\n"
)


@pytest.fixture
def page(qtbot, bench, keeper):
    return open_page(qtbot, bench)


@pytest.fixture
def panel(page):
    QTest.mouseClick(page.open_import, LEFT)
    return page.list_import


@pytest.fixture
def open_list(panel, qtbot, tmp_path):
    def choose(content, name="seeds.csv"):
        file = tmp_path / name
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
        panel.file.path.setFocus()
        panel.file.path.clear()
        QTest.keyClicks(panel.file.path, str(file))
        QTest.keyClick(panel.file.path, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: panel.bring.isEnabled() or panel.trouble.isVisible(), timeout=5000)
        return panel

    return choose


@pytest.fixture
def bring(page, qtbot):
    """Bring the list in and wait until it is in the box."""

    def click(panel):
        QTest.mouseClick(panel.bring, LEFT)
        qtbot.waitUntil(page.table.isVisible, timeout=5000)

    return click


def names(keeper):
    return [view.name for view in packets(keeper.season)]


def pick(panel, column, words):
    """Choose what a column holds, as with the keys in its chooser."""
    chooser = panel.table.choosers[column]
    chooser.setFocus()
    chooser.setCurrentIndex(chooser.findText(words))
    chooser.activated.emit(chooser.currentIndex())


def chosen(panel):
    return [chooser.currentText() for chooser in panel.table.choosers]


def test_a_list_comes_in_as_one_act_with_its_crops(open_list, keeper, page, bring):
    panel = open_list(LIST)
    assert panel.bring.text() == "Bring in 3 packets"
    bring(panel)
    assert names(keeper) == ["Brass Bell", "Heron Tongue", "Moon Fern"]
    assert [view.crop for view in packets(keeper.season)] == ["bell", "capsicum-chinense", None]
    assert page.model.rowCount() == 3
    assert page.table.isVisible()
    keeper.undo()
    assert names(keeper) == []


def test_every_column_shows_what_it_is_taken_for_and_the_files_own_rows(open_list):
    panel = open_list(LIST)
    assert chosen(panel) == [
        "variety name",
        "species or crop",
        "lot",
        "year packed",
        "number of seeds",
        "germination (%)",
        "not used",
    ]
    assert panel.preview.index(1, 6).data() == "from a swap"
    assert panel.preview.headerData(5, Qt.Orientation.Horizontal) == "Germ %"


def test_a_wrong_match_is_put_right_in_the_chooser(open_list, keeper, qtbot, bring):
    panel = open_list("Variety,Colour,Packet no\nHeron Tongue,red,9\n")
    pick(panel, 2, "not used")
    qtbot.waitUntil(panel.bring.isEnabled)
    pick(panel, 1, "lot")
    qtbot.waitUntil(panel.bring.isEnabled)
    bring(panel)
    assert packets(keeper.season)[0].packet.lot == "red"


def test_a_field_taken_to_another_column_is_taken_from_the_first(open_list, qtbot):
    panel = open_list("Variety,Old name\nHeron Tongue,Crane\n")
    pick(panel, 1, "variety name")
    qtbot.waitUntil(panel.bring.isEnabled)
    assert chosen(panel) == ["not used", "variety name"]


def test_without_a_column_of_names_nothing_can_be_brought_in(open_list):
    panel = open_list("Alpha,Beta\n1,2\n")
    assert "No column is chosen for the variety name" in panel.trouble.text()
    assert not panel.bring.isEnabled()


def test_what_is_in_the_box_already_is_told_and_left_out(open_list, keeper, shelf, bring):
    panel = open_list(LIST)
    assert panel.bring.text() == "Bring in 2 packets"
    assert panel.leave_out.isVisible()
    assert "the 1 that is in the seed box already" in panel.leave_out.text()
    bring(panel)
    assert names(keeper) == ["Brass Bell", "Cinder Lantern", "Heron Tongue", "Moon Fern"]


def test_what_is_in_the_box_already_comes_in_when_it_is_asked_for(open_list, keeper, shelf, bring):
    panel = open_list(LIST)
    panel.leave_out.setFocus()
    QTest.keyClick(panel.leave_out, Qt.Key.Key_Space)
    assert panel.bring.text() == "Bring in 3 packets"
    bring(panel)
    assert names(keeper).count("Brass Bell") == 2


def test_a_list_that_is_all_in_the_box_brings_nothing_in(open_list, page, qtbot, bring):
    panel = open_list(LIST)
    file = panel.file.path.text()
    bring(panel)
    QTest.mouseClick(page.open_import, LEFT)
    panel.file.choose(file)
    qtbot.waitUntil(lambda: "3 packets in the list" in panel.told.text(), timeout=5000)
    assert not panel.bring.isEnabled()
    assert panel.bring.text() == "Nothing to bring in"
    assert not panel.trouble.isVisible()


def test_species_that_the_guide_does_not_know_and_rows_that_repeat_are_told(open_list):
    panel = open_list(LIST + "Heron Tongue,C. chinense,27-01,2027,20,80,from a swap\n")
    assert "The guide has no crop for “Nephrolepis”" in panel.told.text()
    assert "line 5 repeats 2" in panel.told.text()


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "empty"),
        (b"\x00\x01\x02\xff" * 400, "."),
        ("Variety,Year\nHeron Tongue,soon\n", "soon"),
        ("Variety,Germ %\nHeron Tongue,140\n", "140"),
        ("Variety,Seeds\nHeron Tongue,-3\n", "-3"),
        ("Variety,Seeds\n,20\n", "name"),
    ],
)
def test_a_bad_file_gets_one_clear_sentence_and_brings_nothing_in(open_list, keeper, content, words):
    panel = open_list(content)
    assert panel.trouble.isVisible()
    assert words in panel.trouble.text()
    assert panel.trouble.text().endswith("Nothing was brought in.")
    assert not panel.bring.isEnabled()
    assert names(keeper) == []


def test_a_file_that_is_not_there_is_told(panel, qtbot, tmp_path):
    panel.file.choose(str(tmp_path / "gone.csv"))
    qtbot.waitUntil(panel.trouble.isVisible, timeout=5000)
    assert "gone.csv" in panel.trouble.text()


@pytest.mark.parametrize("file", sorted(DATA.glob("seeds_*"), key=str))
def test_lists_of_any_delimiter_and_language_come_in_as_they_stand(panel, qtbot, keeper, file, bring):
    panel.file.choose(str(file))
    qtbot.waitUntil(panel.bring.isEnabled, timeout=5000)
    rows = sum(1 for line in file.read_bytes().splitlines()[1:] if line.strip())
    bring(panel)
    assert len(packets(keeper.season)) == rows


def test_a_file_dropped_on_the_field_is_opened(panel, qtbot, tmp_path):
    file = tmp_path / "dropped.csv"
    file.write_text(LIST)
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(file))])
    point, copy = QPointF(5, 5), Qt.DropAction.CopyAction
    nothing = Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(point.toPoint(), copy, data, LEFT, nothing)
    QApplication.sendEvent(panel.file, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(panel.file, QDropEvent(point, copy, data, LEFT, nothing))
    qtbot.waitUntil(panel.bring.isEnabled, timeout=5000)
    assert panel.file.path.text() == str(file)


def test_closing_the_panel_forgets_the_list_and_changes_nothing(open_list, keeper, page):
    panel = open_list(LIST)
    QTest.mouseClick(panel.close_button, LEFT)
    assert page.empty.isVisible()
    assert page.open_import.isEnabled()
    assert names(keeper) == []
    assert panel.file.path.text() == ""
    assert panel.preview.rowCount() == 0


def test_an_answer_that_comes_after_closing_is_dropped(panel, page, qtbot, tmp_path):
    file = tmp_path / "seeds.csv"
    file.write_text(LIST)
    panel.file.choose(str(file))
    panel.close_panel()
    qtbot.wait(300)
    assert panel.preview.rowCount() == 0
    assert page.empty.isVisible()


def test_the_preview_keeps_to_qts_rules_for_models(open_list, qtmodeltester, qtbot):
    panel = open_list(LIST)
    qtmodeltester.check(panel.preview)
    pick(panel, 6, "lot")
    qtbot.waitUntil(panel.bring.isEnabled)
    qtmodeltester.check(panel.preview)


def test_packets_of_a_list_are_dated_today(open_list, keeper, bring):
    bring(open_list(LIST))
    assert {view.packet.day for view in packets(keeper.season)} == {TODAY}


def test_a_file_put_right_is_read_anew_when_enter_is_pressed_again(open_list, keeper, qtbot, tmp_path):
    panel = open_list("Variety,Year\nHeron Tongue,soon\n")
    (tmp_path / "seeds.csv").write_text("Variety,Year\nHeron Tongue,2026\n")
    QTest.keyClick(panel.file.path, Qt.Key.Key_Return)
    qtbot.waitUntil(panel.bring.isEnabled, timeout=5000)
    assert not panel.trouble.isVisible()
