"""Long work off the window's thread: late answers are dropped, and errors reach somebody."""

import logging
import sys
import threading

import pytest
from PySide6.QtCore import QObject, QThread, Signal

from greenroom.desk.trouble import Trouble
from greenroom.desk.worker import Worker


@pytest.fixture
def worker(qapp):
    made = Worker((OSError,))
    yield made
    made.cancel()


def heard_of(worker):
    heard = []
    worker.progressed.connect(lambda share: heard.append(("progressed", share)))
    worker.finished.connect(lambda answer: heard.append(("finished", answer)))
    worker.failed.connect(lambda error: heard.append(("failed", str(error))))
    return heard


def test_the_work_runs_elsewhere_and_its_answer_comes_back_here(worker, qtbot):
    threads = []
    worker.finished.connect(lambda _: threads.append(QThread.currentThread()))
    with qtbot.waitSignal(worker.finished) as told:
        worker.start(lambda progress, cancelled: threading.get_ident())
    assert told.args[0] != threading.get_ident()
    assert threads == [QThread.currentThread()]
    assert not worker.running


def test_progress_is_told_in_order(worker, qtbot):
    heard = heard_of(worker)

    def work(progress, cancelled):
        for share in (0.0, 0.5, 1.0):
            progress(share)
        return "done"

    with qtbot.waitSignal(worker.finished):
        worker.start(work)
    assert heard == [("progressed", 0.0), ("progressed", 0.5), ("progressed", 1.0), ("finished", "done")]


def test_a_late_answer_is_dropped(worker, qtbot):
    heard, go_on, ended = heard_of(worker), threading.Event(), threading.Event()

    def slow(progress, cancelled):
        go_on.wait(10)
        ended.set()
        return "late"

    worker.start(slow)
    with qtbot.waitSignal(worker.finished):
        worker.start(lambda progress, cancelled: "second")
    go_on.set()
    assert ended.wait(10)
    qtbot.wait(50)
    assert heard == [("finished", "second")]


def test_cancelled_work_is_told_to_stop_and_heard_of_no_more(worker, qtbot):
    heard, begun, stopped = heard_of(worker), threading.Event(), threading.Event()

    def work(progress, cancelled):
        begun.set()
        while not cancelled():
            QThread.msleep(1)
        stopped.set()
        progress(1.0)
        return "too late"

    worker.start(work)
    assert begun.wait(10)
    assert worker.running
    worker.cancel()
    assert not worker.running
    assert stopped.wait(10)
    qtbot.wait(50)
    assert heard == []


def test_an_expected_error_is_told(worker, qtbot):
    def work(progress, cancelled):
        raise OSError("no such file")

    with qtbot.waitSignal(worker.failed) as told:
        worker.start(work)
    assert str(told.args[0]) == "no such file"
    assert not worker.running


def test_an_error_nobody_foresaw_reaches_the_programs_own_handler(worker, qtbot, caplog):
    said = []
    trouble = Trouble(said.append)

    def work(progress, cancelled):
        raise ZeroDivisionError("by\naccident")

    try:
        with caplog.at_level(logging.ERROR, logger="greenroom.desk.trouble"):
            worker.start(work)
            qtbot.waitUntil(lambda: said != [])
    finally:
        trouble.release()
    assert "ZeroDivisionError: by accident" in said[0]
    assert "\n" not in said[0]
    assert "safe in the ledger" in said[0]
    assert caplog.records[0].exc_info[0] is ZeroDivisionError


def test_the_last_resort_is_given_back():
    before = sys.excepthook
    trouble = Trouble(lambda _: None)
    assert sys.excepthook != before
    trouble.release()
    assert sys.excepthook == before


def test_a_keyboard_interrupt_is_no_trouble():
    said, passed = [], []
    before, sys.excepthook = sys.excepthook, lambda *told: passed.append(told[0])
    try:
        trouble = Trouble(said.append)
        sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
        trouble.release()
    finally:
        sys.excepthook = before
    assert said == []
    assert passed == [KeyboardInterrupt]


class Sender(QObject):
    """Has a signal of each kind of argument the program sends."""

    plain = Signal()
    flag = Signal(bool)
    thing = Signal(object)
    words = Signal(str)


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="from 3.12 on True and None are never counted")
def test_a_signal_sent_a_thousand_times_drops_no_reference(qapp):
    """PySide6 6.11 drops one reference too many at each signal on Python 3.11, until the program aborts."""
    sender, heard = Sender(), []
    for signal in (sender.plain, sender.flag, sender.thing, sender.words):
        signal.connect(lambda *told: heard.append(len(told)))
    before = sys.getrefcount(True), sys.getrefcount(None)
    for _ in range(1000):
        sender.plain.emit()
        sender.flag.emit(True)
        sender.thing.emit(None)
        sender.words.emit("up")
    after = sys.getrefcount(True), sys.getrefcount(None)
    assert len(heard) == 4000
    for once, then in zip(before, after, strict=True):
        assert abs(then - once) < 500
