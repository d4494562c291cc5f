"""When a packet can be expected up in a tray, in words, and why."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.guide import Crop, Guide
from greenroom.season.crops import Pace, cite, crop_of, crop_words, pace_of
from greenroom.season.packets import packet_view
from greenroom.season.sprouting import germination_of
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Emergence:
    """What can be expected: ``words`` to show, ``why`` behind them."""

    words: str
    why: Why


def emergence(season: Season, guide: Guide, holder: str, packet: str, say_c: SayC = in_celsius) -> Emergence:
    """Return when a packet can be expected up in a tray; ``say_c`` puts a temperature [°C] into words.

    Days by the mix's own temperature, from the published table or the guide's span; without a
    temperature the span that the guide gives; said to be unknown where neither is, or where none came
    up at that temperature.
    """
    view = packet_view(season, packet)
    key = view.crop if view else None
    crop = crop_of(guide, key)
    mix_c = season.holder(holder).mix_c
    pace = pace_of(guide, key, mix_c)
    inputs = [
        (tr("temperature of the mix"), tr("not known") if mix_c is None else say_c(mix_c)),
        (tr("crop"), crop_words(guide, key)),
        (tr("germination expected"), _germination_words(season, packet)),
    ]
    if crop is not None and crop.emergence_days is not None:
        inputs.append((tr("the guide for {crop}", crop=crop.name), _span_words(crop)))
    if pace is not None and mix_c is not None:
        return _by_pace(pace, say_c(mix_c), inputs)
    if crop is not None and crop.emergence_days is not None and mix_c is None:
        return _by_guide(crop, inputs)
    return _unknown(crop, inputs)


def _by_pace(pace: Pace, warm: str, inputs: list[tuple[str, str]]) -> Emergence:
    words = tr("up in {early:.0f} to {late:.0f} days", early=pace.early, late=pace.late)
    rule = pace.rule
    if pace.tabled:
        words = tr(
            "half up in about {days:.0f} days at {warm} ({early:.0f} to {late:.0f})",
            days=pace.days,
            warm=warm,
            early=pace.early,
            late=pace.late,
        )
        rule = tr("{rule} At {warm} that is {days:.1f} days.", rule=rule, warm=warm, days=pace.days)
    return Emergence(words, Why(words, rule, tuple(inputs), pace.sources))


def _by_guide(crop: Crop, inputs: list[tuple[str, str]]) -> Emergence:
    words = tr("up in {span}", span=_span_words(crop))
    rule = tr(
        "The mix's temperature is not known; so this is the span the guide gives for mix "
        "kept as warm as the crop likes it."
    )
    sources = (cite(crop.emergence_days),) if crop.emergence_days else ()
    return Emergence(words, Why(words, rule, tuple(inputs), sources))


def _unknown(crop: Crop | None, inputs: list[tuple[str, str]]) -> Emergence:
    words = tr("days to come up not known")
    table = crop.days_to_emerge if crop else None
    rule = tr(
        "Neither the table of days by temperature nor the guide has a figure for this crop at this warmth."
    )
    if table is not None:
        rule = tr("At this temperature none came up in the published test, or it was not tested.")
    return Emergence(words, Why(words, rule, tuple(inputs), (cite(table),) if table else ()))


def _span_words(crop: Crop) -> str:
    span = crop.emergence_days.value if crop.emergence_days else None
    return "" if span is None else tr("{low:g} to {high:g} days", low=span.low, high=span.high)


def _germination_words(season: Season, packet: str) -> str:
    share = germination_of(season, packet)
    view = packet_view(season, packet)
    known = view is not None and view.packet.germination is not None
    note = tr("on the label") if known else tr("the label says nothing; a working rule of this program")
    return tr("{percent:.0f} % ({note})", percent=share * 100, note=note)
