"""A shirt's yoke: the top of back and front in one piece over the shoulder, without a seam there.

The back's line lies 3/4 in below a quarter of the back length, and 3/8 in of the back below it is
taken out at the armhole (L. I. Baldt, Clothing for Women, 1916, Fig. 45; a quarter of the centre
back also IASRI e-course 29338). How far the yoke comes forward is common practice, no source.
x runs down from the nape, y from the centre to the side.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import atan2, hypot

from stash.draft.bodice import Half
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import (
    Path,
    along,
    back,
    curve,
    distance,
    join,
    length,
    line,
    move,
    parted,
    reflected,
    solve,
    turned,
)
from stash.draft.panel import Cutting, Panel
from stash.model import Part, Point

BELOW_QUARTER_MM, OUT_MM = 19.05, 9.525  # Baldt 1916, Fig. 45: 3/4 in and 3/8 in
FORWARD_MM = 35.0  # common practice, no source
DEEPEST = 0.62  # of the armhole's level: common practice, no source
TRUED_MM, TRUED_SHARE = 15.0, 0.6  # chosen here: how far the armhole may be trued, over what of it


@dataclass(frozen=True)
class Yoke:
    """The yoke's edges from the nape round, and what is left of the back and the front."""

    neck: Path
    forward: Path
    armhole: Path
    lower: Path
    back_top: Path
    back_armhole: Path
    front_neck: Path
    front_top: Path
    front_armhole: Path


def yoke_down_mm(back_waist_mm: float, size: float) -> float:
    """From the nape to the yoke's line at the centre back."""
    return back_waist_mm / 4 + BELOW_QUARTER_MM * size


def draw_yoke(rear: Half, front: Half, down_mm: float, size: float) -> Yoke:
    """Cut back and front at their lines and lay the front's strip on the back's shoulder."""
    lowest = DEEPEST * rear.points["underarm"][0]
    level = max(min(down_mm, lowest), rear.points["shoulder"][0] + 0.2 * lowest)
    over, under = parted(rear.armhole, _reach(rear.armhole, lambda p: p[0] - level))
    below = level + OUT_MM * size
    _, drawn_armhole = parted(rear.armhole, _reach(rear.armhole, lambda p: p[0] - below))
    start = (level, 0.0)
    lower = line(under[0], start)

    def top(out: float) -> Path:
        end = move(drawn_armhole[0], across=out)
        return curve(start, (level, 0.55 * end[1]),
                     (level + 0.6 * (below - level), 0.85 * end[1]), end)

    out = solve(lambda mm: length(top(mm)) - length(lower), -TRUED_MM, TRUED_MM)

    beyond = _beyond(front, FORWARD_MM * size)
    front_neck, neck_strip = parted(front.neck, _reach(front.neck, lambda p: -beyond(p)))
    arm_strip, front_armhole = parted(front.armhole, _reach(front.armhole, beyond))
    onto = _laid_on(front, rear)
    return Yoke(
        neck=join(rear.neck, onto(back(neck_strip))),
        forward=onto(line(neck_strip[0], arm_strip[-1])),
        armhole=join(onto(back(arm_strip)), over), lower=lower, back_top=top(out),
        back_armhole=_trued(drawn_armhole, out), front_neck=front_neck,
        front_top=line(front_neck[-1], front_armhole[0]), front_armhole=front_armhole,
    )


def _trued(armhole: Path, out: float) -> Path:
    """The back's armhole begun so far out that its seam is as long as the yoke's, and run into the
    old line further down.
    """
    whole, done, moved = TRUED_SHARE * length(armhole), 0.0, []
    for i, p in enumerate(armhole):
        done += distance(armhole[i - 1], p) if i else 0.0
        moved.append(move(p, across=out * max(0.0, 1 - done / whole) ** 2))
    return tuple(moved)


def _reach(path: Path, past: Callable[[Point], float]) -> float:
    """How far along a path the rising function ``past`` is nothing."""
    return solve(lambda mm: past(along(path, mm)), 0.0, length(path))


def _beyond(front: Half, mm: float) -> Callable[[Point], float]:
    """How far a point lies below the line ``mm`` below the front's shoulder and along it."""
    (x0, y0), (x1, y1) = front.shoulder[0], front.shoulder[-1]
    whole = hypot(x1 - x0, y1 - y0)
    down, across = (y1 - y0) / whole, -(x1 - x0) / whole
    return lambda p: (p[0] - x0) * down + (p[1] - y0) * across - mm


def _laid_on(front: Half, rear: Half) -> Callable[[Path], Path]:
    """The front turned over its shoulder seam and onto the back's."""
    neck, own, other = front.shoulder[0], front.shoulder[-1], rear.shoulder[-1]
    turn = atan2(own[1] - neck[1], own[0] - neck[0]) - atan2(
        other[1] - neck[1], other[0] - neck[0])

    def laid(path: Path) -> Path:
        return turned([reflected(p, neck, own) for p in path], neck, turn)

    return laid


def yoke_panel(drawn: Yoke, allow: Allowances, shoulder_mm: float) -> Panel:
    """The yoke on the fold, cut twice: one shows, one lines it. ``shoulder_mm`` back from its
    front edge a notch meets the top of the sleeve.
    """
    edges = (
        Edge("neck", drawn.neck, allow.at("neck")), Edge("front", drawn.forward, allow.seam),
        Edge("armhole", drawn.armhole, allow.at("armhole")),
        Edge("back", drawn.lower, allow.seam),
        Edge(FOLD, line(drawn.lower[-1], drawn.neck[0])),
    )
    half_back = 0.5 * length(drawn.lower)
    return Panel(
        name="yoke", edges=edges, on_fold=True, cutting=Cutting(quantity=2, part=Part.YOKE),
        notches=(("front", 0.5 * length(drawn.forward)), ("armhole", shoulder_mm)),
        doubles=(("back", half_back),),
    )
