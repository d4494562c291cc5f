"""A guide with something wrong in it is refused with one sentence: file, entry, key, and what is allowed."""

from __future__ import annotations

from pathlib import Path

import pytest

from greenroom.guide import GuideError, Span, Status, load_guide

SOURCES = """
[memory]
author = "Common practice"
note = "Recalled."
seen = "not read"

[book]
author = "A. Grower"
title = "Book of peppers"
year = 1954
seen = "original"

[pamphlet]
author = "B. Grower"
note = "A pamphlet."
seen = "copy"
"""
PEPPER = '[pepper]\nname = "Pepper"\nrank = "species"\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "sources.toml").write_text(SOURCES, encoding="utf-8")
    return tmp_path


def refusal(folder: Path, text: str, file: str = "peppers.toml") -> str:
    (folder / file).write_text(text, encoding="utf-8")
    with pytest.raises(GuideError) as caught:
        load_guide(folder)
    return str(caught.value)


def test_a_small_guide_is_read_whole(folder: Path) -> None:
    text = PEPPER + (
        "[pepper.read.book]\nnight_floor_c = 10\ndays_to_green = [60, 80]\n"
        'days_to_emerge = [[10, 15.5], ["none", 25]]\n'
        "[pepper.against.pamphlet]\nnight_floor_c = 15\n"
        '[pepper.memory]\nnotes = ["Warm."]\n'
    )
    (folder / "peppers.toml").write_text(text, encoding="utf-8")
    crop = load_guide(folder).crop("pepper")
    assert (crop.night_floor_c.value, str(crop.night_floor_c.source)) == (
        10,
        "A. Grower (1954): Book of peppers",
    )
    assert crop.days_to_green.value == Span(60, 80)
    assert [(step.celsius, step.amount) for step in crop.days_to_emerge.value] == [(10, None), (15.5, 25)]
    assert [(cited.value, str(cited.source)) for cited in crop.others("night_floor_c")] == [(15, "B. Grower")]
    assert [(cited.value, cited.status) for cited in crop.notes] == [("Warm.", Status.MEMORY)]
    assert crop.days_to_pick is None


def test_a_kind_takes_over_what_it_does_not_say_itself(folder: Path) -> None:
    text = PEPPER + (
        'latin = "Capsicum"\n[pepper.read.book]\nnight_floor_c = 10\nchill_c = 9\n'
        'pests = ["aphids", "mites"]\n'
        "[pepper.against.pamphlet]\nnight_floor_c = 15\nchill_c = 8\n"
        '[bell]\nname = "Bell"\nrank = "type"\ninherits = "pepper"\n'
        '[bell.read.pamphlet]\nnight_floor_c = 12\npests = ["mites", "slugs"]\n'
    )
    (folder / "peppers.toml").write_text(text, encoding="utf-8")
    bell = load_guide(folder).crop("bell")
    assert (bell.latin, bell.night_floor_c.value, bell.chill_c.value) == ("Capsicum", 12, 9)
    assert [(cited.value, cited.entry) for cited in bell.pests] == [
        ("mites", "bell"),
        ("slugs", "bell"),
        ("aphids", "pepper"),
    ]
    assert bell.others("night_floor_c") == ()  # the species' dispute is not the kind's
    assert [cited.value for cited in bell.others("chill_c")] == [8]


def test_an_unknown_key_is_refused_with_the_keys_there_are(folder: Path) -> None:
    said = refusal(folder, PEPPER + "[pepper.read.book]\nnight_flor_c = 10\n")
    assert said.startswith("peppers.toml, pepper, night_flor_c: is not a known key; allowed are ")
    assert "night_floor_c" in said


def test_an_unknown_label_is_refused_with_the_labels_there_are(folder: Path) -> None:
    said = refusal(folder, PEPPER + 'colour = "red"\n')
    assert said == (
        "peppers.toml, pepper, colour: is not a known key; allowed are name, rank, latin, inherits, aliases, "
        "read, computed, memory, against."
    )


@pytest.mark.parametrize(
    ("key", "raw", "shown", "allowed"),
    [
        ("night_floor_c", "95", "95", "a number from -10 to 25 °C"),
        ("night_floor_c", "nan", "nan", "a number from -10 to 25 °C"),
        ("night_floor_c", '"10"', "'10'", "a number from -10 to 25 °C"),
        ("night_floor_c", "true", "True", "a number from -10 to 25 °C"),
        ("night_floor_c", "[10, 12]", "[10, 12]", "a number from -10 to 25 °C"),
        ("weeks_indoors", "[8, 6]", "[8, 6]", "a number or [low, high] from 1 to 20 weeks"),
        ("weeks_indoors", "[6, 7, 8]", "[6, 7, 8]", "a number or [low, high] from 1 to 20 weeks"),
        ("weeks_indoors", "[6, 60]", "[6, 60]", "a number or [low, high] from 1 to 20 weeks"),
        ("weeks_indoors", "[]", "[]", "a number or [low, high] from 1 to 20 weeks"),
        ("weeks_indoors", "inf", "inf", "a number or [low, high] from 1 to 20 weeks"),
        ("germination_light", '"shade"', "'shade'", "one of light, dark, either"),
        ("germination_light", "[]", "[]", "one of light, dark, either"),
        ("test_directions", '" "', "' '", "a line of text"),
        ("notes", '"Warm."', "'Warm.'", "a list of texts, none of them blank or twice,"),
        ("notes", "[]", "[]", "a list of texts, none of them blank or twice,"),
        (
            "pests",
            '["aphids", "aphids"]',
            "['aphids', 'aphids']",
            "a list of texts, none of them blank or twice,",
        ),
        ("pests", '["aphids", 3]', "['aphids', 3]", "a list of texts, none of them blank or twice,"),
    ],
)
def test_a_value_out_of_range_or_of_the_wrong_kind_is_refused(
    folder: Path, key: str, raw: str, shown: str, allowed: str
) -> None:
    said = refusal(folder, PEPPER + f"[pepper.memory]\n{key} = {raw}\n")
    assert said == f"peppers.toml, pepper, {key}: {shown} is not allowed; {allowed} is."


@pytest.mark.parametrize(
    "raw",
    [
        "3",
        "[]",
        "[1, 2]",
        "[[], []]",
        "[[10, 15]]",
        "[[15, 10], [8, 9]]",
        "[[10, 10], [8, 9]]",
        "[[10, 15], [8]]",
        "[[10, 90], [8, 9]]",
        '[[10, 15], [8, "soon"]]',
        "[[10, 15], [8, 900]]",
    ],
)
def test_a_table_of_days_by_temperature_must_be_two_rows_that_match(folder: Path, raw: str) -> None:
    said = refusal(folder, PEPPER + f"[pepper.memory]\ndays_to_emerge = {raw}\n")
    assert said.startswith("peppers.toml, pepper, days_to_emerge: ")
    assert said.endswith(
        "is not allowed; a row of °C from -5 to 60, coldest first, "
        'and a row of as many numbers from 1 to 300 days or "none" is.'
    )


def test_an_unknown_colour_is_refused_with_the_colours_there_are(folder: Path) -> None:
    said = refusal(folder, PEPPER + '[pepper.memory]\nripe_colours = ["red", "tartan"]\n')
    assert said.startswith(
        "peppers.toml, pepper, ripe_colours: ['red', 'tartan'] is not allowed; "
        "a list of colours out of black, blue"
    )


@pytest.mark.parametrize("group", ["read", "computed", "against"])
def test_a_source_that_is_not_listed_is_refused(folder: Path, group: str) -> None:
    said = refusal(folder, PEPPER + f"[pepper.{group}.hearsay]\nnight_floor_c = 10\n")
    assert said == (
        f"peppers.toml, pepper, {group}.hearsay: 'hearsay' is not a source; a key of sources.toml is allowed."
    )


def test_memory_cannot_pass_for_something_read(folder: Path) -> None:
    said = refusal(folder, PEPPER + "[pepper.read.memory]\nnight_floor_c = 10\n")
    assert said.startswith("peppers.toml, pepper, read.memory: 'memory' is not a source")


def test_a_value_without_a_status_and_source_is_refused(folder: Path) -> None:
    said = refusal(folder, PEPPER + "night_floor_c = 10\n")
    assert said == (
        "peppers.toml, pepper, night_floor_c: has no source; it is allowed under "
        "[pepper.read.SOURCE], [pepper.computed.SOURCE] or [pepper.memory]."
    )


def test_a_value_with_a_status_but_no_source_is_refused(folder: Path) -> None:
    said = refusal(folder, PEPPER + "[pepper.read]\nnight_floor_c = 10\n")
    assert said == (
        "peppers.toml, pepper, read.night_floor_c: has no source; it is allowed under [pepper.read.SOURCE]."
    )


def test_a_value_given_twice_is_refused_unless_one_stands_against(folder: Path) -> None:
    text = PEPPER + "[pepper.read.book]\nnight_floor_c = 10\n[pepper.read.pamphlet]\nnight_floor_c = 12\n"
    assert refusal(folder, text) == (
        "peppers.toml, pepper, night_floor_c: is given by book and by pamphlet; "
        "one is allowed, the other under against."
    )


@pytest.mark.parametrize(
    ("text", "where", "shown"),
    [
        ("pepper = 3\n", "entry", "3"),
        (PEPPER + "read = 3\n", "read", "3"),
        (PEPPER + "memory = []\n", "memory", "[]"),
        (PEPPER + "[pepper.read]\nbook = 3\n", "read.book", "3"),
    ],
)
def test_what_should_be_a_table_is_refused_when_it_is_none(
    folder: Path, text: str, where: str, shown: str
) -> None:
    assert refusal(folder, text) == f"peppers.toml, pepper, {where}: {shown} is not allowed; a table is."


@pytest.mark.parametrize(("missing", "kept"), [("name", 'rank = "species"'), ("rank", 'name = "Pepper"')])
def test_an_entry_needs_a_name_and_a_rank(folder: Path, missing: str, kept: str) -> None:
    said = refusal(folder, f"[pepper]\n{kept}\n")
    assert said == f"peppers.toml, pepper, {missing}: is missing; every entry has a name and a rank."


def test_a_rank_is_one_of_four(folder: Path) -> None:
    said = refusal(folder, '[pepper]\nname = "Pepper"\nrank = "family"\n')
    assert (
        said == "peppers.toml, pepper, rank: 'family' is not allowed; one of common, genus, species, type is."
    )


@pytest.mark.parametrize("key", ["Pepper", '"hot pepper"', "pepper-", "hot_pepper", '""'])
def test_an_entry_key_is_small_letters_digits_and_hyphens(folder: Path, key: str) -> None:
    said = refusal(folder, f'[{key}]\nname = "Pepper"\nrank = "species"\n')
    name = key.strip('"')
    assert said == (
        f"peppers.toml, {name}, key: is not allowed; small letters, digits and single hyphens are."
    )


def test_an_entry_in_two_files_is_refused(folder: Path) -> None:
    (folder / "annuum.toml").write_text(PEPPER, encoding="utf-8")
    said = refusal(folder, PEPPER)
    assert said == (
        "peppers.toml, pepper, key: stands already in annuum.toml; one entry of a key is allowed."
    )


def test_an_entry_twice_in_one_file_is_refused(folder: Path) -> None:
    said = refusal(folder, PEPPER + PEPPER)
    assert said.startswith(
        "peppers.toml: cannot be read; TOML in UTF-8 is allowed (Cannot declare ('pepper',) twice"
    )


@pytest.mark.parametrize("length", [1, 2, 3])
def test_a_loop_of_inheritance_is_refused(folder: Path, length: int) -> None:
    keys = [f"kind-{place}" for place in range(length)]
    text = "".join(
        f'[{key}]\nname = "Kind"\nrank = "type"\ninherits = "{keys[(place + 1) % length]}"\n'
        for place, key in enumerate(keys)
    )
    said = refusal(folder, text)
    assert said == (
        f"peppers.toml, {keys[-1]}, inherits: 'kind-0' inherits from it in turn; "
        "a line without a loop is allowed."
    )


def test_a_loop_further_up_is_refused_too(folder: Path) -> None:
    text = "".join(
        f'[{key}]\nname = "Kind"\nrank = "type"\ninherits = "{parent}"\n'
        for key, parent in (("leaf", "one"), ("one", "two"), ("two", "one"))
    )
    assert "inherits from it in turn" in refusal(folder, text)


def test_inheriting_from_nothing_is_refused(folder: Path) -> None:
    said = refusal(folder, PEPPER + 'inherits = "capsicum"\n')
    assert said == (
        "peppers.toml, pepper, inherits: 'capsicum' is not an entry; the key of another entry is allowed."
    )


def test_ripe_before_green_is_refused_even_when_one_of_them_is_inherited(folder: Path) -> None:
    text = (
        PEPPER + "[pepper.memory]\ndays_to_green = [60, 80]\n"
        '[bell]\nname = "Bell"\nrank = "type"\ninherits = "pepper"\n[bell.memory]\ndays_to_ripe = [50, 90]\n'
    )
    assert refusal(folder, text) == (
        "peppers.toml, bell, days_to_ripe: 50 to 90 is not allowed; "
        "as much as days_to_green, 60 to 80, or more is."
    )


def test_a_best_temperature_over_the_greatest_is_refused(folder: Path) -> None:
    text = PEPPER + "[pepper.memory]\ngermination_best_c = [25, 36]\ngermination_greatest_c = 35\n"
    assert refusal(folder, text) == (
        "peppers.toml, pepper, germination_greatest_c: 35 to 35 is not allowed; "
        "as much as germination_best_c, 25 to 36, or more is."
    )


@pytest.mark.parametrize(
    ("table", "said"),
    [
        (
            'title = "T"\nseen = "copy"\n',
            "author: is missing; every source names its author and how it was seen.",
        ),
        (
            'author = "A"\ntitle = "T"\n',
            "seen: is missing; every source names its author and how it was seen.",
        ),
        (
            'author = "A"\nseen = "copy"\n',
            "title: is missing; a source whose title is not known says in a note what it is.",
        ),
        (
            'author = "A"\ntitle = "T"\nseen = "copy"\nyear = "1954"\n',
            "year: '1954' is not allowed; a number from 1700 to 2100 AD is.",
        ),
        (
            'author = "A"\ntitle = "T"\nseen = "dreamt"\n',
            "seen: 'dreamt' is not allowed; one of original, abstract, copy, weak, not read is.",
        ),
        (
            'author = "A"\ntitle = "T"\nseen = "copy"\nurl = "x"\n',
            "url: is not a known key; allowed are author, title, year, seen, note.",
        ),
    ],
)
def test_a_source_that_is_not_told_whole_is_refused(folder: Path, table: str, said: str) -> None:
    assert refusal(folder, f"[leaflet]\n{table}", "sources.toml") == f"sources.toml, leaflet, {said}"


def test_what_is_not_toml_is_refused(folder: Path) -> None:
    said = refusal(folder, "[pepper\n")
    assert said.startswith("peppers.toml: cannot be read; TOML in UTF-8 is allowed (")


def test_what_is_not_utf_8_is_refused(folder: Path) -> None:
    (folder / "peppers.toml").write_bytes('[pepper]\nname = "Jalapeño"\n'.encode("latin-1"))
    with pytest.raises(GuideError, match=r"^peppers\.toml: cannot be read; TOML in UTF-8 is allowed"):
        load_guide(folder)


def test_a_folder_without_the_list_of_sources_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match=r"there is no file sources\.toml in "):
        load_guide(tmp_path)


def test_files_that_are_not_toml_are_left_alone(folder: Path) -> None:
    (folder / "peppers.toml").write_text(PEPPER, encoding="utf-8")
    (folder / "readme.txt").write_text("not TOML: [", encoding="utf-8")
    assert [crop.key for crop in load_guide(folder).crops] == ["pepper"]
