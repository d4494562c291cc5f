"""What is in hand: seedlings lifted from their cells, and where they would go."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from greenroom.desk.grow.acts import Acts
from greenroom.desk.keeper import Keeper
from greenroom.season.deeds_spots import in_hand, landing
from greenroom.season.few_words import spot_words
from greenroom.season.spots import SpotKey
from greenroom.season.state import Touched
from greenroom.speech import tr, trn


class Hand(QObject):
    """Holds lifted seedlings until they are put down or let go; nothing is written before that.

    ``places`` are the spots they would go to from ``target`` on; ``takes`` tells whether all fit.
    """

    changed = Signal()

    def __init__(self, keeper: Keeper, acts: Acts, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._acts = acts
        self.sources: tuple[SpotKey, ...] = ()
        self.by_keys = False
        self.target: SpotKey | None = None
        self.places: tuple[SpotKey, ...] = ()
        self.count = 0

    @property
    def active(self) -> bool:
        """Whether anything is in hand."""
        return bool(self.sources)

    @property
    def takes(self) -> bool:
        """Whether the target takes everything in hand."""
        return self.target is not None and self.target in self.places and len(self.places) == self.count

    def lift(self, keys: Sequence[SpotKey], *, by_keys: bool = False) -> bool:
        """Take the living seedlings of these cells in hand."""
        season = self._keeper.season
        living = tuple(key for key in keys if season.spot(key).up > 0)
        if not living:
            self._keeper.refused.emit(tr("No seedling stands there to be lifted; choose cells that are up."))
            return False
        self.sources, self.by_keys = living, by_keys
        self.count = len(in_hand(season, living))
        self.target, self.places = None, ()
        self.changed.emit()
        return True

    def aim(self, target: SpotKey | None) -> None:
        """See where the seedlings would go from a spot on."""
        if not self.active or target == self.target:
            return
        self.target = target
        self.places = self._landing(target)
        self.changed.emit()

    def aim_at_holder(self, holder: str) -> None:
        """See where the seedlings would go in a holder: from its first free spot on."""
        if self.active:
            start = SpotKey(holder, 0, 0)
            free = landing(self._keeper.season, 1, start, leaving=frozenset(self.sources))
            self.aim(free[0] if free else start)

    def put_down(self) -> bool:
        """Move what is in hand to the target; a refusal is told, and by keys the hand stays full."""
        if not self.active or self.target is None:
            return False
        sources, target = self.sources, self.target
        if not self.by_keys:
            self.let_go()
            return self._acts.move(sources, target)
        if not self._acts.move(sources, target):
            return False
        self.let_go()  # where the move itself has not emptied the hand
        return True

    def let_go(self) -> None:
        """Leave the seedlings where they stand."""
        if self.active:
            self.sources, self.target, self.places, self.count = (), None, (), 0
            self.by_keys = False
            self.changed.emit()

    def take(self, touched: Touched) -> None:
        """Let go if what is in hand was touched by something else."""
        if self.active and touched.spots & set(self.sources):
            self.let_go()

    def words(self) -> str:
        """Return what is in hand and what can be done with it, in one line."""
        if not self.active:
            return ""
        what = trn("{n} seedling in hand", "{n} seedlings in hand", self.count)
        return tr("{name}: {what}", name=what, what=self._advice())

    def _advice(self) -> str:
        if self.target is None:
            return (
                tr("drop on a pot")
                if not self.by_keys
                else tr("arrows choose a pot, M puts down, Escape lets go")
            )
        if self.takes:
            first = spot_words(self._keeper.season, self.places[0])
            if len(self.places) == 1:
                return tr("into {place}", place=first)
            return tr("into {first} to {last}", first=first, last=self.places[-1].label)
        if self.target not in self.places:
            return tr("{place} is taken", place=spot_words(self._keeper.season, self.target))
        return tr("room for only {number} from {cell} on", number=len(self.places), cell=self.target.label)

    def _landing(self, target: SpotKey | None) -> tuple[SpotKey, ...]:
        if target is None:
            return ()
        season = self._keeper.season
        return tuple(landing(season, self.count, target, leaving=frozenset(self.sources)))
