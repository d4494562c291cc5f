"""The forecast: asked for only when allowed, at most every three hours, and the last good one kept."""

import subprocess
import sys
import threading
from datetime import UTC, date, datetime, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk import start
from greenroom.desk.bench import Bench
from greenroom.desk.clock import Clock
from greenroom.desk.look import Look
from greenroom.desk.place.forecaster import OTHER_DAY, hours_of
from greenroom.desk.place.page import PlacePage
from greenroom.desk.place.service_door import CREDIT, NAME, ServiceDoor, spot_of
from greenroom.desk.window import Window
from greenroom.exchange.open_weather import OpenMeteo
from greenroom.exchange.weather_service import Forecast, ForecastHour, ServiceError
from greenroom.ledger.facts import HourAhead, PlaceSet, WeatherDay
from greenroom.season.deeds_place import allow_online, hear_forecast
from greenroom.season.deeds_shelf import set_place, set_units
from greenroom.season.place import hours_ahead, latest_forecast, online_allowed, weather_days
from tests.desk.conftest import NOW, TODAY
from tests.desk.place_hands import NO_SCREEN, click, open_page
from tests.desk.weather_server import Told, forecast_from, service_at
from tests.exchange.local_server import (
    answering,
    broken_off,
    dripping,
    onward,
    serving,
    silent,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

DAY = timedelta(days=1)
FIRST = TODAY - 2 * DAY


def told_at(tmin, days=10):
    """A forecast that tells this coldest of every night."""
    rows = tuple(WeatherDay(FIRST + number * DAY, tmin, tmin + 10, 0.0, 4.0) for number in range(days))
    return lambda now: Forecast(now, "Sky Office", "", 46.4, 16.0, "", rows, ())


@pytest.fixture
def allowed(keeper):
    keeper.do(lambda: allow_online(keeper.season, TODAY, allowed=True))


@pytest.fixture
def server():
    with serving(forecast_from(FIRST)) as made:
        yield made


@pytest.fixture
def page(qtbot, bench, server):
    return open_page(qtbot, bench, service_at(server), "service")


@pytest.fixture
def ended(qtbot):
    """Wait until nothing is asked any more and what was told is written."""

    def wait(page):
        qtbot.waitUntil(lambda: not page.forecaster.asking, timeout=8000)
        qtbot.waitUntil(lambda: not page.bench.keeper._writings, timeout=5000)
        return page

    return wait


def parts(page):
    return page.tabs.part("service")


def night(keeper, day=TODAY):
    return weather_days(keeper.season)[day].tmin_c


def row(page, number):
    model = parts(page).forecast.table.rows
    return [model.index(number, column).data() for column in range(model.columnCount())]


def test_nothing_is_asked_until_the_grower_says_yes(page, server, moment, qtbot, settle):
    page.watch_weather()
    moment.go_on(hours=9)
    page.forecaster.look()
    page.tick(NOW)
    parts(page).forecast.fetch.click()
    settle()
    assert server.requests == []
    assert not parts(page).forecast.fetch.isEnabled()
    assert not parts(page).history.fetch.isEnabled()
    assert parts(page).consent.state.text().startswith("Off.")


def test_the_grower_is_told_what_is_sent_and_to_whom(page):
    words = parts(page).consent.sent.text().replace("\u00a0", " ")
    assert "Open-Meteo" in words
    assert "46.4° N, 16° E" in words
    assert "network address" in words
    assert "Nothing else goes out" in words
    assert "CC BY 4.0" in parts(page).consent.credit.text()


def test_with_a_yes_the_forecast_comes_and_counts_for_the_days_ahead(page, server, keeper, ended):
    click(parts(page).consent.yes)
    ended(page)
    assert len(server.requests) == 1
    assert night(keeper) == night(keeper, TODAY + 10 * DAY) == 3.5
    assert row(page, 0) == ["Fri 14 May", "4 °C", "12 °C", "0 mm", "26 km/h"]
    assert parts(page).forecast.age.text().startswith("Open-Meteo told this at 9:54, just now.")
    assert "It is asked for again at 12:54." in parts(page).forecast.age.text()
    assert hours_ahead(keeper.season)[0].at >= NOW - timedelta(hours=1)


def test_only_the_rounded_place_goes_out_and_never_its_name(page, server, keeper, ended):
    keeper.do(
        lambda: set_place(
            "Secret Hollow",
            46.41234,
            16.04567,
            "Europe/Ljubljana",
            TODAY,
            before=keeper.season.latest(PlaceSet),
        )
    )
    click(parts(page).consent.yes)
    ended(page)
    asked = server.requests[0]
    assert (asked.fields["latitude"], asked.fields["longitude"]) == ("46.4100", "16.0500")
    sent = asked.path + str(asked.headers)
    assert "Secret" not in sent
    assert "Ljubljana" not in sent
    assert set(asked.headers) <= {"Host", "User-Agent", "Accept", "Accept-Encoding", "Connection"}


def test_the_word_can_be_taken_back_and_then_nothing_is_asked(page, server, keeper, ended, moment, settle):
    click(parts(page).consent.yes)
    ended(page)
    click(parts(page).consent.no)
    assert not online_allowed(keeper.season)
    moment.go_on(hours=9)
    page.forecaster.look()
    settle()
    assert len(server.requests) == 1
    assert not parts(page).forecast.fetch.isEnabled()
    assert parts(page).consent.yes.hasFocus()
    assert night(keeper) == 3.5  # what was told still counts


def test_taking_the_yes_back_by_undo_calls_off_what_is_asked(qtbot, bench, keeper, settle):
    with serving(silent) as slow:
        page = open_page(qtbot, bench, service_at(slow), "service")
        click(parts(page).consent.yes)
        qtbot.waitUntil(lambda: bool(slow.requests), timeout=3000)
        keeper.undo()
        assert not page.forecaster.asking
        settle(200)
    assert latest_forecast(keeper.season) is None


@pytest.mark.parametrize(
    ("reply", "words"),
    [
        (answering({"error": True, "reason": "Out of order"}, 400), "Out of order"),
        (answering({}, 500), "try again later"),
        (answering({}, 429, Retry_After="3600"), "asks to wait 3,600 seconds"),
        (answering(b"<html>hello</html>", kind="text/html"), "Open-Meteo"),
        (answering({"latitude": 1.0}), "unknown form"),
        (answering(b"{"), "Open-Meteo"),
        (broken_off(b'{"latitude"', 4000), "broke off"),
        (onward("http://example.invalid/other"), "only its own address is allowed"),
        (silent, "no answer came in time"),
        (dripping, "did not answer in full"),
    ],
    ids=[
        "refused",
        "broken",
        "busy",
        "a page",
        "no forecast",
        "cut",
        "broken off",
        "elsewhere",
        "silent",
        "drip",
    ],
)
def test_a_failure_is_told_in_one_sentence_and_the_last_good_forecast_stays(
    qtbot, bench, keeper, ended, moment, allowed, reply, words
):
    with serving(forecast_from(FIRST), reply) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        ended(page)
        click(parts(page).forecast.fetch)
        ended(page)
        moment.go_on(hours=2)
        click(parts(page).forecast.fetch)
        ended(page)
        assert len(server.requests) >= 2
    card = parts(page).forecast
    assert card.trouble.isVisible()
    assert words in card.trouble.text()
    assert card.trouble.text().endswith("The forecast that is here still counts.")
    assert "2 hours ago" in card.age.text()
    assert night(keeper) == 3.5
    assert card.table.isVisible()
    assert card.fetch.isEnabled()


def test_with_no_network_at_all_one_sentence_says_so(qtbot, bench, keeper, ended, allowed):
    with serving(silent) as gone:
        pass
    page = open_page(qtbot, bench, service_at(gone), "service")
    click(parts(page).forecast.fetch)
    ended(page)
    assert "cannot be reached" in parts(page).forecast.trouble.text()
    assert "still counts" not in parts(page).forecast.trouble.text()
    assert "There is no forecast yet" in parts(page).forecast.age.text()


def test_a_good_answer_after_a_failure_puts_the_trouble_away(qtbot, bench, ended, allowed):
    service = Told(ServiceError("it is down"), told_at(6.0))
    page = open_page(qtbot, bench, service, "service")
    click(parts(page).forecast.fetch)
    ended(page)
    assert parts(page).forecast.trouble.text() == "it is down."
    click(parts(page).forecast.fetch)
    ended(page)
    assert not parts(page).forecast.trouble.isVisible()


def test_asking_can_be_called_off(qtbot, bench, keeper, allowed, settle):
    with serving(dripping) as slow:
        page = open_page(qtbot, bench, service_at(slow), "service")
        click(parts(page).forecast.fetch)
        assert parts(page).forecast.aside.text() == "Asking Open-Meteo …"
        click(parts(page).forecast.cancel)
        assert not page.forecaster.asking
        settle(200)
    assert parts(page).forecast.trouble.text() == "Called off; the forecast stays as it was."
    assert latest_forecast(keeper.season) is None


def test_it_asks_by_itself_at_most_every_three_hours(qtbot, bench, keeper, moment, ended, allowed):
    service = Told(told_at(6.0), told_at(7.0))
    page = open_page(qtbot, bench, service)
    page.watch_weather()
    ended(page)
    assert len(service.asked) == 1
    for _ in range(5):
        moment.go_on(minutes=35)
        page.forecaster.look()
        ended(page)
    assert len(service.asked) == 1
    moment.go_on(minutes=5)
    page.forecaster.look()
    ended(page)
    assert len(service.asked) == 2
    assert night(keeper) == 7.0


def test_a_failure_is_not_asked_again_by_itself_before_three_hours(qtbot, bench, moment, ended, allowed):
    service = Told(ServiceError("it is down"))
    page = open_page(qtbot, bench, service)
    page.watch_weather()
    ended(page)
    moment.go_on(hours=2, minutes=59)
    page.forecaster.look()
    ended(page)
    assert len(service.asked) == 1
    moment.go_on(minutes=1)
    page.forecaster.look()
    ended(page)
    assert len(service.asked) == 2


def test_a_fresh_forecast_from_before_a_restart_is_not_asked_for_again(
    qtbot, bench, keeper, moment, ended, allowed
):
    days = [WeatherDay(TODAY, 5.0, 15.0)]
    keeper.do_apart(
        lambda: hear_forecast(keeper.season, "Sky Office", NOW - timedelta(hours=1), days, ()),
        lambda _written: None,
        quietly=True,
    )
    qtbot.waitUntil(lambda: latest_forecast(keeper.season) is not None, timeout=3000)
    service = Told(told_at(6.0))
    page = open_page(qtbot, bench, service)
    page.watch_weather()
    ended(page)
    assert service.asked == []
    moment.go_on(hours=2)
    page.forecaster.look()
    ended(page)
    assert len(service.asked) == 1


def test_without_being_told_to_watch_it_never_asks_by_itself(qtbot, bench, moment, allowed, settle):
    service = Told(told_at(6.0))
    page = open_page(qtbot, bench, service, "service")
    moment.go_on(hours=9)
    page.tick(NOW + timedelta(hours=9))
    page.forecaster.look()
    settle()
    assert service.asked == []


def test_a_window_that_goes_by_another_day_asks_for_no_forecast(qtbot, bench, keeper, allowed, settle):
    keeper.clock = Clock(keeper.clock.source, timedelta(days=-200))
    service = Told(told_at(6.0))
    page = open_page(qtbot, bench, service, "service")
    page.watch_weather()
    click(parts(page).forecast.fetch)
    settle()
    assert service.asked == []
    assert parts(page).forecast.trouble.text() == OTHER_DAY


def test_a_moved_place_is_asked_about_at_once(qtbot, bench, keeper, ended, allowed):
    service = Told(told_at(6.0))
    page = open_page(qtbot, bench, service)
    page.watch_weather()
    ended(page)
    before = keeper.season.latest(PlaceSet)
    keeper.do(lambda: set_place("Mill Yard", 52.1, 5.2, "Europe/Amsterdam", TODAY, before=before))
    assert latest_forecast(keeper.season) is None
    page.forecaster.look()
    ended(page)
    assert service.asked[-1][:2] == (52.1, 5.2)
    assert latest_forecast(keeper.season) is not None


def test_an_answer_for_where_the_place_no_longer_is_is_dropped(qtbot, bench, keeper, ended, allowed):
    before = keeper.season.latest(PlaceSet)

    class Slow(Told):
        def forecast(self, *asked):
            answer = super().forecast(*asked)
            gate.wait(5)
            return answer

    gate = threading.Event()
    page = open_page(qtbot, bench, Slow(told_at(6.0)), "service")
    click(parts(page).forecast.fetch)
    keeper.do(lambda: set_place("Mill Yard", 52.1, 5.2, "Europe/Amsterdam", TODAY, before=before))
    gate.set()
    ended(page)
    assert latest_forecast(keeper.season) is None


def test_undo_passes_over_a_forecast_that_came_by_itself(qtbot, bench, keeper, ended, allowed):
    keeper.do(lambda: set_units("f", "ml", TODAY))
    page = open_page(qtbot, bench, Told(told_at(6.0)))
    page.watch_weather()
    ended(page)
    keeper.undo()
    assert keeper.place.temperature == "c"
    assert latest_forecast(keeper.season) is not None


def test_the_forecast_is_told_in_the_growers_own_units(qtbot, bench, keeper, ended, allowed):
    """6 °C is 42.8 °F, 16 °C 60.8 °F; 4 m/s is 8.9 miles an hour: NIST Special Publication 811."""
    page = open_page(qtbot, bench, Told(told_at(6.0)), "service")
    keeper.do(lambda: set_units("f", "ml", TODAY))
    click(parts(page).forecast.fetch)
    ended(page)
    assert row(page, 0)[1:] == ["43 °F", "61 °F", "0.00 in", "9 mph"]


def test_its_age_grows_while_the_page_is_open(qtbot, bench, moment, ended, allowed):
    page = open_page(qtbot, bench, Told(told_at(6.0)), "service")
    click(parts(page).forecast.fetch)
    ended(page)
    ages = []
    for minutes in (0, 1, 25, 34, 60 * 12, 60 * 40):
        moment.go_on(minutes=minutes)
        page.tick(moment())
        ages.append(parts(page).forecast.age.text().split(", ")[1].split(".")[0])
    assert ages == ["just now", "1 minute ago", "26 minutes ago", "1 hour ago", "13 hours ago", "2 days ago"]
    assert parts(page).forecast.age.property("role") == "alert"
    page.open_part("where")
    assert page.where.known.forecast.text() == "Sky Office, 2 days ago"


def test_the_days_are_read_with_the_arrow_keys(qtbot, bench, ended, allowed):
    page = open_page(qtbot, bench, Told(told_at(6.0)), "service")
    click(parts(page).forecast.fetch)
    ended(page)
    table = parts(page).forecast.table
    table.setFocus()
    table.setCurrentIndex(table.rows.index(0, 0))
    QTest.keyClick(table, Qt.Key.Key_Right)
    spoken = table.rows.data(table.currentIndex(), Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == "Fri 14 May, Coldest: 6 °C"


def test_closing_the_page_leaves_nothing_asking(qtbot, bench, allowed):
    with serving(silent) as slow:
        page = open_page(qtbot, bench, service_at(slow), "service")
        click(parts(page).forecast.fetch)
        page.closing()
        assert not page.forecaster.asking


def test_an_hour_tells_gust_rain_and_light_of_the_hour_from_it_on():
    """A service's row has gust, rain and light of the hour before it: its documentation."""
    first = datetime(2027, 5, 14, 8, tzinfo=UTC)
    rows = [
        ForecastHour(first + timedelta(hours=n), 10.0 + n, 0.1 * n, 1.0 + n, 2.0 + n, 100.0 * n)
        for n in range(3)
    ]
    told = Forecast(first, "x", "", 0, 0, "", (), tuple(rows))
    assert hours_of(told) == (
        HourAhead(first, 10.0, 0.0, 2.0, 3.0, 100.0),
        HourAhead(first + timedelta(hours=1), 11.0, 0.1, 3.0, 4.0, 200.0),
        HourAhead(first + timedelta(hours=2), 12.0, 0.2, None, None, None),
    )


def test_the_card_names_the_service_as_it_names_itself():
    assert (OpenMeteo().name, OpenMeteo().credit) == (NAME, CREDIT)
    door = ServiceDoor()
    assert isinstance(door.service(), OpenMeteo)
    assert door.service() is door.service()


def test_south_and_west_are_written_as_people_write_them(keeper):
    before = keeper.season.latest(PlaceSet)
    keeper.do(lambda: set_place("Here", -33.456, -70.6, "America/Santiago", TODAY, before=before))
    assert spot_of(keeper.place).words.replace("\u00a0", " ") == "33.46° S, 70.6° W"


def test_the_network_is_loaded_only_when_a_service_is_asked():
    code = (
        "import sys, greenroom.desk.place.page, greenroom.desk.place.record_tab;"
        "print([name for name in ('urllib3', 'pyqtgraph', 'greenroom.exchange.web') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_a_date_far_off_is_refused_as_no_forecast(qtbot, bench, ended, allowed):
    """The service's documentation: at most 16 days ahead and 92 back."""
    with serving(forecast_from(date(2020, 1, 1))) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        click(parts(page).forecast.fetch)
        ended(page)
    assert "its days are 2020-01-01" in parts(page).forecast.trouble.text()


def test_a_window_opened_with_the_growers_word_keeps_the_forecast_fresh(qtbot, qapp, keeper, ended, allowed):
    service = Told(told_at(6.0))
    window = Window(Bench(keeper, Look(dark=False)), {"place": lambda bench: PlacePage(bench, service)})
    qtbot.addWidget(window)
    start._watch_weather(window)
    page = window.page("place")
    ended(page)
    assert len(service.asked) == 1
    assert night(keeper) == 6.0
    assert page.forecaster.due_at == NOW + timedelta(hours=3)
    window.close()
    assert page.forecaster.due_at is None
