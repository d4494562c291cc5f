"""Turns entries as written into crops, each with what it takes over from the entry it inherits from."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from greenroom.guide.entries import Draft, Place
from greenroom.guide.keys import LISTS
from greenroom.guide.records import Cited, Crop
from greenroom.guide.shapes import Span

# Pairs of keys of which the first may not exceed the second.
RISING = (
    ("germination_least_c", "germination_best_c"),
    ("germination_best_c", "germination_greatest_c"),
    ("test_first_count_days", "test_final_count_days"),
    ("frost_floor_c", "harden_floor_c"),
    ("frost_floor_c", "night_floor_c"),
    ("set_night_least_c", "set_night_greatest_c"),
    ("days_to_green", "days_to_ripe"),
)


def crop_of(key: str, drafts: Mapping[str, Draft]) -> Crop:
    """Return the crop of that key: its own values first, then those of its parent, and so on.

    Raises
    ------
    GuideError
        If an entry it inherits from is missing or inherits from it in turn, or two of its values
        contradict each other.
    """
    line = _lineage(key, drafts)
    place = line[0].place
    values: dict[str, Cited[Any]] = {}
    for draft in reversed(line):
        values |= draft.values
    for lower, upper in RISING:
        if lower in values and upper in values:
            _check_order(place, lower, values[lower].value, upper, values[upper].value)
    everything: dict[str, Any] = {
        **_labels(line),
        **values,
        **{name: tuple(_added_up(line, name)) for name in LISTS},
        "against": tuple(_against(line)),
    }
    return Crop(key=key, group=place.file.removesuffix(".toml"), **everything)


def _lineage(key: str, drafts: Mapping[str, Draft]) -> list[Draft]:
    line = [drafts[key]]
    while (parent := line[-1].labels.get("inherits")) is not None:
        place = line[-1].place
        if parent not in drafts:
            raise place.refuse(
                "inherits", f"{parent!r} is not an entry; the key of another entry is allowed."
            )
        if any(draft.place.entry == parent for draft in line):
            raise place.refuse(
                "inherits", f"{parent!r} inherits from it in turn; a line without a loop is allowed."
            )
        line.append(drafts[parent])
    return line


def _labels(line: list[Draft]) -> dict[str, Any]:
    latin = next((draft.labels["latin"] for draft in line if "latin" in draft.labels), None)
    return line[0].labels | {"latin": latin}


def _against(line: list[Draft]) -> Iterator[tuple[str, Cited[Any]]]:
    settled: set[str] = set()
    for draft in line:
        yield from ((key, cited) for key, cited in draft.against if key not in settled)
        settled |= draft.values.keys()


def _added_up(line: list[Draft], name: str) -> Iterator[Cited[str]]:
    said: set[str] = set()
    for draft in line:
        yield from (cited for cited in draft.lists[name] if cited.value not in said)
        said |= {cited.value for cited in draft.lists[name]}


def _check_order(place: Place, lower: str, low: float | Span, upper: str, high: float | Span) -> None:
    (least, most), (from_, to) = _ends(low), _ends(high)
    if least > from_ or most > to:
        fault = f"{from_:g} to {to:g} is not allowed; as much as {lower}, {least:g} to {most:g}, or more is."
        raise place.refuse(upper, fault)


def _ends(value: float | Span) -> tuple[float, float]:
    return (value.low, value.high) if isinstance(value, Span) else (value, value)
