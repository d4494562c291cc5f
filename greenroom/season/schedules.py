"""Published hardening schedules, as bands of minutes a day to hold one's own ramp against.

They differ in what they count: most start in shade, where a ramp of direct sun must start far lower. What
a source says of a day is kept as it says it; days it only calls "more" are worked out from its first day
and its daily step, or left open where it gives no step.
"""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.speech import tr

WHOLE_DAY_MINUTES = 600
"""Where a band stops rising: ten hours, this program's own; the sources say "all day" or nothing."""
LONGEST_DAYS = 14


@dataclass(frozen=True, slots=True)
class Band:
    """Minutes a day of a schedule may ask for; ``read`` is False where worked out from start and step."""

    low: float
    high: float
    read: bool = True


@dataclass(frozen=True, slots=True)
class Schedule:
    """One published schedule.

    ``first`` are the minutes of its first day, ``step`` those added a day (None: not stated), ``told``
    further days it states (by day, from 1). ``light`` is what it counts; ``seen`` how it was read.
    """

    source: str
    first: tuple[float, float] | None
    step: tuple[float, float] | None
    days: tuple[int, int]
    light: str
    seen: str
    told: tuple[tuple[int, float, float], ...] = ()
    note: str = ""

    def band(self, day: int) -> Band | None:
        """Return the minutes of a day of it, from 1; None where it says nothing, or after its end."""
        if not 1 <= day <= self.days[1]:
            return None
        for told, low, high in self.told:
            if told == day:
                return Band(low, high)
        if self.first is None:
            return None
        if day == 1:
            return Band(*self.first)
        if self.step is None:
            return None
        low, high = (
            min(WHOLE_DAY_MINUTES, first + step * (day - 1))
            for first, step in zip(self.first, self.step, strict=True)
        )
        return Band(low, high, read=False)

    def bands(self) -> tuple[Band | None, ...]:
        """Return the bands of all its days."""
        return tuple(self.band(day) for day in range(1, self.days[1] + 1))


SHADE, SUN, OUTDOORS = (
    tr("shade", sense="what a schedule counts"),
    tr("direct sun"),
    tr("outdoors, light not stated"),
)
READ, COPY, WEAK = tr("read", sense="a source"), tr("read in a copy"), tr("growers' pages, weak")

SCHEDULES: tuple[Schedule, ...] = (
    Schedule(
        "University of Florida, Institute of Food and Agricultural Sciences",
        (60, 120),
        (60, 60),
        (LONGEST_DAYS, LONGEST_DAYS),
        SHADE,
        READ,
        note=tr("Somewhat shady first, then brighter; more water outdoors. No length stated."),
    ),
    Schedule(
        "Beltrami County Master Gardeners, Minnesota",
        (180, 240),
        (60, 120),
        (7, LONGEST_DAYS),
        SHADE,
        READ,
        note=tr(
            "Shade for a few days, then morning sun and afternoon shade; full sun after about a "
            "week. Nights of about 50 °F or more."
        ),
    ),
    Schedule(
        "University of Illinois Extension",
        (120, 180),
        None,
        (LONGEST_DAYS, LONGEST_DAYS),
        OUTDOORS,
        COPY,
        ((12, 600, 720), (13, 1440, 1440), (14, 1440, 1440)),
        tr("Between 12 and 17 h by the clock at first; the last two days out day and night. No feed."),
    ),
    Schedule(
        "Hennepin County Master Gardeners, Minnesota",
        (60, 60),
        None,
        (LONGEST_DAYS, LONGEST_DAYS),
        OUTDOORS,
        READ,
        ((14, WHOLE_DAY_MINUTES, WHOLE_DAY_MINUTES),),
        tr("In the afternoon, the warmest hours. Day 14 is all day, here ten hours."),
    ),
    Schedule(
        "Ramsey County Master Gardeners, Minnesota",
        (60, 120),
        None,
        (7, LONGEST_DAYS),
        SHADE,
        READ,
        note=tr("In below 45 °F."),
    ),
    Schedule(
        "Washington State University Extension",
        (120, 180),
        None,
        (7, LONGEST_DAYS),
        SUN,
        COPY,
        note=tr("Sheltered sun, a few hours more at a time; less water, no feed."),
    ),
    Schedule(
        "Toronto Master Gardeners",
        (120, 180),
        None,
        (10, LONGEST_DAYS),
        SHADE,
        READ,
        note=tr("At a steady 10 °C or more."),
    ),
    Schedule(
        "University of Maryland Extension",
        None,
        None,
        (7, LONGEST_DAYS),
        SHADE,
        READ,
        note=tr("Shade and shelter first, more sun daily; not in wind, in at night, 45 °F or more."),
    ),
    Schedule(
        tr("Growers' forum"),
        (60, 120),
        None,
        (7, 7),
        SUN,
        WEAK,
        ((6, 30, 30), (7, WHOLE_DAY_MINUTES, WHOLE_DAY_MINUTES)),
        tr("Morning sun first; on day 6 half an hour of noon sun, on day 7 all day, here ten hours."),
    ),
    Schedule(
        tr("Growers' discussion"),
        (15, 15),
        None,
        (2, 2),
        SUN,
        WEAK,
        ((2, 20, 20),),
        tr("The only source found that starts near 20 minutes; it goes on in fives."),
    ),
)


def schedules(light: str | None = None) -> tuple[Schedule, ...]:
    """Return the schedules, or those that count one light."""
    return tuple(one for one in SCHEDULES if light is None or one.light == light)


def envelope(day: int, light: str | None = None) -> Band | None:
    """Return the band that holds all that the schedules say of a day, or None if none says anything."""
    found = [band for one in schedules(light) if (band := one.band(day)) is not None]
    if not found:
        return None
    low, high = min(band.low for band in found), max(band.high for band in found)
    return Band(low, high, all(band.read for band in found))
