"""The tab of feed: what the stage asks for, how it is mixed, what was given, and what to take care of."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QHBoxLayout, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.care.given_card import GivenCard
from greenroom.desk.care.history_card import HistoryCard
from greenroom.desk.care.mix_card import MixCard
from greenroom.desk.care.part import Day, PromptPart
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, label, row, show_words
from greenroom.ledger.facts import Fed
from greenroom.season import deeds_care
from greenroom.season.deeds_care import Feed
from greenroom.season.feeding import (
    FEED_FACTS,
    FRUIT,
    Need,
    feed_for,
    flowered_on,
    for_fruit,
    known_feeds,
    leafy_after_flower,
    litres_of,
    need_of,
)
from greenroom.season.feeding_why import CARE, leafy_why, leafy_words, need_why
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.watering import Line, history, strike_line
from greenroom.season.why import Why
from greenroom.season.within import in_row
from greenroom.speech import tr

LEFT_PX = 344
NOTHING = tr("Nothing told yet.")
NO_NEED = tr("Nothing in it wants feed yet: seed leaves live on what the seed held.")
STRONG = tr("Stronger than the guide asks for at this stage: salts can burn roots.")
UNLIKE = tr("This feed holds no more potash than nitrogen, and the plants are in flower.")


class FeedPart(PromptPart):
    """What is wanted and the mixing on the left; the record and the cautions on the right."""

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self._need: Need | None = None
        self._leafy: Fed | None = None
        self._proposed: tuple[object, ...] = ()
        self.wanted = Card(tr("Wanted"))
        self.strength = label("", "page-title", wrap=True)
        self.strength.setObjectName("feed-wanted")
        self.stage = label("", "quiet", wrap=True)
        self.why = WhyLink(bench, lambda: need_why(self._need) if self._need is not None else None)
        self.why.setAccessibleName(tr("why this strength"))
        head = row(gap=4)
        head.addWidget(self.strength, 1)
        head.addWidget(self.why)
        self.wanted.body.addLayout(head)
        self.wanted.body.addWidget(self.stage)
        self.mix = MixCard(bench)
        self.caution = label("", "alert", wrap=True)
        self.caution.setObjectName("feed-caution")
        self.mix.body.insertWidget(self.mix.body.count() - 1, self.caution)
        self.given = GivenCard(bench)
        self.told = HistoryCard(tr("Feeds told"), NOTHING)
        self.warning = QFrame()
        self.warning.setProperty("role", "notice")
        self.warned = label("", "alert", wrap=True)
        self.warned.setObjectName("feed-warning")
        self.leafy_why = WhyLink(bench, self._why_leafy)
        self._lay_out()
        self.mix.fed.connect(self._feed)
        self.told.struck.connect(self._strike)
        for field in (self.mix.label_fields[0], self.mix.label_fields[2], self.mix.ppm):
            field.valueChanged.connect(lambda _value: self._show_cautions())

    def answer(self) -> None:
        if self.holder is None:
            return
        season, today = self.bench.keeper.season, self.bench.keeper.today
        made = season.holder(self.holder)
        self._need = need_of(season, made, today)
        self._leafy = leafy_after_flower(season, made.key)
        self._show_need(self._need)
        self.warning.setVisible(self._leafy is not None)
        if self._leafy is not None:
            self.warned.setText(leafy_words(made, self._leafy))
        self._propose(made, self._need)
        self._show_cautions()

    def record(self) -> None:
        if self.holder is not None:
            season, made = self.bench.keeper.season, self.bench.keeper.season.holder(self.holder)
            self.given.show_holder(season, made, self.bench.keeper.today)
            self.told.show_lines(history(season, made.key, FEED_FACTS))

    def _show_need(self, need: Need | None) -> None:
        self.why.setVisible(need is not None)
        if need is None:
            self.strength.setText(tr("No feed yet"))
            self.stage.setText(NO_NEED)
            return
        never = tr("no feed for fruit given yet") if need.stage == FRUIT else tr("not fed yet")
        last = never if need.last is None else tr("last fed {day}", day=day_words(need.last))
        if need.ppm_n <= 0:
            self.strength.setText(tr("No feed for now"))
            self.stage.setText(in_row((need.words, last)))
            return
        self.strength.setText(tr("{ppm_n:g} ppm N", ppm_n=need.ppm_n))
        due = tr("now", sense="the next feed") if need.due <= self.bench.keeper.today else day_words(need.due)
        self.stage.setText(tr("{words}; {last}; next {due}", words=need.words, last=last, due=due))

    def _propose(self, made: Holder, need: Need | None) -> None:
        """Fill the fields for another holder, stage or unit; what the grower wrote in them stays."""
        season, unit = self.bench.keeper.season, self.bench.keeper.place.volume
        self.mix.offer(known_feeds(season))
        stage, ppm_n = (need.stage, need.ppm_n) if need is not None else ("", 0.0)
        proposed = (made.key, stage, ppm_n, unit)
        if proposed != self._proposed:
            self._proposed = proposed
            self.mix.propose(feed_for(season, stage, ppm_n), litres_of(season, made), unit)

    def _show_cautions(self) -> None:
        """Say what in the fields is unlike what the stage asks for."""
        flower = self.holder is not None and flowered_on(self.bench.keeper.season, self.holder) is not None
        said = [UNLIKE] if flower and not for_fruit(self.mix.feed) else []
        if self._need is not None and self.mix.ppm.value() > self._need.asked.value.high:
            said.append(STRONG)
        show_words(self.caution, " ".join(said))

    def _feed(self, feed: Feed, litres: float) -> None:
        keeper, holder = self.bench.keeper, self.holder
        if holder is not None:
            keeper.do(lambda: deeds_care.feed(keeper.season, holder, self.day(), feed, litres))

    def _strike(self, line: Line) -> None:
        keeper, holder = self.bench.keeper, self.holder
        if holder is not None:
            keeper.do(lambda: strike_line(keeper.season.holder(holder), line))

    def _why_leafy(self) -> Why | None:
        if self._leafy is None or self.holder is None:
            return None
        return leafy_why(self.bench.keeper.season.holder(self.holder), self._leafy)

    def _lay_out(self) -> None:
        notice = QHBoxLayout(self.warning)
        notice.setContentsMargins(GAP + 4, GAP, GAP, GAP)
        notice.addWidget(self.warned, 1)
        notice.addWidget(self.leafy_why)
        care = QFrame()
        care.setProperty("role", "hint")
        with_care = QVBoxLayout(care)
        with_care.setContentsMargins(GAP + 4, GAP, GAP + 4, GAP)
        with_care.addWidget(label(tr("With care"), "strong"))
        with_care.addWidget(label(CARE, wrap=True))
        left, right = QVBoxLayout(), QVBoxLayout()
        for card in (self.wanted, self.mix):
            card.setFixedWidth(LEFT_PX)
            left.addWidget(card)
        for part in (self.warning, self.given, care, self.told):
            right.addWidget(part)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for side, stretch in ((left, 0), (right, 1)):
            side.setSpacing(GAP)
            side.addStretch(1)
            layout.addLayout(side, stretch)
