"""The app answering, on this computer alone or on the local network, until it is stopped."""

from __future__ import annotations

import socket
import sqlite3
import threading
import time
import webbrowser
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from labels.local_name import announced, lan_address
from stash.errors import StashError, Unavailable
from stash.workroom.opening import open_stash
from stash.workroom.ready import warm
from stash.workroom.report import bring_up
from stash.workroom.safekeeping import renew_second_place
from stash.workroom.settings import change, preferences
from web import create_app
from web.http_server import HttpServer, answering

if TYPE_CHECKING:
    from flask import Flask

    from web.secure.certificate import Paper

KEEP_UP_S = 3600


@dataclass(frozen=True, kw_only=True)
class Serving:
    """How the app is to be reached."""

    port: int = 5000
    share: bool = False
    https: bool = False
    open_browser: bool = False


def run(data: Path, wish: Serving) -> None:
    """Serve until stopped with Ctrl-C."""
    app = create_app(data, {"SECURE_PORT": wish.port + 1} if wish.https else None)
    with ExitStack() as stack:
        stack.callback(app.extensions["jobs"].close)
        pages = stack.enter_context(_listening(app, wish, wish.port))
        threading.Thread(target=warm, name="warm", daemon=True).start()
        threading.Thread(target=_keep_up, args=(data,), name="keep up", daemon=True).start()
        click.echo(f"Lengthwise answers at http://127.0.0.1:{wish.port}/ (Ctrl-C stops it).")
        if wish.open_browser:
            webbrowser.open(f"http://127.0.0.1:{wish.port}/")
        name = stack.enter_context(announced(port=wish.port)) if wish.share else None
        if wish.share:
            _tell_shared(data, name, wish.port)
        if wish.https:
            stack.enter_context(_secure(app, data, name, wish))
        try:
            pages.wait()
        except KeyboardInterrupt:
            click.echo("Stopped.")


def _keep_up(data: Path) -> None:
    """Keep the sums and the second place for copies up to date, as long as pages are answered."""
    while True:
        renew_second_place(data)
        with suppress(StashError, sqlite3.Error), open_stash(data) as stash:
            bring_up(stash)
        time.sleep(KEEP_UP_S)


@contextmanager
def _listening(
    app: Flask, wish: Serving, port: int, paper: Paper | None = None
) -> Iterator[HttpServer]:
    """The pages answered until the block is left; Unavailable when somebody has the port."""
    host = "0.0.0.0" if wish.share else "127.0.0.1"  # noqa: S104 - asked for with --share
    _refuse_taken(host, port)
    with ExitStack() as stack:
        try:
            server = stack.enter_context(answering(app, host, port, paper))
        except OSError as error:
            raise _taken(port) from error
        yield server


def _refuse_taken(host: str, port: int) -> None:
    # On Windows SO_REUSEADDR would take a port that somebody listens on.
    alone = getattr(socket, "SO_EXCLUSIVEADDRUSE", socket.SO_REUSEADDR)
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as probe:
        probe.setsockopt(socket.SOL_SOCKET, alone, 1)
        try:
            probe.bind((host, port))
        except OSError as error:
            raise _taken(port) from error


def _taken(port: int) -> Unavailable:
    return Unavailable("port_in_use", port=str(port))


def _tell_shared(data: Path, name: str | None, port: int) -> None:
    """Say where phones find it, and print labels with that address from now on."""
    number = lan_address()
    found = [f"http://{host}:{port}/" for host in (name, number) if host]
    if not found:
        click.echo("This computer is on no network at the moment, so no phone can reach it.")
        return
    click.echo("On the local network: " + "  or  ".join(found))
    with open_stash(data) as stash:
        if preferences(stash).address is None:
            change(stash, {"address": found[0]})


@contextmanager
def _secure(app: Flask, data: Path, name: str | None, wish: Serving) -> Iterator[None]:
    """The pages answered securely too, on the next port, until the block is left."""
    from web.secure.certificate import certificate_for

    hosts = [h for h in (name, socket.gethostname().lower(), "localhost") if h]
    numbers = [n for n in (lan_address(), "127.0.0.1") if n]
    paper = certificate_for(data / "secure", hosts, numbers)
    port = wish.port + 1
    with _listening(app, wish, port, paper):
        shown = [h for h in (name, *numbers) if h] if wish.share else ["127.0.0.1"]
        click.echo("Securely, for the live camera: " + "  or  ".join(
            f"https://{h}:{port}/" for h in shown))
        click.echo(
            "A phone warns the first time, since the certificate is this workroom's own. Its "
            f"fingerprint (SHA-256) is\n{paper.fingerprint}\n"
            f"How a phone comes to trust it: http://{shown[-1]}:{wish.port}/settings/secure"
        )
        yield
