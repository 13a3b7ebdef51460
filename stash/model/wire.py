"""The JSON shapes other programs see: pieces, needs and lays, in millimetres and degrees."""

from __future__ import annotations

from stash.model.lay import Lay
from stash.model.need import Need
from stash.model.pattern import Pattern, Piece


def piece_json(piece: Piece) -> dict:
    """One piece with its cutting outline, opened out."""
    return {
        "name": piece.name,
        "quantity": piece.quantity,
        "mirrored_pair": piece.mirrored_pair,
        "on_fold": piece.on_fold,
        "outline_mm": [[round(x, 3), round(y, 3)] for x, y in piece.outline_mm],
        "role": piece.role.value,
        "part": piece.part.value,
        "turns_deg": list(piece.turns_deg),
        "grain_turn_deg": piece.grain_turn_deg,
        "match_points_mm": [[round(x, 3), round(y, 3)] for x, y in piece.match_points_mm],
    }


def need_json(need: Need) -> dict:
    """One notion line; sizes as [least, best, most]."""
    return {
        "kind": need.kind.value,
        "why": need.why,
        "count": need.count,
        "length_mm": need.length_mm,
        "size_mm": list(need.size_mm) if need.size_mm else None,
        "group": need.group,
    }


def pattern_json(pattern: Pattern) -> dict:
    """A whole pattern: pieces, notions, what was estimated, cautions."""
    return {
        "garment": pattern.garment,
        "pieces": [piece_json(p) for p in pattern.pieces],
        "notions": [need_json(n) for n in pattern.notions],
        "measurements_mm": {k: round(v, 1) for k, v in pattern.measurements_mm.items()},
        "estimated": list(pattern.estimated),
        "options": dict(pattern.options),
        "cautions": list(pattern.cautions),
    }


def lay_json(lay: Lay) -> dict:
    """A lay: placements in the frame of the opened-out cloth (see ``Placement``)."""
    return {
        "length_mm": round(lay.length_mm, 2),
        "width_mm": round(lay.width_mm, 2),
        "utilisation": round(lay.utilisation, 4),
        "spread": lay.spread.value,
        "fold_mm": lay.fold_mm,
        "placements": [
            {
                "piece": p.piece,
                "x_mm": round(p.x_mm, 3),
                "y_mm": round(p.y_mm, 3),
                "turn_deg": p.turn_deg,
                "mirrored": p.mirrored,
            }
            for p in lay.placements
        ],
    }
