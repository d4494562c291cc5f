"""Trays laid out from the plan: looked over, altered by hand, then sown in one act."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QGridLayout,
    QMenu,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from greenroom.agronomy.containers import tray
from greenroom.desk.bench import Bench
from greenroom.desk.days import DayEdit
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import Card, WhyLink, button, label, restyle, row
from greenroom.desk.sow.layout_canvas import LayoutCanvas, Where
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.tray_words import COUNTS
from greenroom.season.deeds_fill import batches_of, empty_trays, sow_filled
from greenroom.season.fill_trays import Cell, FilledTray, Tray, fill_trays, moved
from greenroom.season.hardening_words import day_words
from greenroom.season.plan_why import seeds_why
from greenroom.season.proposal import RefusedError
from greenroom.season.wants import sowing_span
from greenroom.season.weekdays import dated_words
from greenroom.season.why import Why
from greenroom.speech import many, tr, trn

USUAL_COUNT = 72
SOW_THESE = tr("Sow these")
HINT = tr(
    "Drag a block to other cells. With the keys: N goes to the next, arrows move it, "
    "Delete leaves it out; its menu takes it to another tray."
)
ALIKE = tr(
    "Kinds share a tray if they like the same warmth and come up at about one pace, so "
    "that the whole tray leaves the mat at once."
)


class LayoutView(Page):
    """``closed`` carries the first tray sown, or nothing where it was left."""

    key = "layout"
    closed = Signal(str)

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__(bench)
        self._desk = desk
        self.canvas = LayoutCanvas(bench.look, self.tray_name)
        self.sizes = QComboBox()
        self.sizes.setAccessibleName(tr("New trays of"))
        for count in COUNTS:
            self.sizes.addItem(tr("{count} cells", count=count), count)
        self.sizes.setCurrentIndex(COUNTS.index(USUAL_COUNT))
        self.day_edit = DayEdit(bench.keeper, tr("d MMM yyyy", sense="form of a date"))
        self.day_edit.setAccessibleName(tr("Sown on"))
        self.about = label("", wrap=True)
        self.early = label("", "alert", wrap=True)
        self.block_words = label("", "strong", wrap=True)
        self.seeds_why = WhyLink(bench, self._seeds_why, tr("why so many?"))
        self.seeds_why.setAccessibleName(tr("why so many seeds of it"))
        self.to_tray = button(tr("Move to another tray"), self._open_menu, name="block-menu")
        self.leave_out = button(
            tr("Leave it out"), lambda: self._leave_out(self.canvas.current), name="leave-out"
        )
        self.anew = button(tr("Lay out anew"), self.propose, name="lay-anew")
        self.sow = button(SOW_THESE, self.sow_all, "primary", name="sow-these")
        self.back = button(
            tr("Put aside", sense="trays laid out"), lambda: self.closed.emit(""), name="layout-back"
        )
        self._assemble()
        self.canvas.moved.connect(self._move)
        self.canvas.stepped.connect(self._step)
        self.canvas.emptied.connect(self._leave_out)
        self.canvas.chosen.connect(self._show_block)
        self.canvas.menu_asked.connect(lambda _where, point: self._menu(point))
        self.sizes.activated.connect(lambda _place: self.propose())
        self.day_edit.dateChanged.connect(lambda _day: self._show_about())

    @property
    def day(self) -> date:
        """The day of the sowing."""
        return self.day_edit.day

    def propose(self) -> bool:
        """Lay out what is still to be sown; tell why not if that cannot be."""
        keeper, count = self.bench.keeper, self.sizes.currentData()
        batches = batches_of(keeper.season, self._desk.plan)
        if not batches:
            self.bench.say(tr("Nothing of the plan of {year} is left to be sown.", year=self._desk.year))
            return False
        sheet = tray(count)
        try:
            filled = fill_trays(batches, empty_trays(keeper.season), Tray(sheet.rows, sheet.columns))
        except RefusedError as error:
            self.bench.say(str(error))
            return False
        self.day_edit.back_to_today()
        self._show(filled)
        return True

    def sow_all(self) -> None:
        """Sow what is laid out."""
        keeper, trays = self.bench.keeper, self.canvas.trays
        before = {one.key for one in keeper.season.holders()}
        used = [one.tray.holder for one in trays if one.blocks and one.tray.holder is not None]
        if keeper.do(lambda: sow_filled(keeper.season, trays, self.day)):
            made = [one.key for one in keeper.season.holders() if one.key not in before]
            self.closed.emit((used or made)[0])

    def tray_name(self, place: int) -> str:
        """Return the name of a tray with what it likes."""
        one = self.canvas.trays[place]
        low, high = (self._desk.say_c(value) for value in one.best_c)
        return tr(
            "{tray}: mix best at {low} to {high}; {cells} free",
            tray=self._bare_name(place),
            low=low,
            high=high,
            cells=many(one.free, "cell"),
        )

    def _bare_name(self, place: int) -> str:
        new = sum(tray.tray.holder is None for tray in self.canvas.trays[: place + 1])
        return self.canvas.trays[place].tray.name or tr("New tray {number}", number=new)

    def _show(self, trays: list[FilledTray], current: Where | None = None) -> None:
        self.canvas.show_trays(trays, current)
        self._show_about()

    def _show_about(self) -> None:
        trays = [one for one in self.canvas.trays if one.blocks]
        cells = sum(len(block.cells) for one in trays for block in one.blocks)
        seeds = sum(len(block.cells) * block.seeds_a_cell for one in trays for block in one.blocks)
        self.about.setText(
            tr(
                "{seeds} in {cells} of {trays}.",
                seeds=many(seeds, "seed"),
                cells=many(cells, "cell"),
                trays=many(len(trays), "tray"),
            )
        )
        self.sow.setEnabled(cells > 0)
        self.sow.setText(trn("Sow this 1 cell", "Sow these {n:,} cells", cells) if cells else SOW_THESE)
        span = sowing_span(self.bench.keeper.season, self._desk.year)
        outside = self.day not in span
        self.early.setText(
            tr(
                "The season of {season} is sown from {date} on; sown on {day} these count for another.",
                season=self._desk.year,
                date=dated_words(span.first),
                day=day_words(self.day),
            )
            if outside
            else ""
        )
        self.early.setVisible(outside)

    def _show_block(self) -> None:
        where = self.canvas.current
        for part in (self.block_words, self.seeds_why, self.to_tray, self.leave_out):
            part.setVisible(where is not None)
        if where is not None:
            block = self.canvas.block(where)
            cells = many(len(block.cells), "cell")
            self.block_words.setText(tr("{name}: {what}", name=block.name, what=f"{cells}, {block.words}"))
            self.to_tray.setEnabled(len(self.canvas.trays) > 1)

    def _seeds_why(self) -> Why | None:
        """Tell why so many seeds of the packet in the block are to be sown."""
        where, keeper = self.canvas.current, self.bench.keeper
        packet = self.canvas.block(where).packet if where is not None else None
        rows = self._desk.plan.rows
        found = next((one for one in rows if one.seeds is not None and one.seeds.packet == packet), None)
        return seeds_why(keeper.season, found, keeper.today) if found is not None else None

    def _move(self, where: Where, to: int, first: Cell) -> bool:
        try:
            trays = moved(self.canvas.trays, where, to, first)
        except RefusedError as error:
            self.bench.say(str(error))
            return False
        self._show(trays, (to, len(trays[to].blocks) - 1))
        return True

    def _step(self, where: Where, way: Cell) -> None:
        """Move a block on to the next cells in a direction that take it."""
        tray_, cells = self.canvas.trays[where[0]].tray, self.canvas.block(where).cells
        start = cells[0][1] * tray_.rows + cells[0][0]
        step = way[0] + way[1] * tray_.rows
        for begin in range(start + step, tray_.size if step > 0 else -1, step):
            first = (begin % tray_.rows, begin // tray_.rows)
            if self._fits(where, where[0], first):
                self._move(where, where[0], first)
                return
        self.bench.say(tr("There is no room for {variety} that way.", variety=self.canvas.block(where).name))

    def _fits(self, where: Where, to: int, first: Cell) -> bool:
        try:
            moved(self.canvas.trays, where, to, first)
        except RefusedError:
            return False
        return True

    def _to_tray(self, where: Where, to: int) -> None:
        sheet = self.canvas.trays[to].tray
        cells = [(row_, column) for column in range(sheet.columns) for row_ in range(sheet.rows)]
        first = next((cell for cell in cells if self._fits(where, to, cell)), None)
        if first is None:
            self.bench.say(
                tr(
                    "{tray} has no room for {variety}.",
                    tray=self._bare_name(to),
                    variety=self.canvas.block(where).name,
                )
            )
            return
        self._move(where, to, first)

    def _leave_out(self, where: Where | None) -> None:
        if where is None:
            return
        trays = list(self.canvas.trays)
        blocks = trays[where[0]].blocks
        left = (*blocks[: where[1]], *blocks[where[1] + 1 :])
        trays[where[0]] = replace(trays[where[0]], blocks=left)
        self._show(trays)

    def _open_menu(self) -> None:
        self._menu(self.to_tray.mapToGlobal(QPoint(0, self.to_tray.height())))

    def menu(self) -> QMenu | None:
        """Return what can be done with the block chosen."""
        where = self.canvas.current
        if where is None:
            return None
        made = QMenu(self)
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for to in range(len(self.canvas.trays)):
            if to != where[0]:
                made.addAction(tr("To {tray}", tray=self._bare_name(to))).triggered.connect(
                    lambda _=False, to=to: self._to_tray(where, to)
                )
        made.addAction(tr("Leave it out")).triggered.connect(lambda _=False: self._leave_out(where))
        return made

    def _menu(self, point: QPoint) -> None:
        if (made := self.menu()) is not None:
            made.popup(point)

    def _assemble(self) -> None:
        area = QScrollArea()
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setWidgetResizable(True)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        inside = QWidget()
        inside.setObjectName("ground")
        down = QVBoxLayout(inside)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.canvas)
        down.addStretch(1)
        area.setWidget(inside)
        self.card = Card(tr("Laid out from the plan"))
        self.card.aside.setText(tr("nothing is sown yet"))
        self.card.body.addWidget(area, 1)
        self.card.body.addWidget(label(HINT, "quiet", wrap=True))
        side = Card(tr("Sow these trays"))
        side.aside.hide()
        side.setFixedWidth(300)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setColumnStretch(1, 1)
        for place, (words, field) in enumerate(
            ((tr("New trays of"), self.sizes), (tr("Sown on"), self.day_edit))
        ):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        side.body.addWidget(self.about)
        side.body.addLayout(grid)
        for part in (self.early, self.sow, self.anew, self.back, label(ALIKE, "quiet", wrap=True)):
            side.body.addWidget(part)
        side.body.addWidget(self.block_words)
        side.body.addLayout(row(self.seeds_why, None))
        for act in (self.to_tray, self.leave_out):
            side.body.addWidget(act)
        side.body.addStretch(1)
        across = row(self.card, side, gap=GAP + 4)
        across.setStretch(0, 1)
        across.setContentsMargins(PAGE_MARGIN, GAP, PAGE_MARGIN, PAGE_MARGIN - 4)
        self.setLayout(across)
        restyle(self.early, "role", "alert")
