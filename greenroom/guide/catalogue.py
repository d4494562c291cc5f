"""The guide as a whole: its crops and sources, and the ways to look them up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from functools import cached_property

from greenroom.guide.matching import best_match, words_of
from greenroom.guide.records import Crop, Rank, Source


def _names_of(crop: Crop) -> tuple[frozenset[str], ...]:
    names = (crop.name, crop.key.replace("-", " "), crop.latin or "", *crop.aliases)
    return tuple(words for words in map(words_of, names) if words)


@dataclass(frozen=True)
class Guide:
    """Everything known of the crops.

    Attributes
    ----------
    entries
        Every entry by its key, those that only lend their values too, in the order of the files.
    sources
        Every source by its key.
    """

    entries: Mapping[str, Crop] = field(repr=False)
    sources: Mapping[str, Source] = field(repr=False)

    @cached_property
    def crops(self) -> tuple[Crop, ...]:
        """The crops that can be grown, which leaves out the entries that only lend their values."""
        return tuple(entry for entry in self.entries.values() if entry.rank is not Rank.COMMON)

    @property
    def groups(self) -> tuple[str, ...]:
        """The crop groups, in order."""
        return tuple(dict.fromkeys(crop.group for crop in self.crops))

    def crop(self, key: str) -> Crop:
        """Return the entry of that key.

        Raises
        ------
        LookupError
            If there is none; the sentence names the nearest.
        """
        if key in self.entries:
            return self.entries[key]
        near = get_close_matches(key, self.entries, n=1)
        hint = f"; the nearest is {near[0]!r}" if near else ""
        raise LookupError(f"The guide has no crop {key!r}{hint}.")

    def lineage(self, key: str) -> tuple[str, ...]:
        """Return `key` and the keys it inherits from, nearest first."""
        return tuple(self._upwards(key))

    def types_of(self, key: str) -> tuple[Crop, ...]:
        """Return the crops that inherit from `key`, near or far."""
        return tuple(crop for crop in self.crops if key in self.lineage(crop.key)[1:])

    def find(self, text: str) -> Crop | None:
        """Return the crop that a few words from a seed list mean, or None when that is not clear.

        Capitals, accents, plurals and the order of the words do not matter: "C. chinense", "chinense"
        and "Capsicum annuum jalapeño" each find their crop.
        """
        found = best_match(text, self._names, self._lines)
        return None if found is None else self.entries[found]

    @cached_property
    def _names(self) -> dict[str, tuple[frozenset[str], ...]]:
        return {crop.key: _names_of(crop) for crop in self.crops}

    @cached_property
    def _lines(self) -> dict[str, tuple[str, ...]]:
        return {key: tuple(each for each in self._upwards(key) if each in self._names) for key in self._names}

    def _upwards(self, key: str | None) -> Iterator[str]:
        while key is not None:
            yield key
            key = self.crop(key).inherits
