"""Pieces and cloth as other programs write them: JSON to values, each fault one sentence."""

from __future__ import annotations

from math import isfinite
from typing import Any

from stash.errors import InvalidInput
from stash.model import Outline, Piece, Point


def pieces_from_json(value: Any) -> tuple[Piece, ...]:
    """``{"pieces": [{"name", "outline_mm", "quantity", "mirrored_pair", ...}]}`` as pieces.

    A mirrored pair with no quantity, or with 1, is one pair: two pieces.
    """
    rows = value.get("pieces") if isinstance(value, dict) else None
    if not isinstance(rows, list) or not rows:
        raise InvalidInput("json_without_pieces")
    return tuple(_piece(row, k) for k, row in enumerate(rows, start=1))


def outline_from_json(value: Any) -> Outline:
    """``{"outline_mm": [[x, y], ...], "holes_mm": [...]}`` as the outline of a cut."""
    if not isinstance(value, dict) or "outline_mm" not in value:
        raise InvalidInput("json_without_outline")
    holes = value.get("holes_mm") or []
    if not isinstance(holes, list):
        raise InvalidInput("json_holes")
    return Outline(
        _points(value["outline_mm"], "The cloth"),
        tuple(_points(hole, "A hole of the cloth") for hole in holes),
    )


def _piece(row: Any, number: int) -> Piece:
    if not isinstance(row, dict):
        raise InvalidInput("json_piece_form", number=number)
    name = row.get("name") or f"piece {number}"
    if not isinstance(name, str):
        raise InvalidInput("json_piece_name", number=number)
    mirrored = bool(row.get("mirrored_pair", False))
    return Piece(
        name=name,
        outline_mm=_points(row.get("outline_mm"), f"“{name}”"),
        quantity=_quantity(row.get("quantity", 1), name, mirrored),
        mirrored_pair=mirrored,
        on_fold=bool(row.get("on_fold", False)),
        turns_deg=_turns(row.get("turns_deg", [0.0, 180.0]), name),
        grain_turn_deg=_number(row.get("grain_turn_deg", 0.0), f"The grain turn of “{name}”"),
        match_points_mm=_points(row.get("match_points_mm") or [], f"“{name}”", least=0),
    )


def _quantity(value: Any, name: str, mirrored: bool) -> int:
    if isinstance(value, bool) or not isinstance(value, int):
        raise InvalidInput("json_quantity", piece=name, typed=str(value)[:40])
    if mirrored and value == 1:
        return 2
    if mirrored and value % 2:
        raise InvalidInput("pair_is_odd", piece=name, quantity=value)
    return value


def _turns(value: Any, name: str) -> tuple[float, ...]:
    if not isinstance(value, list) or not value or len(value) > 16:
        raise InvalidInput("json_turns", piece=name)
    return tuple(_number(t, f"A turn of “{name}”") for t in value)


def _points(value: Any, whose: str, least: int = 3) -> tuple[Point, ...]:
    if not isinstance(value, list) or len(value) < least:
        raise InvalidInput("json_outline", whose=whose)
    points = []
    for pair in value:
        if not isinstance(pair, list | tuple) or len(pair) != 2:
            raise InvalidInput("json_point", whose=whose)
        points.append((_number(pair[0], whose), _number(pair[1], whose)))
    if least and len(points) > 3 and points[0] == points[-1]:
        points.pop()
    return tuple(points)


def _number(value: Any, whose: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise InvalidInput("json_not_number", whose=whose, typed=str(value)[:40])
    if abs(value) > 1e6:
        raise InvalidInput("json_beyond", whose=whose, typed=str(value)[:40])
    return float(value)
