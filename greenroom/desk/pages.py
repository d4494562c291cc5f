"""The pages of the window, each imported when it first comes to the front."""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence

from PySide6.QtCore import QProcess

from greenroom.desk.bench import Bench
from greenroom.desk.page import Page
from greenroom.desk.window import MakePage
from greenroom.speech import SPEAKER

AGAIN = 3
"""The exit status of a window that is to be opened again, as when another language was chosen."""


def page_makers() -> Mapping[str, MakePage]:
    """Return what makes each page, in the order of the season, the place last."""
    return {
        "seed": _seed,
        "sow": _sow,
        "grow": _grow,
        "harden": _harden,
        "setout": _set_out,
        "pick": _pick,
        "round": _round,
        "place": _place,
        "first": _first,
        "paper": _paper,
    }


def open_demo() -> None:
    """Open the demo in a window of its own; the grower's own ledger is not touched by it."""
    _start_again("--demo")


def open_walk() -> None:
    """Open the demo in a window of its own, with the walk through it begun."""
    _start_again("--walk")


def open_again(arguments: Sequence[str]) -> None:
    """Open what these arguments opened once more, in the language that is chosen by now."""
    kept, skip = [], False
    for one in arguments:
        name, parted, _ = one.partition("=")
        asks = name.startswith("--la") and "--language".startswith(name)  # it may be shortened so far
        if not skip and not asks:
            kept.append(one)
        skip = asks and not parted
    _start(kept)


def _start_again(*arguments: str) -> None:
    """Start the program once more, in the language spoken now."""
    _start([*arguments, "--language", SPEAKER.tongue.code])


def _start(arguments: Sequence[str]) -> None:
    """Start the program; one that was packed into a folder is itself what to start."""
    packed = getattr(sys, "frozen", False)
    QProcess.startDetached(sys.executable, [*(() if packed else ("-m", "greenroom")), *arguments])


def _seed(bench: Bench) -> Page:
    from greenroom.desk.seed.page import SeedPage

    return SeedPage(bench)


def _sow(bench: Bench) -> Page:
    from greenroom.desk.sow.page import SowPage

    return SowPage(bench)


def _grow(bench: Bench) -> Page:
    from greenroom.desk.grow.page import GrowPage

    return GrowPage(bench)


def _harden(bench: Bench) -> Page:
    from greenroom.desk.harden.page import HardenPage

    return HardenPage(bench)


def _set_out(bench: Bench) -> Page:
    from greenroom.desk.set_out.page import SetOutPage

    return SetOutPage(bench)


def _pick(bench: Bench) -> Page:
    from greenroom.desk.pick.page import PickPage

    return PickPage(bench)


def _round(bench: Bench) -> Page:
    from greenroom.desk.round.page import RoundPage

    return RoundPage(bench)


def _place(bench: Bench) -> Page:
    from greenroom.desk.place.page import PlacePage

    return PlacePage(bench)


def _paper(bench: Bench) -> Page:
    from greenroom.desk.paper.page import PaperPage

    return PaperPage(bench)


def _first(bench: Bench) -> Page:
    from greenroom.desk.place.first_run import FirstRun

    return FirstRun(bench, open_demo)
