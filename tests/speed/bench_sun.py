"""How fast the sun is found: a year at five-minute steps here and in pvlib. Run by hand.

python -m tests.speed.bench_sun
"""

import timeit
from datetime import date

import numpy as np
import pandas as pd
import pvlib

from greenroom.agronomy.siting import Box, sun_hours
from greenroom.agronomy.sunlight import sun_dose, sun_position, sunrise_sunset

LATITUDE, LONGITUDE = 45.0, -93.3
REPEATS = 5


def best_ms(call) -> float:
    """The fastest of a few runs, in milliseconds."""
    return min(timeit.repeat(call, number=1, repeat=REPEATS)) * 1000


def main() -> None:
    moments = np.arange("2026-01-01", "2027-01-01", np.timedelta64(5, "m"), dtype="datetime64[m]")
    stamps = pd.DatetimeIndex(moments.astype("datetime64[ns]")).tz_localize("UTC")
    ours = best_ms(lambda: sun_position(moments, LATITUDE, LONGITUDE))
    theirs = best_ms(lambda: pvlib.solarposition.get_solarposition(stamps, LATITUDE, LONGITUDE))
    print(
        f"{len(moments)} positions: {ours:.1f} ms here, {theirs:.1f} ms in pvlib, {theirs / ours:.1f} times"
    )

    days = np.arange("2026-01-01", "2027-01-01", dtype="datetime64[D]")
    midnights = pd.DatetimeIndex(days.astype("datetime64[ns]")).tz_localize("UTC")
    ours = best_ms(lambda: sunrise_sunset(days, LATITUDE, LONGITUDE))
    theirs = best_ms(lambda: pvlib.solarposition.sun_rise_set_transit_spa(midnights, LATITUDE, LONGITUDE))
    print(f"{len(days)} risings: {ours:.1f} ms here, {theirs:.1f} ms in pvlib, {theirs / ours:.1f} times")

    print(f"365 doses of a day: {best_ms(lambda: sun_dose(days, days + 1, LATITUDE, LONGITUDE)):.1f} ms")

    plot = np.stack(np.meshgrid(np.arange(0, 20, 0.5), np.arange(0, 12, 0.5)), axis=-1).reshape(-1, 2)
    boxes = [Box(x, y, 2.0, 1.5, 2.0) for x in range(-4, 24, 4) for y in (-3, 14)]
    took = best_ms(lambda: sun_hours(plot, boxes, date(2026, 6, 21), LATITUDE, LONGITUDE))
    print(f"hours of sun of {len(plot)} points behind {len(boxes)} boxes: {took:.1f} ms")


if __name__ == "__main__":
    main()
