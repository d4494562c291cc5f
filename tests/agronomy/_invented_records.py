"""Invented daily records for the property tests.

A yearly wave, warmer and cooler seasons, and noise that holds over some days.
"""

import numpy as np
from hypothesis import strategies as st

from greenroom.agronomy.climate import DailyWeather

SEASON_DAYS = 365


@st.composite
def seasons(draw, most=4):
    """tmin and tmax of some seasons of 365 days, coldest at both ends: shape (seasons, 365) each."""
    random = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    count = draw(st.integers(1, most))
    mean, swing = random.uniform(3, 12), random.uniform(5, 13)
    wave = mean - swing * np.cos(2 * np.pi * np.arange(SEASON_DAYS) / SEASON_DAYS)
    noise = np.convolve(random.normal(0, 5, count * SEASON_DAYS), np.ones(4) / 4, mode="same")
    by_season = random.normal(0, 2.5, (count, 1))
    tmin = np.round(wave + by_season + noise.reshape(count, SEASON_DAYS), 1)
    return tmin, tmin + np.round(random.uniform(0, 15, tmin.shape), 1)


@st.composite
def gapped(draw, shape):
    """Which days are missing: single days and stretches, from none to many."""
    random = np.random.default_rng(draw(st.integers(0, 2**32 - 1)))
    missing = random.random(shape) < draw(st.sampled_from([0.0, 0.02, 0.08, 0.2]))
    for row in missing:
        if draw(st.booleans()):
            first = draw(st.integers(0, SEASON_DAYS - 1))
            row[first : first + draw(st.integers(1, 60))] = True
    return missing


def northern(tmin, tmax, first_year=2021):
    """Laid into calendar years of 365 days: 2021 to 2023 are."""
    return _laid(tmin, tmax, first_year, "01-01")


def southern(tmin, tmax, first_year=2021):
    """Laid into seasons from 1 July; the 366th day of a season with 29 February is left out."""
    return _laid(tmin, tmax, first_year, "07-01")


def _laid(tmin, tmax, first_year, start):
    starts = np.array([f"{first_year + row}-{start}" for row in range(len(tmin))], dtype="datetime64[D]")
    dates = (starts[:, np.newaxis] + np.arange(SEASON_DAYS)).ravel()
    return DailyWeather(dates, tmin.ravel(), tmax.ravel())
