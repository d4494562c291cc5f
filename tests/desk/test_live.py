"""Two windows on one ledger: each sees the other's marks, and goes on while the server is away."""

from contextlib import contextmanager

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QPushButton

from greenroom.desk.bench import Bench
from greenroom.desk.clock import Clock
from greenroom.desk.keeper import Keeper
from greenroom.desk.live_session import shared_ledger
from greenroom.desk.look import Look
from greenroom.desk.place.page import PlacePage
from greenroom.ledger import Ledger
from greenroom.ledger.facts import new_key
from greenroom.season.deeds_shelf import set_place
from greenroom.season.deeds_spots import mark_lost, mark_up, sow
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from tests.desk.conftest import NOW, TODAY, MovableClock, fill_shelf

LEFT = Qt.MouseButton.LeftButton
PATIENCE_MS = 20_000  # how soon it is seen is measured by tests/speed/bench_news.py


class Desk:
    """One person's window, without its pages."""

    def __init__(self, keeper):
        self.keeper, self.live = keeper, keeper.live
        self.said, self.seen = [], []
        keeper.refused.connect(self.said.append)
        keeper.changed.connect(self.seen.append)

    @property
    def season(self):
        return self.keeper.season

    @property
    def cells(self):
        tray = self.season.holders()[0]
        return [SpotKey(tray.key, row, 2) for row in range(tray.rows)]

    def up(self, *rows):
        return self.keeper.do(lambda: mark_up(self.season, [self.cells[row] for row in rows], TODAY))

    def lost(self, row):
        return self.keeper.do(lambda: mark_lost(self.season, [self.cells[row]], TODAY))

    @property
    def free(self):
        return [SpotKey(self.cells[0].holder, 0, 7)]

    def state(self, row):
        spot = self.season.spot(self.cells[row])
        return spot.waiting, spot.up


@pytest.fixture(scope="module")
def name(server, qapp):
    """A database with the shelf in it."""
    name = f"shelf_{new_key()[:12]}"
    with server.asked() as hand:
        hand.exec_driver_sql(f"CREATE DATABASE {name}")
        with Ledger.open(server.url(name), clock=MovableClock(NOW), who="keeper") as ledger:
            keeper = Keeper(ledger, Clock(MovableClock(NOW)))
            keeper.do(lambda: set_place("Ridge Lane", 46.4, 16.0, "Europe/Ljubljana", TODAY))
            fill_shelf(keeper)
        yield name
        hand.exec_driver_sql(f"DROP DATABASE {name} WITH (FORCE)")


@pytest.fixture
def open_desk(server, name, tmp_path, moment, qtbot):
    """Return a function that opens a person's window; the same person's outbox is in the same folder."""

    @contextmanager
    def opened(who):
        folder = tmp_path / who
        folder.mkdir(exist_ok=True)
        with shared_ledger(server.url(name), who=who, folder=folder, clock=Clock(moment)) as keeper:
            desk = Desk(keeper)
            desk.waited = list(keeper.live.waiting)
            qtbot.waitSignal(keeper.live.turned).wait()  # it hears the server
            yield desk

    return opened


def texts(part, *wanted):
    """Whether each of some words is shown by a label of a part."""
    shown = [one.text() for one in part.findChildren(QLabel)]
    return all(any(words in text for text in shown) for words in wanted)


def same(desk, url):
    """Whether a window's season is the one that is in the ledger."""
    with Ledger.open(url) as ledger:
        anew = Season(ledger.entries())
    keys = [one.key for one in anew.holders()]
    return all(anew.spots(key) == desk.season.spots(key) for key in keys) and keys == [
        one.key for one in desk.season.holders()
    ]


def test_each_window_sees_the_others_marks_as_they_are_made_and_undoes_its_own(
    open_desk, server, name, qtbot, moment
):
    with open_desk("Ana") as ana, open_desk("Bor") as bor:
        assert ana.up(0)
        qtbot.waitUntil(lambda: bor.state(0) == (0, 1), timeout=PATIENCE_MS)
        assert ana.cells[0] in bor.seen[-1].spots
        assert bor.up(1)
        qtbot.waitUntil(lambda: ana.state(1) == (0, 1), timeout=PATIENCE_MS)
        assert ana.keeper.undo()
        assert (ana.state(0), ana.state(1)) == ((1, 0), (0, 1))
        assert ana.keeper.redo()

        assert bor.lost(0)
        assert not ana.keeper.undo()
        assert ana.said[-1].startswith("Bor wrote about A3 of Tray A since, so it is not undone")
        assert bor.keeper.undo()
        assert bor.keeper.undo()
        assert ana.keeper.undo()
        qtbot.waitUntil(lambda: bor.state(0) == ana.state(1) == (1, 0), timeout=PATIENCE_MS)
        assert same(ana, server.url(name))


def test_of_two_who_mark_the_same_cell_at_once_the_later_is_told_who_was_first(
    open_desk, server, name, qtbot
):
    with open_desk("Ana") as ana, open_desk("Bor") as bor:
        for desk in (ana, bor):
            desk.live._ears.stop()  # so that neither hears of the other before it writes
        assert ana.up(3)
        assert not bor.up(3)
        assert bor.said[-1].startswith("Ana was first: The sprout")
        assert bor.state(3) == (0, 1)
        assert bor.up(4)
        assert ana.lost(5)
        assert ana.state(4) == (0, 1)
        assert same(ana, server.url(name))
        for _ in range(2):
            assert ana.keeper.undo()
        assert bor.keeper.undo()

        told = []
        assert ana.up(3)
        bor.keeper.do_apart(lambda: mark_up(bor.season, bor.cells[2:4], TODAY), told.append)
        qtbot.waitUntil(lambda: told == [False])
        assert bor.said[-1].startswith("Ana wrote about the same cells meanwhile")
        assert (bor.state(2), bor.state(3)) == ((1, 0), (0, 1))
        assert ana.up(4)
        bor.keeper.do_apart(lambda: mark_up(bor.season, bor.cells[2:3], TODAY), told.append)
        qtbot.waitUntil(lambda: told == [False, True])
        assert (bor.state(2), bor.state(4)) == ((0, 1), (0, 1))
        assert same(bor, server.url(name))
        assert bor.keeper.undo()
        for _ in range(2):
            assert ana.keeper.undo()


def test_marks_made_while_the_server_is_away_are_sent_once_when_it_is_back(
    open_desk, server, name, qtbot, tmp_path
):
    with open_desk("Ana") as ana, open_desk("Bor") as bor:
        before = len(ana.keeper.ledger.acts())
        with server.away(name):
            assert ana.up(0, 1)
            assert ana.said[-1].startswith("The server does not answer; what you mark waits")
            assert ana.up(2)
            assert ana.keeper.do(lambda: sow(ana.season, packets(ana.season)[0].key, ana.free, TODAY))
            assert (ana.state(0), ana.state(2), len(ana.live.waiting)) == ((0, 1), (0, 1), 3)
            assert not ana.keeper.undo()
            assert "Undo and redo need the server" in ana.said[-1]
            assert ana.keeper.act(ana.live.waiting[0].act.number).who == "Ana"
        qtbot.waitUntil(lambda: not ana.live.waits and bor.state(2) == (0, 1), timeout=PATIENCE_MS)
        assert ana.said[-1] == "The server answers again; 3 acts that waited were sent."
        assert [act.who for act in bor.keeper.ledger.acts()[:-before]] == ["Ana"] * 3
        assert same(ana, server.url(name))
        assert same(bor, server.url(name))
        for _ in range(3):
            assert ana.keeper.undo()


def test_what_waits_outlives_the_window_and_what_clashes_then_is_held_back_and_told(
    open_desk, server, name, qtbot
):
    with open_desk("Ana") as ana, server.away(name):
        assert ana.up(0)
        assert ana.up(1)
        assert ana.lost(1)
    with open_desk("Bor") as bor:
        assert bor.lost(1)
    with open_desk("Ana") as ana:
        assert len(ana.waited) == 3
        qtbot.waitUntil(lambda: not ana.live.waits, timeout=PATIENCE_MS)
        assert (ana.state(0), ana.season.spot(ana.cells[1]).lost) == ((0, 1), 1)
        held = ana.live.held
        assert [one.reason.split(":")[0] for one in held] == ["Bor was first"] * 2
        assert any("was held back, since Bor was first; see Sharing" in sentence for sentence in ana.said)
        assert same(ana, server.url(name))
        page = PlacePage(Bench(ana.keeper, Look(dark=False)))
        qtbot.addWidget(page)
        page.open_part("sharing")
        page.show()
        part = page.tabs.part("sharing")
        assert texts(part, "Written so far: Ana", "You write as Ana", "● Connected", "Nothing waits")
        assert [part.written.rows.index(0, column).data() for column in (1, 2)] == [
            "Ana",
            "marked A3 of Tray A up",
        ]
        for name_of_button in ("drop-held-1", "send-held-0"):
            found = part.findChildren(QPushButton, name_of_button)
            (shown,) = (one for one in found if one.isVisible())
            qtbot.mouseClick(shown, LEFT)
        assert ana.live.held == []
        assert not part.held.isVisible()
        assert same(ana, server.url(name))
        with server.away(name):
            qtbot.waitUntil(lambda: texts(part, "○ The server does not answer"), timeout=PATIENCE_MS)
            assert ana.up(4)
            assert texts(part, "1 waiting to be sent")
        qtbot.waitUntil(lambda: texts(part, "● Connected", "Nothing waits"), timeout=PATIENCE_MS)
        page.closing()
