"""The pages over HTTP, plain or secure: one event loop holds the connections, threads answer.

A client that connects and then says nothing, or speaks slowly, so holds no thread up.
"""

from __future__ import annotations

import asyncio
import logging
import ssl
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tornado.httpserver import HTTPServer
from tornado.httputil import HTTPServerRequest
from tornado.netutil import bind_sockets
from tornado.wsgi import WSGIContainer

from web.config import PHOTO_BYTES

if TYPE_CHECKING:
    from web.secure.certificate import Paper

THREADS = 8
LISTEN_S = 0.5
STOP_S = 5
SILENT_S = 120
# Beyond what the pages take, so that a refusal comes as their own sentence.
LARGEST_BODY = 2 * PHOTO_BYTES


@dataclass(frozen=True)
class HttpServer:
    """A server at work on ``port``."""

    port: int
    thread: threading.Thread

    def wait(self) -> None:
        """Until it has stopped, or Ctrl-C: Windows hears that between two short waits only."""
        while self.thread.is_alive():
            self.thread.join(LISTEN_S)


@contextmanager
def answering(app: Any, host: str, port: int, paper: Paper | None = None) -> Iterator[HttpServer]:
    """Answer in the background until the block is left; port 0 takes a free one.

    With ``paper`` securely. Raises OSError when the port cannot be taken.
    """
    _quieten()
    sockets = bind_sockets(port, host)
    number: int = sockets[0].getsockname()[1]
    context = _secure(paper) if paper else None
    begun, loop, stop = threading.Event(), asyncio.new_event_loop(), asyncio.Event()

    async def serve() -> None:
        server = HTTPServer(
            _Pages(app, pool, f"{host}:{number}"), ssl_options=context,
            max_body_size=LARGEST_BODY, idle_connection_timeout=SILENT_S, body_timeout=SILENT_S)
        server.add_sockets(sockets)
        begun.set()
        await stop.wait()
        server.stop()
        await server.close_all_connections()

    def run() -> None:
        try:
            with asyncio.Runner(loop_factory=lambda: loop) as runner:
                runner.run(serve())
        finally:
            begun.set()

    with _threads() as pool:
        thread = threading.Thread(target=run, name="pages", daemon=True)
        thread.start()
        begun.wait()
        try:
            yield HttpServer(number, thread)
        finally:
            loop.call_soon_threadsafe(stop.set)
            thread.join(STOP_S)


class _Pages(WSGIContainer):
    """The app as the event loop calls it, under the name of the socket it listens on."""

    def __init__(self, app: Any, pool: ThreadPoolExecutor, own: str) -> None:
        super().__init__(_answered(app), pool)
        self.own = own

    def environ(self, request: HTTPServerRequest) -> dict[str, Any]:
        """The request for the app; what the client calls this host is in its header only."""
        request.host = self.own
        return super().environ(request)


def _answered(app: Any) -> Any:
    """The app, read to its end and closed in the thread that answers.

    A request that is given up, or a server that stops, so leaves no file open behind it. Its own
    failure is an answer too: the loop would leave the client waiting.
    """
    def answer(environ: dict[str, Any], start: Any) -> Any:
        try:
            parts = app(environ, start)
            try:
                return [b"".join(parts)]
            finally:
                if hasattr(parts, "close"):
                    parts.close()
        except Exception:
            logging.getLogger("web").exception("%(REQUEST_METHOD)s %(PATH_INFO)s", environ)
            start("500 Internal Server Error", [("Content-Type", "text/plain")])
            return [b"Something went wrong here."]

    return answer


@contextmanager
def _threads() -> Iterator[ThreadPoolExecutor]:
    pool = ThreadPoolExecutor(THREADS, thread_name_prefix="page")
    try:
        yield pool
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _secure(paper: Paper) -> ssl.SSLContext:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.minimum_version = ssl.TLSVersion.TLSv1_2
    context.load_cert_chain(paper.certificate, paper.key)
    return context


def _quieten() -> None:
    """Bugs are told by the app; that a client spoke no HTTP means nothing at a terminal."""
    for name in ("tornado.access", "tornado.general"):
        logging.getLogger(name).setLevel(logging.CRITICAL)
