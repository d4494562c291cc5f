"""Rows of a seed list made ready for the seed box: crops found in the guide, doubles told."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from greenroom.exchange.seed_list import SeedListLook, SeedRow
from greenroom.guide import Guide
from greenroom.season.packets import SeedEntry, already_there
from greenroom.season.state import Season
from greenroom.speech import tr

NAMED_AT_MOST = 4


@dataclass(frozen=True, slots=True)
class Incoming:
    """What a seed list would bring: an entry a row, and which of them are in the box already."""

    entries: tuple[SeedEntry, ...]
    there: tuple[bool, ...]
    strange: tuple[str, ...]

    def chosen(self, *, leave_out: bool) -> list[SeedEntry]:
        """Return the entries to bring in, without those in the box already if asked."""
        return [
            entry for entry, there in zip(self.entries, self.there, strict=True) if not (leave_out and there)
        ]

    @property
    def doubles(self) -> int:
        """How many are in the seed box already."""
        return sum(self.there)


def incoming(season: Season, guide: Guide, rows: Sequence[SeedRow]) -> Incoming:
    """Return what a list's rows would bring into the seed box."""
    words = dict.fromkeys(row.species for row in rows if row.species)
    crops = {text: (found.key if (found := guide.find(text)) else None) for text in words}
    entries = tuple(
        SeedEntry(
            row.name,
            crops.get(row.species),
            row.lot,
            row.packed,
            row.seeds,
            row.germination,
            row.days_to_ripe,
        )
        for row in rows
    )
    strange = tuple(text for text, crop in crops.items() if crop is None)
    return Incoming(entries, tuple(already_there(season, entries)), strange)


def notes(look: SeedListLook, coming: Incoming) -> list[str]:
    """Return what the grower should know of a list, a sentence each."""
    said = [look.note] if look.note else []
    if coming.strange:
        said.append(
            tr(
                "The guide has no crop for {names}; such packets come in without one.",
                names=_listed(coming.strange),
            )
        )
    if look.repeats:
        pairs = [tr("{line} repeats {earlier}", line=line, earlier=earlier) for line, earlier in look.repeats]
        said.append(tr("Rows that are alike in every cell: line {lines}.", lines=_listed(pairs, quote=False)))
    inside = [name for name, count in Counter(_name(entry) for entry in coming.entries).items() if count > 1]
    if inside and not look.repeats:
        said.append(tr("More than one packet in the list: {names}.", names=_listed(inside)))
    return said


def _name(entry: SeedEntry) -> str:
    return tr("{variety}, lot {lot}", variety=entry.name, lot=entry.lot) if entry.lot else entry.name


def _listed(words: Sequence[str], *, quote: bool = True) -> str:
    shown = [tr("“{typed}”", typed=one) if quote else one for one in words[:NAMED_AT_MOST]]
    more = len(words) - len(shown)
    names = ", ".join(shown)
    return tr("{names} and {more} more", names=names, more=more) if more else names
