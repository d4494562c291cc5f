"""The rules of the plan, each changed where it stands; a change counts at once."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QDoubleSpinBox, QGridLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.deeds_plan import RULES, set_rules
from greenroom.season.temperatures import from_celsius, to_celsius, unit_sign
from greenroom.speech import tr

SETTLE_MS = 250
CAPTIONS = {
    "odds": tr("Ripe in at least"),
    "confidence": tr("As many plants, sure to"),
    "floor_c": tr("Nights to wait for, at least"),
    "run_nights": tr("Such nights running"),
    "killing_c": tr("A night that ends it, at most"),
    "hardening_days": tr("Days of hardening"),
}
STEPS = {"%": 5.0, "°": 1.0}


class RulesPanel(QWidget):
    """A field a rule; a hand on the arrows is waited for, then all of it is one act."""

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__()
        self._bench = bench
        self._desk = desk
        self._showing = False
        self.fields: dict[str, QDoubleSpinBox] = {}
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(0, 1)
        for place, name in enumerate(RULES):
            field = self._field(name)
            caption = label(CAPTIONS[name], wrap=True)
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(self.write)
        desk.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the rules as they stand."""
        if self._settle.isActive():
            return
        self._showing = True
        rules, unit = self._desk.plan.rules, self._bench.keeper.place.temperature
        for name, field in self.fields.items():
            rule = RULES[name]
            low, high, now = (self._shown(name, one) for one in (rule.least, rule.most, getattr(rules, name)))
            field.setRange(low, high)
            if rule.unit == "°":
                field.setSuffix(f" {unit_sign(unit)}")
            field.setValue(now)
        self._showing = False

    def write(self) -> None:
        """Write what was changed."""
        self._settle.stop()
        rules, keeper = self._desk.plan.rules, self._bench.keeper
        changed = {
            name: self._meant(name, field.value())
            for name, field in self.fields.items()
            if abs(field.value() - round(self._shown(name, getattr(rules, name)), field.decimals())) > 1e-9
        }
        if changed and not keeper.do(lambda: set_rules(keeper.season, keeper.today, **changed)):
            self.refresh()

    def flush(self) -> None:
        """Write what still waits to be written."""
        if self._settle.isActive():
            self.write()

    def _field(self, name: str) -> QDoubleSpinBox:
        made, unit = QDoubleSpinBox(), RULES[name].unit
        made.setObjectName(f"rule-{name}")
        made.setAccessibleName(RULES[name].words)
        made.setDecimals(1 if unit in STEPS else 0)
        made.setSingleStep(STEPS.get(unit, 1.0))
        made.setKeyboardTracking(False)
        made.setFixedWidth(96)
        if unit == "%":
            made.setSuffix(" %")
        made.valueChanged.connect(lambda _value: self._on_change())
        self.fields[name] = made
        return made

    def _on_change(self) -> None:
        if not self._showing:
            self._settle.start()

    def _shown(self, name: str, value: float) -> float:
        unit = RULES[name].unit
        if unit == "%":
            return value * 100
        return from_celsius(value, self._bench.keeper.place.temperature) if unit == "°" else float(value)

    def _meant(self, name: str, value: float) -> float:
        unit = RULES[name].unit
        if unit == "%":
            return round(value / 100, 4)
        return round(to_celsius(value, self._bench.keeper.place.temperature), 2) if unit == "°" else value
