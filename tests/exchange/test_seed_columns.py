"""Headers of seed lists: the columns a grower would point at are proposed, and no others."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.seed_columns import (
    FIELD_WORDS,
    OTHER_MATTERS,
    WHOLE_HEADERS,
    ColumnMatch,
    fold,
    propose_match,
)

# Headers as seed lists write them: common practice, no source.
ENGLISH = ["Variety", "Species", "Lot #", "Packed for", "Seeds", "Germ %", "Days to maturity"]
GERMAN = ["Sorte", "Art", "Charge", "Erntejahr", "Anzahl Samen", "Keimfähigkeit (%)", "Tage bis zur Reife"]
FRENCH = ["Variété", "Espèce", "N° de lot", "Année", "Graines", "Taux de germination", "Jours à maturité"]
SPANISH = ["Variedad", "Especie", "Lote", "Año", "Semillas", "Germinación", "Días a la cosecha"]
MACHINE = [
    "variety_name",
    "species",
    "lot_no",
    "year_packed",
    "seed_count",
    "germination_rate",
    "days_to_ripe",
]


@pytest.mark.parametrize("header", [ENGLISH, GERMAN, FRENCH, SPANISH, MACHINE])
def test_each_column_is_known_by_its_name_in_any_order_and_case(header):
    assert propose_match(header) == ColumnMatch(0, 1, 2, 3, 4, 5, 6)
    assert propose_match([name.upper() for name in header]) == ColumnMatch(0, 1, 2, 3, 4, 5, 6)
    assert propose_match(list(reversed(header))) == ColumnMatch(6, 5, 4, 3, 2, 1, 0)


@pytest.mark.parametrize(
    ("header", "field", "column"),
    [
        (["Name", "Variety"], "name", 1),
        (["Type", "Name"], "species", 0),
        (["Type", "Species", "Name"], "species", 1),
        (["Pepper variety (common)", "x"], "name", 0),
        (["Name", "Seed lot code"], "lot", 1),
        (["Name", "Seeds per gram", "Number of seeds"], "seeds", 2),
        (["Name", "Days to germination", "Germination"], "germination", 2),
        (["Name", "Days to germination"], "germination", None),
        (["Name", "Days from transplant to ripe"], "days_to_ripe", 1),
        (["Name", "Harvest date"], "days_to_ripe", None),
        (["Name", "Harvest date"], "packed", None),
        (["Name", "Germination temperature"], "germination", None),
        (["Name", "Seed source"], "seeds", None),
        (["", "  "], "name", None),
    ],
)
def test_a_header_that_means_something_else_is_left_alone(header, field, column):
    assert getattr(propose_match(header), field) == column


def test_every_word_of_the_table_is_written_as_headers_are_compared():
    for names in WHOLE_HEADERS.values():
        assert all(fold(name) == name for name in names.split("|"))
    assert all(fold(word) == word for word in OTHER_MATTERS)


def test_no_whole_header_stands_for_two_fields():
    names = [name for text in WHOLE_HEADERS.values() for name in text.split("|")]
    assert len(names) == len(set(names))
    assert set(WHOLE_HEADERS) == set(FIELD_WORDS)


@pytest.mark.parametrize("field", FIELD_WORDS)
def test_every_whole_header_is_understood_alone(field):
    for name in WHOLE_HEADERS[field].split("|"):
        assert propose_match([name]).used() == {field: 0}


@given(
    st.lists(
        st.one_of(st.sampled_from(ENGLISH + GERMAN + FRENCH + SPANISH), st.text(max_size=20)), max_size=12
    )
)
def test_no_column_is_proposed_twice_or_from_beyond_the_header(header):
    used = list(propose_match(header).used().values())
    assert len(used) == len(set(used))
    assert all(0 <= column < len(header) for column in used)
