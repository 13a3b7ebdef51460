"""The outline of convex rings united.

A side of one ring is on the outline where no other ring covers it. Corners are whole
numbers, so that on which side of a line one lies is never a matter of rounding, and
rings that touch along a line are seen to. Only the crossings of sides are rounded, and
they are joined at the end.
"""

from __future__ import annotations

import numpy as np

from stash.lay.compiled import inner

MOST_UNITS = 2**30  # extent of all rings together: with more, products would not be exact
SHORT, JOINT = 1 / 32, 1 / 8  # units: sides shorter are left out; ends so near are one
SLIVER = 2**22  # square units (0.001 mm2): holes smaller than this are filled


@inner
def united(corners: np.ndarray, first: np.ndarray, seam: np.ndarray) -> tuple[bool, np.ndarray]:
    """(closed, sides (n, 4)) round the union of strictly convex counter-clockwise rings.

    corners (n, 2) int64; ``first`` (rings + 1) where each ring begins; the side that begins
    at a corner with ``seam`` is known to be inside. The inside is to the left of the sides
    returned. Not closed: the rings reach too far, the outline has too many sides, or
    one of them found no neighbour, so it must be sought another way.
    """
    boxes = _boxes(corners, first)
    if _extent(boxes) > MOST_UNITS:
        return False, np.empty((0, 4))
    order = np.arange(len(first) - 1)
    sides = np.empty((2 * len(corners) + 16, 4))
    spans = np.empty((len(first) + 1, 2))
    used = 0
    for i in range(len(first) - 1):
        for k in range(first[i], first[i + 1]):
            if seam[k]:
                continue
            end = k + 1 if k + 1 < first[i + 1] else first[i]
            ax, ay, bx, by = corners[k, 0], corners[k, 1], corners[end, 0], corners[end, 1]
            count = _uncovered(corners, first, boxes, order, i, (ax, ay, bx, by), spans)
            if used + count > len(sides):
                return False, sides
            for m in range(count):
                used = _add(sides, used, (ax, ay, bx, by), spans[m, 0], spans[m, 1])
    return _rings(sides[:used])


@inner
def _boxes(corners: np.ndarray, first: np.ndarray) -> np.ndarray:
    """Left, low, right and high of every ring."""
    boxes = np.empty((len(first) - 1, 4), np.int64)
    for i in range(len(first) - 1):
        for axis in range(2):
            least = most = corners[first[i], axis]
            for k in range(first[i], first[i + 1]):
                least, most = min(least, corners[k, axis]), max(most, corners[k, axis])
            boxes[i, axis], boxes[i, axis + 2] = least, most
    return boxes


@inner
def _extent(boxes: np.ndarray) -> int:
    """How far all boxes together reach along the axis where they reach farther."""
    most = 0
    for axis in range(2):
        low, high = boxes[0, axis], boxes[0, axis + 2]
        for i in range(1, len(boxes)):
            low, high = min(low, boxes[i, axis]), max(high, boxes[i, axis + 2])
        most = max(most, high - low)
    return most


@inner
def _uncovered(
    corners: np.ndarray, first: np.ndarray, boxes: np.ndarray, order: np.ndarray, i: int, side:
    tuple[int, int, int, int], spans: np.ndarray,
) -> int:
    """List in ``spans`` the shares of a side of ring i that no other ring covers; how many.

    A ring that covered all that was left comes first in ``order`` from then on.
    """
    ax, ay, bx, by = side
    spans[0, 0], spans[0, 1] = 0.0, 1.0
    count = 1
    for place in range(len(order)):
        j = order[place]
        if j == i or boxes[j, 0] > max(ax, bx) or boxes[j, 2] < min(ax, bx):
            continue
        if boxes[j, 1] > max(ay, by) or boxes[j, 3] < min(ay, by):
            continue
        begin, end = _covered(corners, first[j], first[j + 1], side, j < i)
        if begin < end:
            count = _without(spans, count, begin, end)
            if count == 0:
                order[0], order[place] = j, order[0]
                break
    return count


@inner
def _covered(
    corners: np.ndarray, start: int, stop: int, side: tuple[int, int, int, int], ours: bool
) -> tuple[float, float]:
    """(begin, end): the share of a side inside a convex ring, 0 and 0 when there is none.

    Where the side lies along one of the ring's, back to back, the seam between them is
    covered; where both face the same way only one of the two may stay, so it is covered
    when ``ours`` says that the ring's is the one.
    """
    ax, ay, bx, by = side
    begin, end = 0.0, 1.0
    for k in range(start, stop):
        after = k + 1 if k + 1 < stop else start
        cx, cy = corners[k, 0], corners[k, 1]
        ex, ey = corners[after, 0] - cx, corners[after, 1] - cy
        from_a, from_b = ex * (ay - cy) - ey * (ax - cx), ex * (by - cy) - ey * (bx - cx)
        if from_a <= 0 and from_b <= 0:
            if from_a < 0 or from_b < 0:
                return 0.0, 0.0
            dx, dy = bx - ax, by - ay
            if ex * dx + ey * dy > 0 and not ours:
                return 0.0, 0.0
            squared = dx * dx + dy * dy
            u = ((cx - ax) * dx + (cy - ay) * dy) / squared
            v = u + (ex * dx + ey * dy) / squared
            return max(0.0, min(u, v)), min(1.0, max(u, v))
        if from_a <= 0:
            begin = max(begin, from_a / (from_a - from_b))
        elif from_b <= 0:
            end = min(end, from_a / (from_a - from_b))
        if begin >= end:
            return 0.0, 0.0
    return begin, end


@inner
def _without(spans: np.ndarray, count: int, begin: float, end: float) -> int:
    """Take begin..end out of the first ``count`` spans; how many are left."""
    for k in range(count):
        low, high = spans[k, 0], spans[k, 1]
        if low < begin and end < high:
            spans[k, 1] = begin
            spans[count, 0], spans[count, 1] = end, high
            return count + 1
        if low < begin < high:
            spans[k, 1] = begin
        elif low < end < high:
            spans[k, 0] = end
        elif begin <= low and high <= end:
            spans[k, 1] = low
    left = 0
    for k in range(count):
        if spans[k, 0] < spans[k, 1]:
            spans[left, 0], spans[left, 1] = spans[k, 0], spans[k, 1]
            left += 1
    return left


@inner
def _add(
    sides: np.ndarray, used: int, side: tuple[int, int, int, int], begin: float, end: float
) -> int:
    """Append a share of a side unless it is too short to matter; how many there are then."""
    ax, ay, bx, by = side
    dx, dy = bx - ax, by - ay
    if np.hypot(float(dx), float(dy)) * (end - begin) < SHORT:
        return used
    sides[used, 0], sides[used, 1] = ax + begin * dx, ay + begin * dy
    sides[used, 2], sides[used, 3] = ax + end * dx, ay + end * dy
    return used + 1


@inner
def _rings(sides: np.ndarray) -> tuple[bool, np.ndarray]:
    """(closed, sides): every side made to end exactly where the next begins, slivers left out."""
    n = len(sides)
    follower, taken = np.full(n, -1, np.int64), np.zeros(n, np.bool_)
    for k in range(n):
        nearest = JOINT**2
        for m in range(n):
            squared = (sides[m, 0] - sides[k, 2]) ** 2 + (sides[m, 1] - sides[k, 3]) ** 2
            if squared < nearest and m != k and not taken[m]:
                nearest = squared
                follower[k] = m
        m = follower[k]
        if m < 0:
            return False, sides
        taken[m] = True
        sides[k, 2], sides[k, 3] = sides[m, 0], sides[m, 1]
    kept = np.zeros(n, np.bool_)
    for k in range(n):
        if taken[k]:
            twice = 0.0
            m = k
            while taken[m]:
                taken[m] = False
                twice += (sides[m, 0] - sides[k, 0]) * (sides[m, 3] - sides[k, 1])
                twice -= (sides[m, 2] - sides[k, 0]) * (sides[m, 1] - sides[k, 1])
                m = follower[m]
            if abs(twice) > 2 * SLIVER:
                while not kept[m]:
                    kept[m] = True
                    m = follower[m]
    return True, sides[kept]
