"""What a crop is called in the window, and how long its seed keeps."""

from __future__ import annotations

from greenroom.guide import Crop, Guide
from greenroom.season.why import Why
from greenroom.speech import tr, trn


def kind_words(guide: Guide, crop: str | None) -> str:
    """Return a crop's name in the guide; a key that the guide does not know is shown as it is."""
    if crop is None:
        return ""
    return guide.entries[crop].name if crop in guide.entries else crop.replace("-", " ")


def species_words(guide: Guide, crop: str | None) -> str:
    """Return a crop's species, the genus as its initial: "C. chinense"."""
    found = guide.entries.get(crop) if crop else None
    latin = found.latin if found else None
    if not latin:
        return ""
    genus, _, rest = latin.partition(" ")
    return f"{genus[0]}. {rest}" if rest else genus


def long_name(crop: Crop) -> str:
    """Return a crop's name with its Latin name, as a list to choose from shows it."""
    return f"{crop.name} · {crop.latin}" if crop.latin else crop.name


def past_keeping(guide: Guide, crop: str | None, age: int | None) -> bool:
    """Whether seed of an age [years] is older than such seed usually keeps."""
    years = _life(guide, crop)
    return age is not None and years is not None and age > years[1]


def keeping_why(guide: Guide, crop: str | None, age: int) -> Why | None:
    """Return why seed of an age [years] is called fresh or old; None where the guide gives no life."""
    found = guide.entries.get(crop) if crop else None
    if found is None or found.seed_life_years is None:
        return None
    span = found.seed_life_years
    low, high = span.value.low, span.value.high
    keeps = (
        tr("{years:g} years", years=low)
        if low == high
        else tr("{low:g} to {high:g} years", low=low, high=high)
    )
    rule = tr(
        "Seed is called old when it is past the longest of the usual years; it may still "
        "come up, slower and in smaller shares. Test ten seeds before you count on it."
    )
    inputs = (
        (
            tr("age"),
            trn("1 year from the year on the packet", "{n} years from the year on the packet", age),
        ),
        (tr("crop"), found.name),
        (tr("keeps, cool and dry, usually"), keeps),
    )
    return Why(
        trn("1 year old; usually keeps {span}", "{n} years old; usually keeps {span}", age, span=keeps),
        rule,
        inputs,
        (str(span.source),),
    )


def _life(guide: Guide, crop: str | None) -> tuple[float, float] | None:
    found = guide.entries.get(crop) if crop else None
    if found is None or found.seed_life_years is None:
        return None
    return found.seed_life_years.value.low, found.seed_life_years.value.high
