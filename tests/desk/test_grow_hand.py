"""Carrying seedlings by the mouse and by the keys; nothing moves before it is dropped."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from greenroom.season import deeds_spots
from greenroom.season.deeds_shelf import make_holder
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey, Stage
from greenroom.season.story_deeds import About, note_on
from tests.desk.grow_hands import (
    CTRL,
    LEFT,
    NO_SCREEN,
    SHIFT,
    Drag,
    click,
    drag,
    go,
    key,
    open_page,
    press_key,
    spot,
)
from tests.season.told import story

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

K = Qt.Key
TODAY = date(2027, 5, 14)


@pytest.fixture
def page(qtbot, bench, shelf):
    return open_page(qtbot, bench)


@pytest.fixture
def tray(page):
    return page.main.view


@pytest.fixture
def rack(page):
    return page.beside.view


def pots(page):
    """The labels of the pots that hold a seedling."""
    view = page.beside.view
    spots = page.bench.keeper.season.spots(view.holder.key)
    return [one.key.label for one in spots if one.up]


def card(page, name):
    """The middle of a holder's card in the list."""
    holders = page.holders.holders
    found = next(one for one in page.bench.keeper.season.holders() if one.name == name)
    return page.holders.visualRect(holders.index_of(found.key)).center()


def test_a_seedling_is_dragged_to_a_pot(page, tray, rack):
    drag(tray, "A1", rack, "B3")
    assert spot(page, "A1").stage is Stage.MOVED
    assert spot(page, "B3", rack).stage is Stage.UP
    assert spot(page, "B3", rack).arrived == TODAY


def test_variety_sowing_day_and_story_travel_with_it(page, tray, rack):
    keeper, about = page.bench.keeper, About(spot=key(tray, "A1"))
    assert keeper.do(lambda: note_on(keeper.season, about, "strongest of all", TODAY))
    drag(tray, "A1", rack, "B3")
    pot = spot(page, "B3", rack)
    assert (pot.sown_on, pot.first_up) == (date(2027, 3, 12), date(2027, 3, 21))
    assert pot.origin == key(tray, "A1")
    words = [line.words for line in story(page.bench.keeper.season, pot.key)]
    assert words[0].startswith("sown, 1 seed of Cinder Lantern")
    assert "note: strongest of all" in words
    assert words[-1].startswith("moved to B3 of Rack 1")


def test_a_choice_is_carried_whole_and_fills_the_pots_in_order(page, tray, rack):
    for label in ("A1", "B2", "D1"):
        click(tray, label, CTRL)
    drag(tray, "B2", rack, "A5")
    assert pots(page) == ["A5", "A6", "B1"]
    assert [spot(page, label, rack).origin.label for label in pots(page)] == ["A1", "B2", "D1"]


def test_a_seedling_beside_the_choice_is_carried_alone(page, tray, rack):
    click(tray, "A1", CTRL)
    click(tray, "B2", CTRL)
    drag(tray, "E1", rack, "A1")
    assert pots(page) == ["A1"]
    assert spot(page, "A1", rack).origin.label == "E1"


def test_bare_cells_of_a_choice_stay_where_they_are(page, tray, rack):
    Drag(tray, "F1").to(tray, "D3").drop()  # from a cell where nothing is up: a block
    drag(tray, "D1", rack, "A1")
    assert pots(page) == ["A1", "A2", "A3", "A4"]
    assert spot(page, "F1").stage is Stage.SOWN


def test_what_is_in_hand_is_shown_beside_the_pointer(page, tray, rack):
    click(tray, "A1", CTRL)
    click(tray, "B2", CTRL)
    assert not page.picture.isVisible()
    hold = Drag(tray, "A1").to(rack, "A1")
    assert page.picture.isVisible()
    pointer = page.mapFromGlobal(rack.mapToGlobal(rack.grid.slot((0, 0)).center()))
    assert (page.picture.pos() - pointer).manhattanLength() < 40
    assert page.main.foot.text == "2 seedlings in hand: into A1 of Rack 1 to A2"
    hold.drop()
    assert not page.picture.isVisible()


def test_a_target_shows_whether_it_takes_them(page, tray, rack):
    drag(tray, "A1", rack, "A1")
    free = rack.grab(rack.grid.slot((0, 1))).toImage()
    taken = rack.grab(rack.grid.slot((0, 0))).toImage()
    hold = Drag(tray, "B1").to(rack, "A2")
    assert page.hand.takes
    assert rack.grab(rack.grid.slot((0, 1))).toImage() != free
    hold.to(rack, "A1")
    assert not page.hand.takes
    assert rack.grab(rack.grid.slot((0, 0))).toImage() != taken
    assert page.main.foot.text == "1 seedling in hand: A1 of Rack 1 is taken"
    press_key(tray, K.Key_Escape)
    assert rack.grab(rack.grid.slot((0, 0))).toImage() == taken


def test_a_taken_pot_refuses_in_one_sentence_and_nothing_moves(page, tray, rack, bench):
    drag(tray, "A1", rack, "A1")
    drag(tray, "B1", rack, "A1")
    assert bench.said[-1] == "A1 of Rack 1 is taken; drop on an empty one."
    assert spot(page, "B1").stage is Stage.UP
    assert pots(page) == ["A1"]
    assert not page.hand.active


def test_more_seedlings_than_pots_are_refused_together(page, tray, rack, bench):
    press_key(tray, K.Key_A, CTRL)
    drag(tray, "A1", rack, "C1")
    assert (
        bench.said[-1]
        == "Rack 1 has room for 6 from C1 on and 10 are in hand; drop them further up or take fewer."
    )
    assert pots(page) == []


def test_escape_lets_go_and_the_button_may_come_up_anywhere(page, tray, rack, keeper):
    acts = len(keeper.ledger.acts(1000))
    hold = Drag(tray, "A1").to(rack, "A1")
    press_key(tray, K.Key_Escape)
    assert not page.hand.active
    assert not page.picture.isVisible()
    hold.to(rack, "A2").drop()
    assert pots(page) == []
    assert len(keeper.ledger.acts(1000)) == acts


def test_dropped_beside_everything_it_stays_where_it_stood(page, tray, bench):
    said = len(bench.said)
    Drag(tray, "A1").to_point(page.chart, QPoint(30, 60)).drop()
    assert spot(page, "A1").stage is Stage.UP
    assert not page.hand.active
    assert len(bench.said) == said


def test_undo_puts_the_seedlings_back(page, tray, rack, keeper):
    click(tray, "A1", CTRL)
    click(tray, "B2", CTRL)
    drag(tray, "A1", rack, "A1")
    assert keeper.undo()
    assert pots(page) == []
    assert [spot(page, label).stage for label in ("A1", "B2")] == [Stage.UP, Stage.UP]
    assert keeper.redo()
    assert pots(page) == ["A1", "A2"]


def test_a_cell_with_two_seedlings_fills_two_pots(page, tray, rack):
    season = page.bench.keeper.season
    brass = packets(season)[0].key
    page.bench.keeper.do(
        lambda: deeds_spots.sow(season, brass, [key(tray, "A9")], date(2027, 3, 12), seeds=2)
    )
    click(tray, "A9")
    click(tray, "A9")
    hold = Drag(tray, "A9").to(rack, "A3")
    assert page.hand.words() == "2 seedlings in hand: into A3 of Rack 1 to A4"
    hold.drop()
    assert pots(page) == ["A3", "A4"]


def test_a_card_in_the_list_takes_seedlings_into_its_first_free_pots(page, tray, rack):
    drag(tray, "A1", rack, "A1")
    hold = Drag(tray, "B1").to_point(page.holders.viewport(), card(page, "Rack 1"))
    assert page.holders.cards.drop == (rack.holder.key, True)
    hold.drop()
    assert pots(page) == ["A1", "A2"]
    assert page.holders.cards.drop is None


def test_a_full_rack_refuses_on_its_card(page, tray, keeper, bench):
    keeper.do(lambda: make_holder(keeper.season, name="Rack 2", form="rack", rows=1, columns=1, day=TODAY))
    two = next(one.key for one in keeper.season.holders() if one.name == "Rack 2")
    keeper.do(lambda: deeds_spots.move(keeper.season, [key(tray, "A1")], SpotKey(two, 0, 0), TODAY))
    hold = Drag(tray, "B1").to_point(page.holders.viewport(), card(page, "Rack 2"))
    assert page.holders.cards.drop == (two, False)
    hold.drop()
    assert bench.said[-1] == "A1 of Rack 2 is taken; drop on an empty one."


def test_seedlings_are_pricked_out_from_tray_to_tray(page, tray, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=4, columns=6, day=TODAY))
    other = next(one.key for one in keeper.season.holders() if one.name == "Tray B")
    page.open_beside(other)
    drag(tray, "A1", page.beside.view, "B2")
    assert keeper.season.spot(SpotKey(other, 1, 1)).up == 1
    drag(page.beside.view, "B2", tray, "F12")
    assert spot(page, "F12").up == 1


def test_a_seedling_can_change_its_place_within_the_tray(page, tray):
    drag(tray, "A1", tray, "A10")
    assert spot(page, "A10").stage is Stage.UP
    assert spot(page, "A1").stage is Stage.MOVED


def test_by_keys_m_lifts_arrows_choose_and_m_puts_down(page, tray, rack):
    go(tray, "A1")
    press_key(tray, K.Key_Right, SHIFT)
    press_key(tray, K.Key_M)
    assert page.hand.active
    assert rack.hasFocus()
    assert page.main.foot.text == "2 seedlings in hand: into A1 of Rack 1 to A2"
    press_key(rack, K.Key_Down)
    press_key(rack, K.Key_Right)
    press_key(rack, K.Key_M)
    assert pots(page) == ["B2", "B3"]
    assert not page.hand.active


def test_by_keys_enter_puts_down_too_and_the_first_free_pot_is_offered(page, tray, rack):
    drag(tray, "A1", rack, "A1")
    go(tray, "B1")
    press_key(tray, K.Key_M)
    assert rack.choice.current == (0, 1)
    press_key(rack, K.Key_Return)
    assert pots(page) == ["A1", "A2"]


def test_by_keys_a_taken_pot_leaves_them_in_hand_for_another(page, tray, rack, bench):
    drag(tray, "A1", rack, "A2")
    go(tray, "B1")
    press_key(tray, K.Key_M)
    press_key(rack, K.Key_Right)
    press_key(rack, K.Key_M)
    assert bench.said[-1] == "A2 of Rack 1 is taken; drop on an empty one."
    assert page.hand.active
    press_key(rack, K.Key_Right)
    press_key(rack, K.Key_M)
    assert pots(page) == ["A2", "A3"]


def test_by_keys_escape_lets_go(page, tray, rack):
    go(tray, "A1")
    press_key(tray, K.Key_M)
    press_key(rack, K.Key_Escape)
    assert not page.hand.active
    assert pots(page) == []


def test_by_keys_a_card_of_the_list_takes_them(page, tray, rack):
    go(tray, "A1")
    press_key(tray, K.Key_M)
    page.holders.setFocus()
    press_key(page.holders, K.Key_Down)
    assert page.holders.cards.drop == (rack.holder.key, True)
    press_key(page.holders, K.Key_M)
    assert pots(page) == ["A1"]


def test_lifted_by_the_button_they_are_put_down_with_a_click(page, tray, rack):
    go(tray, "A1")
    QTest.mouseClick(page.main.bar.lift, LEFT)
    click(rack, "C6")
    assert pots(page) == ["C6"]


def test_nothing_else_is_done_with_keys_while_hands_are_full(page, tray, rack):
    drag(tray, "A1", rack, "A1")
    go(tray, "B1")
    press_key(tray, K.Key_M)
    rack.choice.go((0, 0))
    for one in (K.Key_Space, K.Key_4, K.Key_Backspace, K.Key_Delete):
        press_key(rack, one)
    assert spot(page, "A1", rack).stage is Stage.UP
    assert not page.main.loss.isVisible()


def test_no_seedling_no_lift(page, tray, bench):
    go(tray, "A4")
    press_key(tray, K.Key_M)
    assert not page.hand.active
    assert bench.said[-1] == "No seedling stands there to be lifted; choose cells that are up."


def test_what_was_taken_away_meanwhile_is_no_longer_in_hand(page, tray, rack, keeper):
    click(tray, "A4")
    go(tray, "A4")
    press_key(tray, K.Key_M)
    assert keeper.undo()
    assert not page.hand.active


def test_going_to_another_page_lets_go(page, tray):
    go(tray, "A1")
    press_key(tray, K.Key_M)
    page.leave()
    assert not page.hand.active
    assert spot(page, "A1").stage is Stage.UP


def test_a_move_for_an_earlier_day_than_the_pot_was_free_is_refused(page, tray, rack, bench, keeper):
    drag(tray, "A1", rack, "A1")
    rack.acts.lost([key(rack, "A1")], "eaten")
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(-1))
    drag(tray, "B1", rack, "A1")
    assert spot(page, "B1").stage is Stage.UP
    assert bench.said


def test_a_carried_seedling_scrolls_a_long_list_into_sight(qtbot, page, tray, keeper):
    for _ in range(8):
        keeper.do(lambda: make_holder(keeper.season, name="", form="rack", rows=3, columns=6, day=TODAY))
    bar = page.holders.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0)
    viewport = page.holders.viewport()
    hold = Drag(tray, "A1").to_point(viewport, QPoint(60, viewport.height() - 4))
    qtbot.waitUntil(lambda: bar.value() > 100)
    press_key(tray, K.Key_Escape)
    hold.drop()
    assert spot(page, "A1").stage is Stage.UP
