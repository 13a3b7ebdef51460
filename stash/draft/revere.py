"""The revere front and its collar: an open collar whose front corner turns back.

The collar is sewn from centre front to centre front; beyond it the corner of the
front and its facing folds back as the revere. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise

from stash.draft.bodice import Half, chest_centre, shoulder_part
from stash.draft.cutting_line import FOLD, Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import (
    Path,
    back,
    between,
    crossing,
    curve,
    join,
    length,
    line,
    move,
    shifted,
    solve,
    towards,
)
from stash.draft.panel import Cutting, Panel
from stash.model import Part, Point

# Common practice, no source: the outer edges of the under collar are cut 2 mm smaller, which
# the thickness of the top collar takes when it turns over.
TURN_MM, TURNS = 2.0, ("end", "outer")
ROLL_STAND_MM = 15.0  # the roll line meets the shoulder line this far beyond the neck point


@dataclass(frozen=True, kw_only=True)
class Revere:
    """Overlap from centre front to edge, where the revere breaks below the neck, mm.

    ``out`` is how far its point stands out beyond the edge; ``facing`` the facing's
    width below the break, ``at_shoulder`` its width on the shoulder seam.
    """

    overlap: float
    break_down: float
    out: float
    facing: float
    at_shoulder: float


@dataclass(frozen=True)
class RevereFront:
    """The lines of a front beyond its centre line; ``roll`` is where the revere turns back."""

    notch: Path
    front_edge: Path
    inner: Path
    roll: Path

    @property
    def length_mm(self) -> float:
        """The edge that is faced or bound: hem to the revere's point, and in to the collar."""
        return length(self.front_edge) + length(self.notch)


def draw_revere(front: Half, r: Revere) -> RevereFront:
    """From the centre front out to the revere's point, and down the front edge to the hem."""
    centre, hem = front.points["centre"], front.points["hem"]
    tip = move(centre, down=-0.25 * r.out, across=-(r.overlap + r.out))
    breaks = (centre[0] + r.break_down, -r.overlap)
    edge = curve(
        tip, move(tip, down=0.45 * r.break_down, across=0.15 * r.out),
        move(breaks, down=-0.35 * r.break_down), breaks,
    )
    top = shoulder_part(front, r.at_shoulder)
    low = (breaks[0] + 0.6 * r.break_down, r.facing - r.overlap)
    inner = join(
        line((hem[0], r.facing - r.overlap), low),
        curve(low, move(low, down=-0.9 * r.break_down), move(top, down=0.5 * r.break_down), top),
    )
    return RevereFront(
        roll=_roll(front, breaks),
        notch=line(tip, centre),
        front_edge=join(line((hem[0], -r.overlap), breaks), back(edge)),
        inner=inner,
    )


def _roll(front: Half, breaks: Point) -> Path:
    """From the break up to the neckline, on its way to a place beyond the neck point."""
    aim = towards(front.points["neck"], front.points["shoulder"], -ROLL_STAND_MM)

    def over(p: Point) -> float:
        return ((aim[0] - breaks[0]) * (p[1] - breaks[1])
                - (aim[1] - breaks[1]) * (p[0] - breaks[0]))

    for p, q in pairwise(front.neck):
        if over(p) * over(q) <= 0:
            return line(breaks, crossing(breaks, aim, p, q))
    return line(breaks, aim)


def facing_panel(front: Half, drawn: RevereFront, r: Revere, allow: Allowances) -> Panel:
    """The facing: the front's own edge and neck, so that they meet exactly."""
    top = shoulder_part(front, r.at_shoulder)
    foot = drawn.inner[0]
    edges = (
        Edge("front edge", drawn.front_edge, allow.seam),
        Edge("notch", drawn.notch, allow.at("neck")),
        Edge("neck", front.neck, allow.at("neck")),
        Edge("shoulder", line(front.points["neck"], top), allow.at("shoulder")),
        Edge("inner", back(drawn.inner), 0.0),
        Edge("hem", line(foot, (foot[0], -r.overlap)), allow.hem, turned=allow.hem > 0),
    )
    return Panel(
        name="facing", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.FACING),
        notches=(("notch", length(drawn.notch)),), match=chest_centre(front),
    )


def collar_panel(neck_half_mm: float, depth_mm: float, allow: Allowances) -> Panel:
    """The top collar, one piece on the fold at the centre back.

    Its neck edge is exactly as long as back and front neck together; x runs along
    the centre back, y towards the front.
    """
    centre, *others = _collar_edges(neck_half_mm, depth_mm, allow)
    return Panel(
        name="collar", edges=(replace(centre, name=FOLD, allowance_mm=0.0), *others),
        cutting=Cutting(part=Part.COLLAR), on_fold=True, match=centre.path[-1],
    )


def under_collar_panel(
    neck_half_mm: float, depth_mm: float, allow: Allowances, *, bias: bool = False
) -> Panel:
    """The under collar in two halves, a seam at the centre back; smaller by what the turn takes.

    On the bias it rolls more softly.
    """
    edges = tuple(
        replace(e, allowance_mm=max(0.0, e.allowance_mm - TURN_MM)) if e.name in TURNS else e
        for e in _collar_edges(neck_half_mm, depth_mm, allow)
    )
    cutting = Cutting(
        quantity=2, pair=True, part=Part.COLLAR, grain_turn_deg=45.0 if bias else 0.0
    )
    return Panel(name="under collar", edges=edges, cutting=cutting, match=edges[0].path[-1])


def _collar_edges(neck_half_mm: float, depth_mm: float, allow: Allowances) -> tuple[Edge, ...]:
    """Half the collar's edges, from the centre back round by the neck."""

    def neck(run: float) -> Path:
        low, end = (depth_mm, 0.0), (depth_mm - 0.12 * depth_mm, run)
        return curve(low, move(low, across=0.5 * run), move(end, down=4.0, across=-0.25 * run), end)

    edge = neck(solve(lambda run: length(neck(run)) - neck_half_mm, 1.0, neck_half_mm + 1))
    end = edge[-1]
    point = move(end, down=-0.95 * depth_mm, across=0.32 * depth_mm)
    top = (0.0, 0.0)
    outer = curve(
        point, move(between(point, top, 0.3), down=3.0), move(top, across=0.3 * neck_half_mm), top
    )
    edges = (
        Edge("centre back", line(top, edge[0]), allow.seam),
        Edge("neck", edge, allow.at("neck")),
        Edge("end", line(end, point), allow.seam),
        Edge("outer", outer, allow.seam),
    )
    return _shifted(edges)


def _shifted(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """The same edges moved so that nothing lies above x = 0."""
    up = min(x for e in edges for x, _ in e.path)
    return tuple(Edge(e.name, shifted(e.path, down=-up), e.allowance_mm, e.turned) for e in edges)
