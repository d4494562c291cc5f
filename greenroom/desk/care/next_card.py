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
from greenroom.speech import many, tr

TO_TELL = tr("Feel the mix, or tell four waterings and it goes by their rhythm.")


class NextCard(Card):
    """One line to be read across a room, and what it rests on."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Next water"))
        self._thirst: Thirst | None = None
        self._loss: Why | None = None
        self.setObjectName("next-water")
        self.day = label("", "page-title", wrap=True)
        self.day.setObjectName("next-water-day")
        self.reason = label("", "quiet", wrap=True)
        self.reason.setObjectName("next-water-reason")
        self.why = WhyLink(bench, lambda: self._thirst.why if self._thirst is not None else None)
        self.why.setAccessibleName(tr("why this day"))
        self.last = label("", "quiet", wrap=True)
        self.loss = label("", wrap=True)
        self.loss.setObjectName("water-lost")
        self.loss_why = WhyLink(bench, lambda: self._loss)
        self.loss_why.setAccessibleName(tr("why this loss"))
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
            self.day.setText(tr("Not known yet"))
            self.reason.setText(self._wanting(season, made, today))
        else:
            self.day.setText(self._when(season, found, today, now))
            self.reason.setText(found.reason)
        self._show_last(season, made, today)
        self._show_loss(outside_water(season, made, today), made, today)
        self.setAccessibleName(
            tr("Next water: {day}. {reason}", day=self.day.text(), reason=self.reason.text())
        )

    def _when(self, season: Season, found: Thirst, today: date, now: datetime) -> str:
        if found.at is None or found.on < today:
            return when_words(found.on, today)
        hour = hour_words(found.at, place_of(season))
        return (
            tr("Now, since {hour}", hour=hour)
            if found.at <= now
            else f"{when_words(found.on, today)}, {hour}"
        )

    def _wanting(self, season: Season, made: Holder, today: date) -> str:
        counts = season.counts(made.key)
        if not counts.living and not counts.stages.get(Stage.SOWN):
            return tr("Nothing grows in it.")
        outside = outside_water(season, made, today)
        if outside is not None:
            if outside.since is None:
                return tr("Tell a watering, and the days count from it.")
            return tr("Not within the next 14 days, by what the air takes and the rain brings.")
        missing = weights_of(season.holder_facts(made.key), today).missing
        return (
            tr("By weight it wants {missing}. {to_tell}", missing=missing, to_tell=TO_TELL)
            if missing
            else TO_TELL
        )

    def _show_last(self, season: Season, made: Holder, today: date) -> None:
        last = last_watered(season.holder_facts(made.key), today)
        if last is None:
            self.last.setText(tr("No watering told yet."))
            return
        when = ago_words(last.day, today)
        below = tr("Last watered from below {when}.", when=when)
        above = tr("Last watered from above {when}.", when=when)
        self.last.setText(below if last.how == "below" else above)

    def _show_loss(self, outside: OutsideWater | None, made: Holder, today: date) -> None:
        self._loss = loss_why(made, outside, today) if outside is not None else None
        for part in (self.loss, self.loss_why):
            part.setVisible(outside is not None)
        if outside is not None:
            self.loss.setText(_loss_words(outside, today))


def when_words(on: date, today: date) -> str:
    """Return a day to water as it is spoken of: "Now, since 3 June", "Today", "Sat 6 June, in 2 days"."""
    days = (on - today).days
    if days < 0:
        return tr("Now, since {day}", day=day_words(on))
    if days == 0:
        return tr("Today")
    ahead = tr("tomorrow") if days == 1 else tr("in {days} days", days=days)
    return f"{WEEKDAYS[on.weekday()]} {day_words(on)}, {ahead}"


def _loss_words(outside: OutsideWater, today: date) -> str:
    """Return what a bed or pots outdoors lose in a day, and what is gone since they were watered."""
    total_l, short = outside.today_l * outside.plants, short_by(outside, today)
    if outside.pot_litres is not None:
        gone = "" if short is None else _gone_from_pots(short.short_l)
        pots = many(outside.plants, "pot")
        return tr(
            "Loses {each:.2g} L a pot today, {total:.2g} L for {pots}.{gone}",
            each=outside.today_l,
            total=total_l,
            pots=pots,
            gone=gone,
        )
    gone = "" if short is None else _gone_from_plants(short.short_l)
    return tr(
        "Loses {each:.2g} L a plant today, {total:.2g} L for {plants}.{gone} The soil is taken for loam.",
        each=outside.today_l,
        total=total_l,
        plants=many(outside.plants, "plant"),
        gone=gone,
    )


def _gone_from_pots(litres: float) -> str:
    return tr(" Gone since it was watered, by tonight: {litres:.2g} L a pot.", litres=litres)


def _gone_from_plants(litres: float) -> str:
    return tr(" Gone since it was watered, by tonight: {litres:.2g} L a plant.", litres=litres)
