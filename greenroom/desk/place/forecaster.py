"""Asks for the forecast: when told to, and by itself every few hours while the grower lets it."""

from __future__ import annotations

from datetime import datetime, timedelta

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk.keeper import Keeper
from greenroom.desk.place.service_door import ServiceDoor, Spot, spot_of
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import Cancelled
from greenroom.exchange.weather_service import Forecast, ServiceError
from greenroom.ledger.facts import HourAhead
from greenroom.season.deeds_place import hear_forecast
from greenroom.season.place import latest_forecast, online_allowed
from greenroom.speech import tr

EVERY = timedelta(hours=3)
LOOK_MS = 60_000
NO_PLACE = tr("Set the place first; a forecast is asked for by its coordinates.")
STAYS = tr("The forecast that is here still counts.")
OTHER_DAY = tr(
    "This window goes by another day than today, and a forecast is only to be had for the real days."
)


class Forecaster(QObject):
    """One question at a time; ``changed`` tells that it began, ended, or went wrong.

    The last good answer stays in the ledger when a question fails; ``trouble`` says why it failed.
    """

    changed = Signal()

    def __init__(self, keeper: Keeper, door: ServiceDoor, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._door = door
        self._asked_at: datetime | None = None
        self._spot: Spot | None = None
        self._worker: Worker[Forecast] = Worker((ServiceError, Cancelled), self)
        self._worker.finished.connect(self._on_told)
        self._worker.failed.connect(self._on_failed)
        self._timer = QTimer(self, interval=LOOK_MS)
        self._timer.timeout.connect(self.look)
        self.trouble = ""

    @property
    def asking(self) -> bool:
        """Whether an answer is waited for."""
        return self._worker.running

    @property
    def due_at(self) -> datetime | None:
        """When it asks by itself next; None while it does not, or where it has not asked yet."""
        last = self._last()
        return last + EVERY if last is not None and self._willing() else None

    def ask(self) -> None:
        """Ask now, if the grower lets it; what is asked already is not asked twice."""
        if self.asking or not online_allowed(self._keeper.season):
            return
        spot, hindrance = spot_of(self._keeper.place), self._hindrance()
        if spot is None or hindrance:
            self._tell(hindrance)
            return
        now, door = self._keeper.now, self._door
        self._asked_at, self._spot, self.trouble = now, spot, ""
        self._worker.start(lambda _progress, stopped: door.service().forecast(*spot, now, stopped))
        self.changed.emit()

    def watch(self) -> None:
        """From now on ask by itself, at most every three hours."""
        if not self._timer.isActive():
            self._timer.start()
            self.look()

    def look(self) -> None:
        """Ask if an answer is due; one from the future, by a clock that was put back, counts for none."""
        now, last = self._keeper.now, self._last()
        if self._willing() and (last is None or not last <= now < last + EVERY):
            self.ask()

    def stop(self) -> None:
        """Call off what is asked, and ask no more by itself."""
        self._timer.stop()
        self._worker.cancel()

    def cancel(self) -> None:
        """Call off what is asked."""
        if self.asking:
            self._worker.cancel()
            self._tell(tr("Called off; the forecast stays as it was."))

    def _last(self) -> datetime | None:
        """Return when the forecast of this place was last asked for or got."""
        known = latest_forecast(self._keeper.season)
        asked = self._asked_at if self._spot == spot_of(self._keeper.place) else None
        moments = [moment for moment in (asked, known.taken if known else None) if moment is not None]
        return max(moments, default=None)

    def _willing(self) -> bool:
        """Whether it may and can ask by itself."""
        return self._timer.isActive() and online_allowed(self._keeper.season) and not self._hindrance()

    def _hindrance(self) -> str:
        """Return why no forecast can be asked for, or nothing."""
        if not self._keeper.place.known:
            return NO_PLACE
        return OTHER_DAY if self._keeper.clock.shift else ""

    def _on_told(self, told: Forecast) -> None:
        season = self._keeper.season
        if not online_allowed(season) or self._spot != spot_of(self._keeper.place):
            self.changed.emit()  # the place was moved, or the word taken back, while it was on its way
            return
        source, taken = told.source, told.fetched_at
        self._keeper.do_apart(
            lambda: hear_forecast(season, source, taken, told.days, hours_of(told)),
            self._on_written,
            quietly=True,
        )

    def _on_written(self, _written: bool) -> None:
        self.changed.emit()

    def _on_failed(self, error: Exception) -> None:
        kept = latest_forecast(self._keeper.season)
        stays = f" {STAYS}" if kept is not None else ""
        self._tell(f"{str(error).rstrip('.')}.{stays}")

    def _tell(self, trouble: str) -> None:
        self.trouble = trouble
        self.changed.emit()


def hours_of(told: Forecast) -> tuple[HourAhead, ...]:
    """Return the hours of an answer, each from its moment on.

    A service's row tells temperature and cloud at its moment, but gust, rain and light of the hour before
    it; those of the hour ahead therefore stand in the next row.
    """
    following = {hour.time: hour for hour in told.hours}
    hours = []
    for hour in told.hours:
        after = following.get(hour.time + timedelta(hours=1))
        ahead = (after.gust_ms, after.rain_mm, after.shortwave_w_m2) if after else (None, None, None)
        hours.append(HourAhead(hour.time, hour.temperature_c, hour.cloud, *ahead))
    return tuple(hours)
