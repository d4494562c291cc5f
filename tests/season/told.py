"""A season told act by act, without a ledger: what the tests of stories and marks stand on."""

from dataclasses import replace
from datetime import UTC, date, datetime
from functools import cache

from greenroom.guide import load_guide
from greenroom.ledger import Act, Change, Entry
from greenroom.ledger.facts import HolderMade, HolderPlaced, Packet, Variety
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story import spot_line, way

SOWN_ON = date(2027, 3, 12)


@cache
def the_guide():
    """The guide that comes with the program, read once for all tests."""
    return load_guide()


class Told:
    """A season to which proposals are done one after the other."""

    def __init__(self):
        self.season = Season(guide=the_guide())
        self._number = 0
        self._acts = 0
        self._entries = {}

    def do(self, proposal):
        self._acts += 1
        added = []
        for fact in proposal.record:
            fact.check()
            self._number += 1
            added.append(Entry(self._number, self._acts, fact))
        self._entries |= {entry.fact.id: entry for entry in added}
        removed = tuple(self._entries.pop(one) for one in proposal.strike)
        act = Act(self._acts, "do", proposal.name, datetime(2027, 5, 14, tzinfo=UTC), "UTC", "grower")
        return self.season.take(Change(act, tuple(added), removed))

    def packet(self, name, seeds=None, germination=None):
        facts = (
            Variety(day=SOWN_ON, variety=f"v-{name}", name=name),
            Packet(
                day=SOWN_ON, packet=f"p-{name}", variety=f"v-{name}", seeds=seeds, germination=germination
            ),
        )
        self.do(Proposal("added 1 packet", facts))
        return f"p-{name}"

    def holder(self, name, form="tray", rows=6, columns=12, mix_c=None):
        made = HolderMade(day=SOWN_ON, holder=name, name=name, form=form, rows=rows, columns=columns)
        placed = HolderPlaced(day=SOWN_ON, holder=name, place="shelf 1", mix_c=mix_c)
        self.do(Proposal(f"took {name} into use", (made, placed)))
        return name


def story(season, key):
    """What happened in a spot before it was last filled, and on the way of what stands there; no care of
    its holder and no packet."""
    earlier, steps = way(season, key)
    before = [replace(spot_line(season, key, entry), earlier=True) for entry in earlier]
    return (*before, *(spot_line(season, at, entry) for at, entries in steps for entry in entries))


def spot(holder, label):
    """The spot written as on the tray's edge, A1 to Z99."""
    return SpotKey(holder, ord(label[0]) - ord("A"), int(label[1:]) - 1)
