"""Where the grower is, and in which units the window speaks."""

from __future__ import annotations

from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QRadioButton

from greenroom.desk.bench import Bench
from greenroom.desk.language_field import LanguageField
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, label
from greenroom.desk.place.coordinates import CoordinateError
from greenroom.desk.place.place_fields import PlaceFields
from greenroom.exchange.towns import CREDIT
from greenroom.ledger.facts import TEMPERATURE_UNITS, VOLUME_UNITS, PlaceSet, UnitsSet
from greenroom.season.deeds_shelf import set_place, set_units
from greenroom.speech import tr

UNIT_WORDS = {"c": "°C", "f": "°F", "ml": "mL", "floz": "fl oz (US)"}


class WhereCard(Card):
    """The place; a field that is changed and left is written at once."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Where you grow"))
        self._bench = bench
        self.fields = PlaceFields(lambda: bench.keeper.now)
        self.body.addWidget(self.fields)
        self.body.addWidget(label(CREDIT, "quiet", wrap=True))
        self.fields.edited.connect(self._on_edited)
        self.refresh()

    def refresh(self) -> None:
        """Show the place as it stands."""
        self.fields.show_place(self._bench.keeper.season.latest(PlaceSet))

    def commit(self) -> None:
        """Write what is being edited; what cannot be read is put back."""
        self._on_edited()
        if self._bench.keeper.place.known:
            self.refresh()

    def _on_edited(self) -> None:
        keeper = self._bench.keeper
        if not self.fields.changed or not (self.fields.filled or keeper.place.known):
            return
        try:
            entry = self.fields.entry()
        except CoordinateError as error:
            self._bench.say(str(error))
            return
        before = keeper.season.latest(PlaceSet)
        keeper.do(
            lambda: set_place(
                entry.name, entry.latitude, entry.longitude, entry.zone, keeper.today, before=before
            )
        )


class UnitsCard(Card):
    """°C or °F, mL or fl oz; taken at once."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Units and language"))
        self._bench = bench
        self.temperature = _choice(TEMPERATURE_UNITS)
        self.volume = _choice(VOLUME_UNITS)
        for words, group in ((tr("Temperature"), self.temperature), (tr("Volume"), self.volume)):
            line = QHBoxLayout()
            line.setSpacing(GAP + 4)
            line.addWidget(label(words, "quiet"), 1)
            for one in group.buttons():
                one.setAccessibleName(tr("{quantity} in {unit}", quantity=words, unit=one.text()))
                line.addWidget(one)
            self.body.addLayout(line)
            group.buttonClicked.connect(lambda _button: self._write())
        self.language = LanguageField()
        self.body.addWidget(self.language)
        self.refresh()

    def refresh(self) -> None:
        """Show the units as they stand."""
        place = self._bench.keeper.place
        _check(self.temperature, place.temperature)
        _check(self.volume, place.volume)
        self.language.refresh()

    def _write(self) -> None:
        keeper = self._bench.keeper
        temperature, volume = _checked(self.temperature), _checked(self.volume)
        before = keeper.season.latest(UnitsSet)
        keeper.do(lambda: set_units(temperature, volume, keeper.today, before=before))


def _choice(units: tuple[str, ...]) -> QButtonGroup:
    group = QButtonGroup()
    for unit in units:
        one = QRadioButton(UNIT_WORDS[unit])
        one.setObjectName(f"unit-{unit}")
        group.addButton(one)
    return group


def _checked(group: QButtonGroup) -> str:
    names = [one.objectName() for one in group.buttons() if one.isChecked()]
    return names[0].removeprefix("unit-")


def _check(group: QButtonGroup, unit: str) -> None:
    for one in group.buttons():
        one.setChecked(one.objectName() == f"unit-{unit}")
