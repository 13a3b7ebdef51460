"""Plans and lays on their cuts, as other programs read them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from stash.model import Laid, Piece
from stash.model.wire import lay_json, piece_json
from stash.workroom.questions.plan_view import PlanView

Json = dict[str, Any]


def plan_json(view: PlanView) -> Json:
    """``{"name", "garments", "holds": {"cuts", "bins"}}``."""
    return {
        "name": view.plan.name,
        "notes": view.plan.notes,
        "made": view.plan.made,
        "garments": [
            {"garment": g.garment, "person": g.person, "options": dict(g.options)}
            for g in view.plan.garments
        ],
        "holds": {
            "cuts": [
                {"cut": code, "from_mm": hold.from_mm, "to_mm": hold.to_mm,
                 "lay": _held(view.lays.get(code))}
                for code, hold in view.holdings.cuts.items()
            ],
            "bins": [
                {"bin": code, "amount": hold.amount}
                for code, hold in view.holdings.bins.items()
            ],
        },
    }


def laid_json(laid: Laid) -> Json:
    """``{"lay", "pieces"}``."""
    return {"lay": lay_json(laid.lay), "pieces": pieces_json(laid.pieces)}


def pieces_json(pieces: Iterable[Piece]) -> list[Json]:
    """Each piece as other programs read it."""
    return [piece_json(piece) for piece in pieces]


def _held(laid: Laid | None) -> Json | None:
    if laid is None:
        return None
    return {**lay_json(laid.lay), "pieces": pieces_json(laid.pieces), "role": laid.role.value}
