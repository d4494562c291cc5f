"""Whether the program may ask a weather service: what is sent, to whom, and the grower's word on it."""

from __future__ import annotations

from PySide6.QtCore import Signal

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, restyle, row
from greenroom.desk.place.service_door import ServiceDoor, spot_of
from greenroom.season.deeds_place import allow_online
from greenroom.season.place import online_allowed
from greenroom.speech import tr

WHAT_FOR = tr(
    "A weather service can give the daily weather of past years, for frost dates and "
    "odds, and a forecast, for the days at the door. It works anywhere on earth."
)
ASKS = {
    False: tr("If you say yes, the program asks {name} over an encrypted connection."),
    True: tr("The program asks {name} over an encrypted connection."),
}
SENT = tr(
    "It sends {spot}, the days wanted, and its own name and version; like any server, {name} also sees this "
    "computer's network address. Nothing else goes out: not your name, not your place's name, nothing of "
    "your records."
)
OFF = tr("Off. Nothing is asked until you say yes, and you can take your word back here at any time.")
ON = tr("On. The program may ask {name}, and keeps the forecast fresh while its window is open.")
NO_PLACE = tr("the coordinates of your place, once it is set")


class ConsentCard(Card):
    """Off until the grower says yes; ``said_yes`` tells when that is."""

    said_yes = Signal()

    def __init__(self, bench: Bench, door: ServiceDoor) -> None:
        super().__init__(tr("May the program ask a weather service?"))
        self._bench = bench
        self._door = door
        self.aside.hide()
        self.state = label("", "strong", wrap=True)
        self.sent = label("", wrap=True)
        self.yes = button(tr("Yes, it may ask"), self.say_yes, "primary", name="allow-online")
        self.no = button(tr("No more asking"), self.say_no, name="stop-online")
        self.credit = label("", "quiet", wrap=True)
        for widget in (self.state, label(WHAT_FOR, "quiet", wrap=True), self.sent):
            self.body.addWidget(widget)
        self.body.addLayout(row(self.yes, self.no, None, gap=GAP))
        self.body.addWidget(self.credit)
        self.refresh()

    @property
    def allowed(self) -> bool:
        """Whether the service may be asked."""
        return online_allowed(self._bench.keeper.season)

    def refresh(self) -> None:
        """Show the choice as it stands."""
        name, spot = self._door.name, spot_of(self._bench.keeper.place)
        told = (
            tr("where you grow, rounded to about a kilometre ({spot})", spot=spot.words) if spot else NO_PLACE
        )
        self.state.setText(ON.format(name=name) if self.allowed else OFF)
        restyle(self.state, "role", "good" if self.allowed else "strong")
        asks = ASKS[self.allowed].format(name=name)
        self.sent.setText(f"{asks} {SENT.format(name=name, spot=told)}")
        self.yes.setVisible(not self.allowed)
        self.no.setVisible(self.allowed)
        self.credit.setText(
            tr("{credit} Free of charge where no money is earned with it.", credit=self._door.credit)
        )

    def say_yes(self) -> None:
        """Let the program ask."""
        if self._choose(allowed=True):
            self.no.setFocus()
            self.said_yes.emit()

    def say_no(self) -> None:
        """Let it ask no more."""
        if self._choose(allowed=False):
            self.yes.setFocus()

    def _choose(self, *, allowed: bool) -> bool:
        keeper = self._bench.keeper
        return keeper.do(lambda: allow_online(keeper.season, keeper.today, allowed=allowed))
