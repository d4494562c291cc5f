"""The gate: nights, soil and hardening of what stands in a rack, each with its reason."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QDoubleSpinBox, QGridLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, button, label, restyle, row
from greenroom.season.hardening_words import day_words
from greenroom.season.set_out import Gate
from greenroom.season.set_out_why import Check
from greenroom.season.temperatures import from_celsius, to_celsius, unit_sign
from greenroom.speech import tr

SIGNS = {"open": "✓", "wait": "✗", "unknown": "?"}
SPOKEN = {
    "open": tr("open", sense="the gate"),
    "wait": tr("wait", sense="the gate"),
    "unknown": tr("not known"),
}
ROLES = {"open": "good", "wait": "alert", "unknown": "quiet"}
COLDEST_C, WARMEST_C = -10.0, 45.0
USUAL_SOIL_C = 14.0
SIGN_PX = 14
TOP = Qt.AlignmentFlag.AlignTop


class CheckRow:
    """One thing the gate asks: its sign, its words and why."""

    def __init__(self, bench: Bench, why: str) -> None:
        self._check: Check | None = None
        self.sign = label("", "quiet")
        self.sign.setFixedWidth(SIGN_PX)
        self.words = label("", wrap=True)
        self.why = WhyLink(bench, lambda: self._check.why if self._check else None)
        self.why.setAccessibleName(why)
        self.parts = (self.sign, self.words, self.why)

    def hide(self) -> None:
        """Show nothing."""
        for part in self.parts:
            part.hide()

    def show_check(self, check: Check) -> None:
        """Show one check."""
        self._check = check
        self.sign.show()
        self.words.show()
        self.sign.setText(SIGNS[check.state])
        restyle(self.sign, "role", ROLES[check.state])
        self.sign.setAccessibleName(SPOKEN[check.state])
        self.words.setText(tr("{name}: {what}", name=check.name, what=check.words))
        spoken = tr("{name}: {what}", name=SPOKEN[check.state], what=self.words.text())
        self.words.setAccessibleName(spoken)
        self.why.setVisible(check.why is not None)


class GateCard(Card):
    """What the gate says of the rack that is open beside the plan."""

    soil_felt = Signal(float)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("The gate"))
        self._bench = bench
        self.setObjectName("gate")
        self.aside.hide()
        self.said = label("", "strong", wrap=True)
        self.said.setObjectName("gate-said")
        self.rows = [CheckRow(bench, why) for why in (tr("why nights"), tr("why soil"), tr("why hardened"))]
        self.soil = QDoubleSpinBox()
        self.soil.setObjectName("soil")
        self.soil.setDecimals(1)
        self.soil.setMinimumWidth(72)
        self.soil.setAccessibleName(tr("soil temperature measured now"))
        self.soil.setToolTip(tr("8 to 10 cm deep, early in the morning"))
        self.note = button(tr("Note", sense="to write down"), self._note, name="note-soil")
        self.note.setAccessibleName(tr("note the soil temperature"))
        self.note.setProperty("tight", "yes")
        words = label(tr("Soil now"), "quiet")
        words.setBuddy(self.soil)
        self.body.addWidget(self.said)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP // 2)
        grid.setVerticalSpacing(GAP // 2)
        grid.setColumnStretch(1, 1)
        for line, one in enumerate(self.rows):
            for place, part in enumerate(one.parts):
                grid.addWidget(part, line, place, Qt.AlignmentFlag(0) if place == 1 else TOP)
        self.body.addLayout(grid)
        self.body.addLayout(row(words, self.soil, self.note, None, gap=GAP - 2))

    def show_gate(self, gate: Gate | None) -> None:
        """Show the gate of a rack, or that there is none."""
        self._set_unit()
        for place, one in enumerate(self.rows):
            if gate is not None:
                one.show_check(gate.checks[place])
            else:
                one.hide()
        self.said.setText(gate_words(gate))
        restyle(self.said, "role", "good" if gate is not None and gate.open else "strong")

    def _set_unit(self) -> None:
        unit = self._bench.keeper.place.temperature
        sign = f" {unit_sign(unit)}"
        if self.soil.suffix() != sign:
            self.soil.setRange(from_celsius(COLDEST_C, unit), from_celsius(WARMEST_C, unit))
            self.soil.setSuffix(sign)
            self.soil.setValue(from_celsius(USUAL_SOIL_C, unit))

    def _note(self) -> None:
        unit = self._bench.keeper.place.temperature
        self.soil_felt.emit(round(to_celsius(self.soil.value(), unit), 2))


def shut_words(gate: Gate | None) -> str:
    """Return what keeps a gate shut, in a few words; empty if it is open."""
    if gate is None or gate.open:
        return ""
    names = (tr("nights"), tr("soil"), tr("hardened"))
    waits = [name for name, check in zip(names, gate.checks, strict=True) if check.state == "wait"]
    return (
        tr("The gate says wait: {checks}", checks=", ".join(waits))
        if waits
        else tr("The gate cannot tell yet")
    )


def gate_words(gate: Gate | None) -> str:
    """Return what the gate says, in one line."""
    if gate is None:
        return tr("Nothing that is raised stands in a rack or tray.")
    if gate.open:
        return tr("{name}: open. Set out now.", name=gate.name)
    if gate.opens_on is None:
        return tr("{name}: wait; the day cannot be told yet.", name=gate.name)
    if gate.opens_on == gate.today:
        return tr("{name}: wait.", name=gate.name)
    return tr("{name}: from {day}", name=gate.name, day=day_words(gate.opens_on))
