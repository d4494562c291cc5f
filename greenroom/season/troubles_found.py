"""What was found on the plants of a holder over time, and the acts of a look-over."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.guide.troubles import Pest, Troubles, cited
from greenroom.ledger.facts import Finding, LookedOver, Note
from greenroom.season.care_words import sign_words
from greenroom.season.deeds_care import in_use, look_over, refuse_beside
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.troubles import troubles_of
from greenroom.season.why import Why
from greenroom.season.within import inside, within
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Seen:
    """One look at a holder or one of its plants, and what was found; ``sign`` is None where nothing was."""

    day: date
    sign: str | None
    name: str
    count: int | None = None
    where: str = ""
    spot: str | None = None

    @property
    def words(self) -> str:
        """What was seen, in a few words."""
        if self.sign is None:
            return tr("nothing found on {spot}", spot=self.spot) if self.spot else tr("nothing found")
        found = within(self.name)
        if self.count is not None:
            found = tr("{number:,} {sign}", sense="so many of a sign", number=self.count, sign=found)
        if self.spot:
            found = tr("{sign} on {spot}", sign=found, spot=self.spot)
        return f"{found}, {self.where}" if self.where else found


def seen_on(season: Season, holder: str, troubles: Troubles) -> list[Seen]:
    """Return what was seen on a holder and its plants, the latest day first.

    A day on which something was found is not told as a day on which nothing was.
    """
    found = [
        Seen(fact.day, fact.sign, name_of(troubles, fact.sign), fact.count, fact.where, _spot(fact))
        for fact in season.facts(Finding)
        if fact.holder == holder
    ]
    days = {one.day for one in found}
    clean = [
        Seen(fact.day, None, "", spot=_spot(fact))
        for fact in season.facts(LookedOver)
        if fact.holder == holder and fact.day not in days
    ]
    return sorted([*found, *clean], key=lambda one: one.day, reverse=True)


def name_of(troubles: Troubles, sign: str) -> str:
    """Return the name of a pest or a sign; of one the guide does not know, its key as it is read."""
    return troubles.names.get(sign, sign_words(sign))


def nothing_found(season: Season, holder: str, day: date, spot: SpotKey | None = None) -> Proposal:
    """Note that a holder, or one of its plants, was looked over and nothing was found."""
    if spot is None:
        return look_over(season, [holder], day)
    made = in_use(season, holder, day)
    refuse_beside(made, spot)
    fact = LookedOver(day=day, holder=holder, row=spot.row, column=spot.column)
    return Proposal(tr("looked over {spot} of {tray}", spot=spot.label, tray=made.name), (fact,))


def put_down_to(
    season: Season, holder: str, day: date, sign: str, cause: str, spot: SpotKey | None = None
) -> Proposal:
    """Keep in the story of a holder or a plant what a sign was put down to."""
    made = in_use(season, holder, day)
    known = troubles_of(season).signs[sign]
    name = next((one.name for one in known.causes if one.key == cause), None)
    if name is None:
        raise RefusedError(tr("{sign}: choose one of its causes.", sign=known.name))
    row, column = (spot.row, spot.column) if spot is not None else (None, None)
    text = tr("{sign}: put down to {cause}", sign=known.name, cause=inside(name))
    fact = Note(day=day, holder=holder, row=row, column=column, text=text)
    at = tr("{spot} of {tray}", spot=spot.label, tray=made.name) if spot is not None else made.name
    return Proposal(tr("put a cause to what was seen on {plant}", plant=at), (fact,))


def threshold_why(pest: Pest) -> Why | None:
    """Return where the count at which a pest matters comes from, or None where nobody published one."""
    if pest.threshold is None:
        return None
    rule = tr(
        "A published count for fields or houses, not for a bench of some plants: with so "
        "few, look at every plant and act on what you find."
    )
    return Why(pest.threshold.words, rule, ((tr("pest"), pest.name),), (cited(pest.threshold.source),))


def last_look_words(seen: list[Seen]) -> str:
    """Return when a holder was looked over last."""
    return tr("last looked over on {day}", day=day_words(seen[0].day)) if seen else tr("not looked over yet")


def _spot(fact: Finding | LookedOver) -> str | None:
    if fact.row is None or fact.column is None:
        return None
    return SpotKey(fact.holder, fact.row, fact.column).label
