"""The steps of the walk: what each points at, says, and takes for done."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from PySide6.QtCore import QRect
from PySide6.QtWidgets import QWidget

from greenroom.desk.grow.page import GrowPage
from greenroom.desk.harden.page import HardenPage
from greenroom.desk.page import Page
from greenroom.desk.pick.page import PickPage
from greenroom.desk.place.page import PlacePage
from greenroom.desk.round.page import RoundPage
from greenroom.desk.seed.expect_part import ExpectPart
from greenroom.desk.seed.page import SeedPage
from greenroom.desk.set_out.page import SetOutPage
from greenroom.desk.sow.page import SowPage
from greenroom.ledger.facts import (
    Held,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    Picked,
    SetbackSeen,
    Sprouted,
)
from greenroom.season.spots import Spot, SpotKey, Stage
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.window import Window

P = TypeVar("P", bound=Page)

UNDONE, EXPLAINED, ANY = "undone", "explained", "any act"
"""What is no kind of fact, and yet makes a step done."""
NAMES = {
    "seed": tr("Seed", sense="name of a page"),
    "sow": tr("Sow", sense="name of a page"),
    "grow": tr("Grow on", sense="name of a page"),
    "harden": tr("Harden", sense="name of a page"),
    "setout": tr("Set out", sense="name of a page"),
    "pick": tr("Pick", sense="name of a page"),
    "round": tr("The round"),
    "place": tr("The place"),
}


class Shown(NamedTuple):
    """Part of a widget that a step points at; all of it where ``part`` is None."""

    widget: QWidget
    part: QRect | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One step: its page, its words, what it points at, and what makes it done.

    It is done by an act that touches one of ``kinds``, or once ``watch`` answers otherwise than it did
    when the step began. ``ready`` brings up what the step points at.
    """

    page: str
    title: str
    words: str
    point: Callable[[Window], Shown]
    kinds: frozenset[str] = frozenset()
    watch: Callable[[Window], object] = lambda _window: None
    ready: Callable[[Window], object] = lambda _window: None


def page_of(window: Window, cls: type[P]) -> P:
    """Return a page of the window; LookupError if the window has another in its place."""
    page = window.page(cls.key)
    if isinstance(page, cls):
        return page
    raise LookupError(f"the page {cls.key} is a {type(page).__name__}")


def _first_shown(widgets: Iterable[QWidget]) -> Shown:
    """Return the first widget that is in sight, or the last of all."""
    found = list(widgets)
    return Shown(next((one for one in found if one.isVisible()), found[-1]))


def _seed_why(window: Window) -> Shown:
    page = page_of(window, SeedPage)
    part = page.panel.tabs.part("expect")
    return _first_shown((part.share_why, page.panel) if isinstance(part, ExpectPart) else (page.panel,))


def _choose_packet(window: Window) -> None:
    page = page_of(window, SeedPage)
    if page.card.key is None and page.model.rows:
        page.table.choose(page.model.rows[0].key)
    page.panel.open_tab("expect")


def _odds(window: Window) -> Shown:
    plan = page_of(window, SowPage).plan
    return _first_shown([one for one in (plan.chart, plan.chart_card) if one is not None])


def _bare(window: Window, holder: str) -> list[Spot]:
    return [one for one in window.bench.keeper.season.spots(holder) if one.stage is Stage.SOWN]


def _open_waiting(window: Window) -> None:
    """Open the first tray in which something is still to come up."""
    page, trays = page_of(window, GrowPage), window.bench.keeper.season.holders("tray")
    waiting = [one.key for one in trays if _bare(window, one.key)]
    if waiting and page.main_key not in waiting:
        page.open_holder(waiting[0])


def _cell(window: Window) -> Shown:
    """Point at the first cell of the open tray in which nothing came up yet."""
    view = page_of(window, GrowPage).main.view
    bare = _bare(window, view.holder.key) if view.holder is not None else []
    return Shown(view, _rect(view.grid.cell, bare[0].key) if bare else None)


def _rect(cell: Callable[[tuple[int, int]], QRect], key: SpotKey) -> QRect:
    return cell((key.row, key.column))


def _undo(window: Window) -> Shown:
    return _first_shown((window.messages.undo, page_of(window, GrowPage).main.view))


def _door(window: Window) -> Shown:
    card = page_of(window, HardenPage).card
    return _first_shown((card.buttons, card))


def _job(window: Window) -> Shown:
    page = page_of(window, RoundPage)
    rows = [row for place in page.places.values() for row in place.ordered()]
    return _first_shown((*rows[:1], page))


STEPS = (
    Step(
        "",
        tr("The season, left to right"),
        tr(
            "Each stage from seed box to picking is a page, as wide as its weeks: click one. By "
            "keyboard, F6 goes between this card and the page, Alt+Right and Alt+Left turn the "
            "steps."
        ),
        lambda window: Shown(window.top.ribbon),
        watch=lambda window: window.current,
    ),
    Step(
        "seed",
        tr("Every packet you have"),
        tr(
            "Lot, age, seeds left, and the share to expect up. Choose a packet: its sheet opens "
            "beside the list."
        ),
        lambda window: Shown(page_of(window, SeedPage).table),
        watch=lambda window: page_of(window, SeedPage).card.key,
        ready=lambda window: page_of(window, SeedPage).show_box(),
    ),
    Step(
        "seed",
        tr("Why this figure?"),
        tr("Beside what was worked out stands why?: what went in, the rule, and whose rule it is. Click it."),
        _seed_why,
        kinds=frozenset({EXPLAINED}),
        ready=_choose_packet,
    ),
    Step(
        "sow",
        tr("When to sow"),
        tr(
            "The curves tell in how many of the place's own years each variety ripens, by the "
            "day it is sown. Drag the dashed line, or move it with the arrow keys."
        ),
        _odds,
        watch=lambda window: page_of(window, SowPage).desk.trial,
        ready=lambda window: page_of(window, SowPage).show_view("plan"),
    ),
    Step(
        "sow",
        tr("Trays of any size"),
        tr("Draw packets over the cells of a tray, or let the plan lay the trays out. Click Fill trays."),
        lambda window: Shown(page_of(window, SowPage).switches["trays"]),
        watch=lambda window: page_of(window, SowPage).view,
        ready=lambda window: page_of(window, SowPage).show_view("plan"),
    ),
    Step(
        "grow",
        tr("Up", sense="come up"),
        tr("Look at your trays once a day. Click a sown cell in which nothing was seen so far: it is up."),
        _cell,
        kinds=frozenset({Sprouted.kind}),
        ready=_open_waiting,
    ),
    Step(
        "grow",
        tr("Everything can be undone"),
        tr(
            "What you mark is on the disk at once. Undo, or Ctrl+Z, takes back what you did "
            "last, even tomorrow."
        ),
        _undo,
        kinds=frozenset({UNDONE}),
    ),
    Step(
        "harden",
        tr("Out into the sun, and back in"),
        tr(
            "Say when a tray goes out, comes in, droops or wilts: the minutes count by "
            "themselves, and the days ahead follow what the plants showed. Click what is true of "
            "this one."
        ),
        _door,
        kinds=frozenset(one.kind for one in (OutingStarted, OutingSwitched, OutingEnded, SetbackSeen, Held)),
    ),
    Step(
        "setout",
        tr("The gate"),
        tr(
            "Plants go out for good when nights, soil and hardening allow. Click a why? to see "
            "what is missing."
        ),
        lambda window: Shown(page_of(window, SetOutPage).gate_card),
        kinds=frozenset({EXPLAINED}),
    ),
    Step(
        "pick",
        tr("Write a pick down"),
        tr("Variety, how many, how ripe; Enter writes it. What you picked sharpens next year's dates."),
        lambda window: Shown(page_of(window, PickPage).log),
        kinds=frozenset({Picked.kind}),
    ),
    Step(
        "round",
        tr("What to do today"),
        tr(
            "The jobs of the day by where you stand, each with its reason. Click its button when "
            "one is done, or put it off with later."
        ),
        _job,
        kinds=frozenset({ANY}),
        watch=lambda window: window.current,
    ),
    Step(
        "place",
        tr("Your place"),
        tr(
            "All of this rests on where you grow and on the weather of its years: open Weather "
            "record to see them. F1 has every key, the words of the trade, and this walk."
        ),
        lambda window: Shown(page_of(window, PlacePage).tabs.bar),
        watch=lambda window: page_of(window, PlacePage).tabs.current,
    ),
)
"""The walk, in the order of the season."""
