"""The JSON shapes other programs see: pieces, needs and lays, in millimetres and degrees."""

from __future__ import annotations

from collections.abc import Iterable

from stash.fact import Fact
from stash.model.lay import Lay
from stash.model.need import ClothWants, Need
from stash.model.outline import Point
from stash.model.pattern import Joined, Pattern, Piece, Recipe


def piece_json(piece: Piece) -> dict[str, object]:
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
        "stitch_mm": _points(piece.stitch_mm),
        "marks": [{"kind": m.kind.value, "at_mm": _points(m.at_mm)} for m in piece.marks],
        "pair": piece.mirrored_pair,
        "fold": piece.on_fold,
        "grain_deg": piece.grain_turn_deg,
        "allowance_mm": {edge: round(mm, 3) for edge, mm in piece.allowances_mm},
        "edges": [{"name": e.name, "path_mm": _points(e.path_mm)} for e in piece.edges],
        "length_most_mm": piece.length_most_mm,
        "photograph": piece.under.photo if piece.under else None,
    }


def _points(points: Iterable[Point]) -> list[list[float]]:
    return [[round(x, 3), round(y, 3)] for x, y in points]


def join_json(joined: Joined) -> dict[str, object]:
    """Two edges sewn together, [piece, edge] each, with their lengths and the ease."""
    return {
        "a": list(joined.a), "b": list(joined.b), "a_mm": round(joined.a_mm, 2),
        "b_mm": round(joined.b_mm, 2), "ease_mm": round(joined.ease_mm, 2),
    }


def need_json(need: Need) -> dict[str, object]:
    """One notion line; sizes as [least, best, most]."""
    return {
        "kind": need.kind.value,
        "why": need.why,
        "reason": need.reason.to_json(),
        "count": need.count,
        "length_mm": need.length_mm,
        "size_mm": list(need.size_mm) if need.size_mm else None,
        "group": need.group,
    }


def pattern_json(pattern: Pattern) -> dict[str, object]:
    """A whole pattern: pieces, notions, what was estimated, cautions."""
    return {
        "garment": pattern.garment,
        "pieces": [piece_json(p) for p in pattern.pieces],
        "notions": [need_json(n) for n in pattern.notions],
        "measurements_mm": {k: round(v, 1) for k, v in pattern.measurements_mm.items()},
        "estimated": list(pattern.estimated),
        "options": dict(pattern.options),
        "cautions": list(pattern.cautions),
        "wearer": pattern.wearer,
        "facts": [f.to_json() for f in pattern.facts],
        "joins": [join_json(j) for j in pattern.joins],
        "recipe": recipe_json(pattern.recipe),
        "wants": wants_json(pattern.wants),
    }


def wants_json(wants: ClothWants) -> dict[str, object]:
    """What the main cloth must be; weights as [least, most]."""
    return {
        "constructions": [c.value for c in wants.constructions],
        "mass_gsm": list(wants.mass_gsm),
        "mass_best_gsm": list(wants.mass_best_gsm),
        "stretch_across_pct": wants.stretch_across_pct,
        "stretch_along_pct": wants.stretch_along_pct,
        "opaque": wants.opaque,
    }


def recipe_json(recipe: Recipe | None) -> dict[str, object] | None:
    """What a pattern began as and how it was altered; None for one that was not."""
    if recipe is None:
        return None
    return {"base": recipe.base, "steps": list(recipe.steps), "options": dict(recipe.options),
            "version": recipe.version}


def lay_json(lay: Lay) -> dict[str, object]:
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


def facts_json(told: Iterable[Fact]) -> list[dict[str, object]]:
    """Facts as they are, for whoever says them in words of his own."""
    return [one.to_json() for one in told]


def tenths(value: float | None) -> float | None:
    """Millimetres to a tenth; None stays None."""
    return None if value is None else round(value, 1)
