"""A seed list need not spell a crop as the guide does."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.guide import Guide, load_guide
from greenroom.guide.matching import best_match, words_of

GUIDE = load_guide()


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("C. chinense", "capsicum-chinense"),
        ("chinense", "capsicum-chinense"),
        ("CAPSICUM CHINENSE", "capsicum-chinense"),
        ("Capsicum annuum jalapeno", "jalapeno"),
        ("Jalapeños", "jalapeno"),
        ("annuum - bell", "bell"),
        ("Bell Peppers", "bell"),
        ("sweet bell pepper", "bell"),
        ("C. annuum", "capsicum-annuum"),
        ("C. annum", "capsicum-annuum"),
        ("pepper", "pepper"),
        ("Chilies", "pepper"),
        ("Rocoto pepper", "rocoto"),
        ("pubescens", "capsicum-pubescens"),
        ("C. baccatum, ají amarillo", "aji"),
        ("Bishop’s crown", "hat-pepper"),
        ("super-hot chinense", "superhot"),
        ("frutescens tabasco", "sauce-pepper"),
        ("Capsicum annuum var. glabriusculum", "chiltepin"),
        ("Ornamental peppers", "ornamental-pepper"),
        ("tomatoes", "tomato"),
        ("Tomato, cherry", "tomato-cherry"),
        ("cherry peppers", "cherry-pepper"),
        ("eggplant", "aubergine"),
        ("Solanum melongena", "aubergine"),
        ("brussel sprouts", "brussels-sprouts"),
        ("zucchini", "summer-squash"),
        ("sweet basil", "basil"),
        ("pot marigold", "calendula"),
        ("marigold", "french-marigold"),
        ("winter leeks", "leek"),
        ("Ground cherries", "ground-cherry"),
        ("radishes, tomatoes", "tomato"),
    ],
)
def test_loose_names_find_their_crop(text: str, key: str) -> None:
    found = GUIDE.find(text)
    assert found is not None
    assert found.key == key


@pytest.mark.parametrize(
    "text", ["", "  ", "12", "cherry", "C. chinense jalapeño", "lemon", "cucumber or melon"]
)
def test_what_is_not_clear_is_left_to_the_grower(text: str) -> None:
    assert GUIDE.find(text) is None


@pytest.mark.parametrize("crop", GUIDE.crops, ids=lambda crop: crop.key)
def test_every_crop_is_found_by_its_name_its_key_and_each_alias(crop) -> None:
    for text in (crop.name, crop.key, *crop.aliases):
        assert GUIDE.find(text) == crop, text


@pytest.mark.parametrize(
    "crop", [crop for crop in GUIDE.crops if crop.rank != "type"], ids=lambda crop: crop.key
)
def test_every_species_is_found_by_its_botanical_name(crop) -> None:
    assert GUIDE.find(crop.latin) == crop


@given(st.text(max_size=40))
def test_no_text_upsets_the_search(text: str) -> None:
    found = GUIDE.find(text)
    assert found is None or found in GUIDE.crops


@given(st.sampled_from(GUIDE.crops), st.randoms(use_true_random=False))
def test_the_order_of_the_words_does_not_matter(crop, random) -> None:
    words = crop.name.replace("(", " ").replace(")", " ").split()
    random.shuffle(words)
    assert GUIDE.find(" ".join(words)) == crop


def test_a_crop_is_looked_up_by_its_key() -> None:
    assert GUIDE.crop("habanero").name == "Habanero type"


def test_a_key_that_is_not_there_is_told_with_the_nearest() -> None:
    with pytest.raises(LookupError, match=r"no crop 'habanera'; the nearest is 'habanero'\.$"):
        GUIDE.crop("habanera")
    with pytest.raises(LookupError, match=r"no crop 'qqqq'\.$"):
        GUIDE.crop("qqqq")


def test_kinds_are_listed_under_their_species_and_genus() -> None:
    assert {crop.key for crop in GUIDE.types_of("capsicum-pubescens")} == {"rocoto"}
    assert {"capsicum-annuum", "bell", "rocoto"} < {crop.key for crop in GUIDE.types_of("pepper")}
    assert GUIDE.lineage("rocoto") == (
        "rocoto",
        "capsicum-pubescens",
        "pepper",
        "vegetable-seedling",
        "seedling",
    )


def test_groups_are_those_of_the_files_that_hold_crops() -> None:
    assert {"peppers", "tomatoes", "flowers"} < set(GUIDE.groups)
    assert "common" not in GUIDE.groups


def test_an_empty_guide_finds_nothing() -> None:
    assert Guide({}, {}).find("pepper") is None


def test_a_name_shared_with_the_species_means_the_species() -> None:
    names = {"pepper": [words_of("red pepper")], "red": [words_of("red")]}
    lineage = {"pepper": ["pepper"], "red": ["red", "pepper"]}
    assert best_match("red pepper", names, lineage) == "pepper"
    assert best_match("red", names, lineage) == "red"


@pytest.mark.parametrize(
    ("several", "one"),
    [
        ("cherries", "cherry"),
        ("tomatoes", "tomato"),
        ("radishes", "radish"),
        ("leeks", "leek"),
        ("peas", "pea"),
    ],
)
def test_a_plural_is_read_as_its_singular(several: str, one: str) -> None:
    assert words_of(several) == words_of(one) == {one}


@pytest.mark.parametrize("word", ["asparagus", "watercress", "cassis", "its"])
def test_an_s_that_is_no_plural_stays(word: str) -> None:
    assert words_of(word) == {word}
