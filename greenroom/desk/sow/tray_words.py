"""What is said of a tray or a rack before it is taken into use: volumes as sold, and the mix it takes."""

from __future__ import annotations

from greenroom.agronomy.containers import Tray, pot_litres, pot_range_litres, tray
from greenroom.desk.units import volume
from greenroom.season.why import Why

COUNTS = (32, 50, 72, 128, 200, 288)
POTS = ("7 cm square", "9 cm", "9 cm square", "11 cm", "13 cm", "3.5 in", "4 in", "1 L", "2 L", "3 L", "#1")
ML_IN_LITRE = 1000.0
MEASURE = "measure yours by filling a few from a syringe."
OMAFRA = (
    "Ontario Ministry of Agriculture, Food and Rural Affairs, Growing Vegetable Transplants in Plug "
    "Trays, table 1."
)
SUPPLIER = "Plug sheets of 11.00 x 21.22 in, a horticultural supplier's specification."
POT_FORM = (
    "Cone cut off at the proportions of a trade pot (common practice, no source), h (A + sqrt(A a) + a) / 3."
)


def sold_words(count: int, unit: str) -> str:
    """Return how far makers differ in the cells of a tray of so many, in the reader's unit."""
    published = tray(count).published_ml
    if not published:
        return f"The cells of a {count} are not known here; {MEASURE}"
    if len(published) == 1:
        return f"A {count} is sold with cells of {volume(published[0], unit)} and others; {MEASURE}"
    low, high = published[0], published[-1]
    return (
        f"A {count} is sold with cells of {volume(low, unit)} to {volume(high, unit)} and others; {MEASURE}"
    )


def pot_words(size: str, unit: str) -> str:
    """Return what pots of a trade name hold, or what is allowed if it is none."""
    if not size.strip():
        return "The pot's width, such as 9 cm or 3.5 in; its volume, such as 2 L; or its class, such as #1."
    try:
        low, high = (litres * ML_IN_LITRE for litres in pot_range_litres(size))
    except ValueError as error:
        return f"The {error}."
    if low == high:
        return f"Such a pot holds {volume(low, unit)}."
    return f"Pots sold as {size.strip()} hold {volume(low, unit)} to {volume(high, unit)}."


def pot_ml(size: str) -> float | None:
    """Return what a pot of a trade name holds [mL], None where no name is given; ValueError if it is none."""
    return pot_litres(size) * ML_IN_LITRE if size.strip() else None


def mix_words(rows: int, columns: int, cell_ml: float | None, unit: str) -> str:
    """Return the mix that fills every cell, or nothing where their volume is not known."""
    litres = Tray(rows, columns, cell_ml).litres
    return "" if litres is None else f"Takes {volume(litres * ML_IN_LITRE, unit)} of mix."


def mix_why(rows: int, columns: int, cell_ml: float, unit: str, *, pots: bool) -> Why:
    """Return how the mix was worked out."""
    what = "pots" if pots else "cells"
    inputs = (
        (what, f"{rows} × {columns} = {rows * columns}"),
        ("volume of each", volume(cell_ml, unit)),
    )
    rule = (
        f"Volume times {what}, filled to the brim and not pressed. Mix settles when watered; a tenth to "
        "a fifth more is common practice, no source."
    )
    sources = (POT_FORM,) if pots else (OMAFRA, SUPPLIER)
    return Why(mix_words(rows, columns, cell_ml, unit), rule, inputs, sources)
