"""Past years from a weather service: asked for by the grower, whole or not at all, one act, credited."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.exchange.weather_service import ServiceError
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.deeds_place import allow_online
from tests.desk.conftest import TODAY
from tests.desk.place_hands import NO_SCREEN, click, open_page
from tests.desk.weather_server import Told, archive, service_at
from tests.exchange.local_server import answering, dripping, serving

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)


@pytest.fixture
def allowed(keeper):
    keeper.do(lambda: allow_online(keeper.season, TODAY, allowed=True))


@pytest.fixture
def ended(qtbot):
    """Wait until the years are in the ledger, or are not to be."""

    def wait(page):
        qtbot.waitUntil(lambda: not page.tabs.part("service").history.bar.isVisible(), timeout=15_000)
        return page.tabs.part("service").history

    return wait


def days_of(first, last):
    return tuple(
        WeatherDay(first + timedelta(days=number), 3.5, 12.5, 0.4, 7.2)
        for number in range((last - first).days + 1)
    )


def years(page, first, last):
    card = page.tabs.part("service").history
    for field, value in ((card.first, first), (card.last, last)):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, str(value))
        QTest.keyClick(field, Qt.Key.Key_Return)
    return card


def records(keeper):
    return keeper.season.facts(WeatherRecord)


def test_thirty_years_come_in_with_progress_as_one_credited_record(qtbot, bench, keeper, ended, allowed):
    with serving(archive) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        card = page.tabs.part("service").history
        shares = []
        card.bar.valueChanged.connect(shares.append)
        click(card.fetch)
        ended(page)
        spans = [(one.fields["start_date"], one.fields["end_date"]) for one in server.requests]
    assert (spans[0][0], spans[-1][1]) == ("1997-01-01", "2027-05-13")  # to yesterday
    assert len(shares) > 3
    assert shares == sorted(shares)
    record = records(keeper)[0]
    assert (record.source, record.station.replace("\u00a0", " ")) == ("Open-Meteo", "46.4° N, 16° E")
    assert record.days == days_of(date(1997, 1, 1), date(2027, 5, 13))
    assert card.told.text().startswith("Open-Meteo gave 31 years, 1997 to 2027")
    page.tabs.open_tab("record")
    tab = page.tabs.part("record")
    assert "CC BY 4.0" in tab.card.credit.text()
    assert tab.card.credit.isVisible()
    keeper.undo()
    assert records(keeper) == []
    assert not tab.card.credit.isVisible()


def test_the_years_are_the_growers_to_choose(qtbot, bench, keeper, ended, allowed):
    service = Told(days_of)
    page = open_page(qtbot, bench, service, "service")
    years(page, 2010, 2011)
    click(page.tabs.part("service").history.fetch)
    ended(page)
    assert service.asked == [(46.4, 16.0, date(2010, 1, 1), date(2011, 12, 31))]
    assert len(records(keeper)[0].days) == 730


def test_years_before_there_is_any_history_cannot_be_chosen(qtbot, bench, allowed):
    """Daily history from 1940 on: the service's documentation."""
    page = open_page(qtbot, bench, Told(days_of), "service")
    card = years(page, 1812, 2011)
    assert card.first.value() >= 1940
    card.first.setValue(2011)
    assert card.last.minimum() == 2011


def test_the_year_that_has_only_begun_is_told_to_hold_nothing(qtbot, bench, keeper, moment, allowed):
    moment.moment = moment.moment.replace(month=1, day=1)
    service = Told(days_of)
    page = open_page(qtbot, bench, service, "service")
    card = years(page, 2027, 2027)
    click(card.fetch)
    assert "hold no day that is over yet" in card.trouble.text()
    assert service.asked == []


@pytest.mark.parametrize(
    ("reply", "words"),
    [
        (answering({"error": True, "reason": "Daily API request limit exceeded."}, 429), "limit exceeded"),
        (answering({}, 503), "try again later"),
        (answering({"daily": {}}), "unknown form"),
        (dripping, "did not answer in full"),
    ],
    ids=["limit", "broken", "no days", "drip"],
)
def test_a_failure_half_way_brings_nothing_in(qtbot, bench, keeper, ended, allowed, reply, words):
    with serving(archive, archive, reply) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        card = page.tabs.part("service").history
        click(card.fetch)
        ended(page)
    assert words in card.trouble.text()
    assert card.trouble.text().endswith("Nothing was brought in.")
    assert records(keeper) == []
    assert card.fetch.isEnabled()


def test_fetching_can_be_called_off_and_keeps_nothing(qtbot, bench, keeper, allowed, settle):
    with serving(archive, dripping) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        card = page.tabs.part("service").history
        click(card.fetch)
        assert card.cancel.hasFocus()
        qtbot.waitUntil(lambda: len(server.requests) > 1, timeout=5000)
        QTest.keyClick(card.cancel, Qt.Key.Key_Space)
        assert card.told.text() == "Called off. Nothing was brought in."
        settle(200)
    assert records(keeper) == []
    assert card.fetch.isVisible()


def test_the_word_taken_back_calls_the_years_off(qtbot, bench, keeper, allowed, settle):
    with serving(dripping) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        card = page.tabs.part("service").history
        click(card.fetch)
        page.tabs.open_tab("where")
        keeper.undo()
        assert not card.fetching
        settle(200)
    assert records(keeper) == []


def test_a_service_that_knows_nothing_of_those_years_says_so(qtbot, bench, keeper, ended, allowed):
    page = open_page(qtbot, bench, Told(lambda _first, _last: ()), "service")
    card = page.tabs.part("service").history
    click(card.fetch)
    ended(page)
    assert card.trouble.text() == "Sky Office knows no day of those years. Nothing was brought in."


def test_the_same_years_fetched_again_replace_the_record(qtbot, bench, keeper, ended, allowed):
    service = Told(
        days_of, lambda first, last: tuple(day._replace(tmin_c=1.0) for day in days_of(first, last))
    )
    page = open_page(qtbot, bench, service, "service")
    card = years(page, 2010, 2011)
    for _ in range(2):
        click(card.fetch)
        ended(page)
    assert [record.days[0].tmin_c for record in records(keeper)] == [1.0]
    keeper.undo()
    assert [record.days[0].tmin_c for record in records(keeper)] == [3.5]


def test_the_very_same_days_again_are_refused(qtbot, bench, keeper, ended, allowed):
    page = open_page(qtbot, bench, Told(days_of), "service")
    card = years(page, 2010, 2011)
    for _ in range(2):
        click(card.fetch)
        ended(page)
    assert len(records(keeper)) == 1
    assert bench.said == ["Sky Office gave the very same days as before."]
    assert card.trouble.text() == "Nothing was brought in."


def test_closing_the_window_calls_the_years_off(qtbot, bench, keeper, allowed):
    with serving(dripping) as server:
        page = open_page(qtbot, bench, service_at(server), "service")
        card = page.tabs.part("service").history
        click(card.fetch)
        page.closing()
        assert not card.fetching


def test_a_place_that_is_not_set_is_asked_for_first(qtbot, bench, keeper, allowed):
    keeper.undo()  # the word
    keeper.undo()  # the place
    keeper.do(lambda: allow_online(keeper.season, TODAY, allowed=True))
    service = Told(ServiceError("never asked"))
    page = open_page(qtbot, bench, service, "service")
    card = page.tabs.part("service").history
    assert not card.fetch.isEnabled()
    assert card.aside.text().startswith("Set the place first")
    click(page.tabs.part("service").forecast.fetch)
    assert page.tabs.part("service").forecast.trouble.text().startswith("Set the place first")
    assert service.asked == []
