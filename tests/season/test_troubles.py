"""Causes ranked: textbook pictures come out as the textbooks say, whatever the order of asking."""

from __future__ import annotations

from itertools import permutations, product

import pytest

from greenroom.guide.troubles_reading import load_troubles
from greenroom.season.place import Place
from greenroom.season.troubles import FACTOR, START, Known, next_question, rank
from greenroom.season.troubles_why import in_unit, ranking_why

TROUBLES = load_troubles()
SIGNS = list(TROUBLES.signs.values())
EACH_SIGN = pytest.mark.parametrize("sign", SIGNS, ids=[sign.key for sign in SIGNS])
EACH_QUESTION = pytest.mark.parametrize(
    ("sign", "question"), [(sign, one) for sign in SIGNS for one in sign.questions]
)

TEXTBOOK = [
    # new leaves yellow between the veins, pH above 7: iron (University of Maryland; Pacific Northwest key)
    ("between-veins", {"which": "young", "water": "high"}, "iron", "umd-iron"),
    # lower leaves yellow between the veins: magnesium is mobile (South Dakota State University Extension)
    ("between-veins", {"which": "old"}, "magnesium", "sdsu-magnesium"),
    # rapid death of very young seedlings, avoid overwatering (Michigan State University Extension)
    ("damping-off", {"stem": "pinched", "mix": "wet"}, "damping-off", "msu-damping-off"),
    # one side of the stem bleached, outdoors (Rutgers)
    ("damping-off", {"stem": "bleached", "sun": "yes"}, "stem-scald", "rutgers-stem"),
    # wet soil, cool humid nights, corky growth below the leaf (Utah State University Extension)
    ("edema", {"mix": "wet", "air": "close", "bumps": "corky"}, "edema", "usu-edema"),
    # dry then moist soil; calcium to the leaves does not help (Ohio State University VegNet 2020)
    ("blossom-end", {"where": "end", "water": "swing"}, "blossom-end-rot", "osu-vegnet"),
    # on the part exposed to the sun, dry and papery (Ohio State University VegNet 2020)
    ("blossom-end", {"where": "sun", "colour": "white"}, "fruit-sunscald", "osu-vegnet"),
    # low light stretches seedlings; tubes 5 to 8 cm above the leaves (Utah State University Extension)
    ("leggy", {"light": "weak"}, "low-light", "usu-seedlings"),
    # a root zone below 60 °F blocks phosphorus (University of Maryland)
    ("purple", {"warmth": "cold", "kind": "some"}, "cold-phosphorus", "umd-phosphorus"),
    # nitrogen: pale, old leaves first, growth stunted (Pennsylvania State University)
    ("lower-yellow", {"fed": "none", "rest": "pale"}, "nitrogen", "psu-nitrogen"),
    # wilting may be over-watering (Iowa State University)
    ("wilting", {"mix": "wet", "nights": "mild"}, "drowned", "iastate-wilt"),
    ("wilting", {"mix": "dry"}, "thirst", "iastate-wilt"),
    # plants wilt on wet soil at 0 to 13 °C (Purdue University)
    ("wilting", {"mix": "wet", "nights": "cold"}, "cold-roots", "purdue-cold"),
    # leaves curl downward and inward, youngest leaves (University of California IPM)
    ("curling", {"pests": "aphids", "which": "down"}, "aphids", "uc-ipm"),
    # twisted curled leaves on new growth (University of Georgia Extension)
    ("curling", {"pests": "none", "which": "tips"}, "broad-mites", "uga-broad-mite"),
    # 2,4-D and dicamba twist tomato leaves; residue in compost and hay (Texas A&M E-626)
    ("curling", {"heat": "spray", "which": "strap"}, "herbicide", "tamu-e626"),
    # angular water-soaked spots, wet seasons (North Carolina, note 18)
    ("spots", {"look": "angular", "wet": "yes"}, "bacterial-spot", "ncsu-bacterial-spot"),
    # yellow patches above, brownish powder below, older leaves first (Ontario ministry)
    ("spots", {"look": "powder"}, "powdery-mildew", "omafra-mildew"),
    # leaves water-soaked or dark the day after a night below 10 °C (Michigan State University)
    ("spots", {"look": "soaked", "nights": "cold"}, "chill", "msu-lopez-2022"),
    # papery patches only where the sun hit (Brust, University of Maryland)
    ("papery", {"sun": "yes", "where": "sunny"}, "sunscald", "brust"),
    # days above 30 to 32 °C, nights above 21 °C (Ontario ministry)
    ("blossom-drop", {"days": "hot", "nights": "hot"}, "heat", "omafra-drop"),
    # nights at or below 14 °C spoil pollen (Mercado et al. 1997)
    ("blossom-drop", {"nights": "cold"}, "cold", "mercado-1997"),
    # margins of young leaves brown in low transpiration (University of California IPM; Cornell)
    ("tip-burn", {"which": "young", "air": "close"}, "calcium", "grundberg"),
    # margins of older leaves yellow and die where salts are high (Texas A&M)
    ("tip-burn", {"which": "old", "fed": "strong"}, "salts", "tamu-salts"),
    # rings and necrotic patterns, carried by thrips (Ontario ministry)
    ("mottled", {"look": "rings", "pests": "thrips"}, "spotted-wilt", "omafra-virus"),
    # silvery slime trails, irregular holes (University of Minnesota Extension)
    ("holes", {"kind": "ragged", "trace": "slime"}, "slugs", "umn-slugs"),
    # small round "shothole" damage by shiny jumping beetles (Iowa State University)
    ("holes", {"kind": "shot"}, "flea-beetles", "iastate-flea-beetles"),
    # in mix of 10 °C no pepper came up (Harrington and Minges 1954)
    ("no-emergence", {"warmth": "cold", "time": "late"}, "cold-mix", "harrington-minges-1954"),
]


@pytest.mark.parametrize(("sign", "answers", "cause", "source"), TEXTBOOK)
def test_a_textbook_picture_gives_the_textbook_cause_with_its_source(sign, answers, cause, source) -> None:
    first = rank(TROUBLES.signs[sign], answers).first
    assert first.cause.key == cause
    assert source in {one.key for one in first.cause.sources}


@EACH_QUESTION
def test_every_question_can_change_which_cause_comes_first(sign, question) -> None:
    firsts = {rank(sign, {question.key: answer}).first.cause.key for answer in question.answers}
    assert len(firsts) > 1


@EACH_SIGN
def test_every_cause_comes_first_for_some_answers(sign) -> None:
    keys = [question.key for question in sign.questions]
    every = product(*(question.answers for question in sign.questions))
    firsts = {rank(sign, dict(zip(keys, answers, strict=True))).first.cause.key for answers in every}
    assert firsts == {cause.key for cause in sign.causes}


@EACH_SIGN
def test_the_order_of_asking_never_changes_the_ranking(sign) -> None:
    answers = {question.key: list(question.answers)[-1] for question in sign.questions}
    rankings = [rank(sign, dict(order)) for order in permutations(answers.items())]
    assert all(one == rankings[0] for one in rankings)


@EACH_SIGN
def test_shares_add_up_to_one_and_fall(sign) -> None:
    for question in sign.questions:
        for answer in question.answers:
            shares = [one.share for one in rank(sign, {question.key: answer}).causes]
            assert sum(shares) == pytest.approx(1)
            assert shares == sorted(shares, reverse=True)


def test_what_speaks_for_a_cause_weighs_as_much_as_what_speaks_against_it() -> None:
    assert FACTOR["++"] * FACTOR["--"] == pytest.approx(1)
    assert FACTOR["+"] * FACTOR["-"] == pytest.approx(1)
    assert START["often"] > START["at times"] > START["seldom"]


def test_without_answers_the_commonest_cause_stands_first_in_the_order_of_the_guide() -> None:
    ranking = rank(TROUBLES.signs["leggy"])
    assert ranking.first.cause.key == "low-light"
    assert ranking.first.share == pytest.approx(4 / (4 + 2 + 2))


def test_the_next_question_is_the_one_that_tells_most_until_none_is_left() -> None:
    sign = TROUBLES.signs["between-veins"]
    answers: dict[str, str] = {}
    while (question := next_question(rank(sign, answers))) is not None:
        answers[question.key] = next(iter(question.answers))
    assert answers.keys() == {question.key for question in sign.questions}
    assert next(iter(answers)) == "which"


def test_an_answer_nobody_can_give_is_refused() -> None:
    with pytest.raises(ValueError, match="weak, enough are allowed"):
        rank(TROUBLES.signs["leggy"], {"light": "blue"})
    with pytest.raises(LookupError):
        rank(TROUBLES.signs["leggy"], {"moon": "full"})


def test_the_why_shows_every_answer_every_weight_and_every_source() -> None:
    ranking = rank(TROUBLES.signs["leggy"], {"light": "weak", "crowd": "no"})
    known = {"light": Known("weak", "6.1 mol a day of 13 over shelf 1")}
    why = ranking_why(ranking, known, Place())
    inputs = dict(why.inputs)
    assert inputs["How much light do they get?"].endswith(
        "(from your record: 6.1 mol a day of 13 over shelf 1)"
    )
    assert inputs["How warm do they stand?"] == "not answered"
    assert inputs["Too little light"] == "4 × 9 × 3 = 108, 98 %".replace(" %", "%")
    assert inputs["Crowded"].startswith("2 × 1/9 = 0.222")
    assert "Garcia, C. and Lopez, R. G. (2020): HortScience 55:804" in why.sources
    assert "working weights" in why.rule


def test_temperatures_of_the_guide_are_read_in_the_growers_unit() -> None:
    """20 °C is 68 °F, 30 °C is 86 °F: exact by definition."""
    fahrenheit = Place(temperature="f")
    assert in_unit("20 to 30 °C; above 10 °C", fahrenheit) == "68 to 86 °F; above 50 °F"
    assert in_unit("20 to 30 °C", Place()) == "20 to 30 °C"


@pytest.mark.parametrize("text", ["15,6 °C", "15.6\u00a0°C", "15,6\u202f°C", "15.6 °C"])
def test_a_temperature_is_read_with_the_decimal_sign_and_the_space_of_any_language(text: str) -> None:
    """15.6 °C is 60.08 °F: exact by definition."""
    assert in_unit(f"unter {text}", Place(temperature="f")) == "unter 60 °F"
