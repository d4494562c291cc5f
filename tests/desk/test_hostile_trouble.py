"""When it breaks: told once in a quiet panel, counted, and reported without anything of the grower's."""

import logging
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer, qWarning
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from greenroom.desk.logs import (
    LOG_BYTES,
    CrashWatch,
    error_lines,
    impersonal,
    log_handler,
    log_qt,
    short_path,
)
from greenroom.desk.trouble import AtStart, Trouble
from greenroom.desk.trouble_panel import TroublePanel
from greenroom.desk.worker import Worker

SECRET = "Grandmother's Ember"
HOME = "/home/somebody/garden/2027 season.greenroom"


def fail():
    raise KeyError(f"{SECRET} at 46.41, 16.02 in {HOME}")


@pytest.fixture
def window(qtbot):
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(1024, 700)
    made.show()
    return made


@pytest.fixture
def panel(window, shelf):
    return TroublePanel(window, lambda: shelf)


@pytest.fixture
def trouble(panel):
    made = Trouble(lambda _sentence: None)
    made.show = lambda mishap: panel.show_mishap(mishap, made.mishaps)
    yield made
    made.release()


@pytest.fixture
def log(tmp_path):
    handler = log_handler(tmp_path / "logs")
    logging.getLogger().addHandler(handler)
    yield tmp_path / "logs" / "greenroom.log"
    logging.getLogger().removeHandler(handler)
    handler.close()


def test_what_breaks_in_slots_timers_threads_and_workers_reaches_one_quiet_panel(
    qtbot, window, panel, trouble, log
):
    focused = QGuiApplication.focusObject()
    for _ in range(3):
        sys.excepthook(*caught(fail))
    assert panel.isVisible()
    assert "3 times" in panel.what.text()
    QTimer.singleShot(0, fail)
    with qtbot.captureExceptions():  # pytest-qt stands where the program's own handler does
        qtbot.wait(20)
    thread = threading.Thread(target=fail)
    thread.start()
    thread.join()
    qtbot.waitUntil(lambda: len(trouble.mishaps) == 2)
    worker = Worker((OSError,))
    with qtbot.captureExceptions() as raised:
        worker.start(lambda _progress, _stopped: fail())
        qtbot.waitUntil(lambda: bool(raised))
    sys.excepthook(*raised[0])
    assert len(trouble.mishaps) == 3
    assert len(window.findChildren(TroublePanel)) == 1
    assert "2 others came before" in panel.what.text()
    assert QGuiApplication.focusObject() is focused
    assert panel.geometry().right() < window.width()
    assert panel.geometry().bottom() < window.height()
    written = log.read_text(encoding="utf-8")
    assert written.count("KeyError") == 5
    assert SECRET not in written
    assert "somebody" not in written


def test_a_report_is_read_before_it_is_saved_and_holds_nothing_of_the_growers(
    qtbot, panel, trouble, tmp_path, shelf
):
    sys.excepthook(*caught(fail))
    text = panel.text.toPlainText()
    assert "KeyError" in text
    assert "tests/desk/test_hostile_trouble.py" in text or "test_hostile_trouble.py, line" in text
    names = {one.name for one in shelf.holders()} | {"Cinder Lantern", "Brass Bell", "Ridge Lane"}
    for secret in (*names, SECRET, "46.4", "somebody", str(Path.home()), "tester"):
        assert secret not in text
    panel.save_to(tmp_path / "report.txt")
    assert (tmp_path / "report.txt").read_text(encoding="utf-8") == text
    panel.copy_button.click()
    assert QGuiApplication.clipboard().text() == text
    panel.save_to(tmp_path / "no such folder" / "report.txt")
    assert "was not written" in panel.told.text()
    panel.close_button.click()
    assert not panel.isVisible()


def caught(act):
    try:
        act()
    except KeyError as error:
        return type(error), error, error.__traceback__
    return None


def test_logs_make_room_for_new_ones_and_hold_no_names(log):
    logger = logging.getLogger("greenroom.tests")
    for number in range(1_800):
        logger.warning("%s “%s” %s", number, SECRET, "x" * 900)
    sizes = [path.stat().st_size for path in log.parent.iterdir()]
    assert len(sizes) == 3
    assert max(sizes) <= LOG_BYTES
    assert SECRET not in log.read_text(encoding="utf-8")


@pytest.mark.qt_no_exception_capture
def test_what_qt_says_goes_to_the_log(log):
    give_back = log_qt()
    try:
        qWarning(f"QFile: cannot open {HOME}")
    finally:
        give_back()
    line = log.read_text(encoding="utf-8")
    assert "WARNING qt: QFile: cannot open" in line
    assert "somebody" not in line


def test_a_process_that_dies_at_once_is_told_of_once_at_the_next_start(tmp_path):
    code = (
        "import os, pathlib; from greenroom.desk.logs import CrashWatch;"
        f"CrashWatch(pathlib.Path({str(tmp_path)!r})).begin(); os.abort()"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False, capture_output=True).returncode != 0
    before = CrashWatch(tmp_path).before
    assert any("Abort" in line for line in before)
    assert CrashWatch(tmp_path).before == ()
    assert list(tmp_path.iterdir()) == []


def test_a_crash_of_the_last_time_is_shown_with_the_same_buttons(panel):
    panel.show_crash(("Fatal Python error: Aborted",))
    assert panel.isVisible()
    assert "Fatal Python error" in panel.text.toPlainText()
    assert "last time" in panel.title.text()


def test_what_breaks_at_the_start_is_said_in_one_sentence_and_logged(log):
    told = []
    with AtStart(told.append):
        fail()
    assert told == ["greenroom could not go on (KeyError); the details are in the log."]
    assert "KeyError" in log.read_text(encoding="utf-8")
    with pytest.raises(KeyboardInterrupt), AtStart(told.append):
        raise KeyboardInterrupt


@pytest.mark.parametrize(
    ("path", "short"),
    [
        ("/home/somebody/.venv/lib/python3.11/site-packages/numpy/core.py", "numpy/core.py"),
        ("C:\\Users\\Somebody\\greenroom\\desk\\window.py", "greenroom/desk/window.py"),
        ("/usr/lib/python3.11/json/decoder.py", "python3.11/json/decoder.py"),
        ("/home/somebody/my notes.py", "my notes.py"),
        ("<string>", "<string>"),
    ],
)
def test_a_path_in_a_report_begins_at_the_program_or_the_library(path, short):
    assert short_path(path) == short


def test_quoted_words_and_paths_are_cut_out_of_what_is_logged():
    assert impersonal(f"“Bell” of 'Ember': cannot open {HOME}") == "“…” of “…”: cannot open <path>"
    assert impersonal("file:///C:/Users/Somebody/a b.png missing") == "<path>"
    assert impersonal("10 of 12 done, 24/7") == "10 of 12 done, 24/7"
    lines = error_lines(caught(fail)[1])
    assert lines[0] == "KeyError"
