"""The place: written where it is edited, units taken at once, all of it undone like anything else."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QRadioButton

from greenroom.desk.place.cautions import CAUTIONS
from greenroom.desk.place.page import PlacePage
from greenroom.ledger.facts import PlaceSet, UnitsSet
from tests.desk.place_hands import fill

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def page(qtbot, bench, keeper):
    made = PlacePage(bench)
    qtbot.addWidget(made)
    keeper.changed.connect(made.take)
    made.resize(1024, 614)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    return made


def unit(page, words):
    return next(one for one in page.where.units.findChildren(QRadioButton) if one.text() == words)


def test_the_place_stands_in_its_fields(page):
    fields = page.where.where.fields
    texts = [field.text() for field in (fields.name, fields.latitude, fields.longitude)]
    assert texts == ["Ridge Lane", "46.4", "16"]
    assert fields.zone.currentText() == "Europe/Ljubljana"


def test_a_field_that_is_changed_and_left_is_written_and_can_be_undone(page, keeper):
    fill(page.where.where.fields.latitude, "47°30' N")
    page.where.where.fields.longitude.setFocus()
    assert keeper.place.latitude == 47.5
    keeper.undo()
    assert keeper.place.latitude == 46.4
    assert page.where.where.fields.latitude.text() == "46.4"


def test_leaving_the_page_writes_what_is_being_edited(page, keeper):
    fill(page.where.where.fields.name, "Mill Yard")
    page.leave()
    assert keeper.place.name == "Mill Yard"


def test_a_field_left_as_it_was_writes_nothing(page, keeper):
    acts = len(keeper.ledger.acts())
    fill(page.where.where.fields.name, "Ridge Lane")
    page.leave()
    assert len(keeper.ledger.acts()) == acts


def test_what_cannot_be_read_is_told_and_put_back_on_leaving(page, keeper, bench):
    fill(page.where.where.fields.latitude, "north")
    page.leave()
    assert "Latitude: “north”" in bench.said[0]
    assert page.where.where.fields.latitude.text() == "46.4"
    assert keeper.place.latitude == 46.4


def test_an_emptied_name_is_refused_and_put_back(page, keeper, bench):
    fill(page.where.where.fields.name, "")
    page.leave()
    assert bench.said[0].startswith("The place needs a name")
    assert keeper.place.name == "Ridge Lane"
    assert page.where.where.fields.name.text() == "Ridge Lane"


def test_a_zone_is_chosen_from_the_list(page, keeper):
    zone = page.where.where.fields.zone
    zone.setCurrentIndex(zone.findText("Europe/Vienna"))
    zone.activated.emit(zone.currentIndex())
    assert keeper.place.zone.key == "Europe/Vienna"


def test_units_are_taken_with_one_click_and_undone(page, keeper):
    QTest.mouseClick(unit(page, "°F"), LEFT, pos=unit(page, "°F").rect().center())
    assert (keeper.place.temperature, keeper.place.volume) == ("f", "ml")
    QTest.mouseClick(unit(page, "fl oz (US)"), LEFT, pos=unit(page, "fl oz (US)").rect().center())
    assert (keeper.place.temperature, keeper.place.volume) == ("f", "floz")
    keeper.undo()
    assert (keeper.place.temperature, keeper.place.volume) == ("f", "ml")
    assert unit(page, "mL").isChecked()


def test_units_are_taken_with_the_keys(page, keeper):
    unit(page, "°C").setFocus()
    QTest.keyClick(unit(page, "°C"), Qt.Key.Key_Right)
    assert keeper.place.temperature == "f"


def test_the_unit_that_is_in_use_written_again_changes_nothing(page, keeper):
    QTest.mouseClick(unit(page, "°F"), LEFT, pos=unit(page, "°F").rect().center())
    acts = len(keeper.ledger.acts())
    QTest.mouseClick(unit(page, "°F"), LEFT, pos=unit(page, "°F").rect().center())
    assert len(keeper.ledger.acts()) == acts
    assert len(keeper.ledger.facts(UnitsSet.kind)) == 1


def test_a_place_set_elsewhere_shows_when_the_page_comes_to_the_front(page, keeper):
    from greenroom.season.deeds_shelf import set_place

    page.hide()
    before = keeper.season.latest(PlaceSet)
    keeper.do(
        lambda: set_place("Mill Yard", -37.8, 144.9, "Australia/Melbourne", keeper.today, before=before)
    )
    page.show()
    page.entered()
    assert page.where.where.fields.name.text() == "Mill Yard"


def test_the_cautions_are_there_to_read(page):
    shown = {one.text() for one in page.tabs.part("care").cautions.findChildren(QLabel)}
    for title, text in CAUTIONS:
        assert {title, text} <= shown
    words = " ".join(text for _, text in CAUTIONS)
    for needed in ("GFCI", "loop", "The label is the law", "gloves", "lift", "extension service"):
        assert needed in words


def test_every_field_has_a_name_for_a_screen_reader(page):
    fields = page.where.where.fields
    named = (fields.town, fields.name, fields.latitude, fields.longitude, fields.zone)
    assert all(field.accessibleName() for field in named)
    assert all(one.accessibleName() for one in page.where.units.findChildren(QRadioButton))
    assert page.tabs.part("record").importing.file.path.accessibleName()


@pytest.mark.parametrize("part", ["where", "record", "service", "care"])
def test_at_the_smallest_window_no_part_is_cut_at_its_side(page, part):
    page.resize(1024, 568)
    page.tabs.open_tab(part)
    area = page.tabs.area(part)
    assert area.widget().minimumSizeHint().width() <= area.viewport().width()


def test_the_parts_are_gone_through_with_the_arrow_keys(page):
    page.tabs.bar.setFocus()
    shown = [page.tabs.current]
    for _ in range(6):
        QTest.keyClick(page.tabs.bar, Qt.Key.Key_Right)
        shown.append(page.tabs.current)
    assert shown == ["where", "record", "service", "files", "archive", "copies", "care"]
    assert page.tabs.part("care").isVisible()
    assert not page.where.isVisible()


def test_what_is_known_of_the_weather_leads_on(page):
    known = page.where.known
    assert known.record.text().startswith("none yet")
    assert known.forecast.text().startswith("off")
    QTest.mouseClick(known.to_record, LEFT)
    assert page.tabs.current == "record"
    page.tabs.open_tab("where")
    QTest.mouseClick(known.to_service, LEFT)
    assert page.tabs.current == "service"
