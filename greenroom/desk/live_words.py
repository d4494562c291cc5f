"""What is said of a ledger that several hands write."""

LOST = "The server does not answer; what you mark waits on this machine and is sent once it does."
BACK = "The server answers again; {sent} that waited {were} sent."
NOT_NOW = "Undo and redo need the server, which does not answer; what you mark is kept meanwhile."
SINCE = (
    "{who} wrote about {spot} since, so it is not undone; correct it by hand or have that taken back first."
)
FIRST = "{who} was first: {reason}."
MEANWHILE = (
    "{who} wrote about the same cells meanwhile, so nothing was written; look at them and do it again."
)
HELD = "{name} was held back, since {who} was first; see Sharing on the page of the place."
SOMEBODY = "Somebody else"
