"""A person for whom garments are made."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Person:
    """A name and body measurements in mm, by the terms of ``stash.draft.body``.

    ``body`` chooses the table used for what was not measured: "women", "men" or
    "children"; None lets the measurements decide.
    """

    name: str
    measurements_mm: Mapping[str, float] = field(default_factory=dict)
    body: str | None = None
