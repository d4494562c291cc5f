"""What the grower relies on: copies are taken by themselves, any comes back, and damage is made good."""

import os
import subprocess
import sys
import time
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk import start
from greenroom.desk.instance import InUseError
from greenroom.desk.keeping import keeping as keeping_module
from greenroom.desk.keeping import sitting as sitting_module
from greenroom.desk.keeping.copies_tab import CopiesTab
from greenroom.desk.keeping.copy_words import mended_words, size_words
from greenroom.desk.keeping.keeping import keeping_of
from greenroom.desk.keeping.mending import MendingWindow
from greenroom.desk.keeping.pictures import sweep_pictures
from greenroom.desk.keeping.sitting import Sitting
from greenroom.desk.keeping.where import backups_of
from greenroom.desk.session import own_ledger
from greenroom.desk.story.room import room_of
from greenroom.exchange.mending import Mended
from greenroom.ledger import Ledger, LedgerError
from greenroom.ledger.restore import restore
from greenroom.season.deeds_shelf import set_place
from greenroom.season.deeds_spots import mark_up
from greenroom.season.spots import SpotKey
from greenroom.season.story_deeds import About, keep_pictures
from tests.desk.conftest import NOW, TODAY, ZONE, fill_shelf, holder_named

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

LEFT = Qt.MouseButton.LeftButton
DAY = timedelta(days=1)


def click(button):
    assert button.isVisible()
    assert button.isEnabled()
    QTest.mouseClick(button, LEFT)


def marked(keeper, column):
    tray = holder_named(keeper.season, "Tray A")
    assert keeper.do(lambda: mark_up(keeper.season, [SpotKey(tray, 0, column)], TODAY))


def up(keeper):
    return len(keeper.ledger.facts("sprouted"))


@pytest.fixture
def stocked(ready_made, ledger_path):
    """A ledger with half a tray up."""
    ready_made({"shelf": fill_shelf}, NOW, ledger_path)
    return ledger_path


@pytest.fixture
def own(qapp, stocked, monkeypatch):
    """A sitting on the grower's own ledger, with half a tray up."""
    monkeypatch.setattr(sitting_module, "KEEP_MS", 0)
    with own_ledger(str(stocked), today=TODAY) as keeper:
        sitting = Sitting(keeper, start._show_window)
        yield sitting
        sitting.window.close()
        sitting.end()
        sitting.window.deleteLater()


def copies(path):
    return backups_of(path).copies()


def test_a_copy_taken_by_itself_comes_back_in_the_window_and_that_can_be_taken_back(qtbot, own, ledger_path):
    """Opened, marked, gone back, and gone forth again: all in one window for the grower's eyes."""
    qtbot.waitUntil(lambda: len(copies(ledger_path)) == 1, timeout=10_000)
    first = own.window
    keeper = first.bench.keeper
    qtbot.waitUntil(lambda: not keeping_of(keeper).busy)
    before = up(keeper)
    marked(keeper, 2)
    assert up(keeper) == before + 1
    first.resize(1100, 720)
    size = first.size()
    first.bench.send("place", "copies")
    tab = first.pages["place"].tabs.made["copies"]
    qtbot.waitUntil(lambda: tab.list.chosen is not None)
    click(tab.restore)
    assert not first.isEnabled()
    qtbot.waitUntil(lambda: own.window is not first, timeout=10_000)
    again = own.window
    assert (again.size(), again.current) == (size, "place")
    assert up(again.bench.keeper) == before
    told = again.messages.text.text()
    assert told.startswith("The ledger is as it was on ")
    assert told.endswith("What was there before is kept as a copy too; restoring that one takes this back.")
    qtbot.waitUntil(lambda: len(copies(ledger_path)) == 3, timeout=10_000)  # and one of what came back
    tab = again.pages["place"].tabs.made["copies"]
    assert tab.told.text() == told
    qtbot.waitUntil(lambda: tab.list.read and not keeping_of(again.bench.keeper).busy)
    assert [one.mark for one in copies(ledger_path)] == ["", "before restoring", ""]
    tab.refresh()
    qtbot.waitUntil(lambda: tab.list.chosen is not None)
    tab.list.table.selectRow(1)
    click(tab.restore)
    qtbot.waitUntil(lambda: own.window is not again, timeout=10_000)
    assert up(own.window.bench.keeper) == before + 1
    marked(own.window.bench.keeper, 5)
    with Ledger.open(ledger_path) as ledger:
        assert len(ledger.facts("sprouted")) == before + 2


def test_going_back_that_fails_is_told_and_the_window_goes_on_with_the_ledger_as_it_was(
    qtbot, own, ledger_path, monkeypatch
):
    def in_use(backups, copy, moment):
        raise LedgerError("season.greenroom is in use by another program, so nothing was done.")

    qtbot.waitUntil(lambda: len(copies(ledger_path)) == 1, timeout=10_000)
    monkeypatch.setattr("greenroom.ledger.restore.restore", in_use)
    first, before = own.window, up(own.window.bench.keeper)
    keeping = keeping_of(first.bench.keeper)
    qtbot.waitUntil(lambda: not keeping.busy)
    keeping.restore(copies(ledger_path)[0])
    qtbot.waitUntil(lambda: own.window is not first, timeout=10_000)
    assert own.window.messages.text.text().startswith("season.greenroom is in use by another program")
    marked(own.window.bench.keeper, 2)
    assert up(own.window.bench.keeper) == before + 1


def test_a_ledger_that_cannot_be_opened_again_closes_the_window_and_is_told(
    qtbot, own, ledger_path, monkeypatch
):
    def gone(path):
        raise LedgerError("The disk does not let season.greenroom be read.")

    qtbot.waitUntil(lambda: len(copies(ledger_path)) == 1, timeout=10_000)
    keeping = keeping_of(own.window.bench.keeper)
    qtbot.waitUntil(lambda: not keeping.busy)
    monkeypatch.setattr(Ledger, "open", gone)
    keeping.restore(copies(ledger_path)[0])
    qtbot.waitUntil(lambda: own.lost is not None, timeout=10_000)
    assert str(own.lost) == "The disk does not let season.greenroom be read."
    assert not own.window.isVisible()


@pytest.fixture
def full_disk(monkeypatch):
    """A disk that takes no further file."""

    def full(aside, place):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("greenroom.ledger.files._put_in_place", full)


def test_a_copying_that_fails_is_told_at_the_foot_of_the_window(qtbot, stocked, full_disk, own, ledger_path):
    qtbot.waitUntil(lambda: "No copy of season.greenroom was kept" in own.window.messages.text.text())
    assert own.window.messages.text.text().count(".") == 3  # two names have one, the sentence ends in one
    assert copies(ledger_path) == []
    marked(own.window.bench.keeper, 2)


def test_a_copy_is_due_after_a_day_and_when_the_clock_was_set_back(qtbot, keeper, shelf, monkeypatch):
    moments = iter([NOW, NOW + 0.5 * DAY, NOW + 1.01 * DAY, NOW + 1.01 * DAY, NOW, NOW])
    monkeypatch.setattr(keeping_module, "system_now", lambda: next(moments))
    keeping = keeping_of(keeper)
    assert keeping_of(keeper) is keeping
    taken = []
    monkeypatch.setattr(type(keeping), "take", lambda self, mark="": taken.append(_took(self)))
    keeping.begin()
    for due in (False, True, True):
        before = len(taken)
        keeping.look()
        assert (len(taken) > before) is due
    keeping.stop()
    assert not keeping._timer.isActive()


def _took(keeping):
    keeping._last = keeping_module.system_now()


@pytest.fixture
def tab(qtbot, bench, shelf):
    """The tab of copies of a ledger with three copies, the middle one damaged."""
    backups = backups_of(bench.keeper.ledger.file)
    for number in range(3):
        backups.keep(NOW + number * DAY, "asked for")
    middle = backups.copies()[1].path
    middle.write_bytes(middle.read_bytes()[:5000])
    made = CopiesTab(bench)
    qtbot.addWidget(made, before_close_func=lambda one: one.closing())
    made.resize(960, 600)
    made.show()
    qtbot.waitUntil(lambda: made.list.read)
    return made


def test_the_copies_are_listed_with_what_they_hold_and_whether_they_are_sound(qtbot, tab, bench):
    model = tab.list.table.model()
    rows = [[model.index(row, column).data() for column in range(6)] for row in range(model.rowCount())]
    facts = f"{len(bench.keeper.ledger.book().entries):,}"
    assert [row[0] for row in rows] == ["16 May 2027, 9:54", "15 May 2027, 9:54", "14 May 2027, 9:54"]
    assert [row[1] for row in rows] == ["asked for"] * 3
    assert [row[2] for row in rows] == [facts, "", facts]
    assert [row[3] for row in rows] == ["7", "", "7"]
    assert [row[5] for row in rows] == ["sound", "not sound", "sound"]
    assert tab.where.text().endswith("season.greenroom backups.")
    assert tab.restore.isEnabled()
    tab.list.table.selectRow(1)
    assert not tab.restore.isEnabled()
    assert "is cut off" in tab.note.text()
    click(tab.take)
    qtbot.waitUntil(lambda: tab.told.text() == "A copy was taken and read through.")
    qtbot.waitUntil(lambda: tab.list.read)
    assert model.rowCount() == 4


def test_a_ledger_that_is_no_file_says_why_it_has_no_copies(qtbot, bench, qapp):
    with Ledger.open("sqlite://") as ledger:
        mine, bench.keeper = bench.keeper, type(bench.keeper)(ledger, bench.keeper.clock)
        made = CopiesTab(bench)
        qtbot.addWidget(made)
        assert "is not a file" in made.where.text()
        assert made.restore.isHidden()
        keeping_of(bench.keeper).begin()
        assert not keeping_of(bench.keeper).busy
        bench.keeper = mine


# ---- damaged, gone ----


@pytest.fixture
def torn(keeper, shelf, ledger_path):
    """A damaged ledger with a copy of an hour before; the mark made since can still be read."""
    backups = backups_of(ledger_path)
    backups.keep(NOW)
    marked(keeper, 2)
    facts = len(keeper.ledger.book().entries)
    keeper.ledger.close()
    with Ledger.open(ledger_path) as ledger:
        raw = ledger._connection.connection.driver_connection
        root = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = 'ix_fact_act'").fetchone()[0]
    data = bytearray(ledger_path.read_bytes())
    data[(root - 1) * 4096 : (root - 1) * 4096 + 100] = b"\xa5" * 100
    ledger_path.write_bytes(data)
    return facts


def windows(kind):
    return [one for one in QApplication.topLevelWidgets() if isinstance(one, kind) and one.isVisible()]


def in_turn(*steps):
    """Carry out each step once what it waits for is there; a step returns False to be tried again."""
    waiting = list(steps)
    timer = QTimer(interval=30)

    def on():
        if waiting and waiting[0]() is not False:
            waiting.pop(0)
        if not waiting:
            timer.stop()

    timer.timeout.connect(on)
    timer.start()
    return timer


def mend():
    found = windows(MendingWindow)
    if not found or not found[0].mend.isEnabled() or found[0].list.chosen is None:
        return False
    click(found[0].mend)
    return True


def go_on():
    found = windows(MendingWindow)
    if not found or not found[0].go_on:
        return False
    told.append(found[0].told.text())
    click(found[0].leave)
    return True


def see_and_close():
    found = windows(start.Window)
    if not found:
        return False
    told.append(up(found[0].bench.keeper))
    found[0].close()
    return True


told = []


def test_a_damaged_ledger_is_made_good_before_the_window_opens(qtbot, torn, ledger_path, capsys):
    damaged = ledger_path.read_bytes()
    told.clear()
    steps = in_turn(mend, go_on, see_and_close)
    assert start.run(str(ledger_path), today=TODAY, demo=False, pictures=None) == 0
    assert not steps.isActive()
    words, shown = told
    assert words.splitlines()[:2] == [
        f"The copy holds {torn - 1} facts.",
        "1 fact more could be read of the damaged ledger and came in as one act, which one undo takes back.",
    ]
    assert shown == 11
    (aside,) = ledger_path.parent.glob("season.damaged-*.greenroom")
    assert aside.name in words
    assert aside.read_bytes() == damaged
    error = capsys.readouterr().err.strip()
    assert "1 copy of it is in season.greenroom backups" in error
    with Ledger.open(ledger_path) as ledger:
        assert ledger.undo_name == "salvaged from the damaged ledger"


def test_without_a_screen_damage_is_one_sentence_and_all_stays(qapp, torn, ledger_path, capsys, tmp_path):
    before = ledger_path.read_bytes()
    assert start.run(str(ledger_path), today=None, demo=False, pictures=tmp_path / "pictures") == 2
    words = capsys.readouterr().err
    assert words.count("\n") == 1
    assert "is damaged" in words
    assert words.endswith(
        "; 1 copy of it is in season.greenroom backups, and the window of greenroom offers to restore one.\n"
    )
    assert ledger_path.read_bytes() == before
    assert not list(ledger_path.parent.glob("season.damaged-*"))


def test_a_ledger_that_is_gone_is_not_begun_anew_unasked(qtbot, keeper, shelf, ledger_path, capsys):
    backups_of(ledger_path).keep(NOW)
    keeper.ledger.close()
    ledger_path.unlink()
    told.clear()
    steps = in_turn(mend, go_on, see_and_close)
    assert start.run(str(ledger_path), today=TODAY, demo=False, pictures=None) == 0
    assert not steps.isActive()
    assert told[0].startswith("The ledger is as it was on 14 May 2027")
    assert told[1] == 10
    assert "is not where it was, though copies of it are" in capsys.readouterr().err


def test_a_second_program_on_a_ledger_that_is_gone_is_told_that_the_first_has_it(qtbot, stocked):
    with own_ledger(str(stocked)):
        backups_of(stocked).keep(NOW)
        stocked.unlink()
        with pytest.raises(InUseError, match="is open in another greenroom"), own_ledger(str(stocked)):
            pass


def test_a_grower_may_begin_anew_or_close_where_the_ledger_is_gone(qtbot, keeper, shelf, ledger_path, capsys):
    backups_of(ledger_path).keep(NOW)
    keeper.ledger.close()
    ledger_path.unlink()
    steps = in_turn(lambda: [one.close() for one in windows(MendingWindow)] or False)
    QTimer.singleShot(300, steps.stop)
    assert start.run(str(ledger_path), today=TODAY, demo=False, pictures=None) == 2
    steps.stop()
    assert not ledger_path.exists()
    steps = in_turn(
        lambda: [click(one.anew) for one in windows(MendingWindow)] or False,
        lambda: [one.close() for one in windows(start.Window)] or False,
    )
    assert start.run(str(ledger_path), today=TODAY, demo=False, pictures=None) == 0
    assert not steps.isActive()
    assert ledger_path.exists()
    assert len(copies(ledger_path)) == 1
    with own_ledger(str(ledger_path)) as again:
        assert again.do(lambda: set_place("Ridge Lane", 46.4, 16.0, "UTC", TODAY))


def test_where_no_copy_is_sound_what_can_be_read_is_saved(qtbot, torn, ledger_path):
    (copy,) = copies(ledger_path)
    copy.path.write_bytes(b"")
    shown = MendingWindow("It is damaged.", backups_of(ledger_path), ZONE, lambda: None)
    qtbot.addWidget(shown)
    shown.show()
    qtbot.waitUntil(shown.mend.isEnabled)
    assert shown.mend.text() == "Save what can be read"
    assert shown.anew.isHidden()
    click(shown.mend)
    assert not shown.close()  # what was begun is written to its end
    qtbot.waitUntil(lambda: shown.go_on, timeout=10_000)
    assert shown.told.text().startswith(f"{torn} facts could be read of the damaged ledger.")
    assert shown.title.text() == "The ledger is whole again"


def test_numbers_of_facts_and_bytes_are_told_as_people_say_them(tmp_path):
    lines = mended_words(Mended(1200, 0, 1, tmp_path / "x.damaged.greenroom"))
    assert lines[:3] == (
        "The copy holds 1,200 facts.",
        "All that could be read of the damaged ledger is in it.",
        "1 fact could not be read and is lost.",
    )
    assert [size_words(size) for size in (512, 94_208, 1_234_567)] == ["1 kB", "94 kB", "1.2 MB"]


def test_starting_loads_no_database_before_the_window_is_painted():
    """The demo's window waits for none: what keeps copies and ledgers is loaded afterwards."""
    code = (
        "import sys; from greenroom.desk import start; from greenroom.desk.session import demo_ledger; "
        "application = start.make_application(); session = demo_ledger(); "
        "window = start.make_window(session.__enter__()); window.show(); application.processEvents(); "
        "loaded = [one for one in ('sqlalchemy', 'greenroom.ledger.backups') if one in sys.modules]; "
        "window.close(); sys.stdout.write(f'{loaded}')"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, timeout=100
    )
    assert (done.returncode, done.stdout) == (0, "[]"), done.stderr


def test_a_picture_that_only_a_copy_names_is_not_swept(bench, shelf, ledger_path):
    """Else going back, adding a picture and going forth again would lose it."""
    keeper = bench.keeper
    store = room_of(keeper).store
    files = [store.keep(text, 3, 2) for text in (b"first", b"in a copy alone", b"in nothing")]
    old = time.time() - 3 * DAY.total_seconds()
    for file in files:
        os.utime(store.folder / file.file, (old, old))
    tray = holder_named(shelf, "Tray A")
    backups = backups_of(ledger_path)
    before = backups.keep(NOW, "asked for").copy
    keeper.do(lambda: keep_pictures(shelf, About(holder=tray), files[:2], TODAY))
    keeper.ledger.close()
    restore(backups, before.path, NOW)
    with Ledger.open(ledger_path) as ledger:
        assert not ledger.written("picture_kept")
        broken = backups.folder / "season 0099 20270514T095412Z.greenroom"
        broken.write_bytes(b"")
        sweep_pictures(store, ledger, {files[0].file})
        assert len(list(store.folder.iterdir())) == 3
        broken.unlink()
        sweep_pictures(store, ledger, {files[0].file})
    assert {one.name for one in store.folder.iterdir()} == {file.file for file in files[:2]}
