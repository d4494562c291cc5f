"""What was written down last, each pick with a way to take it back."""

from __future__ import annotations

from functools import partial

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.parts import button, row
from greenroom.desk.pick.pick_words import pick_words
from greenroom.ledger.facts import Picked
from greenroom.season.picking import season_now, take_back_pick
from greenroom.season.place import place_of
from greenroom.season.replay import season_start
from greenroom.speech import tr

SHOWN = 2


class LastPicks(QWidget):
    """The latest picks written of this season, the newest first."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._facts: list[str] = []
        self.lines = [Elided(bench.look) for _ in range(SHOWN)]
        self.backs = [
            button(tr("Take back"), partial(self._take_back, place), "link", name=f"take-back-{place}")
            for place in range(SHOWN)
        ]
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        for line, back in zip(self.lines, self.backs, strict=True):
            across = row(line, back)
            across.setStretch(0, 1)
            layout.addLayout(across)

    def refresh(self) -> None:
        """Show what was written last."""
        season = self._bench.keeper.season
        today = self._bench.keeper.today
        first = season_start(season_now(season, today), southern=place_of(season).southern)
        told = [one for one in season.numbered(Picked) if one[1].day >= first]
        newest = sorted(told, key=lambda one: -one[0])[:SHOWN]
        self._facts = [fact.id for _, fact in newest]
        self.setVisible(bool(newest))
        for place, (line, back) in enumerate(zip(self.lines, self.backs, strict=True)):
            there = place < len(newest)
            line.setVisible(there)
            back.setVisible(there)
            if there:
                words = pick_words(season, newest[place][1], today)
                line.show_text(words)
                back.setAccessibleName(tr("take back {pick}", pick=words))

    def _take_back(self, place: int) -> None:
        keeper = self._bench.keeper
        keeper.do(lambda: take_back_pick(keeper.season, self._facts[place]))
