"""Mixing a feed: the label, the strength and the water in; grams, spoons and stock out."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QFormLayout, QLineEdit, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.inline_panel import form
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.units import volume
from greenroom.season.deeds_care import Feed
from greenroom.season.feeding_mix import (
    INJECTORS,
    LITRES_IN_GALLON,
    STRONGEST_PPM,
    Mix,
    gram_words,
    mixed,
    teaspoon_words,
)
from greenroom.season.feeding_why import SPOONS, mix_why
from greenroom.season.proposal import RefusedError
from greenroom.season.why import Why
from greenroom.speech import figure, tr

LABEL_PARTS = (("N", tr("% N, nitrogen")), ("P₂O₅", tr("% P2O5, phosphate")), ("K₂O", tr("% K2O, potash")))
LEAST_G = 1.0
CAN_L = 5
BY_HAND = tr("no injector")


class MixCard(Card):
    """``fed`` carries the feed and the litres given."""

    fed = Signal(object, float)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Mix"))
        self._feeds: tuple[Feed, ...] = ()
        self._unit = ""
        self.mix: Mix | None = None
        self.setObjectName("mix")
        self.name = QComboBox()
        written = QLineEdit()
        written.setMaxLength(60)
        self.name.setEditable(True)
        self.name.setLineEdit(written)
        self.name.setObjectName("feed-name")
        self.name.setMinimumWidth(120)
        self.label_fields = [_number(f"label-{part}", 100, 1, words) for part, words in LABEL_PARTS]
        self.ppm = _number("feed-ppm", STRONGEST_PPM, 0, tr("strength in ppm N"))
        self.ppm.setSuffix(tr(" ppm N"))
        self.ppm.setSingleStep(25)
        self.water = _number("feed-water", 10_000, 2, tr("water to mix it in"))
        self.injector = QComboBox()
        self.injector.setObjectName("injector")
        self.injector.addItem(BY_HAND, 0)
        for ratio in INJECTORS:
            self.injector.addItem(tr("injector 1:{ratio}", ratio=ratio), ratio)
        self.grams = label("", "page-title", wrap=True)
        self.grams.setObjectName("feed-grams")
        self.spoons = label("", wrap=True)
        self.spoons.setObjectName("feed-spoons")
        self.stock = label("", wrap=True)
        self.stock.setObjectName("feed-stock")
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why so much feed"))
        self.button = button(tr("Fed"), self._emit, "primary", name="fed")
        self._lay_out()
        self._connect()

    @property
    def feed(self) -> Feed:
        """The feed as it stands in the fields."""
        n, p, k = (field.value() for field in self.label_fields)
        return Feed(self.name.currentText(), n, p, k, self.ppm.value())

    @property
    def litres(self) -> float:
        """The water [L]."""
        return self.water.value() * (LITRES_IN_GALLON if self._unit == "floz" else 1.0)

    def offer(self, feeds: Sequence[Feed]) -> None:
        """List the feeds to choose from; what stands in the fields stays."""
        offered = tuple(feeds)
        if [one.name for one in offered] == [one.name for one in self._feeds]:
            self._feeds = offered
            return
        self._feeds, text = offered, self.name.currentText()
        self.name.blockSignals(True)
        self.name.clear()
        for one in offered:
            self.name.addItem(one.name)
        self.name.setEditText(text)
        self.name.blockSignals(False)

    def propose(self, feed: Feed, litres: float, unit: str) -> None:
        """Fill the fields with what is proposed; ``unit`` is the grower's unit of volume."""
        self._unit = unit
        self.water.setSuffix(tr(" gal") if unit == "floz" else " L")
        self.name.setEditText(feed.name)
        for field, value in zip(
            self.label_fields, (feed.n_percent, feed.p2o5_percent, feed.k2o_percent), strict=True
        ):
            field.setValue(value)
        self.ppm.setValue(feed.ppm_n)
        self.water.setValue(litres / (LITRES_IN_GALLON if unit == "floz" else 1.0))
        self.reckon()

    def reckon(self) -> None:
        """Work the mix out anew, or say what keeps it from being worked out."""
        try:
            self.mix = mixed(self.label_fields[0].value(), self.ppm.value(), self.litres)
        except RefusedError as error:
            self.mix = None
            self.grams.setText("")
            self.spoons.setText(str(error))
        self.why.setVisible(self.mix is not None)
        self.stock.setVisible(self.mix is not None and self.ratio > 0)
        self.button.setEnabled(self.mix is not None and self.mix.ppm_n > 0)
        if self.mix is not None:
            self._show(self.mix)

    @property
    def ratio(self) -> int:
        """The ratio of the injector; 0 for none."""
        return int(self.injector.currentData())

    def _show(self, mix: Mix) -> None:
        water = figure(self.water.value(), ".4g") + self.water.suffix()
        self.grams.setText(tr("{grams} in {water}", grams=gram_words(mix.grams), water=water))
        if mix.ppm_n == 0:
            self.grams.setText(tr("Water alone"))
            self.spoons.setText(tr("Set a strength to mix a feed all the same."))
        else:
            self.spoons.setText(
                tr(
                    "Or {spoons}. {rule}{small}",
                    spoons=teaspoon_words(mix),
                    rule=SPOONS,
                    small=_small(mix),
                )
            )
        if self.ratio:
            stock = volume(mix.litres * 1000 / self.ratio, self._unit)
            strong = tr(" Stronger than most feeds dissolve: choose a lower ratio.")
            words = tr(
                "Stock: {stock}; {some} of it makes {water}.",
                stock=self._stock_words(mix),
                some=stock,
                water=water,
            )
            self.stock.setText(words + (strong if mix.too_strong(self.ratio) else ""))

    def _stock_words(self, mix: Mix) -> str:
        if self._unit == "floz":
            return tr(
                "{ounces:,.1f} oz by weight in each US gallon",
                ounces=mix.stock_oz_gallon(self.ratio),
            )
        return tr("{grams:,.0f} g in each litre", grams=mix.stock_g_litre(self.ratio))

    def _choose(self, place: int) -> None:
        if 0 <= place < len(self._feeds):
            one = self._feeds[place]
            values = (one.n_percent, one.p2o5_percent, one.k2o_percent)
            for field, value in zip(self.label_fields, values, strict=True):
                field.setValue(value)

    def _emit(self) -> None:
        for field in (*self.label_fields, self.ppm, self.water):
            field.interpretText()
        self.fed.emit(self.feed, self.litres)

    def _why(self) -> Why | None:
        return mix_why(self.mix, self.feed) if self.mix is not None else None

    def _connect(self) -> None:
        self.name.activated.connect(self._choose)
        for field in (*self.label_fields, self.ppm, self.water):
            field.valueChanged.connect(lambda _value: self.reckon())
        self.injector.currentIndexChanged.connect(lambda _at: self.reckon())

    def _lay_out(self) -> None:
        lines = form()
        lines.setRowWrapPolicy(QFormLayout.RowWrapPolicy.DontWrapRows)
        for words, field, names in (
            (tr("Feed", sense="which"), self.name, tr("name of the feed")),
            (tr("Strength"), self.ppm, tr("strength in ppm N")),
            (tr("Water", sense="how much"), self.water, tr("water to mix it in")),
            (tr("Through", sense="an injector"), self.injector, tr("injector")),
        ):
            told = label(words, "quiet")
            told.setBuddy(field)
            field.setAccessibleName(names)
            lines.addRow(told, field)
            if field is self.name:
                label_row = QWidget()
                label_row.setLayout(row(*self.label_fields, gap=4))
                lines.addRow(label("N-P-K, %", "quiet"), label_row)
        head = row(gap=4)
        head.addWidget(self.grams, 1)
        head.addWidget(self.why)
        self.body.addLayout(lines)
        self.body.addLayout(head)
        self.body.addWidget(self.spoons)
        self.body.addWidget(self.stock)
        self.body.addLayout(row(self.button, None))


def _small(mix: Mix) -> str:
    """Return the way out where there is too little to be weighed."""
    if mix.grams >= LEAST_G:
        return ""
    return tr(
        " So little is hard to weigh: {grams} in {litres} L is the same feed.",
        grams=gram_words(mix.grams_a_litre * CAN_L),
        litres=CAN_L,
    )


def _number(name: str, most: float, decimals: int, words: str) -> QDoubleSpinBox:
    made = QDoubleSpinBox()
    made.setObjectName(name)
    made.setDecimals(decimals)
    made.setRange(0, most)
    made.setAccessibleName(words)
    made.setToolTip(words)
    made.setMinimumWidth(66)
    return made
