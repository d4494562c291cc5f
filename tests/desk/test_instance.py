"""One program a ledger: the second says so in one sentence, and the first comes to the front."""

import os
import signal
import subprocess
import sys

import pytest

from greenroom.desk.instance import Instance, InUseError, knock, server_name

HOLD = """
import sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from greenroom.desk.instance import Instance
application = QCoreApplication([])
instance = Instance(Path(sys.argv[1]))
instance.knocked.connect(lambda: (print("knocked", flush=True), application.quit()))
print("held", flush=True)
application.exec()
instance.release()
"""


@pytest.fixture
def ledger(tmp_path):
    return tmp_path / "season.greenroom"


@pytest.fixture
def other_program(ledger):
    """Another process that has the ledger open, and prints when it is knocked at."""
    program = subprocess.Popen([sys.executable, "-c", HOLD, str(ledger)], stdout=subprocess.PIPE, text=True)
    assert program.stdout.readline() == "held\n"
    yield program
    program.kill()
    program.wait()
    program.stdout.close()


def test_the_second_program_is_told_where_the_first_is_and_raises_its_window(qapp, ledger, other_program):
    with pytest.raises(InUseError) as caught:
        Instance(ledger)
    words = str(caught.value)
    assert words.startswith(f"season.greenroom is open in another greenroom (process {other_program.pid} on ")
    assert words.endswith("its window was brought to the front.")
    assert other_program.stdout.readline() == "knocked\n"
    assert other_program.wait(timeout=10) == 0


def test_a_program_that_answers_no_more_is_named_and_left_alone(qapp, ledger, other_program):
    os.kill(other_program.pid, signal.SIGSTOP)
    try:
        with pytest.raises(InUseError, match="is open in another greenroom"):
            Instance(ledger)
    finally:
        os.kill(other_program.pid, signal.SIGCONT)


def test_what_a_killed_program_left_behind_locks_nobody_out(qapp, ledger, other_program):
    other_program.kill()
    other_program.wait()
    instance = Instance(ledger)
    try:
        assert knock(ledger)
    finally:
        instance.release()


def test_a_knock_is_heard_once(qtbot, ledger):
    instance = Instance(ledger)
    try:
        with qtbot.waitSignal(instance.knocked, timeout=2000):
            assert knock(ledger)
    finally:
        instance.release()


def test_released_it_can_be_opened_again_and_leaves_no_file(qapp, ledger):
    for _ in range(2):
        Instance(ledger).release()
    assert list(ledger.parent.iterdir()) == []
    assert not knock(ledger)


def test_every_ledger_has_a_name_of_its_own_to_listen_by(tmp_path):
    names = {server_name(tmp_path / name) for name in ("a.greenroom", "b.greenroom", "x/../a.greenroom")}
    assert len(names) == 2
    assert all(len(name) < 60 for name in names)
