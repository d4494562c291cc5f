"""The pests, drawn simply: each by its outline and what tells it from the others."""

from __future__ import annotations

from collections.abc import Callable

from greenroom.desk.care.look_over_sketch import Sketch


def aphid(pen: Sketch) -> None:
    """A pear with two tubes at the rear and long feelers."""
    _legs(pen, ((16, 22), (16, 27), (18, 32)), 9)
    pen.line(((18, 34), (13, 41)), "leaf", 2.4)
    pen.line(((30, 34), (35, 41)), "leaf", 2.4)
    pen.round((24, 28), (10, 12), "seedling", "leaf")
    pen.round((24, 15), (5, 4.5), "seedling", "leaf")
    pen.bow((21, 12), (12, 8), (8, 16), "leaf", 1.2)
    pen.bow((27, 12), (36, 8), (40, 16), "leaf", 1.2)
    pen.dots(((21.5, 14), (26.5, 14)), 1, "ink")


def mite(pen: Sketch) -> None:
    """Eight legs, two dark patches, a web behind."""
    for x in (4, 16, 32, 44):
        pen.line(((x, 3), (48 - x, 45)), "edge", 0.8)
    for y in (18, 23, 29, 34):
        pen.bow((16, y), (9, y - 7), (5, y + 1), "clay", 1.4)
        pen.bow((32, y), (39, y - 7), (43, y + 1), "clay", 1.4)
    pen.round((24, 26), (11, 13), "sun_wash", "clay")
    pen.round((19, 27), (3, 5), "clay")
    pen.round((29, 27), (3, 5), "clay")


def thrips(pen: Sketch) -> None:
    """A slender body with two pairs of fringed wings."""
    for side in (-1, 1):
        for top, reach in ((17, 13), (23, 11)):
            tip = (24 + side * reach, top + 14)
            pen.line(((24 + side * 3, top), tip), "quiet", 1.6)
            for step in (0.3, 0.5, 0.7, 0.9):
                at = (24 + side * (3 + (reach - 3) * step), top + 14 * step)
                pen.line((at, (at[0] + side * 4, at[1] + 1)), "quiet", 0.7)
    pen.round((24, 26), (3.6, 16), "sun", "clay")
    pen.round((24, 9), (3, 3), "clay")
    for y in (20, 25, 30, 35):
        pen.line(((21, y), (27, y)), "clay", 0.8)
    pen.line(((23, 7), (19, 2)), "clay", 1)
    pen.line(((25, 7), (29, 2)), "clay", 1)


def whitefly(pen: Sketch) -> None:
    """White wings held like a roof, on the underside of a leaf."""
    pen.leaf((3, 38), -8, "leaf_soft", 42, 7)
    for x, y, size in ((24, 20, 1.0), (39, 12, 0.5), (8, 10, 0.5)):
        pen.round((x - 4 * size, y), (6 * size, 11 * size), "on_leaf", "quiet")
        pen.round((x + 4 * size, y), (6 * size, 11 * size), "on_leaf", "quiet")
        pen.round((x, y - 11 * size), (3 * size, 3 * size), "sun", "quiet")


def gnat(pen: Sketch) -> None:
    """Slender like a mosquito: long legs and feelers, one pair of clear wings."""
    for side in (-1, 1):
        for foot in (30, 38, 45):
            pen.line(((24, 20), (24 + side * 12, foot - 9), (24 + side * 16, foot)), "ink", 1)
        pen.round((24 + side * 8, 24), (4, 11), "sky", "quiet")
        pen.bow((24, 8), (24 + side * 6, 2), (24 + side * 13, 4), "ink", 1)
    pen.round((24, 28), (2.4, 12), "soil", "ink")
    pen.round((24, 16), (3.2, 4), "soil", "ink")
    pen.round((24, 10), (2.4, 2.4), "soil", "ink")


def shore_fly(pen: Sketch) -> None:
    """Stout, short feelers, five pale spots on each dark wing."""
    for side in (-1, 1):
        pen.line(((24, 24), (24 + side * 13, 20)), "ink", 1.4)
        pen.line(((24, 28), (24 + side * 14, 34)), "ink", 1.4)
        pen.round((24 + side * 8, 31), (6, 12), "soil_edge", "ink")
        places = [(24 + side * dx, y) for dx, y in ((6, 24), (10, 26), (7, 31), (10, 35), (7, 39))]
        pen.dots(places, 1.2, "on_leaf")
        pen.line(((24 + side * 2, 9), (24 + side * 5, 5)), "ink", 1.4)
    pen.round((24, 27), (6, 11), "soil", "ink")
    pen.round((24, 13), (6, 5), "soil", "ink")
    pen.dots(((20, 12), (28, 12)), 1.6, "clay")


def slug(pen: Sketch) -> None:
    """A long foot, a mantle, eyes on stalks, a trail behind."""
    pen.line(((2, 40), (14, 41), (22, 40)), "sky", 3)
    pen.bow((36, 27), (38, 18), (42, 14), "clay", 2)
    pen.bow((33, 27), (33, 18), (34, 13), "clay", 2)
    pen.round((25, 33), (17, 7), "sun_wash", "clay", 1.6)
    pen.round((25, 29), (8, 5), "clay_wash", "clay", 1.4)
    pen.dots(((42, 14), (34, 13)), 1.8, "ink")


def beetle(pen: Sketch) -> None:
    """A shiny oval with thick hind legs, and small round holes in the leaf below."""
    pen.leaf((2, 40), -6, "leaf_soft", 44, 6)
    pen.dots(((12, 39), (22, 35), (36, 36), (29, 40)), 1.6, "card", "leaf")
    pen.line(((17, 24), (9, 20), (6, 27)), "ink", 2.6)
    pen.line(((31, 24), (39, 20), (42, 27)), "ink", 2.6)
    pen.round((24, 20), (8.5, 11), "soil", "ink")
    pen.round((24, 8), (4, 3.4), "soil", "ink")
    pen.line(((24, 11), (24, 31)), "quiet", 1)
    pen.round((20.5, 15), (1.4, 3), "on_leaf")


def miner(pen: Sketch) -> None:
    """A winding trail in a leaf."""
    pen.leaf((3, 26), 0, "leaf_soft", 43, 13)
    trail = ((9, 26), (13, 21), (17, 27), (21, 31), (26, 26), (23, 20), (28, 17), (33, 22), (36, 27))
    pen.line(trail, "on_leaf", 3)
    pen.line(trail, "clay", 0.7)


def caterpillar(pen: Sketch) -> None:
    """Curled up like a C, with a dark head."""
    rings = ((31, 10), (24, 8.5), (17, 11), (12.5, 17), (12, 24), (15, 31), (21, 36), (28, 37))
    for at in reversed(rings):
        pen.round(at, (5.6, 5.6), "seedling", "leaf", 1.3)
    pen.round((35, 33), (4.6, 4.6), "clay", "ink", 1.2)
    pen.dots(((36.5, 32),), 1, "card")


def borer(pen: Sketch) -> None:
    """A fruit with a hole at its cap, and sawdust below the hole."""
    pen.bow((24, 9), (24, 4), (30, 3), "leaf", 2.4)
    pen.round((24, 28), (13, 17), "clay_wash", "clay", 1.6)
    pen.round((24, 12), (9, 3.4), "seedling", "leaf")
    pen.round((29, 19), (3.4, 3.4), "soil", "ink")
    pen.dots(((31, 25), (28, 26), (33, 28), (29.5, 30), (31, 33)), 1.2, "sun", "clay")


PESTS: dict[str, Callable[[Sketch], None]] = {
    "aphid": aphid,
    "mite": mite,
    "thrips": thrips,
    "whitefly": whitefly,
    "gnat": gnat,
    "shore-fly": shore_fly,
    "slug": slug,
    "beetle": beetle,
    "miner": miner,
    "caterpillar": caterpillar,
    "borer": borer,
}
"""What draws each pest, by the name of its picture in the guide."""


def _legs(pen: Sketch, starts: tuple[tuple[float, float], ...], reach: float) -> None:
    for x, y in starts:
        pen.line(((x, y), (x - reach, y - 1)), "leaf", 1.2)
        pen.line(((48 - x, y), (48 - x + reach, y - 1)), "leaf", 1.2)
