"""Works out the sun on the plot, off the window's thread where it takes long, and keeps the answers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from PySide6.QtCore import QObject, Signal

from greenroom.desk.worker import Worker
from greenroom.season.plot import Extent, Plot
from greenroom.season.plot_plants import Plant
from greenroom.season.plot_sun import (
    Hours,
    PlantSun,
    SunMap,
    Where,
    boxes_of,
    place_sun,
    plant_sun,
    side_for,
    sun_map,
)
from greenroom.season.spots import SpotKey

MOST_KEPT = 60
QUICK = 6_000
"""Squares and plants times what throws shade: up to so many are worked out at once (about 30 ms)."""


@dataclass(frozen=True, slots=True)
class Ask:
    """What the sun is asked for; with ``grown`` the plants throw shade on the map too."""

    plot: Plot
    extent: Extent
    plants: tuple[Plant, ...]
    day: date
    where: Where
    grown: bool = False

    @property
    def key(self) -> tuple[Any, ...]:
        """What two asks must share to have the same answer."""
        stands = tuple((plant.spot, plant.crop.key if plant.crop else "") for plant in self.plants)
        return self.plot, self.extent, stands, self.day, self.where, self.grown

    @property
    def work(self) -> float:
        """How much there is to work out."""
        side = side_for(self.extent)
        squares = self.extent.width * self.extent.depth / side**2
        standing = len(self.plot.shades)
        casters = standing + (len(self.plants) if self.grown else 0)
        return squares * casters + len(self.plants) * (standing + len(self.plants))


@dataclass(frozen=True)
class Sun:
    """The answer: the map, the hours of each position, and those of each plant."""

    map: SunMap
    places: dict[SpotKey, Hours]
    plants: list[PlantSun]


def work_out(ask: Ask, cancelled: Callable[[], bool] = lambda: False) -> Sun | None:
    """Return the sun that is asked for, or None if it was cancelled on the way."""
    boxes = boxes_of(ask.plot, ask.plants if ask.grown else ())
    ground = sun_map(ask.extent, boxes, ask.day, ask.where)
    if cancelled():
        return None
    places = place_sun(ask.plot, ask.day, ask.where)
    if cancelled():
        return None
    return Sun(ground, places, plant_sun(ask.plot, ask.plants, ask.day, ask.where))


class SunKeeper(QObject):
    """``ready`` carries the latest answer asked for; answers to earlier asks are dropped."""

    ready = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._kept: dict[tuple[Any, ...], Sun] = {}
        self._asked: Ask | None = None
        self._worker: Worker[Sun | None] = Worker((), self)
        self._worker.finished.connect(self._on_finished)

    @property
    def running(self) -> bool:
        """Whether something is being worked out."""
        return self._worker.running

    def ask(self, ask: Ask) -> None:
        """Ask for the sun; a small one is answered before this returns."""
        self._worker.cancel()
        self._asked = ask
        kept = self._kept.get(ask.key)
        if kept is not None:
            self.ready.emit(kept)
        elif ask.work <= QUICK:
            self._answer(ask, work_out(ask))
        else:
            self._worker.start(lambda _progress, cancelled: work_out(ask, cancelled))

    def stop(self) -> None:
        """Ask for nothing any more."""
        self._worker.cancel()
        self._asked = None

    def _on_finished(self, sun: Sun | None) -> None:
        if self._asked is not None:
            self._answer(self._asked, sun)

    def _answer(self, ask: Ask, sun: Sun | None) -> None:
        if sun is None:
            return
        if len(self._kept) >= MOST_KEPT:
            self._kept.clear()
        self._kept[ask.key] = sun
        self.ready.emit(sun)
