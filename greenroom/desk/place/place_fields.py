"""The fields that say where the grower is: name, latitude, longitude, time zone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QCompleter, QGridLayout, QLineEdit, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import label, show_words
from greenroom.desk.place.coordinates import (
    CoordinateError,
    degrees_words,
    read_latitude,
    read_longitude,
    split_pair,
)
from greenroom.desk.place.town_field import TownField
from greenroom.desk.place.zones import WORLD, system_zone, zone_doubt, zones
from greenroom.exchange.towns import Town
from greenroom.ledger.facts import PlaceSet
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class PlaceEntry:
    """A place as it is entered."""

    name: str
    latitude: float
    longitude: float
    zone: str


class PlaceFields(QWidget):
    """Four fields, the zone guessed from the machine. ``edited`` tells that one was changed and left."""

    edited = Signal()

    def __init__(self, now: Callable[[], datetime]) -> None:
        super().__init__()
        self._now = now
        self._shown: tuple[str, ...] = ()
        self.town = TownField()
        self.name = _line("place-name", tr("Name"), tr("your garden"))
        self.latitude = _line("place-latitude", tr("Latitude"), tr("46.4 or 46°24' N"))
        self.longitude = _line("place-longitude", tr("Longitude"), tr("16.0 or 16°02' E"))
        self.zone = _zone_chooser()
        self.doubt = label("", "alert", wrap=True)
        self.doubt.hide()
        self._lay_out()
        self.show_place(None)
        self.town.found.connect(self._take_town)
        for field in (self.name, self.latitude, self.longitude, self.zone.lineEdit()):
            if field is not None:
                field.editingFinished.connect(self._finished)
        self.zone.activated.connect(lambda _place: self._finished())

    @property
    def changed(self) -> bool:
        """Whether a field differs from what was shown last."""
        return self._texts() != self._shown

    @property
    def filled(self) -> bool:
        """Whether something stands in every field."""
        return all(text.strip() for text in self._texts())

    def show_place(self, fact: PlaceSet | None) -> None:
        """Show a place as it was set; without one, empty fields and the zone of the machine."""
        self.town.clear()
        self.name.setText(fact.name if fact else "")
        self.latitude.setText(degrees_words(fact.latitude if fact else None))
        self.longitude.setText(degrees_words(fact.longitude if fact else None))
        self.zone.setCurrentText(fact.zone if fact else system_zone())
        self._shown = self._texts()
        self._show_doubt()

    def entry(self) -> PlaceEntry:
        """Return the place as typed.

        Raises
        ------
        CoordinateError
            With one sentence, if a field cannot be read.
        """
        zone = self.zone.currentText().strip()
        if self.zone.findText(zone, Qt.MatchFlag.MatchFixedString) < 0:
            raise CoordinateError(
                tr("Time zone: “{zone}” is none; a name such as Europe/Oslo or UTC is needed.", zone=zone)
            )
        latitude, longitude = read_latitude(self.latitude.text()), read_longitude(self.longitude.text())
        place = self.zone.findText(zone, Qt.MatchFlag.MatchFixedString)
        return PlaceEntry(self.name.text().strip(), latitude, longitude, self.zone.itemText(place))

    def _take_town(self, town: Town) -> None:
        """Fill in what a town tells; a name that was given stays."""
        if not self.name.text().strip():
            self.name.setText(town.name)
        self.latitude.setText(degrees_words(town.latitude))
        self.longitude.setText(degrees_words(town.longitude))
        if self.zone.findText(town.zone) < 0:
            self.zone.addItem(town.zone)
        self.zone.setCurrentText(town.zone)
        self._finished()

    def _texts(self) -> tuple[str, ...]:
        return (self.name.text(), self.latitude.text(), self.longitude.text(), self.zone.currentText())

    def _finished(self) -> None:
        pair = split_pair(self.latitude.text())
        if pair is not None:
            self.latitude.setText(pair[0])
            self.longitude.setText(pair[1])
        self._show_doubt()
        if self.changed:
            self.edited.emit()

    def _show_doubt(self) -> None:
        try:
            entry = self.entry()
        except CoordinateError:
            words = ""
        else:
            words = zone_doubt(entry.zone, entry.longitude, self._now())
        show_words(self.doubt, words)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(GAP + 4)
        grid.setVerticalSpacing(GAP - 2)
        grid.setColumnStretch(1, 1)
        fields = (
            (tr("Find a town"), self.town),
            (tr("Name"), self.name),
            (tr("Latitude"), self.latitude),
            (tr("Longitude"), self.longitude),
            (tr("Time zone"), self.zone),
        )
        for place, (words, field) in enumerate(fields):
            caption = label(words, "quiet")
            caption.setBuddy(field)
            grid.addWidget(caption, place, 0)
            grid.addWidget(field, place, 1)
        grid.addWidget(self.doubt, len(fields), 0, 1, 2)


def _line(key: str, name: str, hint: str) -> QLineEdit:
    made = QLineEdit()
    made.setAccessibleName(name)
    made.setPlaceholderText(hint)
    made.setObjectName(key)
    made.setMaxLength(120)
    return made


def _zone_chooser() -> QComboBox:
    made = QComboBox()
    made.setEditable(True)
    made.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
    made.setAccessibleName(tr("Time zone"))
    made.setObjectName("place-zone")
    names = zones()
    own = system_zone()
    made.addItems(names if own in names else [*names, own])
    made.setCurrentText(own or WORLD)
    completer = QCompleter(made.model(), made)
    completer.setFilterMode(Qt.MatchFlag.MatchContains)
    completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
    made.setCompleter(completer)
    return made
