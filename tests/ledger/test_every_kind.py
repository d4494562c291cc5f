"""Every kind of fact is kept as it was written and can be taken back, today and after a restart."""

from datetime import UTC, datetime

import pytest

from greenroom.ledger.facts import KINDS
from tests.ledger.examples import EXAMPLES, all_examples

each_kind_done_by_hand = pytest.mark.parametrize("kind", [one for one, cls in KINDS.items() if not cls.heard])
each_kind_heard = pytest.mark.parametrize("kind", [one for one, cls in KINDS.items() if cls.heard])


def test_every_kind_of_fact_has_examples():
    missing = [kind for kind in KINDS if not EXAMPLES.get(kind)]
    assert not missing, f"add examples of {missing} to tests/ledger/examples.py"
    assert set(EXAMPLES) == set(KINDS)
    assert all(type(fact) is KINDS[kind] for kind, facts in EXAMPLES.items() for fact in facts)


@each_kind_done_by_hand
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


@each_kind_heard
def test_what_a_service_told_is_passed_over_by_undo_and_leaves_redo_alone(kind, open_ledger):
    told = list(EXAMPLES[kind])
    ledger = open_ledger()
    mine = ledger.record(*EXAMPLES["note"], name="my own act").added
    ledger.record(told[0], name="heard")
    ledger.do("heard again", record=told[1:], strike=[told[0].id])
    in_force = told[1:]
    assert ledger.undo_name == "my own act"
    assert ledger.undo().removed == mine
    assert ledger.facts() == in_force
    ledger.strike(*[fact.id for fact in in_force], name="put aside")
    assert open_ledger().undo_name == "put aside"
    assert open_ledger().undo().added
    assert open_ledger().facts() == in_force


@each_kind_heard
def test_what_was_undone_can_be_done_again_after_a_service_told_something(kind, open_ledger):
    ledger = open_ledger()
    mine = ledger.record(*EXAMPLES["note"], name="my own act").added
    ledger.undo()
    ledger.record(*EXAMPLES[kind], name="heard")
    assert ledger.redo_name == "my own act"
    assert ledger.redo().added == mine
    assert ledger.undo().removed == mine


def test_every_kind_can_be_struck_out_and_restored(open_ledger):
    ledger = open_ledger()
    ledger.record(*all_examples())
    for kind, facts in EXAMPLES.items():
        assert [entry.fact for entry in ledger.strike(facts[0].id).removed] == [facts[0]], kind
    ledger = open_ledger()
    for kind, facts in EXAMPLES.items():
        assert ledger.facts(kind) == list(facts[1:]), kind
        assert [entry.fact for entry in ledger.restore(facts[0].id).added] == [facts[0]], kind
    ledger = open_ledger()
    for kind, facts in EXAMPLES.items():
        assert ledger.facts(kind) == list(facts), kind


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
