"""What plants are fed: mixed by the label, at the strength of their stage, and summed over time."""

from datetime import date, timedelta

import pytest

from greenroom.ledger.facts import PlaceSet
from greenroom.season import deeds_care, deeds_plants, deeds_spots
from greenroom.season.deeds_care import Feed
from greenroom.season.feeding import (
    FRUIT,
    feed_for,
    for_fruit,
    given,
    leafy_after_flower,
    need_of,
)
from greenroom.season.feeding_mix import (
    GRAMS_IN_OUNCE,
    INJECTORS,
    LITRES_IN_GALLON,
    gram_words,
    mixed,
    teaspoon_words,
)
from greenroom.season.feeding_why import leafy_words, mix_why, need_why, record_why
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told

UP_ON = SOWN_ON + timedelta(8)
DAY = date(2027, 4, 10)
CELLS = [SpotKey("Tray A", 0, column) for column in range(6)]
BLUE = Feed("blue feed", 15, 5, 15, 100)
POTASH = Feed("red feed", 4, 2, 8, 150)


@pytest.fixture
def told():
    """Six annuums up in a tray, two true leaves seen on 4 April."""
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=46.0, longitude=0.0, zone="UTC")
    told.do(Proposal("set the place", (place,)))
    told.packet("Brass Bell", seeds=8)
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, CELLS, UP_ON))
    told.do(deeds_spots.set_leaves(told.season, CELLS, date(2027, 4, 4), 2))
    return told


def need(told, day=DAY):
    return need_of(told.season, told.season.holder("Tray A"), day)


def feed(told, day, what, litres=1.0):
    told.do(deeds_care.feed(told.season, "Tray A", day, what, litres))


def ounces(grams):
    return grams / GRAMS_IN_OUNCE


@pytest.mark.parametrize(
    ("percent", "ppm", "oz"),
    [
        (20, 200, 13.5),  # Virginia Tech extension, mixing table: 20 % N, 200 ppm
        (15, 200, 18.0),  # the same: 15 % N, 200 ppm
        (20, 100, 6.676),  # mass balance, exact
        (15, 50, 4.451),  # mass balance, exact
    ],
)
def test_a_hundred_gallons_take_what_the_mixing_tables_say(percent, ppm, oz):
    """The tables round to half an ounce; the exact mass is within 1.2 % of them."""
    found = ounces(mixed(percent, ppm, 100 * LITRES_IN_GALLON).grams)
    assert found == pytest.approx(oz, rel=0.012)


@pytest.mark.parametrize(
    ("percent", "ppm", "ratio", "oz_a_gallon"),
    [
        (20, 150, 200, 20.25),  # Cornell University (Mattson): 20-10-20, 150 ppm at 1:200
        (20, 200, 100, 13.5),  # 20-10-20, 200 ppm at 1:100: growers' trade press, 2018
        (15, 50, 100, 4.5),  # rate chart on a label of 15-5-15 at 1:100
        (15, 100, 100, 9.0),  # the same
        (15, 200, 100, 18.0),  # the same
        (15, 200, 200, 36.0),  # the same at 1:200
    ],
)
def test_a_stock_for_an_injector_is_as_strong_as_the_charts_say(percent, ppm, ratio, oz_a_gallon):
    """Rounded as the charts are; the exact mass is within 1.2 %."""
    assert mixed(percent, ppm, 1.0).stock_oz_gallon(ratio) == pytest.approx(oz_a_gallon, rel=0.012)


def test_two_hundred_ppm_at_a_hundred_is_a_stock_of_twenty_thousand():
    """Cornell University (Mattson): 200 ppm at 1:100 is a stock of 20,000 ppm N."""
    stock = mixed(20, 200, 1.0).stock_g_litre(100)
    assert stock * 1000 * 0.20 == pytest.approx(20_000)


def test_every_ratio_thins_to_the_same_feed():
    mix = mixed(15, 120, 4.0)
    assert [mix.stock_g_litre(ratio) / ratio for ratio in INJECTORS] == pytest.approx([0.8] * 4)
    assert mix.grams == pytest.approx(3.2)
    strong = mixed(4, 200, 1.0)
    assert [strong.too_strong(ratio) for ratio in INJECTORS] == [False, True, True, True]


@pytest.mark.parametrize(
    ("grams", "words"),
    [
        (0.5, "less than ¼ of a level teaspoon"),
        (1.2, "¼ of a level teaspoon"),
        (5.0, "¾ to 1¼ level teaspoons"),
        (10.0, "1¾ to 2½ level teaspoons"),
        (60.0, "10 to 15 level teaspoons"),
    ],
)
def test_spoons_are_told_as_a_span_in_quarters(grams, words):
    """A level teaspoon of soluble feed is taken for 4 to 6 g: from memory."""
    assert teaspoon_words(mixed(10, 100, grams)) == words


def test_grams_are_told_as_a_scale_weighs_them():
    assert [gram_words(grams) for grams in (0.054, 2.34, 1234.4)] == ["0.05 g", "2.3 g", "1,234 g"]


@pytest.mark.parametrize(
    ("percent", "ppm", "litres", "words"),
    [(0, 100, 1, "0 % N on the label"), (20, 9000, 1, "0 to 2,000"), (20, 100, 0, "0 L of water")],
)
def test_a_label_or_volume_that_cannot_be_is_refused_in_one_sentence(percent, ppm, litres, words):
    with pytest.raises(RefusedError, match=words):
        mixed(percent, ppm, litres)


def test_the_strength_follows_the_stage_and_names_its_source(told):
    """Guide: growers' plug text 50 ppm early, Utah State University Extension 100 ppm."""
    first = need(told)
    assert (first.stage, first.ppm_n, first.due) == ("seedling", 50, date(2027, 4, 4))
    assert "plug production" in need_why(first).sources[0]
    told.do(deeds_spots.set_leaves(told.season, CELLS, DAY, 4))
    second = need(told)
    assert (second.stage, second.ppm_n) == ("growing", 100)
    assert "Utah State" in need_why(second).sources[0]
    feed(told, DAY, BLUE)
    assert need(told).due == DAY + timedelta(7)


def test_seed_leaves_are_not_fed(told):
    told.do(deeds_spots.set_leaves(told.season, CELLS, DAY, 0))
    assert need(told) is None


def test_nitrogen_given_is_summed(told):
    """1 ppm is 1 mg in a litre: 100 ppm in 2 L is 0.2 g, 150 ppm in 1 L 0.15 g."""
    feed(told, DAY, BLUE, 2.0)
    feed(told, DAY + timedelta(7), POTASH)
    told_so = given(told.season, "Tray A")
    assert [one.sum_g for one in told_so] == pytest.approx([0.2, 0.35])
    why = record_why(told.season.holder("Tray A"), told_so, 6)
    assert "0.35 g of nitrogen" in why.figure


def test_leafy_feed_after_the_first_flower_is_warned_of_until_it_is_shifted(told):
    feed(told, DAY, BLUE)
    assert leafy_after_flower(told.season, "Tray A") is None
    told.do(deeds_plants.mark_flower(told.season, CELLS[:1], DAY + timedelta(5)))
    assert leafy_after_flower(told.season, "Tray A") is None
    feed(told, DAY + timedelta(7), BLUE)
    warned = leafy_after_flower(told.season, "Tray A")
    assert warned is not None
    assert "blue feed (15-5-15) on 17 April" in leafy_words(told.season.holder("Tray A"), warned)
    feed(told, DAY + timedelta(8), POTASH)
    assert leafy_after_flower(told.season, "Tray A") is None
    assert for_fruit(feed_for(told.season, FRUIT, 150))


def test_why_tells_the_label_the_water_and_every_stock():
    why = mix_why(mixed(20, 100, 4.0), Feed("blue feed", 20, 20, 20, 100))
    assert why.figure == "2.0 g of blue feed"
    assert dict(why.inputs)["stock for 1:100"] == "50 g a litre"
    assert any("Cornell" in source for source in why.sources)
