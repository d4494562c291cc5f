"""The copies that stay: enough to go back to any day of late, few of long ago, none lost to a wrong clock."""

from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from greenroom.ledger.backup_schedule import ALWAYS, Taken, to_drop

NOW = datetime(2027, 5, 14, 9, 54, tzinfo=UTC)


def kept(copies, now=NOW):
    dropped = to_drop(copies, now)
    return [one for one in copies if one.number not in dropped]


def grown(days, hours=6, begin=NOW):
    """Take copies for so many days, thinning after each as the program does; return them and the end."""
    copies, now = [], begin
    for number in range(1, days * 24 // hours + 1):
        now = begin + timedelta(hours=hours * number)
        copies = kept([*copies, Taken(number, now)], now)
    return copies, now


def test_a_year_of_copies_reaches_back_finely_for_late_days_and_coarsely_for_early_ones():
    copies, now = grown(400)
    ages = [now - one.moment for one in copies]
    assert sum(age <= timedelta(days=1) for age in ages) == 5  # every six hours, both ends counted
    days = {one.moment.date() for one in copies}
    assert {(now - timedelta(days=back)).date() for back in range(14)} <= days
    weeks = {one.moment.isocalendar()[:2] for one in copies}
    assert {(now - timedelta(days=back)).isocalendar()[:2] for back in range(0, 90, 7)} <= weeks
    months = {(one.moment.year, one.moment.month) for one in copies}
    assert len(months) == 14  # 14 May 2027 to 17 June 2028: every month of it
    assert len(copies) <= 5 + 14 + 13 + 14


def test_a_quiet_ledger_keeps_all_it_has():
    """Opened once a month for a year: no two copies share a stretch."""
    copies = [Taken(number, NOW - timedelta(days=31 * (12 - number))) for number in range(13)]
    assert kept(copies) == copies


def test_the_last_copy_of_a_day_stays_and_not_the_first():
    day = NOW - timedelta(days=5)
    copies = [Taken(number, day.replace(hour=number % 24)) for number in range(1, 24)]
    later = [Taken(100 + number, NOW) for number in range(ALWAYS)]
    assert kept(copies + later) == [copies[-1], *later]


def test_a_clock_that_was_years_ahead_costs_none_of_the_latest_copies():
    late = [Taken(number, NOW - timedelta(minutes=ALWAYS - number)) for number in range(ALWAYS)]
    ahead = NOW.replace(year=2037)
    assert kept(late, ahead) == late


def test_a_clock_that_was_set_back_drops_nothing_of_the_days_to_come():
    copies = [Taken(number, NOW + timedelta(hours=number)) for number in range(60)]
    assert kept(copies) == copies
    older = [Taken(100 + number, NOW) for number in range(3)]
    assert kept(copies + older) == copies + older


moments = st.integers(-9_000, 9_000).map(lambda days: NOW + timedelta(days=days / 1.7))


@given(st.lists(moments, max_size=60), moments)
@settings(max_examples=40)
def test_whatever_the_clock_says_the_newest_stay_and_thinning_twice_is_thinning_once(taken, now):
    copies = [Taken(number, moment) for number, moment in enumerate(taken)]
    left = kept(copies, now)
    assert left[-ALWAYS:] == copies[-ALWAYS:]
    assert kept(left, now) == left
    assert {f"{one.moment:%Y-%m}" for one in left} == {f"{one.moment:%Y-%m}" for one in copies}
