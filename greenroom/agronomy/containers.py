"""Containers: what the common trays and pots hold, and the mix needed to fill them.

Trays are named by their cell count, and makers differ: a "72" is sold with cells of 43 to 59 mL and
more. The volumes here are a start; measure your own tray by filling a few cells from a syringe.
"""

import math
import re
from collections.abc import Iterable
from dataclasses import dataclass
from types import MappingProxyType

from greenroom.agronomy._checks import refuse, single, whole
from greenroom.speech import tr

ML_IN_CUBIC_INCH = 16.387064  # exact: (2.54 cm)³
LITRES_IN_GALLON = 3.785411784  # exact: 231 cubic inches, NIST Handbook 44, appendix C
CM_IN_INCH = 2.54

# A round pot of the trade is a cone cut off: height 0.85 and base 0.70 of the top width, filled to the
# brim; pots of one width differ by a fifth either way. Common practice, no source.
_HEIGHT_TO_WIDTH = 0.85
_BASE_TO_WIDTH = 0.70
_POT_TOLERANCE = 0.20
_WIDEST_CM = 80.0
_LARGEST_L = 1000.0

# Container classes, lowest and highest volume [in³]: ANSI Z60.1 American Standard for Nursery Stock
# (from memory). A "#1" need not hold a gallon.
_CLASS_IN3 = MappingProxyType(
    {
        "1": (152.0, 251.0),
        "2": (320.0, 474.0),
        "3": (628.0, 742.0),
        "5": (785.0, 1242.0),
        "7": (1337.0, 1790.0),
        "10": (2080.0, 2646.0),
        "15": (2768.0, 3696.0),
    }
)
# Three US liquid quarts, the usual reading of a trade gallon.
_TRADE_GALLON_L = 0.75 * LITRES_IN_GALLON

_CLASS = re.compile(r"(?:#|class )\s*(\d+)|(\d+)[ -]?gal(?:lon)?")
_WIDTH = re.compile(r"(\d+(?:\.\d+)?)[ -]?(cm|mm|in|inch|\")(?: (square|round))?")
_VOLUME = re.compile(r"(\d+(?:\.\d+)?)[ -]?(l|litre|liter|ml)")
_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d))")  # of a decimal; three digits after it may be thousands
_CELLS = re.compile(r"(\d+)(?:[ -]?cells?)?")
_CM = MappingProxyType({"cm": 1.0, "mm": 0.1, "in": CM_IN_INCH, "inch": CM_IN_INCH, '"': CM_IN_INCH})


def tray(name: str | int) -> "Tray":
    """A common plug tray by its cell count.

    Parameters
    ----------
    name : str or int
        "72", "72-cell", "72 cells" or 72; 24, 32, 50, 72, 98, 128, 200 or 288.

    Returns
    -------
    Tray
        With the long side as `columns`.

    Raises
    ------
    ValueError
        For a name that is no tray held here.

    Notes
    -----
    Layouts of 50, 72, 98, 128 and 200 and the cell volumes of 50, 72, 98 and 128 are those of plug
    sheets of 11.00 x 21.22 in, in a horticultural supplier's specification. The volumes of 24, 200 and
    288 are from the Ontario guide, which also has a smaller 50 (66 mL), 72 (43) and 128 (23). Layouts
    of 24, 32 and 288 are common practice, no source; the volume of a 32 is not known.

    References
    ----------
    Ontario Ministry of Agriculture, Food and Rural Affairs, Growing Vegetable Transplants in Plug
    Trays, table 1.
    """
    found = _CELLS.fullmatch(_plain_name(name))
    if not found or int(found[1]) not in _TRAYS:
        refuse("tray name", repr(name), f"it must be one of: {', '.join(map(str, _TRAYS))}")
    return _TRAYS[int(found[1])]


def pot_litres(name: str) -> float:
    """Volume of a pot by the name it is sold under; the middle of the range in which such pots lie.

    Parameters
    ----------
    name : str
        A nursery class, "#3" or "3 gallon" (a class, not a measure); "trade gallon"; the top width of a
        round pot, "9 cm" or "3.5 in", or of a square one, "9 cm square"; or a volume, "2 L", "500 mL".

    Returns
    -------
    float
        Litres to the brim [L].

    Raises
    ------
    ValueError
        For a name in none of these forms.

    References
    ----------
    See `pot_range_litres`.
    """
    return sum(pot_range_litres(name)) / 2.0


def pot_range_litres(name: str) -> tuple[float, float]:
    """Least and greatest volume of pots sold under a name.

    Parameters
    ----------
    name : str
        As in `pot_litres`.

    Returns
    -------
    (low, high) : floats
        Litres [L]. Equal for a volume and for the trade gallon of three US quarts (2.84 L). By
        width, a fifth either side of a cut cone (or pyramid) 0.85 as tall and 0.70 as wide at its base.

    Raises
    ------
    ValueError
        As in `pot_litres`.

    References
    ----------
    ANSI Z60.1, American Standard for Nursery Stock, container classes (from memory). Volume of a
    frustum, h (A + sqrt(A a) + a) / 3. The proportions of a pot: common practice, no source.
    """
    key = _plain_name(name)
    if key == "trade gallon":
        return _TRADE_GALLON_L, _TRADE_GALLON_L
    if (found := _CLASS.fullmatch(key)) and (found[1] or found[2]) in _CLASS_IN3:
        low, high = _CLASS_IN3[found[1] or found[2]]
        return low * ML_IN_CUBIC_INCH / 1000.0, high * ML_IN_CUBIC_INCH / 1000.0
    if (found := _WIDTH.fullmatch(key)) and 0.0 < float(found[1]) * _CM[found[2]] <= _WIDEST_CM:
        middle = _cut_cone_litres(float(found[1]) * _CM[found[2]], square=found[3] == "square")
        return middle * (1.0 - _POT_TOLERANCE), middle * (1.0 + _POT_TOLERANCE)
    if found := _VOLUME.fullmatch(key):
        litres = float(found[1]) / (1000.0 if found[2] == "ml" else 1.0)
        if 0.0 < litres <= _LARGEST_L:
            return litres, litres
    raise ValueError(
        tr(
            "pot name is {name!r}; it must be a class ({classes}), 'trade gallon', a top width such as "
            "'9 cm', '3.5 in' or '9 cm square', or a volume such as '2 L'",
            name=name,
            classes=", ".join("#" + each for each in _CLASS_IN3),
        )
    )


def mix_litres(
    holders: Iterable["Tray | str | int | tuple[Tray | str | int, int]"], settling: float = 0.0
) -> float | None:
    """Mix needed to fill a list of trays and pots.

    Parameters
    ----------
    holders : iterable
        Each a tray or pot, or a pair (tray or pot, how many). A tray is a `Tray` or a name that `tray`
        knows; a pot is a name that `pot_litres` knows. A rack of pots of your own is
        `Tray(rows, columns, cell_ml)`.
    settling : float
        Extra for mix that settles when watered, as a share, 0 to 1; 0.1 to 0.2 is common practice, no source.

    Returns
    -------
    float or None
        Litres [L]; 0 for an empty list; None if the volume of any of them is not known.

    Raises
    ------
    ValueError
        For an unknown name, or a number of holders that is not whole.

    References
    ----------
    Volume times cells.
    """
    if isinstance(holders, str):
        refuse("holders", repr(holders), "it must be a list of trays and pots, or of pairs with how many")
    extra = 1.0 + single("settling", settling, low=0.0, high=1.0)
    total = 0.0
    for entry in holders:
        holder, count = entry if isinstance(entry, tuple) else (entry, 1)
        litres = _holder_litres(holder)
        if litres is None:
            return None
        total += litres * float(whole("number of holders", count, low=0.0))
    return total * extra


def _holder_litres(holder: "Tray | str | int") -> float | None:
    if isinstance(holder, Tray):
        return holder.litres
    if _CELLS.fullmatch(_plain_name(holder)):
        return tray(holder).litres
    return pot_litres(str(holder))


def _cut_cone_litres(width_cm: float, *, square: bool) -> float:
    """Volume of a cone, or pyramid, cut off at the proportions of a pot."""
    shape = 1.0 if square else math.pi / 4.0
    slant = 1.0 + _BASE_TO_WIDTH + _BASE_TO_WIDTH**2
    return shape * _HEIGHT_TO_WIDTH * width_cm**3 * slant / 3.0 / 1000.0


def _plain_name(name: str | int) -> str:
    return _COMMA.sub(".", " ".join(str(name).lower().split()))


@dataclass(frozen=True)
class Tray:
    """A grid of equal cells.

    Attributes
    ----------
    rows, columns : int
        Cells on the short and on the long side, at least 1.
    cell_ml : float or None
        Volume of a cell [mL]; None if not known.
    published_ml : tuple of float
        Every volume published for trays of this count, smallest first; how far makers differ.
    """

    rows: int
    columns: int
    cell_ml: float | None = None
    published_ml: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        whole("rows", self.rows, low=1.0)
        whole("columns", self.columns, low=1.0)
        if self.cell_ml is not None:
            single("cell_ml", self.cell_ml, above=0.0)

    @property
    def cells(self) -> int:
        """How many cells."""
        return self.rows * self.columns

    @property
    def litres(self) -> float | None:
        """Mix to fill every cell, not pressed [L]; None if the volume is not known."""
        return None if self.cell_ml is None else self.cells * self.cell_ml / 1000.0


# Sources in the docstring of `tray`.
_TRAYS = MappingProxyType(
    {
        each.cells: each
        for each in (
            Tray(4, 6, 171.0, (171.0,)),
            Tray(4, 8),
            Tray(5, 10, 110.9, (66.0, 110.9)),
            Tray(6, 12, 58.85, (43.0, 58.85)),
            Tray(7, 14, 36.97, (36.97,)),
            Tray(8, 16, 25.14, (23.0, 25.14)),
            Tray(10, 20, 11.0, (11.0,)),
            Tray(12, 24, 7.0, (7.0,)),
        )
    }
)
