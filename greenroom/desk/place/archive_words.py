"""What an archive holds and what bringing it in would do, in sentences."""

from __future__ import annotations

from greenroom.exchange.season_archive import Written
from greenroom.exchange.season_archive_merge import Merge
from greenroom.exchange.season_archive_read import Archive
from greenroom.ledger import Book
from greenroom.ledger.facts import OnlineChoice
from greenroom.season.weekdays import dated_words
from greenroom.speech import many, tr, trn

ALL_HERE = tr("All of it is here already; there is nothing to bring in.")
WHOLE = tr(
    "This ledger is empty: it takes the archive over whole, with its history, and undo "
    "goes on from there. The bringing in itself is no act to undo."
)
ONLINE = tr("Leave to ask a weather service comes with it; it is taken back under Weather service.")
ONE_ACT = tr("What is new is one act, which one undo takes back; each fact keeps who wrote it and when.")


def written_words(written: Written) -> str:
    """Return what was saved."""
    words = [
        tr(
            "{file} was saved: {content}.",
            file=written.path.name,
            content=_content(written.facts, written.pictures),
        )
    ]
    if written.lacking:
        words.append(
            trn(
                "Not in it: the file of 1 picture is missing or changed.",
                "Not in it: the files of {n:,} are missing or changed.",
                written.lacking,
            )
        )
    return " ".join(words)


def found_words(found: Archive) -> str:
    """Return what an archive holds."""
    made = found.made.date()
    return tr(
        "Saved on {date} by {program}: {content}.",
        date=dated_words(made),
        program=found.program[:40],
        content=_content(len(found.book.entries), len(found.pictures)),
    )


def merge_words(merge: Merge, book: Book) -> str:
    """Return what bringing it in would do."""
    if merge.nothing:
        return ALL_HERE
    words = [tr("New here: {facts}. Here already: {here:,}.", facts=many(merge.new, "fact"), here=merge.here)]
    if merge.aside:
        words.append(
            trn(
                "1 fact of it will not count: your word on the same thing is later.",
                "{n:,} facts of it will not count: your word on the same thing is later.",
                len(merge.aside),
            )
        )
    turned = len(merge.strike) + len(merge.restore)
    if turned:
        words.append(
            trn(
                "1 fact of yours will be struck out or restored, as was done there later.",
                "{n:,} facts of yours will be struck out or restored, as was done there later.",
                turned,
            )
        )
    words.append(WHOLE if merge.empty else ONE_ACT)
    told = [entry.fact for entry in book.standing if isinstance(entry.fact, OnlineChoice)]
    if merge.empty and told and told[-1].allowed:
        words.append(ONLINE)
    return " ".join(words)


def brought_words(merge: Merge, pictures: int) -> str:
    """Return what was brought in."""
    return tr("Brought in: {content}.", content=_content(merge.new, pictures))


def _content(facts: int, pictures: int) -> str:
    """Return so many facts, and pictures where there are any."""
    told = many(facts, "fact")
    return tr("{facts} and {pictures}", facts=told, pictures=many(pictures, "picture")) if pictures else told
