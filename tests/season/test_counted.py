"""Minutes and light of a holder, through changes of the clocks, cloud and cloth; light against pvlib."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import Ramp
from greenroom.agronomy.sun_minutes import clear_day_minutes
from greenroom.ledger.facts import CountingSet, OutingEnded, OutingStarted, PlaceSet, SkySeen
from greenroom.season.counted import CLOCK, SUN, counted_days, counted_on, due_at, in_sun_minutes
from greenroom.season.deeds_outdoors import count_by
from greenroom.season.outings import fold_outings
from greenroom.season.place import place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.sky import FORECAST, NOT_KNOWN, SEEN, SKIES, sky_of
from tests.season._yard import ACCRA, FIRST, RIDGE, STEPS, SYDNEY, TRAY, WINNIPEG, Yard, day

MICROMOL_PER_JOULE = 2.018  # Faust and Logan 2018, HortScience 53:1250
CHRISTCHURCH = ("Pacific/Auckland", -43.5, 172.6)


def counted(yard, when=None):
    now = when or yard.at(FIRST + timedelta(days=40), "9:00")
    return counted_days(fold_outings(yard.season.holder_facts(TRAY)), sky_of(yard.season), TRAY, now)


def stretch(yard, start, end, light="sun"):
    key = f"outing-{start.isoformat()}"
    common = {"outing": key, "holder": TRAY}
    local = start.astimezone(yard.zone).date()
    yard.write(
        OutingStarted(day=local, at=start, light=light, **common),
        OutingEnded(day=end.astimezone(yard.zone).date(), at=end, **common),
    )


# --------------------------------------------------------------------------------------- light, and pvlib


@pytest.mark.parametrize("place", [ACCRA, RIDGE, CHRISTCHURCH])
@pytest.mark.parametrize(("clock", "minutes"), [("7:00", 120), ("10:30", 240), ("8:00", 600)])
def test_the_light_of_a_clear_outing_is_pvlibs(place, clock, minutes):
    """Haurwitz clear sky and sun positions of pvlib, minute by minute, at three latitudes."""
    yard = Yard(place)
    yard.out(FIRST, clock, minutes)
    start = pd.Timestamp(yard.at(FIRST, clock))
    stamps = pd.date_range(start, periods=minutes, freq="1min") + pd.Timedelta("30s")
    whole = pd.date_range(start - pd.Timedelta("12h"), periods=1440, freq="1min")

    def clear(when):
        zenith = pvlib.solarposition.get_solarposition(when, place[1], place[2])["zenith"]
        return pvlib.clearsky.haurwitz(zenith)["ghi"]

    found = counted(yard)[FIRST]
    light = clear(stamps).sum()
    assert found.light_mol_m2 == pytest.approx(light * 60e-6 * MICROMOL_PER_JOULE, rel=3e-3)
    assert found.weighed == pytest.approx(light / clear(whole).max(), rel=3e-3)
    assert found.clock == minutes


def test_a_hundred_and_ten_minutes_under_cloud_are_not_a_hundred_and_ten_at_noon():
    """An overcast lets a quarter through: Kasten and Czeplak 1980."""
    noon, cloudy = Yard(), Yard()
    cloudy.write(SkySeen(day=FIRST, at=cloudy.at(FIRST, "7:00"), cloud=1.0))
    for yard in (noon, cloudy):
        yard.out(FIRST, "12:00", 110)
    assert counted(noon)[FIRST].weighed > 105
    assert counted(cloudy)[FIRST].weighed == pytest.approx(counted(noon)[FIRST].weighed / 4, rel=1e-6)
    assert counted(cloudy)[FIRST].clock == counted(noon)[FIRST].clock == 110


def test_light_in_shade_is_not_counted():
    yard = Yard()
    yard.out(FIRST, "10:00", 0, 120, first="shade")
    found = counted(yard)[FIRST]
    assert (found.clock, found.weighed, found.shade, found.light_mol_m2) == (0, 0, 120, 0)


def test_without_a_place_minutes_are_counted_and_light_is_not_known():
    yard = Yard()
    yard.out(FIRST, "10:00", 60)
    (placed,) = yard.season.facts(PlaceSet)
    yard.write(strike=(placed.id,))
    found = counted(yard)[FIRST]
    assert (found.clock, found.weighed, found.light_mol_m2) == (60, None, None)
    assert found.sun(SUN) == 60


# --------------------------------------------------------------------------------------------------- sky


def test_a_look_at_the_sky_holds_to_the_next_and_to_the_end_of_its_day():
    yard = Yard()
    yard.write(
        SkySeen(day=FIRST, at=yard.at(FIRST, "9:00"), cloud=1.0),
        SkySeen(day=FIRST, at=yard.at(FIRST, "11:00"), cloud=0.0),
    )
    sky = sky_of(yard.season)
    assert sky.share(yard.at(FIRST, "8:59")) == (1.0, NOT_KNOWN)
    assert sky.share(yard.at(FIRST, "9:00")) == (0.25, SEEN)
    assert sky.share(yard.at(FIRST, "10:59")) == (0.25, SEEN)
    assert sky.share(yard.at(FIRST, "23:59")) == (1.0, SEEN)
    assert sky.share(yard.at(day(2), "0:00")) == (1.0, NOT_KNOWN)


def test_cloth_lies_over_the_holder_that_was_named_or_over_all():
    yard = Yard()
    yard.write(
        SkySeen(day=FIRST, at=yard.at(FIRST, "9:00"), cloud=0.0, cloth=0.5),
        SkySeen(day=FIRST, at=yard.at(FIRST, "10:00"), cloud=1.0, cloth=0.2, holder=TRAY),
    )
    sky = sky_of(yard.season)
    assert sky.share(yard.at(FIRST, "9:30"), TRAY)[0] == 0.5
    assert sky.share(yard.at(FIRST, "10:30"), TRAY)[0] == pytest.approx(0.25 * 0.8)
    assert sky.share(yard.at(FIRST, "10:30"), "another")[0] == pytest.approx(0.25 * 0.5)


def test_hazy_stands_for_thin_high_cloud():
    """Cirrostratus lets 84 % through: Haurwitz 1948 (from memory); overcast 25 %: Kasten and Czeplak 1980."""
    yard = Yard()
    for number, (word, share) in enumerate((("clear", 1.0), ("hazy", 0.84), ("overcast", 0.25))):
        at = yard.at(FIRST, f"{9 + number}:00")
        yard.write(SkySeen(day=FIRST, at=at, cloud=SKIES[word]))
        assert sky_of(yard.season).share(at)[0] == pytest.approx(share, abs=0.005)


def test_what_was_seen_goes_before_the_forecast_and_its_light_before_its_cloud():
    yard = Yard()
    at = yard.at(FIRST, "12:00")
    zenith = pvlib.solarposition.get_solarposition(
        pd.date_range(at, periods=60, freq="1min") + pd.Timedelta("30s"), *RIDGE[1:]
    )["zenith"]
    clear = pvlib.clearsky.haurwitz(zenith)["ghi"].mean()
    yard.forecast(
        yard.at(FIRST, "6:00"),
        hours=[
            (at, 15.0, 1.0, 3.0, 0.0, clear * 0.6),
            (at + timedelta(hours=1), 15.0, 0.5, 3.0, 0.0, None),
        ],
    )
    sky = sky_of(yard.season)
    share, told = sky.share(at + timedelta(minutes=10))
    assert (share, told) == (pytest.approx(0.6, abs=0.003), FORECAST)
    # 1 - 0.75 x 0.5^3.4 = 0.9289
    assert sky.share(at + timedelta(minutes=70))[0] == pytest.approx(0.9289, abs=1e-4)
    assert sky.share(at + timedelta(minutes=121)) == (1.0, NOT_KNOWN)
    yard.write(SkySeen(day=FIRST, at=at, cloud=1.0))
    assert sky_of(yard.season).share(at + timedelta(minutes=10)) == (0.25, SEEN)


def test_hours_that_are_over_are_kept_from_older_forecasts():
    yard = Yard()
    early, late = yard.at(FIRST, "10:00"), yard.at(day(2), "10:00")
    yard.forecast(yard.at(FIRST, "6:00"), hours=[(early, 15.0, 1.0), (late, 15.0, 1.0)])
    yard.forecast(yard.at(day(2), "6:00"), hours=[(late, 15.0, 0.0)])
    sky = sky_of(yard.season)
    assert sky.share(early)[0] == 0.25
    assert sky.share(late)[0] == 1.0


def test_hours_to_come_that_were_told_of_another_place_are_not_believed():
    yard = Yard()
    past, ahead = yard.at(FIRST, "5:00"), yard.at(FIRST, "12:00")
    yard.forecast(yard.at(FIRST, "6:00"), hours=[(past, 15.0, 1.0), (ahead, 15.0, 1.0)])
    zone, latitude, longitude = WINNIPEG
    yard.write(PlaceSet(day=FIRST, name="Elsewhere", latitude=latitude, longitude=longitude, zone=zone))
    sky = sky_of(yard.season)
    assert sky.share(past) == (0.25, FORECAST)
    assert sky.share(ahead) == (1.0, NOT_KNOWN)


# ------------------------------------------------------------------------------- when the clocks are changed

CHANGES = [
    # zone rules: IANA tz database. Clocks forward and back: Slovenia 2027-03-28 and 2027-10-31,
    # New South Wales 2027-10-03 and 2027-04-04.
    (RIDGE, date(2027, 3, 28), "1:30", "3:30", 60),
    (RIDGE, date(2027, 10, 31), "1:30", "3:30", 180),
    (SYDNEY, date(2027, 10, 3), "1:30", "3:30", 60),
    (SYDNEY, date(2027, 4, 4), "1:30", "3:30", 180),
]


@pytest.mark.parametrize(("place", "night", "out", "back", "minutes"), CHANGES)
def test_an_outing_over_a_change_of_the_clocks_counts_the_minutes_that_passed(
    place, night, out, back, minutes
):
    yard = Yard(place, begun=night - timedelta(days=1))
    stretch(yard, yard.at(night, out), yard.at(night, back), "shade")
    assert counted(yard, yard.at(night + timedelta(days=1), "9:00"))[night].shade == minutes


@pytest.mark.parametrize(
    ("place", "night", "minutes"), [(p, n, 1380 if m == 60 else 1500) for p, n, _, _, m in CHANGES]
)
def test_a_whole_day_of_a_change_has_23_or_25_hours_and_no_ramp_is_given_more_than_24(place, night, minutes):
    yard = Yard(place, begun=night - timedelta(days=1))
    start = yard.at(night - timedelta(days=1), "12:00")
    stretch(yard, start, yard.at(night + timedelta(days=1), "12:00"), "shade")
    found = counted(yard, yard.at(night + timedelta(days=2), "9:00"))
    assert [found[night + timedelta(days=number)].shade for number in (-1, 0, 1)] == [720, minutes, 720]
    assert found[night].outdoors == min(1440, minutes)


@pytest.mark.parametrize(("place", "night", "out", "back", "minutes"), CHANGES)
def test_the_light_of_a_day_is_the_same_whatever_the_clocks_do(place, night, out, back, minutes):
    yard = Yard(place, begun=night - timedelta(days=1))
    where = place_of(yard.season)
    noon = datetime.combine(night, datetime.min.time(), UTC) + timedelta(hours=12 - place[2] / 15)
    stretch(yard, noon - timedelta(hours=2), noon + timedelta(hours=2))
    found = counted(yard, yard.at(night + timedelta(days=1), "9:00"))[night]
    plain = Yard(("UTC", *place[1:]), begun=night - timedelta(days=1))
    stretch(plain, noon - timedelta(hours=2), noon + timedelta(hours=2))
    total = counted(plain, plain.at(night + timedelta(days=2), "9:00"))
    assert where.zone != UTC
    assert found.weighed == pytest.approx(sum(one.weighed for one in total.values()), abs=0.02)
    assert found.light_mol_m2 == pytest.approx(sum(one.light_mol_m2 for one in total.values()), rel=1e-3)


# ---------------------------------------------------------------------------------- counting by the sun


def test_a_tray_counted_by_the_sun_needs_more_of_the_clock_under_cloud():
    yard = Yard()
    yard.do(count_by(yard.season, TRAY, SUN, FIRST))
    yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "9:00"), cloud=1.0))
    yard.out(FIRST, "12:00", 20)
    stand = yard.stand(FIRST, "19:00")
    assert stand.by == SUN
    assert stand.sun.minutes == pytest.approx(5, abs=0.1)
    assert stand.sun.settled is None
    yard.out(FIRST, "13:00", 50)
    assert yard.stand(FIRST, "19:00").sun.settled.after == 1


def test_the_same_outing_counts_for_less_early_in_the_day():
    yard = Yard()
    yard.out(FIRST, "7:30", 20)
    yard.out(day(2), "12:30", 30)
    by_clock = yard.stand(day(3))
    yard.do(count_by(yard.season, TRAY, SUN, FIRST))
    by_sun = yard.stand(day(3))
    assert by_clock.sun.step == 2
    # a third of the noon light at half past seven: 20 minutes are under 16, the next 30 are the first step
    assert by_sun.sun.step == 1


def test_counting_changes_from_the_day_it_was_chosen_and_days_before_keep_theirs():
    yard = Yard()
    yard.out(FIRST, "7:30", 20)
    yard.out(day(2), "7:30", 30)
    yard.do(count_by(yard.season, TRAY, SUN, day(2)))
    stand = yard.stand(day(3))
    assert [walked.after for walked in stand.sun.days] == [1, 1]
    yard.do(count_by(yard.season, TRAY, CLOCK, day(3)))
    yard.out(day(3), "7:30", 30)
    assert yard.stand(day(4)).sun.step == 2


def test_in_sun_minutes_a_ramp_ends_at_a_whole_clear_day():
    place = place_of(Yard().season)
    ramp = in_sun_minutes(Ramp(), FIRST, place)
    clear = clear_day_minutes(FIRST, 46.4, 16.0)
    assert ramp.full_minutes == clear // 5 * 5 == 520
    assert (ramp.start_minutes, ramp.outings) == (20, 11)
    assert in_sun_minutes(Ramp(20, 300), FIRST, place) == Ramp(20, 300)
    dark = place_of(Yard(("Arctic/Longyearbyen", 78.2, 15.6)).season)
    assert in_sun_minutes(Ramp(), date(2027, 12, 21), dark) == Ramp()


def test_a_whole_clear_day_outdoors_is_the_last_step_of_a_ramp_in_sun_minutes():
    yard = Yard(begun=day(1))
    yard.do(count_by(yard.season, TRAY, SUN, FIRST))
    limits = yard.stand(FIRST).sun.ramp.doses
    assert limits[-1] == 520
    yard.out(FIRST, "5:30", 870)
    assert yard.stand(FIRST, "21:30").sun.minutes >= 0.97 * limits[-1]


def test_counting_is_refused_before_hardening_and_by_anything_else():
    yard = Yard(begun=None)
    with pytest.raises(RefusedError, match="is not being hardened"):
        count_by(yard.season, TRAY, SUN, FIRST)
    yard = Yard()
    with pytest.raises(RefusedError, match="choose that day or later"):
        count_by(yard.season, TRAY, SUN, FIRST - timedelta(days=1))
    with pytest.raises(RefusedError, match="the clock or the sun is allowed"):
        count_by(yard.season, TRAY, "moon", FIRST)
    assert count_by(yard.season, TRAY, CLOCK, FIRST).empty


# -------------------------------------------------------------------------------------------- when it is due


def test_by_the_clock_it_is_due_when_the_minutes_have_passed():
    yard = Yard()
    start = yard.at(FIRST, "8:00")
    assert due_at(sky_of(yard.season), TRAY, start, 55, CLOCK, None) == start + timedelta(minutes=55)
    assert due_at(sky_of(yard.season), TRAY, start, 0, SUN, None) == start


@pytest.mark.parametrize("minutes", [5, 40, 155])
def test_by_the_sun_it_is_due_when_the_counter_says_so(minutes):
    yard = Yard()
    yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "9:30"), cloud=0.8))
    start = yard.at(FIRST, "8:00")
    due = due_at(sky_of(yard.season), TRAY, start, minutes, SUN, yard.at(FIRST, "20:10"))
    stretch(yard, start, due)
    assert counted(yard)[FIRST].weighed == pytest.approx(minutes, abs=0.05)


def test_it_is_never_due_after_the_sun_has_set():
    yard = Yard()
    start, dark = yard.at(FIRST, "18:30"), yard.at(FIRST, "20:10")
    assert due_at(sky_of(yard.season), TRAY, start, 60, SUN, dark) is None


# -------------------------------------------------------------------------------------------------- laws


@given(
    st.sampled_from([RIDGE, SYDNEY, WINNIPEG, ACCRA]),
    st.integers(0, 23),
    st.integers(1, 900),
    st.floats(0, 1),
    st.floats(0, 1),
    st.floats(0, 1),
)
def test_more_cloud_or_cloth_never_gives_more_light(place, hour, minutes, one, other, cloth):
    thin, thick = sorted((one, other))
    doses = []
    for cloud, held in ((thick, cloth), (thin, cloth), (thin, cloth / 2)):
        yard = Yard(place)
        yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "0:00"), cloud=cloud, cloth=held))
        start = yard.at(FIRST, f"{hour}:00")
        stretch(yard, start, start + timedelta(minutes=minutes))
        found = counted(yard)
        doses.append(sum(one.light_mol_m2 for one in found.values()))
        assert all(0 <= one.weighed <= one.clock + 1e-9 for one in found.values())
    assert doses[0] <= doses[1] + 1e-9
    assert doses[1] <= doses[2] + 1e-9


@given(st.integers(0, 1380), st.integers(1, 1200), st.integers(0, 1300))
def test_what_a_day_gave_until_a_moment_never_shrinks(begins, lasts, until):
    yard = Yard()
    start = yard.at(FIRST, "0:00") + timedelta(minutes=begins)
    stretch(yard, start, start + timedelta(minutes=lasts))
    outings, sky = fold_outings(yard.season.holder_facts(TRAY)), sky_of(yard.season)
    moments = [yard.at(FIRST, "0:00") + timedelta(minutes=until + more) for more in (0, 30, 130)]
    found = [counted_on(outings, sky, TRAY, FIRST, moment) for moment in moments]
    for earlier, later in pairwise(found):
        assert earlier.clock <= later.clock
        assert earlier.weighed <= later.weighed + 1e-5  # the integral is good to that near sunset


@given(st.lists(st.sampled_from([0, 10, 25, 60, 120, 300]), min_size=1, max_size=8), st.booleans())
def test_a_tray_counted_by_the_sun_never_stands_higher_than_by_the_clock_while_its_steps_are_as_long(
    rows, cloud
):
    yard = Yard()
    for number, minutes in enumerate(rows, start=1):
        if cloud:
            at = yard.at(day(number), "6:00")
            yard.write(SkySeen(day=day(number), at=at, cloud=0.7))
        if minutes:
            yard.out(day(number), "9:00", minutes)
    today = day(len(rows) + 1)
    clock = yard.stand(today).sun.step
    yard.write(CountingSet(day=FIRST, holder=TRAY, by=SUN))
    sun = yard.stand(today).sun
    if sun.ramp.doses[: clock + 1] == tuple(STEPS[: clock + 1]):
        assert sun.step <= clock
