"""Why a tray's sprouting curve and its band look as they do."""

from __future__ import annotations

from greenroom.agronomy.sprouting import interval
from greenroom.ledger.facts import Sown
from greenroom.season.citations import SCORE_INTERVAL
from greenroom.season.packets import variety_name
from greenroom.season.sprouting import SPREAD, SproutCurve, expected_pace, expected_share
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import tr


def curve_why(season: Season, holder: str, curve: SproutCurve, say_c: SayC = in_celsius) -> Why:
    """Return what went into a tray's curve; ``say_c`` puts a temperature [°C] into words."""
    low, high = interval(curve.count, curve.seeds)
    mix_c = season.holder(holder).mix_c
    inputs = [
        (tr("seeds sown"), str(curve.seeds)),
        (tr("up so far"), f"{curve.count}, {_percent(curve.share)}"),
        (
            tr("such a share could come from"),
            tr(
                "{low} to {high} (95 % interval, n = {seeds})",
                low=_percent(low),
                high=_percent(high),
                seeds=curve.seeds,
            ),
        ),
        (tr("temperature of the mix"), tr("not known") if mix_c is None else say_c(mix_c)),
        *(
            (variety_name(season, packet), _packet_words(season, holder, packet))
            for packet in _packets(season, holder)
        ),
    ]
    rule = tr(
        "The line counts the sprout marks by day. The band is what the mix's temperature "
        "lets one expect: days to emerge are taken as log-normal with a spread of {spread:g}, "
        "at the early and at the late end of what is known of each lot's crop, up to the "
        "share that germinates. The share's interval is the score interval.",
        spread=SPREAD,
    )
    packets = _packets(season, holder)
    paces = [pace for packet in packets if (pace := expected_pace(season, holder, packet)) is not None]
    sources = dict.fromkeys(source for pace in paces for source in pace.sources)
    return Why(
        tr("{up} of {seeds} up", up=curve.count, seeds=curve.seeds),
        rule,
        tuple(inputs),
        (*sources, SCORE_INTERVAL),
    )


def _packets(season: Season, holder: str) -> list[str]:
    """Return the packets sown in a holder, in the order of its cells."""
    facts = (entry.fact for _, entry in season.facts_in(holder))
    return list(dict.fromkeys(fact.packet for fact in facts if isinstance(fact, Sown)))


def _packet_words(season: Season, holder: str, packet: str) -> str:
    pace, share = expected_pace(season, holder, packet), expected_share(season, holder, packet)
    when = tr("days not known") if pace is None else tr("half up by day {days:.1f}", days=pace.days)
    return tr("{when}, {share} expected to germinate", when=when, share=_percent(share))


def _percent(share: float) -> str:
    return tr("{percent:.0f} %", percent=share * 100)
