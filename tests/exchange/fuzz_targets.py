"""Every way in: what reads a file, an answer, a code or a ledger, and what must be so afterwards.

A target takes damaged bytes into a room: a ledger that is in use, and a folder. It ends in "read" or
"refused"; anything else, and a refusal after which the ledger or the folder is not as it was, is a fault.
"""

import io
import json
import shutil
import sqlite3
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from random import Random

from PIL import Image

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.open_weather import OpenMeteo
from greenroom.exchange.paper.codes import BadCodeError, is_code, read_code
from greenroom.exchange.paper.find import find
from greenroom.exchange.picture_decode import ready_bytes
from greenroom.exchange.picture_store import PictureStore
from greenroom.exchange.season_archive import DATA, write_archive
from greenroom.exchange.season_archive_merge import merge_of
from greenroom.exchange.season_archive_read import read_archive, unpack_pictures
from greenroom.exchange.seed_list import look_at_seed_list, read_seed_list
from greenroom.exchange.weather_files import WeatherChoice, look_at_weather, read_weather_file
from greenroom.exchange.weather_plain import PlainLook
from greenroom.exchange.weather_service import ServiceError
from greenroom.exchange.web_answer import Answer, TryAgainError, read_answer
from greenroom.ledger import BadFactError, Ledger, LedgerError
from greenroom.ledger.engines import raw_connection
from greenroom.ledger.facts import HolderMade, HourAhead, PictureKept
from greenroom.season.deeds_place import hear_forecast
from greenroom.season.deeds_shelf import SeedEntry, add_packets, add_weather
from greenroom.season.packets import packets
from greenroom.season.proposal import RefusedError
from greenroom.season.ribbon import ribbon
from greenroom.season.round import the_round
from greenroom.season.state import Season
from tests.exchange.fuzz_making import ODD_VALUES, damaged, damaged_json
from tests.exchange.test_text_table import assert_one_sentence
from tests.exchange.test_weather_service import NOW as ASKED_AT
from tests.exchange.test_weather_service import Canned, forecast_answer, history_answer, in_unix_time
from tests.exchange.weather_files_made import champion_1985, dly_text, epw_row, epw_text
from tests.ledger.checks import ticking_clock
from tests.ledger.examples import all_examples
from tests.season.told import the_guide

DATA_FOLDER = Path(__file__).parent.parent / "data"
TODAY = date(2025, 5, 20)
NOW = datetime(2025, 5, 20, 7, 54, tzinfo=UTC)
REFUSALS = (BadFileError, BadCodeError, ServiceError, TryAgainError, LedgerError, BadFactError, RefusedError)
ACTS_A_ROOM = 60
HEADERS = {"content-type": "application/json"}


class Room:
    """A ledger in use that nothing damaged may reach, and a folder to work in."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.store = PictureStore(folder / "pictures")
        self._ledger: Ledger | None = None
        self._acts = 0

    @property
    def ledger(self) -> Ledger:
        """The ledger in use."""
        if self._ledger is None:
            self._ledger, self._acts = Ledger.open("sqlite://", clock=ticking_clock(), who="me"), 0
            self._ledger.record(*all_examples())
        return self._ledger

    def tidy(self) -> None:
        """Begin with a new ledger when much was brought into the one in use."""
        if self._acts > ACTS_A_ROOM:
            self.close()

    @property
    def season(self) -> Season:
        """What the ledger tells."""
        return Season(self.ledger.entries(), the_guide())

    def file(self, name: str, data: bytes) -> Path:
        """Return a file with these bytes."""
        path = self.folder / name
        path.write_bytes(data)
        return path

    def do(self, proposal) -> None:
        """Write what a reader's rows become, as the window would."""
        before = {entry.fact.id for entry in self.ledger.entries()} - set(proposal.strike)
        self._acts += 1
        self.ledger.do(proposal.name, record=proposal.record, strike=proposal.strike)
        after = {entry.fact.id for entry in self.ledger.entries()}
        assert after == before | {fact.id for fact in proposal.record}, "a part was brought in"

    def touched(self) -> tuple[int, int]:
        """Return what changes as soon as a row of the ledger, or a kept picture, is so much as tried."""
        kept = sum(1 for _ in self.store.folder.iterdir()) if self.store.folder.is_dir() else 0
        return raw_connection(self.ledger._connection).total_changes, kept

    def close(self) -> None:
        """Let go of the ledger."""
        if self._ledger is not None:
            self._ledger.close()
            self._ledger = None


@dataclass(frozen=True)
class Target:
    """One way in: whole inputs to damage, how they are damaged, and the way itself."""

    bases: Callable[[], list[bytes]]
    take: Callable[[Room, bytes], None]
    damage: Callable[[Random, list[bytes]], bytes] = damaged
    share: int = 1


def run(target: Target, room: Room, data: bytes) -> str:
    """Take damaged bytes in; return "read" or "refused", and raise for any other end."""
    room.tidy()
    before = room.touched()
    try:
        target.take(room, data)
    except REFUSALS as refusal:
        assert_one_sentence(refusal if str(refusal).endswith(".") else BadFileError(f"{refusal}."))
        assert room.touched() == before, "something was written before the refusal"
        return "refused"
    return "read"


def walk(season: Season) -> None:
    """Ask a season what the window asks of it at once."""
    for made in season.holders(put_away=True):
        season.counts(made.key)
        season.spots(made.key)
    packets(season)
    ribbon(season, TODAY, NOW)
    the_round(season, TODAY, NOW)


def take_weather(room: Room, data: bytes) -> None:
    path = room.file("weather.csv", data)
    look = look_at_weather(path)
    choice = WeatherChoice(station=look.stations[0].station if look.stations else None)
    if isinstance(look.detail, PlainLook):
        choice = WeatherChoice(match=look.detail.match)
    found = read_weather_file(path, choice)
    dates = [day.day for day in found.days]
    assert dates == sorted(set(dates))
    room.do(add_weather("a file", "", found.days, TODAY))


def take_seeds(room: Room, data: bytes) -> None:
    path = room.file("seeds.csv", data)
    look = look_at_seed_list(path)
    rows = read_seed_list(path, look.match)
    assert len(rows) == look.count
    entries = [
        SeedEntry(row.name, None, row.lot, row.packed, row.seeds, row.germination, row.days_to_ripe)
        for row in rows[:200]
    ]
    room.do(add_packets(room.season, entries, TODAY))


def take_archive(room: Room, data: bytes) -> None:
    found = read_archive(room.file("season.zip", data))
    mine = room.ledger.book()
    merge = merge_of(mine, found.book)
    unpack_pictures(found, PictureStore(room.folder / "unpacked"))
    if not merge.nothing:
        room._acts += ACTS_A_ROOM
        room.ledger.bring_in(
            "brought in", found.book, aside=merge.aside, strike=merge.strike, restore=merge.restore
        )
        every = {entry.fact.id for entry in room.ledger.book().entries}
        assert every == {entry.fact.id for book in (mine, found.book) for entry in book.entries}
    walk(room.season)


def take_picture(room: Room, data: bytes) -> None:
    ready = ready_bytes(data, "plant.jpg", lambda _share: None, lambda: False)
    kept = room.store.keep(ready.data, ready.width, ready.height)
    fact = PictureKept(day=TODAY, picture="p", **{name: getattr(kept, name) for name in kept.__slots__})
    assert room.store.find(fact).data == ready.data
    (room.store.folder / kept.file).unlink()


def take_code(room: Room, data: bytes) -> None:
    season = _examples_season()
    text = data.decode("utf-8", "replace") if len(data) % 3 else data.decode("utf-8", "surrogateescape")
    if is_code(text):
        assert read_code(read_code(text).text) == read_code(text)
    find(season, text)


def take_forecast(room: Room, data: bytes) -> None:
    answer = read_answer("The service", Answer(200, HEADERS, data))
    told = OpenMeteo(web=Canned(answer)).forecast(47.5, 12.1, ASKED_AT)
    hours = [HourAhead(one.time, one.temperature_c, one.cloud, None, None, None) for one in told.hours]
    room.do(hear_forecast(room.season, told.source, told.fetched_at, told.days, hours))


def take_history(room: Room, data: bytes) -> None:
    answer = read_answer("The service", Answer(200, HEADERS, data))
    days = OpenMeteo(web=Canned(answer)).history(47.5, 12.1, date(2024, 3, 1), date(2024, 4, 30))
    room.do(add_weather("the service", "", days, TODAY))


def take_ledger(room: Room, data: bytes) -> None:
    path = room.file("theirs.greenroom", data)
    try:
        with Ledger.open(path, clock=ticking_clock(), who="me") as ledger:
            entries, book = ledger.entries(), ledger.book()
            assert len(book.entries) >= len(entries)
            walk(Season(entries, the_guide()))
    finally:
        path.with_name(path.name + "-journal").unlink(missing_ok=True)


def damaged_archive(rng: Random, bases: list[bytes]) -> bytes:
    """Return an archive with its bytes damaged, or whole again around damaged JSON."""
    if rng.random() < 0.2:
        return damaged(rng, bases)
    with zipfile.ZipFile(io.BytesIO(bases[0])) as archive:
        parts = {one.filename: archive.read(one) for one in archive.infolist()}
    if rng.random() < 0.15:
        parts[rng.choice(list(parts))] = damaged(rng, [parts[DATA][:4000]])
    else:
        parts[DATA] = json.dumps(damaged_json(rng, json.loads(parts[DATA]))).encode("utf-8", "surrogatepass")
    return _zipped(parts)


def damaged_answer(rng: Random, bases: list[bytes]) -> bytes:
    """Return an answer with its bytes damaged, or with its JSON damaged and whole JSON still."""
    if rng.random() < 0.3:
        return damaged(rng, bases)
    return json.dumps(damaged_json(rng, json.loads(rng.choice(bases)))).encode("utf-8", "surrogatepass")


def damaged_row(rng: Random, bases: list[bytes]) -> bytes:
    """Return a ledger with its bytes damaged, or with odd values in a few rows, its guards taken off."""
    if rng.random() < 0.3:
        return damaged(rng, bases)
    with sqlite3.connect(":memory:") as raw:
        raw.deserialize(bases[0])
        names = raw.execute("SELECT type, name FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'").fetchall()
        for kind, name in names:
            if kind == "trigger":
                raw.execute(f'DROP TRIGGER "{name}"')
        tables = [
            name
            for kind, name in names
            if kind == "table" and raw.execute(f'SELECT 1 FROM "{name}"').fetchone()
        ]
        for _ in range(rng.randint(1, 3)):
            _damage_row(rng, raw, rng.choice(tables))
        raw.commit()
        data = raw.serialize()
    raw.close()
    return data


def _damage_row(rng: Random, raw: sqlite3.Connection, table: str) -> None:
    columns = [row[1] for row in raw.execute(f'PRAGMA table_info("{table}")')]
    rows = raw.execute(f'SELECT rowid FROM "{table}"').fetchall()
    if not rows:
        return
    column, (row,) = rng.choice(columns), rng.choice(rows)
    value = rng.choice([one for one in (*ODD_VALUES, b"\xff\x00", 2**62, -(2**40)) if _binds(one)])
    try:
        if rng.random() < 0.1:
            raw.execute(f'DELETE FROM "{table}" WHERE rowid = ?', (row,))
        else:
            raw.execute(f'UPDATE "{table}" SET "{column}" = ? WHERE rowid = ?', (value, row))
    except sqlite3.IntegrityError:
        return  # the table itself refuses this one


def _binds(value: object) -> bool:
    if isinstance(value, str):
        return "\ud800" not in value
    return (
        value is None or isinstance(value, float | bytes) or (isinstance(value, int) and abs(value) < 2**63)
    )


def _zipped(parts: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name, data)
    return out.getvalue()


@cache
def _examples_season() -> Season:
    with Ledger.open("sqlite://", clock=ticking_clock(), who="me") as ledger:
        ledger.record(
            *all_examples(),
            HolderMade(day=TODAY, holder="trayq", name="Tray Q", form="tray", rows=3, columns=4),
        )
        return Season(ledger.entries(), the_guide())


def _head(name: str, lines: int = 40) -> bytes:
    return b"".join((DATA_FOLDER / name).read_bytes().splitlines(keepends=True)[:lines])


def csv_bases() -> list[bytes]:
    return [
        _head("champion_1982_metric.csv"),
        _head("champion_1985_us.csv"),
        _head("archive_2019_tenths.csv"),
    ]


def dly_bases() -> list[bytes]:
    return [b"".join(dly_text(champion_1985()).encode().splitlines(keepends=True)[:12])]


def epw_bases() -> list[bytes]:
    hours = [
        epw_row(date(2003, 1, day), hour, day + hour / 4, 0.2) for day in range(1, 4) for hour in range(1, 25)
    ]
    return [epw_text(hours).encode()]


def plain_bases() -> list[bytes]:
    return [
        _head("champion_1985_source.csv"),
        "Tag;Tmin °C;Tmax °C;Regen mm\n01.05.2024;3,5;17,2;0,0\n02.05.2024;4,1;18,0;1,2\n".encode("cp1252"),
    ]


def seed_bases() -> list[bytes]:
    return [_head(name) for name in ("seeds_german.csv", "seeds_french.txt", "seeds_english.csv")]


@cache
def archive_bases() -> list[bytes]:
    folder = Path(_scratch())
    try:
        with Ledger.open("sqlite://", clock=ticking_clock(), who="a friend", zone="Europe/Oslo") as ledger:
            ledger.record(*all_examples())
            kept = PictureStore(folder / "pictures").keep(b"one picture", 4, 3)
            names = {name: getattr(kept, name) for name in kept.__slots__}
            ledger.record(PictureKept(day=TODAY, holder="tray-a", picture="p", **names))
            ledger.strike("sown-1")
            ledger.undo()
            write_archive(folder / "season.zip", ledger.book(), PictureStore(folder / "pictures"), NOW)
        return [(folder / "season.zip").read_bytes()]
    finally:
        shutil.rmtree(folder)


def picture_bases() -> list[bytes]:
    made = Image.radial_gradient("L").resize((40, 30)).convert("RGB")
    found = []
    for form in ("JPEG", "PNG", "WEBP", "GIF", "BMP"):
        out = io.BytesIO()
        made.save(out, form)
        found.append(out.getvalue())
    return found


def code_bases() -> list[bytes]:
    texts = (
        "greenroom:spot/trayq/1/1/2025-02-24",
        "greenroom:tray/trayq",
        "GREENROOM?SPOT-trayq-2-3",
        "Tray Q B3",
    )
    return [text.encode() for text in texts]


def forecast_bases() -> list[bytes]:
    answer = forecast_answer()
    return [json.dumps(one).encode() for one in (answer, in_unix_time(answer))]


def history_bases() -> list[bytes]:
    return [json.dumps(history_answer(date(2024, 3, 1), date(2024, 4, 30))).encode()]


@cache
def ledger_bases() -> list[bytes]:
    folder = Path(_scratch())
    try:
        with Ledger.open(folder / "a.greenroom", clock=ticking_clock(), who="a friend") as ledger:
            ledger.record(*all_examples())
            ledger.strike("sown-1")
        return [(folder / "a.greenroom").read_bytes()]
    finally:
        shutil.rmtree(folder)


def _scratch() -> str:
    from tempfile import mkdtemp

    return mkdtemp(prefix="fuzz-")


TARGETS: dict[str, Target] = {
    "weather, daily summaries": Target(csv_bases, take_weather, share=3),
    "weather, .dly": Target(dly_bases, take_weather, share=3),
    "weather, .epw": Target(epw_bases, take_weather, share=2),
    "weather, any table": Target(plain_bases, take_weather, share=3),
    "seed lists": Target(seed_bases, take_seeds, share=3),
    "season archives": Target(archive_bases, take_archive, damaged_archive, share=2),
    "pictures": Target(picture_bases, take_picture, share=3),
    "scanned codes": Target(code_bases, take_code, share=2),
    "forecasts": Target(forecast_bases, take_forecast, damaged_answer, share=2),
    "histories": Target(history_bases, take_history, damaged_answer, share=2),
    "ledgers": Target(ledger_bases, take_ledger, damaged_row, share=1),
}
