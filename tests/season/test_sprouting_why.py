"""When a packet can be expected up: by the published table, else by the guide, else not at all."""

from datetime import date

import pytest

from greenroom.guide import load_guide
from greenroom.season.deeds_shelf import SeedEntry, add_packets
from greenroom.season.packets import packets
from greenroom.season.sprouting_why import emergence
from tests.season.told import Told

DAY = date(2027, 2, 20)


@pytest.fixture(scope="module")
def guide():
    return load_guide()


@pytest.fixture
def told():
    return Told()


def expected(told, guide, crop, mix_c, germination=None, **say):
    told.do(add_packets(told.season, [SeedEntry("Some Variety", crop, germination=germination)], DAY))
    told.holder("Tray A", mix_c=mix_c)
    return emergence(told.season, guide, "Tray A", packets(told.season)[0].key, **say)


@pytest.mark.parametrize(
    ("crop", "mix_c", "days"),
    [
        ("bell", 20.0, 13),
        ("bell", 25.0, 8),
        ("tomato", 25.0, 6),
        ("aubergine", 30.0, 5),
        ("lettuce", 15.0, 4),
    ],
)
def test_the_days_are_those_of_the_published_table(told, guide, crop, mix_c, days):
    """Harrington and Minges 1954, days from sowing to emergence."""
    found = expected(told, guide, crop, mix_c)
    assert f"half up in about {days} days at {mix_c:.0f} °C" in found.words
    assert f"{days:.1f} days" in found.why.rule
    assert any("Harrington" in source for source in found.why.sources)


def test_a_kind_that_takes_longer_than_the_tables_lot_says_so(told, guide):
    """The guide's own span for Capsicum chinense: common practice, no source."""
    found = expected(told, guide, "habanero", 25.0)
    assert dict(found.why.inputs)["the guide for Habanero type"] == "10 to 28 days"


def test_a_crop_the_table_lacks_gets_the_guides_span_and_not_the_peppers_days(told, guide):
    """Basil: 5 to 10 days, common practice, no source; pepper at 25 °C would be 8."""
    found = expected(told, guide, "basil", 25.0)
    assert found.words == "up in 5 to 10 days"
    assert not any("Harrington" in source for source in found.why.sources)


def test_a_tray_of_unknown_temperature_gets_the_guides_span(told, guide):
    assert expected(told, guide, "bell", None).words == "up in 7 to 14 days"


@pytest.mark.parametrize("crop", ["bell", None])
def test_too_cold_a_mix_promises_nothing(told, guide, crop):
    """Pepper at 10 °C: none came up. Harrington and Minges 1954."""
    found = expected(told, guide, crop, 10.0)
    assert found.words == "days to come up not known"
    assert "none came up" in found.why.rule


def test_a_crop_nobody_knows_promises_nothing(told, guide):
    found = expected(told, guide, "moonflower", 25.0)
    assert found.words == "days to come up not known"
    assert found.why.sources == ()


def test_the_label_is_told_from_a_guess_at_germination(told, guide):
    assert (
        dict(expected(told, guide, "bell", 25.0, 0.7).why.inputs)["germination expected"]
        == "70 % (on the label)"
    )


def test_no_label_is_said_to_be_no_label(told, guide):
    words = dict(expected(told, guide, "bell", 25.0).why.inputs)["germination expected"]
    assert "the label says nothing" in words


def test_temperatures_are_said_in_the_readers_own_unit(told, guide):
    found = expected(told, guide, "bell", 25.0, say_c=lambda celsius: f"{celsius * 1.8 + 32:.0f} °F")
    assert "77 °F" in found.words
    assert "°C" not in found.why.rule


def test_a_variety_without_a_crop_is_taken_for_a_pepper(told, guide):
    assert "at 25 °C" in expected(told, guide, None, 25.0).words
