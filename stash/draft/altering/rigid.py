"""Paper turned about a pin, or pushed aside: nothing stretches."""

from __future__ import annotations

from math import asin, atan2, cos, sin

from stash.draft.altering.on_paper import Move
from stash.draft.geometry import distance
from stash.model import Point


def still(point: Point) -> Point:
    """What is not moved."""
    return point


def turn(about: Point, rad: float) -> Move:
    """Turned about a pin."""
    c, s = cos(rad), sin(rad)

    def move(p: Point) -> Point:
        x, y = p[0] - about[0], p[1] - about[1]
        return about[0] + c * x - s * y, about[1] + s * x + c * y

    return move


def turn_onto(about: Point, start: Point, end: Point) -> Move:
    """Turned about a pin until one point comes to lie towards another."""
    a = atan2(start[1] - about[1], start[0] - about[0])
    b = atan2(end[1] - about[1], end[0] - about[0])
    return turn(about, b - a)


def push(by: Point) -> Move:
    """Pushed aside without turning."""
    return lambda p: (p[0] + by[0], p[1] + by[1])


def then(first: Move, second: Move) -> Move:
    """One after the other."""
    return lambda p: second(first(p))


def opening_rad(pin: Point, at: Point, gap_mm: float) -> float | None:
    """The turn about a pin that opens so wide a gap at a point; None when it is too wide."""
    radius = distance(pin, at)
    if not radius or gap_mm > radius:
        return None
    return 2 * asin(gap_mm / (2 * radius))
