"""The server of the pages: this machine alone, reading alone."""

from __future__ import annotations

import os
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any, BinaryIO
from urllib.parse import parse_qs, urlsplit

from hts.checking.checker.fault import fault
from hts.view.guard import LONGEST, Guard, Refused, heads_of, new_key
from hts.view.site import Answer, Site

#: Nothing but the loopback: what is shown is nobody else's business.
ADDRESS = "127.0.0.1"
#: Requests that are answered at the same time, and seconds one may take to arrive.
_MOST, _SLOWEST = 64, 20
_PLAIN = "text/plain; charset=utf-8"


class _Short:
    """A stream that ends after so many bytes: a request is short."""

    def __init__(self, stream: BinaryIO) -> None:
        self._stream = stream
        self._left = LONGEST

    def readline(self, most: int = -1) -> bytes:
        if self._left <= 0:
            raise ConnectionAbortedError("a request of more than 8 kB")
        line = self._stream.readline(min(most, self._left) if most >= 0 else self._left)
        self._left -= len(line)
        return line

    def close(self) -> None:
        self._stream.close()


class _Handler(BaseHTTPRequestHandler):
    server: Server
    #: One request for each connection, so that many tabs hold none.
    protocol_version = "HTTP/1.0"
    timeout = _SLOWEST
    server_version, sys_version = "hts", ""

    def setup(self) -> None:
        super().setup()
        self.rfile: Any = _Short(self.rfile)

    def do_GET(self) -> None:
        self._answer(body=True)

    def do_HEAD(self) -> None:
        self._answer(body=False)

    def _refuse_method(self) -> None:
        self._answer(body=True)

    do_POST = do_PUT = do_DELETE = do_PATCH = do_OPTIONS = _refuse_method

    def _answer(self, *, body: bool) -> None:
        nonce = new_key()
        try:
            if len(self.headers.get_all("Host") or ()) > 1:
                raise Refused(400, "two names of the server")
            steps = self.server.guard.steps(self.command, self.path, self.headers)
            query = {k: v[-1] for k, v in parse_qs(urlsplit(self.path).query).items()}
            answer = self.server.site.answer(steps, query, nonce)
        except Refused as refused:
            answer = Answer(refused.status, _PLAIN, f"{refused}\n".encode())
        except Exception as error:
            answer = Answer(500, _PLAIN, f"this page could not be made: {fault(error)}\n".encode())
        self.send_response(answer.status)
        for name, value in heads_of(nonce, answer.kind).items():
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(answer.body)))
        self.end_headers()
        if body:
            self.wfile.write(answer.body)

    def log_message(self, format: str, *args: object) -> None:
        """The key stands in every address: nothing is written down."""


class Server(ThreadingHTTPServer):
    """`address` is what to open. Use `serve_forever` and `shutdown`."""

    daemon_threads = True
    # On Windows it would let another program listen on the same port.
    allow_reuse_address = os.name != "nt"

    def __init__(self, site: Site) -> None:
        self._room = threading.BoundedSemaphore(_MOST)
        super().__init__((ADDRESS, 0), _Handler)
        self.site = site
        self.guard = Guard(new_key(), self.server_address[1])
        site.base = f"/{self.guard.key}/"

    @property
    def address(self) -> str:
        return f"http://{ADDRESS}:{self.server_address[1]}{self.site.base}{self.site.first}"

    def process_request(self, request: Any, client_address: Any) -> None:
        if not self._room.acquire(blocking=False):
            self.shutdown_request(request)
            return
        try:
            super().process_request(request, client_address)
        except BaseException:
            self._room.release()
            raise

    def process_request_thread(self, request: Any, client_address: Any) -> None:
        try:
            super().process_request_thread(request, client_address)
        finally:
            self._room.release()

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A tab that was closed, a request that was cut off: nobody needs to know."""
        if os.environ.get("HTS_DEBUG"):
            super().handle_error(request, client_address)
