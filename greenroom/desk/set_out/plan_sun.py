"""The sun on the plan: asked for as the bar says, and shown with what follows from it."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from greenroom.desk.bench import Bench
from greenroom.desk.set_out.mind_card import MindCard
from greenroom.desk.set_out.places_card import PlacesCard
from greenroom.desk.set_out.plan_view import PlanView
from greenroom.desk.set_out.plan_words import summary
from greenroom.desk.set_out.sun_bar import SunBar
from greenroom.desk.set_out.sun_keeper import Ask, Sun, SunKeeper
from greenroom.desk.set_out.tables import PlanTables
from greenroom.season.place import place_of
from greenroom.season.plot_plants import free_spots
from greenroom.season.plot_sun import Where, best_places, boxes_of, shadows
from greenroom.season.plot_warnings import warnings


class Told(NamedTuple):
    """Where what follows from the sun is told beside the plan."""

    places: PlacesCard
    mind: MindCard
    tables: PlanTables


class PlanSun(QObject):
    """Keeps the plan's sun, best places and warnings at the day, the half and the part of the bar.

    ``shown`` tells that another answer is on the plan.
    """

    shown = Signal()

    def __init__(self, bench: Bench, bar: SunBar, plan: PlanView, told: Told) -> None:
        super().__init__(plan)
        self._bench = bench
        self._bar = bar
        self._plan = plan
        self._told = told
        self._answer: Sun | None = None
        self._keeper = SunKeeper(self)
        self._keeper.ready.connect(self._on_sun)
        bar.seen_changed.connect(self.ask)
        bar.day_changed.connect(self.ask)
        bar.half_changed.connect(lambda _: self._show_answer())
        bar.hour_changed.connect(self._show_shadows)

    @property
    def running(self) -> bool:
        """Whether an answer is being worked out."""
        return self._keeper.running

    def stop(self) -> None:
        """Stop what is being worked out."""
        self._keeper.stop()

    def ask(self) -> None:
        """Ask for the sun of the day and the part that are looked at."""
        where, state = self._where(), self._plan.state
        state.seen, state.half = self._bar.part, self._bar.half
        if where is not None and not state.plot.empty:
            grown = self._bar.grown.isChecked()
            self._keeper.ask(Ask(state.plot, state.extent, state.plants, self._bar.day, where, grown))
            self._show_shadows()
        self._plan.refresh()

    def _where(self) -> Where | None:
        place = place_of(self._bench.keeper.season)
        if place.latitude is None or place.longitude is None:
            return None
        return Where(place.latitude, place.longitude)

    def _on_sun(self, sun: Sun) -> None:
        self._answer, self._plan.state.sun = sun, sun.map
        self._plan.state.hours = sun.places
        self._show_answer()

    def _show_answer(self) -> None:
        """Show what follows from the sun: best places, what is to mind, the tables, the words."""
        if self._answer is None:
            return
        season, state, sun = self._bench.keeper.season, self._plan.state, self._answer
        state.half = self._bar.half
        best = best_places(sun.places, free_spots(season, state.plot), state.half)
        self._told.places.show_places(state.plot, best, state.half, sun.map.day)
        found = warnings(state.plot, sun.plants, southern=place_of(season).southern)
        self._told.mind.show_warnings(found, planted=bool(sun.plants))
        state.minded = frozenset(spot for warn in found for spot in warn.spots)
        state.marked = {one.spot: place for place, one in enumerate(best, start=1)}
        self._told.tables.show_state(state, sun.places)
        self._plan.setAccessibleDescription(summary(season, state))
        self._plan.refresh()
        self.shown.emit()

    def _show_shadows(self) -> None:
        where, moment, state = self._where(), self._bar.moment, self._plan.state
        state.shadows = []
        if moment is not None and where is not None:
            plants = state.plants if self._bar.grown.isChecked() else ()
            state.shadows = shadows(boxes_of(state.plot, plants), moment, where)
        self._plan.update()
