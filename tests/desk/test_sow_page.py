"""The Sow page as a grower uses it: dragging packets over cells, choosing cells, the keys, undo."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QDate, QPoint, Qt
from PySide6.QtTest import QTest

from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder, set_units
from greenroom.season.deeds_spots import mark_lost
from tests.desk.conftest import holder_named
from tests.desk.grow_hands import CTRL, LEFT, NO_SCREEN, SHIFT, click, middle, press_key
from tests.desk.sow_hands import Pull, key, open_page, packet_named, pull_packet, sown, spot, take_packet

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

K = Qt.Key
SOWN_ON = date(2027, 3, 12)


@pytest.fixture
def page(qtbot, bench, shelf, keeper):
    """The page with an empty 4 x 6 tray open, and packets of Brass Bell (42 left) and Cinder Lantern (22)."""
    keeper.do(
        lambda: make_holder(
            keeper.season, name="Tray B", form="tray", rows=4, columns=6, day=SOWN_ON, mix_c=25.0
        )
    )
    made = open_page(qtbot, bench)
    made.open_holder(holder_named(keeper.season, "Tray B"))
    return made


def acts(keeper):
    return [act.name for act in keeper.ledger.acts(5)]


# dragging a packet over the cells


def test_a_packet_dragged_over_cells_is_sown_in_each_it_passes_as_one_act(page, keeper):
    before = len(keeper.ledger.acts(500))
    pull_packet(page, "Cinder Lantern").to(page, "A1").to(page, "A2").to(page, "B2").drop()
    assert sown(page, "Cinder Lantern") == ["A1", "A2", "B2"]
    assert len(keeper.ledger.acts(500)) == before + 1
    keeper.undo()
    assert sown(page) == []
    keeper.redo()
    assert sown(page, "Cinder Lantern") == ["A1", "A2", "B2"]


def test_a_quick_drag_leaps_over_no_cell(page):
    pull_packet(page, "Cinder Lantern").to(page, "C1").to(page, "C6").drop()
    assert sown(page) == ["C1", "C2", "C3", "C4", "C5", "C6"]


def test_nothing_is_written_before_the_button_is_let_up(page, keeper):
    before = len(keeper.ledger.acts(500))
    pull = pull_packet(page, "Cinder Lantern").to(page, "A1").to(page, "A3")
    assert len(keeper.ledger.acts(500)) == before
    assert list(page.view.stroke.places) == [(0, 0), (0, 1), (0, 2)]
    assert page.carrier.picture.isVisible()
    assert page.carrier.picture.text() == "Cinder Lantern · 3 cells · 19 left"
    pull.drop()
    assert not page.carrier.picture.isVisible()


def test_escape_lets_the_packet_go_and_sows_nothing(page, keeper):
    before = len(keeper.ledger.acts(500))
    pull = pull_packet(page, "Cinder Lantern").to(page, "A1").to(page, "A3")
    press_key(page.packets, K.Key_Escape)
    pull.to(page, "A5").drop()
    assert len(keeper.ledger.acts(500)) == before
    assert sown(page) == []


def test_a_drag_that_passes_no_cell_sows_nothing(page, keeper):
    before = len(keeper.ledger.acts(500))
    pull_packet(page, "Cinder Lantern").to_point(page.open, QPoint(20, 10)).drop()
    assert len(keeper.ledger.acts(500)) == before


def test_cells_that_hold_something_are_passed_over(page, keeper):
    take_packet(page, "Brass Bell")
    click(page.view, "A2")
    page.sow_chosen()
    pull_packet(page, "Cinder Lantern").to(page, "A1").to(page, "A3").drop()
    assert sown(page, "Cinder Lantern") == ["A1", "A3"]
    assert sown(page, "Brass Bell") == ["A2"]


def test_a_drag_ends_where_the_seeds_do(page, keeper):
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Old Ember", seeds=5)], keeper.today))
    page.card.seeds.setValue(2)
    pull = pull_packet(page, "Old Ember").to(page, "A1").to(page, "A6")
    assert page.carrier.picture.text() == "Old Ember · 2 cells · 1 left"
    pull.drop()
    assert sown(page, "Old Ember") == ["A1", "A2"]
    assert packet_named(page, "Old Ember").left == 1


def test_an_emptied_packet_is_not_taken_in_hand(page, keeper, bench):
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Old Ember", seeds=0)], keeper.today))
    pull_packet(page, "Old Ember").to(page, "A1").drop()
    assert bench.said == ["Old Ember has 0 seeds left; 1 a cell are asked for."]
    assert sown(page) == []


def test_with_the_brush_a_drag_in_the_tray_sows_from_where_it_begins(page):
    take_packet(page, "Cinder Lantern")
    QTest.mouseClick(page.open.brush_mode, LEFT)
    Pull(page.view, middle(page.view, "B4")).to(page, "D4").drop()
    assert sown(page, "Cinder Lantern") == ["B4", "C4", "D4"]


def test_with_the_brush_a_click_sows_one_cell(page):
    take_packet(page, "Cinder Lantern")
    QTest.mouseClick(page.open.brush_mode, LEFT)
    click(page.view, "B4")
    assert sown(page) == ["B4"]


def test_the_brush_without_a_packet_says_what_is_wanting(page, bench):
    QTest.mouseClick(page.open.brush_mode, LEFT)
    click(page.view, "B4")
    assert bench.said == ["No packet is chosen; choose one on the left, then drag."]


# choosing cells and sowing them


def test_cells_are_chosen_with_click_shift_and_ctrl_and_sown_with_the_button(page):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    click(page.view, "B2", SHIFT)
    click(page.view, "D6", CTRL)
    assert page.card.sow.text() == "Sow 5 cells"
    QTest.mouseClick(page.card.sow, LEFT)
    assert sown(page, "Brass Bell") == ["A1", "A2", "B1", "B2", "D6"]


def test_a_block_is_chosen_by_drawing_round_it(page):
    take_packet(page, "Brass Bell")
    Pull(page.view, middle(page.view, "B2")).to(page, "C4").to(page, "D5").drop()
    assert page.card.sow.text() == "Sow 12 cells"
    assert sown(page) == []


def test_a_click_on_a_sown_cell_marks_nothing_up_on_this_page(page):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    click(page.view, "A1")
    assert (spot(page, "A1").waiting, spot(page, "A1").up) == (1, 0)


def test_every_empty_cell_is_chosen_with_one_button(page):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    QTest.mouseClick(page.open.findChild(type(page.open.new), "choose-empty"), LEFT)
    assert page.card.sow.text() == "Sow 23 cells"


def test_whole_rows_and_columns_are_chosen_from_the_cell_at_hand(page):
    take_packet(page, "Brass Bell")
    click(page.view, "B3")
    QTest.mouseClick(page.open.findChild(type(page.open.new), "choose-row"), LEFT)
    assert page.view.choice.chosen == {(1, column) for column in range(6)}
    click(page.view, "B3")
    QTest.mouseClick(page.open.findChild(type(page.open.new), "choose-column"), LEFT)
    assert page.view.choice.chosen == {(row, 2) for row in range(4)}


def test_chosen_cells_that_are_taken_are_told_and_left_alone(page):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    press_key(page.view, K.Key_A, CTRL)
    assert "1 of the cells chosen is taken and is left alone" in page.card.outcome.text()
    take_packet(page, "Cinder Lantern")
    press_key(page.view, K.Key_Escape)
    click(page.view, "A1")
    click(page.view, "A3", SHIFT)
    press_key(page.view, K.Key_Space)
    assert sown(page, "Cinder Lantern") == ["A2", "A3"]
    assert sown(page, "Brass Bell") == ["A1"]


def test_too_few_seeds_are_told_before_the_button_can_be_pressed(page):
    take_packet(page, "Cinder Lantern")
    page.card.seeds.setValue(2)
    page.view.setFocus()
    press_key(page.view, K.Key_A, CTRL)
    assert page.card.outcome.text().startswith("Takes 48 seeds; 26 are wanting.")
    assert not page.card.sow.isEnabled()


def test_too_few_seeds_are_refused_by_the_keys_too_and_nothing_is_sown(page, bench):
    take_packet(page, "Cinder Lantern")
    page.card.seeds.setValue(2)
    page.view.setFocus()
    press_key(page.view, K.Key_A, CTRL)
    press_key(page.view, K.Key_Space)
    assert "22 seeds left and 48 are needed" in bench.said[0]
    assert sown(page) == []


def test_several_seeds_a_cell_are_sown_and_counted(page):
    take_packet(page, "Cinder Lantern")
    page.view.setFocus()
    press_key(page.view, K.Key_3)
    assert page.card.seeds.value() == 3
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    assert spot(page, "A1").waiting == 3
    assert packet_named(page, "Cinder Lantern").left == 19


def test_a_cell_whose_seeds_were_lost_can_be_sown_again(page, keeper):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    keeper.do(lambda: mark_lost(keeper.season, [key(page, "A1")], keeper.today))
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    assert sown(page) == ["A1"]


def test_pots_of_a_rack_are_sown_as_cells_are(page, keeper):
    page.open_holder(holder_named(keeper.season, "Rack 1"))
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    assert sown(page, "Brass Bell") == ["A1"]


# the keys alone


def test_the_keys_alone_choose_a_packet_go_to_the_cells_and_sow(page):
    page.packets.setFocus()
    press_key(page.packets, K.Key_Home)
    assert page.packets.key == packet_named(page, "Brass Bell").key
    press_key(page.packets, K.Key_Down)
    assert page.packets.key == packet_named(page, "Cinder Lantern").key
    press_key(page.packets, K.Key_Return)
    assert page.view.hasFocus()
    press_key(page.view, K.Key_Right)
    press_key(page.view, K.Key_Down, SHIFT)
    press_key(page.view, K.Key_Return)
    assert sown(page, "Cinder Lantern") == ["A2", "B2"]


@pytest.mark.parametrize(
    ("letter", "count"), [(K.Key_E, 24), (K.Key_R, 6), (K.Key_C, 4)], ids=["empty", "row", "column"]
)
def test_letters_choose_the_empty_cells_the_row_the_column(page, letter, count):
    page.view.setFocus()
    page.view.go_to((1, 2))
    press_key(page.view, letter)
    assert len(page.view.choice.chosen) == count


def test_keys_of_the_grow_on_page_do_nothing_here(page, keeper):
    take_packet(page, "Brass Bell")
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    before = len(keeper.ledger.acts(500))
    click(page.view, "A1")
    for one in (K.Key_Plus, K.Key_Delete, K.Key_Backspace, K.Key_M, K.Key_0, K.Key_2):
        press_key(page.view, one)
    assert len(keeper.ledger.acts(500)) == before


def test_space_without_a_packet_or_a_cell_says_what_is_wanting(page, bench):
    page.view.setFocus()
    press_key(page.view, K.Key_Space)
    take_packet(page, "Brass Bell")
    page.sow_chosen()
    assert bench.said == [
        "No packet is chosen; choose one on the left, then sow.",
        "No empty cell is chosen; choose cells in the tray, then sow.",
    ]


# the day and what to expect


def test_a_sowing_of_an_earlier_day_is_dated_so(page):
    take_packet(page, "Brass Bell")
    page.card.day_edit.setDate(QDate(2027, 4, 2))
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    assert spot(page, "A1").sown_on == date(2027, 4, 2)


def test_a_sowing_before_the_tray_was_in_use_is_refused(page, bench):
    take_packet(page, "Brass Bell")
    page.card.day_edit.setDate(QDate(2027, 3, 1))
    click(page.view, "A1")
    press_key(page.view, K.Key_Space)
    assert "Tray B is in use since 12 March" in bench.said[0]
    assert sown(page) == []


def test_no_day_to_come_can_be_chosen(page, keeper):
    page.card.day_edit.setDate(QDate(2030, 1, 1))
    assert page.card.day == keeper.today


def test_leaving_the_page_goes_back_to_today(page, keeper):
    page.card.day_edit.setDate(QDate(2027, 4, 2))
    page.leave()
    assert page.card.day == keeper.today


def test_after_midnight_today_is_the_new_day(page, keeper, moment):
    moment.go_on(hours=24)
    page.tick(keeper.now.replace(second=0))
    assert page.card.day == date(2027, 5, 14) + timedelta(days=1)


def test_what_to_expect_is_said_with_its_source(page, bench, keeper):
    """Pepper at 25 °C: 8 days. Harrington and Minges 1954, days from sowing to emergence."""
    take_packet(page, "Brass Bell")
    assert "about 8 days at 25 °C" in page.card.expect.text()
    QTest.mouseClick(page.card.why, LEFT)
    assert any("Harrington" in source for source in bench.explained[-1].sources)
    keeper.do(lambda: set_units("f", "ml", keeper.today))
    assert "at 77 °F" in page.card.expect.text()


# what is shown


def test_the_list_says_what_is_left_and_puts_emptied_packets_last(page, keeper):
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Aaa", seeds=0)], keeper.today))
    names = [row.name for row in page.packets.packets.rows]
    assert names == ["Brass Bell", "Cinder Lantern", "Aaa"]
    assert page.packets.packets.index(0).data(258) == "42 of 60 left"


def test_the_filter_narrows_the_list_and_keeps_the_choice(page):
    take_packet(page, "Cinder Lantern")
    QTest.keyClicks(page.filter, "lantern")
    assert page.packets.packets.rowCount() == 1
    assert page.packets.key == packet_named(page, "Cinder Lantern").key
    QTest.keyClicks(page.filter, "x")
    assert page.packets.packets.rowCount() == 0


def test_another_tray_is_opened_from_the_chooser(page, keeper):
    chooser = page.open.chooser
    chooser.setCurrentIndex(chooser.findText("Tray A"))
    chooser.activated.emit(chooser.currentIndex())
    assert page.view.holder.name == "Tray A"
    assert page.open.count.text == "36 of 72 empty, 26 sown"


def test_without_packets_the_page_leads_to_the_seed_box(qtbot, bench):
    page = open_page(qtbot, bench)
    assert page.open.empty.title.text() == "No packet to sow from yet"
    QTest.mouseClick(page.open.to_seed, LEFT)
    assert bench.shown == ["seed"]


def test_without_a_tray_the_form_for_a_new_one_is_open(qtbot, bench):
    page = open_page(qtbot, bench)
    assert page.new.isVisible()
    assert page.open.empty.isVisible()


def test_a_screen_reader_hears_the_cell_and_the_packet(page):
    take_packet(page, "Brass Bell")
    page.view.setFocus()
    press_key(page.view, K.Key_Right)
    assert "row A, column 1" in page.view.accessibleName()
    index = page.packets.packets.index_of(page.packets.key)
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == "Brass Bell, 42 of 60 left"


def test_the_list_keeps_to_qts_rules_for_models(page, qtmodeltester, keeper):
    qtmodeltester.check(page.packets.packets)
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Aaa", seeds=9)], keeper.today))
    page.packets.packets.set_filter("a")
    qtmodeltester.check(page.packets.packets)


@pytest.mark.parametrize("size", [(1024, 614), (1440, 814)])
def test_the_page_fits_the_window(qtbot, bench, shelf, size):
    page = open_page(qtbot, bench, size)
    assert (page.whole.width(), page.whole.height()) == size
    page._open_new()
    assert (page.whole.width(), page.whole.height()) == size
    assert page.new.minimumSizeHint().width() <= page.side.width()


def test_changes_made_while_hidden_show_when_the_page_comes_back(page, keeper):
    page.hide()
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Old Ember", seeds=5)], keeper.today))
    page.show()
    page.entered()
    assert packet_named(page, "Old Ember").left == 5
