"""Addresses on the web that may be asked: https, or http on this very computer for tests."""

from __future__ import annotations

import ipaddress
from collections.abc import Mapping
from dataclasses import dataclass, replace
from urllib.parse import urlencode, urljoin, urlsplit


def is_loopback(host: str) -> bool:
    """Return whether a host is this computer itself."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def parse_address(text: str) -> Address:
    """Return the address in ``text``; raise ValueError if it may not be asked."""
    try:
        parts = urlsplit(text)
        port = parts.port
    except ValueError as error:
        raise ValueError(
            f"{text!r} is not an address; one such as https://example.org/v1 is needed"
        ) from error
    host = parts.hostname or ""
    secure = parts.scheme == "https"
    if not host or not (secure or (parts.scheme == "http" and is_loopback(host))) or "@" in parts.netloc:
        raise ValueError(f"{text!r} is not allowed; an https address without a name and password is needed")
    return Address(secure, host, port or (443 if secure else 80), parts.path or "/", parts.query)


@dataclass(frozen=True, slots=True)
class Address:
    """Where a request goes."""

    secure: bool
    host: str
    port: int
    path: str
    query: str = ""

    @property
    def target(self) -> str:
        """The path and query, as they stand in the request line."""
        return f"{self.path}?{self.query}" if self.query else self.path

    @property
    def origin(self) -> tuple[bool, str, int]:
        """What must stay the same when a server sends a request on."""
        return self.secure, self.host, self.port

    def with_fields(self, fields: Mapping[str, str]) -> Address:
        """Return the address with these fields as its query."""
        return replace(self, query=urlencode(fields, safe=",/"))

    def joined(self, location: str) -> Address | None:
        """Return the address a redirect leads to, None if it leaves this origin."""
        scheme = "https" if self.secure else "http"
        host = f"[{self.host}]" if ":" in self.host else self.host
        try:
            found = parse_address(urljoin(f"{scheme}://{host}:{self.port}{self.target}", location))
        except ValueError:
            return None
        return found if found.origin == self.origin else None
