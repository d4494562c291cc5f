"""The demo: an invented place and season, made of facts like any other, up to a moment.

What the grower "did" is written in ``resources/demo/season.toml``; when each seed came up, and the
years of weather, are drawn from the random generator that is handed in, so the same generator gives
the same season.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from greenroom.ledger.facts import (
    Fact,
    HardeningStarted,
    HolderMade,
    HolderPlaced,
    LeafStage,
    Lost,
    Moved,
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
from greenroom.season.sprouting import SPREAD

TRUE_LEAF_DAYS = (11, 20, 29)
"""Days from seed leaves to the first, second and third pair, in warmth: common practice, no source."""

BOUGHT = timedelta(days=120)
GIVEN_UP = timedelta(days=30)


@dataclass(frozen=True, slots=True)
class DemoSeason:
    """What the demo's file says, and the moment it is told from."""

    raw: Mapping[str, Any]

    @property
    def zone(self) -> ZoneInfo:
        """The invented place's time zone."""
        return ZoneInfo(self.raw["place"]["zone"])

    @property
    def day(self) -> date:
        """The day the demo is set on."""
        day: date = self.raw["day"]
        return day

    @property
    def moment(self) -> datetime:
        """The moment the demo is set at, in UTC."""
        return datetime.combine(self.day, self.raw["time"], tzinfo=self.zone).astimezone(UTC)


def read_demo(text: str) -> DemoSeason:
    """Return the demo written in ``text`` (TOML)."""
    return DemoSeason(tomllib.loads(text))


def demo_facts(demo: DemoSeason, now: datetime, random: np.random.Generator) -> list[Fact]:
    """Return the facts of the demo that are known by ``now``."""
    facts = list(_Telling(demo, random).facts())
    today = now.astimezone(demo.zone).date()
    return [fact for fact in facts if _happened(fact, today, now)]


def _happened(fact: Fact, today: date, now: datetime) -> bool:
    at = getattr(fact, "at", None)
    return fact.day <= today and (at is None or at <= now)


@dataclass(slots=True)
class _Seedling:
    holder: str
    row: int
    column: int
    variety: str
    up_on: date
    lost: bool = False


class _Telling:
    """Turns the demo's file into facts, in the order they would have been written."""

    def __init__(self, demo: DemoSeason, random: np.random.Generator) -> None:
        self._demo = demo
        self._raw = demo.raw
        self._random = random
        self._keys = 0
        self._packets: dict[str, str] = {}
        self._holders: dict[str, str] = {}
        self._seedlings: dict[str, list[_Seedling]] = {}

    def facts(self) -> Iterator[Fact]:
        """Yield every fact of the season."""
        first = min(tray["sown"] for tray in self._raw["trays"]) - BOUGHT
        place = self._raw["place"]
        yield PlaceSet(id=self._key(), day=first, **place)
        yield self._weather(first)
        for name, known in self._raw["varieties"].items():
            yield from self._packet(name, known, first)
        for tray in self._raw["trays"]:
            yield from self._tray(tray)
        for rack in self._raw["racks"]:
            yield from self._rack(rack)
        for ramp in self._raw["hardening"]:
            yield from self._hardening(ramp)

    def _key(self) -> str:
        self._keys += 1
        return f"demo-{self._keys:06d}"

    def _packet(self, name: str, known: Mapping[str, Any], day: date) -> Iterator[Fact]:
        variety, packet = self._key(), self._key()
        self._packets[name] = packet
        yield Variety(
            id=self._key(),
            day=day,
            variety=variety,
            name=name,
            crop=known["crop"],
            days_to_ripe=known.get("ripe"),
        )
        yield Packet(
            id=self._key(),
            day=day,
            packet=packet,
            variety=variety,
            lot=f"{known['packed'] % 100}-{len(self._packets):02d}",
            packed=known["packed"],
            seeds=known["seeds"],
            germination=known["germination"],
        )

    def _holder(self, told: Mapping[str, Any], form: str, day: date) -> Iterator[Fact]:
        key = self._holders[told["name"]] = self._key()
        yield HolderMade(
            id=self._key(),
            day=day,
            holder=key,
            name=told["name"],
            form=form,
            rows=told["rows"],
            columns=told["columns"],
            cell_ml=told.get("cell_ml"),
            size=told.get("size", ""),
        )
        yield HolderPlaced(id=self._key(), day=day, holder=key, place=told["place"], mix_c=told.get("mix_c"))

    def _tray(self, tray: Mapping[str, Any]) -> Iterator[Fact]:
        yield from self._holder(tray, "tray", tray["sown"])
        self._seedlings[tray["name"]] = []
        column = 0
        for block in tray["blocks"]:
            for across in range(column, column + block["columns"]):
                for down in range(tray["rows"]):
                    yield from self._cell(tray, block["variety"], down, across)
            column += block["columns"]

    def _cell(self, tray: Mapping[str, Any], variety: str, row: int, column: int) -> Iterator[Fact]:
        spot: dict[str, Any] = {"holder": self._holders[tray["name"]], "row": row, "column": column}
        yield Sown(id=self._key(), day=tray["sown"], packet=self._packets[variety], **spot)
        if self._random.random() >= tray["up"]:
            given_up = tray["sown"] + GIVEN_UP
            yield Lost(id=self._key(), day=given_up, cause="did not come up", **spot)
            return
        took = tray["half"] * float(np.exp(SPREAD * self._random.standard_normal()))
        seedling = _Seedling(**spot, variety=variety, up_on=tray["sown"] + timedelta(days=round(took)))
        self._seedlings[tray["name"]].append(seedling)
        yield Sprouted(id=self._key(), day=seedling.up_on, **spot)
        if self._random.random() < tray["lost"]:
            seedling.lost = True
            yield Lost(id=self._key(), day=seedling.up_on + timedelta(days=5), cause="damping-off", **spot)
            return
        for pair, days in enumerate(TRUE_LEAF_DAYS, start=1):
            day = seedling.up_on + timedelta(days=days)
            if day <= self._demo.day:
                yield LeafStage(id=self._key(), day=day, leaves=2 * pair, **spot)

    def _rack(self, rack: Mapping[str, Any]) -> Iterator[Fact]:
        yield from self._holder(rack, "rack", rack["potted"])
        ready = [
            one
            for one in self._seedlings[rack["from"]]
            if one.variety in rack["varieties"] and not one.lost and one.up_on < rack["potted"]
        ]
        ready.sort(key=lambda one: (one.variety, one.up_on))
        for place, one in enumerate(ready[: rack["count"]]):
            yield Moved(
                id=self._key(),
                day=rack["potted"],
                holder=one.holder,
                row=one.row,
                column=one.column,
                to_holder=self._holders[rack["name"]],
                to_row=place // rack["columns"],
                to_column=place % rack["columns"],
            )

    def _hardening(self, told: Mapping[str, Any]) -> Iterator[Fact]:
        holder = self._holders[told["holder"]]
        yield HardeningStarted(id=self._key(), day=told["outings"][0]["day"], holder=holder)
        for outing in told["outings"]:
            yield from self._outing(holder, outing)

    def _outing(self, holder: str, told: Mapping[str, Any]) -> Iterator[Fact]:
        key, day = self._key(), told["day"]
        start = self._at(day, told["out"])
        common: dict[str, Any] = {"day": day, "outing": key, "holder": holder}
        yield OutingStarted(id=self._key(), at=start, light="sun", **common)
        if told.get("open"):
            end = start + timedelta(minutes=110)
        else:
            shade_from = start + timedelta(minutes=told["sun"])
            end = shade_from + timedelta(minutes=told["shade"])
            if told["shade"]:
                yield OutingSwitched(id=self._key(), at=shade_from, light="shade", **common)
        if not told.get("open") or end.date() < self._demo.day:
            yield OutingEnded(id=self._key(), at=end, **common)
        if "setback" in told:
            seen = self._at(day, told["seen"])
            yield SetbackSeen(id=self._key(), day=day, holder=holder, what=told["setback"], at=seen)

    def _at(self, day: date, clock: time) -> datetime:
        return datetime.combine(day, clock, tzinfo=self._demo.zone).astimezone(UTC)

    def _weather(self, day: date) -> Fact:
        return WeatherRecord(
            id=self._key(),
            day=day,
            source="an invented record",
            station=self._raw["place"]["name"],
            days=tuple(_weather_days(self._raw["weather"], self._random)),
        )


def _weather_days(told: Mapping[str, Any], random: np.random.Generator) -> Iterator[WeatherDay]:
    """Yield a plausible daily record: the year's wave, a noise that lasts some days, rain and gusts."""
    days = (told["last"] - told["first"]).days + 1
    own = {day["day"]: day for day in told["days"]}
    noise = _lasting_noise(random.standard_normal(days)) * told["noise_c"]
    wet = random.random(days) < 0.3
    rain = np.where(wet, random.gamma(0.9, 6.0, days), 0.0)
    gust = 3.0 + random.gamma(2.2, 1.5, days)
    for place in range(days):
        day = told["first"] + timedelta(days=place)
        if day in own:
            known = own[day]
            yield WeatherDay(day, known["tmin"], known["tmax"], known["rain"], known["gust"])
            continue
        wave = np.cos(2 * np.pi * (day.timetuple().tm_yday - 200) / 365.25)
        mean = told["mean_c"] + told["swing_c"] * wave + noise[place]
        half = told["daily_c"] * (0.6 if wet[place] else 1.0)
        yield WeatherDay(
            day,
            round(float(mean - half), 1),
            round(float(mean + half), 1),
            round(float(rain[place]), 1),
            round(float(gust[place]), 1),
        )


def _lasting_noise(steps: np.ndarray, keep: float = 0.72) -> np.ndarray:
    """Return noise in which each day keeps a share of the day before, of unit variance."""
    out = np.empty_like(steps)
    held = 0.0
    fresh = float(np.sqrt(1 - keep**2))
    for place, step in enumerate(steps):
        held = keep * held + fresh * float(step)
        out[place] = held
    return out
