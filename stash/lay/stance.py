"""The ways a piece may lie, and the items that a spread makes of a list of pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from math import cos, radians, sin

from shapely import Polygon, box

from stash.lay.nofit import Flip
from stash.lay.shapes import Ring, piece_polygon
from stash.lay.sheet import BOTH, FIRST, SECOND
from stash.lay.task import LayTask
from stash.model import Piece, Spread

SYMMETRIC_SHARE = 1e-6


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


def allowed_turns(piece: Piece, task: LayTask) -> tuple[float, ...]:
    """Turns of the piece on this cloth: one-way cloth keeps only turn 0, a bias piece
    lies at its grain angle either way, and off-grain tolerance adds both extremes."""
    base = sorted({t % 360 for t in piece.turns_deg}) or [0.0]
    if task.one_way:
        base = [0.0]
    bias = piece.grain_turn_deg
    turns = [t + bias for t in base]
    if bias % 180 and not task.one_way:
        turns += [t - bias for t in base]
    off = task.off_grain_deg
    spread = (0.0, -off, off) if off else (0.0,)
    return tuple(dict.fromkeys((t + o) % 360 for t in turns for o in spread))


def items_of(task: LayTask, spread: Spread) -> tuple[Item, ...]:
    """Every copy of every piece as items of this spread."""
    return tuple(chain.from_iterable(_items(piece, task, spread) for piece in task.pieces))


def _items(piece: Piece, task: LayTask, spread: Spread) -> Iterator[Item]:
    ring = tuple(piece_polygon(piece.name, piece.outline_mm).exterior.coords[:-1])
    turns = allowed_turns(piece, task)
    if spread is Spread.OPEN:
        yield from _singles(piece, ring, turns, spread)
    elif spread is Spread.LENGTHWISE and piece.on_fold and not piece.grain_turn_deg:
        yield from _folded(piece, ring, turns)
    elif not (twin_turns := _twin_turns(piece, turns, spread)):
        yield from _singles(piece, ring, turns, spread)
    elif piece.mirrored_pair:
        stances = tuple(
            stance(ring, t, m, layers=BOTH) for t in twin_turns for m in (False, True)
        )
        for k in range(1, piece.quantity, 2):
            yield Item(piece, (k, k + 1), stances)
    elif (shift := symmetry_shift(ring)) is not None:
        stances = tuple(stance(ring, t, False, layers=BOTH) for t in twin_turns)
        for k in range(1, piece.quantity, 2):
            yield Item(piece, (k, k + 1), stances, twin_shift_mm=shift)
        if piece.quantity % 2:
            last = piece.quantity
            yield Item(piece, (last,), tuple(_either_layer(ring, turns, False, spread)))
    else:
        yield from _singles(piece, ring, turns, spread)


def _twin_turns(piece: Piece, turns: tuple[float, ...], spread: Spread) -> tuple[float, ...]:
    """Turns at which the copy on the other layer, a mirror image, lies as the piece allows.

    A bias piece may lean either way, so its mirror image always does.
    """
    if piece.grain_turn_deg:
        return turns
    about = 0.0 if spread is Spread.LENGTHWISE else 180.0
    return tuple(t for t in turns if (about - t) % 360 in turns)


def _singles(piece: Piece, ring: Ring, turns: tuple, spread: Spread) -> Iterator[Item]:
    for k in range(1, piece.quantity + 1):
        mirrored = piece.mirrored_pair and k % 2 == 0
        if spread is Spread.OPEN:
            stances = tuple(stance(ring, t, mirrored) for t in turns)
        else:
            stances = tuple(_either_layer(ring, turns, mirrored, spread))
        yield Item(piece, (k,), stances)


def _either_layer(ring: Ring, turns: tuple, mirrored: bool, spread: Spread) -> Iterator[Stance]:
    through = (1, -1) if spread is Spread.LENGTHWISE else (-1, 1)
    for t in turns:
        yield stance(ring, t, mirrored)
        yield stance(ring, t, mirrored, layers=SECOND, through=through)


def _folded(piece: Piece, ring: Ring, turns: tuple) -> Iterator[Item]:
    """A piece on the fold: the half above y = 0, its far end either way round."""
    half = Polygon(ring).intersection(box(-1e6, 0, 1e6, 1e6))
    base = tuple(half.exterior.coords[:-1])
    flips = {0.0: (1, 1), 180.0: (-1, 1)}
    stances = tuple(Stance(base, flips[t], t, False, BOTH) for t in turns if t in flips)
    for k in range(1, piece.quantity + 1):
        yield Item(piece, (k,), stances, on_fold=True)


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


def turned(ring: Ring, angle_deg: float) -> Ring:
    """The ring turned counter-clockwise about the origin."""
    if not angle_deg:
        return ring
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    if angle_deg == 90:
        c, s = 0.0, 1.0
    return tuple((x * c - y * s, x * s + y * c) for x, y in ring)


def symmetry_shift(ring: Ring) -> float | None:
    """Twice the height of the ring's own mirror line along the grain; None when it has none."""
    polygon = Polygon(ring)
    _, low, _, high = polygon.bounds
    other = Polygon([(x, low + high - y) for x, y in ring])
    unlike = polygon.symmetric_difference(other).area
    return low + high if unlike <= SYMMETRIC_SHARE * polygon.area else None
