"""Run a PostgreSQL server for a ledger that several hands write: python3 packaging/serve.py.

    python3 packaging/serve.py               make it the first time, start it, tell the ledger's address
    python3 packaging/serve.py --add ana     let ana write; psql asks for her password
    python3 packaging/serve.py --stop        stop it; nothing is lost

It is kept in a folder of its own, by default greenroom-server in the home folder, and heard on this machine
only unless --listen and a certificate are given. Needs Python and the PostgreSQL programs (initdb, pg_ctl,
psql), 15 or newer; nothing of it needs root.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

DATABASE = "greenroom"
ROLES = Path(__file__).resolve().parent / "server" / "roles.sql"
PROGRAMS = ("/usr/lib/postgresql/*/bin", "/usr/pgsql-*/bin", "/opt/homebrew/opt/postgresql*/bin")
NAME = re.compile(r"[a-z][a-z0-9_]{0,30}", re.ASCII)
LOOPBACK = "localhost"
LONGEST_FOLDER = 80  # bytes; the path of a socket has room for some 100
FROM_ELSEWHERE = "hostssl {database} all all scram-sha-256\n"


class ServeError(Exception):
    """Why the server cannot be run; the message is one sentence."""


@dataclass(frozen=True)
class Server:
    """A server in a folder; ``hand`` is whose hand runs its programs, as subprocess takes it."""

    folder: Path
    port: int
    programs: Path
    hand: Mapping[str, object] = field(default_factory=dict)

    @property
    def data(self) -> Path:
        """Where the server keeps what it holds."""
        return self.folder / "data"

    @property
    def address(self) -> str:
        """The ledger's address for who runs the server; no password is asked on this machine."""
        return f"postgresql:///{DATABASE}?host={self.folder}&port={self.port}"

    def make(self) -> None:
        """Make the server's folder, once."""
        if (self.data / "PG_VERSION").exists():
            return
        self.call("initdb", "--pgdata", self.data, "--encoding", "UTF8", "--locale", "C",
                  "--auth-local", "peer", "--auth-host", "scram-sha-256", "--data-checksums")  # fmt: skip
        with (self.data / "pg_hba.conf").open("a", encoding="utf-8") as rules:
            rules.write(FROM_ELSEWHERE.format(database=DATABASE))

    def start(self, listen: str, certificate: Path | None, key: Path | None) -> None:
        """Start the server, unless it runs."""
        if self.runs():
            return
        settings = {"port": str(self.port), "unix_socket_directories": str(self.folder)}
        settings["listen_addresses"] = listen
        if certificate is not None and key is not None:
            settings |= {"ssl": "on", "ssl_cert_file": str(certificate), "ssl_key_file": str(key)}
        options = " ".join(f"-c {name}='{value}'" for name, value in settings.items())
        self.call("pg_ctl", "--pgdata", self.data, "--wait", "--log", self.folder / "server.log",
                  "--options", options, "start")  # fmt: skip

    def stop(self) -> None:
        """Stop the server, if it runs."""
        if self.runs():
            self.call("pg_ctl", "--pgdata", self.data, "--wait", "--mode", "fast", "stop")

    def runs(self) -> bool:
        """Whether the server runs."""
        words = [self.programs / "pg_ctl", "--pgdata", self.data, "status"]
        return subprocess.run(words, capture_output=True, check=False, cwd="/", **self.hand).returncode == 0

    def make_database(self) -> None:
        """Make the database and the three roles, once."""
        there = self.ask("postgres", f"SELECT 1 FROM pg_database WHERE datname = '{DATABASE}'")
        if not there.strip():
            self.ask("postgres", f"CREATE DATABASE {DATABASE}")
        self.psql(DATABASE, "--file", ROLES)

    def add(self, name: str) -> None:
        """Let somebody write; psql asks for the password, which is stored scrambled."""
        if not NAME.fullmatch(name):
            raise ServeError(f"{name!r} is no name to write with; small letters, digits and _ are allowed.")
        there = self.ask("postgres", f"SELECT 1 FROM pg_roles WHERE rolname = '{name}'")
        if not there.strip():
            self.ask("postgres", f"CREATE ROLE {name} LOGIN IN ROLE greenroom_writer")
        words = [*self._psql("postgres"), "--command", f"\\password {name}"]
        subprocess.run(words, check=True, cwd="/", **self.hand)

    def ask(self, database: str, statement: str) -> str:
        """Carry out one statement and return what it answers."""
        return self.psql(database, "--command", statement)

    def psql(self, database: str, *words: str | Path) -> str:
        """Run psql without a terminal."""
        return self._run([*self._psql(database), *words])

    def call(self, program: str, *words: str | Path) -> str:
        """Run one of the server's programs."""
        return self._run([self.programs / program, *words])

    def _psql(self, database: str) -> list[str | Path]:
        return [self.programs / "psql", "--quiet", "--no-psqlrc", "--tuples-only", "--set", "ON_ERROR_STOP=1",
                "--host", self.folder, "--port", str(self.port), "--dbname", database]  # fmt: skip

    def _run(self, words: Sequence[str | Path]) -> str:
        # pg_ctl leaves the server running with its output, so a pipe would never end: files do.
        said = self.folder / "said.txt"
        with said.open("w+", encoding="utf-8", errors="replace") as stream:
            done = subprocess.run(words, stdout=stream, stderr=subprocess.STDOUT, check=False, cwd="/",
                                  stdin=subprocess.DEVNULL, **self.hand)  # fmt: skip
            stream.seek(0)
            text = stream.read()
        said.unlink()
        if done.returncode:
            last = (text.strip().splitlines() or ["no word of why"])[-1].strip().rstrip(".")
            raise ServeError(f"{Path(words[0]).name} ended with {done.returncode}: {last}.")
        return text


def programs() -> Path:
    """Return the folder of the newest server programs installed here."""
    found = [path.parent for folder in PROGRAMS for path in Path("/").glob(f"{folder[1:]}/initdb")]
    if found:
        return max(found, key=lambda folder: int("0" + "".join(filter(str.isdecimal, folder.parent.name))))
    on_path = shutil.which("initdb")
    if on_path is None:
        raise ServeError(
            "PostgreSQL is not installed here; install its server (Debian: apt install postgresql)."
        )
    return Path(on_path).resolve().parent


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """Return what is asked for."""
    parser = argparse.ArgumentParser(prog="serve.py", description="Run a server for a shared ledger.")
    parser.add_argument("--folder", type=Path, default=Path.home() / "greenroom-server")
    parser.add_argument("--port", type=int, default=5433)
    parser.add_argument("--listen", default=LOOPBACK, help="an address of this machine others can reach")
    parser.add_argument("--certificate", type=Path, help="its TLS certificate, needed with --listen")
    parser.add_argument("--key", type=Path, help="the key of the certificate")
    parser.add_argument("--add", metavar="NAME", help="let somebody write, with a password of their own")
    parser.add_argument("--stop", action="store_true", help="stop the server")
    return parser.parse_args(arguments)


def serve(asked: argparse.Namespace, hand: Mapping[str, object]) -> str:
    """Do what is asked for; return what to tell."""
    folder = asked.folder.expanduser().resolve()
    if asked.listen != LOOPBACK and (asked.certificate is None or asked.key is None):
        raise ServeError("--listen needs --certificate and --key, so that nothing travels unencrypted.")
    if len(os.fsencode(folder)) > LONGEST_FOLDER or "'" in str(folder):
        raise ServeError(
            f"The folder's path needs at most {LONGEST_FOLDER} bytes and no quote; name another."
        )
    server = Server(folder, asked.port, programs(), hand)
    if asked.stop:
        server.stop()
        return "Stopped."
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    server.make()
    server.start(asked.listen, asked.certificate, asked.key)
    server.make_database()
    if asked.add:
        server.add(asked.add)
        where = LOOPBACK if asked.listen == LOOPBACK else asked.listen
        return f"{asked.add} opens the ledger with: greenroom postgresql://{asked.add}@{where}:{asked.port}/{DATABASE}"
    return f"The server runs. Open the ledger on it with: greenroom '{server.address}'"


def main() -> str | int:
    """Run the server; return a sentence if it cannot be."""
    asked = parse(sys.argv[1:])
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        return "A database server does not run as root; start it as an ordinary user."
    try:
        print(serve(asked, {}))
    except (ServeError, OSError) as error:
        return str(error)
    return 0


if __name__ == "__main__":
    sys.exit(main())
