"""The weather service: the grower's word, past years, and the days ahead."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import column
from greenroom.desk.place.consent_card import ConsentCard
from greenroom.desk.place.forecast_card import ForecastCard
from greenroom.desk.place.forecaster import Forecaster
from greenroom.desk.place.history_card import HistoryCard
from greenroom.desk.place.service_door import ServiceDoor
from greenroom.desk.tabs import Part


class ServiceTab(Part):
    """Consent and history at the left, the forecast at the right."""

    def __init__(self, bench: Bench, door: ServiceDoor, forecaster: Forecaster) -> None:
        super().__init__()
        self.consent = ConsentCard(bench, door)
        self.history = HistoryCard(bench, door)
        self.forecast = ForecastCard(bench, door, forecaster)
        self.consent.said_yes.connect(forecaster.watch)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        layout.addLayout(column(self.consent, self.history, None, gap=GAP + 4), 1)
        layout.addLayout(column(self.forecast, None), 1)

    def refresh(self) -> None:
        """Show everything as it stands."""
        for card in (self.consent, self.history, self.forecast):
            card.refresh()

    def closing(self) -> None:
        """Stop what is being asked."""
        self.history.stop()
