"""What the grower does to cells and pots from this page, each act dated by the "seen on" date."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from greenroom.desk.bench import Bench
from greenroom.season import deeds_resow, deeds_shelf, deeds_spots, losses
from greenroom.season.resow import Resow
from greenroom.season.spots import SpotKey, Stage
from greenroom.season.state import Season
from greenroom.speech import tr

CAUSE_NOT_KNOWN = tr("cause not known")
GROWN = tr("It has true leaves; its sprout mark stays. Backspace takes the mark back all the same.")


class Acts:
    """Carries acts to the keeper; ``day`` tells which day they are written for."""

    def __init__(self, bench: Bench, day: Callable[[], date]) -> None:
        self._keeper = bench.keeper
        self._day = day

    @property
    def season(self) -> Season:
        """The season as it stands."""
        return self._keeper.season

    def click(self, key: SpotKey) -> bool:
        """Mark a seedling up, or take a fresh mark back; a click on anything else only chooses."""
        spot = self.season.spot(key)
        if spot.waiting > 0 or (spot.stage is Stage.UP and spot.sprouted > 0):
            return self._keeper.do(lambda: deeds_spots.click(self.season, key, self._day()))
        return False

    def mark(self, keys: Sequence[SpotKey]) -> bool:
        """Mark one more up wherever a seed waits; where none waits, take fresh marks back.

        A seedling with true leaves keeps its mark, as it does under a click: Backspace takes it.
        """
        spots = [self.season.spot(key) for key in keys]
        waiting = [spot.key for spot in spots if spot.waiting > 0]
        fresh = [spot.key for spot in spots if spot.stage is Stage.UP and spot.sprouted > 0]
        if waiting:
            return self.more(waiting)
        if fresh:
            return self.less(fresh)
        if any(spot.stage is Stage.LEAVES for spot in spots):
            self._keeper.refused.emit(GROWN)
            return False
        return self._keeper.do(lambda: deeds_spots.click(self.season, keys[0], self._day()))

    def more(self, keys: Sequence[SpotKey]) -> bool:
        """Mark one more seedling up in each cell."""
        return self._keeper.do(lambda: deeds_spots.mark_up(self.season, keys, self._day()))

    def less(self, keys: Sequence[SpotKey]) -> bool:
        """Take the latest sprout mark of each cell back."""
        return self._keeper.do(lambda: deeds_spots.take_back_up(self.season, keys))

    def leaves(self, keys: Sequence[SpotKey], number: int) -> bool:
        """Note how many true leaves the seedlings show."""
        return self._keeper.do(lambda: deeds_spots.set_leaves(self.season, keys, self._day(), number))

    def lost(self, keys: Sequence[SpotKey], cause: str) -> bool:
        """Mark what stands or waits in each cell as lost."""
        return self._keeper.do(lambda: deeds_spots.mark_lost(self.season, keys, self._day(), cause))

    def move(self, sources: Sequence[SpotKey], target: SpotKey) -> bool:
        """Move the seedlings of the sources to the target and the free spots after it."""
        return self._keeper.do(lambda: deeds_spots.move(self.season, sources, target, self._day()))

    def sow_again(self, advice: Resow) -> bool:
        """Sow into the cells that stayed bare; always today, whatever day marks are written for."""
        return self._keeper.do(lambda: deeds_resow.sow_again(self.season, advice, self._keeper.today))

    def place(self, holder: str, place: str, mix_c: float | None) -> bool:
        """Note where a holder stands and how warm its mix is."""
        today = self._keeper.today
        return self._keeper.do(lambda: deeds_shelf.place_holder(self.season, holder, place, mix_c, today))

    def retire(self, holder: str) -> bool:
        """Put an emptied holder away."""
        return self._keeper.do(lambda: deeds_shelf.retire_holder(self.season, holder, self._keeper.today))


def cause_words(cause: str) -> str:
    """Return a cause as the chooser shows it."""
    return losses.cause_words(cause) if cause else CAUSE_NOT_KNOWN
