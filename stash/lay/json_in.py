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
        raise InvalidInput('The file has no pieces: it needs {"pieces": [...]} with at least one.')
    return tuple(_piece(row, k) for k, row in enumerate(rows, start=1))


def outline_from_json(value: Any) -> Outline:
    """``{"outline_mm": [[x, y], ...], "holes_mm": [...]}`` as the outline of a cut."""
    if not isinstance(value, dict) or "outline_mm" not in value:
        raise InvalidInput('The outline file needs {"outline_mm": [[x, y], ...]}.')
    holes = value.get("holes_mm") or []
    if not isinstance(holes, list):
        raise InvalidInput("“holes_mm” must be a list of outlines.")
    return Outline(
        _points(value["outline_mm"], "The cloth"),
        tuple(_points(hole, "A hole of the cloth") for hole in holes),
    )


def _piece(row: Any, number: int) -> Piece:
    if not isinstance(row, dict):
        raise InvalidInput(f"Piece {number} is not written as an object with a name and outline.")
    name = row.get("name") or f"piece {number}"
    if not isinstance(name, str):
        raise InvalidInput(f"The name of piece {number} must be text.")
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
        raise InvalidInput(f"The quantity of “{name}” must be a whole number, not {value!r}.")
    if mirrored and value == 1:
        return 2
    if mirrored and value % 2:
        raise InvalidInput(
            f"“{name}” is a mirrored pair, so its quantity must be even, not {value}."
        )
    return value


def _turns(value: Any, name: str) -> tuple[float, ...]:
    if not isinstance(value, list) or not value or len(value) > 16:
        raise InvalidInput(f"The turns of “{name}” must be a list of 1 to 16 angles in degrees.")
    return tuple(_number(t, f"A turn of “{name}”") for t in value)


def _points(value: Any, whose: str, least: int = 3) -> tuple[Point, ...]:
    if not isinstance(value, list) or len(value) < least:
        raise InvalidInput(f"{whose} needs an outline of at least three [x, y] points.")
    points = []
    for pair in value:
        if not isinstance(pair, list | tuple) or len(pair) != 2:
            raise InvalidInput(f"{whose} has a point that is not a pair [x, y].")
        points.append((_number(pair[0], whose), _number(pair[1], whose)))
    if least and len(points) > 3 and points[0] == points[-1]:
        points.pop()
    return tuple(points)


def _number(value: Any, whose: str) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not isfinite(value):
        raise InvalidInput(f"{whose} has a value that is not a plain number: {value!r}.")
    if abs(value) > 1e6:
        raise InvalidInput(f"{whose} has a value beyond a kilometre: {value!r}.")
    return float(value)
