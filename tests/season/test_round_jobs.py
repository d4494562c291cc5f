"""Each job of the round comes with its reason, is done by what it writes, and goes away by itself."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger.facts import (
    Covered,
    FrostDatesGiven,
    GerminationTest,
    HardeningStarted,
    LampMeasured,
    Packet,
    Variety,
    Wanted,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season import deeds_care, deeds_plants, deeds_plot, deeds_round, deeds_spots, deeds_tests
from greenroom.season.cold_snap import Level, cold_snaps, snap_why
from greenroom.season.cool_nights import cool_plan
from greenroom.season.deeds_care import Feed
from greenroom.season.deeds_plan import choose_sowing
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.jobs.done import done_today, take_done_back
from greenroom.season.jobs.job import DESK, DOOR, PLOT, SHELF, WHERE, WHERE_KEYS, Urgency, Walk
from greenroom.season.picking_ahead import PICK_EVERY_DAYS, ripe_ahead, ripe_lots
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal
from greenroom.season.ramp_rules import crops_in
from greenroom.season.round import the_round, week
from greenroom.season.spots import SpotKey
from greenroom.season.wants import rules_of
from tests.season.round_ground import CELLS, OUT_ON, UP_ON, at, bed, job, jobs, planted, seedlings, weather
from tests.season.told import SOWN_ON, Told

BLUE = Feed("blue feed", 15, 5, 15, 100)


def make(told, day, start, value=None):
    told.do(job(told, day, start).done(value))


@pytest.fixture
def told():
    return seedlings()


@pytest.fixture
def out():
    return planted()


def test_a_job_is_kept_by_the_same_key_in_every_language(out):
    """Keys are written into ledgers when a job is put off; those of ledgers written so far are English."""
    assert (
        dict(zip(WHERE, ("At the shelf", "At the door", "In the plot", "At the desk"), strict=True))
        == WHERE_KEYS
    )
    keys = {one.key for days in range(0, 60, 5) for one in jobs(out, OUT_ON + timedelta(days))}
    assert "look over In the plot" in keys


def test_no_job_is_without_reason_why_and_key(out):
    for days in range(0, 120, 7):
        found = jobs(out, OUT_ON + timedelta(days))
        assert len({one.key for one in found}) == len(found)
        for one in found:
            assert one.reason
            assert one.key
            assert one.where in WHERE
            assert one.why is not None
            assert one.why.rule
            assert one.doing is not None or one.page


def test_everything_that_can_be_done_at_once_goes_away_when_it_is_done(out):
    for days in (0, 21, 50, 90):
        day = OUT_ON + timedelta(days)
        for one in jobs(out, day):
            if one.doing is not None:
                out.do(one.done())
                assert one.key not in {left.key for left in jobs(out, day)}, one.what


def test_nobody_who_never_told_of_water_is_asked_to_water(told):
    assert job(told, UP_ON + timedelta(40), "Water") is None


def test_a_mix_felt_dry_wants_water_and_watering_by_any_page_ends_it(told):
    day = UP_ON + timedelta(10)
    told.do(deeds_care.feel_mix(told.season, "Tray A", day, "dry"))
    assert job(told, day, "Water Tray A").reason == "felt dry today"
    told.do(deeds_care.water(told.season, "Tray A", day))
    assert job(told, day, "Water Tray A") is None


def test_a_tray_is_watered_when_half_its_water_is_gone(told):
    """Held falls from 1 to 0.8 in a day, so to half after ln 0.5 / ln 0.8 = 3.1 days: by hand."""
    season, day = told.season, UP_ON + timedelta(10)
    told.do(deeds_care.weigh(season, "Tray A", day - timedelta(3), 1000, "dry"))
    told.do(deeds_care.weigh(season, "Tray A", day, 2000, "wet"))
    told.do(deeds_care.weigh(season, "Tray A", day + timedelta(1), 1800))
    assert job(told, day + timedelta(2), "Water Tray A") is None
    due = job(told, day + timedelta(3), "Water Tray A")
    assert "200 g lighter than soaked" in due.reason
    assert due.due == day + timedelta(3)


def test_without_a_scale_its_own_rhythm_counts(told):
    for days in (0, 4, 8, 12):
        told.do(deeds_care.water(told.season, "Tray A", UP_ON + timedelta(days), "above"))
    assert job(told, UP_ON + timedelta(15), "Water") is None
    due = job(told, UP_ON + timedelta(16), "Water Tray A from above")
    assert due.reason == "4 days since the last; its own rhythm is 4 days"
    late = job(told, UP_ON + timedelta(18), "Water Tray A")
    assert late.urgency is Urgency.NOW
    assert late.reason.endswith("due since 5 April, 2 days")


def test_a_basin_is_emptied_after_watering_from_below_and_forgotten_in_two_days(told):
    told.do(deeds_care.water(told.season, "Tray A", UP_ON, "below"))
    assert job(told, UP_ON, "Empty the basin of Tray A")
    assert "yesterday" in job(told, UP_ON + timedelta(1), "Empty").reason
    assert job(told, UP_ON + timedelta(2), "Empty") is None
    make(told, UP_ON, "Empty")
    assert job(told, UP_ON + timedelta(1), "Empty") is None


def test_feed_begins_with_the_first_true_leaves_and_follows_the_stage(told):
    """50 ppm N for seedlings, 100 growing away: the guide (common, of extension plug schedules)."""
    day = UP_ON + timedelta(12)
    assert job(told, day, "Feed") is None
    told.do(deeds_spots.set_leaves(told.season, CELLS, day, 2))
    assert job(told, day, "Feed Tray A, 50 ppm N").reason == "young seedlings, not fed yet"
    make(told, day, "Feed Tray A", 0.4)
    (fed,) = (entry.fact for entry in told.season.holder_facts("Tray A") if entry.fact.kind == "fed")
    assert (fed.ppm_n, fed.litres) == (50, 0.4)
    assert job(told, day + timedelta(6), "Feed") is None
    told.do(deeds_spots.set_leaves(told.season, CELLS, day + timedelta(7), 4))
    assert job(told, day + timedelta(7), "Feed Tray A, 100 ppm N")


def test_plants_in_a_bed_are_set_out_and_not_in_pots(out):
    assert job(out, OUT_ON + timedelta(8), "Feed South bed").reason == "set out, not fed yet"


def test_hardening_plants_are_not_fed(told):
    """None while hardening: the guide."""
    told.do(deeds_spots.set_leaves(told.season, CELLS, UP_ON + timedelta(20), 4))
    assert job(told, UP_ON + timedelta(20), "Feed")
    told.do(Proposal("h", (HardeningStarted(day=UP_ON + timedelta(20), holder="Tray A"),)))
    assert job(told, UP_ON + timedelta(20), "Feed") is None


def test_the_feed_is_shifted_to_potash_at_the_first_flower(out):
    day = OUT_ON + timedelta(20)
    out.do(deeds_care.feed(out.season, bed(out), day, BLUE, 2))
    assert job(out, day, "Feed") is None
    out.do(deeds_plants.mark_flower(out.season, [SpotKey(bed(out), 0, 0)], day))
    assert job(out, day, "Shift the feed of South bed to potash")
    make(out, day, "Shift")
    assert job(out, day, "Shift") is None
    latest = [entry.fact for entry in out.season.holder_facts(bed(out)) if entry.fact.kind == "fed"][-1]
    assert latest.k2o_percent > latest.n_percent


def test_lamps_go_on_when_seedlings_are_up_and_stay_set(told):
    """16 hours, the longest the guide gives seedlings."""
    assert job(told, UP_ON, "Lamps on over shelf 1").ask.value == 16
    make(told, UP_ON, "Lamps on", 15)
    assert job(told, UP_ON, "Lamps") is None


def test_weak_lamps_burn_longer(told):
    """200 µmol for 10 h is 7.2 mol; 13 mol needs 18 h, more than lamps are lengthened to: arithmetic."""
    measured = LampMeasured(day=UP_ON, place="shelf 1", ppfd=200, lamp="white led", hours=10)
    told.do(Proposal("measured", (measured,)))
    asked = job(told, UP_ON, "Lamps over shelf 1")
    assert asked.ask.value == 16
    assert "7.2 mol a day" in asked.reason
    make(told, UP_ON, "Lamps over shelf 1")
    assert job(told, UP_ON, "Lamps") is None


def test_cool_nights_come_twice_a_week_from_the_third_leaf(told):
    day = UP_ON + timedelta(30)
    assert job(told, day, "Cool night") is None
    told.do(deeds_spots.set_leaves(told.season, CELLS, day, 4))
    assert "the first of two" in job(told, day, "Cool night for Tray A").reason
    make(told, day, "Cool night")
    offered = [n for n in range(1, 9) if job(told, day + timedelta(n), "Cool night")]
    assert offered == [3, 4, 5, 6, 7, 8]
    make(told, day + timedelta(3), "Cool night")
    assert [n for n in range(3, 9) if job(told, day + timedelta(n), "Cool night")] == [7, 8]


def test_the_cool_night_asked_for_is_the_one_that_is_planned(told):
    """The plan of cool nights is the one rule; the round only says when tonight is one of them."""
    told.do(deeds_spots.set_leaves(told.season, CELLS, UP_ON, 4))
    told.do(deeds_care.cool_night(told.season, "Tray A", UP_ON + timedelta(2), 16))
    for day in (UP_ON + timedelta(n) for n in range(14)):
        due = cool_plan(told.season, "Tray A", day).due
        assert (job(told, day, "Cool night") is not None) == (due == day)


@pytest.mark.parametrize("low", [-1.0, 2.0, 2.1, 7.1, 7.2, 9.0, 12.0])
def test_a_bed_is_covered_when_the_warning_says_cold_or_frost(out, low):
    day = OUT_ON + timedelta(3)
    weather(out, day + timedelta(1), tmin_c=low, tmax_c=19.0)
    snaps = cold_snaps(out.season, crops_in(out.season, bed(out)), day)
    covers = bool(snaps) and snaps[0].nights[0].day == day and snaps[0].nights[0].level >= Level.CHILL
    asked = job(out, day, "Cover")
    assert (asked is not None) == covers == (low < 7.2)  # University of Maryland Extension 2023: 45 °F
    if asked is not None:
        assert asked.why.sources == snap_why(snaps[0], place_of(out.season)).sources


def test_cells_with_two_are_thinned_to_one(told):
    more = [SpotKey("Tray A", 0, 0)]
    told.do(Proposal("two", deeds_spots.mark_lost(told.season, more, UP_ON).record))
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", more, UP_ON, seeds=2))
    told.do(deeds_spots.mark_up(told.season, more, UP_ON + timedelta(9), count=2))
    assert job(told, UP_ON + timedelta(18), "Thin") is None
    day = UP_ON + timedelta(19)
    assert job(told, day, "Thin Tray A").reason == "1 cell with more than one seedling, 1 too many"
    make(told, day, "Thin")
    assert told.season.spot(more[0]).up == 1


def test_plants_are_looked_over_every_week_and_oftener_where_something_was_found(told):
    day = UP_ON + timedelta(7)
    assert job(told, day - timedelta(1), "Look over") is None
    make(told, day, "Look over Tray A")
    assert job(told, day + timedelta(6), "Look over") is None
    assert job(told, day + timedelta(7), "Look over")
    told.do(deeds_care.find(told.season, "Tray A", day, "aphids"))
    assert job(told, day + timedelta(4), "Look over")


def test_hardening_begins_so_that_it_ends_with_the_frosts(told):
    frosts = FrostDatesGiven(day=SOWN_ON, last=date(2000, 5, 20), first=date(2000, 10, 5))
    told.do(Proposal("frosts", (frosts,)))
    days = [day for day in range(1, 21) if job(told, date(2027, 5, day), "Begin hardening")]
    assert 20 - days[0] == rules_of(told.season).hardening_days
    make(told, date(2027, 5, 20), "Begin hardening Tray A")
    assert job(told, date(2027, 5, 20), "Begin") is None


def test_hardening_begins_so_that_it_ends_when_the_record_has_warm_nights(told):
    """A record of ten years whose nights reach 10 °C or more from 24 May on."""
    first = date(2017, 1, 1)
    days = tuple(
        WeatherDay(day, 10.5 if (5, 24) <= (day.month, day.day) <= (9, 15) else 4.0, 22.0)
        for day in (first + timedelta(count) for count in range(3652))
    )
    told.do(Proposal("a record", (WeatherRecord(day=SOWN_ON, source="a record", days=days),)))
    begun = [day for day in range(1, 25) if job(told, date(2027, 5, day), "Begin hardening")]
    assert 24 - begun[0] == rules_of(told.season).hardening_days
    said = job(told, date(2027, 5, 24), "Begin hardening").reason
    assert said.startswith("nights of 10 °C or more usually begin 24 May")


def test_a_bed_is_covered_before_a_cold_night(out):
    """Below 45 °F (7.2 °C): University of Maryland Extension 2023."""
    day = OUT_ON + timedelta(3)
    weather(out, day + timedelta(1), tmin_c=7.3, tmax_c=19.0)
    assert job(out, day, "Cover") is None
    weather(out, day + timedelta(1), tmin_c=6.0, tmax_c=19.0)
    cold = job(out, day, "Cover South bed tonight")
    assert (cold.reason, cold.urgency, cold.where) == (
        "low 6 °C; 6 plants out; keep covered until 6:30 on 28 May",
        Urgency.NOW,
        PLOT,
    )
    make(out, day, "Cover")
    (fact,) = out.season.facts(Covered)
    assert fact.until == datetime(2027, 5, 28, 6, 30, tzinfo=UTC)
    weather(out, day + timedelta(2), tmin_c=6.0, tmax_c=19.0)
    assert job(out, day + timedelta(1), "Cover"), "the covers are off by then"
    assert job(out, day, "Cover") is None


def test_what_was_set_out_is_staked_mulched_and_cleaned_in_time(out):
    assert job(out, OUT_ON, "Stake South bed")
    assert job(out, OUT_ON, "Mulch") is None
    out.do(deeds_plants.feel_soil(out.season, 19, at(OUT_ON)))
    assert "soil is at 19 °C" in job(out, OUT_ON, "Mulch").reason
    assert [n for n in range(19, 23) if job(out, OUT_ON + timedelta(n), "Lower leaves")] == [21, 22]
    make(out, OUT_ON + timedelta(21), "Lower leaves")
    assert job(out, OUT_ON + timedelta(41), "Lower leaves") is None
    make(out, OUT_ON + timedelta(42), "Lower leaves")
    assert job(out, OUT_ON + timedelta(70), "Lower leaves") is None


def test_nobody_is_asked_for_lower_leaves_late_in_the_season(out):
    assert job(out, OUT_ON + timedelta(84), "Lower leaves")
    assert job(out, OUT_ON + timedelta(85), "Lower leaves") is None


def test_the_round_asks_for_a_pick_on_the_very_days_the_pick_page_has_it_due(out):
    """One reckoning for both, before the first pick and after it; then every five days."""
    due = {one.due for one in ripe_lots(out.season, OUT_ON)}
    assert len(due) == 1
    first = due.pop()
    assert [n for n in range(-3, 3) if job(out, first + timedelta(n), "Pick")] == [0, 1, 2]
    make(out, first, "Pick Brass Bell in South bed", 4)
    for days in range(4, 7):
        day = first + timedelta(days)
        (one,) = ripe_ahead(out.season, day)
        assert one.due == first + timedelta(PICK_EVERY_DAYS)
        assert (job(out, day, "Pick") is not None) == (one.due <= day)
    assert job(out, day, "Pick").due == one.due


def test_plants_set_out_on_two_days_are_one_job_from_the_earlier_of_them(out):
    more = [SpotKey("Tray A", 0, column) for column in range(2)]
    out.do(deeds_spots.sow(out.season, "p-Brass Bell", more, SOWN_ON + timedelta(1)))
    out.do(deeds_spots.mark_up(out.season, more, UP_ON + timedelta(9)))
    out.do(deeds_plot.lay_bed(out.season, "North bed", 1, 2, Rectangle(0, 4, 3, 1), SOWN_ON))
    north = out.season.holders("bed")[1].key
    out.do(deeds_plot.set_out(out.season, more[:1], SpotKey(north, 0, 0), OUT_ON))
    out.do(deeds_plot.set_out(out.season, more[1:], SpotKey(north, 0, 1), OUT_ON + timedelta(9)))
    first = min(one.due for one in ripe_lots(out.season, OUT_ON + timedelta(9)))
    picks = [one for one in jobs(out, first) if one.what.startswith("Pick")]
    assert [one.about for one in picks] == [("v-Brass Bell", bed(out)), ("v-Brass Bell", north)]
    assert picks[1].ask.value == 1
    both = [one for one in jobs(out, first + timedelta(9)) if one.about == ("v-Brass Bell", north)]
    assert [(one.key, one.ask.value, one.due) for one in both] == [(picks[1].key, 2, first)]


def test_seed_is_saved_of_what_runs_out(out):
    day = OUT_ON + timedelta(80)
    assert job(out, day, "Save seed") is None
    out.do(deeds_plants.pick(out.season, "v-Brass Bell", day, 3, holder=bed(out)))
    assert job(out, day, "Save seed of Brass Bell").reason == "2 seeds left; ripe fruit picked 12 August"
    make(out, day, "Save seed", 60)
    assert job(out, day, "Save seed") is None


def test_what_is_planned_is_sown_and_old_seed_tested_before():
    """Pepper seed keeps two years: the guide, lists after Knott's Handbook."""
    told, day = Told(), date(2027, 2, 20)
    facts = (
        Variety(day=day, variety="v", name="Old Ember", crop="capsicum-annuum"),
        Packet(day=day, packet="p", variety="v", packed=2022, seeds=60),
        Wanted(day=day, variety="v", year=2027, plants=4),
    )
    told.do(Proposal("box", facts))
    told.do(choose_sowing(told.season, "v", 2027, date(2027, 3, 1), day))
    told.holder("Tray A", rows=1, columns=8, mix_c=25.0)
    test = job(told, day, "Test Old Ember")
    assert (test.where, test.ask.value) == (DESK, 10)
    assert job(told, day, "Sow Old Ember") is None
    make(told, day, "Test")
    assert job(told, day, "Test") is None
    sow_on = date(2027, 3, 12)
    assert "4 plants wanted" in job(told, sow_on, "Sow Old Ember").reason
    told.do(deeds_spots.sow(told.season, "p", CELLS, sow_on))
    assert job(told, sow_on, "Sow Old Ember") is None


def test_a_running_test_is_counted_when_its_counts_are_due(told):
    """First count after 6 days, the last after 14: 7 CFR 201.58, Table 2, pepper."""
    test = GerminationTest(day=UP_ON, test="t", packet="p-Brass Bell", seeds=10)
    told.do(Proposal("test", (test,)))
    assert [n for n in range(4, 8) if job(told, UP_ON + timedelta(n), "Count")] == [6, 7]
    make(told, UP_ON + timedelta(6), "Count the test of Brass Bell", 5)
    assert job(told, UP_ON + timedelta(13), "Count") is None
    assert job(told, UP_ON + timedelta(14), "Count")
    told.do(deeds_tests.count_test(told.season, "t", UP_ON + timedelta(14), 5))
    assert job(told, UP_ON + timedelta(14), "Count") is None


def test_a_job_put_off_comes_back_on_its_day_and_one_struck_out_does_not(told):
    day = UP_ON
    lamps = job(told, day, "Lamps on")
    told.do(deeds_round.put_off(lamps.key, lamps.what, day, day + timedelta(2)))
    assert job(told, day + timedelta(1), "Lamps") is None
    assert the_round(told.season, day, at(day)).put_off[0][1] == day + timedelta(2)
    assert lamps.what in week(told.season, day, at(day))[1].lines
    assert job(told, day + timedelta(2), "Lamps on")
    told.do(deeds_round.strike_out(told.season, lamps.key, lamps.what, day))
    assert job(told, day + timedelta(200), "Lamps") is None
    told.do(deeds_round.bring_back(told.season, lamps.key, lamps.what))
    assert job(told, day, "Lamps on")


def test_what_was_done_today_is_told_by_whatever_page_and_can_be_taken_back(told):
    day = UP_ON + timedelta(10)
    told.do(deeds_care.water(told.season, "Tray A", day))
    told.do(deeds_spots.mark_lost(told.season, CELLS[:2], day, "damping-off"))
    walk = Walk.of(told.season, day, at(day))
    assert [(one.where, one.what, one.words) for one in done_today(walk)] == [
        (SHELF, "Tray A", "watered from below"),
        (SHELF, "Tray A", "2 lost"),
    ]
    told.do(take_done_back(walk, done_today(walk)[1]))
    told.do(take_done_back(walk, done_today(walk)[0]))
    assert done_today(walk) == []
    assert told.season.spot(CELLS[0]).up == 1


def test_the_cool_night_of_tonight_counts_as_done_today(told):
    day = UP_ON + timedelta(30)
    told.do(deeds_care.cool_night(told.season, "Tray A", day + timedelta(1), 16))
    (done,) = done_today(Walk.of(told.season, day, at(day)))
    assert done.words == "cool night, down to 16 °C"


def test_the_week_tells_each_job_once_on_its_first_day(told):
    day = UP_ON + timedelta(4)
    told.do(Proposal("h", (HardeningStarted(day=day, holder="Tray A"),)))
    ahead = week(told.season, day, at(day))
    assert [one.day for one in ahead] == [day + timedelta(n) for n in range(1, 8)]
    looks = [(one.day, line) for one in ahead for line in one.lines if line.startswith("Look over")]
    assert looks == [(UP_ON + timedelta(7), "Look over Tray A")]
    outings = [line for one in ahead for line in one.lines if line.startswith("Tray A out")]
    assert len(outings) == 7


def test_urgent_jobs_stand_first_where_one_stands(out):
    day = OUT_ON + timedelta(21)
    weather(out, day + timedelta(1), tmin_c=3.0, tmax_c=15.0)
    plot = [one for one in jobs(out, day) if one.where == PLOT]
    assert plot[0].what == "Cover South bed tonight"
    assert [one.where for one in jobs(out, day)] == sorted(
        (one.where for one in jobs(out, day)), key=(SHELF, DOOR, PLOT, DESK).index
    )
