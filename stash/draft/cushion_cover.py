"""Cushion cover: two lapped backs, left open or fastened, or a zip; plain or corded edge.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.cloth_wants import COVERS
from stash.draft.garment import Garment, Sewn, choice, hem, measure
from stash.draft.panel import Cutting, Panel
from stash.draft.rectangle import Turnings, rectangle
from stash.draft.sewing import Join, seams, sewing_needs
from stash.model import Joined, Mark, MarkKind, Need, NotionKind, Part, Pattern
from stash.notions.binding import binding_need
from stash.notions.buttons import loose_button_need
from stash.notions.fastenings import snap_need, zip_need

ZIP_CORNER_MM = 25.0  # sewn shut at each end of the zip: common practice, no source
CORD_MM = 5.0
FASTENED_LAP_MM = 40.0  # snaps or buttons hold a narrow lap: common practice, no source
BUTTON_MM, BUTTON_EVERY_MM = 20.0, 130.0


CushionClosure = Literal["envelope", "zip", "snaps", "buttons"]
CushionEdge = Literal["plain", "corded"]


@dataclass(frozen=True, kw_only=True)
class CushionOptions(Sewn):
    """Options of the cushion cover."""

    length: float = measure("finished length", 150, 1500, 450.0)
    width: float = measure("finished width", 150, 1500, 450.0)
    closure: CushionClosure = choice(CushionClosure, "how it opens")
    lap: float = measure(
        "how far the two backs lap where they are not fastened", 50, 300, 120.0
    )
    edge: CushionEdge = choice(CushionEdge, "the seam all round")
    hem: float = hem(30.0)


def draft(body: Body, options: CushionOptions) -> Pattern:
    """A front, and a back that opens across its middle or along one edge."""
    joins = _joins(options)
    finish = options.finish
    return Pattern(
        garment="cushion-cover", joins=_meetings(options),
        pieces=tuple(p.piece() for p in _panels(options)),
        notions=(*_needs(options), *sewing_needs(joins, finish)), wants=COVERS,
        seams=seams(joins, finish), measurements_mm=dict(body.values), options=options.to_json(),
    )


def _panels(options: CushionOptions) -> list[Panel]:
    long, wide = options.length, options.width
    seam, turn = options.seam, options.hem
    all_round = Turnings(seam, seam, seam)
    front = rectangle("front", (long, wide), all_round, Cutting(part=Part.FRONT))
    if options.closure == "zip":
        return [front, rectangle("back", (long, wide), all_round, Cutting(part=Part.BACK))]
    lap = options.lap if options.closure == "envelope" else FASTENED_LAP_MM
    lap = min(lap, long)
    half = ((long + lap) / 2, wide)
    two = Cutting(quantity=2, part=Part.BACK)
    back = rectangle("back", half, Turnings(seam, turn, seam), two)
    lapped = Mark(MarkKind.OVERLAP, ((half[0] - lap, 0.0), (half[0] - lap, wide)))
    return [front, back.marked((lapped,))]


def _meetings(options: CushionOptions) -> tuple[Joined, ...]:
    """Front to back all round; two backs lie lapped, so that they are as long as the front."""
    long, wide = options.length, options.width
    ends = ("top", "bottom") if options.closure == "zip" else ("top",)
    return (
        *(Joined(("front", e), ("back", e), wide, wide) for e in ends),
        *(Joined(("front", e), ("back", e), long, long) for e in ("side", "side 2")),
    )


def _joins(options: CushionOptions) -> list[Join]:
    long, wide = options.length, options.width
    hems = 0 if options.closure == "zip" else 2
    return [Join("all round", 2 * (long + wide)), Join("back hems", wide, hems, 0)]


def _needs(options: CushionOptions) -> list[Need]:
    long, wide = options.length, options.width
    needs = _fastening(options.closure, wide)
    if options.edge == "corded":
        around = 2 * (long + wide)
        needs.append(binding_need(around, 2 * CORD_MM, "over the cord"))
        needs.append(
            Need(kind=NotionKind.CORD, why="corded edge", length_mm=around + 50,
                 size_mm=(CORD_MM - 2, CORD_MM, CORD_MM + 2))
        )
    return needs


def _fastening(closure: str, wide: float) -> list[Need]:
    """What closes an opening across the cushion."""
    opening = wide - 2 * ZIP_CORNER_MM
    if closure == "zip":
        return [zip_need(opening, "lower edge")]
    if closure == "snaps":
        return [snap_need(opening, "back lap")]
    if closure == "buttons":
        return [loose_button_need(max(2, round(opening / BUTTON_EVERY_MM)), BUTTON_MM, "back lap")]
    return []


GARMENT = Garment(
    name="cushion-cover", title="Cushion cover", measurements=(), estimates=(),
    takes=CushionOptions, draft=draft,
)
