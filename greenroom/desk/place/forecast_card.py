"""The forecast: how old it is, the days ahead as it tells them, and asking for it anew."""

from __future__ import annotations

from datetime import timedelta

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, restyle, row
from greenroom.desk.place.forecaster import Forecaster
from greenroom.desk.place.service_door import ServiceDoor
from greenroom.desk.place.weather_words import age_words
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.ledger.facts import Forecast, WeatherDay
from greenroom.season.hardening_words import (
    WEEKDAYS,
    day_words,
    gust_words,
    moment_words,
    rain_words,
    temperature_words,
    time_words,
)
from greenroom.season.place import Place, latest_forecast, online_allowed
from greenroom.speech import tr

OLD = timedelta(hours=12)
MOST_ROWS = 16
HEADER = (tr("Day"), tr("Coldest"), tr("Warmest"), tr("Rain"), tr("Gusts up to"))
OFF = tr("It must be allowed first.")
NONE_YET = tr("There is no forecast yet. With one, the days at the door are planned by it.")
ASKING = tr("Asking {name} …")


class ForecastCard(Card):
    """Shows the newest forecast of the place and its age."""

    def __init__(self, bench: Bench, door: ServiceDoor, forecaster: Forecaster) -> None:
        super().__init__(tr("The days ahead"))
        self._bench = bench
        self._door = door
        self._forecaster = forecaster
        self.age = label("", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.fetch = button(tr("Fetch the forecast now"), forecaster.ask, "primary", name="fetch-forecast")
        self.cancel = button(tr("Cancel"), forecaster.cancel, name="cancel-forecast")
        self.table = RowsTable(tr("The days ahead by the forecast"))
        self.head.addWidget(TableButton(bench, sources.forecast))
        self.body.addLayout(row(self.fetch, self.cancel, None, gap=GAP))
        for part in (self.age, self.trouble, self.table):
            self.body.addWidget(part)
        forecaster.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the forecast as it stands."""
        keeper, asking = self._bench.keeper, self._forecaster.asking
        allowed = online_allowed(keeper.season)
        told = latest_forecast(keeper.season)
        self.fetch.setEnabled(allowed and not asking)
        self.cancel.setVisible(asking)
        self.aside.setText(ASKING.format(name=self._door.name) if asking else "" if allowed else OFF)
        self.trouble.setText(self._forecaster.trouble)
        self.trouble.setVisible(bool(self._forecaster.trouble) and not asking)
        self._show_days(told)
        self.refresh_age()

    def refresh_age(self) -> None:
        """Show how old the forecast is by now."""
        keeper = self._bench.keeper
        told = latest_forecast(keeper.season)
        if told is None:
            self.age.setText(NONE_YET)
            restyle(self.age, "role", "quiet")
            return
        now, place = keeper.now, keeper.place
        words = tr(
            "{source} told this at {moment}, {age}.",
            source=told.source,
            moment=moment_words(told.taken, place, keeper.today),
            age=age_words(told.taken, now),
        )
        due = self._forecaster.due_at
        if due is not None and due > now:
            again = tr("It is asked for again at {time}.", time=time_words(due, place))
            words = f"{words} {again}"
        self.age.setText(words)
        restyle(self.age, "role", "alert" if now - told.taken > OLD else "")

    def _show_days(self, told: Forecast | None) -> None:
        keeper = self._bench.keeper
        days = [day for day in told.days if day.day >= keeper.today] if told else []
        self.table.show_rows(HEADER, [day_row(day, keeper.place) for day in days[:MOST_ROWS]])
        self.table.setVisible(bool(days))
        self.table.fit(MOST_ROWS)


def day_row(day: WeatherDay, place: Place) -> tuple[str, ...]:
    """Return one day ahead in the grower's own units."""
    return (
        f"{WEEKDAYS[day.day.weekday()]} {day_words(day.day)}",
        temperature_words(day.tmin_c, place),
        temperature_words(day.tmax_c, place),
        rain_words(day.rain_mm, place),
        gust_words(day.gust_ms, place),
    )
