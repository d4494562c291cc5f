"""What a Debian package says of itself: its control file, its copyright, its changelog."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime, time
from email.utils import format_datetime
from importlib.metadata import Distribution, distributions
from pathlib import Path

import _about
import _libraries

PACKAGE = "greenroom"
MAINTAINER = "The greenroom maintainers <maintainers@greenroom.home.arpa>"
# What the libraries' wheels were built against: their tags say manylinux_2_34 at most.
BESIDES_QT = ("libc6 (>= 2.34)", "libgcc-s1", "libstdc++6")
FONTS = "fonts-dejavu-core"  # for signs that the typeface in the package does not have
ABOUT = """\
 greenroom is for the home grower who raises many varieties from seed where
 the winter is cold and the season only just long enough. It carries every
 seedling from packet to ripe pod: sow, sprout, pot up, harden off, set out,
 pick. It keeps what happened in each cell, pot and plot, and says each
 morning what to do today and why.
 .
 The libraries it stands on are in the package, apart from those of the
 system."""
BEFORE_RELEASE = re.compile(r"\.?(a|b|rc|dev)(?=\d)")


def debian_version(version: str) -> str:
    """Return a version of Python's form (PEP 440) so that Debian too sorts it before its release."""
    return BEFORE_RELEASE.sub(r"~\1", version)


def packages(*tables: Mapping[str, str]) -> list[str]:
    """Return the packages of tables of libraries, each once."""
    return sorted({package for table in tables for package in table.values()})


def control(architecture: str, python: Sequence[int], kilobytes: int) -> str:
    """Return the control file for a machine, a Python (its first two numbers) and an installed size."""
    interpreter = f"python{python[0]}.{python[1]}"
    depends = [
        *BESIDES_QT,
        interpreter,
        "python3",  # brings py3compile
        *packages(_libraries.ALWAYS, _libraries.X_SCREEN),
    ]
    recommends = [FONTS, *packages(_libraries.WAYLAND_SCREEN, _libraries.PRINTERS)]
    return "\n".join(
        [
            f"Package: {PACKAGE}",
            f"Version: {debian_version(_about.version())}",
            f"Architecture: {architecture}",
            f"Maintainer: {MAINTAINER}",
            f"Installed-Size: {kilobytes}",
            f"Depends: {', '.join(depends)}",
            f"Recommends: {', '.join(recommends)}",
            "Section: misc",
            "Priority: optional",
            f"Description: {_about.SUMMARY}",
            ABOUT,
            "",
        ]
    )


def changelog(releases: Iterable[_about.Release]) -> str:
    """Return the releases in the form of a Debian changelog, the newest first."""
    entries = []
    for release in releases:
        noon = datetime.combine(release.day, time(12), UTC)
        lines = "\n".join(f"  * {note}" for note in release.notes)
        entries.append(
            f"{PACKAGE} ({debian_version(release.version)}) stable; urgency=low\n\n"
            f"{lines}\n\n -- {MAINTAINER}  {format_datetime(noon)}\n"
        )
    return "\n".join(entries)


def copyright_text(libraries: Path, installed: str) -> str:
    """Return the copyright file: the program's own part, then each library with the licence it states."""
    own = (_about.LINUX / "copyright").read_text(encoding="utf-8")
    entries = [_library(found, installed) for found in _bundled(libraries)]
    return "\n".join([own.replace("@LIBRARIES@", installed), *entries])


def licence(stated: Mapping[str, str]) -> str:
    """Return the licence that a library's metadata state, in one line."""
    for name in ("License-Expression", "License"):
        lines = stated.get(name, "").strip().splitlines()
        if lines and not lines[0].startswith("Copyright"):
            return lines[0].strip()
    return "as its own text says"


def _bundled(libraries: Path) -> list[Distribution]:
    found = (entry for entry in distributions(path=[str(libraries)]) if entry.name != PACKAGE)
    return sorted(found, key=lambda entry: entry.name.casefold())


def _library(found: Distribution, installed: str) -> str:
    folders = sorted(
        {file.parts[0] for file in found.files or () if ".." not in file.parts} - {"__pycache__"}
    )
    places = [f"{installed}/{name}{'' if name.endswith('.py') else '/*'}" for name in folders]
    stated = {name: str(value) for name, value in found.metadata.items()}
    who = stated.get("Author-email") or stated.get("Author") or f"the authors of {found.name}"
    return (
        "Files:\n " + "\n ".join(places) + f"\nCopyright: {' '.join(who.split())}\n"
        f"License: {_short(licence(stated))}\n"
        f" {found.name} {found.version}: {licence(stated)}. Its text is in {found.name}'s dist-info.\n"
    )


def _short(stated: str) -> str:
    """Return a licence as Debian's copyright format writes its name: no spaces but around "and" and "or"."""
    words = re.sub(r"\b(AND|OR|WITH)\b", lambda found: found.group().lower(), stated.split(",")[0])
    known = re.fullmatch(r"[\w.+-]+( (and|or|with) [\w.+-]+)*", words)
    return words if known else re.sub(r"[^\w.+-]+", "-", words).strip("-")
