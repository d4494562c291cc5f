"""What the guide knows of a crop, a line a fact, each with how far it is vouched for and its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from greenroom.desk.units import from_celsius, unit_sign
from greenroom.guide import Cited, Crop, Guide, Reading, Span, Status
from greenroom.guide.keys import VALUES
from greenroom.season.crops import cite
from greenroom.season.why import Why

SECTIONS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        "Seed",
        (
            ("seed_life_years", "keeps"),
            ("legal_minimum_percent", "least for sale"),
            ("test_c", "tested at"),
            ("test_final_count_days", "last count"),
            ("test_directions", "test also asks"),
            ("seeds_per_gram", "seeds a gram"),
        ),
    ),
    (
        "Sowing",
        (
            ("germination_best_c", "best warmth"),
            ("germination_least_c", "coldest"),
            ("germination_greatest_c", "warmest"),
            ("days_to_emerge", "days to come"),
            ("emergence_days", "days in warmth"),
            ("sow_depth_mm", "depth"),
            ("germination_light", "light"),
            ("sow_where", "sown"),
        ),
    ),
    (
        "Raising",
        (
            ("weeks_indoors", "weeks indoors"),
            ("light_hours", "light a day"),
            ("dli_least_mol_m2", "least daily light"),
            ("grow_day_c", "by day"),
            ("grow_night_c", "by night"),
            ("pot_up_leaf_sets", "potted up at"),
        ),
    ),
    (
        "Outdoors",
        (
            ("night_floor_c", "nights from"),
            ("soil_least_c", "soil from"),
            ("spacing_cm", "between plants"),
            ("final_pot_l", "pot"),
            ("days_to_pick", "days to pick"),
        ),
    ),
)

STATUS_WORDS = {Status.READ: "read", Status.COMPUTED: "worked out", Status.MEMORY: "from memory"}
VOUCHED = {
    Status.READ: "read in the source named below",
    Status.COMPUTED: "worked out from the source named below",
    Status.MEMORY: "recalled, not looked up; go by your packet first",
}
CHOICES = {
    "germination_light": {"light": "wanted", "dark": "kept from it", "either": "with or without"},
    "sow_where": {"indoors": "indoors", "direct": "where it grows", "either": "indoors or where it grows"},
}
DAYS_TO_PICK = "days from setting out to the first fruit, cut or flower"


@dataclass(frozen=True, slots=True)
class GuideFact:
    """One fact as shown: its short name, the figure in words, how far it is vouched for, and why."""

    name: str
    figure: str
    status: str
    why: Why


def guide_facts(guide: Guide, crop: Crop, unit: str) -> list[tuple[str, list[GuideFact]]]:
    """Return what is known of a crop, section by section; temperatures in ``unit``, "c" or "f"."""
    found = []
    for title, names in SECTIONS:
        known = [(key, name, getattr(crop, key)) for key, name in names]
        facts = [_fact(guide, crop, key, name, one, unit) for key, name, one in known if one is not None]
        if facts:
            found.append((title, facts))
    return found


def guide_notes(crop: Crop) -> list[tuple[str, str]]:
    """Return the notes on a crop, each with its source."""
    return [(note.value, f"{cite(note)} · {STATUS_WORDS[note.status]}") for note in crop.notes]


def _fact(guide: Guide, crop: Crop, key: str, name: str, cited: Cited[Any], unit: str) -> GuideFact:
    figure = _figure(key, cited.value, unit)
    written = guide.entries[cited.entry].name if cited.entry in guide.entries else cited.entry
    meaning = DAYS_TO_PICK if key == "days_to_pick" else VALUES[key].meaning
    told = [("what it is", meaning), ("written for", written), ("how it is known", VOUCHED[cited.status])]
    told += [(f"against it, {one.source}", _figure(key, one.value, unit)) for one in crop.others(key)]
    sources = [cite(cited)] + ([cited.source.note] if cited.source.note else [])
    rule = "Taken from the guide as it stands there; a kind that has no figure of its own takes its species'."
    why = Why(f"{crop.name}, {name}: {figure}", rule, tuple(told), tuple(sources))
    return GuideFact(name, figure, STATUS_WORDS[cited.status], why)


def _figure(key: str, value: Any, unit: str) -> str:  # noqa: ANN401 - the key decides
    if key in CHOICES:
        return CHOICES[key][value]
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return _ladder(value, unit)
    sign = "days" if key == "days_to_pick" else str(getattr(VALUES[key].shape, "unit", ""))
    if key == "seeds_per_gram":
        return f"{value:g}"
    span = value if isinstance(value, Span) else Span(value, value)
    if key == "test_c" and span.low != span.high:
        return f"{_number(span.low, sign, unit)} for 16 h, {_number(span.high, sign, unit)} for 8 h"
    return _span(span, sign, unit)


def _span(span: Span, sign: str, unit: str) -> str:
    low, high = (_plain(end, sign, unit) for end in (span.low, span.high))
    sign = unit_sign(unit) if sign == "°C" else sign
    if sign == "sets":
        sign = "sets of true leaves"
    return f"{low} {sign}" if low == high else f"{low}–{high} {sign}"


def _ladder(readings: tuple[Reading, ...], unit: str) -> str:
    """Return a table of days in short: those warmths at which it comes up."""
    known = [one for one in readings if one.amount]
    words = [f"{one.amount:g} at {_plain(one.celsius, '°C', unit)}" for one in known]
    return f"{', '.join(words)} {unit_sign(unit)}"


def _number(value: float, sign: str, unit: str) -> str:
    return f"{_plain(value, sign, unit)} {unit_sign(unit) if sign == '°C' else sign}"


def _plain(value: float, sign: str, unit: str) -> str:
    if sign == "°C":
        return f"{from_celsius(value, unit):.0f}"
    return f"{value:g}"
