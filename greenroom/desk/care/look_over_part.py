"""The tab of the look-over: the sheet of pests and signs for a holder or one of its plants."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QFrame, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_list import FOUND, LOSSES, PEST, RECORD, SIGN, LookOverList
from greenroom.desk.care.look_over_pest import PestSheet
from greenroom.desk.care.look_over_record import FoundSheet, LossSheet
from greenroom.desk.care.look_over_sign import SignSheet
from greenroom.desk.care.part import CarePart, Day
from greenroom.desk.elided import Elided
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, plain_tip, row
from greenroom.season.packets import variety_name
from greenroom.season.spots import SpotKey
from greenroom.season.troubles import troubles_of
from greenroom.season.troubles_found import Seen, last_look_words, nothing_found, seen_on
from greenroom.speech import tr

WHOLE = {"tray": tr("the whole tray"), "rack": tr("the whole rack"), "bed": tr("the whole bed")}


class LookOverPart(CarePart):
    """A list of what to look for, and the sheet of what is chosen on it."""

    kinds = CarePart.kinds | {"variety", "weather_record", "forecast", "lamp_measured"}

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self._troubles = troubles_of(bench.keeper.season)
        self._open = (RECORD, FOUND)
        self.plant = QComboBox()
        self.plant.setObjectName("look-over-plant")
        self.plant.setAccessibleName(tr("the tray or the plant that is looked over"))
        self.plant.setMaximumWidth(220)
        self.plant.currentIndexChanged.connect(lambda _place: self._say_clean())
        self.clean = button(tr("&Nothing found"), self._nothing, "primary", name="nothing-found")
        self.last = Elided(bench.look)
        self.list = LookOverList(bench.look, self._troubles)
        self.found = FoundSheet(bench, self._troubles)
        self.losses = LossSheet(bench)
        self.pest = PestSheet(bench, day, lambda: self.spot, self._troubles)
        self.sign = SignSheet(bench, day, lambda: self.spot, self._troubles)
        self.sheets = QStackedWidget()
        self._areas = {sheet: _scrolling(sheet) for sheet in (self.found, self.losses, self.pest, self.sign)}
        for area in self._areas.values():
            self.sheets.addWidget(area)
        self._lay_out()
        self.list.open_row(RECORD, FOUND)
        self.list.chosen.connect(self.open_sheet)

    @property
    def spot(self) -> SpotKey | None:
        """The plant that is looked over, or None for all of the holder."""
        found = self.plant.currentData()
        return found if isinstance(found, SpotKey) else None

    def open_sheet(self, kind: str, key: str) -> None:
        """Show one pest, one sign or the record."""
        fresh = (kind, key) != self._open
        self._open = (kind, key)
        self._show_sheet()
        if fresh:
            area = self.sheets.currentWidget()
            if isinstance(area, QScrollArea):
                area.verticalScrollBar().setValue(0)

    def refresh(self) -> None:
        if self.holder is None:
            return
        self._fill_plants(self.holder)
        seen = seen_on(self.bench.keeper.season, self.holder, self._troubles)
        self.last.show_text(_last_words(seen))
        self._say_clean()
        self._show_sheet()

    def _show_sheet(self) -> None:
        holder, (kind, key) = self.holder, self._open
        if holder is None:
            return
        sheet: QWidget
        if kind == PEST:
            sheet = self.pest
            self.pest.show_pest(holder, self._troubles.pests[key])
        elif kind == SIGN:
            sheet = self.sign
            self.sign.show_sign(holder, self._troubles.signs[key])
        elif key == LOSSES:
            sheet = self.losses
            self.losses.show_holder(holder)
        else:
            sheet = self.found
            self.found.show_holder(holder)
        self.sheets.setCurrentWidget(self._areas[sheet])

    def _fill_plants(self, holder: str) -> None:
        """Offer the holder and what lives in it; the plant chosen stays chosen while it lives."""
        season = self.bench.keeper.season
        before = self.spot
        living = [spot for spot in season.spots(holder) if spot.up > 0]
        keys = [None, *(spot.key for spot in living)]
        if keys == [self.plant.itemData(place) for place in range(self.plant.count())]:
            return
        self.plant.blockSignals(True)
        self.plant.clear()
        self.plant.addItem(WHOLE.get(season.holder(holder).form, tr("all of it")), None)
        for spot in living:
            self.plant.addItem(f"{spot.key.label} · {variety_name(season, spot.packet)}", spot.key)
        self.plant.setCurrentIndex(keys.index(before) if before in keys else 0)
        self.plant.blockSignals(False)

    def _say_clean(self) -> None:
        at = self.plant.currentText() or tr("it", sense="what is looked over")
        self.clean.setAccessibleName(tr("Nothing found on {at}", at=at))
        self.clean.setToolTip(
            plain_tip(tr("Write down that {at} was looked over and nothing was found", at=at))
        )

    def _nothing(self) -> None:
        keeper, holder = self.bench.keeper, self.holder
        if holder is not None:
            keeper.do(lambda: nothing_found(keeper.season, holder, self.day(), self.spot))

    def _lay_out(self) -> None:
        head = row(label(tr("Looking over")), self.plant, self.clean)
        head.addWidget(self.last, 1)
        card = QFrame()
        card.setProperty("role", "card")
        inside = QVBoxLayout(card)
        inside.setContentsMargins(GAP, GAP + 2, 2, 2)
        inside.addWidget(self.sheets)
        body = row(self.list, gap=GAP)
        body.addWidget(card, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addLayout(head)
        layout.addLayout(body, 1)


def _last_words(seen: list[Seen]) -> str:
    words = last_look_words(seen)
    return tr("{name}: {what}", name=words, what=seen[0].words) if seen else words


def _scrolling(sheet: QWidget) -> QScrollArea:
    inside = QWidget()
    inside.setObjectName("ground")
    layout = QVBoxLayout(inside)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.addWidget(sheet)
    area = QScrollArea()
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setMinimumHeight(200)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)
    return area
