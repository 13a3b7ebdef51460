"""Half-planes beside a no-fit region: straight bounds on a move that keep two pieces apart.

Free space beside a region is seldom convex, but round any point of it lies a convex part,
bounded by a few of the region's own edges. While both pieces move within that part nothing
overlaps, and "within" is a linear condition.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from stash.lay.compiled import kernel, woven

if TYPE_CHECKING:
    from stash.lay.nofit.depth import Charts

HAIR_MM = 1e-6  # a point this near to an edge lies on it
TIE_MM2 = 1e-9  # of edges equally near, the one the point lies farthest before is taken
BEYOND_MM = 1e-7  # what reaches no farther into a half-plane is outside it


@kernel
def halfplanes(
    charts: Charts, region: int, x: float, y: float, reach: float, planes: np.ndarray
) -> int:
    """How many half-planes (nx, ny, c), n . p >= c, were put into ``planes`` (most, 3).

    Nothing of the region lies in their common part, as far as ``reach`` from the point; 0
    when the whole region is farther. From inside the region they bound the free part at
    the nearest way out.
    """
    edge, at_x, at_y, squared, inside = _nearest_edge(charts, region, x, y)
    if not inside and squared > reach * reach:
        return 0
    count = 0
    if inside:
        x, y = at_x, at_y
        _along(charts, region, edge, planes[0])
        count = 1
    while count < len(planes):
        edge, at_x, at_y, squared, before = _nearest_left(
            charts, region, x, y, reach, planes[:count]
        )
        if edge < 0 or squared > 2 * reach * reach:
            break
        if before >= -HAIR_MM:
            _along(charts, region, edge, planes[count])
        elif squared > HAIR_MM * HAIR_MM:  # the back of an edge: keep to this side of it
            away = np.sqrt(squared)
            planes[count, 0], planes[count, 1] = (x - at_x) / away, (y - at_y) / away
            planes[count, 2] = planes[count, 0] * at_x + planes[count, 1] * at_y
        else:
            break
        count += 1
    return count


@woven
def _along(charts: Charts, region: int, edge: int, plane: np.ndarray) -> None:
    """The half-plane that begins at an edge, on its outer side."""
    edges = charts.edges
    gx, gy = edges[edge, 2] - edges[edge, 0], edges[edge, 3] - edges[edge, 1]
    turned = charts.inner_left[region] / np.sqrt(gx * gx + gy * gy)
    plane[0], plane[1] = gy * turned, -gx * turned
    plane[2] = plane[0] * edges[edge, 0] + plane[1] * edges[edge, 1]


@woven
def _nearest_edge(
    charts: Charts, region: int, x: float, y: float
) -> tuple[int, float, float, float, bool]:
    """(edge, nearest point of it, squared distance, whether (x, y) is inside the region)."""
    edges = charts.edges
    inside = False
    best, edge, at_x, at_y = 1e300, -1, x, y
    for e in range(charts.first[region], charts.first[region + 1]):
        ax, ay, bx, by = edges[e, 0], edges[e, 1], edges[e, 2], edges[e, 3]
        if (ay > y) != (by > y) and ax + (y - ay) / (by - ay) * (bx - ax) > x:
            inside = not inside
        px, py = _on_edge(edges, e, x, y, 0.0, 1.0)
        squared = (px - x) ** 2 + (py - y) ** 2
        if squared < best:
            best, edge, at_x, at_y = squared, e, px, py
    return edge, at_x, at_y, best, inside


@woven
def _nearest_left(
    charts: Charts, region: int, x: float, y: float, reach: float, planes: np.ndarray
) -> tuple[int, float, float, float, float]:
    """(edge, point, squared distance, how far before it (x, y) lies) of the nearest edge
    with a part that the half-planes have not shut out; edge -1 when none is left."""
    edges = charts.edges
    best, edge, at_x, at_y, farthest = 1e300, -1, x, y, -1e300
    for e in range(charts.first[region], charts.first[region + 1]):
        ax, ay, bx, by = edges[e, 0], edges[e, 1], edges[e, 2], edges[e, 3]
        if max(ax, bx) < x - reach or min(ax, bx) > x + reach:
            continue
        if max(ay, by) < y - reach or min(ay, by) > y + reach:
            continue
        from_share, to_share = _clipped(edges, e, planes)
        if from_share > to_share:
            continue
        px, py = _on_edge(edges, e, x, y, from_share, to_share)
        squared = (px - x) ** 2 + (py - y) ** 2
        if squared > best + TIE_MM2:
            continue
        gx, gy = bx - ax, by - ay
        before = charts.inner_left[region] * ((x - ax) * gy - (y - ay) * gx)
        before /= np.sqrt(gx * gx + gy * gy)
        if squared < best - TIE_MM2 or before > farthest:
            best, edge, at_x, at_y, farthest = squared, e, px, py, before
    return edge, at_x, at_y, best, farthest


@woven
def _on_edge(
    edges: np.ndarray, e: int, x: float, y: float, from_share: float, to_share: float
) -> tuple[float, float]:
    """The point of a part of an edge that is nearest to (x, y)."""
    gx, gy = edges[e, 2] - edges[e, 0], edges[e, 3] - edges[e, 1]
    share = ((x - edges[e, 0]) * gx + (y - edges[e, 1]) * gy) * edges[e, 4]
    share = min(to_share, max(from_share, share))
    return edges[e, 0] + share * gx, edges[e, 1] + share * gy


@woven
def _clipped(edges: np.ndarray, e: int, planes: np.ndarray) -> tuple[float, float]:
    """(from, to): the share of an edge that lies in every half-plane, from > to for none."""
    from_share, to_share = 0.0, 1.0
    for h in range(len(planes)):
        a = planes[h, 0] * edges[e, 0] + planes[h, 1] * edges[e, 1] - planes[h, 2] - BEYOND_MM
        b = planes[h, 0] * edges[e, 2] + planes[h, 1] * edges[e, 3] - planes[h, 2] - BEYOND_MM
        if a <= 0 and b <= 0:
            return 1.0, 0.0
        if a < 0:
            from_share = max(from_share, a / (a - b))
        elif b < 0:
            to_share = min(to_share, a / (a - b))
    return from_share, to_share
