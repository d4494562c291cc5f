"""How long the ledger takes, beside plain SQLite doing the same: ``python -m tests.speed.bench_ledger``.

Both sides write the same rows with the same pragmas to the same disk and take turns, so a busy machine
slows both. A record must stay under what a hand notices (a tenth of a second); opening a large season
(200 trays of 72 cells, each sown and up) under half a second or so.
"""

import shutil
import sqlite3
import statistics
import tempfile
import time
from contextlib import closing
from datetime import date
from pathlib import Path

from greenroom.ledger import Ledger
from greenroom.ledger.engines import PRAGMAS
from greenroom.ledger.facts import Sown, Sprouted, new_key

TRAYS = 200
ROWS, COLUMNS = 6, 12
MARKS = 400
OPENINGS = 7
SOWN_ON, UP_ON = date(2025, 2, 24), date(2025, 3, 6)


def main() -> None:
    """Print one line a measure."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "season.greenroom"
        seconds = _timed(lambda: _write_season(path))
        facts = TRAYS * ROWS * COLUMNS * 2
        print(
            f"write {facts:,} facts in {TRAYS * 2} acts: {seconds:.2f} s, {path.stat().st_size / 1e6:.1f} MB"
        )
        _compare_opening(path, facts)
        _compare_marks(path, Path(folder) / "plain.greenroom")


def _timed(work) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _cells() -> list[tuple[int, int]]:
    return [(row, column) for row in range(ROWS) for column in range(COLUMNS)]


def _write_season(path: Path) -> None:
    with Ledger.open(path) as ledger:
        for tray in range(TRAYS):
            spots = [{"holder": f"tray-{tray}", "row": row, "column": column} for row, column in _cells()]
            ledger.record(*(Sown(day=SOWN_ON, packet=f"p{tray}", **spot) for spot in spots))
            ledger.record(*(Sprouted(day=UP_ON, **spot) for spot in spots))


def _compare_opening(path: Path, facts: int) -> None:
    ours, reading, plain = [], [], []
    for _ in range(OPENINGS):
        start = time.perf_counter()
        with Ledger.open(path) as ledger:
            opened = time.perf_counter()
            assert len(ledger.entries()) == facts
            ours.append(time.perf_counter() - start)
            reading.append(time.perf_counter() - opened)
        plain.append(_timed(lambda: _read_plainly(path, facts)))
    print(
        f"open and read {facts:,} facts: {_ms(ours)} (reading alone {_ms(reading)}); "
        f"plain SQLite rows {_ms(plain)}; ratio {statistics.median(ours) / statistics.median(plain):.1f}"
    )


def _read_plainly(path: Path, facts: int) -> None:
    """Check the file and fetch the same columns as rows, without making facts of them."""
    with closing(_connect(path)) as raw:
        assert raw.execute("PRAGMA quick_check").fetchone()[0] == "ok"
        found = 0
        for kind, columns in (("sown", "packet, seeds"), ("sprouted", "count")):
            found += len(
                raw.execute(
                    f'SELECT fact.number, act, id, day, holder, "row", "column", {columns} '
                    f"FROM fact JOIN {kind} USING (number) ORDER BY fact.number"
                ).fetchall()
            )
        raw.execute("SELECT fact, restored FROM strike ORDER BY number").fetchall()
    assert found == facts


def _compare_marks(path: Path, copy: Path) -> None:
    shutil.copy(path, copy)
    ours, names, undos, plain = [], [], [], []
    with Ledger.open(path) as ledger, closing(_connect(copy)) as raw:
        for number in range(MARKS):
            row, column = _cells()[number % (ROWS * COLUMNS)]
            mark = Sprouted(day=UP_ON, holder="tray-0", row=row, column=column)
            ours.append(_timed(lambda mark=mark: ledger.record(mark)))
            names.append(_timed(lambda: (ledger.undo_name, ledger.redo_name)))
            plain.append(_timed(lambda row=row, column=column: _mark_plainly(raw, row, column)))
            if number % 4 == 0:
                undos.append(_timed(ledger.undo))
    print(f"record one mark, durably: {_ms(ours)}; plain SQLite {_ms(plain)}", end="; ")
    print(f"ratio {statistics.median(ours) / statistics.median(plain):.1f}")
    print(f"undo: {_ms(undos)}; names of what undo and redo would do: {_ms(names)}")


def _mark_plainly(raw: sqlite3.Connection, row: int, column: int) -> None:
    raw.execute("BEGIN IMMEDIATE")
    act = raw.execute("SELECT max(number) FROM act").fetchone()[0] + 1
    number = raw.execute("SELECT max(number) FROM fact").fetchone()[0] + 1
    raw.execute("INSERT INTO act VALUES (?, 'do', 'sprout', '2025-03-06 07:00:00', 'UTC', 'x', NULL)", (act,))
    raw.execute(
        "INSERT INTO fact VALUES (?, ?, 'sprouted', ?, ?)", (number, new_key(), UP_ON.isoformat(), act)
    )
    raw.execute("INSERT INTO sprouted VALUES (?, 'tray-0', ?, ?, 1)", (number, row, column))
    raw.execute("COMMIT")


def _connect(path: Path) -> sqlite3.Connection:
    raw = sqlite3.connect(path, isolation_level=None)
    for pragma in PRAGMAS:
        raw.execute(f"PRAGMA {pragma}")
    return raw


def _ms(seconds: list[float]) -> str:
    ninety_fifth = statistics.quantiles(seconds, n=20)[-1]
    return f"p50 {statistics.median(seconds) * 1e3:.2f} ms, p95 {ninety_fifth * 1e3:.2f} ms"


if __name__ == "__main__":
    main()
