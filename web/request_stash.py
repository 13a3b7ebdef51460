"""The stash as this request sees it: opened when first asked for, closed at the end."""

from __future__ import annotations

import sqlite3
from dataclasses import replace

from flask import Flask, current_app, g, request

from stash.errors import StashError
from stash.model.role import DeviceRole
from stash.sentences import Reader
from stash.sentences.reader import LANGUAGES
from stash.units import System
from stash.workroom import settings
from stash.workroom.opening import Stash, account, open_stash
from web.devices.who_asks import guest
from web.hosts import hostname


def install(app: Flask) -> None:
    """Close the store after every request."""
    app.teardown_appcontext(_close)


def stash() -> Stash:
    """The store; one connection a request, since a connection belongs to its thread."""
    if "stash" not in g:
        g.stash = open_stash(current_app.config["DATA"], who=account(), device=_device())
        if (paired := guest().device) is not None:
            g.stash = g.stash.written_by(paired.name, paired.name)
    return g.stash


def system() -> System:
    """The units this workroom reads."""
    return reader().system


def units_open() -> bool:
    """Whether the units are to be asked: nothing is measured yet, and whoever asks may say."""
    return guest().role is DeviceRole.ALL and settings.units_open(stash())


def reader() -> Reader:
    """Whom this page's sentences are for."""
    if "reader" not in g:
        asked = request.accept_languages.best_match(LANGUAGES) or "en"
        try:
            g.reader = replace(settings.reader(stash(), asked), unbroken=not wants_json())
        # A record that cannot be opened must still be spoken of.
        except (StashError, sqlite3.Error, ValueError):
            g.reader = Reader(System.METRIC, asked)
    known: Reader = g.reader
    return known


def wants_json() -> bool:
    """True when a script asks rather than a person reading."""
    best = request.accept_mimetypes.best_match(["text/html", "application/json"])
    return best == "application/json" and request.accept_mimetypes["text/html"] < 1


def forget_reader() -> None:
    """The settings were changed by this request: read them anew."""
    g.pop("reader", None)


def own_hosts() -> frozenset[str]:
    """Host names this workroom has given itself, now or formerly."""
    known = settings.addresses(stash())
    return frozenset(hostname(a.partition("://")[2].partition("/")[0] or a) for a in known)


def _device() -> str:
    agent = request.headers.get("User-Agent", "")
    return "phone" if "Mobile" in agent else "browser" if agent else "web"


def _close(_error: BaseException | None) -> None:
    opened = g.pop("stash", None)
    if opened is not None:
        opened.close()
