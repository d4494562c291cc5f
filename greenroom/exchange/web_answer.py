"""What a server answered: the object in it, or one sentence on what it was instead."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from email.utils import parsedate_to_datetime
from typing import NoReturn

from greenroom.exchange.text_lines import clean, shown
from greenroom.exchange.weather_service import ServiceError
from greenroom.speech import tr

OK = 200
TOO_MANY = 429
SERVER_FAULTS = range(500, 600)
JSON_TYPES = ("application/json", "text/json")
LONGEST_REASON = 160
OUTSIDE = tr("the place or the days asked for may be outside what it has")


def read_answer(name: str, answer: Answer) -> dict[str, object]:
    """Return the JSON object in an answer.

    Parameters
    ----------
    name : str
        What the service is called in a sentence.
    answer : Answer
        What it answered.

    Raises
    ------
    ServiceError
        If there is no such object in it.
    TryAgainError
        If there is none now but may be one later.
    """
    reason = answer.reason()
    if answer.status == TOO_MANY:
        raise TryAgainError(
            tr("{name} is asked too often{reason}; try again later.", name=name, reason=reason),
            answer.wait_s(),
            busy=True,
        )
    if answer.status in SERVER_FAULTS:
        raise TryAgainError(
            tr(
                "{name} has a fault of its own, status {status}{reason}; try again later.",
                name=name,
                status=answer.status,
                reason=reason,
            ),
            answer.wait_s(),
        )
    if answer.status != OK:
        raise ServiceError(
            tr(
                "{name} refused the request, status {status}{reason}; {outside}.",
                name=name,
                status=answer.status,
                reason=reason,
                outside=OUTSIDE,
            )
        )
    _refuse_other_kinds(name, answer)
    found = answer.json()
    if not isinstance(found, dict):
        raise ServiceError(tr("{name} answered with broken or unexpected JSON; try again later.", name=name))
    if found.get("error"):
        raise ServiceError(
            tr("{name} refused the request{reason}; {outside}.", name=name, reason=reason, outside=OUTSIDE)
        )
    return found


def _refuse_other_kinds(name: str, answer: Answer) -> None:
    kind = answer.headers.get("content-type", "").partition(";")[0].strip().lower()
    encoding = answer.headers.get("content-encoding", "identity").strip().lower()
    if kind not in JSON_TYPES or encoding != "identity":
        raise ServiceError(
            tr(
                "{name} answered with {kind} where plain JSON is needed; something on the way, such "
                "as the log-in page of a network, may have answered instead.",
                name=name,
                kind=shown(kind or tr("nothing known")),
            )
        )


def _refuse_constant(name: str) -> NoReturn:
    raise ValueError(f"{name} is not JSON")


class TryAgainError(Exception):
    """A failure that may pass; its text is the sentence to show if it does not.

    ``wait_s`` is how long the server asks to wait, None if it does not say; ``busy`` tells that it is
    asked too often.
    """

    def __init__(self, sentence: str, wait_s: float | None = None, busy: bool = False) -> None:
        super().__init__(sentence)
        self.wait_s = wait_s
        self.busy = busy


@dataclass(frozen=True, slots=True)
class Answer:
    """What a server answered; the names of ``headers`` are in small letters."""

    status: int
    headers: Mapping[str, str]
    body: bytes

    def json(self) -> object:
        """Return what the body holds, None if it is no JSON."""
        try:
            return json.loads(self.body.decode("utf-8"), parse_constant=_refuse_constant)
        except (ValueError, RecursionError):
            return None

    def reason(self) -> str:
        """Return the reason given in the body, as a part of a sentence; nothing if there is none."""
        found = self.json()
        reason = found.get("reason") if isinstance(found, dict) else None
        return (
            tr(" (“{reason}”)", reason=clean(reason, LONGEST_REASON))
            if isinstance(reason, str) and reason
            else ""
        )

    def wait_s(self) -> float | None:
        """Return how long the server asks to wait, in seconds, None if it does not say."""
        text = self.headers.get("retry-after", "").strip()
        if text.isascii() and text.isdecimal():
            return float(text[:9])
        try:
            # By the server's own clock, as that of this computer may be wrong.
            until, now = (parsedate_to_datetime(value) for value in (text, self.headers.get("date", "")))
            return max(0.0, (until - now).total_seconds())
        except (ValueError, TypeError):
            return None
