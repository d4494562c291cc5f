"""What the part on sharing says, in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from greenroom.ledger import Act
from greenroom.season.hardening_words import day_words
from greenroom.season.place import Place
from greenroom.speech import many, tr

IN_ONE_FILE = tr(
    "This ledger is one file, and one window at a time writes it. To let several people "
    "mark at once, move it to a server: “Several hands on one ledger” in README.md says "
    "how, and how to move it back. Nothing of it is lost on either way."
)
REACHED = tr("● Connected: what others mark comes in as they mark it.")
AWAY = tr("○ The server does not answer: what you mark is kept on this machine and sent once it does.")
ALL_SENT = tr("Nothing waits; all you marked is on the server.")
KEPT = tr(
    "Copies of it are taken with the server's own tools, such as pg_dump. Pictures stay "
    "on the machine they were added on."
)
NAMED = {"do": "{deed}", "undo": tr("undone: {deed}"), "redo": tr("done again: {deed}")}


def lives_words(where: str, who: str) -> str:
    """Return where a ledger lives and as whom this window writes."""
    return tr("{where}. You write as {who}.", where=where, who=who)


def people_words(present: Sequence[str], writers: Mapping[str, int]) -> str:
    """Return who has the ledger open, and who wrote how much."""
    here = tr("On it now: {people}.", people=", ".join(present)) if present else ""
    wrote = ", ".join(f"{who} {many(count, 'act')}" for who, count in writers.items())
    so_far = tr("Written so far: {acts}.", acts=wrote) if wrote else tr("Nobody wrote yet.")
    return f"{here} {so_far}"


def written_row(act: Act, place: Place) -> tuple[str, str, str]:
    """Return when an act was written, by whom, and what it was."""
    local = place.local(act.written)
    return f"{day_words(local.date())} {local:%H:%M}", act.who, NAMED[act.deed].format(deed=act.name)
