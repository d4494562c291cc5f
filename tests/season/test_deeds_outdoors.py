"""What is noted about sky and step, and the reasons of what is counted."""

import pytest

from greenroom.ledger.facts import SkySeen, YardSun
from greenroom.season.counted import SUN
from greenroom.season.deeds_outdoors import count_by, see_sky, set_yard_sun, strike_sky
from greenroom.season.outdoors_why import counted_why
from greenroom.season.place import place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.sky import FORECAST, NOT_KNOWN, SKIES, sky_now, sky_now_words, sky_word
from tests.season._yard import FIRST, TRAY, Yard


def test_the_sky_is_noted_in_words_with_its_cloth():
    yard = Yard()
    at = yard.at(FIRST, "9:00")
    assert see_sky(yard.season, at, SKIES["hazy"]).name == "saw the sky: hazy"
    act = see_sky(yard.season, at, 0.5, 0.4, TRAY)
    assert act.name == "saw the sky: 50 % cloud, 40 % cloth over Tray C"
    (fact,) = act.record
    assert (fact.day, fact.at, fact.cloud, fact.cloth, fact.holder) == (FIRST, at, 0.5, 0.4, TRAY)
    assert see_sky(yard.season, at, 0.0, 0.4).name.endswith("cloth over all")


@pytest.mark.parametrize(
    ("cloud", "cloth", "said"), [(1.2, 0, "cloud of 120 %"), (0, -0.1, "cloth of -10 %")]
)
def test_more_than_the_whole_sky_is_refused(cloud, cloth, said):
    yard = Yard()
    with pytest.raises(RefusedError, match=said):
        see_sky(yard.season, yard.at(FIRST, "9:00"), cloud, cloth)


def test_a_note_after_local_midnight_belongs_to_the_new_day():
    yard = Yard()
    (fact,) = see_sky(yard.season, yard.at(FIRST, "0:30"), 0.0).record
    assert fact.day == FIRST


@pytest.mark.parametrize(("word", "cloud"), SKIES.items())
def test_a_cover_is_told_by_its_word_and_any_other_by_none(word, cloud):
    assert sky_word(cloud) == word
    assert sky_word(cloud / 2 + 0.2) is None


def test_the_same_hours_on_the_step_are_written_once():
    yard = Yard()
    yard.do(set_yard_sun(yard.season, 520, 910, FIRST))
    assert [(one.first, one.last) for one in yard.season.facts(YardSun)] == [(520, 910)]
    assert set_yard_sun(yard.season, 520, 910, FIRST).empty
    assert set_yard_sun(yard.season, 520, 910, FIRST).name == "noted the sun on the step"


def test_the_reason_for_sun_minutes_shows_clock_weight_and_light():
    yard = Yard()
    yard.do(count_by(yard.season, TRAY, SUN, FIRST))
    yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "7:00"), cloud=1.0))
    yard.out(FIRST, "12:00", 40, 30)
    why = counted_why(yard.stand(FIRST, "14:00"), place_of(yard.season))
    inputs = dict(why.inputs)
    assert why.figure == "9 of 20 minutes of sun today"
    assert inputs["counted by"] == "the sun's strength"
    assert inputs["in the sun by the clock"] == "40 minutes"
    assert inputs["in shade by the clock"] == "30 minutes"
    assert inputs["weighed by the light"] == "9 sun minutes"
    assert inputs["light in the sun"].endswith(" mol/m²")
    assert "clear noon" in why.rule


def test_a_look_struck_out_leaves_the_look_before_it_and_then_the_forecast():
    yard = Yard()
    early, late, now = (yard.at(FIRST, clock) for clock in ("8:00", "9:00", "10:00"))
    yard.do(see_sky(yard.season, early, SKIES["overcast"], 0.0, TRAY))
    yard.do(see_sky(yard.season, late, SKIES["clear"], 0.3, TRAY))
    told = sky_now_words(sky_now(yard.season, TRAY, now), place_of(yard.season))
    assert told == "Seen 9:00: 70% of the light"
    yard.do(strike_sky(yard.season, now))
    assert sky_now(yard.season, TRAY, now).word == "overcast"
    yard.do(strike_sky(yard.season, now))
    assert sky_now(yard.season, TRAY, now).told == NOT_KNOWN
    with pytest.raises(RefusedError, match="not looked at today"):
        strike_sky(yard.season, now)


@pytest.mark.parametrize("cloud", [0.0, 0.3, 0.63, 1.0])
def test_the_forecasts_cloud_is_told_as_it_was_forecast(cloud):
    """Its share, 1 - 0.75 cloud^3.4 by Kasten and Czeplak 1980, is turned back into the cloud."""
    yard = Yard()
    hour = yard.at(FIRST, "9:00")
    yard.forecast(hour, hours=[(hour, 18.0, cloud, 3.0, 0.0)])
    found = sky_now(yard.season, TRAY, hour)
    assert found.cloud == pytest.approx(cloud, abs=1e-6)
    assert found.share == pytest.approx(1 - 0.75 * cloud**3.4)
    assert (found.told, found.seen) == (FORECAST, None)
