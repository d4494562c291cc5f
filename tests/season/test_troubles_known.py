"""What the record already answers is filled in, with what says so; where it tells nothing, it is asked."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.guide.troubles_reading import load_troubles
from greenroom.ledger.facts import (
    CoolNight,
    Fed,
    Finding,
    HolderPlaced,
    LampMeasured,
    LookedOver,
    MixFelt,
    OutingStarted,
    Watered,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.deeds_spots import sow
from greenroom.season.proposal import Proposal
from greenroom.season.troubles import rank
from greenroom.season.troubles_known import known_answers
from tests.season.told import SOWN_ON, Told, spot

TROUBLES = load_troubles()
TODAY = date(2027, 4, 20)
TRAY = "Tray A"


@pytest.fixture
def told() -> Told:
    made = Told()
    made.holder(TRAY, rows=2, columns=3)
    return made


def ago(days: int) -> date:
    return TODAY - timedelta(days=days)


def known(told: Told, sign: str, holder: str = TRAY):
    return known_answers(told.season, holder, TROUBLES.signs[sign], TODAY)


def write(told: Told, *facts) -> None:
    told.do(Proposal("told", tuple(facts)))


def fed(days: int, ppm: float, holder: str = TRAY) -> Fed:
    return Fed(
        day=ago(days),
        holder=holder,
        feed="feed",
        n_percent=20,
        p2o5_percent=20,
        k2o_percent=20,
        ppm_n=ppm,
        litres=1,
    )


@pytest.mark.parametrize("sign", TROUBLES.signs)
def test_a_record_that_tells_nothing_answers_nothing(told, sign) -> None:
    assert known(told, sign) == {}


@pytest.mark.parametrize(("level", "answer"), [("wet", "wet"), ("moist", "even"), ("dry", "dry")])
def test_a_finger_in_the_mix_goes_before_the_calendar(told, level, answer) -> None:
    write(told, Watered(day=ago(5), holder=TRAY), MixFelt(day=TODAY, holder=TRAY, level=level))
    found = known(told, "wilting")["mix"]
    assert (found.answer, found.words) == (answer, f"felt {level} on 20 April")


@pytest.mark.parametrize(("days", "answer"), [(0, "even"), (1, "even"), (2, "dry"), (9, "dry")])
def test_mix_is_dry_after_the_days_a_cell_lasts(told, days, answer) -> None:
    """Two days for a cell of usual size: common practice, no source."""
    write(told, Watered(day=ago(days), holder=TRAY))
    assert known(told, "wilting")["mix"].answer == answer


def test_water_after_the_finger_counts(told) -> None:
    write(told, MixFelt(day=ago(1), holder=TRAY, level="dry"), Watered(day=TODAY, holder=TRAY))
    assert known(told, "wilting")["mix"].answer == "even"


@pytest.mark.parametrize(("mix_c", "answer"), [(12, "cold"), (22, "warm"), (30, "hot")])
def test_the_warmth_of_the_mix_is_read_against_the_limits_of_the_sign(told, mix_c, answer) -> None:
    write(told, HolderPlaced(day=SOWN_ON, holder=TRAY, place="shelf 1", mix_c=mix_c))
    assert known(told, "purple")["warmth"].answer == answer
    assert known(told, "purple")["warmth"].words == f"mix at {mix_c} °C"


@pytest.mark.parametrize(("hours", "answer"), [(12, "weak"), (24, "enough")])
def test_a_measured_lamp_tells_whether_light_is_weak(told, hours, answer) -> None:
    """200 µmol for 12 h is 8.6 mol a day, for 24 h 17.3; 13 are asked for (Garcia and Lopez 2020)."""
    write(told, LampMeasured(day=SOWN_ON, place="shelf 1", ppfd=200, lux=None, lamp="white led", hours=hours))
    assert known(told, "leggy")["light"].answer == answer


@pytest.mark.parametrize(
    ("facts", "answer"),
    [
        ((fed(3, 100),), "some"),
        ((fed(3, 250),), "some"),
        ((fed(3, 300),), "strong"),
        ((fed(20, 100),), "none"),
        ((fed(3, 100, "other"),), "none"),
    ],
)
def test_feed_is_told_by_the_last_fortnight(told, facts, answer) -> None:
    """A constant feed is 150 to 250 ppm N (growers' text on plug production)."""
    told.holder("other", rows=1, columns=1)
    write(told, *facts)
    assert known(told, "lower-yellow")["fed"].answer == answer


def test_a_cool_night_of_a_tray_answers_for_the_nights(told) -> None:
    write(told, CoolNight(day=ago(1), holder=TRAY, low_c=9))
    assert known(told, "spots")["nights"].answer == "cold"
    assert known(told, "blossom-drop")["nights"].answer == "cold"
    assert "days" not in known(told, "blossom-drop")


def test_a_bed_takes_nights_and_days_from_the_weather(told) -> None:
    told.holder("Bed 1", form="bed", rows=1, columns=2)
    days = tuple(WeatherDay(ago(back), 22.0 + back, 34.0, None, None) for back in (3, 2, 1, 0))
    write(told, WeatherRecord(day=TODAY, source="own", days=days))
    found = known(told, "blossom-drop", "Bed 1")
    assert (found["nights"].answer, found["days"].answer) == ("hot", "hot")
    assert (
        rank(TROUBLES.signs["blossom-drop"], {key: one.answer for key, one in found.items()}).first.cause.key
        == "heat"
    )
    assert known(told, "papery", "Bed 1")["sun"].words == "it stands outdoors"


def test_an_outing_tells_whether_it_stood_in_the_sun(told) -> None:
    at = datetime(2027, 4, 19, 9, tzinfo=UTC)
    write(told, OutingStarted(day=ago(1), outing="o", holder=TRAY, at=at, light="shade"))
    assert known(told, "papery")["sun"].answer == "no"
    write(told, OutingStarted(day=ago(1), outing="p", holder=TRAY, at=at, light="sun"))
    assert known(told, "papery")["sun"].answer == "yes"


@pytest.mark.parametrize(
    ("sign", "answer"),
    [("aphids", "aphids"), ("spider-mites", "mites"), ("broad-mites", "mites"), ("slugs", None)],
)
def test_what_was_found_within_a_fortnight_answers_for_the_undersides(told, sign, answer) -> None:
    write(told, Finding(day=ago(14), holder=TRAY, sign=sign))
    found = known(told, "curling").get("pests")
    assert (found.answer if found else None) == answer


def test_what_was_found_longer_ago_does_not(told) -> None:
    write(told, Finding(day=ago(15), holder=TRAY, sign="aphids"))
    assert "pests" not in known(told, "curling")


def test_a_look_that_found_nothing_since_says_so(told) -> None:
    write(told, Finding(day=ago(9), holder=TRAY, sign="slugs"), LookedOver(day=ago(1), holder=TRAY))
    assert known(told, "curling")["pests"].words == "nothing found on 19 April"


@pytest.mark.parametrize(("days", "answer"), [(3, "soon"), (38, "late")])
def test_whether_a_tray_is_late_follows_from_its_crop_and_its_warmth(told, days, answer) -> None:
    """Peppers at 25 °C are up in about 8 days: Harrington and Minges 1954."""
    write(told, HolderPlaced(day=SOWN_ON, holder=TRAY, place="shelf 1", mix_c=25))
    packet = told.packet("Cinder", seeds=20)
    told.do(sow(told.season, packet, [spot(TRAY, "A1"), spot(TRAY, "A2")], ago(days)))
    found = known(told, "no-emergence")
    assert found["time"].answer == answer
    assert found["warmth"].answer == "warm"
