"""All facts as CSV: whole, described for other programs, and nothing half-written.

The description is checked by the csvw library (CLLD, Apache 2.0), an implementation of the W3C's
recommendations "Model for Tabular Data and Metadata on the Web" and "Metadata Vocabulary for Tabular Data"
(17 December 2015), independent of this project.
"""

import json
import typing
import zipfile
from dataclasses import fields
from datetime import UTC, date, datetime

import pandas
import pytest
from csvw import CSVW, TableGroup

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.facts_csv import write_facts
from greenroom.exchange.facts_csv_metadata import METADATA_FILE
from greenroom.exchange.tables.csv_text import guarded
from greenroom.ledger import Entry
from greenroom.ledger.facts import KINDS
from greenroom.ledger.soundness import row_type
from tests.ledger.examples import all_examples
from tests.season.demo_season import NOW, demo_entries

EXAMPLES = [Entry(number, number, fact) for number, fact in enumerate(all_examples(), start=1)]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """Facts of every kind, unpacked."""
    into = tmp_path_factory.mktemp("facts")
    with zipfile.ZipFile(write_facts(into / "facts.zip", EXAMPLES, NOW)) as packed:
        assert packed.testzip() is None
        packed.extractall(into / "unpacked")
    return into / "unpacked"


@pytest.fixture(scope="module")
def described(folder):
    return TableGroup.from_file(folder / METADATA_FILE)


def test_the_description_is_a_valid_one_and_the_files_are_as_it_says(folder):
    checked = CSVW(str(folder / METADATA_FILE), validate=True)
    assert checked.is_valid, checked.warnings


def test_every_fact_is_there_with_every_value(described):
    for table in described.tables:
        kind = str(table.url).removesuffix(".csv")
        if kind not in KINDS:
            continue
        rows = {row["id"]: row for row in table.iterdicts(strict=True)}
        for entry in (one for one in EXAMPLES if one.fact.kind == kind):
            row = rows[entry.fact.id]
            assert row["number"] == entry.number
            for field in fields(entry.fact):
                value = getattr(entry.fact, field.name)
                if row_type(typing.get_type_hints(type(entry.fact))[field.name]) is None:
                    assert row[field.name] == expected(value), (kind, field.name)


def expected(value):
    """A value as csvw reads it: no text is nothing, formulas are text, a date is its midnight."""
    if isinstance(value, str):
        return guarded(value) or None
    if isinstance(value, datetime):
        return value.astimezone(UTC)
    if isinstance(value, date):
        return datetime(value.year, value.month, value.day)  # noqa: DTZ001 as csvw has it
    return value


def test_every_kind_has_a_file(described):
    assert {str(table.url) for table in described.tables} >= {f"{kind}.csv" for kind in KINDS}


def test_rows_that_facts_hold_have_a_file_of_their_own(described):
    days = next(one for one in described.tables if str(one.url) == "weather_record_weather_day.csv")
    told = sum(len(entry.fact.days) for entry in EXAMPLES if entry.fact.kind == "weather_record")
    assert sum(1 for _ in days.iterdicts(strict=True)) == told > 0


def test_the_references_hold_and_those_that_would_not_are_left_out(described):
    assert described.check_referential_integrity()
    owners = [
        (str(table.url), str(key.reference.resource))
        for table in described.tables
        for key in table.tableSchema.foreignKeys
    ]
    assert ("weather_record_weather_day.csv", "weather_record.csv") in owners


def test_the_season_of_the_demo_refers_to_its_own_trays_and_packets(tmp_path):
    with zipfile.ZipFile(write_facts(tmp_path / "facts.zip", demo_entries(), NOW)) as packed:
        told = json.loads(packed.read(METADATA_FILE))
        with packed.open("sown.csv") as file:
            sown = pandas.read_csv(file)
        with packed.open("packet.csv") as file:
            known = set(pandas.read_csv(file)["packet"])
    assert set(sown["packet"]) <= known
    schema = next(one["tableSchema"] for one in told["tables"] if one["url"] == "sown.csv")
    assert schema["primaryKey"] == ["id"]
    assert {one["reference"]["resource"] for one in schema["foreignKeys"]} == {
        "packet.csv",
        "holder_made.csv",
    }


def test_a_run_that_is_called_off_leaves_what_was_there(tmp_path):
    path = tmp_path / "facts.zip"
    path.write_bytes(b"older")
    shares = []

    def stop():
        return bool(shares)

    with pytest.raises(Cancelled):
        write_facts(path, demo_entries(), NOW, shares.append, stop)
    assert path.read_bytes() == b"older"
    assert [one.name for one in tmp_path.iterdir()] == ["facts.zip"]


def test_progress_rises_to_the_end(tmp_path):
    shares = []
    write_facts(tmp_path / "facts.zip", demo_entries(), NOW, shares.append)
    assert shares == sorted(shares)
    assert shares[-1] > 0.9


def test_a_folder_that_is_not_there_is_told_in_one_sentence(tmp_path):
    with pytest.raises(BadFileError, match=r"facts\.zip was not written: there is no such folder"):
        write_facts(tmp_path / "gone" / "facts.zip", EXAMPLES, NOW)
