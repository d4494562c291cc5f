"""Why a tray's sprouting curve and its band look as they do."""

from __future__ import annotations

from greenroom.agronomy.sprouting import interval
from greenroom.ledger.facts import Sown
from greenroom.season.packets import variety_name
from greenroom.season.spots import SpotKey
from greenroom.season.sprouting import (
    SPREAD,
    SayC,
    SproutCurve,
    expected_pace,
    expected_share,
    in_celsius,
)
from greenroom.season.state import Season
from greenroom.season.why import Why

WILSON = "Wilson, E. B. 1927. Journal of the American Statistical Association 22:209-212 (score interval)."


def curve_why(season: Season, holder: str, curve: SproutCurve, say_c: SayC = in_celsius) -> Why:
    """Return what went into a tray's curve; ``say_c`` puts a temperature [°C] into words."""
    low, high = interval(curve.count, curve.seeds)
    mix_c = season.holder(holder).mix_c
    inputs = [
        ("seeds sown", str(curve.seeds)),
        ("up so far", f"{curve.count}, {_percent(curve.share)}"),
        (
            "such a share could come from",
            f"{_percent(low)} to {_percent(high)} (95 % interval, n = {curve.seeds})",
        ),
        ("temperature of the mix", "not known" if mix_c is None else say_c(mix_c)),
        *(
            (variety_name(season, packet), _packet_words(season, holder, packet))
            for packet in _packets(season, holder)
        ),
    ]
    rule = (
        "The line counts the sprout marks by day. The band is what the mix's temperature lets one "
        f"expect: days to emerge are taken as log-normal with a spread of {SPREAD}, at the early and at "
        "the late end of what is known of each lot's crop, up to the share that germinates. "
        "The share's interval is the score interval."
    )
    packets = _packets(season, holder)
    paces = [pace for packet in packets if (pace := expected_pace(season, holder, packet)) is not None]
    sources = dict.fromkeys(source for pace in paces for source in pace.sources)
    return Why(f"{curve.count} of {curve.seeds} up", rule, tuple(inputs), (*sources, WILSON))


def _packets(season: Season, holder: str) -> list[str]:
    """Return the packets sown in a holder, in the order of its cells."""
    made = season.holder(holder)
    keys = (SpotKey(holder, row, column) for row in range(made.rows) for column in range(made.columns))
    facts = (entry.fact for key in keys for entry in season.spot_facts(key))
    return list(dict.fromkeys(fact.packet for fact in facts if isinstance(fact, Sown)))


def _packet_words(season: Season, holder: str, packet: str) -> str:
    pace, share = expected_pace(season, holder, packet), expected_share(season, holder, packet)
    when = "days not known" if pace is None else f"half up by day {pace.days:.1f}"
    return f"{when}, {_percent(share)} expected to germinate"


def _percent(share: float) -> str:
    return f"{share * 100:.0f} %"
