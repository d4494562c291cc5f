"""Eight hands writing one ledger on a server at once: none lost, none doubled, and how long it took.

``python tests/speed/bench_writers.py [MARKS_EACH]``; it starts a PostgreSQL server of its own, which here
waits for the disk as a grower's would.
"""

import multiprocessing
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from greenroom.ledger.errors import LedgerUnavailableError
from greenroom.ledger.sharing import SharedLedger
from tests import private_server
from tests.ledger.checks import sown
from tests.ledger.test_sharing import WRITERS, do

DATABASE = "writers"


def write(url, row, marks, told):
    """Write marks as one window does, and tell the id of each once it is acknowledged."""
    waits, refused = [], 0
    with SharedLedger.open(url, who=f"hand {row}") as ledger:
        ledger.entries()
        ids = []
        for number in range(marks):
            start = time.perf_counter()
            fact, done = sown(number % 12, number // 12 % 100), False
            while not done:
                try:
                    done = bool(do(ledger, fact).added)
                except LedgerUnavailableError:  # told that the ledger is busy: the person tries again
                    refused += 1
            ids.append(fact.id)
            waits.append(time.perf_counter() - start)
    told.put((ids, waits, refused))


def main() -> int:
    """Print what came of it."""
    marks = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    programs = private_server.binaries()
    if programs is None:
        sys.exit("no PostgreSQL server is installed here")
    durable = {"fsync": "on", "synchronous_commit": "on", "full_page_writes": "on"}
    with private_server.private_server(programs, durable) as server:
        with server.asked() as keeper:
            keeper.exec_driver_sql(f"CREATE DATABASE {DATABASE}")
        url = server.url(DATABASE)
        SharedLedger.open(url).close()
        start = time.perf_counter()
        told = multiprocessing.Queue()
        hands = [
            multiprocessing.Process(target=write, args=(url, row, marks, told)) for row in range(WRITERS)
        ]
        for hand in hands:
            hand.start()
        answers = [told.get() for _ in hands]
        for hand in hands:
            hand.join()
        seconds = time.perf_counter() - start
        with SharedLedger.open(url) as ledger:
            kept = [fact.id for fact in ledger.facts()]
            numbers = [act.number for act in ledger.acts(WRITERS * marks + 1)]
    acknowledged = [one for ids, _, _ in answers for one in ids]
    waits = sorted(wait for _, part, _ in answers for wait in part)
    print(f"{WRITERS} writers x {marks} marks in {seconds:.1f} s, {len(acknowledged) / seconds:.0f} a second")
    print(
        f"acknowledged {len(acknowledged)}, kept {len(kept)}, lost {len(set(acknowledged) - set(kept))}, "
        f"doubled {len(kept) - len(set(kept))}, not asked for {len(set(kept) - set(acknowledged))}"
    )
    print(f"told that it is busy, and tried again: {sum(refused for _, _, refused in answers)} times")
    print(f"acts numbered 1 to {len(numbers)} without a gap: {numbers == list(range(len(numbers), 0, -1))}")
    print(
        f"a mark took {waits[len(waits) // 2] * 1000:.1f} ms (half), "
        f"{waits[len(waits) * 95 // 100] * 1000:.1f} ms (95 of 100), {waits[-1] * 1000:.0f} ms (longest)"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
