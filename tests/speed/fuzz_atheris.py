"""The same ways in, guided by which lines of the readers an input reaches; for as long as it is let run.

    pip install atheris
    python -m tests.speed.fuzz_atheris WAY -max_total_time=60

``WAY`` is one of the ways in of tests/exchange/fuzz_targets.py, such as "pictures"; what follows it is for
the fuzzer. It stops at the first fault and writes the input to a file.
"""

import sys
import tempfile
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["greenroom.exchange", "greenroom.ledger", "greenroom.season"]):
    from tests.exchange.fuzz_targets import TARGETS, Room, run


def main():
    if len(sys.argv) < 2 or sys.argv[1] not in TARGETS:
        sys.exit(f"a way in is needed: {', '.join(TARGETS)}")
    target = TARGETS[sys.argv.pop(1)]
    with tempfile.TemporaryDirectory() as folder:
        seeds = Path(folder) / "seeds"
        seeds.mkdir()
        for number, base in enumerate(target.bases()):
            (seeds / str(number)).write_bytes(base)
        room = Room(Path(folder))
        atheris.Setup([*sys.argv, str(seeds)], lambda data: run(target, room, data) and None)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
