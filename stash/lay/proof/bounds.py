"""Necessary conditions: what any lay of a garment needs, whatever the arrangement."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import cast

import numpy as np
from shapely import Polygon

from stash.lay.cloth.outlines import Ring, corners, piece_polygon
from stash.lay.cloth.stances import Stance, allowed_turns, stance
from stash.lay.proof.cross_sections import Profile, Profiles, in_a_row, least_total, profile
from stash.lay.task import LayTask
from stash.model import Piece

MANY_POINTS = 250
THIN_MM = 1e-6
KnownProfiles = dict[tuple[Ring, int], Profile]  # by base and flip

GRID = 48  # lengths tried between the longest piece and where lines stop mattering


@dataclass(frozen=True)
class Bounds:
    """Of one piece each: extents (turns, 2) along and across. ``count`` copies, profiles
    by axis, and the area of everything. ``straight``: pieces keep to the grain; when they
    may be tilted, lines drawn across straight ones prove nothing."""

    pieces: tuple[Piece, ...]
    extents: tuple[np.ndarray, ...]
    counts: np.ndarray
    profiles: tuple[Profiles, Profiles]
    area_mm2: float
    straight: bool

    def needed_across(self, length_mm: float, clearance_mm: float = 0.0) -> float:
        """Least usable width of any lay that is no longer than this."""
        return self._needed(0, length_mm, clearance_mm)

    def needed_along(self, width_mm: float, clearance_mm: float = 0.0) -> float:
        """Least usable length of any lay that is no wider than this."""
        return self._needed(1, width_mm, clearance_mm)

    def _needed(self, axis: int, room_mm: float, clearance_mm: float) -> float:
        if not self.straight:
            return 0.0
        total, crossed = least_total(self.profiles[axis], self.counts, float(room_mm))
        return float(total + max(0, crossed - 1) * clearance_mm)


@lru_cache(maxsize=256)
def bounds(pieces: tuple[Piece, ...], one_way: bool, off_grain_deg: float = 0.0) -> Bounds:
    """The bounds of these pieces on one-way or two-way cloth."""
    task = LayTask(pieces=pieces, width_mm=1.0, one_way=one_way)
    stances = [_stances(p, task) for p in pieces]
    along, across = ([_profiles(own, axis) for own in stances] for axis in (0, 1))
    if off_grain_deg:
        extents = tuple(_tilted_extents(own, off_grain_deg) for own in stances)
    else:
        extents = tuple(map(_extents, stances, along, across))
    counts = np.array([p.quantity for p in pieces], np.int64)
    area = sum(piece_polygon(p.name, p.outline_mm).area * p.quantity for p in pieces)
    rows = [in_a_row([list(own.values()) for own in axis]) for axis in (along, across)]
    return Bounds(pieces, extents, counts, (rows[0], rows[1]), area, straight=not off_grain_deg)


def _stances(piece: Piece, task: LayTask) -> list[Stance]:
    """Every way a copy may lie on the opened-out cloth."""
    ring = inner(piece.outline_mm)
    sides = (False, True) if piece.mirrored_pair else (False,)
    turns = {t for turn in allowed_turns(piece, task) for t in (turn, -turn % 360)}
    return [stance(ring, t, m) for t in sorted(turns) for m in sides]


def _extents(stances: list[Stance], along: KnownProfiles, across: KnownProfiles) -> np.ndarray:
    """(k, 2): what the stances take along and across, each pair once."""
    pairs = [
        (along[s.base, s.flip[0]].extent_mm, across[s.base, s.flip[1]].extent_mm) for s in stances
    ]
    return np.array(list(dict.fromkeys(pairs)))


def _tilted_extents(stances: list[Stance], off_deg: float) -> np.ndarray:
    """(1, 2): the least that any stance takes along, and across, tilted by up to ``off_deg``.

    Between two tilts at which an edge of the hull lies flat, what a shape takes is the reach
    of one and the same pair of corners, so it is least with an edge flat or at an extreme.
    """
    taken = [np.zeros((0, 2))]
    for s in stances:
        hull = np.asarray(cast(Polygon, Polygon(s.ring).convex_hull).exterior.coords)
        step = np.diff(hull, axis=0)
        flat = np.degrees(np.arctan2(step[:, 0], step[:, 1]))  # off an edge across the cloth
        flat = np.concatenate([flat + quarter for quarter in range(-270, 271, 90)])
        tilts = np.radians([0.0, -off_deg, off_deg, *flat[np.abs(flat) <= off_deg]])
        c, d = np.cos(tilts)[:, None], np.sin(tilts)[:, None]
        x, y = hull[:, 0] * c - hull[:, 1] * d, hull[:, 0] * d + hull[:, 1] * c
        taken.append(np.stack([np.ptp(x, axis=1), np.ptp(y, axis=1)], 1))
    return np.asarray(np.vstack(taken).min(0, keepdims=True))


def _profiles(stances: list[Stance], axis: int) -> KnownProfiles:
    """Profiles by base and flip along the axis; a flip across it changes no cross-section."""
    known: KnownProfiles = {}
    for s in stances:
        key, turned = (s.base, s.flip[axis]), (s.base, -s.flip[axis])
        if key not in known:
            known[key] = known[turned].reversed() if turned in known else profile(s.ring, axis)
    return known


def inner(ring: Ring) -> Ring:
    """The ring, or when it has very many points a plainer one inside it: what that needs,
    the piece needs at least. A ring too rough for that keeps its extents and no more."""
    polygon = Polygon(ring)
    tolerance_mm = 0.25
    while len(polygon.exterior.coords) > MANY_POINTS and tolerance_mm <= 4:
        plain = Polygon(ring).buffer(-tolerance_mm).simplify(tolerance_mm)
        if not isinstance(plain, Polygon) or plain.is_empty:
            break
        polygon = Polygon(plain.exterior)
        tolerance_mm *= 2
    if len(polygon.exterior.coords) <= MANY_POINTS:
        return corners(polygon)
    x0, y0, x1, y1 = Polygon(ring).bounds
    return ((x0, y0), (x1, y1 - THIN_MM), (x1, y1), (x0, y0 + THIN_MM))


def screen_cuts(
    pieces: tuple[Piece, ...],
    lengths_mm: np.ndarray,
    widths_mm: np.ndarray,
    *,
    one_way: bool = False,
    areas_mm2: np.ndarray | None = None,
    off_grain_deg: float = 0.0,
) -> np.ndarray:
    """True for each cut that is not proved too small for these pieces (n,) bool.

    Lengths and widths are those of the usable cloth, edge margins taken off;
    ``areas_mm2`` of irregular cuts, else length times width. Ruled out means proved:
    no way of laying the pieces, tilted by up to ``off_grain_deg``, exists.
    """
    lengths, widths = np.asarray(lengths_mm, float), np.asarray(widths_mm, float)
    areas = lengths * widths if areas_mm2 is None else np.asarray(areas_mm2, float)
    b = bounds(tuple(pieces), one_way, off_grain_deg)
    possible = areas >= b.area_mm2 * (1 - 1e-9)
    for extent in b.extents:
        roomy = [(lengths >= x - 1e-6) & (widths >= y - 1e-6) for x, y in extent]
        possible &= np.logical_or.reduce(roomy)
    possible &= widths >= _table(b, 0, float(lengths.max(initial=0.0)), lengths) - 1e-6
    possible &= lengths >= _table(b, 1, float(widths.max(initial=0.0)), widths) - 1e-6
    return possible


def _table(b: Bounds, axis: int, most_mm: float, rooms: np.ndarray) -> np.ndarray:
    """What each room needs in the other direction, from the next larger room of a grid:
    a lay for the smaller room is one for the larger, so the proof carries over."""
    least = max(extent[:, axis].min() for extent in b.extents)
    if most_mm <= least or not b.straight:
        return np.zeros_like(rooms)
    grid = np.linspace(least, most_mm, GRID)
    needed = np.array([least_total(b.profiles[axis], b.counts, float(g))[0] for g in grid])
    return needed[np.minimum(np.searchsorted(grid, rooms), GRID - 1)]
