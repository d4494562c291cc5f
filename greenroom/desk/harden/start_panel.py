"""Begin hardening: which trays and racks, from which day, on which ramp."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDateEdit, QListWidget, QListWidgetItem, QSpinBox, QWidget

from greenroom.agronomy.hardening import Ramp
from greenroom.desk.bench import Bench
from greenroom.desk.days import day_in, qt_day
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.parts import button, label, row
from greenroom.season.deeds_harden import ramp_of, start_all
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_why import ramp_why
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.ramp_rules import RampRules, careful, rules_of, rules_of_holder
from greenroom.season.two_clocks import plan_of
from greenroom.season.why import Why
from greenroom.speech import many, tr

DEFAULT = Ramp()
ABOUT = tr(
    "Hardening gets plants used to sun and wind over one to two weeks. The minutes here "
    "are minutes in direct sun; published schedules that begin with one to four hours "
    "begin in shade, and shade is counted apart."
)
NOTHING_UP = tr(
    "Nothing can be hardened yet: no tray or rack that holds a seedling waits for it. "
    "Mark what is up on Grow on, and come back when the plants have a few true leaves."
)
LIST_PX = 112
LINE_PX = 26


class StartPanel(InlinePanel):
    """Several holders may begin on one ramp, as one act."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Begin hardening"), self._proposal)
        self._bench = bench
        self.holders = QListWidget()
        self.holders.setMaximumHeight(LIST_PX)
        self.holders.setAccessibleName(tr("trays and racks to harden"))
        self.day = _day_field()
        self.first = _minutes_field("first-minutes", int(DEFAULT.start_minutes), 5, 240)
        self.last = _minutes_field("last-minutes", int(DEFAULT.full_minutes), 30, 960)
        self.outings = _minutes_field("outings", DEFAULT.outings, 7, 21, suffix="")
        self.nothing = label(NOTHING_UP, wrap=True)
        self.to_grow = button(tr("Go to G&row on"), lambda: bench.show_page("grow"), name="to-grow")
        self.about = label(ABOUT, "quiet", wrap=True)
        fields = form()
        fields.addRow(tr("&Tray or rack"), self.holders)
        fields.addRow(tr("&First day"), left(self.day))
        fields.addRow(tr("First &outing"), left(self.first))
        fields.addRow(tr("&Last outing"), left(self.last))
        fields.addRow(tr("&How many outings"), left(self.outings))
        for field, words in (
            (self.day, tr("First day")),
            (self.first, tr("Minutes of the first outing")),
            (self.last, tr("Minutes of the last outing")),
            (self.outings, tr("Outings")),
        ):
            field.setAccessibleName(words)
        self._form = QWidget()
        self._form.setLayout(fields)
        self.body.addWidget(self.about)
        self.body.addWidget(self.nothing)
        self.body.addLayout(row(self.to_grow, None))
        self.body.addWidget(self._form)
        self.heading.hide()
        self._own_ramp = False
        self.holders.itemChanged.connect(lambda _: self._chose())
        self.day.dateChanged.connect(lambda _: self.refresh())
        for field in (self.first, self.last, self.outings):
            field.valueChanged.connect(lambda _: self._typed())

    @property
    def candidates(self) -> list[str]:
        """The holders that hold a seedling and are not on a ramp."""
        season = self._bench.keeper.season
        return [
            one.key
            for one in season.holders()
            if one.form != "bed"
            and hardening_since(season, one.key) is None
            and season.counts(one.key).living > 0
        ]

    def open(self) -> None:
        """Offer what can be hardened; one alone is chosen already."""
        keeper = self._bench.keeper
        self.day.setMaximumDate(qt_day(keeper.today))
        self.day.setDate(qt_day(keeper.today))
        self._offer(self.candidates)
        self._own_ramp = False
        self._chose()
        (self.holders if self.holders.count() else self.to_grow).setFocus()

    def refresh(self) -> None:
        """Show the minutes of the ramp and when it would be walked."""
        try:
            words = self._ramp_words()
            proposal = self._proposal() if self._chosen() else None
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        if not self.holders.count():
            self.foresee([], sound=False)
        elif proposal is None:
            self.foresee([tr("Choose what to harden."), words], sound=True, why=self._ramp_why())
            self.confirm.setEnabled(False)
        else:
            begun = tr("{holders} on this ramp.", holders=many(len(proposal.record), "holder"))
            self.foresee([begun, words], sound=True, why=self._ramp_why())

    def _chose(self) -> None:
        """Propose the ramp of what is chosen, unless the grower has typed another."""
        if not self._own_ramp:
            ramp = self._rules().ramp
            told = ((self.first, ramp.start_minutes), (self.last, ramp.full_minutes))
            for field, value in (*told, (self.outings, ramp.outings)):
                field.blockSignals(True)
                field.setValue(round(value))
                field.blockSignals(False)
        self.refresh()

    def _typed(self) -> None:
        self._own_ramp = True
        self.refresh()

    def _ramp_words(self) -> str:
        minutes = ", ".join(str(dose) for dose in self._ramp().doses)
        shade = plan_of(self._rules(), self._ramp(), self._day())[0].shade_minutes
        ready = day_words(self._ready_on())
        words = tr(
            "{minutes} minutes of sun; ready {day} if each day goes as planned.", minutes=minutes, day=ready
        )
        beside = tr("The first day {minutes} minutes of shade beside.", minutes=shade)
        return f"{words} {beside}" if shade else words

    def _ramp_why(self) -> Why:
        return ramp_why(self._ramp(), self._day(), self._ready_on())

    def _ready_on(self) -> date:
        return plan_of(self._rules(), self._ramp(), self._day())[-1].date

    def _rules(self) -> RampRules:
        """Return the rules of what is chosen, or offered while nothing is."""
        season = self._bench.keeper.season
        keys = self._chosen() or self.candidates
        return careful([rules_of_holder(season, key) for key in keys] or [rules_of(season, None)])

    def _offer(self, keys: list[str]) -> None:
        season = self._bench.keeper.season
        self.holders.blockSignals(True)
        self.holders.clear()
        for key in keys:
            seedlings = many(season.counts(key).seedlings, "seedling")
            item = QListWidgetItem(f"{season.holder(key).name}, {seedlings}", self.holders)
            item.setData(Qt.ItemDataRole.UserRole, key)
            item.setSizeHint(QSize(0, LINE_PX))
            item.setFlags(
                Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsUserCheckable | Qt.ItemFlag.ItemIsSelectable
            )
            item.setCheckState(Qt.CheckState.Checked if len(keys) == 1 else Qt.CheckState.Unchecked)
        self.holders.blockSignals(False)
        self.holders.setCurrentRow(0)
        some = bool(keys)
        self._form.setVisible(some)
        self.about.setVisible(some)
        self.nothing.setVisible(not some)
        self.to_grow.setVisible(not some)
        self.confirm.setVisible(some)

    def _chosen(self) -> list[str]:
        items = [self.holders.item(place) for place in range(self.holders.count())]
        return [
            item.data(Qt.ItemDataRole.UserRole)
            for item in items
            if item.checkState() == Qt.CheckState.Checked
        ]

    def _day(self) -> date:
        return day_in(self.day)

    def _ramp(self) -> Ramp:
        return ramp_of(self.first.value(), self.last.value(), self.outings.value())

    def _proposal(self) -> Proposal:
        return start_all(self._bench.keeper.season, self._chosen(), self._day(), self._ramp())


def _day_field() -> QDateEdit:
    made = QDateEdit()
    made.setDisplayFormat(tr("d MMMM yyyy", sense="form of a date"))
    made.setObjectName("first-day")
    return made


def _minutes_field(
    name: str, value: int, least: int, most: int, suffix: str = tr(" minutes of sun")
) -> QSpinBox:
    made = QSpinBox()
    made.setRange(least, most)
    made.setValue(value)
    made.setSuffix(suffix)
    made.setSingleStep(5 if suffix else 1)
    made.setObjectName(name)
    return made
