"""What a grower decides at the desk: how many plants, when to sow, the plan's rules, the light measured."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from datetime import date
from typing import Any

from greenroom.ledger.facts import (
    LAMPS,
    LampMeasured,
    SowingPlanned,
    Variety,
    Wanted,
    new_key,
)
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError, together
from greenroom.season.state import Season
from greenroom.season.wants import chosen_days, rules_of, sowing_span, wanted
from greenroom.season.weekdays import dated_words
from greenroom.speech import many, tr

MOST_PLANTS = 500


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule of the plan: its name, what it is told in ("%", "°" or a noun), and what is allowed."""

    words: str
    unit: str
    least: float
    most: float


RULES: Mapping[str, Rule] = {
    "odds": Rule(tr("The odds wanted"), "%", 0.05, 0.99),
    "confidence": Rule(tr("How sure the plants are to be"), "%", 0.5, 0.999),
    "floor_c": Rule(tr("The warm nights waited for"), "°", -5, 25),
    "run_nights": Rule(tr("The run of warm nights"), "night", 1, 30),
    "killing_c": Rule(tr("The night that ends the season"), "°", -15, 10),
    "hardening_days": Rule(tr("Hardening"), "day", 0, 30),
}


def want(season: Season, variety: str, year: int, plants: int, day: date) -> Proposal:
    """Say how many plants of a variety are wanted in a season; 0 takes it off the plan."""
    name = _name_of(season, variety)
    if not 0 <= plants <= MOST_PLANTS:
        raise RefusedError(
            tr(
                "{plants:,} plants of {variety} are refused; 0 to {most} are allowed.",
                plants=plants,
                variety=name,
                most=MOST_PLANTS,
            )
        )
    if wanted(season, year).get(variety, 0) == plants:
        return Proposal(tr("{plants} of {variety}, as before", plants=many(plants, "plant"), variety=name))
    act = (
        tr("{plants} of {variety} for {year}", plants=many(plants, "plant"), variety=name, year=year)
        if plants
        else tr("no {variety} for {year}", variety=name, year=year)
    )
    return Proposal(act, (Wanted(day=day, variety=variety, year=year, plants=plants),))


def want_each(season: Season, plants: Mapping[str, int], year: int, day: date) -> Proposal:
    """Say how many plants are wanted of several varieties, as one act."""
    if not plants:
        raise RefusedError(tr("No variety is chosen; choose at least one."))
    parts = [want(season, variety, year, number, day) for variety, number in plants.items()]
    changed = [part for part in parts if not part.empty]
    if len(changed) == 1:
        return changed[0]
    return together(
        tr("chose plants of {kinds} for {year}", kinds=many(len(changed), "kind"), year=year), changed
    )


def choose_sowing(season: Season, variety: str, year: int, on: date, day: date) -> Proposal:
    """Choose the day to sow a variety for a season."""
    name, span = _name_of(season, variety), sowing_span(season, year)
    if on not in span:
        raise RefusedError(
            tr(
                "{variety} cannot be sown on {day} for {year}; {first} to {last} is allowed.",
                variety=name,
                day=dated_words(on),
                year=year,
                first=dated_words(span.first),
                last=dated_words(span.last),
            )
        )
    if chosen_days(season, year).get(variety) == on:
        return Proposal(tr("{variety} is to be sown on {day}, as before", variety=name, day=day_words(on)))
    fact = SowingPlanned(day=day, variety=variety, year=year, on=on)
    return Proposal(tr("{variety} to be sown on {day}", variety=name, day=day_words(on)), (fact,))


def forget_sowing(season: Season, variety: str, year: int) -> Proposal:
    """Take the chosen sowing day back, so that the plan proposes one again."""
    name = _name_of(season, variety)
    facts = [fact.id for fact in season.facts(SowingPlanned) if (fact.variety, fact.year) == (variety, year)]
    if not facts:
        raise RefusedError(tr("No sowing day is chosen for {variety} in {year}.", variety=name, year=year))
    return Proposal(tr("left the sowing day of {variety} to the plan", variety=name), strike=tuple(facts))


def set_rules(season: Season, day: date, **changed: float) -> Proposal:
    """Change rules of the plan, named as the fields of `PlanRules`; the others stay as they are.

    Raises
    ------
    RefusedError
        If a value lies outside what is allowed for its rule.
    """
    place = place_of(season)
    for name, value in changed.items():
        rule = RULES[name]
        if not rule.least <= value <= rule.most:
            low, asked, high = (_told(rule, one, place) for one in (rule.least, value, rule.most))
            raise RefusedError(
                tr(
                    "{rule} cannot be {asked}; {low} to {high} is allowed.",
                    rule=rule.words,
                    asked=asked,
                    low=low,
                    high=high,
                )
            )
    before = rules_of(season)
    whole: dict[str, Any] = {
        name: round(value) if isinstance(getattr(before, name), int) else float(value)
        for name, value in changed.items()
    }
    after = replace(before, id=new_key(), day=max(before.day, day), **whole)
    if all(getattr(after, entry.name) == getattr(before, entry.name) for entry in fields(after)[2:]):
        return Proposal(tr("the plan's rules, as before"))
    return Proposal(tr("changed the plan's rules"), (after,))


def measure_light(
    place: str,
    day: date,
    *,
    ppfd: float | None = None,
    lux: float | None = None,
    lamp: str = "white led",
    hours: float = 16.0,
) -> Proposal:
    """Write down the light measured on a shelf, in µmol m⁻² s⁻¹ or in lux of a kind of lamp."""
    place = " ".join(place.split())
    if not place:
        raise RefusedError(tr("The shelf needs a name, the one its trays stand under."))
    if (ppfd is None) == (lux is None):
        raise RefusedError(tr("Give the light in µmol or in lux, one of the two."))
    for value, most, unit in (
        (ppfd, 3_000, "µmol"),
        (lux, 200_000, "lux"),
        (hours, 24, tr("hours a day")),
    ):
        if value is not None and not 0 <= value <= most:
            raise RefusedError(
                tr(
                    "{value:g} {unit} of light is refused; 0 to {most:,} is allowed.",
                    value=value,
                    unit=unit,
                    most=most,
                )
            )
    if lamp not in LAMPS:
        raise RefusedError(
            tr("{lamp!r} is no known kind of lamp; {lamps} are allowed.", lamp=lamp, lamps=", ".join(LAMPS))
        )
    fact = LampMeasured(day=day, place=place, ppfd=ppfd, lux=lux, lamp=lamp, hours=hours)
    return Proposal(tr("measured the light at {shelf}", shelf=place), (fact,))


def _name_of(season: Season, variety: str) -> str:
    fact = season.thing(Variety, variety)
    if fact is None:
        raise RefusedError(tr("That variety is not in the seed box any more."))
    return fact.name


def _told(rule: Rule, value: float, place: Place) -> str:
    if rule.unit == "°":
        return temperature_words(value, place)
    if rule.unit == "%":
        return tr("{percent:g} %", percent=value * 100)
    return many(round(value), "night") if rule.unit == "night" else many(round(value), "day")
