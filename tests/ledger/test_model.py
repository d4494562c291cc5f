"""Any order of acts, undos and restarts does what a simple list of them says it should."""

import shutil
import tempfile
from pathlib import Path

from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from greenroom.ledger import Ledger
from greenroom.ledger.errors import UnknownFactError
from tests.ledger.checks import sown

numbers = st.integers(min_value=0, max_value=10_000)


class LedgerBesideAList(RuleBasedStateMachine):
    """A ledger, and beside it plain lists of what was written, what is in force and what was done."""

    def __init__(self):
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.facts = []  # every fact ever written, in order
        self.in_force = set()
        self.done = []  # acts that can be undone: (ids that came, ids that went)
        self.undone = []
        self.ledger = None

    @initialize()
    def start(self):
        self.ledger = Ledger.open(self.folder / "season.greenroom")

    def teardown(self):
        if self.ledger is not None:
            self.ledger.close()
        shutil.rmtree(self.folder)

    def _pick(self, picks, among):
        among = [fact.id for fact in self.facts if fact.id in among]
        return list(dict.fromkeys(among[pick % len(among)] for pick in picks)) if among else []

    def _did(self, change, came, went):
        assert {entry.fact.id for entry in change.added} == set(came)
        assert {entry.fact.id for entry in change.removed} == set(went)
        self.in_force = (self.in_force | set(came)) - set(went)

    @rule(
        count=st.integers(min_value=1, max_value=4),
        struck=st.lists(numbers, max_size=2),
        back=st.lists(numbers, max_size=2),
    )
    def do(self, count, struck, back):
        new = [sown(column=number) for number in range(count)]
        leaving = self._pick(struck, self.in_force)
        returning = self._pick(back, {fact.id for fact in self.facts} - self.in_force)
        name = f"act {len(self.facts)}"
        change = self.ledger.do(name, record=new, strike=leaving, restore=returning)
        self.facts += new
        came = [fact.id for fact in new] + returning
        self._did(change, came, leaving)
        self.done.append((name, came, leaving))
        self.undone.clear()

    @precondition(lambda self: self.in_force)
    @rule(picks=st.lists(numbers, min_size=1, max_size=3))
    def strike(self, picks):
        ids = self._pick(picks, self.in_force)
        self._did(self.ledger.strike(*ids, name="strike"), [], ids)
        self.done.append(("strike", [], ids))
        self.undone.clear()

    @precondition(lambda self: len(self.facts) > len(self.in_force))
    @rule(picks=st.lists(numbers, min_size=1, max_size=3))
    def restore(self, picks):
        ids = self._pick(picks, {fact.id for fact in self.facts} - self.in_force)
        self._did(self.ledger.restore(*ids, name="restore"), ids, [])
        self.done.append(("restore", ids, []))
        self.undone.clear()

    @precondition(lambda self: self.facts)
    @rule(pick=numbers)
    def refuse(self, pick):
        fact = self.facts[pick % len(self.facts)]
        wrong = self.ledger.restore if fact.id in self.in_force else self.ledger.strike
        try:
            wrong(fact.id)
        except UnknownFactError:
            return
        raise AssertionError("what is in force was restored, or what was struck out struck out again")

    @rule()
    def undo(self):
        change = self.ledger.undo()
        if not self.done:
            assert change is None
            return
        name, came, went = self.done.pop()
        self.undone.append((name, came, went))
        assert (change.act.deed, change.act.name) == ("undo", name)
        self._did(change, went, came)

    @rule()
    def redo(self):
        change = self.ledger.redo()
        if not self.undone:
            assert change is None
            return
        name, came, went = self.undone.pop()
        self.done.append((name, came, went))
        assert (change.act.deed, change.act.name) == ("redo", name)
        self._did(change, came, went)

    @rule()
    def restart(self):
        self.ledger.close()
        self.ledger = Ledger.open(self.folder / "season.greenroom")

    @invariant()
    def the_ledger_says_what_the_lists_say(self):
        if self.ledger is None:
            return
        assert self.ledger.facts() == [fact for fact in self.facts if fact.id in self.in_force]
        assert self.ledger.undo_name == (self.done[-1][0] if self.done else None)
        assert self.ledger.redo_name == (self.undone[-1][0] if self.undone else None)


LedgerBesideAList.TestCase.settings = settings(
    max_examples=settings().max_examples // 2, stateful_step_count=30
)
TestAnyOrderOfActs = LedgerBesideAList.TestCase
