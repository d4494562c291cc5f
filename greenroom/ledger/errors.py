"""What can go wrong with a ledger, each told in one sentence a grower can act on."""


class LedgerError(Exception):
    """Something is wrong with the ledger; the message is a whole sentence for the grower."""


class NotALedgerError(LedgerError):
    """The file is something else."""


class DamagedLedgerError(LedgerError):
    """The file was a ledger and is no longer whole."""


class NewerLedgerError(LedgerError):
    """The ledger was written by a later greenroom than this one."""


class LedgerUnavailableError(LedgerError):
    """The surroundings are at fault: a full disk, a lock, a missing right."""


class ServerAwayError(LedgerUnavailableError):
    """The server cannot be reached just now, or the connection broke off."""


class UnknownFactError(LedgerError):
    """A number or an id that the ledger does not hold, or one already in the state asked for."""
