"""The predictions, and beneath them all that is known of the one chosen."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.pick import pick_tables
from greenroom.desk.pick.ahead_view import AheadAxis, AheadView
from greenroom.desk.pick.empty import none_ahead
from greenroom.desk.pick.pick_words import ahead_words
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.picking_ahead import RipeAhead
from greenroom.season.picking_why import ahead_why, due_why
from greenroom.season.replay import Spread
from greenroom.season.why import Why
from greenroom.speech import tr

KEY = tr("Band: one in ten to nine in ten. Mark: half. Dots: picks. Blue: first killing nights.")


class AheadCard(Card):
    """Scrolls where there are many; "Pick" takes the chosen line to the form."""

    taken = Signal(object)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Ripe by when"))
        self._bench = bench
        self.setObjectName("ahead")
        self.aside.hide()
        self.head.addStretch(1)
        self.head.addWidget(TableButton(bench, pick_tables.ahead))
        self.axis = AheadAxis(bench.look)
        self.view = AheadView(bench.look)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.area.setWidget(self.view)
        self.words = label("", wrap=True)
        self.words.setObjectName("ahead-words")
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why it is ripe then"))
        self.due = WhyLink(bench, lambda: due_why(self.view.row) if self.view.row else None, tr("why then?"))
        self.due.setAccessibleName(tr("why it is looked over then"))
        self.take = button(tr("Pick it"), self._take, name="pick-it")
        self.none = none_ahead(bench)
        self.legend = label(KEY, "quiet", wrap=True)
        for part in (self.legend, self.none, self.axis, self.words):
            self.body.addWidget(part)
        self.body.insertWidget(self.body.indexOf(self.words), self.area, 1)
        self.body.setStretchFactor(self.none, 1)
        self.body.addLayout(row(self.why, self.due, None, self.take))
        self.view.scaled.connect(lambda scale: self.axis.show_scale(scale, bench.keeper.today))
        self.view.chosen.connect(self._show)
        self.view.taken.connect(self.taken)
        self.view.shown_row.connect(self._scroll_to)

    def show_rows(self, rows: tuple[RipeAhead, ...], frost: Spread | None) -> None:
        """Show the predictions."""
        self.none.setVisible(not rows)
        for part in (self.legend, self.axis, self.area):
            part.setVisible(bool(rows))
        self.view.show_rows(rows, frost, self._bench.keeper.today)

    def _show(self, one: RipeAhead | None) -> None:
        self.words.setText(ahead_words(one) if one is not None else "")
        self.why.setVisible(one is not None and one.days is not None and one.days.killed_on is None)
        self.due.setVisible(one is not None and one.lot is not None and one.due is not None)
        self.take.setVisible(one is not None and one.lot is not None)

    def _why(self) -> Why | None:
        one = self.view.row
        return ahead_why(self._bench.keeper.season, one) if one is not None else None

    def _take(self) -> None:
        if self.view.row is not None:
            self.taken.emit(self.view.row)

    def _scroll_to(self, rect: QRect) -> None:
        middle = rect.center()
        self.area.ensureVisible(middle.x(), middle.y(), 0, rect.height())
