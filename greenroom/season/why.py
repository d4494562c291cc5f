"""The answer to "why?" beside a figure: what went in, the rule, and where the rule comes from."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.speech import tr

CUSTOM = tr("Common practice, no source.")


@dataclass(frozen=True, slots=True)
class Why:
    """How a figure came about: ``inputs`` are name and value pairs, ``sources`` whole citations."""

    figure: str
    rule: str
    inputs: tuple[tuple[str, str], ...] = ()
    sources: tuple[str, ...] = ()
