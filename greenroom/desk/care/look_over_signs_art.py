"""The signs, drawn simply: seedlings, a leaf from above, a fruit, with what is wrong on them."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

from greenroom.desk.care.look_over_sketch import Sketch, blade

VEINS = ((10, 19), (18, 27), (26, 35))
"""Where the side veins leave the middle one, and how far along they end."""


def bare(pen: Sketch) -> None:
    """Mix, a seed in it, nothing above."""
    pen.soil(26)
    pen.round((24, 36), (4, 2.6), "sun", "clay")
    pen.line(((10, 20), (38, 20)), "edge", 1)


def fallen(pen: Sketch) -> None:
    """A seedling pinched at the mix, lying over."""
    pen.soil()
    pen.line(((18, 40), (19, 34)), "clay", 1.2)
    pen.bow((19, 34), (23, 26), (37, 32), "leaf", 2.4)
    pen.leaf((37, 32), -20, "leaf_soft", 9, 4)
    pen.leaf((37, 32), 60, "leaf_soft", 9, 4)
    pen.dots(((18, 39),), 2, "clay")


def leggy(pen: Sketch) -> None:
    """A long bare stem that leans, small leaves at its end."""
    pen.soil(43)
    pen.bow((16, 43), (18, 22), (32, 8), "leaf", 1.3)
    pen.leaf((32, 8), -35, "seedling", 9, 3)
    pen.leaf((32, 8), 150, "seedling", 9, 3)


def wilt(pen: Sketch) -> None:
    """Leaves that hang."""
    pen.soil()
    pen.bow((24, 40), (24, 20), (25, 10), "leaf", 2.4)
    for y, turn in ((12, 70), (20, 62)):
        pen.leaf((25, y), turn, "leaf_soft", 18, 4)
        pen.leaf((25, y), 180 - turn, "leaf_soft", 18, 4)


def lower_yellow(pen: Sketch) -> None:
    """Green above, yellow and drooping below."""
    _plant(pen, ("leaf_soft", "leaf_soft", "sun"))


def purple(pen: Sketch) -> None:
    """Stem and lower sides in purple."""
    pen.soil()
    pen.line(((24, 40), (24, 10)), "plum", 2.6)
    for y, turn in ((12, -30), (22, -12), (31, 12)):
        pen.leaf((24, y), turn, "leaf_soft", 17, 5)
        pen.leaf((24, y), 180 - turn, "leaf_soft", 17, 5)
        pen.bow((24, y), (33, y + 4), (39, y + (turn / 4) + 1), "plum", 2)
        pen.bow((24, y), (15, y + 4), (9, y + (turn / 4) + 1), "plum", 2)


def between_veins(pen: Sketch) -> None:
    """A yellow leaf with green veins."""
    _leaf(pen, "sun", width=2)


def curl(pen: Sketch) -> None:
    """Young leaves rolled inwards and twisted at the tip."""
    pen.soil(43)
    pen.line(((24, 43), (24, 18)), "leaf", 2.4)
    pen.leaf((24, 34), 8, "leaf_soft", 18, 5)
    pen.leaf((24, 34), 172, "leaf_soft", 18, 5)
    for side in (-1, 1):
        pen.bow((24, 18), (24 + side * 22, 2), (24 + side * 15, 19), "leaf", 3.4)
        pen.bow((24 + side * 15, 19), (24 + side * 8, 22), (24 + side * 9, 14), "leaf", 2.4)
    pen.bow((24, 18), (26, 8), (31, 7), "leaf", 2.6)


def tip_burn(pen: Sketch) -> None:
    """A leaf with a dead tip and edge."""
    shape = _leaf(pen, "leaf_soft")
    pen.within(shape)
    pen.round((46, 24), (10, 12), "clay")
    pen.line(((8, 12), (24, 7), (40, 14)), "clay", 4)
    pen.everywhere()
    pen.outline(shape, "")


def spots(pen: Sketch) -> None:
    """Dark spots with pale rings."""
    _leaf(pen, "leaf_soft")
    pen.dots(((15, 20), (23, 29), (29, 17), (35, 26), (18, 27)), 3, "sun", "clay")
    pen.dots(((15, 20), (23, 29), (29, 17), (35, 26), (18, 27)), 1.4, "soil")


def papery(pen: Sketch) -> None:
    """Bleached patches on the side to the sun."""
    shape = _leaf(pen, "leaf_soft")
    pen.within(shape)
    for at, size in (((19, 17), (7, 4)), ((30, 18), (5, 4)), ((25, 13), (5, 2.5))):
        pen.round(at, size, "on_leaf", "clay", 1)
    pen.everywhere()
    pen.dots(((41, 7),), 4, "sun")
    for x, y in ((35, 3), (34, 8), (37, 13), (43, 14)):
        pen.line(((x, y), (x + (41 - x) * 0.25, y + (7 - y) * 0.25)), "sun", 1.4)


def edema(pen: Sketch) -> None:
    """Small raised bumps seen from below."""
    _leaf(pen, "leaf_wash")
    places = ((13, 22), (18, 28), (21, 19), (26, 30), (28, 21), (33, 26), (36, 22), (23, 24))
    pen.dots(places, 2.1, "sun_wash", "clay")
    pen.dots([(x - 0.6, y - 0.7) for x, y in places], 0.7, "card")


def holes(pen: Sketch) -> None:
    """Holes, and a bite out of the edge."""
    shape = _leaf(pen, "leaf_soft")
    for at, size in (((17, 21), (3.5, 2.6)), ((27, 28), (4.4, 3)), ((31, 18), (2.4, 2))):
        pen.round(at, size, "card", "leaf")
    bite = QPainterPath()
    bite.addEllipse(QPointF(22, 8), 6, 5)
    pen.outline(shape.intersected(bite), "card", "card", 2)
    pen.outline(shape.subtracted(bite), "")


def mottled(pen: Sketch) -> None:
    """Light and dark patches, and a ring."""
    shape = _leaf(pen, "seedling")
    pen.within(shape)
    for at, size in (((14, 20), (5, 4)), ((22, 30), (6, 4)), ((36, 22), (5, 5)), ((25, 15), (5, 3))):
        pen.round(at, size, "leaf")
    pen.everywhere()
    pen.round((28, 24), (4.4, 4.4), "", "clay", 1.4)
    pen.round((28, 24), (2, 2), "", "clay", 1)
    pen.outline(shape, "")


def blossom_drop(pen: Sketch) -> None:
    """A bare stalk, and a flower falling."""
    pen.bow((4, 6), (20, 4), (30, 8), "leaf", 2.4)
    pen.bow((20, 6), (22, 11), (21, 16), "leaf", 1.8)
    pen.leaf((30, 8), 15, "leaf_soft", 15, 5)
    for turn in range(0, 360, 72):
        pen.painter.save()
        pen.painter.translate(24, 35)
        pen.painter.rotate(turn)
        pen.outline(blade(9, 4), "on_leaf", "quiet", 1.2)
        pen.painter.restore()
    pen.dots(((24, 35),), 2.6, "sun", "clay")
    for x in (17, 24, 31):
        pen.line(((x, 20), (x, 24)), "edge", 1.2)


def blossom_end(pen: Sketch) -> None:
    """A fruit with a dark patch at its far end."""
    pen.bow((24, 9), (24, 4), (30, 3), "leaf", 2.4)
    fruit = QPainterPath()
    fruit.addEllipse(QPointF(24, 27), 13, 17)
    pen.outline(fruit, "seedling")
    pen.within(fruit)
    pen.round((23, 43), (10, 9), "clay", "soil", 1)
    pen.everywhere()
    pen.outline(fruit, "")
    pen.round((24, 11), (8, 3), "leaf_soft", "leaf")


SIGNS: dict[str, Callable[[Sketch], None]] = {
    "bare": bare,
    "fallen": fallen,
    "leggy": leggy,
    "wilt": wilt,
    "lower-yellow": lower_yellow,
    "between-veins": between_veins,
    "purple": purple,
    "curl": curl,
    "tip-burn": tip_burn,
    "spots": spots,
    "papery": papery,
    "edema": edema,
    "holes": holes,
    "mottled": mottled,
    "blossom-drop": blossom_drop,
    "blossom-end": blossom_end,
}
"""What draws each sign, by the name of its picture in the guide."""


def _plant(pen: Sketch, fills: tuple[str, str, str]) -> None:
    pen.soil()
    pen.line(((24, 40), (24, 8)), "leaf", 2.2)
    for y, turn, fill in zip((11, 21, 31), (-35, -12, 24), fills, strict=True):
        pen.leaf((24, y), turn, fill, 17, 5)
        pen.leaf((24, y), 180 - turn, fill, 17, 5)


def _leaf(pen: Sketch, fill: str, width: float = 0.9) -> QPainterPath:
    """Draw one leaf from above with its veins, and return its outline."""
    shape = blade(43, 14).translated(3, 24)
    pen.outline(shape, fill)
    pen.within(shape)
    pen.line(((3, 24), (46, 24)), "leaf", width)
    for start, end in VEINS:
        pen.line(((start, 24), (end, 10)), "leaf", width)
        pen.line(((start, 24), (end, 38)), "leaf", width)
    pen.everywhere()
    return shape
