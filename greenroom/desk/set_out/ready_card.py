"""The racks and trays that plants are set out from, those that are hardened first."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QSizePolicy

from greenroom.desk.bench import Bench
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.grow.scroll import CellScroll
from greenroom.desk.on_day import OnDay
from greenroom.desk.parts import Card, label, row
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import tr

FORMS = ("rack", "tray")


class ReadyCard(Card):
    """A chooser over the view of one rack or tray; plants are lifted from it."""

    chosen = Signal()

    def __init__(self, bench: Bench, view: HolderView, on: OnDay) -> None:
        super().__init__()
        self._bench = bench
        self.view = view
        self.on = on
        self.setObjectName("ready")
        self.aside.hide()
        self.chooser = QComboBox()
        self.chooser.setObjectName("ready-chooser")
        self.chooser.setAccessibleName(tr("rack or tray to set out from"))
        self.chooser.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.chooser.setMinimumWidth(80)
        self.chooser.activated.connect(lambda _: self._on_choice())
        self.head.addWidget(self.chooser, 1)
        self.none = label(
            tr("Nothing stands in a rack or tray. Raise plants on the Grow on page first."),
            "quiet",
            wrap=True,
        )
        self.hint = label(tr("Drag plants into a bed, or press M on one."), "quiet", wrap=True)
        self.scroller = CellScroll(view)
        self.body.addWidget(self.none)
        self.body.addWidget(self.scroller, 1)
        self.body.addWidget(self.hint)
        self.body.addLayout(row(on, None))
        self.body.addStretch()

    @property
    def key(self) -> str | None:
        """The holder that is open."""
        return self.view.holder_key

    def stand_of(self, holder: str) -> TwoClocks | None:
        """Return how a holder stands on its ramp."""
        keeper = self._bench.keeper
        return two_clocks(keeper.season, holder, keeper.today, keeper.now)

    def refill(self) -> None:
        """List the holders anew and keep the open one if it still holds plants."""
        before = self.key
        listed = self._listed()
        self.chooser.clear()
        for key, words in listed:
            self.chooser.addItem(words, key)
        keys = [key for key, _ in listed]
        self.show_holder(before if before in keys else next(iter(keys), None))

    def show_holder(self, key: str | None) -> None:
        """Open a holder, or none."""
        self.view.show_holder(key)
        self.scroller.updateGeometry()
        self.chooser.setCurrentIndex(self.chooser.findData(key) if key is not None else -1)
        for widget, shown in (
            (self.scroller, True),
            (self.hint, True),
            (self.on, True),
            (self.chooser, True),
            (self.none, False),
        ):
            widget.setVisible(shown if key is not None else not shown)
        self.chosen.emit()

    def _listed(self) -> list[tuple[str, str]]:
        """Return the holders with living plants: hardened, then on the ramp, then the others."""
        season = self._bench.keeper.season
        found = []
        for form in FORMS:
            for one in season.holders(form):
                if season.counts(one.key).living:
                    stand = self.stand_of(one.key)
                    rank = 2 if stand is None else (0 if stand.hardened else 1)
                    words = (tr("hardened"), tr("on the ramp"), tr("not hardened"))[rank]
                    found.append((rank, one.key, f"{one.name} · {words}"))
        return [(key, words) for _, key, words in sorted(found, key=lambda one: one[0])]

    def _on_choice(self) -> None:
        self.show_holder(self.chooser.currentData())
