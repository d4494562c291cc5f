"""The ribbon lays the stages on the year's own months, whatever the ledger holds and wherever it is."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import (
    HardeningStarted,
    HolderMade,
    HolderRetired,
    Lost,
    Moved,
    Picked,
    PlaceSet,
)
from greenroom.season import deeds_plot, deeds_spots
from greenroom.season.proposal import Proposal
from greenroom.season.ribbon import ribbon, season_year
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told, spot

NORTH, SOUTH = 46.0, -33.0


def noon(day):
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


def stages(told, today):
    return ribbon(told.season, today, noon(today))


def at(latitude):
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=latitude, longitude=16.0, zone="UTC")
    told.do(Proposal("set the place", (place,)))
    return told


def sow_on(told, day, name="Tray A"):
    told.packet(f"P {name}")
    told.holder(name, rows=1, columns=1, mix_c=25.0)
    told.do(deeds_spots.sow(told.season, f"p-P {name}", [SpotKey(name, 0, 0)], max(day, SOWN_ON)))


def sound(found, today):
    assert [one.key for one in found] == ["seed", "sow", "grow", "harden", "setout", "pick"]
    assert all(one.end == other.start for one, other in pairwise(found))
    assert all(one.start + timedelta(10) <= one.end for one in found)
    assert found[0].start <= today
    assert (found[-1].end - found[0].start).days < 2 * 366


@given(st.dates(date(2024, 1, 1), date(2032, 12, 31)), st.sampled_from([NORTH, SOUTH, None]))
def test_an_empty_ledger_has_a_ribbon_on_every_day_of_the_year(today, latitude):
    told = Told() if latitude is None else at(latitude)
    found = stages(told, today)
    sound(found, today)
    figures = [one.figure for one in found]
    assert figures[:3] == ["0 packets", "0 trays sown", "0 seedlings"]
    assert figures[3] == ("none now" if today >= found[3].start else "none yet")


@pytest.mark.parametrize(
    ("latitude", "today", "year", "sowing", "hardening"),
    [
        (NORTH, date(2027, 1, 10), 2027, date(2027, 2, 15), date(2027, 5, 5)),
        (NORTH, date(2027, 5, 14), 2027, date(2027, 2, 15), date(2027, 5, 5)),
        (NORTH, date(2027, 12, 31), 2028, date(2028, 2, 15), date(2028, 5, 5)),
        (SOUTH, date(2027, 7, 10), 2027, date(2027, 8, 15), date(2027, 11, 5)),
        (SOUTH, date(2027, 12, 31), 2027, date(2027, 8, 15), date(2027, 11, 5)),
        (SOUTH, date(2028, 1, 10), 2027, date(2027, 8, 15), date(2027, 11, 5)),
        (SOUTH, date(2028, 3, 1), 2028, date(2028, 8, 15), date(2028, 11, 5)),
    ],
)
def test_before_anything_is_sown_the_usual_days_stand_half_a_year_apart_in_the_south(
    latitude, today, year, sowing, hardening
):
    """Common practice, no source: sowing from mid-February, hardening in May; August and November south."""
    told = at(latitude)
    assert season_year(told.season, today) == year
    found = {one.key: one for one in stages(told, today)}
    assert (found["sow"].start, found["harden"].start) == (sowing, hardening)


@pytest.mark.parametrize(
    ("latitude", "sown", "year"),
    [
        (NORTH, date(2027, 12, 28), 2028),
        (NORTH, date(2027, 4, 20), 2027),
        (SOUTH, date(2027, 8, 20), 2027),
        (SOUTH, date(2027, 12, 5), 2027),
        (SOUTH, date(2028, 1, 6), 2027),
    ],
)
def test_a_sowing_belongs_to_the_spring_it_is_for(latitude, sown, year):
    told = at(latitude)
    sow_on(told, sown)
    assert season_year(told.season, sown + timedelta(5)) == year
    found = stages(told, sown + timedelta(5))
    sound(found, sown + timedelta(5))
    assert found[1].start == sown


def test_a_tray_left_from_last_year_does_not_hold_the_ribbon_back():
    told = at(NORTH)
    sow_on(told, SOWN_ON)
    today = SOWN_ON + timedelta(330)
    assert season_year(told.season, today) == 2028
    assert stages(told, today)[1].start == date(2028, 2, 15)


def test_a_tray_put_away_still_counts_until_its_season_is_over():
    told = at(NORTH)
    sow_on(told, SOWN_ON)
    told.do(Proposal("away", (HolderRetired(day=date(2027, 6, 10), holder="Tray A"),)))
    assert [one.figure for one in stages(told, date(2027, 6, 20))][1:3] == ["1 tray sown", "0 seedlings"]
    assert stages(told, date(2027, 6, 20))[1].start == SOWN_ON
    assert season_year(told.season, date(2027, 8, 20)) == 2028
    assert stages(told, date(2027, 8, 20))[1].figure == "0 trays sown"


def test_seeds_alone_are_told_and_the_stage_before_sowing_reaches_back_to_today():
    told = at(NORTH)
    told.packet("Brass Bell")
    found = stages(told, date(2027, 10, 1))
    assert found[0].figure == "1 packet"
    assert (found[0].start, found[0].end) == (date(2027, 10, 1), date(2028, 2, 15))


@pytest.fixture
def hardening():
    told = at(NORTH)
    sow_on(told, SOWN_ON)
    cell = spot("Tray A", "A1")
    told.do(deeds_spots.mark_up(told.season, [cell], SOWN_ON + timedelta(9)))
    return told


def test_living_seedlings_are_counted(hardening):
    assert stages(hardening, date(2027, 4, 1))[2].figure == "1 seedling"
    lost = deeds_spots.mark_lost(hardening.season, [spot("Tray A", "A1")], date(2027, 4, 2), "cold")
    hardening.do(lost)
    assert stages(hardening, date(2027, 4, 2))[2].figure == "0 seedlings"


def test_hardening_starts_when_it_did_and_goes_on_while_a_holder_is_on_the_ramp(hardening):
    begun = date(2027, 5, 20)
    hardening.do(Proposal("began", (HardeningStarted(day=begun, holder="Tray A"),)))
    found = stages(hardening, date(2027, 5, 21))
    assert found[3].start == begun
    assert found[3].figure == "1 holder on the ramp"
    late = date(2027, 8, 1)
    assert stages(hardening, late)[3].end > late


def test_seedlings_on_the_shelf_in_summer_still_wait_for_hardening(hardening):
    today = date(2027, 7, 1)
    assert stages(hardening, today)[3].end == today + timedelta(1)
    hardening.do(Proposal("away", (HolderRetired(day=today, holder="Tray A"),)))
    assert stages(hardening, today)[3].end <= date(2027, 6, 1)


def test_what_stands_in_a_bed_is_set_out_and_no_seedling_on_the_shelf(hardening):
    day = date(2027, 5, 28)
    hardening.do(deeds_plot.lay_bed(hardening.season, "", 1, 2, deeds_plot.Rectangle(0, 0, 1, 1), day))
    bed = hardening.season.holders("bed")[0].key
    cell = spot("Tray A", "A1")
    hardening.do(deeds_plot.set_out(hardening.season, [cell], SpotKey(bed, 0, 0), day))
    found = {one.key: one for one in stages(hardening, day)}
    assert found["grow"].figure == "0 seedlings"
    assert found["setout"].figure == "1 plant out"
    later = {one.key: one for one in stages(hardening, day + timedelta(30))}
    assert later["harden"].end == found["harden"].end


def test_a_brief_ribbon_says_all_but_what_takes_a_while(hardening):
    day = date(2027, 5, 28)
    whole, brief = (ribbon(hardening.season, day, noon(day), brief=short) for short in (False, True))
    assert [one for one in brief if one.key != "setout"] == [one for one in whole if one.key != "setout"]
    assert [one.figure for one in (whole[4], brief[4])] == ["none yet", ""]


def test_the_season_lasts_while_its_plants_stand_in_beds_and_tells_what_was_picked(hardening):
    bed = HolderMade(day=date(2027, 5, 20), holder="bed", name="Bed", form="bed", rows=1, columns=2)
    out = Moved(
        day=date(2027, 5, 28), holder="Tray A", row=0, column=0, to_holder="bed", to_row=0, to_column=0
    )
    away = HolderRetired(day=date(2027, 6, 10), holder="Tray A")
    hardening.do(Proposal("out", (bed, out, away)))
    day = date(2027, 9, 10)
    found = {one.key: one for one in stages(hardening, day)}
    assert found["sow"].start == SOWN_ON
    assert found["pick"].start <= day < found["pick"].end
    assert found["pick"].figure == "none yet"
    for grams, told in ((900.0, "3 fruit, 0.9 kg"), (None, "6 fruit")):
        picked = Picked(day=day, variety="v-P Tray A", count=3, grams=grams)
        hardening.do(Proposal("picked", (picked,)))
        assert stages(hardening, day)[5].figure == told
    late = {one.key: one for one in stages(hardening, date(2027, 11, 20))}
    assert late["pick"].end == date(2027, 11, 21)
    hardening.do(
        Proposal("frost", (Lost(day=date(2027, 11, 1), holder="bed", row=0, column=0, cause="cold"),))
    )
    assert {one.key: one for one in stages(hardening, date(2027, 11, 20))}["sow"].start == date(2028, 2, 15)
