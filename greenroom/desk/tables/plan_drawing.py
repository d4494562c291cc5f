"""The season plan as a picture in the colours of the look, on white: for paper and for others to see."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QSize

from greenroom.desk.bench import Bench
from greenroom.desk.look import LIGHT, Palette
from greenroom.desk.tables.pictures import DrawnPicture
from greenroom.exchange.chart_picture import Inks, plan_picture
from greenroom.season.plan import Plan
from greenroom.speech import tr


def plan_drawing(bench: Bench, plan: Callable[[], Plan]) -> DrawnPicture:
    """Return the picture of a plan; it is drawn in the light theme whatever the window wears."""
    inks = inks_of(LIGHT)

    def draw(size: QSize, family: str) -> str:
        return plan_picture(bench.guide, plan(), inks, size.width(), size.height(), family)

    return DrawnPicture(tr("Season plan {year}", year=plan().year), draw, inks.ground)


def inks_of(palette: Palette) -> Inks:
    """Return the colours of the picture in a theme."""
    return Inks(
        ground=palette.card,
        ink=palette.ink,
        quiet=palette.quiet,
        line=palette.line,
        soil=palette.soil,
        on_soil=palette.on_soil,
        seedling=palette.seedling,
        on_seedling=palette.on_seedling,
        sun=palette.sun,
        on_sun=palette.on_sun,
        leaf=palette.leaf,
        on_leaf=palette.on_leaf,
        fruit=palette.clay,
        frost=palette.link,
    )
