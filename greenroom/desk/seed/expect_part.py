"""What to expect of the chosen packet: share up and days to come up, each with what it is made of."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, column, label, row, show_words
from greenroom.desk.seed.expect_words import (
    days_rows,
    law_words,
    packet_words,
    ripe_rows,
    share_rows,
    sowing_words,
)
from greenroom.desk.seed.expectations import Expectations
from greenroom.desk.seed.range_art import range_words
from greenroom.desk.seed.range_bar import RangeBar
from greenroom.desk.seed.wanted_field import WantedField
from greenroom.desk.tabs import Part
from greenroom.season.coming_up import coming_up, coming_up_why
from greenroom.season.germination_why import germination_why
from greenroom.season.packets import packet_view
from greenroom.season.picking_why import learned_why
from greenroom.season.ripe_learning import ripening_of
from greenroom.season.temperatures import said_at
from greenroom.season.why import Why
from greenroom.speech import tr

NO_DAYS = tr("How long it takes is not known: the guide has no days for this crop at this warmth.")
TABLE_COLUMNS = 3
NAME_PX, FIGURE_PX = 90, 46


class Facts(QFrame):
    """Rows of a name, a figure and what it rests on."""

    def __init__(self) -> None:
        super().__init__()
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(GAP + 4)
        self._grid.setVerticalSpacing(3)
        self._grid.setColumnMinimumWidth(0, NAME_PX)
        self._grid.setColumnMinimumWidth(1, FIGURE_PX)
        self._grid.setColumnStretch(TABLE_COLUMNS - 1, 1)
        self._cells: list[QLabel] = []

    @property
    def words(self) -> list[str]:
        """What stands in the cells, row by row."""
        return [one.text() for one in self._cells if not one.isHidden()]

    def show_rows(self, rows: list[tuple[str, str, str]]) -> None:
        """Show rows; labels that are there already are used again."""
        texts = [text for line in rows for text in line]
        while len(self._cells) < len(texts):
            place = len(self._cells)
            across = place % TABLE_COLUMNS
            made = label("", ("quiet", "strong", "quiet")[across], wrap=across == TABLE_COLUMNS - 1)
            self._cells.append(made)
            self._grid.addWidget(made, place // TABLE_COLUMNS, across, Qt.AlignmentFlag.AlignTop)
        for place, cell in enumerate(self._cells):
            cell.setVisible(place < len(texts))
            cell.setText(texts[place] if place < len(texts) else "")


class ExpectPart(Part):
    """Figures of one packet; ``show_packet`` names it, ``refresh`` works them out."""

    def __init__(self, bench: Bench, expectations: Expectations) -> None:
        super().__init__()
        self._bench = bench
        self._expectations = expectations
        self.key: str | None = None
        self.about = label("", "quiet", wrap=True)
        self.share = label("", "page-title")
        self.share_why = WhyLink(bench, self._share_why)
        self.share_why.setAccessibleName(tr("why this share is expected up"))
        self.bar = RangeBar(bench.look)
        self.law = label("", wrap=True)
        self.parts = Facts()
        self.sowings = label("", "quiet", wrap=True)
        self.days = label("", "title")
        self.no_days = label(NO_DAYS, "quiet", wrap=True)
        self.days_why = WhyLink(bench, self._days_why)
        self.days_why.setAccessibleName(tr("why these days to come up"))
        self.days_parts = Facts()
        self.ripe = label("", "title", wrap=True)
        self.ripe_why = WhyLink(bench, self._ripe_why)
        self.ripe_why.setAccessibleName(tr("why these days to ripe"))
        self.ripe_parts = Facts()
        self.wanted = WantedField(bench)
        self._lay_out()

    def show_packet(self, key: str | None) -> None:
        """Take up another packet; what was typed for the one before is written first."""
        self.commit()
        self.key = key
        self.wanted.show_packet(key)

    def commit(self) -> None:
        """Write what is being edited."""
        self.wanted.commit()

    def refresh(self) -> None:
        keeper, key = self._bench.keeper, self.key
        view = packet_view(keeper.season, key) if key else None
        expected = self._expectations.at_once(key) if key else None
        if key is None or view is None or expected is None:
            return
        self.about.setText(packet_words(view, keeper.today))
        self.share.setText(tr("{share} up", share=range_words(expected)))
        self.bar.show_expected(expected)
        show_words(self.law, law_words(expected))
        self.parts.show_rows(share_rows(keeper.season, expected))
        show_words(self.sowings, sowing_words(keeper.season, key, keeper.today, said_at(keeper.place)))
        self._show_days(key)
        self._show_ripe(view.packet.variety)
        self.wanted.refresh(expected)

    def _show_days(self, key: str) -> None:
        keeper = self._bench.keeper
        found = coming_up(keeper.season, key, keeper.today)
        for part in (self.days, self.days_why, self.days_parts):
            part.setVisible(found is not None)
        self.no_days.setVisible(found is None)
        if found is not None:
            self.days.setText(tr("Half up on day {days:.0f}", days=found.days))
            self.days_parts.show_rows(days_rows(found, said_at(keeper.place)))

    def _show_ripe(self, variety: str) -> None:
        keeper = self._bench.keeper
        found = ripening_of(keeper.season, variety, keeper.today)
        for part in (self.ripe, self.ripe_why, self.ripe_parts):
            part.setVisible(found is not None)
        if found is not None:
            days = found.learned.figure / found.heat.a_day
            self.ripe.setText(tr("Ripe {days:.0f} days after setting out", days=days))
            self.ripe_parts.show_rows(ripe_rows(found))

    def _share_why(self) -> Why | None:
        keeper = self._bench.keeper
        expected = self._expectations.at_once(self.key) if self.key else None
        return (
            germination_why(keeper.season, expected, keeper.today, said_at(keeper.place))
            if expected
            else None
        )

    def _days_why(self) -> Why | None:
        keeper = self._bench.keeper
        found = coming_up(keeper.season, self.key, keeper.today) if self.key else None
        return coming_up_why(keeper.season, found, said_at(keeper.place)) if found else None

    def _ripe_why(self) -> Why | None:
        keeper = self._bench.keeper
        view = packet_view(keeper.season, self.key) if self.key else None
        found = ripening_of(keeper.season, view.packet.variety, keeper.today) if view else None
        return learned_why(view.name, found) if view and found else None

    def _lay_out(self) -> None:
        layout = column(self.about, gap=GAP)
        layout.addLayout(row(self.share, self.share_why, None))
        for figure in (self.bar, self.law, self.parts, self.sowings, rule()):
            layout.addWidget(figure)
        layout.addLayout(row(self.days, self.days_why, None))
        for part in (self.no_days, self.days_parts):
            layout.addWidget(part)
        ripe = row(gap=GAP)
        ripe.addWidget(self.ripe, 1)
        ripe.addWidget(self.ripe_why)
        layout.addLayout(ripe)
        for below in (self.ripe_parts, rule(), self.wanted):
            layout.addWidget(below)
        layout.addStretch(1)
        self.setLayout(layout)


def rule() -> QFrame:
    """Return a thin line between two sections."""
    line = QFrame()
    line.setObjectName("rule")
    line.setFixedHeight(1)
    return line
