"""The tab of water: when a holder wants it, what was done, what it weighs and how its mix feels."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.care.dry_card import DryCard
from greenroom.desk.care.history_card import HistoryCard
from greenroom.desk.care.next_card import NextCard
from greenroom.desk.care.part import Day, PromptPart
from greenroom.desk.care.weigh_card import FeelCard, WeighCard
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season import deeds_care
from greenroom.season.holders import Holder
from greenroom.season.proposal import Proposal
from greenroom.season.state import Season
from greenroom.season.watering import WATER_FACTS, Line, basin_to_empty, history, last_felt, strike_line
from greenroom.season.watering_weights import weights_of
from greenroom.speech import tr

LEFT_PX = 344
BASIN = tr("Pour away what stands in the basin half an hour after watering from below.")
NOTHING = tr("Nothing told yet. What you tell here stands in the story of its plants, too.")


class WaterPart(PromptPart):
    """Acts on the left; the curve and what was told on the right."""

    kinds = frozenset({"place_set", "units_set", "weather_record", "forecast"})

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self.next = NextCard(bench)
        self.acts = Card(tr("Watered"))
        self.weigh = WeighCard()
        self.feel = FeelCard()
        self.dry = DryCard(bench)
        self.told = HistoryCard(tr("What was told"), NOTHING)
        self.told.head.addWidget(TableButton(bench, sources.waterings, text=tr("All waterings")))
        self.below = button(tr("From below"), lambda: self._water("below"), "primary", name="water-below")
        self.above = button(tr("From above"), lambda: self._water("above"), "primary", name="water-above")
        self.basin = button(tr("Basin emptied"), self._empty, name="basin-emptied")
        self.basin_words = label(BASIN, "alert", wrap=True)
        self.acts.head.addWidget(self.basin)
        self.acts.body.addLayout(row(self.below, self.above, None))
        self.acts.body.addWidget(self.basin_words)
        self._lay_out()
        self.weigh.weighed.connect(self._weigh)
        self.feel.felt.connect(self._feel)
        self.told.struck.connect(self._strike)

    def answer(self) -> None:
        made = self._made()
        if made is None:
            return
        season, today = self.bench.keeper.season, self.bench.keeper.today
        entries = season.holder_facts(made.key)
        self.next.show_holder(season, made, today, self.bench.keeper.now)
        self.weigh.show_missing(weights_of(entries, today).missing)
        self.weigh.setVisible(made.form != "bed")
        for part in (self.basin, self.below):
            part.setVisible(made.form != "bed")
        self.basin_words.setVisible(basin_to_empty(made, entries, today) is not None)
        self.feel.show_ground(made.form)
        self.feel.show_last(last_felt(entries, today))

    def record(self) -> None:
        made = self._made()
        if made is not None:
            season = self.bench.keeper.season
            self.dry.show_holder(season, made, self.bench.keeper.today, self.bench.keeper.now)
            self.told.show_lines(history(season, made.key, WATER_FACTS))

    def _made(self) -> Holder | None:
        return self.bench.keeper.season.holder(self.holder) if self.holder is not None else None

    def _do(self, deed: Callable[[Season, str], Proposal]) -> bool:
        keeper, holder = self.bench.keeper, self.holder
        return holder is not None and keeper.do(lambda: deed(keeper.season, holder))

    def _at(self) -> datetime | None:
        """Return this moment where acts are written for today; of an earlier day the hour is not known."""
        keeper = self.bench.keeper
        return keeper.now if self.day() == keeper.today else None

    def _water(self, how: str) -> None:
        self._do(lambda season, holder: deeds_care.water(season, holder, self.day(), how, at=self._at()))

    def _empty(self) -> None:
        self._do(lambda season, holder: deeds_care.empty_basin(season, holder, self.day()))

    def _weigh(self, grams: float, state: str) -> None:
        done = self._do(
            lambda season, holder: deeds_care.weigh(season, holder, self.day(), grams, state, self._at())
        )
        if done:
            self.weigh.clear()

    def _feel(self, level: str, test: str) -> None:
        self._do(lambda season, holder: deeds_care.feel_mix(season, holder, self.day(), level, test))

    def _strike(self, line: Line) -> None:
        self._do(lambda season, holder: strike_line(season.holder(holder), line))

    def _lay_out(self) -> None:
        left, right = QVBoxLayout(), QVBoxLayout()
        for card in (self.next, self.acts, self.weigh, self.feel):
            card.setFixedWidth(LEFT_PX)
            left.addWidget(card)
        left.addStretch(1)
        right.addWidget(self.dry)
        right.addWidget(self.told)
        right.addStretch(1)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for side, stretch in ((left, 0), (right, 1)):
            side.setSpacing(GAP)
            layout.addLayout(side, stretch)
