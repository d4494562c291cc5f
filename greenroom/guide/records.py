"""The guide's records: a crop, its values, and the source of each."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any, Generic, TypeVar

from greenroom.guide.keys import VALUES
from greenroom.guide.shapes import Reading, Span

T = TypeVar("T")


class Status(StrEnum):
    """How far a value is vouched for."""

    READ = "read"
    COMPUTED = "computed"
    MEMORY = "memory"


class Rank(StrEnum):
    """What an entry stands for; a common entry only lends its values to others."""

    COMMON = "common"
    GENUS = "genus"
    SPECIES = "species"
    TYPE = "type"


class Seen(StrEnum):
    """In what form the source was read."""

    ORIGINAL = "original"
    ABSTRACT = "abstract"
    COPY = "copy"
    WEAK = "weak"
    NOT_READ = "not read"


@dataclass(frozen=True, slots=True)
class Source:
    """Who said it, where and when, and in what form it was read."""

    key: str
    author: str
    title: str | None
    year: int | None
    seen: Seen
    note: str | None = None

    def __str__(self) -> str:
        year = f" ({self.year})" if self.year else ""
        title = f": {self.title}" if self.title else ""
        return f"{self.author}{year}{title}"


@dataclass(frozen=True, slots=True)
class Cited(Generic[T]):
    """A value with its source, its status and the entry it is written in."""

    value: T
    source: Source
    status: Status
    entry: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Crop:
    """What is known of one crop, its own values and those taken over from the entry it inherits from.

    A value is None, or an empty tuple, where nothing is known. Temperatures are in °C; where the
    name does not say otherwise, days run from setting out.
    """

    key: str
    name: str
    group: str
    rank: Rank
    latin: str | None = None
    inherits: str | None = None
    aliases: tuple[str, ...] = ()
    against: tuple[tuple[str, Cited[Any]], ...] = ()

    # seed and its test
    seeds_per_gram: Cited[float] | None = None
    seed_life_years: Cited[Span] | None = None
    sealed_moisture_percent: Cited[float] | None = None
    legal_minimum_percent: Cited[float] | None = None
    test_c: Cited[Span] | None = None
    test_alternative_c: Cited[Span] | None = None
    test_first_count_days: Cited[float] | None = None
    test_final_count_days: Cited[float] | None = None
    test_directions: Cited[str] | None = None

    # germination
    germination_least_c: Cited[float] | None = None
    germination_best_c: Cited[Span] | None = None
    germination_greatest_c: Cited[float] | None = None
    days_to_emerge: Cited[tuple[Reading, ...]] | None = None
    normal_seedlings_percent: Cited[tuple[Reading, ...]] | None = None
    emergence_days: Cited[Span] | None = None
    emergence_base_c: Cited[float] | None = None
    emergence_thermal_time_c_days: Cited[float] | None = None
    sow_depth_mm: Cited[Span] | None = None
    germination_light: Cited[str] | None = None
    sow_where: Cited[str] | None = None

    # raising
    weeks_indoors: Cited[Span] | None = None
    light_hours: Cited[Span] | None = None
    bud_day_length_greatest_h: Cited[float] | None = None
    dli_least_mol_m2: Cited[float] | None = None
    dli_fruiting_mol_m2: Cited[Span] | None = None
    grow_day_c: Cited[Span] | None = None
    grow_night_c: Cited[Span] | None = None
    pot_up_leaf_sets: Cited[Span] | None = None
    feed_seedling_ppm_n: Cited[Span] | None = None
    feed_growing_ppm_n: Cited[Span] | None = None
    feed_potted_ppm_n: Cited[Span] | None = None
    feed_hardening_ppm_n: Cited[Span] | None = None
    mix_ph: Cited[Span] | None = None

    # hardening
    harden_outings: Cited[Span] | None = None
    harden_shade_start_minutes: Cited[Span] | None = None
    harden_shade_step_minutes: Cited[Span] | None = None
    harden_sun_start_minutes: Cited[float] | None = None
    harden_full_minutes: Cited[Span] | None = None
    harden_floor_c: Cited[float] | None = None
    frost_floor_c: Cited[float] | None = None
    chill_c: Cited[float] | None = None
    days_bearable_at_5_c: Cited[float] | None = None

    # setting out
    night_floor_c: Cited[float] | None = None
    soil_least_c: Cited[float] | None = None
    spacing_cm: Cited[Span] | None = None
    row_cm: Cited[Span] | None = None
    height_cm: Cited[Span] | None = None
    final_pot_l: Cited[Span] | None = None
    soil_ph: Cited[Span] | None = None
    nitrogen_kg_ha: Cited[Span] | None = None

    # flower and fruit
    growth_base_c: Cited[Span] | None = None
    set_night_least_c: Cited[float] | None = None
    set_night_greatest_c: Cited[float] | None = None
    set_day_greatest_c: Cited[float] | None = None
    flower_to_ripe_days: Cited[Span] | None = None
    days_to_green: Cited[Span] | None = None
    days_to_ripe: Cited[Span] | None = None
    days_to_harvest: Cited[Span] | None = None
    days_to_flower: Cited[Span] | None = None
    ripe_colours: Cited[tuple[str, ...]] | None = None

    # what to look for
    pests: tuple[Cited[str], ...] = ()
    notes: tuple[Cited[str], ...] = ()

    @property
    def days_to_pick(self) -> Cited[Span] | None:
        """Days from setting out to what it is grown for: ripe fruit, else a harvest, else a flower."""
        return self.days_to_ripe or self.days_to_harvest or self.days_to_flower

    @property
    def values(self) -> dict[str, Cited[Any]]:
        """Every single value known, by its key; pests and notes are apart."""
        found = {key: getattr(self, key) for key in VALUES}
        return {key: value for key, value in found.items() if value is not None}

    def others(self, key: str) -> tuple[Cited[Any], ...]:
        """What other sources say of `key`, where they do not agree with the value used."""
        return tuple(cited for name, cited in self.against if name == key)
