"""How the holders stand, worked out once and kept until something or the time changes it."""

from __future__ import annotations

from datetime import date, datetime

from greenroom.desk.keeper import Keeper
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.door import AtDoor, at_door, by_urgency
from greenroom.season.hardening import going_out, sun_of
from greenroom.season.two_clocks import two_clocks


class Standings:
    """Standings by holder. Those of holders that are out are good for a minute, the others for the day
    or until the sun has set; what the facts change is told by ``forget``."""

    def __init__(self, keeper: Keeper) -> None:
        self._keeper = keeper
        self._held: dict[str, TwoClocks] = {}
        self._still: dict[str, AtDoor] = {}
        self._good_for: tuple[date, bool, datetime] | None = None

    def keys(self) -> list[str]:
        """Return the holders on the ramp."""
        return going_out(self._keeper.season)

    def of(self, key: str) -> TwoClocks | None:
        """Return how one holder stands, or None if it is not on the ramp."""
        if key not in self._held:
            found = two_clocks(self._keeper.season, key, self._keeper.today, self._keeper.now)
            if found is None:
                return None
            self._held[key] = found
        return self._held[key]

    def now(self, key: str, now: datetime) -> AtDoor | None:
        """Return one holder as it is at this moment."""
        if key in self._still:
            return self._still[key]
        found = self.of(key)
        if found is None:
            return None
        here = at_door(self._keeper.season, found, now)
        if not here.out:
            self._still[key] = here
        return here

    def all_now(self, now: datetime) -> list[AtDoor]:
        """Return all holders on the ramp, the next to come in first."""
        found = (self.now(key, now) for key in self.keys())
        return by_urgency([one for one in found if one is not None])

    def forget(self, keys: frozenset[str] | None = None) -> None:
        """Work the named holders, or all, out anew when they are next asked for."""
        for key in list(self._held) if keys is None else keys:
            self._held.pop(key, None)
            self._still.pop(key, None)

    def age(self, now: datetime) -> bool:
        """Forget what the time has changed; whether there was any."""
        today = self._keeper.today
        sun = sun_of(self._keeper.season, today)
        good_for = (today, sun is not None and now > sun[1], now.replace(second=0, microsecond=0))
        before, self._good_for = self._good_for, good_for
        if before is None or before == good_for:
            return before is None
        stale = [key for key, held in self._held.items() if held.outing is not None]
        self.forget(None if before[:2] != good_for[:2] else frozenset(stale))
        return True
