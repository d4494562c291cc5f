"""What the guide knows of a crop, a line a fact, each with how far it is vouched for and its source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from greenroom.guide import Cited, Crop, Guide, Reading, Span, Status
from greenroom.guide.keys import VALUES
from greenroom.season.crops import cite
from greenroom.season.temperatures import from_celsius, unit_sign
from greenroom.season.why import Why
from greenroom.speech import figure, tr

SECTIONS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        tr("Seed"),
        (
            ("seed_life_years", tr("keeps", sense="of seed")),
            ("legal_minimum_percent", tr("least for sale")),
            ("test_c", tr("tested at")),
            ("test_final_count_days", tr("last count")),
            ("test_directions", tr("test also asks")),
            ("seeds_per_gram", tr("seeds a gram")),
        ),
    ),
    (
        tr("Sowing"),
        (
            ("germination_best_c", tr("best warmth")),
            ("germination_least_c", tr("coldest", sense="soil to come up in")),
            ("germination_greatest_c", tr("warmest", sense="soil to come up in")),
            ("days_to_emerge", tr("days to come")),
            ("emergence_days", tr("days in warmth")),
            ("sow_depth_mm", tr("depth", sense="of sowing")),
            ("germination_light", tr("light", sense="to come up")),
            ("sow_where", tr("sown", sense="where")),
        ),
    ),
    (
        tr("Raising"),
        (
            ("weeks_indoors", tr("weeks indoors")),
            ("light_hours", tr("light a day")),
            ("dli_least_mol_m2", tr("least daily light")),
            ("grow_day_c", tr("by day")),
            ("grow_night_c", tr("by night")),
            ("pot_up_leaf_sets", tr("potted up at")),
        ),
    ),
    (
        tr("Outdoors"),
        (
            ("night_floor_c", tr("nights from")),
            ("soil_least_c", tr("soil from")),
            ("spacing_cm", tr("between plants", sense="spacing")),
            ("final_pot_l", tr("pot", sense="of a grown plant")),
            ("days_to_pick", tr("days to pick")),
        ),
    ),
)

STATUS_WORDS = {
    Status.READ: tr("read", sense="of a fact"),
    Status.COMPUTED: tr("worked out", sense="of a fact"),
    Status.MEMORY: tr("from memory", sense="of a fact"),
}
VOUCHED = {
    Status.READ: tr("read in the source named below"),
    Status.COMPUTED: tr("worked out from the source named below"),
    Status.MEMORY: tr("recalled, not looked up; go by your packet first"),
}
CHOICES = {
    "germination_light": {
        "light": tr("wanted", sense="light to come up"),
        "dark": tr("kept from it", sense="light to come up"),
        "either": tr("with or without", sense="light to come up"),
    },
    "sow_where": {
        "indoors": tr("indoors"),
        "direct": tr("where it grows"),
        "either": tr("indoors or where it grows"),
    },
}
SPAN_WORDS = {
    "years": tr("{span} years"),
    "weeks": tr("{span} weeks"),
    "days": tr("{span} days"),
    "sets": tr("{span} sets of true leaves"),
}
"""How a figure is read with its unit; a unit that is not here is a sign and stands behind as it is."""
DAYS_TO_PICK = tr("days from setting out to the first fruit, cut or flower")


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
    told_figure = _figure(key, cited.value, unit)
    written = guide.entries[cited.entry].name if cited.entry in guide.entries else cited.entry
    meaning = DAYS_TO_PICK if key == "days_to_pick" else VALUES[key].meaning
    told = [
        (tr("what it is"), meaning),
        (tr("written for"), written),
        (tr("how it is known"), VOUCHED[cited.status]),
    ]
    told += [
        (tr("against it, {source}", source=one.source), _figure(key, one.value, unit))
        for one in crop.others(key)
    ]
    sources = [cite(cited)] + ([cited.source.note] if cited.source.note else [])
    rule = tr(
        "Taken from the guide as it stands there; a kind that has no figure of its own takes its species'."
    )
    why = Why(
        tr("{crop}, {what}: {figure}", crop=crop.name, what=name, figure=told_figure),
        rule,
        tuple(told),
        tuple(sources),
    )
    return GuideFact(name, told_figure, STATUS_WORDS[cited.status], why)


def _figure(key: str, value: Any, unit: str) -> str:  # noqa: ANN401 - the key decides
    if key in CHOICES:
        return CHOICES[key][value]
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return _ladder(value, unit)
    sign = "days" if key == "days_to_pick" else str(getattr(VALUES[key].shape, "unit", ""))
    if key == "seeds_per_gram":
        return figure(value, "g")
    span = value if isinstance(value, Span) else Span(value, value)
    if key == "test_c" and span.low != span.high:
        return tr(
            "{low} for 16 h, {high} for 8 h",
            low=_number(span.low, sign, unit),
            high=_number(span.high, sign, unit),
        )
    return _span(span, sign, unit)


def _span(span: Span, sign: str, unit: str) -> str:
    low, high = (_plain(end, sign, unit) for end in (span.low, span.high))
    span_words = low if low == high else f"{low}–{high}"
    if sign in SPAN_WORDS:
        return SPAN_WORDS[sign].format(span=span_words)
    return f"{span_words} {unit_sign(unit) if sign == '°C' else sign}"


def _ladder(readings: tuple[Reading, ...], unit: str) -> str:
    """Return a table of days in short: those warmths at which it comes up."""
    known = [one for one in readings if one.amount]
    words = [
        tr("{days:g} at {warmth}", days=one.amount, warmth=_plain(one.celsius, "°C", unit)) for one in known
    ]
    return f"{', '.join(words)} {unit_sign(unit)}"


def _number(value: float, sign: str, unit: str) -> str:
    return f"{_plain(value, sign, unit)} {unit_sign(unit) if sign == '°C' else sign}"


def _plain(value: float, sign: str, unit: str) -> str:
    if sign == "°C":
        return figure(from_celsius(value, unit), ".0f")
    return figure(value, "g")
