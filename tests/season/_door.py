"""A grower's ledger with one tray and one rack, for tests of what is done at the door."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from greenroom.ledger import Ledger
from greenroom.ledger.facts import HolderMade, Packet, PlaceSet, Sown, Sprouted, Variety
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks, two_clocks_if

TRAY, RACK, BARE = "tray-c", "rack-1", "tray-d"
MADE, FIRST = date(2027, 3, 1), date(2027, 5, 8)
LJUBLJANA = ("Europe/Ljubljana", 46.05, 14.51)
SYDNEY = ("Australia/Sydney", -33.87, 151.21)
WINNIPEG = ("America/Winnipeg", 49.9, -97.14)


class Door:
    """Acts go to a real ledger and from there into the season, as they do from the window."""

    def __init__(self, path, place=LJUBLJANA):
        self.path = path
        self.zone = ZoneInfo(place[0])
        self.ledger = Ledger.open(path)
        self.season = Season(self.ledger.entries())
        if not self.season.holders():
            self.write(*_facts(place))

    def write(self, *facts):
        self.season.take(self.ledger.record(*facts))

    def do(self, proposal):
        self.season.take(self.ledger.do(proposal.name, record=proposal.record, strike=proposal.strike))
        return proposal

    def undo(self):
        self.season.take(self.ledger.undo())

    def redo(self):
        self.season.take(self.ledger.redo())

    def restart(self):
        self.ledger.close()
        self.ledger = Ledger.open(self.path)
        self.season = Season(self.ledger.entries())

    def at(self, day, clock, fold=0):
        hour, minute = (int(part) for part in clock.split(":"))
        local = datetime.combine(day, time(hour, minute), tzinfo=self.zone).replace(fold=fold)
        return local.astimezone(UTC)

    def stand(self, holder, now):
        return two_clocks(self.season, holder, now.astimezone(self.zone).date(), now)

    def stand_if(self, holder, proposal, now):
        return two_clocks_if(self.season, holder, proposal, now.astimezone(self.zone).date(), now)


def _facts(place):
    zone, latitude, longitude = place
    yield PlaceSet(day=MADE, name="Ridge Lane", latitude=latitude, longitude=longitude, zone=zone)
    yield Variety(day=MADE, variety="v", name="Cinder Lantern", crop="pepper")
    yield Packet(day=MADE, packet="p", variety="v")
    for key, name, form in ((TRAY, "Tray C", "tray"), (RACK, "Rack 1", "rack"), (BARE, "Tray D", "tray")):
        yield HolderMade(day=MADE, holder=key, name=name, form=form, rows=2, columns=3)
        yield Sown(day=MADE, holder=key, row=0, column=0, packet="p")
    for key in (TRAY, RACK):
        yield Sprouted(day=date(2027, 3, 12), holder=key, row=0, column=0)
