"""The factory: one Flask app over one data folder."""

from __future__ import annotations

import importlib
from collections.abc import Mapping
from pathlib import Path

from flask import Flask

from web import colour_form, error_pages, formatting, guard, jobs, request_stash, texts
from web.config import settings_for
from web.devices import door

PAGES = (
    "home", "scanned", "cuts", "bins", "places", "people", "photos", "scan", "stocktake",
    "become", "asked", "farthest", "waiting", "labels", "shopping", "plans", "drafts", "patterns",
    "altering", "her_fit", "measured", "weighing", "settling",
    "tracing", "history", "settings", "safekeeping", "devices", "measuring", "cutting",
    "report", "described", "spreadsheet", "guide", "pocket", "entry", "several",
)


def build(data: Path, config: Mapping | None = None) -> Flask:
    """The app; creates the data folder's secret on its first start."""
    app = Flask("web")
    app.config.from_mapping(settings_for(Path(data)))
    app.config.update(config or {})
    jobs.install(app)
    texts.install(app)
    formatting.install(app)
    colour_form.install(app)
    guard.install(app)
    door.install(app)
    request_stash.install(app)
    error_pages.install(app)
    for name in PAGES:
        app.register_blueprint(importlib.import_module(f"web.pages.{name}").pages)
    return app
