"""What a grower relies on in the guide's own files: enough of it, sourced, and sane."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from dataclasses import fields

import pytest

from greenroom.guide import Crop, Guide, Rank, Reading, Seen, Span, Status, load_guide
from greenroom.guide.keys import LABELS, LISTS, SOURCE_KEYS, VALUES
from greenroom.guide.shapes import Choice, ColourList, Ladder, Number, Prose, Range
from greenroom.own_files import resources_folder

SPECIES = ("annuum", "baccatum", "chinense", "frutescens", "pubescens")
COMMONLY_GROWN = """
    bell long-sweet jalapeno cayenne wax-pepper poblano habanero superhot rocoto aji sauce-pepper
    ornamental-pepper tomato-early tomato-cherry tomato-beefsteak aubergine tomatillo cabbage broccoli
    cauliflower kale brussels-sprouts kohlrabi lettuce onion leek celery cucumber summer-squash melon
    watermelon basil parsley snapdragon zinnia cosmos sweet-pea french-marigold stock
"""
STATUS_TABLES = ("read", "computed", "memory", "against")
ANNOTATIONS = {
    Number: "Cited[float] | None",
    Range: "Cited[Span] | None",
    Ladder: "Cited[tuple[Reading, ...]] | None",
    ColourList: "Cited[tuple[str, ...]] | None",
    Choice: "Cited[str] | None",
    Prose: "Cited[str] | None",
}


@pytest.fixture(scope="module")
def guide() -> Guide:
    return load_guide()


def sources_as_written() -> Iterator[str]:
    """The source of every group of values in the crop files, read without the loader."""
    for file in (resources_folder() / "guide").iterdir():
        if file.name == "sources.toml" or not file.name.endswith(".toml"):
            continue
        for entry in tomllib.loads(file.read_text("utf-8")).values():
            for status in STATUS_TABLES:
                said = entry.get(status, {})
                yield from ({status} if status == "memory" and said else said)


def test_the_guide_knows_at_least_forty_crops(guide: Guide) -> None:
    assert len(guide.crops) >= 40


@pytest.mark.parametrize("species", SPECIES)
def test_the_five_domesticated_peppers_are_known_with_a_kind_of_fruit_each(
    guide: Guide, species: str
) -> None:
    # Five domesticated species of Capsicum: common botanical knowledge.
    crop = guide.crop(f"capsicum-{species}")
    assert crop.rank is Rank.SPECIES
    assert crop.latin == f"Capsicum {species}"
    assert guide.types_of(crop.key)


@pytest.mark.parametrize("key", COMMONLY_GROWN.split())
def test_a_crop_in_common_cultivation_can_be_planned(guide: Guide, key: str) -> None:
    crop = guide.crop(key)
    needed = ("weeks_indoors", "emergence_days", "sow_depth_mm", "germination_best_c", "night_floor_c")
    assert {name for name in needed if getattr(crop, name) is None} == set()
    assert crop.days_to_pick is not None


def test_every_value_names_a_source_of_the_list_and_none_is_listed_in_vain(guide: Guide) -> None:
    assert set(sources_as_written()) == set(guide.sources)


def test_only_what_is_recalled_is_cited_as_memory(guide: Guide) -> None:
    for entry in guide.entries.values():
        for cited in [*entry.values.values(), *entry.pests, *entry.notes]:
            assert (cited.status is Status.MEMORY) == (cited.source.seen is Seen.NOT_READ)


def test_every_source_says_who_and_what(guide: Guide) -> None:
    for source in guide.sources.values():
        assert source.author
        assert source.title or source.note


@pytest.mark.parametrize(
    ("lower", "upper"),
    [
        ("germination_least_c", "germination_best_c"),
        ("germination_best_c", "germination_greatest_c"),
        ("emergence_base_c", "germination_best_c"),
        ("test_first_count_days", "test_final_count_days"),
        ("frost_floor_c", "harden_floor_c"),
        ("frost_floor_c", "night_floor_c"),
        ("night_floor_c", "soil_least_c"),
        ("harden_sun_start_minutes", "harden_full_minutes"),
        ("set_night_least_c", "set_night_greatest_c"),
        ("grow_night_c", "grow_day_c"),
        ("feed_seedling_ppm_n", "feed_growing_ppm_n"),
        ("feed_growing_ppm_n", "feed_potted_ppm_n"),
        ("days_to_green", "days_to_ripe"),
        ("flower_to_ripe_days", "days_to_ripe"),
    ],
)
def test_the_lesser_never_exceeds_the_greater(guide: Guide, lower: str, upper: str) -> None:
    compared = 0
    for crop in guide.crops:
        low, high = getattr(crop, lower), getattr(crop, upper)
        if low is not None and high is not None:
            compared += 1
            assert greatest(low.value) <= greatest(high.value), crop.key
            assert least(low.value) <= least(high.value), crop.key
    assert compared > 0


def least(value: float | Span) -> float:
    return value.low if isinstance(value, Span) else value


def greatest(value: float | Span) -> float:
    return value.high if isinstance(value, Span) else value


def test_a_pepper_is_green_before_it_is_ripe(guide: Guide) -> None:
    for crop in guide.types_of("pepper"):
        assert crop.days_to_green.value.middle < crop.days_to_ripe.value.middle


def test_hotter_slower_species_are_started_earlier_than_annuum(guide: Guide) -> None:
    # About 8 weeks before setting out: University of Minnesota Extension, peppers. 10 to 12 weeks for the
    # other species: common practice, no source.
    assert guide.crop("capsicum-annuum").weeks_indoors.value == Span(8, 8)
    assert guide.crop("capsicum-annuum").weeks_indoors.source.key == "umn-pepper"
    for species in ("baccatum", "chinense", "frutescens", "pubescens"):
        weeks = guide.crop(f"capsicum-{species}").weeks_indoors
        assert (weeks.value, weeks.status) == (Span(10, 12), Status.MEMORY)


@pytest.mark.parametrize(
    ("species", "low", "high"),
    # Growers' texts, from memory, at 27 to 30 °C.
    [
        ("annuum", 7, 14),
        ("baccatum", 10, 20),
        ("chinense", 10, 28),
        ("frutescens", 14, 30),
        ("pubescens", 14, 40),
    ],
)
def test_each_pepper_species_has_its_own_window_to_come_up(
    guide: Guide, species: str, low: float, high: float
) -> None:
    assert guide.crop(f"capsicum-{species}").emergence_days.value == Span(low, high)


@pytest.mark.parametrize(
    ("species", "green", "ripe"),
    # Secondary growing pages: first pick after setting out; 14 to 28 days more for colour, added here.
    [
        ("annuum", (60, 85), (74, 113)),
        ("baccatum", (85, 100), (99, 128)),
        ("chinense", (90, 120), (104, 148)),
        ("frutescens", (85, 100), (99, 128)),
        ("pubescens", (95, 120), (109, 148)),
    ],
)
def test_colour_takes_two_to_four_weeks_after_the_first_green_fruit(
    guide: Guide, species: str, green: tuple[int, int], ripe: tuple[int, int]
) -> None:
    crop = guide.crop(f"capsicum-{species}")
    assert crop.days_to_green.value == Span(*green)
    assert crop.days_to_ripe.value == Span(*ripe) == Span(green[0] + 14, green[1] + 28)
    assert crop.days_to_ripe.status is Status.COMPUTED


@pytest.mark.parametrize(
    ("key", "name", "value", "source"),
    [
        ("pepper", "night_floor_c", (50 - 32) / 1.8, "umn-pepper"),  # nights over 50 °F: Univ. of Minnesota
        ("aubergine", "night_floor_c", (60 - 32) / 1.8, "usu-warm-crops"),  # 60 to 65 °F: Utah State Univ.
        ("tomato", "night_floor_c", (50 - 32) / 1.8, "usu-warm-crops"),  # 50 to 60 °F: Utah State Univ.
        ("pepper", "soil_least_c", (60 - 32) / 1.8, "unl-2023"),  # 60 °F: Univ. of Nebraska-Lincoln 2023
        ("pepper", "chill_c", (50 - 32) / 1.8, "msu-lopez-2022"),  # below 50 °F: Michigan State Univ. 2022
        ("tomato", "chill_c", (41 - 32) / 1.8, "msu-lopez-2022"),  # below 41 °F: the same
        (
            "cucumber",
            "harden_floor_c",
            (50 - 32) / 1.8,
            "umd-hardening-2023",
        ),  # 50 °F: Univ. of Maryland 2023
        ("pepper", "harden_floor_c", (45 - 32) / 1.8, "umd-hardening-2023"),  # 45 °F: the same
        ("cabbage", "harden_floor_c", (40 - 32) / 1.8, "hardening-table"),  # 40 °F: trade page, weak
        ("pepper", "set_day_greatest_c", (95 - 32) / 1.8, "usu-warm-crops"),  # 95 °F: Utah State Univ.
        ("pepper", "days_bearable_at_5_c", 3, "javanmardi-2013"),  # Javanmardi and others 2013
        ("tomato", "days_bearable_at_5_c", 4, "javanmardi-2013"),  # the same
        ("pepper", "dli_least_mol_m2", 13, "garcia-lopez-2020"),  # Garcia and Lopez 2020, HortScience 55:804
        ("pepper", "set_night_least_c", 14, "mercado-1997"),  # Mercado and others 1997
        ("capsicum-frutescens", "bud_day_length_greatest_h", 14, "yamamoto-2007"),  # Yamamoto and others 2007
    ],
)
def test_figures_are_those_of_the_source_named(
    guide: Guide, key: str, name: str, value: float, source: str
) -> None:
    cited = getattr(guide.crop(key), name)
    assert cited.value == pytest.approx(value, abs=0.06)
    assert (cited.source.key, cited.status) == (source, Status.READ)


@pytest.mark.parametrize(
    ("key", "name", "span", "source"),
    [
        ("pepper", "spacing_cm", (12 * 2.54, 18 * 2.54), "usu-warm-crops"),  # 12 to 18 in: Utah State Univ.
        ("pepper", "grow_day_c", (18, 27), "fao-pepper"),  # FAO, pepper
        ("pepper", "grow_night_c", (15, 18), "fao-pepper"),  # FAO, pepper
        ("pepper", "soil_ph", (5.5, 7.0), "fao-pepper"),  # FAO, pepper
        ("pepper", "growth_base_c", (9.3, 13.3), "dickson-2024"),  # Dickson and others 2024, two cultivars
        (
            "capsicum-chinense",
            "growth_base_c",
            (16.7, 16.8),
            "biquinho-plastochron",
        ),  # leaf appearance, abstract
        ("capsicum-annuum", "flower_to_ripe_days", (41, 47), "colombia-fruit"),  # Colombian abstracts
        ("bell", "final_pot_l", (5 * 3.785, 7 * 3.785), "lay-pages"),  # 5 to 7 US gallons: secondary pages
        ("habanero", "final_pot_l", (7 * 3.785, 10 * 3.785), "lay-pages"),  # 7 to 10 US gallons: the same
        ("pepper", "harden_outings", (7, 14), "umd-hardening-2023"),  # 7 to 14 days: Univ. of Maryland 2023
        ("pepper", "harden_shade_start_minutes", (60, 120), "uf-ifas-hardening"),  # Univ. of Florida
        ("pepper", "harden_full_minutes", (600, 720), "illinois-hardening"),  # Univ. of Illinois, copy
        ("pepper", "light_hours", (14, 16), "usu-seedlings"),  # Utah State Univ.
        ("lettuce", "seed_life_years", (5, 6), "seed-life-lists"),  # extension lists after Knott
    ],
)
def test_ranges_are_those_of_the_source_named(
    guide: Guide, key: str, name: str, span: tuple[float, float], source: str
) -> None:
    cited = getattr(guide.crop(key), name)
    assert (cited.value.low, cited.value.high) == pytest.approx(span, abs=0.51)
    assert cited.source.key == source


def test_sources_that_disagree_are_both_shown(guide: Guide) -> None:
    # University of Minnesota: nights over 50 °F; Utah State University: over 60 to 65 °F.
    pepper = guide.crop("habanero")
    assert [cited.value for cited in pepper.others("night_floor_c")] == [15.6]
    assert pepper.night_floor_c.value == 10


def test_tender_crops_bear_no_frost(guide: Guide) -> None:
    # Common practice, no source.
    for group in ("peppers", "tomatoes", "nightshades", "cucurbits"):
        for crop in guide.crops:
            if crop.group == group:
                assert crop.frost_floor_c.value == 0, crop.key


def test_a_kind_speaks_for_itself_before_its_species_speaks_for_it(guide: Guide) -> None:
    superhot = guide.crop("superhot")
    assert superhot.days_to_ripe.entry == "superhot"
    assert superhot.emergence_days.entry == "capsicum-chinense"
    assert superhot.night_floor_c.entry == "pepper"
    assert superhot.harden_outings.entry == "seedling"
    assert superhot.latin == "Capsicum chinense"


def test_findings_of_kind_and_species_add_up(guide: Guide) -> None:
    chinense, pepper = guide.crop("capsicum-chinense"), guide.crop("pepper")
    superhot = [cited.value for cited in guide.crop("superhot").notes]
    assert {cited.value for cited in (*chinense.notes, *pepper.notes)} < set(superhot)
    assert len(superhot) == len(set(superhot))


def test_common_entries_are_no_crops(guide: Guide) -> None:
    assert "seedling" not in {crop.key for crop in guide.crops}
    assert guide.crop("seedling").rank is Rank.COMMON


def test_every_known_key_is_a_field_of_the_record_and_of_its_type() -> None:
    annotations = {field.name: field.type for field in fields(Crop)}
    assert {name: annotations.get(name) for name in VALUES} == {
        name: ANNOTATIONS[type(key.shape)] for name, key in VALUES.items()
    }
    labels = {"key", "name", "group", "rank", "latin", "inherits", "aliases", "against"}
    assert set(annotations) == labels | set(VALUES) | set(LISTS)


def test_the_words_allowed_for_rank_and_seen_are_those_of_the_records() -> None:
    assert LABELS["rank"].shape == Choice(tuple(Rank))
    assert SOURCE_KEYS["seen"].shape == Choice(tuple(Seen))


def test_every_key_is_explained(guide: Guide) -> None:
    for name, key in (VALUES | LISTS | LABELS | SOURCE_KEYS).items():
        assert key.meaning, name


def test_values_lists_what_is_known_and_nothing_else(guide: Guide) -> None:
    basil = guide.crop("basil")
    assert "days_to_ripe" not in basil.values
    assert basil.values["night_floor_c"] is basil.night_floor_c


def test_a_span_holds_both_its_ends() -> None:
    span = Span(7, 14)
    assert 7 in span
    assert 14 in span
    assert 14.1 not in span
    assert span.middle == 10.5
    assert Reading(10, None).amount is None
