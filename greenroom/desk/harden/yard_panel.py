"""When the sun reaches the step outside the door, told once; the hours then move with the year."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import QTime
from PySide6.QtWidgets import QTimeEdit

from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.parts import label
from greenroom.season.deeds_outdoors import set_yard_sun
from greenroom.season.place import Place
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.yard_sun import yard_sun
from greenroom.speech import tr

USUAL = (QTime(8, 0), QTime(18, 0))
ABOUT = tr(
    "Stand on the step on a clear day and note when the sun comes round the house or the "
    "trees, and when it goes behind them. No outing is proposed without sun on the step. "
    "The hours move with the sun's noon over the year; tell them again in another season."
)


class YardPanel(InlinePanel):
    """Two times of day."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Confirm"), self._proposal)
        self._bench = bench
        self.heading.setText(tr("When is the sun on the step?"))
        self.first = _field("sun-comes", tr("Sun reaches the step at"))
        self.last = _field("sun-goes", tr("Sun leaves it at"))
        fields = form()
        fields.addRow(tr("Sun &reaches it at"), left(self.first))
        fields.addRow(tr("Sun lea&ves it at"), left(self.last))
        self.body.addWidget(label(ABOUT, "quiet", wrap=True))
        self.body.addLayout(fields)
        for field in (self.first, self.last):
            field.timeChanged.connect(lambda _: self.refresh())

    def open(self) -> None:
        """Show the hours as they are known for today."""
        keeper = self._bench.keeper
        known = yard_sun(keeper.season, keeper.today)
        times = USUAL if known is None else tuple(_time(moment, keeper.place) for moment in known)
        for field, time in zip((self.first, self.last), times, strict=True):
            field.setTime(time)
        self.refresh()
        self.first.setFocus()

    def refresh(self) -> None:
        """Say for how long the sun is on the step, or why that cannot be."""
        try:
            self._proposal()
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        minutes = _minutes(self.last) - _minutes(self.first)
        self.foresee(
            [
                tr(
                    "{hours} h {minutes:02d} min of sun on the step today.",
                    hours=minutes // 60,
                    minutes=minutes % 60,
                )
            ],
            sound=True,
        )

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        return set_yard_sun(keeper.season, _minutes(self.first), _minutes(self.last), keeper.today)


def _field(name: str, words: str) -> QTimeEdit:
    made = QTimeEdit()
    made.setDisplayFormat("HH:mm")
    made.setObjectName(name)
    made.setAccessibleName(words)
    return made


def _time(moment: datetime, place: Place) -> QTime:
    local = place.local(moment)
    return QTime(local.hour, local.minute)


def _minutes(field: QTimeEdit) -> int:
    return field.time().hour() * 60 + field.time().minute()
