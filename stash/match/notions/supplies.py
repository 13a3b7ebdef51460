"""The notions of a set of garments on a chosen cloth, matched against the bins."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.match.gather import DraftedGarment, labels, of_role
from stash.match.notions.allocation import promise
from stash.match.notions.wanted import Line, Wanted
from stash.match.strip_lays import Strips, Table
from stash.model import (
    Bin,
    Cloth,
    Construction,
    Cut,
    Laid,
    Lay,
    NotionKind,
    Outline,
    Piece,
    Role,
)
from stash.notions.rules import value


def supplies(
    garments: Sequence[DraftedGarment], bins: Sequence[Bin], cut: Cut | None
) -> tuple[Line, ...]:
    """Every notion line with what serves it on one cut."""
    return promise(wanted_on(garments, cut), bins)


def wanted_on(garments: Sequence[DraftedGarment], cut: Cut | None) -> tuple[Wanted, ...]:
    """What the garments want when cut from ``cut``; interfacing is laid on its own width.

    Only the front's own buttons are bound by its closure.
    """
    return tuple(
        Wanted(
            garment=label,
            need=need,
            closure=garment.pattern.closure if need.group == "front" else None,
            cloth=cut.cloth if cut else None,
            cloth_width_mm=cut.outline_washed.width_mm if cut else None,
            lay_on=_laid_on(of_role(garment.pattern.pieces, Role.INTERFACING))
            if need.kind is NotionKind.INTERFACING else None,
        )
        for label, garment in zip(labels(garments), garments, strict=True)
        for need in garment.pattern.notions
    )


def interfacing_laid(
    garments: Sequence[DraftedGarment], lines: Sequence[Line], bins: Sequence[Bin]
) -> tuple[Laid, ...]:
    """The lays of what is interfaced, each on the bin that was chosen for it."""
    named = dict(zip(labels(garments), garments, strict=True))
    held = {bin_.code: bin_ for bin_ in bins}
    return tuple(
        Laid(
            cut=_as_cut(held[line.chosen.parts[0][0]], line.chosen.lay), lay=line.chosen.lay,
            pieces=of_role(named[line.wanted.garment].pattern.pieces, Role.INTERFACING),
            garments=(named[line.wanted.garment].planned,), role=Role.INTERFACING,
        )
        for line in lines if line.chosen and line.chosen.lay
    )


def _as_cut(bin_: Bin, lay: Lay) -> Cut:
    """A bin of interfacing seen as the cloth it is: as long as it holds, as wide as it lies."""
    notion = bin_.notion
    cloth = Cloth(name=notion.name, construction=Construction.NONWOVEN, mass_gsm=notion.mass_gsm)
    return Cut(
        code=bin_.code, cloth=cloth, washed=True, place=bin_.place,
        outline=Outline.rectangle(bin_.amount, notion.size_mm or lay.width_mm),
    )


def _laid_on(pieces: tuple[Piece, ...]) -> Callable[[Bin], Lay | None] | None:
    """The shorter of two lays on a bin's width: as drafted, and the long sides across.

    Nonwoven interfacing has no grain, and a band's support is cut across as well as along
    (common practice, no source).
    """
    if not pieces:
        return None
    strips = Strips(pieces, Table())

    def lay(bin_: Bin) -> Lay | None:
        width = bin_.notion.size_mm or value("interfacing_width")
        across = Strips(tuple(_across(piece, width) for piece in pieces), Table())
        found = [lay for s in (strips, across) if (lay := s.first(width).lay)]
        return min(found, key=lambda lay: lay.length_mm, default=None)

    return lay


def _across(piece: Piece, width_mm: float) -> Piece:
    """The piece turned so that its longer side lies across, where that goes on."""
    outline = Outline(piece.outline_mm)
    if outline.width_mm >= outline.length_mm or outline.length_mm > width_mm:
        return piece
    return replace(piece, turns_deg=(90.0, 270.0))
