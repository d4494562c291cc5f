"""Fetches JSON from a server that is not trusted: bounded in time and size, called off at will."""

from __future__ import annotations

import ssl
import time
from collections.abc import Callable, Mapping
from contextlib import closing
from dataclasses import dataclass
from http.client import HTTPException
from typing import NoReturn

from urllib3.connection import HTTPConnection, HTTPSConnection
from urllib3.exceptions import (
    ConnectTimeoutError,
    HTTPError,
    NameResolutionError,
    ReadTimeoutError,
    SSLError,
)
from urllib3.response import BaseHTTPResponse

from greenroom import __version__
from greenroom.exchange.errors import Cancelled
from greenroom.exchange.text_lines import clean, shown
from greenroom.exchange.weather_service import ServiceError
from greenroom.exchange.web_address import Address
from greenroom.exchange.web_answer import Answer, TryAgainError, read_answer
from greenroom.exchange.web_watch import Watch
from greenroom.speech import tr

AGENT = f"greenroom/{__version__}"
CHUNK_BYTES = 1 << 14
LONGEST_REASON = 160
MOST_REDIRECTS = 3
REDIRECTS = frozenset((301, 302, 303, 307, 308))
TICK_S = 0.1


@dataclass(frozen=True, slots=True)
class Patience:
    """How long to wait, how often to try and how much to take.

    ``answer_s`` bounds one answer as a whole, ``total_s`` all tries with the waits between them.
    ``first_wait_s`` comes after a first failure and doubles with each; ``busy_wait_s`` comes where the
    server says that it is asked too often but not how long to wait, and grows by itself with each.
    """

    connect_s: float = 10.0
    read_s: float = 20.0
    answer_s: float = 60.0
    total_s: float = 300.0
    tries: int = 5
    first_wait_s: float = 1.0
    busy_wait_s: float = 20.0
    longest_wait_s: float = 70.0
    most_bytes: int = 8_000_000


class Web:
    """Asks one service for JSON. ``name`` is what the service is called in a sentence."""

    def __init__(
        self,
        name: str,
        patience: Patience | None = None,
        monotonic: Callable[[], float] = time.monotonic,
        sleep: Callable[[float], object] = time.sleep,
    ) -> None:
        self._name = name
        self._patience = Patience() if patience is None else patience
        self._monotonic = monotonic
        self._sleep = sleep

    def fetch(
        self, address: Address, fields: Mapping[str, str], cancelled: Callable[[], bool] | None = None
    ) -> dict[str, object]:
        """Return the JSON object that the service answers with.

        Parameters
        ----------
        address : Address
            Where to ask.
        fields : mapping of str to str
            What to ask for.
        cancelled : callable, optional
            Asked again and again, also from another thread; True calls the work off.

        Raises
        ------
        ServiceError
            If there is no such answer after all tries, or one that no further try would better.
        Cancelled
            If ``cancelled`` returned True.
        """
        asked = address.with_fields(fields)
        call_off = (lambda: False) if cancelled is None else cancelled
        ends = self._monotonic() + self._patience.total_s
        for failures in range(1, self._patience.tries + 1):
            try:
                return read_answer(self._name, self._follow(asked, min(ends, self._answer_end()), call_off))
            except TryAgainError as problem:
                wait = self._wait_after(problem, failures)
                if failures == self._patience.tries or self._monotonic() + wait > ends:
                    raise ServiceError(str(problem)) from problem
                self._pause(wait, call_off)
        raise ServiceError(tr("{name} was not asked, as no try is allowed.", name=self._name))

    def _answer_end(self) -> float:
        return self._monotonic() + self._patience.answer_s

    def _wait_after(self, problem: TryAgainError, failures: int) -> float:
        patience = self._patience
        if problem.wait_s is not None:
            if problem.wait_s > patience.longest_wait_s:
                raise ServiceError(
                    tr(
                        "{name} asks to wait {seconds:,.0f} seconds before it is asked again; "
                        "try again then.",
                        name=self._name,
                        seconds=problem.wait_s,
                    )
                ) from problem
            return problem.wait_s
        wait = (
            patience.busy_wait_s * failures if problem.busy else patience.first_wait_s * 2 ** (failures - 1)
        )
        return min(wait, patience.longest_wait_s)

    def _pause(self, wait: float, cancelled: Callable[[], bool]) -> None:
        until = self._monotonic() + wait
        while (left := until - self._monotonic()) > 0:
            if cancelled():
                raise Cancelled
            self._sleep(min(left, TICK_S))

    def _follow(self, address: Address, ends: float, cancelled: Callable[[], bool]) -> Answer:
        """Ask, and ask again where the server sends the request on to another place of its own."""
        for _ in range(MOST_REDIRECTS + 1):
            answer = self._ask(address, ends, cancelled)
            if answer.status not in REDIRECTS:
                return answer
            onward = address.joined(answer.headers.get("location", ""))
            if onward is None:
                raise ServiceError(
                    tr(
                        "{name} sent the request on to {address}; only its own address is allowed.",
                        name=self._name,
                        address=shown(answer.headers.get("location", "")),
                    )
                )
            address = onward
        raise ServiceError(
            tr(
                "{name} sent the request on more than {most} times; try again later.",
                name=self._name,
                most=MOST_REDIRECTS,
            )
        )

    def _ask(self, address: Address, ends: float, cancelled: Callable[[], bool]) -> Answer:
        if cancelled():
            raise Cancelled
        connection = self._connection(address)
        watch = Watch(connection, lambda: self._monotonic() > ends, cancelled)
        try:
            with watch:
                answer = self._exchange(connection, address, watch)
        except (HTTPError, HTTPException, OSError) as error:
            self._raise_ended(watch, error)
            self._raise_failed(error)
        finally:
            connection.close()
        self._raise_ended(watch, None)
        return answer

    def _connection(self, address: Address) -> HTTPConnection | HTTPSConnection:
        patience = self._patience
        if address.secure:
            return HTTPSConnection(
                address.host,
                address.port,
                timeout=patience.connect_s,
                ssl_context=ssl.create_default_context(),
            )
        return HTTPConnection(address.host, address.port, timeout=patience.connect_s)

    def _exchange(
        self, connection: HTTPConnection | HTTPSConnection, address: Address, watch: Watch
    ) -> Answer:
        connection.connect()
        watch.hold()
        connection.timeout = self._patience.read_s
        connection.request(
            "GET",
            address.target,
            headers={"User-Agent": AGENT, "Accept": "application/json", "Accept-Encoding": "identity"},
            preload_content=False,
            decode_content=False,
        )
        response = connection.getresponse()
        with closing(response):
            headers = {name.lower(): value for name, value in response.headers.items()}
            return Answer(response.status, headers, self._body(response, watch))

    def _body(self, response: BaseHTTPResponse, watch: Watch) -> bytes:
        allowed = self._patience.most_bytes
        parts: list[bytes] = []
        taken = 0
        for part in response.stream(CHUNK_BYTES, decode_content=False):
            taken += len(part)
            if taken > allowed:
                raise ServiceError(
                    tr(
                        "{name} answered with more than {most:g} MB; at most that much is allowed.",
                        name=self._name,
                        most=allowed / 1e6,
                    )
                )
            if watch.ended:
                break
            parts.append(part)
        return b"".join(parts)

    def _raise_ended(self, watch: Watch, error: Exception | None) -> None:
        if watch.called_off:
            raise Cancelled from error
        if watch.late:
            raise TryAgainError(
                tr(
                    "{name} did not answer in full within {seconds:g} seconds; try again later.",
                    name=self._name,
                    seconds=self._patience.answer_s,
                )
            ) from error

    def _raise_failed(self, error: Exception) -> NoReturn:
        """Say what went wrong with a connection."""
        if isinstance(error, SSLError | ssl.SSLError):
            raise ServiceError(
                tr(
                    "The connection to {name} cannot be trusted ({reason}), so nothing was asked; check "
                    "this computer's clock and network.",
                    name=self._name,
                    reason=clean(str(error), LONGEST_REASON),
                )
            ) from error
        if isinstance(error, NameResolutionError):
            what = tr("its address was not found")
        elif isinstance(error, ConnectTimeoutError | ReadTimeoutError | TimeoutError):
            what = tr("no answer came in time")
        else:
            what = tr("the connection failed or broke off")
        raise TryAgainError(
            tr(
                "{name} cannot be reached, as {reason}; an internet connection is needed, "
                "so try again later.",
                name=self._name,
                reason=what,
            )
        ) from error
