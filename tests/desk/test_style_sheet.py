"""A check box shows a tick when it is checked, in both themes, from a file that comes with the program."""

import re
from pathlib import Path

import pytest
from PySide6.QtGui import QColor, QImage
from PySide6.QtWidgets import QCheckBox

from greenroom.desk.look import DARK, LIGHT
from greenroom.desk.style_sheet import stylesheet


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_every_picture_the_style_sheet_names_is_there_and_can_be_drawn(palette, qapp):
    named = re.findall(r'url\("([^"]*)"\)', stylesheet(palette))
    assert named
    assert all(Path(one).is_file() and not QImage(one).isNull() for one in named)


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_a_checked_box_shows_a_tick_on_the_leaf_colour(palette, qtbot, qapp):
    box = QCheckBox("")
    qtbot.addWidget(box)
    box.setStyleSheet(stylesheet(palette))
    box.setChecked(True)
    drawn = box.grab().toImage()
    seen = {
        drawn.pixelColor(x, y).name() for x in range(min(16, drawn.width())) for y in range(drawn.height())
    }
    assert {QColor(palette.leaf).name(), QColor(palette.on_leaf).name()} <= seen
