"""The weather record in words: what was brought in, and what is there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from greenroom.exchange.weather_csv import WeatherFile, WeatherLook
from greenroom.exchange.weather_files import WeatherFileLook
from greenroom.exchange.weather_plain import PlainLook
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.place import Place
from greenroom.season.temperatures import temperature
from greenroom.season.wants import Span
from greenroom.season.weather_summary import RecordSummary, summarise
from greenroom.season.weekdays import dated_words
from greenroom.season.within import opening
from greenroom.speech import figure, many, tr, trn

FEW_YEARS = 10
HOUR = 60
TWO_DAYS_H = 48
NO_RECORD = tr(
    "There is no weather record of your place yet. Frost dates and the odds that a "
    "variety ripens are worked out from it, best from 30 years or more. National weather "
    "services give daily summaries as a CSV file."
)


def record_words(summary: RecordSummary) -> str:
    """Return how much weather there is: "37 years, 1982 to 2018 · 13,514 days · no day missing"."""
    if summary.years == 1:
        span = str(summary.first.year)
    else:
        span = tr("{first} to {last}", first=summary.first.year, last=summary.last.year)
    return f"{many(summary.years, 'year')}, {span} · {many(summary.days, 'day')} · {gap_words(summary)}"


def gap_words(summary: RecordSummary) -> str:
    """Return what is missing between the first and the last day."""
    start = summary.gap_start
    if not summary.missing or start is None:
        return tr("no day missing")
    when = dated_words(start)
    missing = trn("1 day missing", "{n:,} days missing", summary.missing)
    if summary.missing == 1:
        return f"{missing}, {when}"
    longest = summary.longest_gap
    if longest == 1:
        runs = tr("never two in a row")
    else:
        runs = tr("at most {longest:,} in a row from {day}", longest=longest, day=when)
    return f"{missing}, {runs}"


def few_words(summary: RecordSummary) -> str:
    """Return a warning where there are too few years to count on, else nothing."""
    if summary.years >= FEW_YEARS:
        return ""
    return trn(
        "Only 1 of the 30 years or so that frost dates and odds should rest on.",
        "Only {n} of the 30 years or so that frost dates and odds should rest on.",
        summary.years,
    )


def gap_rows(gaps: Sequence[Span]) -> list[tuple[str, str, str]]:
    """Return the gaps of a record as rows, the longest first."""
    lengths = [((gap.last - gap.first).days + 1, gap) for gap in gaps]
    ordered = sorted(lengths, key=lambda one: (-one[0], one[1].first))
    return [(gap.first.isoformat(), gap.last.isoformat(), figure(days, ",")) for days, gap in ordered]


def file_words(fact: WeatherRecord) -> str:
    """Return where a part of the record came from and how much it is."""
    station = f", {fact.station}" if fact.station else ""
    span = tr("{first} to {last}", first=fact.days[0].day.isoformat(), last=fact.days[-1].day.isoformat())
    days = many(len(fact.days), "day")
    return tr("{name}: {what}", name=f"{fact.source}{station}", what=f"{days}, {span}")


def looked_words(look: WeatherFileLook) -> str:
    """Return what a weather file seems to be, and what is asked about it."""
    detail = look.detail
    if isinstance(detail, WeatherLook):
        words = tr(
            "{form}, {sampled:,} days looked at. In which units are the numbers?",
            form=look.words,
            sampled=detail.sampled,
        )
    elif isinstance(detail, PlainLook):
        words = tr(
            "{form}, {sampled:,} rows looked at.",
            form=opening(look.words),
            sampled=detail.sampled,
        )
    else:
        words = f"{look.words}."
    return words


def brought_words(file: WeatherFile, place: Place) -> str:
    """Return what came in with a file, so that wrong units catch the eye."""
    words = [tr("Brought in {weather}", weather=_days_words(file.days, place))]
    if file.missing.flagged:
        words.append(
            trn(
                "1 value had failed the service's own checks and was left out.",
                "{n:,} values had failed the service's own checks and were left out.",
                file.missing.flagged,
            )
        )
    return " ".join(words)


def fetched_words(days: Sequence[WeatherDay], place: Place, source: str) -> str:
    """Return what a service gave."""
    return tr("{source} gave {weather}", source=source, weather=_days_words(days, place))


def age_words(taken: datetime, now: datetime) -> str:
    """Return how long ago a forecast was taken."""
    minutes = int((now - taken).total_seconds() // 60)
    if minutes < 0:
        return tr("by a clock that was ahead of this one")
    if minutes < 1:
        return tr("just now")
    if minutes < HOUR:
        return trn("1 minute ago", "{n} minutes ago", minutes)
    hours = minutes // HOUR
    if hours < TWO_DAYS_H:
        return trn("1 hour ago", "{n} hours ago", hours)
    return trn("1 day ago", "{n:,} days ago", hours // 24)


def _days_words(days: Sequence[WeatherDay], place: Place) -> str:
    summary = summarise(days)
    if summary is None:
        return tr("{days} without temperatures.", days=many(len(days), "day"))
    low, high = (temperature(one, place.temperature) for one in (summary.coldest_c, summary.warmest_c))
    return tr(
        "{record}. Coldest night {low}, warmest day {high}.", record=record_words(summary), low=low, high=high
    )
