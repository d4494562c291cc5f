"""When a holder wants water: by weight, by feel, and outdoors by the balance of FAO Paper 56."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger.facts import PlaceSet, WeatherDay, WeatherRecord
from greenroom.season import deeds_care, deeds_plot, deeds_spots
from greenroom.season.crops import PEPPER
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.watering import (
    FELT,
    WATER_FACTS,
    basin_to_empty,
    history,
    last_watered,
    strike_line,
    thirst,
)
from greenroom.season.watering_curve import water_curve
from greenroom.season.watering_outside import (
    CROPS,
    CropWater,
    easy_share,
    held_mm,
    outside_water,
    reference_days,
    rim_m2,
    stress,
)
from greenroom.season.watering_weights import dry_down, weights_of
from tests.season.told import SOWN_ON, Told

DAY = date(2027, 6, 1)
CELLS = [SpotKey("Tray A", 0, column) for column in range(6)]


def after(days):
    return DAY + timedelta(days)


@pytest.fixture
def told():
    """Six annuums up in a tray in Bangkok's latitude, warm and even."""
    told = Told()
    place = PlaceSet(day=SOWN_ON, name="Ridge Lane", latitude=13.73, longitude=0.0, zone="UTC")
    told.do(Proposal("set the place", (place,)))
    told.packet("Brass Bell", seeds=8)
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, CELLS, SOWN_ON + timedelta(8)))
    return told


def weigh(told, day, grams, state="now", at=None):
    told.do(deeds_care.weigh(told.season, "Tray A", day, grams, state, at))


def clock(day, hour, minute=0):
    return datetime(day.year, day.month, day.day, hour, minute, tzinfo=UTC)


def weigh_at(told, moment, grams, state="now"):
    weigh(told, moment.date(), grams, state, moment)


def wants(told, day, holder="Tray A"):
    return thirst(told.season, told.season.holder(holder), day)


def facts(told, holder="Tray A"):
    return told.season.holder_facts(holder)


def weather(told, first, days, tmin, tmax, rain=None):
    known = tuple(WeatherDay(first + timedelta(number), tmin, tmax, rain) for number in range(days))
    told.do(Proposal("w", (WeatherRecord(day=first, source="a file", days=known),)))


def out(told, day, pots=None, cells=6):
    """Set the six out into a bed of 3 × 1 m, or into pots."""
    told.do(deeds_plot.lay_bed(told.season, "South bed", 1, cells, Rectangle(0, 0, 3, 1), SOWN_ON, pots))
    key = told.season.holders("bed")[0].key
    told.do(deeds_plot.set_out(told.season, CELLS, SpotKey(key, 0, 0), day))
    return key


def test_the_curve_goes_through_the_weights_it_was_fitted_to(told):
    """Held falls 100, 80, 64 %: a fifth a day, so half after ln 0.5 / ln 0.8 = 3.1 days (by hand)."""
    weigh(told, DAY, 1000, "dry")
    weigh(told, DAY, 2000, "wet")
    weigh(told, after(1), 1800)
    weigh(told, after(2), 1640)
    drying = dry_down(facts(told), after(2))
    assert drying.halving_days == pytest.approx(3.106, abs=0.001)
    assert [drying.share_on(days) for days in (0, 1, 2)] == pytest.approx([1, 0.8, 0.64])
    assert (drying.start, drying.on, drying.before) == (DAY, after(3), False)
    assert [one.share for one in drying.weighings] == pytest.approx([1, 0.8, 0.64])


def test_weights_that_carry_their_hour_tell_the_hour_of_the_next_water(told):
    """Held falls 100, 80 % in twelve hours: half after 12 × 3.106 = 37.3 hours (by hand)."""
    weigh(told, after(-3), 1000, "dry")
    weigh_at(told, clock(DAY, 8), 2000, "wet")
    weigh_at(told, clock(DAY, 20), 1800)
    drying = dry_down(facts(told), DAY)
    assert (drying.began, drying.on) == (clock(DAY, 8), after(1))
    assert abs(drying.at - clock(after(1), 21, 17)) < timedelta(minutes=1)
    thirsty = wants(told, DAY)
    assert thirsty.at == drying.at
    assert thirsty.reason == "200 g lighter than soaked; half its water is gone by about 21:30 on 2 June"
    assert "hour is told" in thirsty.why.rule
    curve = water_curve(told.season, told.season.holder("Tray A"), DAY, clock(DAY, 20))
    assert curve.hourly
    assert [at for at, _ in curve.points] == pytest.approx([8 / 24, 20 / 24])
    assert (curve.today, curve.on) == pytest.approx((20 / 24, 1 + 21.28 / 24), abs=0.001)
    assert curve.words_at(20 / 24) == "1 June, 20:00: 80 % held"


def test_a_weight_told_by_its_day_alone_leaves_the_others_a_day_too(told):
    weigh(told, DAY, 1000, "dry")
    weigh_at(told, clock(DAY, 18), 2000, "wet")
    weigh(told, after(1), 1800)
    drying = dry_down(facts(told), after(1))
    assert (drying.on, drying.at, drying.began) == (after(3), None, None)
    assert "no hour" in wants(told, after(1)).why.rule


def test_weights_an_hour_apart_tell_no_pace(told):
    weigh(told, after(-3), 1000, "dry")
    weigh_at(told, clock(DAY, 8), 2000, "wet")
    weigh_at(told, clock(DAY, 9), 1950)
    assert dry_down(facts(told), DAY) is None
    weigh_at(told, clock(DAY, 14), 1900)
    assert dry_down(facts(told), DAY) is not None


def test_the_hour_of_a_watering_begins_the_drying_at_the_pace_of_the_last(told):
    weigh(told, after(-3), 1000, "dry")
    weigh_at(told, clock(DAY, 8), 2000, "wet")
    weigh_at(told, clock(DAY, 20), 1800)
    told.do(deeds_care.water(told.season, "Tray A", after(2), at=clock(after(2), 7)))
    drying = dry_down(facts(told), after(2))
    assert (drying.before, drying.on) == (True, after(3))
    assert abs(drying.at - clock(after(3), 20, 17)) < timedelta(minutes=1)


def test_a_scale_that_cannot_tell_yet_says_what_is_missing(told):
    assert "soaked and drained" in weights_of(facts(told), DAY).missing
    weigh(told, DAY, 2000, "wet")
    assert "dull" in weights_of(facts(told), DAY).missing
    weigh(told, DAY, 1000, "dry")
    assert "two days" in weights_of(facts(told), DAY).missing
    assert dry_down(facts(told), DAY) is None
    weigh(told, after(2), 1640)
    assert weights_of(facts(told), after(2)).missing == ""


def test_a_pot_that_gets_heavier_tells_no_day(told):
    weigh(told, DAY, 1000, "dry")
    weigh(told, DAY, 2000, "wet")
    weigh(told, after(1), 2050)
    assert dry_down(facts(told), after(1)) is None
    assert wants(told, after(1)) is None


def test_after_watering_the_pace_of_the_last_drying_tells_the_next_day(told):
    weigh(told, DAY, 1000, "dry")
    weigh(told, DAY, 2000, "wet")
    weigh(told, after(2), 1640)
    assert wants(told, after(2)).on == after(3)
    told.do(deeds_care.water(told.season, "Tray A", after(3)))
    drying = dry_down(facts(told), after(3))
    assert (drying.before, drying.start, drying.on) == (True, after(3), after(6))
    assert "pace of its last drying" in wants(told, after(3)).reason
    weigh(told, after(4), 1640)
    assert dry_down(facts(told), after(4)).on == after(5)  # 3.106 × log2(0.64 / 0.5) = 1.1 days
    assert weights_of(facts(told), after(4)).weighings == ((after(4), 1640.0, None),)


def test_weights_from_before_the_watering_of_the_same_day_do_not_count(told):
    weigh(told, DAY, 1000, "dry")
    weigh(told, DAY, 1200)
    weigh(told, DAY, 2000, "wet")
    told.do(deeds_care.water(told.season, "Tray A", DAY))
    assert weights_of(facts(told), DAY).weighings == ((DAY, 2000.0, None),)


def test_a_feel_of_the_mix_goes_before_the_scale(told):
    weigh(told, DAY, 1000, "dry")
    weigh(told, DAY, 2000, "wet")
    weigh(told, after(1), 1950)
    assert wants(told, after(1)).on > after(5)
    told.do(deeds_care.feel_mix(told.season, "Tray A", after(1), "dry", "lift"))
    assert wants(told, after(1)).on == after(1)
    assert "by lift" in dict(wants(told, after(1)).why.inputs)["felt"]
    told.do(deeds_care.feel_mix(told.season, "Tray A", after(2), "wet"))
    assert wants(told, after(2)) is None


def test_every_test_and_level_has_its_meaning():
    assert {level for _, level in FELT} == {"wet", "moist", "dry"}
    assert len(set(FELT.values())) == 6


def test_what_was_told_of_water_can_be_struck_out(told):
    told.do(deeds_care.water(told.season, "Tray A", DAY, "below"))
    assert last_watered(facts(told), DAY).how == "below"
    made = told.season.holder("Tray A")
    assert basin_to_empty(made, facts(told), after(1)).day == DAY
    told.do(deeds_care.empty_basin(told.season, "Tray A", DAY))
    assert basin_to_empty(made, facts(told), after(1)) is None
    lines = history(told.season, "Tray A", WATER_FACTS)
    assert [line.words for line in lines] == ["basin emptied", "watered from below"]
    told.do(strike_line(made, lines[0]))
    told.do(strike_line(made, lines[1]))
    assert history(told.season, "Tray A", WATER_FACTS) == ()
    assert last_watered(facts(told), DAY) is None


def test_crop_coefficients_are_those_of_fao_paper_56():
    """FAO-56 table 12: sweet pepper 0.60, 1.05, 0.90; tomato 0.60, 1.15, 0.80; egg plant 0.60, 1.05, 0.90;
    cucumber 0.60, 1.00, 0.75. Table 11, sweet pepper, Mediterranean: 30, 35, 40, 20 = 125 days. Table 22:
    p of pepper 0.30, tomato 0.40, egg plant 0.45, cucumber 0.50.
    """
    assert [CROPS[key].kc for key in (PEPPER, "tomato", "aubergine", "cucumber")] == [
        (0.60, 1.05, 0.90),
        (0.60, 1.15, 0.80),
        (0.60, 1.05, 0.90),
        (0.60, 1.00, 0.75),
    ]
    assert [CROPS[key].p for key in (PEPPER, "tomato", "aubergine", "cucumber")] == [0.30, 0.40, 0.45, 0.50]
    assert sum(CROPS[PEPPER].stages) == 125


@pytest.mark.parametrize(
    ("day", "kc"), [(0, 0.60), (30, 0.60), (47.5, 0.825), (65, 1.05), (105, 1.05), (115, 0.975), (125, 0.90)]
)
def test_the_coefficient_runs_straight_between_its_stages(day, kc):
    """FAO-56 equation 66 for pepper: half way through 35 days of growth, half way from 0.60 to 1.05."""
    assert CROPS[PEPPER].kc_on(day) == pytest.approx(kc)


@pytest.mark.parametrize(("day", "kc"), [(20, 0.15), (40, 0.77), (70, 1.19), (95, 0.56)])
def test_the_coefficient_of_dry_beans_is_that_of_the_worked_example(day, kc):
    """FAO-56 example 28 (from memory): dry beans, Kc 0.15, 1.19, 0.35, stages of 25, 25, 30, 20 days."""
    beans = CropWater("dry beans", (0.15, 1.19, 0.35), (25, 25, 30, 20), 0.45, 0.6)
    assert beans.kc_on(day) == pytest.approx(kc, abs=0.005)


@pytest.mark.parametrize(("etc", "share"), [(3, 0.38), (5, 0.30), (7, 0.22)])
def test_less_of_the_water_is_easy_on_hot_days(etc, share):
    """FAO-56 table 22, its note: p + 0.04 (5 - ETc), for pepper 0.30."""
    assert easy_share(0.30, etc) == pytest.approx(share)


@pytest.mark.parametrize(
    ("holds_mm_m", "depth_m", "p", "held", "easy"),
    [
        (130, 0.5, 0.30, 65, 19.5),  # FAO-56 equations 82 and 83, pepper on loam 0.25 less 0.12
        (90, 0.4, 0.30, 36, 11),  # FAO-56 example 36 (from memory): onion on loamy sand
        (170, 0.8, 0.40, 136, 54),  # the same: tomato on silt
        (120, 1.5, 0.55, 180, 99),  # the same: winter wheat on silty clay
    ],
)
def test_a_rooted_depth_holds_what_fao_paper_56_says(holds_mm_m, depth_m, p, held, easy):
    assert held_mm(depth_m, holds_mm_m) == pytest.approx(held)
    assert p * held_mm(depth_m, holds_mm_m) == pytest.approx(easy, abs=0.5)


def test_a_plant_short_of_water_slows_down_as_in_the_worked_example():
    """FAO-56 example 37 (from memory): tomato on silt, ET0 5 mm, Kc 1.2, 136 mm held, 55 mm short.

    p = 0.40 + 0.04 (5 - 6) = 0.36; the factors of the first days are 0.93, 0.87, 0.81 and what is short
    at their ends 60.6, 65.8 and 70.6 mm.
    """
    share = easy_share(0.40, 6.0)
    assert share == pytest.approx(0.36)
    short, factors, ends = 55.0, [], []
    for _ in range(3):
        factors.append(stress(short, 136, share))
        short += factors[-1] * 6.0
        ends.append(short)
    assert factors == pytest.approx([0.93, 0.87, 0.81], abs=0.006)
    assert ends == pytest.approx([60.6, 65.8, 70.6], abs=0.15)


def test_a_day_not_known_takes_the_days_before_it():
    """FAO-56 example 20 (from memory): Lyon in July, 26.6 and 14.8 °C at 45.72 N: Hargreaves 5.0 mm."""
    known = {DAY + timedelta(n): WeatherDay(DAY + timedelta(n), 14.8, 26.6) for n in (44, 45)}
    days = reference_days(known, 45.72, DAY + timedelta(40), DAY + timedelta(47))
    assert list(days) == [DAY + timedelta(n) for n in (44, 45, 46, 47)]
    assert [told for _, told in days.values()] == [True, True, False, False]
    assert days[DAY + timedelta(44)][0] == pytest.approx(5.0, abs=0.06)
    assert days[DAY + timedelta(47)][0] == pytest.approx(5.0, abs=0.06)


def test_the_rim_of_a_pot_is_that_of_its_cone():
    """A cone 29.1 cm wide, 0.85 as tall and 0.70 as wide below, holds 12.0 L: pi/12 h (D² + Dd + d²)."""
    wide = (rim_m2(12.0) * 4 / 3.14159265) ** 0.5 * 100
    tall, base = 0.85 * wide, 0.70 * wide
    assert wide == pytest.approx(29.1, abs=0.1)
    assert 3.14159265 / 12 * tall * (wide**2 + wide * base + base**2) / 1000 == pytest.approx(12.0, rel=1e-6)


def test_a_bed_wants_water_when_its_easy_water_is_gone(told):
    """By hand: FAO-56 equation 52, Ra 38.1 MJ (equation 21): 0.0023 × 48 × √9.2 × 0.408 × 38.1 = 5.2 mm.

    Kc of a fresh pepper is 0.60, so 3.1 mm a day, of 0.25 m × 130 mm = 32.5 mm, of which
    0.30 + 0.04 (5 - 3.1) = 0.375, 12.2 mm, is easy: 9.4 mm are gone after three days, 12.5 after four.
    """
    key = out(told, DAY)
    weather(told, SOWN_ON, 120, 25.6, 34.8)
    assert outside_water(told.season, told.season.holder(key), DAY).since is None
    assert wants(told, DAY, key) is None
    told.do(deeds_care.water(told.season, key, DAY, "above"))
    found = outside_water(told.season, told.season.holder(key), after(1))
    assert found.today_et0_mm == pytest.approx(5.2, abs=0.05)
    assert found.today_l == pytest.approx(found.today_et0_mm * 0.60 * 0.5)
    assert found.on == after(4)
    due = wants(told, after(1), key)
    assert due.on == after(4)
    assert any("Paper 56" in source for source in due.why.sources)
    assert ("last watered", "1 June") in due.why.inputs


def test_rain_puts_the_day_off(told):
    key = out(told, DAY)
    weather(told, SOWN_ON, 120, 25.6, 34.8)
    told.do(deeds_care.water(told.season, key, DAY, "above"))
    dry = wants(told, after(2), key).on
    weather(told, after(2), 1, 25.6, 34.8, rain=9.0)
    assert wants(told, after(2), key).on > dry


def test_a_small_pot_wants_water_sooner_than_a_large_one(told):
    days = []
    weather(told, SOWN_ON, 200, 25.6, 34.8)
    key = out(told, DAY, pots=2.0)
    for litres in (2.0, 12.0, 40.0):
        laid = told.season.holder(key)
        told.do(deeds_plot.move_bed(told.season, key, Rectangle(0, 0, 3, 1), DAY, litres))
        told.do(deeds_care.water(told.season, key, after(70), "above"))
        found = outside_water(told.season, laid, after(70))
        days.append((found.on - after(70)).days)
        assert found.holds_l == pytest.approx(litres * 0.25)
        assert found.area_m2 >= rim_m2(litres)
    assert days == sorted(days)
    assert days[0] == 1
    assert days[2] > 3


def test_without_weather_or_place_nothing_is_made_up(told):
    key = out(told, DAY)
    told.do(deeds_care.water(told.season, key, DAY, "above"))
    assert outside_water(told.season, told.season.holder(key), DAY) is None
    assert outside_water(told.season, told.season.holder("Tray A"), DAY) is None
    assert wants(told, after(3), key) is None


def test_a_weight_that_cannot_be_is_refused_in_one_sentence(told):
    weigh(told, DAY, 2000, "wet")
    with pytest.raises(RefusedError, match="dry must be the lighter"):
        deeds_care.weigh(told.season, "Tray A", DAY, 2500, "dry")


@pytest.mark.parametrize("litres", [None, 3.0, 15.0])
def test_a_hotter_week_never_puts_the_watering_off(told, litres):
    key = out(told, DAY, pots=litres)
    told.do(deeds_care.water(told.season, key, DAY, "above"))
    found = []
    for number, tmax in enumerate((18.0, 24.0, 30.0, 38.0)):
        weather(told, SOWN_ON + timedelta(number), 140 - number, 12.0, tmax)
        outside = outside_water(told.season, told.season.holder(key), after(1))
        assert all(0 <= one.short_l <= one.held_l for one in outside.days)
        found.append((outside.on or after(99), -outside.today_l))
    assert found == sorted(found, reverse=True)
    assert found[0] != found[-1]


def test_the_curve_drawn_is_the_truth_the_day_comes_from(told):
    """At the end of the day water is wanted, the line is below what triggers it; the day before it is not."""
    key = out(told, DAY)
    weather(told, SOWN_ON, 120, 25.6, 34.8)
    told.do(deeds_care.water(told.season, key, DAY, "above"))
    curve = water_curve(told.season, told.season.holder(key), after(1))
    trigger = dict(curve.trigger)
    assert curve.start + timedelta(curve.on) == wants(told, after(1), key).on
    assert curve.share_at(curve.on) < trigger[curve.on]
    assert curve.share_at(curve.on - 1) >= trigger[curve.on - 1]
    assert curve.share_at(0) == 1
    assert water_curve(told.season, told.season.holder("Tray A"), after(1)) is None
