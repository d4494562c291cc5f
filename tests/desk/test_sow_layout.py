"""Trays laid out from the plan: looked at, altered by hand, sown in one act. And light and warmth."""

from datetime import date

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from greenroom.ledger.facts import LampMeasured
from greenroom.season.deeds_plan import want_each
from greenroom.season.deeds_shelf import SeedEntry, add_packets
from greenroom.season.packets import packets
from tests.desk.sow_hands import open_whole
from tests.desk.test_sow_plan import LEFT, NONE, Drag, send

K = Qt.Key
MARCH = date(2027, 3, 5)
SEEDS = [
    SeedEntry("Brass Bell", "bell", "26-02", 2026, 60, 0.92, 75),
    SeedEntry("Quince Horn", "long-sweet", "26-03", 2026, 60, 0.9, 82),
    SeedEntry("Lintel Lettuce", "lettuce", "26-04", 2026, 300, 0.92, 50),
]


def middle(canvas, tray, cell):
    """The middle of a cell on the canvas."""
    return canvas.sheets[tray].grid.slot(cell).center()


@pytest.fixture
def moment(moment):
    """5 March 2027."""
    moment.go_on(days=(MARCH - date(2027, 5, 14)).days)
    return moment


@pytest.fixture
def box(keeper):
    keeper.do(lambda: add_packets(keeper.season, SEEDS, MARCH))
    found = {view.name: view.packet.variety for view in packets(keeper.season)}
    keeper.do(lambda: want_each(keeper.season, dict.fromkeys(found.values(), 6), 2027, MARCH))
    return found


@pytest.fixture
def page(qtbot, bench, box):
    made = open_whole(qtbot, bench)
    made.show_view("trays")
    QTest.mouseClick(made.lay_out_button, LEFT)
    assert made.view == "layout"
    return made


def names(page):
    return [[block.name for block in one.blocks] for one in page.layout_view.canvas.trays]


def where(page, name):
    canvas = page.layout_view.canvas
    return next(one for one in canvas.blocks if canvas.block(one).name == name)


def sown(keeper):
    season = keeper.season
    return sum(spot.waiting > 0 for one in season.holders() for spot in season.spots(one.key))


def choose(page, name):
    canvas = page.layout_view.canvas
    place = where(page, name)
    send(
        canvas,
        QEvent.Type.MouseButtonPress,
        middle(canvas, place[0], canvas.block(place).cells[0]),
        LEFT,
        LEFT,
    )
    send(
        canvas,
        QEvent.Type.MouseButtonRelease,
        middle(canvas, place[0], canvas.block(place).cells[0]),
        LEFT,
        NONE,
    )
    assert canvas.current == place
    return place


def test_kinds_alike_share_a_tray_and_nothing_is_sown_yet(page, keeper):
    """Peppers and lettuce do not: 25 to 30 °C and 15 to 20 °C are best. Harrington and Minges 1954."""
    assert sorted(map(sorted, names(page))) == [["Brass Bell", "Quince Horn"], ["Lintel Lettuce"]]
    assert sown(keeper) == 0


def test_sow_these_sows_all_of_it_in_one_act(page, keeper):
    cells = sum(len(page.layout_view.canvas.block(one).cells) for one in page.layout_view.canvas.blocks)
    before = len(keeper.ledger.acts(100))
    QTest.mouseClick(page.layout_view.sow, LEFT)
    assert sown(keeper) == cells
    assert len(keeper.season.holders("tray")) == 2
    assert len(keeper.ledger.acts(100)) == before + 1
    assert page.view == "trays"
    assert page.filling.holder_key in {one.key for one in keeper.season.holders("tray")}
    keeper.undo()
    assert sown(keeper) == 0
    assert keeper.season.holders("tray") == []


def test_a_block_is_dragged_to_other_cells(page):
    canvas = page.layout_view.canvas
    place = choose(page, "Brass Bell")
    start = canvas.block(place).cells[0]
    drag = Drag(canvas, middle(canvas, place[0], start))
    drag.to(middle(canvas, place[0], (0, 8))).to(middle(canvas, place[0], (0, 9)))
    drag.drop()
    moved = canvas.block(where(page, "Brass Bell"))
    assert moved.cells[0] == (0, 9)
    assert canvas.current == where(page, "Brass Bell")


def test_a_block_cannot_be_put_on_another(page, bench):
    canvas = page.layout_view.canvas
    place, other = choose(page, "Brass Bell"), where(page, "Quince Horn")
    drag = Drag(canvas, middle(canvas, place[0], canvas.block(place).cells[0]))
    before = canvas.block(place).cells
    drag.to(middle(canvas, other[0], canvas.block(other).cells[0])).drop()
    assert "is Quince Horn's" in bench.said[0]
    assert canvas.block(where(page, "Brass Bell")).cells == before


def test_arrows_move_the_block_and_delete_leaves_it_out(page):
    canvas = page.layout_view.canvas
    choose(page, "Lintel Lettuce")
    canvas.setFocus()
    QTest.keyClick(canvas, K.Key_Right)
    assert canvas.block(where(page, "Lintel Lettuce")).cells[0] == (0, 1)
    QTest.keyClick(canvas, K.Key_Down)
    assert canvas.block(where(page, "Lintel Lettuce")).cells[0] == (1, 1)
    QTest.keyClick(canvas, K.Key_Delete)
    assert ["Lintel Lettuce"] not in names(page)


def test_n_goes_from_block_to_block(page):
    canvas = page.layout_view.canvas
    canvas.setFocus()
    seen = set()
    for _ in range(3):
        seen.add(canvas.block(canvas.current).name)
        QTest.keyClick(canvas, K.Key_N)
    assert seen == {"Brass Bell", "Quince Horn", "Lintel Lettuce"}
    assert canvas.block(canvas.current).name in canvas.accessibleDescription()


def test_a_block_tells_why_so_many_seeds_of_it_are_sown(page, bench):
    page.layout_view.canvas.setFocus()
    QTest.keyClick(page.layout_view.canvas, K.Key_N)
    block = page.layout_view.canvas.block(page.layout_view.canvas.current)
    QTest.mouseClick(page.layout_view.seeds_why, LEFT)
    seeds = len(block.cells) * block.seeds_a_cell
    assert bench.explained[-1].figure == f"{seeds} seeds in {len(block.cells)} cells"
    assert dict(bench.explained[-1].inputs)["plants wanted"] == "6"


def test_the_menu_takes_a_block_to_another_tray(page):
    place = choose(page, "Lintel Lettuce")
    menu = page.layout_view.menu()
    action = next(one for one in menu.actions() if one.text().startswith("To "))
    action.trigger()
    menu.close()
    assert where(page, "Lintel Lettuce")[0] != place[0]


def test_putting_the_layout_aside_sows_nothing(page, keeper):
    QTest.mouseClick(page.layout_view.back, LEFT)
    assert page.view == "trays"
    assert sown(keeper) == 0


def test_with_nothing_left_to_sow_it_says_so(page, bench):
    QTest.mouseClick(page.layout_view.sow, LEFT)
    page.lay_out()
    assert bench.said[-1] == "Nothing of the plan of 2027 is left to be sown."
    assert page.view == "trays"


def test_a_sowing_for_a_season_not_yet_begun_is_cautioned(page, keeper, box):
    keeper.do(lambda: want_each(keeper.season, {box["Brass Bell"]: 4}, 2029, MARCH))
    page.desk.show_year(2029)
    page.lay_out()
    assert "sown from 1 December 2028" in page.layout_view.early.text()


# light and warmth


def test_lux_of_a_lamp_become_the_light_of_a_day(page, keeper):
    """8,400 lux of sun are 8,400 / 54 = 155.6 µmol; 16 h of it 8.96 mol. Thimijan and Heins 1983."""
    page.show_view("light")
    light = page.light
    light.place.setEditText("shelf 1")
    light.unit.setCurrentIndex(light.unit.findData("lux"))
    light.lamp.setCurrentText("sun")
    light.value.setValue(8400)
    light.hours.setValue(16)
    QTest.mouseClick(light.note, LEFT)
    assert keeper.season.facts(LampMeasured)[0].lux == 8400
    card = light.shelves.itemAt(0).widget()
    assert "156 µmol" in card.aside.text()
    assert any("9.0 mol a day" in one.text() for one in card.findChildren(QLabel))
    keeper.undo()
    assert light.none.isVisible()


def test_a_shelf_without_a_name_is_refused(page, bench):
    page.show_view("light")
    page.light.place.setEditText("")
    QTest.mouseClick(page.light.note, LEFT)
    assert bench.said == ["The shelf needs a name, the one its trays stand under."]


def test_the_mat_tells_the_days_by_its_warmth(page):
    """Pepper: 13 days at 20 °C, 8 at 25 °C. Harrington and Minges 1954, days from sowing to emergence."""
    page.show_view("light")
    mat = page.light.mat
    mat.slider.setValue(20)
    assert mat.here["bell"].text() == "13 days"
    mat.slider.setValue(25)
    assert mat.here["bell"].text() == "8 days"
    assert mat.reads.text() == "25 °C"


def test_the_caution_about_mains_is_always_there(page):
    page.show_view("light")
    words = [one.text() for one in page.light.findChildren(QLabel) if one.isVisible()]
    assert any("Water and mains" in one for one in words)
