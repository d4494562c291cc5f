"""One method call at a time on the session bus of a Linux desktop, by the D-Bus specification.

Qt's own D-Bus classes cannot be used for notifications from Python: they send every whole number as a
signed one, and a notification's number is unsigned, so the desktop refuses the call. What is written
here is what that one call needs: authentication, the header, and the types of its arguments.

References
----------
D-Bus Specification 0.43, "Message Protocol", "Authentication Protocol" and "Server Addresses".
"""

from __future__ import annotations

import os
import socket
import struct
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Self
from urllib.parse import unquote

PATIENCE_S = 0.5
LARGEST_LINE = 4096
LARGEST_MESSAGE = 1 << 20
CALL, RETURN, ERROR = 1, 2, 3
PATH, INTERFACE, MEMBER, REPLY_TO, DESTINATION, SIGNATURE = 1, 2, 3, 5, 6, 8


class BusError(Exception):
    """The bus is not there, does not answer, or refuses."""


@dataclass(frozen=True, slots=True)
class Method:
    """What is called: a method of an object of a service."""

    service: str
    path: str
    interface: str
    name: str


@dataclass(slots=True)
class Packed:
    """Values in the little-endian wire format, each aligned to its own size."""

    data: bytearray = field(default_factory=bytearray)
    signature: str = ""

    def align(self, size: int) -> None:
        """Pad with zeros up to a multiple of ``size``."""
        self.data.extend(bytes(-len(self.data) % size))

    def unsigned(self, value: int) -> Self:
        """Append an unsigned number of 32 bits."""
        self._number("<I", value)
        self.signature += "u"
        return self

    def signed(self, value: int) -> Self:
        """Append a signed number of 32 bits."""
        self._number("<i", value)
        self.signature += "i"
        return self

    def text(self, value: str) -> Self:
        """Append a string."""
        self._text(value)
        self.signature += "s"
        return self

    def texts(self, values: Sequence[str]) -> Self:
        """Append an array of strings."""
        start = self._open_array(4)
        for value in values:
            self._text(value)
        self._close_array(start, 4)
        self.signature += "as"
        return self

    def hints(self, values: Mapping[str, str | int]) -> Self:
        """Append a dictionary of strings and small numbers (one byte), each with its type."""
        start = self._open_array(8)
        for name, value in values.items():
            self.align(8)
            self._text(name)
            self._variant(value)
        self._close_array(start, 8)
        self.signature += "a{sv}"
        return self

    def field(self, code: int, kind: str, value: str) -> None:
        """Append a field of a message header."""
        self.align(8)
        self.data.append(code)
        self._kind(kind)
        if kind == "g":
            self._kind(value)
        else:
            self._text(value)

    def _number(self, shape: str, value: int) -> None:
        self.align(4)
        self.data.extend(struct.pack(shape, value))

    def _text(self, value: str) -> None:
        raw = value.replace("\0", "").encode()
        self._number("<I", len(raw))
        self.data.extend(raw + b"\0")

    def _kind(self, kind: str) -> None:
        self.data.extend(bytes([len(kind)]) + kind.encode() + b"\0")

    def _variant(self, value: str | int) -> None:
        if isinstance(value, str):
            self._kind("s")
            self._text(value)
        else:
            self._kind("y")
            self.data.append(value)

    def _open_array(self, element: int) -> int:
        self._number("<I", 0)
        start = len(self.data)
        self.align(element)
        return start

    def _close_array(self, start: int, element: int) -> None:
        """Write the length of an array, which leaves out the padding before its first element."""
        padding = -start % element
        struct.pack_into("<I", self.data, start - 4, len(self.data) - start - padding)


class SessionBus:
    """A connection to the session bus; made when it is first used, and made anew when it broke."""

    def __init__(self, address: str | None = None) -> None:
        self._address = address
        self._socket: socket.socket | None = None
        self._serial = 0

    def call(self, method: Method, arguments: Packed) -> int | None:
        """Call a method and return the number it answers with, or None if it answers no number.

        Raises
        ------
        BusError
            If there is no bus, it does not answer in half a second, or the method is refused.
        """
        try:
            line = self._line()
            serial = self._send(line, method, arguments)
            return self._answer(line, serial)
        except (OSError, struct.error, UnicodeDecodeError) as error:
            self.close()
            raise BusError(f"the session bus does not answer: {error}") from error

    def close(self) -> None:
        """Leave the bus."""
        if self._socket is not None:
            self._socket.close()
            self._socket = None

    def _line(self) -> socket.socket:
        if self._socket is None:
            self._socket = _connect(self._address if self._address is not None else session_address())
            hello = Method("org.freedesktop.DBus", "/org/freedesktop/DBus", "org.freedesktop.DBus", "Hello")
            self._answer(self._socket, self._send(self._socket, hello, Packed()))
        return self._socket

    def _send(self, line: socket.socket, method: Method, arguments: Packed) -> int:
        self._serial += 1
        head = Packed()
        head.data.extend(struct.pack("<cBBBII", b"l", CALL, 0, 1, len(arguments.data), self._serial))
        start = head._open_array(8)
        head.field(PATH, "o", method.path)
        head.field(INTERFACE, "s", method.interface)
        head.field(MEMBER, "s", method.name)
        head.field(DESTINATION, "s", method.service)
        if arguments.signature:
            head.field(SIGNATURE, "g", arguments.signature)
        head._close_array(start, 8)
        head.align(8)
        line.sendall(bytes(head.data + arguments.data))
        return self._serial

    def _answer(self, line: socket.socket, serial: int) -> int | None:
        while True:
            kind, reply_to, signature, body = _read_message(line)
            if reply_to != serial:
                continue  # a signal, or the answer to a call given up earlier
            if kind == ERROR:
                raise BusError("the desktop refused the call")
            return int(struct.unpack_from("<I", body)[0]) if signature in ("u", "i") else None


def session_address() -> str:
    """Return the address of this session's bus.

    Raises
    ------
    BusError
        If the session has none.
    """
    told = os.environ.get("DBUS_SESSION_BUS_ADDRESS")
    if told:
        return told
    folder = os.environ.get("XDG_RUNTIME_DIR")
    if folder and (Path(folder) / "bus").exists():
        return f"unix:path={folder}/bus"
    raise BusError("this session has no bus")


def _connect(address: str) -> socket.socket:
    """Return a socket that was let in at the first address of the list that names a socket file."""
    for one in address.split(";"):
        kind, _, rest = one.partition(":")
        told = dict(part.partition("=")[::2] for part in rest.split(",") if "=" in part)
        place = unquote(told["path"]) if "path" in told else "\0" + unquote(told.get("abstract", ""))
        if kind == "unix" and place != "\0":
            line = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
            line.settimeout(PATIENCE_S)
            try:
                line.connect(place)
                _authenticate(line)
            except OSError:
                line.close()
                raise
            return line
    raise BusError(f"the session bus at {address} cannot be reached")


def _authenticate(line: socket.socket) -> None:
    """Say who we are by the user's number, which the bus checks itself (EXTERNAL)."""
    line.sendall(b"\0AUTH EXTERNAL " + str(os.getuid()).encode().hex().encode() + b"\r\n")
    said = b""
    while not said.endswith(b"\r\n") and len(said) < LARGEST_LINE:
        said += _exactly(line, 1)
    if not said.startswith(b"OK "):
        raise OSError("not let in")
    line.sendall(b"BEGIN\r\n")


def _read_message(line: socket.socket) -> tuple[int, int | None, str, bytes]:
    """Return kind, the call it answers, signature and body of the next message."""
    first = _exactly(line, 16)
    order = "<" if first[:1] == b"l" else ">"
    kind = first[1]
    body_length, _serial, fields_length = struct.unpack_from(f"{order}III", first, 4)
    if body_length + fields_length > LARGEST_MESSAGE:
        raise OSError("a message is too long")
    fields = _exactly(line, fields_length + -fields_length % 8)[:fields_length]
    body = _exactly(line, body_length)
    reply_to, signature = _fields(order, fields)
    if order == ">":
        body = body[3::-1] + body[4:]
    return kind, reply_to, signature, body


def _fields(order: str, data: bytes) -> tuple[int | None, str]:
    """Return which call a header answers and the signature of its body."""
    reply_to: int | None = None
    signature = ""
    at = 0
    while at < len(data):
        at += -at % 8
        code, kind = data[at], data[at + 2 : at + 3].decode()
        at += 4
        if kind == "g":
            size = data[at]
            value = data[at + 1 : at + 1 + size].decode()
            signature = value if code == SIGNATURE else signature
            at += size + 2
            continue
        at += -at % 4
        number = int(struct.unpack_from(f"{order}I", data, at)[0])
        at += 4
        if kind == "u":
            reply_to = number if code == REPLY_TO else reply_to
        else:
            at += number + 1
    return reply_to, signature


def _exactly(line: socket.socket, size: int) -> bytes:
    data = b""
    while len(data) < size:
        more = line.recv(size - len(data))
        if not more:
            raise OSError("the line was closed")
        data += more
    return data
