"""Make the frozen sample of today's version: ``python -m tests.ledger.make_sample``.

A sample is a small ledger with every kind of fact, and beside it what it holds as JSON. Once a version
was released its sample is never made again: it stands for the growers' own files of that time.
"""

import json
from dataclasses import fields
from datetime import date, datetime
from pathlib import Path

from greenroom.ledger import Ledger
from greenroom.ledger.tables import SCHEMA
from tests.ledger.checks import ticking_clock
from tests.ledger.examples import all_examples

SAMPLES = Path(__file__).parent / "samples"


def make(folder: Path) -> Path:
    """Make the sample ledger of today's version in ``folder``, with what it holds beside it."""
    path = folder / f"v{SCHEMA}.greenroom"
    path.unlink(missing_ok=True)
    with Ledger.open(path, clock=ticking_clock(), who="grower", zone="Europe/Oslo") as ledger:
        for fact in all_examples():
            ledger.record(fact)
        ledger.strike("sown-1", "lost-1", name="struck two out")
        ledger.restore("lost-1")
        ledger.strike("note-1", name="struck a note out")
        ledger.undo()
        path.with_suffix(".json").write_text(json.dumps(told(ledger), indent=1) + "\n", encoding="utf-8")
    return path


def told(ledger: Ledger) -> dict:
    """Return what a ledger holds, as JSON can write it."""
    return {
        "undo": ledger.undo_name,
        "redo": ledger.redo_name,
        "acts": len(ledger.acts(1_000_000)),
        "facts": [
            {"kind": entry.fact.kind, "number": entry.number, "act": entry.act, **_fields(entry.fact)}
            for entry in ledger.entries()
        ],
    }


def _fields(fact) -> dict:
    return {one.name: _plain(getattr(fact, one.name)) for one in fields(fact)}


def _plain(value):
    if isinstance(value, date | datetime):
        return value.isoformat()
    return [_plain(one) for one in value] if isinstance(value, tuple) else value


if __name__ == "__main__":
    make(SAMPLES)
