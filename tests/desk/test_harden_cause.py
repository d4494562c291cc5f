"""What most likely brought a setback on, and what it looks like, drawn."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.harden.sign_picture import SignPicture
from greenroom.desk.look import Look
from tests.desk.harden_door import NO_SCREEN, hardened_until, potted, shown_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def page(qtbot, bench, keeper, shelf, moment):
    _, rack = potted(keeper)
    hardened_until(keeper, rack)
    page = shown_page(qtbot, bench)
    page.card.buttons.sun.click()
    moment.go_on(minutes=60)
    page.tick(moment.moment)
    return page


def test_a_droop_asks_to_feel_the_mix_where_no_watering_is_written_down(page, bench):
    """A plant that wilts in wet mix is not to be watered: Iowa State University Extension."""
    page.card.buttons.droop.click()
    panel = page.card.panel
    assert panel.likely.text().startswith("the sun. Feel the mix")
    assert panel.watered.currentText() == "not written down"
    QTest.mouseClick(panel.likely_why, Qt.MouseButton.LeftButton)
    assert bench.explained[-1].figure == "Drooping, most likely the sun"


def test_scorch_in_the_sun_is_put_down_to_the_sun(page):
    """Papery patches only where the sun hit: Brust, University of Maryland."""
    page.card.buttons.scorch.click()
    assert page.card.panel.likely.text().startswith("the sun. ")
    assert "pale patches" in page.card.panel.picture.accessibleName()


def test_each_sign_is_drawn_with_a_shape_of_its_own(qtbot):
    """Even without colours the three drawings differ."""
    picture = SignPicture(Look(dark=False))
    qtbot.addWidget(picture)
    drawn = []
    for what in ("droop", "wilt", "scorch"):
        picture.show_sign(what)
        image = picture.grab().toImage()
        drawn.append(bytes(image.convertToFormat(image.Format.Format_Mono).bits()))
    assert len(set(drawn)) == 3
