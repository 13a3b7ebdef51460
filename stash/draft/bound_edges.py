"""Edges finished with a facing, with bought binding, or with bias strips of the cloth itself."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, sqrt
from typing import Literal

from stash.draft.garment import Sewn, choice
from stash.draft.panel import Cutting, Panel, strip
from stash.draft.sewing import BINDING_SHOWS_MM
from stash.model import Need, Part
from stash.notions.binding import binding_length_mm, binding_need, strip_width_mm
from stash.notions.rules import value

# Common practice, no source, where none is named.
STRIP_MM = 500.0  # a handy strip: longer ones rarely fit between the pieces


Facing = Literal["facing", "binding", "own-binding"]


@dataclass(frozen=True, kw_only=True)
class BoundOptions(Sewn):
    """How the edges of neck and front are finished."""

    facing: Facing = choice(
        Facing, "how the edges are finished: faced, bound, or bound in the cloth itself"
    )


def is_bound(options: BoundOptions) -> bool:
    """True when the edges get no facing, and so no allowance."""
    return options.facing != "facing"


def own_strips(edges_mm: float, options: BoundOptions) -> list[Panel]:
    """Bias strips to cut from the cloth itself, enough for the edges and their joins."""
    if options.facing != "own-binding":
        return []
    join = 2 * value("binding_joint") * sqrt(2)
    wide = strip_width_mm(BINDING_SHOWS_MM)
    wanted = binding_length_mm(edges_mm)
    count = max(1, ceil((wanted - join) / (STRIP_MM - join)))
    long = (wanted + (count - 1) * join) / count
    bias = Cutting(quantity=count, part=Part.BINDING, grain_turn_deg=45.0)
    return [strip("bias strip", long, wide, bias)]


def bought_binding(edges_mm: float, why: str, options: BoundOptions) -> list[Need]:
    """Binding from a bin, when the edges are bound with it."""
    if options.facing != "binding":
        return []
    return [binding_need(edges_mm, BINDING_SHOWS_MM, why)]
