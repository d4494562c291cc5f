"""When a holder next wants water, with its reason; and outdoors, what it loses in a day."""

from __future__ import annotations

from datetime import date, datetime

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, label, restyle, row
from greenroom.season.hardening_words import WEEKDAYS, day_words
from greenroom.season.holders import Holder
from greenroom.season.place import place_of
from greenroom.season.spots import Stage
from greenroom.season.state import Season
from greenroom.season.watering import Thirst, ago_words, last_watered, thirst
from greenroom.season.watering_outside import OutsideWater, outside_water, short_by
from greenroom.season.watering_weights import weights_of
from greenroom.season.watering_why import hour_words, loss_why
from greenroom.season.why import Why
from greenroom.speech import many

TO_TELL = "Feel the mix, or tell four waterings and it goes by their rhythm."


class NextCard(Card):
    """One line to be read across a room, and what it rests on."""

    def __init__(self, bench: Bench) -> None:
        super().__init__("Next water")
        self._thirst: Thirst | None = None
        self._loss: Why | None = None
        self.setObjectName("next-water")
        self.day = label("", "page-title", wrap=True)
        self.day.setObjectName("next-water-day")
        self.reason = label("", "quiet", wrap=True)
        self.reason.setObjectName("next-water-reason")
        self.why = WhyLink(bench, lambda: self._thirst.why if self._thirst is not None else None)
        self.why.setAccessibleName("why this day")
        self.last = label("", "quiet", wrap=True)
        self.loss = label("", wrap=True)
        self.loss.setObjectName("water-lost")
        self.loss_why = WhyLink(bench, lambda: self._loss)
        self.loss_why.setAccessibleName("why this loss")
        head = row(gap=4)
        head.addWidget(self.day, 1)
        head.addWidget(self.why)
        lost = row(gap=4)
        lost.addWidget(self.loss, 1)
        lost.addWidget(self.loss_why)
        self.body.addLayout(head)
        self.body.addWidget(self.reason)
        self.body.addLayout(lost)
        self.body.addWidget(self.last)

    def show_holder(self, season: Season, made: Holder, today: date, now: datetime) -> None:
        """Show when a holder wants water."""
        self._thirst = found = thirst(season, made, today)
        self.why.setVisible(found is not None)
        late = found is not None and (found.on <= today if found.at is None else found.at <= now)
        restyle(self, "role", "notice" if late else "card")
        if found is None:
            self.day.setText("Not known yet")
            self.reason.setText(self._wanting(season, made, today))
        else:
            self.day.setText(self._when(season, found, today, now))
            self.reason.setText(found.reason)
        self._show_last(season, made, today)
        self._show_loss(outside_water(season, made, today), made, today)
        self.setAccessibleName(f"Next water: {self.day.text()}. {self.reason.text()}")

    def _when(self, season: Season, found: Thirst, today: date, now: datetime) -> str:
        if found.at is None or found.on < today:
            return when_words(found.on, today)
        hour = hour_words(found.at, place_of(season))
        return f"Now, since {hour}" if found.at <= now else f"{when_words(found.on, today)}, {hour}"

    def _wanting(self, season: Season, made: Holder, today: date) -> str:
        counts = season.counts(made.key)
        if not counts.living and not counts.stages.get(Stage.SOWN):
            return "Nothing grows in it."
        outside = outside_water(season, made, today)
        if outside is not None:
            if outside.since is None:
                return "Tell a watering, and the days count from it."
            return "Not within the next 14 days, by what the air takes and the rain brings."
        missing = weights_of(season.holder_facts(made.key), today).missing
        return f"By weight it wants {missing}. {TO_TELL}" if missing else TO_TELL

    def _show_last(self, season: Season, made: Holder, today: date) -> None:
        last = last_watered(season.holder_facts(made.key), today)
        words = "No watering told yet." if last is None else f"Last watered from {last.how} "
        self.last.setText(words if last is None else f"{words}{ago_words(last.day, today)}.")

    def _show_loss(self, outside: OutsideWater | None, made: Holder, today: date) -> None:
        self._loss = loss_why(made, outside, today) if outside is not None else None
        for part in (self.loss, self.loss_why):
            part.setVisible(outside is not None)
        if outside is not None:
            what = "pot" if outside.pot_litres is not None else "plant"
            total = f"{outside.today_l * outside.plants:.2g} L for {many(outside.plants, what)}"
            now = short_by(outside, today)
            gone = (
                ""
                if now is None
                else f" Gone since it was watered, by tonight: {now.short_l:.2g} L a {what}."
            )
            soil = "" if outside.pot_litres is not None else " The soil is taken for loam."
            self.loss.setText(f"Loses {outside.today_l:.2g} L a {what} today, {total}.{gone}{soil}")


def when_words(on: date, today: date) -> str:
    """Return a day to water as it is spoken of: "Now, since 3 June", "Today", "Sat 6 June, in 2 days"."""
    days = (on - today).days
    if days < 0:
        return f"Now, since {day_words(on)}"
    if days == 0:
        return "Today"
    ahead = "tomorrow" if days == 1 else f"in {days} days"
    return f"{WEEKDAYS[on.weekday()]} {day_words(on)}, {ahead}"
