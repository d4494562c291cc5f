"""A PostgreSQL server of the tests' own: made in a folder of its own, thrown away at the end.

It listens on a socket in that folder, for which no password is asked, and on a free port of this machine,
for which one is. Nothing of it is worth keeping, so it does not wait for the disk.
"""

import os
import pwd
import shutil
import signal
import socket
import subprocess
import tempfile
import time
from collections.abc import Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

import sqlalchemy as sa

OWNER = "keeper"
FOLDERS = ("/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/opt/homebrew/opt/postgresql*/bin")
HANDS = ("postgres", "nobody")  # the server refuses to run as root
SETTINGS = {
    "fsync": "off",
    "synchronous_commit": "off",
    "full_page_writes": "off",
    "autovacuum": "off",
    "shared_buffers": "32MB",
    "max_connections": "60",
    "listen_addresses": "127.0.0.1",
    "log_min_messages": "warning",
}
START_SECONDS, STOP_SECONDS = 20, 20


@dataclass(frozen=True)
class Server:
    """A server on which databases may be made and dropped; ``address`` is that of one with every right."""

    address: str

    def url(self, database: str) -> str:
        """Return the address of a database for the hand with every right."""
        return sa.make_url(self.address).set(database=database).render_as_string(hide_password=False)

    @contextmanager
    def asked(self, database: str | None = None):
        """Give a connection with every right, on which each statement stands by itself."""
        address = self.address if database is None else self.url(database)
        engine = sa.create_engine(driven(address), isolation_level="AUTOCOMMIT")
        try:
            with engine.connect() as connection:
                yield connection
        finally:
            engine.dispose()

    @contextmanager
    def away(self, database: str):
        """Have every window on a database thrown out, and none let in."""
        with self.asked() as keeper:
            keeper.exec_driver_sql(f"ALTER DATABASE {database} ALLOW_CONNECTIONS false")
            try:
                keeper.exec_driver_sql(
                    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity "
                    f"WHERE datname = '{database}' AND application_name = 'greenroom'"
                )
                yield
            finally:
                keeper.exec_driver_sql(f"ALTER DATABASE {database} ALLOW_CONNECTIONS true")


@dataclass(frozen=True)
class PrivateServer(Server):
    """The tests' own server, by its socket (no password asked) or by its port (one is)."""

    folder: Path
    port: int

    def url_by_port(self, database: str, user: str, password: str = "") -> str:
        """Return the address of a database by the port."""
        hand = f"{user}:{password}" if password else user
        return f"postgresql://{hand}@127.0.0.1:{self.port}/{database}"


def driven(url: str) -> sa.URL:
    """Return an address with the driver in it."""
    return sa.make_url(url).set(drivername="postgresql+psycopg")


def binaries() -> Path | None:
    """Return the folder of the newest server that is installed, or None."""
    found = [path.parent for folder in FOLDERS for path in Path("/").glob(f"{folder[1:]}/initdb")]
    if found:
        return max(found, key=lambda folder: int("0" + "".join(filter(str.isdecimal, folder.parent.name))))
    on_path = shutil.which("initdb")
    return Path(on_path).resolve().parent if on_path else None


@contextmanager
def private_server(programs: Path, others: Mapping[str, str] = MappingProxyType({})):
    """Make a server, start it with some ``others`` of its settings, and take it away at the end."""
    folder = Path(tempfile.mkdtemp(prefix="greenroom-server-"))
    try:
        hand = _hand(folder)
        port = _free_port()
        data = folder / "data"
        _call(
            [
                programs / "initdb",
                "--pgdata",
                data,
                "--username",
                OWNER,
                "--no-sync",
                "--encoding",
                "UTF8",
                "--locale",
                "C",
                "--auth-local",
                "trust",
                "--auth-host",
                "scram-sha-256",
            ],
            hand,
        )
        settings = [
            word for name, value in {**SETTINGS, **others}.items() for word in ("-c", f"{name}={value}")
        ]
        with (folder / "server.log").open("wb") as log:
            server = subprocess.Popen(
                [programs / "postgres", "-D", data, "-p", str(port), "-k", folder, *settings],
                stdout=subprocess.DEVNULL,
                stderr=log,
                cwd=folder,
                **hand,
            )
        try:
            _wait(programs, folder, port, hand)
            yield PrivateServer(f"postgresql://{OWNER}@/postgres?host={folder}&port={port}", folder, port)
        finally:
            server.send_signal(signal.SIGINT)  # lets go of whoever is connected
            server.wait(STOP_SECONDS)
    finally:
        shutil.rmtree(folder)


def _hand(folder: Path) -> dict[str, object]:
    """Return whose hand runs the server, and give the folder to it."""
    if os.geteuid() != 0:
        return {}
    known = {entry.pw_name: entry for entry in pwd.getpwall()}
    user = next(known[name] for name in HANDS if name in known)
    os.chown(folder, user.pw_uid, user.pw_gid)
    return {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}


def _call(words, hand):
    done = subprocess.run(words, capture_output=True, text=True, cwd="/", check=False, **hand)
    if done.returncode:
        raise RuntimeError(f"{words[0]} ended with {done.returncode}: {done.stderr}")


def _wait(programs, folder, port, hand):
    ask = [programs / "pg_isready", "--quiet", "--host", folder, "--port", str(port)]
    for _ in range(START_SECONDS * 20):
        if subprocess.run(ask, check=False, cwd="/", **hand).returncode == 0:
            return
        time.sleep(0.05)
    raise RuntimeError((folder / "server.log").read_text(errors="replace"))


def _free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]
