"""When a packet can be expected up in a tray, in words, and why."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.guide import Crop, Guide
from greenroom.season.crops import EMERGENCE_TABLE, emergence_crop
from greenroom.season.packets import packet_view
from greenroom.season.sprouting import (
    EARLY,
    HARRINGTON,
    LATE,
    SayC,
    expected_days,
    germination_of,
    in_celsius,
)
from greenroom.season.state import Season
from greenroom.season.why import Why

PEPPER = "pepper"


@dataclass(frozen=True, slots=True)
class Emergence:
    """What can be expected: ``words`` to show, ``why`` behind them."""

    words: str
    why: Why


def emergence(season: Season, guide: Guide, holder: str, packet: str, say_c: SayC = in_celsius) -> Emergence:
    """Return when a packet can be expected up in a tray; ``say_c`` puts a temperature [°C] into words.

    Days by the mix's own temperature where the published table has the crop; without a temperature or
    a row of the table the span of days that the guide gives; said to be unknown where neither is, or
    where none came up at that temperature.
    """
    view = packet_view(season, packet)
    crop = guide.entries.get(view.crop) if view and view.crop else None
    key = view.crop if view else None
    mix_c = season.holder(holder).mix_c
    tabled = _tabled(guide, key)
    days = expected_days(season, holder, packet) if tabled else None
    inputs = [
        ("temperature of the mix", "not known" if mix_c is None else say_c(mix_c)),
        ("germination expected", _germination_words(season, packet)),
    ]
    if days is not None and mix_c is not None:
        return _by_table(days, say_c(mix_c), inputs, crop, emergence_crop(key))
    warmth_speaks = tabled and mix_c is not None
    if crop is not None and crop.emergence_days is not None and not warmth_speaks:
        return _by_guide(crop, inputs)
    return _unknown(inputs, tabled=tabled, warm=mix_c is not None)


def _tabled(guide: Guide, crop: str | None) -> bool:
    """Whether the table has a row for a crop; one that nobody named is taken for a pepper."""
    if crop is None or any(word in crop for word in (*EMERGENCE_TABLE, PEPPER)):
        return True
    return crop in guide.entries and PEPPER in guide.lineage(crop)


def _by_table(
    days: float, warm: str, inputs: list[tuple[str, str]], crop: Crop | None, row: str
) -> Emergence:
    words = f"half up in about {days:.0f} days at {warm} ({days * EARLY:.0f} to {days * LATE:.0f})"
    rule = (
        f"The table's row for {row} gives {days:.1f} days at {warm}, read between its lines by the rate, "
        "one over the days. It stands for one tested lot sown 13 mm deep, so it is good to about a third "
        "either way."
    )
    sources = [HARRINGTON]
    told = [*inputs, ("row of the table", row)]
    if crop is not None and crop.emergence_days is not None:
        told.append((f"the guide for {crop.name}", _span_words(crop)))
        sources.append(str(crop.emergence_days.source))
    return Emergence(words, Why(words, rule, tuple(told), tuple(sources)))


def _by_guide(crop: Crop, inputs: list[tuple[str, str]]) -> Emergence:
    words = f"up in {_span_words(crop)}"
    rule = (
        "The crop is not in the table of days by temperature, or the mix's temperature is not known; so "
        "this is the span the guide gives for mix kept as warm as the crop likes it."
    )
    told = (*inputs, ("crop", crop.name))
    sources = (str(crop.emergence_days.source),) if crop.emergence_days else ()
    return Emergence(words, Why(words, rule, told, sources))


def _unknown(inputs: list[tuple[str, str]], *, tabled: bool, warm: bool) -> Emergence:
    words = "days to come up not known"
    if not tabled:
        rule = "Neither the table of days by temperature nor the guide has a figure for this crop."
    elif warm:
        rule = "At this temperature none came up in the published test, or it was not tested."
    else:
        rule = "Days to come up follow the mix's temperature; give the tray one to see them."
    return Emergence(words, Why(words, rule, tuple(inputs), (HARRINGTON,) if tabled else ()))


def _span_words(crop: Crop) -> str:
    span = crop.emergence_days.value if crop.emergence_days else None
    return "" if span is None else f"{span.low:g} to {span.high:g} days"


def _germination_words(season: Season, packet: str) -> str:
    share = germination_of(season, packet)
    view = packet_view(season, packet)
    known = view is not None and view.packet.germination is not None
    note = "on the label" if known else "the label says nothing; a working rule of this program"
    return f"{share * 100:.0f} % ({note})"
