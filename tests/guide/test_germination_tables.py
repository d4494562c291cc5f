"""What the guide says of germination agrees with the published tables it is taken from."""

from __future__ import annotations

import numpy as np
import pytest

from greenroom.guide import Guide, Span, Status, load_guide

SOIL_C = (0, 5, 10, 15, 20, 25, 30, 35, 40)

# Harrington, J. F. and Minges, P. A. 1954, University of California: days from sowing 13 mm deep to coming
# up at each soil temperature. x: none came up; -: not tested.
DAYS_TO_EMERGE = {
    "asparagus": "x x 53 24 15 10 12 20 28",
    "aubergine": "- - - - 13 8 5 - -",
    "beet": "- 42 17 10 6 5 5 5 -",
    "cabbage": "- - 15 9 6 5 4 - -",
    "capsicum-annuum": "x x x 25 13 8 8 9 x",
    "cauliflower": "- - 20 10 6 5 5 - -",
    "celery": "x 41 16 12 7 x x x -",
    "cucumber": "x x x 13 6 4 3 3 -",
    "lettuce": "49 15 7 4 3 2 3 x x",
    "melon": "- - - - 8 4 3 - -",
    "okra": "x x x 27 17 13 7 6 7",
    "onion": "136 31 13 7 5 4 4 13 x",
    "parsley": "- - 29 17 14 13 12 - -",
    "pea": "- 36 14 9 8 6 6 - -",
    "snap-bean": "x x x 16 11 8 6 6 x",
    "spinach": "63 23 12 7 6 5 6 x x",
    "sweet-corn": "x x 22 12 7 4 4 3 x",
    "tomato": "x x 43 14 8 6 6 9 x",
    "watermelon": "- x - - 12 5 4 3 -",
}

# The same authors: percent normal seedlings. A zero where no days were printed means not tested.
NORMAL_SEEDLINGS_PERCENT = {
    "asparagus": "0 0 61 80 88 95 79 37 0",
    "aubergine": "0 0 0 0 21 53 60 0 0",
    "beet": "0 53 72 88 90 97 89 35 0",
    "cabbage": "0 27 78 93 - 99 - 0 0",
    "capsicum-annuum": "0 0 1 70 96 98 95 70 0",
    "cauliflower": "0 0 58 60 - 63 45 0 0",
    "celery": "0 72 70 40 97 65 0 0 0",
    "cucumber": "0 0 0 95 99 99 99 99 49",
    "lettuce": "98 98 98 99 99 99 12 0 0",
    "melon": "0 0 0 0 38 94 90 0 0",
    "okra": "0 0 0 74 89 92 88 85 35",
    "onion": "90 98 98 98 99 97 91 73 2",
    "parsley": "0 0 63 - 69 64 50 0 0",
    "pea": "0 89 94 93 93 94 86 0 0",
    "snap-bean": "0 0 1 97 90 97 47 39 0",
    "spinach": "83 96 91 82 52 28 32 0 0",
    "sweet-corn": "0 0 47 97 97 98 91 88 10",
    "tomato": "0 0 82 98 98 97 83 46 0",
    "watermelon": "0 0 0 17 94 90 92 96 0",
}

# The rising limb over which a straight line was put through 1/days, in °C.
RISING_LIMB_C = {
    "asparagus": (10, 25),
    "aubergine": (20, 30),
    "beet": (5, 25),
    "cabbage": (10, 30),
    "capsicum-annuum": (15, 25),
    "cauliflower": (10, 25),
    "celery": (5, 20),
    "cucumber": (15, 30),
    "lettuce": (0, 25),
    "melon": (20, 30),
    "okra": (15, 35),
    "onion": (0, 25),
    "pea": (5, 25),
    "snap-bean": (15, 30),
    "spinach": (0, 25),
    "sweet-corn": (10, 35),
    "tomato": (10, 25),
    "watermelon": (20, 35),
}

# 7 CFR 201.31 (least germination, %), 201.58 Table 2 (temperatures, first and final count), 201.46 Table 1
# (seeds in a gram) and 201.36c (moisture in sealed packets, %), before the amendment of 2020.
SEED_ACT = {
    "artichoke": (60, (20, 30), 7, 21, 24, None),
    "asparagus": (70, (20, 30), 7, 21, 25, None),
    "aubergine": (60, (20, 30), 7, 14, 230, 6.0),
    "beet": (65, (20, 30), 3, 14, 60, 7.5),
    "broccoli": (75, (20, 30), 3, 10, 315, 5.0),
    "brussels-sprouts": (70, (20, 30), 3, 10, 315, None),
    "cabbage": (75, (20, 30), 3, 10, 315, 5.0),
    "cauliflower": (75, (20, 30), 3, 10, 315, None),
    "celery": (55, (15, 25), 10, 21, 2520, 7.0),
    "chard": (65, (20, 30), 3, 14, 60, None),
    "chives": (50, (20, 20), 6, 14, None, 6.5),
    "collards": (80, (20, 30), 3, 10, 315, None),
    "cucumber": (80, (20, 30), 3, 7, 40, 6.0),
    "dill": (60, (20, 30), 7, 21, 800, None),
    "endive": (70, (20, 30), 5, 14, 940, None),
    "ground-cherry": (50, (20, 30), 7, 28, 1240, None),
    "kale": (75, (20, 30), 3, 10, 315, None),
    "kohlrabi": (75, (20, 30), 3, 10, 315, None),
    "leek": (60, (20, 20), 6, 14, 395, 6.5),
    "lettuce": (80, (20, 20), None, 7, 890, 5.5),
    "melon": (75, (20, 30), 4, 10, 45, 6.0),
    "okra": (50, (20, 30), 4, 14, 19, None),
    "onion": (70, (20, 20), 6, 10, 340, 6.5),
    "parsley": (60, (20, 30), 11, 28, 650, 6.5),
    "pea": (80, (20, 20), 5, 8, 3, 7.0),
    "pepper": (55, (20, 30), 6, 14, 165, 4.5),
    "pumpkin": (75, (20, 30), 4, 7, 5, 6.0),
    "sage": (60, (20, 30), 5, 14, 120, None),
    "snap-bean": (70, (20, 30), None, 8, 4, 7.0),
    "spinach": (60, (15, 15), 7, 21, 100, None),
    "squash": (75, (20, 30), 4, 7, 14, None),
    "sweet-corn": (75, (20, 30), 4, 7, None, 8.0),
    "tomato": (75, (20, 30), 5, 14, 405, 5.5),
    "watermelon": (70, (20, 30), 4, 14, 11, None),
}


@pytest.fixture(scope="module")
def guide() -> Guide:
    return load_guide()


def days_read(key: str) -> dict[float, float | None]:
    cells = zip(SOIL_C, DAYS_TO_EMERGE[key].split(), strict=True)
    return {celsius: None if cell == "x" else float(cell) for celsius, cell in cells if cell != "-"}


def normal_read(key: str) -> dict[float, float]:
    tested = days_read(key)
    cells = zip(SOIL_C, NORMAL_SEEDLINGS_PERCENT[key].split(), strict=True)
    return {at: float(cell) for at, cell in cells if cell != "-" and (cell != "0" or at in tested)}


def came_up(key: str) -> dict[float, float]:
    return {celsius: days for celsius, days in days_read(key).items() if days is not None}


def best_c(key: str) -> tuple[float, float]:
    """Within a day of the fastest, among temperatures with at least 80 % of the most sound seedlings."""
    up, normal = came_up(key), normal_read(key)
    most = max(normal[celsius] for celsius in up if celsius in normal)
    sound = {at: days for at, days in up.items() if normal.get(at, 100) >= 0.8 * most}
    fast = [at for at, days in sound.items() if days <= min(sound.values()) + 1]
    return min(fast), max(fast)


def nothing_came_up_at(key: str, celsius: float) -> bool:
    """Both halves of the table say so; up to 2 % of seedlings count as nothing."""
    return days_read(key).get(celsius, 1) is None and normal_read(key).get(celsius, 100) <= 2


@pytest.mark.parametrize("key", DAYS_TO_EMERGE)
def test_days_to_come_up_are_those_of_harrington_and_minges(guide: Guide, key: str) -> None:
    said = guide.crop(key).days_to_emerge
    assert {step.celsius: step.amount for step in said.value} == days_read(key)
    assert (said.source.key, said.status) == ("harrington-minges-1954", Status.READ)


@pytest.mark.parametrize("key", NORMAL_SEEDLINGS_PERCENT)
def test_sound_seedlings_are_those_of_harrington_and_minges(guide: Guide, key: str) -> None:
    said = guide.crop(key).normal_seedlings_percent
    assert {step.celsius: step.amount for step in said.value} == normal_read(key)


@pytest.mark.parametrize("key", DAYS_TO_EMERGE)
def test_best_temperature_is_where_seed_came_up_fastest_and_soundest(guide: Guide, key: str) -> None:
    assert guide.crop(key).germination_best_c.value == Span(*best_c(key))


@pytest.mark.parametrize("key", DAYS_TO_EMERGE)
def test_coldest_and_warmest_are_where_the_next_step_brought_nothing_up(guide: Guide, key: str) -> None:
    crop, up = guide.crop(key), came_up(key)
    for cited, end, beyond in (
        (crop.germination_least_c, min(up), min(up) - 5),
        (crop.germination_greatest_c, max(up), max(up) + 5),
    ):
        if nothing_came_up_at(key, beyond):
            assert (cited.value, cited.status) == (end, Status.COMPUTED)
        else:
            assert cited is None or cited.status is Status.MEMORY


@pytest.mark.parametrize("key", RISING_LIMB_C)
def test_base_and_thermal_time_are_the_straight_line_through_the_table(guide: Guide, key: str) -> None:
    low, high = RISING_LIMB_C[key]
    points = [(celsius, days) for celsius, days in came_up(key).items() if low <= celsius <= high]
    celsius, days = np.array(points).T
    slope, intercept = np.polyfit(celsius, 1 / days, 1)
    crop = guide.crop(key)
    assert crop.emergence_base_c.value == pytest.approx(-intercept / slope, abs=0.05)
    assert crop.emergence_thermal_time_c_days.value == pytest.approx(1 / slope, abs=0.51)
    assert crop.emergence_base_c.status is Status.COMPUTED


def test_pepper_by_its_thermal_time_comes_up_in_the_days_of_the_table(guide: Guide) -> None:
    # Harrington and Minges 1954: 25, 13 and 8 days at 15, 20 and 25 °C. The fit is good for about ±30 %.
    crop = guide.crop("capsicum-annuum")
    for celsius, days in ((15, 25), (20, 13), (25, 8)):
        expected = crop.emergence_thermal_time_c_days.value / (celsius - crop.emergence_base_c.value)
        assert expected == pytest.approx(days, rel=0.3)


def test_no_base_is_given_where_the_line_makes_no_sense(guide: Guide) -> None:
    # Parsley's line crosses zero at -8 °C, r² 0.90: not usable.
    assert guide.crop("parsley").emergence_base_c is None


def test_onion_names_the_other_thermal_time_as_well(guide: Guide) -> None:
    # Harrington 1962, worked example in a textbook of alliums: base 2.5 °C, 80 °C·d, so 4 days at 22.5 °C
    # and 16 days at 7.5 °C.
    onion = guide.crop("onion")
    (base,), (time,) = onion.others("emergence_base_c"), onion.others("emergence_thermal_time_c_days")
    assert time.value / (22.5 - base.value) == 4
    assert time.value / (7.5 - base.value) == 16


@pytest.mark.parametrize("key", SEED_ACT)
def test_seed_tests_follow_the_federal_seed_act(guide: Guide, key: str) -> None:
    crop = guide.crop(key)
    least, celsius, first, final, seeds, moisture = SEED_ACT[key]
    assert crop.legal_minimum_percent.value == least
    assert crop.test_c.value == Span(*celsius)
    assert crop.test_final_count_days.value == final
    said = (crop.test_first_count_days, crop.seeds_per_gram, crop.sealed_moisture_percent)
    for cited, expected in zip(said, (first, seeds, moisture), strict=True):
        assert (cited.value if cited else None) == expected
    assert {crop.legal_minimum_percent.source.key, crop.test_c.source.key} == {"federal-seed-act"}


@pytest.mark.parametrize(
    ("key", "celsius"),
    # 7 CFR 201.58 Table 2: temperatures after the semicolon
    [("celery", 20), ("snap-bean", 25), ("spinach", 10), ("sweet-corn", 25), ("watermelon", 25)],
)
def test_the_second_test_temperature_is_given_where_the_act_allows_one(
    guide: Guide, key: str, celsius: float
) -> None:
    assert guide.crop(key).test_alternative_c.value == Span(celsius, celsius)


def test_light_and_nitrate_are_only_a_remedy_for_pepper_but_the_rule_for_aubergine(guide: Guide) -> None:
    # 7 CFR 201.58 Table 2: for pepper under fresh and dormant seed, for eggplant under directions.
    assert guide.crop("pepper").test_directions.value.startswith("Only for fresh or dormant seed")
    assert guide.crop("aubergine").test_directions.value == "Light; potassium nitrate."


def test_every_pepper_is_tested_by_the_rule_for_pepper(guide: Guide) -> None:
    for crop in guide.types_of("pepper"):
        assert crop.legal_minimum_percent.value == 55  # 7 CFR 201.31
        assert crop.legal_minimum_percent.entry == "pepper"
