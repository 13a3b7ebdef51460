"""The last look before a pattern leaves the drafting table: can every piece be cut?"""

from __future__ import annotations

from shapely import Polygon
from shapely.validation import explain_validity

from stash.draft.body import word
from stash.errors import InvalidInput
from stash.model import Pattern, Piece
from stash.units import format_length

NARROWEST_MM = 10.0
STRAY_MM = 0.1  # twice what the simplified cutting line may be off


def broken(pattern: Pattern) -> list[str]:
    """What is wrong with the pieces, one phrase each; empty when all can be cut and sewn."""
    return [f"{p.name}: {fault}" for p in pattern.pieces if (fault := _fault(p))]


def require_sound(pattern: Pattern, title: str) -> None:
    """InvalidInput that names the measurements when a piece cannot be cut."""
    faults = broken(pattern)
    if not faults:
        return
    given = {k: v for k, v in pattern.measurements_mm.items() if k not in pattern.estimated}
    said = ", ".join(f"{word(k)} {format_length(v)}" for k, v in given.items() if k != "chest")
    piece = faults[0].partition(":")[0]
    raise InvalidInput(
        f"{title}: the piece “{piece}” cannot be drawn from {said or 'these options'}. "
        "Please check these measurements and the options.",
        field=next(iter(given), None),
    )


def _fault(piece: Piece) -> str:
    """A line that crosses itself, a sliver, or stitching outside the cutting line."""
    if not piece.outline_mm:
        return "nothing is left of it"
    cut = Polygon(piece.outline_mm)
    if not cut.is_valid:
        return explain_validity(cut)
    if cut.buffer(-NARROWEST_MM / 2).is_empty:
        return "too narrow to sew"
    if piece.stitch_mm:
        sewn = Polygon(piece.stitch_mm)
        if not sewn.is_valid:
            return explain_validity(sewn)
        if not cut.buffer(STRAY_MM).covers(sewn):
            return "the stitching line leaves the cutting line"
    return ""
