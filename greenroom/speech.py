"""What the program says, in the language it was started in.

Every text a grower reads passes `tr` or `trn` with its English source written out, so that
``packaging/languages.py`` finds it. The language is chosen once, before anything that speaks is
imported (`greenroom.desk.language` does so), which is why a module may keep a table of texts: a change of
language takes hold at the next start. Without a choice everything is English.

What is kept or compared (facts, keys, columns of files) never passes here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from string import Formatter
from typing import Any

ENGLISH = "en"
NAMES = {"en": "English", "de": "Deutsch", "fr": "Français", "es": "Español"}
"""Each language by its code (ISO 639-1), under its own name."""
GUIDE = "guide"


def _silent(_source: str, _sense: str, _number: int | None) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Tongue:
    """A language: its code, its catalogue, and how it writes numbers.

    ``translate`` takes a source, its sense ("" for most) and, for a text that counts, the number; it returns
    the text in the language, or "" where the catalogue has none.
    """

    code: str = ENGLISH
    translate: Callable[[str, str, int | None], str] = _silent
    point: str = "."
    group: str = ","


class Speaker:
    """Holds the tongue the program speaks: the one thing about a text that is not an argument."""

    def __init__(self) -> None:
        self.tongue = Tongue()
        self._signs: dict[int, str] = {}

    def speak(self, tongue: Tongue) -> None:
        """Speak a language from now on; texts that were made before stay as they are."""
        self.tongue = tongue
        self._signs = str.maketrans({".": tongue.point, ",": tongue.group})

    def number(self, value: float, spec: str) -> str:
        """Return a number formatted as Python would, with the signs of the language."""
        shown = format(value, spec).translate(self._signs)
        if spec.endswith("%") and self.tongue.code != ENGLISH:
            return f"{shown[:-1]}\N{NO-BREAK SPACE}%"
        return shown


SPEAKER = Speaker()


class _Saying(Formatter):
    """Puts values into a text; numbers that are given a format get the signs of the language."""

    def format_field(self, value: Any, format_spec: str) -> str:  # noqa: ANN401 (as the base has it)
        if format_spec and isinstance(value, (int, float)):
            return SPEAKER.number(value, format_spec)
        return str(format(value, format_spec))


_SAYING = _Saying()


def tr(source: str, /, *, sense: str = "", **values: object) -> str:
    """Return a text in the language of the program, with its values put in.

    Parameters
    ----------
    source
        The English text, written out where `tr` is called; ``{name}`` and ``{name:.1f}`` stand for values.
        Without values it is taken as it is, braces and all.
    sense
        What is meant, where one English word has several translations.
    """
    return _put(SPEAKER.tongue.translate(source, sense, None) or source, values)


def trn(one: str, more: str, number: int, /, *, sense: str = "", **values: object) -> str:
    """Return a text that counts, in the form its language has for the number; ``{n}`` stands for it.

    Parameters
    ----------
    one, more
        The English text for 1 and for every other number, both written out.
    number
        What is counted.
    """
    found = SPEAKER.tongue.translate(more, sense, number) or (one if number == 1 else more)
    return _put(found, {"n": number, **values})


def tr_resource(text: str) -> str:
    """Return a text of a resource in the language of the program.

    The resource holds the English; which of its fields are texts for the grower is said in the table
    ``PROSE`` of ``packaging/_sources.py``, by which they are gathered. So the text may come in a variable.
    Their sense is `GUIDE`, which keeps a word of the guide apart from the same word on a button.
    """
    return SPEAKER.tongue.translate(text, GUIDE, None) or text


def many(number: int, what: str) -> str:
    """Return a number with its noun, written out in the singular: 1 day, 2 days, 1,200 days."""
    return trn(f"{{n:,}} {what}", f"{{n:,}} {what}s", number)


def figure(value: float, spec: str) -> str:
    """Return a number that stands alone, formatted as Python would, with the signs of the language."""
    return SPEAKER.number(value, spec)


def _put(text: str, values: dict[str, Any]) -> str:
    if not values:
        return text
    if SPEAKER.tongue.code == ENGLISH:
        return text.format(**values)
    return _SAYING.vformat(text, (), values)
