"""When several hands work at once: whether an act made before another hand wrote can still be."""

from __future__ import annotations

from collections.abc import Mapping

from greenroom.ledger.facts import HolderMade
from greenroom.season.coherence import coherent
from greenroom.season.filing import spots_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season
from greenroom.speech import tr

GONE = tr("what this would change was taken back meanwhile; look at it again")
NO_HOLDER = tr("what this is about was taken back meanwhile; look at it again")


def clash(season: Season, proposal: Proposal) -> str:
    """Return why an act no longer fits the season as it stands, without a full stop; empty if it fits.

    What it strikes out must be in force, what it is about must be there, and every spot it speaks of must
    still make sense.
    """
    leaving = season.entries_of(proposal.strike)
    if len(leaving) < len(set(proposal.strike)):
        return GONE
    made = {fact.holder for fact in proposal.record if isinstance(fact, HolderMade)}
    for fact in proposal.record:
        holder = getattr(fact, "holder", None)
        if holder is not None and holder not in made and not season.holder_facts(holder):
            return NO_HOLDER
    try:
        coherent(season, proposal, [key for entry in leaving for key in spots_of(entry.fact)])
    except RefusedError as error:
        return str(error).removesuffix(".")
    return ""


def first_hand(season: Season, proposal: Proposal, hands: Mapping[int, str], own: str) -> str | None:
    """Return who else wrote lately about the spots that an act speaks of, or lately at all.

    ``hands`` tells who wrote each of the latest acts, by its number.
    """
    keys = [key for fact in proposal.record for key in spots_of(fact)]
    acts = [entry.act for key in keys for entry in season.spot_facts(key)] or list(hands)
    others = [hands[act] for act in acts if hands.get(act, own) != own]
    return others[-1] if others else None
