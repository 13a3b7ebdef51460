"""Patterns and their pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from stash.model.need import Closure, ClothWants, Need
from stash.model.outline import Point


class Role(StrEnum):
    """Which cloth a piece is cut from."""

    MAIN = "main"
    CONTRAST = "contrast"
    LINING = "lining"
    INTERFACING = "interfacing"


class Part(StrEnum):
    """What a piece is of the garment, whatever it is named and whatever it is cut from.

    ``BODY`` is a large piece that is neither front nor back, and what is not known.
    """

    BODY = "body"
    FRONT = "front"
    BACK = "back"
    SLEEVE = "sleeve"
    YOKE = "yoke"
    COLLAR = "collar"
    COLLAR_STAND = "collar stand"
    CUFF = "cuff"
    WAISTBAND = "waistband"
    BAND = "band"
    PLACKET = "placket"
    FLY = "fly"
    FACING = "facing"
    POCKET = "pocket"
    BELT = "belt"
    STRAP = "strap"
    LOOP = "loop"
    BINDING = "binding"


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One pattern piece.

    ``outline_mm`` is the cutting outline, allowances included and *opened out*
    (a piece cut on the fold is given whole): x along the grainline, y across.
    ``quantity`` counts the pieces to cut; with ``mirrored_pair`` half of them
    are mirror images (y -> -y) and the quantity is even. ``on_fold`` says the
    outline is symmetrical about y = 0, so it can be cut with y = 0 on a fold.
    ``stitch_mm`` is the stitching line where there is one, ``grain_turn_deg`` 45
    for a bias piece, ``match_points_mm`` the points that must lie on a repeat. ``part``
    says which part of the garment it is; rules ask it, never the name.
    """

    name: str
    outline_mm: tuple[Point, ...]
    quantity: int = 1
    mirrored_pair: bool = False
    on_fold: bool = False
    role: Role = Role.MAIN
    part: Part = Part.BODY
    stitch_mm: tuple[Point, ...] = ()
    notches_mm: tuple[Point, ...] = ()
    marks_mm: tuple[tuple[Point, ...], ...] = ()
    match_points_mm: tuple[Point, ...] = ()
    turns_deg: tuple[float, ...] = (0.0, 180.0)
    grain_turn_deg: float = 0.0


@dataclass(frozen=True)
class Seam:
    """A line of stitching: its length and its ISO 4915 stitch class."""

    name: str
    length_mm: float
    stitch: str = "301"


@dataclass(frozen=True, kw_only=True)
class Pattern:
    """A set of pieces and everything else the garment asks for."""

    garment: str
    pieces: tuple[Piece, ...]
    notions: tuple[Need, ...] = ()
    seams: tuple[Seam, ...] = ()
    wants: ClothWants = field(default_factory=ClothWants)
    closure: Closure | None = None
    measurements_mm: Mapping[str, float] = field(default_factory=dict)
    estimated: tuple[str, ...] = ()
    options: Mapping[str, object] = field(default_factory=dict)
    cautions: tuple[str, ...] = ()
