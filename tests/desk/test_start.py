"""Starting: from the command to the window or the pictures, and one sentence where it cannot be."""

import hashlib
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from greenroom import __version__, app
from greenroom.desk import start
from greenroom.desk.pages import page_makers
from greenroom.desk.pictures import SIZES
from greenroom.desk.refusal import Refusal
from greenroom.desk.session import demo_ledger, own_ledger
from greenroom.ledger import Ledger
from greenroom.season.deeds_shelf import set_place

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

TODAY = date(2027, 5, 14)


def greenroom(*arguments, **named):
    return subprocess.run(
        [sys.executable, "-m", "greenroom", *arguments],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
        timeout=110,
        **named,
    )


def one_sentence(text):
    lines = text.strip().splitlines()
    assert len(lines) == 1, text
    assert lines[0].endswith(".")
    assert "Traceback" not in text
    return lines[0]


# ---- the command ----


def test_the_version_is_told():
    done = greenroom("--version")
    assert (done.returncode, done.stdout.strip()) == (0, f"greenroom {__version__}")


@pytest.mark.parametrize(
    "day", ["14.5.2027", "2027-02-30", "2027-5-14", "tomorrow", "", "9999-12-31", "20270514"]
)
def test_a_day_that_is_none_is_refused_with_what_is_allowed(capsys, day):
    with pytest.raises(SystemExit) as left:
        app.main(["--today", day])
    assert left.value.code == 2
    last = capsys.readouterr().err.strip().splitlines()[-1]
    assert f"{day!r} is no day to take; a date such as 2027-05-14" in last


def test_an_unknown_option_and_a_ledger_beside_the_demo_are_refused(capsys):
    for arguments in (["--no-such"], ["--demo", "my.greenroom"]):
        with pytest.raises(SystemExit) as left:
            app.main(arguments)
        assert left.value.code == 2
    assert "--demo opens a ledger of its own" in capsys.readouterr().err


def test_without_a_name_the_growers_own_ledger_is_opened_in_the_users_folder(own_user_folders):
    """XDG Base Directory Specification 0.8: $XDG_DATA_HOME is where a user's data are kept."""
    asked = app.parse([])
    assert asked.ledger.endswith("season.greenroom")
    if sys.platform.startswith("linux"):
        assert asked.ledger.startswith(os.environ["XDG_DATA_HOME"])
    assert app.parse(["--demo"]).ledger is None
    assert app.parse(["--today", "2027-05-14"]).today == TODAY


def test_where_no_log_can_be_kept_it_is_said_and_the_program_goes_on(monkeypatch, tmp_path, capsys):
    blocked = tmp_path / "file"
    blocked.write_text("")
    monkeypatch.setattr(app, "user_log_path", lambda *_given, **_named: blocked / "logs")
    app.keep_log()
    assert one_sentence(capsys.readouterr().err).startswith("No log is kept")


# ---- ledgers that cannot be opened ----


def text_file(path):
    path.write_text("Sown on 12 March: Brass Bell, 24 cells.\n" * 50, encoding="utf-8")


def empty_file(path):
    path.write_bytes(b"")


def cut_off(path):
    whole_ledger(path)
    path.write_bytes(path.read_bytes()[: path.stat().st_size * 2 // 3])


def whole_ledger(path):
    with Ledger.open(path) as ledger:
        ledger.record(*set_place("Ridge Lane", 46.4, 16.0, "UTC", TODAY).record)


def other_programs(path):
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("CREATE TABLE moz_places (id INTEGER PRIMARY KEY, url TEXT)")
        raw.commit()


def from_the_future(path):
    whole_ledger(path)
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("UPDATE alembic_version SET version_num = '9999'")
        raw.commit()


def folder(path):
    path.mkdir()


BAD = {
    "text": text_file,
    "empty": empty_file,
    "cut off": cut_off,
    "another program's": other_programs,
    "newer": from_the_future,
    "a folder": folder,
}


def state_of(path):
    if path.is_dir():
        return sorted(one.name for one in path.iterdir())
    return hashlib.sha256(path.read_bytes()).hexdigest()


@pytest.mark.parametrize("kind", BAD)
def test_a_bad_ledger_gets_one_sentence_and_keeps_every_byte(qapp, tmp_path, capsys, kind):
    path = tmp_path / "season.greenroom"
    BAD[kind](path)
    before = state_of(path)
    status = start.run(str(path), today=None, demo=False, pictures=tmp_path / "pictures")
    assert status == 2
    assert "season.greenroom" in one_sentence(capsys.readouterr().err)
    assert state_of(path) == before
    assert [one.name for one in tmp_path.iterdir()] == ["season.greenroom"]


def test_a_newer_ledger_names_both_versions(qapp, tmp_path, capsys):
    path = tmp_path / "season.greenroom"
    from_the_future(path)
    assert start.run(str(path), today=None, demo=False, pictures=tmp_path / "pictures") == 2
    assert "9999" in one_sentence(capsys.readouterr().err)


def test_a_ledger_nobody_may_write_to_gets_one_sentence(qapp, tmp_path, capsys):
    path = tmp_path / "kept" / "season.greenroom"
    path.parent.mkdir()
    whole_ledger(path)
    path.chmod(0o400)
    path.parent.chmod(0o500)
    try:
        if os.access(path, os.W_OK):
            pytest.skip("this user may write everywhere")
        assert start.run(str(path), today=None, demo=False, pictures=tmp_path / "pictures") == 2
        one_sentence(capsys.readouterr().err)
    finally:
        path.parent.chmod(0o700)


def test_the_command_itself_refuses_a_bad_ledger(tmp_path):
    path = tmp_path / "notes.txt"
    text_file(path)
    done = greenroom(str(path), "--pictures", str(tmp_path / "pictures"))
    assert done.returncode == 2
    assert "notes.txt" in one_sentence(done.stderr)
    assert done.stdout == ""


def test_pictures_that_cannot_be_written_get_one_sentence(qapp, tmp_path, capsys):
    blocked = tmp_path / "file"
    blocked.write_text("")
    assert start.run(None, today=None, demo=True, pictures=blocked / "pictures") == 1
    one_sentence(capsys.readouterr().err)


def test_in_the_window_a_refusal_is_shown_with_a_way_out(qtbot):
    opened = []
    shown = Refusal("notes.txt is no ledger.", lambda: opened.append(True))
    qtbot.addWidget(shown)
    shown.show()
    assert shown.sentence.text() == "notes.txt is no ledger."
    demo, close = shown.findChildren(QPushButton)
    QTest.mouseClick(demo, Qt.MouseButton.LeftButton)
    assert opened == [True]
    QTest.mouseClick(close, Qt.MouseButton.LeftButton)
    assert not shown.isVisible()


# ---- the window ----


def test_the_demo_opens_at_its_trays_and_closes_without_a_trace(qtbot):
    before = sys.excepthook
    with demo_ledger() as keeper:
        QTimer.singleShot(400, QApplication.closeAllWindows)
        assert start._run_window(start.make_application(), keeper) == 0
    assert sys.excepthook == before


def test_a_second_start_raises_the_window_of_the_first_and_says_so(qtbot, tmp_path):
    path = tmp_path / "season.greenroom"
    with own_ledger(str(path)) as keeper:
        keeper.do(lambda: set_place("Ridge Lane", 46.4, 16.0, "UTC", keeper.today))
        window = start.make_window(keeper)
        qtbot.addWidget(window)
        keeper.lock.knocked.connect(window.come_forward)
        window.showMinimized()
        second = subprocess.Popen(
            [sys.executable, "-m", "greenroom", str(path)],
            stderr=subprocess.PIPE,
            text=True,
            encoding="utf-8",
        )
        try:
            qtbot.waitUntil(lambda: not window.isMinimized(), timeout=30_000)
            words = next(line for line in second.stderr if "greenroom" in line)
        finally:
            second.kill()
            second.wait()
            second.stderr.close()
        assert words.startswith("season.greenroom is open in another greenroom")
        assert words.strip().endswith("its window was brought to the front.")
        window.close()


# ---- the pictures ----


def test_the_demo_is_drawn_whole_and_its_round_is_told(tmp_path):
    """Every page at both sizes in both themes, without a screen."""
    environment = {name: value for name, value in os.environ.items() if name != "QT_QPA_PLATFORM"}
    environment.pop("DISPLAY", None)
    done = greenroom("--demo", "--pictures", str(tmp_path / "new" / "pictures"), env=environment)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("The round, Friday 14 May 2027: ")
    assert "At the shelf" in done.stdout
    assert "Bring Rack 1 in at 10:05" in done.stdout
    assert "Traceback" not in done.stderr
    pages = [key for key in page_makers() if key != "first"]
    expected = {
        f"{page}-{width}x{height}-{theme}.png": (width, height)
        for page in pages
        for width, height in SIZES
        for theme in ("light", "dark")
    }
    drawn = {one.name: one for one in (tmp_path / "new" / "pictures").iterdir()}
    assert set(drawn) == set(expected)
    for name, size in expected.items():
        picture = QImage(str(drawn[name]))
        assert (picture.width(), picture.height()) == size
        assert len({picture.pixel(x, y) for x in range(0, size[0], 16) for y in range(0, size[1], 16)}) > 20
