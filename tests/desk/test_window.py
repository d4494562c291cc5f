"""The window: pages come and go as the ribbon is used, and messages stay as long as they must."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton

from greenroom.desk.bench import Bench
from greenroom.desk.look import Look
from greenroom.desk.messages import READING_MS
from greenroom.desk.page import Page
from greenroom.desk.pages import page_makers
from greenroom.desk.ribbon_view import HEIGHT_PX, RibbonView
from greenroom.desk.shortcuts import CELLS, WINDOW
from greenroom.desk.start import first_page
from greenroom.desk.why_panel import WhyPanel
from greenroom.desk.window import SMALLEST, Window
from greenroom.season.deeds_shelf import set_place, set_units
from greenroom.season.ribbon import RibbonStage
from greenroom.season.why import Why
from tests.desk.conftest import TODAY

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton
CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


class Notebook(Page):
    """A page that remembers what the window asked of it."""

    def __init__(self, bench, key):
        super().__init__(bench)
        self.key = key
        self.heard = []
        self.field = QLineEdit(self)

    def take(self, touched):
        self.heard.append(("take", touched.kinds))

    def tick(self, now):
        self.heard.append(("tick", now))

    def entered(self):
        self.heard.append(("entered", self.key))

    def leave(self):
        self.heard.append(("leave", self.key))

    def asked(self, what):
        return [one for one in self.heard if one[0] == what]


KEYS = ("seed", "sow", "grow", "harden", "setout", "pick", "round", "place")


@pytest.fixture
def window(qtbot, keeper):
    made = Window(
        Bench(keeper, Look(dark=False)), {key: lambda bench, key=key: Notebook(bench, key) for key in KEYS}
    )
    qtbot.addWidget(made)
    made.show_page("seed")
    made.show()
    qtbot.waitExposed(made)
    yield made
    made.close()


def key(widget, which, modifier=Qt.KeyboardModifier.NoModifier):
    QTest.keyClick(widget, which, modifier)


def test_a_page_is_made_when_it_first_comes_to_the_front(window):
    assert set(window.pages) == {"seed"}
    QTest.mouseClick(window.top.ribbon.button("grow"), LEFT)
    assert set(window.pages) == {"seed", "grow"}
    assert window.current == "grow"
    assert window.pages["seed"].asked("leave") == [("leave", "seed")]
    assert window.pages["grow"].asked("entered") == [("entered", "grow")]


def test_coming_back_is_the_same_page(window):
    first = window.page("seed")
    window.show_page("sow")
    window.show_page("seed")
    assert window.page("seed") is first
    assert len(first.asked("entered")) == 2


def test_the_ribbon_shows_which_page_is_in_front(window):
    window.show_page("harden")
    stages = {name: window.top.ribbon.button(name).isChecked() for name in KEYS[:6]}
    assert stages == {name: name == "harden" for name in KEYS[:6]}
    QTest.mouseClick(window.top.place, LEFT)
    assert window.current == "place"
    assert window.top.place.isChecked()
    assert not window.top.ribbon.button("harden").isChecked()


@pytest.mark.parametrize(
    ("digit", "page"),
    [
        ("1", "seed"),
        ("2", "sow"),
        ("3", "grow"),
        ("4", "harden"),
        ("5", "setout"),
        ("6", "pick"),
        ("0", "round"),
        ("9", "place"),
    ],
)
def test_every_page_has_its_key(window, digit, page):
    window.show_page("place" if page != "place" else "seed")
    window.activateWindow()
    key(window, getattr(Qt.Key, f"Key_{digit}"), CTRL)
    assert window.current == page


def test_a_stage_is_reached_and_pressed_with_keys_alone(window, qtbot):
    stage = window.top.ribbon.button("sow")
    stage.setFocus()
    qtbot.waitUntil(stage.hasFocus)
    key(stage, Qt.Key.Key_Space)
    assert window.current == "sow"
    assert stage.accessibleName() == "Sow, 0 trays sown"


def test_all_pages_that_were_made_hear_of_an_act_and_of_the_time(window, keeper):
    window.show_page("grow")
    keeper.do(lambda: set_units("f", "ml", TODAY))
    window.tick()
    for name in ("seed", "grow"):
        assert window.pages[name].asked("take") == [("take", {"units_set"})]
        assert len(window.pages[name].asked("tick")) == 1


def test_undo_and_redo_by_key_say_what_they_did(window, keeper):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    name = keeper.ledger.undo_name
    assert window.messages.text.text() == f"{name[0].upper()}{name[1:]}."
    key(window, Qt.Key.Key_Z, CTRL)
    assert keeper.place.temperature == "c"
    assert window.messages.text.text() == f"Undone: {name}."
    key(window, Qt.Key.Key_Z, CTRL | SHIFT)
    assert keeper.place.temperature == "f"
    key(window, Qt.Key.Key_Z, CTRL)
    key(window, Qt.Key.Key_Y, CTRL)
    assert keeper.place.temperature == "f"


def test_undo_beside_the_message_takes_the_act_back(window, keeper):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    assert window.messages.isVisible()
    QTest.mouseClick(window.messages.undo, LEFT)
    assert keeper.place.temperature == "c"


def test_after_an_undo_the_message_offers_to_do_it_again_not_to_undo_one_more(window, keeper):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    assert not window.messages.redo.isVisible()
    QTest.mouseClick(window.messages.undo, LEFT)
    assert not window.messages.undo.isVisible()
    QTest.mouseClick(window.messages.redo, LEFT)
    assert keeper.place.temperature == "f"
    assert window.messages.undo.isVisible()
    assert not window.messages.redo.isVisible()


def test_a_refusal_stays_until_it_is_closed_and_offers_no_undo(window, keeper, qtbot):
    keeper.refused.emit("That cannot be.")
    assert window.messages.text.text() == "That cannot be."
    assert not window.messages.undo.isVisible()
    assert not window.messages._timer.isActive()
    QTest.mouseClick(window.messages.close_button, LEFT)
    assert not window.messages.isVisible()


def test_what_was_done_goes_away_by_itself(window, keeper):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    assert window.messages._timer.isActive()
    assert window.messages._timer.interval() == READING_MS
    window.messages._timer.timeout.emit()
    assert not window.messages.isVisible()


def test_a_refusal_is_not_taken_away_by_the_message_before_it(window, keeper):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    keeper.refused.emit("That cannot be.")
    assert not window.messages._timer.isActive()


def test_names_with_markup_are_shown_as_they_are_written(window, keeper):
    name = "<b>Hill</b> & <img src=x>"
    keeper.do(lambda: set_place(name, 46.0, 16.0, "UTC", TODAY))
    window.top.refresh()
    assert name in window.top.weather.text()
    assert window.top.weather.textFormat() == Qt.TextFormat.PlainText
    assert window.messages.text.textFormat() == Qt.TextFormat.PlainText


def test_the_head_is_refreshed_once_a_minute(window, keeper, moment, monkeypatch):
    shown = []
    monkeypatch.setattr(window.top, "refresh", lambda: shown.append(keeper.now))
    moment.go_on(seconds=59.4)
    window.tick()
    assert shown == []
    moment.go_on(seconds=0.7)
    window.tick()
    window.tick()
    assert len(shown) == 1


def test_the_marker_moves_to_the_next_day_at_midnight(window, moment):
    assert "14 May" in window.top.ribbon._marker_text()
    moment.go_on(hours=15)
    window.tick()
    assert window.top.ribbon._marker_text() == "15 May"


def test_closing_writes_what_is_being_edited_and_leaves_no_timer(window):
    window.show_page("sow")
    window.close()
    assert window.pages["sow"].asked("leave") == [("leave", "sow")]
    assert not any(timer.isActive() for timer in window.findChildren(QTimer))


def test_the_window_comes_forward_when_it_was_made_small(window):
    window.showMinimized()
    window.come_forward()
    assert not window.isMinimized()
    assert window.isVisible()


WHY = Why(
    "74 % of <i>them</i>", "The rule.", (("cells", "7"), ("crop", "Superhot")), ("Someone (1954): A title",)
)


@pytest.fixture
def panel(window, qtbot):
    window.bench.explain(WHY, window.top.place)
    found = QApplication.activePopupWidget() or window.findChild(WhyPanel)
    qtbot.waitUntil(found.isVisible)
    return found


def test_the_why_panel_tells_inputs_rule_and_source_as_plain_text(panel):
    labels = panel.findChildren(QLabel)
    words = [one.text() for one in labels]
    for expected in (WHY.figure, WHY.rule, "cells", "7", "Superhot", WHY.sources[0]):
        assert expected in words
    assert all(one.textFormat() == Qt.TextFormat.PlainText for one in labels)
    assert panel.accessibleName() == f"Why: {WHY.figure}. The rule."


@pytest.mark.parametrize("way", ["escape", "button"])
def test_the_why_panel_closes(panel, way, qtbot):
    gone = []
    panel.destroyed.connect(lambda: gone.append(True))
    if way == "escape":
        key(panel.close_button, Qt.Key.Key_Escape)
    else:
        QTest.mouseClick(panel.close_button, LEFT)
    qtbot.waitUntil(lambda: gone == [True])


@pytest.mark.parametrize("inputs", [0, 3, 60])
def test_the_why_panel_stays_inside_the_window(window, inputs):
    rows = tuple((f"input {number}", "a value of some length " * 3) for number in range(inputs))
    for anchor in (window.top.place, window.top.name):
        made = WhyPanel(Why("A figure", "A rule of some words. " * 20, rows, ("A source",) * 4), window)
        made.open_beside(anchor)
        assert window.frameGeometry().contains(made.geometry())
        made.close()


def test_no_two_shortcuts_of_the_window_clash():
    taken = [one.toString() for shortcut in WINDOW for one in shortcut.sequences()]
    assert len(taken) == len(set(taken))
    assert len({one.key for one in WINDOW}) == len(WINDOW)
    assert len({text for one in CELLS for text in one.keys}) == sum(len(one.keys) for one in CELLS)


def test_the_window_opens_where_the_work_is(keeper, shelf):
    assert first_page(keeper) == "grow"


def test_with_seeds_only_it_opens_at_sowing_and_with_nothing_at_the_seed_box(keeper):
    from greenroom.season.deeds_shelf import SeedEntry, add_packets

    assert first_page(keeper) == "seed"
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Brass Bell")], TODAY))
    assert first_page(keeper) == "sow"
    keeper.undo()
    keeper.undo()
    assert first_page(keeper) == "first"


def test_every_page_has_a_maker():
    assert set(page_makers()) == {*KEYS, "first", "paper"}


# ---- the ribbon as drawn ----


def laid_out(days, width):
    starts = [date(2026, 12, 1)]
    for length in days:
        starts.append(starts[-1] + timedelta(length))
    names = ("seed", "sow", "grow", "harden")
    stages = [
        RibbonStage(name, name.title(), "120 seedlings", start, end)
        for name, (start, end) in zip(names, pairwise(starts), strict=True)
    ]
    view = RibbonView(Look(dark=False))
    view.resize(width, HEIGHT_PX)
    view.show_season(stages, starts[1])
    return view, starts


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    days=st.lists(st.integers(1, 200), min_size=4, max_size=4),
    width=st.integers(200, 2000),
    offsets=st.lists(st.integers(-400, 900), min_size=2, max_size=12),
)
def test_a_later_day_never_lies_left_of_an_earlier_one(qapp, days, width, offsets):
    view, starts = laid_out(days, width)
    places = [view.x_of(starts[0] + timedelta(offset)) for offset in sorted(offsets)]
    assert places == sorted(places)
    assert all(0 <= place <= width + 1e-6 for place in places)
    edges = [view.x_of(start) for start in starts]
    assert edges == pytest.approx(view._edges)
    boxes = [view.button(name).geometry() for name in ("seed", "sow", "grow", "harden")]
    assert all(one.right() < other.left() for one, other in pairwise(boxes))
    view.deleteLater()


def test_each_stage_has_room_for_its_words_where_the_window_is_as_small_as_it_may_be(window, keeper, qtbot):
    window.resize(*SMALLEST)
    qtbot.waitUntil(lambda: window.width() == SMALLEST[0])
    for name in KEYS[:6]:
        stage = window.top.ribbon.button(name)
        assert stage.width() >= stage.words_width() - 1
        assert stage.height() >= 24


def test_the_marker_is_never_cut_off_at_the_ends(window, moment):
    ribbon = window.top.ribbon
    for days in (-300, -150, 0, 60, 200, 320):
        moment.moment += timedelta(days=days)
        window.top.refresh()
        box = ribbon._marker_box()
        assert box.left() >= 0
        assert box.right() <= ribbon.width()
        assert not ribbon.grab().isNull()
        moment.moment -= timedelta(days=days)


def test_a_click_on_the_ribbon_between_stages_does_nothing(window):
    QTest.mouseClick(window.top.ribbon, LEFT, pos=QPoint(5, HEIGHT_PX - 4))
    assert window.current == "seed"
    assert window.findChildren(QPushButton)
