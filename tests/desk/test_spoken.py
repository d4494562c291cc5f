"""In another language the whole window is in that language, and nothing of it is cut off."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
LANGUAGES = ("xx", "de", "fr", "es")


def told(program, language):
    """What a program of these tests says, run in a language."""
    done = subprocess.run(
        [sys.executable, "-W", "error", "-m", f"tests.desk.{program}", language],
        cwd=CHECKOUT,
        capture_output=True,
        text=True,
        timeout=110,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


@pytest.fixture(scope="module", params=LANGUAGES)
def walked(request):
    """What a walk through the window in one language found."""
    return json.loads(told("spoken_walk", request.param))


def test_nothing_is_cut_off_in_the_smallest_window(walked):
    assert walked["size"] == [1024, 700]
    assert walked["cut"] == []


@pytest.mark.parametrize("walked", ["xx"], indirect=True)
def test_every_text_shown_named_or_told_passes_through_the_catalogue(walked):
    assert walked["texts"] > 2000
    assert walked["plain"] == {}


def test_the_same_clicks_write_the_same_facts_in_every_language():
    english = told("spoken_acts", "en").splitlines()
    assert len({fact.partition("(")[0] for fact in english}) > 10  # kinds of fact
    assert told("spoken_acts", "xx").splitlines() == english
