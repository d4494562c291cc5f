"""The catalogues hold every text of the program, whole, and what the program reads is made of them."""

import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import QTranslator

from greenroom.speech import NAMES

CHECKOUT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(CHECKOUT / "packaging"))

import _sources  # noqa: E402
import languages  # noqa: E402

HOLE = re.compile(r"\{(\w*)(![rsa])?(:[^{}]*)?\}")
LANGUAGES = languages.LANGUAGES


@pytest.fixture(scope="module")
def wanted():
    return _sources.messages(CHECKOUT)


@pytest.fixture(scope="module", params=LANGUAGES)
def known(request):
    return languages.read_translations(languages.catalogue_file(request.param))


def holes(text):
    return {name for name, _, _ in HOLE.findall(text)}


def test_every_language_to_choose_has_a_catalogue_and_the_other_way_round():
    assert {*LANGUAGES, "en"} == set(NAMES)


def test_there_is_much_to_say(wanted):
    assert len(wanted) > 3000


def test_every_text_is_translated(known, wanted):
    assert [one.source for one in wanted if (one.source, one.sense) not in known] == []


def test_no_translation_is_of_a_text_that_is_gone(known, wanted):
    assert set(known) - {(one.source, one.sense) for one in wanted} == set()


def test_every_value_stands_in_the_translation_as_in_the_source(known, wanted):
    amiss = []
    for one in wanted:
        for place, form in enumerate(known.get((one.source, one.sense), ())):
            lone = one.counts and place == 0  # the form for one may leave the number out
            lacking, added = holes(one.source) - holes(form), holes(form) - holes(one.source)
            if added or (lacking - {"n"} if lone else lacking):
                amiss.append((one.source, form))
    assert amiss == []


def test_edges_and_line_ends_are_kept_because_texts_are_put_together(known):
    def ends(text):
        return text[:1].isspace(), text[-1:].isspace(), text.count("\n")

    assert [(key, form) for key, forms in known.items() for form in forms if ends(form) != ends(key[0])] == []


@pytest.mark.parametrize("language", LANGUAGES)
def test_what_the_program_reads_is_what_the_catalogue_says(language):
    file = languages.catalogue_file(language)
    translator = QTranslator()
    assert translator.load(str(file.with_suffix(".qm")))
    amiss = []
    for (source, sense), forms in languages.read_translations(file).items():
        for place, form in enumerate(forms):
            number = (1, 2)[place] if len(forms) > 1 else -1
            found = translator.translate(languages.CONTEXT, source, sense or None, number)
            if found != form:
                amiss.append((source, form, found))
    assert amiss == []


def test_a_text_that_is_not_written_out_is_refused_with_its_line(tmp_path):
    (tmp_path / "greenroom").mkdir()
    (tmp_path / "greenroom" / "speaks.py").write_text("from greenroom.speech import tr\n\nx = tr(name)\n")
    with pytest.raises(_sources.SourceError, match=r"speaks\.py:3: the text is not written out"):
        _sources.messages(tmp_path)


def test_gathering_keeps_what_is_translated_and_marks_what_is_new(tmp_path, monkeypatch):
    (tmp_path / "greenroom").mkdir()
    source = tmp_path / "greenroom" / "speaks.py"
    source.write_text('tr("Water now")\nmany(n, "day")\n')
    monkeypatch.setattr(languages, "CHECKOUT", tmp_path)
    monkeypatch.setattr(languages, "FOLDER", tmp_path / "languages")
    monkeypatch.setattr(_sources, "PROSE", {})
    languages.gather()
    file = languages.catalogue_file("de")
    both = {("Water now", ""): ["Jetzt gießen"], ("{n:,} days", ""): ["{n} Tag", "{n:,} Tage"]}
    languages.write_translations(file, "de", _sources.messages(tmp_path), both)
    source.write_text('tr("Water now")\ntr("Feed now")\n')
    languages.gather()
    assert languages.read_translations(file) == {("Water now", ""): ["Jetzt gießen"]}
    assert 'type="unfinished"' in file.read_text(encoding="utf-8")
    shutil.rmtree(tmp_path / "languages")


def test_the_check_for_missing_translations_passes_as_it_does_for_every_change():
    done = subprocess.run(
        [sys.executable, CHECKOUT / "packaging" / "languages.py", "missing"], check=False, capture_output=True
    )
    assert (done.returncode, done.stdout) == (0, b"")
