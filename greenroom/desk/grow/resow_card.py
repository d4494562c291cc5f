"""Whether bare cells are worth sowing again, packet by packet, with the reasons."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import Acts
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.units import temperature
from greenroom.season.sprouting import Resow, resow_advice

NEVER = 0.005


class ResowCard(Card):
    """Advice for the tray that is open."""

    def __init__(self, bench: Bench, acts: Acts) -> None:
        super().__init__("Worth sowing again?")
        self._bench = bench
        self._acts = acts
        self._shown: tuple[object, ...] | None = None
        self.setObjectName("resow")
        self.list = QWidget()
        self.list.setObjectName("ground")
        self._list = QVBoxLayout(self.list)
        self._list.setContentsMargins(0, 0, 0, 0)
        self._list.setSpacing(GAP + 4)
        self.scroller = QScrollArea()
        self.scroller.setWidgetResizable(True)
        self.scroller.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.scroller.setFrameShape(QFrame.Shape.NoFrame)
        self.scroller.setAccessibleName("What is worth sowing again")
        self.scroller.setWidget(self.list)
        self.body.addWidget(self.scroller, 1)

    def show_holder(self, holder: str | None) -> None:
        """Show the advice for a holder."""
        unit = self._bench.keeper.place.temperature
        advice = self._advice(holder, unit)
        nothing = self._nothing(holder) if not advice else ""
        shown = (
            holder,
            unit,
            nothing,
            *((one.packet, one.cells, one.day, one.chance, one.seeds) for one in advice),
        )
        if shown == self._shown:
            return
        self._shown = shown
        self._clear()
        for one in advice:
            self._list.addWidget(ResowLine(self._bench, self._acts, one))
        if nothing:
            self._list.addWidget(label(nothing, "quiet", wrap=True))
        self._list.addStretch(1)

    def _advice(self, holder: str | None, unit: str) -> list[Resow]:
        if holder is None:
            return []
        keeper = self._bench.keeper
        return resow_advice(keeper.season, holder, keeper.today, lambda celsius: temperature(celsius, unit))

    def _nothing(self, holder: str | None) -> str:
        """Return why there is no advice."""
        if holder is None:
            return "Open a tray to see which bare cells are worth sowing again."
        season = self._bench.keeper.season
        bare = sum(spot.waiting > 0 and spot.up == 0 for spot in season.spots(holder))
        if bare == 0:
            return "No sown cell is waiting here."
        made = season.holder(holder)
        if made.mix_c is None:
            return (
                f"{_cells(bare)} waiting. Give the temperature of the mix of {made.name} (Edit) to see "
                "what to expect of them."
            )
        return f"{_cells(bare)} waiting. No days to emerge are known for this crop in such a mix."

    def _clear(self) -> None:
        while (item := self._list.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()


class ResowLine(QWidget):
    """The advice on one packet."""

    def __init__(self, bench: Bench, acts: Acts, advice: Resow) -> None:
        super().__init__()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addWidget(label(advice.name, "strong", wrap=True))
        layout.addWidget(label(advice_words(advice), wrap=True))
        why = WhyLink(bench, lambda: advice.why, "why?")
        seeds = max(advice.seeds, len(advice.cells))
        self.sow = button(
            f"Sow {seeds} more",
            lambda: acts.sow_again(advice),
            "primary" if advice.worth_it else "",
            name="sow-again",
        )
        self.sow.setToolTip(f"{_seeds(seeds)} into the {_cells(len(advice.cells))}")
        layout.addLayout(row(self.sow, why, None))


def advice_words(advice: Resow) -> str:
    """Return the advice in a sentence or two."""
    some = len(advice.cells) > 1
    bare = f"{_cells(len(advice.cells))} still bare on day {advice.day}"
    still = f"{bare}; half should be up by day {advice.expected_days:.0f}."
    which = f"any of the {len(advice.cells)}" if some else "it"
    chance = "less than 1 %" if advice.chance < NEVER else f"{advice.chance * 100:.0f} %"
    end = "Sow again." if advice.worth_it else "Wait a little."
    words = f"{still} Chance that {which} still comes up: {chance}. {end}"
    return words.replace(" %", "\N{NO-BREAK SPACE}%")


def _cells(number: int) -> str:
    return "1 cell" if number == 1 else f"{number} cells"


def _seeds(number: int) -> str:
    return "1 seed" if number == 1 else f"{number} seeds"
