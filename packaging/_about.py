"""What every package says of greenroom: its version, its id on the desktop, and its releases, each read from
the one place where it stands."""

from __future__ import annotations

import ast
import tomllib
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass
from datetime import date
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parent.parent
STATED = CHECKOUT / "greenroom" / "__init__.py"
LINUX = CHECKOUT / "packaging" / "linux"
ICONS = CHECKOUT / "resources" / "icons" / "hicolor"
SUMMARY = "Raise peppers and other crops from seed"


def stated(name: str, source: Path = STATED) -> str:
    """Return the text that the program itself gives to a name, such as its version, without importing it.

    Raises
    ------
    LookupError
        If the file gives the name no text.
    """
    for node in ast.parse(source.read_text(encoding="utf-8")).body:
        if isinstance(node, ast.Assign) and isinstance(node.value, ast.Constant):
            targets = {target.id for target in node.targets if isinstance(target, ast.Name)}
            if name in targets and isinstance(node.value.value, str):
                return node.value.value
    raise LookupError(f"{source} gives no text to {name}.")


def version() -> str:
    """Return the version of the program."""
    return stated("__version__")


def with_extras(wheel: Path) -> str:
    """Return a wheel of greenroom with all that may be installed beside it but what only the tests need."""
    described = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    offered = sorted(set(described["project"]["optional-dependencies"]) - {"test"})
    return f"{wheel}[{','.join(offered)}]" if offered else str(wheel)


def app_id() -> str:
    """Return the name by which a desktop knows the program, its entry and its icons."""
    return stated("APP_ID")


def metainfo() -> Path:
    """Return the file that describes the program to software centres."""
    return LINUX / f"{app_id()}.metainfo.xml"


def releases(path: Path) -> list[Release]:
    """Return the releases that a metainfo file tells of, as it lists them: the newest first."""
    found = ElementTree.parse(path).getroot().iterfind("releases/release")
    return [
        Release(
            entry.attrib["version"],
            date.fromisoformat(entry.attrib["date"]),
            tuple(" ".join((line.text or "").split()) for line in entry.iter() if line.tag in {"p", "li"}),
        )
        for entry in found
    ]


def released() -> list[Release]:
    """Return the releases, of which the newest must be the program's own version.

    Raises
    ------
    ValueError
        If the newest release told of is another one.
    """
    found = releases(metainfo())
    if not found or found[0].version != version():
        told = found[0].version if found else "none"
        raise ValueError(
            f"{metainfo().name} tells of {told} first, and greenroom is {version()}: make them agree."
        )
    return found


@dataclass(frozen=True)
class Release:
    """One release: its version, its day and what it brought, a line each."""

    version: str
    day: date
    notes: tuple[str, ...]
