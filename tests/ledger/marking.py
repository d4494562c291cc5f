"""A program that marks until it is killed, and tells each act once the ledger took it.

``python -m tests.ledger.marking LEDGER`` writes "did" or "struck" and the ids, an act a line.
"""

import itertools
import sys

from greenroom.ledger import Ledger
from tests.ledger.checks import sown

FACTS_AN_ACT = 3


def mark(path: str) -> None:
    """Write acts of three facts; strike every fourth act's facts out again."""
    with Ledger.open(path) as ledger:
        for number in itertools.count():
            facts = [sown(column, row=number % 100) for column in range(FACTS_AN_ACT)]
            ids = [fact.id for fact in facts]
            ledger.record(*facts)
            tell("did", *ids)
            if number % 4 == 3:
                ledger.strike(*ids)
                tell("struck", *ids)


def tell(*words: str) -> None:
    """Tell one act."""
    sys.stdout.write(" ".join(words) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    mark(sys.argv[1])
