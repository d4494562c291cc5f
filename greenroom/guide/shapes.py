"""What a value in the guide may look like: each shape reads a TOML value or says what is allowed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from greenroom.speech import tr_resource

COLOURS = frozenset(
    {
        "red",
        "orange",
        "yellow",
        "gold",
        "peach",
        "pink",
        "white",
        "cream",
        "green",
        "purple",
        "black",
        "brown",
    }
    | {"blue", "bronze", "lavender"}
)
NONE_CAME_UP = "none"
COLDEST_C, WARMEST_C = -5, 60


class Shape(Protocol):
    """Reads one kind of value."""

    @property
    def allowed(self) -> str:
        """What is allowed, as the end of the sentence '... is not allowed; X is'."""

    def read(self, raw: object) -> object:
        """The typed value, or a ValueError when `raw` is not of this shape."""


@dataclass(frozen=True, slots=True)
class Span:
    """A range, both ends included; a single figure has both ends alike."""

    low: float
    high: float

    def __contains__(self, value: float) -> bool:
        return self.low <= value <= self.high

    @property
    def middle(self) -> float:
        """Half way between the ends."""
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Reading:
    """What was found at one soil temperature; `amount` is None where nothing came up."""

    celsius: float
    amount: float | None


@dataclass(frozen=True, slots=True)
class Number:
    """One figure between two limits."""

    low: float
    high: float
    unit: str

    @property
    def allowed(self) -> str:
        return f"a number from {self.low:g} to {self.high:g} {self.unit}"

    def read(self, raw: object) -> float:
        return _number(raw, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Range:
    """One figure, or [low, high]."""

    low: float
    high: float
    unit: str

    @property
    def allowed(self) -> str:
        return f"a number or [low, high] from {self.low:g} to {self.high:g} {self.unit}"

    def read(self, raw: object) -> Span:
        if not isinstance(raw, list):
            figure = _number(raw, self.low, self.high)
            return Span(figure, figure)
        low, high = (_number(end, self.low, self.high) for end in raw)
        if low > high:
            raise ValueError
        return Span(low, high)


@dataclass(frozen=True, slots=True)
class Ladder:
    """Two rows: soil temperatures, coldest first, and under each the amount found, or "none"."""

    low: float
    high: float
    unit: str

    @property
    def allowed(self) -> str:
        amounts = f'as many numbers from {self.low:g} to {self.high:g} {self.unit} or "{NONE_CAME_UP}"'
        return f"a row of °C from {COLDEST_C} to {WARMEST_C}, coldest first, and a row of {amounts}"

    def read(self, raw: object) -> tuple[Reading, ...]:
        if not isinstance(raw, list) or not all(isinstance(row, list) for row in raw):
            raise ValueError
        celsius, amounts = raw
        warmer = [_number(each, COLDEST_C, WARMEST_C) for each in celsius]
        if not warmer or warmer != sorted(set(warmer)):
            raise ValueError
        return tuple(Reading(at, self._amount(each)) for at, each in zip(warmer, amounts, strict=True))

    def _amount(self, raw: object) -> float | None:
        return None if raw == NONE_CAME_UP else _number(raw, self.low, self.high)


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words."""

    words: tuple[str, ...]

    @property
    def allowed(self) -> str:
        return "one of " + ", ".join(self.words)

    def read(self, raw: object) -> str:
        if raw not in self.words:
            raise ValueError
        return str(raw)


@dataclass(frozen=True, slots=True)
class Text:
    """Words, not blank."""

    @property
    def allowed(self) -> str:
        return "a line of text"

    def read(self, raw: object) -> str:
        if not isinstance(raw, str) or not raw.strip():
            raise ValueError
        return raw


@dataclass(frozen=True, slots=True)
class TextList:
    """One or more texts, none twice."""

    @property
    def allowed(self) -> str:
        return "a list of texts, none of them blank or twice,"

    def read(self, raw: object) -> tuple[str, ...]:
        if not isinstance(raw, list) or not raw:
            raise ValueError
        texts = tuple(Text().read(text) for text in raw)
        if len(set(texts)) < len(texts):
            raise ValueError
        return texts


@dataclass(frozen=True, slots=True)
class Prose(Text):
    """Words for the grower, given in the language of the program."""

    def read(self, raw: object) -> str:
        return tr_resource(Text.read(self, raw))


@dataclass(frozen=True, slots=True)
class ProseList(TextList):
    """One or more texts for the grower, given in the language of the program, none twice."""

    def read(self, raw: object) -> tuple[str, ...]:
        return tuple(dict.fromkeys(tr_resource(text) for text in TextList.read(self, raw)))


@dataclass(frozen=True, slots=True)
class ColourList:
    """One or more colour words."""

    @property
    def allowed(self) -> str:
        return "a list of colours out of " + ", ".join(sorted(COLOURS))

    def read(self, raw: object) -> tuple[str, ...]:
        colours = TextList().read(raw)
        if not COLOURS.issuperset(colours):
            raise ValueError
        return colours


def _number(raw: object, low: float, high: float) -> float:
    if isinstance(raw, bool) or not isinstance(raw, (int, float)) or not low <= raw <= high:
        raise ValueError
    return float(raw)
