"""Cool nights of one holder: the next evening, the night written down with its low, and those before."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtWidgets import QComboBox, QDateEdit

from greenroom.desk.bench import Bench
from greenroom.desk.care.history_card import HistoryCard
from greenroom.desk.days import day_in, qt_day
from greenroom.desk.harden.measured_field import MeasuredField, warmth_unit
from greenroom.desk.parts import Card, WhyLink, button, label, row, show_words
from greenroom.ledger.facts import CoolNight
from greenroom.season.cool_nights import (
    AIM_C,
    COLDEST_C,
    CoolPlan,
    aim_words,
    cool_plan,
    cool_why,
    cool_words,
)
from greenroom.season.deeds_care import cool_night
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.place import Place
from greenroom.season.watering import Line, strike_line
from greenroom.season.why import Why
from greenroom.speech import tr

SHOWN_EVENINGS = 4
RATES = ((tr("twice a week"), 2), (tr("once a week"), 1))


class CoolNights(Card):
    """A night is filed under the morning it ends; by default the one that ended today."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Cool nights indoors"))
        self._bench = bench
        self.holder: str | None = None
        self._plan: CoolPlan | None = None
        self.rate = QComboBox()
        self.rate.setObjectName("cool-rate")
        self.rate.setAccessibleName(tr("How often"))
        for words, a_week in RATES:
            self.rate.addItem(words, a_week)
        self.words = label("", "strong", wrap=True)
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why cool nights"))
        self.coming = label("", "quiet", wrap=True)
        self.morning = _morning()
        self.low = MeasuredField("cool-low", tr("Lowest of the night"), lambda: None)
        self.record = button(tr("&Write it down"), self._write, "primary", name="cool-record")
        self.history = HistoryCard(tr("Nights given"), tr("None written down yet."))
        self.history.setProperty("role", "")
        told = row(self.words, self.why)
        told.setStretch(0, 1)
        self.head.addWidget(self.rate)
        self.body.addLayout(told)
        self.body.addWidget(self.coming)
        self.body.addLayout(
            row(label(tr("The night to")), self.morning, label(tr("went down to")), self.low, None)
        )
        self.body.addLayout(row(self.record, None))
        self.body.addWidget(self.history)
        self.history.struck.connect(self._strike)
        self.rate.currentIndexChanged.connect(lambda _: self.refresh())

    def show_holder(self, holder: str, morning: date | None = None) -> None:
        """Show a holder; the night proposed is the one that ended on ``morning``, or today."""
        keeper = self._bench.keeper
        if holder != self.holder:
            self.low.show_number(sum(AIM_C) / 2, warmth_unit(keeper.place))
        self.holder = holder
        tomorrow = keeper.today + timedelta(days=1)
        self.morning.setMaximumDate(qt_day(tomorrow))
        self.morning.setDate(qt_day(morning or keeper.today))
        self.refresh()

    def refresh(self) -> None:
        """Show the plan and the nights given as they are."""
        if self.holder is None:
            return
        keeper = self._bench.keeper
        plan = cool_plan(keeper.season, self.holder, keeper.today, a_week=self.rate.currentData())
        self._plan = plan
        self.words.setText(cool_words(plan, keeper.place))
        show_words(self.coming, coming_words(plan, keeper.today, keeper.place))
        self.history.show_lines(tuple(_line(night, keeper.place) for night in reversed(plan.given)))
        for field in (self.morning, self.low, self.record):
            field.setEnabled(keeper.season.counts(self.holder).living > 0)

    def _write(self) -> None:
        keeper, holder = self._bench.keeper, self.holder
        if holder is None:
            return
        morning, low = day_in(self.morning), self.low.number
        if keeper.do(lambda: cool_night(keeper.season, holder, morning, low)):
            self.refresh()

    def _strike(self, line: Line) -> None:
        keeper, holder = self._bench.keeper, self.holder
        if holder is not None and keeper.do(lambda: strike_line(keeper.season.holder(holder), line)):
            self.refresh()

    def _why(self) -> Why | None:
        return cool_why(self._plan, self._bench.keeper.place) if self._plan else None


def coming_words(plan: CoolPlan, today: date, place: Place) -> str:
    """Return the evenings to come in a sentence, tonight first if it is one of them."""
    if not plan.coming:
        return ""
    days = [tr("tonight") if day == today else day_words(day) for day in plan.coming[:SHOWN_EVENINGS]]
    more = tr(", and so on") if len(plan.coming) > SHOWN_EVENINGS else ""
    until = (
        tr(", until hardening begins on {day}", day=day_words(plan.until + timedelta(days=1)))
        if plan.until
        else ""
    )
    return tr(
        "Evenings: {days}{more}{until}. Heating off, {aim}; days stay warm.",
        days=", ".join(days),
        more=more,
        until=until,
        aim=aim_words(place),
    )


def counts_words(night: CoolNight) -> str:
    """Return whether a night counts as a cool one, or why not."""
    if night.low_c < COLDEST_C:
        return tr("not counted, too cold")
    return tr("counted", sense="a night") if night.low_c <= AIM_C[1] else tr("not counted, too warm")


def _line(night: CoolNight, place: Place) -> Line:
    words = tr(
        "down to {temperature}, {counts}",
        temperature=temperature_words(night.low_c, place),
        counts=counts_words(night),
    )
    return Line(night.day, words, night.id)


def _morning() -> QDateEdit:
    made = QDateEdit()
    made.setDisplayFormat(tr("d MMM yyyy", sense="form of a date"))
    made.setObjectName("cool-morning")
    made.setAccessibleName(tr("The night to the morning of"))
    return made
