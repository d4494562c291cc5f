"""What the grower relies on: a photograph of a tray is read as it is, and a guess is called one.

Trays are drawn with known truth (``tray_pictures``). The reference library is scikit-image; the photograph
of a plant is the one that comes with scikit-learn, under CC BY 2.0 as the notes beside it say.
"""

import ast
import math
import sys
from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from skimage.filters import threshold_otsu
from skimage.transform import ProjectiveTransform

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.tray_photo import photo as photo_module
from greenroom.exchange.tray_photo.cells import BARE, MARKED, TOO_DARK, TOO_SMALL, UNSURE, UP, read_cells
from greenroom.exchange.tray_photo.corners import LIKELY, NOT_INSTALLED, SURE, find_tray
from greenroom.exchange.tray_photo.greenness import excess_green, leaf_level, otsu
from greenroom.exchange.tray_photo.grid import within_rim
from greenroom.exchange.tray_photo.homography import UNIT, homography, is_fit, mapped
from greenroom.exchange.tray_photo.photo import NOT_FOUND, along_rows, load_photo, mark_corners, turned
from tests.exchange.tray_pictures import BARK, COIR, SAND, TILTED, YOUNG, Scene, drawn, jpeg

PLAIN = Scene()
LIGHTS = {
    "as it comes": {},
    "dim": {"light": 0.3},
    "half in shadow": {"shade": 0.4},
    "glaring": {"light": 1.5},
    "warm": {"cast": (1.25, 1.0, 0.7)},
    "pink": {"cast": (1.2, 0.75, 1.2)},
    "out of focus": {"blur": 2.0},
    "grainy": {"noise": 0.05},
    "bark, greenish": {"soil": BARK, "cast": (0.88, 1.1, 0.88)},
    "coir, aslant": {"soil": COIR, "corners": TILTED},
    "sand": {"soil": SAND},
}
GROWN = {"few": {"share_up": 0.06}, "small and young": {"size": 0.1, "leaf": YOUNG}}
CANOPY = {"canopy": {"share_up": 1.0, "size": 0.5}}


def states(reading, scene):
    return np.array([cell.state for cell in reading.cells]).reshape(scene.rows, scene.columns)


def read(picture, scene):
    return read_cells(picture.pixels, picture.block, scene.rows, scene.columns)


def off(found, true):
    """The largest distance of a corner from where it is [px]."""
    return float(np.hypot(*(np.array(found) - np.array(true)).T).max())


# Woebbecke et al. (1995): 2g - r - b with r = R / (R + G + B) and so on; worked by hand.
@pytest.mark.parametrize(
    ("colour", "index"),
    [
        ((60, 120, 60), 0.5),  # r, g, b = 1/4, 1/2, 1/4
        ((0, 200, 0), 2.0),
        ((200, 0, 0), -1.0),
        ((90, 90, 90), 0.0),
        ((100, 150, 50), 0.5),  # 1/3, 1/2, 1/6
        ((120, 80, 40), 0.0),  # 1/2, 1/3, 1/6: a brown soil
        ((2, 6, 2), 0.0),  # nearly black: taken for grey
    ],
)
def test_excess_green_is_that_of_the_published_formula(colour, index):
    assert excess_green(np.array([[colour]], np.uint8))[0, 0] == pytest.approx(index)
    assert excess_green(np.array(colour) / 255) == pytest.approx(index)


@given(st.integers(40, 255), st.integers(40, 255), st.integers(40, 255), st.floats(0.3, 1.0))
def test_excess_green_does_not_change_with_the_light(red, green, blue, light):
    colour = np.array([red, green, blue]) / 255
    assert excess_green(colour * light) == pytest.approx(excess_green(colour))


@pytest.mark.parametrize("seed", range(6))
def test_otsus_level_is_the_one_scikit_image_finds(seed):
    random = np.random.default_rng(seed)
    share = random.uniform(0.05, 0.9)
    values = np.where(
        random.random(20_000) < share, random.normal(0.4, 0.08, 20_000), random.normal(0.0, 0.05, 20_000)
    )
    assert otsu(values).level == pytest.approx(threshold_otsu(values, nbins=256), abs=1e-9)


def test_one_heap_is_as_separable_as_otsu_has_it_and_is_not_split():
    """The measure eta of one normal heap is 2/pi (from memory, and by integration: (E|x|)^2 / E x^2)."""
    values = np.random.default_rng(5).normal(0.0, 0.2, 200_000)
    found = otsu(values)
    assert found.separability == pytest.approx(2 / math.pi, abs=0.01)
    assert not found.clear
    assert leaf_level(values).value is None


def test_nothing_can_be_split_where_all_is_one_colour():
    assert otsu(np.zeros(50)).separability == 0
    assert leaf_level(np.zeros((8, 8))).rule == "none"
    assert leaf_level(np.full((8, 8), 0.4)).rule == "all"


@st.composite
def quadrilaterals(draw):
    """Corners clockwise on a screen, each within a third of a square's own."""
    part = st.floats(-0.32, 0.32)
    return tuple((x + draw(part), y + draw(part)) for x, y in UNIT)


@settings(max_examples=60, deadline=None)
@given(quadrilaterals(), st.floats(20, 3000))
def test_the_way_from_one_quadrilateral_to_another_is_scikit_images(corners, size):
    if not is_fit(corners):
        return
    target = np.array(corners) * size
    ours = homography(UNIT, target)
    theirs = ProjectiveTransform.from_estimate(np.array(UNIT), target)
    points = np.random.default_rng(1).random((40, 2))
    assert mapped(ours, points) == pytest.approx(theirs(points), abs=1e-6 * size)
    assert mapped(np.linalg.inv(ours), target) == pytest.approx(np.array(UNIT), abs=1e-6)


@pytest.mark.parametrize(
    ("source", "said"),
    [(UNIT[:3], "four or more points"), (((0, 0), (1, 0), (2, 0), (0, 1)), "three points on a line")],
)
def test_a_way_that_cannot_be_is_refused(source, said):
    with pytest.raises(ValueError, match=said):
        homography(source, UNIT[: len(source)] if len(source) == 4 else source)


@pytest.mark.parametrize("light", LIGHTS)
def test_what_came_up_is_read_in_every_light_and_nothing_else(light):
    """Counted over trays with few and many up: of 100 cells marked up 98 are, of 100 up 95 are marked.

    The floors are what a hand can be asked to mend: one or two cells of a tray of 72. A cell that the
    program is unsure of counts as not found, not as wrong.
    """
    right = wrong = missed = unsure = 0
    trays = GROWN | CANOPY if light in ("as it comes", "warm", "grainy") else GROWN
    for number, grown in enumerate(trays.values()):
        scene = replace(PLAIN, **(grown | LIGHTS[light]), seed=number + 1)
        picture = drawn(scene)
        found = states(read(picture, scene), scene)
        right += int(((found == UP) & picture.up).sum())
        wrong += int(((found == UP) & ~picture.up).sum())
        missed += int(((found != UP) & picture.up).sum())
        unsure += int((found == UNSURE).sum())
    precision, recall = right / (right + wrong), right / (right + missed)
    sys.stdout.write(
        f"{light}: precision {precision:.3f}, recall {recall:.3f}, unsure {unsure} of {72 * len(trays)}\n"
    )
    assert precision >= 0.98
    assert recall >= 0.95


@pytest.mark.parametrize("light", LIGHTS)
def test_a_bare_tray_is_bare_in_every_light(light):
    scene = replace(PLAIN, **(LIGHTS[light] | {"share_up": 0.0}), seed=9)
    reading = read(drawn(scene), scene)
    assert {cell.state for cell in reading.cells} == {BARE}
    assert {cell.cover for cell in reading.cells} == {0.0}
    assert reading.level.value is None


def test_the_cover_of_each_cell_is_about_what_was_drawn():
    """Within 3 points in 100 on average: half a point of blur round a leaf is that much of a small cell."""
    for number, grown in enumerate(({"size": 0.12}, {"size": 0.2}, {"size": 0.3, "corners": TILTED})):
        scene = replace(PLAIN, **grown, blur=0.6, seed=number)
        picture = drawn(scene)
        found = np.array([cell.cover for cell in read(picture, scene).cells]).reshape(picture.cover.shape)
        inside = picture.cover / (1 - 2 * 0.06) ** 2  # what stands in the part of a cell that is looked at
        assert np.abs(found - inside).mean() < 0.03
        assert np.corrcoef(found.ravel(), picture.cover.ravel())[0, 1] > 0.97


def test_corners_a_few_points_off_change_no_answer():
    picture = drawn(PLAIN)
    moved = tuple(
        (x + dx, y + dy)
        for (x, y), (dx, dy) in zip(picture.block, ((3, -2), (-3, 2), (2, 3), (-2, -3)), strict=True)
    )
    found = states(read_cells(picture.pixels, moved, 6, 12), PLAIN)
    assert ((found == UP) == picture.up).all()


@pytest.mark.parametrize("light", ["as it comes", "dim", "half in shadow", "grainy", "coir, aslant"])
def test_the_tray_is_found_where_it_stands_out(light):
    """Each corner within a quarter of a cell, which is 10 points in these pictures."""
    scene = replace(PLAIN, **LIGHTS[light], share_up=0.5)
    picture = drawn(scene)
    found = find_tray(picture.pixels)
    assert found.confidence >= SURE
    assert off(found.corners, picture.outer) < 5
    assert off(within_rim(picture.pixels, found.corners, 6, 12), picture.block) < 10


@pytest.mark.parametrize(
    "how",
    [{"table": (60, 55, 50)}, {"corners": ((-60, 50), (580, 50), (600, 360), (-60, 360))}],
    ids=["dark on dark", "cut off by the picture"],
)
def test_a_tray_that_is_not_whole_or_hardly_stands_out_is_not_said_to_be_found(how):
    found = find_tray(drawn(replace(PLAIN, **how)).pixels)
    assert found is None or found.confidence < LIKELY
    assert find_tray(np.full((400, 600, 3), 90, np.uint8)) is None


def test_rows_run_along_the_side_they_fit():
    wide = ((0, 0), (120, 0), (120, 60), (0, 60))
    assert along_rows(wide, 6, 12) == wide
    assert along_rows(wide, 12, 6) == turned(wide) == ((120, 0), (120, 60), (0, 60), (0, 0))


@pytest.fixture
def taken(tmp_path):
    """A function that takes a picture in, as from a file of the grower's."""

    def take(data, name="tray.jpg"):
        path = tmp_path / name
        path.write_bytes(data)
        return load_photo(path, lambda share: None, lambda: False)

    return take


def test_a_photograph_from_a_file_is_read_from_end_to_end(taken):
    picture = drawn(replace(PLAIN, corners=TILTED))
    photo = taken(jpeg(picture.pixels))
    marked = mark_corners(photo, 6, 12)
    assert marked.confidence >= SURE
    found = states(read_cells(photo.pixels, marked.corners, 6, 12), PLAIN)
    assert ((found == UP) == picture.up).all()


def test_without_the_library_the_corners_are_marked_by_hand_and_one_sentence_says_so(taken, monkeypatch):
    monkeypatch.setattr(photo_module, "can_find", lambda: False)
    marked = mark_corners(taken(jpeg(drawn(PLAIN).pixels)), 6, 12)
    assert (marked.confidence, marked.words) == (None, NOT_INSTALLED)
    assert "pip install greenroom[photo]" in marked.words
    assert is_fit(marked.corners)


def test_where_nothing_is_found_the_corners_begin_within_the_picture(taken):
    marked = mark_corners(taken(jpeg(np.full((300, 500, 3), 120, np.uint8))), 6, 12)
    assert (marked.confidence, marked.words) == (0.0, NOT_FOUND)
    assert is_fit(marked.corners)


def test_the_library_is_loaded_by_one_module_and_only_when_a_tray_is_looked_for():
    package = Path(photo_module.__file__).parents[2]
    for path in package.rglob("*.py"):
        tree = ast.parse(path.read_text(encoding="utf-8")) if "skimage" in path.read_text("utf-8") else None
        inside = set(ast.walk(tree)) - set(tree.body) if tree is not None else ()
        imports = [one for one in (*inside, *(tree.body if tree else ())) if isinstance(one, ast.ImportFrom)]
        of_library = [one for one in imports if (one.module or "").startswith("skimage")]
        assert not of_library or path.name == "corners.py"
        assert all(one in inside for one in of_library)


WHOLE = jpeg(np.full((200, 300, 3), 90, np.uint8))


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (WHOLE[: len(WHOLE) // 2], "is cut off or damaged"),
        (WHOLE[:40] + bytes(400), "is (no picture|cut off or damaged)"),
        (b"", "is no picture that can be read"),
        (b"name,rows\nTray A,6\n", "is no picture that can be read"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is no picture that can be read"),
        (
            b"BM" + bytes(12) + (40).to_bytes(4, "little") + (60_000).to_bytes(4, "little") * 2 + bytes(28),
            ".",
        ),
    ],
    ids=["cut", "mutated", "empty", "table", "drawing", "huge"],
)
def test_a_file_that_is_no_sound_picture_is_refused_in_one_sentence(data, said, taken, tmp_path):
    with pytest.raises(BadFileError, match=said) as caught:
        taken(data)
    assert str(caught.value).count(". ") == 0
    assert str(caught.value).startswith("tray.jpg ")
    assert [path.name for path in tmp_path.iterdir()] == ["tray.jpg"]


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        (((0, 0), (900, 0), (450, 400), (0, 600)), None),  # a true quadrilateral
        (((0, 0), (900, 0), (100, 100), (0, 600)), MARKED),  # dented in
        (((0, 0), (0, 600), (900, 600), (900, 0)), MARKED),  # against the clock
        (((0, 0), (0, 0), (900, 600), (0, 600)), MARKED),
        (((0, 0), (60, 0), (60, 30), (0, 30)), TOO_SMALL),
    ],
)
def test_corners_that_hold_no_tray_are_refused_in_one_sentence(corners, said):
    pixels = np.full((600, 900, 3), 90, np.uint8)
    if said is None:
        assert read_cells(pixels, corners, 6, 12).level.value is None
        return
    with pytest.raises(BadFileError) as caught:
        read_cells(pixels, corners, 6, 12)
    assert str(caught.value) == said


@pytest.mark.parametrize("how", [{"light": 0.1}, {"light": 0.4, "noise": 0.12}], ids=["dark", "grainy"])
def test_a_photo_in_which_nothing_can_be_told_is_refused_rather_than_guessed_at(how):
    with pytest.raises(BadFileError) as caught:
        read(drawn(replace(PLAIN, **how)), PLAIN)
    assert str(caught.value) == TOO_DARK


def test_leaves_that_lean_in_from_the_cell_beside_make_no_cell_up():
    """The right tenth of a cell is green: that is a neighbour's leaf, and the grower is asked."""
    picture = drawn(replace(PLAIN, share_up=0.4, seed=3))
    pixels = picture.pixels.copy()
    (row, column), *_ = zip(*np.nonzero(~picture.up & (np.arange(12) < 11)), strict=True)
    x0, y0 = picture.block[0]
    wide, high = (picture.block[2][0] - x0) / 12, (picture.block[2][1] - y0) / 6
    left, top = round(x0 + (column + 0.82) * wide), round(y0 + (row + 0.2) * high)
    pixels[top : top + round(0.6 * high), left : round(x0 + (column + 1) * wide)] = (96, 158, 62)
    found = states(read_cells(pixels, picture.block, 6, 12), PLAIN)
    assert found[row, column] == UNSURE


def test_reading_can_be_called_off():
    picture = drawn(PLAIN)
    with pytest.raises(Cancelled):
        read_cells(picture.pixels, picture.block, 6, 12, cancelled=lambda: True)


def test_leaves_of_a_real_plant_are_told_from_its_petals():
    """Boxes x0, y0, x1, y1 looked at by eye: leaf left, leaves right; petals of the large bloom."""
    folder = Path(find_spec("sklearn").submodule_search_locations[0])
    pixels = np.asarray(Image.open(folder / "datasets" / "images" / "flower.jpg").convert("RGB"))
    index = excess_green(pixels)
    level = leaf_level(index).value
    leaf = index > level
    for x0, y0, x1, y1 in ((10, 100, 120, 290), (480, 80, 620, 180)):
        assert leaf[y0:y1, x0:x1].mean() > 0.9
    assert leaf[130:330, 210:400].mean() < 0.01
