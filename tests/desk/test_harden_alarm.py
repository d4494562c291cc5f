"""The alarm rings at the planned minutes, again until it is answered, and never from counting ticks."""

import pytest

from greenroom.desk.bench import Bench
from greenroom.desk.harden.alarm import joined
from greenroom.season import deeds_harden as deeds
from tests.desk.harden_door import (
    NO_SCREEN,
    FakeBell,
    click,
    go_on,
    restarted,
    shown_page,
    stand_of,
)

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN, extend=True)


@pytest.fixture
def bell():
    return FakeBell()


@pytest.fixture
def page(qtbot, bench, bell, holders):
    return shown_page(qtbot, bench, bell)


def go_out(keeper, holder, light="sun"):
    assert keeper.do(lambda: deeds.go_out(keeper.season, holder, keeper.now, light))


def test_it_rings_at_the_planned_minutes_and_not_before(page, bell, keeper, moment, holders):
    go_out(keeper, holders[1])
    go_on(page, moment, minutes=109, seconds=59)
    assert bell.rung == []
    assert not page.strip.isVisible()
    go_on(page, moment, seconds=1)
    assert bell.rung == [("Bring Rack 1 in", "Rack 1 has had its 110 minutes of sun.")]
    assert page.strip.words.text() == "Bring Rack 1 in. Rack 1 has had its 110 minutes of sun."


def test_it_rings_again_every_twenty_seconds_until_it_is_answered(page, bell, keeper, moment, holders):
    go_out(keeper, holders[1])
    go_on(page, moment, minutes=110)
    for _ in range(60):
        go_on(page, moment, seconds=1)
    assert len(bell.rung) == 4
    click(page.strip.bring)
    assert bell.hushed == 1
    assert not page.strip.isVisible()
    assert stand_of(keeper, holders[1]).outing is None
    go_on(page, moment, minutes=5)
    assert len(bell.rung) == 4


def test_ten_more_minutes_are_ten_and_then_it_rings_again(page, bell, keeper, moment, holders):
    go_out(keeper, holders[1])
    go_on(page, moment, minutes=110)
    click(page.strip.later)
    assert bell.hushed == 1
    go_on(page, moment, minutes=9, seconds=59)
    assert len(bell.rung) == 1
    go_on(page, moment, seconds=1)
    assert len(bell.rung) == 2


def test_shade_answers_it_and_sun_again_rings_again(page, bell, keeper, moment, holders):
    rack = holders[1]
    go_out(keeper, rack)
    go_on(page, moment, minutes=110)
    keeper.do(lambda: deeds.switch_light(keeper.season, rack, keeper.now, "shade"))
    assert bell.hushed == 1
    go_on(page, moment, hours=2)
    assert len(bell.rung) == 1
    keeper.do(lambda: deeds.switch_light(keeper.season, rack, keeper.now, "sun"))
    assert len(bell.rung) == 2


def test_minutes_in_shade_never_ring(page, bell, keeper, moment, holders):
    go_out(keeper, holders[1], "shade")
    go_on(page, moment, hours=6)
    assert bell.rung == []


def test_each_of_several_rings_when_it_is_due_and_both_are_brought_in_at_once(
    page, bell, keeper, moment, holders
):
    tray, rack = holders
    go_out(keeper, rack)
    go_on(page, moment, minutes=70)
    go_out(keeper, tray)
    go_on(page, moment, minutes=40)
    assert bell.rung[-1][0] == "Bring Rack 1 and Tray A in"
    click(page.strip.bring)
    assert not any(stand_of(keeper, key).outing for key in holders)
    keeper.undo()
    assert all(stand_of(keeper, key).outing for key in holders)


def test_one_more_that_falls_due_rings_at_once(page, bell, keeper, moment, holders):
    tray, rack = holders
    go_out(keeper, rack)
    go_out(keeper, tray)
    go_on(page, moment, minutes=40)
    assert [title for title, _ in bell.rung] == ["Bring Tray A in"]
    click(page.strip.later)
    go_on(page, moment, minutes=10)
    assert len(bell.rung) == 2
    go_on(page, moment, minutes=60)
    assert bell.rung[-1][0] == "Bring Tray A and Rack 1 in"


def test_it_rings_after_a_restart_though_nobody_counted(qtbot, page, bench, keeper, moment, holders):
    go_out(keeper, holders[1])
    page.hide()
    moment.go_on(minutes=130)
    bell = FakeBell()
    again = Bench(restarted(keeper), bench.look)
    page = shown_page(qtbot, again, bell)
    page.tick(moment.moment)
    assert bell.rung == [("Bring Rack 1 in", "Rack 1 has had its 110 minutes of sun.")]


def test_it_rings_while_another_page_is_in_front_and_says_so_there(
    page, bell, bench, keeper, moment, holders
):
    go_out(keeper, holders[1])
    page.hide()
    go_on(page, moment, minutes=110)
    assert len(bell.rung) == 1
    assert bench.said == ["Bring Rack 1 in. Rack 1 has had its 110 minutes of sun."]
    page.show()
    page.entered()
    assert page.strip.isVisible()


def test_a_clock_that_is_set_back_stops_it_and_does_not_silence_it_for_good(
    page, bell, keeper, moment, holders
):
    go_out(keeper, holders[1])
    go_on(page, moment, minutes=115)
    go_on(page, moment, minutes=-30)
    assert bell.hushed == 1
    go_on(page, moment, minutes=25)
    assert len(bell.rung) == 2
    go_on(page, moment, seconds=-5)
    go_on(page, moment, seconds=1)
    assert len(bell.rung) >= 2


def test_a_snooze_ends_with_its_outing(page, bell, keeper, moment, holders):
    rack = holders[1]
    go_out(keeper, rack)
    go_on(page, moment, minutes=110)
    click(page.strip.later)
    keeper.do(lambda: deeds.come_in(keeper.season, rack, keeper.now))
    go_on(page, moment, seconds=30)
    go_out(keeper, rack)
    assert len(bell.rung) == 2


def test_undo_of_going_out_hushes_it(page, bell, keeper, moment, holders):
    go_out(keeper, holders[1])
    go_on(page, moment, minutes=110)
    keeper.undo()
    assert bell.hushed == 1
    assert not page.strip.isVisible()


def test_on_a_day_of_rest_the_sun_of_the_step_still_rings(page, bell, keeper, moment, holders):
    """Scorch after 110 minutes at step 6 leaves step 3, 40 minutes, and a day of rest."""
    rack = holders[1]
    go_out(keeper, rack)
    go_on(page, moment, minutes=100)
    keeper.do(lambda: deeds.setback(keeper.season, rack, "scorch", keeper.now, then="in", now=keeper.now))
    go_on(page, moment, days=1)
    go_out(keeper, rack)
    limit = stand_of(keeper, rack).sun.limit
    go_on(page, moment, minutes=limit - 1)
    assert bell.rung == []
    go_on(page, moment, minutes=1)
    assert len(bell.rung) == 1


def test_it_rings_when_the_sun_sets_on_a_tray_and_shade_answers_it(page, bell, keeper, moment, holders):
    """Sunset at 46.4 N, 16.0 E on 14 May 2027 is at 20:21 (pvlib 0.16.1, SPA)."""
    rack = holders[1]
    go_on(page, moment, hours=10, minutes=20)
    go_out(keeper, rack)
    go_on(page, moment, minutes=5)
    assert bell.rung == []
    go_on(page, moment, minutes=5)
    assert bell.rung == [("Bring Rack 1 in", "The sun has set and Rack 1 is still out.")]
    keeper.do(lambda: deeds.switch_light(keeper.season, rack, keeper.now, "shade"))
    assert bell.hushed == 1


def test_names_are_joined_as_one_says_them():
    assert [joined(["a"]), joined(["a", "b"]), joined(["a", "b", "c"])] == ["a", "a and b", "a, b and c"]
