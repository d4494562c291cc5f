"""Any name can be put on paper: it is shown as text, never more than its room, and never fails."""

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from greenroom.exchange.paper.words import NO_SIGN, PLAIN, STRONG, fitted, not_shown, shown, width_mm, wrapped

NAMES = [
    "Žluťoučký",
    "Ñora d'Été",
    "Πιπεριά Φλωρίνης",
    "Болгарский перец",
    "Şanlıurfa",
    "Đồng Tháp",
    "Łódź",
    "Œuf",
]
"""Latin with accents, Greek and Cyrillic: what the brief asks to show."""


@pytest.mark.parametrize("name", NAMES)
def test_names_with_accents_in_greek_and_cyrillic_are_shown_as_they_are(name):
    assert shown(name) == unicodedata.normalize("NFC", name)
    assert not_shown(name) == frozenset()
    assert width_mm(name, PLAIN, 10) > 5


def test_signs_that_the_typeface_lacks_are_told_and_shown_as_an_empty_square():
    assert shown("辣椒 pepper") == f"{NO_SIGN}{NO_SIGN} pepper"
    assert not_shown("辣椒 pepper") == {"辣", "椒"}


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("a\x00b\x1b[31mc\x7f", "a b [31mc"),
        ("two\nlines\tand\u2028more", "two lines and more"),
        ("\u202egnirts\u202c \u200bx\ufeff", "gnirts x"),
        ("<b>bold</b> & %s \\", "<b>bold</b> & %s \\"),
        ("half a pair \ud800", f"half a pair {NO_SIGN}"),
        ("e\u0301", "é"),
    ],
)
def test_nothing_in_a_name_steers_the_printer(name, told):
    assert shown(name) == told


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=40), st.floats(2, 60), st.floats(4, 14), st.integers(1, 4))
def test_lines_never_are_wider_than_their_room_nor_more_than_asked_for(text, room, points, lines):
    told = wrapped(text, STRONG, points, room, lines)
    assert len(told) <= lines
    widest = max((width_mm(sign, STRONG, points) for sign in shown(text)), default=0.0)
    assert all(width_mm(line, STRONG, points) <= max(room, widest) + 1e-6 for line in told)
    assert width_mm(fitted(text, STRONG, points, room), STRONG, points) <= room + 1e-6


def test_text_that_fits_is_kept_whole_and_longer_text_says_that_it_was_cut():
    words = "one two three four five six"
    assert " ".join(wrapped(words, PLAIN, 9, 25, 6)) == words
    assert wrapped(words, PLAIN, 9, 12, 2)[-1].endswith("…")
    assert fitted("x" * 10_000, PLAIN, 9, 10_000).endswith("…")
