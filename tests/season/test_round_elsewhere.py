"""Every job of the round is there with its reason, and goes away when it is done by other means."""

from datetime import date, timedelta

import pytest

from greenroom.ledger.facts import (
    FrostDatesGiven,
    HardeningStarted,
    LampMeasured,
    OutingEnded,
    OutingStarted,
    Packet,
    Variety,
    Wanted,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season import deeds_care, deeds_harden, deeds_plants, deeds_plot, deeds_spots, deeds_tests
from greenroom.season.deeds_care import Feed
from greenroom.season.deeds_plan import choose_sowing
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.home_tests import home_tests
from greenroom.season.picking_ahead import ripe_lots
from greenroom.season.proposal import Proposal
from greenroom.season.spots import SpotKey
from tests.season.round_ground import CELLS, OUT_ON, UP_ON, at, bed, job, planted, seedlings, sown, weather
from tests.season.told import SOWN_ON, Told

MAY = date(2027, 5, 14)
FRUIT = Feed("fruit feed", 4, 2, 8, 100)
BLUE = Feed("blue feed", 15, 5, 15, 100)
TABLE = {}


def row(start, *means):
    """Note a job's first words, how it comes about, and the ways to be done with it elsewhere."""

    def keep(ground):
        TABLE[start] = (ground, means)
        return ground

    return keep


def each(told, deed, places):
    for place in places:
        told.do(deed(place))


def written(*facts):
    return lambda told, day: told.do(Proposal("x", tuple(make(day) for make in facts)))


def into_rack(told, day):
    told.holder("Rack 1", "rack", 1, 6)
    told.do(deeds_spots.move(told.season, CELLS, SpotKey("Rack 1", 0, 0), day))


def all_lost(told, day):
    told.do(deeds_spots.mark_lost(told.season, CELLS, day, "damping-off"))


@row(
    "Sow Old Ember",
    lambda told, day: told.do(deeds_spots.sow(told.season, "p", CELLS, day)),
    written(lambda day: Wanted(day=day, variety="v", year=2027, plants=0)),
)
def _():
    told = _box()
    told.do(choose_sowing(told.season, "v", 2027, date(2027, 3, 1), SOWN_ON))
    return told, date(2027, 3, 12)


@row(
    "Look for Brass Bell",
    lambda told, day: told.do(deeds_spots.mark_up(told.season, CELLS, day)),
    lambda told, day: told.do(deeds_care.look_over(told.season, ["Tray A"], day)),
    all_lost,
)
def _():
    return sown(), SOWN_ON + timedelta(9)


@row(
    "Sow",
    lambda told, day: told.do(deeds_spots.mark_up(told.season, CELLS, day)),
    all_lost,
    lambda told, day: (
        told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS[:2], day))
        or told.do(deeds_spots.mark_lost(told.season, CELLS[2:], day))
    ),
)
def _():
    return sown(), SOWN_ON + timedelta(40)


@row(
    "Thin Tray A",
    lambda told, day: told.do(deeds_spots.mark_lost(told.season, CELLS[:1], day, "weak")),
    lambda told, day: (
        told.holder("Rack 1", "rack", 1, 2)
        and told.do(deeds_spots.move(told.season, CELLS[:1], SpotKey("Rack 1", 0, 0), day))
    ),
)
def _():
    told = sown()
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", CELLS[:1], SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, CELLS[:1], UP_ON, count=2))
    return told, UP_ON + timedelta(12)


@row("Pot up from Tray A", into_rack, all_lost)
def _():
    told = seedlings()
    told.do(deeds_spots.set_leaves(told.season, CELLS, UP_ON + timedelta(20), 4))
    return told, UP_ON + timedelta(20)


@row(
    "Water Tray A",
    lambda told, day: told.do(deeds_care.water(told.season, "Tray A", day, "above")),
    lambda told, day: told.do(deeds_care.feel_mix(told.season, "Tray A", day, "wet")),
    all_lost,
)
def _():
    told = seedlings()
    told.do(deeds_care.feel_mix(told.season, "Tray A", UP_ON, "dry"))
    return told, UP_ON


@row(
    "Empty the basin",
    lambda told, day: told.do(deeds_care.empty_basin(told.season, "Tray A", day)),
    lambda told, day: told.do(deeds_care.water(told.season, "Tray A", day, "above")),
)
def _():
    told = seedlings()
    told.do(deeds_care.water(told.season, "Tray A", UP_ON, "below"))
    return told, UP_ON


@row(
    "Feed Tray A",
    lambda told, day: told.do(deeds_care.feed(told.season, "Tray A", day, BLUE, 0.2)),
    written(lambda day: HardeningStarted(day=day, holder="Tray A")),
)
def _():
    told = seedlings()
    told.do(deeds_spots.set_leaves(told.season, CELLS, UP_ON + timedelta(12), 2))
    return told, UP_ON + timedelta(12)


@row(
    "Lamps on over shelf 1",
    lambda told, day: told.do(deeds_care.set_lamps("Shelf 1", day, 14)),
    written(lambda day: LampMeasured(day=day, place="shelf 1", ppfd=300, lamp="white led", hours=16)),
)
def _():
    return seedlings(), UP_ON


@row(
    "Lamps over shelf 1: 16 hours",
    lambda told, day: told.do(deeds_care.set_lamps("shelf 1", day, 16)),
    written(lambda day: LampMeasured(day=day, place="shelf 1", ppfd=300, lamp="white led", hours=16)),
    all_lost,
)
def _():
    told = seedlings()
    weak = LampMeasured(day=UP_ON, place="shelf 1", ppfd=200, lamp="white led", hours=10)
    told.do(Proposal("measured", (weak,)))
    return told, UP_ON


@row(
    "Cool night for Tray A",
    lambda told, day: told.do(deeds_care.cool_night(told.season, "Tray A", day + timedelta(1), 16)),
    into_rack,
)
def _():
    told = seedlings()
    told.do(deeds_spots.set_leaves(told.season, CELLS, UP_ON + timedelta(30), 4))
    return told, UP_ON + timedelta(30)


@row(
    "Begin hardening Tray A",
    lambda told, day: told.do(deeds_harden.start_hardening(told.season, "Tray A", day)),
    all_lost,
)
def _():
    told = seedlings()
    told.do(Proposal("f", (FrostDatesGiven(day=SOWN_ON, last=date(2000, 5, 16), first=date(2000, 10, 5)),)))
    return told, MAY


@row(
    "Send Tray A out",
    lambda told, day: told.do(deeds_harden.go_out(told.season, "Tray A", at(day))),
    lambda told, day: told.do(deeds_harden.keep_in(told.season, "Tray A", day, "away")),
)
def _():
    told = seedlings()
    told.do(deeds_harden.start_hardening(told.season, "Tray A", MAY))
    return told, MAY


@row("Bring Tray A", lambda told, day: told.do(deeds_harden.come_in(told.season, "Tray A", at(day))))
def _():
    told = seedlings()
    told.do(deeds_harden.start_hardening(told.season, "Tray A", MAY))
    told.do(deeds_harden.go_out(told.season, "Tray A", at(MAY, 8)))
    return told, MAY


@row(
    "Cover South bed",
    lambda told, day: told.do(deeds_plants.cover(told.season, [bed(told)], day)),
    lambda told, day: weather(told, day + timedelta(1), tmin_c=12.0, tmax_c=20.0),
)
def _():
    told = planted()
    weather(told, OUT_ON + timedelta(4), tmin_c=4.0, tmax_c=15.0)
    return told, OUT_ON + timedelta(3)


@row(
    "Set out Tray A",
    lambda told, day: told.do(deeds_plot.set_out(told.season, CELLS, SpotKey(bed(told), 0, 0), day)),
    all_lost,
)
def _():
    """Warm nights all through: the gate opens once the ramp is done."""
    told, first = seedlings(), date(2027, 5, 1)
    told.do(deeds_plot.lay_bed(told.season, "South bed", 1, 6, Rectangle(0, 0, 3, 1), SOWN_ON))
    days = tuple(WeatherDay(date(2027, 5, 1) + timedelta(n), 15.0, 26.0) for n in range(40))
    told.do(Proposal("w", (WeatherRecord(day=first, source="a file", days=days),)))
    begun = HardeningStarted(day=first, holder="Tray A", start_minutes=20, full_minutes=120, outings=7)
    told.do(Proposal("h", (begun,)))
    for number in range(14):
        day = first + timedelta(number)
        common = {"day": day, "outing": f"o{number}", "holder": "Tray A"}
        told.do(Proposal("o", (OutingStarted(at=at(day, 8), light="sun", **common),)))
        told.do(Proposal("o", (OutingEnded(at=at(day, 16), **common),)))
    return told, first + timedelta(14)


@row(
    "Stake South bed",
    lambda told, day: each(
        told,
        lambda column: deeds_plants.stake(told.season, bed(told), day, SpotKey(bed(told), 0, column)),
        range(6),
    ),
)
def _():
    return planted(), OUT_ON


@row(
    "Mulch South bed",
    lambda told, day: told.do(deeds_plants.mulch(told.season, bed(told), day, "straw")),
)
def _():
    return planted(), OUT_ON + timedelta(22)


@row(
    "Look over Tray A",
    lambda told, day: told.do(deeds_care.look_over(told.season, ["Tray A"], day)),
    lambda told, day: told.do(deeds_care.find(told.season, "Tray A", day, "aphids")),
    all_lost,
)
def _():
    return seedlings(), UP_ON + timedelta(7)


@row(
    "Lower leaves off",
    lambda told, day: told.do(
        deeds_plants.prune(told.season, [SpotKey(bed(told), 0, n) for n in range(6)], day, "lower leaves")
    ),
)
def _():
    return planted(), OUT_ON + timedelta(21)


@row(
    "Shift the feed",
    lambda told, day: told.do(deeds_care.feed(told.season, bed(told), day, FRUIT, 6)),
)
def _():
    told = planted()
    told.do(deeds_plants.mark_flower(told.season, [SpotKey(bed(told), 0, 0)], OUT_ON + timedelta(20)))
    return told, OUT_ON + timedelta(20)


@row(
    "Pick Brass Bell",
    lambda told, day: told.do(
        deeds_plants.pick(told.season, "v-Brass Bell", day, 2, spot=SpotKey(bed(told), 0, 3))
    ),
    lambda told, day: told.do(deeds_plants.pick(told.season, "v-Brass Bell", day, 2, ripeness="green")),
)
def _():
    told = planted()
    return told, ripe_lots(told.season, OUT_ON)[0].due


@row(
    "Save seed of Brass Bell",
    lambda told, day: told.do(deeds_plants.save_seed(told.season, "v-Brass Bell", day)),
    written(lambda day: Packet(day=day, packet="new", variety="v-Brass Bell", seeds=60)),
)
def _():
    told, day = planted(), OUT_ON + timedelta(90)
    told.do(deeds_plants.pick(told.season, "v-Brass Bell", day, 3, holder=bed(told)))
    return told, day


@row(
    "Test Old Ember",
    lambda told, day: told.do(deeds_tests.begin_test(told.season, "p", 10, day)),
    written(lambda day: Wanted(day=day, variety="v", year=2027, plants=0)),
)
def _():
    told, day = _box(), date(2027, 2, 20)
    told.do(choose_sowing(told.season, "v", 2027, date(2027, 3, 1), day))
    return told, day


@row(
    "Count the test",
    lambda told, day: told.do(deeds_tests.count_test(told.season, _test(told), day, 1)),
    lambda told, day: told.do(deeds_tests.strike_test(told.season, _test(told))),
)
def _():
    told = seedlings()
    told.do(deeds_tests.begin_test(told.season, "p-Brass Bell", 2, UP_ON))
    return told, UP_ON + timedelta(7)


def _test(told):
    return home_tests(told.season)[0].key


def _box():
    """A packet of 2022, four plants of it wanted, a tray to sow it in."""
    told, day = Told(), date(2027, 2, 1)
    facts = (
        Variety(day=day, variety="v", name="Old Ember", crop="capsicum-annuum"),
        Packet(day=day, packet="p", variety="v", packed=2022, seeds=60),
        Wanted(day=day, variety="v", year=2027, plants=4),
    )
    told.do(Proposal("box", facts))
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    return told


CASES = [(start, number) for start, (_, means) in TABLE.items() for number in range(len(means))]


@pytest.mark.parametrize(("start", "number"), CASES)
def test_a_job_done_by_other_means_goes_away_by_itself(start, number):
    ground, means = TABLE[start]
    told, day = ground()
    found = job(told, day, start)
    assert found is not None
    assert found.reason
    assert found.why.rule
    means[number](told, day)
    assert job(told, day, start) is None
