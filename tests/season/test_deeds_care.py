"""What is done for plants is written as it was done, told in the story, and refused in one sentence."""

from datetime import UTC, date, datetime, timedelta

import pytest

from greenroom.ledger.facts import KINDS, WithinFact
from greenroom.season import deeds_care, deeds_plants, deeds_plot, deeds_round, deeds_spots
from greenroom.season.care_words import care_words
from greenroom.season.deeds_care import Feed
from greenroom.season.deeds_plot import Rectangle
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey, Stage
from greenroom.season.state import Season
from greenroom.season.story import take_back
from tests.ledger.examples import EXAMPLES
from tests.season.told import SOWN_ON, Told, spot, story

UP_ON = SOWN_ON + timedelta(8)
LATER = date(2027, 5, 30)
BEFORE = SOWN_ON - timedelta(1)
FEED = Feed("Blue feed", 15, 5, 15, 100)
GROUND = Rectangle(0, 0, 1.2, 3)


@pytest.fixture
def told():
    """A tray with three seedlings of one lot, a rack without any, and a bed with one set out."""
    told = Told()
    told.packet("Brass Bell", seeds=20)
    told.holder("Tray A", rows=1, columns=6, mix_c=25.0)
    told.holder("Rack 1", form="rack", rows=2, columns=3)
    cells = [SpotKey("Tray A", 0, column) for column in range(4)]
    told.do(deeds_spots.sow(told.season, "p-Brass Bell", cells, SOWN_ON))
    told.do(deeds_spots.mark_up(told.season, cells, UP_ON))
    told.do(deeds_plot.lay_bed(told.season, "South bed", 1, 3, GROUND, SOWN_ON))
    told.do(deeds_plot.set_out(told.season, cells[3:], SpotKey(bed(told), 0, 0), LATER))
    return told


def bed(told):
    return told.season.holders("bed")[0].key


def refused(make):
    with pytest.raises(RefusedError) as caught:
        make()
    sentence = str(caught.value)
    assert sentence.endswith(".")
    assert "\n" not in sentence
    return sentence


def facts_of(told, holder, kind):
    return [entry.fact for entry in told.season.holder_facts(holder) if entry.fact.kind == kind]


def test_what_is_done_for_a_tray_is_kept_with_the_tray(told):
    season = told.season
    told.do(deeds_care.water(season, "Tray A", LATER, weight_g=2100))
    told.do(deeds_care.weigh(season, "Tray A", LATER, 1800))
    told.do(deeds_care.empty_basin(season, "Tray A", LATER))
    told.do(deeds_care.feel_mix(season, "Tray A", LATER, "moist"))
    told.do(deeds_care.feed(season, "Tray A", LATER, FEED, 2.5))
    told.do(deeds_care.cool_night(season, "Tray A", LATER, 8.6))
    told.do(deeds_care.look_over(season, ["Tray A"], LATER))
    told.do(deeds_care.find(season, "Tray A", LATER, "aphids", count=3, where="under the leaves"))
    words = [care_words(season, entry.fact) for entry in season.holder_facts("Tray A")]
    assert [one for one in words if one is not None] == [
        "watered from below, 2,100 g after",
        "weighed 1,800 g",
        "basin emptied",
        "mix moist to the finger",
        "fed 2.5 L of Blue feed (15-5-15) at 100 ppm N",
        "cool night, down to 9 °C",
        "looked over",
        "found 3 aphids, under the leaves",
    ]


def test_the_story_of_a_plant_goes_on_after_it_is_set_out(told):
    season, key = told.season, SpotKey(bed(told), 0, 0)
    told.do(deeds_care.find(season, key.holder, LATER, "flea-beetles", spot=key))
    told.do(deeds_plants.stake(season, key.holder, LATER, key))
    told.do(deeds_plants.prune(season, [key], LATER, "lower leaves"))
    told.do(deeds_plants.mark_flower(season, [key], LATER))
    told.do(deeds_plants.pick(season, "v-Brass Bell", LATER, 12, spot=key, grams=80.5, ripeness="green"))
    told.do(deeds_plants.save_seed(season, "v-Brass Bell", LATER, spot=key, count=40))
    lines = story(season, key)
    assert [line.words for line in lines][-6:] == [
        "found flea beetles",
        "staked",
        "lower leaves taken off",
        "first flower open",
        "picked 12 green of Brass Bell, 80.5 g",
        "40 seeds saved of Brass Bell",
    ]
    assert season.spot(key).stage is Stage.UP
    told.do(take_back(season, lines[-1]))
    assert [line.words for line in story(season, key)][-1] == lines[-2].words


@pytest.mark.parametrize("kind", [kind for kind, cls in KINDS.items() if issubclass(cls, WithinFact)])
def test_every_kind_about_a_spot_has_words_of_its_own(kind):
    for fact in EXAMPLES[kind]:
        assert care_words(Season(), fact) not in (None, fact.words)


def test_every_new_kind_about_a_holder_or_spot_is_told_in_words():
    plain = ("weighed", "basin_emptied", "mix_felt", "fed", "lamps_set", "mulched", "covered", "soil_felt")
    for kind in (*plain, "pruned", "flowered", "picked", "seed_saved", "picture_kept", "bed_laid"):
        for fact in EXAMPLES[kind]:
            assert care_words(Season(), fact)


def test_covering_and_soil_are_told_on_the_clock_of_the_place(told):
    season = told.season
    until = datetime(2027, 5, 31, 6, 0, tzinfo=UTC)
    told.do(deeds_plants.cover(season, [bed(told)], LATER, until))
    told.do(deeds_plants.feel_soil(season, 14.4, until, bed(told)))
    words = [care_words(season, entry.fact) for entry in season.holder_facts(bed(told))]
    assert "covered until 6:00 on 31 May" in words
    assert "soil at 14 °C at 6:00" in words


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda s: deeds_care.water(s, "gone", LATER), "is not there any more"),
        (lambda s: deeds_care.water(s, "Tray A", BEFORE), "in use since 12 March"),
        (lambda s: deeds_care.water(s, "Tray A", LATER, weight_g=0), "1 to 200,000 g is allowed"),
        (lambda s: deeds_care.weigh(s, "Tray A", LATER, 300_000), "1 to 200,000 g is allowed"),
        (lambda s: deeds_care.feed(s, "Rack 1", LATER, FEED, 1), "no living plant that could be fed"),
        (lambda s: deeds_care.feed(s, "Tray A", LATER, FEED, 0), "0.001 to 10,000 are allowed"),
        (lambda s: deeds_care.feed(s, "Tray A", LATER, Feed(" ", 1, 1, 1, 1), 1), "needs a name"),
        (lambda s: deeds_care.feed(s, "Tray A", LATER, Feed("x", 1, 1, 1, 9000), 1), "0 to 2,000"),
        (lambda s: deeds_care.set_lamps(" ", LATER, 16), "name of the shelf"),
        (lambda s: deeds_care.set_lamps("shelf 1", LATER, 25), "0 to 24 are allowed"),
        (lambda s: deeds_care.set_lamps("shelf 1", LATER, 16, -1), "0 to 500 is allowed"),
        (lambda s: deeds_care.cool_night(s, "Rack 1", LATER, 8), "no living plant"),
        (lambda s: deeds_care.cool_night(s, "Tray A", LATER, 60), "-20 to 30 °C is allowed"),
        (lambda s: deeds_care.look_over(s, [], LATER), "Nothing is chosen"),
        (lambda s: deeds_care.find(s, "Tray A", LATER, " "), "Choose what was seen"),
        (lambda s: deeds_care.find(s, "Tray A", LATER, "x", spot=spot("Tray A", "B9")), "has no B9"),
        (lambda s: deeds_plants.prune(s, [spot("Tray A", "A1")], LATER, "roots"), "lower leaves, tip"),
        (lambda s: deeds_plants.prune(s, [], LATER, "tip"), "No plant is chosen"),
        (lambda s: deeds_plants.prune(s, [spot("Tray A", "A6")], LATER, "tip"), "No plant stands in A6"),
        (lambda s: deeds_plants.stake(s, "Rack 1", LATER), "no living plant that could be staked"),
        (lambda s: deeds_plants.stake(s, "Tray A", LATER, spot("Tray A", "C1")), "has no C1"),
        (lambda s: deeds_plants.pick(s, "v-none", LATER, 1), "variety is not in the seed box"),
        (lambda s: deeds_plants.pick(s, "v-Brass Bell", LATER, 0), "1 to 10,000 are allowed"),
        (lambda s: deeds_plants.pick(s, "v-Brass Bell", LATER, 1, grams=0), "0.1 to 100,000"),
        (lambda s: deeds_plants.pick(s, "v-Brass Bell", LATER, 1, ripeness="raw"), "green, turning, ripe"),
        (lambda s: deeds_plants.save_seed(s, "v-Brass Bell", LATER, count=0), "1 to 1,000,000"),
        (lambda s: deeds_plants.cover(s, [], LATER), "Nothing is chosen to be covered"),
        (lambda s: deeds_plants.feel_soil(s, 90, datetime(2027, 5, 30, 8, tzinfo=UTC)), "-30 to 60 °C"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(told, make, words):
    assert words in refused(lambda: make(told.season))


def test_a_dry_weight_must_be_lighter_than_a_soaked_one(told):
    told.do(deeds_care.weigh(told.season, "Tray A", LATER, 2000, "wet"))
    sentence = refused(lambda: deeds_care.weigh(told.season, "Tray A", LATER, 2000, "dry"))
    assert "dry must be the lighter" in sentence
    told.do(deeds_care.weigh(told.season, "Tray A", LATER, 1100, "dry"))
    assert len(facts_of(told, "Tray A", "weighed")) == 2


def test_a_cool_night_is_noted_once(told):
    told.do(deeds_care.cool_night(told.season, "Tray A", LATER, 9))
    assert "noted already" in refused(lambda: deeds_care.cool_night(told.season, "Tray A", LATER, 9))


def test_a_first_flower_is_noted_once_for_each_plant(told):
    season, cells = told.season, [spot("Tray A", "A1"), spot("Tray A", "A2")]
    told.do(deeds_plants.mark_flower(season, cells[:1], LATER))
    both = deeds_plants.mark_flower(season, cells, LATER)
    assert [fact.column for fact in both.record] == [1]
    assert "noted already" in refused(lambda: deeds_plants.mark_flower(season, cells[:1], LATER))


def test_nothing_is_done_to_a_plant_in_a_bed_before_it_stood_there(told):
    key = SpotKey(bed(told), 0, 0)
    early = LATER - timedelta(1)
    assert "moved there on 30 May" in refused(lambda: deeds_plants.prune(told.season, [key], early, "tip"))


def test_what_was_put_away_is_not_tended(told):
    told.do(Proposal("away", (EXAMPLES["holder_retired"][0].__class__(day=LATER, holder="Rack 1"),)))
    assert "was put away" in refused(lambda: deeds_care.water(told.season, "Rack 1", LATER))


def test_a_job_is_put_off_until_tomorrow_unless_a_day_is_named():
    (fact,) = deeds_round.put_off("feed Tray A", "Feed Tray A", LATER).record
    assert fact.until == LATER + timedelta(1)
    for until in (LATER, LATER - timedelta(1), LATER + timedelta(400)):
        words = refused(lambda until=until: deeds_round.put_off("x", "Feed Tray A", LATER, until))
        assert "within a year ahead" in words


def test_a_job_struck_out_can_be_brought_back():
    told = Told()
    assert "neither put off" in refused(lambda: deeds_round.bring_back(told.season, "mulch", "Mulch"))
    told.do(deeds_round.strike_out(told.season, "mulch", "Mulch", LATER))
    assert "already" in refused(lambda: deeds_round.strike_out(told.season, "mulch", "Mulch", LATER))
    told.do(deeds_round.bring_back(told.season, "mulch", "Mulch"))
    told.do(deeds_round.strike_out(told.season, "mulch", "Mulch", LATER))
    assert "wrote nothing" in refused(lambda: deeds_round.take_back("Mulch", ()))
