"""One program a ledger: the second one says so, and raises the first one's window."""

from __future__ import annotations

import hashlib
from pathlib import Path

from PySide6.QtCore import QLockFile, QObject, Signal
from PySide6.QtNetwork import QLocalServer, QLocalSocket

from greenroom.speech import tr

WAIT_MS = 500


class InUseError(Exception):
    """Another program has the ledger open; the message is one sentence."""


class Instance(QObject):
    """Holds the ledger's lock while the program runs; ``knocked`` tells of others that try.

    Raises
    ------
    InUseError
        If another program has the ledger open.
    """

    knocked = Signal()

    def __init__(self, ledger: Path) -> None:
        super().__init__()
        ledger = ledger.resolve()
        self._lock = QLockFile(str(ledger.with_name(f".{ledger.name}.lock")))
        self._lock.setStaleLockTime(0)  # a lock grows stale when its program is gone, never by its age
        self._name = server_name(ledger)
        self._server = QLocalServer(self)
        if not self._lock.tryLock(0) and self._lock.error() == QLockFile.LockError.LockFailedError:
            raise InUseError(self._who(ledger))
        # Where no lock can be written no ledger can be either; opening it says so in its own words.
        QLocalServer.removeServer(self._name)
        self._server.setSocketOptions(QLocalServer.SocketOption.UserAccessOption)
        self._server.newConnection.connect(self._on_knock)
        self._server.listen(self._name)

    def release(self) -> None:
        """Let go of the ledger."""
        self._server.close()
        self._lock.unlock()

    def _who(self, ledger: Path) -> str:
        pid, host, _program = self._lock.getLockInfo()
        raised = knock(ledger)
        where = tr("process {pid} on {host}", pid=pid, host=host) if host else tr("process {pid}", pid=pid)
        if raised:
            return tr(
                "{name} is open in another greenroom ({where}); its window was brought to the front.",
                name=ledger.name,
                where=where,
            )
        return tr(
            "{name} is open in another greenroom ({where}); close it first.", name=ledger.name, where=where
        )

    def _on_knock(self) -> None:
        while (socket := self._server.nextPendingConnection()) is not None:
            socket.disconnectFromServer()
            socket.deleteLater()
        self.knocked.emit()


def knock(ledger: Path) -> bool:
    """Ask the program that has a ledger open to raise its window; True if it heard."""
    socket = QLocalSocket()
    socket.connectToServer(server_name(ledger))
    heard = socket.waitForConnected(WAIT_MS)
    socket.disconnectFromServer()
    return heard


def server_name(ledger: Path) -> str:
    """Return the name under which the program with this ledger listens."""
    return "greenroom-" + hashlib.sha256(str(ledger.resolve()).encode()).hexdigest()[:16]
