"""Choosing what to grow: varieties of the seed box that are not on the plan yet."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QAbstractItemView, QLineEdit, QListWidget, QListWidgetItem, QSpinBox, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.parts import button, column, label
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.ledger.facts import Variety
from greenroom.season.crops import crop_words
from greenroom.season.deeds_plan import MOST_PLANTS, want_each
from greenroom.season.packets import folded
from greenroom.speech import tr, trn

USUAL_PLANTS = 6
PUT_ON = tr("Put on the plan")
ALL_WANTED = tr("Every variety of the seed box is on the plan.")
KEY = Qt.ItemDataRole.UserRole + 1


class WantPanel(QWidget):
    """Ticked varieties come on the plan, all in one act."""

    done = Signal()

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__()
        self._bench = bench
        self._desk = desk
        self.known = False  # whether there is a variety to choose
        self.filter = QLineEdit()
        self.filter.setPlaceholderText(tr("filter varieties"))
        self.filter.setAccessibleName(tr("Filter varieties"))
        self.filter.setClearButtonEnabled(True)
        self.list = QListWidget()
        self.list.setObjectName("wants")
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.list.setAccessibleName(tr("Varieties of the seed box"))
        self.list.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.plants = QSpinBox()
        self.plants.setRange(1, MOST_PLANTS)
        self.plants.setValue(USUAL_PLANTS)
        self.plants.setSuffix(tr(" of each"))
        self.plants.setAccessibleName(tr("Plants of each"))
        self.nothing = label("", "quiet", wrap=True)
        self.want = button(PUT_ON, self.take, "primary", name="want")
        whole = column(self.filter, self.nothing, self.list)
        whole.setStretchFactor(self.list, 1)
        whole.addWidget(Flow(self.plants, self.want))
        self.setLayout(whole)
        self.filter.textChanged.connect(self._narrow)
        self.list.itemChanged.connect(lambda _item: self._count())
        desk.changed.connect(self.refresh)
        self.refresh()

    @property
    def ticked(self) -> list[str]:
        """The varieties that are ticked."""
        items = [self.list.item(place) for place in range(self.list.count())]
        return [str(one.data(KEY)) for one in items if one.checkState() == Qt.CheckState.Checked]

    def refresh(self) -> None:
        """List the varieties that are not wanted yet; what is ticked stays so."""
        season, ticked = self._bench.keeper.season, set(self.ticked)
        wanted = {one.variety for one in self._desk.plan.rows}
        known = {fact.variety: fact for fact in season.facts(Variety)}
        left = [fact for key, fact in known.items() if key not in wanted]
        self.list.clear()
        for fact in sorted(left, key=lambda fact: folded(fact.name)):
            item = QListWidgetItem(f"{fact.name}  ·  {crop_words(self._bench.guide, fact.crop)}")
            item.setData(KEY, fact.variety)
            checked = Qt.CheckState.Checked if fact.variety in ticked else Qt.CheckState.Unchecked
            item.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsUserCheckable
            )
            item.setCheckState(checked)
            self.list.addItem(item)
        self.known = bool(known)
        self.nothing.setText(ALL_WANTED if known else "")
        for part, shown in ((self.nothing, not left), (self.list, bool(left))):
            part.setVisible(shown)
        for field in (self.filter, self.plants, self.want):
            field.setVisible(bool(left))
        self._narrow(self.filter.text())
        self._count()

    def take(self) -> None:
        """Put what is ticked on the plan."""
        keeper, year, plants = self._bench.keeper, self._desk.year, self.plants.value()
        wanted = dict.fromkeys(self.ticked, plants)
        if keeper.do(lambda: want_each(keeper.season, wanted, year, keeper.today)):
            self.done.emit()

    def _narrow(self, text: str) -> None:
        words = folded(text).split()
        for place in range(self.list.count()):
            item = self.list.item(place)
            item.setHidden(not all(word in folded(item.text()) for word in words))

    def _count(self) -> None:
        number = len(self.ticked)
        self.want.setText(trn("Put 1 on the plan", "Put {n} on the plan", number) if number else PUT_ON)
        self.want.setEnabled(number > 0)
