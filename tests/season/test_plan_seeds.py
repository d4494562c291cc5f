"""How many seeds and cells: published binomial values, the nurseries' table, and what a packet holds."""

from datetime import date

import pytest
from scipy.stats import binom

from greenroom.ledger.facts import Packet, Sown
from greenroom.season.plan import plan_of
from greenroom.season.plan_seeds import seeds_a_cell, sure_of
from greenroom.season.plan_why import seeds_why
from greenroom.season.proposal import Proposal
from tests.season.plan_ground import TODAY, YEAR, Kind, ground

FRESH = date(2027, 2, 1)


def need(told, today=FRESH):
    (row,) = plan_of(told.season, YEAR, today).rows
    return row.seeds


def kind(**changed):
    return Kind(**{"name": "Brass Bell", "crop": "bell", "ripe": 88, "packed": 2027, **changed})


@pytest.mark.parametrize(
    ("least", "most", "seeds", "filled"),
    [
        (0.80, 0.89, 2, (0.96, 0.99)),
        (0.70, 0.79, 2, (0.91, 0.96)),
        (0.60, 0.69, 3, (0.94, 0.97)),
        (0.50, 0.59, 4, (0.94, 0.97)),
        (0.40, 0.49, 5, (0.92, 0.97)),
    ],
)
def test_seeds_a_cell_are_those_of_the_nurseries_table(least, most, seeds, filled):
    """USDA Forest Service container nursery manuals (from memory): seeds a cell by bands of germination, and
    the cells filled at either end of a band. The least of a band sets its seeds: nine cells in ten fill."""
    assert seeds_a_cell(least, 0.9) == seeds
    ends = tuple(1 - (1 - germination) ** seeds for germination in (least, most))
    assert ends == (pytest.approx(filled[0], abs=0.006), pytest.approx(filled[1], abs=0.006))


def test_one_seed_a_cell_is_enough_from_ninety_percent_on():
    """The first band of the same table: 90 % and more, one to two seeds."""
    assert [seeds_a_cell(share, 0.9) for share in (0.89, 0.9, 0.97)] == [2, 1, 1]


def test_seeds_go_singly_while_two_cells_in_three_fill():
    assert [seeds_a_cell(share) for share in (0.95, 0.7, 2 / 3, 0.6, 0.45, 0.3, 0.05, 0.0)] == [
        1,
        1,
        1,
        2,
        2,
        4,
        10,
        10,
    ]


@pytest.mark.parametrize(
    ("plants", "chance", "cells"),
    [(6, 0.80, 10), (6, 0.72, 12), (3, 0.70, 7), (10, 0.85, 14), (12, 0.75, 20), (24, 0.80, 35)],
)
def test_as_sure_as_the_binomial_law_says(plants, chance, cells):
    """Least numbers with P(X >= k) of 95 %: binomial law, by scipy.stats; "k / p" would be too few."""
    assert sure_of(plants, cells, chance) == pytest.approx(binom.sf(plants - 1, cells, chance))
    assert sure_of(plants, cells, chance) >= 0.95 > sure_of(plants, cells - 1, chance)
    assert sure_of(plants, plants - 1, chance) == 0.0
    assert sure_of(0, 0, chance) == 1.0


def test_six_peppers_from_a_fresh_packet_worked_by_hand():
    """A label of 80 % and nine seedlings in ten that live: 0.8 x 0.9 = 0.72 a seed, at 25 °C all of it.
    Twelve seeds give six plants 19 times in 20 (binomial law), of which 12 x 0.2 = 2.4 cells stay bare."""
    found = need(ground(kind(germination=0.8), mix_c=25.0))
    assert found.share == pytest.approx(0.8)
    assert (found.a_cell, found.cells, found.seeds) == (1, 12, 12)
    assert found.blanks == pytest.approx(2.4)
    assert found.sure == pytest.approx(binom.sf(5, 12, 0.72))
    assert found.fewest < 12 < found.most


def test_poor_seed_goes_in_twos_and_takes_fewer_cells():
    """60 % on the label: 1 - 0.4 squared = 84 % of cells fill, x 0.9 = 75.6 % give a plant."""
    found = need(ground(kind(germination=0.6), mix_c=25.0))
    assert (found.a_cell, found.seeds) == (2, 2 * found.cells)
    assert binom.sf(5, found.cells, 0.84 * 0.9) >= 0.95 > binom.sf(5, found.cells - 1, 0.84 * 0.9)


def test_a_packet_that_holds_too_few_for_twos_is_sown_singly():
    free = need(ground(kind(germination=0.6), mix_c=25.0))
    found = need(ground(kind(germination=0.6, seeds=free.seeds - 1), mix_c=25.0))
    assert found.a_cell == 1
    assert binom.sf(5, found.cells, 0.54) >= 0.95 > binom.sf(5, found.cells - 1, 0.54)
    assert found.enough is (found.seeds <= free.seeds - 1)


def test_how_sure_a_short_packet_leaves_one_is_told():
    told = ground(kind(germination=0.8, seeds=8), mix_c=25.0)
    found = need(told)
    assert (found.left, found.enough) == (8, False)
    assert found.sure == pytest.approx(binom.sf(5, 8, 0.72))
    (row,) = plan_of(told.season, YEAR, FRESH).rows
    inputs = dict(seeds_why(told.season, row, FRESH).inputs)
    assert inputs["how sure with the seeds left"] == f"{binom.sf(5, 8, 0.72) * 100:.0f} %"


def test_cool_mix_costs_seed():
    """At 15 °C 70 of 98 come up (percent normal seedlings, Harrington and Minges 1954)."""
    cool = need(ground(kind(germination=0.9), mix_c=15.0))
    assert cool.share == pytest.approx(0.9 * 70 / 98)
    assert cool.warm == pytest.approx(70 / 98)
    assert cool.seeds > need(ground(kind(germination=0.9), mix_c=25.0)).seeds


def test_the_packet_with_seed_left_that_comes_up_best_is_chosen():
    told = ground(kind(germination=0.9, seeds=5), mix_c=25.0)
    old = Packet(day=TODAY, packet="p-old", variety="Brass Bell", packed=2024, germination=0.9)
    told.do(Proposal("an older packet", (old,)))
    assert need(told).packet == "p-Brass Bell"
    sown = Sown(day=TODAY, holder="Tray A", row=0, column=0, packet="p-Brass Bell", seeds=5)
    told.do(Proposal("sowed", (sown,)))
    assert need(told).packet == "p-old"


def test_seed_as_good_as_dead_is_not_planned_with():
    """Pepper seed of 2012 with 2 years' life: nothing to speak of is expected up."""
    told = ground(kind(packed=2012), mix_c=25.0)
    assert need(told) is None
    (row,) = plan_of(told.season, YEAR, FRESH).rows
    assert seeds_why(told.season, row, FRESH) is None
    assert row.window is None


def test_the_reasons_count_the_cells_that_stay_bare():
    told = ground(kind(germination=0.8), mix_c=25.0)
    (row,) = plan_of(told.season, YEAR, FRESH).rows
    why = seeds_why(told.season, row, FRESH)
    inputs = dict(why.inputs)
    assert why.figure == "12 seeds in 12 cells"
    assert inputs["cells expected to stay bare"] == "2.4 of 12"
    assert inputs["seedlings that live to be set out"] == "90 %"
    assert inputs["seeds left"] == "not counted"
    assert "26.5.24" in why.sources[0]
