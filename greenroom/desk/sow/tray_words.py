"""What is said of a tray or a rack before it is taken into use: volumes as sold, and the mix it takes."""

from __future__ import annotations

import re

from greenroom.agronomy.containers import Tray, pot_litres, pot_range_litres, tray
from greenroom.desk.units import ML_IN_LITRE, volume
from greenroom.season.why import Why
from greenroom.speech import tr

COUNTS = (32, 50, 72, 128, 200, 288)
POTS = ("7 cm square", "9 cm", "9 cm square", "11 cm", "13 cm", "3.5 in", "4 in", "1 L", "2 L", "3 L", "#1")
DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d))")
MEASURE = tr("measure yours by filling a few from a syringe.")
OMAFRA = tr(
    "Ontario Ministry of Agriculture, Food and Rural Affairs, Growing Vegetable "
    "Transplants in Plug Trays, table 1."
)
SUPPLIER = tr("Plug sheets of 11.00 x 21.22 in, a horticultural supplier's specification.")
SETTLES = tr("Mix settles when watered; a tenth to a fifth more is common practice, no source.")
POT_FORM = tr(
    "Cone cut off at the proportions of a trade pot (common practice, no source), h (A + sqrt(A a) + a) / 3."
)


def trade_size(typed: str) -> str:
    """Return a pot's trade name as it is kept: 3.5 in for 3,5 in; a comma before three digits stays."""
    return DECIMAL_COMMA.sub(".", typed.strip())


def sold_words(count: int, unit: str) -> str:
    """Return how far makers differ in the cells of a tray of so many, in the reader's unit."""
    published = tray(count).published_ml
    if not published:
        return tr("The cells of a {count} are not known here; {measure}", count=count, measure=MEASURE)
    if len(published) == 1:
        return tr(
            "A {count} is sold with cells of {volume} and others; {measure}",
            count=count,
            volume=volume(published[0], unit),
            measure=MEASURE,
        )
    low, high = published[0], published[-1]
    return tr(
        "A {count} is sold with cells of {low} to {high} and others; {measure}",
        count=count,
        low=volume(low, unit),
        high=volume(high, unit),
        measure=MEASURE,
    )


def pot_words(size: str, unit: str) -> str:
    """Return what pots of a trade name hold, or what is allowed if it is none."""
    if not size.strip():
        return tr(
            "The pot's width, such as 9 cm or 3.5 in; its volume, such as 2 L; or its class, such as #1."
        )
    try:
        low, high = (litres * ML_IN_LITRE for litres in pot_range_litres(trade_size(size)))
    except ValueError as error:
        return tr("The {problem}.", problem=error)
    if low == high:
        return tr("Such a pot holds {volume}.", volume=volume(low, unit))
    return tr(
        "Pots sold as {size} hold {low} to {high}.",
        size=size.strip(),
        low=volume(low, unit),
        high=volume(high, unit),
    )


def pot_ml(size: str) -> float | None:
    """Return what a pot of a trade name holds [mL], None where no name is given; ValueError if it is none."""
    return pot_litres(trade_size(size)) * ML_IN_LITRE if size.strip() else None


def mix_words(rows: int, columns: int, cell_ml: float | None, unit: str) -> str:
    """Return the mix that fills every cell, or nothing where their volume is not known."""
    litres = Tray(rows, columns, cell_ml).litres
    return "" if litres is None else tr("Takes {volume} of mix.", volume=volume(litres * ML_IN_LITRE, unit))


def mix_why(rows: int, columns: int, cell_ml: float, unit: str, *, pots: bool) -> Why:
    """Return how the mix was worked out."""
    what = tr("pots") if pots else tr("cells")
    inputs = (
        (what, f"{rows} × {columns} = {rows * columns}"),
        (tr("volume of each"), volume(cell_ml, unit)),
    )
    times = (
        tr("Volume times pots, filled to the brim and not pressed.")
        if pots
        else tr("Volume times cells, filled to the brim and not pressed.")
    )
    rule = f"{times} {SETTLES}"
    sources = (POT_FORM,) if pots else (OMAFRA, SUPPLIER)
    return Why(mix_words(rows, columns, cell_ml, unit), rule, inputs, sources)
