"""What share of a packet comes up: worked by hand, against scipy, and against the viability equation."""

from datetime import date, timedelta

import pytest
from scipy.stats import beta, norm

from greenroom.ledger.facts import GerminationTest
from greenroom.season import deeds_spots, deeds_tests
from greenroom.season.germination import aged_share, germination
from greenroom.season.germination_why import germination_why, share_words
from greenroom.season.packets import packet_view
from greenroom.season.spots import SpotKey
from tests.season.plan_ground import BELL, TODAY, Kind, ground

BELL_PACKET = "p-Brass Bell"
SOWN = date(2027, 1, 10)
LONG_AFTER = date(2027, 4, 1)


def kind(**changed):
    return Kind(**{"name": "Brass Bell", "crop": "bell", "ripe": 88, **changed})


def set_test(told, seeds=20, counts=((14, 16),), warmth_c=25.0, begun=TODAY):
    told.do(deeds_tests.begin_test(told.season, BELL_PACKET, seeds, begun, warmth_c))
    test = told.season.facts(GerminationTest)[-1].test
    for after, count in counts:
        told.do(deeds_tests.count_test(told.season, test, begun + timedelta(days=after), count))
    return test


def expected(told, today=LONG_AFTER):
    return germination(told.season, BELL_PACKET, today)


def test_a_fresh_label_counts_as_twenty_seeds():
    """By hand: Beta(20 x 0.85, 20 x 0.15) = Beta(17, 3), of mean 0.85; its quantiles by scipy.stats.

    That a label weighs as much as 20 seeds is a working rule of this program.
    """
    found = expected(ground(kind(packed=2027)), date(2027, 2, 1))
    assert (found.alpha, found.beta) == (pytest.approx(17), pytest.approx(3))
    assert found.share == pytest.approx(0.85)
    assert (found.low, found.high) == (
        pytest.approx(beta(17, 3).ppf(0.05)),
        pytest.approx(beta(17, 3).ppf(0.95)),
    )


def test_a_home_test_moves_the_label_seed_by_seed():
    """By hand: Beta(17, 3) and 8 of 20: Beta(17 + 8, 3 + 12) has the mean 25/40."""
    told = ground(kind(packed=2027))
    set_test(told, counts=((7, 5), (14, 3)))
    found = expected(told)
    assert found.share == pytest.approx(25 / 40)
    assert (found.tested.came, found.tested.tried) == (8, 20)
    assert found.low == pytest.approx(beta(25, 15).ppf(0.05))


def test_a_test_counts_once_it_is_over():
    """Pepper: last count on day 14 (7 CFR 201.58, Table 2). The last look decides, and may count none."""
    told = ground(kind(packed=2027))
    test = set_test(told, counts=((7, 4), (13, 2)))
    assert expected(told).tested.tried == 0
    told.do(deeds_tests.count_test(told.season, test, TODAY + timedelta(days=14), 0))
    assert (expected(told).tested.came, expected(told).tested.tried) == (6, 20)


def test_a_test_is_over_when_every_seed_is_up():
    told = ground(kind(packed=2027))
    set_test(told, seeds=10, counts=((6, 10),))
    assert expected(told, TODAY + timedelta(days=6)).share == pytest.approx((17 + 10) / 30)


def test_seeds_that_the_warmth_keeps_down_do_not_speak_of_the_lot():
    """At 15 °C 70 % of pepper seed gives normal seedlings where 98 % do at 25 (Harrington and Minges 1954):
    of 20 seeds there, 20 x 70/98 = 14.3 had the warmth to come up."""
    told = ground(kind(packed=2027))
    set_test(told, counts=((14, 10),), warmth_c=15.0)
    found = expected(told)
    assert found.tested.tried == pytest.approx(20 * 70 / 98)
    assert found.share == pytest.approx((17 + 10) / (20 + 20 * 70 / 98))


def test_own_sowings_that_had_time_count_and_others_wait():
    """Ten cells at 25 °C: half up on day 8 (Harrington and Minges 1954), 19 in 20 by 8 exp(1.645 s) days."""
    told = ground(kind(packed=2027), mix_c=25.0)
    cells = [SpotKey("Tray A", row, column) for row in range(2) for column in range(5)]
    told.do(deeds_spots.sow(told.season, BELL_PACKET, cells, SOWN))
    for cell in cells[:6]:
        told.do(deeds_spots.mark_up(told.season, [cell], SOWN + timedelta(days=9)))
    assert expected(told, SOWN + timedelta(days=12)).sown.tried == 0
    found = expected(told, SOWN + timedelta(days=40))
    assert (found.sown.came, found.sown.tried) == (6, 10)
    assert found.share == pytest.approx((17 + 6) / 30)
    told.do(deeds_spots.mark_lost(told.season, cells[6:7], SOWN + timedelta(days=3), "eaten"))
    assert expected(told, SOWN + timedelta(days=40)).sown.tried == 9  # nobody knows what it would have done


def test_age_is_brought_in_on_the_probit_scale():
    """By hand: over pepper's 2 years (lists after Knott) 85 % comes down to the lawful 55 % (7 CFR 201.31):
    probit(0.85) - probit(0.55) = 1.0364 - 0.1257 = 0.9108, so 0.4554 a year."""
    for years in (0, 1, 2, 3, 5):
        assert aged_share(0.85, years, 2.0, 0.55) == pytest.approx(
            norm.cdf(1.03643 - 0.45538 * years), abs=2e-5
        )
    found = expected(ground(kind(packed=2025)), date(2027, 2, 1))
    assert found.prior.share == pytest.approx(0.55, abs=1e-4)
    assert (found.prior.age, found.prior.weight) == (2, 10.0)


def test_seed_ages_as_the_viability_equation_has_it_in_a_room():
    """Ellis and Roberts' equation with the constants for Capsicum annuum (Demir and others 2009: KE 7.767,
    CW 4.67, CH 0.0329, CQ 0.000478) gives sigma in days a probit; a drawer at 20 °C holds seed of 7 to 8 %
    moisture. The rule here must lie between the two."""

    def sigma(moisture, celsius):
        from math import log10

        return 10 ** (7.767 - 4.67 * log10(moisture) - 0.0329 * celsius - 0.000478 * celsius**2)

    assert (sigma(7, 20), sigma(8, 20)) == (pytest.approx(935.8, abs=0.1), pytest.approx(501.6, abs=0.1))
    own = 365.25 / (norm.ppf(0.85) - norm.ppf(aged_share(0.85, 1, 2.0, 0.55)))
    assert sigma(8, 20) < own < sigma(7, 20)


def test_a_crop_whose_seed_life_is_not_in_the_guide_does_not_age():
    told = ground(Kind("Cosmos", "cosmos", packed=2015))
    found = germination(told.season, "p-Cosmos", TODAY)
    assert found.share == pytest.approx(0.85)
    why = germination_why(told.season, found, TODAY)
    assert "its age is left out" in why.rule


def test_a_label_of_everything_or_nothing_is_not_taken_at_its_word():
    for label, low, high in ((1.0, 0.9, 0.999), (0.0, 0.001, 0.1)):
        found = expected(ground(kind(packed=2027, germination=label)), date(2027, 2, 1))
        assert low < found.share < high


def test_without_a_label_the_usual_is_taken_and_said_so():
    told = ground(kind(packed=None, germination=None))
    found = expected(told)
    assert found.share == pytest.approx(0.85)
    inputs = dict(germination_why(told.season, found, TODAY).inputs)
    assert inputs["the label says"] == "nothing; 85 % is taken, a working rule"
    assert inputs["packed"] == "not known, so its age is left out"


def test_it_is_told_how_likely_a_lot_lies_below_what_may_be_sold():
    """Pepper seed for sale germinates 55 % (7 CFR 201.31); Beta(17, 3) lies below it with scipy's chance."""
    found = expected(ground(kind(packed=2027)), date(2027, 2, 1))
    assert found.least == 0.55
    assert found.below == pytest.approx(beta(17, 3).cdf(0.55))
    told = ground(Kind("Marigold", "french-marigold"))
    marigold = germination(told.season, "p-Marigold", TODAY)
    assert (marigold.least, marigold.below) == (None, None)


def test_the_reasons_tell_every_part_and_its_source():
    told = ground(kind(packed=2025))
    set_test(told, counts=((14, 8),))
    set_test(told, seeds=10, counts=((3, 1),), begun=TODAY + timedelta(days=30))
    today = TODAY + timedelta(days=40)
    found = expected(told, today)
    why = germination_why(told.season, found, today)
    inputs = dict(why.inputs)
    assert why.figure == share_words(found)
    assert inputs["test of 5 January at 25 °C"] == "8 of 20 (19 % to 64 %, 95 % interval)"  # Clopper-Pearson
    assert inputs["test of 4 February at 25 °C"] == "1 of 10 so far; counted in when it ends on 18 February"
    assert inputs["after 2 years"] == "55 %"
    assert inputs["such seed keeps"] == "2 years"
    for author in ("Knott", "Ellis", "Federal Seed Act", "Clopper", "Gelman"):
        assert any(author in source for source in why.sources), author


def test_a_test_that_waits_for_its_last_count_says_so():
    told = ground(kind(packed=2027))
    set_test(told, counts=((3, 1),))
    why = germination_why(told.season, expected(told), LONG_AFTER)
    assert dict(why.inputs)["test of 5 January at 25 °C"].endswith("waits for its last count, which may be 0")


def test_seeds_set_in_a_test_are_not_left_in_the_packet():
    told = ground(kind(packed=2027, seeds=30))
    set_test(told, seeds=12, counts=())
    view = packet_view(told.season, BELL_PACKET)
    assert (view.left, view.used) == (18, 0)


def test_there_is_nothing_to_expect_of_a_packet_that_is_gone():
    told = ground(BELL)
    assert germination(told.season, "p-nobody", TODAY) is None
