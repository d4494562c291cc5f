"""The light that falls on plants, from the sun and from lamps, against published figures and pvlib."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest

from greenroom.agronomy.sunlight import (
    clear_sky_ppfd,
    daily_light_integral,
    ppfd_from_lux,
    sun_dose,
    sun_position,
)

MICROMOL_PER_JOULE = 2.018  # Faust and Logan 2018, HortScience 53:1250: 7.265 mol per kWh


class TestTheLightOfTheSun:
    def test_clear_light_follows_haurwitz(self):
        elevation = np.linspace(0.5, 90, 180)
        haurwitz = pvlib.clearsky.haurwitz(pd.Series(90 - elevation))["ghi"].to_numpy()
        assert clear_sky_ppfd(elevation) == pytest.approx(haurwitz * MICROMOL_PER_JOULE, rel=2e-4)

    @pytest.mark.parametrize(("turbidity", "band"), [(2.0, 0.06), (3.0, 0.06), (4.0, 0.13)])
    def test_another_clear_sky_model_is_near(self, turbidity, band):
        # Ineichen and Perez 2002, Solar Energy 73:151-157, at sea level and mean distance.
        elevation = np.arange(30.0, 91.0, 5.0)
        airmass = pvlib.atmosphere.get_relative_airmass(90 - elevation)
        ineichen = pvlib.clearsky.ineichen(90 - elevation, airmass, turbidity, dni_extra=1361.0)["ghi"]
        ratio = clear_sky_ppfd(elevation) / (ineichen * MICROMOL_PER_JOULE)
        assert np.abs(ratio - 1).max() <= band, ratio.round(3)

    def test_the_share_of_light_plants_can_use_fits_the_standard_spectrum(self):
        # ASTM G173-03 global spectrum: quanta of 400 to 700 nm for each joule of the whole.
        spectrum = pvlib.spectrum.get_reference_spectra(standard="ASTM G173-03")["global"]
        metres, power = spectrum.index.to_numpy() * 1e-9, spectrum.to_numpy()
        seen = (metres >= 400e-9) & (metres <= 700e-9)
        mole_of_quanta = 6.62607015e-34 * 299792458 * 6.02214076e23  # J m mol-1 (SI 2019)
        quanta = np.trapezoid(power[seen] * metres[seen], metres[seen]) / mole_of_quanta * 1e6
        per_joule = quanta / np.trapezoid(power, metres)
        ours = clear_sky_ppfd(90.0) / (1098 * np.exp(-0.059))
        assert ours == pytest.approx(per_joule, rel=0.03)
        assert ours == pytest.approx(0.45 * 4.48, rel=0.002)  # Faust and Logan 2018, as they explain it

    def test_there_is_no_light_with_the_sun_down(self):
        assert clear_sky_ppfd(0.0) == 0
        assert clear_sky_ppfd(np.array([-90.0, -0.8, -1e-9])).tolist() == [0, 0, 0]

    def test_a_low_sun_gives_light_without_an_overflow(self):
        assert 0 <= clear_sky_ppfd(1e-6) < 1e-6

    def test_an_unknown_elevation_gives_unknown_light(self):
        assert np.isnan(clear_sky_ppfd(np.array([30.0, np.nan]))[1])


class TestTheDose:
    @pytest.mark.parametrize(
        ("latitude", "day", "expected"),
        [
            # Clear-sky radiation 0.75 Ra, FAO Irrigation and Drainage Paper 56 eqs 21 and 37, at 7.265 mol
            # per kWh (Faust and Logan 2018).
            (40, "2023-03-21", 43.6),
            (40, "2023-05-01", 57.1),
            (40, "2023-06-21", 63.4),
            (40, "2023-09-01", 50.3),
            (45, "2023-03-21", 40.1),
            (45, "2023-05-01", 55.7),
            (45, "2023-06-21", 63.4),
            (45, "2023-09-01", 47.8),
            (50, "2023-03-21", 36.4),
            (50, "2023-05-01", 53.9),
            (50, "2023-06-21", 63.2),
            (50, "2023-09-01", 45.0),
        ],
    )
    def test_a_clear_day_of_the_growing_season_adds_up(self, latitude, day, expected):
        start = np.datetime64(day)
        dose = sun_dose(start, start + 1, latitude, 0.0)
        assert dose == pytest.approx(expected, rel=0.06)

    def test_a_clear_winter_day_gives_less_than_a_fixed_share_would(self):
        # 0.75 Ra knows no air mass; the low winter sun loses more. FAO-56 figures as above.
        for latitude, expected in [(40, 20.5), (45, 15.8), (50, 11.3)]:
            start = np.datetime64("2023-12-21")
            assert 0.7 * expected < sun_dose(start, start + 1, latitude, 0.0) < expected

    def test_measured_years_agree_with_the_clear_and_the_cloudy_sky(self):
        # Typical meteorological years TMY3 (NREL) that pvlib carries: Sand Point, Alaska, and Greensboro,
        # North Carolina. Hours with the sun over 15 degrees, sorted by tenths of sky covered.
        folder = Path(pvlib.__file__).parent / "data"
        for name in ("703165TY.csv", "723170TYA.CSV"):
            year, place = pvlib.iotools.read_tmy3(folder / name, coerce_year=1990, map_variables=True)
            starts = (year.index - pd.Timedelta("1h")).tz_convert("UTC").tz_localize(None)
            starts = starts.to_numpy("datetime64[us]")
            where = (place["latitude"], place["longitude"])
            cover = year["TotCld (tenths)"].to_numpy() / 10
            ours = sun_dose(starts, starts + np.timedelta64(1, "h"), *where, cover)
            measured = year["ghi"].to_numpy() * MICROMOL_PER_JOULE * 3600e-6
            high = sun_position(starts + np.timedelta64(30, "m"), *where)[0] > 15
            clear = high & (cover == 0)
            assert measured[clear].sum() / ours[clear].sum() == pytest.approx(1, abs=0.06)
            full_sun = sun_dose(starts, starts + np.timedelta64(1, "h"), *where)
            for tenths in range(11):
                these = high & (np.rint(cover * 10) == tenths)
                share = (measured[these].sum() - ours[these].sum()) / full_sun[these].sum()
                assert abs(share) < 0.2, f"{name}, {tenths} tenths: {share:+.2f} of a clear sky"

    def test_cloud_takes_what_its_source_says(self):
        # Kasten and Czeplak 1980, Solar Energy 24:177: 1 - 0.75 (N / 8)^3.4.
        span = (np.datetime64("2026-05-04T10"), np.datetime64("2026-05-04T14"), 45.0, 0.0)
        clear = sun_dose(*span)
        for oktas, share in [(0, 1.0), (2, 0.9933), (4, 0.9289), (6, 0.7180), (8, 0.25)]:
            assert sun_dose(*span, cloud=oktas / 8) / clear == pytest.approx(share, abs=1e-4)

    def test_a_noon_minute_is_the_noon_light(self):
        start = datetime(2026, 6, 21, 12, 1, tzinfo=UTC)
        expected = clear_sky_ppfd(sun_position(start + timedelta(seconds=30), 45, 0)[0]) * 60e-6
        assert sun_dose(start, start + timedelta(minutes=1), 45, 0) == pytest.approx(expected, rel=1e-6)

    def test_no_time_and_no_sun_give_no_dose(self):
        noon = datetime(2026, 6, 21, 12, tzinfo=UTC)
        assert sun_dose(noon, noon, 45, 0) == 0
        assert sun_dose(np.datetime64("2026-06-21T22"), np.datetime64("2026-06-22T01"), 45, 0) == 0

    def test_hours_given_as_arrays_each_get_their_own_cloud(self):
        starts = np.arange("2026-05-04T08", "2026-05-04T12", dtype="datetime64[h]")
        cloud = np.array([0.0, 0.5, 1.0, np.nan])
        doses = sun_dose(starts, starts + 1, 45.0, 0.0, cloud)
        for index in range(3):
            one = sun_dose(starts[index], starts[index] + 1, 45.0, 0.0, cloud[index])
            assert doses[index] == pytest.approx(one, rel=1e-9)
        assert np.isnan(doses[3])


class TestLamps:
    @pytest.mark.parametrize(
        ("ppfd", "hours", "expected"),
        # PPFD x 3600 x hours / 1e6, as extension pages work it out.
        [(200, 16, 11.52), (250, 14, 12.6), (300, 12, 12.96), (150, 16, 8.64), (120, 24, 10.368)],
    )
    def test_a_lamp_gives_its_daily_light(self, ppfd, hours, expected):
        assert daily_light_integral(ppfd, hours) == pytest.approx(expected, abs=1e-9)

    def test_thirteen_moles_need_the_published_lamp(self):
        # 13 mol m-2 d-1 for vegetable plugs: Garcia and Lopez 2020, HortScience 55:804.
        doses = daily_light_integral(np.array([225.7, 257.9, 300.9]), np.array([16, 14, 12]))
        assert doses == pytest.approx([13, 13, 13], abs=0.005)

    @pytest.mark.parametrize(
        ("lamp", "lux_each"),
        # Thimijan and Heins 1983, HortScience 18:818; "white led" from memory.
        [
            ("sun", 54),
            ("metal halide", 71),
            ("high pressure sodium", 82),
            ("cool white fluorescent", 74),
            ("incandescent", 50),
            ("white led", 70),
        ],
    )
    def test_a_lux_reading_is_turned_by_the_lamp(self, lamp, lux_each):
        assert ppfd_from_lux(10_000, lamp) == pytest.approx(10_000 / lux_each)
        assert ppfd_from_lux(np.array([0, lux_each]), lamp).tolist() == [0, 1]

    @pytest.mark.parametrize(
        ("lamp", "least", "most"),
        # Lux for each µmol m-2 s-1 worked out from the relative spectra of the CIE standard illuminants
        # (CIE 15:2018) and the 1924 photopic curve: D55 and D65; FL2; HP1; A; LED-B1 to LED-B5.
        [
            ("sun", 54.8, 55.4),
            ("cool white fluorescent", 76.2, 76.2),
            ("high pressure sodium", 85.7, 85.7),
            ("incandescent", 49.2, 49.2),
            ("white led", 66.8, 71.5),
        ],
    )
    def test_each_lamp_is_near_its_standard_spectrum(self, lamp, least, most):
        lux_each = 1 / ppfd_from_lux(1.0, lamp)
        assert least * 0.95 <= lux_each <= most * 1.05


class TestBadInput:
    def test_a_span_must_run_forward_and_not_too_long(self):
        start = np.datetime64("2026-05-04T12")
        with pytest.raises(ValueError, match="the end must not come before the start"):
            sun_dose(start, start - 1, 45, 0)
        with pytest.raises(ValueError, match="at most 366 days"):
            sun_dose(start, start + np.timedelta64(367, "D"), 45, 0)

    @pytest.mark.parametrize(
        ("call", "named"),
        [
            (lambda: sun_dose(np.datetime64("2026-05-04"), np.datetime64("2026-05-05"), 45, 0, 1.1), "cloud"),
            (lambda: clear_sky_ppfd(90.5), "elevation"),
            (lambda: clear_sky_ppfd(float("nan")), "elevation"),
            (lambda: daily_light_integral(-1, 16), "ppfd"),
            (lambda: daily_light_integral(200, 24.5), "hours"),
            (lambda: ppfd_from_lux(-5, "sun"), "lux"),
            (lambda: ppfd_from_lux(5, "candle"), "lamp"),
        ],
    )
    def test_a_bad_value_is_named(self, call, named):
        with pytest.raises(ValueError, match=rf"^{named} is .*; it must be"):
            call()
