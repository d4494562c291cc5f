"""The week at a look: what each of the next seven days brings."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtWidgets import QGridLayout, QLabel

from greenroom.desk.elided import Elided
from greenroom.desk.look import GAP, SMALL_PX, Look
from greenroom.desk.parts import Card, label, plain_tip
from greenroom.season.hardening_words import WEEKDAYS, short_day_words
from greenroom.season.round import DAYS_AHEAD, DayAhead
from greenroom.speech import tr

SHOWN_LINES = 4
NOTHING = "–"


def _shown(lines: Sequence[str]) -> list[str]:
    """Return as many lines as there is room for, the last one counting those left out."""
    if not lines:
        return [NOTHING, *[""] * (SHOWN_LINES - 1)]
    if len(lines) <= SHOWN_LINES:
        return [*lines, *[""] * (SHOWN_LINES - len(lines))]
    return [*lines[: SHOWN_LINES - 1], tr("and {n} more", n=len(lines) - SHOWN_LINES + 1)]


class WeekCard(Card):
    """Seven columns; what has no room in a line, or in a day, stands in its tool tip."""

    def __init__(self, look: Look) -> None:
        super().__init__(tr("The week"))
        self.setObjectName("round-week")
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(0)
        self.days: list[QLabel] = [label("", "strong") for _ in range(DAYS_AHEAD)]
        self.lines = [[Elided(look, pixels=SMALL_PX) for _ in range(SHOWN_LINES)] for _ in self.days]
        for place, (day, lines) in enumerate(zip(self.days, self.lines, strict=True)):
            grid.addWidget(day, 0, place)
            grid.setColumnStretch(place, 1)
            for number, line in enumerate(lines, start=1):
                grid.addWidget(line, number, place)
        self.body.setSpacing(GAP // 2)
        self.body.addLayout(grid, 1)

    def show_week(self, ahead: Sequence[DayAhead]) -> None:
        """Show the days ahead."""
        busy = sum(bool(one.lines) for one in ahead)
        self.aside.setText(tr("if all goes as planned") if busy else tr("nothing more is due yet"))
        for one, day, lines in zip(ahead, self.days, self.lines, strict=True):
            weekday = WEEKDAYS[one.day.weekday()]
            words = tr("{weekday} {day}", sense="Mon, 14 May", weekday=weekday, day=short_day_words(one.day))
            day.setText(words)
            day.setToolTip(plain_tip("\n".join(one.lines)))
            day.setAccessibleName(f"{day.text()}: {', '.join(one.lines) or tr('nothing')}")
            for words, line in zip(_shown(one.lines), lines, strict=True):
                line.show_text(words)
