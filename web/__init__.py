"""The pages a person meets, on the desk and on the phone."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask


def create_app(data: Path, config: Mapping | None = None) -> Flask:
    """The app over one data folder; ``config`` wins over what the folder says.

    Flask is imported only here, so that the other commands start without it.
    """
    from web.app import build

    return build(data, config)
