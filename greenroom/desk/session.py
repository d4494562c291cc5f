"""One session with a ledger: opened for one program, given a clock, closed again."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from greenroom.desk.clock import Clock, at_local, standing_at, system_now
from greenroom.desk.instance import Instance
from greenroom.desk.keeper import Keeper
from greenroom.ledger import LedgerError
from greenroom.own_files import resources_folder
from greenroom.season.demo import demo_acts, demo_facts, read_demo
from greenroom.season.place import place_of
from greenroom.season.state import Season
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.ledger import Ledger

IN_MEMORY = "sqlite://"
DEMO_SEED = 20270514
PICTURE_TIME = (9, 54)


class VanishedError(LedgerError):
    """The ledger is not where it was, but copies of it are."""


@contextmanager
def own_ledger(
    ledger: str, *, today: date | None = None, still: bool = False, anew: bool = False
) -> Iterator[Keeper]:
    """Open the grower's ledger; ``still`` stops the clock, as for pictures.

    Where there is none one is made, but where copies of one are left only if ``anew`` says so.

    Raises
    ------
    LedgerError, InUseError
        With one sentence, if it cannot be opened.
    """
    from greenroom.ledger import Ledger

    if on_server(ledger):
        from greenroom.desk.live_session import shared_ledger

        with shared_ledger(ledger, still=still) as keeper:
            keeper.clock = _clock(today, keeper.season, still=still)
            yield keeper
        return
    file = file_of(ledger)
    lock = None if still or file is None else _lock(file)
    try:
        if file is not None and not anew:
            _require_not_vanished(file)
        with Ledger.open(ledger) as opened:
            keeper = Keeper(opened, Clock())
            keeper.clock = _clock(today, keeper.season, still=still)
            keeper.lock = lock
            yield keeper
    finally:
        if lock is not None:
            lock.release()


@contextmanager
def demo_ledger(*, today: date | None = None, still: bool = False) -> Iterator[Keeper]:
    """Open the invented season in a ledger that is thrown away afterwards."""
    demo = read_demo((resources_folder() / "demo" / "season.toml").read_text(encoding="utf-8"))
    moment = demo.moment
    if today is not None:
        local = moment.astimezone(demo.zone)
        moment = at_local(today, local.hour, local.minute, demo.zone)
    clock = standing_at(moment) if still else Clock(shift=moment - system_now())
    facts = demo_facts(demo, moment, np.random.default_rng(DEMO_SEED))
    acts = demo_acts(facts, moment.astimezone(demo.zone).date())
    with ExitStack() as stack:

        def open_ledger() -> Ledger:
            from greenroom.ledger import Ledger

            return stack.enter_context(Ledger.open(IN_MEMORY, clock=clock.now, who="demo"))

        keeper = Keeper(open_ledger, clock, acts)
        keeper.demo = True
        yield keeper


def on_server(ledger: str) -> bool:
    """Whether a ledger is named by the address of a server."""
    return ledger.partition("://")[0].split("+")[0] == "postgresql"


def file_of(ledger: str) -> Path | None:
    """Return the file a ledger is kept in, or None if it is kept by a server or in memory."""
    if "://" not in ledger:
        return Path(ledger)
    scheme, _, rest = ledger.partition(":///")
    path = rest.partition("?")[0]
    return Path(path) if scheme.split("+")[0] == "sqlite" and path not in ("", ":memory:") else None


def _require_not_vanished(file: Path) -> None:
    """Raise where copies are left of a ledger that is gone: an empty one would hide what happened."""
    if file.exists():
        return
    from greenroom.desk.keeping.where import backups_of

    if backups_of(file).copies():
        raise VanishedError(
            tr(
                "{name} is not where it was, though copies of it are; put it back or restore a copy.",
                name=file.name,
            )
        )


def _lock(file: Path) -> Instance:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise LedgerError(
            tr("The folder for {name} cannot be made: {reason}.", name=file.name, reason=error.strerror)
        ) from error
    return Instance(file)


def _clock(today: date | None, season: Season, *, still: bool) -> Clock:
    zone = place_of(season).zone
    if still:
        return standing_at(at_local(today, *PICTURE_TIME, zone) if today else system_now())
    return Clock().moved_to(today, zone) if today else Clock()
