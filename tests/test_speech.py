"""What is said in another language: its words, its forms for numbers, its signs."""

import pytest

from greenroom.speech import SPEAKER, Tongue, figure, many, tr, trn
from tests.pseudo import TONGUE, pseudo

FORMS = {"{n:,} days": ("{n} Tag", "{n:,} Tage"), "{n} cells up": ("eine Zelle", "{n} Zellen")}


@pytest.fixture
def speaking():
    """Speak a tongue for one test only."""
    before = SPEAKER.tongue
    yield SPEAKER.speak
    SPEAKER.speak(before)


def german(source, sense, number):
    if number is not None:
        return FORMS[source][0 if number == 1 else 1] if source in FORMS else ""
    return {
        ("{litres:.1f} L a day", ""): "{litres:.1f} L am Tag",
        ("Light", "of lamps"): "Licht",
        ("Light", "of weight"): "leicht",
    }.get((source, sense), "")


GERMAN = Tongue("de", german, ",", ".")


def test_without_a_language_chosen_everything_is_english_and_unchanged():
    assert tr("{litres:.1f} L a day", litres=1.25) == "1.2 L a day"
    assert tr("braces {as they are}") == "braces {as they are}"
    assert (many(1, "day"), many(1200, "day")) == ("1 day", "1,200 days")
    assert trn("1 cell up", "{n} cells up", 3) == "3 cells up"
    assert figure(1234.5, ",.1f") == "1,234.5"


def test_decimal_sign_and_grouping_are_those_of_the_language(speaking):
    # German numbers: comma for the decimals, point between thousands (Unicode CLDR, de; from memory).
    speaking(GERMAN)
    assert tr("{litres:.1f} L a day", litres=1.25) == "1,2 L am Tag"
    assert figure(1234.5, ",.1f") == "1.234,5"
    assert many(1200, "day") == "1.200 Tage"
    # DIN 5008 and Unicode CLDR (de, fr, es) set the per cent sign apart; from memory.
    assert figure(0.853, ".0%") == "85\N{NO-BREAK SPACE}%"


def test_what_counts_takes_the_form_of_its_number(speaking):
    speaking(GERMAN)
    assert (trn("1 cell up", "{n} cells up", 1), trn("1 cell up", "{n} cells up", 2)) == (
        "eine Zelle",
        "2 Zellen",
    )
    assert many(1, "day") == "1 Tag"


def test_one_english_word_with_two_meanings_has_two_translations(speaking):
    speaking(GERMAN)
    assert (tr("Light", sense="of lamps"), tr("Light", sense="of weight")) == ("Licht", "leicht")


def test_what_the_catalogue_lacks_is_said_in_english_with_the_signs_of_the_language(speaking):
    speaking(GERMAN)
    assert tr("{depth:.2f} in", depth=0.5) == "0,50 in"


def test_the_marked_language_keeps_values_and_markup_and_takes_a_third_more_room(speaking):
    speaking(TONGUE)
    assert tr("{n} of {name:>4} <b>up</b>", n=1, name="ab") == "1 óóf   ab <b>úúp</b>"
    told = "Give the seedlings light and water as soon as they are up"
    assert len(pseudo(told)) >= 1.3 * len(told)
