"""Make the private environment of this checkout, and keep it in step with pyproject.toml."""

from __future__ import annotations

import hashlib
import importlib.util
import json
import os
import platform
import shutil
import subprocess
import sys
import venv
from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Literal

import _libraries
from _about import CHECKOUT

ENVIRONMENT = CHECKOUT / ".venv"
STAMP = ENVIRONMENT / "installed.json"
DESCRIBED_BY = ("pyproject.toml",)
UNFINISHED = "unfinished"
# Several decades of open daily weather records that the tests replay. Only its data files are
# read, so what the package itself depends on is left out.
WEATHER_RECORDS = "aquacrop>=3.1,<4"
LAST_WORDS = 40  # lines of pip's output shown when it fails

Step = Literal["ready", "install", "rebuild"]


def say(line: str) -> None:
    """Tell the person what is being done."""
    print(line, flush=True)


def digest(contents: Iterable[bytes]) -> str:
    """Return one hash of the contents of the files that describe the installation."""
    hashed = hashlib.sha256()
    for content in contents:
        hashed.update(hashlib.sha256(content).digest())
    return hashed.hexdigest()


def read_stamp(path: Path) -> Stamp | None:
    """Return what was installed last time, or None where nothing readable was left."""
    try:
        return Stamp(**json.loads(path.read_text(encoding="utf-8")))
    except (OSError, ValueError, TypeError):
        return None


def write_stamp(path: Path, stamp: Stamp) -> None:
    """Note what has been installed."""
    path.write_text(json.dumps(asdict(stamp), indent=1) + "\n", encoding="utf-8")


def next_step(had: Stamp | None, wanted: Stamp) -> Step:
    """Return what must be done to get from the environment there is to the one wanted."""
    if had is None or (had.python, had.checkout) != (wanted.python, wanted.checkout):
        return "rebuild"
    if had.settings != wanted.settings or (wanted.tests and not had.tests):
        return "install"
    return "ready"


def prepare(tests: bool, screens: dict[str, str]) -> Path:
    """Make the environment ready and return its folder of programs.

    Raises
    ------
    SetupError
        With one sentence that says what is missing and how to get it.
    """
    wanted = _wanted(tests)
    had = read_stamp(STAMP) if program("python").exists() else None
    step = next_step(had, wanted)
    _prepare_system(screens, venv_needed=step == "rebuild")
    if step == "rebuild":
        had = _build(wanted)
    if step != "ready":
        _install(replace(wanted, tests=tests or (had is not None and had.tests)))
    return program("python").parent


def program(name: str) -> Path:
    """Return where the environment keeps one of its programs."""
    if os.name == "nt":
        return ENVIRONMENT / "Scripts" / f"{name}.exe"
    return ENVIRONMENT / "bin" / name


def progress(line: str) -> str | None:
    """Return the short line to show for a line of pip's output, or None for nothing."""
    words = line.split()
    if len(words) > 1 and words[0] == "Collecting":
        return f"  {words[1]}"
    if line.startswith("Installing collected packages"):
        return "Putting them in place"
    return None


def venv_package(has_ensurepip: bool, version: Sequence[int]) -> dict[str, str]:
    """Return Debian's package of the part of Python that makes environments, where it is missing."""
    if has_ensurepip:
        return {}
    return {"Python's venv and ensurepip": f"python{version[0]}.{version[1]}-venv"}


def _wanted(tests: bool) -> Stamp:
    described = [CHECKOUT / name for name in DESCRIBED_BY]
    settings = digest(path.read_bytes() for path in described if path.exists())
    return Stamp(platform.python_version(), str(CHECKOUT), settings, tests)


def _prepare_system(screens: dict[str, str], venv_needed: bool) -> None:
    lacking = _lacking(screens, venv_needed)
    if not lacking:
        return
    prefix = _libraries.apt_prefix()
    if prefix is not None:
        say(f"Installing system packages: {' '.join(sorted(set(lacking.values())))}")
        _libraries.install(lacking.values(), prefix)
        lacking = _lacking(screens, venv_needed)
    if lacking:
        raise SetupError(_libraries.advice(lacking, has_apt=shutil.which("apt-get") is not None))


def _lacking(screens: dict[str, str], venv_needed: bool) -> dict[str, str]:
    importlib.invalidate_caches()
    has_ensurepip = not venv_needed or importlib.util.find_spec("ensurepip") is not None
    return venv_package(has_ensurepip, sys.version_info[:2]) | _libraries.missing(screens)


def _build(wanted: Stamp) -> Stamp:
    say(f"Making a private environment in {ENVIRONMENT}")
    try:
        venv.EnvBuilder(clear=True, with_pip=True, symlinks=os.name != "nt").create(ENVIRONMENT)
    except (OSError, subprocess.CalledProcessError) as error:
        raise SetupError(f"The environment {ENVIRONMENT} could not be made: {error}.") from error
    built = replace(wanted, settings=UNFINISHED, tests=False)
    write_stamp(STAMP, built)
    return built


def _install(wanted: Stamp) -> None:
    say("Installing what greenroom needs (some hundred megabytes the first time)")
    write_stamp(STAMP, replace(wanted, settings=UNFINISHED))
    _pip_install("--editable", f"{CHECKOUT}[test]" if wanted.tests else str(CHECKOUT))
    if wanted.tests:
        _pip_install("--no-deps", WEATHER_RECORDS)
    write_stamp(STAMP, wanted)
    say("Installed")


def _pip_install(*arguments: str) -> None:
    last_words: deque[str] = deque(maxlen=LAST_WORDS)
    with subprocess.Popen(
        [str(program("python")), "-m", "pip", "install", *arguments],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        errors="replace",
    ) as pip:
        for line in pip.stdout or ():
            last_words.append(line)
            note = progress(line)
            if note is not None:
                say(note)
    if pip.returncode != 0:
        say("".join(last_words))
        raise SetupError("pip could not install what greenroom needs; its last lines stand above.")


@dataclass(frozen=True)
class Stamp:
    """What the environment was made from.

    `settings` is the hash of the files that describe the installation, and `tests` says whether
    the test tools are in it too.
    """

    python: str
    checkout: str
    settings: str
    tests: bool


class SetupError(Exception):
    """The environment cannot be made; the message is one sentence for the person."""
