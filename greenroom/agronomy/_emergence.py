"""Days from sowing to emergence by soil temperature: the published table, and reading between its lines."""

from types import MappingProxyType
from typing import overload

import numpy as np

from greenroom.agronomy._checks import Floats, Numbers, Row, known, number, refuse

TABLED_C = np.arange(0.0, 41.0, 5.0)

# J. F. Harrington and P. A. Minges, Vegetable Seed Germination, University of California Agricultural
# Extension Service, 1954: days to emergence of seed sown 1/2 in (13 mm) deep, at 0, 5, ... 40 °C.
# Read in a reprint (University of California Santa Cruz, Teaching Organic Farming and Gardening,
# unit 1.3, after Knott's Handbook for Vegetable Growers, 1997).
# "no" is tested and none came up; "-" is not tested.
_TABLE = """
asparagus    no  no  53  24  15  10  12  20  28
lima bean    -   -   no  31  18  7   7   no  -
snap bean    no  no  no  16  11  8   6   6   no
beet         -   42  17  10  6   5   5   5   -
cabbage      -   -   15  9   6   5   4   -   -
carrot       no  51  17  10  7   6   6   9   no
cauliflower  -   -   20  10  6   5   5   -   -
celery       no  41  16  12  7   no  no  no  -
sweet corn   no  no  22  12  7   4   4   3   no
cucumber     no  no  no  13  6   4   3   3   -
eggplant     -   -   -   -   13  8   5   -   -
lettuce      49  15  7   4   3   2   3   no  no
muskmelon    -   -   -   -   8   4   3   -   -
okra         no  no  no  27  17  13  7   6   7
onion        136 31  13  7   5   4   4   13  no
parsley      -   -   29  17  14  13  12  -   -
parsnip      172 57  27  19  14  15  32  no  no
pea          -   36  14  9   8   6   6   -   -
pepper       no  no  no  25  13  8   8   9   no
radish       no  29  11  6   4   4   3   -   -
spinach      63  23  12  7   6   5   6   no  no
tomato       no  no  43  14  8   6   6   9   no
turnip       no  no  5   3   2   1   1   1   3
watermelon   -   no  -   -   12  5   4   3   -
"""


def _read_table(text: str) -> MappingProxyType[str, Floats]:
    """Crop → days [d] at each of TABLED_C; infinite where none came up, NaN where not tested."""
    signs = {"no": np.inf, "-": np.nan}
    table = {}
    for line in text.strip().splitlines():
        words = line.split()
        name, entries = words[: -TABLED_C.size], words[-TABLED_C.size :]
        table[" ".join(name)] = np.array([signs.get(entry) or float(entry) for entry in entries])
    return MappingProxyType(table)


_DAYS = _read_table(_TABLE)
CROPS = tuple(_DAYS)
"""The crops of the table, by their trade names."""


@overload
def days_to_emerge(celsius: float, crop: str = ...) -> float | None: ...
@overload
def days_to_emerge(celsius: Row, crop: str = ...) -> Floats: ...
def days_to_emerge(celsius: Numbers, crop: str = "pepper") -> float | Floats | None:
    """Days from sowing until seedlings show, in mix held at a steady temperature.

    Parameters
    ----------
    celsius : float or array
        Temperature of the mix at the seed [°C], -50 to 70. NaN in an array is a gap.
    crop : str
        One of `CROPS`: "pepper", "tomato", "eggplant", ... Capitals do not matter.

    Returns
    -------
    float, None, or float array of the shape of `celsius`
        Days [d]. None at or below the base, at or above the ceiling, and where the table was not
        tested, so that nothing is known; in an array those places are NaN.

    Raises
    ------
    ValueError
        For a temperature that is no number or out of range, or a crop the table does not hold.

    Notes
    -----
    Between two tabled temperatures the *rate*, one over the days, is taken as a straight line,
    because development adds up with warmth: thermal time, days x (T - base) = constant, makes the
    rate linear in T, while days themselves curve steeply. At a temperature where none came up the
    rate is nought; the first such temperature below is the base and the first above the ceiling, and
    the days grow without limit on the way there. The table stands for one tested lot at 1/2 in; read
    its days as good to about a third, and expect chinense and wild peppers to take longer.

    References
    ----------
    Harrington, J. F. and Minges, P. A. (1954) Vegetable Seed Germination. University of California.
    Bierhuizen, J. F. and Wagenvoort, W. A. (1974) Scientia Horticulturae 2:213 (thermal time; from memory).
    """
    temperature = number("celsius", celsius, low=-50.0, high=70.0)
    days = _between_lines(temperature, _days_of(crop))
    return known(np.where(np.isfinite(days), days, np.nan))


def _days_of(crop: str) -> Floats:
    key = crop.strip().lower() if isinstance(crop, str) else ""
    if key not in _DAYS:
        refuse("crop", repr(crop), f"it must be one of: {', '.join(CROPS)}")
    return _DAYS[key]


def _between_lines(temperature: Floats, days: Floats) -> Floats:
    """Days at `temperature`, the rate 1/days running straight between the tabled neighbours; NaN outside."""
    inside = (temperature >= TABLED_C[0]) & (temperature <= TABLED_C[-1])
    position = np.where(inside, (temperature - TABLED_C[0]) / (TABLED_C[1] - TABLED_C[0]), 0.0)
    lower, upper = np.floor(position).astype(int), np.ceil(position).astype(int)
    share = position - lower
    with np.errstate(divide="ignore"):
        between = 1.0 / ((1.0 - share) / days[lower] + share / days[upper])
    # On a tabled temperature the entry itself, exactly, and whether or not its neighbour was tested.
    return np.where(inside, np.where(share == 0.0, days[lower], between), np.nan)
