"""A web server on this computer that answers as it is told, also badly; nothing leaves the computer."""

import contextlib
import json
import threading
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import parse_qs, urlsplit

Reply = Callable[["Handler"], None]
GRACE_S = 5.0


class Handler(BaseHTTPRequestHandler):
    """Gives each request the next reply, the last one again and again."""

    protocol_version = "HTTP/1.1"

    def do_GET(self):
        server = self.server
        with server.lock:
            server.requests.append(self)
            reply = server.replies.pop(0) if len(server.replies) > 1 else server.replies[0]
        self.close_connection = True
        with contextlib.suppress(BrokenPipeError, ConnectionResetError):
            reply(self)

    def log_message(self, format, *args):  # noqa: A002 - the name http.server gives it
        """Say nothing."""

    @property
    def fields(self) -> dict[str, str]:
        """What was asked for."""
        return {name: values[0] for name, values in parse_qs(urlsplit(self.path).query).items()}


class LocalServer(ThreadingHTTPServer):
    """The server; ``requests`` are those that came."""

    daemon_threads = True
    block_on_close = False

    def __init__(self, *replies: Reply) -> None:
        super().__init__(("127.0.0.1", 0), Handler)
        self.replies = list(replies)
        self.requests: list[Handler] = []
        self.lock = threading.Lock()
        self.stopping = threading.Event()

    @property
    def url(self) -> str:
        """Where it listens."""
        return f"http://127.0.0.1:{self.server_address[1]}/v1/weather"

    def handle_error(self, request, client_address):
        """Say nothing of a connection that broke off, which is what many tests are about."""


@contextlib.contextmanager
def serving(*replies: Reply) -> Iterator[LocalServer]:
    """Run a server with these replies."""
    with LocalServer(*replies) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        try:
            yield server
        finally:
            server.stopping.set()
            server.shutdown()
            thread.join(GRACE_S)


def answering(content: object, status: int = 200, kind: str = "application/json", **headers: str) -> Reply:
    """Answer with JSON, or with bytes as they are; headers have _ for -."""
    body = content if isinstance(content, bytes) else json.dumps(content).encode()

    def reply(handler: Handler) -> None:
        begin(handler, status, {"Content-Type": kind, "Content-Length": str(len(body)), **named(headers)})
        handler.wfile.write(body)

    return reply


def onward(location: str, status: int = 302) -> Reply:
    """Send the request on."""
    return answering(b"", status, Location=location)


def broken_off(content: bytes, promised: int) -> Reply:
    """Promise so many bytes and close the connection earlier."""

    def reply(handler: Handler) -> None:
        begin(handler, 200, {"Content-Type": "application/json", "Content-Length": str(promised)})
        handler.wfile.write(content)

    return reply


def silent(handler: Handler) -> None:
    """Never answer."""
    handler.server.stopping.wait(GRACE_S)


def dripping(handler: Handler) -> None:
    """Send a blank now and then, and never end."""
    begin(handler, 200, {"Content-Type": "application/json"})
    while not handler.server.stopping.wait(0.02):
        handler.wfile.write(b" ")
        handler.wfile.flush()


def dripping_headers(handler: Handler) -> None:
    """Send the header letter by letter, and never end it."""
    handler.wfile.write(b"HTTP/1.1 200 OK\r\nX-Slow: ")
    while not handler.server.stopping.wait(0.02):
        handler.wfile.write(b"x")
        handler.wfile.flush()


def endless(handler: Handler) -> None:
    """Send without end as fast as it goes."""
    begin(handler, 200, {"Content-Type": "application/json"})
    while not handler.server.stopping.is_set():
        handler.wfile.write(b" " * 65_536)


def endless_chunks(handler: Handler) -> None:
    """Send chunks without end."""
    begin(handler, 200, {"Content-Type": "application/json", "Transfer-Encoding": "chunked"})
    while not handler.server.stopping.is_set():
        handler.wfile.write(b"10000\r\n" + b" " * 65_536 + b"\r\n")


def begin(handler: Handler, status: int, headers: dict[str, str]) -> None:
    handler.send_response(status)
    for name, value in headers.items():
        handler.send_header(name, value)
    handler.end_headers()


def named(headers: dict[str, str]) -> dict[str, str]:
    return {name.replace("_", "-"): value for name, value in headers.items()}
