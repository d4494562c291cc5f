"""Reading a tray from a photograph, as a grower does: choose, look, correct, keep, undo.

The photographs are drawn with known truth (``tests/exchange/tray_pictures``).
"""

from dataclasses import replace

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest

from greenroom.desk.grow.photo_panel import CALLED_OFF
from greenroom.desk.grow.photo_state import Mark
from greenroom.desk.tables import sources
from greenroom.exchange.tray_photo import photo as photo_module
from greenroom.exchange.tray_photo.cells import MARKED
from greenroom.exchange.tray_photo.corners import NOT_INSTALLED
from greenroom.ledger.facts import CanopySeen, PictureKept
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY
from tests.desk.grow_hands import LEFT, PLAIN, SHIFT, open_page
from tests.exchange.tray_pictures import TILTED, Scene, drawn, jpeg

SCENE = Scene(corners=TILTED, share_up=0.5)
PICTURE = drawn(SCENE)
Key = Qt.Key


@pytest.fixture
def page(qtbot, bench, shelf):
    shown = open_page(qtbot, bench)
    yield shown
    shown.closing()


@pytest.fixture
def panel(page):
    QTest.mouseClick(page.main.photo, LEFT)
    assert page.photos.open
    return page.photos.panel


@pytest.fixture
def read(panel, qtbot, tmp_path):
    """The panel with the photograph read."""
    path = tmp_path / "tray.jpg"
    path.write_bytes(jpeg(PICTURE.pixels))
    panel.choose(str(path))
    wait_read(qtbot, panel)
    return panel


def wait_read(qtbot, panel):
    qtbot.waitUntil(
        lambda: panel.state is not None and panel.state.reading is not None and not panel.busy, timeout=20_000
    )


def truth(season, holder):
    """What each cell should be taken for: the tray has rows A to F sown in six columns, ten cells up."""
    found = {}
    for (row, column), up in ((place, bool(PICTURE.up[place])) for place in grid()):
        spot = season.spot(SpotKey(holder, row, column))
        if up:
            found[row, column] = Mark.KNOWN if spot.up else Mark.NEW if spot.waiting else Mark.UNSOWN
        else:
            found[row, column] = Mark.UNSEEN if spot.up else Mark.BARE
    return found


def grid():
    return [(row, column) for row in range(6) for column in range(12)]


def middle(panel, place):
    return panel.view.on_screen(*panel.state.spots(0.5, 0.5)[place]).toPoint()


def test_a_photo_is_read_corrected_kept_as_one_act_and_taken_back(page, read, bench, qtbot):
    season, holder = bench.keeper.season, page.main_key
    wanted = truth(season, holder)
    assert read.state.marks() == wanted
    assert read.side.corner_words.text() == "Tray found"
    new = [place for place, mark in wanted.items() if mark is Mark.NEW]
    assert read.side.write.text() == f"Mark {len(new)} cells up"
    assert f"{len(new)} up now" in read.side.legend.words
    unsown = [place for place, mark in wanted.items() if mark is Mark.UNSOWN]
    assert f"Never sown, so not marked: {SpotKey(holder, *unsown[0]).label}" in read.side.unsown.text()
    QTest.mouseClick(read.side.why, LEFT)
    assert "Otsu" in bench.explained[-1].sources[1]
    assert dict(bench.explained[-1].inputs)["corners"].startswith("found with a confidence of ")

    QTest.mouseClick(read.view, LEFT, PLAIN, middle(read, new[0]))  # the grower knows better
    assert read.state.mark(new[0]) is Mark.BARE
    assert read.view.accessibleDescription().startswith(f"{SpotKey(holder, *new[0]).label}: not up, leaf on ")
    before = len(bench.keeper.ledger.acts(1_000))
    QTest.mouseClick(read.side.write, LEFT)
    qtbot.waitUntil(lambda: read.state is None)
    assert len(bench.keeper.ledger.acts(1_000)) == before + 1
    assert [season.spot(SpotKey(holder, *place)).up for place in new] == [0, *[1] * (len(new) - 1)]
    assert all(season.spot(SpotKey(holder, *place)).up == 0 for place in unsown)
    (seen,) = season.facts(CanopySeen)
    (kept,) = season.facts(PictureKept)
    assert (seen.day, seen.picture, len(seen.cells)) == (TODAY, kept.picture, 72)
    assert kept.holder == holder
    assert read.told.text().startswith(f"Kept: {len(new) - 1} cells marked up, leaf cover of 72 cells")
    assert [one.day for one in read.canopy.days] == [TODAY]
    assert "median" in read.canopy.chart.words_at(1)
    table = sources.canopy(bench, holder)
    assert "Leaf cover" in table.headers[-1]
    assert len(table.rows) == 72

    assert bench.keeper.undo()
    assert season.facts(CanopySeen) == []
    assert all(season.spot(SpotKey(holder, *place)).up == 0 for place in new)
    QTest.keyClick(read, Key.Key_Escape)
    assert not page.photos.open


def test_corners_and_cells_are_worked_by_keys_alone(read, qtbot):
    view, state = read.view, read.state
    view.setFocus()
    first = state.corners[0]
    QTest.keyClick(view, Key.Key_PageDown)
    assert view.accessibleDescription() == "corner of A1; arrow keys move it"
    QTest.keyClick(view, Key.Key_Right)
    QTest.keyClick(view, Key.Key_Down, SHIFT)
    assert state.corners[0] == (first[0] + 1, first[1] + 12)
    wait_read(qtbot, read)
    QTest.keyClick(view, Key.Key_Escape)
    for key in (Key.Key_Right, Key.Key_Right, Key.Key_Down):
        QTest.keyClick(view, key)
    assert view.cell == (1, 1)
    was = state.mark((1, 1))
    QTest.keyClick(view, Key.Key_Space)
    assert state.mark((1, 1)) is not was
    assert "B2: " in view.accessibleDescription()


def test_a_corner_is_dragged_and_the_cells_are_read_anew(read, qtbot):
    view, state = read.view, read.state
    start, end = (view.on_screen(*corner) for corner in (state.corners[2], (250, 150)))
    QTest.mousePress(view, LEFT, PLAIN, start.toPoint())
    QTest.mouseMove(view, end.toPoint())
    QTest.mouseRelease(view, LEFT, PLAIN, end.toPoint())
    assert state.corners[2] == pytest.approx((250, 150), abs=2)
    qtbot.waitUntil(lambda: read.trouble.text() == MARKED)  # dented in now
    assert not read.side.write.isEnabled()
    QTest.mouseClick(read.side.again, LEFT)
    qtbot.waitUntil(read.side.reading.isVisible)
    wait_read(qtbot, read)
    assert not read.side.reading.isVisible()
    assert read.trouble.text() == ""
    QTest.mouseClick(read.side.turn, LEFT)
    wait_read(qtbot, read)
    assert state.corners[0] == state.loaded.marked.corners[1]


def test_a_file_that_is_no_picture_is_told_in_one_sentence_and_nothing_is_kept(
    panel, bench, qtbot, tmp_path, ledger_path
):
    path = tmp_path / "tray.jpg"
    path.write_bytes(jpeg(PICTURE.pixels)[:4000])
    panel.choose(str(path))
    qtbot.waitUntil(lambda: not panel.busy and bool(panel.trouble.text()), timeout=20_000)
    assert panel.trouble.text().startswith("tray.jpg is cut off or damaged")
    assert panel.state is None
    assert bench.keeper.season.facts(CanopySeen) == []
    assert not list(tmp_path.glob("* pictures"))
    panel.choose(str(path))
    QTest.mouseClick(panel.cancel, LEFT)
    assert panel.told.text() == CALLED_OFF
    assert not panel.busy


def test_a_dropped_photo_is_read_without_the_library_from_marked_corners(
    panel, bench, qtbot, tmp_path, monkeypatch
):
    monkeypatch.setattr(photo_module, "can_find", lambda: False)
    bare = drawn(replace(SCENE, share_up=0.0))
    path = tmp_path / "bare.jpg"
    path.write_bytes(jpeg(bare.pixels))
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    copy = Qt.DropAction.CopyAction
    panel.dropEvent(QDropEvent(QPointF(5, 5), copy, mime, LEFT, PLAIN))
    wait_read(qtbot, panel)
    assert panel.side.corner_words.text() == NOT_INSTALLED
    panel.state.corners = bare.block
    panel.view.corners_set.emit()
    panel.state.reading = None
    wait_read(qtbot, panel)
    assert set(panel.state.marks().values()) == {Mark.BARE, Mark.UNSEEN}
    assert panel.side.write.text() == "Keep the leaf cover"
    panel.side.keep_picture.setChecked(False)
    QTest.mouseClick(panel.side.write, LEFT)
    qtbot.waitUntil(lambda: panel.state is None)
    (seen,) = bench.keeper.season.facts(CanopySeen)
    assert (seen.picture, {cell.cover for cell in seen.cells}) == (None, {0.0})
