"""The Grow on page as a whole: what is open, where it stands, its story, its curve, and sowing again."""

import subprocess
import sys
from datetime import date

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QPushButton

from greenroom.desk.grow.page import GrowPage
from greenroom.desk.parts import WhyLink
from greenroom.season import deeds_spots
from greenroom.season.deeds_shelf import SeedEntry, add_packets, make_holder, set_units
from greenroom.season.packets import packets
from greenroom.season.spots import SpotKey, Stage
from tests.desk.conftest import holder_named
from tests.desk.grow_hands import CTRL, LEFT, NO_SCREEN, click, drag, go, key, open_page, press_key, spot

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

K = Qt.Key
TODAY = date(2027, 5, 14)
SOWN_ON = date(2027, 3, 12)


@pytest.fixture
def page(qtbot, bench, shelf):
    return open_page(qtbot, bench)


def settled(qtbot, page):
    qtbot.waitUntil(lambda: not page._settle.isActive() and not page._advise.isActive())


def story_lines(page):
    layout = page.panel.lines.rows
    widgets = [layout.itemAt(at).widget() for at in range(layout.count())]
    return [one for one in widgets if one is not None and hasattr(one, "line")]


def button(widget, name):
    return widget.findChild(QPushButton, name)


def test_it_opens_with_the_first_tray_and_the_first_rack(page):
    assert page.main.headline.title.text() == "Tray A"
    assert page.beside.chooser.currentText() == "Rack 1"
    assert page.main.headline.aside.text == "sown 12 March · mix 24 °C · 6 × 12 cells · shelf 1 · 43 mL each"
    assert page.beside.count.text() == "0 of 18 pots"


def test_with_nothing_in_use_it_says_what_to_do_first(qtbot, bench):
    page = open_page(qtbot, bench)
    assert page.empty.isVisible()
    QTest.mouseClick(page.empty.steps[0], LEFT)
    assert bench.shown == ["sow"]


def test_open_holder_opens_trays_in_the_middle_and_racks_beside(page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=5, columns=10, day=TODAY))
    keeper.do(lambda: make_holder(keeper.season, name="Rack 2", form="rack", rows=2, columns=4, day=TODAY))
    page.open_holder(holder_named(keeper.season, "Tray B"))
    page.open_holder(holder_named(keeper.season, "Rack 2"))
    assert page.main.headline.title.text() == "Tray B"
    assert page.beside.chooser.currentText() == "Rack 2"
    assert page.holders.cards.open_keys == {page.main_key, page.beside_key}


def test_when_only_racks_are_left_a_rack_stands_in_the_middle(qtbot, bench, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Rack 1", form="rack", rows=2, columns=4, day=TODAY))
    page = open_page(qtbot, bench)
    assert page.main.headline.title.text() == "Rack 1"
    assert page.beside_key is None
    assert page.beside.empty.isVisible()


def test_the_list_is_walked_with_the_arrow_keys_and_opens_as_it_goes(page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=5, columns=10, day=TODAY))
    page.holders.setFocus()
    press_key(page.holders, K.Key_Down)
    assert page.main.headline.title.text() == "Tray B"
    press_key(page.holders, K.Key_Up)
    assert page.main.headline.title.text() == "Tray A"


def test_a_click_on_a_card_opens_its_tray(page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=5, columns=10, day=TODAY))
    index = page.holders.holders.index_of(holder_named(keeper.season, "Tray B"))
    QTest.mouseClick(page.holders.viewport(), LEFT, pos=page.holders.visualRect(index).center())
    assert page.main.headline.title.text() == "Tray B"


def test_the_list_is_a_sound_model(qtmodeltester, page):
    qtmodeltester.check(page.holders.holders)


def test_a_reader_that_speaks_hears_what_a_card_holds(page):
    index = page.holders.holders.index_of(page.main_key)
    assert index.data(Qt.ItemDataRole.AccessibleTextRole).startswith(
        "Tray A: 10 of 36 up · 28 %, sown 12 March"
    )


def test_names_that_look_like_markup_are_shown_as_they_are(page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="<b>X</b>", form="tray", rows=1, columns=2, day=TODAY))
    made = holder_named(keeper.season, "<b>X</b>")
    page.open_holder(made)
    assert page.main.headline.title.textFormat() is Qt.TextFormat.PlainText
    tip = page.holders.holders.index_of(made).data(Qt.ItemDataRole.ToolTipRole)
    assert "&lt;b&gt;X&lt;/b&gt;" in tip


def test_place_and_mix_are_edited_in_line(page, keeper):
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    edit = page.main.edit
    assert edit.place.text() == "shelf 1"
    edit.place.setText("heat mat")
    edit.mix.setValue(27.5)
    press_key(edit.place, K.Key_Return)
    assert not edit.isVisible()
    holder = keeper.season.holder(page.main_key)
    assert (holder.place, holder.mix_c) == ("heat mat", 27.5)
    assert "mix 27.5 °C" in page.main.headline.aside.text


def test_escape_leaves_place_and_mix_as_they_were(page, keeper):
    acts = len(keeper.ledger.acts(1000))
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    page.main.edit.place.setText("elsewhere")
    press_key(page.main.edit.place, K.Key_Escape)
    assert keeper.season.holder(page.main_key).place == "shelf 1"
    assert len(keeper.ledger.acts(1000)) == acts


def test_a_half_edited_place_is_written_when_the_page_is_left(page, keeper):
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    page.main.edit.place.setText("by the window")
    page.leave()
    assert keeper.season.holder(page.main_key).place == "by the window"


def test_nothing_is_written_when_nothing_was_changed(page, keeper):
    acts = len(keeper.ledger.acts(1000))
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    QTest.mouseClick(page.main.edit.save, LEFT)
    assert len(keeper.ledger.acts(1000)) == acts


def test_the_mix_may_be_not_known(page, keeper):
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    page.main.edit.mix.setValue(page.main.edit.mix.minimum())
    assert page.main.edit.mix.text() == "not known"
    QTest.mouseClick(page.main.edit.save, LEFT)
    assert keeper.season.holder(page.main_key).mix_c is None


def test_a_grower_who_reads_fahrenheit_sees_and_writes_fahrenheit(page, keeper):
    """24 °C is 75.2 °F and 77 °F is 25 °C: NIST SP 811, B.8."""
    keeper.do(lambda: set_units("f", "floz", TODAY))
    assert "mix 75 °F" in page.main.headline.aside.text
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    assert page.main.edit.mix.value() == pytest.approx(75.2)
    page.main.edit.mix.setValue(77.0)
    QTest.mouseClick(page.main.edit.save, LEFT)
    assert keeper.season.holder(page.main_key).mix_c == pytest.approx(25.0)


def test_a_tray_that_holds_anything_is_not_put_away(page, bench):
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    QTest.mouseClick(page.main.edit.away, LEFT)
    assert "still holds seeds or seedlings" in bench.said[-1]


def test_an_empty_tray_is_put_away_and_another_opens(page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=2, columns=2, day=TODAY))
    page.open_holder(holder_named(keeper.season, "Tray B"))
    QTest.mouseClick(button(page, "edit-holder"), LEFT)
    QTest.mouseClick(page.main.edit.away, LEFT)
    assert page.main.headline.title.text() == "Tray A"
    assert keeper.undo()
    assert page.holders.holders.index_of(holder_named(keeper.season, "Tray B")).isValid()


def test_a_rack_is_taken_into_use_in_line_and_stands_beside(page, keeper):
    QTest.mouseClick(page.new_holder.open_button, LEFT)
    form = page.new_holder
    assert form.name.placeholderText() == "Rack 2"
    form.rows.setValue(2)
    form.columns.setValue(5)
    QTest.keyClicks(form.size_, "9 cm")
    press_key(form.size_, K.Key_Return)
    assert page.beside.chooser.currentText() == "Rack 2"
    made = keeper.season.holder(page.beside_key)
    assert (made.rows, made.columns, made.size, made.form) == (2, 5, "9 cm", "rack")


def test_a_pot_of_no_known_size_is_refused_with_what_is_allowed(page, bench):
    QTest.mouseClick(page.new_holder.open_button, LEFT)
    QTest.keyClicks(page.new_holder.size_, "bucket")
    press_key(page.new_holder.size_, K.Key_Return)
    assert "'bucket'" in bench.said[-1]
    assert "top width" in bench.said[-1]
    assert page.new_holder.form_box.isVisible()


def test_enter_opens_the_story_and_escape_closes_it(page):
    view = page.main.view
    go(view, "B2")
    press_key(view, K.Key_Return)
    assert page.panel.isVisible()
    assert page.panel.title.text() == "B2 of Tray A"
    assert page.panel.variety.text() == "Cinder Lantern"
    assert [line.line.words for line in story_lines(page)] == [
        "packet of Cinder Lantern, lot 26-01, packed 2026, 40 seeds, 85 % germination",
        "sown, 1 seed of Cinder Lantern, in B2 of Tray A",
        "place: shelf 1, mix at 24 °C",
        "up",
    ]
    press_key(page.panel.note, K.Key_Escape)
    assert page.resow.isVisible()
    assert view.hasFocus()


def test_the_story_of_a_pot_tells_where_its_seedling_came_from(page):
    drag(page.main.view, "B2", page.beside.view, "A1")
    go(page.beside.view, "A1")
    press_key(page.beside.view, K.Key_Return)
    assert page.panel.title.text() == "A1 of Rack 1"
    assert [line.line.words for line in story_lines(page)][-1] == "moved to A1 of Rack 1, from B2 of Tray A"


def test_a_note_is_kept_with_the_cell(page):
    go(page.main.view, "B2")
    press_key(page.main.view, K.Key_Return)
    QTest.keyClicks(page.panel.note, "pale")
    press_key(page.panel.note, K.Key_Return)
    assert [line.line.words for line in story_lines(page)][-1] == "note: pale"
    assert page.panel.note.text() == ""


def test_a_note_begun_is_not_lost_when_the_story_moves_on(page):
    go(page.main.view, "B2")
    press_key(page.main.view, K.Key_Return)
    QTest.keyClicks(page.panel.note, "pale")
    click(page.main.view, "A1")
    assert page.panel.title.text() == "A1 of Tray A"
    page.panel.open_for(key(page.main.view, "B2"))
    assert [line.line.words for line in story_lines(page)][-1] == "note: pale"


def test_each_mark_of_a_story_can_be_taken_back(page, bench):
    go(page.main.view, "B2")
    press_key(page.main.view, K.Key_Return)
    packet, sowing, place, sprout = story_lines(page)
    assert not packet.back.isVisible()
    assert not place.back.isVisible()
    QTest.mouseClick(sowing.back, LEFT)
    assert bench.said[-1] == "The sprout of 21 March in B2 of Tray A rests on this; take that back first."
    QTest.mouseClick(sprout.back, LEFT)
    assert spot(page, "B2").stage is Stage.SOWN
    assert len(story_lines(page)) == 3


def test_a_line_of_the_story_says_when_and_by_whom_it_was_written(page):
    go(page.main.view, "B2")
    press_key(page.main.view, K.Key_Return)
    assert "Written 14 May 09:54 by tester" in story_lines(page)[1].toolTip()


def test_the_curve_counts_what_is_up_and_says_the_share(qtbot, page):
    settled(qtbot, page)
    assert page.chart.figures.text() == "10 of 36 up · 28 %"
    click(page.main.view, "A4")
    qtbot.waitUntil(lambda: page.chart.figures.text() == "11 of 36 up · 31 %")


def test_the_curve_tells_each_day_with_its_date(qtbot, page):
    settled(qtbot, page)
    chart = page.chart.chart
    assert chart.words_at(8).startswith("day 8 · 20 March: 0 up, 0 %")
    assert chart.words_at(9).startswith("day 9 · 21 March: 10 up, 28 %")


def test_under_the_pointer_the_curve_shows_the_day(qtbot, page):
    settled(qtbot, page)
    chart = page.chart.chart
    assert not chart.told.isVisible()
    box = chart.plot.getViewBox()
    point = chart.plot.mapFromScene(box.mapViewToScene(QPointF(9.2, 0.5)))
    QTest.mouseMove(chart.plot.viewport(), point)
    qtbot.waitUntil(chart.told.isVisible)
    assert chart.reading.value() == 9
    assert chart.told.toPlainText().startswith("day 9 · 21 March")
    for day in (0, 13, 20, 26):  # wherever the line stands, its words stay inside the chart
        chart._on_move(box.mapViewToScene(QPointF(min(day, chart._curve.axis[-1]), 0.5)))
        words = chart.told.mapRectToScene(chart.told.boundingRect())
        assert words.right() <= box.sceneBoundingRect().right() + 2
    chart._on_move(QPointF(-50, -50))
    assert not chart.told.isVisible()


def test_without_a_temperature_the_curve_says_what_is_missing(qtbot, page, keeper):
    page.acts.place(page.main_key, "shelf 1", None)
    settled(qtbot, page)
    assert page.chart.legend.text == "give the temperature of the mix (Edit) to see what to expect"
    assert not page.chart.chart.band.isVisible()


def test_an_unsown_tray_has_no_curve_and_says_so(qtbot, page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=2, columns=2, day=TODAY))
    page.open_holder(holder_named(keeper.season, "Tray B"))
    settled(qtbot, page)
    assert page.chart.empty.text() == "Nothing was sown in Tray B; the curve begins with its first sowing."
    assert not page.chart.chart.isVisible()


def test_every_figure_that_is_worked_out_says_why(qtbot, page, bench):
    settled(qtbot, page)
    QTest.mouseClick(page.chart.why, LEFT)
    QTest.mouseClick(page.resow.findChild(WhyLink), LEFT)
    assert len(bench.explained) == 2
    assert all(why.rule and why.sources for why in bench.explained)


def test_sowing_again_puts_seeds_into_the_cells_that_stayed_bare(qtbot, page, keeper):
    settled(qtbot, page)
    before = {name: view.used for name, view in ((one.name, one) for one in packets(keeper.season))}
    sow = next(one for one in page.resow.findChildren(QPushButton, "sow-again") if one.isVisible())
    QTest.mouseClick(sow, LEFT)
    after = {one.name: one for one in packets(keeper.season)}
    assert sum(one.used for one in after.values()) > sum(before.values())
    assert any(one.sown_on == TODAY for one in keeper.season.spots(page.main_key))


def test_without_waiting_cells_there_is_nothing_to_sow_again(qtbot, page, keeper):
    keeper.do(lambda: make_holder(keeper.season, name="Tray B", form="tray", rows=2, columns=2, day=TODAY))
    page.open_holder(holder_named(keeper.season, "Tray B"))
    settled(qtbot, page)
    assert page.resow._nothing(page.main_key) == "No sown cell is waiting here."
    assert page.resow.findChild(QPushButton, "sow-again") is None or not any(
        one.isVisible() for one in page.resow.findChildren(QPushButton, "sow-again")
    )


def test_a_hidden_page_catches_up_when_it_comes_to_the_front(page, keeper):
    page.hide()
    a4 = key(page.main.view, "A4")
    keeper.do(lambda: deeds_spots.mark_up(keeper.season, [a4], TODAY))
    page.show()
    page.entered()
    assert page.main.headline.count.text() == "11 of 36 up · 31 %"


def test_leaving_the_page_goes_back_to_marking_for_today(page):
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(-3))
    page.leave()
    assert page.seen_on.is_today


@pytest.mark.parametrize("size", [(1024, 614), (1440, 814), (2048, 1228)])
@pytest.mark.parametrize(("rows", "columns"), [(6, 12), (10, 20), (12, 24)])
def test_every_cell_of_a_large_tray_can_be_hit_and_reached(qtbot, bench, keeper, shelf, size, rows, columns):
    keeper.do(
        lambda: make_holder(keeper.season, name="Large", form="tray", rows=rows, columns=columns, day=TODAY)
    )
    page = open_page(qtbot, bench, size)
    page.open_holder(holder_named(keeper.season, "Large"))
    view = page.main.view
    qtbot.wait(20)
    assert min(view.grid.pitch_x, view.grid.pitch_y) >= 24  # WCAG 2.2, 2.5.8 target size (minimum)
    view.setFocus()
    view.go_to((0, 0))
    view.choice.step(rows, columns)
    view.chosen()
    assert view.choice.current == (rows - 1, columns - 1)
    assert view.visibleRegion().boundingRect().contains(view.grid.cell(view.choice.current).center())


def fits(page, size):
    """Whether the page needs no more room than a window gives it; layouts come to rest in their own time."""
    needed = page.minimumSizeHint()
    return needed.width() <= size[0] and needed.height() <= size[1]


@pytest.mark.parametrize("size", [(1024, 614), (1440, 814)])
def test_everything_has_its_room_in_the_smallest_window(page, qtbot, size):
    page.setMinimumSize(*size)  # as the window sets its own
    page.resize(*size)
    qtbot.waitUntil(lambda: fits(page, size))
    for one in page.findChildren(QPushButton):
        if one.isVisible():
            assert one.width() >= one.minimumSizeHint().width(), one.text()


def test_the_questions_in_line_find_room_in_the_smallest_window(page, qtbot):
    page.setMinimumSize(1024, 614)
    page.resize(1024, 614)
    page.seen_on.edit.setDate(page.seen_on.edit.date().addDays(-3))
    go(page.main.view, "A1")
    press_key(page.main.view, K.Key_Delete)
    QTest.mouseClick(page.new_holder.open_button, LEFT)
    qtbot.waitUntil(lambda: fits(page, (1024, 614)))
    assert page.main.scroller.height() >= 100


def test_everything_a_grower_can_press_has_a_name_and_is_large_enough(page):
    """24 px: WCAG 2.2, 2.5.8 target size (minimum)."""
    for one in page.findChildren(QPushButton):
        if one.isVisible():
            assert one.text() or one.accessibleName()
            assert min(one.width(), one.height()) >= 24, one.text()


def test_the_plotting_library_is_not_loaded_before_a_page_is_shown():
    code = "import sys; import greenroom.desk.grow.page; sys.exit('pyqtgraph' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


def test_pages_come_and_go_without_a_trace(qtbot, bench, shelf):
    before = len(bench.look.children())
    for _ in range(2):
        page = GrowPage(bench)
        qtbot.addWidget(page)
        page.show()
        page.entered()
        page.leave()
    assert len(bench.look.children()) == before


def test_ctrl_clicked_cells_stay_chosen_when_the_tray_is_told_anew(page, keeper):
    click(page.main.view, "A1", CTRL)
    click(page.main.view, "B2", CTRL)
    keeper.do(lambda: set_units("f", "ml", TODAY))
    assert page.main.view.choice.chosen == {(0, 0), (1, 1)}


def test_a_band_over_the_columns_names_a_variety_once(page):
    assert [(band.words, band.first, band.last) for band in page.main.view.bands.columns] == [
        ("Cinder Lantern", 0, 2),
        ("Brass Bell", 3, 5),
    ]


def test_bands_follow_a_sowing_and_its_undoing(page, keeper):
    keeper.do(lambda: add_packets(keeper.season, [SeedEntry("Marsh Drop", seeds=20)], SOWN_ON))
    marsh = next(one.key for one in packets(keeper.season) if one.name == "Marsh Drop")
    cells = [SpotKey(page.main_key, row, 6) for row in range(6)]
    keeper.do(lambda: deeds_spots.sow(keeper.season, marsh, cells, TODAY))
    assert page.main.view.bands.columns[-1].words == "Marsh Drop"
    keeper.undo()
    assert page.main.view.bands.columns[-1].words == "Brass Bell"
