"""Whether bare cells are worth sowing again, packet by packet, with the reasons."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import Acts
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import WORKING_OUT
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.season.resow import Resow, resow_advice
from greenroom.season.temperatures import said_at
from greenroom.speech import many, tr, trn

NEVER = 0.005


class ResowCard(Card):
    """Advice for the tray that is open."""

    def __init__(self, bench: Bench, acts: Acts) -> None:
        super().__init__(tr("Worth sowing again?"))
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
        self.scroller.setAccessibleName(tr("What is worth sowing again"))
        self._list.addWidget(label(WORKING_OUT, "quiet"))
        self._list.addStretch(1)
        self.scroller.setWidget(self.list)
        self.body.addWidget(self.scroller, 1)

    def show_holder(self, holder: str | None) -> None:
        """Show the advice for a holder."""
        unit = self._bench.keeper.place.temperature
        advice = self._advice(holder)
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

    def _advice(self, holder: str | None) -> list[Resow]:
        if holder is None:
            return []
        keeper = self._bench.keeper
        return resow_advice(keeper.season, holder, keeper.today, said_at(keeper.place))

    def _nothing(self, holder: str | None) -> str:
        """Return why there is no advice."""
        if holder is None:
            return tr("Open a tray to see which bare cells are worth sowing again.")
        season = self._bench.keeper.season
        bare = sum(spot.waiting > 0 and spot.up == 0 for spot in season.spots(holder))
        if bare == 0:
            return tr("No sown cell is waiting here.")
        made = season.holder(holder)
        if made.mix_c is None:
            return tr(
                "{cells} waiting. Give the temperature of the mix of {name} (Edit) to see what to "
                "expect of them.",
                cells=many(bare, "cell"),
                name=made.name,
            )
        return tr(
            "{cells} waiting. No days to emerge are known for this crop in such a mix.",
            cells=many(bare, "cell"),
        )

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
        why = WhyLink(bench, lambda: advice.why, tr("why?"))
        seeds = max(advice.seeds, len(advice.cells))
        self.sow = button(
            tr("Sow {seeds} more", seeds=seeds),
            lambda: acts.sow_again(advice),
            "primary" if advice.worth_it else "",
            name="sow-again",
        )
        self.sow.setToolTip(
            tr("{seeds} into the {cells}", seeds=many(seeds, "seed"), cells=many(len(advice.cells), "cell"))
        )
        layout.addLayout(row(self.sow, why, None))


def advice_words(advice: Resow) -> str:
    """Return the advice in a sentence or two."""
    still = trn(
        "{n} cell still bare on day {day}; half should be up by day {half:.0f}.",
        "{n} cells still bare on day {day}; half should be up by day {half:.0f}.",
        len(advice.cells),
        day=advice.day,
        half=advice.expected_days,
    )
    hope = trn(
        "Chance that it still comes up: {chance}.",
        "Chance that any of the {n} cells still comes up: {chance}.",
        len(advice.cells),
        chance=_chance_words(advice.chance),
    )
    end = tr("Sow again.") if advice.worth_it else tr("Wait a little.")
    return f"{still} {hope} {end}".replace(" %", "\N{NO-BREAK SPACE}%")


def _chance_words(chance: float) -> str:
    return tr("less than 1 %") if chance < NEVER else tr("{chance:.0f} %", chance=chance * 100)
