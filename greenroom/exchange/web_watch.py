"""Ends a connection from outside, when its time is up or the grower calls it off.

A read time-out is not enough: it starts anew with each byte, so a server that sends one now and then
could hold a connection for hours. The watch shuts the socket, which ends any read that waits on it.
"""

from __future__ import annotations

import contextlib
import socket
import threading
from collections.abc import Callable
from typing import Protocol, Self

TICK_S = 0.05


class HasSocket(Protocol):
    """A connection whose socket is None until it is open."""

    @property
    def sock(self) -> socket.socket | None:
        """The socket, if it is open."""


class Watch:
    """Watches one connection; use it as a context manager around everything done with it.

    ``late`` and ``called_off`` tell afterwards whether the watch ended the connection, and why.
    """

    def __init__(
        self, connection: HasSocket, is_late: Callable[[], bool], cancelled: Callable[[], bool]
    ) -> None:
        self.late = False
        self.called_off = False
        self._connection = connection
        self._is_late = is_late
        self._cancelled = cancelled
        self._socket: socket.socket | None = None
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._watch, name="web watch")

    def __enter__(self) -> Self:
        self._thread.start()
        return self

    def __exit__(self, *problem: object) -> None:
        self._over.set()
        self._thread.join()

    def hold(self) -> None:
        """Remember the socket, now that it is open: the connection lets go of it before all is read."""
        self._socket = self._connection.sock

    @property
    def ended(self) -> bool:
        """Whether the watch ended the connection."""
        return self.late or self.called_off

    def _watch(self) -> None:
        while not self._over.wait(TICK_S):
            self.called_off = self.called_off or self._cancelled()
            self.late = self.late or self._is_late()
            if self.ended:
                self._shut()

    def _shut(self) -> None:
        """Shut the socket, again at each tick, as it may still be on its way to being open."""
        open_socket = self._socket or self._connection.sock
        if open_socket is not None:
            with contextlib.suppress(OSError):  # it may be closed or not yet connected
                # Not the method of a TLS socket, which would take the TLS away from the one who reads.
                socket.socket.shutdown(open_socket, socket.SHUT_RDWR)
