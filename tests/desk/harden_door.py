"""The Harden page on the shelf's rack, with a bell that remembers and a clock that is moved by hand."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from PySide6.QtCore import QDateTime, Qt
from PySide6.QtTest import QTest

from greenroom.desk.harden.page import HardenPage
from greenroom.desk.keeper import Keeper
from greenroom.desk.start import make_application
from greenroom.desk.window import Window
from greenroom.season import deeds_harden as deeds
from greenroom.season.deeds_shelf import add_weather
from greenroom.season.deeds_spots import move
from greenroom.season.spots import SpotKey
from greenroom.season.two_clocks import two_clocks

ZONE = ZoneInfo("Europe/Ljubljana")
TODAY = date(2027, 5, 14)
FIRST = date(2027, 5, 9)
NO_SCREEN = "This plugin does not support"  # said by the platform without a screen
STEPS = (20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600)
"""The minutes of the default ramp: 20 to 600 in 11 outings, each the same share longer, rounded to 5."""


class FakeBell:
    """Remembers what it was rung for; ``hushed`` counts how often it was told to be quiet."""

    def __init__(self):
        self.rung = []
        self.hushed = 0

    def ring(self, title, text):
        self.rung.append((title, text))

    def hush(self):
        self.hushed += 1


def at(clock, day=TODAY):
    """The moment of a local time."""
    hour, minute = (int(part) for part in clock.split(":"))
    return datetime.combine(day, time(hour, minute), tzinfo=ZONE).astimezone(UTC)


def potted(keeper, count=4):
    """Seedlings of the shelf's tray, in the pots of its rack; returns tray and rack."""
    tray, rack = keeper.season.holders()
    sources = [SpotKey(tray.key, row, column) for row in range(5) for column in range(2)][:count]
    day = date(2027, 4, 10)
    assert keeper.do(lambda: move(keeper.season, sources, SpotKey(rack.key, 0, 0), day))
    return tray.key, rack.key


def hardened_until(keeper, holder, days=5):
    """A holder on the default ramp, with an outing done from 9:00 on each of ``days`` days to yesterday."""
    first = TODAY - timedelta(days=days)
    assert keeper.do(lambda: deeds.start_hardening(keeper.season, holder, first))
    for number, minutes in enumerate(STEPS[:days]):
        start = at("9:00", first + timedelta(days=number))
        end = start + timedelta(minutes=minutes)
        assert keeper.do(
            lambda start=start, end=end: deeds.enter_outing(
                keeper.season, holder, [(start, "sun")], end, keeper.now
            )
        )


def stand_of(keeper, holder):
    return two_clocks(keeper.season, holder, keeper.today, keeper.now)


def weather(keeper, *days):
    """Bring in a record of days."""
    assert keeper.do(lambda: add_weather("a record", "Ridge Lane", tuple(days), TODAY))


def shown_page(qtbot, bench, bell=None):
    """The page as the window shows it, told of every change."""
    make_application()
    Window.dress_application(bench.look)
    page = HardenPage(bench, bell or FakeBell())
    qtbot.addWidget(page, before_close_func=lambda page: page.leave())
    bench.keeper.changed.connect(page.take)
    page.resize(1024, 614)
    page.show()
    page.entered()
    return page


def restarted(keeper):
    """A new keeper on the same ledger, as after the program was started again."""
    return Keeper(keeper.ledger, keeper.clock)


def click(button):
    assert button.isVisible(), f"{button.text()} is not shown"
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def go_on(page, moment, **time):
    """Let time pass, and the window's second with it."""
    moment.go_on(**time)
    page.tick(moment.moment)


def set_time(field, clock):
    """Type a time over the one a field shows."""
    hour, minute = (int(part) for part in clock.split(":"))
    told = field.dateTime()
    field.setDateTime(
        QDateTime(told.date(), told.time().fromString(f"{hour:02d}:{minute:02d}", "HH:mm"), told.timeZone())
    )
