"""Notches and grain arrows found on paper: ``python tests/bench/drawn_error.py 20-27`` (seeds).

Rendered pieces bear notches of every kind (a line, a triangle, a V cut in), a grain arrow, and
what may be mistaken for them: a stitching line, solid or dashed, darts, lines across, hatching,
words, a ruler along an edge. Printed are how many were found, missed, and found in vain.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import cos, hypot, radians, sin

import numpy as np
from shapely.geometry import LineString, Polygon
from trace_photo import Camera, Ink, Scene, photograph

from stash.eye.outlines.trace import trace_photo
from stash.pattern.drawn import longest_axis_deg

NEAR_MM = 4.0
TURN_DEG = 1.5
KINDS = ("line", "triangle", "cut")
WINDOW = (-650.0, -680.0, 1250.0, 820.0)
Spot = tuple[float, float]


@dataclass
class Drawn:
    """One rendered piece: the scene, and where its notches and its grain truly are."""

    scene: Scene
    notches: list[tuple[Spot, str]] = field(default_factory=list)
    grain_deg: float | None = None


def piece(random: np.random.Generator) -> list[Spot]:
    """An outline with straight and curved edges, some 35 by 55 cm, beside the sheet."""
    wide, tall = random.uniform(230, 360), random.uniform(380, 600)
    hollow = random.uniform(20, 60)
    armhole = [(wide - hollow * sin(radians(t)), 60 + 130 * t / 90)
               for t in np.linspace(0, 90, 14)]
    hem = [(wide - hollow + (hollow + 15) * t, tall - 12 * sin(3.14 * t))
           for t in np.linspace(1, 0.1, 6)]
    ring = [(0.0, 0.0), (wide * 0.45, random.uniform(-15, 20)), *armhole, *hem,
            (random.uniform(-10, 15), tall)]
    turn = radians(random.uniform(-8, 8))
    return [(285 + x * cos(turn) - y * sin(turn), -300 + x * sin(turn) + y * cos(turn))
            for x, y in ring]


def drawn(seed: int) -> Drawn:
    """A piece with its marks and with what is none."""
    random = np.random.default_rng(seed)
    ring = piece(random)
    shape = Polygon(ring)
    result = Drawn(Scene(pieces=[ring], window=WINDOW, density=3.0, seed=seed, shadow=0.15))
    ink: list[Ink] = []
    cut = shape
    for n in range(6):
        placed = _on_edge(shape, random, [spot for spot, _ in result.notches])
        if placed is None:
            continue
        kind = KINDS[n % 3]
        cut = _notch(placed, kind, random, ink, cut)
        result.notches.append(((placed[0][0], placed[0][1]), kind))
    ink += _others(shape, random)
    if random.random() < 0.85:
        lines, result.grain_deg = _arrow(shape, random)
        ink += lines
    result.scene = replace(result.scene, pieces=[list(cut.exterior.coords)[:-1]], ink=ink)
    return result


def _on_edge(shape: Polygon, random: np.random.Generator, taken: Sequence[Spot]):
    """(a place on an edge, the unit normal into the paper), away from corners and others."""
    ring = list(shape.exterior.coords)
    for _ in range(60):
        at = random.uniform(0, shape.exterior.length)
        a, m, b = (np.array(shape.exterior.interpolate(at + d).coords[0]) for d in (-12, 0, 12))
        (bx, by), (ax, ay) = b - m, m - a
        flat = abs(bx * ay - by * ax) / 144 < 0.2
        apart = all(hypot(*(m - t)) > 45 for t in taken)
        sharp = [np.array(c) for c in (ring[0], ring[1], ring[2], ring[-2])]
        if flat and apart and all(hypot(*(m - c)) > 25 for c in sharp):
            along = (b - a) / hypot(*(b - a))
            into = np.array([-along[1], along[0]])
            if not shape.contains(LineString([m + 0.5 * into, m + 2 * into])):
                into = -into
            return m, into, along
    return None


def _notch(placed, kind: str, random: np.random.Generator, ink: list[Ink], shape: Polygon):
    m, into, along = placed
    deep, half = random.uniform(5, 13), random.uniform(2.5, 4.5)
    grey, wide = int(random.uniform(40, 130)), random.uniform(0.5, 1.1)
    if kind == "line":
        ink.append(Ink(points=[tuple(m), tuple(m + deep * into)], grey=grey, width_mm=wide))
    elif kind == "triangle":
        corners = [tuple(m - half * along), tuple(m + deep * 0.8 * into), tuple(m + half * along)]
        ink.append(Ink(points=corners, grey=grey, width_mm=wide, filled=random.random() < 0.4))
    else:
        deep = random.uniform(4.5, 8)
        wedge = Polygon([m - half * along - 3 * into, m - half * along, m + deep * into,
                         m + half * along, m + half * along - 3 * into])
        shape = shape.difference(wedge)
    return shape


def _arrow(shape: Polygon, random: np.random.Generator) -> tuple[list[Ink], float]:
    """A grain line with a head at one end or both; its direction, y upwards."""
    inner = shape.buffer(-35)
    for _ in range(200):
        turn = radians(random.uniform(60, 120))
        x, y = (random.uniform(*inner.bounds[k::2]) for k in (0, 1))
        half = random.uniform(70, 130)
        unit = np.array([cos(turn), sin(turn)])
        a, b = np.array([x, y]) - half * unit, np.array([x, y]) + half * unit
        if inner.contains(LineString([a, b])):
            break
    wide, grey = random.uniform(0.6, 1.2), int(random.uniform(40, 110))
    ink = [Ink(points=[tuple(a), tuple(b)], width_mm=wide, grey=grey)]
    ends = [(a, unit), (b, -unit)] if random.random() < 0.6 else [(a, unit)]
    size, spread = random.uniform(6, 13), radians(random.uniform(18, 35))
    filled = random.random() < 0.5
    for tip, back in ends:
        barbs = [tip + size * np.array([back[0] * cos(s) - back[1] * sin(s),
                                        back[0] * sin(s) + back[1] * cos(s)])
                 for s in (-spread, spread)]
        ink.append(Ink(points=[tuple(barbs[0]), tuple(tip), tuple(barbs[1])], width_mm=wide,
                       grey=grey, filled=filled))
    return ink, -float(np.degrees(turn))


def _others(shape: Polygon, random: np.random.Generator) -> list[Ink]:
    """What a pattern bears besides: none of it is a notch or a grain arrow."""
    ink: list[Ink] = []
    grey = int(random.uniform(50, 120))
    sewn = shape.buffer(-random.uniform(9, 15), join_style="mitre").exterior
    if random.random() < 0.5:
        ink.append(Ink(points=list(sewn.coords), grey=grey, width_mm=0.6))
    else:
        ink += [Ink(points=[sewn.interpolate(t).coords[0], sewn.interpolate(t + 6).coords[0]],
                    grey=grey, width_mm=0.6) for t in np.arange(0, sewn.length - 6, 10)]
    left, top, right, foot = shape.buffer(-30).bounds
    x, y = left + 0.3 * (right - left), shape.bounds[3] + 5
    ink += [Ink(points=[(x - 12, y), (x, y - 120), (x + 12, y)], grey=grey),
            Ink(points=[(x, y), (x, y - 120)], grey=grey, width_mm=0.5)]
    across = top + 0.45 * (foot - top)
    ink += [Ink(points=[(shape.bounds[0] - 5, across + d), (shape.bounds[2] + 5, across + d)],
                grey=grey, width_mm=0.6) for d in (0, 9)]
    if random.random() < 0.7:
        corner = left + 0.55 * (right - left), top + 0.62 * (foot - top)
        ink += [Ink(points=[(corner[0] + d, corner[1]), (corner[0] + d + 40, corner[1] + 60)],
                    grey=grey, width_mm=0.5) for d in range(0, 60, 6)]
    for n, word in enumerate(("FRONT", "CUT 2", "size 40", "lengthen or shorten")):
        ink.append(Ink(points=[(left + 8, top + 45 + 14 * n)], word=word, grey=grey,
                       letter_mm=float(random.uniform(5, 9))))
    return [clipped for stroke in ink if (clipped := _on_paper(stroke, shape))]


def _on_paper(stroke: Ink, shape: Polygon) -> Ink | None:
    """The stroke as far as it lies on the paper."""
    if stroke.word:
        return stroke
    kept = LineString(stroke.points).intersection(shape)
    parts = getattr(kept, "geoms", [kept])
    longest = max(parts, key=lambda p: p.length)
    return replace(stroke, points=list(longest.coords)) if longest.length > 1 else None


def camera(seed: int) -> Camera:
    """Held over the piece, never quite level."""
    random = np.random.default_rng(seed + 5000)
    return Camera(target_mm=(300, 60), height_mm=float(random.uniform(850, 1000)),
                  tilt_deg=float(random.uniform(2, 14)), towards_deg=float(random.uniform(0, 360)),
                  size_px=(3264, 2448), bend=(-0.02, 0.006))


@dataclass
class Tally:
    """What was found, what missed and what found in vain; lines of what went wrong."""

    found: int = 0
    missed: int = 0
    false: int = 0
    grain_found: int = 0
    grain_missed: int = 0
    grain_false: int = 0
    worst_deg: float = 0.0
    worst_mm: float = 0.0
    said: list[str] = field(default_factory=list)


def judged(truth: Drawn, photo: bytes, tally: Tally, name: str) -> None:
    """Add one photograph to the tally."""
    found = trace_photo(photo, along=lambda outline: longest_axis_deg(outline.ring_mm))
    outline, marks = found.shapes[0].outline, found.drawn[0]
    turn = longest_axis_deg(outline.ring_mm)
    c, s = cos(radians(-turn)), sin(radians(-turn))

    def laid(spot: Spot) -> np.ndarray:
        x, y = spot[0], -spot[1]
        return np.array([x * c - y * s, x * s + y * c])

    corner = np.array([laid((x, -y)) for x, y in outline.ring_mm]).min(axis=0)
    left = [np.array(n.at_mm) for n in marks.notches]
    for spot, kind in truth.notches:
        at = laid(spot) - corner
        near = min(left, key=lambda n: hypot(*(n - at)), default=None)
        if near is not None and hypot(*(near - at)) < NEAR_MM:
            tally.found += 1
            tally.worst_mm = max(tally.worst_mm, hypot(*(near - at)))
            left = [n for n in left if n is not near]
        else:
            tally.missed += 1
            tally.said.append(f"{name}: {kind} missed at {at.round()}")
    tally.false += len(left)
    tally.said += [f"{name}: false notch at {n.round()}" for n in left]
    _judge_grain(truth, marks.grain, turn, tally, name)


def _judge_grain(truth: Drawn, grain, turn: float, tally: Tally, name: str) -> None:
    if truth.grain_deg is None or grain is None:
        tally.grain_false += grain is not None
        tally.grain_missed += truth.grain_deg is not None
        if (grain is None) != (truth.grain_deg is None):
            tally.said.append(f"{name}: grain {truth.grain_deg} seen as {grain}")
        return
    off = abs((grain.turn_deg + turn - truth.grain_deg + 90) % 180 - 90)
    if off < TURN_DEG:
        tally.grain_found += 1
        tally.worst_deg = max(tally.worst_deg, off)
    else:
        tally.grain_false += 1
        tally.said.append(f"{name}: grain off by {off:.1f} degrees")


def main() -> None:
    """One tally over the seeds asked for, told after each of them."""
    text = sys.argv[1] if len(sys.argv) > 1 else "1-12"
    first, _, last = text.rpartition("-")
    tally = Tally()
    for seed in range(int(first or 1), int(last) + 1):
        truth = drawn(seed)
        judged(truth, photograph(truth.scene, camera(seed)), tally, f"seed {seed}")
        print("\n".join(tally.said), end="\n" if tally.said else "")
        tally.said.clear()
        print(f"to seed {seed}: notches: {tally.found} found, {tally.missed} missed, "
              f"{tally.false} in vain, within {tally.worst_mm:.1f} mm; grain: "
              f"{tally.grain_found} found, {tally.grain_missed} missed, {tally.grain_false} wrong,"
              f" within {tally.worst_deg:.2f} degrees", flush=True)


if __name__ == "__main__":
    main()
