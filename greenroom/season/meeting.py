"""When several hands work at once: whether an act made before another hand wrote can still be."""

from __future__ import annotations

from greenroom.ledger.facts import HolderMade
from greenroom.season.coherence import coherent
from greenroom.season.filing import spots_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season

GONE = "what this would change was taken back meanwhile; look at it again"
NO_HOLDER = "what this is about was taken back meanwhile; look at it again"


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
