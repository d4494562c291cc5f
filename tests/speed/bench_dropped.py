"""A window that marks while its connection is cut again and again: none lost, none doubled.

``python tests/speed/bench_dropped.py [MARKS]``; it starts a PostgreSQL server of its own.
"""

import os
import random
import sys
import tempfile
import threading
import time
from pathlib import Path

os.environ["QT_QPA_PLATFORM"] = "offscreen"
sys.path.insert(0, str(Path(__file__).parents[2]))

from PySide6.QtTest import QTest

from greenroom.desk.live_session import shared_ledger
from greenroom.desk.start import make_application
from greenroom.ledger import Ledger
from greenroom.season.proposal import Proposal
from tests import private_server
from tests.ledger.checks import sown
from tests.ledger.examples import EXAMPLES

DATABASE = "dropped"
CUT = (
    "SELECT count(pg_terminate_backend(pid)) FROM pg_stat_activity "
    f"WHERE datname = '{DATABASE}' AND application_name = 'greenroom'"
)


def main() -> int:
    """Print what came of it."""
    marks = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    _application = make_application()
    folder = Path(tempfile.mkdtemp())
    chance, over, cuts = random.Random(7), threading.Event(), [0]
    with private_server.private_server(private_server.binaries()) as server:
        with server.asked() as hand:
            hand.exec_driver_sql(f"CREATE DATABASE {DATABASE}")

            def cut() -> None:
                while not over.wait(chance.uniform(0.3, 4.0)):
                    cuts[0] += hand.exec_driver_sql(CUT).scalar()
                    if chance.random() < 0.1:
                        with server.away(DATABASE):
                            time.sleep(chance.uniform(0.1, 1.0))

            with Ledger.open(server.url(DATABASE)) as ledger:
                ledger.record(*EXAMPLES["holder_made"], name="shelf")
            with shared_ledger(server.url(DATABASE), who="ana", folder=folder) as keeper:
                holder = keeper.season.holders()[0].key
                QTest.qWait(300)
                cutter = threading.Thread(target=cut)
                cutter.start()
                acknowledged, waited = [], 0
                for number in range(marks):
                    made = sown(number % 6, number // 6 % 6)
                    fact = type(made)(day=made.day, holder=holder, row=0, column=0, packet=f"p{number}")
                    if keeper.do(lambda fact=fact: Proposal("sowed", (fact,))):
                        acknowledged.append(fact.id)
                    waited += keeper.live.waits
                    QTest.qWait(5)
                over.set()
                cutter.join()
                while keeper.live.waits:
                    QTest.qWait(100)
                shown = sorted(entry.fact.id for entry in keeper.season.entries_of(acknowledged))
        with Ledger.open(server.url(DATABASE)) as ledger:
            kept = [fact.id for fact in ledger.facts("sown")]
    print(f"{marks} marks, {cuts[0]} connections cut, {waited} marks made while acts waited")
    print(
        f"acknowledged {len(acknowledged)}, kept {len(kept)}, lost {len(set(acknowledged) - set(kept))}, "
        f"doubled {len(kept) - len(set(kept))}, shown {len(shown)}"
    )
    return 0


if __name__ == "__main__":
    sys.exit(main())
