"""What the grower relies on: a story takes notes and pictures, shows them, and gives them back whole."""

import pytest
from PIL import Image
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.seed.story_part import StoryPart
from greenroom.desk.story.panel import StoryPanel
from greenroom.desk.story.room import room_of
from greenroom.exchange.picture_store import PictureStore, folder_beside
from greenroom.ledger import Ledger
from greenroom.ledger.facts import Flowered, PictureKept, Watered
from greenroom.season.deeds_care import water
from greenroom.season.packets import packets
from greenroom.season.proposal import together
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story_deeds import note_on
from tests.desk.conftest import TODAY, holder_named

K = Qt.Key
LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def panel(qtbot, bench, shelf):
    """The story of B2 of Tray A, which is up."""
    made = StoryPanel(bench, lambda: TODAY)
    bench.keeper.changed.connect(made.take)
    qtbot.addWidget(made, before_close_func=lambda panel: panel.closing())
    made.resize(380, 640)
    made.show()
    made.open_for(SpotKey(holder_named(shelf, "Tray A"), 1, 1))
    return made


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "plant.jpg"
    Image.new("RGB", (300, 200), (40, 120, 60)).save(path)
    return path


def words(panel):
    return [one.line.words for one in panel.lines.made]


def pictured(panel):
    return [one for one in panel.lines.made if one.picture is not None]


def drop(panel, *paths):
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    middle = QPoint(100, 100)
    copy, none = Qt.DropAction.CopyAction, Qt.KeyboardModifier.NoModifier
    enter = QDragEnterEvent(middle, copy, mime, LEFT, none)
    QApplication.sendEvent(panel, enter)
    assert enter.isAccepted()
    QApplication.sendEvent(panel, QDropEvent(QPointF(middle), copy, mime, LEFT, none))
    return mime  # kept until the event was heard


def settled(qtbot, panel):
    qtbot.waitUntil(lambda: not panel.adder.running and not panel.under_way.isVisible())


def test_a_dropped_picture_is_kept_beside_the_ledger_shown_and_undone_as_one_act(
    qtbot, panel, bench, photo, ledger_path
):
    drop(panel, photo)
    qtbot.waitUntil(lambda: bool(pictured(panel)))
    (fact,) = bench.keeper.season.facts(PictureKept)
    folder = folder_beside(ledger_path)
    assert (fact.holder, fact.row, fact.column, fact.day) == (*panel.key, TODAY)
    assert (fact.width, fact.height) == (300, 200)
    assert (folder / fact.file).is_file()

    QTest.mouseClick(pictured(panel)[0].picture, LEFT)
    qtbot.waitUntil(lambda: panel.larger.canvas.image.width() == 300)
    assert panel.larger.words.text() == "14 May 2027, picture 1 of 1, 300 × 200 pixels"
    QTest.keyClick(panel.larger, K.Key_Escape)
    assert panel.lines.isVisible()

    assert bench.keeper.undo()
    qtbot.waitUntil(lambda: not pictured(panel))
    named = {entry.fact.file for entry in bench.keeper.ledger.written("picture_kept")}
    assert PictureStore(folder).sweep(named, now=4_102_444_800) == []
    assert (folder / fact.file).is_file()
    assert bench.keeper.redo()
    qtbot.waitUntil(lambda: bool(pictured(panel)))
    line = pictured(panel)[0]
    QTest.mouseClick(line.back, LEFT)
    assert bench.keeper.season.facts(PictureKept) == []


def test_a_missing_and_a_changed_file_are_said_in_the_story(qtbot, panel, bench, photo, ledger_path):
    drop(panel, photo)
    qtbot.waitUntil(lambda: bool(pictured(panel)))
    (fact,) = bench.keeper.season.facts(PictureKept)
    file = folder_beside(ledger_path) / fact.file
    for harm, said in ((lambda: file.write_bytes(b"other"), "was changed"), (file.unlink, "is missing")):
        harm()
        panel.refresh()
        line = panel.lines.made[-1]
        qtbot.waitUntil(lambda line=line, said=said: said in line.trouble.text())


def test_one_bad_file_among_several_keeps_none_and_says_which(qtbot, panel, bench, photo, tmp_path):
    bad = tmp_path / "not a picture.jpg"
    bad.write_bytes(b"<html>")
    drop(panel, photo, bad)
    qtbot.waitUntil(lambda: panel.trouble.isVisible())
    assert panel.trouble.text().startswith("not a picture.jpg is no picture that can be read")
    assert bench.keeper.season.facts(PictureKept) == []
    assert not room_of(bench.keeper).store.folder.exists()
    panel.adder.add_files(panel.about, [photo] * 21)
    assert "up to 20 are taken" in panel.trouble.text()


def test_a_picture_is_pasted_even_while_a_note_is_written(qtbot, panel, bench):
    image = QImage(30, 20, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.darkGreen)
    QGuiApplication.clipboard().setImage(image)
    panel.note.setFocus()
    QTest.keyClicks(panel.note, "as today")
    QTest.keyClick(panel.note, K.Key_V, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: bool(bench.keeper.season.facts(PictureKept)))
    assert panel.note.text() == "as today"
    QGuiApplication.clipboard().setText(" tall")
    QTest.keyClick(panel.note, K.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert panel.note.text() == "as today tall"
    settled(qtbot, panel)


def test_a_crash_between_the_file_and_its_fact_leaves_the_ledger_fine(keeper, shelf, ledger_path):
    """The file is there, no fact names it: nothing is told of it, and it is swept a day later."""
    store = PictureStore(folder_beside(ledger_path))
    store.keep(b"picture", 3, 2)
    with Ledger.open(ledger_path) as again:
        assert Season(again.entries()).facts(PictureKept) == []
        assert again.written("picture_kept") == []
    assert len(store.sweep(set(), now=4_102_444_800)) == 1


def test_the_story_goes_from_the_plant_to_its_tray_and_its_packet(panel, bench, qtbot):
    season = bench.keeper.season
    assert bench.keeper.do(lambda: water(season, panel.key.holder, TODAY))
    qtbot.waitUntil(lambda: words(panel)[-1] == "watered from below")
    assert not panel.lines.made[-1].back.isVisible()
    QTest.mouseClick(panel.views["whole"], LEFT)
    assert panel.title.text() == "Tray A"
    assert words(panel)[0].startswith("Tray A taken into use")
    QTest.keyClicks(panel.note, "moved to the window")
    QTest.keyClick(panel.note, K.Key_Return)
    qtbot.waitUntil(lambda: words(panel)[-1] == "note: moved to the window")
    watered = next(one for one in panel.lines.made if one.line.words == "watered from below")
    QTest.mouseClick(watered.back, LEFT)
    assert not any(
        isinstance(entry.fact, Watered) for entry in season.holder_facts(holder_named(season, "Tray A"))
    )
    QTest.mouseClick(panel.views["packet"], LEFT)
    assert panel.title.text() == "Packet"
    assert "sown, 18 seeds of Cinder Lantern, in 18 spots of Tray A" in words(panel)
    assert not panel.note.isVisible()
    QTest.keyClick(panel, K.Key_Escape)
    assert panel.about is None


def test_a_long_story_opens_at_its_latest_lines_and_shows_the_others_when_asked(qtbot, panel, bench):
    notes = [note_on(bench.keeper.season, panel.about, f"note {number}", TODAY) for number in range(90)]
    assert bench.keeper.do(lambda: together("90 notes", notes))
    qtbot.waitUntil(lambda: len(panel.lines.made) == 74)
    more = panel.findChild(type(panel.close_button), "all-lines")
    assert more.text() == "Show 20 earlier lines"
    last = panel.lines.made[-1]
    assert (len(panel.lines.made), last.line.words) == (74, "note: note 89")
    QTest.mouseClick(more, LEFT)
    assert len(panel.lines.made) == 94
    panel.note.setText("one more")
    panel.keep_note()
    assert words(panel)[-2:] == ["note: note 89", "note: one more"]


def test_a_packet_has_its_story_and_pictures_on_the_seed_page(qtbot, bench, shelf, photo):
    part = StoryPart(bench)
    qtbot.addWidget(part, before_close_func=lambda part: part.closing())
    bench.keeper.changed.connect(lambda _: part.refresh())
    part.show()
    key = packets(shelf)[0].key
    part.show_packet(key)
    assert words(part.panel)[0] == "variety: Brass Bell, 75 days to ripe"
    part.panel.adder.add_files(part.panel.about, [photo])
    qtbot.waitUntil(lambda: bool(pictured(part.panel)))
    (fact,) = bench.keeper.season.facts(PictureKept)
    assert (fact.packet, fact.holder) == (key, None)


def test_the_latest_lines_are_in_view_and_stay_so_until_the_grower_scrolls_away(qtbot, panel, bench):
    panel.resize(380, 420)
    notes = [note_on(bench.keeper.season, panel.about, f"note {number}", TODAY) for number in range(20)]
    assert bench.keeper.do(lambda: together("20 notes", notes))
    bar = panel.lines.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0 and bar.value() == bar.maximum())
    bar.setValue(0)
    before = bar.maximum()
    panel.note.setText("one more")
    panel.keep_note()
    qtbot.waitUntil(lambda: bar.maximum() > before)
    assert bar.value() == 0


def test_the_first_flower_is_noted_of_one_plant_and_of_all_that_stand_with_it(panel, bench, rack):
    """Feeding asks for less nitrogen, and ripening is counted, from the first open flower on."""
    season = bench.keeper.season
    assert not panel.flower.isVisible()  # no seedling in a tray's cell flowers
    standing = [key for key in season.holder(rack).keys if season.spot(key).up > 0]
    panel.open_for(standing[0])
    assert panel.flower.isVisible()
    QTest.mouseClick(panel.flower, LEFT)
    assert [(fact.row, fact.column, fact.day) for fact in season.facts(Flowered)] == [
        (standing[0].row, standing[0].column, TODAY)
    ]
    panel.refresh()
    assert not panel.flower.isVisible()
    assert "first flower open" in " ".join(words(panel))
    QTest.mouseClick(panel.views["whole"], LEFT)
    assert str(len(standing) - 1) in panel.flower.text()
    QTest.mouseClick(panel.flower, LEFT)
    assert len(season.facts(Flowered)) == len(standing)
    bench.keeper.undo()
    panel.refresh()
    assert panel.flower.isVisible()
