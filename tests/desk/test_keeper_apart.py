"""Large acts are written off the window's thread, and are as sure and as whole as any other."""

import threading
from datetime import date, timedelta

import pytest
from PySide6.QtCore import QTimer

from greenroom.desk.keeper import BUSY
from greenroom.ledger import LedgerError
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.deeds_shelf import add_weather, set_units
from greenroom.season.proposal import Proposal, RefusedError
from tests.desk.conftest import TODAY

FIRST = date(1990, 1, 1)


def weather(count=400):
    days = tuple(WeatherDay(FIRST + timedelta(days=number), 1.0, 9.0) for number in range(count))
    return add_weather("file.csv", "", days, TODAY)


class Gate:
    """Stands before a ledger and lets an act through when it is told to."""

    def __init__(self, ledger, error=None):
        self._ledger = ledger
        self._error = error
        self.open = threading.Event()
        self.threads = []

    def do(self, name, **facts):
        self.threads.append(threading.current_thread())
        assert self.open.wait(5)
        if self._error is not None:
            raise self._error
        return self._ledger.do(name, **facts)

    def undo(self):
        return self._ledger.undo()

    def redo(self):
        return self._ledger.redo()


@pytest.fixture
def gate(keeper):
    made = Gate(keeper.ledger)
    keeper._ledger = made
    return made


def records(keeper):
    return keeper.season.facts(WeatherRecord)


def test_the_window_goes_on_while_a_large_act_is_written(keeper, gate, qtbot):
    ticks, ended, done = [], [], []
    timer = QTimer(interval=5)
    timer.timeout.connect(lambda: ticks.append(1))
    timer.start()
    keeper.did.connect(done.append)
    keeper.do_apart(weather, ended.append)
    qtbot.waitUntil(lambda: len(ticks) > 10, timeout=5000)
    assert (records(keeper), ended) == ([], [])
    gate.open.set()
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    timer.stop()
    assert ended == [True]
    assert done == ["brought in 400 days of weather"]
    assert len(records(keeper)[0].days) == 400
    assert gate.threads[0] is not threading.main_thread()


def test_it_is_one_act_that_undo_takes_back(keeper, qtbot):
    ended = []
    keeper.do_apart(weather, ended.append)
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    assert keeper.undo()
    assert records(keeper) == []
    assert keeper.redo()
    assert len(records(keeper)) == 1


def test_nothing_is_undone_while_a_large_act_is_on_its_way(keeper, gate, qtbot):
    said, ended = [], []
    keeper.refused.connect(said.append)
    keeper.do_apart(weather, ended.append)
    assert not keeper.undo()
    assert not keeper.redo()
    assert said == [BUSY, BUSY]
    gate.open.set()
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    assert keeper.place.name == "Ridge Lane"
    assert keeper.undo()


def test_an_act_done_meanwhile_is_kept_beside_it(keeper, qtbot):
    ended = []
    keeper.do_apart(weather, ended.append)
    assert keeper.do(lambda: set_units("f", "ml", TODAY))
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    assert keeper.place.temperature == "f"
    assert len(records(keeper)) == 1
    assert {fact.kind for fact in keeper.ledger.facts()} == {"place_set", "units_set", "weather_record"}


def test_a_disk_that_refuses_is_told_and_nothing_is_changed(keeper, qtbot):
    gate = Gate(keeper.ledger, LedgerError("the disk is full"))
    keeper._ledger = gate
    gate.open.set()
    said, ended = [], []
    keeper.refused.connect(said.append)
    keeper.do_apart(weather, ended.append)
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    assert (said, ended) == (["The disk is full."], [False])
    assert records(keeper) == []


def test_what_cannot_be_is_refused_at_once(keeper):
    def refuse():
        raise RefusedError("that cannot be")

    said, ended = [], []
    keeper.refused.connect(said.append)
    keeper.do_apart(refuse, ended.append)
    keeper.do_apart(lambda: Proposal("nothing to do"), ended.append)
    assert (said, ended) == (["That cannot be."], [False, False])


def test_what_came_by_itself_is_written_without_a_word(keeper, qtbot):
    done, ended, changed = [], [], []
    keeper.did.connect(done.append)
    keeper.changed.connect(changed.append)
    keeper.do_apart(weather, ended.append, quietly=True)
    qtbot.waitUntil(lambda: bool(ended), timeout=5000)
    assert done == []
    assert changed[0].kinds == {"weather_record"}
