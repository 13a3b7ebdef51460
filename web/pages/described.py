"""What the pages answer to a program, described for one."""

from __future__ import annotations

from importlib.metadata import version

from flask import Blueprint, current_app

from web.described.openapi import document

pages = Blueprint("described", __name__)


@pages.get("/openapi.json")
def show():
    """The OpenAPI document, as it stands in docs/openapi.json too."""
    return document(current_app, version("lengthwise"))
