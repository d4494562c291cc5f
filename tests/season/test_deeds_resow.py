"""Sowing again puts the advised seeds into the bare cells, and no more than the packet holds."""

from datetime import date, timedelta

import pytest
from scipy.stats import binom

from greenroom.season import deeds_spots
from greenroom.season.deeds_resow import sow_again
from greenroom.season.proposal import RefusedError
from greenroom.season.resow import resow_advice
from tests.season.told import SOWN_ON, Told, spot

TODAY = SOWN_ON + timedelta(30)
CELLS = [spot("Tray A", label) for label in ("A1", "A2", "A3", "A4")]


@pytest.fixture
def told():
    told = Told()
    told.packet("Brass Bell", seeds=12, germination=0.8)
    told.holder("Tray A", mix_c=25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, CELLS[:1], date(2027, 3, 20)))
    return told


def test_the_seeds_are_shared_out_over_the_bare_cells(told):
    """The least n with P(Binomial(n, share) >= 3) >= 0.95, by scipy.stats.binom.

    The share: the label's 0.8 with the weight of 20 seeds, and 1 of the 4 sown that came up.
    """
    (advice,) = resow_advice(told.season, "Tray A", TODAY)
    share = (20 * 0.8 + 1) / (20 + 4)
    least = next(n for n in range(3, 30) if binom.sf(2, n, share) >= 0.95)
    told.do(sow_again(told.season, advice, TODAY))
    waiting = [told.season.spot(key).waiting - 1 for key in CELLS[1:]]
    assert sum(waiting) == least
    assert max(waiting) - min(waiting) <= 1
    assert told.season.spot(CELLS[0]).waiting == 0


def test_no_more_seeds_are_sown_than_the_packet_holds(told):
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", [spot("Tray A", "F1")], SOWN_ON, seeds=6))
    advice = resow_advice(told.season, "Tray A", TODAY)[0]
    with pytest.raises(RefusedError, match="has 2 seeds left"):
        sow_again(told.season, advice, TODAY)


def test_nothing_is_sown_where_all_came_up_in_the_meantime(told):
    (advice,) = resow_advice(told.season, "Tray A", TODAY)
    told.do(deeds_spots.mark_up(told.season, CELLS, TODAY))
    with pytest.raises(RefusedError, match="No cell of Brass Bell is bare any more"):
        sow_again(told.season, advice, TODAY)
