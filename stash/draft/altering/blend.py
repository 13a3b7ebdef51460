"""An edge that came out in straight bits drawn round with a curve, as long as it was.

The edge's direction is averaged along it, which rounds its corners and keeps its length; its ends
stay where they are and keep their direction. How far a corner is rounded is chosen here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import atan2, cos, hypot, pi, sin

from shapely.geometry import Polygon

from stash.draft.altering.edge_darts import darts_of
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.geometry import Path, along, distance, length, solve, thinned

PRINCESS_SHARES = (0.33, 0.28, 0.23, 0.18, 0.12)  # of the seam, beside each corner: chosen here
STEP_MM, FEWEST, MOST = 2.0, 24, 700
CORNER_RAD = 0.7  # a sharper corner is meant
STRAY_MM, LENGTH_MM = 0.05, 0.05
FULLER = 0.2  # the bow is made so much fuller at most, to be as long as it was


def blended(paper: OnPaper, edge: str, over_mm: float) -> OnPaper:
    """The piece with that edge blended over so much beside each corner.

    As it was where the edge holds a dart or a corner that is meant, or where its length would not
    be kept.
    """
    line = next((e for e in paper.edges if e.name == edge), None)
    if line is None or any(d.edge == edge for d in darts_of(paper)):
        return paper
    path = smooth(line.path_mm, min(over_mm, whole_mm(line) / 3))
    edges = tuple(replace(e, path_mm=path) if e is line else e for e in paper.edges)
    return replace(paper, edges=edges)


def rounded(parts: tuple[OnPaper, OnPaper], seam: str) -> tuple[OnPaper, OnPaper]:
    """Both sides of a seam that took in darts drawn round, each as long as it was.

    A princess line runs in one curve over the bust: what the round fills in one panel it takes
    from the other (common practice, no source). The roundest is taken that both can be drawn
    with; as they were where there is none.
    """
    whole = whole_mm(parts[0].edge(seam))
    for share in PRINCESS_SHARES:
        one, other = (blended(part, seam, whole * share) for part in parts)
        if all(_rounded(now, was, seam) for now, was in ((one, parts[0]), (other, parts[1]))):
            return one, other
    return parts


def _rounded(now: OnPaper, was: OnPaper, seam: str) -> bool:
    """It was drawn round, and crosses itself nowhere."""
    return now.edge(seam).path_mm != was.edge(seam).path_mm and Polygon(now.ring).is_valid


def smooth(path: Path, over_mm: float) -> Path:
    """The path with its corners rounded over so much, as long as before."""
    if len(path) < 3 or over_mm < STEP_MM or sharpest_rad(path) > CORNER_RAD:
        return path
    whole = length(path)
    count = min(max(round(whole / STEP_MM), FEWEST), MOST)
    step = whole / count
    ways = _ways(path, count, step)
    reach = max(1, round(over_mm / step / 2))
    for _ in range(2):
        ways = _averaged(ways, reach)
    drawn = _ended(_walked(path[0], ways, step), path[-1])
    drawn = _as_long(drawn, whole)
    fewer = thinned(drawn, STRAY_MM)
    return fewer if abs(length(fewer) - whole) <= LENGTH_MM else path


def sharpest_rad(path: Path) -> float:
    """The sharpest turn between two bits of a path."""
    ways = [atan2(b[1] - a[1], b[0] - a[0]) for a, b in zip(path, path[1:], strict=False)
            if distance(a, b) > 1e-6]
    turns = [abs((b - a + pi) % (2 * pi) - pi) for a, b in zip(ways, ways[1:], strict=False)]
    return max(turns, default=0.0)


def _ways(path: Path, count: int, step: float) -> list[float]:
    """The direction of each step along the path, without jumps of a whole turn."""
    ways: list[float] = []
    for i in range(count):
        a, b = along(path, i * step), along(path, (i + 1) * step)
        way = atan2(b[1] - a[1], b[0] - a[0])
        if ways:
            way = ways[-1] + (way - ways[-1] + pi) % (2 * pi) - pi
        ways.append(way)
    return ways


def _averaged(ways: Sequence[float], reach: int) -> list[float]:
    """Each direction the mean of those about it; mirrored beyond the ends, so that these stay."""
    first, last, count = ways[0], ways[-1], len(ways)

    def at(i: int) -> float:
        if i < 0:
            return 2 * first - ways[min(-i, count - 1)]
        if i >= count:
            return 2 * last - ways[max(2 * count - 2 - i, 0)]
        return ways[i]

    mean = sum(at(k) for k in range(-reach, reach + 1))
    averaged = []
    for i in range(count):
        averaged.append(mean / (2 * reach + 1))
        mean += at(i + reach + 1) - at(i - reach)
    return averaged


def _walked(start: tuple[float, float], ways: Sequence[float], step: float) -> Path:
    points = [start]
    for way in ways:
        x, y = points[-1]
        points.append((x + step * cos(way), y + step * sin(way)))
    return tuple(points)


def _ended(path: Path, end: tuple[float, float]) -> Path:
    """The path eased over so that it ends where it is to end, its ends' directions kept."""
    off = end[0] - path[-1][0], end[1] - path[-1][1]
    last = len(path) - 1
    shares = [(i / last) ** 2 * (3 - 2 * i / last) for i in range(last + 1)]
    return tuple((x + off[0] * s, y + off[1] * s) for (x, y), s in zip(path, shares, strict=True))


def _as_long(path: Path, wanted_mm: float) -> Path:
    """The path's bow a little fuller or flatter about its chord, until it is as long as wanted."""
    (x0, y0), (x1, y1) = path[0], path[-1]
    chord = hypot(x1 - x0, y1 - y0) or 1.0
    across = -(y1 - y0) / chord, (x1 - x0) / chord

    def bowed(more: float) -> Path:
        return tuple(
            (x + more * off * across[0], y + more * off * across[1]) for x, y in path
            for off in ((x - x0) * across[0] + (y - y0) * across[1],)
        )

    return bowed(solve(lambda more: length(bowed(more)) - wanted_mm, -FULLER, FULLER))
