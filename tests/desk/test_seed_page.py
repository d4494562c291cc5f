"""The Seed page as a grower uses it: adding, correcting, striking out, filtering."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.seed.packet_form import CROP, GERMINATION, LOT, NAME, PACKED, RIPE, SEEDS, TITLES
from greenroom.season.packets import SeedEntry, packets
from tests.desk.seed_hands import open_page

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")  # the platform without a screen

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def page(qtbot, bench, keeper):
    return open_page(qtbot, bench)


@pytest.fixture
def boxed(shelf, page):
    """The page over a seed box with Brass Bell and Cinder Lantern, both sown from."""
    page.entered()
    return page


def press(button):
    QTest.mouseClick(button, LEFT)


def type_in(page, **values):
    names = {
        "name": NAME,
        "lot": LOT,
        "packed": PACKED,
        "seeds": SEEDS,
        "germination": GERMINATION,
        "ripe": RIPE,
    }
    for key, text in values.items():
        field = page.card.form.crop.words if key == "crop" else page.card.form.fields[names[key]]
        field.setFocus()
        field.selectAll()
        QTest.keyClick(field, Qt.Key.Key_Delete)
        QTest.keyClicks(field, text)
        popup = field.completer().popup() if field.completer() else None
        if popup is not None and popup.isVisible():
            QTest.keyClick(popup, Qt.Key.Key_Escape)


def entries(keeper):
    return [view.entry for view in packets(keeper.season)]


def names_shown(page):
    return [page.model.index(row, 0).data() for row in range(page.model.rowCount())]


def choose(page, name):
    page.table.setFocus()
    page.table.selectRow(names_shown(page).index(name))
    page.panel.open_tab("packet")


# adding


def test_an_empty_box_says_what_to_do_first(page):
    assert page.empty.isVisible()
    assert "Enter your first packet" in page.empty.words.text()
    assert page.card.form.fields[NAME].hasFocus()


def test_a_packet_is_typed_in_and_added(page, keeper):
    type_in(page, name="Cinder Lantern", crop="habanero", lot="26-01", packed="2026", seeds="40")
    type_in(page, germination="85 %", ripe="100")
    press(page.card.add)
    assert entries(keeper) == [SeedEntry("Cinder Lantern", "habanero", "26-01", 2026, 40, 0.85, 100)]
    assert names_shown(page) == ["Cinder Lantern"]
    assert not page.empty.isVisible()


def test_after_adding_the_form_is_ready_for_the_next_packet(page):
    type_in(page, name="Cinder Lantern", lot="1")
    press(page.card.add)
    assert page.card.form.entry() == SeedEntry("")
    assert page.card.form.fields[NAME].hasFocus()


def test_adding_is_undone_and_done_again_as_one_act(page, keeper):
    type_in(page, name="Cinder Lantern")
    press(page.card.add)
    keeper.undo()
    assert names_shown(page) == []
    keeper.redo()
    assert names_shown(page) == ["Cinder Lantern"]


@pytest.mark.parametrize(
    ("field", "text", "allowed"),
    [
        ("packed", "last year", "a year such as 2023"),
        ("packed", "1066", "1900 to 2200"),
        ("seeds", "-4", "a whole number of seeds"),
        ("germination", "140", "a percentage such as 85"),
        ("germination", "0.85", "a percentage such as 85"),
        ("ripe", "soon", "a number of days such as 80"),
        ("crop", "moonflower", "a crop of the guide"),
    ],
)
def test_a_field_that_cannot_be_read_gets_one_sentence_and_adds_nothing(
    page, bench, keeper, field, text, allowed
):
    type_in(page, name="Cinder Lantern", **{field: text})
    press(page.card.add)
    assert len(bench.said) == 1
    assert text in bench.said[0]
    assert allowed in bench.said[0]
    assert bench.said[0].count(". ") == 0
    assert entries(keeper) == []


def test_a_packet_without_a_name_is_refused(page, bench, keeper):
    type_in(page, lot="26-01")
    press(page.card.add)
    assert bench.said == ["A packet needs the name of its variety, with at least one letter or digit."]
    assert entries(keeper) == []


def test_a_twin_of_a_packet_in_the_box_is_told_while_it_is_typed(boxed):
    type_in(boxed, name="cinder lantern", lot="26-01")
    assert "in the seed box already" in boxed.card.hint.text()
    assert boxed.card.hint.isVisible()
    type_in(boxed, lot="27-01")
    assert not boxed.card.hint.isVisible()


def test_a_known_name_brings_its_days_to_ripe_along(boxed):
    boxed.card.form.known_chosen.emit("Cinder Lantern")
    assert boxed.card.form.fields[RIPE].text() == "100"


def test_words_that_the_guide_understands_choose_a_crop(page, keeper):
    type_in(page, name="Some Aji", crop="C. baccatum")
    press(page.card.add)
    assert entries(keeper)[0].crop == "capsicum-baccatum"


def test_leaving_the_page_writes_a_packet_that_was_typed_but_not_added(page, keeper):
    type_in(page, name="Cinder Lantern", lot="26-01")
    page.leave()
    assert entries(keeper) == [SeedEntry("Cinder Lantern", None, "26-01")]


def test_leaving_the_page_keeps_a_twin_in_the_form_and_writes_nothing(boxed, keeper):
    before = entries(keeper)
    type_in(boxed, name="Cinder Lantern", lot="26-01")
    boxed.leave()
    assert entries(keeper) == before
    assert boxed.card.form.name() == "Cinder Lantern"


# correcting


def test_a_chosen_packet_stands_in_the_fields(boxed):
    choose(boxed, "Cinder Lantern")
    assert boxed.card.form.entry() == SeedEntry("Cinder Lantern", None, "26-01", 2026, 40, 0.85, 100)
    assert "18 seeds of it are sown" in boxed.card.hint.text()


def test_a_field_that_is_changed_and_left_is_corrected(boxed, keeper, shelf):
    choose(boxed, "Cinder Lantern")
    type_in(boxed, lot="26-11")
    boxed.card.form.fields[SEEDS].setFocus()
    assert {entry.lot for entry in entries(keeper)} == {"26-02", "26-11"}
    keeper.undo()
    assert boxed.card.form.fields[LOT].text() == "26-01"


def test_leaving_the_page_writes_the_field_being_corrected(boxed, keeper):
    choose(boxed, "Cinder Lantern")
    type_in(boxed, seeds="44")
    boxed.leave()
    assert [entry.seeds for entry in entries(keeper)] == [60, 44]


def test_a_correction_that_cannot_be_read_changes_nothing_and_is_put_back_on_leaving(boxed, keeper, bench):
    before = entries(keeper)
    choose(boxed, "Cinder Lantern")
    type_in(boxed, packed="soon")
    boxed.leave()
    assert entries(keeper) == before
    assert boxed.card.form.fields[PACKED].text() == "2026"
    assert "soon" in bench.said[0]


def test_a_packet_cannot_be_corrected_to_hold_less_than_is_sown_of_it(boxed, keeper, bench):
    choose(boxed, "Cinder Lantern")
    type_in(boxed, seeds="3")
    QTest.keyClick(boxed.card.form.fields[SEEDS], Qt.Key.Key_Return)
    assert bench.said == ["18 seeds of Cinder Lantern are sown; the packet held at least as many."]
    assert boxed.card.form.fields[SEEDS].text() == "40"


def test_choosing_another_row_writes_what_was_changed_in_the_first(boxed, keeper):
    choose(boxed, "Cinder Lantern")
    type_in(boxed, lot="26-11")
    choose(boxed, "Brass Bell")
    assert {entry.lot for entry in entries(keeper)} == {"26-02", "26-11"}
    assert boxed.card.form.name() == "Brass Bell"


def test_a_crop_from_the_list_is_taken_at_once(boxed, keeper):
    choose(boxed, "Brass Bell")
    crop = boxed.card.form.crop
    crop.setCurrentIndex(crop.findData("bell"))
    crop.activated.emit(crop.currentIndex())
    assert entries(keeper)[0].crop == "bell"


def test_old_seed_explains_itself_with_its_source(boxed, bench):
    choose(boxed, "Brass Bell")
    type_in(boxed, packed="2020", crop="bell")
    boxed.card.form.fields[SEEDS].setFocus()
    assert boxed.card.why.isVisible()
    press(boxed.card.why)
    why = bench.explained[-1]
    assert "7 years old; usually keeps 2 years" in why.figure
    assert any("Knott" in source for source in why.sources)


# striking out


def test_a_packet_is_struck_out_with_a_key_and_comes_back_with_undo(page, keeper):
    type_in(page, name="Cinder Lantern")
    press(page.card.add)
    choose(page, "Cinder Lantern")
    QTest.keyClick(page.table, Qt.Key.Key_Delete)
    assert entries(keeper) == []
    assert page.card.key is None
    keeper.undo()
    assert names_shown(page) == ["Cinder Lantern"]


def test_a_packet_in_use_is_not_struck_out(boxed, keeper, bench):
    choose(boxed, "Brass Bell")
    press(boxed.card.strike)
    assert len(entries(keeper)) == 2
    assert "a packet in use stays in the seed box" in bench.said[0]


def test_another_packet_may_be_entered_after_one_was_chosen(boxed):
    choose(boxed, "Brass Bell")
    press(boxed.card.another)
    assert boxed.card.key is None
    assert boxed.card.add.isVisible()
    assert not boxed.table.selectionModel().hasSelection()


# finding


def test_the_filter_narrows_the_table_and_says_when_nothing_is_left(boxed):
    QTest.keyClicks(boxed.filter, "bell")
    assert names_shown(boxed) == ["Brass Bell"]
    QTest.keyClicks(boxed.filter, "xyz")
    assert boxed.unmatched.title.text() == "No packet matches the filter"
    assert boxed.unmatched.isVisible()


def test_the_chosen_packet_stays_chosen_through_sorting_and_filtering(boxed):
    choose(boxed, "Brass Bell")
    boxed.table.sortByColumn(8, Qt.SortOrder.DescendingOrder)
    assert boxed.model.packet_at(boxed.table.currentIndex().row()).name == "Brass Bell"
    QTest.keyClicks(boxed.filter, "brass")
    assert boxed.model.packet_at(boxed.table.currentIndex().row()).name == "Brass Bell"
    assert boxed.card.form.name() == "Brass Bell"


def test_a_packet_added_while_a_filter_hides_it_is_shown(boxed):
    QTest.keyClicks(boxed.filter, "bell")
    type_in(boxed, name="Old Ember")
    press(boxed.card.add)
    assert "Old Ember" in names_shown(boxed)


def test_enter_on_a_row_goes_to_its_fields(boxed):
    choose(boxed, "Brass Bell")
    QTest.keyClick(boxed.table, Qt.Key.Key_Return)
    assert boxed.card.form.fields[NAME].hasFocus()


def test_sowing_elsewhere_shows_in_the_table_when_the_page_comes_to_the_front(boxed, keeper, shelf):
    from greenroom.season.deeds_spots import sow
    from greenroom.season.spots import SpotKey

    boxed.hide()
    brass = packets(keeper.season)[0]
    tray = keeper.season.holders()[0]
    keeper.do(lambda: sow(keeper.season, brass.key, [SpotKey(tray.key, 0, 8)], keeper.today, 2))
    boxed.show()
    boxed.entered()
    assert boxed.model.packet_at(0).sown == 20


def test_every_field_has_a_name_for_a_screen_reader(page):
    form = page.card.form
    for name, field in {**form.fields, CROP: form.crop}.items():
        assert field.accessibleName() == TITLES[name]
    assert page.filter.accessibleName()
    assert page.table.accessibleName()
