"""A plan: garments that are to be made, for whom, and how."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class PlannedGarment:
    """One garment for one person; ``options`` as its draft takes them."""

    garment: str
    person: str
    options: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True, kw_only=True)
class Plan:
    """What is to be made together. ``made`` is when it was sewn, ISO 8601, else None."""

    name: str
    garments: tuple[PlannedGarment, ...] = ()
    notes: str = ""
    made: str | None = None
