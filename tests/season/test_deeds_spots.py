"""What is done to cells and pots: each act as the grower means it, or refused with one sentence."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import HolderRetired, LeafStage, Lost, Moved, Sprouted
from greenroom.season import deeds_spots
from greenroom.season.holders import count
from greenroom.season.proposal import Proposal, RefusedError, together
from greenroom.season.spots import SpotKey, Stage, row_label
from greenroom.season.story_deeds import About, note_on
from tests.season.told import SOWN_ON, Told, spot

UP_ON = date(2027, 3, 21)
LATER = date(2027, 4, 20)
PACKET = "p-Brass Bell"
A1, A2, A3 = (spot("Tray A", label) for label in ("A1", "A2", "A3"))
POTS = [spot("Rack 1", label) for label in ("A1", "A2", "B1", "B2")]


@pytest.fixture
def told():
    """A tray of 2 x 3, a rack of 2 x 2, and a packet of twelve seeds."""
    told = Told()
    told.packet("Brass Bell", seeds=12)
    told.holder("Tray A", rows=2, columns=3)
    told.holder("Rack 1", form="rack", rows=2, columns=2)
    return told


@pytest.fixture
def sown(told):
    told.do(deeds_spots.sow(told.season, PACKET, [A1, A2, A3], SOWN_ON, seeds=2))
    return told


@pytest.fixture
def up(sown):
    sown.do(deeds_spots.mark_up(sown.season, [A1, A2], UP_ON))
    return sown


def refusal(deed, *given, **named):
    with pytest.raises(RefusedError) as caught:
        deed(*given, **named)
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


def test_sowing_fills_cells_and_empties_the_packet(sown):
    assert sown.season.spot(A1).waiting == 2
    assert sown.season.spot(A1).stage is Stage.SOWN
    assert sown.season.seeds_used(PACKET) == 6
    assert sown.season.spots_sown(PACKET) == [A1, A2, A3]
    assert sown.season.counts("Tray A").sown == 3


def test_more_seeds_than_the_packet_holds_are_refused(sown):
    sentence = refusal(deeds_spots.sow, sown.season, PACKET, [A1, A2, A3], SOWN_ON, 3)
    assert "has 6 seeds left and 9 are needed" in sentence


def test_a_cell_with_a_seedling_takes_no_seed(up):
    sentence = refusal(deeds_spots.sow, up.season, PACKET, [A3, A1], LATER)
    assert sentence.startswith("A1 of Tray A holds a seedling")


def test_sowing_a_bare_cell_again_adds_to_what_waits(sown):
    sown.do(deeds_spots.sow(sown.season, PACKET, [A3], LATER))
    again = sown.season.spot(A3)
    assert (again.waiting, again.seeds, again.sown_on) == (3, 3, LATER)
    sown.do(deeds_spots.mark_up(sown.season, [A3], LATER + timedelta(3), count=3))
    assert (sown.season.spot(A3).up, sown.season.spot(A3).first_up) == (3, LATER + timedelta(3))


def test_a_cell_that_was_sown_again_was_bare_until_then(sown):
    sown.do(deeds_spots.sow(sown.season, PACKET, [A3], LATER))
    sentence = refusal(deeds_spots.mark_up, sown.season, [A3], LATER - timedelta(3))
    assert sentence.startswith("The sowing of 20 April in A3 of Tray A came later")
    assert "does not fit" in refusal(deeds_spots.mark_up, sown.season, [A3], LATER - timedelta(3), 3)


def test_a_mark_before_sowing_is_refused_with_both_days(sown):
    sentence = refusal(deeds_spots.mark_up, sown.season, [A1], date(2027, 3, 2))
    assert sentence == "A1 of Tray A was sown on 12 March; it cannot have been up on 2 March."


def test_a_day_later_than_a_loss_fits_no_mark(up):
    up.do(deeds_spots.mark_lost(up.season, [A3], LATER, "did not come up"))
    assert "no sown seed waits there" in refusal(deeds_spots.mark_up, up.season, [A3], LATER)
    assert up.season.spot(A3).stage is Stage.LOST


def test_a_click_marks_up_and_the_next_takes_it_back(sown):
    sown.do(deeds_spots.mark_lost(sown.season, [A1], UP_ON, ""))
    sown.do(deeds_spots.sow(sown.season, PACKET, [A1], UP_ON))
    sown.do(deeds_spots.click(sown.season, A1, LATER))
    assert sown.season.spot(A1).stage is Stage.UP
    sown.do(deeds_spots.click(sown.season, A1, LATER))
    assert sown.season.spot(A1).stage is Stage.SOWN


def test_with_several_seeds_a_click_adds_one(up):
    up.do(deeds_spots.click(up.season, A1, LATER))
    assert (up.season.spot(A1).up, up.season.spot(A1).waiting) == (2, 0)
    up.do(deeds_spots.take_back_up(up.season, [A1]))
    assert (up.season.spot(A1).up, up.season.spot(A1).waiting) == (1, 1)
    assert up.season.spot(A1).first_up == UP_ON


def test_a_click_on_a_cell_with_nothing_to_do_says_what_it_shows(up):
    assert "is bare" in refusal(deeds_spots.click, up.season, spot("Tray A", "B1"), LATER)


def test_more_than_wait_cannot_come_up(up):
    assert "1 seed still waits" in refusal(deeds_spots.mark_up, up.season, [A1], LATER, 2)


def test_marking_a_mixed_choice_marks_those_that_wait(up):
    proposal = deeds_spots.mark_up(up.season, [A1, spot("Tray A", "B1"), A3, A3], LATER)
    assert [(fact.row, fact.column) for fact in proposal.record] == [(0, 0), (0, 2)]


def test_leaves_are_counted_on_seedlings_only(up):
    assert "no seedling stands there" in refusal(deeds_spots.set_leaves, up.season, [A3], LATER, 2)
    proposal = deeds_spots.set_leaves(up.season, [A1, A3], LATER, 4)
    assert [type(fact) for fact in proposal.record] == [LeafStage]
    up.do(proposal)
    assert up.season.spot(A1).stage is Stage.LEAVES
    sentence = refusal(deeds_spots.set_leaves, up.season, [A1], UP_ON - timedelta(1), 2)
    assert sentence == "A1 of Tray A came up on 21 March; choose that day or a later one."


def test_a_seedling_that_comes_up_where_one_was_lost_has_no_leaves_yet(up):
    up.do(deeds_spots.set_leaves(up.season, [A1], LATER, 4))
    up.do(deeds_spots.mark_lost(up.season, [A1], LATER + timedelta(1), "eaten"))
    up.do(deeds_spots.mark_up(up.season, [A1], LATER + timedelta(5)))
    second = up.season.spot(A1)
    assert (second.stage, second.leaves, second.first_up) == (Stage.UP, 0, LATER + timedelta(5))


def test_losing_takes_the_seedlings_first_and_then_the_seed(up):
    up.do(deeds_spots.mark_lost(up.season, [A1], LATER, "eaten"))
    assert (up.season.spot(A1).up, up.season.spot(A1).waiting) == (0, 1)
    up.do(deeds_spots.mark_lost(up.season, [A1], LATER, "did not come up"))
    gone = up.season.spot(A1)
    assert (gone.stage, gone.lost, gone.cause) == (Stage.LOST, 2, "did not come up")
    assert "nothing stands or waits" in refusal(deeds_spots.mark_lost, up.season, [A1], LATER)


def test_nothing_can_be_lost_before_it_was_there(sown):
    assert "does not fit" in refusal(deeds_spots.mark_lost, sown.season, [A1], SOWN_ON - timedelta(1))


def test_a_selection_is_potted_up_in_order_from_the_target_on(up):
    up.do(deeds_spots.mark_up(up.season, [A3], UP_ON))
    up.do(deeds_spots.move(up.season, [A3, A1], POTS[1], LATER))
    assert [up.season.spot(pot).origin for pot in POTS] == [None, A3, A1, None]
    assert up.season.spot(A3).stage is Stage.SOWN
    assert up.season.spot(A3).moved_on == 1
    assert up.season.counts("Rack 1").seedlings == 2


def test_two_in_one_cell_go_into_two_pots(up):
    up.do(deeds_spots.mark_up(up.season, [A1], UP_ON))
    up.do(deeds_spots.move(up.season, [A1], POTS[0], LATER))
    assert [up.season.spot(pot).up for pot in POTS] == [1, 1, 0, 0]
    assert up.season.spot(A1).stage is Stage.MOVED


def test_a_pot_that_is_taken_or_a_rack_that_is_full_refuses(up):
    up.do(deeds_spots.move(up.season, [A1], POTS[2], LATER))
    assert refusal(deeds_spots.move, up.season, [A2], POTS[2], LATER).startswith("B1 of Rack 1 is taken")
    up.do(deeds_spots.mark_up(up.season, [A3], LATER, count=2))
    sentence = refusal(deeds_spots.move, up.season, [A2, A3], POTS[3], LATER)
    assert "Rack 1 has room for 1 from B2 on and 3 are in hand" in sentence


def test_nothing_moves_from_where_nothing_stands(up):
    assert "no seedling stands there" in refusal(deeds_spots.move, up.season, [A3], POTS[0], LATER)


def test_a_seedling_moves_no_earlier_than_it_came_up_or_arrived(up):
    early = UP_ON - timedelta(1)
    assert "came up on 21 March" in refusal(deeds_spots.move, up.season, [A1], POTS[0], early)
    up.do(deeds_spots.move(up.season, [A1], POTS[0], LATER))
    sentence = refusal(deeds_spots.move, up.season, [POTS[0]], POTS[1], LATER - timedelta(1))
    assert sentence == "A1 of Rack 1 was moved there on 20 April; choose that day or a later one."


def test_the_mark_of_a_seedling_that_moved_on_stays(up):
    up.do(deeds_spots.move(up.season, [A1], POTS[0], LATER))
    assert "no sprout mark to take back" in refusal(deeds_spots.take_back_up, up.season, [A1])
    assert "no sprout mark to take back" in refusal(deeds_spots.take_back_up, up.season, [POTS[0]])
    up.do(deeds_spots.mark_up(up.season, [A1], LATER + timedelta(1)))
    up.do(deeds_spots.take_back_up(up.season, [A1]))
    assert up.season.spot(POTS[0]).first_up == UP_ON


def test_an_empty_choice_is_refused(told):
    for deed in (deeds_spots.take_back_up,):
        assert "No cell is chosen" in refusal(deed, told.season, [])
    for deed in (deeds_spots.mark_up, deeds_spots.mark_lost):
        assert "No cell is chosen" in refusal(deed, told.season, [], LATER)
    assert "No cell is chosen" in refusal(deeds_spots.sow, told.season, PACKET, [], LATER)
    assert "No cell is chosen" in refusal(deeds_spots.move, told.season, [], POTS[0], LATER)
    assert "No cell is chosen" in refusal(deeds_spots.set_leaves, told.season, [], LATER, 2)


def test_what_is_not_there_is_refused(sown):
    beside = SpotKey("Tray A", 5, 5)
    assert "has no F6" in refusal(deeds_spots.sow, sown.season, PACKET, [beside], SOWN_ON)
    assert "not in the seed box" in refusal(deeds_spots.sow, sown.season, "p-none", [A1], SOWN_ON)
    assert "not there any more" in refusal(deeds_spots.mark_up, sown.season, [SpotKey("x", 0, 0)], SOWN_ON)
    assert "in use since 12 March" in refusal(
        deeds_spots.sow, sown.season, PACKET, [A1], SOWN_ON - timedelta(1)
    )


def test_a_rack_that_was_put_away_takes_nothing(up):
    up.do(Proposal("away", (HolderRetired(day=LATER, holder="Rack 1"),)))
    assert "was put away" in refusal(deeds_spots.move, up.season, [A1], POTS[0], LATER)


def test_a_note_needs_words(told):
    told.do(note_on(told.season, About(spot=A1), " pale ", LATER))
    assert told.season.spot_facts(A1)[0].fact.text == "pale"
    assert "no words" in refusal(note_on, told.season, About(spot=A1), "  ", LATER)


def test_counts_tell_cells_from_seedlings(up):
    up.do(deeds_spots.mark_up(up.season, [A1], LATER))
    counts = up.season.counts("Tray A")
    assert (counts.spots, counts.sown, counts.up, counts.living, counts.seedlings) == (6, 3, 2, 2, 3)
    assert (counts.first_sown, counts.last_sown) == (SOWN_ON, SOWN_ON)
    assert counts.stages == {Stage.UP: 2, Stage.SOWN: 1, Stage.BARE: 3}
    assert count([]).first_sown is None


def test_one_act_of_several_proposals_is_undone_at_once(up):
    both = together("tidied", [deeds_spots.mark_lost(up.season, [one], LATER) for one in (A1, A2)])
    assert [type(fact) for fact in both.record] == [Lost, Lost]
    assert together("nothing", []).empty


@pytest.mark.parametrize(
    ("row", "label"), [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (99, "CV")]
)
def test_rows_are_lettered_as_columns_of_a_sheet_are(row, label):
    """Common practice of spreadsheets, no source."""
    assert row_label(row) == label


@given(st.lists(st.integers(0, 3), min_size=1, max_size=6), st.integers(0, 3))
def test_potting_up_puts_each_seedling_in_a_pot_of_its_own(cells, target):
    """A law: as many leave as arrive, no pot gets two, and the order is kept."""
    told = Told()
    told.packet("Brass Bell")
    told.holder("Tray A", rows=2, columns=2)
    told.holder("Rack 1", form="rack", rows=2, columns=4)
    every = [SpotKey("Tray A", row, column) for row in range(2) for column in range(2)]
    told.do(deeds_spots.sow(told.season, PACKET, every, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, every, UP_ON))
    sources = [every[cell] for cell in cells]
    proposal = deeds_spots.move(told.season, sources, SpotKey("Rack 1", 0, target), LATER)
    moves = [fact for fact in proposal.record if isinstance(fact, Moved)]
    assert len(moves) == len(set(cells))
    targets = [(fact.to_row, fact.to_column) for fact in moves]
    assert targets == sorted(set(targets))
    assert targets[0] == (0, target)
    told.do(proposal)
    assert told.season.counts("Rack 1").seedlings + told.season.counts("Tray A").seedlings == 4


def test_the_words_for_a_stage_name_the_cause(up):
    up.do(deeds_spots.mark_lost(up.season, [A3], LATER, "cold"))
    assert deeds_spots.describe_stage(up.season.spot(A3)) == "lost (cold)"
    assert deeds_spots.latest_mark(up.season, A1, Sprouted) is not None
