"""Towns of the world, found by name without a network: where they lie and which time they keep.

The table is made by ``packaging/make_towns.py``, which tells its form and what was kept.
"""

from __future__ import annotations

import gzip
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from heapq import nsmallest

from greenroom.own_files import resources_folder
from greenroom.speech import tr

CREDIT = tr(
    "Towns: GeoNames (https://www.geonames.org), licensed under CC BY 4.0 "
    "(https://creativecommons.org/licenses/by/4.0/), shortened."
)
# Letters that Unicode does not take apart into a plain letter and a sign.
PLAIN = str.maketrans(
    {"æ": "ae", "ð": "d", "đ": "d", "ħ": "h", "ı": "i", "ł": "l", "ø": "o", "œ": "oe", "þ": "th"}
)
# What may stand between the words of a name; names with other such signs are in the table as typed, too.
WORD_BREAKS = bytes.maketrans(b"-'`/.,()&", b"         ")
SECTION_END = b"\n\f\n"
BEFORE_A_WORD = (b"\n", b"\t", b"|", b" ")


def find_towns(text: str, limit: int = 20) -> list[Town]:
    """Find towns by the beginning of their name, or of a word in it.

    Parameters
    ----------
    text : str
        What was typed: a name or its beginning, and after a comma perhaps a region or country. Case
        and accents do not matter. Names in other languages are known for larger towns.
    limit : int, optional
        How many towns to give at most.

    Returns
    -------
    list of Town
        First those found by their own name or by the whole of another name, then those found by the
        beginning of another name; among each the biggest first. Towns with just that name are never
        left out for bigger ones whose name only begins so.

    Raises
    ------
    ValueError
        If ``limit`` is below 1.
    """
    if limit < 1:
        raise ValueError(f"limit {limit!r} is too small; 1 or more is allowed")
    name, *where = (fold_name(part) for part in text.split(","))
    return _table().find(name.encode(), [part for part in where if part], limit) if name else []


def fold_name(name: str) -> str:
    """Return a name without case, accents and signs, its words one space apart."""
    apart = unicodedata.normalize("NFKD", name.casefold().translate(PLAIN))
    bare = "".join(letter for letter in apart if not unicodedata.combining(letter))
    return " ".join(re.findall(r"[^\W_]+", unicodedata.normalize("NFC", bare)))


def searchable(names: bytes) -> bytes:
    """Return names as they are searched: plain letters small, a blank for each sign between words."""
    return names.lower().translate(WORD_BREAKS)


@cache
def _table() -> _TownTable:
    packed = (resources_folder() / "places" / "towns.tsv.gz").read_bytes()
    return _TownTable(gzip.decompress(packed))


def _lines(text: bytes, wanted: Iterable[bytes]) -> set[int]:
    """Return the numbers of the lines in which anything wanted stands; ``text`` begins with a line end."""
    found: set[int] = set()
    for piece in wanted:
        line, counted, place = -1, 0, text.find(piece)
        while place >= 0:
            line += text.count(b"\n", counted, place + 1)
            found.add(line)
            counted = place + 1
            place = text.find(piece, counted)
    return found


@dataclass(frozen=True, slots=True)
class Town:
    """A town: degrees north and east, the name of its time zone, and how many people live there.

    ``region`` is empty where it is not known.
    """

    name: str
    region: str
    country: str
    latitude: float
    longitude: float
    zone: str
    population: int

    @property
    def words(self) -> str:
        """The town, its region and country, as one would write them in one line."""
        region = () if self.region in ("", self.name) else (self.region,)
        return ", ".join((self.name, *region, self.country))


class _TownTable:
    """The table as bytes, taken apart only where a town is asked for."""

    def __init__(self, table: bytes) -> None:
        _, countries, areas, names, others, places, people = table.removesuffix(b"\n").split(SECTION_END)
        self._countries = countries.split(b"\n")
        self._areas = areas.split(b"\n")
        self._names = names.split(b"\n")
        self._places = places.split(b"\n")
        self._people = people.split(b"\n")
        self._own = b"\n%b\n" % searchable(names)
        self._others = b"\n%b\n" % others

    def find(self, name: bytes, where: list[str], limit: int) -> list[Town]:
        """Find towns by a folded name, each of ``where`` beginning their region or country."""
        own = self._in_place(_lines(self._own, [sign + name for sign in BEFORE_A_WORD]), where)
        other = self._in_place(_lines(self._others, [sign + name for sign in BEFORE_A_WORD]), where)
        same = _lines(self._own, self._whole(name)) & own
        same_other = _lines(self._others, self._whole(name)) & other
        kept = set(self._biggest(same, limit))
        best = self._biggest((own | same_other) - kept, limit - len(kept))
        last = self._biggest(other - own - same_other, limit - len(kept) - len(best))
        return [self._town(line) for line in (*self._biggest({*kept, *best}, limit), *last)]

    @staticmethod
    def _whole(name: bytes) -> list[bytes]:
        return [before + name + after for before in (b"\n", b"\t", b"|") for after in (b"\n", b"\t", b"|")]

    def _in_place(self, lines: set[int], where: list[str]) -> set[int]:
        return {line for line in lines if self._lies_in(line, where)} if where else lines

    def _biggest(self, lines: set[int], limit: int) -> list[int]:
        return nsmallest(limit, lines, key=lambda line: (-int(self._people[line]), line))

    def _area(self, line: int) -> tuple[str, str, str]:
        number, _, _ = self._places[line].partition(b"\t")
        country, zone, region = self._areas[int(number)].split(b"\t")
        return self._countries[int(country)].decode(), zone.decode(), region.decode()

    def _lies_in(self, line: int, where: list[str]) -> bool:
        country, _, region = self._area(line)
        around = (fold_name(region), fold_name(country))
        return all(any(name.startswith(part) for name in around) for part in where)

    def _town(self, line: int) -> Town:
        country, zone, region = self._area(line)
        _, latitude, longitude = self._places[line].split(b"\t")
        name = self._names[line].partition(b"\t")[0].decode()
        return Town(name, region, country, float(latitude), float(longitude), zone, int(self._people[line]))
