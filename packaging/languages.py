"""Keep the catalogues of the languages: gather the English texts, and make what the program reads.

    python packaging/languages.py gather     bring resources/languages/*.ts up to the code
    python packaging/languages.py release    make the .qm files of them with Qt's lrelease
    python packaging/languages.py missing    say what is not translated; fails if anything is

Translations are kept in Qt's TS format, so any translator's editor for it will do. A source that left the
code leaves the catalogue; one that came in stands there unfinished.
"""

from __future__ import annotations

import subprocess
import sys
import xml.etree.ElementTree as ET
from collections.abc import Iterable
from pathlib import Path

from _about import CHECKOUT
from _sources import Message, messages

FOLDER = CHECKOUT / "resources" / "languages"
LANGUAGES = ("de", "fr", "es")
CONTEXT = "greenroom"
DOCTYPE = '<?xml version="1.0" encoding="utf-8"?>\n<!DOCTYPE TS>\n'
FORMS = 2
"""How many forms a counted text has: two in each of the languages, as Qt counts them."""

Key = tuple[str, str]


def catalogue_file(language: str) -> Path:
    """Return the file in which a language's translations are kept."""
    return FOLDER / f"greenroom_{language}.ts"


def read_translations(file: Path) -> dict[Key, list[str]]:
    """Return what is translated: by source and sense, its form or forms."""
    found: dict[Key, list[str]] = {}
    if not file.exists():
        return found
    for message in ET.parse(file).getroot().iter("message"):
        translation = message.find("translation")
        if translation is None or translation.get("type") == "unfinished":
            continue
        forms = [one.text or "" for one in translation.iter("numerusform")] or [translation.text or ""]
        found[message.findtext("source") or "", message.findtext("comment") or ""] = forms
    return found


def write_translations(
    file: Path, language: str, wanted: Iterable[Message], known: dict[Key, list[str]]
) -> None:
    """Write a catalogue of all messages; those without a translation are marked as unfinished."""
    root = ET.Element("TS", version="2.1", language=language, sourcelanguage="en")
    context = ET.SubElement(root, "context")
    ET.SubElement(context, "name").text = CONTEXT
    for message in wanted:
        entry = ET.SubElement(context, "message", **({"numerus": "yes"} if message.counts else {}))
        for place in message.places:
            ET.SubElement(entry, "location", filename=f"../../{place}")
        ET.SubElement(entry, "source").text = message.source
        if message.sense:
            ET.SubElement(entry, "comment").text = message.sense
        forms = known.get((message.source, message.sense))
        if forms is not None and len(forms) != (FORMS if message.counts else 1):
            forms = None
        translation = ET.SubElement(entry, "translation", **({} if forms else {"type": "unfinished"}))
        if message.counts:
            for form in forms or [""] * FORMS:
                ET.SubElement(translation, "numerusform").text = form
        elif forms:
            translation.text = forms[0]
    ET.indent(root, " ")
    body = ET.tostring(root, encoding="unicode")
    file.write_text(f"{DOCTYPE}{body}\n", encoding="utf-8")


def gather() -> int:
    """Bring every catalogue up to the code."""
    wanted = messages(CHECKOUT)
    FOLDER.mkdir(exist_ok=True)
    for language in LANGUAGES:
        file = catalogue_file(language)
        write_translations(file, language, wanted, read_translations(file))
    print(f"{len(wanted)} texts in {len(LANGUAGES)} languages")
    return 0


def release() -> int:
    """Make the files the program reads; only Qt's own tool knows their form."""
    import PySide6

    tool = Path(PySide6.__file__).parent / ("lrelease.exe" if sys.platform == "win32" else "lrelease")
    for language in LANGUAGES:
        file = catalogue_file(language)
        fresh = file.with_suffix(".fresh")
        made = subprocess.run([tool, "-silent", "-nounfinished", file, "-qm", fresh], check=False)
        if made.returncode:
            return made.returncode
        fresh.replace(file.with_suffix(".qm"))  # a program that runs has the old one mapped into its memory
    return 0


def missing() -> int:
    """Say which texts have no translation; return 1 if there are any."""
    wanted, lacking = messages(CHECKOUT), 0
    for language in LANGUAGES:
        known = read_translations(catalogue_file(language))
        for message in wanted:
            if (message.source, message.sense) not in known:
                lacking += 1
                print(f"{language}: {message.places[0]}: {message.source}")
    return 1 if lacking else 0


COMMANDS = {"gather": gather, "release": release, "missing": missing}

if __name__ == "__main__":
    if len(sys.argv) != 2 or sys.argv[1] not in COMMANDS:
        sys.exit(f"Say what to do: {', '.join(COMMANDS)}.")
    sys.exit(COMMANDS[sys.argv[1]]())
