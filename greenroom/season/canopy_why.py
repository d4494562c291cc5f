"""Why a photograph is read as it is, and what the leaf cover of a tray says."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.season.canopy import CanopyDay, cover_words
from greenroom.season.hardening_words import day_words
from greenroom.season.why import Why
from greenroom.speech import many

WOEBBECKE = (
    "Woebbecke, D. M., Meyer, G. E., Von Bargen, K. and Mortensen, D. A. (1995). Color indices for weed "
    "identification under various soil, residue, and lighting conditions. Transactions of the ASAE 38(1): "
    "259-269."
)
OTSU = (
    "Otsu, N. (1979). A threshold selection method from gray-level histograms. IEEE Transactions on Systems, "
    "Man, and Cybernetics 9(1): 62-66."
)
HARTLEY = (
    "Hartley, R. and Zisserman, A. (2004). Multiple View Geometry in Computer Vision, 2nd ed. Cambridge "
    "University Press."
)
CORNERS = "marked by hand"
FOUND = (
    "found with a confidence of {:.0f} of 100: how much of all four sides, and of the least seen, is an edge"
)
RULES = {
    "whole": "The tray's points fall into two clear groups; the level between them is Otsu's.",
    "outlying": "Little is green: Otsu's level is taken between the few green points and as many others.",
    "all": "The middle of the tray is green, so leaves cover nearly all: a fixed level of 0.10 is used.",
    "none": "No second group of points stands apart from the mix, so nothing is taken for leaf.",
}


def reading_why(
    up: int,
    unsure: int,
    cells: int,
    level: float | None,
    rule: str,
    limits: tuple[float, float],
    confidence: float | None = None,
) -> Why:
    """Return why some cells of a photograph are taken for up.

    ``limits`` are shares of a cell; ``confidence`` is that in the corners, None if by hand.
    """
    least, surely = limits
    inputs = (
        ("corners", CORNERS if confidence is None else FOUND.format(confidence * 100)),
        ("cells read", str(cells)),
        ("up", str(up)),
        ("unsure", str(unsure)),
        ("excess green of leaf", "none told" if level is None else f"above {level:.2f}"),
        ("surely not up", f"leaf on less than {cover_words(least)} of a cell"),
        ("surely up", f"leaf on {cover_words(surely)} of a cell or more, some of it in the middle"),
    )
    text = (
        "The tray is laid flat by the homography of its four corners. Of each point excess green is "
        f"2g - r - b, of the shares of red, green and blue. {RULES[rule]} Two groups count as two where "
        "Otsu's measure is at least 0.70 (one heap alone has 0.64) and their means are 0.15 apart. "
        "The two limits of a cell, 0.70 and 0.15 are working rules of this program. A photo under pink "
        "lamps, a green tray or moss on the mix can mislead it; so you have the last word."
    )
    return Why(f"{up} of {cells} up", text, inputs, (WOEBBECKE, OTSU, HARTLEY))


def canopy_why(days: Sequence[CanopyDay]) -> Why:
    """Return why the leaf cover of a tray is what it is."""
    last = days[-1]
    inputs = tuple(
        (day_words(one.day), f"{cover_words(one.middle)}, the median of {many(one.leafy, 'cell')} with leaf")
        for one in days[-8:]
    )
    rule = (
        "The leaf cover of a cell is the share of it that is leaf in the photo, seen from above. The line is "
        "the median of the cells that showed leaf on that day; each point is one cell."
    )
    return Why(f"leaf cover {cover_words(last.middle)}", rule, inputs, (WOEBBECKE, OTSU))
