"""How far own results move the guide's figures: by hand, and by conditioning a normal distribution."""

from datetime import date, timedelta
from math import exp, log, pi, sqrt

import numpy as np
import pytest

from greenroom.ledger.facts import HolderMade, HolderPlaced, Packet
from greenroom.season import deeds_spots
from greenroom.season.germination import germination
from greenroom.season.learning import (
    BETWEEN_LOTS,
    Lot,
    living,
    lot_effect,
    pace_of_lot,
    pace_of_variety,
    share_of_variety,
    variety_effect,
)
from greenroom.season.plan import plan_of
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from tests.season.plan_ground import TODAY, YEAR, Kind, ground

SOWN = date(2027, 1, 10)
LATER = date(2027, 4, 20)
FIRST, SECOND = "p-Brass Bell", "p-second"
LEVEL = (log(1.3 / 0.7) / (2 * 1.645)) ** 2 / 2
"""Half the variance between lots: nine in ten lie within a third of the tabled days, as the guide says."""


def grown(mix_c=25.0):
    """A bell pepper with two lots and two trays, nothing sown yet."""
    told = ground(Kind("Brass Bell", "bell", 88, germination=0.8), mix_c=mix_c)
    made = HolderMade(day=TODAY, holder="Tray B", name="Tray B", form="tray", rows=6, columns=12)
    second = Packet(day=TODAY, packet=SECOND, variety="Brass Bell", lot="2", packed=2027, germination=0.8)
    placed = HolderPlaced(day=TODAY, holder="Tray B", place="sill", mix_c=20.0)
    told.do(Proposal("more", (made, placed, second)))
    return told


def sow(told, packet, tray, day_up, up=6, seeds=10, row=0):
    cells = [SpotKey(tray, row, column) for column in range(seeds)]
    told.do(deeds_spots.sow(told.season, packet, cells, SOWN))
    for cell in cells[:up]:
        told.do(deeds_spots.mark_up(told.season, [cell], SOWN + timedelta(days=day_up)))
    return cells


def precision(up):
    """1/variance of a tray's log factor: 0.1 squared between trays, and that of a median of seeds."""
    return 1 / (0.1**2 + (sqrt(pi / 2) * 0.25) ** 2 / up)


def test_without_own_results_the_guides_days_stand():
    told = grown()
    found = pace_of_variety(told.season, "Brass Bell", LATER)
    assert (found.guide, found.own, found.figure, found.seeds) == (1.0, None, 1.0, 0)
    assert found.low < 1 < found.high


def test_one_slow_tray_moves_the_days_part_of_the_way_as_worked_by_hand():
    """Half up on day 10 where the guide has 8 at 25 °C (Harrington and Minges 1954): log(10/8) = 0.2231 from
    six seedlings. 1/variance of the tray 37.9; a lot differs from its variety with variance 0.0177, so its
    weight is 1/(0.0177 + 1/37.9) = 22.7 against the guide's 1/0.0177 = 56.5: 0.2231 x 22.7/79.2 = 0.064."""
    told = grown()
    sow(told, FIRST, "Tray A", 10)
    found = pace_of_variety(told.season, "Brass Bell", LATER)
    weight = 1 / (LEVEL + 1 / precision(6))
    assert (found.own, found.seeds) == (pytest.approx(10 / 8), 6)
    assert log(found.figure) == pytest.approx(0.2231 * 22.7 / 79.2, abs=1e-3)
    assert found.figure == pytest.approx(exp(log(10 / 8) * weight / (weight + 1 / LEVEL)))
    assert found.low < found.figure < found.high


def conditioned(observed, packet):
    """The same model solved another way: one joint normal distribution, given what was observed.

    Variety V, lots V + L, observations V + L + E; returns mean and variance of V and of one lot.
    """
    packets = sorted({lot.packet for lot in observed} | {packet})
    covariance = LEVEL * (np.ones((len(packets), len(packets))) + np.eye(len(packets)))
    covariance = np.block(
        [
            [np.array([[LEVEL]]), np.full((1, len(packets)), LEVEL)],
            [np.full((len(packets), 1), LEVEL), covariance],
        ]
    )
    if not observed:
        return (0.0, covariance[0, 0]), (0.0, covariance[1, 1])
    rows = [1 + packets.index(lot.packet) for lot in observed]
    seen = covariance[np.ix_(rows, rows)] + np.diag([1 / lot.precision for lot in observed])
    pull = np.linalg.solve(seen, np.array([lot.log for lot in observed]))
    which = [0, 1 + packets.index(packet)]
    mean = covariance[np.ix_(which, rows)] @ pull
    left = covariance[np.ix_(which, which)] - covariance[np.ix_(which, rows)] @ np.linalg.solve(
        seen, covariance[np.ix_(rows, which)]
    )
    return (mean[0], left[0, 0]), (mean[1], left[1, 1])


@pytest.mark.parametrize("asked", ["a", "b", "d"])
def test_both_levels_agree_with_a_conditioned_normal_distribution(asked):
    lots = [Lot("a", 0.3, 25.0, 8), Lot("b", -0.1, 60.0, 20), Lot("c", 0.05, 8.0, 2)]
    variety, lot = conditioned(lots, asked)
    assert variety_effect(lots) == (pytest.approx(variety[0]), pytest.approx(variety[1]))
    assert lot_effect(lots, asked) == (pytest.approx(lot[0]), pytest.approx(lot[1]))
    assert pytest.approx(BETWEEN_LOTS**2 / 2) == LEVEL


def test_a_lot_goes_by_its_own_days_more_than_by_its_kin():
    told = grown()
    sow(told, FIRST, "Tray A", 12)
    sow(told, SECOND, "Tray A", 7, row=1)
    slow = pace_of_lot(told.season, FIRST, "Brass Bell", LATER)
    quick = pace_of_lot(told.season, SECOND, "Brass Bell", LATER)
    both = pace_of_variety(told.season, "Brass Bell", LATER)
    assert quick.figure < both.figure < slow.figure < 12 / 8
    assert (slow.own, quick.own) == (pytest.approx(12 / 8), pytest.approx(7 / 8))


def test_trays_of_another_warmth_speak_of_the_same_thing():
    """13 days at 20 °C are as tabled (Harrington and Minges 1954), as 8 are at 25."""
    told = grown()
    sow(told, FIRST, "Tray B", 13)
    assert pace_of_variety(told.season, "Brass Bell", LATER).figure == pytest.approx(1.0)


def test_a_tray_that_is_not_half_up_says_nothing_yet():
    told = grown()
    sow(told, FIRST, "Tray A", 10, up=3)
    assert pace_of_variety(told.season, "Brass Bell", SOWN + timedelta(days=11)).own is None


def test_a_slip_of_the_hand_is_not_learned_from_without_bounds():
    """Marked up on the very day of sowing: told as three times as quick, not as eight or more."""
    told = grown()
    sow(told, FIRST, "Tray A", 0)
    slip = pace_of_variety(told.season, "Brass Bell", LATER)
    assert slip.own == pytest.approx(1 / 3)
    assert slip.figure > 0.5


def test_the_plan_goes_by_the_varietys_own_days():
    told = grown()
    before = plan_of(told.season, YEAR, LATER).row("Brass Bell").needs
    sow(told, FIRST, "Tray A", 16, up=8)
    after = plan_of(told.season, YEAR, LATER).row("Brass Bell").needs
    factor = pace_of_variety(told.season, "Brass Bell", LATER).figure
    assert after.days_up == pytest.approx(8 * factor)  # sown last at 25 °C
    assert after.days_to_ready == round(56 + 8 * factor - 8)
    assert before.days_up == pytest.approx(13)  # the tray placed last stands at 20 °C


def test_the_share_of_a_lot_and_of_its_variety_are_counted_in_seeds():
    """By hand. Each label counts as 20 seeds of 80 %; 6 of 10 and 9 of 10 came up: 22/30 and 25/30 by lot,
    (20 x 0.8 + 15) / 40 for the variety."""
    told = grown()
    sow(told, FIRST, "Tray A", 9)
    sow(told, SECOND, "Tray A", 9, up=9, row=1)
    first, second = (germination(told.season, one, LATER) for one in (FIRST, SECOND))
    assert (first.prior.share, first.share) == (0.8, pytest.approx(22 / 30))
    assert (second.sown.came, second.share) == (9, pytest.approx(25 / 30))
    both = share_of_variety(told.season, "Brass Bell", LATER)
    assert (both.guide, both.own, both.figure) == (
        pytest.approx(0.8),
        pytest.approx(0.75),
        pytest.approx((16 + 15) / 40),
    )
    assert both.low < both.figure < both.high
    assert share_of_variety(told.season, "nobody", LATER) is None


def test_seedlings_that_lived_are_counted_once_they_are_six_weeks_old_and_thinned_ones_never():
    """By hand: of ten up, three damped off and one was thinned; (20 x 0.9 + 6) / (20 + 9)."""
    told = grown()
    cells = sow(told, FIRST, "Tray A", 9, up=10)
    told.do(deeds_spots.mark_lost(told.season, cells[:3], SOWN + timedelta(days=20), "damping-off"))
    told.do(deeds_spots.mark_lost(told.season, cells[3:4], SOWN + timedelta(days=20), "thinned"))
    early = living(told.season, SOWN + timedelta(days=50))
    assert (early.figure, early.seeds) == (pytest.approx(0.9), 0)
    found = living(told.season, SOWN + timedelta(days=51))
    assert (found.own, found.figure, found.seeds) == (
        pytest.approx(6 / 9),
        pytest.approx((18 + 6) / 29),
        9,
    )


def test_a_seedling_potted_up_is_counted_where_it_stands():
    told = grown()
    (cell, *_) = sow(told, FIRST, "Tray A", 9, up=1)
    rack = HolderMade(day=TODAY, holder="Rack 1", name="Rack 1", form="rack", rows=2, columns=2)
    told.do(Proposal("a rack", (rack,)))
    pot = SpotKey("Rack 1", 0, 0)
    told.do(deeds_spots.move(told.season, [cell], pot, SOWN + timedelta(days=30)))
    assert living(told.season, LATER).seeds == 1
    told.do(deeds_spots.mark_lost(told.season, [pot], SOWN + timedelta(days=60), "cold"))
    lost = living(told.season, LATER)
    assert (lost.seeds, lost.own) == (1, 0.0)
