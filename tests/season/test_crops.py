"""How long a crop takes to come up agrees with the published table, and never pretends to know."""

from math import sqrt

import numpy as np
import pytest

from greenroom.agronomy.sprouting import days_to_emerge
from greenroom.guide import load_guide
from greenroom.season.crops import crop_words, pace_of, share_at

# Names of the crops in the published table and the guide's keys for them.
TABLED = {
    "asparagus": "asparagus",
    "beet": "beet",
    "cabbage": "cabbage",
    "cauliflower": "cauliflower",
    "celery": "celery",
    "cucumber": "cucumber",
    "eggplant": "aubergine",
    "lettuce": "lettuce",
    "muskmelon": "melon",
    "okra": "okra",
    "onion": "onion",
    "parsley": "parsley",
    "pea": "pea",
    "pepper": "capsicum-annuum",
    "snap bean": "snap-bean",
    "spinach": "spinach",
    "sweet corn": "sweet-corn",
    "tomato": "tomato",
    "watermelon": "watermelon",
}


@pytest.fixture(scope="module")
def guide():
    return load_guide()


@pytest.mark.parametrize(
    ("crop", "mix_c", "days"),
    [("bell", 25, 8), ("bell", 20, 13), ("bell", 15, 25), ("tomato", 30, 6), ("aubergine", 20, 13)],
)
def test_on_a_tabled_temperature_the_days_are_the_published_ones(guide, crop, mix_c, days):
    """Harrington, J. F. and Minges, P. A. 1954: days from sowing to emergence."""
    assert pace_of(guide, crop, mix_c).days == pytest.approx(days, abs=1e-9)


@pytest.mark.parametrize(("row", "key"), TABLED.items())
def test_between_the_lines_the_days_are_those_of_the_agronomy(guide, row, key):
    """The same table is kept in two places, each read in its own; they must tell the same."""
    for celsius in np.arange(0.0, 40.5, 0.5):
        expected = days_to_emerge(float(celsius), row)
        pace = pace_of(guide, key, float(celsius))
        assert (pace is None) == (expected is None)
        if pace is not None:
            assert pace.days == pytest.approx(expected, rel=1e-12)


def test_a_chinense_is_not_expected_as_early_as_the_annuum_of_the_table(guide):
    """10 to 28 days in good warmth, growers' texts from memory; a span's middle is its geometric mean."""
    pace = pace_of(guide, "habanero", 27.0)
    assert (pace.early, pace.late) == (10, 28)
    assert pace.days == pytest.approx(sqrt(10 * 28))
    assert "Common growing practice" in pace.sources[0]
    assert "from memory" in pace.sources[0]


def test_a_chinense_in_cool_mix_is_slowed_down_as_an_annuum_is(guide):
    """Pepper at 20 °C takes 13 days, at its best 8: Harrington and Minges 1954."""
    pace = pace_of(guide, "habanero", 20.0)
    assert pace.days == pytest.approx(sqrt(10 * 28) * 13 / 8)
    assert "1.62 times as long" in pace.rule
    assert "Harrington" in pace.sources[1]


def test_a_wild_annuum_takes_the_days_written_for_its_kind(guide):
    """Half of what came up was up in 10 to 26 days: abstract of a study of wild peppers, 2019."""
    assert (pace_of(guide, "chiltepin", 25.0).early, pace_of(guide, "chiltepin", 25.0).late) == (10, 26)


def test_a_crop_without_kin_in_the_table_is_known_in_its_best_warmth_only(guide):
    """Basil comes up in 5 to 10 days at 21 to 27 °C: common practice, no source."""
    assert (pace_of(guide, "basil", 22.0).early, pace_of(guide, "basil", 22.0).late) == (5, 10)
    assert pace_of(guide, "basil", 15.0) is None


def test_no_crop_is_taken_for_an_annuum_and_a_strange_one_for_nothing(guide):
    assert pace_of(guide, None, 25.0) == pace_of(guide, "capsicum-annuum", 25.0)
    assert pace_of(guide, "pepper", 25.0) == pace_of(guide, "capsicum-annuum", 25.0)
    assert pace_of(guide, "moonflower", 25.0) is None
    assert "taken for" in crop_words(guide, None)
    assert "not in the guide" in crop_words(guide, "moonflower")
    assert crop_words(guide, "bell") == "Bell pepper"


def test_where_none_came_up_nothing_is_expected(guide):
    """Pepper: none at 10 and at 40 °C, Harrington and Minges 1954."""
    assert pace_of(guide, "bell", 10.0) is None
    assert pace_of(guide, "bell", 40.0) is None
    assert pace_of(guide, "bell", None) is None


def test_every_crop_of_the_guide_is_told_or_known_to_be_unknown(guide):
    for crop in guide.crops:
        for celsius in (-5.0, 0.0, 12.0, 18.0, 24.0, 30.0, 45.0):
            pace = pace_of(guide, crop.key, celsius)
            if pace is not None:
                assert 0 < pace.early < pace.days < pace.late
                assert all(pace.sources)
            assert 0 <= share_at(guide, crop.key, celsius) <= 1


@pytest.mark.parametrize(("mix_c", "percent"), [(15, 70), (25, 98), (35, 70), (40, 0)])
def test_cold_or_hot_mix_costs_seedlings_as_published(guide, mix_c, percent):
    """Pepper, percent normal seedlings at a temperature, 98 at the best: Harrington and Minges 1954."""
    assert share_at(guide, "bell", mix_c) == pytest.approx(percent / 98)
