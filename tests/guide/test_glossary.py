"""The words of the trade: found by what is typed and in a text, each with its source."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from greenroom.agronomy.climate import degree_days
from greenroom.agronomy.sprouting import interval
from greenroom.agronomy.sunlight import daily_light_integral
from greenroom.guide import GuideError, load_guide
from greenroom.guide.glossary import FROM_MEMORY
from greenroom.guide.glossary_reading import load_glossary
from greenroom.own_files import resources_folder

GLOSSARY = load_glossary()
TERMS = list(GLOSSARY.terms.values())
ASKED = (
    "packet",
    "lot",
    "cell",
    "damping-off",
    "degree days",
    "DLI",
    "mol/m²",
    "EC",
    "dry-down",
    "hold",
    "setback",
    "thinning",
    "potting up",
    "hardening off",
    "night floor",
    "killing night",
    "shrinkage",
    "Kaplan-Meier curve",
)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return Path(
        shutil.copyfile(str(resources_folder() / "help" / "glossary.toml"), tmp_path / "glossary.toml")
    )


@pytest.mark.parametrize("word", ASKED)
def test_a_word_of_the_trade_is_the_first_that_is_found_for_it(word) -> None:
    found = GLOSSARY.find(word)[0]
    assert word.casefold() in [form.casefold() for form in found.forms]


def test_every_word_is_told_in_one_to_three_sentences_with_where_it_is_from() -> None:
    for term in TERMS:
        sentences = re.findall(r"[.!?](?:\s|$)", term.words)
        assert 1 <= len(sentences) <= 3, term.key
        assert len(term.words) <= 300, term.key
        assert term.citations
        if [source.key for source in term.sources] == ["memory"]:
            assert term.citations == (FROM_MEMORY,)


def test_a_word_is_found_by_another_form_of_it_and_by_what_is_told_of_it() -> None:
    assert GLOSSARY.find("photosynth") == []
    assert GLOSSARY.find("F1")[0].name == "hybrid"
    assert GLOSSARY.find("fungi")[0].name == "damping-off"
    assert len(GLOSSARY.find(" ")) == len(TERMS)


def test_words_are_found_in_a_text_as_whole_words_and_the_longest_of_them() -> None:
    text = "1,240 degree days over the base temperature by the first killing night; DLIs, stepping, upset"
    assert [term.key for term in GLOSSARY.in_text(text)] == [
        "degree-days",
        "base-temperature",
        "killing-night",
    ]
    assert GLOSSARY.in_text("every cell of the tray is up") == [], "plain words are not linked"


def test_the_worked_examples_in_the_words_are_right() -> None:
    """20 °C over a base of 10 °C is 10; 8 of 10 by Wilson (1927): 0.490 to 0.943; PPFD x 3600 x h / 10^6."""
    assert degree_days(15, 25, base=10) == 10
    assert "20 °C over a base of 10 °C counts 10" in GLOSSARY.terms["degree-days"].words
    assert interval(8, 10) == pytest.approx((0.490, 0.943), abs=0.001)
    assert "Eight of ten up gives about half to nineteen in twenty" in GLOSSARY.terms["interval"].words
    assert daily_light_integral(226, 16) == pytest.approx(226 * 3600 * 16 / 1e6)


def test_figures_taken_from_the_guide_are_those_of_the_guide() -> None:
    pepper = load_guide().entries["pepper"]
    assert pepper.night_floor_c.value == 10
    assert "10 °C" in GLOSSARY.terms["night-floor"].words
    assert pepper.night_floor_c.source.key in [one.key for one in GLOSSARY.terms["night-floor"].sources]
    outings = pepper.harden_outings.value
    assert (outings.low, outings.high) == (7, 14)
    assert "one to two weeks" in GLOSSARY.terms["hardening-off"].words


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('name = "EC"', "", "glossary.toml, ec, name: is missing; every word has a name"),
        ('name = "EC"', 'name = " "', "ec, name: ' ' is not allowed; a line of text is."),
        ('name = "EC"', 'name = "lux"', "'lux' is written so in"),
        ('name = "EC"', 'name = "EC"\nlinked = 3', "ec, linked: 3 is not allowed; true or false is."),
        ('name = "EC"', 'name = "EC"\nmeans = "salt"', "ec, means: is not a known key; allowed are name,"),
        (
            'name = "EC"',
            'name = "EC"\nsee = ["nowhere"]',
            "ec, see: 'nowhere' is not allowed; the key of another",
        ),
        ("[terms.ec]", "[terms.E_C]", "E_C, key: is not allowed; small letters"),
        ('sources = ["wilson-1927"]', 'sources = ["wilson"]', "'wilson' is not a source; a key of"),
    ],
)
def test_what_is_not_right_in_the_file_is_refused_with_the_place(file, old, new, said) -> None:
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(GuideError) as caught:
        load_glossary(file)
    assert said in str(caught.value)


def test_a_glossary_that_is_not_there_is_told() -> None:
    with pytest.raises(FileNotFoundError, match=r"no file glossary\.toml"):
        load_glossary(Path("nowhere") / "glossary.toml")
