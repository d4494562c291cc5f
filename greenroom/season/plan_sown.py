"""Which varieties are sown already for a season, and since when."""

from __future__ import annotations

from datetime import date

from greenroom.ledger.facts import Packet, Sown
from greenroom.season.packets import packets_of
from greenroom.season.state import Season
from greenroom.season.wants import sowing_span


def sown_on(season: Season, variety: str, year: int) -> date | None:
    """Return the first day a variety was sown for a season, or None where it was not."""
    return season.memo(
        f"first sowing of {variety} for {year}", (Sown, Packet), lambda: _first(season, variety, year)
    )


def _first(season: Season, variety: str, year: int) -> date | None:
    span = sowing_span(season, year)
    keys = {key for packet in packets_of(season, variety) for key in season.spots_sown(packet)}
    own = set(packets_of(season, variety))
    days = (
        entry.fact.day
        for key in keys
        for entry in season.spot_facts(key)
        if isinstance(entry.fact, Sown) and entry.fact.packet in own
    )
    return min((day for day in days if day in span), default=None)
