"""Puts greenroom together: arguments, ledger, clock, window."""

from __future__ import annotations

import argparse
import gc
import logging
import re
import sys
from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from pathlib import Path
from types import ModuleType

from platformdirs import user_data_path, user_log_path

from greenroom import __version__
from greenroom.desk.logs import LEVELS, CrashWatch, log_handler
from greenroom.speech import NAMES, tr

LEDGER_NAME = "season.greenroom"
DATE_FORM = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
EARLIEST_YEAR, LATEST_YEAR = 1900, 2200


def main(arguments: Sequence[str] | None = None) -> int:
    """Run greenroom; return the exit status."""
    speak_own_language(arguments)
    asked = parse(arguments)
    keep_log(asked.log_level)
    if asked.move_to is not None:
        return move(asked.ledger, asked.move_to)
    crashes = CrashWatch(user_log_path("greenroom", appauthor=False))
    crashes.begin()
    try:
        status = load_start().run(
            asked.ledger,
            today=asked.today,
            demo=asked.demo,
            pictures=asked.pictures,
            walk=asked.walk,
            crashed=crashes.before,
        )
    finally:
        crashes.end()
    from greenroom.desk.pages import AGAIN, open_again

    if status == AGAIN:
        open_again(sys.argv[1:] if arguments is None else arguments)
        return 0
    return status


def speak_own_language(arguments: Sequence[str] | None = None) -> None:
    """Speak the language that was asked for, chosen on this computer or set for the system.

    Before anything that speaks is imported, and before the arguments are read: what is said of them is said
    in it.
    """
    from greenroom.desk.language import own_language, speak

    first = argparse.ArgumentParser(add_help=False, exit_on_error=False)
    first.add_argument("--language", default="")
    asked = argparse.Namespace(language="")
    with suppress(argparse.ArgumentError):  # a language left out is refused when all is read
        first.parse_known_args(arguments, asked)
    speak(asked.language if asked.language in NAMES else own_language())


def load_start() -> ModuleType:
    """Import what opens the window.

    What is imported stays to the end: looking for garbage in it would take a tenth of the start, and
    a little of every look after it.
    """
    gc.disable()
    try:
        from greenroom.desk import start
    finally:
        gc.freeze()
        gc.enable()
    return start


def move(ledger: str, place: str) -> int:
    """Move a ledger to another place; return the exit status."""
    from greenroom.desk.instance import InUseError
    from greenroom.desk.live_moving import move_ledger
    from greenroom.exchange.errors import BadFileError
    from greenroom.ledger import LedgerError

    try:
        sys.stdout.write(f"{move_ledger(ledger, place)}\n")
    except (LedgerError, InUseError, BadFileError) as error:
        sys.stderr.write(f"{error}\n")
        return 2
    return 0


def parse(arguments: Sequence[str] | None) -> argparse.Namespace:
    """Return what the command line asks for; exits with one sentence if it cannot be."""
    parser = argparse.ArgumentParser(
        prog="greenroom", description=tr("Carries every seedling from packet to ripe pod.")
    )
    parser.add_argument("ledger", nargs="?", default=None, help=tr("a ledger's file or database URL"))
    parser.add_argument("--today", type=_day, metavar="YYYY-MM-DD", help=tr("take this day for today"))
    parser.add_argument(
        "--demo", action="store_true", help=tr("open an invented season in a temporary ledger")
    )
    parser.add_argument("--walk", action="store_true", help=tr("open the demo and be led through it"))
    parser.add_argument(
        "--pictures", type=Path, metavar="DIR", help=tr("draw every page to DIR as PNG, without a screen")
    )
    parser.add_argument(
        "--move-to",
        metavar="PLACE",
        help=tr("copy the whole ledger to an empty database or a new file, and end"),
    )
    parser.add_argument(
        "--log-level",
        choices=LEVELS,
        default="info",
        help=tr("how much is written to the log (usually info)"),
    )
    parser.add_argument("--language", choices=tuple(NAMES), help=tr("speak this language, this time only"))
    parser.add_argument("--version", action="version", version=f"greenroom {__version__}")
    asked = parser.parse_args(arguments)
    asked.demo = asked.demo or asked.walk
    if asked.demo and asked.ledger:
        option = "--walk" if asked.walk else "--demo"
        parser.error(tr("{option} opens a ledger of its own; leave the ledger's name out", option=option))
    if asked.demo and asked.move_to:
        parser.error(tr("--demo has no ledger of its own to move; leave --move-to out"))
    if asked.ledger is None and not asked.demo:
        asked.ledger = str(default_ledger())
    return asked


def default_ledger() -> Path:
    """Return where the grower's own ledger is kept on this platform."""
    return user_data_path("greenroom", appauthor=False) / LEDGER_NAME


def keep_log(level: str = "info") -> None:
    """Write what goes wrong to the platform's folder for logs; old logs make room for new ones."""
    folder = user_log_path("greenroom", appauthor=False)
    try:
        handler = log_handler(folder)
    except OSError as error:
        sys.stderr.write(
            tr("No log is kept: {folder} cannot be written ({reason}).", folder=folder, reason=error.strerror)
            + "\n"
        )
        return
    logging.basicConfig(level=level.upper(), handlers=[handler])


def _day(text: str) -> date:
    refused = argparse.ArgumentTypeError(
        tr(
            "{text!r} is no day to take; a date such as 2027-05-14, from {first} to {last}, is needed",
            text=text,
            first=EARLIEST_YEAR,
            last=LATEST_YEAR,
        )
    )
    if not DATE_FORM.fullmatch(text):
        raise refused
    try:
        day = date.fromisoformat(text)
    except ValueError as error:
        raise refused from error
    if not EARLIEST_YEAR <= day.year <= LATEST_YEAR:
        raise refused
    return day
