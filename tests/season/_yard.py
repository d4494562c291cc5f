"""A season told fact by fact, without a ledger: a tray of peppers, a place, and its weather."""

from datetime import UTC, date, datetime, time, timedelta
from itertools import count
from zoneinfo import ZoneInfo

from greenroom.ledger import Act, Change, Entry
from greenroom.ledger.facts import (
    Forecast,
    HardeningStarted,
    HolderMade,
    HourAhead,
    LeafStage,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Packet,
    PlaceSet,
    SetbackSeen,
    Sown,
    Sprouted,
    Variety,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks, two_clocks_if
from tests.season.told import the_guide

TRAY = "tray-c"
MADE = date(2027, 3, 1)
FIRST = date(2027, 5, 8)
RIDGE = ("Europe/Ljubljana", 46.4, 16.0)
SYDNEY = ("Australia/Sydney", -33.87, 151.21)
WINNIPEG = ("America/Winnipeg", 49.9, -97.14)
ACCRA = ("Africa/Accra", 5.6, -0.2)
STEPS = [20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600]
MILD = {"tmin_c": 8.0, "tmax_c": 20.0, "rain_mm": 0.0, "gust_ms": 3.0}


class Yard:
    """Facts are filed as they come from the ledger; nothing is written to a disk."""

    def __init__(self, place=RIDGE, crop="pepper", begun=FIRST, form="tray", cell_ml=66):
        self.season = Season(guide=the_guide())
        self.zone = ZoneInfo(place[0])
        self._numbers, self._acts, self._entries = count(1), count(1), {}
        zone, latitude, longitude = place
        self.write(
            PlaceSet(day=MADE, name="Ridge Lane", latitude=latitude, longitude=longitude, zone=zone),
            HolderMade(day=MADE, holder=TRAY, name="Tray C", form=form, rows=2, columns=3, cell_ml=cell_ml),
        )
        self.plant(crop, 0)
        if begun is not None:
            self.write(HardeningStarted(day=begun, holder=TRAY))

    def write(self, *facts, strike=()):
        for fact in facts:
            fact.check()
        act = Act(next(self._acts), "do", "told", datetime(2027, 5, 1, tzinfo=UTC), "UTC", "grower")
        added = tuple(Entry(next(self._numbers), act.number, fact) for fact in facts)
        self._entries |= {entry.fact.id: entry for entry in added}
        self.season.take(Change(act, added, tuple(self._entries.pop(one) for one in strike)))
        return facts

    def do(self, proposal):
        self.write(*proposal.record, strike=proposal.strike)
        return proposal

    def plant(self, crop, column, leaves=0, leaves_on=date(2027, 4, 20)):
        """Let a seedling of a crop stand in a cell."""
        key = f"{crop}-{column}"
        spot = {"holder": TRAY, "row": 0, "column": column}
        self.write(
            Variety(day=MADE, variety=f"v-{key}", name=f"A {crop}", crop=crop),
            Packet(day=MADE, packet=f"p-{key}", variety=f"v-{key}"),
            Sown(day=MADE, packet=f"p-{key}", **spot),
            Sprouted(day=date(2027, 3, 12), **spot),
        )
        if leaves:
            self.write(LeafStage(day=leaves_on, leaves=leaves, **spot))

    def at(self, day, clock, fold=0):
        """The moment the place's clock shows a time."""
        hour, minute = (int(part) for part in clock.split(":"))
        local = datetime.combine(day, time(hour, minute), tzinfo=self.zone).replace(fold=fold)
        return local.astimezone(UTC)

    def clock(self, moment):
        """What the place's clock shows at a moment."""
        return moment.astimezone(self.zone).strftime("%H:%M")

    def out(self, day, clock, sun, shade=0, *, first="sun"):
        """An outing written down afterwards: minutes of one light, then of the other."""
        start = self.at(day, clock)
        lengths = (sun, shade) if first == "sun" else (shade, sun)
        other = "shade" if first == "sun" else "sun"
        key = f"outing-{day}-{clock}"
        common = {"day": day, "outing": key, "holder": TRAY}
        facts = [OutingStarted(at=start, light=first, **common)]
        if lengths[1]:
            facts.append(OutingSwitched(at=start + timedelta(minutes=lengths[0]), light=other, **common))
        facts.append(OutingEnded(at=start + timedelta(minutes=sum(lengths)), **common))
        self.write(*facts)

    def setback(self, day, clock, what="droop", cause="sun"):
        self.write(SetbackSeen(day=day, holder=TRAY, what=what, at=self.at(day, clock), cause=cause))

    def weather(self, days, told=FIRST - timedelta(days=1)):
        """A record of days given as {date: changes to a mild day}."""
        rows = [WeatherDay(day, **(MILD | known)) for day, known in sorted(days.items())]
        self.write(WeatherRecord(day=told, source="a record", days=tuple(rows)))

    def forecast(self, taken, days=None, hours=None):
        """A forecast taken at a moment: days as in ``weather``, hours as rows of HourAhead."""
        rows = [WeatherDay(day, **(MILD | known)) for day, known in sorted((days or {}).items())]
        told = [HourAhead(*hour) for hour in sorted(hours or [], key=lambda hour: hour[0])]
        day = taken.astimezone(self.zone).date()
        self.write(Forecast(day=day, source="a service", taken=taken, days=tuple(rows), hours=tuple(told)))

    def stand(self, day, clock="9:00"):
        return two_clocks(self.season, TRAY, day, self.at(day, clock))

    def stand_if(self, proposal, day, clock):
        return two_clocks_if(self.season, TRAY, proposal, day, self.at(day, clock))


def day(number):
    """The days of the ramp, from 1."""
    return FIRST + timedelta(days=number - 1)
