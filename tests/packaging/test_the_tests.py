"""The tests themselves keep off the person's files and notice what is left running."""

import os
import threading

import hypothesis
import platformdirs

from tests.conftest import left_running


def test_no_test_can_reach_the_persons_own_records(own_user_folders):
    for folder in (platformdirs.user_data_path("greenroom"), platformdirs.user_config_path("greenroom")):
        assert folder.is_relative_to(own_user_folders)
    assert os.environ["HOME"] == str(own_user_folders)


def test_a_thread_left_running_is_named_and_one_that_ends_is_not():
    before = set(threading.enumerate())
    stop = threading.Event()
    lasting = threading.Thread(target=stop.wait, name="lasting")
    ending = threading.Thread(target=stop.wait, args=(0.01,), name="ending")
    lasting.start()
    ending.start()
    try:
        assert left_running(before, grace_seconds=0.2) == ["lasting"]
    finally:
        stop.set()
        lasting.join()
        ending.join()
    assert left_running(before, grace_seconds=0.2) == []


def test_the_same_examples_are_tried_on_every_machine():
    assert hypothesis.settings.default.derandomize
