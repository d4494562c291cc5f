"""What to mind on the plot: told where the guide asks for it, with its source, and not otherwise."""

from datetime import date

import pytest

from greenroom.season.plot import Bed, Plot, Shade
from greenroom.season.plot_plants import Plant
from greenroom.season.plot_sun import Where, plant_sun
from greenroom.season.plot_warnings import between_m, warnings
from greenroom.season.spots import SpotKey
from tests.season.told import the_guide

HERE = Where(46.4, 16.0)
JUNE = date(2027, 6, 21)


def stand(bed, *crops):
    return [
        Plant(SpotKey(bed.key, 0, place), bed.position(0, place), crop, the_guide().entries[crop])
        for place, crop in enumerate(crops)
    ]


def told_of(plot, plants, *, southern=False):
    return warnings(plot, plant_sun(plot, plants, JUNE, HERE), southern=southern)


def kinds(found):
    return [warn.kind for warn in found]


def test_plants_far_apart_in_open_ground_need_no_minding():
    bed = Bed("b", "Bed 1", 1, 3, 0, 0, 3, 1)
    assert told_of(Plot((bed,)), stand(bed, "bell", "bell", "habanero")) == []


def test_plants_closer_than_the_guide_asks_are_told_with_its_source():
    """Peppers 30 to 46 cm apart: Utah State University Extension, as the guide has it."""
    bed = Bed("b", "Bed 1", 1, 2, 0, 0, 0.5, 1)
    (found,) = told_of(Plot((bed,)), stand(bed, "bell", "bell"))
    assert found.words == "Bed 1: bell stand 25 cm apart, at A1 and A2; 30 cm or more is asked for."
    assert any("Utah" in source for source in found.why.sources)


@pytest.mark.parametrize(("apart", "close"), [(0.29, True), (0.30, False), (0.31, False)])
def test_the_distance_asked_for_is_enough(apart, close):
    bed = Bed("b", "Bed 1", 1, 2, 0, 0, 2 * apart, 1)
    assert ("spacing" in kinds(told_of(Plot((bed,)), stand(bed, "bell", "bell")))) is close


def test_two_kinds_stand_as_far_apart_as_the_mean_of_what_they_ask():
    """Bell pepper 30 cm, tomato 45 cm at least: the guide."""
    one, other = stand(Bed("b", "Bed 1", 1, 2, 0, 0, 2, 1), "bell", "tomato")
    assert between_m(one, other) == pytest.approx(0.375)


def test_a_pot_smaller_than_the_kind_asks_for_is_told():
    """Habanero 26.5 to 37.9 L, bell 18.9 to 26.5 L: the guide."""
    bed = Bed("b", "Terrace", 1, 2, 0, 0, 2, 1, pot_litres=20.0)
    (found,) = told_of(Plot((bed,)), stand(bed, "habanero", "bell"))
    assert found.kind == "pot"
    assert found.words == "Terrace: habanero asks for 26 L or more and stands in 20 L."
    assert found.spots == (SpotKey("b", 0, 0),)


@pytest.mark.parametrize(("southern", "side"), [(False, "north"), (True, "south")])
def test_a_taller_kind_that_takes_an_hour_is_sent_to_the_side_of_the_pole(southern, side):
    bed = Bed("b", "Bed 1", 1, 2, 0, 0, 0.7, 1)
    found = told_of(Plot((bed,)), stand(bed, "aji", "ornamental-pepper"), southern=southern)
    shade = next(warn for warn in found if warn.kind == "shade")
    assert f"taller ones go to the {side} side" in shade.words
    assert shade.words.startswith("aji at A1 takes ")


def test_too_little_sun_is_told_with_what_takes_it():
    bed = Bed("b", "Bed 1", 1, 1, 0, 0, 1, 1)
    house = Shade("h", "House", -5, -4, 12, 3, 9.0)
    west = Shade("g", "Garage", 1.5, -1, 4, 6, 6.0)
    (found,) = told_of(Plot((bed,), (house, west)), stand(bed, "bell"))
    assert found.kind == "sun"
    assert "House" in dict(found.why.inputs)
    assert "Penn State" in found.why.sources[0]
