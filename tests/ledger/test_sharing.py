"""Several hands on one ledger: each sees what the others did, and nobody's mark is lost or doubled."""

import threading
from contextlib import ExitStack
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from greenroom.ledger.change import Act
from greenroom.ledger.errors import LedgerUnavailableError, ServerAwayError, UnknownFactError
from greenroom.ledger.outbox import Outbox
from greenroom.ledger.sharing import SharedLedger
from tests.ledger.checks import assert_one_sentence, everything, sown
from tests.ledger.examples import all_examples

MOMENT = datetime(2027, 3, 12, 9, 0, tzinfo=UTC)
WRITERS, MARKS = 8, 25
PATIENCE_S = 10.0


@pytest.fixture
def two(url):
    """The same ledger as two people have it open."""
    with ExitStack() as stack:
        hands = [stack.enter_context(SharedLedger.open(url, who=who)) for who in ("Ana", "Bor")]
        for one in hands:
            assert one.entries() == []
        yield hands


@pytest.fixture
def outbox(tmp_path):
    """An outbox with nothing in it."""
    box = Outbox(tmp_path / "outbox.greenroom")
    yield box
    box.close()


def act_of(name, who="Ana"):
    """An act as a window makes it that cannot reach the server."""
    return Act(0, "do", name, MOMENT, "Europe/Oslo", who)


def do(ledger, *facts, strike=(), name="an act", meet=list):
    return ledger.do_seen(name, record=facts, strike=strike, written=MOMENT, meet=meet)


def send(ledger, outbox):
    return ledger.deliver(outbox.waiting(), lambda _news, _there: outbox.waiting())


def test_each_window_is_told_the_others_acts_once_and_its_own_never(two):
    ana, bor = two
    first = do(ana, sown(0))
    second = do(ana, sown(1), strike=[first.added[0].fact.id])
    undone = ana.undo()
    assert ana.news() == []
    assert bor.news() == [first, second, undone]
    assert bor.news() == []
    third = bor.record(*all_examples())
    assert (ana.news(), bor.news()) == ([third], [])
    assert ana.writers() == {"Ana": 3, "Bor": 1}


def test_of_two_acts_at_once_the_later_meets_the_earlier_before_it_is_written(two):
    ana, bor = two
    done = do(ana, sown(0))
    met = []
    second = do(bor, sown(1), meet=met.extend)
    assert met == [done]
    assert bor.news() == []
    assert ana.news() == [second]
    do(bor, sown(2), meet=met.extend)
    assert met == [done]


def test_an_act_that_cannot_be_any_more_once_it_met_another_is_not_written(two):
    def refuse(news):
        raise LookupError(news[0].act.who)

    ana, bor = two
    do(ana, sown(0))
    before = everything(bor)
    with pytest.raises(LookupError, match="Ana"):
        do(bor, sown(0), meet=refuse)
    assert everything(bor) == before
    with pytest.raises(LookupError, match="Ana"):
        do(ana, sown(3)), bor.turn_seen("undo", refuse)


def test_undo_takes_back_the_own_act_though_another_wrote_since(two):
    ana, bor = two
    mine, yours = sown(0), sown(1)
    ana.record(mine, name="Ana's")
    bor.record(yours, name="Bor's")
    assert (ana.undo_name, bor.undo_name) == ("Ana's", "Bor's")
    assert [entry.fact for entry in ana.undo().removed] == [mine]
    assert (ana.undo_name, ana.undo(), ana.redo_name, bor.redo_name) == (None, None, "Ana's", None)
    assert bor.facts() == [yours]
    bor.record(sown(2), name="Bor's second")
    assert [entry.fact for entry in ana.redo().added] == [mine]
    assert [entry.fact.column for entry in bor.undo().removed] == [2]


def test_what_another_struck_out_since_is_not_undone_and_it_is_said_who_did(two):
    ana, bor = two
    fact = sown(0)
    ana.record(fact, name="sowed")
    bor.strike(fact.id)
    before = everything(ana)
    with pytest.raises(UnknownFactError, match="Bor changed since what 'sowed' did") as caught:
        ana.undo()
    assert_one_sentence(str(caught.value))
    assert everything(ana) == before
    bor.undo()
    assert ana.undo().removed[0].fact == fact


def test_a_window_that_listens_hears_of_an_act_as_it_is_written(two):
    ana, bor = two
    with bor.listening() as heard:
        assert not heard(0.05)
        writer = threading.Timer(0.2, lambda: ana.record(sown()))
        writer.start()
        assert heard(PATIENCE_S)  # how soon is measured by tests/speed/bench_news.py
        writer.join()
    assert [change.act.who for change in bor.news()] == ["Ana"]


def test_what_waited_is_delivered_once_however_often_it_is_sent(two, outbox):
    ana, bor = two
    old = sown(0)
    bor.record(old)
    ana.news()
    outbox.add(act_of("struck out"), (), [old.id])
    outbox.add(act_of("everything"), all_examples(), ())
    first = send(ana, outbox)
    assert [(change.act.name, change.act.written, change.act.who) for change in first] == [
        ("struck out", MOMENT, "Ana"),
        ("everything", MOMENT, "Ana"),
    ]
    assert send(ana, outbox) == first
    assert bor.news() == first
    assert ana.facts() == all_examples()
    outbox.sent(outbox.waiting())
    assert outbox.waiting() == []


def test_an_act_whose_answer_was_lost_is_found_on_the_server_and_not_written_again(two, outbox):
    """The worst moment for a connection to break off: the act is written, and nobody says so."""
    ana, _ = two
    facts = [sown(0), sown(1)]
    written = do(ana, *facts, name="sowed")
    struck = do(ana, strike=[facts[0].id], name="took one back")
    outbox.add(replace(written.act, number=0), facts, ())
    outbox.add(replace(struck.act, number=0), (), [facts[0].id])
    assert send(ana, outbox) == [written, struck]
    assert len(ana.acts()) == 2


def test_of_what_waited_all_is_written_or_nothing(two, outbox):
    ana, _ = two
    outbox.add(act_of("good"), [sown(0)], ())
    outbox.add(act_of("bad"), [sown(1)], ["no such fact"])
    with pytest.raises(UnknownFactError):
        send(ana, outbox)
    assert (ana.acts(), ana.facts()) == ([], [])


def test_what_waits_outlives_the_program_and_is_held_or_let_go_as_told(tmp_path):
    path = tmp_path / "outbox.greenroom"
    box = Outbox(path)
    kept = [box.add(act_of(f"act {number}"), [sown(number)], [f"old {number}"]) for number in range(3)]
    box.close()
    box = Outbox(path)
    assert box.waiting() == kept
    box.hold(kept[1], "Bor emptied the cell meanwhile.")
    box.let_go(kept[0])
    assert box.waiting() == kept[2:]
    assert box.held() == [replace(kept[1], reason="Bor emptied the cell meanwhile.")]
    assert box.act(kept[1].act.number) == kept[1].act
    assert box.act(7) is None
    box.close()


def test_a_connection_that_drops_is_told_as_one_and_found_again(two, server):
    ana, bor = two
    do(ana, sown(0))
    with bor.listening() as heard, server.away(ana.name.split()[0]):
        with pytest.raises(ServerAwayError) as caught:
            do(ana, sown(1))
        assert_one_sentence(str(caught.value))
        with pytest.raises(ServerAwayError):
            heard(1.0)
        with pytest.raises(ServerAwayError):
            bor.news()
    assert len(bor.news()) == 1
    do(ana, sown(1))
    assert len(bor.facts()) == 2


def test_eight_hands_at_once_lose_nothing_and_double_nothing(url):
    def write(row):
        with SharedLedger.open(url, who=f"hand {row}") as ledger:
            ledger.entries()
            for column in range(MARKS):
                told[row].append(done_at_last(ledger, sown(column, row)))

    told = [[] for _ in range(WRITERS)]
    threads = [threading.Thread(target=write, args=(row,)) for row in range(WRITERS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with SharedLedger.open(url, who="reader") as ledger:
        facts, acts = ledger.facts(), ledger.acts(WRITERS * MARKS + 1)
        assert sorted(fact.id for fact in facts) == sorted(one for row in told for one in row)
        assert [act.number for act in acts] == list(range(WRITERS * MARKS, 0, -1))
        assert ledger.writers() == {f"hand {row}": MARKS for row in range(WRITERS)}


def done_at_last(ledger, fact):
    """Write a fact, trying again where a busy machine says that too many wait to write."""
    while True:
        try:
            return do(ledger, fact).added[0].fact.id
        except LedgerUnavailableError as error:
            if "is busy with what others write, so nothing was done" not in str(error):
                raise
