"""What is to be chosen of a weather file in one of the known forms: its units and its station."""

from __future__ import annotations

from PySide6.QtWidgets import QButtonGroup, QComboBox, QRadioButton, QVBoxLayout, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import label, row, show_words
from greenroom.exchange.weather_csv import WeatherLook
from greenroom.exchange.weather_files import WeatherChoice, WeatherFileLook
from greenroom.exchange.weather_layout import Station
from greenroom.exchange.weather_units import UNIT_WORDS
from greenroom.speech import tr


class FormChoice(QWidget):
    """Units with the reason for the guess, where the form leaves them open, and one of several stations."""

    def __init__(self) -> None:
        super().__init__()
        self._asks_units = False
        self.reason = label("", wrap=True)
        self.units = QButtonGroup(self)
        self.station = QComboBox()
        self.station.setAccessibleName(tr("Station"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addWidget(self.reason)
        for unit, words in UNIT_WORDS.items():
            one = QRadioButton(words)
            one.setObjectName(unit)
            self.units.addButton(one)
            layout.addWidget(one)
        caption = label(tr("Station"), "quiet")
        caption.setBuddy(self.station)
        self.station_line = QWidget()
        self.station_line.setLayout(row(caption, self.station, None))
        layout.addWidget(self.station_line)
        self.offer(())

    @property
    def choice(self) -> WeatherChoice:
        """What is chosen."""
        checked = self.units.checkedButton() if self._asks_units else None
        units = checked.objectName() if checked is not None else None
        station = self.station.currentData() if self.station.count() else None
        return WeatherChoice(units=units, station=station)

    def show_look(self, look: WeatherFileLook) -> None:
        """Show what a look into the file tells, the guesses chosen."""
        summaries = look.detail if isinstance(look.detail, WeatherLook) else None
        self._asks_units = summaries is not None
        for one in self.units.buttons():
            one.setVisible(summaries is not None)
            one.setChecked(summaries is not None and one.objectName() == summaries.units)
        show_words(self.reason, " ".join(look.notes) if summaries is None else _reason(summaries))
        self.offer(look.stations if len(look.stations) > 1 else ())

    def offer(self, stations: tuple[Station, ...]) -> None:
        """Offer stations to choose from; none where there is nothing to choose."""
        self.station.clear()
        for one in stations:
            self.station.addItem(" ".join(part for part in one if part), one.station)
        self.station_line.setVisible(bool(stations))


def _reason(look: WeatherLook) -> str:
    return look.reason if look.sure else tr("{reason} This is a guess; check it.", reason=look.reason)
