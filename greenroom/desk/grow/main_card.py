"""The open tray and what belongs to it: head, acts, questions in line, cells, a line of words."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal

from greenroom.desk.bench import Bench
from greenroom.desk.elided import Elided
from greenroom.desk.grow.acts import Acts
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_head import HolderEdit, HolderHead
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.mark_bar import EarlierNotice, LossRow, MarkBar
from greenroom.desk.grow.scroll import CellScroll
from greenroom.desk.on_day import OnDay
from greenroom.desk.parts import Card, button, row
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.story import glance_words
from greenroom.speech import tr, trn

HINT = tr("Click what came up, again to take it back; drag to a pot; keys work too")


class MainCard(Card):
    """Shows one holder; the acts of the bar go to whichever view was used last."""

    story_asked = Signal(object)
    photo_asked = Signal()

    def __init__(self, bench: Bench, acts: Acts, hand: Hand, view: HolderView, seen_on: OnDay) -> None:
        super().__init__()
        self._bench = bench
        self._acts = acts
        self._hand = hand
        self.view = view
        self.asked: HolderView = view  # the view that the acts and questions are about
        self.setObjectName("open-holder")
        self.aside.hide()
        self.headline = HolderHead(bench)
        self.head.addWidget(self.headline, 1)
        self.bar = MarkBar(seen_on)
        self.notice = EarlierNotice(bench, seen_on)
        self.edit = HolderEdit(bench, acts)
        self.loss = LossRow()
        self.scroller = CellScroll(view)
        self.foot = Elided(bench.look, lines=2)
        for widget in (self.bar, self.notice, self.edit, self.loss):
            self.body.addWidget(widget)
        self.body.addWidget(self.scroller, 1)
        self.photo = button(tr("Read from a photo…"), self.photo_asked.emit, "link", name="photo-of-holder")
        self.photo.setToolTip(tr("See in a photo of the tray what came up, and keep how green each cell is"))
        foot = row(self.foot, self.photo, TableButton(bench, lambda one: sources.cells(one, self._open_key)))
        foot.setStretch(0, 1)
        self.body.addLayout(foot)
        self._connect()

    @property
    def _open_key(self) -> str | None:
        return self.view.holder_key

    def show_holder(self, key: str | None) -> None:
        """Show another holder, or the same anew."""
        self.edit.commit()
        self.loss.hide()
        self.view.show_holder(key)
        self.scroller.updateGeometry()
        self.refresh()

    def refresh(self) -> None:
        """Count anew and say what there is to say."""
        holder = self.view.holder
        season = self._bench.keeper.season
        if holder is None:
            self.headline.show_holder(None, None)
        else:
            self.headline.show_holder(season.holder(holder.key), season.counts(holder.key))
        self.refresh_foot()

    def refresh_foot(self) -> None:
        """Say what is in hand, else what the current cell holds."""
        if self._hand.active:
            bad = self._hand.target is not None and not self._hand.takes
            self.foot.show_text(self._hand.words(), "clay_text" if bad else "leaf_text")
            return
        key = self.view.current
        chosen = len(self.view.choice.chosen)
        words = glance_words(self._bench.keeper.season, key) if key is not None else HINT
        self.foot.show_text(
            f"{trn('{n} cell chosen', '{n} cells chosen', chosen)} · {words}" if chosen > 1 else words,
            "quiet",
        )

    def use(self, view: HolderView) -> None:
        """Let the acts of the bar be about a view."""
        self.asked = view
        self.bar.set_open(bool(view.choice.targets) and not self._hand.active)

    def ask_loss(self) -> None:
        """Ask what took the chosen cells."""
        keys = self.asked.targets
        season = self._bench.keeper.season
        held = [key for key in keys if not season.spot(key).free]
        if not held:
            self._acts.lost(keys, "")  # refused, with the reason
            return
        self.edit.commit()
        self.loss.ask(len(held), waiting=all(season.spot(key).up == 0 for key in held))

    def _connect(self) -> None:
        self.headline.edit_asked.connect(self._edit)
        self.edit.closed.connect(self._to_cells)
        self.loss.confirmed.connect(self._lost)
        self.loss.cancelled.connect(self._drop_loss)
        self.bar.up_asked.connect(lambda: self._acts.mark(self.asked.targets))
        self.bar.loss_asked.connect(self.ask_loss)
        self.bar.leaves_asked.connect(lambda number: self._acts.leaves(self.asked.targets, number))
        self.bar.lift_asked.connect(lambda: self._hand.lift(self.asked.targets, by_keys=True))
        self.bar.story_asked.connect(lambda: self.story_asked.emit(self.asked.current))
        self._hand.changed.connect(self._on_hand)
        self.view.current_changed.connect(self.refresh_foot)
        self.use(self.view)

    def _edit(self) -> None:
        if self.edit.isVisible():
            self.edit.commit()
        elif self.view.holder is not None:
            self.loss.hide()
            self.edit.open_for(self._bench.keeper.season.holder(self.view.holder.key))

    def _lost(self, cause: str) -> None:
        keys = self.asked.targets
        self._drop_loss()
        if keys:
            self._acts.lost(keys, cause)

    def _drop_loss(self) -> None:
        self.loss.hide()
        self.asked.setFocus(Qt.FocusReason.OtherFocusReason)

    def _to_cells(self) -> None:
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def _on_hand(self) -> None:
        self.refresh_foot()
        self.use(self.asked)
