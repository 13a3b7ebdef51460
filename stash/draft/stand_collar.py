"""A shirt's collar in two pieces: a stand that is sewn to the neck, and a fall sewn to the stand.

Heights are common practice, no source: the stand 3 cm behind and 2.5 in front, its front raised
1 to 1.5 cm over the front third and carried on past the centre by half the band; the fall at least
1 cm deeper than the stand, its neck edge raised 0.5 cm behind, 6.5 to 7.5 cm at the point, set from
centre to centre. (A published stand of 1918 raises both ends 1 in: I. Rosenfeld, L53 p.130.)
x runs along the centre back, y towards the front.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from stash.draft.cutting_line import FOLD, Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import (
    Path,
    back,
    between,
    curve,
    join,
    length,
    line,
    move,
    shifted,
    solve,
)
from stash.draft.panel import Cutting, Panel
from stash.model import Mark, MarkKind, Part, Point
from stash.notions.buttons import buttonhole_mm

# Common practice, no source.
BACK_MM, FRONT_MM, RAISED_MM = 32.0, 27.0, 13.0
FALL_MM, FALL_RAISED_MM, POINT_MM, SPREAD_MM = 45.0, 5.0, 68.0, 16.0
HOLE_BEYOND_MM = 3.0


@dataclass(frozen=True)
class CollarStand:
    """The stand's lines; ``centre`` is the centre front on its neck edge, ``along`` the way on."""

    neck: Path
    upper: Path
    end: Path
    centre: Point
    along: Point


def draw_stand(neck_mm: float, beyond_mm: float, size: float) -> CollarStand:
    """Half a stand: ``neck_mm`` from the centre back to the centre front, and on by the overlap."""
    high, low, raised = BACK_MM * size, FRONT_MM * size, RAISED_MM * size

    def neck(run: float) -> Path:
        end = (high - raised, run)
        pull = move(end, down=0.42 * raised, across=-0.22 * run)
        return curve((high, 0.0), (high, 0.5 * run), pull, end)

    line_up = neck(solve(lambda run: length(neck(run)) - neck_mm, 0.5 * neck_mm, neck_mm + 1))
    centre = line_up[-1]
    step = _unit(line_up[-2], centre)
    up = (-step[1], step[0])
    top, tip = move(centre, low * up[0], low * up[1]), move(
        centre, beyond_mm * step[0], beyond_mm * step[1])
    upper = curve(
        (0.0, 0.0), (0.0, 0.5 * centre[1]),
        move(top, -0.22 * centre[1] * step[0], -0.22 * centre[1] * step[1]), top,
    )
    end = curve(
        top, move(top, 0.9 * beyond_mm * step[0], 0.9 * beyond_mm * step[1]),
        move(tip, 0.65 * low * up[0], 0.65 * low * up[1]), tip,
    )
    return CollarStand(join(line_up, (centre, tip)), upper, end, centre, step)


def _unit(a: Point, b: Point) -> Point:
    whole = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return (b[0] - a[0]) / whole, (b[1] - a[1]) / whole


def stand_panel(
    drawn: CollarStand, allow: Allowances, button_mm: float, shoulder_mm: float
) -> Panel:
    """The stand on the fold, cut twice; a button at one end and a hole at the other.

    ``shoulder_mm`` is half the back of the neck: there a notch.
    """
    edges = (
        Edge("upper", drawn.upper, allow.seam), Edge("end", drawn.end, allow.seam),
        Edge("neck", back(drawn.neck), allow.at("neck")),
        Edge(FOLD, line(drawn.neck[0], drawn.upper[0])),
    )
    whole, beyond = length(drawn.neck), length((drawn.centre, drawn.neck[-1]))
    middle = between(drawn.centre, drawn.upper[-1])
    step, long = drawn.along, buttonhole_mm(button_mm)
    hole = tuple(
        move(middle, mm * step[0], mm * step[1]) for mm in (HOLE_BEYOND_MM, HOLE_BEYOND_MM - long)
    )
    return Panel(
        name="collar stand", edges=edges, on_fold=True,
        cutting=Cutting(quantity=2, part=Part.COLLAR_STAND),
        notches=(("neck", beyond), ("neck", whole - shoulder_mm), ("upper", length(drawn.upper))),
        one_side=(
            Mark(MarkKind.BUTTON, ((middle[0], -middle[1]),)), Mark(MarkKind.BUTTONHOLE, hole),
        ),
    )


def fall_panel(upper_mm: float, allow: Allowances, size: float) -> Panel:
    """The fall on the fold, cut twice; its neck edge is as long as the stand's upper edge."""
    deep, raised = FALL_MM * size, FALL_RAISED_MM * size

    def neck(run: float) -> Path:
        end = (deep + raised, run)
        return curve((deep, 0.0), (deep, 0.45 * run), move(end, across=-0.3 * run), end)

    edge = neck(solve(lambda run: length(neck(run)) - upper_mm, 0.5 * upper_mm, upper_mm + 1))
    end, spread = edge[-1], SPREAD_MM * size
    point = move(end, down=-(((POINT_MM * size) ** 2 - spread**2) ** 0.5), across=spread)
    outer = curve((0.0, 0.0), (0.0, 0.4 * end[1]), between(point, (0.0, 0.0), 0.3), point)
    edges = _upright((
        Edge("outer", outer, allow.seam), Edge("end", line(point, end), allow.seam),
        Edge("neck", back(edge), allow.seam), Edge(FOLD, line(edge[0], (0.0, 0.0))),
    ))
    return Panel(
        name="collar", edges=edges, on_fold=True, cutting=Cutting(quantity=2, part=Part.COLLAR),
    )


def _upright(edges: tuple[Edge, ...]) -> tuple[Edge, ...]:
    """The same edges moved so that nothing lies above x = 0."""
    up = min(x for e in edges for x, _ in e.path)
    return tuple(Edge(e.name, shifted(e.path, down=-up), e.allowance_mm) for e in edges)
