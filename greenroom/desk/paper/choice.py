"""What is chosen at the print desk, and how it is made: gathered at once, drawn off the window's thread."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime

from greenroom.desk.paper.errand import CARD, KINDS, LABELS, MAP, PLOT, REPORT, ROUND, TAGS, WEEK
from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.pen import Printed
from greenroom.exchange.paper.plot_sheet import plot_sheet, print_plot
from greenroom.exchange.paper.ramp_card import print_cards, ramp_card
from greenroom.exchange.paper.report import print_report, season_report
from greenroom.exchange.paper.round_sheet import print_round, print_week
from greenroom.exchange.paper.sizes import A4, SHEETS, Paper, SheetSize
from greenroom.exchange.paper.tags import Label, plant_tags, print_labels, tray_label, variety_tags
from greenroom.exchange.paper.tray_map import print_maps, tray_map
from greenroom.season.hardening import going_out
from greenroom.season.holders import Holder
from greenroom.season.place import place_of
from greenroom.season.plot import plot_of
from greenroom.season.round import the_round, week
from greenroom.season.state import Season
from greenroom.speech import tr

ON_LABELS = (TAGS, LABELS)
OF_HOLDERS = (TAGS, LABELS, MAP, CARD)

NO_TRAY = tr("No tray is in use yet; take one into use on Sow, under Fill trays.")

Making = Callable[[Cancel], Printed]


class NothingToPrintError(Exception):
    """There is nothing to put on paper; the message is one sentence, ``page`` where that is put right."""

    def __init__(self, words: str, page: str) -> None:
        super().__init__(words)
        self.page = page


@dataclass(frozen=True, slots=True)
class Choice:
    """What is to be printed; ``holder`` is None for all, ``start`` the first label used, from
    0; ``year`` names a season by its spring, None the one that is under way."""

    kind: str = TAGS
    holder: str | None = None
    by_variety: bool = False
    paper: Paper = A4
    sheet: SheetSize = SHEETS[0]
    start: int = 0
    year: int | None = None


def holders_for(season: Season, kind: str) -> list[Holder]:
    """Return the holders that something can be printed of."""
    if kind == CARD:
        return [season.holder(key) for key in going_out(season)]
    found = season.holders()
    return [one for one in found if one.form != "bed"] if kind == MAP else found


def prepare(season: Season, choice: Choice, today: date, now: datetime) -> Making:
    """Gather what is to be printed; what is returned draws it and looks at nothing of the season.

    Raises
    ------
    NothingToPrintError
        If there is nothing of it.
    """
    return _MAKERS[choice.kind](season, choice, today, now)


def title_of(season: Season, choice: Choice, today: date) -> str:
    """Return a name for the file: what it is, of what, and the day."""
    of = "" if choice.holder is None or choice.kind not in OF_HOLDERS else season.holder(choice.holder).name
    return " ".join(part for part in (KINDS[choice.kind], of, today.isoformat()) if part)


def _chosen(season: Season, choice: Choice) -> list[Holder]:
    offered = holders_for(season, choice.kind)
    return [one for one in offered if choice.holder in (None, one.key)]


def _tags(season: Season, choice: Choice, _today: date, _now: datetime) -> Making:
    make = variety_tags if choice.by_variety else plant_tags
    labels = [label for made in _chosen(season, choice) for label in make(season, made.key)]
    return _labels_made(labels, choice, tr("Nothing grows or waits to come up there, so there are no tags."))


def _labels(season: Season, choice: Choice, _today: date, _now: datetime) -> Making:
    labels = [tray_label(season, made) for made in _chosen(season, choice)]
    return _labels_made(labels, choice, NO_TRAY)


def _labels_made(labels: list[Label], choice: Choice, nothing: str) -> Making:
    if not labels:
        raise NothingToPrintError(nothing, "sow")
    return lambda stop: print_labels(labels, choice.sheet, choice.start, KINDS[choice.kind], stop)


def _map(season: Season, choice: Choice, today: date, _now: datetime) -> Making:
    maps = [tray_map(season, made.key, today) for made in _chosen(season, choice)]
    if not maps:
        raise NothingToPrintError(NO_TRAY, "sow")
    return lambda stop: print_maps(maps, choice.paper, stop)


def _card(season: Season, choice: Choice, today: date, now: datetime) -> Making:
    found = [ramp_card(season, made.key, today, now) for made in _chosen(season, choice)]
    cards = [card for card in found if card is not None]
    if not cards:
        raise NothingToPrintError(tr("No tray is being hardened; begin one on Harden."), "harden")
    return lambda stop: print_cards(cards, choice.paper, stop)


def _round(season: Season, choice: Choice, today: date, now: datetime) -> Making:
    found, place = the_round(season, today, now), place_of(season).name
    return lambda stop: print_round(found, place, choice.paper, stop)


def _week(season: Season, choice: Choice, today: date, now: datetime) -> Making:
    found, place = week(season, today, now), place_of(season).name
    return lambda stop: print_week(found, place, today, choice.paper, stop)


def _plot(season: Season, choice: Choice, today: date, _now: datetime) -> Making:
    if plot_of(season).empty:
        raise NothingToPrintError(tr("Nothing is laid out on the plot; draw a bed on Set out."), "setout")
    sheet = plot_sheet(season, today, place_of(season).name)
    return lambda stop: print_plot(sheet, choice.paper, stop)


def _report(season: Season, choice: Choice, today: date, _now: datetime) -> Making:
    report = season_report(season, today, choice.year)
    return lambda stop: print_report(report, choice.paper, stop)


_MAKERS: dict[str, Callable[[Season, Choice, date, datetime], Making]] = {
    TAGS: _tags,
    LABELS: _labels,
    MAP: _map,
    CARD: _card,
    ROUND: _round,
    WEEK: _week,
    PLOT: _plot,
    REPORT: _report,
}
