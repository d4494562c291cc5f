"""Care as tables: feeds, waterings, findings, picks, all as they were written down."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TypeVar

from greenroom.exchange.tables import words
from greenroom.exchange.tables.parts import holder_name, spot_label
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.ledger.facts import Fact, Fed, Finding, HolderMade, Picked, Variety, Watered, Weighed
from greenroom.season.care_words import sign_words
from greenroom.season.packets import UNNAMED
from greenroom.season.state import Season
from greenroom.speech import tr

F = TypeVar("F", bound=Fact)

DAY = Column("date", "Date", Kind.DATE)
HOLDER = Column("holder", "Tray, rack or bed")
MOMENT = Column("at", "Time", Kind.MOMENT)
SPOT = Column("spot", "Cell or position")
FEEDS = (
    DAY,
    HOLDER,
    Column("feed", "Feed"),
    Column("n", "N", Kind.NUMBER, "%"),
    Column("p2o5", "P₂O₅", Kind.NUMBER, "%"),
    Column("k2o", "K₂O", Kind.NUMBER, "%"),
    Column("strength", "Strength", Kind.NUMBER, "mg N/L"),
    Column("litres", "Given", Kind.NUMBER, "L"),
)
WATERINGS = (
    DAY,
    HOLDER,
    Column("how", "From", said=words.watered),
    Column("weight", "Weight afterwards", Kind.NUMBER, "g"),
    MOMENT,
)
WEIGHINGS = (
    DAY,
    HOLDER,
    Column("state", "State", said=words.weighed),
    Column("weight", "Weight", Kind.NUMBER, "g"),
    MOMENT,
)
FINDINGS = (
    DAY,
    HOLDER,
    SPOT,
    Column("sign", "Sign", said=words.sign),
    Column("count", "Count", Kind.WHOLE),
    Column("where", "Where on the plant"),
)
PICKS = (
    DAY,
    Column("variety", "Variety"),
    HOLDER,
    SPOT,
    Column("count", "Fruits", Kind.WHOLE),
    Column("weight", "Weight", Kind.NUMBER, "g"),
    Column("ripeness", "Ripeness", said=words.ripeness),
)


def feed_table(season: Season) -> Table:
    """Return every feed, in order of days."""
    rows = (
        (
            one.day,
            holder_name(season, one.holder),
            one.feed,
            one.n_percent,
            one.p2o5_percent,
            one.k2o_percent,
            one.ppm_n,
            one.litres,
        )
        for one in season.facts(Fed)
    )
    return Table.of(tr("Feeds"), FEEDS, rows)


def watering_table(season: Season) -> Table:
    """Return every watering, in order of days."""
    found = sorted(_of_holders(season, Watered), key=lambda pair: pair[0])
    rows = ((day, holder_name(season, one.holder), one.how, one.weight_g, one.at) for day, one in found)
    return Table.of(tr("Waterings"), WATERINGS, rows)


def weighing_table(season: Season) -> Table:
    """Return every weighing, in order of days."""
    rows = (
        (one.day, holder_name(season, one.holder), one.state, one.grams, one.at)
        for one in season.facts(Weighed)
    )
    return Table.of(tr("Weighings"), WEIGHINGS, rows)


def finding_table(season: Season) -> Table:
    """Return every finding of pest, disease or want, in order of days."""
    rows = (
        (
            one.day,
            holder_name(season, one.holder),
            spot_label(one.row, one.column),
            sign_words(one.sign),
            one.count,
            one.where,
        )
        for one in season.facts(Finding)
    )
    return Table.of(tr("Findings"), FINDINGS, rows)


def pick_table(season: Season) -> Table:
    """Return every picking of fruit, in order of days."""
    return Table.of(tr("Picks"), PICKS, (_pick(season, one) for one in season.facts(Picked)))


def _pick(season: Season, one: Picked) -> tuple[Cell, ...]:
    variety = season.thing(Variety, one.variety)
    return (
        one.day,
        variety.name if variety else UNNAMED,
        holder_name(season, one.holder),
        spot_label(one.row, one.column),
        one.count,
        one.grams,
        one.ripeness,
    )


def _of_holders(season: Season, cls: type[F]) -> Iterator[tuple[date, F]]:
    """Yield the facts of a kind about holders in use or put away, each with its day."""
    for key in dict.fromkeys(made.holder for made in season.facts(HolderMade)):
        for entry in season.holder_facts(key):
            if isinstance(entry.fact, cls):
                yield entry.fact.day, entry.fact
