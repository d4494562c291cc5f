"""Set out: what a grower does on the plan, with the mouse and with keys alone, and what follows from it."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from greenroom.desk.set_out.page import SetOutPage
from greenroom.desk.set_out.plan_state import DRAW, PLANT
from greenroom.desk.set_out.sun_keeper import Ask, SunKeeper
from greenroom.desk.set_out.tables import PlacesModel, SquaresModel
from greenroom.ledger.facts import SoilFelt
from greenroom.season.deeds_plot import Rectangle, add_obstacle, lay_bed
from greenroom.season.deeds_spots import mark_up, move
from greenroom.season.plot import Plot, plot_of
from greenroom.season.plot_sun import Where, open_ground
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY, holder_named

LEFT = Qt.MouseButton.LeftButton
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def plot(keeper, shelf):
    """Six seedlings potted up in Rack 1, two beds, a group of small pots and a shed."""
    tray, rack = (holder_named(keeper.season, name) for name in ("Tray A", "Rack 1"))
    up = [SpotKey(tray, row, column) for row in range(5) for column in range(3, 5)]
    keeper.do(lambda: mark_up(keeper.season, up, date(2027, 3, 22)))
    keeper.do(lambda: move(keeper.season, up[:6], SpotKey(rack, 0, 0), date(2027, 4, 20)))
    keeper.do(lambda: lay_bed(keeper.season, "Bed 1", 2, 4, Rectangle(0, 0, 4, 2), TODAY))
    keeper.do(lambda: lay_bed(keeper.season, "Pots", 1, 2, Rectangle(5, 0, 1.2, 0.6), TODAY, 12.0))
    keeper.do(lambda: add_obstacle("Shed", Rectangle(0, -3, 4, 2), 2.5, TODAY))
    return plot_of(keeper.season)


@pytest.fixture
def page(bench, qtbot, plot):
    return shown(bench, qtbot)


def shown(bench, qtbot):
    made = SetOutPage(bench)
    bench.keeper.changed.connect(made.take)
    qtbot.addWidget(made)
    made.resize(1240, 760)
    made.show()
    qtbot.waitExposed(made)
    made.entered()
    return made


def spot_point(page, spot):
    bed = page.plan.state.plot.bed(spot.holder)
    return page.plan.frame.to_px(bed.position(spot.row, spot.column)).toPoint()


def drag(widget, start, target, end):
    """Press on a widget, move to a point of another, and let go there."""
    reached = widget.mapFromGlobal(target.mapToGlobal(end))
    QTest.mousePress(widget, LEFT, pos=start)
    QTest.mouseMove(widget, start + QPoint(20, 20))
    QTest.mouseMove(widget, reached)
    QTest.mouseRelease(widget, LEFT, pos=reached)


def keys(widget, *which, modifier=Qt.KeyboardModifier.NoModifier):
    for one in which:
        QTest.keyClick(widget, one, modifier)


def pot_point(page, row, column):
    return page.rack.grid.cell((row, column)).center()


def bed_named(season, name):
    return next(bed for bed in plot_of(season).beds if bed.name == name)


def test_without_a_plot_the_page_says_what_to_do_first_and_does_it(bench, qtbot, keeper):
    page = shown(bench, qtbot)
    assert page.empty.isVisible()
    assert not page.plan.isVisible()
    QTest.mouseClick(page.empty.bed, LEFT)
    assert [bed.name for bed in plot_of(keeper.season).beds] == ["Bed 1"]
    assert page.plan.isVisible()
    assert page.plan.state.mode == DRAW
    assert page.form.name.text() == "Bed 1"


def test_plants_are_dragged_from_a_rack_into_a_bed(page, keeper, plot):
    target = SpotKey(plot.beds[0].key, 1, 2)
    drag(page.rack, pot_point(page, 0, 1), page.plan, spot_point(page, target))
    assert keeper.season.spot(target).up == 1
    assert keeper.season.spot(SpotKey(page.rack.holder.key, 0, 1)).up == 0


def test_several_plants_fill_the_bed_in_order_and_one_undo_takes_them_back(page, keeper, plot):
    QTest.mouseClick(page.rack, LEFT, pos=pot_point(page, 0, 0))
    QTest.mouseClick(page.rack, LEFT, SHIFT, pot_point(page, 0, 2))
    bed = plot.beds[0].key
    drag(page.rack, pot_point(page, 0, 0), page.plan, spot_point(page, SpotKey(bed, 0, 2)))
    filled = [spot.key.label for spot in keeper.season.spots(bed) if spot.up]
    assert filled == ["A3", "A4", "B1"]
    assert keeper.undo()
    assert keeper.season.counts(bed).living == 0


def test_plants_are_set_out_by_keys_alone_also_where_a_bed_was_just_drawn(page, keeper, plot, qtbot, bench):
    QTest.mouseClick(page.bar.draw, LEFT)
    page.rack.setFocus()
    keys(page.rack, Qt.Key.Key_Right, Qt.Key.Key_Right, Qt.Key.Key_M)
    assert page.hand.active
    qtbot.waitUntil(page.plan.hasFocus)
    keys(page.plan, Qt.Key.Key_Down, Qt.Key.Key_Right, Qt.Key.Key_M)
    assert keeper.season.spot(SpotKey(plot.beds[0].key, 1, 1)).up == 1
    assert bench.said == []


def test_a_plant_is_moved_from_place_to_place_and_not_onto_another(page, keeper, plot, bench):
    bed = plot.beds[0].key
    for column in range(2):
        pots = [SpotKey(page.rack.holder.key, 0, column)]
        page.acts.move(pots, SpotKey(bed, 0, column))
    page.refresh()
    drag(page.plan, spot_point(page, SpotKey(bed, 0, 0)), page.plan, spot_point(page, SpotKey(bed, 1, 3)))
    assert keeper.season.spot(SpotKey(bed, 1, 3)).up == 1
    page.refresh()
    drag(page.plan, spot_point(page, SpotKey(bed, 1, 3)), page.plan, spot_point(page, SpotKey(bed, 0, 1)))
    assert keeper.season.spot(SpotKey(bed, 1, 3)).up == 1
    assert "taken" in bench.said[-1]


def test_a_click_on_a_pot_marks_nothing(page, keeper):
    before = keeper.season.counts(page.rack.holder.key)
    QTest.mouseClick(page.rack, LEFT, pos=pot_point(page, 0, 0))
    assert keeper.season.counts(page.rack.holder.key) == before


def test_beds_and_shade_are_moved_and_sized_with_the_mouse(page, keeper):
    QTest.mouseClick(page.bar.draw, LEFT)
    shed = page.plan.state.plot.shades[0]
    start = page.plan.frame.to_px((2, -2)).toPoint()
    metre = page.plan.frame.scale
    drag(page.plan, start, page.plan, start + QPoint(round(metre), -round(metre)))
    moved = plot_of(keeper.season).shades[0]
    assert (moved.x_m, moved.y_m) == pytest.approx((shed.x_m + 1, shed.y_m + 1), abs=0.06)
    page.plan.choose(moved.key)
    corner = page.plan.frame.to_px(moved.corners[2]).toPoint()
    metre = page.plan.frame.scale
    drag(page.plan, corner, page.plan, corner + QPoint(round(metre), -round(0.5 * metre)))
    sized = plot_of(keeper.season).shades[0]
    assert (sized.width_m, sized.depth_m) == pytest.approx((5, 2.5), abs=0.06)
    assert (sized.x_m, sized.y_m) == (moved.x_m, moved.y_m)


def test_beds_are_moved_sized_and_taken_away_with_keys(page, keeper):
    QTest.mouseClick(page.bar.draw, LEFT)
    keys(page.plan, Qt.Key.Key_PageDown)
    before = bed_named(keeper.season, "Bed 1")
    keys(page.plan, Qt.Key.Key_Right, Qt.Key.Key_Up)
    keys(page.plan, Qt.Key.Key_Right, modifier=SHIFT)
    after = bed_named(keeper.season, "Bed 1")
    assert (after.x_m, after.y_m, after.width_m) == pytest.approx((0.1, 0.1, before.width_m + 0.1))
    keys(page.plan, Qt.Key.Key_PageDown, Qt.Key.Key_Delete)
    assert [bed.name for bed in plot_of(keeper.season).beds] == ["Bed 1"]


def test_a_bed_is_changed_by_numbers(page, keeper):
    QTest.mouseClick(page.bar.draw, LEFT)
    page.plan.choose(bed_named(keeper.season, "Pots").key)
    page.form.turned.setValue(30)
    page.form.columns.setValue(3)
    page.form.pot.setValue(25)
    page.form.name.setText("Terrace")
    keys(page.form.name, Qt.Key.Key_Return)
    bed = bed_named(keeper.season, "Terrace")
    assert (bed.turned_deg, bed.columns, bed.pot_litres) == (30, 3, 25)


def test_a_planted_bed_is_not_taken_away(page, keeper, plot, bench):
    bed = plot.beds[0].key
    page.acts.move([SpotKey(page.rack.holder.key, 0, 0)], SpotKey(bed, 0, 0))
    QTest.mouseClick(page.bar.draw, LEFT)
    page.plan.choose(bed)
    QTest.mouseClick(page.form.away, LEFT)
    assert plot_of(keeper.season).bed(bed) is not None
    assert "Bed 1 still holds" in bench.said[-1]


@pytest.mark.parametrize("kind", ["bed", "pots", "tree", "fence", "building"])
def test_each_kind_of_thing_is_added_beside_the_others_and_may_be_added_twice(page, keeper, kind):
    QTest.mouseClick(page.bar.draw, LEFT)
    before = plot_of(keeper.season).things
    for _ in range(2):
        QTest.mouseClick(page.form.adds[kind], LEFT)
    new = [thing for thing in plot_of(keeper.season).things if thing not in before]
    assert len(new) == 2
    assert len({thing.name for thing in new}) == 2
    assert page.plan.state.chosen in {thing.key for thing in new}


def test_the_map_follows_the_day_and_the_half_of_the_day(page):
    page.bar.show_day(date(2027, 6, 21))
    june = page.plan.state.sun
    assert june.day == date(2027, 6, 21)
    assert june.most.day == pytest.approx(open_ground(june.day, Where(46.4, 16.0)).day)
    page.bar.show_day(date(2027, 10, 15))
    assert page.plan.state.sun.of("day").mean() < june.of("day").mean()
    QTest.mouseClick(page.bar.halves["morning"], LEFT)
    assert page.plan.state.half == "morning"
    assert "morning" in page.plan.accessibleDescription()
    spot = SpotKey(page.plan.state.plot.beds[0].key, 0, 0)
    first = page.places.list.item(0).text()
    assert f"{max(one.morning for one in page.plan.state.hours.values()):.1f} h" in first
    assert page.plan.state.hours[spot].morning <= page.plan.state.sun.most.morning + 1e-9


def test_shadows_move_with_the_hour(page):
    assert page.plan.state.shadows == []
    QTest.mouseClick(page.bar.shadows, LEFT, pos=QPoint(8, page.bar.shadows.height() // 2))
    page.bar.hour_slider.setValue(9 * 60)
    morning = page.plan.state.shadows[0]
    page.bar.hour_slider.setValue(17 * 60)
    evening = page.plan.state.shadows[0]
    assert min(x for x, _ in morning) < 0 < 4 < max(x for x, _ in evening)
    assert page.bar.hour_words.text() == "17:00"


def test_one_bed_may_fill_the_plan_in_finer_squares(page):
    whole = page.plan.state.sun.side_m
    page.bar.seen.setCurrentIndex(page.bar.seen.findText("Bed 1"))
    assert page.plan.state.sun.side_m < whole
    assert page.plan.state.extent.width == 6


def test_the_best_places_are_listed_and_lead_to_their_place(page, bench):
    listed = page.places.list
    assert listed.count() == 8
    item = listed.item(0)
    QTest.mouseClick(listed.viewport(), LEFT, pos=listed.visualItemRect(item).center())
    current = page.plan.state.current
    assert current.label in item.text()
    assert "h of sun" in page.plan.accessibleName()
    QTest.mouseClick(page.places.why, LEFT)
    assert "direct sun" in bench.explained[-1].figure


def test_what_is_to_mind_is_told_with_its_reason(page, keeper, bench, settle):
    pots = bed_named(keeper.season, "Pots").key
    page.acts.move([SpotKey(page.rack.holder.key, 0, 0)], SpotKey(pots, 0, 0))
    settle(120)
    texts = [one.text() for one in page.mind.findChildren(QLabel)]
    assert "Pots: Brass Bell asks for 11 L or more and stands in 12 L." not in texts
    page.plan.choose(pots)
    QTest.mouseClick(page.bar.draw, LEFT)
    page.form.pot.setValue(5)
    settle(120)
    texts = [one.text() for one in page.mind.findChildren(QLabel) if not one.isHidden()]
    assert "Pots: Brass Bell asks for 11 L or more and stands in 5 L." in texts
    assert page.plan.state.minded == {SpotKey(pots, 0, 0)}


def test_the_gate_says_why_and_takes_the_soils_temperature(page, keeper, bench, settle):
    assert page.gate_card.said.text() == "Rack 1: wait; the day cannot be told yet."
    assert "Not hardened" in page.gate_card.rows[2].words.text()
    QTest.mouseClick(page.gate_card.rows[2].why, LEFT)
    assert bench.explained[-1].figure == "Not hardened"
    page.gate_card.soil.setValue(13.5)
    QTest.mouseClick(page.gate_card.note, LEFT)
    assert keeper.season.latest(SoilFelt).celsius == 13.5
    settle(120)
    assert "13.5 °C on 14 May; wait for 15.6 °C" in page.gate_card.rows[1].words.text()


def test_with_plants_in_hand_the_page_says_what_the_gate_says(page):
    page.hand.lift([SpotKey(page.rack.holder.key, 0, 0)])
    assert page.foot.text.startswith("The gate says wait: ")
    assert "hardened" in page.foot.text.partition("·")[0]
    page.hand.let_go()
    assert "gate" not in page.foot.text


def test_the_tables_say_what_the_plan_shows(page, qtmodeltester):
    QTest.mouseClick(page.bar.table, LEFT)
    assert page.tables.isVisible()
    places, squares = page.tables.places, page.tables.squares
    qtmodeltester.check(places)
    qtmodeltester.check(squares)
    assert places.rowCount() == 10
    sun = page.plan.state.sun
    assert (squares.rowCount(), squares.columnCount()) == (sun.rows, sun.columns)
    assert squares.index(0, 0).data() == f"{sun.of('day')[0, 0]:.1f}"
    hours = page.plan.state.hours[SpotKey(page.plan.state.plot.beds[0].key, 0, 0)]
    assert [places.index(0, column).data() for column in (0, 4)] == ["Bed 1 A1", f"{hours.day:.1f} h"]


def test_empty_tables_are_sound(qtmodeltester, qapp):
    for model in (PlacesModel(), SquaresModel()):
        qtmodeltester.check(model)
        assert model.rowCount() == 0


def test_a_screen_reader_is_told_the_whole_plot(page):
    told = page.plan.accessibleDescription()
    for words in (
        "2 beds",
        "Bed 1 with 0 of 8 places planted",
        "Shed, 2.5 m high",
        "Sun on 14 May",
        "open ground",
    ):
        assert words in told


def test_a_late_answer_about_the_sun_is_dropped(qtbot, plot, qapp):
    """Two asks in a row, both too large to be answered at once: only the second is heard."""
    keeper, heard = SunKeeper(), []
    keeper.ready.connect(heard.append)
    shades = plot.shades * 60
    wide = Plot(plot.beds, shades)
    asks = [Ask(wide, wide.extent, (), TODAY + timedelta(days), Where(46.4, 16.0)) for days in (0, 30)]
    assert all(ask.work > 6000 for ask in asks)
    for ask in asks:
        keeper.ask(ask)
    assert heard == []
    qtbot.waitUntil(lambda: bool(heard))
    qtbot.wait(150)
    assert [sun.map.day for sun in heard] == [TODAY + timedelta(30)]
    keeper.ask(asks[1])
    assert len(heard) == 2


def test_what_happens_elsewhere_is_shown_on_coming_back(page, keeper, plot, settle):
    page.hide()
    keeper.do(lambda: add_obstacle("Tree", Rectangle(6, 3, 2, 2), 4.0, TODAY))
    assert len(page.plan.state.plot.shades) == 1
    page.show()
    page.entered()
    assert [one.name for one in page.plan.state.plot.shades] == ["Shed", "Tree"]
    page.leave()
    assert not page.sun.running
    assert page.plan.state.mode == PLANT


def test_enter_opens_the_story_of_the_plant_beside_the_plan_and_escape_closes_it(page, plot):
    rack = holder_named(page.bench.keeper.season, "Rack 1")
    page.rack.story_asked.emit(SpotKey(rack, 0, 0))
    assert page.panel.title.text() == "A1 of Rack 1"
    bed = bed_named(page.bench.keeper.season, "Bed 1")
    page.plan.go_to(SpotKey(bed.key, 0, 1))
    assert page.panel.title.text() == "A2 of Bed 1"
    page.panel.close_panel()
    assert page.places.isVisible()
    keys(page.plan, Qt.Key.Key_Return)
    assert page.panel.isVisible()
    QTest.keyClicks(page.panel.note, "the sunny corner")
    keys(page.panel.note, Qt.Key.Key_Escape)
    assert page.plan.hasFocus()
    page.story_button.click()
    assert page.panel.lines.made[-1].line.words == "note: the sunny corner"
    page.bar.draw.setChecked(True)
    assert not page.panel.isVisible()
