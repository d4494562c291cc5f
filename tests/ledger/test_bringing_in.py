"""Another ledger's book is taken over whole, or merged without doubles, and can be given back in one act."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from greenroom.ledger import Act, BadFactError, Book, Entry, Ledger
from greenroom.ledger.book import Strike
from tests.ledger.checks import everything, sown, ticking_clock
from tests.ledger.examples import all_examples


@pytest.fixture(scope="module")
def book():
    """The book of a ledger with every kind of fact, one struck out, one act undone, one redone."""
    with Ledger.open("sqlite://", clock=ticking_clock(), who="a friend", zone="Europe/Oslo") as other:
        other.record(*all_examples(), name="all of it")
        other.strike("sown-1", name="not so")
        other.record(sown(5), name="one more")
        other.undo()
        other.record(sown(6), name="and one")
        other.undo()
        other.redo()
        yield other.book()


def test_an_empty_ledger_takes_a_book_over_whole_with_its_history(book, ledger, open_ledger):
    change = ledger.bring_in("an archive", book)
    assert [entry.number for entry in change.added] == [entry.number for entry in book.standing]
    again = open_ledger()
    assert again.book() == book
    assert again.undo_name == "and one"
    assert again.act(1).who == "a friend"


def test_a_used_ledger_takes_what_is_new_in_one_act_that_is_undone_and_redone(book, ledger, open_ledger):
    ledger.record(sown(9), name="my own")
    before = ledger.facts()
    change = ledger.bring_in("an archive", book)
    theirs = {entry.fact.id for entry in book.standing}
    assert {entry.fact.id for entry in change.added} == theirs
    assert {fact.id for fact in ledger.facts()} == theirs | {fact.id for fact in before}
    assert ledger.undo_name == "an archive"

    again = open_ledger()
    first = next(entry for entry in again.entries() if entry.fact.id == "variety-1")
    act = again.act(first.act)
    assert (act.who, act.name, act.written) == ("a friend", "all of it", book.acts[0].written)

    again.undo()
    assert again.facts() == before
    assert again.undo_name == "my own"
    again.redo()
    assert {fact.id for fact in again.facts()} == theirs | {fact.id for fact in before}
    assert (again.undo_name, again.redo_name) == ("an archive", None)


def test_what_is_here_already_is_not_written_twice(book, ledger):
    ledger.record(sown(9))
    ledger.bring_in("an archive", book)
    kept = everything(ledger)
    with pytest.raises(BadFactError, match="all of it is here already"):
        ledger.bring_in("again", book)
    assert everything(ledger) == kept


def test_a_fact_that_was_struck_out_there_comes_struck_out_and_one_put_aside_too(book, ledger):
    ledger.record(sown(9))
    ledger.bring_in("an archive", book, aside={"variety-2"})
    in_force = {fact.id for fact in ledger.facts()}
    assert {"sown-1", "variety-2"}.isdisjoint(in_force)
    assert {"sown-1", "variety-2"} <= {entry.fact.id for entry in ledger.book().entries}


def test_a_later_strike_elsewhere_counts_here_in_the_same_act(book, ledger):
    mine = sown(9)
    ledger.record(mine)
    change = ledger.bring_in("an archive", book, strike=[mine.id])
    assert [entry.fact for entry in change.removed] == [mine]
    ledger.undo()
    assert ledger.facts() == [mine]


NOW = datetime(2027, 1, 1, tzinfo=UTC)
ACT = Act(1, "do", "act", NOW, "UTC", "x")
FACT = sown(1)


@pytest.mark.parametrize(
    ("made", "said"),
    [
        (Book((ACT,), (Entry(1, 2, FACT),)), "an act that is not there"),
        (Book((ACT,), (Entry(1, 1, FACT),), (Strike(2, 1, False),)), "a strike is of a fact"),
        (Book((replace(ACT, deed="harm"),)), "do, undo or redo is allowed"),
        (Book((replace(ACT, reverses=1),)), "reverses none"),
        (Book((replace(ACT, deed="undo", reverses=1),)), "reverses a later one"),
        (Book((replace(ACT, deed="undo", reverses=7),)), "reverses none"),
        (Book((ACT, ACT)), "not in the order of their numbers"),
        (Book((ACT,), (Entry(1, 1, FACT), Entry(2, 1, FACT))), "have the id"),
        (Book((ACT,), (Entry(1, 1, replace(FACT, seeds=900)),)), "1 to 50 a cell are allowed"),
        (Book((replace(ACT, who="\ud800"),)), "unfit text"),
        (Book((replace(ACT, written=datetime(2027, 1, 1)),)), "without a zone"),  # noqa: DTZ001 on purpose
        (Book(), "nothing is in it"),
    ],
)
def test_a_book_that_is_not_whole_is_refused_and_nothing_of_it_is_kept(made, said, ledger):
    with pytest.raises(BadFactError, match=said):
        ledger.bring_in("an archive", made)
    assert ledger.book() == Book()


def test_numbers_made_to_leave_no_room_are_counted_anew(ledger):
    far = 2**31 - 1
    made = Book((replace(ACT, number=far),), (Entry(far, far, FACT),))
    ledger.bring_in("an archive", made)
    assert ledger.entries() == [Entry(1, 1, FACT)]
    ledger.record(sown(2))
    assert ledger.undo_name == "sowing"
