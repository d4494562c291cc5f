"""The demo's germination tests at home: one that is over and one that runs, of packets that held enough."""

from datetime import date, datetime, time

import pytest

from greenroom.season.germination import germination
from greenroom.season.home_tests import home_tests
from greenroom.season.packets import packets, seeds_tested
from tests.season.demo_season import demo_season, own_demo


@pytest.fixture(scope="module")
def demo():
    return own_demo()


def season_on(demo, day):
    return demo_season(datetime.combine(day, time(9, 54), tzinfo=demo.zone))


def test_in_mid_may_one_test_is_over_and_another_runs(demo):
    season = season_on(demo, demo.day)
    assert sorted(test.over for test in home_tests(season)) == [False, True]
    assert all(10 <= test.seeds <= 100 for test in home_tests(season))
    assert all(0 < test.germinated < test.seeds for test in home_tests(season))


def test_a_test_that_is_over_has_its_say_in_what_is_expected(demo):
    season = season_on(demo, demo.day)
    over = next(test for test in home_tests(season) if test.over)
    expected = germination(season, over.packet, demo.day)
    assert expected.tested.came == over.germinated
    assert expected.prior.share < expected.share < over.germinated / over.seeds


def test_no_test_takes_seeds_that_the_packet_does_not_hold(demo):
    season = season_on(demo, demo.day)
    for view in packets(season):
        assert view.used + seeds_tested(season, view.key) <= view.packet.seeds


def test_before_it_is_set_no_test_is_known(demo):
    assert home_tests(season_on(demo, date(2027, 2, 5))) == ()
    (test,) = home_tests(season_on(demo, date(2027, 2, 15)))
    assert (test.germinated, test.over) == (6, False)
