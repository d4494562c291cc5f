"""The look-over sheet: what a grower sees is drawn, asked about, ranked and written down."""

from __future__ import annotations

from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLabel

from greenroom.desk.care.care_view import CareView
from greenroom.desk.care.look_over_drawing import ALL, Drawing
from greenroom.desk.care.look_over_list import FOUND, LOSSES, PEST, RECORD, SIGN
from greenroom.desk.care.look_over_part import LookOverPart
from greenroom.desk.look import Look
from greenroom.guide.troubles_reading import load_troubles
from greenroom.ledger.facts import Finding, LookedOver, Note
from greenroom.season.deeds_care import feel_mix
from greenroom.season.deeds_spots import mark_lost
from greenroom.season.round import the_round
from greenroom.season.spots import SpotKey
from tests.desk.conftest import TODAY, holder_named

TROUBLES = load_troubles()


@pytest.fixture
def tray(shelf):
    return holder_named(shelf, "Tray A")


@pytest.fixture
def part(qtbot, bench, keeper, tray):
    made = LookOverPart(bench, lambda: TODAY)
    qtbot.addWidget(made)
    keeper.changed.connect(made.take)
    made.resize(760, 520)
    made.show_holder(tray)
    made.show()
    return made


def click(button) -> None:
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)


def answer(choice: QComboBox, words: str) -> None:
    """Go to an answer by the keyboard, from the first one down."""
    choice.setFocus()
    QTest.keyClick(choice, Qt.Key.Key_Home)
    for _ in range(choice.count()):
        if choice.currentText().startswith(words):
            return
        QTest.keyClick(choice, Qt.Key.Key_Down)
    raise AssertionError(f"{words} is no answer to {choice.accessibleName()}")


def test_nothing_found_is_one_click_and_the_round_asks_no_more(part, keeper, tray, bench):
    def asked():
        return [
            job.key
            for job in the_round(keeper.season, TODAY, keeper.now).jobs
            if job.key.startswith("look over")
        ]

    assert asked()
    assert part.found.last.text() == "Not looked over yet"
    click(part.clean)
    assert [(fact.holder, fact.day) for fact in keeper.season.facts(LookedOver)] == [(tray, TODAY)]
    assert part.last.text == "last looked over on 14 May: nothing found"
    assert part.found.table.rows.index(0, 1).data() == "nothing found"
    assert asked() == []
    assert bench.said == []


def test_a_pest_is_counted_found_on_one_plant_and_told_where_it_was(part, keeper, tray):
    part.plant.setCurrentIndex(part.plant.findText("B2 · Cinder Lantern"))
    part.list.open_row(PEST, "thrips")
    sheet = part.pest
    assert sheet.look.text() == TROUBLES.pests["thrips"].look
    assert sheet.threshold.text().startswith("Published count: 15")
    sheet.count.setFocus()
    sheet.count.selectAll()
    QTest.keyClicks(sheet.count, "18")
    assert sheet.threshold.text().startswith("Reached: 15")
    QTest.keyClicks(sheet.where, "in the flowers")
    click(sheet.found)
    (fact,) = keeper.season.facts(Finding)
    assert (fact.sign, fact.count, fact.where, fact.row, fact.column) == (
        "thrips",
        18,
        "in the flowers",
        1,
        1,
    )
    assert sheet.count.text() == "not counted"
    part.list.open_row(RECORD, FOUND)
    assert part.found.table.rows.index(0, 1).data() == "18 thrips on B2, in the flowers"
    assert part.spot == SpotKey(tray, 1, 1)


def test_every_pest_and_sign_opens_with_its_sources_and_the_rule_for_sprays(part):
    for key in TROUBLES.pests:
        part.list.open_row(PEST, key)
        assert part.pest.sources.text().startswith("Sources: ")
    for key, sign in TROUBLES.signs.items():
        part.list.open_row(SIGN, key)
        assert part.sign.name.text() == sign.name
        told = [one.text() for one in part.sign.causes.findChildren(QLabel, "sources")]
        assert len(told) >= len(sign.causes)
        assert all(text.startswith(("Sources: ", "Common practice")) for text in told)
    assert any("the label is the law" in one.text() for one in part.sign.findChildren(QLabel))


def test_the_record_answers_first_and_the_grower_may_answer_otherwise(part, keeper, tray, bench):
    """Do not water a plant that wilts in wet mix: Iowa State University."""
    keeper.do(lambda: feel_mix(keeper.season, tray, TODAY, "wet"))
    part.list.open_row(SIGN, "wilting")
    sheet = part.sign
    mix = sheet.questions["mix"]
    assert (mix.answer, mix.note.text()) == ("wet", "From your record: felt wet on 14 May")
    assert sheet.verdict.text() == "Likely: Too much water, roots short of air"
    assert sheet.causes.order[0] == "drowned"
    answer(mix.choice, "dry")
    assert mix.note.text() != "From your record: felt wet on 14 May"
    assert sheet.verdict.text() == "Likely: Thirst"
    assert sheet.causes.order[0] == "thirst"
    assert sheet.causes.rows["thirst"].told.isVisible()
    keeper.do(lambda: feel_mix(keeper.season, tray, TODAY, "moist"))
    assert mix.answer == "dry", "what the grower answered stays"
    click(sheet.why)
    assert dict(bench.explained[-1].inputs)["How is the mix, a finger deep?"] == "dry"


def test_textbook_chlorosis_on_young_leaves_is_iron_with_its_source(part):
    """New leaves yellow between the veins where the pH is above 7: University of Maryland Extension."""
    part.list.open_row(SIGN, "between-veins")
    answer(part.sign.questions["which"].choice, "the youngest")
    answer(part.sign.questions["water"].choice, "pH above 7")
    row = part.sign.causes.rows["iron"]
    assert part.sign.causes.order[0] == "iron"
    assert row.words.text() == "likely"
    assert any("University of Maryland Extension" in one.text() for one in row.findChildren(QLabel))


def test_what_it_was_put_down_to_is_one_act_with_the_sign(part, keeper, tray):
    part.list.open_row(SIGN, "leggy")
    rows = part.sign.causes.rows
    rows["crowded"].head.click()
    click(rows["crowded"].settle)
    notes = [entry.fact.text for entry in keeper.season.holder_facts(tray) if isinstance(entry.fact, Note)]
    assert notes == ["Tall, thin and pale: put down to crowded"]
    assert [fact.sign for fact in keeper.season.facts(Finding)] == ["leggy"]
    click(rows["crowded"].settle)
    assert len(keeper.season.facts(Finding)) == 1, "the sign is noted once a day"
    keeper.undo()
    keeper.undo()
    assert keeper.season.facts(Finding) == []


def test_losses_are_shown_by_cause_stage_and_variety(part, keeper, tray, bench):
    keys = [SpotKey(tray, 0, column) for column in range(2)]
    keeper.do(lambda: mark_lost(keeper.season, keys, TODAY - timedelta(days=30), "damping-off"))
    keeper.do(lambda: mark_lost(keeper.season, [SpotKey(tray, 5, 5)], TODAY, "did not come up"))
    part.list.open_row(RECORD, LOSSES)
    sheet = part.losses
    assert sheet.words.text() == "3 lost, 67% of them: damping-off."
    assert sheet.chart.accessibleDescription() == (
        "damping-off 2, 67%: 2 seed leaves; did not come up 1, 33%: 1 not up"
    )
    rows = [[sheet.table.rows.index(row, column).data() for column in (0, 1)] for row in range(2)]
    assert rows == [["Cinder Lantern", "2 · 67%"], ["Brass Bell", "1 · 33%"]]
    part.show_holder(holder_named(keeper.season, "Rack 1"))
    assert sheet.words.text() == "Nothing lost."
    assert not sheet.chart.isVisible()
    sheet.scope.setCurrentIndex(1)
    assert sheet.words.text().startswith("3 lost")
    click(sheet.why)
    assert bench.explained[-1].figure == "3 losses"
    assert sum(sheet.as_table.table().column("count")) == 3
    sheet.scope.setCurrentIndex(0)
    assert not sheet.as_table.isVisible()


def test_the_look_over_is_a_tab_of_the_care_of_a_tray(qtbot, bench, keeper, shelf, tray):
    view = CareView(bench, "Back")
    qtbot.addWidget(view)
    keeper.changed.connect(view.take)
    view.open_for(tray, "look")
    assert isinstance(view.part, LookOverPart)
    click(view.part.clean)
    assert view.part.last.text == "last looked over on 14 May: nothing found"


def test_every_picture_of_the_guide_is_drawn_in_a_shape_of_its_own(qtbot):
    """Even without colours no two drawings are alike."""
    pictures = {one.picture for one in (*TROUBLES.pests.values(), *TROUBLES.signs.values())}
    assert pictures == ALL.keys()
    drawing = Drawing(Look(dark=False))
    qtbot.addWidget(drawing)
    drawn = set()
    for picture in pictures:
        drawing.show_picture(picture, picture)
        image = drawing.grab().toImage()
        drawn.add(bytes(image.convertToFormat(image.Format.Format_Mono).bits()))
    assert len(drawn) == len(pictures)
