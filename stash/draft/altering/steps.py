"""What can be done to a piece, each with what it needs to know; lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from stash.model import Point


@dataclass(frozen=True, kw_only=True)
class Where:
    """A place on an edge, so far from its upper or inner end (None: half way), or a dart of it."""

    edge: str
    mm: float | None = None
    dart: int | None = None
    at_dart: bool = False


@dataclass(frozen=True, kw_only=True)
class MoveDart:
    """Close a dart and open it elsewhere, as a dart or, in a hem, as flare."""

    piece: str
    dart: Where
    to: Where
    as_flare: bool = False


@dataclass(frozen=True, kw_only=True)
class GatherDart:
    """Leave a dart unsewn and gather the edge there."""

    piece: str
    dart: Where


@dataclass(frozen=True, kw_only=True)
class CutPanel:
    """Cut a piece in two from one place to another, through points (down, across) between.

    A dart at either end goes into the seam. ``allowance_mm`` None takes the piece's own.
    """

    piece: str
    start: Where
    end: Where
    via_mm: tuple[Point, ...] = ()
    allowance_mm: float | None = None


@dataclass(frozen=True, kw_only=True)
class CutFold:
    """Cut a folded piece apart at its fold, with a seam there."""

    piece: str
    allowance_mm: float | None = None


@dataclass(frozen=True, kw_only=True)
class SlashAndSpread:
    """Slash from one edge to another and open the cuts; ``evenly`` opens both edges."""

    piece: str
    hinge: str
    edge: str
    cuts: int
    amount_mm: float
    evenly: bool = False


@dataclass(frozen=True, kw_only=True)
class AddFacing:
    """A facing of one edge, so wide everywhere."""

    piece: str
    edge: str
    width_mm: float


Alteration = MoveDart | GatherDart | CutPanel | CutFold | SlashAndSpread | AddFacing
