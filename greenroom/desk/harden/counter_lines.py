"""The lines under the counter: of how many minutes, what comes next, the shade, the light on the leaves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.parts import WhyLink, label, restyle, row
from greenroom.season.counted import SUN
from greenroom.season.door import AtDoor, in_words, next_words, state_words
from greenroom.season.hardening_words import whole_minutes
from greenroom.season.place import Place
from greenroom.season.why import Why
from greenroom.speech import many


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
        self.minutes_why.setAccessibleName("why these minutes")
        self.light_why = WhyLink(bench, light_why)
        self.light_why.setAccessibleName("why this light")
        self.shade_why = WhyLink(bench, shade_why)
        self.shade_why.setAccessibleName("why this shade")
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
        _say(self.of, "no sun today, a day of rest" if stand.resting else _of_words(here))
        words = next_words(here, place) or state_words(here, place)
        # Between the legs of the arc there is room for one, and for shade to be named once.
        shade = "" if here.over else shade_words(here, named=words.startswith("shade"))
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
    figure = f"{light.so_far:.1f}" if light.planned is None else f"{light.so_far:.1f} of {light.planned:.1f}"
    return f"{figure} mol/m² of light"


def shade_words(here: AtDoor, *, named: bool = False) -> str:
    """Return the minutes in shade of today beside those it asks for, or an empty text without either.

    Where shade is ``named`` beside them already, they do not say again what they are of.
    """
    done, asked = whole_minutes(here.counted.shade), here.stand.shade_target
    if asked:
        return f"·  {done} of {asked} min" if named else f"·  {done} of {asked} min in shade"
    return f"·  {many(done, 'minute')} in shade" if done else ""


def _of_words(here: AtDoor) -> str:
    """Return what the counter counts towards, and by which minutes."""
    return f"of {here.stand.sun.limit} {'sun minutes' if here.stand.by == SUN else 'minutes of sun'}"


def _role(here: AtDoor) -> str:
    return "alert" if here.over else "strong"


def _say(line: QLabel, words: str) -> None:
    if line.text() != words:
        line.setText(words)
    line.setVisible(bool(words))
