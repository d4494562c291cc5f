"""What an archive holds and what bringing it in would do, in sentences."""

from __future__ import annotations

from greenroom.exchange.season_archive import Written
from greenroom.exchange.season_archive_merge import Merge
from greenroom.exchange.season_archive_read import Archive
from greenroom.ledger import Book
from greenroom.ledger.facts import OnlineChoice
from greenroom.season.hardening_words import day_words
from greenroom.speech import many

ALL_HERE = "All of it is here already; there is nothing to bring in."
WHOLE = (
    "This ledger is empty: it takes the archive over whole, with its history, and undo goes on from there. "
    "The bringing in itself is no act to undo."
)
ONLINE = "Leave to ask a weather service comes with it; it is taken back under Weather service."
ONE_ACT = "What is new is one act, which one undo takes back; each fact keeps who wrote it and when."


def written_words(written: Written) -> str:
    """Return what was saved."""
    words = [f"{written.path.name} was saved: {many(written.facts, 'fact')}"]
    words.append(f" and {many(written.pictures, 'picture')}." if written.pictures else ".")
    if written.lacking:
        files = (
            "the file of 1 picture is" if written.lacking == 1 else f"the files of {written.lacking:,} are"
        )
        words.append(f" Not in it: {files} missing or changed.")
    return "".join(words)


def found_words(found: Archive) -> str:
    """Return what an archive holds."""
    made = found.made.date()
    pictures = f" and {many(len(found.pictures), 'picture')}" if found.pictures else ""
    facts = many(len(found.book.entries), "fact")
    return f"Saved on {day_words(made)} {made.year} by {found.program[:40]}: {facts}{pictures}."


def merge_words(merge: Merge, book: Book) -> str:
    """Return what bringing it in would do."""
    if merge.nothing:
        return ALL_HERE
    words = [f"New here: {many(merge.new, 'fact')}. Here already: {merge.here:,}."]
    if merge.aside:
        words.append(
            f"{many(len(merge.aside), 'fact')} of it will not count: your word on the same thing is later."
        )
    turned = len(merge.strike) + len(merge.restore)
    if turned:
        words.append(
            f"{many(turned, 'fact')} of yours will be struck out or restored, as was done there later."
        )
    words.append(WHOLE if merge.empty else ONE_ACT)
    told = [entry.fact for entry in book.standing if isinstance(entry.fact, OnlineChoice)]
    if merge.empty and told and told[-1].allowed:
        words.append(ONLINE)
    return " ".join(words)


def brought_words(merge: Merge, pictures: int) -> str:
    """Return what was brought in."""
    came = f" and {many(pictures, 'picture')}" if pictures else ""
    return f"Brought in: {many(merge.new, 'fact')}{came}."
