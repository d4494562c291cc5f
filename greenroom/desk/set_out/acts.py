"""What the grower does on this page: lay, move and take away, set out, note the soil."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.desk.grow.acts import Acts
from greenroom.season import deeds_bed, deeds_plants, deeds_plot
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.plot import Bed, Plot, Shade, plot_of
from greenroom.season.proposal import Proposal, together
from greenroom.season.spots import SpotKey
from greenroom.speech import tr

GAP_M = 0.5
USUAL_BED = (1.2, 4.0, 8, 3)
USUAL_POTS = (1.5, 1.0, 2, 3)
USUAL_POT_LITRES = 20.0
USUAL_SHADES = {"tree": (tr("Tree"), 3.0, 3.0, 5.0), "fence": (tr("Fence"), 6.0, 0.1, 1.8)}
USUAL_BUILDING = (tr("Building"), 4.0, 3.0, 3.0)


class SetOutActs(Acts):
    """Acts of this page; a click on a pot chooses it and marks nothing."""

    def click(self, key: SpotKey) -> bool:  # noqa: ARG002 as where marks are made
        return False

    def move(self, sources: Sequence[SpotKey], target: SpotKey) -> bool:
        """Set plants out into a bed; back into a rack they are moved as anywhere."""
        if self.season.holder(target.holder).form != deeds_plot.BED:
            return super().move(sources, target)
        return self._keeper.do(lambda: deeds_plot.set_out(self.season, sources, target, self._day()))

    def add(self, kind: str) -> str | None:
        """Lay a bed or obstacle of usual size beside what is there; return its key."""
        before = {thing.key for thing in plot_of(self.season).things}
        self._keeper.do(lambda: self._added(kind))
        made = [thing.key for thing in plot_of(self.season).things if thing.key not in before]
        return made[-1] if made else None

    def lay(self, new: Bed | Shade) -> bool:
        """Write where a bed or obstacle lies, and what it is called, anew."""
        return self._keeper.do(lambda: self._laid(new))

    def take_away(self, key: str) -> bool:
        """Take an empty bed or an obstacle off the plot."""
        today = self._keeper.today
        if plot_of(self.season).bed(key) is not None:
            return self._keeper.do(lambda: deeds_plot.remove_bed(self.season, key, today))
        return self._keeper.do(lambda: deeds_plot.remove_obstacle(self.season, key, today))

    def feel_soil(self, celsius: float) -> bool:
        """Note how warm the soil of the garden is now."""
        keeper = self._keeper
        return keeper.do(lambda: deeds_plants.feel_soil(self.season, celsius, keeper.now))

    def _added(self, kind: str) -> Proposal:
        today, plot = self._keeper.today, plot_of(self.season)
        if kind in ("bed", "pots"):
            width, depth, rows, columns = USUAL_BED if kind == "bed" else USUAL_POTS
            ground = Rectangle(*_beside(plot), width, depth)
            litres = USUAL_POT_LITRES if kind == "pots" else None
            return deeds_plot.lay_bed(self.season, "", rows, columns, ground, today, litres)
        name, width, depth, height = USUAL_SHADES.get(kind, USUAL_BUILDING)
        ground = Rectangle(*_beside(plot), width, depth)
        return deeds_plot.add_obstacle(_free_name(plot, name), ground, height, today)

    def _laid(self, new: Bed | Shade) -> Proposal:
        today = self._keeper.today
        if isinstance(new, Shade):
            ground = Rectangle(new.x_m, new.y_m, new.width_m, new.depth_m)
            return deeds_plot.move_obstacle(self.season, new.key, new.name, ground, new.height_m, today)
        ground = Rectangle(new.x_m, new.y_m, new.width_m, new.depth_m, new.turned_deg)
        moved = deeds_plot.move_bed(self.season, new.key, ground, today, new.pot_litres)
        shaped = deeds_bed.reshape_bed(self.season, new.key, new.name, new.rows, new.columns, today)
        return together(moved.name if shaped.empty else shaped.name, (moved, shaped))


def _beside(plot: Plot) -> tuple[float, float]:
    """Return the south-west corner of free ground east of all that lies there."""
    points = [point for thing in plot.things for point in thing.corners]
    if not points:
        return 0.0, 0.0
    return round(max(x for x, _ in points) + GAP_M, 2), round(min(y for _, y in points), 2)


def _free_name(plot: Plot, name: str) -> str:
    used = {one.name.casefold() for one in plot.shades}
    numbered = (name, *(f"{name} {number}" for number in range(2, len(used) + 3)))
    return next(one for one in numbered if one.casefold() not in used)
