"""What is said of a ledger that several hands write."""

from greenroom.speech import tr, trn

LOST = tr("The server does not answer; what you mark waits on this machine and is sent once it does.")
NOT_NOW = tr("Undo and redo need the server, which does not answer; what you mark is kept meanwhile.")
SINCE = tr(
    "{who} wrote about {spot} since, so it is not undone; correct it by hand or have that taken back first."
)
FIRST = tr("{who} was first: {reason}.")
MEANWHILE = tr(
    "{who} wrote about the same cells meanwhile, so nothing was written; look at them and do it again."
)
HELD = tr("“{name}” was held back, since {who} was first; see Sharing on the page of the place.")
SOMEBODY = tr("Somebody else")


def back_words(sent: int) -> str:
    """Return that the server answers again, and what was sent."""
    return trn(
        "The server answers again; {n:,} act that waited was sent.",
        "The server answers again; {n:,} acts that waited were sent.",
        sent,
    )
