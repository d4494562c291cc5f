"""What a grower adds to a story: words, and pictures that were put beside the ledger."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import Note, PictureKept, new_key
from greenroom.season.deeds_care import GONE
from greenroom.season.few_words import spot_words
from greenroom.season.packets import variety_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import tr, trn


@dataclass(frozen=True, slots=True)
class About:
    """Whose story it is: of one spot, of a holder, or of a packet."""

    spot: SpotKey | None = None
    holder: str | None = None
    packet: str | None = None


@dataclass(frozen=True, slots=True)
class PictureFile:
    """A picture's file beside the ledger: its name, its digest, its sides in pixels."""

    file: str
    sha256: str
    width: int
    height: int


def about_words(season: Season, about: About) -> str:
    """Return what a story is about in a few words; refused if it is gone."""
    try:
        if about.spot is not None:
            return spot_words(season, about.spot)
        if about.holder is not None:
            return season.holder(about.holder).name
    except KeyError as error:
        raise RefusedError(GONE) from error
    return tr("a packet of {variety}", variety=variety_name(season, about.packet))


def note_on(season: Season, about: About, text: str, day: date) -> Proposal:
    """Keep words about a spot or a holder."""
    words = about_words(season, about)
    if not text.strip():
        raise RefusedError(tr("The note has no words; write some first."))
    if about.packet is not None:
        raise RefusedError(tr("Notes are kept of trays, pots and beds; a packet has none."))
    if about.spot is not None:
        holder, row, column = about.spot
        return Proposal(
            tr("note on {place}", place=words),
            (Note(day=day, holder=holder, row=row, column=column, text=text.strip()),),
        )
    return Proposal(
        tr("note on {place}", place=words), (Note(day=day, holder=about.holder or "", text=text.strip()),)
    )


def keep_pictures(season: Season, about: About, files: list[PictureFile], day: date) -> Proposal:
    """Note the pictures of a spot, a holder or a packet whose files stand beside the ledger."""
    words = about_words(season, about)
    if not files:
        raise RefusedError(tr("No picture was chosen."))
    holder, row, column = about.spot or (about.holder, None, None)
    facts = tuple(
        PictureKept(
            day=day,
            holder=holder,
            row=row,
            column=column,
            packet=about.packet,
            picture=new_key(),
            file=one.file,
            sha256=one.sha256,
            width=one.width,
            height=one.height,
        )
        for one in files
    )
    name = trn("kept {n:,} picture of {what}", "kept {n:,} pictures of {what}", len(facts), what=words)
    return Proposal(name, facts)
