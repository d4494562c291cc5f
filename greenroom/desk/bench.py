"""What every part of the window is given: the keeper, the look, and ways to speak and explain."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtWidgets import QWidget

from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.guide import Guide
from greenroom.season.why import Why


def _no_show(key: str) -> None:
    raise LookupError(f"there is no window to show {key} in")


@dataclass
class Bench:
    """The common ground of the pages.

    ``say`` shows one sentence in the message strip, ``explain`` opens the why-panel beside a widget,
    ``show_page`` goes to a page by its key, ``walk`` begins the walk through the demo. The window sets
    the four; parts only call them.
    """

    keeper: Keeper
    look: Look
    say: Callable[[str], None] = field(default=_no_show)
    explain: Callable[[Why, QWidget], None] = field(default=lambda why, _: _no_show(why.figure))
    show_page: Callable[[str], None] = field(default=_no_show)
    walk: Callable[[], None] = field(default=lambda: _no_show("the walk"))
    _errand: tuple[str, object] | None = None

    @property
    def guide(self) -> Guide:
        """What is known of the crops: the season's own guide, so that it is read once."""
        return self.keeper.season.guide

    def send(self, page: str, errand: object) -> None:
        """Go to a page with an errand: what it is to show when it comes to the front."""
        self._errand = (page, errand)
        self.show_page(page)

    def errand(self, page: str) -> object | None:
        """Return the errand that a page was gone to with, once; None if there is none for it."""
        if self._errand is None or self._errand[0] != page:
            return None
        (_, found), self._errand = self._errand, None
        return found
