"""Which column of a seed list holds what, proposed from the header in the trade's own words.

The words are common practice in English, German, French and Spanish, no source.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass

from greenroom.exchange.column_match import Match
from greenroom.speech import tr

# What each field is called in a sentence.
FIELD_WORDS = {
    "name": tr("variety name"),
    "species": tr("species or crop"),
    "lot": tr("lot"),
    "packed": tr("year packed"),
    "seeds": tr("number of seeds"),
    "germination": tr("germination (%)"),
    "days_to_ripe": tr("days to ripe"),
}
# Whole headers, the likeliest first, a bar between them; written as ``fold`` leaves them.
WHOLE_HEADERS = {
    "name": (
        "variety name|variety|cultivar name|cultivar|cv|sortenname|sorte|nom de la variete|variete"
        "|variedad|nombre de la variedad|nombre variedad|pepper|pepper name|chili|chile|chilli|paprika"
        "|name|plant name|bezeichnung|nom|nombre"
    ),
    "species": (
        "species|botanical name|scientific name|latin name|botanischer name|art|gattung|nom botanique"
        "|espece|nombre botanico|nombre cientifico|especie|crop|crop type|kultur|gemuseart|culture"
        "|cultivo|type|kind|genus|tipo|typ|plant|pflanze|plante|planta"
    ),
    "lot": (
        "lot|lot number|lot no|lot nr|lot code|lot id|batch|batch number|batch no|charge|chargennummer"
        "|charge nr|chargen nr|partie|losnummer|los|los nr|numero de lot|no de lot|lote|numero de lote"
        "|no de lote|n de lote|packet|packet number|tute|sachet|sobre"
    ),
    "packed": (
        "year packed|packed|packed year|pack year|packed for|packed for year|packed on|pack date"
        "|packing year|year|seed year|harvest year|year harvested|harvested|vintage|abgefullt|abfulljahr"
        "|abpackjahr|erntejahr|jahrgang|jahr|annee de conditionnement|annee de recolte|conditionne"
        "|recolte|annee|ano de envasado|envasado|ano de cosecha|cosecha|ano"
    ),
    "seeds": (
        "seeds|number of seeds|no of seeds|seed count|seeds left|seeds per packet|seeds in packet|count"
        "|quantity|qty|amount|samen|anzahl samen|samenzahl|samenanzahl|kornzahl|korner|korn|anzahl"
        "|stuckzahl|stuck|menge|graines|nombre de graines|nb de graines|nb graines|quantite|semillas"
        "|numero de semillas|n de semillas|no de semillas|cantidad"
    ),
    "germination": (
        "germination|germination rate|germ rate|germ|germination percent|germ percent|germination pct"
        "|germ pct|percent germination|viability|keimfahigkeit|keimrate|keimquote|keimkraft|keimung"
        "|taux de germination|faculte germinative|germinacion|tasa de germinacion"
        "|porcentaje de germinacion|poder germinativo|viabilidad|viabilite"
    ),
    "days_to_ripe": (
        "days to ripe|days to ripe fruit|days to ripeness|days to maturity|days to mature|dtm"
        "|days to harvest|ripening days|maturity days|maturity|ripens in days|days|tage bis reife"
        "|tage bis zur reife|tage bis ernte|tage bis zur ernte|reifezeit|reifezeit tage|reifedauer"
        "|reifetage|tage|jours a maturite|jours jusqu a maturite|jours avant recolte"
        "|jours jusqu a la recolte|maturite|jours|dias a madurez|dias hasta la madurez|dias a cosecha"
        "|dias a la cosecha|dias hasta la cosecha|dias de maduracion|maduracion|madurez|dias"
    ),
}
# Beginnings of words that tell a longer header, tried once no whole header fits.
TELLING_WORDS: dict[str, tuple[str, ...]] = {
    "name": ("variet", "cultivar", "sorte", "variedad"),
    "species": ("species", "botan", "latin", "scientific", "wissenschaft", "espece", "especie"),
    "lot": ("lot", "lote", "batch", "charge", "losn"),
    "packed": ("packed", "year", "jahr", "annee", "ano", "abgefullt", "envasad"),
    "seeds": ("seeds", "samen", "graines", "semillas", "korn"),
    "germination": ("germ", "keim", "viab"),
    "days_to_ripe": ("ripe", "matur", "harvest", "reif", "ernte", "recolte", "madur", "cosecha"),
}
DAY_WORDS = frozenset(("day", "days", "tag", "tage", "tagen", "jour", "jours", "dia", "dias"))
# A header with one of these is about something else, such as where or when seed was bought.
OTHER_MATTERS = frozenset(
    (
        "date",
        "datum",
        "fecha",
        "gram",
        "grams",
        "gramm",
        "weight",
        "gewicht",
        "price",
        "preis",
        "prix",
        "precio",
        "cost",
        "source",
        "supplier",
        "company",
        "depth",
        "tiefe",
        "temp",
        "temperature",
        "temperatur",
        "note",
        "notes",
        "notizen",
    )
)


def fold(header: str) -> str:
    """Return a header without case, accents and signs, its words one space apart."""
    bare = unicodedata.normalize("NFKD", header.casefold().replace("%", " "))
    letters = "".join(letter for letter in bare if not unicodedata.combining(letter))
    return " ".join(re.findall(r"[^\W_]+", letters))


def propose_match(header: Sequence[str]) -> ColumnMatch:
    """Propose which column holds which field; a column is used at most once, an unknown one not at all."""
    folded = [fold(cell) for cell in header]
    found: dict[str, int] = {}
    for field in FIELD_WORDS:
        _take(
            found, field, [folded.index(name) for name in WHOLE_HEADERS[field].split("|") if name in folded]
        )
    for field in FIELD_WORDS:
        if field not in found:
            _take(found, field, [index for index, name in enumerate(folded) if _tells(field, name.split())])
    return ColumnMatch(**found)


def _take(found: dict[str, int], field: str, candidates: list[int]) -> None:
    free = [index for index in candidates if index not in found.values()]
    if free:
        found[field] = free[0]


def _tells(field: str, words: list[str]) -> bool:
    """Whether the words of a longer header tell that it is about ``field``."""
    if OTHER_MATTERS.intersection(words):
        return False
    if (field == "days_to_ripe") != bool(DAY_WORDS.intersection(words)):
        return False
    return any(word.startswith(TELLING_WORDS[field]) for word in words)


@dataclass(frozen=True, slots=True)
class ColumnMatch(Match):
    """The column, counted from 0, of each field of a seed list; None where the list has none."""

    name: int | None = None
    species: int | None = None
    lot: int | None = None
    packed: int | None = None
    seeds: int | None = None
    germination: int | None = None
    days_to_ripe: int | None = None
