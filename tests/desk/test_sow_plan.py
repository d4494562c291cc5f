"""The plan as a grower uses it: wanting plants, dragging the day, the rules, warnings, no record, undo.

Figures are held against the plan's own engine, whose tests hold it against pandas, the binomial law and
published tables; here it is tested that the window shows them, lets them be altered and writes them down.
"""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from greenroom.desk.sow.want_model import Column
from greenroom.ledger.facts import PlanRules, SowingPlanned, WeatherRecord
from greenroom.season.deeds_place import give_frost_dates
from greenroom.season.deeds_plan import want_each
from greenroom.season.deeds_shelf import SeedEntry, add_packets
from greenroom.season.deeds_spots import sow
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import packets
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from greenroom.season.wants import chosen_days, rules_of, wanted
from tests.desk.sow_hands import open_whole
from tests.season.plan_ground import champion_days

K = Qt.Key
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.NoButton
PLAIN = Qt.KeyboardModifier.NoModifier
JANUARY = date(2027, 1, 5)
SEEDS = [
    SeedEntry("Cinder Lantern", "habanero", "26-01", 2026, 40, 0.85, 100),
    SeedEntry("Brass Bell", "bell", "26-02", 2026, 9, 0.92, 75),
    SeedEntry("Old Ember", "superhot", "26-03", 2026, 40, 0.7, 130),
]
ASKED = {"Cinder Lantern": 6, "Brass Bell": 12, "Old Ember": 4}


@pytest.fixture
def moment(moment):
    """5 January 2027, when a season is planned."""
    moment.go_on(days=(JANUARY - date(2027, 5, 14)).days)
    return moment


def fill_box(keeper):
    keeper.do(lambda: add_packets(keeper.season, SEEDS, JANUARY))


def fill_record(keeper):
    fact = WeatherRecord(day=JANUARY, source="a record", days=champion_days())
    keeper.do(lambda: Proposal("brought a record in", (fact,)))


STOCK = {"box": fill_box, "record": fill_record}


@pytest.fixture
def box(keeper):
    """Three packets in the seed box."""
    return {view.name: view.packet.variety for view in packets(keeper.season)}


@pytest.fixture
def record(keeper):
    """A weather record of 37 years, of a place on the plains."""
    return keeper.season


@pytest.fixture
def asked(keeper, box):
    plants = {box[name]: number for name, number in ASKED.items()}
    keeper.do(lambda: want_each(keeper.season, plants, 2027, JANUARY))
    return box


@pytest.fixture
def page(qtbot, bench, asked, record):
    return open_whole(qtbot, bench)


def send(widget, kind, point, button, buttons):
    there = QPointF(widget.mapToGlobal(point))
    QApplication.sendEvent(widget, QMouseEvent(kind, QPointF(point), there, button, buttons, PLAIN))


class Drag:
    """The left button held down on a widget; ``drop`` lets it up."""

    def __init__(self, widget, point):
        self.widget, self.at = widget, point
        send(widget, QEvent.Type.MouseButtonPress, point, LEFT, LEFT)

    def to(self, point):
        self.at = point
        send(self.widget, QEvent.Type.MouseMove, point, NONE, LEFT)
        return self

    def drop(self):
        send(self.widget, QEvent.Type.MouseButtonRelease, self.at, LEFT, NONE)


def pick(page, box, name):
    page.desk.pick(box[name])
    return page.desk.row


def chart_drag(page):
    chart, row = page.plan.chart, page.desk.row
    return Drag(chart.viewport(), chart.point_of(page.desk.day_of(row), 0.5))


def point_of(page, day):
    return page.plan.chart.point_of(day, 0.5)


def acts(keeper):
    return [act.name for act in keeper.ledger.acts(50)]


def tick(want, name):
    (item,) = want.list.findItems(name, Qt.MatchFlag.MatchStartsWith)
    item.setCheckState(Qt.CheckState.Checked)


# wanting plants


def test_ticked_varieties_come_on_the_plan_in_one_act(qtbot, bench, keeper, box):
    page = open_whole(qtbot, bench)
    assert page.plan.want.isVisible()
    assert "Nothing is on the plan" in page.plan.nothing.title.text()
    for name in ("Cinder Lantern", "Old Ember"):
        tick(page.plan.want, name)
    page.plan.want.plants.setValue(5)
    QTest.mouseClick(page.plan.want.want, LEFT)
    assert wanted(keeper.season, 2027) == {box["Cinder Lantern"]: 5, box["Old Ember"]: 5}
    assert page.plan.table.wants.rowCount() == 2
    keeper.undo()
    assert wanted(keeper.season, 2027) == {}
    assert page.plan.nothing.isVisible()


def test_a_typed_number_of_plants_is_written_and_takes_other_seeds(page, keeper, asked, qtbot):
    table, row = page.plan.table, pick(page, asked, "Cinder Lantern")
    table.setFocus()
    seeds = row.seeds.seeds
    press = table.wants.index(0, Column.PLANTS)
    table.setCurrentIndex(press)
    QTest.keyClick(table, K.Key_Return)
    editor = table.indexWidget(press) or QApplication.focusWidget()
    editor.selectAll()
    QTest.keyClicks(editor, "12")
    QTest.keyClick(editor, K.Key_Return)
    qtbot.waitUntil(lambda: wanted(keeper.season, 2027)[asked["Cinder Lantern"]] == 12)
    assert page.desk.row.seeds.seeds > seeds


def test_delete_takes_a_variety_off_and_undo_brings_it_back(page, keeper, asked):
    page.plan.table.setFocus()
    page.plan.table.setCurrentIndex(page.plan.table.wants.index(1, Column.NAME))
    QTest.keyClick(page.plan.table, K.Key_Delete)
    assert asked["Brass Bell"] not in wanted(keeper.season, 2027)
    assert page.plan.table.wants.rowCount() == 2
    keeper.undo()
    assert page.plan.table.wants.rowCount() == 3


def test_a_packet_that_holds_too_few_seeds_says_so(page, asked):
    row = pick(page, asked, "Brass Bell")
    assert row.seeds.seeds > 9
    index = page.plan.table.wants.index(1, Column.SEEDS)
    assert "only 9 left" in index.data()
    assert "Only 9 are left" in page.plan.note.seeds.text()


def test_blank_cells_and_confidence_are_told(page, asked):
    need = pick(page, asked, "Cinder Lantern").seeds
    words = page.plan.note.seeds.text()
    assert "95 % sure" in words
    assert f"about {need.blanks:.0f} of {need.cells} cells stay bare" in words


def test_another_season_is_planned_by_itself(page, keeper, asked):
    page.plan.year.setValue(2028)
    assert page.desk.plan.year == 2028
    assert page.plan.table.wants.rowCount() == 0
    page.plan.year.setValue(2027)
    assert page.plan.table.wants.rowCount() == 3


# the dragged day


def test_the_odds_follow_the_line_and_are_written_when_it_is_let_go(page, keeper, asked):
    pick(page, asked, "Cinder Lantern")
    late = page.desk.row.on + timedelta(days=50)
    drag = chart_drag(page)
    drag.to(point_of(page, page.desk.row.on + timedelta(days=20))).to(point_of(page, late))
    day, row = page.desk.trial, page.desk.row
    assert abs((day - late).days) <= 1
    shown = page.plan.chart.told.toPlainText()
    assert shown.endswith(f"in {page.desk.plan.chart.odds_on(row.variety, day).words}")
    assert page.desk.plan.chart.odds_on(row.variety, day).ripe < row.sowing.odds.ripe
    assert f"trying {day.day} " in page.plan.table.wants.index(0, Column.WINDOW).data()
    assert chosen_days(keeper.season, 2027) == {}
    drag.drop()
    assert chosen_days(keeper.season, 2027) == {row.variety: day}
    assert page.desk.trial is None
    assert "chosen" in page.plan.table.wants.index(0, Column.WINDOW).data()
    keeper.undo()
    assert chosen_days(keeper.season, 2027) == {}
    assert page.desk.row.on == row.on


def test_escape_lets_go_of_the_line_and_nothing_is_written(page, keeper, asked):
    pick(page, asked, "Cinder Lantern")
    before, was = acts(keeper), page.desk.row.on
    drag = chart_drag(page)
    drag.to(point_of(page, was + timedelta(days=30)))
    QTest.keyClick(page.plan.chart, K.Key_Escape)
    drag.drop()
    assert page.desk.day_of(page.desk.row) == was
    assert acts(keeper) == before


def test_arrows_move_the_line_a_day_and_enter_keeps_it(page, keeper, asked):
    pick(page, asked, "Cinder Lantern")
    was = page.desk.row.on
    page.plan.chart.setFocus()
    for _ in range(3):
        QTest.keyClick(page.plan.chart, K.Key_Right)
    QTest.keyClick(page.plan.chart, K.Key_Left)
    assert page.desk.trial == was + timedelta(days=2)
    QTest.keyClick(page.plan.chart, K.Key_Return)
    assert chosen_days(keeper.season, 2027) == {asked["Cinder Lantern"]: was + timedelta(days=2)}


def test_a_day_tried_with_the_keys_is_kept_when_the_hand_goes_elsewhere(page, keeper, asked):
    pick(page, asked, "Cinder Lantern")
    page.plan.chart.setFocus()
    QTest.keyClick(page.plan.chart, K.Key_PageDown)
    page.plan.table.setFocus()
    assert len(chosen_days(keeper.season, 2027)) == 1


def test_a_bar_of_the_strip_is_dragged_to_another_day(page, keeper, asked):
    strip = page.plan.strip.strip
    row = pick(page, asked, "Brass Bell")
    start = strip.bar_of(row.variety).center().toPoint()
    way = round(14 * strip.scale.day_px)
    drag = Drag(strip, start).to(start + QPoint(way // 2, 0)).to(start + QPoint(way, 0))
    assert abs((page.desk.trial - row.on).days - 14) <= 1
    day = page.desk.trial
    drag.drop()
    assert chosen_days(keeper.season, 2027) == {row.variety: day}


def test_a_drag_of_a_bar_is_let_go_with_escape(page, keeper, asked):
    strip = page.plan.strip.strip
    row = pick(page, asked, "Brass Bell")
    start = strip.bar_of(row.variety).center().toPoint()
    drag = Drag(strip, start).to(start + QPoint(60, 0))
    QTest.keyClick(strip, K.Key_Escape)
    drag.drop()
    assert chosen_days(keeper.season, 2027) == {}
    assert page.desk.trial is None


def test_up_and_down_go_from_bar_to_bar(page, asked):
    pick(page, asked, "Cinder Lantern")
    page.plan.strip.strip.setFocus()
    QTest.keyClick(page.plan.strip.strip, K.Key_Down)
    assert page.desk.row.name == "Brass Bell"
    assert page.plan.table.currentIndex().row() == 1
    QTest.keyClick(page.plan.strip.strip, K.Key_Up)
    assert page.desk.row.name == "Cinder Lantern"


def test_no_day_outside_the_seasons_sowing_can_be_tried(page, asked):
    pick(page, asked, "Cinder Lantern")
    page.desk.try_day(date(2027, 12, 24))
    assert page.desk.trial == date(2027, 6, 30)


def test_a_chosen_day_is_left_to_the_plan_again(page, keeper, asked):
    row = pick(page, asked, "Cinder Lantern")
    page.desk.try_day(row.on + timedelta(days=9))
    page.desk.keep()
    assert page.plan.note.leave_day.isVisible()
    QTest.mouseClick(page.plan.note.leave_day, LEFT)
    assert keeper.season.facts(SowingPlanned) == []
    assert page.desk.row.on == row.on


def test_what_is_sown_stays_where_it_was(page, keeper, bench, asked, shelf_tray):
    row = pick(page, asked, "Cinder Lantern")
    keeper.do(lambda: sow(keeper.season, row.seeds.packet, [SpotKey(shelf_tray, 0, 0)], keeper.today))
    page.desk.try_day(keeper.today + timedelta(days=40))
    page.desk.keep()
    assert bench.said == ["Cinder Lantern was sown on 5 January; that stays."]
    assert page.desk.day_of(page.desk.row) == keeper.today
    assert chosen_days(keeper.season, 2027) == {}


@pytest.fixture
def shelf_tray(keeper):
    from greenroom.season.deeds_shelf import make_holder

    keeper.do(
        lambda: make_holder(
            keeper.season, name="Tray A", form="tray", rows=6, columns=12, day=JANUARY, mix_c=24
        )
    )
    return keeper.season.holders()[0].key


# rules, warnings, whys


def test_a_rule_counts_at_once(page, keeper, asked, qtbot):
    page.plan.show_panel("rules")
    latest = pick(page, asked, "Brass Bell").latest
    page.plan.rules.fields["odds"].setValue(95)
    qtbot.waitUntil(lambda: rules_of(keeper.season).odds == pytest.approx(0.95))
    assert page.desk.row.latest < latest
    keeper.undo()
    assert rules_of(keeper.season).odds == pytest.approx(0.8)
    assert page.plan.rules.fields["odds"].value() == 80


def test_several_turns_of_one_rule_are_one_act(page, keeper, asked, qtbot):
    page.plan.show_panel("rules")
    for value in (6, 7, 8, 9):
        page.plan.rules.fields["hardening_days"].setValue(value)
    qtbot.waitUntil(lambda: rules_of(keeper.season).hardening_days == 9)
    assert len(keeper.season.facts(PlanRules)) == 1


def test_leaving_the_page_writes_the_rule_that_waits(page, keeper, asked):
    page.plan.rules.fields["run_nights"].setValue(5)
    page.leave()
    assert rules_of(keeper.season).run_nights == 5


def test_a_variety_that_does_not_ripen_here_is_warned_of_with_what_would_help(page, keeper, asked):
    ember = next(one for one in page.desk.plan.rows if one.name == "Old Ember")
    if not ember.short:
        page.desk.pick(ember.variety)
        page.desk.try_day(date(2027, 6, 30))
        page.desk.keep()
    pick(page, asked, "Old Ember")
    page.plan.note.show_help()
    assert page.desk.row.short
    assert "Old Ember" in page.plan.note.short.text()
    assert page.plan.note.helps.text()
    assert "out of doors" in page.plan.note.covered.text()
    assert "short of" in page.plan.short.text()
    pick(page, asked, "Cinder Lantern")
    others = page.plan.note.others
    links = [others.itemAt(place).widget().text() for place in range(others.count())]
    assert any(words.startswith("Old Ember") for words in links)


@pytest.mark.parametrize(
    ("link", "words"),
    [("seeds", "plants wanted"), ("window", "hardening"), ("odds", "heat to ripe")],
)
def test_every_figure_tells_why(page, bench, asked, link, words):
    pick(page, asked, "Cinder Lantern")
    QTest.mouseClick(page.plan.note.links[link], LEFT)
    why = bench.explained[-1]
    assert any(words in name for name, _ in why.inputs)
    assert why.sources


# what is not known


def test_without_a_record_and_frosts_the_page_says_what_to_do(qtbot, bench, asked):
    page = open_whole(qtbot, bench)
    assert not page.plan.chart.isVisible()
    assert "no weather record" in page.plan.no_chart.text()
    assert page.plan.table.wants.index(0, Column.RIPE).data() == "not known"
    QTest.mouseClick(page.plan.to_place, LEFT)
    assert bench.shown == ["place"]


def test_with_two_frosts_alone_there_are_dates_and_no_odds(qtbot, bench, keeper, asked):
    keeper.do(lambda: give_frost_dates(keeper.season, date(2026, 5, 5), date(2026, 10, 5), JANUARY))
    page = open_whole(qtbot, bench)
    row = pick(page, asked, "Cinder Lantern")
    assert row.frosts is not None
    assert not page.plan.chart.isVisible()
    assert "no odds" in page.plan.no_chart.text()
    assert row.frosts.verdict in page.plan.note.odds.text()
    QTest.mouseClick(page.plan.note.links["odds"], LEFT)
    assert "calendar" in bench.explained[-1].rule or "frost" in bench.explained[-1].rule


def test_an_empty_seed_box_leads_to_it(qtbot, bench):
    page = open_whole(qtbot, bench)
    QTest.mouseClick(page.plan.to_seed, LEFT)
    assert bench.shown == ["seed"]


# for those who hear it


def test_chart_strip_and_table_tell_themselves(page, asked):
    row = pick(page, asked, "Cinder Lantern")
    chart = page.plan.chart.accessibleDescription()
    assert row.sowing.odds.words in chart
    assert "latest day" in chart
    assert "set out" in page.plan.strip.strip.accessibleDescription()
    page.desk.step(3)
    assert page.plan.strip.strip.accessibleDescription().startswith("Cinder Lantern: sown ")
    on = page.desk.day_of(row)
    odds = page.desk.plan.chart.odds_on(row.variety, on)
    curve = page.plan.chart.point_of(on, odds.share)
    assert page.plan.chart.words_at(curve) == f"Cinder Lantern, {day_words(on)}: in {odds.words}"
    bar = page.plan.strip.strip.bar_of(row.variety).center().toPoint()
    assert page.plan.strip.strip.words_at(bar).startswith("Cinder Lantern: sown ")
    words = page.plan.table.wants.index(0, 0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert "6 plants" in words
    assert "ripe in" in words


def test_the_table_keeps_to_qts_rules_for_models(page, qtmodeltester, keeper, asked):
    qtmodeltester.check(page.plan.table.wants)


@pytest.mark.parametrize("size", [(1024, 614), (1440, 814)])
def test_every_view_fits_the_window(qtbot, bench, asked, record, size):
    page = open_whole(qtbot, bench, size)
    for view in ("plan", "trays", "light"):
        page.show_view(view)
        assert (page.width(), page.height()) == size
    for panel in ("note", "want", "rules"):
        page.show_view("plan")
        page.plan.show_panel(panel)
        assert (page.width(), page.height()) == size


def test_changes_made_while_hidden_show_when_the_page_comes_back(page, keeper, asked):
    page.hide()
    keeper.do(lambda: want_each(keeper.season, {asked["Brass Bell"]: 0}, 2027, JANUARY))
    page.show()
    page.entered()
    assert page.plan.table.wants.rowCount() == 2


def test_no_name_of_a_curve_is_written_over_another_however_small_the_chart(page, asked, settle):
    chart = page.plan.chart
    for size in ((260, 200), (150, 200), (120, 200), (100, 200)):
        chart.setFixedSize(*size)
        settle(60)
        found = [one.mapRectToScene(one.boundingRect()).adjusted(2, 2, -2, -2) for one in chart.curves.names]
        assert found
        assert not any(one.intersects(other) for at, one in enumerate(found) for other in found[:at])
        assert chart.curves.names[0].textItem.toPlainText() == page.desk.row.name
