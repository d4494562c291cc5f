"""The tray found in a picture: the largest four-sided thing in it, and how sure that is.

Edges, heaps of light and dark and outlines come from scikit-image, which is not installed with the program
unless it is asked for; it is loaded here, when a tray is first looked for, and nowhere else. Without it the
grower marks the corners.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from greenroom.exchange.tray_photo.homography import Corners, is_fit
from greenroom.speech import tr

Floats = NDArray[np.float64]
Pixels = NDArray[np.uint8]
Mask = NDArray[np.bool_]

LIBRARY = "skimage"
NOT_INSTALLED = tr(
    "To have corners found, install scikit-image: pip install greenroom[photo]; or mark them yourself."
)

WORKED_ON_PX = 360  # the longest side a tray is looked for at
SMOOTHED_PX = 2.0
LEAST_AREA = 0.10  # of the picture
LARGEST_AREA = 0.985
MOST_POINTS = 14  # of an outline, among which four corners are tried
FLAT = 0.02  # difference within a plane below which there is nothing to part
EDGE_OF_OTSU = 0.5  # the faint sides of a tray are edges too
ALONG = 60  # points of a side at which its edge is looked for
REACH = 0.03  # of the picture's longest side, to either side of a line
ROUNDED = 0.12  # of a side's length left out at its ends, where a tray is rounded off
SURE, LIKELY = 0.75, 0.5


@dataclass(frozen=True, slots=True)
class FoundTray:
    """Corners of a tray [px] and the confidence in them, 0 to 1; its parts are shares too.

    ``edges`` is how much of its sides lies on an edge that is seen in the picture, the mean of all
    four and of the least seen; ``fill`` how much of the four-sided figure and the thing found are one.
    """

    corners: Corners
    confidence: float
    edges: float
    fill: float

    @property
    def words(self) -> str:
        """How sure it is, in words."""
        if self.confidence >= SURE:
            return tr("Tray found")
        return (
            tr("Tray probably found; check the corners")
            if self.confidence >= LIKELY
            else tr("Corners are a guess")
        )


def can_find() -> bool:
    """Whether the library that looks for trays is installed."""
    return find_spec(LIBRARY) is not None


def find_tray(pixels: Pixels) -> FoundTray | None:
    """Return the largest four-sided thing of a picture, or None where there is none.

    Parameters
    ----------
    pixels : array (height, width, 3) of uint8
        The picture.

    Notes
    -----
    The picture is cut into light and dark, and into coloured and grey, by Otsu's rule; the outline of each
    large piece is brought down to its best four corners, and each side is moved onto the edge that is seen
    along it. Of all those the one counts that is best held up by edges, filled and large.
    """
    height, width = pixels.shape[:2]
    scale = max(1, round(max(height, width) / WORKED_ON_PX))
    small = pixels[: height // scale * scale, : width // scale * scale].reshape(
        height // scale, scale, width // scale, scale, 3
    )
    picture = small.mean(axis=(1, 3)) / 255.0
    light = ndimage.gaussian_filter(picture.mean(axis=2), SMOOTHED_PX)
    colour = ndimage.gaussian_filter(picture.max(axis=2) - picture.min(axis=2), SMOOTHED_PX)
    slope = np.maximum(_slope(light), _slope(colour))
    best: FoundTray | None = None
    for mask in _masks(light, colour, slope):
        found = _four_sided(mask, slope)
        if found is not None and (best is None or _worth(found, mask) > _worth(best, mask)):
            best = found
    if best is None:
        return None
    corners = tuple(((x + 0.5) * scale, (y + 0.5) * scale) for x, y in best.corners)
    return FoundTray((corners[0], corners[1], corners[2], corners[3]), best.confidence, best.edges, best.fill)


def guessed(width: int, height: int) -> Corners:
    """Return corners to begin with where none were found: a little within the picture."""
    x, y = 0.08 * width, 0.08 * height
    return ((x, y), (width - x, y), (width - x, height - y), (x, height - y))


def _masks(light: Floats, colour: Floats, slope: Floats) -> Iterator[Mask]:
    """Yield the large pieces of a picture, each without holes."""
    from skimage.filters import threshold_otsu

    for plane in (light, colour):
        if plane.max() - plane.min() < FLAT:
            continue
        above = plane > threshold_otsu(plane)
        for side in (above, ~above):
            yield from _pieces(ndimage.binary_closing(np.pad(side, 6), iterations=5)[6:-6, 6:-6])
    if slope.max() > FLAT:
        edges = slope > EDGE_OF_OTSU * threshold_otsu(slope)
        yield from _pieces(ndimage.binary_closing(np.pad(edges, 6), iterations=3)[6:-6, 6:-6])


def _pieces(mask: Mask) -> Iterator[Mask]:
    opened = ndimage.binary_opening(ndimage.binary_fill_holes(mask), iterations=4)
    pieces, count = ndimage.label(opened)
    sizes = np.bincount(pieces.ravel(), minlength=count + 1)[1:] / opened.size
    for piece in np.argsort(sizes)[::-1][:2]:
        if LEAST_AREA <= sizes[piece] <= LARGEST_AREA:
            yield pieces == piece + 1


def _four_sided(mask: Mask, slope: Floats) -> FoundTray | None:
    from skimage.measure import approximate_polygon, find_contours

    outlines = find_contours(np.pad(mask, 1).astype(float), 0.5)
    outline = max(outlines, key=len) - 1.0
    hull = _hull(outline[:, ::-1])
    tolerance = 1.5
    corners = hull
    while len(corners) > MOST_POINTS:
        corners = approximate_polygon(np.vstack([hull, hull[:1]]), tolerance)[:-1]
        tolerance *= 1.4
    if len(corners) < 4:
        return None
    quad = np.array(max(combinations(corners, 4), key=lambda four: _area(np.array(four))))
    quad, edges = _onto_edges(_clockwise(quad), slope)
    fit: Corners = tuple((float(x), float(y)) for x, y in quad)  # type: ignore[assignment]
    area = _area(quad)
    if not is_fit(fit) or not LEAST_AREA * mask.size <= area <= LARGEST_AREA * mask.size:
        return None
    fill = min(float(mask.sum()) / area, area / float(mask.sum()))
    return FoundTray(fit, edges * fill, edges, fill)


def _hull(points: Floats) -> Floats:
    from scipy.spatial import ConvexHull

    return np.asarray(points[ConvexHull(points).vertices])


def _onto_edges(quad: Floats, slope: Floats) -> tuple[Floats, float]:
    """Return corners with each side on the edge seen along it, and how much of the sides has one."""
    reach = max(3, round(REACH * max(slope.shape)))
    offsets = np.arange(-reach, reach + 1)
    typical = float(np.quantile(slope, 0.75))
    lines, held = [], []
    for start, end in zip(quad, np.roll(quad, -1, axis=0), strict=True):
        along = np.linspace(ROUNDED, 1 - ROUNDED, ALONG)[:, None]
        middle = start + along * (end - start)
        outward = np.array([end[1] - start[1], start[0] - end[0]]) / max(
            float(np.hypot(*(end - start))), 1e-9
        )
        places = middle[:, None, :] + offsets[None, :, None] * outward
        seen = ndimage.map_coordinates(slope, [places[..., 1], places[..., 0]], order=1, mode="constant")
        peak = seen.argmax(axis=1)
        strong = seen.max(axis=1) > 2.0 * typical
        points = middle + offsets[peak][:, None] * outward
        line, near = _line(points[strong], middle)
        lines.append(line)
        held.append(float(near) / ALONG)
    sure = (float(np.mean(held)) + min(held)) / 2  # one side that is not seen makes all of it doubtful
    corners = [_crossing(lines[side - 1], lines[side]) for side in range(4)]
    if any(corner is None for corner in corners):
        return quad, sure
    return np.array(corners), sure


def _line(points: Floats, fallback: Floats) -> tuple[tuple[Floats, Floats], int]:
    """Return the line through most of the points, as a point and a direction, and how many lie on it."""
    if len(points) < ALONG // 4:
        return _through(fallback), 0
    kept = points
    for _ in range(4):
        at, direction = _through(kept)
        away = np.abs((points - at) @ np.array([-direction[1], direction[0]]))
        near = away <= max(1.0, 1.5 * float(np.median(away)))
        kept = points[near]
    away = np.abs((points - at) @ np.array([-direction[1], direction[0]]))
    return (at, direction), int((away <= 1.5).sum())


def _through(points: Floats) -> tuple[Floats, Floats]:
    at = points.mean(axis=0)
    _, _, turned = np.linalg.svd(points - at, full_matrices=False)
    return at, turned[0]


def _crossing(one: tuple[Floats, Floats], other: tuple[Floats, Floats]) -> Floats | None:
    (at, along), (there, across) = one, other
    turn = along[0] * across[1] - along[1] * across[0]
    if abs(turn) < 0.05:
        return None
    gap = there - at
    return np.asarray(at + along * (gap[0] * across[1] - gap[1] * across[0]) / turn)


def _clockwise(quad: Floats) -> Floats:
    """Return corners round as a clock goes, from the one nearest to the picture's top left."""
    middle = quad.mean(axis=0)
    turned = quad[np.argsort(np.arctan2(quad[:, 1] - middle[1], quad[:, 0] - middle[0]))]
    return np.roll(turned, -int(np.argmin(turned.sum(axis=1))), axis=0)


def _area(quad: Floats) -> float:
    x, y = quad[:, 0], quad[:, 1]
    return abs(float(x @ np.roll(y, -1) - y @ np.roll(x, -1))) / 2


def _slope(plane: Floats) -> Floats:
    return np.asarray(np.hypot(ndimage.sobel(plane, 0), ndimage.sobel(plane, 1)))


def _worth(found: FoundTray, mask: Mask) -> float:
    """Return what a find is worth beside another: sureness first, and size."""
    corners = np.array(found.corners)
    return found.confidence * (_area(corners) / mask.size) ** 0.5
