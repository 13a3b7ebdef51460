"""What is kept of one flow of cloth, and of one cut that is here."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stash.colours import nearest
from stash.ledger import CutState, Kind
from stash.ledger.flows import CameInAs, Direction, Flow
from stash.model import Cloth, Laid
from stash.model.exact import from_plain

SIZES_MM = (0.0, 500.0, 1000.0, 1500.0, 2000.0, 3000.0, 5000.0)
"""Lengths at which a group of cuts begins."""


def flow_row(flow: Flow, cloth: Cloth | None) -> tuple[object, ...]:
    """The values of tables.FLOW."""
    rag_g = cloth.mass_g(flow.waste_mm2) if cloth else None
    lay = _lay(flow)
    return (
        flow.code, flow.event.id, flow.cloth, flow.event.at[:10], flow.way.value,
        cloth.main_fibre if cloth else "", flow.plan or "", round(1000 * flow.mm),
        round(flow.mm * ((cloth.price_minor_per_m if cloth else None) or 0)),
        flow.sold_minor or 0, round(1000 * flow.waste_mm), round(flow.waste_mm2),
        None if rag_g is None else round(1000 * rag_g), int(lay is not None), _utilisation(lay),
    )


def source_row(code: str, source: CameInAs) -> tuple[object, ...]:
    """The values of tables.SOURCE."""
    return code, source.root, source.width_mm, source.on


def here_row(
    code: str, state: CutState, source: CameInAs, taken: str | None, cloth: Cloth | None
) -> tuple[object, ...]:
    """The values of tables.HERE; ``taken`` is the day when it last became more or less."""
    outline, said = state.outline, state.acquired
    came = said if said and said < source.on and source.root == code else source.on
    colours = cloth.colours if cloth else ()
    return (
        code, state.cloth, taken or came, round(1000 * outline.length_mm),
        round(1000 * outline.area_mm2 / outline.width_mm), cloth.main_fibre if cloth else "",
        nearest(colours[0]).name if colours else "",
        max(size for size in SIZES_MM if size <= outline.length_mm), said or "",
    )


def _lay(flow: Flow) -> Any:
    """The lay that was cut out, as it was written down; None where there was none."""
    if flow.event.kind not in (Kind.CUT_OUT, Kind.SEVERAL) or flow.way is not Direction.USED:
        return None
    part = flow.event.change[flow.code]
    for step in part.get("steps", ()):
        part = step["part"] if "lay" in step["part"] else part
    return part.get("lay")


def _utilisation(lay: object) -> float | None:
    if not isinstance(lay, Mapping):
        return None
    if "cut" in lay:
        return from_plain(Laid, lay).lay.utilisation
    value = lay.get("utilisation")
    return float(value) if isinstance(value, int | float) else None
