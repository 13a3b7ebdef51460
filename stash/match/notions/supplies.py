"""The notions of a set of garments on a chosen cloth, matched against the bins."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.match.gather import Garment, labels, of_role
from stash.match.notions.allocation import promise
from stash.match.notions.wanted import Line, Wanted
from stash.match.strip_lays import Strips, Table
from stash.model import Bin, Cloth, Cut, NotionKind, Piece, Role
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


def wanted_notions(
    garments: Sequence[Garment],
    cloth: Cloth | None = None,
    *,
    cloth_width_mm: float | None = None,
    system: System = System.METRIC,
) -> tuple[Wanted, ...]:
    """Every notion line of every garment, with the cloth it goes with.

    Only the front's own buttons are bound by its closure.
    """
    return tuple(
        Wanted(
            garment=label,
            need=need,
            closure=garment.pattern.closure if need.group == "front" else None,
            cloth=cloth,
            cloth_width_mm=cloth_width_mm,
            system=system,
        )
        for label, garment in zip(labels(garments), garments, strict=True)
        for need in garment.pattern.notions
    )
