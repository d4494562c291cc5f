"""Evapotranspiration against the worked examples of FAO-56, and dry-down against curves it should recover."""

import datetime as dt

import numpy as np
import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import curve_fit

from greenroom.agronomy import watering
from greenroom.agronomy._evapotranspiration import penman_monteith

# FAO-56 example 18, Uccle (Brussels), 6 July (inputs from memory; the result is the printed one).
UCCLE = {
    "tmin": 12.3, "tmax": 21.5, "rh_min": 63.0, "rh_max": 84.0, "wind_2m": 2.078, "radiation": 22.07,
    "altitude": 100.0, "latitude": 50.8, "day_of_year": 187,
}  # fmt: skip


@pytest.mark.parametrize(
    ("celsius", "kilopascals"),
    # FAO-56 annex 2, table 2.3.
    [(15, 1.705), (20, 2.338), (24.5, 3.075), (25, 3.168), (30, 4.243)],
)
def test_saturated_air_has_the_tabled_pressure(celsius, kilopascals):
    assert watering.saturation_vapour_pressure(celsius) == pytest.approx(kilopascals, abs=6e-4)


def test_the_mean_pressure_of_example_3():
    # FAO-56 example 3: Tmin 15, Tmax 24.5 °C → es 2.39 kPa.
    assert watering.saturation_vapour_pressure([15, 24.5]).mean() == pytest.approx(2.39, abs=0.005)


@pytest.mark.parametrize(
    ("latitude", "day_of_year", "megajoules"),
    # FAO-56 example 8: 20 °S, 3 September, 32.2. Examples 10 and 15: 22°54' S, 15 May, 25.1; 45°43' N, mid
    # July, 40.6 (places and days from memory).
    [(-20, 246, 32.2), (-22.9, 135, 25.1), (45 + 43 / 60, 196, 40.6)],
)
def test_sunlight_above_the_air_is_that_of_the_examples(latitude, day_of_year, megajoules):
    ours = watering.extraterrestrial_radiation(latitude, day_of_year)
    assert ours == pytest.approx(megajoules, abs=0.06)


@pytest.mark.parametrize("latitude", [-45.0, 0.0, 40.0, 55.0])
@pytest.mark.parametrize(
    ("date", "within"),
    # FAO-56 eq. 24 is one sine: right at midsummer and midwinter, ½° off in March, 1° in October.
    [("2023-03-21", 0.03), ("2023-06-21", 0.01), ("2023-10-05", 0.06), ("2023-12-21", 0.02)],
)
def test_sunlight_above_the_air_is_pvlibs_summed_over_the_day(latitude, date, within):
    minutes = pd.date_range(date, periods=1440, freq="min", tz="UTC")
    zenith = pvlib.solarposition.get_solarposition(minutes, latitude, 0.0)["zenith"]
    normal = pvlib.irradiance.get_extra_radiation(minutes)
    total = (normal * np.cos(np.radians(zenith)).clip(lower=0)).sum() * 60 / 1e6
    ours = watering.extraterrestrial_radiation(latitude, minutes[0].day_of_year)
    assert ours == pytest.approx(total, rel=within)


def test_the_pole_has_no_sun_in_winter_and_sun_all_day_in_summer():
    assert watering.extraterrestrial_radiation(90, 355) == 0.0
    # At the pole in midsummer the sun keeps one height all day: S0 x sin(23.45°) x 86,400 s, and 0.967 for
    # the distance of the sun.
    assert watering.extraterrestrial_radiation(90, 172) == pytest.approx(
        1367 * 0.967 * 0.3979 * 0.0864, rel=0.01
    )


def test_a_day_in_brussels_uses_what_example_18_says():
    # FAO-56 example 18: ET0 = 3.9 mm/d (3.88).
    assert watering.reference_et_penman(**UCCLE) == pytest.approx(3.88, abs=0.01)


def test_the_equation_alone_gives_examples_17_and_18_from_their_printed_parts():
    # FAO-56 example 17 (Bangkok, April): Rn 14.33, G 0.14, T 30.2, u2 2, es 4.42, ea 2.85, γ 0.0674: 5.72.
    assert penman_monteith(14.33, 30.2, 2.0, 4.42 - 2.85, 0.0674, 0.14) == pytest.approx(5.72, abs=0.01)
    # Example 18: Rn 13.28, T 16.9, u2 2.078, es 1.997, ea 1.409, γ 0.0666: 3.9.
    assert penman_monteith(13.28, 16.9, 2.078, 1.997 - 1.409, 0.0666) == pytest.approx(3.88, abs=0.01)


def test_temperatures_alone_give_the_figure_of_example_20():
    # FAO-56 example 20 (Lyon, July): Tmin 14.8, Tmax 26.6, Ra 40.6 → 5.0 mm/d by eq. 52 (from memory).
    assert watering.reference_et_hargreaves(14.8, 26.6, 45 + 43 / 60, 196) == pytest.approx(5.0, abs=0.05)


def test_a_week_with_a_gap_keeps_the_gap():
    et = watering.reference_et_penman(**(UCCLE | {"tmax": np.array([21.5, np.nan])}))
    np.testing.assert_allclose(et, [3.88, np.nan], atol=0.01)
    simple = watering.reference_et_hargreaves([14.8, np.nan], 26.6, 45.7, 196)
    assert np.isnan(simple).tolist() == [False, True]


def test_in_the_polar_night_the_full_equation_has_no_answer():
    assert (
        watering.reference_et_penman(**(UCCLE | {"latitude": 80, "day_of_year": 1, "radiation": 0})) is None
    )
    assert watering.reference_et_hargreaves(-20, -10, 80, 1) == 0.0


@given(st.floats(-30, 40), st.floats(0.1, 20))
def test_warmer_air_holds_more_water(celsius, warmer):
    assert watering.saturation_vapour_pressure(celsius + warmer) > watering.saturation_vapour_pressure(
        celsius
    )


@given(st.floats(5, 30), st.floats(1, 15), st.floats(20, 60), st.floats(2, 6), st.floats(12, 26))
def test_more_sun_and_in_a_breeze_drier_air_never_lower_the_need(tmin, spread, damp, wind, sun):
    day = UCCLE | {"tmin": tmin, "tmax": tmin + spread, "rh_min": damp, "rh_max": damp + 30, "wind_2m": wind}
    base = watering.reference_et_penman(**(day | {"radiation": sun}))
    assert base >= 0
    assert watering.reference_et_penman(**(day | {"radiation": sun + 4})) >= base
    assert watering.reference_et_penman(**(day | {"radiation": sun, "rh_min": damp - 10})) >= base


@given(st.floats(0, 66), st.integers(1, 365))
def test_both_hemispheres_get_the_same_sun_half_a_year_apart(latitude, day):
    # Declination returns to its opposite after half a year, to within a day or two; distance shifts 7 %.
    other = (day + 182) % 365 + 1
    here = watering.extraterrestrial_radiation(latitude, day)
    assert watering.extraterrestrial_radiation(-latitude, other) == pytest.approx(here, rel=0.1, abs=0.6)


@given(
    st.floats(0.02, 1.5), st.floats(60, 900), st.floats(20, 800), st.floats(0.1, 0.95),
    st.lists(st.floats(0.2, 2.0), min_size=2, max_size=8),
)  # fmt: skip
def test_a_pot_losing_a_steady_part_a_day_is_dry_when_the_curve_says(loss, dry, held, trigger, gaps):
    times = np.cumsum(gaps)
    weights = dry + held * np.exp(-loss * times)
    # The law itself: exp(-k t) = trigger.
    expected = -np.log(trigger) / loss
    found = watering.days_to_dry(weights, times, dry + held, dry, trigger)
    assert found == pytest.approx(expected, rel=1e-6, abs=1e-6)


def test_a_rough_scale_leads_to_nearly_the_curve_scipy_fits():
    rng = np.random.default_rng(4)
    times = np.arange(0.0, 4.0, 0.5)
    weights = 300 + 400 * np.exp(-0.25 * times) + rng.normal(0, 2, times.size)
    ours = watering.days_to_dry(weights, times, wet=700, dry=300)
    (full, loss), _ = curve_fit(lambda t, a, k: 300 + a * np.exp(-k * t), times, weights, p0=(400, 0.2))
    assert ours == pytest.approx(np.log(full / 400 / 0.5) / loss, abs=0.02)


def test_a_drier_trigger_comes_later():
    weights, times = [700, 640, 590], [0, 1, 2]
    crossings = [watering.days_to_dry(weights, times, 700, 300, trigger) for trigger in (0.8, 0.6, 0.4, 0.2)]
    assert crossings == sorted(crossings)


def test_the_answer_is_on_the_clock_that_came_in():
    # Held water halves each day: from full on 1 April at 08:00 to a quarter on 3 April at 08:00.
    start = dt.datetime(2024, 4, 1, 8, tzinfo=dt.UTC)
    moments = [start, start + dt.timedelta(hours=24)]
    weights = [500.0, 400.0]
    found = watering.days_to_dry(weights, moments, 500, 300, trigger=0.25)
    assert abs(found - dt.datetime(2024, 4, 3, 8, tzinfo=dt.UTC)) < dt.timedelta(seconds=1)
    dates = [dt.date(2024, 4, 1), dt.date(2024, 4, 2)]
    assert watering.days_to_dry(weights, dates, 500, 300, trigger=0.24) == dt.date(2024, 4, 3)
    stamps = np.array(["2024-04-01T08", "2024-04-02T08"], dtype="datetime64[h]")
    found = watering.days_to_dry(weights, stamps, 500, 300, trigger=0.25)
    assert abs(found - np.datetime64("2024-04-03T08")) < np.timedelta64(1, "s")


def test_a_pot_already_past_the_trigger_gets_a_moment_in_the_past():
    assert watering.days_to_dry([350, 325], [3, 4], 500, 300, trigger=0.5) == pytest.approx(2.0)


@pytest.mark.parametrize(
    ("weights", "times"),
    [
        ([450], [1]),  # one weighing
        ([400, 420, 450], [0, 1, 2]),  # getting heavier
        ([400, 400, 400], [0, 1, 2]),  # not losing
        ([420, 419.9999], [0, 1]),  # losing a part in a million a day: years away
        ([300, 290, 280], [0, 1, 2]),  # at or below dry throughout
        ([350, 300], [0, 1]),  # one weighing above dry
    ],
)
def test_a_pot_that_is_not_drying_has_no_answer(weights, times):
    assert watering.days_to_dry(weights, times, wet=500, dry=300) is None


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: watering.saturation_vapour_pressure(300), "celsius is 300"),
        (lambda: watering.extraterrestrial_radiation(95, 10), "latitude is 95"),
        (lambda: watering.extraterrestrial_radiation(45, 367), "day_of_year is 367"),
        (
            lambda: watering.extraterrestrial_radiation(45, 10.5),
            "day_of_year is 10.5; it must be a whole number",
        ),
        (
            lambda: watering.reference_et_hargreaves(20, 10, 45, 100),
            "tmin is 20; it must be at most tmax, 10",
        ),
        (lambda: watering.reference_et_penman(**(UCCLE | {"rh_max": 120})), "rh_max is 120"),
        (
            lambda: watering.reference_et_penman(**(UCCLE | {"rh_max": 50})),
            "rh_min is 63; it must be at most rh_max",
        ),
        (lambda: watering.reference_et_penman(**(UCCLE | {"wind_2m": -1})), "wind_2m is -1"),
        (lambda: watering.reference_et_penman(**(UCCLE | {"radiation": None})), "radiation is None"),
        (lambda: watering.reference_et_penman(**(UCCLE | {"altitude": 9000})), "altitude is 9000"),
        (lambda: watering.days_to_dry([5, 4], [0, 0], 6, 3), r"times\[1\] is 0 after 0"),
        (
            lambda: watering.days_to_dry([5, 4], [0], 6, 3),
            "weights is 2 long; it must be as long as times, 1",
        ),
        (lambda: watering.days_to_dry([5, -4], [0, 1], 6, 3), r"weights\[1\] is -4"),
        (lambda: watering.days_to_dry([5, 4], [0, 1], 3, 6), "dry is 6; it must be below wet, 3"),
        (lambda: watering.days_to_dry([5, 4], [0, 1], [6, 6], 3), r"wet is an array of shape \(2,\)"),
        (
            lambda: watering.days_to_dry([5, 4], [0, 1], 6, 3, trigger=50),
            "trigger is 50; it must be a number, at most 1",
        ),
        (
            lambda: watering.days_to_dry([5, 4], [dt.date(2024, 1, 1), 2], 6, 3),
            "all days, all dates or all datetimes",
        ),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(call, words):
    with pytest.raises(ValueError, match=words):
        call()
