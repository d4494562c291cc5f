"""Programs at work on a ledger, each killed at a random moment, and what must hold afterwards.

One process loads everything once; each program is a fork of it, killed with SIGKILL. It tells each thing
that is done through a pipe; whatever it told must be there afterwards, and the ledger must open.
"""

import dataclasses
import json
import os
import random
import select
import shutil
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from itertools import count
from pathlib import Path

import alembic.command  # noqa: F401 the forks need it: loaded once before them

from greenroom.exchange.mending import mend
from greenroom.ledger import Book, Ledger, LedgerError
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import Backups
from greenroom.ledger.facts import WeatherDay, WeatherRecord, new_key
from greenroom.ledger.restore import restore
from greenroom.ledger.tables import SCHEMA
from tests.ledger.checks import newest_good, sown
from tests.ledger.make_sample import SAMPLES

NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)
HOUR = timedelta(hours=1)
FACTS_AN_ACT, DAYS, FACTS_AN_ARCHIVE = 3, 400, 60
LONGEST_S = 20.0
MANY_RECORDS = 20
Tell = Callable[..., None]


@dataclass
class Figures:
    """What came of the kills of one kind of work."""

    kills: int = 0
    told: int = 0
    lost: int = 0
    half: int = 0
    shut: int = 0
    problems: list[str] = field(default_factory=list)

    def must(self, holds: bool, problem: str, what: str = "half", number: int = 1) -> None:
        """Count a problem unless something holds."""
        if not holds:
            setattr(self, what, getattr(self, what) + number)
            self.problems.append(problem)


class Marking:
    """Acts of three facts; every fourth is struck out again."""

    name = "marking"

    def __init__(self, folder: Path, chance: random.Random) -> None:
        self.path = folder / "season.greenroom"
        self.chance = chance
        self.known: set[str] = set()
        self.acts = 0
        Ledger.open(self.path).close()
        self.prepare()

    def prepare(self) -> None:
        """Make what the work needs; called again before each kill."""

    def work(self, tell: Tell) -> None:
        """Work until killed."""
        with Ledger.open(self.path) as ledger:
            for number in count():
                self.act(ledger, number, tell)

    def act(self, ledger: Ledger, number: int, tell: Tell) -> None:
        facts = [sown(column, row=number % 100) for column in range(FACTS_AN_ACT)]
        ids = [fact.id for fact in facts]
        ledger.record(*facts)
        tell("did", *ids)
        if number % 4 == 3:
            ledger.strike(*ids)
            tell("struck", *ids)

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        """Hold what is there against what was told."""
        known = self.known
        for deed, *ids in told:
            known = known | set(ids) if deed == "did" else known - set(ids)
        with Ledger.open(self.path) as ledger:
            found = {entry.fact.id for entry in ledger.entries()}
            acts = len(ledger.acts(10_000_000))
        figures.must(acts >= self.acts + len(told), "an act told is gone", "lost", len(known - found))
        if acts == self.acts + len(told):
            figures.must(found == known, "the facts are not those told", "lost", len(known - found))
        else:  # the one act that was under way, whole
            whole = acts == self.acts + len(told) + 1 and len(found ^ known) == self.facts_an_act
            figures.must(whole, "an act is there in part")
        self.known, self.acts = found, acts

    facts_an_act = FACTS_AN_ACT


class Weather(Marking):
    """Records of some years of weather, each one act."""

    name = "bringing weather in"
    facts_an_act = 1

    def prepare(self) -> None:
        """Begin with an empty ledger now and then: a large one takes long to read through."""
        if len(self.known) > MANY_RECORDS:
            self.path.unlink()
            Ledger.open(self.path).close()
            self.known, self.acts = set(), 0

    def act(self, ledger: Ledger, number: int, tell: Tell) -> None:
        first = date(1990, 1, 1) + timedelta(days=number)
        days = tuple(WeatherDay(first + timedelta(days=day), -3.0, 9.5) for day in range(DAYS))
        fact = WeatherRecord(day=first, source="station", days=days)
        ledger.record(fact)
        tell("did", fact.id)

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        super().verify(told, figures)
        with Ledger.open(self.path) as ledger:
            short = [fact for fact in ledger.facts("weather_record") if len(fact.days) != DAYS]
        figures.must(not short, "a record has days missing")


class Archive(Marking):
    """The books of other ledgers, each brought in as one act."""

    name = "bringing an archive in"
    facts_an_act = FACTS_AN_ARCHIVE

    def prepare(self) -> None:
        with Ledger.open("sqlite://") as other:
            other.record(*(sown(column % 100, column // 100) for column in range(FACTS_AN_ARCHIVE)), name="x")
            self.book = other.book()

    def act(self, ledger: Ledger, number: int, tell: Tell) -> None:
        book = renamed(self.book)
        ledger.bring_in("brought in", book)
        tell("did", *(entry.fact.id for entry in book.entries))

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        known = self.known.union(*(ids for _, *ids in told))
        with Ledger.open(self.path) as ledger:
            found = {entry.fact.id for entry in ledger.entries()}
        figures.must(known <= found, "facts told are gone", "lost", len(known - found))
        figures.must(len(found - known) in (0, FACTS_AN_ARCHIVE), "an archive is there in part")
        self.known = found


def renamed(book: Book) -> Book:
    """Return a book whose facts have new ids."""
    entries = (entry._replace(fact=dataclasses.replace(entry.fact, id=new_key())) for entry in book.entries)
    return dataclasses.replace(book, entries=tuple(entries))


class Copying(Marking):
    """A mark, then a copy, every six hours: thinning goes on too."""

    name = "taking copies"

    def prepare(self) -> None:
        self.backups = Backups(self.path)
        newest = self.backups.copies()
        self.moment = newest[0].moment if newest else NOW

    def act(self, ledger: Ledger, number: int, tell: Tell) -> None:
        facts = [sown(column) for column in range(FACTS_AN_ACT)]
        ledger.record(*facts)
        tell("did", *(fact.id for fact in facts))
        kept = self.backups.keep(self.moment + 6 * (number + 1) * HOUR)
        if kept.copy is not None:
            tell("kept", str(kept.copy.number))

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        super().verify([words for words in told if words[0] == "did"], figures)
        copies = {copy.number: copy for copy in self.backups.copies()}
        for copy in sorted(copies.values(), key=lambda one: -one.number)[:3]:
            checked_contents(copy.path)
        numbers = [int(words[1]) for words in told if words[0] == "kept"]
        if numbers:
            figures.must(numbers[-1] in copies, "the copy told last is gone", "lost")


class Restoring(Marking):
    """A mark, then back to the one or the other of two copies."""

    name = "going back to copies"

    def prepare(self) -> None:
        self.backups = Backups(self.path)
        for copy in self.backups.copies()[:-2]:
            copy.path.unlink()
        while len(self.backups.copies()) < 2:
            with Ledger.open(self.path) as ledger:
                ledger.record(*(sown(column) for column in range(40)))
            self.backups.keep(NOW, "asked for")
        self.states = [self._ids(self.path), *(self._ids(copy.path) for copy in self.backups.copies())]

    def work(self, tell: Tell) -> None:
        two = self.backups.copies()[-2:]
        for number in count():
            fact = sown()
            with Ledger.open(self.path) as ledger:
                ledger.record(fact)
            tell("did", fact.id)
            restore(self.backups, two[number % 2].path, NOW)
            tell("back", str(number))

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        """Each mark told is in the ledger or in a copy, and nothing else is in the ledger."""
        known = {words[1] for words in told if words[0] == "did"}
        places = [self.path, *(copy.path for copy in self.backups.copies())]
        held = [self._ids(path) for path in places]
        lost = known - set().union(*held)
        figures.must(not lost, "a mark is neither in the ledger nor in a copy", "lost", len(lost))
        whole = any(held[0] >= state and len(held[0] - state) <= 1 for state in self.states)
        figures.must(whole, "the ledger is neither what it was nor one of the copies")

    def _ids(self, path: Path) -> set[str]:
        with Ledger.open(path) as ledger:
            return {fact.id for fact in ledger.facts()}


class Upgrading(Marking):
    """A ledger of an earlier version, opened and marked."""

    name = "upgrading"

    def prepare(self) -> None:
        for one in self.path.parent.iterdir():
            one.unlink()
        self.sample = SAMPLES / f"v{self.chance.randrange(1, int(SCHEMA)):04d}.greenroom"
        shutil.copy(self.sample, self.path)
        held = json.loads(self.sample.with_suffix(".json").read_text(encoding="utf-8"))
        self.known = {fact["id"] for fact in held["facts"]}

    def work(self, tell: Tell) -> None:
        with Ledger.open(self.path) as ledger:
            tell("open")
            fact = sown()
            ledger.record(fact)
            tell("did", fact.id)

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        copies = Backups(self.path).copies()
        figures.must(bool(copies) or not told, "it was upgraded without a copy")
        known = self.known.union(*(ids for _, *ids in told))
        with Ledger.open(self.path) as ledger:
            found = {fact.id for fact in ledger.facts()}
        figures.must(known <= found, "facts are gone", "lost", len(known - found))
        for copy in copies:
            figures.must(checked_contents(copy.path).version < SCHEMA, "the copy is not of before")


class Mending(Marking):
    """A damaged ledger, made good from a copy and from what can be read of it."""

    name = "mending"

    def prepare(self) -> None:
        shutil.rmtree(self.path.parent)
        self.path.parent.mkdir()
        with Ledger.open(self.path) as ledger:
            ledger.record(*(sown(column) for column in range(30)))
            self.backups = Backups(self.path)
            self.backups.keep(NOW)
            ledger.record(*(sown(column) for column in range(30)))
            self.known = {fact.id for fact in ledger.facts()}
            raw = ledger._connection.connection.driver_connection
            root = raw.execute("SELECT rootpage FROM sqlite_master WHERE name = 'ix_fact_act'").fetchone()[0]
        data = bytearray(self.path.read_bytes())
        data[(root - 1) * 4096 : (root - 1) * 4096 + 64] = b"\xa5" * 64
        self.path.write_bytes(data)
        self.damaged = bytes(data)

    def work(self, tell: Tell) -> None:
        mend(self.backups, self.backups.copies()[-1].path, NOW, zone="UTC", who="x")
        tell("made good")

    def verify(self, told: list[list[str]], figures: Figures) -> None:
        if self.path.read_bytes() == self.damaged:
            figures.must(not told, "it is not made good", "lost", len(self.known))
            mend(self.backups, newest_good(self.backups).path, NOW, zone="UTC", who="x")
        asides = list(self.path.parent.glob("season.damaged-*.greenroom"))
        kept = bool(asides) and all(one.read_bytes() == self.damaged for one in asides)
        figures.must(kept, "the damaged ledger is not kept as it was")
        with Ledger.open(self.path) as ledger:
            found = {fact.id for fact in ledger.facts()}
        figures.must(found == self.known, "facts are gone", "lost", len(self.known - found))


KINDS = (Marking, Weather, Archive, Copying, Restoring, Upgrading, Mending)


def crash(kind: type[Marking], kills: int, folder: Path, seed: int) -> Figures:
    """Kill a kind of work so many times and hold what is left against what was told."""
    chance = random.Random(seed)
    inside = folder / kind.__name__.lower()
    inside.mkdir()
    job, figures = kind(inside, chance), Figures()
    longest_s = 0.0
    for kill in range(kills):
        job.prepare()
        begun = time.monotonic()
        delay_s = chance.uniform(0, longest_s) if kill else None
        told = list(killed(job, delay_s))
        if kill == 0:
            longest_s = 2 * (time.monotonic() - begun)  # about when the second thing is done
        figures.kills += 1
        figures.told += sum(max(1, len(words) - 1) for words in told)
        try:
            job.verify(told, figures)
        except LedgerError as error:
            figures.must(False, f"it does not open: {error}", "shut")
            break
    return figures


def killed(job: Marking, delay_s: float | None) -> Iterator[list[str]]:
    """Fork a program, kill it after a while or once it told something, and yield what it told."""
    out, into = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(out)
        run_child(job, into)
    os.close(into)
    if delay_s is None:
        select.select([out], [], [], LONGEST_S)
    else:
        time.sleep(delay_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with closing(os.fdopen(out, encoding="utf-8")) as stream:
        for line in stream:
            if line.startswith("broke"):
                raise RuntimeError(line)
            if line.endswith("\n"):
                yield line.split("\t")[:-1]


def run_child(job: Marking, into: int) -> None:
    """Work until killed; it never returns."""

    def tell(*words: str) -> None:
        os.write(into, ("\t".join((*words, "")) + "\n").encode())

    try:
        job.work(tell)
        time.sleep(LONGEST_S)  # done: it waits for its end
    except BaseException as error:  # noqa: BLE001 told to the parent, which raises
        os.write(into, f"broke: {error!r}\n".encode())
    finally:
        os._exit(0)
