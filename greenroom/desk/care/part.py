"""What stands behind one tab of the care of a holder."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import QTimer

from greenroom.desk.bench import Bench
from greenroom.desk.tabs import Part
from greenroom.season.state import Touched

SETTLE_MS = 40
Day = Callable[[], date]


@dataclass(frozen=True, slots=True)
class CareErrand:
    """What a page is gone to for: the care of a holder, at a tab."""

    holder: str
    tab: str


class CarePart(Part):
    """A part that is about one holder; ``day`` tells which day acts are written for.

    ``kinds`` are the kinds of fact that change what it shows although they name no holder.
    """

    kinds: frozenset[str] = frozenset({"place_set", "units_set"})

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__()
        self.bench = bench
        self.day = day
        self.holder: str | None = None

    def show_holder(self, holder: str) -> None:
        """Show another holder, or the same anew."""
        if holder != self.holder:
            self.commit()
            self.holder = holder
        self.refresh()

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        if self._concerns(touched):
            self.refresh()

    def commit(self) -> None:
        """Write what is being edited; called before another holder, tab or page is shown."""

    def _concerns(self, touched: Touched) -> bool:
        return self.holder in touched.holders or bool(touched.kinds & self.kinds)


class PromptPart(CarePart):
    """A part that answers an act at once, and shows what takes longer when the hand pauses."""

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(self.record)

    def take(self, touched: Touched) -> None:
        if self._concerns(touched):
            self.answer()
            self._settle.start()

    def refresh(self) -> None:
        self._settle.stop()
        self.answer()
        self.record()

    def answer(self) -> None:
        """Show what an act is answered with."""

    def record(self) -> None:
        """Show charts and lists."""

    def closing(self) -> None:
        self._settle.stop()
