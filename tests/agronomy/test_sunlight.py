"""The sun's place, its noon, rising and setting, against published figures and pvlib.

pvlib's `spa` is the solar position algorithm of Reda and Andreas (Solar Energy 76:577-589, 2004), which
its authors give as good to 0.0003 degrees.
"""

from datetime import UTC, date, datetime, timedelta, timezone

import numpy as np
import pandas as pd
import pvlib
import pytest

from greenroom.agronomy.sunlight import solar_noon, sun_dose, sun_position, sunrise_sunset

MOUNTAIN_TIME = timezone(timedelta(hours=-7))
GOLDEN = (39.742476, -105.1786)

# Elevation and azimuth without refraction, computed with PyEphem 4.2.1 (libastro, VSOP87), pressure 0.
ANOTHER_LIBRARY = [
    ("1905-03-21T06:00:00", 51.5, -0.1, -1.2453, 88.4625),
    ("1936-07-14T17:20:00", 41.3, -96.1, 65.4094, 137.7309),
    ("1952-12-21T02:40:00", -33.9, 151.2, 75.3706, 312.5680),
    ("1969-07-20T20:17:40", 28.6, -80.6, 50.9615, 267.9040),
    ("1984-02-29T09:15:00", 60.2, 24.9, 20.2365, 159.3727),
    ("1999-08-11T11:03:00", 48.9, 9.2, 56.0238, 168.9728),
    ("2000-01-01T12:00:00", 0.0, 0.0, 66.9528, 178.0687),
    ("2012-06-20T23:09:00", -45.9, 170.5, 17.6639, 21.8038),
    ("2024-09-22T12:44:00", 35.7, 139.7, -46.1216, 318.3509),
    ("2026-05-04T18:55:00", 45.0, -93.3, 59.6157, 201.7813),
    ("2026-05-05T11:30:00", 45.0, -93.3, 4.6646, 71.4970),
    ("2040-11-05T15:45:00", 69.6, 18.9, -11.2881, 254.3780),
    ("2075-04-16T04:30:00", -54.8, -68.3, -45.3583, 181.0722),
    ("2098-10-30T21:10:00", 19.4, -155.3, 53.8206, 157.1161),
]


def spa_position(moments: np.ndarray, latitude: np.ndarray, longitude: np.ndarray) -> tuple:
    """Reda and Andreas 2004 with the clock difference of each year: elevation, azimuth, no refraction."""
    years = moments.astype("datetime64[Y]").astype(int) + 1970
    out = pvlib.spa.solar_position_numpy(
        moments.astype("datetime64[us]").astype(np.int64) / 1e6,
        latitude,
        longitude,
        elev=0.0,
        pressure=1013.25,
        temp=12.0,
        delta_t=pvlib.spa.calculate_deltat(years, 6),
        atmos_refract=0.5667,
        numthreads=1,
    )
    return out[3], out[4]


def random_moments(first: str, last: str, count: int, seed: int = 20040107) -> tuple:
    rng = np.random.default_rng(seed)
    start, end = np.datetime64(first, "s"), np.datetime64(last, "s")
    moments = start + rng.integers(0, (end - start).astype(int), count).astype("timedelta64[s]")
    return moments, rng.uniform(-75, 75, count), rng.uniform(-180, 180, count)


class TestThePlaceOfTheSun:
    def test_the_published_example_comes_out(self):
        # Reda and Andreas 2004, Table A5.1, as pvlib's own tests quote it: topocentric elevation without
        # refraction 39.872046 degrees (zenith 50.11162 with it, 0.016332 apart), azimuth 194.340241.
        elevation, azimuth = sun_position(datetime(2003, 10, 17, 12, 30, 30, tzinfo=MOUNTAIN_TIME), *GOLDEN)
        assert elevation == pytest.approx(39.872046, abs=0.001)
        assert azimuth == pytest.approx(194.340241, abs=0.001)
        assert 90 - (elevation + 0.016332) == pytest.approx(50.11162, abs=0.001)

    @pytest.mark.parametrize(
        ("first", "last", "allowed_degrees"),
        [("1900-01-01", "2100-01-01", 0.003), ("1800-01-01", "2200-12-31", 0.006)],
    )
    def test_the_sun_stands_where_the_full_algorithm_puts_it(self, first, last, allowed_degrees):
        moments, latitude, longitude = random_moments(first, last, 40_000)
        elevation, azimuth = sun_position(moments, latitude, longitude)
        true_elevation, true_azimuth = spa_position(moments, latitude, longitude)
        off_elevation = np.abs(elevation - true_elevation).max()
        turn = np.abs((azimuth - true_azimuth + 180) % 360 - 180)
        across = (turn * np.cos(np.radians(true_elevation))).max()
        below_75 = turn[np.abs(true_elevation) < 75].max()
        measured = (
            f"{first} to {last}: elevation off by at most {off_elevation:.5f} degrees, azimuth by "
            f"{across:.5f} across the sky and {below_75:.5f} on the compass below 75 degrees"
        )
        assert off_elevation <= allowed_degrees, measured
        assert across <= allowed_degrees, measured
        assert below_75 <= 4 * allowed_degrees, measured

    @pytest.mark.parametrize(("when", "latitude", "longitude", "elevation", "azimuth"), ANOTHER_LIBRARY)
    def test_a_second_library_agrees(self, when, latitude, longitude, elevation, azimuth):
        ours = sun_position(np.datetime64(when), latitude, longitude)
        assert ours[0] == pytest.approx(elevation, abs=0.003)
        assert (ours[1] - azimuth + 180) % 360 - 180 == pytest.approx(0, abs=0.01)

    def test_refraction_is_left_out(self):
        # With refraction the sun would stand some half a degree higher at the horizon (Meeus 1998, ch. 16).
        moments = np.array(["2026-03-20T06:00"], dtype="datetime64[us]")
        elevation, _ = sun_position(moments, 0.0, 0.0)
        true, _ = spa_position(moments, np.array([0.0]), np.array([0.0]))
        assert elevation[0] == pytest.approx(true[0], abs=0.003)

    def test_a_local_clock_and_universal_time_mean_the_same_moment(self):
        local = datetime(2026, 5, 4, 13, 55, tzinfo=timezone(timedelta(hours=-5)))
        assert sun_position(local, 45, -93) == sun_position(local.astimezone(UTC), 45, -93)
        assert sun_position(local, 45, -93) == sun_position(np.datetime64("2026-05-04T18:55"), 45, -93)

    def test_one_moment_gives_plain_numbers_and_many_give_arrays(self):
        one = sun_position(np.datetime64("2026-05-04T18:55"), 45, -93)
        assert [type(value) for value in one] == [float, float]
        many = [datetime(2026, 5, 4, hour, tzinfo=UTC) for hour in range(24)]
        elevation, azimuth = sun_position(many, 45, -93)
        assert elevation.shape == azimuth.shape == (24,)
        assert (elevation[18], azimuth[18]) == pytest.approx(sun_position(many[18], 45, -93))

    def test_places_and_moments_spread_over_each_other(self):
        moments = np.arange("2026-05-04", "2026-05-05", dtype="datetime64[h]")
        elevation, _ = sun_position(moments, np.array([[40.0], [50.0]]), 0.0)
        assert elevation.shape == (2, 24)
        assert elevation[1, 7] == sun_position(moments[7], 50.0, 0.0)[0]

    def test_a_missing_moment_stays_missing(self):
        elevation, azimuth = sun_position(np.array(["2026-05-04T12", "NaT"], dtype="datetime64[h]"), 45, 0)
        assert np.isfinite(elevation[0])
        assert np.isnan([elevation[1], azimuth[1]]).all()

    def test_an_azimuth_is_never_360(self):
        moments = np.arange("2026-01-01", "2027-01-01", np.timedelta64(997, "s"), dtype="datetime64[s]")
        _, azimuth = sun_position(moments, -40.0, 0.0)
        assert azimuth.min() >= 0
        assert azimuth.max() < 360


class TestNoonAndRisingAndSetting:
    def test_noon_is_when_the_almanac_has_it(self):
        # Transit by the calculator of Reda and Andreas's authors, to the second; the same values stand in
        # pvlib's own tests. Golden, Colorado, and 35 S on the meridian of Greenwich.
        for day, longitude, expected in [
            (date(2015, 1, 2), GOLDEN[1], datetime(2015, 1, 2, 19, 4, 45, tzinfo=UTC)),
            (date(2015, 8, 2), GOLDEN[1], datetime(2015, 8, 2, 19, 6, 58, tzinfo=UTC)),
            (date(1996, 7, 5), 0.0, datetime(1996, 7, 5, 12, 4, 36, tzinfo=UTC)),
            (date(2004, 12, 4), 0.0, datetime(2004, 12, 4, 11, 50, 22, tzinfo=UTC)),
        ]:
            assert abs(solar_noon(day, longitude) - expected) < timedelta(seconds=1.5)

    @pytest.mark.parametrize(
        ("day", "latitude", "longitude", "sunrise", "sunset"),
        [
            # The same calculator, to the second.
            (date(2015, 1, 2), *GOLDEN, "2015-01-02T14:21:55", "2015-01-02T23:47:43"),
            (date(1996, 7, 5), -35.0, 0.0, "1996-07-05T07:08:15", "1996-07-05T17:01:04"),
            (date(2004, 12, 4), -35.0, 0.0, "2004-12-04T04:38:57", "2004-12-04T19:02:03"),
            # The Astronomical Almanac for 1994, as pvlib's own tests quote it.
            (date(1994, 1, 2), 35.0, 0.0, "1994-01-02T07:08:12", "1994-01-02T16:59:55"),
        ],
    )
    def test_the_sun_rises_and_sets_to_the_second(self, day, latitude, longitude, sunrise, sunset):
        rise, fall = sunrise_sunset(day, latitude, longitude)
        assert abs(rise - datetime.fromisoformat(sunrise + "+00:00")) < timedelta(seconds=3)
        assert abs(fall - datetime.fromisoformat(sunset + "+00:00")) < timedelta(seconds=3)

    @pytest.mark.parametrize(
        ("day", "latitude", "longitude", "zone_h", "sunrise", "sunset"),
        [
            # US Naval Observatory tables, whole minutes of local standard time (also in pvlib's tests).
            (date(2015, 1, 1), *GOLDEN, -7, "07:22", "16:47"),
            (date(2015, 8, 2), *GOLDEN, -7, "05:00", "19:13"),
            (date(2015, 1, 2), 39.0, -105.0, -7, "07:19", "16:49"),
            (date(2015, 4, 2), 39.0, -105.0, -7, "05:43", "18:24"),
            (date(2015, 12, 2), 39.0, -105.0, -7, "07:01", "16:38"),
            (date(2015, 1, 2), 39.917, 116.383, 8, "07:36", "17:00"),
            (date(2015, 4, 2), 39.917, 116.383, 8, "05:58", "18:39"),
            (date(2015, 8, 2), 39.917, 116.383, 8, "05:13", "19:28"),
            (date(2015, 12, 2), 39.917, 116.383, 8, "07:17", "16:50"),
        ],
    )
    def test_the_sun_rises_and_sets_by_the_tables(self, day, latitude, longitude, zone_h, sunrise, sunset):
        zone = timezone(timedelta(hours=zone_h))
        for moment, printed in zip(sunrise_sunset(day, latitude, longitude), (sunrise, sunset), strict=True):
            tabled = datetime.fromisoformat(f"{day}T{printed}").replace(tzinfo=zone)
            assert abs(moment - tabled) <= timedelta(seconds=35), f"{moment.astimezone(zone)} not {printed}"

    def test_a_year_of_risings_agrees_with_the_full_algorithm(self):
        days = np.arange("2026-01-01", "2027-01-01", dtype="datetime64[D]")
        for latitude in (-54.8, -20.0, 0.0, 35.0, 52.0, 60.0):
            ours = sunrise_sunset(days, latitude, 0.0)
            spa = pvlib.solarposition.sun_rise_set_transit_spa(
                pd.DatetimeIndex(days).tz_localize("UTC"), latitude, 0.0, delta_t=69.0
            )
            for name, column in zip(("sunrise", "sunset"), ours, strict=True):
                theirs = spa[name].dt.tz_convert("UTC").dt.tz_localize(None).to_numpy("datetime64[us]")
                late = np.abs((column - theirs) / np.timedelta64(1, "s")).max()
                assert late < 5, f"{name} at {latitude}: up to {late:.1f} s off"

    def test_rising_noon_and_setting_come_in_order_in_one_solar_day(self):
        days = np.arange("2026-01-01", "2027-01-01", dtype="datetime64[D]")
        for longitude in (-180.0, -93.3, 0.0, 151.2, 180.0):
            noon = solar_noon(days, longitude)
            rise, fall = sunrise_sunset(days, 48.0, longitude)
            half = np.timedelta64(12, "h")
            assert np.all((noon - half < rise) & (rise < noon))
            assert np.all((noon < fall) & (fall < noon + half))
            local = noon + np.timedelta64(round(longitude * 240), "s")  # four minutes a degree
            assert np.all(local.astype("datetime64[D]") == days)

    def test_midnight_sun_and_polar_night_give_none(self):
        assert sunrise_sunset(date(2026, 6, 21), 70.0, 20.0) is None
        assert sunrise_sunset(date(2026, 12, 21), 70.0, 20.0) is None
        assert sunrise_sunset(date(2026, 12, 21), -70.0, 20.0) is None
        assert sunrise_sunset(date(2026, 6, 21), 90.0, 0.0) is None
        # The disc's upper limb, lifted by the air, clears the horizon all night as far south as 65.73 N:
        # 90 - 23.44 - 0.8333.
        assert sunrise_sunset(date(2026, 6, 21), 65.6, 20.0) is not None
        assert sunrise_sunset(date(2026, 6, 21), 65.8, 20.0) is None

    def test_in_an_array_the_days_without_a_rising_are_missing(self):
        days = np.arange("2026-05-01", "2026-06-01", dtype="datetime64[D]")
        rise, fall = sunrise_sunset(days, 70.0, 20.0)
        assert np.isnat(rise).tolist() == np.isnat(fall).tolist()
        assert not np.isnat(rise[0])
        assert np.isnat(rise[-1])

    def test_at_the_moment_of_rising_the_sun_stands_on_the_standard_horizon(self):
        # US Naval Observatory: 34 minutes of refraction and 16 of radius under the horizon.
        for moment in sunrise_sunset(date(2026, 5, 4), 45.0, -93.3):
            assert sun_position(moment, 45.0, -93.3)[0] == pytest.approx(-50 / 60, abs=0.0005)


class TestBadInput:
    def test_a_clock_without_a_zone_is_refused(self):
        naive = datetime(2026, 5, 4, 12)  # noqa: DTZ001  # the very thing under test
        for bad in (naive, [naive]):
            with pytest.raises(ValueError, match=r"when_utc is .* must be a datetime with its zone"):
                sun_position(bad, 45, 0)

    @pytest.mark.parametrize("bad", ["2026-05-04T12:00", 20260504, None, date(2026, 5, 4)])
    def test_what_is_no_moment_is_refused(self, bad):
        with pytest.raises(ValueError, match=r"start_utc is .* must be a datetime with its zone"):
            sun_dose(bad, datetime(2026, 5, 4, tzinfo=UTC), 45, 0)

    @pytest.mark.parametrize("bad", ["1799-12-31T23:59", "2201-01-01", "NaT"])
    def test_a_moment_outside_the_good_years_is_refused(self, bad):
        with pytest.raises(ValueError, match=r"when_utc is .* years 1800 to 2200"):
            sun_position(np.datetime64(bad, "m"), 45, 0)

    @pytest.mark.parametrize(
        "bad", [datetime(2026, 5, 4, tzinfo=UTC), np.datetime64("2026-05-04T06"), "2026-05-04", [None]]
    )
    def test_a_day_must_be_a_bare_date(self, bad):
        for call in (lambda: solar_noon(bad, 0), lambda: sunrise_sunset(bad, 45, 0)):
            with pytest.raises(ValueError, match=r"day is .* must be a date without a time"):
                call()

    @pytest.mark.parametrize(
        ("latitude", "longitude", "named"),
        [(90.1, 0, "latitude"), (np.nan, 0, "latitude"), (0, -180.5, "longitude"), (0, None, "longitude")],
    )
    def test_a_place_off_the_globe_is_refused(self, latitude, longitude, named):
        with pytest.raises(ValueError, match=rf"{named} is .* must be a number, at least"):
            sun_position(np.datetime64("2026-05-04T12"), latitude, longitude)
        with pytest.raises(ValueError, match=rf"{named} is"):
            sunrise_sunset(date(2026, 5, 4), latitude, longitude)
