"""The guide, its troubles and its words in the grower's language; what he types is found in either."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import pytest

from greenroom.guide import load_guide
from greenroom.guide.glossary_reading import load_glossary
from greenroom.guide.troubles_reading import load_troubles
from greenroom.own_files import resources_folder
from greenroom.speech import GUIDE, SPEAKER, Tongue

CATALOGUES = sorted(Path(str(resources_folder())).glob("languages/*.ts"))
GERMAN = {
    "Pepper": "Paprika",
    "Tomato": "Tomate",
    "Leek": "Poireau",
    "chilli": "Chili",
    "Aphids": "Blattläuse",
    "Common growing practice": "Gärtnerische Praxis",
    "ramp": "Stufenplan",
    "ramps": "Stufenplan",
    "setback": "Änderung",
    "hybrid": "Zwitter",
    "outing": "Ausgang",
}
"""Words to try with, from memory; not the catalogue that comes with the program."""


@contextmanager
def speaking(code: str, texts: Mapping[str, str]) -> Iterator[None]:
    before = SPEAKER.tongue
    SPEAKER.speak(Tongue(code, lambda source, _sense, _number: texts.get(source, "")))
    try:
        yield
    finally:
        SPEAKER.speak(before)


def catalogue(file: Path) -> dict[str, str]:
    messages = [one for one in ET.parse(file).getroot().iter("message") if one.findtext("comment") == GUIDE]
    found = {one.findtext("source") or "": one.findtext("translation") or "" for one in messages}
    return {source: translation for source, translation in found.items() if translation}


@pytest.fixture
def german() -> Iterator[None]:
    with speaking("de", GERMAN):
        yield


@pytest.mark.usefixtures("german")
class TestInGerman:
    def test_a_crop_is_found_by_its_name_in_either_language_and_its_key_stays(self) -> None:
        guide = load_guide()
        assert guide.crop("pepper").name == "Paprika"
        for typed in ("Paprika", "pepper", "Peppers", "Chili", "chillies", "Capsicum"):
            assert guide.find(typed).key == "pepper", typed

    @pytest.mark.parametrize(
        ("typed", "key"), [("Tomaten", "tomato"), ("poireaux", "leek"), ("melones", "melon")]
    )
    def test_a_plural_of_another_language_finds_its_crop(self, typed: str, key: str) -> None:
        assert load_guide().find(typed).key == key

    def test_who_said_it_stays_as_printed_but_for_what_nobody_printed(self) -> None:
        sources = load_guide().sources
        assert sources["memory"].author == "Gärtnerische Praxis"
        assert str(sources["federal-seed-act"]).startswith("US Department of Agriculture: Federal Seed Act")

    def test_a_trouble_keeps_its_key_and_the_picture_it_is_drawn_by(self) -> None:
        aphids = load_troubles().pests["aphids"]
        assert (aphids.name, aphids.key, aphids.picture) == ("Blattläuse", "aphids", "aphid")

    def test_the_words_stand_in_the_order_of_the_language_they_are_shown_in(self) -> None:
        """DIN 5007-1: Ä is sorted as A; from memory."""
        names = [term.name for term in load_glossary().terms.values() if term.name in GERMAN.values()]
        assert names == ["Änderung", "Ausgang", "Stufenplan", "Zwitter"]

    def test_a_word_is_found_without_its_dots_and_two_forms_that_are_alike_are_told_once(self) -> None:
        glossary = load_glossary()
        assert glossary.find("anderung")[0].key == "setback"
        assert glossary.terms["ramp"].forms == ("Stufenplan",)
        assert [term.key for term in glossary.in_text("Der Stufenplan gilt.")] == ["ramp"]


@pytest.mark.parametrize("file", CATALOGUES, ids=lambda file: file.stem)
def test_every_crop_is_found_by_its_name_and_by_its_english_one_it_or_its_kin(file: Path) -> None:
    english = {crop.key: crop.name for crop in load_guide().crops}
    with speaking(file.stem[-2:], catalogue(file)):
        guide = load_guide()
        for crop in guide.crops:
            assert getattr(guide.find(crop.name), "key", None) == crop.key, crop.name
            found = guide.find(english[crop.key])
            assert getattr(found, "key", None) in guide.lineage(crop.key), english[crop.key]


@pytest.mark.parametrize("file", CATALOGUES, ids=lambda file: file.stem)
def test_no_two_words_are_written_alike_in_a_language(file: Path) -> None:
    with speaking(file.stem[-2:], catalogue(file)):
        forms = [form.casefold() for term in load_glossary().terms.values() for form in term.forms]
    assert sorted(set(forms)) == sorted(forms)


@pytest.mark.parametrize("file", CATALOGUES, ids=lambda file: file.stem)
def test_every_figure_of_the_guide_stands_in_its_translation_too(file: Path) -> None:
    for source, translation in catalogue(file).items():
        assert figures(translation) == figures(source), source


def figures(text: str) -> list[str]:
    """Return the numbers of a text, thousands without their sign and decimals with a point."""
    plain = re.sub(r"(?<=\d)[.,\u00a0\u202f](?=\d{3}\b)", "", text)
    return sorted(found.replace(",", ".") for found in re.findall(r"\d+(?:[.,]\d+)?", plain))
