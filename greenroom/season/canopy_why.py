"""Why a photograph is read as it is, and what the leaf cover of a tray says."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.season.canopy import CanopyDay, cover_words
from greenroom.season.hardening_words import day_words
from greenroom.season.why import Why
from greenroom.speech import many, tr

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
CORNERS = tr("marked by hand")
RULES = {
    "whole": tr("The tray's points fall into two clear groups; the level between them is Otsu's."),
    "outlying": tr("Little is green: Otsu's level is taken between the few green points and as many others."),
    "all": tr("The middle of the tray is green, so leaves cover nearly all: a fixed level of 0.10 is used."),
    "none": tr("No second group of points stands apart from the mix, so nothing is taken for leaf."),
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
        (tr("corners"), CORNERS if confidence is None else _found(confidence)),
        (tr("cells read"), str(cells)),
        (tr("up"), str(up)),
        (tr("unsure"), str(unsure)),
        (
            tr("excess green of leaf"),
            tr("none told") if level is None else tr("above {level:.2f}", level=level),
        ),
        (tr("surely not up"), tr("leaf on less than {cover} of a cell", cover=cover_words(least))),
        (
            tr("surely up"),
            tr("leaf on {cover} of a cell or more, some of it in the middle", cover=cover_words(surely)),
        ),
    )
    text = tr(
        "The tray is laid flat by the homography of its four corners. Of each point excess "
        "green is 2g - r - b, of the shares of red, green and blue. {level_rule} Two groups count "
        "as two where Otsu's measure is at least 0.70 (one heap alone has 0.64) and their "
        "means are 0.15 apart. The two limits of a cell, 0.70 and 0.15 are working rules of "
        "this program. A photo under pink lamps, a green tray or moss on the mix can mislead "
        "it; so you have the last word.",
        level_rule=RULES[rule],
    )
    return Why(tr("{up} of {cells} up", up=up, cells=cells), text, inputs, (WOEBBECKE, OTSU, HARTLEY))


def _found(confidence: float) -> str:
    return tr(
        "found with a confidence of {percent:.0f} of 100: how much of all four sides, and of the least seen, "
        "is an edge",
        percent=confidence * 100,
    )


def canopy_why(days: Sequence[CanopyDay]) -> Why:
    """Return why the leaf cover of a tray is what it is."""
    last = days[-1]
    inputs = tuple(
        (
            day_words(one.day),
            tr(
                "{cover}, the median of {cells} with leaf",
                cover=cover_words(one.middle),
                cells=many(one.leafy, "cell"),
            ),
        )
        for one in days[-8:]
    )
    rule = tr(
        "The leaf cover of a cell is the share of it that is leaf in the photo, seen from "
        "above. The line is the median of the cells that showed leaf on that day; each point "
        "is one cell."
    )
    return Why(tr("leaf cover {cover}", cover=cover_words(last.middle)), rule, inputs, (WOEBBECKE, OTSU))
