"""Start the program, or its tests, in the private environment."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import _environment
import _libraries

PICTURES = _environment.CHECKOUT / "build" / "pictures"
# What the program answers without a window, and so without a screen.
NEEDS_NO_SCREEN = ("--version", "--help", "-h", "--pictures", "--move-to")
# Platforms of Qt that a person may ask for in QT_QPA_PLATFORM.
SHOWS_NOTHING = ("offscreen", "minimal", "minimalegl")
BRINGS_ITS_OWN_SCREEN = ("eglfs", "linuxfb", "vkkhrdisplay", "vnc")
TAKES_A_VALUE = ("--today", "--pictures", "--move-to")
ON_ALL_CORES = ("-n", "auto", "--dist", "worksteal")  # all tests at once; some named ones run by themselves


def has_screen(environ: Mapping[str, str], platform: str) -> bool:
    """Say whether a window can be seen: on Linux only where a display is named."""
    asked = environ.get("QT_QPA_PLATFORM", "").partition(":")[0]
    if asked in SHOWS_NOTHING:
        return False
    if asked in BRINGS_ITS_OWN_SCREEN or not platform.startswith("linux"):
        return True
    return bool(environ.get("DISPLAY") or environ.get("WAYLAND_DISPLAY"))


def plan(arguments: Sequence[str], screen: bool, pictures: Path = PICTURES) -> Plan:
    """Return how to start the program: as asked, or drawing its pages where there is no screen."""
    if screen:
        return Plan(tuple(arguments))
    if any(argument.split("=")[0] in NEEDS_NO_SCREEN for argument in arguments):
        return Plan(tuple(arguments), offscreen=True)
    demo = () if "--demo" in arguments or _names_a_ledger(arguments) else ("--demo",)
    return Plan((*arguments, *demo, "--pictures", str(pictures)), offscreen=True, pictures=pictures)


def start(arguments: Sequence[str]) -> int:
    """Make the environment ready and start greenroom in it with the arguments."""
    chosen = plan(arguments, has_screen(os.environ, sys.platform))
    _environment.prepare(tests=False, screens=_libraries.needed(os.environ, sys.platform))
    greenroom = str(_environment.program("greenroom"))
    if chosen.offscreen:
        return _draw(greenroom, chosen)
    _environment.say("Starting greenroom")
    if os.name != "nt":
        os.execv(greenroom, [greenroom, *chosen.arguments])
    return subprocess.run([greenroom, *chosen.arguments], check=False).returncode


def check(arguments: Sequence[str]) -> int:
    """Make the environment ready with its test tools and run the tests without a screen."""
    _environment.prepare(tests=True, screens=_libraries.needed({}, sys.platform))
    command = [str(_environment.program("python")), "-m", "pytest", *(arguments or ON_ALL_CORES)]
    return subprocess.run(command, cwd=_environment.CHECKOUT, env=_offscreen(), check=False).returncode


def _draw(greenroom: str, chosen: Plan) -> int:
    if chosen.pictures is not None:
        _environment.say("There is no screen here, so greenroom draws its pages as pictures instead")
        chosen.pictures.mkdir(parents=True, exist_ok=True)
    code = subprocess.run([greenroom, *chosen.arguments], env=_offscreen(), check=False).returncode
    if chosen.pictures is not None and code == 0:
        _environment.say(f"The pictures are in {chosen.pictures}")
    return code


def _offscreen() -> dict[str, str]:
    return {**os.environ, "QT_QPA_PLATFORM": "offscreen"}


def _names_a_ledger(arguments: Sequence[str]) -> bool:
    before = ("", *arguments)
    return any(
        not argument.startswith("-") and previous not in TAKES_A_VALUE
        for previous, argument in zip(before, arguments, strict=False)
    )


@dataclass(frozen=True)
class Plan:
    """The arguments to start with, whether without a screen, and where pictures go if any."""

    arguments: tuple[str, ...]
    offscreen: bool = False
    pictures: Path | None = None
