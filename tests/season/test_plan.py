"""The season plan against a second way, by pandas, on 37 years of one place's weather."""

from datetime import date, timedelta

import pytest
from statsmodels.stats.proportion import proportion_confint

from greenroom.ledger.facts import HolderPlaced, SowingPlanned, Sown
from greenroom.season import deeds_place, deeds_plan
from greenroom.season.plan import Basis, plan_of
from greenroom.season.proposal import Proposal
from tests.season.plan_ground import (
    BELL,
    EMBER,
    LANTERN,
    SOUTH,
    TODAY,
    YEAR,
    Kind,
    champion,
    champion_days,
    day_of_year,
    ground,
    played,
    turned,
)


@pytest.fixture(scope="module")
def told():
    return ground(BELL, LANTERN, EMBER, days=champion_days())


@pytest.fixture(scope="module")
def plan(told):
    return plan_of(told.season, YEAR, TODAY)


def doy(day):
    return day.timetuple().tm_yday


def test_days_from_sowing_to_setting_out_are_the_guides_weeks_and_what_cool_mix_adds(plan):
    """Bell pepper: 8 weeks (University of Minnesota Extension: "about eight weeks"), from sowing on.

    Half up after 8 days at 25 and 30 °C, 13 at 20 and 8 at 25 (Harrington and Minges 1954); at 21 °C, by
    the rate between the last two, 1 / (0.8/13 + 0.2/8) = 11.56 days: 3.6 more, so 56 + 3.6 = 60.
    """
    needs = plan.row("Brass Bell").needs
    assert needs.days_up == pytest.approx(1 / (0.8 / 13 + 0.2 / 8))
    assert needs.days_to_ready == 60
    assert (needs.weeks.low, needs.weeks.high) == (7, 9)
    assert (needs.longest_days, needs.shortest_days) == (67, 53)


def test_the_species_sets_the_weeks_indoors(plan):
    """Chinense kinds take 10 to 12 weeks (growers' texts, from memory, in the guide), annuum 8."""
    assert (plan.row("Cinder Lantern").needs.weeks.low, plan.row("Cinder Lantern").needs.weeks.high) == (
        10,
        12,
    )


def test_heat_to_ripe_is_the_stated_days_in_the_warmth_they_are_stated_for(plan):
    """A day of 27 °C after a night of 15 °C is (27 + 15) / 2 - 10 = 11 °C·d (FAO: best days 18 to 27 °C, best
    nights 15 to 18 °C, for peppers); that such a day stands behind a packet's days is a working rule."""
    assert plan.row("Brass Bell").needs.heat_need == pytest.approx(88 * 11)


@pytest.mark.parametrize("kind", [BELL, LANTERN, EMBER], ids=lambda kind: kind.name)
@pytest.mark.parametrize("on", [date(2027, 1, 20), date(2027, 3, 1), date(2027, 4, 10), date(2027, 5, 20)])
def test_odds_and_dates_agree_with_pandas_on_the_same_years(plan, kind, on):
    needs = plan.row(kind.name).needs
    ready = on + timedelta(days=needs.days_to_ready)
    years = played(champion(), kind.ripe * 11, (ready.month, ready.day))
    sowing = plan.chart.sown(kind.name, on)
    assert plan.years == len(years) == 37
    assert sowing.odds.ripe == years["ripe"].notna().sum()
    low, high = proportion_confint(sowing.odds.ripe, 37, method="wilson")
    assert (sowing.odds.low, sowing.odds.high) == (pytest.approx(low), pytest.approx(high))
    for spread, column in ((sowing.set_out, "out"), (sowing.ripe, "ripe"), (sowing.end, "end")):
        if spread is None:
            assert years[column].isna().all()
            continue
        assert spread.years == years[column].notna().sum()
        found = (doy(spread.early), doy(spread.usual), doy(spread.late))
        assert found == tuple(day_of_year(years[column], share) for share in (0.1, 0.5, 0.9))


@pytest.mark.parametrize("kind", [BELL, LANTERN], ids=lambda kind: kind.name)
def test_the_latest_sowing_is_the_last_day_that_keeps_the_odds_wanted(plan, kind):
    """Four years in five are asked for to begin with; counted by pandas, day by day."""
    latest = plan.row(kind.name).latest
    shares = []
    for on in (latest, latest + timedelta(days=1)):
        ready = on + timedelta(days=plan.row(kind.name).needs.days_to_ready)
        shares.append(played(champion(), kind.ripe * 11, (ready.month, ready.day))["ripe"].notna().mean())
    assert shares[0] >= 0.8 > shares[1]


def test_the_window_lies_the_guides_weeks_before_the_usual_warm_nights(plan):
    warm = usual_warm_day()
    row = plan.row("Brass Bell")
    assert row.window.first == warm - timedelta(days=67)
    assert row.window.last == warm - timedelta(days=53)
    assert row.on == row.window.first + timedelta(days=7)
    assert row.latest > row.window.last


def usual_warm_day():
    """The day by which half the years had seven nights of 10 °C or more before them, by pandas."""
    return date(2027, 1, 1) + timedelta(days=day_of_year(played(champion(), 1, (1, 1))["out"], 0.5) - 1)


@pytest.mark.parametrize(
    ("odds", "kept"), [(0.75, True), (0.9, False)], ids=["where they are kept", "where none keeps them"]
)
def test_a_window_ends_no_later_than_the_odds_bear(odds, kept):
    """The lantern, asked for more years than its guide's weeks give: sown sooner than they would have it."""
    plan = plan_of(ground(LANTERN, days=champion_days(), rules={"odds": odds}).season, YEAR, TODAY)
    (row,) = plan.rows
    bound = row.latest if kept else plan.chart.best("Cinder Lantern")[0]
    assert (row.latest is not None) is kept
    assert row.window.last == bound < usual_warm_day() - timedelta(days=row.needs.shortest_days)
    first = usual_warm_day() - timedelta(days=row.needs.longest_days)
    assert row.window.first == min(first, bound - timedelta(days=14))


def test_frost_is_told_by_the_years_first_killing_nights(plan):
    end = played(champion(), 1, (1, 1))["end"]
    found = (doy(plan.frost.early), doy(plan.frost.usual), doy(plan.frost.late))
    assert found == tuple(day_of_year(end, share) for share in (0.1, 0.5, 0.9))


def test_what_falls_short_is_marked_and_what_does_not_is_not(plan):
    assert [row.short for row in plan.rows] == [False, False, True]
    assert plan.row("Old Ember").latest is None
    assert (plan.basis, plan.missing) == (Basis.RECORD, ())


def test_a_chosen_day_goes_before_the_proposed_and_a_sowing_before_both(told):
    told = ground(BELL, days=champion_days())
    chosen = date(2027, 4, 20)
    told.do(deeds_plan.choose_sowing(told.season, "Brass Bell", YEAR, chosen, TODAY))
    row = plan_of(told.season, YEAR, TODAY).row("Brass Bell")
    assert (row.on, row.chosen, row.sown) == (chosen, True, False)
    sown = Sown(day=date(2027, 4, 2), holder="Tray A", row=0, column=0, packet="p-Brass Bell")
    told.do(Proposal("sowed", (sown,)))
    row = plan_of(told.season, YEAR, date(2027, 4, 21)).row("Brass Bell")
    assert (row.on, row.chosen, row.sown) == (date(2027, 4, 2), True, True)
    assert row.sowing.on == date(2027, 4, 2)
    other = plan_of(told.season, YEAR + 1, date(2027, 4, 21))
    assert other.rows == ()


def test_what_is_not_sown_when_its_window_is_past_is_for_today(told):
    late = date(2027, 5, 3)
    row = plan_of(told.season, YEAR, late).row("Brass Bell")
    assert row.on == late
    assert row.sowing.odds.share < plan_of(told.season, YEAR, TODAY).row("Brass Bell").sowing.odds.share


def test_the_mix_of_the_tray_it_was_sown_in_counts():
    told = ground(BELL, days=champion_days(), mix_c=None)
    row = plan_of(told.season, YEAR, TODAY).row("Brass Bell")
    assert (row.needs.mix_c, row.needs.days_to_ready) == (None, 56)  # as warm as it likes best
    warm = HolderPlaced(day=TODAY, holder="Tray A", place="mat", mix_c=15.0)
    told.do(Proposal("placed", (warm,)))
    row = plan_of(told.season, YEAR, TODAY).row("Brass Bell")
    assert row.needs.days_to_ready == 56 + 25 - 8  # 25 days at 15 °C: Harrington and Minges 1954


def test_in_mix_too_cold_to_come_up_the_best_warmth_is_taken_and_said():
    """None came up at 10 °C (Harrington and Minges 1954)."""
    told = ground(BELL, days=champion_days(), mix_c=10.0)
    needs = plan_of(told.season, YEAR, TODAY).row("Brass Bell").needs
    assert needs.unfit
    assert needs.days_to_ready == 56


def test_a_place_in_the_south_has_the_same_odds_half_a_year_on():
    """The same 37 years of weather, 184 days later: summer about New Year."""
    north = plan_of(ground(BELL, LANTERN, days=champion_days()).season, YEAR, TODAY)
    told = ground(BELL, LANTERN, days=turned(champion_days()), place=SOUTH, today=date(2027, 6, 20))
    south = plan_of(told.season, YEAR, date(2027, 6, 20))
    for name in ("Brass Bell", "Cinder Lantern"):
        for day in (date(2027, 2, 1), date(2027, 3, 20), date(2027, 5, 5)):
            there = north.chart.odds_on(name, day)
            here = south.chart.odds_on(name, day + timedelta(days=184))
            assert abs(here.share - there.share) <= 2 / 36  # one season fewer is whole; leap days shift
        assert abs((south.row(name).on - north.row(name).on).days - 184) <= 4
        assert south.row(name).sowing.ripe.usual.year == 2028
    assert (south.frost.usual.year, south.frost.usual.month) == (2028, 3)


def test_without_days_to_ripe_the_plan_says_so_and_still_counts_seeds_and_dates():
    told = ground(Kind("Nameless", "pepper"), days=champion_days())
    plan = plan_of(told.season, YEAR, TODAY)
    (row,) = plan.rows
    assert row.sowing is not None  # taken for annuum, whose days the guide knows
    told = ground(Kind("Pale Gourd", "squash"), days=champion_days())
    (row,) = plan_of(told.season, YEAR, TODAY).rows
    assert (row.needs.days_to_ripe, row.sowing, row.latest) == (None, None, None)
    assert row.window is not None
    assert row.seeds.cells >= 6
    assert plan_of(told.season, YEAR, TODAY).missing == (
        "Days to ripe are not known of Pale Gourd; give them in the seed box to see the odds.",
    )


def test_a_short_record_is_said_to_be_short():
    days = tuple(day for day in champion_days() if day.day.year >= 2013)
    plan = plan_of(ground(BELL, days=days).season, YEAR, TODAY)
    assert plan.years == 6
    assert plan.missing == ("The odds rest on 6 years only; 30 are the custom, so bring more of them in.",)


def test_a_record_without_a_whole_season_gives_no_odds():
    days = tuple(day for day in champion_days() if day.day.year == 2018 and day.day.month < 7)
    told = ground(BELL, days=days, frosts=(date(2020, 5, 10), date(2020, 9, 28)))
    plan = plan_of(told.season, YEAR, TODAY)
    assert (plan.basis, plan.chart, plan.years) == (Basis.FROSTS, None, 0)
    assert plan.missing[0].startswith("The weather record holds no season whole")
    assert plan.rows[0].frosts is not None


def test_hardy_and_tender_crops_wait_for_nights_of_their_own():
    """By the guide leek bears 0 °C and aubergine asks for 15.6 (Utah State University Extension: 60 °F)."""
    told = ground(Kind("Leek", "leek"), Kind("Aubergine", "aubergine"), BELL, days=champion_days())
    plan = plan_of(told.season, YEAR, TODAY)
    floors = [row.needs.floor_c for row in plan.rows]
    assert floors == [0.0, 15.6, 10.0]
    out = [row.sowing.set_out.usual for row in plan.rows]
    assert out[0] < out[2] < out[1]


def test_the_growers_own_floor_counts_for_tender_crops_and_never_makes_hardy_ones_wait():
    told = ground(
        Kind("Leek", "leek"), BELL, days=champion_days(), rules={"floor_c": 12.0, "killing_c": -2.0}
    )
    rows = plan_of(told.season, YEAR, TODAY).rows
    assert [row.needs.floor_c for row in rows] == [0.0, 12.0]
    assert [row.needs.killing_c for row in rows] == [-6.0, -2.0]


def test_a_wish_for_none_leaves_the_plan(told):
    told = ground(BELL, LANTERN, days=champion_days())
    told.do(deeds_plan.want(told.season, "Brass Bell", YEAR, 0, TODAY))
    assert [row.name for row in plan_of(told.season, YEAR, TODAY).rows] == ["Cinder Lantern"]


def test_a_plan_after_any_changes_is_the_plan_made_anew():
    """Its parts are kept apart; none may outlive what it was made of."""
    from greenroom.season.state import Season

    told = ground(BELL, LANTERN, days=champion_days())
    season = told.season
    changes = [
        lambda: deeds_plan.choose_sowing(season, "Brass Bell", YEAR, date(2027, 3, 3), TODAY),
        lambda: deeds_plan.want(season, "Cinder Lantern", YEAR, 11, TODAY),
        lambda: deeds_plan.set_rules(season, TODAY, odds=0.6, floor_c=12.0, hardening_days=14),
        lambda: deeds_plan.set_rules(season, TODAY, confidence=0.8),
        lambda: Proposal("placed", (HolderPlaced(day=TODAY, holder="Tray A", place="sill", mix_c=18.0),)),
        lambda: Proposal(
            "sowed", (Sown(day=TODAY, holder="Tray A", row=0, column=0, packet="p-Cinder Lantern"),)
        ),
        lambda: deeds_plan.forget_sowing(season, "Brass Bell", YEAR),
        lambda: deeds_place.give_frost_dates(season, date(2026, 5, 10), date(2026, 9, 30), TODAY),
    ]
    for change in changes:
        told.do(change())
        fresh = Season(sorted(told._entries.values(), key=lambda entry: entry.number), guide=season.guide)
        kept, made = plan_of(season, YEAR, TODAY), plan_of(fresh, YEAR, TODAY)
        assert (kept.rows, kept.rules, kept.frost, kept.missing) == (
            made.rows,
            made.rules,
            made.frost,
            made.missing,
        )


def test_a_day_planned_for_another_year_does_not_count(told):
    told = ground(BELL, days=champion_days())
    other = SowingPlanned(day=TODAY, variety="Brass Bell", year=2028, on=date(2028, 2, 2))
    told.do(Proposal("planned", (other,)))
    assert not plan_of(told.season, YEAR, TODAY).row("Brass Bell").chosen
