"""Kill programs at work on a ledger, many times, at random moments; print what was lost: nothing.

    python -m tests.speed.crash [--kills 1000] [--seed 1]

The kills are shared out among the kinds of work: marking, bringing weather and archives in, taking copies,
going back to copies, upgrading, and making a damaged ledger good.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

from tests.ledger.crashing import KINDS, crash


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--kills", type=int, default=1000)
    options.add_argument("--seed", type=int, default=1)
    asked = options.parse_args()
    found = []
    print(f"{'':24}{'kills':>7}{'told':>9}{'lost':>7}{'half':>7}{'shut':>7}{'s':>8}")
    with tempfile.TemporaryDirectory() as folder:
        for place, kind in enumerate(KINDS):
            kills = asked.kills // len(KINDS) + (place < asked.kills % len(KINDS))
            begun = time.monotonic()
            figures = crash(kind, kills, Path(folder), asked.seed)
            found.append(figures)
            print(
                f"{kind.name:24}{figures.kills:7,}{figures.told:9,}{figures.lost:7,}{figures.half:7,}"
                f"{figures.shut:7,}{time.monotonic() - begun:8.1f}",
                flush=True,
            )
            for problem in figures.problems[:5]:
                print(f"    {problem}")
    sums = [sum(getattr(one, name) for one in found) for name in ("kills", "told", "lost", "half", "shut")]
    print(f"{'together':24}{sums[0]:7,}{sums[1]:9,}{sums[2]:7,}{sums[3]:7,}{sums[4]:7,}")
    return 1 if any(sums[2:]) else 0


if __name__ == "__main__":
    sys.exit(main())
