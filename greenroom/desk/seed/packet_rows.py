"""The rows of the seed table: what each packet shows in each column, and how rows sort and match."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from greenroom.desk.seed.crop_words import kind_words, past_keeping, species_words
from greenroom.guide import Guide
from greenroom.season.packets import PacketView, folded, packets
from greenroom.season.state import Season
from greenroom.speech import figure, tr

UNKNOWN = "–"


@dataclass(frozen=True, slots=True)
class PacketRow:
    """One packet as the table shows it; a number is None where it is not known."""

    key: str
    name: str
    kind: str
    species: str
    lot: str
    packed: int | None
    age: int | None
    old: bool
    seeds: int | None
    sown: int
    left: int | None
    germination: float | None

    @property
    def words(self) -> str:
        """What the filter looks through."""
        return folded(f"{self.name} {self.kind} {self.species} {self.lot} {self.packed or ''}")


@dataclass(frozen=True, slots=True)
class Column:
    """One column: its title, what it shows, what it sorts by, what the figure means, its longest words."""

    key: str
    title: str
    show: Callable[[PacketRow], str]
    sort: Callable[[PacketRow], str | float | None]
    meaning: str
    number: bool = False
    longest: str = ""


def rows_of(season: Season, guide: Guide, today: date) -> list[PacketRow]:
    """Return a row for every packet, by variety name and lot."""
    return [_row(view, guide, today) for view in packets(season)]


def age_of(packed: int | None, today: date) -> int | None:
    """Return the age of seed in years, counted from the year on the packet."""
    return None if packed is None else max(0, today.year - packed)


def _row(view: PacketView, guide: Guide, today: date) -> PacketRow:
    fact = view.packet
    age = age_of(fact.packed, today)
    return PacketRow(
        key=view.key,
        name=view.name,
        kind=kind_words(guide, view.crop),
        species=species_words(guide, view.crop),
        lot=fact.lot,
        packed=fact.packed,
        age=age,
        old=past_keeping(guide, view.crop, age),
        seeds=fact.seeds,
        sown=view.used,
        left=view.left,
        germination=fact.germination,
    )


def _number(value: int | None) -> str:
    return UNKNOWN if value is None else figure(value, ",")


def _year(row: PacketRow) -> str:
    return UNKNOWN if row.packed is None else str(row.packed)


def _age(row: PacketRow) -> str:
    if row.age is None:
        return UNKNOWN
    return tr("{age} y, old", age=row.age) if row.old else tr("{age} y", age=row.age)


def _share(row: PacketRow) -> str:
    return UNKNOWN if row.germination is None else tr("{percent:.0f} %", percent=row.germination * 100)


COLUMNS = (
    Column(
        "variety",
        tr("Variety"),
        lambda row: row.name,
        lambda row: folded(row.name),
        tr("the name on the packet"),
    ),
    Column(
        "kind",
        tr("Kind"),
        lambda row: row.kind,
        lambda row: folded(row.kind) or None,
        tr("the crop in the guide"),
    ),
    Column(
        "species",
        tr("Species"),
        lambda row: row.species,
        lambda row: row.species or None,
        tr("the species in the guide"),
    ),
    Column(
        "lot",
        tr("Lot"),
        lambda row: row.lot,
        lambda row: folded(row.lot) or None,
        tr("the lot on the packet"),
    ),
    Column("packed", tr("Packed"), _year, lambda row: row.packed, tr("the year on the packet"), number=True),
    Column(
        "age",
        tr("Age"),
        _age,
        lambda row: row.age,
        tr("years since; old is past the years it usually keeps"),
        number=True,
        longest=tr("{age} y, old", age=10),
    ),
    Column(
        "seeds",
        tr("Seeds"),
        lambda row: _number(row.seeds),
        lambda row: row.seeds,
        tr("seeds that came in it"),
        number=True,
    ),
    Column(
        "sown",
        tr("Sown", sense="seeds"),
        lambda row: _number(row.sown),
        lambda row: row.sown,
        tr("seeds of it sown"),
        number=True,
    ),
    Column(
        "left",
        tr("Left", sense="seeds"),
        lambda row: _number(row.left),
        lambda row: row.left,
        tr("seeds left in it"),
        number=True,
    ),
    Column(
        "germination",
        tr("Germ."),
        _share,
        lambda row: row.germination,
        tr("germination on the label"),
        number=True,
    ),
    Column(
        "expected",
        tr("Expected up"),
        lambda _row: UNKNOWN,
        lambda _row: None,
        tr(
            "share to be expected up, by label, age, tests at home and own sowings; nine times "
            "in ten in this range"
        ),
    ),
)
EXPECTED = len(COLUMNS) - 1
"""The column that the model fills, from what is worked out a packet at a time."""
