"""Every kind of fact is found again where one looks for it: by spot, by holder, by kind and by day."""

from dataclasses import replace
from datetime import date

import pytest

from greenroom.ledger import Change, Entry
from greenroom.ledger.facts import KINDS, Moved, SpotFact, WithinFact
from greenroom.season.filing import ORDERS, spots_of
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from tests.ledger.examples import EXAMPLES, all_examples


def entries():
    return [Entry(number, number, fact) for number, fact in enumerate(all_examples(), start=1)]


@pytest.fixture
def season():
    return Season(entries())


@pytest.mark.parametrize("kind", list(KINDS))
def test_a_fact_is_filed_under_its_spot_or_its_holder(kind, season):
    for fact in EXAMPLES[kind]:
        keys = spots_of(fact)
        for key in keys:
            assert fact in [entry.fact for entry in season.spot_facts(key)]
        holder = getattr(fact, "holder", None)
        if holder is not None and not keys:
            assert fact in [entry.fact for entry in season.holder_facts(holder)]


@pytest.mark.parametrize("cls", list(ORDERS), ids=lambda cls: cls.kind)
def test_facts_that_are_asked_for_by_kind_come_back_in_order(cls, season):
    assert {fact.id for fact in season.facts(cls)} == {fact.id for fact in EXAMPLES[cls.kind]}


def test_a_kind_that_speaks_of_no_holder_can_be_asked_for_by_kind():
    """Else nobody could ever find it."""
    hidden = [cls for cls in KINDS.values() if "holder" not in cls.__dataclass_fields__ and cls not in ORDERS]
    assert hidden == []


def test_a_finding_is_of_the_plant_if_one_is_named_and_of_the_holder_if_not():
    whole, one = EXAMPLES["finding"]
    assert spots_of(whole) == ()
    assert spots_of(one) == (SpotKey("rack-b", 2, 4),)


def test_the_kinds_that_name_a_spot_are_told_apart_from_those_that_may():
    for cls in KINDS.values():
        assert not (issubclass(cls, SpotFact) and issubclass(cls, WithinFact))
    assert len(spots_of(next(fact for fact in all_examples() if isinstance(fact, Moved)))) == 2


def test_the_facts_of_a_day_come_and_go_with_the_acts(season):
    day = date(2025, 4, 2)
    told = [fact.id for fact in all_examples() if fact.day == day]
    assert [entry.fact.id for entry in season.on_day(day)] == told
    looked = EXAMPLES["looked_over"][0]
    again = Entry(999, 999, replace(looked, id="again"))
    season.take(Change("looked over", (again,), ()))
    assert [entry.fact.id for entry in season.on_day(day)] == [*told, "again"]
    season.take(Change("took back", (), (again,)))
    assert [entry.fact.id for entry in season.on_day(day)] == told
    assert season.on_day(date(1999, 1, 1)) == []


def test_putting_a_job_off_touches_no_holder():
    put_off = EXAMPLES["job_put_off"][0]
    touched = Season().take(Change("put off", (Entry(1, 1, put_off),), ()))
    assert (touched.holders, touched.spots) == (frozenset(), frozenset())
    assert touched.kinds == {"job_put_off"}
