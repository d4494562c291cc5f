"""Troubles in the guide: each pest and cause has its source, and what is not right is refused."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from greenroom.guide import GuideError, Seen, load_guide
from greenroom.guide.troubles import FIELDS, cited
from greenroom.guide.troubles_reading import load_troubles
from greenroom.own_files import resources_folder

TROUBLES = load_troubles()
CAUSES = [(sign, cause) for sign in TROUBLES.signs.values() for cause in sign.causes]
NAMES = [f"{sign.key}/{cause.key}" for sign, cause in CAUSES]
PESTS = list(TROUBLES.pests.values())


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in ("troubles.toml", "sources.toml"):
        shutil.copyfile(str(resources_folder() / "guide" / name), tmp_path / name)
    return tmp_path


def refusal(folder: Path, old: str, new: str) -> str:
    file = folder / "troubles.toml"
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(GuideError) as caught:
        load_troubles(folder)
    return str(caught.value)


@pytest.mark.parametrize(("sign", "cause"), CAUSES, ids=NAMES)
def test_every_cause_has_a_source_and_says_what_is_only_from_memory(sign, cause) -> None:
    assert cause.sources
    unread = all(source.seen is Seen.NOT_READ for source in cause.sources)
    assert not unread or {"check", "now", "later"} <= cause.from_memory
    assert cause.citations[-1].startswith(("From memory", "Common practice")) is bool(cause.from_memory)


@pytest.mark.parametrize("pest", PESTS, ids=[pest.key for pest in PESTS])
def test_every_pest_has_a_source_that_was_read_and_a_first_step_that_is_no_spray(pest) -> None:
    assert any(source.seen is not Seen.NOT_READ for source in pest.sources)
    steps = " ".join(pest.now).lower()
    assert not any(word in steps for word in ("insecticide", "pesticide", "fungicide", "permethrin", "ppm"))


def test_the_pests_that_a_pepper_table_lists_for_transplants_are_there() -> None:
    """New England Vegetable Management Guide, Table 18, and OMAFRA's calendar of pepper pests."""
    asked = ["aphids", "broad-mites", "thrips", "whiteflies", "fungus-gnats", "shore-flies", "spider-mites"]
    assert set(asked) <= TROUBLES.pests.keys()
    assert {"slugs", "flea-beetles", "leaf-miners", "cutworms"} <= TROUBLES.pests.keys()


def test_a_count_stands_only_where_somebody_published_it() -> None:
    """Thrips 15 a card and week: Rettke. Flea beetles half the plants: University of Maryland. Cutworms
    5 % and hornworms one on 20 plants, of tobacco: Ontario ministry. Broad mites: any, University of
    Georgia ("if damage is seen mites have been present for quite some time")."""
    published = {key: pest.threshold.at for key, pest in TROUBLES.pests.items() if pest.threshold}
    assert published == {"thrips": 15, "flea-beetles": 50, "cutworms": 5, "hornworms": 1, "broad-mites": 1}


def test_the_rule_for_sprays_is_the_label_and_local_rules() -> None:
    """7 USC 136j(a)(2)(G): it is unlawful to use a pesticide in a manner inconsistent with its labeling."""
    assert "the label is the law" in TROUBLES.spray
    assert "Local rules" in TROUBLES.spray
    assert "136j(a)(2)(G)" in str(TROUBLES.spray_sources[0])


def test_every_source_is_used() -> None:
    told = [*PESTS, *(cause for _, cause in CAUSES)]
    used = {source.key for one in told for source in one.sources}
    used |= {source.key for source in TROUBLES.spray_sources}
    used |= {pest.threshold.source.key for pest in PESTS if pest.threshold}
    shared = load_guide().sources.keys()
    assert TROUBLES.sources.keys() - shared - used == set()


def test_two_to_four_questions_are_asked_of_each_sign() -> None:
    assert all(2 <= len(sign.questions) <= 4 for sign in TROUBLES.signs.values())


def test_a_figure_on_a_limit_belongs_to_the_warmer_answer() -> None:
    question = TROUBLES.signs["blossom-drop"].question("nights")
    assert [question.band(value) for value in (13.9, 14, 20.9, 21, 30)] == [
        "cold",
        "mild",
        "mild",
        "hot",
        "hot",
    ]


def test_a_sign_that_asks_something_else_says_so() -> None:
    with pytest.raises(LookupError, match="asks no question 'colour'"):
        TROUBLES.signs["leggy"].question("colour")


def test_a_cause_all_from_memory_names_no_source() -> None:
    cause = next(cause for _, cause in CAUSES if cause.key == "crowded")
    assert cause.citations == ("Common practice, no source, from memory.",)
    assert set(FIELDS) >= cause.from_memory


def test_a_source_without_a_title_says_what_it_is_and_a_weak_one_that_it_is() -> None:
    wilt, roll = TROUBLES.sources["iastate-wilt"], TROUBLES.sources["johnson-leaf-roll"]
    assert cited(wilt).startswith("Iowa State University Extension and Outreach: Page on watering")
    assert cited(roll).endswith("(a page that names no source)")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('sources = ["umn-slugs"]', 'sources = ["hearsay"]', "slugs, sources: 'hearsay' is not a source"),
        ('sources = ["umn-slugs"]', "sources = []", "slugs, sources: [] is not allowed"),
        ('picture = "aphid"', 'drawing = "aphid"', "aphids, drawing: is not a known key"),
        (
            'often = "often"',
            'often = "always"',
            "'always' is not allowed; one of often, at times, seldom is.",
        ),
        ("light = { weak", "lamp = { weak", "leggy, low-light, when: 'lamp' is no question"),
        (
            'weak = "++", enough = "--" }, crowd',
            'dim = "++" }, crowd',
            "leggy, low-light, light: 'dim' is no answer",
        ),
        ('{ weak = "++", enough = "--" }, crowd', '{ weak = "++++" }, crowd', "'++++' is not allowed"),
        ("bands = [18, 32]", "bands = [18]", "bands of warmth: [18] is not allowed"),
        ("bands = [18, 24]", "bands = [24, 18]", "bands of warmth: [24, 18] is not allowed"),
        (
            'from_memory = ["now", "later"]',
            'from_memory = ["count"]',
            "from_memory: 'count' is no field of it",
        ),
        ('stage = "fruit"', 'stage = "tree"', "stage: 'tree' is not allowed"),
        ("[pests.aphids]", "[pests.Aphids]", "Aphids, key: is not allowed"),
        (
            'key = "too-warm"',
            'key = "low-light"',
            "leggy, causes: ['low-light', 'low-light', 'crowded'] are not",
        ),
        ('seen = "copy"', 'seen = "heard"', "seen: 'heard' is not allowed"),
        ("at = 15,", "at = 0,", "thrips, threshold.at: 0 is not allowed"),
        ("[rules]", "[rules", "troubles.toml: cannot be read"),
    ],
)
def test_what_is_not_right_in_the_file_is_told_in_one_sentence(folder, old, new, said) -> None:
    sentence = refusal(folder, old, new)
    assert sentence.startswith("troubles.toml")
    assert said in sentence


def test_an_answer_alone_is_no_question(folder) -> None:
    old = 'answers = { young = "the youngest: hooked, edges dead", old = "the oldest, from the edge in" }'
    assert "two or more are" in refusal(folder, old, 'answers = { young = "the youngest" }')


def test_a_guide_without_the_file_is_told(folder) -> None:
    (folder / "troubles.toml").unlink()
    with pytest.raises(FileNotFoundError, match=r"no file troubles\.toml"):
        load_troubles(folder)
