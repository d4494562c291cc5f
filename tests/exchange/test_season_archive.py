"""What the grower relies on: an archive holds all there is, comes back the same, and lets nothing harmful in.

The form is held against the published schema by the jsonschema library (JSON Schema draft 2020-12).
"""

import hashlib
import io
import json
import os
import zipfile
from datetime import UTC, datetime

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from greenroom.exchange import season_archive_read
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.picture_store import PictureStore
from greenroom.exchange.season_archive import DATA, SCHEMA, write_archive
from greenroom.exchange.season_archive_json import book_to_json
from greenroom.exchange.season_archive_merge import Merge, merge_of
from greenroom.exchange.season_archive_read import read_archive, unpack_pictures
from greenroom.ledger import Ledger
from greenroom.ledger.facts import KINDS, OnlineChoice, PictureKept, PlaceSet, Sown, UnitsSet
from greenroom.own_files import resources_folder
from greenroom.season.state import Season
from tests.exchange import make_schema
from tests.ledger.checks import sown, ticking_clock
from tests.ledger.examples import all_examples
from tests.ledger.examples_care import DAY

MADE = datetime(2027, 10, 2, 9, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def season(tmp_path_factory):
    """A ledger with every kind of fact, some struck out, and two pictures that are there."""
    folder = tmp_path_factory.mktemp("season")
    store = PictureStore(folder / "pictures")
    with Ledger.open("sqlite://", clock=ticking_clock(), who="a friend", zone="Europe/Oslo") as ledger:
        ledger.record(*all_examples(), name="all of it")
        kept = [store.keep(data, 4, 3) for data in (b"one picture", b"another")]
        pictures = [
            PictureKept(
                day=DAY,
                holder="tray-a",
                picture=one.sha256,
                file=one.file,
                sha256=one.sha256,
                width=4,
                height=3,
            )
            for one in kept
        ]
        ledger.record(*pictures)
        ledger.strike("sown-1", pictures[1].id)
        ledger.undo()
        ledger.redo()
        path = folder / "season.greenroom.zip"
        written = write_archive(path, ledger.book(), store, MADE)
        yield ledger, path, written, store


@pytest.fixture
def ledger(tmp_path):
    with Ledger.open(tmp_path / "mine.greenroom", clock=ticking_clock(), who="me") as made:
        yield made


def members(path):
    with zipfile.ZipFile(path) as archive:
        return {one.filename: archive.read(one) for one in archive.infolist()}


def packed(path, parts):
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts:
            archive.writestr(name, data)
    return path


def changed(season, tmp_path, change):
    """An archive whose JSON was changed by ``change``."""
    parts = members(season[1])
    table = json.loads(parts[DATA])
    change(table)
    parts[DATA] = json.dumps(table).encode()
    return packed(tmp_path / "changed.zip", parts.items())


def schema():
    return json.loads((resources_folder() / "schema" / SCHEMA).read_text(encoding="utf-8"))


def test_an_archive_follows_its_published_schema_and_carries_it(season):
    parts = members(season[1])
    jsonschema.Draft202012Validator.check_schema(schema())
    jsonschema.Draft202012Validator(schema()).validate(json.loads(parts[DATA]))
    assert json.loads(parts[SCHEMA]) == schema()
    assert {fact["kind"] for fact in json.loads(parts[DATA])["facts"]} == set(KINDS)


def test_the_published_schema_is_of_the_kinds_of_fact_there_are():
    """After a new kind: python -m tests.exchange.make_schema."""
    published = resources_folder() / "schema" / SCHEMA
    assert published.read_text(encoding="utf-8") == make_schema.text()


@pytest.mark.parametrize(
    "change",
    [
        lambda table: table.update(more=1),
        lambda table: table["facts"][0].update(more=1),
        lambda table: table["facts"][0].pop("day"),
        lambda table: table["acts"][0].update(reverses=1),
        lambda table: table["acts"][0].update(deed="harm"),
        lambda table: table["facts"][0].update(kind="harm"),
        lambda table: table["strikes"][0].update(restored="no"),
        lambda table: table["pictures"][0].update(file="../escape.jpg"),
    ],
)
def test_what_the_schema_forbids_is_refused_on_reading_too(season, tmp_path, change):
    table = json.loads(members(season[1])[DATA])
    table["facts"] = table["facts"][:1]
    validator = jsonschema.Draft202012Validator(schema())
    assert validator.is_valid(table)
    change(table)
    assert not validator.is_valid(table)
    with pytest.raises(BadFileError):
        read_archive(changed(season, tmp_path, change))


def test_an_empty_ledger_becomes_the_same_season_with_who_when_and_what_was_struck(season, ledger):
    theirs, path, written, _ = season
    found = read_archive(path)
    assert merge_of(ledger.book(), found.book) == Merge(written.facts, 0, empty=True)
    ledger.bring_in("an archive", found.book)
    assert ledger.book() == theirs.book()
    one, other = Season(ledger.entries()), Season(theirs.entries())
    for holder in ("tray-a", "rack-b", "bed-1"):
        assert one.spots(holder) == other.spots(holder)
        assert one.counts(holder) == other.counts(holder)


def test_pictures_come_along_and_those_whose_files_are_gone_are_counted(season, tmp_path):
    _, path, written, store = season
    assert (written.pictures, written.lacking) == (2, 2)
    mine = PictureStore(tmp_path / "pictures")
    found = read_archive(path)
    assert unpack_pictures(found, mine) == 2
    assert {one.name: one.read_bytes() for one in mine.folder.iterdir()} == {
        one.name: one.read_bytes() for one in store.folder.iterdir()
    }
    assert unpack_pictures(found, mine) == 0


def test_a_used_ledger_takes_each_fact_once(season, ledger):
    theirs, path, written, _ = season
    half = theirs.entries()[:40]
    ledger.record(*(entry.fact for entry in half))
    merge = merge_of(ledger.book(), read_archive(path).book)
    assert (merge.new, merge.here, merge.empty) == (written.facts - len(half), len(half), False)
    ledger.bring_in("an archive", theirs.book(), aside=merge.aside, strike=merge.strike)
    assert {entry.fact.id for entry in ledger.book().entries} == {
        entry.fact.id for entry in theirs.book().entries
    }
    assert merge_of(ledger.book(), theirs.book()).nothing


def test_of_a_setting_the_later_word_counts_and_leave_to_use_the_network_is_never_brought_in():
    with Ledger.open("sqlite://", clock=ticking_clock()) as older:
        older.record(
            PlaceSet(id="far", day=DAY, name="Far", latitude=1, longitude=2, zone="UTC"),
            OnlineChoice(id="yes", day=DAY, allowed=True),
            Sown(id="theirs", day=DAY, holder="t", row=0, column=0, packet="p"),
        )
        book = older.book()
    with Ledger.open("sqlite://", clock=lambda: datetime(2031, 1, 1, tzinfo=UTC)) as mine:
        mine.record(
            PlaceSet(id="near", day=DAY, name="Near", latitude=3, longitude=4, zone="UTC"),
            UnitsSet(id="units", day=DAY),
        )
        merge = merge_of(mine.book(), book)
        assert merge.aside == ("far", "yes")
        mine.bring_in("an archive", book, aside=merge.aside)
        assert Season(mine.entries()).latest(PlaceSet).name == "Near"
        assert {fact.id for fact in mine.facts()} == {"near", "units", "theirs"}


def test_a_strike_made_later_on_another_machine_counts_here():
    fact = sown(1)
    with Ledger.open("sqlite://", clock=ticking_clock()) as mine:
        mine.record(fact)
        with Ledger.open("sqlite://", clock=lambda: datetime(2031, 1, 1, tzinfo=UTC)) as other:
            other.bring_in("copy", mine.book())
            other.strike(fact.id)
            later = other.book()
        assert merge_of(mine.book(), later).strike == (fact.id,)
        assert merge_of(later, mine.book()).nothing


def test_a_later_version_is_refused_with_both_versions_named(season, tmp_path):
    path = changed(season, tmp_path, lambda table: table.update(version=7))
    with pytest.raises(BadFileError, match="of version 7; up to 1 is known"):
        read_archive(path)


def test_a_kind_of_fact_that_is_not_known_is_refused(season, tmp_path):
    path = changed(season, tmp_path, lambda table: table["facts"][3].update(kind="robot_moved"))
    with pytest.raises(
        BadFileError, match=r"fact 4 .* kind 'robot_moved', which this greenroom does not know"
    ):
        read_archive(path)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda table: table["facts"][0].update(day="2025-13-40"), "the day of fact 1 .*a date such as"),
        (lambda table: table["facts"][0].update(name=7), "the name of fact 1 .*text is allowed"),
        (lambda table: table["facts"][0].update(name=" "), "it needs at least one letter"),
        (lambda table: table["facts"][0].update(act=999), "an act that is not there"),
        (lambda table: table["facts"][0].update(struck=True), "struck out by one part of it"),
        (lambda table: table["acts"][0].update(written="2027-01-01T00:00:00"), "the time of act 1"),
        (lambda table: table["facts"].append(table["facts"][0]), "not in the order"),
        (lambda table: table.update(facts={}), "no list of facts"),
        (lambda table: table.update(format="else"), "no season archive"),
    ],
)
def test_a_changed_value_is_told_by_its_place(season, tmp_path, change, said):
    with pytest.raises(BadFileError, match=said):
        read_archive(changed(season, tmp_path, change))


@pytest.mark.parametrize(
    "name",
    [
        "../escape.jpg",
        "pictures/../../escape.jpg",
        "/etc/escape",
        "pictures/a/b.jpg",
        "pictures/C:evil.jpg",
        "pictures\\..\\evil.jpg",
        "pictures/",
        "pictures/.hidden",
        "pictures/" + "x" * 10_000,
        "readme.txt",
    ],
)
def test_a_file_that_no_archive_has_is_refused_and_nothing_is_unpacked(season, tmp_path, name):
    parts = [*members(season[1]).items(), (name, b"harm")]
    path = packed(tmp_path / "bad.zip", parts)
    with pytest.raises(BadFileError, match="which no season archive has") as told:
        read_archive(path)
    assert len(str(told.value)) < 200
    assert [one.name for one in tmp_path.iterdir()] == ["bad.zip"]


def test_a_picture_that_no_fact_names_or_that_was_swapped_is_refused(season, tmp_path):
    parts = members(season[1])
    name = next(one for one in parts if one.startswith("pictures/"))
    path = packed(tmp_path / "a.zip", [*parts.items(), ("pictures/stray.jpg", b"stray")])
    with pytest.raises(BadFileError, match=r"'pictures/stray\.jpg', which is not in its list"):
        read_archive(path)
    with pytest.raises(BadFileError, match="was changed or is damaged"):
        read_archive(packed(tmp_path / "b.zip", (parts | {name: b"swapped"}).items()))
    del parts[name]
    with pytest.raises(BadFileError, match="lacks its picture"):
        read_archive(packed(tmp_path / "c.zip", parts.items()))

    def unnamed(table):
        table["pictures"][0]["sha256"] = hashlib.sha256(b"swapped").hexdigest()

    with pytest.raises(BadFileError, match="is of no fact in it"):
        read_archive(changed(season, tmp_path, unnamed))


def test_a_bomb_is_stopped_at_its_bound_whatever_size_it_claims(season, tmp_path, monkeypatch):
    monkeypatch.setattr(season_archive_read, "LARGEST_DATA", 2 << 20)
    path = packed(tmp_path / "bomb.zip", [(DATA, b" " * (40 << 20))])
    assert path.stat().st_size < 100_000
    with pytest.raises(BadFileError, match="larger than the 2 MB that are taken"):
        read_archive(path)


def test_json_nested_beyond_reason_is_refused(tmp_path):
    path = packed(tmp_path / "deep.zip", [(DATA, b"[" * 200_000)])
    with pytest.raises(BadFileError, match="no JSON that can be read"):
        read_archive(path)


def test_another_picture_of_the_same_name_is_never_replaced(season, tmp_path):
    mine = PictureStore(tmp_path / "pictures")
    mine.put("plant.jpg", b"my own")
    with Ledger.open("sqlite://", clock=ticking_clock()) as other:
        store = PictureStore(tmp_path / "other")
        store.put("plant.jpg", b"another")
        digest = hashlib.sha256(b"another").hexdigest()
        other.record(PictureKept(day=DAY, picture="p", file="plant.jpg", sha256=digest, width=1, height=1))
        path = write_archive(tmp_path / "a.zip", other.book(), store, MADE).path
    with pytest.raises(BadFileError, match=r"Another picture stands beside the ledger as plant\.jpg"):
        unpack_pictures(read_archive(path), mine)
    assert (mine.folder / "plant.jpg").read_bytes() == b"my own"


@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_a_cut_or_mutated_archive_is_refused_with_a_sentence_or_read_the_same(season, data):
    whole = season[1].read_bytes()
    body = bytearray(whole)
    if data.draw(st.booleans()):
        del body[data.draw(st.integers(0, len(body) - 1)) :]
    else:
        body[data.draw(st.integers(0, len(body) - 1))] ^= data.draw(st.integers(1, 255))
    path = season[1].with_name("mutated.zip")
    path.write_bytes(bytes(body))
    try:
        found, told = read_archive(path).book, "."
    except BadFileError as error:
        found, told = None, str(error)
    assert told.endswith(".")
    assert found is None or found == season[0].book()


def test_writing_that_is_called_off_or_breaks_leaves_the_archive_that_stood_there(
    season, tmp_path, monkeypatch
):
    ledger, _, _, store = season
    path = tmp_path / "season.zip"
    path.write_bytes(b"the old one")
    with pytest.raises(Cancelled):
        write_archive(path, ledger.book(), store, MADE, cancelled=lambda: True)

    def full(_handle):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(BadFileError, match="No space left on device"):
        write_archive(path, ledger.book(), store, MADE)
    assert [one.name for one in tmp_path.iterdir()] == ["season.zip"]
    assert path.read_bytes() == b"the old one"


def test_progress_rises_to_the_whole_and_reading_can_be_called_off(season, tmp_path):
    ledger, path, _, store = season
    for work in (
        lambda told: write_archive(tmp_path / "a.zip", ledger.book(), store, MADE, told.append),
        lambda told: read_archive(path, told.append),
    ):
        told = []
        work(told)
        assert told == sorted(told)
        assert told[-1] == 1.0
    with pytest.raises(Cancelled):
        read_archive(path, cancelled=lambda: True)


def test_numbers_and_texts_come_back_to_the_last_bit(season):
    table = book_to_json(season[0].book())
    again = json.loads(json.dumps(table, allow_nan=False))
    assert again == table
    assert io.StringIO(json.dumps(table)).read().isascii()
