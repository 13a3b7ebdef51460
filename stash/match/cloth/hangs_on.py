"""Where an answer hangs on a figure that nobody measured: which one, and what would settle it.

Only where the answer would be another within what the figure may be out by. What is
presumed of a weight may be out by a fifth (the widest class of ``cloth_kinds.csv``, 135 to
200 g/m2, is its middle and a fifth either way), a presumed shrinkage by two points (the
rows of ``shrinkage_presumed.csv`` are upper ends of ranges two to five points wide), a
width that is a usual one or as sold by three centimetres (common practice, no source: what is
between the selvedges of cloth sold as one width differs by so much).
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, floor, radians, sin

from stash.fact import Fact, Term, fact
from stash.model import Cloth, ClothWants, Cut, Laid, Piece, Placement, ShrinkStatus

MASS_SHARE = 0.2
SHRINK_POINTS = 2.0
WIDTH_PRESUMED_MM = 30.0


def on_the_cloth(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    """Whether a presumed making or weight decides if the cloth will do."""
    making = cloth.construction
    if "construction" in cloth.presumed and making and making not in wants.constructions:
        yield fact("hangs_on_construction", construction=Term(making.value))
    if "mass_gsm" not in cloth.presumed or not cloth.mass_gsm:
        return
    low, high = (1 - MASS_SHARE) * cloth.mass_gsm, (1 + MASS_SHARE) * cloth.mass_gsm
    if _serves(low, wants) != _serves(high, wants) or _serves(low, wants) != _serves(
        cloth.mass_gsm, wants
    ):
        yield fact("hangs_on_weight", mass_gsm=cloth.mass_gsm)


def _serves(mass_gsm: float, wants: ClothWants) -> tuple[bool, bool]:
    """(it serves at all, it is a weight that a maker would choose)."""
    (least, most), (lower, upper) = wants.mass_gsm, wants.mass_best_gsm
    return least <= mass_gsm <= most, lower <= mass_gsm <= upper


def on_the_wash(cut: Cut, laid: Laid, *, unwashed: bool) -> Iterator[Fact]:
    """Whether a presumed shrinkage decides if this lay comes out of this cut.

    ``unwashed``: the lay lies only on the cut as it is. ``most_pct`` is what the cut may
    lose along before the lay no longer lies on it.
    """
    cloth = cut.cloth
    if cut.washed or cloth.shrink_status is not ShrinkStatus.PRESUMED:
        return
    left, _, right, _ = cut.outline.bounds_mm
    start = laid.cloth.bounds_mm[0]
    most = 100 * (1 - (laid.lay.length_mm - start) / (right - left)) if right > left else 0.0
    most = max(floor(most * 10 + 1e-6) / 10, 0.0)
    if unwashed:
        kind = "hangs_on_shrinkage_to_fit" if most > 0 else ""
    else:
        kind = "hangs_on_shrinkage" if most - cloth.shrink_along_pct < SHRINK_POINTS else ""
    if kind:
        yield fact(kind, along_pct=cloth.shrink_along_pct, most_pct=most)


def on_the_width(cut: Cut, laid: Laid | None, short_mm: float | None) -> Iterator[Fact]:
    """Whether a width that nobody measured decides if this lay, or any, comes out of this cut.

    Without a lay ``short_mm`` is how much longer the cut would have to be; a little more width
    may stand in for it.
    """
    if not cut.width_presumed:
        return
    if laid is not None:
        reach = _across_mm(laid)
        if reach > laid.cloth.width_mm - WIDTH_PRESUMED_MM:
            yield fact("hangs_on_width", width_mm=cut.width_mm, most_width_mm=reach)
    elif short_mm is not None and short_mm * cut.width_mm <= WIDTH_PRESUMED_MM * cut.length_mm:
        yield fact("hangs_on_width_to_fit", width_mm=cut.width_mm)


def _across_mm(laid: Laid) -> float:
    """From the first piece to the last, across the opened-out cloth."""
    pieces = {piece.name: piece for piece in laid.pieces}
    ends = [y for one in laid.lay.placements
            for y in _ys(pieces[one.piece.rpartition("#")[0]], one)]
    return max(ends) - min(ends) if ends else 0.0


def _ys(piece: Piece, one: Placement) -> Iterator[float]:
    turn, flip = radians(one.turn_deg), -1.0 if one.mirrored else 1.0
    for x, y in piece.outline_mm:
        yield one.y_mm + sin(turn) * x + cos(turn) * flip * y
