"""The list of who goes out: a sound model, told to screen readers, painted in both themes."""

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QAbstractItemModelTester, QSignalSpy

from greenroom.agronomy.sunlight import sun_dose
from greenroom.desk.harden.going_out import DoorModel
from greenroom.season import deeds_harden as deeds
from greenroom.season.door import at_door
from tests.desk.harden_door import NO_SCREEN, shown_page, stand_of

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


def rows(keeper, holders):
    return [at_door(keeper.season, stand_of(keeper, key), keeper.now) for key in holders]


def test_the_model_is_sound_through_all_it_is_shown(qtmodeltester, keeper, moment, holders):
    model = DoorModel(keeper.place)
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    model.show_rows(rows(keeper, holders), keeper.place)
    keeper.do(lambda: deeds.go_out(keeper.season, holders[0], keeper.now))
    model.show_rows(rows(keeper, holders), keeper.place)
    model.show_rows(rows(keeper, holders[::-1]), keeper.place)
    model.show_rows([], keeper.place)
    model.show_rows(rows(keeper, holders), keeper.place)
    qtmodeltester.check(model)
    assert tester.model() is model


def test_a_second_changes_only_the_rows_that_are_out(keeper, moment, holders):
    model = DoorModel(keeper.place)
    keeper.do(lambda: deeds.go_out(keeper.season, holders[0], keeper.now))
    model.show_rows(rows(keeper, holders), keeper.place)
    changed, reset = QSignalSpy(model.dataChanged), QSignalSpy(model.modelReset)
    moment.go_on(seconds=1)
    model.show_rows(rows(keeper, holders), keeper.place)
    assert [changed.at(line)[0].row() for line in range(changed.count())] == [0]
    assert reset.count() == 0


def test_each_holder_is_told_in_one_line(qtbot, bench, keeper, moment, holders):
    page = shown_page(qtbot, bench)
    keeper.do(lambda: deeds.go_out(keeper.season, holders[1], keeper.now))
    moment.go_on(minutes=100)
    page.tick(moment.moment)
    index = page.going.model.index(0)
    place, since = keeper.place, keeper.now - timedelta(minutes=100)
    light = sun_dose(
        since, keeper.now, place.latitude, place.longitude
    )  # held against pvlib in tests/agronomy
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == (
        "Rack 1, out since 9:54, 100 of 110 minutes of sun, back in at 11:44, in 10 min, "
        f"{light:.1f} mol/m² of light, step 6 of 11, "
        "ready to set out 19 May, as first planned"
    )
    interface = QAccessible.queryAccessibleInterface(page.going.view)
    assert interface.text(QAccessible.Text.Name) == "Going out today"


def test_the_next_to_come_in_looks_different_from_what_waits(qtbot, bench, keeper, moment, holders):
    page = shown_page(qtbot, bench)
    keeper.do(lambda: deeds.go_out(keeper.season, holders[1], keeper.now))
    page.going.choose(holders[0])
    view = page.going.view
    ground = [
        view.viewport().grab().toImage().pixelColor(view.visualRect(page.going.model.index(row)).center())
        for row in (0, 1)
    ]
    first = view.visualRect(page.going.model.index(0)).height()
    assert first > view.visualRect(page.going.model.index(1)).height()
    assert ground[0] != ground[1]


def test_the_cards_are_painted_in_both_themes(qtbot, bench, holders):
    page = shown_page(qtbot, bench)
    light = page.going.view.grab().toImage()
    bench.look.set_dark(True)
    assert page.going.view.grab().toImage() != light


def test_a_holder_that_is_put_away_leaves_the_list(qtbot, bench, keeper, holders):
    from greenroom.season.deeds_shelf import retire_holder
    from greenroom.season.deeds_spots import mark_lost
    from greenroom.season.spots import SpotKey

    page = shown_page(qtbot, bench)
    tray, rack = holders
    pots = [SpotKey(rack, 0, column) for column in range(4)]
    keeper.do(lambda: mark_lost(keeper.season, pots, keeper.today))
    keeper.do(lambda: retire_holder(keeper.season, rack, keeper.today))
    assert [here.key for here in page.going.model.rows] == [tray]
    assert page.card.key == tray


def test_many_holders_are_told_apart_by_who_is_next(keeper, moment, shelf, holders):
    for key in holders:
        keeper.do(lambda key=key: deeds.go_out(keeper.season, key, keeper.now))
        moment.go_on(minutes=1)
    found = rows(keeper, holders)
    assert found[0].due < found[1].due
    assert found[1].due - found[0].due == timedelta(minutes=71)
