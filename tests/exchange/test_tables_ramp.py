"""Behind the ramp stand its minutes beside the published schedules', behind the spread its mornings."""

from datetime import date

from greenroom.exchange.tables.ramp import ramp_table, spread_table
from greenroom.season.ramp_rules import rules_of
from greenroom.season.ready_history import SpreadOn
from tests.season.demo_season import demo_season


def test_the_ramp_stands_outing_by_outing_beside_what_published_schedules_ask_for():
    """In shade the first day is 1 to 2 h (Florida IFAS) or 3 to 4 h (Beltrami County Master Gardeners).

    In direct sun: 2 to 3 h (Washington State University Extension), from 15 minutes (growers' discussion).
    """
    rules = rules_of(demo_season(), "capsicum-annuum")
    table = ramp_table(rules)
    outings = len(rules.ramp.doses)
    assert table.column("outing") == tuple(range(1, len(table.rows) + 1))
    assert table.column("sun")[:outings] == tuple(map(float, rules.ramp.doses))
    assert set(table.column("sun")[outings:]) == {None}
    assert table.rows[0][3:] == (60, 240, 15, 180)


def test_a_morning_on_which_too_few_years_got_there_has_no_late_date():
    first, second = date(2027, 5, 6), date(2027, 5, 7)
    history = [
        SpreadOn(first, date(2027, 5, 16), date(2027, 5, 17), None, 20),
        SpreadOn(second, date(2027, 5, 16), date(2027, 5, 16), date(2027, 5, 19), 20),
    ]
    table = spread_table(history)
    assert table.column("morning") == (first, second)
    assert table.column("late") == (None, date(2027, 5, 19))
