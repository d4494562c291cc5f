"""The demo's germination tests at home, as facts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import timedelta
from typing import Any

from greenroom.ledger.facts import Fact, GerminationCount, GerminationTest


def home_test_facts(
    told: Sequence[Mapping[str, Any]], new_key: Callable[[], str], packets: Mapping[str, str]
) -> Iterator[Fact]:
    """Yield the tests and their counts, those to come with them; ``packets`` are keys by variety name."""
    for one in told:
        key, begun = new_key(), one["day"]
        yield GerminationTest(
            id=new_key(),
            day=begun,
            test=key,
            packet=packets[one["variety"]],
            seeds=one["seeds"],
            warmth_c=one["warmth_c"],
        )
        for days, count in one["counts"]:
            day = begun + timedelta(days=days)
            yield GerminationCount(id=new_key(), day=day, test=key, count=count)
