"""Makes the published schema of a season archive anew from the kinds of fact; run after adding one:

    python -m tests.exchange.make_schema

A test compares the file in resources/schema with what this makes.
"""

import json
import typing
from dataclasses import fields
from datetime import date, datetime
from pathlib import Path

from greenroom.exchange.season_archive import SCHEMA
from greenroom.exchange.season_archive_json import FORMAT, HEAD, OF_ACT, OF_FACT, OF_STRIKE, VERSION
from greenroom.ledger.book import DEEDS
from greenroom.ledger.facts import KINDS, ROWS
from greenroom.ledger.soundness import ROW_FIELDS, plain_type, row_type

FILE = Path(__file__).resolve().parents[2] / "resources" / "schema" / SCHEMA
ABOUT = (
    f"What season.json of a {FORMAT} holds: every fact of a ledger, with who wrote it and when, and "
    "what was struck out. Beside it the zip holds this schema and the pictures, in the folder pictures. "
    "Numbers with a unit in their name are in that unit; rows and columns count from 0. A ledger checks "
    "further what a fact may be."
)
TYPES = {str: "string", int: "integer", float: "number", bool: "boolean"}
TEXT, TRUTH, NUMBER = {"type": "string"}, {"type": "boolean"}, {"$ref": "#/$defs/number"}


def schema():
    """Return the schema."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": f"urn:greenroom:season-archive:{VERSION}",
        "title": f"{FORMAT}, version {VERSION}",
        "description": ABOUT,
        **thing(
            HEAD,
            {"const": FORMAT},
            {"const": VERSION},
            {"$ref": "#/$defs/moment"},
            TEXT,
            many("act", "What was done, in order."),
            many("fact", "Every fact ever written, in order."),
            many("strike", "Facts struck out or restored, in order; the last word on a fact counts."),
            many("picture", "The picture files in the folder pictures."),
        ),
        "$defs": parts() | rows() | {f"fact_{kind}": kind_of_fact(kind) for kind in KINDS},
    }


def thing(names, *forms):
    """An object that has just these fields."""
    return {
        "type": "object",
        "properties": dict(zip(names, forms, strict=True)),
        "required": list(names),
        "additionalProperties": False,
    }


def many(name, about):
    return {"type": "array", "description": about, "items": {"$ref": f"#/$defs/{name}"}}


def parts():
    """What every archive is made of."""
    day = "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
    act = thing(
        OF_ACT, NUMBER, {"enum": list(DEEDS)}, TEXT, {"$ref": "#/$defs/moment"}, TEXT, TEXT, or_null(NUMBER)
    )
    return {
        "day": {"type": "string", "format": "date", "pattern": day, "description": "A day without a zone."},
        "moment": {
            "type": "string",
            "format": "date-time",
            "pattern": "Z$",
            "description": "A moment, in UTC.",
        },
        "number": {"type": "integer", "minimum": 1},
        "act": {
            "description": "One thing done, by whom and when; an undo or redo names the act it reverses.",
            **act,
            "if": {"properties": {"deed": {"const": "do"}}},
            "then": {"properties": {"reverses": {"type": "null"}}},
            "else": {"properties": {"reverses": {"type": "integer"}}},
        },
        "strike": {
            "description": "A fact struck out by an act, or restored by it.",
            **thing(OF_STRIKE, NUMBER, NUMBER, TRUTH),
        },
        "picture": {
            "description": "A picture file and how to know it again.",
            **thing(
                ("file", "sha256", "bytes"),
                {"type": "string", "pattern": "^[^./\\\\][^/\\\\]*$"},
                {"type": "string", "pattern": "^[0-9a-f]{64}$"},
                NUMBER,
            ),
        },
        "fact": {
            "description": "A fact of one of the kinds.",
            "oneOf": [{"$ref": f"#/$defs/fact_{kind}"} for kind in KINDS],
        },
    }


def rows():
    """The rows of which a fact may hold many, each an array."""
    return {
        name: {
            "type": "array",
            "description": f"{first_line(row)} In order: {', '.join(one for one, _, _ in ROW_FIELDS[row])}.",
            "prefixItems": [form(plain, optional) for _, plain, optional in ROW_FIELDS[row]],
            "items": False,
            "minItems": len(ROW_FIELDS[row]),
        }
        for name, row in ROWS.items()
    }


def kind_of_fact(kind):
    """One kind of fact; a field that was added later may be absent."""
    cls = KINDS[kind]
    hints = typing.get_type_hints(cls)
    names = [one.name for one in fields(cls)]
    made = thing(
        (*OF_FACT, *names),
        NUMBER,
        NUMBER,
        {"const": kind},
        TRUTH,
        *(form(*plain_type(hints[name])) for name in names),
    )
    later = [one.name for one in fields(cls) if "added_later" in one.metadata]
    made["required"] = [name for name in made["required"] if name not in later]
    return {"description": first_line(cls), **made}


def form(plain, optional):
    """The form of one value."""
    row = row_type(plain)
    if row is not None:
        return {
            "type": "array",
            "items": {"$ref": f"#/$defs/{next(name for name, one in ROWS.items() if one is row)}"},
        }
    if plain in (date, datetime):
        made = {"$ref": "#/$defs/day" if plain is date else "#/$defs/moment"}
        return or_null(made) if optional else made
    return {"type": [TYPES[plain], "null"] if optional else TYPES[plain]}


def or_null(made):
    return {"anyOf": [made, {"type": "null"}]}


def first_line(cls):
    return cls.__doc__.strip().splitlines()[0]


def text():
    """The file as it is published."""
    return json.dumps(schema(), indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
