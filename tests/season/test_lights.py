"""Light on the shelves and warmth of the mats, against published figures."""

import pytest

from greenroom.ledger.facts import HolderMade, HolderPlaced, Sown
from greenroom.season import deeds_plan
from greenroom.season.lights import emergence_table, emergence_why, hours_for, light_at, shelf_lights
from greenroom.season.proposal import Proposal
from tests.season.plan_ground import BELL, TODAY, Kind, ground
from tests.season.told import the_guide


def measured(told=None, place="mat", **light):
    told = told or ground()
    told.do(deeds_plan.measure_light(place, TODAY, **light))
    return told


@pytest.mark.parametrize(("ppfd", "hours", "dli"), [(200, 16, 11.52), (250, 14, 12.6), (300, 12, 12.96)])
def test_light_of_a_day_is_that_of_a_second_times_its_seconds(ppfd, hours, dli):
    """PPFD x 3600 x h / 1 000 000, as extension pages on daily light have it."""
    (shelf,) = shelf_lights(measured(ppfd=ppfd, hours=hours).season)
    assert shelf.dli == pytest.approx(dli)


@pytest.mark.parametrize(("hours", "ppfd"), [(16, 225.7), (14, 257.9), (12, 300.9)])
def test_hours_needed_for_thirteen_mol_turn_the_same_sum_round(hours, ppfd):
    """13 mol a day for vegetable plugs: Garcia and Lopez 2020, HortScience 55:804."""
    assert hours_for(13, ppfd) == pytest.approx(hours, abs=0.01)
    (shelf,) = shelf_lights(measured(ppfd=ppfd, hours=8).season)
    assert (shelf.target, shelf.hours_needed) == (13.0, pytest.approx(hours, abs=0.01))
    assert shelf.ppfd_needed == pytest.approx(225.7, abs=0.05)  # in 16 hours


def test_a_lux_meter_is_read_by_the_kind_of_lamp():
    """10,000 lux are 135 µmol of a cool white tube and 185 of sun: Thimijan and Heins 1983."""
    tube, sun = (
        shelf_lights(measured(lux=10_000, lamp=lamp).season)[0] for lamp in ("cool white fluorescent", "sun")
    )
    assert (tube.ppfd, sun.ppfd) == (pytest.approx(135, abs=0.5), pytest.approx(185, abs=0.5))
    inputs = dict(tube.why.inputs)
    assert inputs["measured"] == "10,000 lux, cool white fluorescent"
    assert inputs["lux for each µmol"] == "74"
    assert any("Thimijan" in source for source in tube.why.sources)


def test_what_to_do_is_said_enough_longer_or_nearer():
    words = [shelf_lights(measured(ppfd=ppfd, hours=14).season)[0].words for ppfd in (260.0, 240.0, 120.0)]
    assert words[0] == "13.1 mol a day, enough."
    assert words[1] == "12.1 mol a day; 15.0 hours would give 13."
    assert words[2] == (
        "6.0 mol a day; too weak for 13 in 16 hours: bring the lamp nearer until it gives 226 µmol."
    )


def test_a_lamp_that_gives_nothing_cannot_be_lengthened():
    (shelf,) = shelf_lights(measured(ppfd=0.0).season)
    assert (shelf.dli, shelf.hours_needed, shelf.enough) == (0.0, None, False)
    assert hours_for(13, 100.0) is None  # 36 hours a day


def test_the_latest_measurement_of_a_shelf_counts_however_its_name_is_spelled():
    told = measured(ppfd=100.0)
    told = measured(told, place=" MAT ", ppfd=220.0)
    told = measured(told, place="sill", ppfd=50.0)
    assert [(one.place, one.ppfd) for one in shelf_lights(told.season)] == [("MAT", 220.0), ("sill", 50.0)]
    assert light_at(told.season, "Mat").ppfd == 220.0
    assert light_at(told.season, "cellar") is None


def test_what_stands_on_a_shelf_sets_what_is_asked_of_its_lamp():
    """The guide: vegetables at least 13 mol (Garcia and Lopez 2020), flowers 10 (from memory)."""
    told = ground(BELL, Kind("Zinnia", "zinnia"))
    made = HolderMade(day=TODAY, holder="Tray B", name="Tray B", form="tray", rows=2, columns=2)
    placed = HolderPlaced(day=TODAY, holder="Tray B", place="Sill")
    flower = Sown(day=TODAY, holder="Tray B", row=0, column=0, packet="p-Zinnia")
    told.do(Proposal("flowers on the sill", (made, placed, flower)))
    told = measured(told, place="sill", ppfd=200.0)
    assert light_at(told.season, "sill").target == 10.0
    pepper = Sown(day=TODAY, holder="Tray B", row=1, column=1, packet="p-Brass Bell")
    told.do(Proposal("a pepper too", (pepper,)))
    assert light_at(told.season, "sill").target == 13.0


def test_days_to_come_up_by_warmth_are_those_of_the_published_table():
    """Pepper and tomato, sown 13 mm deep: Harrington and Minges 1954."""
    table = emergence_table(the_guide(), ("bell", "tomato"), (10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0))
    assert table["bell"] == (
        None,
        pytest.approx(25),
        pytest.approx(13),
        pytest.approx(8),
        pytest.approx(8),
        pytest.approx(9),
        None,
    )
    assert table["tomato"][:4] == (pytest.approx(43), pytest.approx(14), pytest.approx(8), pytest.approx(6))
    why = emergence_why(the_guide(), "bell", (15.0, 40.0))
    assert dict(why.inputs) == {"15 °C": "day 25", "40 °C": "none known to come up"}
    assert any("Harrington" in source for source in why.sources)
