"""Patterns and their pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from stash.fact import Fact
from stash.model.need import Closure, ClothWants, Need
from stash.model.outline import Point
from stash.model.underlay import Underlay


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


class MarkKind(StrEnum):
    """What a mark on a piece is for. A notch tells a front, a double one a back."""

    NOTCH = "notch"
    DOUBLE_NOTCH = "double notch"
    DART = "dart"
    FOLD = "fold"
    CENTRE = "centre"
    SIDE_SEAM = "side seam"
    OVERLAP = "overlap"
    BUTTON = "button"
    BUTTONHOLE = "buttonhole"
    POCKET = "pocket"
    ROLL = "roll line"
    CREASE = "crease"
    HIP = "hip"
    CROTCH = "crotch"
    WAIST = "waist"
    BUST = "bust point"
    OPENING = "opening"
    SLIT = "slit"
    PLACE = "place"
    PLEAT_FOLD = "pleat fold"
    PLEAT_TO = "pleat to here"
    GATHER = "gather"
    LENGTHEN = "lengthen or shorten here"


@dataclass(frozen=True)
class Mark:
    """A mark to carry over to the cloth: a point, or a line through its points."""

    kind: MarkKind
    at_mm: tuple[Point, ...]


@dataclass(frozen=True, kw_only=True)
class SewnEdge:
    """One named edge of a piece: its stitching line and what is allowed beyond it, mm.

    A piece on the fold has the edges of its half, one of them named ``fold``. Snips are so far
    along the line from its first point. ``turned`` says the allowance is folded back.
    """

    name: str
    path_mm: tuple[Point, ...]
    allowance_mm: float = 0.0
    turned: bool = False
    notches_mm: tuple[float, ...] = ()
    double_notches_mm: tuple[float, ...] = ()


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
    says which part of the garment it is; rules ask it, never the name. ``marks`` say what
    the lines of ``marks_mm`` and the points of ``notches_mm`` are, where that is known;
    ``allowances_mm`` what is allowed beyond each edge. ``length_most_mm`` is by how much it may
    at most be lengthened or shortened at its line; ``under`` the photograph it was traced from.
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
    marks: tuple[Mark, ...] = ()
    allowances_mm: tuple[tuple[str, float], ...] = ()
    edges: tuple[SewnEdge, ...] = ()
    length_most_mm: float | None = None
    under: Underlay | None = None


@dataclass(frozen=True)
class Joined:
    """Two edges that are sewn together: (piece, edge) of each and their lengths, mm.

    The lengths are what meets: darts are sewn, and a piece on the fold counts half.
    """

    a: tuple[str, str]
    b: tuple[str, str]
    a_mm: float
    b_mm: float

    @property
    def ease_mm(self) -> float:
        """How much longer ``a`` is, to be eased in."""
        return self.a_mm - self.b_mm


@dataclass(frozen=True)
class Seam:
    """A line of stitching: its length and its ISO 4915 stitch class."""

    name: str
    length_mm: float
    stitch: str = "301"


@dataclass(frozen=True, kw_only=True)
class Recipe:
    """How an altered pattern came about: what it began as, and the steps, each in its words.

    ``base`` is a draft's name, whose ``options`` were these, or a pattern of her own in one
    ``version``.
    """

    base: str
    steps: tuple[str, ...]
    options: Mapping[str, object] = field(default_factory=dict)
    version: int | None = None


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
    joins: tuple[Joined, ...] = ()
    wearer: str = ""
    facts: tuple[Fact, ...] = ()
    recipe: Recipe | None = None
