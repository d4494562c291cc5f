"""The reasons beside a sprouting curve give its figures with their interval and their source."""

from datetime import date

import pytest
from statsmodels.stats.proportion import proportion_confint

from greenroom.season import deeds_spots
from greenroom.season.curve_why import curve_why
from greenroom.season.resow import resow_advice
from greenroom.season.spots import SpotKey
from greenroom.season.sprouting import sprout_curve
from tests.season.told import SOWN_ON, Told

TODAY = date(2027, 4, 20)


@pytest.fixture
def told():
    told = Told()
    told.packet("Brass Bell", germination=0.9)
    told.holder("Tray A", rows=2, columns=5, mix_c=25.0)
    cells = [SpotKey("Tray A", row, column) for row in range(2) for column in range(5)]
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", cells, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, cells[:7], date(2027, 3, 20)))
    return told


def test_the_share_up_comes_with_its_interval(told):
    """Expected: statsmodels' Wilson interval of 7 in 10."""
    why = curve_why(told.season, "Tray A", sprout_curve(told.season, "Tray A", TODAY))
    low, high = proportion_confint(7, 10, method="wilson")
    assert why.figure == "7 of 10 up"
    assert f"{low * 100:.0f} % to {high * 100:.0f} %" in dict(why.inputs)["such a share could come from"]


def test_the_expected_days_are_those_of_the_published_table(told):
    """Pepper at 25 °C: 8 days. Harrington and Minges 1954, days from sowing to emergence."""
    why = curve_why(told.season, "Tray A", sprout_curve(told.season, "Tray A", TODAY))
    assert dict(why.inputs)["Brass Bell"] == "half up by day 8.0, 90 % expected to germinate"
    assert any("Harrington" in source for source in why.sources)


def test_temperatures_in_the_reasons_are_said_in_the_readers_unit(told):
    """25 °C is 77 °F: NIST SP 811, B.8."""
    curve = sprout_curve(told.season, "Tray A", TODAY)
    in_f = lambda celsius: f"{celsius * 1.8 + 32:.0f} °F"  # noqa: E731 shorter than a function here
    assert dict(curve_why(told.season, "Tray A", curve, in_f).inputs)["temperature of the mix"] == "77 °F"
    (advice,) = resow_advice(told.season, "Tray A", TODAY, in_f)
    assert dict(advice.why.inputs)["temperature of the mix"] == "77 °F"
