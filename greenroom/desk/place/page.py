"""The place: where the grower is, the weather there, units, and care."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import column, label, row
from greenroom.desk.place.cautions import Cautions
from greenroom.desk.place.weather_card import WeatherCard
from greenroom.desk.place.where_card import UnitsCard, WhereCard
from greenroom.season.state import Touched

KINDS = frozenset(("place_set", "units_set", "weather_record"))
WHERE_PX = 380


class PlacePage(Page):
    """Three cards and the cautions; in a small window they scroll."""

    key = "place"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = False
        self.where = WhereCard(bench)
        self.units = UnitsCard(bench)
        self.weather = WeatherCard(bench)
        self.cautions = Cautions()
        self._lay_out()

    def take(self, touched: Touched) -> None:
        if touched.kinds & KINDS:
            self._stale = True
            if self.isVisible():
                self._refresh()

    def entered(self) -> None:
        self._refresh()

    def leave(self) -> None:
        self.where.commit()

    def _refresh(self) -> None:
        if self._stale:
            self._stale = False
            self.where.refresh()
            self.units.refresh()
            self.weather.refresh()

    def _lay_out(self) -> None:
        for card in (self.where, self.units):
            card.setFixedWidth(WHERE_PX)
        left = column(self.where, self.units, None, gap=GAP + 4)
        top = row(gap=GAP + 4)
        top.addLayout(left)
        right = column(self.weather, None)
        top.addLayout(right, 1)
        inside = QWidget()
        inside.setObjectName("ground")
        sheet = QVBoxLayout(inside)
        sheet.setContentsMargins(PAGE_MARGIN, PAGE_MARGIN - 4, PAGE_MARGIN, PAGE_MARGIN)
        sheet.setSpacing(GAP + 4)
        sheet.addWidget(label("The place", "page-title"))
        sheet.addLayout(top)
        sheet.addWidget(self.cautions)
        sheet.addStretch(1)
        self.area = QScrollArea()
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setWidgetResizable(True)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setAccessibleName("The place")
        self.area.setWidget(inside)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(self.area)
