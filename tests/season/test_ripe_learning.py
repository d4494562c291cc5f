"""How far own ripe picks move the stated heat to ripe: by hand, and on a place's own weather."""

from datetime import date, timedelta
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import HolderMade, Lost, Moved, Picked, Sown, Sprouted, WeatherDay
from greenroom.season.plan import plan_of
from greenroom.season.plan_why import odds_why
from greenroom.season.proposal import Proposal
from greenroom.season.ripe_learning import ripe_of_variety, ripening_of, shrunk, together
from tests.season.plan_ground import BELL, YEAR, champion_days, ground

STATED = 88 * 11.0  # days on the packet, each (27 + 15) / 2 - 10 °C·d, as in test_plan.py
OUT = date(2026, 6, 1)
NOW = date(2027, 1, 5)
EVEN = tuple(WeatherDay(date(2026, 5, 1) + timedelta(days=day), 16.0, 28.0) for day in range(200))
"""Days of (16 + 28) / 2 - 10 = 12 °C·d."""


def garden(days=EVEN):
    told = ground(BELL, days=days, today=date(2026, 1, 5), year=YEAR)
    bed = HolderMade(day=date(2026, 5, 1), holder="bed", name="Bed", form="bed", rows=2, columns=8)
    told.do(Proposal("a bed", (bed,)))
    return told


def raise_plant(told, column, picked_after, ripeness="ripe", out=OUT, single=True):
    at = {"holder": "Tray A", "row": 0, "column": column}
    where = {"holder": "bed", **({"row": 0, "column": column} if single else {})}
    picked = out + timedelta(days=picked_after)
    facts = (
        Sown(day=out - timedelta(days=92), packet="p-Brass Bell", **at),
        Sprouted(day=out - timedelta(days=80), **at),
        Moved(day=out, to_holder="bed", to_row=0, to_column=column, **at),
        Picked(day=picked, variety="Brass Bell", count=2, ripeness=ripeness, **where),
    )
    told.do(Proposal("a plant", facts))
    lost = Lost(day=picked + timedelta(days=40), holder="bed", row=0, column=column, cause="frost")
    told.do(Proposal("the end", (lost,)))


def test_a_normal_mean_with_known_variance_as_worked_by_hand():
    """Gelman et al. 2013, Bayesian Data Analysis, section 2.5: mean (m0/t0² + n·y/s²) / (1/t0² + n/s²),
    variance its denominator's inverse. Prior 100 with deviation 20, four measurements of deviation 10 with
    mean 117: (100/400 + 4·117/100) / (1/400 + 4/100) = 4.93 / 0.0425 = 116.0, variance 23.53."""
    mean, variance = together(100.0, 400.0, 117.0, 4 / 100)
    assert (mean, variance) == (pytest.approx(116.0), pytest.approx(23.529, abs=1e-3))


def test_one_season_counts_as_worked_by_hand():
    """Stated 1000, so deviations 150 (prior), 80 (season), 100 (plant). Four plants of mean 1200: variance
    80² + 100²/4 = 8900; (1000/22500 + 1200/8900) / (1/22500 + 1/8900) = 1143.3 (same source)."""
    found = shrunk(1000.0, [[1150.0, 1250.0, 1180.0, 1220.0]])
    assert (found.guide, found.own, found.seeds) == (1000.0, pytest.approx(1200.0), 4)
    assert found.figure == pytest.approx(1143.3, abs=0.05)
    deviation = 1 / sqrt(1 / 22500 + 1 / 8900)
    assert found.high - found.figure == pytest.approx(1.645 * deviation, rel=1e-3)  # nine in ten of a normal


@given(st.floats(600, 1900), st.integers(1, 20), st.integers(1, 5), st.sampled_from(["plants", "seasons"]))
def test_more_picks_lie_nearer_to_the_growers_own(heat, plants, seasons, more):
    few = shrunk(1000.0, [[heat] * plants] * seasons)
    many = shrunk(1000.0, [[heat] * (plants + (more == "plants"))] * (seasons + (more == "seasons")))
    assert abs(many.figure - heat) <= abs(few.figure - heat) + 1e-9
    assert many.high - many.low < few.high - few.low
    assert min(1000, heat) - 1e-9 <= many.figure <= max(1000, heat) + 1e-9


def test_without_ripe_picks_the_stated_heat_stands_exactly():
    told = garden()
    raise_plant(told, 0, 60, ripeness="green")
    found = ripe_of_variety(told.season, "Brass Bell", NOW)
    assert (found.guide, found.own, found.figure, found.seeds) == (STATED, None, STATED, 0)


def test_own_heat_is_that_of_the_days_from_setting_out_to_the_first_ripe_pick():
    told = garden()
    raise_plant(told, 0, 99)
    later = Picked(day=date(2026, 9, 25), variety="Brass Bell", count=1, holder="bed", row=0, column=0)
    told.do(Proposal("again", (later,)))
    found = ripening_of(told.season, "Brass Bell", NOW)
    assert [(plant.days, plant.heat) for plant in found.plants] == [(99, pytest.approx(100 * 12))]
    assert (found.learned.own, found.own_days) == (pytest.approx(1200), 99)


def test_a_pick_told_of_a_whole_bed_counts_as_one_plant():
    told = garden()
    raise_plant(told, 0, 99, single=False)
    raise_plant(told, 1, 105, single=False)
    found = ripening_of(told.season, "Brass Bell", NOW)
    assert [plant.days for plant in found.plants] == [99]


@pytest.mark.parametrize("single", [True, False], ids=["plant by plant", "bed by bed"])
def test_a_place_planted_anew_keeps_what_the_plant_before_it_showed(single):
    told = garden()
    raise_plant(told, 0, 99, single=single)
    raise_plant(told, 0, 80, out=date(2027, 6, 1), single=single)
    found = ripening_of(told.season, "Brass Bell", date(2027, 12, 1))
    assert [(plant.set_out.year, plant.days) for plant in found.plants] == [(2026, 99), (2027, 80)]
    assert found.learned.seeds == 1  # there is no weather of the second summer


@pytest.mark.parametrize(("gap", "known"), [(10, True), (11, False)])
def test_heat_is_told_unless_more_than_a_tenth_of_the_days_is_missing(gap, known):
    told = garden(tuple(day for day in EVEN if not 0 <= (day.day - date(2026, 7, 1)).days < gap))
    raise_plant(told, 0, 99)
    (plant,) = ripening_of(told.season, "Brass Bell", NOW).plants
    assert plant.heat == (pytest.approx(1200) if known else None)


def test_late_ripe_picks_move_the_plan():
    told = garden((*champion_days(), *EVEN))
    before = plan_of(told.season, YEAR, NOW).row("Brass Bell")
    for column in range(4):
        raise_plant(told, column, 91)
    plan = plan_of(told.season, YEAR, NOW)
    after = plan.row("Brass Bell")
    assert before.needs.heat_need == STATED < after.needs.heat_need < 92 * 12
    assert after.latest < before.latest
    told_lines = dict(odds_why(told.season, plan, after).inputs)
    assert told_lines["heat to ripe"].startswith("968 °C·d")
    assert told_lines["your own picks"].startswith("1104 °C·d over 4 plants")
    assert told_lines["heat to ripe, together"].startswith(f"{after.needs.heat_need:.0f} °C·d")
