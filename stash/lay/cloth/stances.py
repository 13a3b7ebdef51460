"""The ways a piece may lie, and the items that a spread makes of a list of pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain, pairwise
from math import atan2, degrees, hypot, remainder
from typing import cast

from shapely import Polygon, box

from stash.lay.cloth.outlines import Flip, Ring, corners, piece_polygon, turned
from stash.lay.cloth.repeat import MATCH_MM, PRINT_MM, off_lattice_mm, placed
from stash.lay.cloth.spread import BOTH, FIRST, SECOND
from stash.lay.task import LayTask
from stash.model import Piece, Repeat, Spread

SYMMETRIC_SHARE = 1e-6
ROUNDED_TURN = 9  # decimals
LONG_SHARE = 1 / 12  # of the way round a piece: an edge worth laying straight


@dataclass(frozen=True)
class Stance:
    """One permitted way for an item to lie, seen in the working frame of the sheet.

    The shape there is ``base`` flipped by ``flip`` (factors of x and y), so stances
    that are flips of one another share their no-fit regions. ``turn_deg`` and
    ``mirrored`` say the same of the copy itself, in the opened-out cloth.
    """

    base: Ring
    flip: Flip
    turn_deg: float
    mirrored: bool
    layers: int = FIRST

    @property
    def ring(self) -> Ring:
        """The outline with its origin at (0, 0)."""
        return tuple((x * self.flip[0], y * self.flip[1]) for x, y in self.base)


@dataclass(frozen=True)
class Item:
    """What is moved as one: a single copy, a copy with its mirror image under it, or a
    piece on the fold. ``copies`` are their numbers, ``twin_shift_mm`` (see ``unfold``)
    is set when the lower copy of a symmetrical piece need not count as mirrored."""

    piece: Piece
    copies: tuple[int, ...]
    stances: tuple[Stance, ...]
    on_fold: bool = False
    twin_shift_mm: float | None = None


def allowed_turns(piece: Piece, task: LayTask, mirrored: bool = False) -> tuple[float, ...]:
    """Turns of a copy of the piece on this cloth, with those that off-grain tolerance adds
    and without those at which its match points cannot all lie on the print.

    Two-way cloth takes the turns listed, a bias piece at its angle to either side of them.
    On one-way cloth the nap must run down every copy as it runs down the paper: a piece
    lies straight, or at its bias angle as drawn. The second of a pair is sewn as the mirror
    image of the first, so its nap runs as the mirror image when it leans the other way.
    """
    lean = piece.grain_turn_deg
    if task.one_way:
        turns = [-lean if mirrored else lean]
    else:
        listed = sorted({t % 360 for t in piece.turns_deg}) or [0.0]
        turns = [t + lean for t in listed] + [t - lean for t in listed if lean % 180]
    tilted = (_whole(t + o) for t in turns for o in _tilts(piece, task, t, mirrored))
    return tuple(t for t in dict.fromkeys(tilted) if off_print_mm(piece, task, t, mirrored) == 0.0)


def off_print_mm(piece: Piece, task: LayTask, turn_deg: float, mirrored: bool) -> float:
    """How far a match point is off the print when the first lies on it; 0 when near enough."""
    if task.repeat is None or len(piece.match_points_mm) < 2:
        return 0.0
    x0, y0 = piece.match_points_mm[0]
    steps = [(x - x0, y - y0) for x, y in piece.match_points_mm[1:]]
    off = max(off_lattice_mm(*placed(s, turn_deg, mirrored), task.repeat) for s in steps)
    return off if off > MATCH_MM else 0.0


def _tilts(piece: Piece, task: LayTask, turn_deg: float, mirrored: bool) -> Iterator[float]:
    """Steps off a turn within the tolerance: none, both extremes, and those that bring a
    long edge along or across the cloth. A piece is narrowest and shortest at one of these
    (the width of a convex shape, as it turns, is least with an edge flat), so turns between
    them would only make the search longer. On a print matched pieces are not tilted.
    """
    yield 0.0
    off = task.off_grain_deg
    if not off or (task.repeat is not None and piece.match_points_mm):
        return
    yield from (-off, off)
    for edge in _long_edges_deg(piece.outline_mm):
        askew = remainder((-edge if mirrored else edge) + turn_deg, 90)
        if abs(askew) < off:
            yield -askew


@lru_cache(maxsize=512)
def _long_edges_deg(ring: Ring) -> tuple[float, ...]:
    """Directions of the longer edges of the ring's hull."""
    hull = cast(Polygon, Polygon(ring).convex_hull)
    around = [(x, y) for x, y, *_ in hull.exterior.coords]
    steps = [(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(around)]
    long = [(x, y) for x, y in steps if hypot(x, y) >= LONG_SHARE * hull.length]
    return tuple(degrees(atan2(y, x)) for x, y in long)


def _whole(turn_deg: float) -> float:
    """The turn from 0 to 360, without the rounding that would tell equal turns apart."""
    return round(turn_deg % 360, ROUNDED_TURN) % 360


def items_of(task: LayTask, spread: Spread) -> tuple[Item, ...]:
    """Every copy of every piece as items of this spread."""
    return tuple(chain.from_iterable(_items(piece, task, spread) for piece in task.pieces))


def _items(piece: Piece, task: LayTask, spread: Spread) -> Iterator[Item]:
    ring = _ring(piece)
    if spread is Spread.LENGTHWISE and piece.on_fold and not piece.grain_turn_deg:
        yield from _folded(piece, ring, allowed_turns(piece, task))
    elif uppers := doubled(piece, task, spread):
        shift = None if piece.mirrored_pair else symmetry_shift(ring)
        stances = tuple(stance(ring, t, m, layers=BOTH) for t, m in uppers)
        for k in range(1, piece.quantity, 2):
            yield Item(piece, (k, k + 1), stances, twin_shift_mm=shift)
        if piece.quantity % 2:
            yield _single(piece, ring, piece.quantity, task, spread)
    else:
        for k in range(1, piece.quantity + 1):
            yield _single(piece, ring, k, task, spread)


def doubled(piece: Piece, task: LayTask, spread: Spread) -> tuple[tuple[float, bool], ...]:
    """(turn, mirrored) of the upper copies under which another may be cut; none when none may.

    The lower copy comes out as the mirror image about the fold: as the other of a pair,
    or as its like when the piece is its own mirror image. It must lie as its piece allows.
    """
    pair = piece.mirrored_pair
    if spread is Spread.OPEN or piece.quantity < 2:
        return ()
    if not pair and symmetry_shift(_ring(piece)) is None:
        return ()
    about = 0.0 if spread is Spread.LENGTHWISE else 180.0
    turns = {m: allowed_turns(piece, task, m) for m in (False, True)}
    return tuple(
        (t, m)
        for m in ((False, True) if pair else (False,))
        for t in turns[m]
        if _whole(about - t) in turns[m != pair]
        and (pair or _matched_alike(piece, task.repeat, about - t))
    )


def _matched_alike(piece: Piece, repeat: Repeat | None, turn_deg: float) -> bool:
    """True when a symmetrical piece lies on the print as its own mirror image does.

    The lower copy is cut as the mirror image of the upper one, so its match points lie on
    the print as mirrored ones; it is sewn as a plain one, whose lie elsewhere.
    """
    if repeat is None or not piece.match_points_mm:
        return True
    across = symmetry_shift(_ring(piece)) or 0.0
    x0, y0 = piece.match_points_mm[0]
    steps = [(x - x0, y - (across - y0)) for x, y in piece.match_points_mm]
    off = [off_lattice_mm(*placed(step, turn_deg, False), repeat) for step in steps]
    return off[0] <= PRINT_MM and max(off) <= MATCH_MM


def _single(piece: Piece, ring: Ring, k: int, task: LayTask, spread: Spread) -> Item:
    """Copy ``k`` on its own, on folded cloth on either layer."""
    mirrored = piece.mirrored_pair and k % 2 == 0
    turns = allowed_turns(piece, task, mirrored)
    if spread is Spread.OPEN:
        return Item(piece, (k,), tuple(stance(ring, t, mirrored) for t in turns))
    return Item(piece, (k,), tuple(_either_layer(ring, turns, mirrored, spread)))


def _either_layer(
    ring: Ring, turns: tuple[float, ...], mirrored: bool, spread: Spread
) -> Iterator[Stance]:
    through = (1, -1) if spread is Spread.LENGTHWISE else (-1, 1)
    for t in turns:
        yield stance(ring, t, mirrored)
        yield stance(ring, t, mirrored, layers=SECOND, through=through)


def _folded(piece: Piece, ring: Ring, turns: tuple[float, ...]) -> Iterator[Item]:
    """A piece on the fold: the half above y = 0, its far end either way round."""
    half = Polygon(ring).intersection(box(-1e6, 0, 1e6, 1e6))
    base = corners(cast(Polygon, half))
    flips: dict[float, Flip] = {0.0: (1, 1), 180.0: (-1, 1)}
    stances = tuple(Stance(base, flips[t], t, False, BOTH) for t in turns if t in flips)
    for k in range(1, piece.quantity + 1):
        yield Item(piece, (k,), stances, on_fold=True)


def _ring(piece: Piece) -> Ring:
    return corners(piece_polygon(piece.name, piece.outline_mm))


def stance(
    ring: Ring, turn_deg: float, mirrored: bool, *, layers: int = FIRST, through: Flip = (1, 1)
) -> Stance:
    """The stance of a ring mirrored, turned, and seen ``through`` the cloth if it lies under.

    Half turns and mirrors are flips of the ring; only other angles need a base of their own.
    """
    halves, rest = divmod(turn_deg % 360, 180)
    sign = -1 if halves else 1
    if mirrored and rest:  # turning a mirrored ring by r is mirroring the ring turned by -r
        rest, sign = 180 - rest, -sign
    flip = (sign * through[0], sign * (-1 if mirrored else 1) * through[1])
    return Stance(turned(ring, rest), flip, turn_deg % 360, mirrored, layers)


def symmetry_shift(ring: Ring) -> float | None:
    """Twice the height of the ring's own mirror line along the grain; None when it has none."""
    polygon = Polygon(ring)
    _, low, _, high = polygon.bounds
    other = Polygon([(x, low + high - y) for x, y in ring])
    unlike = polygon.symmetric_difference(other).area
    return low + high if unlike <= SYMMETRIC_SHARE * polygon.area else None
