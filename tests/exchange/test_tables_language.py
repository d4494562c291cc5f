"""The language of the window and the files: what is shown is translated, what is saved stays the same."""

import importlib
import pkgutil
from datetime import date

import pytest

from greenroom.exchange import tables
from greenroom.exchange.tables import losses, shelf, words
from greenroom.exchange.tables.csv_text import csv_text, html_text, tsv_text
from greenroom.exchange.tables.headings import HEADINGS, UNITS
from greenroom.exchange.tables.table import Column, Kind, Table
from greenroom.speech import SPEAKER
from tests.pseudo import TONGUE, pseudo

SIGNS = {"%", "°C", "°C·d", "g", "g/m²", "h", "L", "m", "m²", "m/s", "mg N/L", "min", "mL", "mm", "mol/m²"}
MEASURED = SIGNS | {"µmol/m²/s", ""}
NUTRIENTS = {"N", "P₂O₅", "K₂O"}  # chemical signs, the same in every language


def every_column():
    """Each column of the tables, by the module it is in."""
    for found in pkgutil.iter_modules(tables.__path__):
        module = importlib.import_module(f"{tables.__name__}.{found.name}")
        for held in vars(module).values():
            if isinstance(held, tuple):
                yield from (one for one in held if isinstance(one, Column))


@pytest.fixture
def abroad():
    before = SPEAKER.tongue
    SPEAKER.speak(TONGUE)
    yield
    SPEAKER.speak(before)


def test_every_column_has_a_heading_that_can_be_translated():
    columns = list(every_column())
    assert len(columns) > 150
    assert {one.title for one in columns} - HEADINGS.keys() <= NUTRIENTS
    assert {one.unit for one in columns} - UNITS.keys() <= MEASURED


def test_a_heading_of_the_window_never_gets_into_a_file(abroad):
    column = Column("odds_1", "Odds of Ember", Kind.NUMBER, "days", shown="Chance für Ember")
    cause = Column("cause", "Cause", said=words.one_of({"eaten": "gefressen"}))
    table = Table.of("Chancen", (column, cause), [(3, "eaten")])
    assert table.headers == ("Odds of Ember (days)", "Cause")
    assert column.heading == "Chance für Ember (days)"
    for text in (csv_text(table), tsv_text(table), html_text(table)):
        assert "Odds of Ember (days)" in text
        assert "eaten" in text
        assert "gefressen" not in text
    assert cause.read("eaten") == "gefressen"
    assert cause.read("hail, of my own words") == "hail, of my own words"


def test_the_name_of_a_table_speaks_the_language_and_its_columns_do_not(abroad):
    from tests.season.demo_season import demo_season

    table = losses.loss_table(demo_season(), last=date(2027, 5, 1))
    assert table.name == pseudo("Losses")
    assert table.headers[:3] == ("Date", "Tray, rack or bed", "Cell or position")


def test_words_of_fixed_lists_are_all_known_where_they_are_shown():
    from greenroom.ledger.facts import FORMS, RIPENESS, WATERINGS, WEIGHT_STATES
    from greenroom.season.losses import STAGES
    from greenroom.season.spots import Stage

    assert set(words.SHOWS) == {one.value for one in Stage}
    assert set(words.FORMS) == set(FORMS)
    assert set(words.RIPE_WORDS) == set(RIPENESS)
    assert set(words.WATERED) == set(WATERINGS)
    assert set(words.WEIGHED) == set(WEIGHT_STATES)
    assert set(words.STAGE_WORDS) == set(STAGES)
    assert shelf.HOLDERS[1].read("rack") == "rack"
