"""What the demo's grower wants of a year, the days chosen for it, and the light measured on the shelves."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Any

from greenroom.ledger.facts import Fact, LampMeasured, SowingPlanned, Wanted


def plan_facts(
    plans: Sequence[Mapping[str, Any]],
    lights: Sequence[Mapping[str, Any]],
    new_id: Callable[[], str],
    varieties: Mapping[str, str],
) -> Iterator[Fact]:
    """Yield the wishes and chosen days of each plan told, by the varieties' keys, and the shelves' light."""
    for told in plans:
        common = {"day": told["day"], "year": told["year"]}
        for name, plants in told["plants"].items():
            yield Wanted(id=new_id(), variety=varieties[name], plants=plants, **common)
        for name, on in told.get("sow", {}).items():
            yield SowingPlanned(id=new_id(), variety=varieties[name], on=on, **common)
    for light in lights:
        yield LampMeasured(id=new_id(), **light)
