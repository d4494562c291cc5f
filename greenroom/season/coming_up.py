"""How long a packet takes to come up: the guide's days, the grower's own, and the two together."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.season.crops import Pace, crop_of, crop_words, pace_of
from greenroom.season.learning import Learned, pace_of_lot
from greenroom.season.packets import PacketView, packet_view
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import many, tr

GELMAN = tr(
    "Gelman, A. et al. 2013. Bayesian Data Analysis, 3rd ed., section 2.5 (a normal mean "
    "with a normal prior; from memory)."
)


@dataclass(frozen=True, slots=True)
class ComingUp:
    """Days from sowing until half of a packet is up, in mix of ``mix_c`` [°C].

    ``sown_so`` tells whether the packet was last sown at that warmth; else it is the best of its crop by
    the guide. ``guide`` is the guide's pace, ``factor`` what the grower's own sowings make of it.
    """

    packet: str
    mix_c: float
    sown_so: bool
    guide: Pace
    factor: Learned

    @property
    def own(self) -> float | None:
        """Days that the lot's own seedlings took, brought to this warmth; None without any."""
        return None if self.factor.own is None else self.guide.days * self.factor.own

    @property
    def days(self) -> float:
        """Days expected, guide and own together."""
        return self.guide.days * self.factor.figure

    @property
    def low(self) -> float:
        """The day before which it comes one time in twenty."""
        return self.guide.days * self.factor.low

    @property
    def high(self) -> float:
        """The day after which it comes one time in twenty."""
        return self.guide.days * self.factor.high


def coming_up(season: Season, packet: str, today: date) -> ComingUp | None:
    """Return how long a packet takes to come up, or None where the guide tells nothing."""
    view = packet_view(season, packet)
    if view is None:
        return None
    known = _last_warmth(season, packet)
    mix_c = _best_warmth(season, view) if known is None else known
    pace = pace_of(season.guide, view.crop, mix_c)
    if pace is None or mix_c is None:
        return None
    factor = pace_of_lot(season, packet, view.packet.variety, today)
    return ComingUp(packet, mix_c, known is not None, pace, factor)


def coming_up_why(season: Season, found: ComingUp, say_c: SayC = in_celsius) -> Why:
    """Return what went into a packet's days to come up; ``say_c`` puts a temperature [°C] into words."""
    view = packet_view(season, found.packet)
    guide, factor = found.guide, found.factor
    own = (
        tr("none half up yet")
        if found.own is None
        else tr("day {day:.1f}, of {seedlings}", day=found.own, seedlings=many(factor.seeds, "seedling"))
    )
    told = (
        (tr("crop"), crop_words(season.guide, view.crop if view else None)),
        (tr("warmth of the mix"), f"{say_c(found.mix_c)}, {warmth_words(found)}"),
        (
            tr("by the guide"),
            tr(
                "day {day:.1f} ({early:.0f} to {late:.0f})",
                day=guide.days,
                early=guide.early,
                late=guide.late,
            ),
        ),
        (tr("this lot's own"), own),
        (
            tr("own sowings put on the guide's days"),
            tr(
                "× {factor:.2f} ({low:.2f} to {high:.2f})",
                factor=factor.figure,
                low=factor.low,
                high=factor.high,
            ),
        ),
    )
    rule = tr(
        "{rule} Each lot's own days are told as a factor on the guide's, so that sowings of "
        "different warmth speak of the same thing. The factor starts at 1, as unsure as lots "
        "differ, and is moved towards what this lot showed, and half as readily towards "
        "other lots of its variety, the further the more seedlings bear it out. The range "
        "holds nine tenths.",
        rule=guide.rule,
    )
    figure = tr(
        "half up on day {day:.0f} ({low:.0f} to {high:.0f})", day=found.days, low=found.low, high=found.high
    )
    return Why(figure, rule, told, (*guide.sources, GELMAN))


def warmth_words(found: ComingUp) -> str:
    """Return where the warmth comes from."""
    return tr("as it was last sown") if found.sown_so else tr("the best of its crop by the guide")


def _last_warmth(season: Season, packet: str) -> float | None:
    holders = [season.holder(key) for key in season.holders_sown(packet)]
    known = [one for one in holders if one.mix_c is not None]
    return max(known, key=lambda one: one.made_on).mix_c if known else None


def _best_warmth(season: Season, view: PacketView) -> float | None:
    crop = crop_of(season.guide, view.crop)
    best = crop.germination_best_c if crop else None
    return best.value.middle if best else None
