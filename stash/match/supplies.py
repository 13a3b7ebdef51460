"""The notions of a set of garments on a chosen cloth, matched against the bins."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.match.gather import Garment, labels, of_role, wanted_notions
from stash.match.promise import promise
from stash.match.strips import Strips, Table
from stash.match.wanted import Line, Wanted
from stash.model import Bin, Cut, NotionKind, Piece, Role
from stash.notions.rules import value
from stash.units import System


def supplies(
    garments: Sequence[Garment], bins: Sequence[Bin], cut: Cut | None,
    system: System = System.METRIC,
) -> tuple[Line, ...]:
    """Every notion line with what serves it on one cut."""
    return promise(wanted_on(garments, cut, system), bins)


def wanted_on(
    garments: Sequence[Garment], cut: Cut | None, system: System = System.METRIC
) -> tuple[Wanted, ...]:
    """What the garments want when cut from ``cut``; interfacing is laid on its own width."""
    wanted = wanted_notions(
        garments, cut.cloth if cut else None,
        cloth_width_mm=cut.outline_washed.width_mm if cut else None, system=system,
    )
    fused = {
        label: of_role(garment.pattern.pieces, Role.INTERFACING)
        for label, garment in zip(labels(garments), garments, strict=True)
    }
    return tuple(_with_lay(want, fused[want.garment]) for want in wanted)


def _with_lay(want: Wanted, pieces: tuple[Piece, ...]) -> Wanted:
    if want.need.kind is not NotionKind.INTERFACING or not pieces:
        return want
    return replace(want, lay_length_mm=_length_on(pieces))


def _length_on(pieces: tuple[Piece, ...]) -> Callable[[Bin], float | None]:
    strips = Strips(pieces, Table())

    def length(bin_: Bin) -> float | None:
        lay = strips.first(bin_.notion.size_mm or value("interfacing_width")).lay
        return lay.length_mm if lay else None

    return length
