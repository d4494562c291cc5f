"""The whole story of a plant: its packet, its own marks, and the care of its holder while it stood there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    BedLaid,
    CountingSet,
    Fact,
    HardeningStarted,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    LampMeasured,
    LampsSet,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Packet,
    Picked,
    PictureKept,
    SeedSaved,
    Sown,
)
from greenroom.season.hardening_words import day_words
from greenroom.season.outings import fold_outings
from greenroom.season.packets import folded, packet_view
from greenroom.season.spots import SpotKey, emptied, order_of
from greenroom.season.state import Season
from greenroom.season.story import Line, spot_line, way
from greenroom.season.story_words import fact_words, outing_words
from greenroom.speech import trn

OUTING = (OutingStarted, OutingSwitched, OutingEnded)
FIXED = (
    HolderMade,
    HolderPlaced,
    HolderRetired,
    HardeningStarted,
    CountingSet,
    BedLaid,
    LampsSet,
    LampMeasured,
)
"""What is not taken back from a story, since much rests on it; that is done where it was made."""

FIRST: tuple[date, int] = (date.min, 0)
LAST: tuple[date, int] = (date.max, 0)

Order = tuple[date, int]


@dataclass(frozen=True, slots=True)
class Stay:
    """How long one holder held a plant: from and to which fact, in the order of facts."""

    holder: str
    since: Order
    until: Order

    def holds(self, order: Order) -> bool:
        """Whether something was told while it stood there."""
        return self.since <= order < self.until


def life(season: Season, key: SpotKey) -> tuple[Line, ...]:
    """Return the whole story of what stands in a spot, in order.

    Its packet comes first; then its own marks from spot to spot, and between them what was done to the
    tray, rack or bed as a whole while it stood there. What stood in the spot before it is marked
    ``earlier`` and comes ahead of all.
    """
    earlier, steps = way(season, key)
    before = [replace(spot_line(season, key, entry), earlier=True) for entry in earlier]
    told: list[tuple[Order, Line]] = [
        (order_of(entry), spot_line(season, at, entry)) for at, entries in steps for entry in entries
    ]
    packet = _packet_of(steps)
    variety = view.packet.variety if packet and (view := packet_view(season, packet)) else None
    for stay in stays(steps):
        told += ((order, _bound(line)) for order, line in holder_lines(season, stay, variety))
    told.sort(key=lambda one: one[0])
    return (*before, *_packet_lines(season, packet), *in_runs(line for _, line in told))


def stays(steps: Sequence[tuple[SpotKey, Sequence[Entry]]]) -> list[Stay]:
    """Return how long each holder held what went through some spots."""
    found: list[Stay] = []
    for place, (key, entries) in enumerate(steps):
        if not entries:
            continue
        end = emptied(key, entries)
        until = order_of(end) if end is not None else LAST
        if place + 1 < len(steps) and steps[place + 1][1]:
            until = order_of(steps[place + 1][1][0])
        found.append(Stay(key.holder, order_of(entries[0]), until))
    return found


def holder_lines(season: Season, stay: Stay, variety: str | None) -> Iterator[tuple[Order, Line]]:
    """Yield what was told of a holder as a whole during a stay, each with its order.

    Fruit and seed of another ``variety`` than the plant's is left out; None leaves none out.
    """
    entries = season.holder_facts(stay.holder)
    placed = [entry for entry in entries if isinstance(entry.fact, HolderPlaced)]
    standing = [entry for entry in placed if order_of(entry) < stay.since]
    if standing:
        line = replace(whole_line(season, stay.holder, standing[-1]), day=stay.since[0])
        yield stay.since, line
    for entry in entries:
        if not stay.holds(order_of(entry)) or isinstance(entry.fact, OUTING):
            continue
        if isinstance(entry.fact, Picked | SeedSaved) and variety not in (None, entry.fact.variety):
            continue
        yield order_of(entry), whole_line(season, stay.holder, entry)
    yield from _outing_lines(season, stay, entries)
    yield from _lamp_lines(season, stay, placed)


def whole_line(season: Season, holder: str, entry: Entry, *, words: str = "") -> Line:
    """Return the line of one fact about a whole holder."""
    fact = entry.fact
    picture = fact if isinstance(fact, PictureKept) else None
    return Line(
        fact.day,
        words or fact_words(season, fact),
        None,
        fact.id,
        entry.act,
        of=holder,
        whole=True,
        fixed=isinstance(fact, FIXED),
        picture=picture,
    )


def in_runs(lines: Iterable[Line]) -> Iterator[Line]:
    """Yield lines, those that follow each other with the same words about a whole holder as one."""
    run: list[Line] = []
    for line in lines:
        if run and not _same(run[-1], line):
            yield _as_one(run)
            run = []
        run.append(line)
    if run:
        yield _as_one(run)


def _same(one: Line, other: Line) -> bool:
    alike = (one.words, one.of) == (other.words, other.of)
    return alike and one.whole and other.whole and one.picture is None and other.picture is None


def _as_one(run: Sequence[Line]) -> Line:
    if len(run) == 1:
        return run[0]
    until = day_words(run[-1].day)
    words = trn(
        "{what}, {n:,} time until {day}",
        "{what}, {n:,} times until {day}",
        len(run),
        what=run[0].words,
        day=until,
    )
    others = tuple(fact for line in run for fact in line.facts)[1:]
    return replace(run[0], words=words, others=others)


def _bound(line: Line) -> Line:
    """Return a line about a whole holder as one of its plants tells it: not to be taken back for all."""
    return line if line.picture is not None else replace(line, fixed=True)


def _packet_of(steps: Sequence[tuple[SpotKey, Sequence[Entry]]]) -> str | None:
    sown = [entry.fact for _, entries in steps for entry in entries if isinstance(entry.fact, Sown)]
    return sown[-1].packet if sown else None


def _packet_lines(season: Season, packet: str | None) -> list[Line]:
    """Return the line of the packet as it was last written down."""
    told = [(number, fact) for number, fact in season.numbered(Packet) if fact.packet == packet]
    return [Line(fact.day, fact_words(season, fact), None, fact.id, 0, fixed=True) for _, fact in told[-1:]]


def _outing_lines(season: Season, stay: Stay, entries: Sequence[Entry]) -> Iterator[tuple[Order, Line]]:
    """Yield one line an outing that began during a stay."""
    starts: dict[str, Entry] = {}
    for entry in entries:
        if isinstance(entry.fact, OutingStarted):
            starts.setdefault(entry.fact.outing, entry)
    for outing in fold_outings(entries):
        start = starts[outing.key]
        if stay.holds(order_of(start)):
            line = whole_line(season, stay.holder, start, words=outing_words(season, outing))
            others = tuple(fact for fact in outing.facts if fact != start.fact.id)
            yield order_of(start), replace(line, others=others, fixed=True)


def _lamp_lines(season: Season, stay: Stay, placed: Sequence[Entry]) -> Iterator[tuple[Order, Line]]:
    """Yield what was set and measured of the lamps over the place where the holder stood then."""
    lamps: list[tuple[int, LampsSet] | tuple[int, LampMeasured]] = []
    lamps += season.numbered(LampsSet)
    lamps += season.numbered(LampMeasured)
    for number, fact in lamps:
        order = (fact.day, number)
        if stay.holds(order) and folded(fact.place) == _place_at(placed, order):
            yield order, whole_line(season, stay.holder, Entry(number, 0, fact))


def _place_at(placed: Sequence[Entry], order: Order) -> str | None:
    before: list[Fact] = [entry.fact for entry in placed if order_of(entry) <= order]
    last = before[-1] if before else None
    return folded(last.place) if isinstance(last, HolderPlaced) and last.place else None
