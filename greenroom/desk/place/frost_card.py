"""Frost dates as the grower knows them, for a place without a weather record."""

from __future__ import annotations

from datetime import date

from PySide6.QtWidgets import QGridLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row
from greenroom.desk.place.day_field import DayField
from greenroom.ledger.facts import FrostDatesGiven
from greenroom.season.deeds_place import give_frost_dates, strike_frost_dates
from greenroom.season.hardening_words import day_words
from greenroom.season.place import daily_weather
from greenroom.season.proposal import Proposal
from greenroom.speech import tr

USUAL = {False: ((5, 15), (10, 1)), True: ((10, 15), (4, 15))}
"""What the fields show before anything is given, north and south: a cool temperate garden, no source."""

GIVEN = tr("Given: last frost {last}, first frost {first}.")
NOT_GIVEN = tr("Not given yet. A neighbour, or the extension service, knows the usual dates.")
LESS = tr(
    "With these two dates and your coordinates the plan counts days back and forth from "
    "the usual frosts. It then knows nothing of warm and cold years: no odds that a "
    "variety ripens, no nights warm enough to set out, no heat. A weather record tells "
    "all of that."
)
BESIDE = tr("There is a weather record, so the plan goes by it; these dates would count only without one.")


class FrostCard(Card):
    """Two days of the year, taken when the grower says so."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Usual frosts, if there is no record"))
        self._bench = bench
        self._shown: tuple[date, ...] = ()
        self.state = label("", "strong", wrap=True)
        self.last = DayField(tr("Usual last frost of spring"))
        self.first = DayField(tr("Usual first frost of autumn"))
        self.keep = button(tr("Keep these dates"), self.write, "primary", name="keep-frosts")
        self.strike = button(tr("Strike them out"), self.strike_out, name="strike-frosts")
        self.less = label(LESS, "quiet", wrap=True)
        self._lay_out()
        self.refresh()

    def refresh(self) -> None:
        """Show the dates as they stand."""
        keeper = self._bench.keeper
        given = keeper.season.latest(FrostDatesGiven)
        usual = tuple(date(keeper.today.year, *day) for day in USUAL[keeper.place.southern])
        dates = (given.last, given.first) if given else usual
        if dates != self._shown:  # what is being changed stays while something else is written
            self._shown = dates
            for field, day in zip((self.last, self.first), dates, strict=True):
                field.show_day(day)
        last, first = (day_words(day) for day in dates)
        self.state.setText(GIVEN.format(last=last, first=first) if given else NOT_GIVEN)
        self.strike.setVisible(given is not None)
        self.less.setText(BESIDE if daily_weather(keeper.season) is not None else LESS)

    def write(self) -> None:
        """Write the dates down."""
        self._bench.keeper.do(self._proposal)

    def strike_out(self) -> None:
        """Strike the dates out."""
        keeper = self._bench.keeper
        if keeper.do(lambda: strike_frost_dates(keeper.season)):
            self.keep.setFocus()

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        last, first = (field.in_year(keeper.today.year) for field in (self.last, self.first))
        return give_frost_dates(keeper.season, last, first, keeper.today)

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP + 4)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(2, 1)
        for place, (words, field) in enumerate(
            ((tr("Last of spring"), self.last), (tr("First of autumn"), self.first))
        ):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        self.body.addWidget(self.state)
        self.body.addLayout(grid)
        self.body.addLayout(row(self.keep, self.strike, None))
        self.body.addWidget(self.less)
