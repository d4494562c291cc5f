"""Damaged inputs for every way in: how many, how long each, and whether one crashed, hung or came in by half.

    python -m tests.speed.fuzz [--inputs 100000] [--seed 1] [--processes 2] [--only NAME] [--keep FOLDER]

Each input follows from the seed and its number, so a fault is found again. What ends in neither "read" nor
"refused" is a fault: an exception, a refusal that is no sentence or comes after something was written, a
part brought in, or more than two seconds. The inputs at fault are written to ``--keep``.
"""

import argparse
import logging
import multiprocessing
import random
import signal
import tempfile
import time
import traceback
import warnings
from collections import Counter, defaultdict
from pathlib import Path

HANG_S = 2.0


class HungError(BaseException):
    """An input took longer than it may."""


def main():
    options = argparse.ArgumentParser()
    options.add_argument("--inputs", type=int, default=100_000)
    options.add_argument("--seed", type=int, default=1)
    options.add_argument("--processes", type=int, default=2)
    options.add_argument("--only", default="")
    options.add_argument(
        "--seconds", type=float, default=float("inf"), help="stop early, and report what was run"
    )
    options.add_argument("--keep", type=Path)
    asked = options.parse_args()
    begun = time.perf_counter()
    jobs = [
        (part, asked.processes, asked.inputs, asked.seed, asked.only, asked.keep, asked.seconds)
        for part in range(asked.processes)
    ]
    with multiprocessing.get_context("spawn").Pool(asked.processes) as pool:
        parts = pool.map(work, jobs)
    report(parts, time.perf_counter() - begun)


def work(job):
    """Run the inputs that fall to one process; return times by target and end, and the faults."""
    from tests.exchange.fuzz_targets import TARGETS, Room, run

    part, processes, inputs, seed, only, keep, seconds = job
    logging.disable()
    warnings.simplefilter("ignore")
    signal.signal(signal.SIGALRM, _hung)
    chosen = [name for name, target in TARGETS.items() for _ in range(target.share) if only in name]
    bases = {name: TARGETS[name].bases() for name in chosen}
    times, faults = defaultdict(list), []
    with tempfile.TemporaryDirectory() as folder:
        room = Room(Path(folder))
        begun = time.perf_counter()
        for number in range(part, inputs, processes):
            if time.perf_counter() - begun > seconds:
                break
            name = chosen[number // processes % len(chosen)]
            data = TARGETS[name].damage(random.Random(f"{seed}/{number}"), bases[name])
            end, took, trace = _once(lambda name=name, data=data: run(TARGETS[name], room, data))
            times[name, end].append(took)
            if trace:
                faults.append((name, end, number, trace))
                _keep(keep, number, data)
                room.close()
        room.close()
    return dict(times), faults


def _once(act):
    """Return how one input ended, the seconds it took, and where it went wrong if it did."""
    begun = time.perf_counter()
    signal.setitimer(signal.ITIMER_REAL, HANG_S)
    try:
        end, trace = act(), ""
    except HungError:
        end, trace = "hung", traceback.format_exc()
    except AssertionError:
        end, trace = "by half, or said badly", traceback.format_exc()
    except Exception:  # noqa: BLE001 whatever comes is what is looked for
        end, trace = "crashed", traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
    return end, time.perf_counter() - begun, trace


def _hung(_signal, _frame):
    raise HungError


def _keep(folder, number, data):
    if folder is not None:
        folder.mkdir(parents=True, exist_ok=True)
        (folder / f"{number}.bin").write_bytes(data)


def report(parts, took):
    """Print a line a target, and each kind of fault once."""
    times, faults = defaultdict(list), []
    for found, wrong in parts:
        faults += wrong
        for key, values in found.items():
            times[key] += values
    ends = Counter()
    print(f"{'way in':<26}{'inputs':>8}{'read':>8}{'refused':>9}{'faults':>8}{'median ms':>11}{'most ms':>9}")
    for name in dict.fromkeys(name for name, _ in sorted(times)):
        mine = {end: values for (other, end), values in times.items() if other == name}
        every = sorted(value for values in mine.values() for value in values)
        for end, values in mine.items():
            ends[end] += len(values)
        read, refused = len(mine.get("read", ())), len(mine.get("refused", ()))
        print(
            f"{name:<26}{len(every):>8,}{read:>8,}{refused:>9,}{len(every) - read - refused:>8,}"
            f"{every[len(every) // 2] * 1000:>11.2f}{every[-1] * 1000:>9.0f}"
        )
    print(f"together {sum(ends.values()):,} inputs in {took:.0f} s: {dict(ends)}")
    seen = Counter()
    for name, end, number, trace in faults:
        last = trace.strip().splitlines()
        where = next((line for line in reversed(last) if line.lstrip().startswith("File")), "")
        seen[where] += 1
        if seen[where] == 1:
            print(f"\n{name}, input {number}: {end}\n{trace[-1800:]}")
    for where, count in seen.most_common():
        print(count, where.strip())


if __name__ == "__main__":
    main()
