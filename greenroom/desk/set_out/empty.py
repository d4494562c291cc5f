"""What the page says while there is no place, or nothing is drawn on the plot."""

from __future__ import annotations

from collections.abc import Callable

from greenroom.desk.bench import Bench
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import button
from greenroom.speech import tr

TITLE = tr("No plot yet")
NO_PLACE = tr("First set the place: hours of sun follow from where it lies and which way is north.")
NO_PLOT = tr(
    "Lay a bed or a group of pots first; the plan then shows the hours of sun in every square, "
    "and hardened plants are dragged into place."
)


class EmptyPlot(NothingYet):
    """What to do first: the place, then a bed or pots."""

    def __init__(self, bench: Bench, lay: Callable[[str], object]) -> None:
        self._bench = bench
        self.place = button(
            tr("Set the place"), lambda: bench.show_page("place"), "primary", name="go-place-first"
        )
        self.bed = button(tr("Lay a bed"), lambda: lay("bed"), "primary", name="first-bed")
        self.pots = button(tr("Stand a group of pots"), lambda: lay("pots"), name="first-pots")
        super().__init__(TITLE, "", self.place, self.bed, self.pots)
        self.refresh()

    def refresh(self) -> None:
        """Say what comes first."""
        known = self._bench.keeper.place.known
        self.say(TITLE, NO_PLOT if known else NO_PLACE)
        self.place.setVisible(not known)
        self.bed.setVisible(known)
        self.pots.setVisible(known)
