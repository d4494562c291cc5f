"""Kept in: a day spent indoors on purpose, why, and what it does to the plan."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox

from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import InlinePanel, form, left
from greenroom.desk.parts import label
from greenroom.season.deeds_harden import keep_in
from greenroom.season.hardening import todays_verdict
from greenroom.season.hardening_why import ready_why
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.reasons import reason_words
from greenroom.season.setback_preview import preview
from greenroom.speech import tr

REASONS = ("too cold", "wind", "heavy rain", "nobody at home", "plants are tired")


class KeptInPanel(InlinePanel):
    """Asks why; the weather's own reasons come first."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench, tr("&Confirm kept in"), self._proposal)
        self._bench = bench
        self._holder = ""
        self._shown: dict[str, str] = {}
        self.reason = QComboBox()
        self.reason.setEditable(True)
        self.reason.setMinimumWidth(220)
        self.reason.setObjectName("reason")
        fields = form()
        fields.addRow(tr("B&ecause of"), left(self.reason))
        self.reason.setAccessibleName(tr("Because of"))
        self.body.addWidget(
            label(
                tr(
                    "A first day in keeps the step. Each further day in running takes one step off: "
                    "plants lose what they have gained. Shade outdoors, even for an hour, ends the run "
                    "of days in."
                ),
                wrap=True,
            )
        )
        self.body.addLayout(fields)

    def open_for(self, holder: str) -> None:
        """Ask why a holder stays in today."""
        keeper = self._bench.keeper
        self._holder = holder
        self.heading.setText(tr("Kept in today?"))
        said = todays_verdict(
            keeper.season, keeper.today, rules_of_holder(keeper.season, self._holder).limits
        )
        self.reason.clear()
        self._shown = {reason_words(one): one for one in (*(said[1] if said else ()), *REASONS)}
        self.reason.addItems(list(self._shown))
        if said is None or said[0] == "out":
            self.reason.setCurrentText("")
        self.refresh()
        self.reason.setFocus()

    def refresh(self) -> None:
        """Work out anew what confirming would do."""
        keeper = self._bench.keeper
        try:
            proposal = self._proposal()
        except RefusedError as error:
            self.foresee([str(error)], sound=False)
            return
        found = preview(keeper.season, self._holder, proposal, keeper.today, keeper.now)
        self.foresee(list(found.lines), sound=True, why=ready_why(found.after))

    def _proposal(self) -> Proposal:
        keeper = self._bench.keeper
        written = self.reason.currentText()
        return keep_in(keeper.season, self._holder, keeper.today, self._shown.get(written, written))
