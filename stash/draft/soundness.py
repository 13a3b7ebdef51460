"""The last look before a pattern leaves the drafting table: can every piece be cut?"""

from __future__ import annotations

from stash.model import Pattern, Piece

# Chosen here: what can still be cut with scissors and sewn.
NARROWEST_MM = 10.0
STRAY_MM = 0.1  # twice what the simplified cutting line may be off


def broken(pattern: Pattern) -> list[str]:
    """The names of the pieces that cannot be cut and sewn; empty when all can."""
    return [p.name for p in pattern.pieces if _is_broken(p)]


def _is_broken(piece: Piece) -> bool:
    """A line that crosses itself, a sliver, or stitching outside the cutting line."""
    if not piece.outline_mm:
        return True
    from shapely import Polygon  # loaded with the first draft only

    cut = Polygon(piece.outline_mm)
    if not cut.is_valid or cut.buffer(-NARROWEST_MM / 2).is_empty:
        return True
    if not piece.stitch_mm:
        return False
    sewn = Polygon(piece.stitch_mm)
    return not (sewn.is_valid and cut.buffer(STRAY_MM).covers(sewn))
