"""Why cells still bare are, or are not, worth sowing again: the rule and where it comes from."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.season.why import Why
from greenroom.speech import tr

KAPLAN_MEIER = tr(
    "Kaplan, E. L. and Meier, P. 1958. Journal of the American Statistical Association 53:457-481 (seeds "
    "still bare)."
)
ONOFRI = tr(
    "Onofri, A. et al. 2022. Weed Science 70:259-271 (log-normal days with a share that never comes up)."
)


def resow_why(
    figure: str,
    rule: str,
    sources: Sequence[str],
    told: Sequence[tuple[str, str]],
    *,
    spread: float,
    seeds: int,
    chance: str,
) -> Why:
    """Return why, from the rule and the sources of the pace a lot comes up by.

    ``spread`` is that of the days to emerge, ``seeds`` are as many as the label counts for, ``chance`` is
    below what sowing again is worth it.
    """
    whole = tr(
        "{rule} Once half of what was expected is up in the tray, its own day counts instead. The label "
        "counts as much as {seeds} seeds; those of the lot's own that had time to show move the share. Days "
        "to emerge are taken as log-normal with a spread of {spread:.2f}; the chance is that of a seed which "
        "has not shown by today. A cell with less than {chance} is worth sowing again.",
        rule=rule,
        seeds=seeds,
        spread=spread,
        chance=chance,
    )
    return Why(figure, whole, tuple(told), (*sources, KAPLAN_MEIER, ONOFRI))
