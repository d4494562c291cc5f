"""Hours of sun on a plot, against geometry worked out another way and positions from pvlib."""

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pvlib
import pytest

from greenroom.agronomy.siting import Box, in_shade, shadow_length, shadow_polygon, sun_hours
from greenroom.agronomy.sunlight import solar_noon, sun_position, sunrise_sunset

MINNESOTA = (45.0, -93.3)
HOUSE = Box(x=-6.0, y=-9.0, width=12.0, depth=5.0, height=6.0)
FENCE = Box(x=8.0, y=-4.0, width=0.1, depth=20.0, height=1.8)
SHED = Box(x=-9.0, y=2.0, width=2.5, depth=2.0, height=2.4)
YARD = (HOUSE, FENCE, SHED)


def segment_meets_box(point, box, elevation, azimuth) -> bool:
    """Whether the light's last stretch below the box's height runs through the box (separating axes)."""
    reach = box.height / np.tan(np.radians(elevation)) if elevation > 0 else 1e7
    step = reach * np.array([np.sin(np.radians(azimuth)), np.cos(np.radians(azimuth))])
    half = np.array([box.width, box.depth]) / 2
    gap = np.array([box.x, box.y]) + half - (np.array(point) + step / 2)
    if np.any(np.abs(gap) >= half + np.abs(step) / 2):
        return False
    across = np.array([-step[1], step[0]])
    return bool(abs(across @ gap) < np.abs(across) @ half)


def hours_ray_by_ray(point, boxes, day, latitude, longitude, step_minutes) -> np.ndarray:
    """Morning and afternoon hours with pvlib's sun and one loop a ray."""
    noon = solar_noon(day, longitude)
    middles = np.arange(-720 + step_minutes / 2, 720, step_minutes)
    moments = pd.DatetimeIndex([noon + timedelta(minutes=float(minutes)) for minutes in middles])
    sun = pvlib.solarposition.spa_python(moments, latitude, longitude)
    hours = np.zeros(2)
    for minutes, elevation, azimuth in zip(middles, sun["elevation"], sun["azimuth"], strict=True):
        if elevation <= -50 / 60:
            continue
        if not any(segment_meets_box(point, box, elevation, azimuth) for box in boxes):
            hours[int(minutes > 0)] += step_minutes / 60
    return hours


class TestHoursOfSun:
    @pytest.mark.parametrize("day", [date(2026, 3, 20), date(2026, 6, 21), date(2026, 12, 21)])
    @pytest.mark.parametrize(("latitude", "longitude"), [MINNESOTA, (-38.0, 145.0), (62.0, 25.0)])
    def test_the_yard_gets_the_sun_that_ray_by_ray_geometry_gives(self, day, latitude, longitude):
        points = np.array([(0, 0), (-3, 3), (7.5, 1), (8.5, 1), (-9.5, 3), (0, -9.5), (3, 12.0)])
        ours = sun_hours(points, YARD, day, latitude, longitude)
        for point, row in zip(points, ours, strict=True):
            expected = hours_ray_by_ray(point, YARD, day, latitude, longitude, 10)
            # Positions differ by thousandths of a degree, so at most one step may fall the other way.
            assert row == pytest.approx(expected, abs=10 / 60 + 1e-9), point

    @pytest.mark.parametrize("day", [date(2026, 3, 20), date(2026, 5, 1), date(2026, 12, 21)])
    @pytest.mark.parametrize("latitude", [-54.8, 0.0, 45.0, 62.0])
    def test_open_ground_gets_the_length_of_the_day(self, day, latitude):
        rise, fall = sunrise_sunset(day, latitude, -93.3)
        noon = solar_noon(day, -93.3)
        for step_minutes in (1, 10):
            morning, afternoon = sun_hours((0, 0), [], day, latitude, -93.3, step_minutes)
            half_a_step = step_minutes / 120 + 1e-6
            assert morning == pytest.approx((noon - rise) / timedelta(hours=1), abs=half_a_step)
            assert afternoon == pytest.approx((fall - noon) / timedelta(hours=1), abs=half_a_step)

    @pytest.mark.parametrize(
        ("latitude", "month", "day_of_month", "expected"),
        # Length of the day N, FAO Irrigation and Drainage Paper 56 eq. 34: centre of the sun, no air.
        [(40, 3, 21, 11.97), (40, 5, 1, 13.73)],
    )
    def test_open_ground_gets_the_published_hours_and_the_bent_light(
        self, latitude, month, day_of_month, expected
    ):
        total = sun_hours((0, 0), [], date(2023, month, day_of_month), latitude, 0.0, 1).sum()
        # Air and the disc's radius add 50 arc minutes at each end, about nine minutes a day at 40 degrees.
        assert expected + 0.1 < total < expected + 0.25

    def test_a_wall_in_the_east_takes_the_morning_and_leaves_the_afternoon(self):
        wall = Box(x=2.0, y=-50.0, width=0.3, depth=100.0, height=3.0)
        day = date(2026, 5, 1)
        open_ground = sun_hours((0, 0), [], day, *MINNESOTA)
        behind = sun_hours((0, 0), [wall], day, *MINNESOTA)
        assert behind[0] < open_ground[0] - 3
        assert behind[1] == open_ground[1]

    def test_noon_sun_clears_a_southern_wall_only_beyond_its_shadow(self):
        day = date(2026, 9, 1)
        elevation, azimuth = sun_position(solar_noon(day, MINNESOTA[1]), *MINNESOTA)
        reach = 2.0 / np.tan(np.radians(elevation))
        wall = Box(x=-50.0, y=-0.2, width=100.0, depth=0.2, height=2.0)
        points = [(0.0, reach * 0.99), (0.0, reach * 1.01), (0.0, -1.0)]
        # The far edge of the wall's top throws the shadow's edge; the near edge stands 0.2 m nearer.
        assert in_shade(points, [wall], [elevation], [azimuth]).ravel().tolist() == [True, False, False]

    def test_north_of_a_long_wall_summer_sun_comes_only_early_and_late(self):
        # From the March to the September equinox the sun rises and sets north of the east-west line.
        wall = Box(x=-5000.0, y=-0.2, width=10_000.0, depth=0.2, height=5.0)
        winter = sun_hours((0, 0.1), [wall], date(2026, 12, 21), *MINNESOTA)
        summer = sun_hours((0, 0.1), [wall], date(2026, 6, 21), *MINNESOTA)
        assert winter.tolist() == [0, 0]
        assert np.all((summer > 2) & (summer < 6))

    def test_midnight_sun_lasts_all_day_and_polar_night_gives_nothing(self):
        assert sun_hours((0, 0), [], date(2026, 6, 21), 70, 20) == pytest.approx([12, 12])
        assert sun_hours((0, 0), [], date(2026, 12, 21), 70, 20).tolist() == [0, 0]

    def test_a_point_inside_something_has_no_sun(self):
        assert sun_hours((0, -6), YARD, date(2026, 6, 21), *MINNESOTA).tolist() == [0, 0]

    def test_many_points_give_rows_one_point_gives_two_numbers_and_none_gives_none(self):
        day = date(2026, 6, 21)
        rows = sun_hours([(0, 0), (1, 1)], YARD, day, *MINNESOTA)
        assert rows.shape == (2, 2)
        assert sun_hours((0, 0), YARD, day, *MINNESOTA) == pytest.approx(rows[0])
        assert sun_hours([], YARD, day, *MINNESOTA).shape == (0, 2)

    def test_boxes_may_be_plain_rows(self):
        day = date(2026, 6, 21)
        rows = [(box.x, box.y, box.width, box.depth, box.height) for box in YARD]
        points = [(0, 0), (7, 2)]
        same = sun_hours(points, np.array(rows), day, *MINNESOTA)
        assert same.tolist() == sun_hours(points, YARD, day, *MINNESOTA).tolist()

    def test_a_step_that_does_not_divide_the_day_still_covers_it(self):
        assert sun_hours((0, 0), [], date(2026, 6, 21), 70, 20, 7) == pytest.approx([12, 12])


class TestShadows:
    @pytest.mark.parametrize(
        ("latitude", "month", "day_of_month", "expected"),
        # Noon shadow of 1 m: 1 / tan(90 - latitude + declination), declination by FAO-56 eq. 24.
        [
            (40, 5, 1, 0.47),
            (40, 6, 21, 0.30),
            (40, 9, 1, 0.63),
            (40, 12, 21, 2.00),
            (45, 5, 1, 0.58),
            (45, 6, 21, 0.40),
            (45, 9, 1, 0.76),
            (45, 12, 21, 2.53),
            (50, 5, 1, 0.70),
            (50, 6, 21, 0.50),
            (50, 9, 1, 0.91),
            (50, 12, 21, 3.36),
        ],
    )
    def test_the_noon_shadow_has_its_published_length(self, latitude, month, day_of_month, expected):
        day = date(2023, month, day_of_month)
        declination = np.degrees(0.409 * np.sin(2 * np.pi * day.timetuple().tm_yday / 365 - 1.39))
        assert shadow_length(1.0, 90 - latitude + declination) == pytest.approx(expected, abs=0.005)
        # Eq. 24 is a single sine: against the real sun it is out by up to 0.65 degrees on these dates.
        elevation, _ = sun_position(solar_noon(day, 0.0), latitude, 0.0)
        off_by_declination = np.radians(0.65) / np.sin(np.radians(elevation)) ** 2
        assert shadow_length(1.0, elevation) == pytest.approx(expected, abs=0.005 + off_by_declination)

    def test_a_shadow_is_as_long_as_the_thing_is_high_at_45_degrees(self):
        assert shadow_length(1.7, 45.0) == pytest.approx(1.7)
        assert shadow_length(1.7, 30.0) == pytest.approx(1.7 * 3**0.5)
        assert shadow_length(1.7, 90.0) == pytest.approx(0, abs=1e-12)

    def test_without_sun_there_is_no_shadow(self):
        assert shadow_length(1.7, 0.0) is None
        assert np.isnan(shadow_length(1.7, np.array([-10.0, 0.0]))).all()
        assert shadow_polygon(SHED, -0.1, 100.0) is None

    def test_the_shadow_of_a_post_at_noon_points_north(self):
        post = Box(x=0.0, y=0.0, width=0.1, depth=0.1, height=2.0)
        outline = shadow_polygon(post, 45.0, 180.0)
        assert outline[:, 1].max() == pytest.approx(2.1)
        assert (outline[:, 0].min(), outline[:, 0].max()) == pytest.approx((0, 0.1))
        assert outline[:, 1].min() == 0

    def test_an_afternoon_shadow_falls_to_the_north_east(self):
        # Sun in the south-west at 45 degrees: the top is carried 2 m north-east, sqrt(2) along each axis.
        outline = shadow_polygon(Box(0.0, 0.0, 1.0, 1.0, 2.0), 45.0, 225.0)
        far = 2**0.5
        expected = [(0, 0), (1, 0), (1 + far, far), (1 + far, 1 + far), (far, 1 + far), (0, 1)]
        assert outline == pytest.approx(np.array(expected))


class TestBadInput:
    @pytest.mark.parametrize("field", ["width", "depth", "height"])
    def test_a_box_must_have_a_size(self, field):
        size = {"x": 0.0, "y": 0.0, "width": 1.0, "depth": 1.0, "height": 1.0}
        with pytest.raises(ValueError, match=rf"^{field} is 0; it must be a number, above 0"):
            Box(**{**size, field: 0.0})
        with pytest.raises(ValueError, match=rf"^{field} is \[1, 2\]; it must be one number"):
            Box(**{**size, field: [1, 2]})

    def test_a_row_that_is_no_box_is_refused(self):
        with pytest.raises(
            ValueError, match=r"obstacle is .* must be a Box or \(x, y, width, depth, height\)"
        ):
            sun_hours((0, 0), [(1, 2, 3)], date(2026, 6, 21), *MINNESOTA)

    @pytest.mark.parametrize("points", [(1, 2, 3), [[[0, 0]]], 5.0])
    def test_points_of_another_shape_are_refused(self, points):
        with pytest.raises(ValueError, match=r"^points is .*; it must be"):
            sun_hours(points, [], date(2026, 6, 21), *MINNESOTA)

    def test_an_unknown_point_is_refused(self):
        with pytest.raises(ValueError, match=r"^points\[1, 0\] is nan; it must be a number"):
            sun_hours([(0, 0), (np.nan, 1)], [], date(2026, 6, 21), *MINNESOTA)

    @pytest.mark.parametrize("step_minutes", [0, -10, 61, float("nan")])
    def test_a_step_out_of_range_is_refused(self, step_minutes):
        with pytest.raises(ValueError, match=r"^step_minutes is .*at least 0.1 and at most 60"):
            sun_hours((0, 0), [], date(2026, 6, 21), *MINNESOTA, step_minutes)

    def test_a_place_off_the_globe_and_a_negative_height_are_refused(self):
        with pytest.raises(ValueError, match="latitude is 95"):
            sun_hours((0, 0), [], date(2026, 6, 21), 95.0, 0.0)
        with pytest.raises(ValueError, match="height_m is -1"):
            shadow_length(-1.0, 30.0)
        with pytest.raises(ValueError, match="elevation is 91"):
            shadow_length(1.0, 91.0)
