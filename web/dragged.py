"""An outline that was dragged or typed point by point, read from a form."""

from __future__ import annotations

import json
from collections.abc import Sequence

from flask import request

from stash.errors import InvalidInput
from stash.model import Point

MOST_POINTS = 3000
TENTH = 1


def points_text(ring: Sequence[Point]) -> str:
    """The ring as it is typed: a point a line, in mm."""
    return "\n".join(f"{x:.1f} {y:.1f}" for x, y in ring)


def dragged_ring(n: int, shown: Sequence[Point]) -> tuple[Point, ...] | None:
    """The corrected ring; None where nothing was dragged or typed.

    Points that stayed where they were keep their exact place, which the form shows in tenths.
    """
    dragged, lines = request.form.get(f"ring-{n}", ""), _typed_points(n, shown)
    if not dragged and lines is None:
        return None
    try:
        points = ([(float(x), float(y)) for x, y in json.loads(dragged)] if dragged
                  else [_point(line) for line in lines or ()])
    except (ValueError, TypeError):
        raise InvalidInput("dragged_outline_broken", field=f"points-{n}") from None
    if len(points) > MOST_POINTS:
        raise InvalidInput("outline_points", most=MOST_POINTS)
    exact = {_tenths(point): point for point in shown}
    return tuple(exact.get(_tenths(point), point) for point in points)


def _tenths(point: Point) -> tuple[str, str]:
    """As the form shows it; 0 has no sign."""
    x, y = (round(value, TENTH) + 0.0 for value in point)
    return f"{x:.1f}", f"{y:.1f}"


def _typed_points(n: int, shown: Sequence[Point]) -> list[str] | None:
    """The lines of the form's points; None where they are as they were shown."""
    lines = [line.strip() for line in request.form.get(f"points-{n}", "").splitlines()]
    lines = [line for line in lines if line]
    return None if not lines or lines == points_text(shown).splitlines() else lines


def _point(line: str) -> Point:
    """ "123.4 56.7"; a decimal comma serves as a point where a space parts the two."""
    x, y = line.replace(";", " ").split()
    return float(x.replace(",", ".")), float(y.replace(",", "."))
