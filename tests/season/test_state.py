"""The season after any number of acts is the season its facts make: nothing drifts, nothing leaks."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from greenroom.ledger import Ledger
from greenroom.ledger.facts import HolderMade, Lost, Moved, Packet, PlaceSet, Sown, Sprouted, WeatherDay
from greenroom.season import deeds_shelf, deeds_spots
from greenroom.season.deeds_shelf import SeedEntry
from greenroom.season.few_words import LOST_BY
from greenroom.season.packets import packets
from greenroom.season.place import place_of, weather_days
from greenroom.season.proposal import RefusedError
from greenroom.season.resow import resow_advice
from greenroom.season.spots import SpotKey
from greenroom.season.sprouting import sprout_curve
from greenroom.season.state import Season
from greenroom.season.story_deeds import About, note_on
from tests.season.told import SOWN_ON, Told, spot, the_guide

FIRST = date(2027, 3, 1)
TODAY = FIRST + timedelta(50)
DAYS = st.integers(0, 45).map(lambda days: FIRST + timedelta(days))
TRAY_CELLS = [(row, column) for row in range(2) for column in range(2)]
POTS = [(0, 0), (0, 1)]
SET_UP_ACTS = ("added", "took")  # what the random acts stand on; a test of its own undoes everything


def picture(season):
    """Everything the season tells, as plain values."""
    keys = list(dict.fromkeys(fact.holder for fact in season.facts(HolderMade)))
    return {
        "holders": [season.holder(key) for key in keys],
        "in use": [one.key for one in season.holders()],
        "spots": [season.spots(key) for key in keys],
        "counts": [season.counts(key) for key in keys],
        "packets": packets(season),
        "sown": {one.key: sorted(season.spots_sown(one.key)) for one in packets(season)},
        "place": place_of(season),
        "weather": weather_days(season),
        "curves": [str(sprout_curve(season, key, TODAY)) for key in keys],
        "advice": [resow_advice(season, key, TODAY) for key in keys],
    }


class Grower(RuleBasedStateMachine):
    """Does whatever can be done at the shelf, on any day, and takes it back in any order."""

    @initialize()
    def set_up(self):
        moments = iter(datetime(2027, 3, 1, tzinfo=UTC) + timedelta(minutes=n) for n in range(10_000))
        self.ledger = Ledger.open("sqlite://", clock=lambda: next(moments), who="grower")
        self.season = Season(guide=the_guide())
        self.do(deeds_shelf.add_packets, [SeedEntry("Brass Bell", "bell", seeds=9), SeedEntry("X")], FIRST)
        self.make("Tray A", "tray", 2, 2)
        self.make("Rack 1", "rack", 1, 2)
        self.tray, self.rack = (one.key for one in self.season.holders())

    def teardown(self):
        self.ledger.close()

    def make(self, name, form, rows, columns):
        self.do(
            deeds_shelf.make_holder,
            name=name,
            form=form,
            rows=rows,
            columns=columns,
            day=FIRST,
            place="shelf",
            mix_c=24,
        )

    def do(self, deed, *given, **named):
        before, proposal, why_not = picture(self.season), None, "."
        try:
            proposal = deed(self.season, *given, **named)
        except RefusedError as refused:
            why_not = str(refused)
        assert why_not.endswith(".")
        assert picture(self.season) == before
        if proposal is not None and not proposal.empty:
            self.take(self.ledger.do(proposal.name, record=proposal.record, strike=proposal.strike))

    def take(self, change):
        if change is not None:
            self.season.take(change)

    def cells(self, chosen):
        return [SpotKey(self.tray, *TRAY_CELLS[one]) for one in chosen]

    cell_lists = st.lists(st.integers(0, 3), min_size=1, max_size=3)

    @rule(chosen=cell_lists, day=DAYS, seeds=st.integers(1, 2), which=st.integers(0, 1))
    def sow(self, chosen, day, seeds, which):
        self.do(deeds_spots.sow, packets(self.season)[which].key, self.cells(chosen), day, seeds)

    @rule(chosen=cell_lists, day=DAYS)
    def mark_up(self, chosen, day):
        self.do(deeds_spots.mark_up, self.cells(chosen), day)

    @rule(cell=st.integers(0, 3), day=DAYS)
    def click(self, cell, day):
        self.do(deeds_spots.click, self.cells([cell])[0], day)

    @rule(chosen=cell_lists, day=DAYS, leaves=st.integers(0, 6))
    def set_leaves(self, chosen, day, leaves):
        self.do(deeds_spots.set_leaves, self.cells(chosen), day, leaves)

    @rule(chosen=cell_lists, day=DAYS, cause=st.sampled_from([*LOST_BY]))
    def lose(self, chosen, day, cause):
        self.do(deeds_spots.mark_lost, self.cells(chosen), day, cause)

    @rule(chosen=cell_lists, pot=st.integers(0, 1), day=DAYS)
    def pot_up(self, chosen, pot, day):
        self.do(deeds_spots.move, self.cells(chosen), SpotKey(self.rack, *POTS[pot]), day)

    @rule(pot=st.integers(0, 1), cell=st.integers(0, 3), day=DAYS)
    def move_back(self, pot, cell, day):
        self.do(deeds_spots.move, [SpotKey(self.rack, *POTS[pot])], self.cells([cell])[0], day)

    @rule(mix_c=st.sampled_from([18.0, 24.0, 27.0, None]), day=DAYS)
    def place_tray(self, mix_c, day):
        self.do(deeds_shelf.place_holder, self.tray, "mat", mix_c, day)

    @rule(latitude=st.sampled_from([46.0, -33.0]), day=DAYS)
    def set_place(self, latitude, day):
        zone = "Europe/Ljubljana" if latitude > 0 else "Australia/Sydney"
        proposal = self.ledger.record(
            PlaceSet(day=day, name="Ridge Lane", latitude=latitude, longitude=16.0, zone=zone)
        )
        self.take(proposal)

    @rule(tmin=st.floats(-5, 15), day=DAYS)
    def add_weather(self, tmin, day):
        known = WeatherDay(day, tmin, tmin + 10)
        self.do(lambda _season: deeds_shelf.add_weather("a file", "station", (known,), day))

    @rule()
    def undo(self):
        if not str(self.ledger.undo_name).startswith(SET_UP_ACTS):
            self.take(self.ledger.undo())

    @rule()
    def redo(self):
        self.take(self.ledger.redo())

    @invariant()
    def equals_the_season_built_anew(self):
        if hasattr(self, "ledger"):
            assert picture(self.season) == picture(Season(self.ledger.entries(), the_guide()))


class CarefulGrower(Grower):
    """As above; nothing is struck out from under what rests on it, so seeds are never made or lost."""

    @invariant()
    def every_seed_is_accounted_for(self):
        if not hasattr(self, "tray"):
            return
        facts = self.ledger.facts()
        spots = [*self.season.spots(self.tray), *self.season.spots(self.rack)]
        held = sum(one.waiting + one.up for one in spots)
        lost = sum(fact.count for fact in facts if isinstance(fact, Lost))
        assert held + lost == sum(fact.seeds for fact in facts if isinstance(fact, Sown))


class RecklessGrower(Grower):
    """As above, and any fact may be struck out, whatever rests on it, and restored at any time."""

    struck: tuple[str, ...] = ()

    @precondition(lambda self: hasattr(self, "tray"))
    @rule(which=st.integers(0, 10_000))
    def strike_any(self, which):
        facts = [fact for fact in self.ledger.facts() if not isinstance(fact, HolderMade | Packet)]
        if facts:
            chosen = facts[which % len(facts)]
            self.take(self.ledger.strike(chosen.id))
            self.struck = (*self.struck, chosen.id)

    @rule(which=st.integers(0, 10_000))
    def restore_any(self, which):
        in_force = {fact.id for fact in self.ledger.facts()}
        gone = [one for one in self.struck if one not in in_force]
        if gone:
            self.take(self.ledger.restore(gone[which % len(gone)]))

    @invariant()
    def no_spot_holds_less_than_nothing(self):
        if hasattr(self, "tray"):
            spots = [*self.season.spots(self.tray), *self.season.spots(self.rack)]
            assert all(one.waiting >= 0 and one.up >= 0 for one in spots)


TestCarefulGrower = CarefulGrower.TestCase
TestRecklessGrower = RecklessGrower.TestCase
TestCarefulGrower.settings = TestRecklessGrower.settings = settings(
    max_examples=settings.default.max_examples // 2, stateful_step_count=25
)


CELL, POT, OTHER_POT = spot("Tray A", "A1"), spot("Rack 1", "A1"), spot("Rack 1", "A2")


@pytest.fixture
def told():
    """One cell sown on 12 March and up on 21 March, a rack of two pots beside it."""
    told = Told()
    told.packet("Brass Bell")
    told.holder("Tray A", rows=1, columns=2)
    told.holder("Rack 1", form="rack", rows=1, columns=2)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [CELL], SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, [CELL], date(2027, 3, 21)))
    return told


def test_a_change_at_the_source_reaches_the_pot_the_seedling_went_to(told):
    told.do(deeds_spots.move(told.season, [CELL], POT, date(2027, 4, 20)))
    told.do(deeds_spots.move(told.season, [POT], OTHER_POT, date(2027, 4, 25)))
    assert told.season.spot(OTHER_POT).leaves == 0
    touched = told.do(note_on(told.season, About(spot=CELL), "pale", date(2027, 4, 1)))
    assert CELL in touched.spots
    mark = deeds_spots.latest_mark(told.season, CELL, Sprouted)
    earlier = Sprouted(day=date(2027, 3, 19), holder="Tray A", row=0, column=0)
    touched = told.do(deeds_spots.Proposal("earlier", (earlier,), (mark,)))
    assert {POT, OTHER_POT} <= touched.spots
    assert told.season.spot(OTHER_POT).first_up == date(2027, 3, 19)


def test_a_seedling_moved_back_is_the_same_seedling(told):
    told.do(deeds_spots.set_leaves(told.season, [CELL], date(2027, 4, 10), 4))
    told.do(deeds_spots.move(told.season, [CELL], POT, date(2027, 4, 20)))
    told.do(deeds_spots.move(told.season, [POT], CELL, date(2027, 4, 21)))
    back = told.season.spot(CELL)
    assert (back.up, back.leaves, back.first_up, back.origin) == (1, 4, date(2027, 3, 21), POT)
    assert back.packet == "p-Brass Bell"
    assert told.season.spot(POT).up == 0


def test_a_seedling_may_be_carried_to_and_fro_any_number_of_times(told):
    """Its past is followed step by step, so no number of moves runs out of stack or time."""
    day, here, there = date(2027, 4, 20), CELL, POT
    for _ in range(400):
        told.do(_straight(here, there, day))
        here, there = there, here
    assert told.season.spot(CELL).first_up == date(2027, 3, 21)
    assert told.season.spot(POT).up == 0


def _straight(here, there, day):
    fact = Moved(day=day, **_fields(here), to_holder=there.holder, to_row=there.row, to_column=there.column)
    return deeds_spots.Proposal("moved", (fact,))


def _fields(key):
    return {"holder": key.holder, "row": key.row, "column": key.column}


def test_a_holder_that_is_undone_leaves_no_trace(told):
    with Ledger.open("sqlite://") as ledger:
        season = Season()
        season.take(ledger.do("take a tray", record=told.season.facts(HolderMade)[:1]))
        assert [one.name for one in season.holders()] == ["Tray A"]
        season.take(ledger.undo())
        assert season.holders() == []
        with pytest.raises(RefusedError, match="not there any more"):
            deeds_spots.mark_up(season, [CELL], TODAY)
        season.take(ledger.redo())
        assert [one.name for one in season.holders()] == ["Tray A"]


def test_the_last_word_written_about_a_thing_counts_whatever_day_it_is_filed_under(told):
    later, earlier = date(2028, 1, 1), date(2027, 1, 1)
    for day, name in ((later, "Old Place"), (earlier, "New Place")):
        fact = PlaceSet(day=day, name=name, latitude=46.0, longitude=16.0, zone="UTC")
        told.do(deeds_spots.Proposal("set the place", (fact,)))
    assert place_of(told.season).name == "New Place"
