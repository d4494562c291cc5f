"""Days to ripe on the Seed page: as stated, the grower's own, and the two together."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.ledger.facts import HolderMade, Moved, Picked, WeatherDay, WeatherRecord
from greenroom.season.packets import packet_view
from greenroom.season.proposal import Proposal
from tests.desk.seed_hands import choose_bell, open_page, part

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen


@pytest.fixture
def page(qtbot, bench, keeper, shelf):
    return open_page(qtbot, bench)


@pytest.fixture
def brass(page):
    """Brass Bell chosen, a bell pepper of 75 days by its packet."""
    return choose_bell(page)


def picked(keeper, packet):
    """One plant set out 91 days before today and picked ripe on the 89th, in days of 12 °C·d each."""
    variety = packet_view(keeper.season, packet).packet.variety
    out = keeper.today - timedelta(days=91)
    start = next(iter(keeper.season.spots_sown(packet)))
    days = tuple(WeatherDay(out + timedelta(days=day), 16.0, 28.0) for day in range(91))
    return Proposal(
        "a summer",
        (
            WeatherRecord(day=keeper.today, source="a record", days=days),
            HolderMade(day=date(2026, 5, 1), holder="bed", name="Bed", form="bed", rows=1, columns=2),
            Moved(day=out, to_holder="bed", to_row=0, to_column=0, **start._asdict()),
            Picked(day=out + timedelta(days=89), variety=variety, count=1, holder="bed", row=0, column=0),
        ),
    )


def test_without_picks_the_packets_days_to_ripe_stand(page, brass):
    shown = part(page, "expect")
    assert shown.ripe.text() == "Ripe 75 days after setting out"
    assert shown.ripe_parts.words[:3] == ["Packet", "75 days", "from setting out, 825 °C·d"]
    assert shown.ripe_parts.words[3:6] == ["Own", "–", "no plant of a bed picked ripe yet"]


def test_own_ripe_picks_stand_beside_the_packets_days(page, brass, keeper):
    """90 days of 12 °C·d are 1,080, which is 98 days of 11 °C·d. Deviations of 15 % (stated), 8 % (season)
    and 10 % (plant): 75 + 23.2 × 0.0225 / (0.0225 + 0.0164) = 88 days (Gelman et al. 2013, section 2.5)."""
    keeper.do(lambda: picked(keeper, brass))
    shown = part(page, "expect")
    assert shown.ripe.text() == "Ripe 88 days after setting out"
    assert shown.ripe_parts.words[3:6] == ["Own", "98 days", "of 1 plant by their heat, 1080 °C·d"]
    assert shown.ripe_parts.words[6:8] == ["Together", "88 days"]


def test_days_to_ripe_tell_why_with_the_plants_behind_them(page, brass, keeper, bench):
    """75 days by the packet; a pepper of 12 °C·d a day: see ``picked``."""
    expect = part(page, "expect")
    keeper.do(lambda: picked(keeper, brass))
    QTest.mouseClick(expect.ripe_why, Qt.MouseButton.LeftButton)
    told = dict(bench.explained[-1].inputs)
    assert told["stated"].endswith("on the packet")
    assert told["your own"].endswith("over 1 plant")
    assert bench.explained[-1].sources
