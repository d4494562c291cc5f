"""The address of a ledger on a server: how it is reached, how safely, and what may be said of it.

Whatever is not this very machine is reached with TLS and a checked certificate, unless the address
itself says less (``sslmode``, PostgreSQL 15 documentation, section 34.19). The password is never part of
what is said: it belongs into the driver's password file (section 34.16) or the environment.
"""

from __future__ import annotations

import hashlib
import ipaddress
import os
from pathlib import Path

import sqlalchemy as sa

from greenroom.speech import tr

DRIVER = "postgresql+psycopg"
STRICT = "verify-full"
NOT_CHECKED = ("disable", "allow", "prefer", "require", "verify-ca")
OPEN_MODES = ("disable", "allow", "prefer")
OWN_AUTHORITY = Path(".postgresql") / "root.crt"
CONNECT_SECONDS = 5
UNNAMED = "the server"  # part of the name of an outbox, so the same in every language
# A connection that fell silent is given up after about this long, so that a mark is queued, not waited for.
SILENCE_MS = 4000
USUAL = {
    "connect_timeout": str(CONNECT_SECONDS),
    "keepalives_idle": "5",
    "keepalives_interval": "2",
    "keepalives_count": "3",
    "tcp_user_timeout": str(SILENCE_MS),
    "application_name": "greenroom",
}


def reached(url: sa.URL) -> sa.URL:
    """Return the address as the driver is given it: with TLS where it may leave this machine."""
    given = {name: value for name, value in url.query.items() if name != "sslmode" or value}
    added = dict(USUAL)
    if not _stays_here(url) and "sslmode" not in given:
        added["sslmode"] = STRICT
        if not (given.keys() & {"sslrootcert"} or os.environ.get("PGSSLROOTCERT") or _own_authority()):
            added["sslrootcert"] = "system"
    driver = DRIVER if url.drivername == "postgresql" else url.drivername
    return url.set(drivername=driver, query={**added, **given})


def caution(url: sa.URL) -> str:
    """Return what to know of an address that asks for less than a checked connection; else nothing."""
    mode = url.query.get("sslmode")
    if _stays_here(url) or mode not in NOT_CHECKED:
        return ""
    if mode in OPEN_MODES:
        return tr(
            "The way to {host} may be open to others to read, since the address says sslmode={mode}.",
            host=_host_words(url),
            mode=mode,
        )
    return tr(
        "Which server answers for {host} is not fully checked, since the address says sslmode={mode}.",
        host=_host_words(url),
        mode=mode,
    )


def plain_name(url: sa.URL) -> str:
    """Return what a ledger on a server is called: its database and where that is, without a password."""
    database, host = url.database or url.username or "postgres", _host(url)
    if _stays_here(url):
        return tr("{database} on this machine", database=database)
    if host:
        return tr("{database} on {host}", database=database, host=host)
    return tr("{database} on the server", database=database)


def hand_of(address: str) -> str | None:
    """Return whom the server knows a writer as, if the address or the environment tells."""
    return sa.make_url(address).username or os.environ.get("PGUSER")


def outbox_name(address: str) -> str:
    """Return the file name of the outbox for a ledger and a hand; it tells neither host nor password."""
    url = sa.make_url(address)
    parts = (url.username, _host(url) or UNNAMED, url.port or os.environ.get("PGPORT"), url.database)
    mark = hashlib.sha256(repr([str(part or "") for part in parts]).encode()).hexdigest()[:16]
    return f"outbox-{mark}.greenroom"


def place_words(address: str) -> tuple[str, str]:
    """Return where a ledger is, and what to know of the way there, each without a password."""
    url = sa.make_url(address)
    return plain_name(url), caution(url)


def _host_words(url: sa.URL) -> str:
    return _host(url) or tr("the server")


def _host(url: sa.URL) -> str:
    """Return the host or hosts an address names, as the driver would find them; empty if none."""
    return ",".join(_named(url, "host", "PGHOST"))


def _named(url: sa.URL, parameter: str, variable: str) -> list[str]:
    asked = url.query.get(parameter) or os.environ.get(variable) or ""
    given = asked if isinstance(asked, str) else ",".join(asked)
    hosts = [url.host] if parameter == "host" and url.host else given.split(",")
    return [host for host in hosts if host]


def _stays_here(url: sa.URL) -> bool:
    """Whether every host an address may lead to is this machine; a service's file may name any."""
    if url.query.get("service") or os.environ.get("PGSERVICE"):
        return False
    hosts = _named(url, "host", "PGHOST") + _named(url, "hostaddr", "PGHOSTADDR")
    return all(_is_own(host) for host in hosts)


def _is_own(host: str) -> bool:
    """Whether a host is this machine: a socket's folder, or an address that never leaves it."""
    if host.startswith(("/", "@")) or host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False


def _own_authority() -> bool:
    """Whether the grower put an authority of their own where the driver looks for one."""
    return (Path.home() / OWN_AUTHORITY).is_file()
