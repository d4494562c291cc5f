"""The demo's care: water, weights, feeds, looks over, findings and cool nights, as facts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from greenroom.ledger.facts import (
    BasinEmptied,
    CoolNight,
    Fact,
    Fed,
    Finding,
    LookedOver,
    MixFelt,
    SoilFelt,
    Watered,
    Weighed,
)

Told = Mapping[str, Any]


def care_facts(
    told: Told, new_key: Callable[[], str], holders: Mapping[str, str], zone: ZoneInfo
) -> Iterator[Fact]:
    """Yield what was done for the plants, what is to come with it; ``holders`` are keys by name.

    ``told`` is the table ``care`` of the demo's file.
    """
    for one in told["water"]:
        yield from _watered(one, new_key, holders[one["holder"]], zone)
    for one in told["weights"]:
        yield from _weighed(one, new_key, holders[one["holder"]], zone)
    for one in told["felt"]:
        where = holders[one["holder"]]
        yield MixFelt(id=new_key(), day=one["day"], holder=where, test=one["test"], level=one["level"])
    for one in told["feeds"]:
        yield from _fed(one, new_key, holders)
    for one in told["looks"]:
        yield from (LookedOver(id=new_key(), day=day, holder=holders[one["holder"]]) for day in one["days"])
    for one in told["found"]:
        yield _found(one, new_key, holders)
    for one in told["cool_nights"]:
        for day, low_c in one["nights"]:
            yield CoolNight(id=new_key(), day=day, holder=holders[one["holder"]], low_c=low_c)
    for day, clock, celsius in told["soil"]:
        yield SoilFelt(id=new_key(), day=day, celsius=celsius, at=_moment(day, clock, zone))


def _watered(told: Told, new_key: Callable[[], str], holder: str, zone: ZoneInfo) -> Iterator[Fact]:
    """Yield waterings day after day; from below, the basin is emptied that day, save after one of them."""
    first, last, every = told["first"], told["last"], told["every"]
    for day in (first + timedelta(days=number) for number in range(0, (last - first).days + 1, every)):
        at = _moment(day, told["at"], zone)
        yield Watered(id=new_key(), day=day, holder=holder, how=told["how"], at=at)
        if told["how"] == "below" and day != told.get("left_standing"):
            yield BasinEmptied(id=new_key(), day=day, holder=holder)


def _weighed(told: Told, new_key: Callable[[], str], holder: str, zone: ZoneInfo) -> Iterator[Fact]:
    for day, clock, state, grams in told["told"]:
        at = _moment(day, clock, zone)
        yield Weighed(id=new_key(), day=day, holder=holder, state=state, grams=grams, at=at)


def _fed(told: Told, new_key: Callable[[], str], holders: Mapping[str, str]) -> Iterator[Fact]:
    n, p2o5, k2o = told["label"]
    for holder, day, ppm_n, litres in told["given"]:
        yield Fed(
            id=new_key(),
            day=day,
            holder=holders[holder],
            feed=told["feed"],
            n_percent=n,
            p2o5_percent=p2o5,
            k2o_percent=k2o,
            ppm_n=ppm_n,
            litres=litres,
        )


def _found(told: Told, new_key: Callable[[], str], holders: Mapping[str, str]) -> Finding:
    row, column = told.get("at", (None, None))
    return Finding(
        id=new_key(),
        day=told["day"],
        holder=holders[told["holder"]],
        row=row,
        column=column,
        sign=told["sign"],
        count=told.get("count"),
        where=told.get("where", ""),
    )


def _moment(day: date, clock: time, zone: ZoneInfo) -> datetime:
    return datetime.combine(day, clock, tzinfo=zone).astimezone(UTC)
