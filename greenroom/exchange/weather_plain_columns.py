"""Which column of a plain weather table holds what, proposed from the header.

The words are common practice in English, German, French, Spanish, Italian, Dutch and Slovenian, and those
of national weather services' own files, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from greenroom.exchange.column_match import Match
from greenroom.exchange.seed_columns import fold
from greenroom.speech import tr

# What each field is called in a sentence.
FIELD_WORDS = {
    "day": tr("date"),
    "year": tr("year"),
    "month": tr("month"),
    "day_of_month": tr("day of the month"),
    "tmin": tr("lowest temperature"),
    "tmax": tr("highest temperature"),
    "rain": tr("rain"),
    "gust": tr("gust"),
}
# Units at the end of a folded header, which say nothing about what the column holds.
UNITS = (
    "c f deg degc degf degrees celsius fahrenheit mm cm in inch inches inc kmh kph mph kn kt kts knots ms m "
    "s km h 1 l m2"
)
UNIT_WORDS = frozenset(UNITS.split())
# Whole headers without their units, the likeliest first, a bar between them; as ``fold`` leaves them.
WHOLE_HEADERS = {
    "year": "year|yr|yyyy|jahr|annee|ano|anno|jaar|leto",
    "month": "month|mon|mo|mm|monat|mois|mes|mese|maand|mesec",
    "day_of_month": "day|dd|dy|day of month|tag|jour|dia|giorno|dag|dan",
    "day": (
        "date|datum|fecha|data|observation date|obs date|date time|datetime|timestamp|time|valid|mess datum"
        "|messdatum|zeitstempel|zeit|date observation|fecha observacion|yyyymmdd|yyyy mm dd|day|tag|jour"
        "|dia|giorno|dag|dan"
    ),
    "tmin": (
        "tmin|t min|tn|tnk|min temp|min temperature|minimum temperature|minimum air temperature|mintemp"
        "|temp min|temperature min|temperature minimum|temperature 2m min|air temperature min|tempmin"
        "|low|low temp|low temperature|temp low|min|minimum|tmin 2m|tiefsttemperatur|mindesttemperatur"
        "|minimumtemperatur|temperaturminimum|temperatur min|lufttemperatur min|tagesminimum|tiefstwert"
        "|temperature minimale|temp minimale|minimale|mini|tmini|temperatura minima|temp minima|minima"
        "|temperatura min|minimumtemperatuur|minimum temperatuur|najnizja temperatura|minimalna temperatura"
        "|najnizja"
    ),
    "tmax": (
        "tmax|t max|tx|txk|max temp|max temperature|maximum temperature|maximum air temperature|maxtemp"
        "|temp max|temperature max|temperature maximum|temperature 2m max|air temperature max|tempmax"
        "|high|high temp|high temperature|temp high|max|maximum|tmax 2m|hochsttemperatur"
        "|maximaltemperatur|maximumtemperatur|temperaturmaximum|temperatur max|lufttemperatur max"
        "|tagesmaximum|hochstwert|temperature maximale|temp maximale|maximale|maxi|tmaxi"
        "|temperatura maxima|temp maxima|maxima|temperatura massima|massima|temperatura max"
        "|maximumtemperatuur|maximum temperatuur|najvisja temperatura|maksimalna temperatura|najvisja"
    ),
    "rain": (
        "rain|rainfall|prcp|precip|precipitation|precipitation sum|precipitation total|total precipitation"
        "|total rain|rain sum|daily rain|rr|rsk|rain total|precipitation amount|niederschlag"
        "|niederschlagshohe|niederschlagssumme|niederschlagsmenge|regen|regenmenge|pluie|precipitations"
        "|hauteur de precipitations|cumul de pluie|pluviometrie|lluvia|precipitacion|precipitaciones"
        "|pioggia|precipitazione|precipitazioni|neerslag|neerslagsom|padavine|kolicina padavin"
    ),
    "gust": (
        "gust|gusts|wind gust|wind gusts|max gust|maximum gust|gust speed|wind gust speed|peak gust|wsfg|wsf5"
        "|wsf2|wind gusts 10m max|max wind gust|max wind gust speed|speed of maximum wind gust|fx|fxi|boe"
        "|boen|windbo|windboe|windspitze|spitzenbo|maximale windspitze|rafale|rafales|rafale max"
        "|rafale maximale|vent maximal|racha|racha maxima|rachas|raffica|raffica massima|windstoot"
        "|hoogste windstoot|sunek|sunek vetra|najmocnejsi sunek vetra"
    ),
}
# Beginnings of two words that together tell a longer header, tried once no whole header fits.
TELLING_PAIRS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "tmin": (("min", "low", "tiefst"), ("temp", "lufttemp", "air")),
    "tmax": (("max", "high", "hochst"), ("temp", "lufttemp", "air")),
    "rain": (
        ("rain", "precip", "niederschlag", "pluie", "lluvia"),
        ("sum", "total", "amount", "daily", "24"),
    ),
    "gust": (("gust", "rafale", "racha", "raffic"), ("wind", "max", "speed", "vent", "vient", "vento")),
}
# A header with one of these is about something else, such as the soil or a long mean.
OTHER = (
    "soil ground grass erdboden boden sol suelo dew dewpoint wet sea water flag quality qc code normal mean "
    "avg average departure dir direction richtung apparent feels chill heat index"
)
OTHER_MATTERS = frozenset(OTHER.split())


def propose_match(header: Sequence[str]) -> PlainMatch:
    """Propose which column holds which field; a column is used at most once, an unknown one not at all.

    A year and a month make a column called "day" the day of the month; else it is the date.
    """
    folded = [_without_units(fold(cell)) for cell in header]
    found: dict[str, int] = {}
    split = all(_column(folded, name, found) is not None for name in ("year", "month", "day_of_month"))
    for name in FIELD_WORDS:
        if (name == "day") == split and name in ("day", "year", "month", "day_of_month"):
            continue
        column = _column(folded, name, found)
        if column is not None:
            found[name] = column
    return PlainMatch(**found)


def header_units(header: str) -> str:
    """Return the unit words of a header in one word: "TMAX (°F)" gives "f", "Gust km/h" gives "kmh"."""
    words = fold(header.replace("²", "2")).split()
    units = []
    while words and words[-1] in UNIT_WORDS:
        units.append(words.pop())
    return "".join(reversed(units))


def _without_units(folded: str) -> str:
    words = folded.split()
    kept = list(words)
    while len(kept) > 1 and kept[-1] in UNIT_WORDS:
        kept.pop()
    return " ".join(kept)


def _column(folded: list[str], name: str, found: dict[str, int]) -> int | None:
    taken = found.values()
    for whole in WHOLE_HEADERS[name].split("|"):
        if whole in folded and folded.index(whole) not in taken:
            return folded.index(whole)
    telling = (
        index for index, words in enumerate(folded) if index not in taken and _tells(name, words.split())
    )
    return next(telling, None)


def _tells(name: str, words: list[str]) -> bool:
    """Whether the words of a longer header tell that it is about a field."""
    if name not in TELLING_PAIRS or OTHER_MATTERS.intersection(words):
        return False
    return all(any(word.startswith(beginnings) for word in words) for beginnings in TELLING_PAIRS[name])


@dataclass(frozen=True, slots=True)
class PlainMatch(Match):
    """The column, counted from 0, of each field of a weather table; None where it has none.

    The date stands in one column, or in three: year, month and day of the month.
    """

    day: int | None = None
    year: int | None = None
    month: int | None = None
    day_of_month: int | None = None
    tmin: int | None = None
    tmax: int | None = None
    rain: int | None = None
    gust: int | None = None

    @property
    def date_columns(self) -> tuple[int, ...] | None:
        """The column of the date, or those of year, month and day; None if not all are chosen."""
        if self.day is not None:
            return (self.day,)
        parts = (self.year, self.month, self.day_of_month)
        known = tuple(part for part in parts if part is not None)
        return known if len(known) == len(parts) else None
