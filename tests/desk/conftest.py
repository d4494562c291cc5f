"""A desk for every test of the window: a ledger of its own, a clock that stands still."""

import shutil
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from greenroom.desk.bench import Bench
from greenroom.desk.clock import Clock
from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.ledger import Ledger
from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder, set_place
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey
from tests.desk.harden_door import hardened_until, potted

ZONE = ZoneInfo("Europe/Ljubljana")
TODAY = date(2027, 5, 14)
NOW = datetime(2027, 5, 14, 9, 54, tzinfo=ZONE).astimezone(UTC)


class MovableClock:
    """A clock that moves when it is told to."""

    def __init__(self, moment: datetime) -> None:
        self.moment = moment

    def __call__(self) -> datetime:
        return self.moment

    def go_on(self, **time: float) -> None:
        self.moment += timedelta(**time)


@pytest.fixture
def moment():
    """The moment it is; ``moment.go_on(minutes=5)`` lets time pass."""
    return MovableClock(NOW)


@pytest.fixture
def ledger_path(tmp_path):
    return tmp_path / "season.greenroom"


@pytest.fixture(scope="session")
def ready_made(tmp_path_factory):
    """Ledgers written once and copied for every test that asks for the same things in them."""
    folder = tmp_path_factory.mktemp("ready made")
    made = {}

    def copy(stock, moment, path):
        key = (*stock.items(), moment)
        if key not in made:
            made[key] = folder / f"{len(made)}.greenroom"
            with Ledger.open(made[key], clock=MovableClock(moment), who="tester") as ledger:
                keeper = Keeper(ledger, Clock(MovableClock(moment)))
                assert keeper.do(lambda: set_place("Ridge Lane", 46.4, 16.0, "Europe/Ljubljana", TODAY))
                for fill in stock.values():
                    fill(keeper)
        shutil.copy(made[key], path)

    return copy


@pytest.fixture
def keeper(request, qapp, ledger_path, moment, ready_made):
    """A keeper at a known place, on 14 May 2027 at 9:54.

    Its ledger holds what the test's fixtures named in STOCK fill it with, and nothing else. A test
    module may have a STOCK of its own: by the name of the fixture, what fills the ledger for it.
    """
    known = STOCK | getattr(request.module, "STOCK", {})
    stock = {name: fill for name, fill in known.items() if name in request.fixturenames}
    ready_made(stock, moment(), ledger_path)
    with Ledger.open(ledger_path, clock=moment, who="tester") as ledger:
        yield Keeper(ledger, Clock(moment))


@pytest.fixture
def bench(keeper):
    """A bench that remembers what was said, explained and shown."""
    made = Bench(keeper, Look(dark=False))
    made.said, made.explained, made.shown = [], [], []
    made.say = made.said.append
    made.explain = lambda why, anchor: made.explained.append(why)
    made.show_page = made.shown.append
    keeper.refused.connect(made.said.append)
    return made


@pytest.fixture
def shelf(keeper):
    """The season on the shelf that ``fill_shelf`` fills."""
    return keeper.season


@pytest.fixture
def rack(keeper, shelf):
    """The shelf's rack with four seedlings, on the sixth step of its ramp on 14 May: 110 minutes."""
    _, rack = potted(keeper)
    hardened_until(keeper, rack)
    return rack


@pytest.fixture
def holders(keeper, shelf):
    """The shelf's tray, which asks for 40 minutes today, and its rack, which asks for 110."""
    tray, rack = potted(keeper)
    hardened_until(keeper, rack)
    hardened_until(keeper, tray, days=2)
    return tray, rack


@pytest.fixture
def settle(qtbot):
    """Let timers and repaints that are due happen."""
    return lambda ms=60: qtbot.wait(ms)


def holder_named(season, name):
    """The key of a holder by its name."""
    return next(one.key for one in season.holders() if one.name == name)


def fill_shelf(keeper):
    """Two packets, a 6 x 12 tray half sown on 12 March with ten cells up, and a rack of 3 x 6 pots."""
    sown_on = date(2027, 3, 12)
    seeds = [
        SeedEntry("Cinder Lantern", None, "26-01", 2026, 40, 0.85, 100),
        SeedEntry("Brass Bell", None, "26-02", 2026, 60, 0.92, 75),
    ]
    keeper.do(lambda: add_packets(keeper.season, seeds, sown_on))
    keeper.do(
        lambda: make_holder(
            keeper.season,
            name="Tray A",
            form="tray",
            rows=6,
            columns=12,
            day=sown_on,
            cell_ml=43,
            place="shelf 1",
            mix_c=24,
        )
    )
    keeper.do(
        lambda: make_holder(
            keeper.season, name="Rack 1", form="rack", rows=3, columns=6, day=sown_on, size="9 cm"
        )
    )
    tray, _ = keeper.season.holders()
    brass, cinder = packets(keeper.season)
    for packet, first in ((cinder, 0), (brass, 3)):
        cells = [SpotKey(tray.key, row, column) for row in range(6) for column in range(first, first + 3)]
        keeper.do(lambda packet=packet, cells=cells: sow(keeper.season, packet.key, cells, sown_on))
    up = [SpotKey(tray.key, row, column) for row in range(5) for column in range(2)]
    keeper.do(lambda: mark_up(keeper.season, up, date(2027, 3, 21)))


STOCK = {"shelf": fill_shelf}
