"""What an entry of the guide may say: each key, the shape of its value and what it means."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.guide.shapes import (
    Choice,
    ColourList,
    Ladder,
    Number,
    Prose,
    ProseList,
    Range,
    Shape,
    Text,
    TextList,
)
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Key:
    """The shape a value must have, and its meaning in the grower's words."""

    shape: Shape
    meaning: str


VALUES: dict[str, Key] = {
    # seed and its test
    "seeds_per_gram": Key(Number(0.2, 50000, "seeds/g"), tr("seeds in a gram")),
    "seed_life_years": Key(Range(0.5, 15, "years"), tr("years seed keeps, well stored")),
    "sealed_moisture_percent": Key(Number(2, 14, "%"), tr("greatest moisture of seed in sealed packets")),
    "legal_minimum_percent": Key(Number(20, 95, "%"), tr("least germination sold unmarked")),
    "test_c": Key(Range(5, 40, "°C"), tr("test temperature: 16 h at the first, 8 h at the second")),
    "test_alternative_c": Key(Range(5, 40, "°C"), tr("other test temperature allowed")),
    "test_first_count_days": Key(Number(1, 30, "days"), tr("first count of the test")),
    "test_final_count_days": Key(Number(2, 60, "days"), tr("last count of the test")),
    "test_directions": Key(Prose(), tr("what else the test asks for")),
    # germination
    "germination_least_c": Key(Number(-2, 30, "°C"), tr("coldest soil it comes up in")),
    "germination_best_c": Key(Range(5, 40, "°C"), tr("best soil temperature to come up")),
    "germination_greatest_c": Key(Number(10, 45, "°C"), tr("warmest soil it comes up in")),
    "days_to_emerge": Key(
        Ladder(1, 300, "days"), tr("days from sowing to coming up at each soil temperature")
    ),
    "normal_seedlings_percent": Key(Ladder(0, 100, "%"), tr("sound seedlings at each soil temperature")),
    "emergence_days": Key(Range(1, 120, "days"), tr("days from sowing to coming up in good warmth")),
    "emergence_base_c": Key(Number(-10, 25, "°C"), tr("soil temperature below which it stands still")),
    "emergence_thermal_time_c_days": Key(
        Number(10, 1000, "°C·d"), tr("warmth above the base needed to come up")
    ),
    "sow_depth_mm": Key(Range(0, 80, "mm"), tr("sowing depth")),
    "germination_light": Key(Choice(("light", "dark", "either")), tr("whether seed wants light to come up")),
    "sow_where": Key(Choice(("indoors", "direct", "either")), tr("where it is sown")),
    # raising
    "weeks_indoors": Key(Range(1, 20, "weeks"), tr("weeks from sowing to setting out")),
    "light_hours": Key(Range(6, 24, "h"), tr("hours of light a day under lamps")),
    "bud_day_length_greatest_h": Key(Number(8, 20, "h"), tr("longest day that still lets it bud")),
    "dli_least_mol_m2": Key(Number(2, 40, "mol/m²"), tr("daily light for a sturdy seedling")),
    "dli_fruiting_mol_m2": Key(Range(5, 60, "mol/m²"), tr("daily light once it fruits")),
    "grow_day_c": Key(Range(5, 40, "°C"), tr("best day temperature for growth")),
    "grow_night_c": Key(Range(0, 30, "°C"), tr("best night temperature for growth")),
    "pot_up_leaf_sets": Key(Range(1, 8, "sets"), tr("sets of true leaves when potted up")),
    "feed_seedling_ppm_n": Key(Range(0, 500, "ppm N"), tr("feed for young seedlings")),
    "feed_growing_ppm_n": Key(Range(0, 500, "ppm N"), tr("feed once it grows away")),
    "feed_potted_ppm_n": Key(Range(0, 500, "ppm N"), tr("constant feed in pots")),
    "feed_hardening_ppm_n": Key(Range(0, 500, "ppm N"), tr("feed while hardening")),
    "mix_ph": Key(Range(4, 9, "pH"), tr("acidity of the seedling mix")),
    # hardening
    "harden_outings": Key(Range(3, 28, "days"), tr("days of hardening")),
    "harden_shade_start_minutes": Key(Range(0, 600, "minutes"), tr("first outing, in shade")),
    "harden_shade_step_minutes": Key(Range(0, 240, "minutes"), tr("more each day, in shade")),
    "harden_sun_start_minutes": Key(Number(0, 240, "minutes"), tr("first outing in direct sun")),
    "harden_full_minutes": Key(Range(60, 1440, "minutes"), tr("a full day out")),
    "harden_floor_c": Key(Number(-5, 25, "°C"), tr("below this, in for the night")),
    "frost_floor_c": Key(Number(-25, 5, "°C"), tr("coldest night borne when hardened")),
    "chill_c": Key(Number(-2, 20, "°C"), tr("below this leaves are harmed")),
    "days_bearable_at_5_c": Key(Number(0, 30, "days"), tr("days at 5 °C that do no harm")),
    # setting out
    "night_floor_c": Key(Number(-10, 25, "°C"), tr("coldest nights to set out in")),
    "soil_least_c": Key(Number(0, 30, "°C"), tr("least soil temperature to set out in")),
    "spacing_cm": Key(Range(2, 300, "cm"), tr("between plants")),
    "row_cm": Key(Range(10, 400, "cm"), tr("between rows")),
    "height_cm": Key(Range(5, 400, "cm"), tr("height when grown")),
    "final_pot_l": Key(Range(0.2, 100, "L"), tr("pot it ends in")),
    "soil_ph": Key(Range(4, 9, "pH"), tr("acidity of the soil")),
    "nitrogen_kg_ha": Key(Range(0, 400, "kg/ha"), tr("nitrogen over the season, in the ground")),
    # flower and fruit
    "growth_base_c": Key(Range(0, 25, "°C"), tr("temperature below which growth stands still")),
    "set_night_least_c": Key(Number(0, 25, "°C"), tr("nights colder than this spoil pollen")),
    "set_night_greatest_c": Key(Number(15, 40, "°C"), tr("nights warmer than this set no fruit")),
    "set_day_greatest_c": Key(Number(20, 50, "°C"), tr("days hotter than this drop flowers")),
    "flower_to_ripe_days": Key(Range(5, 200, "days"), tr("days from open flower to ripe")),
    "days_to_green": Key(Range(15, 300, "days"), tr("days to the first full-sized green fruit")),
    "days_to_ripe": Key(Range(15, 365, "days"), tr("days to the first ripe fruit")),
    "days_to_harvest": Key(Range(15, 365, "days"), tr("days to the first cut or pull")),
    "days_to_flower": Key(Range(15, 365, "days"), tr("days to the first flowers")),
    "ripe_colours": Key(ColourList(), tr("colours when ripe")),
}

# Every source adds to these; none replaces another.
LISTS: dict[str, Key] = {
    "pests": Key(ProseList(), "what to look for"),
    "notes": Key(ProseList(), "what else is known"),
}

# What an entry is called.
LABELS: dict[str, Key] = {
    "name": Key(Prose(), "its name"),
    "rank": Key(Choice(("common", "genus", "species", "type")), "what the entry stands for"),
    "latin": Key(Text(), "its botanical name"),
    "inherits": Key(Text(), "the entry whose values it takes over"),
    "aliases": Key(TextList(), "other names it goes by"),
}

SOURCE_KEYS: dict[str, Key] = {
    "author": Key(Text(), "who said it"),
    "title": Key(Text(), "where it was said"),
    "year": Key(Number(1700, 2100, "AD"), "when it was said"),
    "seen": Key(Choice(("original", "abstract", "copy", "weak", "not read")), "in what form it was read"),
    "note": Key(Prose(), "what else is to be known of it"),
}
