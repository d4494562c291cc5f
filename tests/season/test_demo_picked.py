"""The demo's seasons past: honest enough to be compared, learned from, and out of the way of this one."""

import pytest

from greenroom.season.packets import packets
from greenroom.season.picking import harvests
from greenroom.season.ripe_learning import ripening_of
from greenroom.season.wants import wanted
from tests.season.demo_season import TODAY, demo_season


@pytest.fixture(scope="module")
def season():
    return demo_season(), TODAY


def test_two_seasons_can_be_compared(season):
    told, today = season
    found = {(one.name, one.year): one for one in harvests(told, today)}
    assert {year for _, year in found} == {2025, 2026}
    assert found["Brass Bell", 2026].plants == 6
    assert found["Brass Bell", 2025].plants is None
    assert all(one.grams_a_m2 for (_, year), one in found.items() if year == 2026)


def test_what_was_picked_lies_within_what_such_plants_bear(season):
    """Published garden yields run from 0.92 to about 12 lb a plant (two extension lists, read; they differ
    13-fold); hot peppers bear less by weight. So none over 2 kg, none under 50 g."""
    told, today = season
    assert all(50 < one.grams_a_plant < 2000 for one in harvests(told, today) if one.grams_a_plant)


def test_the_first_ripe_fruit_came_within_the_heat_such_plants_are_known_to_need(season):
    """Within two deviations of the stated need, by this program's own rule for varieties."""
    told, today = season
    for variety in {one.variety for one in harvests(told, today)}:
        learned = ripening_of(told, variety, today).learned
        assert abs(learned.own / learned.guide - 1) < 0.3


def test_nothing_of_it_stands_about_now_and_its_packets_are_used_up(season):
    told, today = season
    assert "of 2026" not in " ".join(one.name for one in told.holders())
    old = [view for view in packets(told) if view.packet.packed == 2024 and view.packet.lot.startswith("P")]
    assert len(old) == 4
    assert all(view.left == 0 for view in old)
    assert set(wanted(told, today.year)) >= {view.packet.variety for view in old}
