"""Words are put into a sentence as its language has it."""

import pytest

from greenroom.season.within import in_row, inside, opening, within
from greenroom.speech import SPEAKER, Tongue


@pytest.fixture
def german():
    before = SPEAKER.tongue
    SPEAKER.speak(Tongue("de", point=",", group="."))
    yield
    SPEAKER.speak(before)


def test_a_name_is_small_within_an_english_sentence():
    assert (within("Bell Pepper"), inside("Too little Light")) == ("bell pepper", "too little Light")


def test_a_german_noun_keeps_its_capital(german):
    """Official rules of German spelling, paragraph 55, from memory: nouns begin with a capital."""
    assert (within("Blockpaprika"), inside("Zu viel Licht")) == ("Blockpaprika", "Zu viel Licht")


def test_only_the_first_letter_opens_a_sentence():
    assert (opening("leaf Scorch"), opening("")) == ("Leaf Scorch", "")


def test_parts_are_told_in_their_order():
    assert [in_row(()), in_row(["one"]), in_row(["one", "two", "three"])] == ["", "one", "one; two; three"]
