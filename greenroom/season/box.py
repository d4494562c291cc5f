"""Filing packets under their varieties: which variety a name means, and what is new about it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from datetime import date

from greenroom.ledger.facts import Variety, new_key
from greenroom.season.packets import SeedEntry, folded, kin, varieties
from greenroom.season.state import Season


class Filing:
    """Finds the variety of each entry, adds it where it is not known, fills in what was not known.

    The same name is the same variety, unless both crops are known and are no kin: there may be a
    tomato and a pepper of one name.
    """

    def __init__(self, season: Season, day: date) -> None:
        self._guide = season.guide
        self._day = day
        self._known: dict[str, list[Variety]] = defaultdict(list)
        self._written: dict[str, Variety] = {}
        self._struck: list[str] = []
        for fact in varieties(season).values():
            self._known[folded(fact.name)].append(fact)

    @property
    def written(self) -> tuple[Variety, ...]:
        """The varieties to write: new ones, and known ones of which more is known now."""
        return tuple(self._written.values())

    @property
    def struck(self) -> tuple[str, ...]:
        """The facts that those written replace."""
        return tuple(self._struck)

    def find(self, name: str, crop: str | None) -> Variety | None:
        """Return the variety that a name and crop mean, or None if there is none yet."""
        named = self._known[folded(name)]
        same = [one for one in named if one.crop == crop]
        alike = [one for one in named if kin(self._guide, one.crop, crop)]
        return next(iter(same or alike), None)

    def file(self, entry: SeedEntry) -> str:
        """Return the key of the entry's variety, which is written down if need be."""
        found = self.find(entry.name, entry.crop)
        if found is None:
            return self._add(entry)
        fuller = replace(
            found,
            crop=found.crop or entry.crop,
            days_to_ripe=found.days_to_ripe if found.days_to_ripe is not None else entry.days_to_ripe,
        )
        if fuller != found:
            self._replace(found, fuller)
        return found.variety

    def _add(self, entry: SeedEntry) -> str:
        name = " ".join(entry.name.split())
        new = Variety(
            day=self._day, variety=new_key(), name=name, crop=entry.crop, days_to_ripe=entry.days_to_ripe
        )
        self._known[folded(name)].append(new)
        self._written[new.variety] = new
        return new.variety

    def _replace(self, found: Variety, fuller: Variety) -> None:
        if found.variety not in self._written:
            self._struck.append(found.id)
            fuller = replace(fuller, id=new_key())
        self._written[found.variety] = fuller
        named = self._known[folded(found.name)]
        named[named.index(found)] = fuller
