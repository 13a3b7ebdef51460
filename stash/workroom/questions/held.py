"""The lay that a plan holds on a cut, as it was held."""

from __future__ import annotations

from dataclasses import replace

from stash.ledger import CutHold
from stash.model import Cloth, Cut, Laid, Lay, Piece
from stash.model.exact import from_plain


def held_laid(hold: CutHold, cut: Cut) -> Laid | None:
    """The held lay on the cut as it is now; None where none was written down with its pieces."""
    if hold.laid:
        return replace(hold.laid, cut=as_reckoned(hold.laid.cut.cloth, cut))
    kept = hold.lay or {}
    pieces = tuple(from_plain(Piece, piece) for piece in kept.get("pieces", ()))
    if not pieces or not kept.get("placements"):
        return None
    lay = from_plain(Lay, kept)
    if not {p.piece.rpartition("#")[0] for p in lay.placements} <= {p.name for p in pieces}:
        return None
    return Laid(cut=cut, lay=lay, pieces=pieces)


def laid_for_the_wash(hold: CutHold, cut: Cut) -> bool:
    """True when the lay is for the cloth once washed, and it is not washed yet."""
    reckoned = hold.laid.cut.cloth if hold.laid else cut.cloth
    return not cut.washed and bool(reckoned.shrink_along_pct or reckoned.shrink_across_pct)


def as_reckoned(cloth: Cloth, cut: Cut) -> Cut:
    """The cut as it is now, taken to lose in the wash what the lay was made for."""
    return replace(cut, cloth=replace(
        cut.cloth, shrink_along_pct=cloth.shrink_along_pct,
        shrink_across_pct=cloth.shrink_across_pct, shrink_status=cloth.shrink_status,
    ))
