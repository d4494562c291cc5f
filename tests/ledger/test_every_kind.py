"""Every kind of fact is kept as it was written and can be taken back, today and after a restart."""

from datetime import UTC, datetime

import pytest

from greenroom.ledger.facts import KINDS
from tests.ledger.examples import EXAMPLES, all_examples

each_kind = pytest.mark.parametrize("kind", list(KINDS))


def test_every_kind_of_fact_has_examples():
    missing = [kind for kind in KINDS if not EXAMPLES.get(kind)]
    assert not missing, f"add examples of {missing} to tests/ledger/examples.py"
    assert set(EXAMPLES) == set(KINDS)
    assert all(type(fact) is KINDS[kind] for kind, facts in EXAMPLES.items() for fact in facts)


@each_kind
def test_every_kind_can_be_done_undone_redone_and_undone_after_a_restart(kind, open_ledger):
    facts = list(EXAMPLES[kind])
    ledger = open_ledger()

    done = ledger.record(*facts, name="the act")
    assert [entry.fact for entry in done.added] == facts
    assert ledger.facts() == ledger.facts(kind) == facts

    undone = ledger.undo()
    assert (undone.removed, undone.added) == (done.added, ())
    assert ledger.facts() == []

    redone = ledger.redo()
    assert (redone.added, redone.removed) == (done.added, ())
    assert ledger.facts() == facts

    ledger = open_ledger()
    assert ledger.facts() == facts
    assert ledger.undo_name == "the act"
    undone = ledger.undo()
    assert undone.removed == done.added
    assert ledger.facts() == []

    ledger = open_ledger()
    assert ledger.redo_name == "the act"
    assert ledger.redo().added == done.added
    assert open_ledger().facts() == facts


@each_kind
def test_every_kind_can_be_struck_out_and_restored(kind, open_ledger):
    facts = list(EXAMPLES[kind])
    ledger = open_ledger()
    entries = ledger.record(*facts).added
    struck = ledger.strike(facts[0].id)
    assert struck.removed == entries[:1]
    assert open_ledger().facts() == facts[1:]
    restored = open_ledger().restore(facts[0].id)
    assert restored.added == entries[:1]
    assert open_ledger().facts() == facts


def test_facts_read_back_are_the_very_facts_that_were_told(open_ledger):
    """Not only equal: of the same types, and moments in the same zone, so nothing differs after a restart."""
    told = open_ledger().record(*all_examples()).added
    read = open_ledger().entries()
    assert [repr(entry) for entry in read] == [repr(entry) for entry in told]


def test_a_moment_told_in_summer_time_is_the_same_moment_in_utc(ledger):
    late = EXAMPLES["outing_started"][1]
    (entry,) = ledger.record(late).added
    assert entry.fact == late
    assert repr(entry.fact.at) == repr(datetime(2025, 4, 20, 23, 30, tzinfo=UTC))


def test_facts_of_one_kind_are_asked_for_by_its_name(ledger):
    ledger.record(*all_examples())
    for kind, facts in EXAMPLES.items():
        assert ledger.facts(kind) == list(facts)
    with pytest.raises(ValueError, match="kind 'sawn' is not a kind of fact; one of variety, packet"):
        ledger.facts("sawn")
