"""The demo: an invented place and season, made of facts like any other, up to a moment.

What the grower "did" is written in ``resources/demo/season.toml``; when each seed came up, and the
years of weather, are drawn from the random generator that is handed in, so the same generator gives
the same season, and an earlier moment shows the same season as it stood then.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from itertools import groupby
from math import exp
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np

from greenroom.ledger.facts import (
    Fact,
    HardeningStarted,
    Held,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    LeafStage,
    Lost,
    Moved,
    Note,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Packet,
    PlaceSet,
    SetbackSeen,
    Sown,
    Sprouted,
    Variety,
)
from greenroom.season.demo_care import care_facts
from greenroom.season.demo_picked import past_facts
from greenroom.season.demo_plan import plan_facts
from greenroom.season.demo_plot import Pot, plot_facts
from greenroom.season.demo_tests import home_test_facts
from greenroom.season.demo_weather import weather_facts
from greenroom.season.hardening_words import day_words
from greenroom.season.sprouting import SPREAD
from greenroom.speech import tr

TRUE_LEAF_DAYS = (11, 20, 29, 38, 47)
"""Days from seed leaves to the first to fifth pair, in warmth: common practice, no source."""

DAMPED_OFF_AFTER = timedelta(days=5)
BOUGHT = timedelta(days=120)
OWN_ACTS = timedelta(days=2)
"""The latest days are written act by act, so that undo takes back what was done last, not the season."""


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
    """Return the facts of the demo that are known by ``now``, by the day they happened."""
    today = now.astimezone(demo.zone).date()
    facts = [fact for fact in _Telling(demo, today, random).facts() if _happened(fact, today, now)]
    return sorted(facts, key=lambda fact: fact.day)


def demo_acts(facts: list[Fact], today: date) -> list[tuple[str, list[Fact]]]:
    """Return the facts in acts, each with its name: all but the last days in one."""
    split = today - OWN_ACTS
    before = [fact for fact in facts if fact.day <= split]
    acts = [(tr("the season up to {day}", day=day_words(split)), before)] if before else []
    late = [fact for fact in facts if fact.day > split]
    for (day, words), group in groupby(late, key=lambda fact: (fact.day, fact.words)):
        acts.append((tr("{entry} of {day}", entry=words, day=day_words(day)), list(group)))
    return acts


def _happened(fact: Fact, today: date, now: datetime) -> bool:
    at = getattr(fact, "at", None)
    return fact.day <= today and (at is None or at <= now)


@dataclass(slots=True)
class _Seedling:
    tray: str
    row: int
    column: int
    variety: str
    up_on: date
    potted: date | None = None
    pot: tuple[str, int, int] | None = None

    def spot(self, day: date) -> dict[str, Any]:
        """Return where it stood at the end of a day."""
        if self.pot is not None and self.potted is not None and day >= self.potted:
            return _fields(*self.pot)
        return _fields(self.tray, self.row, self.column)


def _fields(holder: str, row: int, column: int) -> dict[str, Any]:
    return {"holder": holder, "row": row, "column": column}


class _Telling:
    """Turns the demo's file into facts."""

    def __init__(self, demo: DemoSeason, today: date, random: np.random.Generator) -> None:
        self._zone = demo.zone
        self._today = today
        self._raw = demo.raw
        self._random = random
        self._keys = 0
        self._packets: dict[str, str] = {}
        self._varieties: dict[str, str] = {}
        self._holders: dict[str, str] = {}
        self._seedlings: dict[str, list[_Seedling]] = {}

    def facts(self) -> Iterator[Fact]:
        """Yield every fact of the season, those to come with them."""
        bought = min(tray["sown"] for tray in self._raw["trays"]) - BOUGHT
        settled = min(bought, self._today)
        yield PlaceSet(id=self._key(), day=settled, **self._raw["place"])
        yield from self._weather(settled)
        for name, known in self._raw["varieties"].items():
            yield from self._packet(name, known, bought)
        for tray in self._raw["trays"]:
            yield from self._tray(tray)
        for rack in self._raw["racks"]:
            yield from self._rack(rack)
        for tray in self._raw["trays"]:
            yield from self._looks(tray)
        yield from care_facts(self._raw["care"], self._key, self._holders, self._zone)
        for ramp in self._raw["hardening"]:
            yield from self._hardening(ramp)
        for told in self._raw["notes"]:
            where = _fields(self._holders[told["holder"]], told["row"], told["column"])
            yield Note(id=self._key(), day=told["day"], text=told["text"], **where)
        yield from plot_facts(self._raw["plot"], self._key, self._pots())
        yield from home_test_facts(self._raw["tests"], self._key, self._packets)
        yield from plan_facts(self._raw["plans"], self._raw["lights"], self._key, self._varieties)
        yield from past_facts(self._raw["past"], self._key, self._varieties, self._raw["varieties"])

    def _pots(self) -> dict[str, list[Pot]]:
        """Return the pots of each rack in which a seedling stands, by the rack's name, in order."""
        potted = [one.pot for tray in self._seedlings.values() for one in tray if one.pot is not None]
        racks = [rack["name"] for rack in self._raw["racks"]]
        return {name: sorted(pot for pot in potted if pot[0] == self._holders[name]) for name in racks}

    def _key(self) -> str:
        self._keys += 1
        return f"demo-{self._keys:06d}"

    def _weather(self, settled: date) -> Iterator[Fact]:
        place = self._raw["place"]
        where = {"station": place["name"], "latitude": place["latitude"], "longitude": place["longitude"]}
        told = self._raw["weather"] | where
        yield from weather_facts(told, self._random, settled, self._today, self._zone, self._key)

    def _packet(self, name: str, known: Mapping[str, Any], day: date) -> Iterator[Fact]:
        variety, packet = self._key(), self._key()
        self._packets[name], self._varieties[name] = packet, variety
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
        yield HolderRetired(id=self._key(), day=told["away"], holder=key)

    def _tray(self, tray: Mapping[str, Any]) -> Iterator[Fact]:
        yield from self._holder(tray, "tray", tray["sown"])
        self._seedlings[tray["name"]] = []
        column = 0
        for block in tray["blocks"]:
            for across in range(column, column + block["columns"]):
                for down in range(tray["rows"]):
                    yield from self._cell(tray, block, down, across)
            column += block["columns"]

    def _cell(
        self, tray: Mapping[str, Any], block: Mapping[str, Any], row: int, column: int
    ) -> Iterator[Fact]:
        holder = self._holders[tray["name"]]
        spot, sown = _fields(holder, row, column), tray["sown"]
        yield Sown(id=self._key(), day=sown, packet=self._packets[block["variety"]], **spot)
        comes, pace, dies = self._random.random(), self._random.standard_normal(), self._random.random()
        if comes >= block["up"]:
            given_up = sown + timedelta(days=block["given_up"])
            yield Lost(id=self._key(), day=given_up, cause="did not come up", **spot)
            return
        up_on = sown + timedelta(days=round(block["half"] * exp(SPREAD * pace)))
        yield Sprouted(id=self._key(), day=up_on, **spot)
        if dies < tray["lost"]:
            yield Lost(id=self._key(), day=up_on + DAMPED_OFF_AFTER, cause="damping-off", **spot)
            return
        self._seedlings[tray["name"]].append(_Seedling(holder, row, column, block["variety"], up_on))

    def _rack(self, rack: Mapping[str, Any]) -> Iterator[Fact]:
        """Pot seedlings of a tray up: as many of each variety, those that were up first."""
        day = rack["potted"]
        yield from self._holder(rack, "rack", day)
        each = rack.get("filled", rack["rows"] * rack["columns"]) // len(rack["varieties"])
        ready = sorted(self._seedlings[rack["from"]], key=lambda one: one.up_on)
        free = [one for one in ready if one.pot is None and one.up_on < day]
        chosen = [
            one
            for variety in rack["varieties"]
            for one in [one for one in free if one.variety == variety][:each]
        ]
        for place, one in enumerate(chosen):
            start = one.spot(day)
            row, column = divmod(place, rack["columns"])
            one.potted, one.pot = day, (self._holders[rack["name"]], row, column)
            target = {"to_holder": one.pot[0], "to_row": row, "to_column": column}
            yield Moved(id=self._key(), day=day, **start, **target)

    def _looks(self, tray: Mapping[str, Any]) -> Iterator[Fact]:
        """Count the true leaves of what came up in a tray, wherever it stands, on the days told."""
        for day in tray["looks"]:
            for one in self._seedlings[tray["name"]]:
                pairs = sum((day - one.up_on).days >= age for age in TRUE_LEAF_DAYS)
                if pairs:
                    yield LeafStage(id=self._key(), day=day, leaves=2 * pairs, **one.spot(day))

    def _hardening(self, told: Mapping[str, Any]) -> Iterator[Fact]:
        holder = self._holders[told["holder"]]
        yield HardeningStarted(id=self._key(), day=told["outings"][0]["day"], holder=holder)
        for outing in told["outings"]:
            if "held" in outing:
                yield Held(id=self._key(), day=outing["day"], holder=holder, why=outing["held"])
            else:
                yield from self._outing(holder, outing)

    def _outing(self, holder: str, told: Mapping[str, Any]) -> Iterator[Fact]:
        key, day = self._key(), told["day"]
        common: dict[str, Any] = {"day": day, "outing": key, "holder": holder}
        start = self._at(day, told["out"])
        end = start + timedelta(minutes=told["sun"])
        yield OutingStarted(id=self._key(), at=start, light="sun", **common)
        if "setback" in told:
            seen = self._at(day, told["seen"])
            yield SetbackSeen(id=self._key(), day=day, holder=holder, what=told["setback"], at=seen)
        if told["shade"]:
            yield OutingSwitched(id=self._key(), at=end, light="shade", **common)
            end += timedelta(minutes=told["shade"])
        yield OutingEnded(id=self._key(), at=end, **common)

    def _at(self, day: date, clock: time) -> datetime:
        return datetime.combine(day, clock, tzinfo=self._zone).astimezone(UTC)
