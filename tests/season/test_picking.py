"""What a harvest comes to: per plant, per square metre, by season; nothing unknown is made up."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import BedLaid, HolderMade, Lost, Moved, Picked, Sown, Sprouted
from greenroom.season.learning import living
from greenroom.season.picking import by_plant, harvests, season_now, seasons_picked, sum_up
from greenroom.season.picking_again import WEIGHTS, again, next_season, ranked
from greenroom.season.picking_ahead import due_on
from greenroom.season.picking_why import harvest_why, learned_why, weight_words
from greenroom.season.proposal import Proposal
from greenroom.season.ripe_learning import ripening_of
from tests.season.plan_ground import BELL, LANTERN, SOUTH, Kind, ground

POUND_G = 453.59237  # exact: the international avoirdupois pound
FOOT_M = 0.3048  # exact: the international foot
OUT = date(2026, 6, 1)
NOW = date(2026, 11, 20)


def garden(*kinds, columns=65, width_m=100 * FOOT_M, depth_m=2 * FOOT_M, laid=True, **told):
    """A bed in which plants of the kinds stand one after the other, set out on 1 June 2026."""
    made = ground(*kinds, today=date(2026, 1, 5), year=2026, **told)
    facts = [HolderMade(day=OUT, holder="bed", name="Bed", form="bed", rows=1, columns=columns)]
    if laid:
        facts.append(BedLaid(day=OUT, holder="bed", x_m=0, y_m=0, width_m=width_m, depth_m=depth_m))
    tray = HolderMade(day=date(2026, 3, 1), holder="nursery", name="Nursery", form="tray", rows=1, columns=99)
    made.do(Proposal("a bed", (*facts, tray)))
    return made


def plant(told, name, columns):
    facts = []
    for column in columns:
        cell = {"holder": "nursery", "row": 0, "column": column}
        facts += [
            Sown(day=date(2026, 3, 1), packet=f"p-{name}", **cell),
            Sprouted(day=date(2026, 3, 11), **cell),
            Moved(day=OUT, to_holder="bed", to_row=0, to_column=column, **cell),
        ]
    told.do(Proposal("plants", tuple(facts)))


def pick(told, name, count, grams, day=date(2026, 9, 1), **where):
    fact = Picked(day=day, variety=name, count=count, grams=grams, **({"holder": "bed"} | where))
    told.do(Proposal("picked", (fact,)))
    return fact


def test_sixty_pounds_from_a_row_of_sixty_five_plants_are_what_the_list_says():
    """A published list of garden yields: 60 lb of peppers from 100 ft of row with 65 plants, so 0.92 lb a
    plant (an extension list, read). In rows 2 ft apart that is 60 lb on 200 ft², 0.3 lb a square foot."""
    told = garden(BELL)
    plant(told, "Brass Bell", range(65))
    pick(told, "Brass Bell", 400, 60 * POUND_G)
    (one,) = harvests(told.season, NOW)
    assert one.plants == 65
    assert one.grams_a_plant / POUND_G == pytest.approx(0.923, abs=5e-4)
    assert one.grams_a_m2 == pytest.approx(0.3 * POUND_G / FOOT_M**2)
    assert dict(harvest_why(one).inputs)["share of the beds"] == "18.58 m²"


def test_fruit_not_weighed_count_as_the_others_weighed_and_it_says_so():
    told = garden(BELL)
    plant(told, "Brass Bell", range(2))
    pick(told, "Brass Bell", 10, 1500.0)
    pick(told, "Brass Bell", 5, None, day=date(2026, 9, 8), ripeness="green")
    (one,) = harvests(told.season, NOW)
    assert (one.picked.grams, one.picked.whole_grams, one.picked.estimated) == (1500.0, 2250.0, True)
    assert one.picked.colours == (5, 0, 10)


def test_what_is_not_known_is_not_nought():
    told = garden(BELL, laid=False)
    pick(told, "Brass Bell", 10, None, holder=None)
    (one,) = harvests(told.season, NOW)
    assert (one.plants, one.m2, one.grams_a_plant, one.grams_a_m2, one.days_to_ripe) == (None,) * 5
    assert (one.picked.whole_grams, one.picked.grams_each) == (None, None)
    plant(told, "Brass Bell", range(3))
    pick(told, "Brass Bell", 5, 100.0)
    (one,) = harvests(told.season, NOW)
    assert (one.plants, one.m2, one.grams_a_m2) == (3, None, None)


def test_a_plant_moved_from_bed_to_bed_is_still_one():
    told = garden(BELL)
    plant(told, "Brass Bell", range(2))
    start = {"holder": "bed", "row": 0, "column": 1}
    told.do(Proposal("on", (Moved(day=OUT, to_holder="bed", to_row=0, to_column=9, **start),)))
    pick(told, "Brass Bell", 4, 400.0)
    assert harvests(told.season, NOW)[0].plants == 2


def test_a_plant_picked_by_itself_is_told_by_itself():
    told = garden(BELL)
    plant(told, "Brass Bell", range(2))
    pick(told, "Brass Bell", 4, 400.0, row=0, column=1)
    pick(told, "Brass Bell", 6, None)
    found = {one.spot.label if one.spot else "": one.picked.count for one in by_plant(told.season, 2026, NOW)}
    assert found == {"A2": 4, "": 6}


@given(st.lists(st.tuples(st.integers(1, 50), st.one_of(st.none(), st.floats(1, 5000))), min_size=1))
def test_picks_add_up_whatever_their_order(picks):
    facts = [Picked(day=OUT, variety="v", count=count, grams=grams) for count, grams in picks]
    whole, turned = sum_up(facts), sum_up(facts[::-1])
    assert whole.count == sum(count for count, _ in picks) == sum(whole.colours)
    assert whole.grams == pytest.approx(turned.grams)
    assert whole.weighed <= whole.count
    if whole.whole_grams is not None:
        assert whole.whole_grams >= whole.grams - 1e-6


def test_a_southern_harvest_belongs_to_the_spring_before():
    told = garden(BELL, place=SOUTH)
    pick(told, "Brass Bell", 4, 400.0, day=date(2027, 2, 1), holder=None)
    assert seasons_picked(told.season, date(2027, 3, 1)) == [2026]
    assert season_now(told.season, date(2027, 3, 1)) == 2026
    assert next_season(told.season, date(2027, 3, 1)) == 2027
    assert next_season(told.season, date(2026, 8, 1)) == 2026


@pytest.mark.parametrize(
    ("today", "year"), [(date(2027, 1, 5), 2027), (date(2027, 3, 31), 2027), (date(2027, 4, 1), 2028)]
)
def test_from_april_on_the_next_year_is_planned_for(today, year):
    """Common practice, no source: by April a northern season is sown."""
    assert next_season(garden(BELL).season, today) == year


def test_plants_are_looked_over_five_days_after_the_last_pick():
    """Every five days: common practice, no source."""
    assert due_on(date(2026, 9, 1), date(2026, 8, 1)) == date(2026, 9, 6)
    assert due_on(None, date(2026, 8, 1)) == date(2026, 8, 1)
    assert due_on(None, None) is None


@pytest.fixture(scope="module")
def two_kinds():
    """Bells of 500 and 250 g a plant and a habanero, six plants each; one of the small bells died young."""
    small = Kind("Small Bell", "bell", 80)
    told = garden(BELL, small, LANTERN)
    for place, name in enumerate(("Brass Bell", "Small Bell", "Cinder Lantern")):
        plant(told, name, range(6 * place, 6 * place + 6))
    pick(told, "Brass Bell", 20, 3000.0)
    pick(told, "Small Bell", 20, 1500.0)
    pick(told, "Cinder Lantern", 99, 600.0)
    lost = Lost(day=date(2026, 7, 1), holder="bed", row=0, column=7, cause="eaten")
    frost = [
        Lost(day=date(2026, 10, 20), holder="bed", row=0, column=column, cause="cold")
        for column in range(18)
        if column != 7
    ]
    told.do(Proposal("the end", (lost, *frost)))
    return told


def test_a_yield_is_held_against_the_best_of_its_kind(two_kinds):
    marks = {one.name: one.marks for one in again(two_kinds.season, 2027, NOW)}
    assert marks["Brass Bell"]["yield"].share == 1.0
    assert marks["Small Bell"]["yield"].share == pytest.approx(0.5)
    assert "Brass Bell" in marks["Small Bell"]["yield"].words
    assert marks["Cinder Lantern"]["yield"].share == pytest.approx(0.2)  # no other habanero: against all


def test_frost_at_the_end_is_no_loss_and_being_eaten_is(two_kinds):
    marks = {one.name: one.marks["losses"] for one in again(two_kinds.season, 2027, NOW)}
    assert marks["Brass Bell"].share == 1.0
    assert marks["Small Bell"].words == "1 of 6 seedlings lost"


def test_marks_not_known_are_left_out_of_the_sum_and_weights_move_it(two_kinds):
    rows = {one.name: one for one in again(two_kinds.season, 2027, NOW)}
    small = rows["Small Bell"]
    assert small.marks["earliness"].share is None  # no weather
    germination = small.marks["germination"].share
    by_hand = (4 * 0.5 + 2 * germination + 2 * 5 / 6) / 8
    assert small.sum(WEIGHTS) == pytest.approx(by_hand)
    assert small.sum(dict.fromkeys(WEIGHTS, 0)) is None
    by_yield = dict.fromkeys(WEIGHTS, 0) | {"yield": 1}
    assert [one.name for one in ranked(rows.values(), by_yield)] == [
        "Brass Bell",
        "Small Bell",
        "Cinder Lantern",
    ]
    assert ("yield, counted 1 time", "5.0: " + small.marks["yield"].words) in small.why(by_yield).inputs


def test_plants_that_frost_took_in_the_bed_lived_to_be_set_out(two_kinds):
    """Eighteen came up and were set out: whatever became of them there, all had lived to be."""
    share = living(two_kinds.season, NOW)
    assert (share.own, share.seeds) == (1.0, 18)


def test_what_is_told_of_learning_names_what_was_stated(two_kinds):
    why = learned_why("Brass Bell", ripening_of(two_kinds.season, "Brass Bell", NOW))
    told = dict(why.inputs)
    assert told["stated"] == "968 °C·d, on the packet"  # 88 days of (27 + 15) / 2 - 10 °C·d
    days = (date(2026, 9, 1) - OUT) / timedelta(days=1)
    assert told["set out 1 June 2026"] == f"{days:.0f} days, weather not known"


@pytest.mark.parametrize(("grams", "words"), [(0.4, "0 g"), (999.4, "999 g"), (1234, "1.23 kg")])
def test_weights_read_in_grams_and_kilograms(grams, words):
    assert weight_words(grams) == words
