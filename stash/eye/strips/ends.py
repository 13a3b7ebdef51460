"""A strip followed to where it truly ends.

What stands out from the floor ends too soon where a strip crosses the joint of a board, and too
late where the joint or the grain runs on from its end. So a strip is followed by its two edges,
as far as they lie its width apart, and ends where its own colour does, seen along its axis.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.find_sheets import Array
from stash.eye.strips.across import PROFILE_MM, Sight, edges_across, normals

STEP_MM = 2.0
GAP_MM = 8.0  # a joint hides the edges for so long
BACK_MM = 24.0  # by which chance may have led the line on past an end
LIKE_MM, LIKE_SHARE = 0.4, 0.06  # by which a width may differ
BEND_MM = 24.0  # over which the direction at an end is taken
TERMS = 9
BESIDE = 0.3  # of a width, to both sides of the middle line
LEVEL_MM = (1.2, 4.0)  # from the edge, where the strip and the floor are their own colour
LOST_MM = 1.6  # a thread's shadow on a strip is thinner than that
OWN_SHARE = (0.6, 1.5)  # of the strip's usual step in light from the floor beside it
FLOOR_MM = np.arange(1.5, 4.1, 0.5)  # from an edge, where the floor beside a strip is seen
DARK = 6.0  # added to a level before its logarithm, for the noise in black
HELD = 0.7  # of the line, where edges and light are a strip's
UNEVEN = 0.25  # of that step: what grows in wood changes more from place to place


@dataclass(frozen=True)
class Followed:
    """The middle line as far as both edges were seen, its widths, and what lies beyond in mm.

    ``tips`` (2, 2) are its two ends on the floor; ``ended`` is false where one of them was not
    seen: the strip lies on something of its own colour. ``even`` is false where its step in light
    from the floor changes as the grain of wood does.
    """

    line: Array
    widths: Array
    beyond_mm: float
    tips: Array
    ended: bool
    even: bool


def followed(sight: Sight, line: Array, width_mm: float) -> Followed | None:
    """The strip from end to end; None where its edges hold together nowhere."""
    spots, widths = _centred(sight, line, width_mm)
    if len(spots) < 4:
        return None
    steps = _steps(sight, spots, normals(spots), width_mm)
    usual = np.median(steps, axis=0)
    shares = steps @ usual / max(float(usual @ usual), 1e-6)
    own = _own(shares)
    if own.sum() < 4:
        return None
    spots, widths = spots[own], widths[own]
    for _ in range(2):
        spots, widths = _onward(sight, spots, widths, (width_mm, usual))
        spots, widths = spots[::-1], widths[::-1]
    smooth = smoothed(spots)
    parts = smooth, smooth[::-1]
    past = [_end(sight, part, width_mm, usual) for part in parts]
    tips = [part[0] + (far or 0.0) * _direction(part[::-1])
            for part, far in zip(parts, past, strict=True)]
    even = np.percentile(np.abs(shares - 1), 75) < UNEVEN and own.sum() > HELD * len(line)
    return Followed(smooth, widths, sum(far or 0.0 for far in past), np.array(tips),
                    None not in past, bool(even))


def run(line: Array) -> float:
    """How long a line is."""
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def smoothed(line: Array) -> Array:
    """The line rid of its jitter."""
    t = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    t = 2 * t / max(t[-1], 1e-9) - 1
    terms = np.polynomial.chebyshev.chebvander(t, min(TERMS, max(1, len(line) // 5)))
    return terms @ np.linalg.lstsq(terms, line, rcond=None)[0]


def _alike(widths: Array, width_mm: float) -> NDArray[np.bool_]:
    return np.abs(widths - width_mm) < LIKE_MM + LIKE_SHARE * width_mm


def _centred(sight: Sight, line: Array, width_mm: float) -> tuple[Array, Array]:
    """Places half way between the two edges, where these are the width apart."""
    across = normals(line)
    edges = edges_across(sight, line, across, width_mm / 2)
    widths = edges.sum(axis=1)
    good = np.isfinite(widths) & _alike(np.nan_to_num(widths), width_mm)
    middle = line + np.nan_to_num((edges[:, 0] - edges[:, 1]) / 2)[:, None] * across
    return middle[good], widths[good]


def _steps(sight: Sight, spots: Array, across: Array, width_mm: float) -> Array:
    """(n, 3): the logarithm of light on the strip less that of the floor beside it, by channel."""
    inner = np.linspace(-BESIDE, BESIDE, 5) * width_mm
    outer = np.concatenate([-width_mm / 2 - FLOOR_MM, width_mm / 2 + FLOOR_MM])
    on, off = (
        np.median(np.log(sight.colours(spots[:, None] + part[:, None] * across[:, None]) + DARK),
                  axis=1)
        for part in (inner, outer))
    return on - off


def _own(shares: Array) -> NDArray[np.bool_]:
    return (shares > OWN_SHARE[0]) & (shares < OWN_SHARE[1])


def _direction(line: Array) -> Array:
    """Whither the line goes on at its last point: the tangent of a parabola through its end."""
    near = line[np.hypot(*(line - line[-1]).T) < BEND_MM]
    near = near if len(near) >= 4 else line[-4:]
    along = np.hypot(*(near - near[-1]).T)
    terms = np.polynomial.polynomial.polyvander(along, 1)
    back = np.linalg.lstsq(terms, near, rcond=None)[0][1]
    return -back / max(float(np.hypot(*back)), 1e-9)


def _onward(
    sight: Sight, line: Array, widths: Array, strip: tuple[float, Array]
) -> tuple[Array, Array]:
    """The line prolonged past its last point while its edges and its own light go on.

    ``strip`` is its width and its usual step in light.
    """
    width_mm, usual = strip
    spots, wide = list(line), list(widths)
    gap = STEP_MM
    while gap <= GAP_MM:
        ahead = _direction(np.array(spots))
        spot = spots[-1] + gap * ahead
        across = np.array([[-ahead[1], ahead[0]]])
        left, right = edges_across(sight, spot[None], across, width_mm / 2)[0]
        share = _steps(sight, spot[None], across, width_mm) @ usual / float(usual @ usual)
        if _alike(left + right, width_mm) and abs(left - right) < width_mm and _own(share)[0]:
            spots.append(spot + (left - right) / 2 * across[0])
            wide.append(left + right)
            gap = STEP_MM
        else:
            gap += STEP_MM
    return np.array(spots), np.array(wide)


def _end(sight: Sight, line: Array, width_mm: float, usual: Array) -> float | None:
    """How far past the first point of the line the strip's own colour gives way to the floor's.

    None where it does not: what lies beyond is as light or as dark as the strip. The floor's
    is first taken from beside the strip: a sheet may lie just beyond its end.
    """
    ahead = _direction(line[::-1])
    side = np.array([-ahead[1], ahead[0]])
    reach = np.arange(-BACK_MM, GAP_MM + 2 * LEVEL_MM[1], PROFILE_MM)
    rows = line[0] + np.linspace(-BESIDE, BESIDE, 9)[:, None] * width_mm * side
    colour = np.median(sight.colours(rows[:, None] + reach[:, None] * ahead), axis=0)
    away = np.hypot(*(line - line[0]).T)
    inner = line[(away > BACK_MM) & (away < 3 * BACK_MM)]
    own = np.median(sight.colours(inner if len(inner) else line[len(line) // 2 :]), axis=0)
    floor = (own + DARK) * np.exp(-usual) - DARK
    rough = _first_below(_share(colour, own, floor), reach)
    if rough is None:
        return None
    if not reach[0] + LEVEL_MM[1] < rough < reach[-1] - LEVEL_MM[1]:
        return rough
    near = np.abs(reach - rough)
    level = (near > LEVEL_MM[0]) & (near < LEVEL_MM[1])
    inside, outside = (np.median(colour[level & part], axis=0)
                       for part in (reach < rough, reach > rough))
    share = _share(colour, inside, outside)
    down = np.nonzero((share[:-1] >= 0.5) & (share[1:] < 0.5) & (near[:-1] < LEVEL_MM[0]))[0]
    if not len(down):
        return float(rough)
    at = down[np.abs(reach[down] - rough).argmin()]
    return float(reach[at] + PROFILE_MM * (share[at] - 0.5) / (share[at] - share[at + 1]))


def _share(colour: Array, inside: Array, outside: Array) -> Array:
    """From 0 (the floor's colour) to 1 (the strip's)."""
    step = inside - outside
    return (colour - outside) @ step / max(float(step @ step), 1e-6)


def _first_below(share: Array, reach: Array) -> float | None:
    """Where the share falls under a half and stays there."""
    below = share < 0.5
    stays = round(LOST_MM / PROFILE_MM)
    lasting = np.convolve(below, np.ones(stays), "valid") == stays
    return float(reach[int(lasting.argmax())]) if lasting.any() else None
