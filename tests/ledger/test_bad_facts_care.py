"""What cannot be true of care, plants set out, plot, round and pictures is refused in one sentence."""

from dataclasses import replace
from datetime import date

import pytest

from greenroom.ledger import BadFactError
from greenroom.ledger.facts import KINDS, AnywhereFact, WithinFact
from tests.ledger.examples import EXAMPLES

# kind, field, a value that cannot be, words the refusal must have
BAD = [
    ("holder_made", "form", "shed", "tray, rack or bed is allowed"),
    ("weighed", "state", "damp", "wet, now or dry is allowed"),
    ("weighed", "grams", 0.5, "1 to 200,000 is allowed"),
    ("weighed", "grams", 200_001.0, "1 to 200,000 is allowed"),
    ("mix_felt", "test", "nose", "finger or lift is allowed"),
    ("mix_felt", "level", "soaked", "wet, moist or dry is allowed"),
    ("fed", "feed", " ", "at least one letter"),
    ("fed", "n_percent", 101.0, "0 to 100 is allowed"),
    ("fed", "p2o5_percent", -1.0, "0 to 100 is allowed"),
    ("fed", "k2o_percent", 100.5, "0 to 100 is allowed"),
    ("fed", "ppm_n", 2001.0, "0 to 2,000 is allowed"),
    ("fed", "litres", 0.0, "0.001 to 10,000 are allowed"),
    ("fed", "litres", None, "a number is allowed"),
    ("lamps_set", "place", "", "at least one letter"),
    ("lamps_set", "hours", 24.5, "0 to 24 are allowed"),
    ("lamps_set", "gap_cm", -1.0, "0 to 500 is allowed"),
    ("looked_over", "row", 100, "a row and a column are needed, or neither"),
    ("finding", "sign", "", "at least one letter"),
    ("finding", "count", 0, "1 to 100,000 is allowed"),
    ("finding", "column", 3, "a row and a column are needed, or neither"),
    ("pruned", "what", "roots", "lower leaves, tip, side shoots are allowed"),
    ("pruned", "row", 100, "0 to 99 are allowed"),
    ("flowered", "column", -1, "0 to 99 are allowed"),
    ("picked", "count", 0, "1 to 10,000 is allowed"),
    ("picked", "grams", 0.0, "0.1 to 100,000 is allowed"),
    ("picked", "ripeness", "raw", "green, turning or ripe is allowed"),
    ("picked", "variety", "", "a variety's key is needed"),
    ("picked", "row", 0, "a holder, a row and a column are needed"),
    ("seed_saved", "variety", "", "a variety's key is needed"),
    ("seed_saved", "count", 0, "1 to 1,000,000 is allowed"),
    ("covered", "until", date(2025, 5, 18), "a moment with its time zone"),
    ("soil_felt", "celsius", 61.0, "-30 to 60 is allowed"),
    ("soil_felt", "at", None, "a moment with its time zone"),
    ("bed_laid", "x_m", 1001.0, "-1,000 to 1,000 is allowed"),
    ("bed_laid", "y_m", -1001.0, "-1,000 to 1,000 is allowed"),
    ("bed_laid", "width_m", 0.0, "0.05 to 500 is allowed"),
    ("bed_laid", "depth_m", 501.0, "0.05 to 500 is allowed"),
    ("bed_laid", "turned_deg", 361.0, "-360 to 360 is allowed"),
    ("bed_laid", "pot_litres", 0.05, "0.1 to 2,000 are allowed"),
    ("obstacle", "name", "", "at least one letter"),
    ("obstacle", "x_m", 2000.0, "-1,000 to 1,000 is allowed"),
    ("obstacle", "height_m", 0.0, "0.05 to 500 is allowed"),
    ("job_put_off", "job", " ", "a job's key is needed"),
    ("job_put_off", "until", date(2025, 4, 3), "a day after 2025-04-03 is allowed"),
    ("job_struck", "job", "", "a job's key is needed"),
    ("picture_kept", "file", "../other.png", "a name without a folder is allowed"),
    ("picture_kept", "file", "..", "a name without a folder is allowed"),
    ("picture_kept", "file", " ", "a name without a folder is allowed"),
    ("picture_kept", "sha256", "0" * 63, "64 digits 0 to 9 and a to f"),
    ("picture_kept", "sha256", "G" * 64, "64 digits 0 to 9 and a to f"),
    ("picture_kept", "width", 0, "1 to 100,000 is allowed"),
    ("picture_kept", "height", 100_001, "1 to 100,000 is allowed"),
]

WITHIN = [kind for kind, cls in KINDS.items() if issubclass(cls, WithinFact)]
ANYWHERE = [kind for kind, cls in KINDS.items() if issubclass(cls, AnywhereFact)]


def _refused(ledger, fact, words):
    with pytest.raises(BadFactError) as caught:
        ledger.record(fact)
    message = str(caught.value)
    assert words in message
    assert "; " in message  # what it is, then what is allowed
    assert "\n" not in message
    assert (ledger.facts(), ledger.acts()) == ([], [])


@pytest.mark.parametrize(
    ("kind", "name", "value", "words"),
    BAD,
    ids=[f"{kind} {name} {n}" for n, (kind, name, *_) in enumerate(BAD)],
)
def test_a_fact_that_cannot_be_is_refused_in_one_sentence(kind, name, value, words, empty_ledger):
    _refused(empty_ledger, replace(EXAMPLES[kind][0], **{name: value}), words)


@pytest.mark.parametrize("kind", [*WITHIN, *ANYWHERE])
def test_a_spot_needs_both_its_row_and_its_column(kind, empty_ledger):
    whole = replace(EXAMPLES[kind][0], holder="rack-b", row=None, column=None)
    _refused(empty_ledger, replace(whole, row=1), "a row and a column are needed")
    _refused(empty_ledger, replace(whole, column=1), "a row and a column are needed")
    _refused(empty_ledger, replace(whole, row=1, column=100), "0 to 99 are allowed")


@pytest.mark.parametrize("kind", ANYWHERE)
def test_a_spot_needs_its_holder(kind, empty_ledger):
    _refused(
        empty_ledger,
        replace(EXAMPLES[kind][0], holder=None, row=1, column=1),
        "a holder, a row and a column are needed",
    )
