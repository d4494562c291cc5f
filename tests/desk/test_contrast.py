"""What is written can be read and what is painted told apart, in both themes and by every eye.

Contrast is that of WCAG 2.2 level AA: 4.5 to 1 for text (1.4.3), 3 to 1 for what must be seen to use or to
understand something (1.4.11). States are told apart without colour: in grey, by shape, pattern or lightness.
"""

import re
from dataclasses import asdict
from itertools import combinations, pairwise, product

import numpy as np
import pytest
from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QImage, QPainter

from greenroom.desk.care.look_over_chart import PATTERNS, LossChart
from greenroom.desk.grow.cell_art import CellArt, Face
from greenroom.desk.harden.bar_art import ART, ChartKey
from greenroom.desk.harden.days_ahead import VerdictGlyph
from greenroom.desk.look import DARK, LIGHT, Look
from greenroom.desk.set_out.plan_paint import heat, ink_on
from greenroom.desk.sow.odds_curves import STYLES
from greenroom.desk.style_sheet import SHEET
from greenroom.season.ramp_days import DayKind
from greenroom.season.spots import Stage
from tests.desk.seeing import WITHOUT, apart, contrast, rgb, seen_without, share_apart

TEXT, SIGN = 4.5, 3.0  # WCAG 2.2, 1.4.3 and 1.4.11, level AA
PAPER = ("ground", "card")
WASHES = ("leaf_wash", "clay_wash", "sun_wash")
ON_WHAT_IT_IS_NAMED_FOR = tuple((f"on_{one}", one) for one in ("leaf", "clay", "sun", "soil", "seedling"))
WRITTEN = (
    *product(("ink", "quiet", "leaf_text", "clay_text", "plum_text", "link"), (*PAPER, *WASHES)),
    *ON_WHAT_IT_IS_NAMED_FOR,
    ("ink", "leaf_soft"),
    ("ink", "sky"),
)
DRAWN = (
    *product(("focus", "rim", "leaf_text", "clay_text", "quiet", "ink", "link"), (*PAPER, *WASHES)),
    *product(("leaf", "clay", "plum", "soil_edge"), PAPER),
    *product(("leaf", "clay"), ("leaf_wash", "clay_wash")[:1]),
    ("clay", "clay_wash"),
    ("leaf_text", "sky"),
    ("link", "sky"),
    ("sun", "soil"),  # the ring of a chosen cell
    ("sun", "on_sun"),  # the frame of what is sunny, seen on paper
    ("seedling", "soil"),
    ("on_soil", "soil"),
)
# Nothing is told by these alone: rules between things that stand apart anyway, and fills of framed shapes.
DECORATION = {"edge", "line", "leaf_soft", "sky"}
PALETTES = pytest.mark.parametrize("palette", [asdict(LIGHT), asdict(DARK)], ids=["light", "dark"])


@pytest.fixture(params=[False, True], ids=["light", "dark"])
def look(request, qapp):
    return Look(dark=request.param)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # WCAG 2.2, "contrast ratio": ranges from 1 to 21
        ("#ffffff", "#ffffff", 1.0),
        (
            "#767676",
            "#ffffff",
            4.54,
        ),  # W3C, Understanding 1.4.3, technique G18: the lightest grey that passes
        ("#777777", "#ffffff", 4.48),  # W3C, ibid.: does not pass
        ("#949494", "#ffffff", 3.03),  # W3C, Understanding 1.4.11, the grey of its examples
    ],
)
def test_contrast_is_reckoned_as_the_w3c_reckons_it(one, other, ratio):
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@PALETTES
def test_everything_written_can_be_read_on_its_ground(palette):
    weak = {pair: contrast(*(palette[name] for name in pair)) for pair in WRITTEN}
    assert {pair: round(ratio, 2) for pair, ratio in weak.items() if ratio < TEXT} == {}


@PALETTES
def test_everything_that_tells_something_stands_out_from_its_ground(palette):
    weak = {pair: contrast(*(palette[name] for name in pair)) for pair in DRAWN}
    assert {pair: round(ratio, 2) for pair, ratio in weak.items() if ratio < SIGN} == {}


def test_no_colour_of_the_look_goes_unmeasured():
    measured = {name for pair in (*WRITTEN, *DRAWN) for name in pair}
    assert set(asdict(LIGHT)) - measured - DECORATION == set()


@PALETTES
def test_every_rule_of_the_style_sheet_that_colours_text_can_be_read(palette):
    coloured = 0
    for rule in re.findall(r"{([^{}]*)}", SHEET):
        inks = re.findall(r"(?:^|[;\s])(?:selection-|placeholder-text-)?color: @(\w+)", rule)
        grounds = re.findall(r"(?:^|[;\s])(?:selection-)?background(?:-color)?: @(\w+)", rule)
        for ink in inks:
            plates = [one for one in grounds if one == ink.removeprefix("on_")] or grounds or PAPER
            coloured += len(plates)
            best = [contrast(palette[ink], palette[plate]) for plate in plates]
            told = f"@{ink} on {plates}"
            assert max(best) >= TEXT if ink.startswith("on_") else min(best[:1]) >= TEXT, told
    assert coloured > 10


@PALETTES
def test_every_field_and_grip_has_a_boundary_that_can_be_seen(palette):
    for wanted in (
        "QLineEdit",
        "QScrollBar::handle:vertical",
        "QComboBox QAbstractItemView",
        "QCheckBox::indicator ",
    ):
        rule = re.search(rf"{re.escape(wanted)}[^{{}}]*{{+([^{{}}]*(?:@rim|@quiet)[^{{}}]*)}}", SHEET)
        assert rule is not None, wanted
    for name, plate in product(("rim", "quiet"), PAPER):
        assert contrast(palette[name], palette[plate]) >= SIGN


def test_hours_of_sun_can_be_read_on_every_square_of_the_plot(look):
    for share in np.linspace(0, 1, 21):
        ground = heat(look, float(share))
        assert contrast(ink_on(ground).name(), ground.name()) >= TEXT, f"{share:.2f} of the most"


@pytest.mark.parametrize("cones", WITHOUT)
def test_eyes_that_lack_a_cone_see_greys_as_all_eyes_do(cones):
    for grey in ("#000000", "#808080", "#ffffff"):
        assert seen_without(cones, rgb(grey)) == pytest.approx(rgb(grey), abs=0.001)


def test_without_long_or_middle_cones_red_and_green_come_nearer():
    # Machado et al. (2009), section 1: protanopes and deuteranopes confuse red and green.
    usual = apart("#c83232", "#329632")
    assert all(apart("#c83232", "#329632", cones) < usual * 0.6 for cones in ("long cones", "middle cones"))


def test_the_distance_of_colours_is_that_of_the_cie():
    # Sharma, Wu and Dalal (2005), "The CIEDE2000 color-difference formula", table 1, pair 1.
    from skimage.color import deltaE_ciede2000

    found = deltaE_ciede2000((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485))
    assert found == pytest.approx(2.0425, abs=0.0001)


@pytest.mark.parametrize("cones", [None, *WITHOUT])
def test_the_sun_of_the_plot_is_ordered_to_every_eye(look, cones):
    steps = [heat(look, share).name() for share in (0.0, 0.25, 0.5, 0.75, 1.0)]
    assert all(apart(one, other, cones) >= 4 for one, other in pairwise(steps))
    from_shade = [apart(steps[0], other, cones) for other in steps]
    assert from_shade == sorted(from_shade)
    assert from_shade[-1] >= 20


@pytest.mark.parametrize("cones", WITHOUT)
def test_sun_and_shade_on_the_arc_are_told_apart_by_every_eye(look, cones):
    sun, shade, way = (look.colour(name).name() for name in ("sun", "plum", "edge"))
    assert min(apart(sun, shade, cones), apart(sun, way, cones), apart(shade, way, cones)) >= 15


@pytest.mark.parametrize("pot", [False, True], ids=["cells", "pots"])
def test_each_state_of_a_cell_is_told_apart_without_colour(look, pot):
    faces = [Face(pot, stage, up=int(stage in (Stage.UP, Stage.LEAVES)), waiting=1) for stage in Stage]
    faces = [
        one for one in faces if not (pot and one.stage is Stage.MOVED)
    ]  # an empty pot, whatever stood in it
    art, size = CellArt(look), QSize(28, 28)
    drawn = {face.stage: on_card(look, art.picture(face, size, 1.0)) for face in faces}
    alike = {
        (one, other): round(share_apart(drawn[one], drawn[other]), 3)
        for one, other in combinations(drawn, 2)
        if share_apart(drawn[one], drawn[other]) < 0.02
    }
    assert alike == {}


def test_each_kind_of_day_on_the_ramp_is_told_apart_without_colour(look):
    key = ChartKey(look)
    drawn = {
        kind: painted(look, lambda painter, box, kind=kind: key._paint_swatch(painter, box, kind))
        for kind in ART
    }
    told_in_words = {
        frozenset((DayKind.IN, DayKind.HOLD))
    }  # "hold" is written at the one, minutes at the other
    alike = [
        pair
        for pair in combinations(drawn, 2)
        if frozenset(pair) not in told_in_words and share_apart(*(drawn[kind] for kind in pair)) < 0.04
    ]
    assert alike == []


def test_what_the_days_ahead_ask_for_is_told_apart_without_colour(look, qtbot):
    drawn = []
    for verdict in ("out", "sheltered", "hold"):
        glyph = VerdictGlyph(look, verdict)
        qtbot.addWidget(glyph)
        drawn.append(on_card(look, glyph.grab()))
    assert all(share_apart(one, other) > 0.1 for one, other in combinations(drawn, 2))


def test_the_stages_of_what_was_lost_are_told_apart_without_colour(look):
    chart = LossChart(look)
    drawn = [
        painted(look, lambda painter, box, stage=stage: chart._block(painter, box, stage))
        for stage in PATTERNS
    ]
    assert all(share_apart(one, other) > 0.1 for one, other in combinations(drawn, 2))


def test_curves_of_odds_differ_in_stroke_where_colours_may_be_taken_for_each_other(look):
    for one, other in combinations(STYLES, 2):
        nearest = min(
            apart(*(look.colour(style.line).name() for style in (one, other)), cones) for cones in WITHOUT
        )
        assert nearest >= 8 or one.dash != other.dash, (one, other)


def on_card(look, picture):
    """A picture laid on a card."""
    image = QImage(picture.size(), QImage.Format.Format_RGB32)
    image.fill(look.colour("card"))
    painter = QPainter(image)
    painter.drawPixmap(0, 0, picture)
    painter.end()
    return image


def painted(look, paint):
    """What is painted into a box on a card."""
    image = QImage(24, 40, QImage.Format.Format_RGB32)
    image.fill(QColor(look.colour("card")))
    painter = QPainter(image)
    paint(painter, QRectF(1, 1, 22, 38))
    painter.end()
    return image
