"""The care of one holder, behind tabs, and the place on a page where it comes to the front."""

from __future__ import annotations

from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.faces import FACES
from greenroom.desk.care.part import CarePart
from greenroom.desk.elided import Elided
from greenroom.desk.grow.holder_head import holder_words
from greenroom.desk.look import GAP
from greenroom.desk.on_day import OnDay
from greenroom.desk.parts import button, label, row
from greenroom.desk.shortcuts import CARE
from greenroom.desk.tabs import Tab, Tabs
from greenroom.season.state import Touched
from greenroom.speech import tr


class CareView(QWidget):
    """The head names the holder; a tab each for what is done for it."""

    closed = Signal()

    def __init__(self, bench: Bench, back: str) -> None:
        super().__init__()
        self._bench = bench
        self.holder: str | None = None
        self.setObjectName("care")
        self.done_on = OnDay(bench, tr("done on"), tr("The day that what you did is written for"), "done-on")
        self.title = label("", "title")
        self.about = Elided(bench.look)
        self.back = button(back, self.closed.emit, name="care-close")
        self.back.setToolTip(tr("Escape does the same"))
        tabs = {
            key: Tab(face.words, partial(face.make, bench, lambda: self.done_on.day))
            for key, face in FACES.items()
        }
        self.tabs = Tabs(bench.look, tr("care"), tabs)
        self.tabs.shown.connect(lambda _key: self.refresh())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        head = row(self.title, gap=GAP + 4)
        head.addWidget(self.about, 1)
        head.addWidget(self.back)
        layout.addLayout(head)
        layout.addLayout(row(self.tabs.bar, None, self.done_on))
        layout.addWidget(self.tabs, 1)
        self.done_on.changed.connect(self.refresh)

    @property
    def part(self) -> CarePart:
        """What stands behind the tab in front."""
        made = self.tabs.part(self.tabs.current)
        if not isinstance(made, CarePart):
            raise TypeError(f"the tab {self.tabs.current} is no part of care")
        return made

    @property
    def in_use(self) -> bool:
        """Whether the holder is still in use."""
        return any(one.key == self.holder for one in self._bench.keeper.season.holders())

    def open_for(self, holder: str, tab: str | None = None) -> None:
        """Show the care of a holder, at a tab or at the one in front."""
        if holder != self.holder:
            self.commit()
            self.holder = holder
        self.tabs.open_tab(tab or self.tabs.current)

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        if self.holder in touched.holders:
            self._show_head()
        if self.holder is not None:
            self.part.take(touched)

    def refresh(self) -> None:
        """Show the tab in front anew; of a holder that is not in use any more nothing changes."""
        if self.holder is not None and self.in_use:
            self._show_head()
            self.part.show_holder(self.holder)

    def commit(self) -> None:
        """Write what is being edited."""
        if self.holder is not None:
            self.part.commit()

    def closing(self) -> None:
        """Stop what still runs."""
        self.tabs.closing()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def _show_head(self) -> None:
        keeper = self._bench.keeper
        if self.holder is None:
            return
        made, counts = keeper.season.holder(self.holder), keeper.season.counts(self.holder)
        self.title.setText(tr("Care of {name}", name=made.name))
        self.about.show_text(holder_words(made, counts, keeper.place.temperature, keeper.place.volume))
        self.setAccessibleName(tr("Care of {name}", name=made.name))


class CareStack(QStackedWidget):
    """The page's own work, or in its place the care of a holder; that is made when it is first opened.

    ``asked`` is emitted when the key for care is pressed on the page; the page says for which holder.
    """

    asked = Signal()
    closed = Signal()

    def __init__(self, bench: Bench, work: QWidget, page: QWidget, back: str) -> None:
        super().__init__()
        self._bench = bench
        self._work = work
        self._back = back
        self.view: CareView | None = None
        self.addWidget(work)
        key = QShortcut(QKeySequence(CARE[0].keys[0]), page)
        key.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        key.activated.connect(self.asked.emit)

    @property
    def open_holder(self) -> str | None:
        """The holder whose care is shown, or None while the page's own work is."""
        return self.view.holder if self.view is not None and self.currentWidget() is self.view else None

    def open_care(self, holder: str, tab: str | None = None) -> None:
        """Show the care of a holder in place of the page's own work."""
        if self.view is None:
            self.view = CareView(self._bench, self._back)
            self.view.closed.connect(self.close_care)
            self.addWidget(self.view)
        self.setCurrentWidget(self.view)
        self.view.open_for(holder, tab)
        self.view.tabs.bar.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_care(self) -> None:
        """Go back to the page's own work."""
        if self.open_holder is None or self.view is None:
            return
        self.view.commit()
        self.view.done_on.back_to_today()
        self.setCurrentWidget(self._work)
        self.closed.emit()

    def take(self, touched: Touched) -> None:
        """Show what a change touched, or close when the holder was put away."""
        holder = self.open_holder
        if holder is None or self.view is None:
            return
        if holder in touched.holders and not self.view.in_use:
            self.close_care()
        else:
            self.view.take(touched)

    def entered(self) -> None:
        """Show what changed while the page was hidden."""
        holder = self.open_holder
        if holder is not None and self.view is not None:
            if self.view.in_use:
                self.view.refresh()
            else:
                self.close_care()

    def tick(self) -> None:
        """Go on to a new day at midnight."""
        if self.view is not None and self.view.done_on.follow_today() and self.open_holder is not None:
            self.view.refresh()

    def leave(self) -> None:
        """Write what is being edited."""
        if self.view is not None:
            self.view.commit()
            self.view.done_on.back_to_today()

    def closing(self) -> None:
        """Stop what still runs."""
        if self.view is not None:
            self.view.closing()
