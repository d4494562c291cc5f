"""The seed table: what it shows, how it sorts and filters, and that it keeps to Qt's rules for models."""

import subprocess
import sys
from datetime import date

import pytest
from PySide6.QtCore import Qt
from scipy.stats import beta

from greenroom.desk.seed.expectations import Expectations
from greenroom.desk.seed.packet_model import PacketModel
from greenroom.desk.seed.packet_rows import COLUMNS, rows_of
from greenroom.desk.seed.range_bar import EXPECTED_ROLE
from greenroom.guide import load_guide
from greenroom.season.deeds_shelf import SeedEntry, add_packets
from greenroom.season.germination import germination
from greenroom.season.packets import packets
from tests.season.told import Told

TODAY = date(2027, 2, 20)
ENTRIES = [
    SeedEntry("Cinder Lantern", "habanero", "26-01", 2026, 40, 0.85, 100),
    SeedEntry("brass bell", "bell", "26-02", 2026, 60, 0.92, 75),
    SeedEntry("Old Ember", "superhot", "22-09", 2022, None, None, 120),
    SeedEntry("Violet Pound", "aubergine", "", None, 9, 0.7),
    SeedEntry("Moon Fern", "moonflower", "", 2027, 200),
]


@pytest.fixture(scope="module")
def guide():
    return load_guide()


@pytest.fixture
def rows(guide):
    told = Told()
    told.do(add_packets(told.season, ENTRIES, TODAY))
    return rows_of(told.season, guide, TODAY)


@pytest.fixture
def model(rows, qapp):
    made = PacketModel()
    made.show_rows(rows)
    return made


def column(title):
    return next(place for place, one in enumerate(COLUMNS) if one.title == title)


def shown(model, title):
    return [model.index(row, column(title)).data() for row in range(model.rowCount())]


def test_the_model_keeps_to_qts_rules_through_sorting_and_filtering(qtmodeltester, model, rows):
    qtmodeltester.check(model)
    model.sort(column("Left"), Qt.SortOrder.DescendingOrder)
    model.set_filter("26")
    model.show_rows(rows[1:])
    model.set_filter("")
    qtmodeltester.check(model)


def test_a_packet_shows_its_kind_species_age_and_what_is_left(model):
    row = shown(model, "Variety").index("Cinder Lantern")
    cells = [model.index(row, place).data() for place in range(len(COLUMNS))]
    expected = [
        "Cinder Lantern",
        "Habanero type",
        "C. chinense",
        "26-01",
        "2026",
        "1 y",
        "40",
        "0",
        "40",
        "85 %",
        "…",
    ]
    assert cells == expected


def test_seed_past_the_years_it_keeps_is_called_old(model):
    """Pepper seed stored cool and dry keeps 2 years: extension lists after Knott's Handbook."""
    assert dict(zip(shown(model, "Variety"), shown(model, "Age"), strict=True))["Old Ember"] == "5 y, old"


def test_what_is_not_known_is_shown_as_not_known_and_not_as_nought(model):
    row = shown(model, "Variety").index("Old Ember")
    assert [model.index(row, column(title)).data() for title in ("Seeds", "Left", "Germ.")] == ["–", "–", "–"]
    index = model.index(row, column("Left"))
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == "Left: not known"


def test_a_crop_that_the_guide_does_not_know_is_shown_as_it_was_written(model):
    assert "moonflower" in shown(model, "Kind")


def test_names_sort_whatever_their_capitals(model):
    model.sort(column("Variety"))
    assert shown(model, "Variety") == [
        "brass bell",
        "Cinder Lantern",
        "Moon Fern",
        "Old Ember",
        "Violet Pound",
    ]


@pytest.mark.parametrize("order", [Qt.SortOrder.AscendingOrder, Qt.SortOrder.DescendingOrder])
def test_numbers_sort_as_numbers_and_what_is_not_known_comes_last(model, order):
    model.sort(column("Left"), order)
    known = ["9", "40", "60", "200"]
    expected = known if order == Qt.SortOrder.AscendingOrder else known[::-1]
    assert shown(model, "Left") == [*expected, "–"]


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("chinense", {"Cinder Lantern", "Old Ember"}),
        ("BELL", {"brass bell"}),
        ("2026 type", {"Cinder Lantern"}),
        ("22-09", {"Old Ember"}),
        ("nothing like it", set()),
    ],
)
def test_the_filter_looks_for_every_word_in_name_kind_lot_and_year(model, text, names):
    model.set_filter(text)
    assert set(shown(model, "Variety")) == names


def test_a_change_of_figures_alone_does_not_set_the_table_back(model, rows, qtbot):
    with qtbot.waitSignal(model.dataChanged), qtbot.assertNotEmitted(model.modelReset):
        model.show_rows(rows)


def test_twenty_thousand_packets_sort_at_once(qapp, guide):
    told = Told()
    told.do(
        add_packets(
            told.season, [SeedEntry(f"Variety {one % 977}", lot=str(one)) for one in range(20_000)], TODAY
        )
    )
    assert len(packets(told.season)) == 20_000
    model = PacketModel()
    model.show_rows(rows_of(told.season, guide, TODAY))
    model.sort(column("Lot"), Qt.SortOrder.DescendingOrder)
    assert model.index(0, column("Lot")).data() == "9999"


# what is expected up


@pytest.fixture
def told(guide):
    made = Told()
    made.do(add_packets(made.season, ENTRIES, TODAY))
    return made


@pytest.fixture
def expecting(told, guide, qapp):
    """A model that knows what is expected of every packet."""
    made = PacketModel(expect=lambda key: germination(told.season, key, TODAY))
    made.show_rows(rows_of(told.season, guide, TODAY))
    return made


def test_the_range_expected_up_stands_in_words_with_its_bar(expecting, told):
    """A label of 85 % of last year, counting as 20 seeds: a beta distribution, by scipy's own quantiles."""
    row = shown(expecting, "Variety").index("Cinder Lantern")
    index = expecting.index(row, column("Expected up"))
    packet = next(view for view in packets(told.season) if view.name == "Cinder Lantern")
    expected = germination(told.season, packet.key, TODAY)
    low, high = beta.interval(0.9, expected.alpha, expected.beta)
    assert index.data() == f"{low * 100:.0f}–{high * 100:.0f} %"
    assert index.data(EXPECTED_ROLE) == expected
    spoken = index.data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken == f"Expected up: {low * 100:.0f} to {high * 100:.0f} percent"


def test_a_lot_likely_below_the_law_is_said_to_be(expecting):
    """Five-year-old superhot seed; 7 CFR 201.31 asks 55 % of pepper."""
    row = shown(expecting, "Variety").index("Old Ember")
    spoken = expecting.index(row, column("Expected up")).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.endswith("more likely than not below the seed law's least")


def test_packets_sort_by_what_is_expected_of_them(expecting, told, qtmodeltester):
    expecting.sort(column("Expected up"), Qt.SortOrder.DescendingOrder)
    shares = [germination(told.season, expecting.packet_at(row).key, TODAY).share for row in range(5)]
    assert shares == sorted(shares, reverse=True)
    qtmodeltester.check(expecting)


def test_what_is_expected_is_not_worked_out_before_it_is_asked_for(keeper, shelf, qtbot):
    made = Expectations(keeper)
    brass, cinder = packets(shelf)
    assert made.wanted(brass.key) is None
    with qtbot.waitSignal(made.found) as found:
        pass
    assert found.args == [frozenset([brass.key])]
    assert made.wanted(brass.key) == germination(shelf, brass.key, keeper.today)
    assert made.wanted(cinder.key) is None
    made.forget()
    assert made.wanted(brass.key) is None
    made.stop()


def test_the_page_is_made_without_what_is_slow_to_load():
    """What is expected needs scipy, a quarter of a second: not before the window shows."""
    code = (
        "import sys; from greenroom.desk.seed.page import SeedPage; "
        "assert not {'scipy', 'pyqtgraph', 'pvlib'} & sys.modules.keys()"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
