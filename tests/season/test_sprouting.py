"""Whether bare cells are worth sowing again: worked through by hand, and never against the evidence."""

from datetime import date, timedelta
from math import log, sqrt
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from scipy.stats import beta

from greenroom.ledger.facts import GerminationTest
from greenroom.season import deeds_spots, deeds_tests
from greenroom.season.crops import Pace
from greenroom.season.lots import Seed, Share, due_days, half_day, seeds_of
from greenroom.season.proposal import Proposal
from greenroom.season.resow import resow_advice
from greenroom.season.spots import SpotKey
from greenroom.season.sprouting import expected_pace, expected_share, sprout_curve, tabled_spread
from tests.season.told import SOWN_ON, Told

NORMAL = NormalDist()
TEN_CELLS = [SpotKey("Tray A", row, column) for row in range(2) for column in range(5)]


def day(number):
    return SOWN_ON + timedelta(number)


def tray(germination=0.8, mix_c=25.0, rows=2, columns=5):
    told = Told()
    told.packet("Brass Bell", germination=germination)
    told.holder("Tray A", rows=rows, columns=columns, mix_c=mix_c)
    return told


@pytest.fixture
def worked():
    """Ten seeds, 80 % on the label, at 25 °C; six of them up on days 7, 8, 8, 9, 9 and 10."""
    told = tray()
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    for cell, number in zip(TEN_CELLS, (7, 8, 8, 9, 9, 10), strict=False):
        told.do(deeds_spots.mark_up(told.season, [cell], day(number)))
    return told


def test_the_chance_of_a_bare_cell_as_worked_by_hand(worked):
    """Step by step, from the published days and the rules stated in the reasons.

    Expected up: 80 % of 10, so half of them is 4. Bare by Kaplan and Meier (no seed is censored before
    day 14): 0.9 after day 7, 0.7 after day 8, 0.5 after day 9. At most 0.6 bare is first so on day 9.
    From then on the lot goes by its own day 9 and the spread within a lot, 0.25: 19 in 20 are up by
    9 exp(1.645 x 0.25) = 13.6 days, so on day 14 all ten had time, and six came: the share is
    (20 x 0.8 + 6) / (20 + 10) = 22/30. Of seeds that come, the share still to come on day 14 is
    S = 1 - Phi(ln(14/9) / 0.25); the chance is v S / (1 - v (1 - S)).
    """
    (advice,) = resow_advice(worked.season, "Tray A", day(14))
    share = 22 / 30
    still = 1 - NORMAL.cdf(log(14 / 9) / 0.25)
    one = share * still / (1 - share * (1 - still))
    assert one == pytest.approx(0.096, abs=0.001)
    assert advice.expected_days == 9
    assert advice.chance == pytest.approx(1 - (1 - one) ** 4)
    assert advice.worth_it
    told = dict(advice.why.inputs)
    assert told["half of what was expected was up here"] == "day 9"
    assert told["of the lot's own seeds that had time"] == "6 of 10 came up"
    assert told["share expected ever to come up"] == "73 %"
    assert told["chance for one cell"] == "10 %"


def test_before_the_lot_has_shown_its_pace_the_published_days_count_with_their_doubt():
    """Pepper at 25 °C: 8 days (Harrington and Minges 1954), nine lots in ten within 0.7 to 1.3 of it."""
    told = tray()
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, TEN_CELLS[:1], day(7)))
    (advice,) = resow_advice(told.season, "Tray A", day(7))
    between = log(1.3 / 0.7) / (2 * 1.645)
    spread = sqrt(0.25**2 + between**2)
    still = 1 - NORMAL.cdf(log(7 / 8) / spread)
    one = 0.8 * still / (1 - 0.8 * (1 - still))
    assert advice.expected_days == 8
    assert dict(advice.why.inputs)["of the lot's own seeds that had time"] == "none had yet"
    assert advice.chance == pytest.approx(1 - (1 - one) ** 9)
    assert not advice.worth_it


def test_reasons_name_every_source(worked):
    (advice,) = resow_advice(worked.season, "Tray A", day(14))
    for author in ("Harrington", "Kaplan", "Onofri"):
        assert any(author in source for source in advice.why.sources)


def test_a_variety_without_a_crop_says_what_it_is_taken_for(worked):
    (advice,) = resow_advice(worked.season, "Tray A", day(14))
    assert "taken for annuum pepper" in dict(advice.why.inputs)["crop"]


def test_no_advice_where_nothing_is_known():
    """Pepper at 10 °C: none came up (Harrington and Minges 1954); and a tray of unknown warmth."""
    for mix_c in (10.0, None):
        told = tray(mix_c=mix_c)
        told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
        assert resow_advice(told.season, "Tray A", day(40)) == []
        assert expected_pace(told.season, "Tray A", "p-Brass Bell") is None
        curve = sprout_curve(told.season, "Tray A", day(40))
        assert curve.early is None
        assert curve.late is None


def test_what_the_lot_did_in_another_tray_counts(worked):
    """Share: 20 seeds' worth of the label's 0.8, and 6 of 10 in the other tray, all of which had time."""
    worked.holder("Tray B", rows=1, columns=2, mix_c=25.0)
    cells = [SpotKey("Tray B", 0, column) for column in range(2)]
    worked.do(deeds_spots.sow(worked.season, "p-Brass Bell", cells, day(30)))
    advice = resow_advice(worked.season, "Tray B", day(31))[0]
    assert dict(advice.why.inputs)["of the lot's own seeds that had time"] == "6 of 10 came up"
    assert dict(advice.why.inputs)["share expected ever to come up"] == "73 %"


def test_seeds_lost_before_their_time_are_no_evidence_against_the_lot(worked):
    for cell in TEN_CELLS[6:]:
        worked.do(deeds_spots.mark_lost(worked.season, [cell], day(5), "dried out"))
    spare = SpotKey("Tray B", 0, 0)
    worked.holder("Tray B", rows=1, columns=1, mix_c=25.0)
    worked.do(deeds_spots.sow(worked.season, "p-Brass Bell", [spare], day(20)))
    (advice,) = resow_advice(worked.season, "Tray B", day(21))
    assert dict(advice.why.inputs)["of the lot's own seeds that had time"] == "6 of 6 came up"


def test_seed_that_was_up_on_the_day_it_was_sown_breaks_nothing(worked):
    """Seed that had sprouted on moist paper is up as soon as it is set."""
    worked.holder("Tray B", rows=1, columns=4, mix_c=25.0)
    cells = [SpotKey("Tray B", 0, column) for column in range(4)]
    worked.do(deeds_spots.sow(worked.season, "p-Brass Bell", cells, day(20)))
    worked.do(deeds_spots.mark_up(worked.season, cells[:3], day(20)))
    (advice,) = resow_advice(worked.season, "Tray B", day(20))
    assert advice.expected_days == 0.5
    assert 0 <= advice.chance <= 1
    assert sprout_curve(worked.season, "Tray B", day(20)).count == 3


def test_a_cell_lost_and_sown_anew_tells_of_its_new_seed_only(worked):
    """Of the ten, four bare ones are given up on day 14 and one of them sown anew: it counts once."""
    for cell in TEN_CELLS[6:]:
        worked.do(deeds_spots.mark_lost(worked.season, [cell], day(14), "did not come up"))
    worked.do(deeds_spots.sow(worked.season, "p-Brass Bell", TEN_CELLS[9:], day(20)))
    seeds = seeds_of(worked.season, "p-Brass Bell", TEN_CELLS, day(21))
    assert sorted((seed.age, seed.day, seed.up) for seed in seeds if not seed.up) == [
        (1, 1, False),
        (21, 14, False),
        (21, 14, False),
        (21, 14, False),
    ]


def test_a_cell_sown_twice_goes_by_its_latest_sowing(worked):
    cell = TEN_CELLS[9]
    worked.do(deeds_spots.sow(worked.season, "p-Brass Bell", [cell], day(20)))
    assert worked.season.spot(cell).sown_on == day(20)
    (advice,) = resow_advice(worked.season, "Tray A", day(22))
    assert cell in advice.cells
    assert not advice.worth_it


@given(st.integers(0, 60), st.integers(0, 60), st.floats(0.05, 1.0))
def test_the_longer_a_cell_stays_bare_the_less_likely_it_is(one, other, germination):
    sooner, later = sorted((one, other))
    told = tray(germination)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    chances = [resow_advice(told.season, "Tray A", day(age))[0].chance for age in (sooner, later)]
    assert chances[1] <= chances[0] + 1e-12


@given(st.lists(st.tuples(st.integers(0, 60), st.booleans()), min_size=1, max_size=40))
def test_half_up_is_read_off_kaplan_and_meiers_curve(seeds):
    """Expected: lifelines' KaplanMeierFitter, the first day with at most 60 % bare."""
    fitted = KaplanMeierFitter().fit([age for age, _ in seeds], [up for _, up in seeds])
    curve = fitted.survival_function_["KM_estimate"]
    reached = curve[(curve <= 0.6 + 1e-12) & (curve.index >= 0)]
    found = half_day([Seed(60, age, up) for age, up in seeds], 0.8)
    # Up on the very day they were sown, they took half a day.
    assert found == (None if reached.empty else max(reached.index[0], 0.5))


@given(st.floats(0, 1), st.integers(0, 100), st.integers(0, 100))
def test_the_share_is_the_mean_of_a_beta_distribution(label, one, other):
    """Expected: scipy.stats.beta, started at the label with the weight of 20 seeds."""
    came, tried = sorted((one, other))
    share = Share(label, came, tried).expected
    assert 0 <= share <= 1
    a, b = 20 * label + came, 20 * (1 - label) + tried - came
    if a > 0 and b > 0:
        assert share == pytest.approx(beta(a, b).mean())


def test_the_spread_of_a_span_puts_nine_lots_in_ten_inside_it():
    """0.05 and 0.95 quantiles of a log-normal lie 1.645 standard deviations from its median."""
    pace = Pace(sqrt(280), 10, 28, False, "", ())
    between = sqrt(tabled_spread(pace) ** 2 - 0.25**2)
    assert NORMAL.cdf(log(28 / pace.days) / between) == pytest.approx(0.95, abs=1e-4)


def test_the_day_they_are_due_leaves_one_viable_seed_in_twenty():
    pace = Pace(8, 5.6, 10.4, True, "", ())
    due = due_days(pace.days, tabled_spread(pace))
    assert NORMAL.cdf(log(due / 8) / tabled_spread(pace)) == pytest.approx(0.95, abs=1e-4)


@given(st.floats(0, 1), st.floats(15, 35), st.integers(1, 70))
def test_the_band_rises_from_nothing_to_the_share_expected(germination, mix_c, today):
    told = tray(germination, mix_c)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    curve = sprout_curve(told.season, "Tray A", day(today))
    share = expected_share(told.season, "Tray A", "p-Brass Bell")
    for edge in (curve.early, curve.late):
        assert edge[0] == 0
        assert np.all(np.diff(edge) >= -1e-12)
        assert np.all(edge <= share + 1e-12)
    assert np.all(curve.late <= curve.early + 1e-12)


def test_half_of_those_expected_are_up_on_the_edges_of_the_band_at_the_days_known():
    """Pepper at 25 °C: 8 days, good to 30 % (5.6 to 10.4 days): Harrington and Minges 1954."""
    told = tray(0.9, 25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    curve = sprout_curve(told.season, "Tray A", day(5))
    assert np.interp(5.6, curve.axis, curve.early) == pytest.approx(0.45, abs=0.005)
    assert np.interp(10.4, curve.axis, curve.late) == pytest.approx(0.45, abs=0.005)


def test_the_curve_counts_every_mark_and_every_seed(worked):
    curve = sprout_curve(worked.season, "Tray A", day(14))
    assert (curve.start, curve.seeds, curve.count) == (SOWN_ON, 10, 6)
    assert list(zip(curve.days, curve.up, strict=True)) == [(7, 1), (8, 3), (9, 5), (10, 6)]
    assert curve.share == 0.6


def test_a_tray_nothing_was_sown_in_has_no_curve():
    told = tray()
    told.do(Proposal("nothing", ()))
    assert sprout_curve(told.season, "Tray A", date(2027, 5, 1)) is None
    assert resow_advice(told.season, "Tray A", date(2027, 5, 1)) == []


def test_a_germination_test_at_home_counts_as_the_lots_own_seeds():
    """Ten seeds of 80 % on the label, none up by day 7, all too young to count; of 20 tested 5 germinated:
    (20 x 0.8 + 5) / (20 + 20) = 21/40. The test is over with its look on day 14 (7 CFR 201.58)."""
    told = tray()
    told.do(deeds_tests.begin_test(told.season, "p-Brass Bell", 20, day(-20)))
    test = told.season.facts(GerminationTest)[0].test
    told.do(deeds_tests.count_test(told.season, test, day(-12), 5))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", TEN_CELLS, SOWN_ON))
    (before,) = resow_advice(told.season, "Tray A", day(7))
    assert dict(before.why.inputs)["share expected ever to come up"] == "80 %"
    told.do(deeds_tests.count_test(told.season, test, day(-6), 0))
    (after,) = resow_advice(told.season, "Tray A", day(7))
    inputs = dict(after.why.inputs)
    assert inputs["of the lot's own seeds that had time"] == "5 of 20 came up"
    assert inputs["share expected ever to come up"] == f"{21 / 40 * 100:.0f} %"
    assert after.seeds > before.seeds
