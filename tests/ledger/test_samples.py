"""Ledgers written by every version so far open today with all they held."""

import json
import shutil

import pytest

from greenroom.ledger import Ledger
from greenroom.ledger.facts import KINDS
from greenroom.ledger.tables import SCHEMA
from tests.ledger.checks import sown
from tests.ledger.make_sample import SAMPLES, make, told

AGAIN = "make it again (only before its release): python -m tests.ledger.make_sample"
each_sample = pytest.mark.parametrize(
    "sample", sorted(SAMPLES.glob("*.greenroom")), ids=lambda path: path.stem
)


@each_sample
def test_a_ledger_of_each_version_opens_with_all_it_held(sample, path):
    shutil.copy(sample, path)
    held = json.loads(sample.with_suffix(".json").read_text(encoding="utf-8"))
    with Ledger.open(path) as ledger:
        found = told(ledger)
        assert [found[name] for name in ("undo", "redo", "acts")] == [
            held[name] for name in ("undo", "redo", "acts")
        ]
        for now, then in zip(found["facts"], held["facts"], strict=True):
            assert {name: now[name] for name in then} == then  # later versions may know more of it
        ledger.record(sown())
        ledger.undo()
        while ledger.undo() is not None:
            assert ledger.redo_name
        assert all(fact.heard for fact in ledger.facts())  # undo passes over what a service told


def test_there_is_a_sample_of_every_version():
    assert [path.stem for path in sorted(SAMPLES.glob("*.greenroom"))] == [
        f"v{number:04d}" for number in range(1, int(SCHEMA) + 1)
    ]


def test_the_sample_of_this_version_holds_every_kind_as_it_is_written_today(tmp_path):
    kept = SAMPLES / f"v{SCHEMA}.json"
    fresh = make(tmp_path).with_suffix(".json")
    assert kept.read_text(encoding="utf-8") == fresh.read_text(encoding="utf-8"), AGAIN
    assert {fact["kind"] for fact in json.loads(kept.read_text(encoding="utf-8"))["facts"]} == set(KINDS), (
        AGAIN
    )


def test_a_sample_is_made_the_same_every_time(tmp_path):
    copies = []
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        copies.append(make(tmp_path / name).read_bytes())
    assert copies[0] == copies[1]
