"""How soon a window shows what another one wrote: from the acknowledged act to the season of the other.

``python tests/speed/bench_news.py [ACTS]``; it starts a PostgreSQL server of its own.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"
sys.path.insert(0, str(Path(__file__).parents[2]))

from PySide6.QtTest import QTest

from greenroom.desk.live_session import shared_ledger
from greenroom.desk.start import make_application
from greenroom.ledger.sharing import SharedLedger
from tests import private_server
from tests.ledger.checks import sown

DATABASE = "news"


def main() -> int:
    """Print how soon."""
    acts = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    _application = make_application()
    took_ms = []
    with private_server.private_server(private_server.binaries()) as server:
        with server.asked() as hand:
            hand.exec_driver_sql(f"CREATE DATABASE {DATABASE}")
        url = server.url(DATABASE)
        with (
            SharedLedger.open(url, who="bor") as other,
            shared_ledger(url, who="ana", folder=Path(tempfile.mkdtemp())) as keeper,
        ):
            QTest.qWait(300)
            for number in range(acts):
                fact = sown(number % 6, number // 6 % 6)
                other.record(fact)
                start = time.perf_counter()
                while not keeper.season.entries_of([fact.id]):
                    QTest.qWait(1)
                took_ms.append((time.perf_counter() - start) * 1000)
    took_ms.sort()
    print(
        f"{acts} acts seen by the other window after {took_ms[len(took_ms) // 2]:.1f} ms (half), "
        f"{took_ms[len(took_ms) * 95 // 100]:.1f} ms (95 of 100), {took_ms[-1]:.1f} ms (longest)"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
