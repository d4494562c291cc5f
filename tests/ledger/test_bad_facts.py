"""What cannot be true, or would not be read back as it was told, is refused in one sentence."""

from dataclasses import replace
from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from greenroom.ledger import BadFactError
from greenroom.ledger.facts import KINDS, Fact, SpotFact, WeatherDay
from tests.ledger.examples import DAY, EXAMPLES, UNUSUAL

NAN = float("nan")

# kind, field, a value that cannot be, words the refusal must have
BAD = [
    ("variety", "name", "  ", "at least one letter"),
    ("variety", "days_to_ripe", 19, "20 to 400 are allowed"),
    ("variety", "days_to_ripe", 401, "20 to 400 are allowed"),
    ("packet", "packed", 1899, "1900 to 2200"),
    ("packet", "seeds", -1, "0 to 1,000,000 are allowed"),
    ("packet", "germination", 1.01, "0 to 1 (0 to 100 %) is allowed"),
    ("packet", "germination", 85, "0 to 1 (0 to 100 %) is allowed"),
    ("holder_made", "name", "", "at least one letter"),
    ("holder_made", "form", "bucket", "tray, rack or bed"),
    ("holder_made", "rows", 0, "1 to 100 are allowed"),
    ("holder_made", "columns", 101, "1 to 100 are allowed"),
    ("holder_made", "cell_ml", 0.5, "1 to 100,000 are allowed"),
    ("holder_placed", "mix_c", 61.0, "-10 to 60 is allowed"),
    ("sown", "row", -1, "0 to 99 are allowed"),
    ("sown", "column", 100, "0 to 99 are allowed"),
    ("sown", "seeds", 0, "1 to 50 a cell are allowed"),
    ("sprouted", "row", 100, "0 to 99 are allowed"),
    ("sprouted", "count", 51, "1 to 50 a cell are allowed"),
    ("leaf_stage", "leaves", -1, "0 to 40 are allowed"),
    ("lost", "count", 0, "1 to 50 a cell are allowed"),
    ("hardening_started", "outings", 6, "7 to 21 are allowed"),
    ("hardening_started", "start_minutes", 700, "at least 5 to start, more at the end, at most 960"),
    ("outing_started", "light", "dusk", "sun or shade is allowed"),
    ("outing_switched", "light", "", "sun or shade is allowed"),
    ("setback_seen", "what", "sulk", "droop, wilt or scorch is allowed"),
    ("note", "text", "\n", "at least one letter"),
    ("note", "text", "x" * 10_001, "up to 10000 are allowed"),
    ("place_set", "name", " ", "at least one letter"),
    ("place_set", "latitude", 90.1, "-90 to 90 is allowed"),
    ("place_set", "longitude", -181, "-180 to 180 is allowed"),
    ("place_set", "zone", "Europe/Nowhere", "a name such as Europe/Oslo is needed"),
    ("place_set", "zone", "../../etc/passwd", "a name such as Europe/Oslo is needed"),
    ("units_set", "temperature", "k", "c or f is allowed"),
    ("units_set", "volume", "cup", "ml or floz is allowed"),
    ("weather_record", "days", (), "at least one day is needed"),
    ("weather_record", "days", (WeatherDay(DAY, 1, 2), WeatherDay(DAY, 1, 2)), "each day once, in order"),
    # what SQLite would keep, but give back as something else
    ("packet", "germination", NAN, "a number is allowed"),
    ("packet", "germination", float("inf"), "a number is allowed"),
    ("packet", "germination", "0.8", "a number is allowed"),
    ("packet", "germination", True, "a number is allowed"),
    ("packet", "seeds", 12.5, "a whole number is allowed"),
    ("packet", "seeds", True, "a whole number is allowed"),
    ("packet", "lot", 7, "text"),
    ("packet", "lot", None, "text"),
    ("packet", "lot", "half \ud83c a character", "text without control code 0 and half characters"),
    ("note", "text", "cut\x00off", "text without control code 0 and half characters"),
    ("note", "row", 2**31, "a whole number is allowed"),
    ("sown", "day", datetime(2025, 3, 1, 12, tzinfo=UTC), "a date without a time"),
    ("sown", "day", "2025-03-01", "a date without a time"),
    ("sown", "id", 7, "text"),
    ("outing_ended", "at", datetime(2025, 4, 20, 12), "a moment with its time zone"),  # noqa: DTZ001
    ("outing_ended", "at", DAY, "a moment with its time zone"),
    ("outing_ended", "at", datetime(1, 1, 1, tzinfo=UTC), "a moment with its time zone"),
    ("weather_record", "days", [WeatherDay(DAY, 1, 2)], "a tuple of days with numbers or nothing"),
    ("weather_record", "days", ((DAY, 1, 2),), "a tuple of days with numbers or nothing"),
    ("weather_record", "days", (WeatherDay(DAY, NAN, 2),), "a tuple of days with numbers or nothing"),
    ("weather_record", "days", (WeatherDay("1 May", 1, 2),), "a tuple of days with numbers or nothing"),
]


@pytest.mark.parametrize(
    ("kind", "name", "value", "words"),
    BAD,
    ids=[f"{kind} {name} {n}" for n, (kind, name, *_) in enumerate(BAD)],
)
def test_a_fact_that_cannot_be_is_refused_in_one_sentence(kind, name, value, words, empty_ledger):
    fact = replace(EXAMPLES[kind][0], **{name: value})
    with pytest.raises(BadFactError) as caught:
        empty_ledger.record(fact)
    message = str(caught.value)
    assert words in message
    assert "; " in message  # what it is, then what is allowed
    assert "\n" not in message
    assert ". " not in message
    assert (empty_ledger.facts(), empty_ledger.acts()) == ([], [])


def test_a_move_needs_two_different_spots(empty_ledger):
    move = EXAMPLES["moved"][0]
    nowhere = replace(move, to_holder=move.holder, to_row=move.row, to_column=move.column)
    with pytest.raises(BadFactError, match="two different spots are needed"):
        empty_ledger.record(nowhere)


def test_what_is_no_kind_of_fact_is_refused(empty_ledger):
    for thing in (
        Fact(day=DAY),
        SpotFact(day=DAY, holder="tray-a", row=0, column=0),
        "sown",
        None,
        KINDS["sown"],
    ):
        with pytest.raises(BadFactError, match="is no kind of fact; variety, packet"):
            empty_ledger.record(thing)


def test_any_other_text_is_kept_to_the_letter(open_ledger):
    note = replace(EXAMPLES["note"][0], text=f"{UNUSUAL}\r\n\u202e\ufeff é e\u0301 \U0001fad1")
    open_ledger().record(note)
    assert open_ledger().facts() == [note]


def test_a_whole_number_is_taken_where_a_number_is_wanted(open_ledger):
    open_ledger().record(replace(EXAMPLES["holder_placed"][0], mix_c=21))
    (fact,) = open_ledger().facts()
    assert repr(fact.mix_c) == "21.0"


def test_the_two_moments_of_an_hour_lived_twice_stay_apart(open_ledger):
    """On 26 October 2025 Oslo's clocks went from 03:00 back to 02:00: 02:30 came twice, an hour apart."""
    oslo = ZoneInfo("Europe/Oslo")
    ended = EXAMPLES["outing_ended"][0]
    first = datetime(2025, 10, 26, 2, 30, tzinfo=oslo)
    open_ledger().record(
        replace(ended, id="first", at=first), replace(ended, id="second", at=first.replace(fold=1))
    )
    early, late = (fact.at for fact in open_ledger().facts())
    assert (early, late) == (
        datetime(2025, 10, 26, 0, 30, tzinfo=UTC),
        datetime(2025, 10, 26, 1, 30, tzinfo=UTC),
    )


@pytest.mark.parametrize("day", [date(986, 2, 3), date(1800, 12, 31), date(2200, 1, 1), date(9999, 12, 31)])
def test_a_day_the_sun_cannot_be_reckoned_for_is_refused(open_ledger, day):
    with pytest.raises(BadFactError, match=r"allowed$"):
        open_ledger().record(replace(EXAMPLES["held"][0], day=day))
    old = replace(EXAMPLES["held"][0], day=date(1801, 1, 1))
    open_ledger().record(old)
    assert open_ledger().facts() == [old]
