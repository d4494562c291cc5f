"""Inputs damaged in every way: taken whole or refused in one sentence, never half, never with a crash.

``tests/speed/fuzz.py`` does the same with a hundred thousand inputs, by hand.
"""

from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.exchange.fuzz_targets import TARGETS, Room, run

SMALL = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))


@pytest.fixture(scope="module")
def room(tmp_path_factory):
    made = Room(tmp_path_factory.mktemp("room"))
    yield made
    made.close()


@pytest.mark.parametrize("name", TARGETS)
def test_what_is_whole_is_read(room, name):
    assert [run(TARGETS[name], room, base) for base in TARGETS[name].bases()].count("refused") == 0


@pytest.mark.parametrize("name", TARGETS)
@SMALL
@given(seed=st.integers(0, 2**32))
def test_what_is_damaged_is_read_or_refused_and_never_half(room, name, seed):
    target = TARGETS[name]
    assert run(target, room, target.damage(Random(seed), target.bases())) in ("read", "refused")


def test_a_refusal_that_came_after_something_was_written_would_be_noticed(room):
    def take(where, _data):
        TARGETS["seed lists"].take(where, TARGETS["seed lists"].bases()[0])
        TARGETS["seed lists"].take(where, b"")

    with pytest.raises(AssertionError, match="written before the refusal"):
        run(type(TARGETS["seed lists"])(list, take), room, b"")
