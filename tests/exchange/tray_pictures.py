"""Trays drawn with known truth: which cells hold a seedling, where the corners are, how green each is.

The tray is drawn flat and then laid into the picture by scikit-image's own projective transform, so that
what straightens it again is held against another hand's work.
"""

import io
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from PIL import Image
from scipy.ndimage import gaussian_filter
from skimage.transform import ProjectiveTransform, warp

SIDE = 32  # points of a cell as it is drawn
RIM = 15
PEAT, BARK, COIR, SAND = (62, 46, 36), (96, 70, 48), (140, 104, 70), (176, 160, 132)
LEAF = (96, 158, 62)
YOUNG = (150, 196, 92)
PLASTIC, TABLE = (30, 31, 33), (188, 182, 172)
SIZE = (640, 440)
STRAIGHT = ((50, 60), (590, 60), (590, 350), (50, 350))
TILTED = ((110, 60), (540, 45), (615, 400), (40, 370))


OF_LIGHT = ("light", "cast", "blur", "noise", "shade")


@dataclass(frozen=True)
class Scene:
    """How a tray is grown, lit and taken."""

    rows: int = 6
    columns: int = 12
    share_up: float = 0.6
    soil: tuple = PEAT
    leaf: tuple = LEAF
    size: float = 0.17  # half the length of a seed leaf, of a cell's side
    light: float = 1.0
    cast: tuple = (1.0, 1.0, 1.0)
    blur: float = 0.8
    noise: float = 0.012
    corners: tuple = STRAIGHT
    table: tuple = TABLE
    shade: float = 1.0  # what is left of the light on the left part
    seed: int = 1


@dataclass(frozen=True)
class Drawn:
    """A picture, and what is true of it."""

    pixels: np.ndarray
    up: np.ndarray  # rows x columns of bool
    cover: np.ndarray  # rows x columns, share of each cell
    outer: tuple
    block: tuple


def drawn(scene):
    """Draw a scene: the tray as it lies there once, the light and the camera anew."""
    lying = _laid(replace(scene, **{name: getattr(Scene, name) for name in OF_LIGHT}))
    pixels = _taken(lying.pixels, scene, np.random.default_rng(scene.seed + 100))
    return replace(lying, pixels=pixels)


@cache
def _laid(scene):
    random = np.random.default_rng(scene.seed)
    flat, leaf, up = _flat(scene, random)
    high, wide = leaf.shape
    frame = [(0, 0), (wide, 0), (wide, high), (0, high)]
    into = ProjectiveTransform.from_estimate(np.array(frame, float), np.array(scene.corners, float))
    width, height = SIZE
    table = np.ones((height, width, 3)) * np.array(scene.table) / 255
    table += random.normal(0, 0.01, (height, width, 1))
    lying = warp(flat, into.inverse, output_shape=(height, width), order=1, cval=np.nan)
    picture = np.where(np.isnan(lying), table, lying)
    block = [(RIM, RIM), (wide - RIM, RIM), (wide - RIM, high - RIM), (RIM, high - RIM)]
    cells = leaf[RIM : high - RIM, RIM : wide - RIM]
    cover = cells.reshape(scene.rows, SIDE, scene.columns, SIDE).mean(axis=(1, 3))
    outer, inner = (
        tuple((float(x) + 0.5, float(y) + 0.5) for x, y in points)  # from middles of points to their edges
        for points in (scene.corners, into(np.array(block, float)))
    )
    return Drawn(picture, up, cover, outer, inner)


def jpeg(pixels, quality=88):
    """A picture as a camera would write it."""
    out = io.BytesIO()
    Image.fromarray(pixels).save(out, "JPEG", quality=quality)
    return out.getvalue()


def _flat(scene, random):
    """The tray from straight above: its colours, where leaf is, which cells are up."""
    high, wide = scene.rows * SIDE + 2 * RIM, scene.columns * SIDE + 2 * RIM
    y, x = np.mgrid[0:high, 0:wide].astype(float)
    grain = random.normal(0, 0.10, (high, wide, 1))
    flat = np.array(scene.soil) / 255 * (1 + grain)
    specks = random.random((high, wide)) < 0.006  # perlite
    flat[specks] = (0.87, 0.86, 0.83)
    inside_y, inside_x = (y - RIM) % SIDE, (x - RIM) % SIDE
    wall = (inside_y < 2) | (inside_x < 2) | (inside_y > SIDE - 3) | (inside_x > SIDE - 3)
    wall |= (y < RIM) | (y >= high - RIM) | (x < RIM) | (x >= wide - RIM)
    flat[wall] = np.array(PLASTIC) / 255
    leaf = np.zeros((high, wide), bool)
    up = random.random((scene.rows, scene.columns)) < scene.share_up
    for row, column in zip(*np.nonzero(up), strict=True):
        at_y, at_x = RIM + (row + 0.5) * SIDE, RIM + (column + 0.5) * SIDE
        at_y, at_x = np.array((at_y, at_x)) + random.normal(0, 0.07 * SIDE, 2)
        angle = random.random() * np.pi
        half = scene.size * SIDE * random.uniform(0.75, 1.25)
        shade = np.array(scene.leaf) / 255 * random.uniform(0.8, 1.15)
        near = tuple(slice(max(0, round(at - SIDE)), round(at + SIDE)) for at in (at_y, at_x))
        for way in (1, -1):  # two seed leaves
            dy, dx = y[near] - at_y - way * half * np.sin(angle), x[near] - at_x - way * half * np.cos(angle)
            along = dx * np.cos(angle) + dy * np.sin(angle)
            across = -dx * np.sin(angle) + dy * np.cos(angle)
            blade = (along / half) ** 2 + (across / (0.42 * half)) ** 2 < 1
            flat[near][blade] = shade * (1 - 0.12 * np.abs(across[blade, None]) / half)
            leaf[near] |= blade
    return np.clip(flat, 0, 1), leaf, up


def _taken(picture, scene, random):
    """The light of the scene and the camera's faults."""
    across = np.linspace(1.1, 0.85, picture.shape[1])[None, :, None]
    picture = picture * across * scene.light * np.array(scene.cast)
    picture[:, : picture.shape[1] * 2 // 5] *= scene.shade
    picture = gaussian_filter(picture, (scene.blur, scene.blur, 0))
    picture = picture + random.normal(0, scene.noise, picture.shape)
    return (np.clip(picture, 0, 1) * 255).round().astype(np.uint8)
