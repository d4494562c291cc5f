"""The chosen packet on the Seed page: what to expect, tests at home, plants wanted, the guide."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QDate, QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractSpinBox, QComboBox, QScrollBar, QWidget
from scipy.stats import beta

from greenroom.desk.look import font, load_fonts
from greenroom.desk.parts import WhyLink
from greenroom.desk.seed.begin_test import TOO_FEW
from greenroom.desk.seed.guide_words import guide_facts
from greenroom.desk.window import Window
from greenroom.ledger.facts import GerminationCount, GerminationTest, Wanted
from greenroom.season.deeds_shelf import SeedEntry, correct_packet, set_units
from greenroom.season.deeds_tests import begin_test, count_test
from greenroom.season.germination import germination
from greenroom.season.home_tests import home_tests_of
from greenroom.season.packets import packet_view, packets
from tests.desk.seed_hands import choose_bell, open_page, part

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton
BEGUN = date(2027, 5, 6)


@pytest.fixture
def page(qtbot, bench, keeper, shelf):
    return open_page(qtbot, bench)


@pytest.fixture
def brass(page):
    """The page with Brass Bell chosen, told to be a bell pepper: 18 of its 60 seeds are sown."""
    return choose_bell(page)


@pytest.fixture
def tested(page, brass, keeper):
    """A test of 20 seeds, begun eight days ago at 27 °C, three up on the sixth day."""
    keeper.do(lambda: begin_test(keeper.season, brass, 20, BEGUN, 27.0))
    (test,) = home_tests_of(keeper.season, brass)
    keeper.do(lambda: count_test(keeper.season, test.key, BEGUN + timedelta(days=6), 3))
    page.panel.open_tab("tests")
    return test.key


def block(page):
    (found,) = part(page, "tests").blocks.values()
    return found


def counts(keeper, packet):
    (test,) = home_tests_of(keeper.season, packet)
    return [((day - test.begun).days, count) for day, count in test.counts]


def press(widget):
    QTest.mouseClick(widget, LEFT)


# the panel


def test_without_a_chosen_packet_the_panel_is_a_form_for_a_new_one(page):
    assert page.panel.title.text() == "A new packet"
    assert not page.panel.tabs.bar.isVisible()
    assert page.card.form.isVisible()


def test_choosing_a_packet_opens_what_to_expect_of_it(page, brass):
    assert page.panel.title.text() == "Brass Bell"
    assert page.panel.kind.text() == "Bell pepper · C. annuum"
    assert page.panel.tabs.current == "expect"
    assert page.panel.tabs.bar.isVisible()


def test_the_tab_one_is_on_stays_from_packet_to_packet(page, brass, keeper):
    page.panel.open_tab("tests")
    cinder = next(view.key for view in packets(keeper.season) if view.name == "Cinder Lantern")
    page.table.choose(cinder)
    assert page.panel.tabs.current == "tests"
    press(part(page, "packet").another)
    assert not page.panel.tabs.bar.isVisible()
    page.panel.open_tab("packet")
    page.table.choose(brass)
    assert page.panel.tabs.current == "packet"


def test_the_tabs_are_gone_through_with_the_arrow_keys(page, brass):
    bar = page.panel.tabs.bar
    bar.setFocus()
    QTest.keyClick(bar, Qt.Key.Key_Right)
    assert page.panel.tabs.current == "tests"
    QTest.keyClick(bar, Qt.Key.Key_Left)
    assert page.panel.tabs.current == "expect"


# what to expect


def test_the_range_and_all_it_is_made_of_are_shown(page, brass, keeper):
    """18 sown 63 days ago, none up; a label of 92 %, one year old. The figures are the season's own."""
    shown = part(page, "expect")
    expected = germination(keeper.season, brass, keeper.today)
    words = shown.parts.words
    assert shown.share.text() == f"{expected.low * 100:.0f}–{expected.high * 100:.0f} % up"
    assert words[:2] == ["On the label", "92 %"]
    assert words[3:6] == ["After 1 year", f"{expected.prior.share * 100:.0f} %", "counts as 14 seeds"]
    assert words[6:9] == ["Tests at home", "–", "no test yet"]
    assert words[9:11] == ["Own sowings", "0 %"]
    assert words[11].startswith(f"0 of {expected.sown.tried:.1f}")
    assert "Tray A, 12 March 2027 at 24 °C: 0 of 18 up" in shown.sowings.text()
    assert shown.about.text() == "Lot 26-02 · packed 2026, 1 year old · 42 of 60 seeds left"


def test_the_seed_law_is_compared_in_words(page, brass, keeper):
    """Pepper for sale: 55 % at least (7 CFR 201.31). Of 18 own seeds none came."""
    words = part(page, "expect").law.text()
    assert "The seed law asks 55 %" in words
    expected = germination(keeper.season, brass, keeper.today)
    below = beta.cdf(0.55, expected.alpha, expected.beta)
    assert words.endswith(f"the chance that this packet lies below is {below * 100:.0f} %.")
    assert "below the seed law's least" in part(page, "expect").bar.accessibleDescription()


def test_the_share_explains_itself(page, brass, bench):
    press(part(page, "expect").share_why)
    why = bench.explained[-1]
    assert dict(why.inputs)["the label says"] == "92 %"
    assert any("7 CFR part 201" in source for source in why.sources)


def test_days_of_the_guide_and_ones_own_stand_beside_each_other(page, keeper, bench):
    """Ten of Cinder Lantern's 18 were up nine days after sowing; of no kind, it is taken for an annuum."""
    cinder = next(view.key for view in packets(keeper.season) if view.name == "Cinder Lantern")
    page.table.choose(cinder)
    shown = part(page, "expect")
    words = shown.days_parts.words
    assert words[0:2] == ["Guide", "day 9"]  # between 13 at 20 °C and 8 at 25 °C: Harrington and Minges 1954
    assert words[3:6] == ["Own", "day 9", "of 10 seedlings of this lot"]
    assert words[6] == "Together"
    press(shown.days_why)
    assert any("Harrington" in source for source in bench.explained[-1].sources)


def test_where_the_guide_has_no_days_it_says_so(page, brass, keeper):
    keeper.do(lambda: correct_packet(keeper.season, brass, SeedEntry("Brass Bell", "moonflower", "26-02")))
    shown = part(page, "expect")
    assert shown.no_days.isVisible()
    assert not shown.days_why.isVisible()
    assert not shown.law.isVisible()


# plants wanted


def test_plants_wanted_are_written_when_the_field_is_left_and_the_seeds_told(page, brass, keeper):
    field = part(page, "expect").wanted
    assert field.title.text() == "Plants wanted in 2027"
    field.plants.setFocus()
    field.plants.selectAll()
    QTest.keyClicks(field.plants, "6")
    QTest.keyClick(field.plants, Qt.Key.Key_Return)
    (fact,) = keeper.season.facts(Wanted)
    assert (fact.year, fact.plants) == (2027, 6)
    assert "None wanted" not in field.note.text()
    keeper.undo()
    assert field.plants.value() == 0


def test_going_through_many_numbers_is_one_act(page, brass, keeper, qtbot):
    field = part(page, "expect").wanted
    field.plants.setFocus()
    for _ in range(5):
        QTest.keyClick(field.plants, Qt.Key.Key_Up)
    assert keeper.season.facts(Wanted) == []
    qtbot.waitUntil(lambda: [fact.plants for fact in keeper.season.facts(Wanted)] == [5])


def test_a_number_that_was_not_left_is_written_with_the_page_or_with_the_packet(page, brass, keeper):
    field = part(page, "expect").wanted
    field.plants.stepUp()
    page.leave()
    assert [fact.plants for fact in keeper.season.facts(Wanted)] == [1]
    field.plants.stepUp()
    cinder = next(view for view in packets(keeper.season) if view.name == "Cinder Lantern")
    page.table.choose(cinder.key)
    assert [fact.plants for fact in keeper.season.facts(Wanted)] == [1, 2]
    assert {fact.variety for fact in keeper.season.facts(Wanted)} == {
        packet_view(keeper.season, brass).packet.variety
    }
    assert field.plants.value() == 0


# tests at home


def test_a_test_is_begun_with_its_seeds_day_and_warmth(page, brass, keeper):
    new = part(page, "tests").new
    assert part(page, "tests").empty.isVisible()
    assert (new.seeds.minimum(), new.seeds.value(), new.seeds.maximum()) == (10, 20, 42)
    new.seeds.setValue(25)
    new.on.setDate(QDate(2027, 5, 4))
    new.warmth.setValue(27)
    press(new.begin)
    (fact,) = keeper.season.facts(GerminationTest)
    assert (fact.packet, fact.seeds, fact.day, fact.warmth_c) == (brass, 25, date(2027, 5, 4), 27.0)
    assert block(page).days.hasFocus()
    assert packet_view(keeper.season, brass).left == 17
    assert not part(page, "tests").empty.isVisible()


def test_a_test_without_a_warmth_and_one_told_in_fahrenheit(page, brass, keeper):
    """86 °F is 30 °C (NIST SP 811)."""
    keeper.do(lambda: set_units("f", "floz", keeper.today))
    new = part(page, "tests").new
    press(new.begin)
    new.warmth.setValue(86)
    press(new.begin)
    assert [fact.warmth_c for fact in keeper.season.facts(GerminationTest)] == [None, 30.0]


def test_a_test_cannot_be_begun_with_more_than_is_left_or_with_fewer_than_ten(page, brass, keeper):
    new = part(page, "tests").new
    new.seeds.setValue(42)
    press(new.begin)
    assert not new.begin.isEnabled()
    assert new.too_few.isVisible()
    assert new.too_few.text() == TOO_FEW
    keeper.undo()
    assert new.begin.isEnabled()


def test_a_test_cannot_be_set_ahead_of_today(page, brass, keeper):
    new = part(page, "tests").new
    new.on.setDate(QDate(2027, 6, 1))
    assert new.on.date() == QDate(2027, 5, 14)


def test_days_are_counted_with_the_keys(page, brass, tested, keeper):
    days = block(page).days
    days.setFocus()
    assert days.day == keeper.today
    QTest.keyClick(days, Qt.Key.Key_4)
    QTest.keyClick(days, Qt.Key.Key_Left)
    QTest.keyClick(days, Qt.Key.Key_Plus)
    QTest.keyClick(days, Qt.Key.Key_Plus)
    QTest.keyClick(days, Qt.Key.Key_Backspace)
    assert counts(keeper, brass) == [(6, 3), (7, 1), (8, 4)]
    QTest.keyClick(days, Qt.Key.Key_Delete)
    assert counts(keeper, brass) == [(6, 3), (8, 4)]
    assert days.accessibleName() == "13 May, day 7: not looked at"


def test_a_day_ahead_cannot_be_gone_to(page, tested, keeper):
    days = block(page).days
    days.setFocus()
    QTest.keyClick(days, Qt.Key.Key_Right)
    QTest.mouseClick(days, LEFT, pos=days.rect_of(12).center().toPoint())
    assert days.day == keeper.today
    QTest.mouseClick(days, LEFT, pos=days.rect_of(6).center().toPoint() + QPoint(3, 3))
    assert days.day == BEGUN + timedelta(days=6)


def test_days_are_counted_with_the_buttons_and_the_field(page, brass, tested, keeper):
    shown = block(page)
    press(shown.more)
    press(shown.more)
    press(shown.less)
    assert counts(keeper, brass) == [(6, 3), (8, 1)]
    shown.count.setFocus()
    shown.count.selectAll()
    QTest.keyClicks(shown.count, "12")
    QTest.keyClick(shown.count, Qt.Key.Key_Return)
    assert counts(keeper, brass) == [(6, 3), (8, 12)]
    press(shown.clear)
    assert counts(keeper, brass) == [(6, 3)]
    press(shown.none)
    assert counts(keeper, brass) == [(6, 3), (8, 0)]
    assert shown.clear.isVisible()


def test_no_more_can_be_counted_than_were_set(page, brass, tested, keeper, bench):
    shown = block(page)
    assert shown.count.maximum() == 17
    for digit in (Qt.Key.Key_9, Qt.Key.Key_Left, Qt.Key.Key_9):
        QTest.keyClick(shown.days, digit)
    assert bench.said == [
        "9 more germinated is refused: of 20 seeds of Brass Bell 8 are left, so 0 to 8 is allowed."
    ]
    QTest.keyClick(shown.days, Qt.Key.Key_8)
    assert not shown.more.isEnabled()
    assert shown.state.text().startswith("20 of 20 germinated: 100")


def test_a_test_that_is_over_shows_its_interval_and_compares_with_the_law(
    page, brass, tested, keeper, moment
):
    """18 of 20: 68 to 99 % by Clopper and Pearson; 7 CFR 201.31 asks 55 % of pepper."""
    shown = block(page)
    assert shown.state.text() == "Day 8 of 14, 3 of 20 so far. Last count on 20 May."
    assert not shown.why.isVisible()
    moment.go_on(days=6)
    page.tick(moment.moment)
    shown.days.go_to(keeper.today)
    shown.count.setValue(15)
    shown.count.editingFinished.emit()
    assert (
        shown.state.text().replace("\N{NO-BREAK SPACE}", " ") == "18 of 20 germinated: 90 % (68 % to 99 %)."
    )
    assert shown.law.text() == "Surely above the 55 % that the seed law asks of seed for sale."
    words = part(page, "expect").parts.words
    # 27 °C is between 98 % at 25 °C and 95 % at 30 °C: Harrington and Minges 1954. 20 × 96.8 / 98 seeds.
    assert words[6:9] == ["Tests at home", "91 %", "18 of 19.8, less those the warmth kept down"]


def test_the_interval_explains_itself(page, brass, tested, keeper, bench):
    for _ in range(2):
        QTest.keyClick(block(page).days, Qt.Key.Key_8)
        QTest.keyClick(block(page).days, Qt.Key.Key_Left)
    QTest.keyClick(block(page).days, Qt.Key.Key_1)
    press(block(page).why)
    assert any("Clopper" in source for source in bench.explained[-1].sources)


def test_a_test_is_struck_out_and_comes_back_with_undo(page, brass, tested, keeper):
    press(block(page).strike)
    assert keeper.season.facts(GerminationTest) == []
    assert keeper.season.facts(GerminationCount) == []
    assert part(page, "tests").blocks == {}
    keeper.undo()
    assert counts(keeper, brass) == [(6, 3)]
    assert block(page).key == tested


def test_the_days_of_a_test_are_folded_away_and_shown_again(page, tested):
    shown = block(page)
    press(shown.toggle)
    assert not shown.days.isVisible()
    assert shown.state.isVisible()
    press(shown.toggle)
    assert shown.days.isVisible()


def test_how_a_test_is_made_is_told_with_the_crops_own_warmth_and_days(page, brass, bench):
    """Pepper: last count on day 14 (7 CFR 201.58, table 2); best at 25 to 30 °C (Harrington and Minges)."""
    new = part(page, "tests").new
    assert "25 °C to 30 °C" in new.how.text()
    assert "last time on day 14" in new.how.text()
    press(new.how_why)
    why = bench.explained[-1]
    assert dict(why.inputs)["the law's test"] == "20 °C for 16 hours of the day and 30 °C for 8"
    assert any("common practice, no source" in source for source in why.sources)


# the guide


def test_the_guide_tells_each_fact_with_how_it_is_known_and_its_source(page, brass, bench):
    """Bell pepper: 8 weeks indoors by an extension page; depth recalled from memory."""
    shown = part(page, "guide")
    links = {link.accessibleName(): link for link in shown.sheet.findChildren(WhyLink)}
    weeks = next(link for name, link in links.items() if name.startswith("weeks indoors, 8 weeks"))
    depth = next(link for name, link in links.items() if name.startswith("depth, 6–13 mm"))
    assert (weeks.text(), depth.text()) == ("read", "from memory")
    press(weeks)
    assert bench.explained[-1].figure == "Bell pepper, weeks indoors: 8 weeks"
    assert any("Minnesota" in source for source in bench.explained[-1].sources)
    press(depth)
    assert dict(bench.explained[-1].inputs)["how it is known"].startswith("recalled, not looked up")


def test_the_guide_is_told_in_the_units_the_grower_reads(page, brass, keeper):
    """25 to 30 °C is 77 to 86 °F (NIST SP 811)."""
    keeper.do(lambda: set_units("f", "floz", keeper.today))
    names = [link.accessibleName() for link in part(page, "guide").sheet.findChildren(WhyLink)]
    assert any(name.startswith("best warmth, 77–86 °F") for name in names)


def test_what_other_sources_say_against_a_fact_is_told_with_it(bench):
    guide = bench.guide
    facts = [one for _, found in guide_facts(guide, guide.crop("bell"), "c") for one in found]
    nights = next(one for one in facts if one.name == "nights from")
    assert nights.figure == "10 °C"
    assert any(name.startswith("against it") and value == "16 °C" for name, value in nights.why.inputs)


def test_every_crop_of_the_guide_can_be_told_in_both_units(bench):
    for crop in bench.guide.crops:
        for unit in ("c", "f"):
            facts = [one for _, found in guide_facts(bench.guide, crop, unit) for one in found]
            assert facts, crop.key
            assert all(one.figure.strip() and one.why.sources for one in facts)


def test_a_crop_the_guide_does_not_know_says_where_to_choose_one(page, brass, keeper):
    keeper.do(lambda: correct_packet(keeper.season, brass, SeedEntry("Brass Bell", "moonflower", "26-02")))
    shown = part(page, "guide")
    assert "The guide has nothing on this crop" in shown.title.text()
    assert shown.sheet.findChildren(WhyLink) == []


# as it looks


@pytest.fixture
def dressed(page, qapp, bench):
    load_fonts()
    before = qapp.font()
    qapp.setFont(font())
    Window.dress_application(bench.look)
    yield page
    qapp.setFont(before)


@pytest.mark.parametrize("tab", ["expect", "tests", "packet", "guide"])
def test_nothing_is_cut_off_at_the_side_in_the_narrowest_window(dressed, brass, tested, tab):
    dressed.panel.open_tab(tab)
    area = dressed.panel.tabs.area(tab)
    assert area.widget().minimumSizeHint().width() <= area.viewport().width()
    assert area.widget().width() <= area.viewport().width()


def test_everything_the_tab_key_stops_at_on_any_tab_has_a_name_and_can_be_hit(dressed, brass, tested):
    for tab in ("expect", "tests", "packet", "guide"):
        dressed.panel.open_tab(tab)
        for one in dressed.panel.findChildren(QWidget):
            inner = isinstance(one.parent(), QComboBox | QAbstractSpinBox) or isinstance(one, QScrollBar)
            if one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisible() and not inner:
                spoken = QAccessible.queryAccessibleInterface(one).text(QAccessible.Text.Name)
                assert spoken.strip(), one
                assert one.height() >= 24, spoken
