"""In another language the whole window is in that language, and nothing of it is cut off."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
LANGUAGES = ("xx", "de", "fr", "es")


@pytest.fixture(scope="module")
def walked():
    """What a walk through the window found, by language; the walks go side by side."""
    running = {
        one: subprocess.Popen(
            [sys.executable, "-m", "tests.desk.spoken_walk", one],
            cwd=CHECKOUT,
            env={**os.environ, "PYTHONWARNINGS": "error"},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for one in LANGUAGES
    }
    found = {}
    for one, walk in running.items():
        told, errors = walk.communicate(timeout=110)
        assert walk.returncode == 0, errors[-2000:]
        found[one] = json.loads(told)
    return found


@pytest.mark.parametrize("language", LANGUAGES)
def test_nothing_is_cut_off_in_the_smallest_window(walked, language):
    assert walked[language]["size"] == [1024, 700]
    assert walked[language]["cut"] == []


def test_every_text_shown_named_or_told_passes_through_the_catalogue(walked):
    assert walked["xx"]["texts"] > 2000
    assert walked["xx"]["plain"] == {}
