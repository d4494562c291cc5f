"""What is sown: the packet, seeds a cell, the day, and when it can be expected up."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QSpinBox

from greenroom.desk.bench import Bench
from greenroom.desk.days import DayEdit
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, button, label, restyle, row, show_words
from greenroom.desk.seed.packet_rows import PacketRow
from greenroom.desk.sow.packet_model import left_words
from greenroom.season.sprouting_why import emergence
from greenroom.season.temperatures import said_at
from greenroom.season.why import Why
from greenroom.season.within import opening
from greenroom.speech import many, tr, trn

MOST_SEEDS = 50
NO_PACKET = tr("Choose a packet on the left.")
NO_CELLS = tr("Choose cells, or drag the packet over them.")


@dataclass(frozen=True, slots=True)
class Asked:
    """What the grower has chosen so far; ``taken`` of the ``chosen`` cells are not empty."""

    packet: PacketRow | None
    holder: str | None
    chosen: int
    taken: int

    @property
    def cells(self) -> int:
        """The cells that would be sown."""
        return self.chosen - self.taken


class SowCard(Card):
    """Says what a press of the button will do before it is pressed."""

    sow_asked = Signal()
    changed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Sow", sense="do it"))
        self._bench = bench
        self._asked = Asked(None, None, 0, 0)
        self._why: Why | None = None
        self.aside.hide()
        self.about = label("", "quiet", wrap=True)
        self.seeds = QSpinBox()
        self.seeds.setRange(1, MOST_SEEDS)
        self.seeds.setAccessibleName(tr("Seeds a cell"))
        self.day_edit = DayEdit(bench.keeper, tr("d MMM yyyy", sense="form of a date"))
        self.day_edit.setAccessibleName(tr("Sown on"))
        self.outcome = label("", wrap=True)
        self.sow = button(tr("Sow", sense="do it"), self.sow_asked.emit, "primary", name="sow")
        self.expect_title = label(tr("What to expect"), "strong")
        self.expect = label("", wrap=True)
        self.why = WhyLink(bench, lambda: self._why)
        self._lay_out()
        self.seeds.valueChanged.connect(lambda _value: self._on_change())
        self.day_edit.dateChanged.connect(lambda _day: self._on_change())
        self.show_asked(self._asked)

    @property
    def day(self) -> date:
        """The day it is sown on."""
        return self.day_edit.day

    @property
    def seeds_a_cell(self) -> int:
        """Seeds a cell."""
        return self.seeds.value()

    def back_to_today(self) -> None:
        """Sow today again."""
        self.day_edit.back_to_today()

    def follow_today(self) -> None:
        """Go on to a new day at midnight, unless another day was chosen."""
        self.day_edit.follow_today()

    def show_asked(self, asked: Asked) -> None:
        """Show what is chosen and what follows from it."""
        self._asked = asked
        packet = asked.packet
        self.title.setText(packet.name if packet else tr("Sow", sense="do it"))
        self.about.setText(_about(packet) if packet else NO_PACKET)
        self._show_outcome()
        self._show_expectation()

    def _on_change(self) -> None:
        self._show_outcome()
        self.changed.emit()

    def _show_outcome(self) -> None:
        asked, each = self._asked, self.seeds.value()
        short = _short_of(asked, each)
        self.sow.setText(_sow_words(asked.cells))
        self.sow.setEnabled(asked.packet is not None and asked.cells > 0 and short == 0)
        show_words(self.outcome, _outcome(asked, each, short) if asked.packet else "")
        restyle(self.outcome, "role", "alert" if short else "quiet")

    def _show_expectation(self) -> None:
        asked, keeper = self._asked, self._bench.keeper
        known = asked.packet is not None and asked.holder is not None
        for part in (self.expect_title, self.expect, self.why):
            part.setVisible(known)
        if asked.packet is None or asked.holder is None:
            return
        found = emergence(
            keeper.season,
            self._bench.guide,
            asked.holder,
            asked.packet.key,
            said_at(keeper.place),
        )
        self._why = found.why
        self.expect.setText(f"{opening(found.words)}.")

    def _lay_out(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        for place, (words, field) in enumerate(
            ((tr("Seeds a cell"), self.seeds), (tr("Sown on"), self.day_edit))
        ):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        self.body.addWidget(self.about)
        self.body.addLayout(grid)
        self.body.addWidget(self.outcome)
        self.body.addWidget(self.sow)
        self.body.addWidget(self.expect_title)
        self.body.addWidget(self.expect)
        self.body.addLayout(row(self.why, None))


def _about(packet: PacketRow) -> str:
    lot = tr("lot {lot}", lot=packet.lot) if packet.lot else ""
    old = trn("1 year old", "{n} years old", packet.age or 0) if packet.old else ""
    return " · ".join(part for part in (packet.kind, lot, left_words(packet), old) if part)


def _short_of(asked: Asked, each: int) -> int:
    """Return how many seeds are wanting."""
    left = asked.packet.left if asked.packet else None
    return 0 if left is None else max(0, asked.cells * each - left)


def _sow_words(cells: int) -> str:
    if cells == 0:
        return tr("Sow", sense="do it")
    return trn("Sow 1 cell", "Sow {n:,} cells", cells)


def _outcome(asked: Asked, each: int, short: int) -> str:
    if asked.chosen == 0:
        return NO_CELLS
    seeds = asked.cells * each
    said = [tr("Takes {seeds}.", seeds=many(seeds, "seed"))] if seeds else []
    if short:
        said = [
            trn(
                "Takes {seeds}; 1 is wanting. Choose fewer cells or fewer seeds a cell.",
                "Takes {seeds}; {n:,} are wanting. Choose fewer cells or fewer seeds a cell.",
                short,
                seeds=many(seeds, "seed"),
            )
        ]
    if asked.taken:
        said.append(
            trn(
                "1 of the cells chosen is taken and is left alone.",
                "{n} of the cells chosen are taken and are left alone.",
                asked.taken,
            )
        )
    return " ".join(said)
