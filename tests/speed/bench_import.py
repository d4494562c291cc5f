"""How long imports take: ``python -m tests.speed.bench_import``."""

import tempfile
import time
from collections.abc import Callable
from datetime import date, timedelta
from pathlib import Path

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.seed_list import look_at_seed_list, read_seed_list
from greenroom.exchange.weather_csv import read_weather, sniff_weather
from tests.exchange.test_weather_csv import write_invented

THIRTY_YEARS_ALLOWED_S = 2.0


def timed(label: str, work: Callable[[], object]) -> float:
    """Print how long ``work`` takes, the best of three, and return it [s]."""
    best = min(_once(work) for _ in range(3))
    print(f"{label:<42} {best * 1000:8.1f} ms")
    return best


def _once(work: Callable[[], object]) -> float:
    begun = time.perf_counter()
    work()
    return time.perf_counter() - begun


def refused(read: Callable[[Path], object], path: Path) -> str:
    """Return the sentence with which ``path`` is refused."""
    try:
        read(path)
    except BadFileError as refusal:
        return str(refusal)
    raise SystemExit(f"{path.name} was not refused")


def main() -> None:
    """Time the imports on invented files."""
    with tempfile.TemporaryDirectory() as folder:
        years = write_invented(Path(folder) / "years.csv", date(1990, 1, 1), 10_958)
        ages = write_invented(Path(folder) / "ages.csv", date(1700, 1, 1), 146_097)
        lines = Path(folder) / "lines.csv"
        first = date(1700, 1, 1)
        many = "".join(f"{first + timedelta(days=count)},1,2\n" for count in range(180_000))
        lines.write_text("DATE,TMIN,TMAX\n" + many * 12)
        seeds = Path(folder) / "seeds.csv"
        row = "Rocoto {n},C. pubescens,{n},2023,25,85 %,110-120\n"
        header = "Variety,Species,Lot,Packed,Seeds,Germination,Days to ripe\n"
        seeds.write_text(header + "".join(row.format(n=n) for n in range(19_900)))
        timed("look at 30 years of weather", lambda: sniff_weather(years))
        slowest = timed("read 30 years of weather", lambda: read_weather(years))
        timed("read 400 years of weather", lambda: read_weather(ages))
        timed("refuse 2 million lines of weather", lambda: refused(read_weather, lines))
        match = look_at_seed_list(seeds).match
        timed("look at 19,900 packets", lambda: look_at_seed_list(seeds))
        timed("read 19,900 packets", lambda: read_seed_list(seeds, match))
    if slowest > THIRTY_YEARS_ALLOWED_S:
        raise SystemExit(f"30 years took {slowest:.2f} s; {THIRTY_YEARS_ALLOWED_S} s are allowed")


if __name__ == "__main__":
    main()
