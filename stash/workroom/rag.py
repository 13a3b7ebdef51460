"""Rag: what is left over and smaller than she keeps, by area and by weight."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stash.fact import Fact, fact
from stash.ledger import Event
from stash.store import Stash


@dataclass(frozen=True, kw_only=True)
class Rag:
    """``mass_g`` is None where the weight of the cloth is not known."""

    area_mm2: float
    mass_g: float | None

    def to_json(self) -> dict[str, float | None]:
        """``{"area_mm2", "mass_g"}``."""
        mass = None if self.mass_g is None else round(self.mass_g, 1)
        return {"area_mm2": round(self.area_mm2), "mass_g": mass}


def rag_of(stash: Stash, events: Iterable[Event]) -> Rag:
    """What these cuttings-out left that is too small to keep."""
    area, mass, known = 0.0, 0.0, True
    for event in events:
        own = _waste_mm2(event)
        weighs = stash.cuts.card(event.code).cut.cloth.mass_g(own)
        area, mass, known = area + own, mass + (weighs or 0.0), known and weighs is not None
    return Rag(area_mm2=area, mass_g=mass if known else None)


def _waste_mm2(event: Event) -> float:
    part = event.change[event.code]
    parts = [part, *(step["part"] for step in part.get("steps", ()))]
    return sum(float(one.get("waste_mm2") or 0.0) for one in parts)


def said_of(rag: Rag) -> tuple[Fact, ...]:
    """What is said of it; nothing where there is less than a postage stamp."""
    if rag.area_mm2 < 500:
        return ()
    if rag.mass_g is None:
        return (fact("rag_area", area_mm2=rag.area_mm2),)
    return (fact("rag_weighs", area_mm2=rag.area_mm2, mass_g=float(round(rag.mass_g))),)
