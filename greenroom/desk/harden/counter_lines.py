"""The lines under the counter: of how many minutes, what comes next, the shade, the light on the leaves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.parts import WhyLink, label, restyle, row
from greenroom.season.counted import SUN
from greenroom.season.door import AtDoor, Where, in_words, next_words, state_words
from greenroom.season.hardening_words import whole_minutes
from greenroom.season.place import Place
from greenroom.season.why import Why
from greenroom.speech import many, tr


@dataclass(frozen=True, slots=True)
class Light:
    """Light on the leaves in the sun [mol m-2]: so far, and by the end of today's sun minutes."""

    so_far: float
    planned: float | None = None


class CounterLines(QWidget):
    """Three lines, centred; a line that has nothing to say is not there."""

    def __init__(
        self,
        bench: Bench,
        minutes_why: Callable[[], Why | None],
        light_why: Callable[[], Why | None],
        shade_why: Callable[[], Why | None],
    ) -> None:
        super().__init__()
        self.of = label("")
        self.next = label("", "strong")
        self.shade = label("", "quiet")
        self.light = label("", "quiet")
        self.minutes_why = WhyLink(bench, minutes_why)
        self.minutes_why.setAccessibleName(tr("why these minutes"))
        self.light_why = WhyLink(bench, light_why)
        self.light_why.setAccessibleName(tr("why this light"))
        self.shade_why = WhyLink(bench, shade_why)
        self.shade_why.setAccessibleName(tr("why this shade"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        lines = (
            (self.of, self.minutes_why),
            (self.next, self.shade, self.shade_why),
            (self.light, self.light_why),
        )
        for parts in lines:
            layout.addLayout(row(None, *parts, None))
        for one in (self.of, self.next, self.shade, self.light):
            one.setAlignment(Qt.AlignmentFlag.AlignCenter)

    def show_holder(self, here: AtDoor, light: Light | None, place: Place) -> None:
        """Show the lines of a holder as it is now."""
        stand = here.stand
        _say(self.of, tr("no sun today, a day of rest") if stand.resting else _of_words(here))
        words = next_words(here, place) or state_words(here, place)
        # Between the legs of the arc there is room for one, and for shade to be named once.
        shade = "" if here.over else shade_words(here, named=_names_shade(here))
        soon = "" if shade and stand.shade_target else in_words(here)
        _say(self.next, f"{words}, {soon}" if soon else words)
        restyle(self.next, "role", _role(here))
        _say(self.shade, shade)
        self.shade_why.setVisible(bool(shade) and here.stand.shade_target > 0)
        _say(self.light, light_words(light))
        self.light_why.setVisible(light is not None)


def light_words(light: Light | None) -> str:
    """Return the light on the leaves in words."""
    if light is None:
        return ""
    if light.planned is None:
        return tr("{light:.1f} mol/m² of light", light=light.so_far)
    return tr("{so_far:.1f} of {planned:.1f} mol/m² of light", so_far=light.so_far, planned=light.planned)


def shade_words(here: AtDoor, *, named: bool = False) -> str:
    """Return the minutes in shade of today beside those it asks for, or an empty text without either.

    Where shade is ``named`` beside them already, they do not say again what they are of.
    """
    done, asked = whole_minutes(here.counted.shade), here.stand.shade_target
    if asked:
        return (
            tr("·  {done} of {asked} min", done=done, asked=asked)
            if named
            else tr("·  {done} of {asked} min in shade", done=done, asked=asked)
        )
    return tr("·  {done} in shade", done=many(done, "minute")) if done else ""


def _of_words(here: AtDoor) -> str:
    """Return what the counter counts towards, and by which minutes."""
    limit = here.stand.sun.limit
    if here.stand.by == SUN:
        return tr("of {limit} sun minutes", limit=limit)
    return tr("of {limit} minutes of sun", limit=limit)


def _names_shade(here: AtDoor) -> bool:
    """Whether what comes next for a holder is shade, and `next_words` says so."""
    if here.where is Where.SHADE or here.due is None or here.dark:
        return False
    return here.left > 0 and whole_minutes(here.shade_left) > 0


def _role(here: AtDoor) -> str:
    return "alert" if here.over else "strong"


def _say(line: QLabel, words: str) -> None:
    if line.text() != words:
        line.setText(words)
    line.setVisible(bool(words))
