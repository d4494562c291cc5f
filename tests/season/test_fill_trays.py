"""Laying what is to be sown into trays: nothing lost, nothing twice, kin together, room used well."""

from collections import Counter
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import HolderMade, Sown
from greenroom.season import deeds_fill, deeds_spots
from greenroom.season.fill_trays import ALIKE_PACE, Batch, Tray, fill_trays, groups_alike, moved
from greenroom.season.plan import plan_of
from greenroom.season.proposal import RefusedError
from greenroom.season.spots import SpotKey
from tests.season.plan_ground import BELL, LANTERN, TODAY, YEAR, Kind, champion_days, ground

SEVENTY_TWO = Tray(6, 12)
WARM = (25.0, 30.0)

warmths = st.sampled_from(((25.0, 30.0), (20.0, 29.0), (15.0, 15.0), (18.0, 24.0), (30.0, 30.0)))
batches = st.lists(
    st.builds(
        Batch,
        st.uuids().map(str),
        st.sampled_from(("Brass Bell", "Marsh Drop", "Old Ember")),
        st.integers(min_value=0, max_value=90),
        st.integers(min_value=1, max_value=3),
        st.floats(min_value=3, max_value=30),
        warmths,
    ),
    max_size=12,
)
trays = st.lists(
    st.builds(
        Tray,
        st.integers(min_value=1, max_value=8),
        st.integers(min_value=1, max_value=16),
        st.uuids().map(str),
        st.just("Tray"),
        st.none() | st.floats(min_value=14, max_value=31),
    ),
    max_size=4,
)


@given(batches, trays)
def test_every_wanted_cell_is_placed_once_and_none_overlap(wanted, in_use):
    filled = fill_trays(wanted, in_use, SEVENTY_TWO)
    placed = Counter()
    for one in filled:
        cells = [cell for block in one.blocks for cell in block.cells]
        assert len(cells) == len(set(cells)) == one.tray.size - one.free
        assert all(0 <= row < one.tray.rows and 0 <= column < one.tray.columns for row, column in cells)
        for block in one.blocks:
            placed[block.packet] += len(block.cells)
    assert placed == Counter({batch.packet: batch.cells for batch in wanted if batch.cells})


@given(batches, trays)
def test_all_in_a_tray_like_its_warmth_and_come_up_at_one_pace(wanted, in_use):
    kinds = {batch.packet: batch for batch in wanted}
    for one in fill_trays(wanted, in_use, SEVENTY_TWO):
        there = [kinds[block.packet] for block in one.blocks]
        low, high = one.best_c
        assert low <= high
        assert all(batch.best_c[0] <= low and high <= batch.best_c[1] for batch in there)
        assert max(batch.days_up for batch in there) <= ALIKE_PACE * min(batch.days_up for batch in there)
        if one.tray.mix_c is not None:
            assert low <= one.tray.mix_c <= high


@given(batches, trays)
def test_no_tray_is_used_twice_and_a_packet_is_parted_only_if_no_tray_holds_it(wanted, in_use):
    filled = fill_trays(wanted, in_use, SEVENTY_TWO)
    holders = [one.tray.holder for one in filled if one.tray.holder is not None]
    assert len(holders) == len(set(holders))
    parts = Counter(block.packet for one in filled for block in one.blocks)
    for batch in wanted:
        if 0 < batch.cells <= SEVENTY_TWO.size:
            assert parts[batch.packet] == 1
    assert all(one.blocks for one in filled)


@given(batches)
def test_groups_lose_no_batch(wanted):
    groups = groups_alike(wanted)
    assert sorted(batch.packet for group in groups for batch in group) == sorted(one.packet for one in wanted)


def lay(*cells, tray=SEVENTY_TWO):
    wanted = [Batch(f"p{n}", f"Kind {n}", count, 1, 8.0 + n / 10, WARM) for n, count in enumerate(cells)]
    (filled,) = fill_trays(wanted, [tray], None)
    return filled


def test_each_kind_has_columns_of_its_own_with_a_gap_between_where_there_is_room():
    filled = lay(8, 6, 3)
    assert [block.words for block in filled.blocks] == ["A1 to F1, A2 to B2", "A4 to F4", "A6 to C6"]
    assert filled.free == 72 - 17


def test_gaps_go_first_where_room_runs_short_then_the_columns():
    assert [block.cells[0] for block in lay(31, 29, 6).blocks] == [
        (0, 0),
        (0, 6),
        (0, 11),
    ]  # 6, 5 and 1 columns
    tight = lay(31, 31, 9)
    assert [len(block.cells) for block in tight.blocks] == [31, 31, 9]
    assert tight.blocks[1].cells[0] == (1, 5)  # cell after cell
    assert tight.free == 1


def test_quick_and_slow_kinds_do_not_share_a_tray():
    """Annuum about 8 days, pubescens 14 to 40 (growers' texts, from memory)."""
    wanted = [Batch("a", "Brass Bell", 6, 1, 8.0, WARM), Batch("b", "Pale Kestrel", 6, 1, 24.0, WARM)]
    assert len(fill_trays(wanted, [], SEVENTY_TWO)) == 2
    assert len(fill_trays([wanted[0], Batch("c", "Tomato", 6, 1, 6.0, WARM)], [], SEVENTY_TWO)) == 1


def test_kinds_that_like_no_warmth_in_common_do_not_share_a_tray():
    wanted = [Batch("a", "Spinach", 6, 1, 7.0, (15.0, 15.0)), Batch("b", "Pepper", 6, 1, 8.0, WARM)]
    filled = fill_trays(
        wanted, [Tray(6, 12, "cool", "Tray A", 15.0), Tray(6, 12, "hot", "Tray B", 27.0)], None
    )
    assert {one.tray.holder: one.blocks[0].name for one in filled} == {"cool": "Spinach", "hot": "Pepper"}


def test_the_smallest_tray_that_holds_a_kind_is_taken():
    in_use = [Tray(6, 12, "large"), Tray(2, 3, "small")]
    (filled,) = fill_trays([Batch("a", "Brass Bell", 5, 1, 8.0, WARM)], in_use, None)
    assert filled.tray.holder == "small"


def test_when_the_trays_run_out_and_none_are_to_be_bought_it_is_said():
    with pytest.raises(RefusedError, match="The trays are full and Brass Bell still needs 4 cells"):
        fill_trays([Batch("a", "Brass Bell", 10, 1, 8.0, WARM)], [Tray(2, 3, "small")], None)


def test_a_block_is_moved_and_not_onto_another_or_over_the_edge():
    filled = [lay(8, 6), lay(3)]
    after = moved(filled, (0, 1), 1, (0, 4))
    assert [len(one.blocks) for one in after] == [1, 2]
    assert after[1].blocks[1].words == "A5 to F5"
    here = moved(filled, (0, 0), 0, (3, 8))
    assert here[0].blocks[-1].words == "D9 to F9, A10 to E10"
    with pytest.raises(RefusedError, match="A1 is Kind 0's; choose other cells for Kind 1"):
        moved(filled, (0, 1), 0, (0, 1 - 1))
    with pytest.raises(RefusedError, match="Kind 1 takes 6 cells and 2 are left from there on"):
        moved(filled, (0, 1), 0, (4, 11))


# --------------------------------------------------------------------------------- from the plan into facts


@pytest.fixture
def told():
    return ground(
        BELL, LANTERN, Kind("Thin Packet", "cayenne", 80, seeds=3), days=champion_days(), mix_c=27.0
    )


def laid_out(told, today=date(2027, 2, 20)):
    plan = plan_of(told.season, YEAR, today)
    return fill_trays(
        deeds_fill.batches_of(told.season, plan), deeds_fill.empty_trays(told.season), SEVENTY_TWO
    )


def test_the_plan_is_laid_out_and_sown_in_one_act(told):
    plan = plan_of(told.season, YEAR, TODAY)
    wanted = {row.seeds.packet: row.seeds for row in plan.rows}
    filled = laid_out(told)
    assert [one.tray.name for one in filled] == ["Tray A", ""]  # annuum on the mat; chinense is slower
    act = deeds_fill.sow_filled(told.season, filled, TODAY, "shelf 2")
    told.do(act)
    sown = Counter()
    for fact in act.record:
        if isinstance(fact, Sown):
            sown[fact.packet] += 1
    assert sown["p-Brass Bell"] == wanted["p-Brass Bell"].cells
    assert sown["p-Cinder Lantern"] == wanted["p-Cinder Lantern"].cells
    assert sown["p-Thin Packet"] == 3  # all there are
    assert [tray.name for tray in told.season.holders("tray")] == ["Tray A", "Tray B"]
    made = [fact for fact in act.record if isinstance(fact, HolderMade)]
    assert told.season.holder(made[0].holder).place == "shelf 2"
    assert act.name == f"sowed {sum(sown.values())} cells in 2 trays"
    assert deeds_fill.batches_of(told.season, plan_of(told.season, YEAR, TODAY)) == []


def test_trays_with_anything_in_them_are_left_alone(told):
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [SpotKey("Tray A", 0, 0)], TODAY))
    assert deeds_fill.empty_trays(told.season) == []


def test_what_changed_since_the_trays_were_laid_out_is_refused(told):
    filled = laid_out(told)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [SpotKey("Tray A", 0, 0)], TODAY))
    with pytest.raises(RefusedError, match="Tray A A1 is not free any more"):
        deeds_fill.sow_filled(told.season, filled, TODAY)


def test_a_packet_that_holds_too_few_is_refused(told):
    filled = laid_out(told)
    told.do(deeds_spots.sow(told.season, "p-Thin Packet", [SpotKey("Tray A", 5, 11)], TODAY))
    with pytest.raises(RefusedError, match="Thin Packet has 2 seeds left and 3 are laid out"):
        deeds_fill.sow_filled(told.season, filled, TODAY)


def test_a_tray_not_in_use_yet_and_an_empty_plan_are_refused(told):
    with pytest.raises(RefusedError, match="Tray A was not in use yet on that day"):
        deeds_fill.sow_filled(told.season, laid_out(told), date(2027, 1, 4))
    with pytest.raises(RefusedError, match="There is nothing to sow"):
        deeds_fill.sow_filled(told.season, [], TODAY)


def test_new_trays_get_names_of_their_own(told):
    """More than the tray in use and one new one hold, so that two new ones are named in one act."""
    many = ground(*(Kind(f"Kind {n}", "bell", 88, plants=40) for n in range(4)), mix_c=27.0)
    filled = laid_out(many)
    many.do(deeds_fill.sow_filled(many.season, filled, TODAY))
    names = [tray.name for tray in many.season.holders("tray")]
    assert len(names) == len(filled) >= 3
    assert names[:3] == ["Tray A", "Tray B", "Tray C"]
