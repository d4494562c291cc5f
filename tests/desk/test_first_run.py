"""The first run: a place and nothing else, or the demo."""

from datetime import UTC, datetime

import pytest
from PySide6.QtCore import QLocale, Qt
from PySide6.QtTest import QTest

from greenroom.desk.bench import Bench
from greenroom.desk.clock import Clock
from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.desk.place.first_run import FirstRun
from greenroom.ledger import Ledger
from tests.desk.place_hands import fill

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def fresh(qapp, tmp_path):
    """A keeper on a ledger nobody has written to."""
    moment = datetime(2027, 2, 20, 8, tzinfo=UTC)
    with Ledger.open(tmp_path / "new.greenroom") as ledger:
        yield Keeper(ledger, Clock(lambda: moment))


@pytest.fixture
def shown():
    return []


@pytest.fixture
def first(qtbot, fresh, shown):
    bench = Bench(fresh, Look(dark=False))
    bench.said = []
    bench.say, bench.show_page = bench.said.append, shown.append
    fresh.refused.connect(bench.said.append)
    page = FirstRun(bench, lambda: shown.append("the demo"))
    qtbot.addWidget(page)
    fresh.changed.connect(page.take)
    page.resize(1024, 614)
    page.show()
    qtbot.waitExposed(page)
    page.entered()
    return page


def fill_place(page, name="Ridge Lane", latitude="46°24' N", longitude="16"):
    fill(page.fields.name, name)
    fill(page.fields.latitude, latitude)
    fill(page.fields.longitude, longitude)
    page.fields.zone.setCurrentText("Europe/Ljubljana")


def choose_town(page, text):
    field = page.fields.town
    fill(field, text)
    popup = field.completer().popup()
    QTest.keyClick(popup, Qt.Key.Key_Down)
    QTest.keyClick(popup, Qt.Key.Key_Return)


def test_a_place_is_asked_for_and_begin_goes_to_the_seed_box(first, fresh, shown):
    fill_place(first)
    QTest.mouseClick(first.begin, LEFT)
    place = fresh.place
    assert (place.name, place.latitude, place.longitude) == ("Ridge Lane", 46.4, 16.0)
    assert place.zone.key == "Europe/Ljubljana"
    assert shown == ["seed"]


def test_the_place_can_be_undone_like_anything_else(first, fresh):
    fill_place(first)
    QTest.mouseClick(first.begin, LEFT)
    fresh.undo()
    assert not fresh.place.known


def test_the_demo_is_offered_and_writes_nothing(first, fresh, shown):
    QTest.mouseClick(first.demo, LEFT)
    assert shown == ["the demo"]
    assert fresh.ledger.facts() == []


def test_a_town_fills_in_the_rest(first, fresh, shown):
    """Maribor lies at 46°33' N, 15°39' E: GeoNames; its clock is Europe/Ljubljana: IANA."""
    choose_town(first, "maribor")
    assert first.fields.name.text() == "Maribor"
    assert float(first.fields.latitude.text()) == pytest.approx(46.55, abs=0.05)
    assert float(first.fields.longitude.text()) == pytest.approx(15.65, abs=0.05)
    assert first.fields.zone.currentText() == "Europe/Ljubljana"
    QTest.mouseClick(first.begin, LEFT)
    assert fresh.place.name == "Maribor"


def test_a_name_that_was_given_stays_when_a_town_is_chosen(first):
    fill(first.fields.name, "Ridge Lane")
    choose_town(first, "maribor")
    assert first.fields.name.text() == "Ridge Lane"


def test_both_coordinates_may_be_pasted_into_the_first(first):
    fill(first.fields.latitude, "46.4, 16.0")
    first.fields.longitude.setFocus()
    assert (first.fields.latitude.text(), first.fields.longitude.text()) == ("46.4", "16.0")


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({"name": ""}, "The place needs a name"),
        ({"latitude": "north"}, "Latitude: “north” stands where degrees"),
        ({"latitude": ""}, "Latitude: nothing stands where degrees"),
        ({"longitude": "200"}, "Longitude: “200” stands where degrees"),
    ],
)
def test_what_cannot_be_gets_one_sentence_and_changes_nothing(first, fresh, shown, values, words):
    fill_place(first, **values)
    QTest.mouseClick(first.begin, LEFT)
    assert len(first.bench.said) == 1
    assert first.bench.said[0].startswith(words)
    assert (fresh.ledger.facts(), shown) == ([], [])


def test_a_zone_that_is_none_is_refused(first, fresh):
    fill_place(first)
    first.fields.zone.setEditText("Ridge/Lane")
    QTest.mouseClick(first.begin, LEFT)
    assert "Time zone: “Ridge/Lane” is none" in first.bench.said[0]
    assert fresh.ledger.facts() == []


def test_a_clock_far_from_the_longitude_is_pointed_out(first):
    fill_place(first, longitude="-122")
    first.begin.setFocus()
    assert "check both" in first.fields.doubt.text()
    assert first.fields.doubt.isVisible()


def test_enter_goes_through_the_fields_and_begins(first, fresh, shown):
    first.fields.zone.setCurrentText("Europe/Ljubljana")
    fields = first.fields
    for field, text in ((fields.name, "Ridge Lane"), (fields.latitude, "46.4"), (fields.longitude, "16")):
        fill(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
    assert shown == ["seed"]
    assert fresh.place.known


def test_leaving_with_every_field_filled_writes_the_place(first, fresh):
    fill_place(first)
    first.leave()
    assert fresh.place.name == "Ridge Lane"


def test_leaving_without_a_place_writes_nothing(first, fresh):
    fill(first.fields.name, "Ridge Lane")
    first.leave()
    assert fresh.ledger.facts() == []
    assert first.bench.said == []


def test_a_machine_set_up_for_us_units_begins_in_fahrenheit_and_ounces(first, fresh, monkeypatch):
    states = QLocale(QLocale.Language.English, QLocale.Country.UnitedStates)
    monkeypatch.setattr(QLocale, "system", lambda: states)
    fill_place(first)
    QTest.mouseClick(first.begin, LEFT)
    assert (fresh.place.temperature, fresh.place.volume) == ("f", "floz")
    fresh.undo()
    assert (fresh.place.known, fresh.place.temperature) == (False, "c")
