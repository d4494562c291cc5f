"""The Sow page: the plan, the trays to fill, and light and warmth, one of them at a time."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QButtonGroup, QPushButton, QStackedWidget, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.paper.errand import TAGS, Errand
from greenroom.desk.paper.way import paper_button
from greenroom.desk.parts import button, row
from greenroom.desk.sow.filling import Filling
from greenroom.desk.sow.layout_view import LayoutView
from greenroom.desk.sow.light_view import LightView
from greenroom.desk.sow.page_style import page_style
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.plan_view import PlanView
from greenroom.season.state import Touched
from greenroom.speech import tr

VIEWS = {"plan": tr("Plan"), "trays": tr("Fill trays"), "light": tr("Light and warmth")}


class SowPage(Page):
    """Holds the views and the switch between them; each looks after itself."""

    key = "sow"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.desk = PlanDesk(bench, self)
        self.plan = PlanView(bench, self.desk)
        self.filling = Filling(bench)
        self.layout_view = LayoutView(bench, self.desk)
        self.light = LightView(bench, self.desk)
        self.stack = QStackedWidget()
        self._views = {
            "plan": self.plan,
            "trays": self.filling,
            "layout": self.layout_view,
            "light": self.light,
        }
        for view in self._views.values():
            self.stack.addWidget(view)
        self.switch = QButtonGroup(self)
        self.switches = {key: self._switch(key, words) for key, words in VIEWS.items()}
        self.lay_out_button = button(tr("Lay out from the plan"), self.lay_out, name="lay-out")
        self._assemble()
        self.layout_view.closed.connect(self._after_layout)
        self.plan.lay_out_asked.connect(self.lay_out)
        self.light.mat.plan_asked.connect(lambda: self.show_view("plan"))
        bench.look.changed.connect(self._dress)
        self._dress()
        self.show_view("plan")

    @property
    def view(self) -> str:
        """Which view is in front: "plan", "trays", "layout" or "light"."""
        return next(key for key, one in self._views.items() if one is self.stack.currentWidget())

    def show_view(self, key: str) -> None:
        """Bring a view to the front; what is being edited in the one before is written first."""
        before = self.stack.currentWidget()
        if isinstance(before, Page) and before is not self._views[key]:
            before.leave()
        self.switches["trays" if key == "layout" else key].setChecked(True)
        self.lay_out_button.setVisible(key == "trays")
        self.stack.setCurrentWidget(self._views[key])
        if self.isVisible():
            self._views[key].entered()

    def lay_out(self) -> None:
        """Propose trays for what the plan still has to be sown."""
        if self.layout_view.propose():
            self.show_view("layout")

    def take(self, touched: Touched) -> None:
        self.desk.take(touched)
        for view in self._views.values():
            view.take(touched)

    def tick(self, now: datetime) -> None:
        self.filling.tick(now)
        if now.second == 0:
            self.desk.follow_today()

    def entered(self) -> None:
        self._views[self.view].entered()

    def leave(self) -> None:
        for view in self._views.values():
            view.leave()

    def closing(self) -> None:
        for view in self._views.values():
            view.closing()

    def _after_layout(self, holder: str) -> None:
        self.show_view("trays")
        if holder:
            self.filling.open_holder(holder)

    def _switch(self, key: str, words: str) -> QPushButton:
        made = QPushButton(words)
        made.setCheckable(True)
        made.setAutoDefault(False)
        made.setObjectName(f"view-{key}")
        made.clicked.connect(lambda _checked=False: self.show_view(key))
        self.switch.addButton(made)
        return made

    def _assemble(self) -> None:
        paper = paper_button(self.bench, lambda: Errand(TAGS, self.filling.holder_key, self.key))
        line = row(*self.switches.values(), None, self.lay_out_button, paper, gap=6)
        line.setContentsMargins(PAGE_MARGIN, GAP, PAGE_MARGIN, 0)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        down.addLayout(line)
        down.addWidget(self.stack, 1)
        for one in self.switches.values():
            one.setFocusPolicy(Qt.FocusPolicy.TabFocus)

    def _dress(self) -> None:
        self.setStyleSheet(page_style(self.bench.look))
