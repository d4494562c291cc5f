"""The weather record in words: what was brought in, and what is there."""

from __future__ import annotations

from greenroom.desk.units import temperature
from greenroom.exchange.weather_csv import WeatherFile
from greenroom.season.hardening_words import day_words
from greenroom.season.place import Place
from greenroom.season.weather_summary import LastFrost, RecordSummary, summarise

FEW_YEARS = 10
NO_RECORD = (
    "There is no weather record of your place yet. Frost dates and the odds that a variety ripens are worked "
    "out from it, best from 30 years or more. National weather services give daily summaries as a CSV file."
)


def record_words(summary: RecordSummary) -> str:
    """Return how much weather there is: "37 years, 1982 to 2018 · 13,514 days · no day missing"."""
    years = "1 year" if summary.years == 1 else f"{summary.years} years"
    span = f"{summary.first.year}" if summary.years == 1 else f"{summary.first.year} to {summary.last.year}"
    return f"{years}, {span} · {summary.days:,} days · {gap_words(summary)}"


def gap_words(summary: RecordSummary) -> str:
    """Return what is missing between the first and the last day."""
    if not summary.missing or summary.gap_start is None:
        return "no day missing"
    missing = "1 day" if summary.missing == 1 else f"{summary.missing:,} days"
    start = summary.gap_start
    longest = "" if summary.longest_gap == 1 else f", at most {summary.longest_gap:,} in a row"
    return f"{missing} missing{longest} from {day_words(start)} {start.year}"


def few_words(summary: RecordSummary) -> str:
    """Return a warning where there are too few years to count on, else nothing."""
    if summary.years >= FEW_YEARS:
        return ""
    return f"Only {summary.years} of the 30 years or so that frost dates and odds should rest on."


def frost_words(frost: LastFrost) -> str:
    """Return when the last frost of spring comes: by when half the years have had it, and nine of ten."""
    if frost.usual is None or frost.late is None:
        return "in no spring of the record"
    usual, late = day_words(frost.usual), day_words(frost.late)
    return f"half the years by {usual}, nine of ten by {late} (of {frost.years})"


def brought_words(file: WeatherFile, place: Place) -> str:
    """Return what came in with a file, so that wrong units catch the eye."""
    summary = summarise(file.days)
    if summary is None:
        return ""
    low, high = (temperature(one, place.temperature) for one in (summary.coldest_c, summary.warmest_c))
    words = f"Brought in {record_words(summary)}. Coldest night {low}, warmest day {high}."
    if file.missing.flagged:
        words += f" {file.missing.flagged:,} values had failed the service's own checks and were left out."
    return words
