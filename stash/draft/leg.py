"""One trouser leg, front and back, for trousers and shorts of every kind.

The front follows I. Rosenfeld, The Practical Designer (1911), Lesson 82, and for
Misses' Underwear (1918), Lessons 411 and 427; his letters name the points. The back
is laid out on the front about the same crease, as a trousers-drafting course slide
and a US manual (Library of Congress, ark:/13960/t5t73268j) give it: the fork goes
hip/18 beyond the front's, the seat rises 2 1/2 in above the front top.
x runs down from the waist, y from the side across to the inside leg.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.geometry import (
    Path,
    between,
    crossing,
    curve,
    distance,
    join,
    length,
    line,
    move,
    scoop,
    solve,
    towards,
)
from stash.model import Point

HALF_INCH = 12.7  # Rosenfeld 1911 and 1918
# Common practice, no source, where none is named.
SQUARE_MM = 8.0  # a short line squared at the fork, so that both legs' curves join smoothly
FORK_HIGHEST_MM, FORK_LOWEST = -60.0, 0.5  # how far the back fork is trued: mm, share of its leg
LEAST_ROUND = 0.3  # of the way to the corner, what of the seam is at least curved: chosen here
Points = dict[str, Point]


@dataclass(frozen=True, kw_only=True)
class Leg:
    """What a leg is drafted from, mm.

    ``front_fullness`` and ``back_fullness`` are added at the side beyond hip/4, a
    quarter of the garment at a time; ``front_waist`` and ``back_waist`` are the
    quarters' widths at the waist; ``hem_down`` is where the hem lies below the
    waist; ``hem_balance`` is by how much the back hem is wider than the front's at
    each side; ``seat_raise`` how far the centre back stands above the front top;
    ``hip_up`` how far above the crotch line the hip is fullest: there front and back are
    as wide as they say, 0.35 of the rise when it is not known (ANSUR II women: 19.2 cm
    of 26.9 + 2.5 cm lie above it).
    """

    hip: float
    rise: float
    hem_down: float
    hem_girth: float
    front_fullness: float
    back_fullness: float
    front_waist: float
    back_waist: float
    front_fork: float
    seat_raise: float
    hem_balance: float = 20.0  # back 2 cm wider each side (course slide, slideplayer 4101711)
    with_knee: bool = True
    hip_up: float | None = None

    @property
    def hip_level(self) -> float:
        """Where the hip is fullest, below the waist."""
        return self.rise - (0.35 * self.rise if self.hip_up is None else self.hip_up)

    @property
    def half_inch(self) -> float:
        """Rosenfeld's half inch of shaping at the waist, less on a hip under 90 cm."""
        return HALF_INCH * min(1.0, self.hip / 900)


@dataclass(frozen=True)
class LegPanel:
    """The points of one panel and its edges, from the side's waist round the leg."""

    points: Points
    side: Path
    hem: Path
    inside_leg: Path
    crotch: Path
    waist: Path


def front_points(leg: Leg) -> Points:
    """The front's construction, by Rosenfeld's letters.

    A, B, C: side line at waist, crotch line and hem. H: hip/4 across. I: the fork.
    J: the fork's width up the centre front, where the crotch curve starts. R: centre
    front at the waist, X: lowered 1/2 in. Q: the side at the waist, raised 1/2 in
    above P. U: the side at the crotch line with its fullness.
    """
    a = (0.0, 0.0)
    b = move(a, down=leg.rise)
    c = move(a, down=leg.hem_down)
    h = move(b, across=leg.hip / 4)
    i = move(h, across=leg.front_fork)
    j = move(h, down=-leg.front_fork)
    r = (0.0, h[1])
    p = move(r, across=-leg.front_waist)
    u = move(b, across=-leg.front_fullness)
    points = {
        "A": a, "B": b, "C": c, "H": h, "I": i, "J": j, "R": r, "P": p, "U": u,
        "X": move(r, down=leg.half_inch), "Q": move(p, down=-leg.half_inch),
    }
    return points | _leg_line(leg, between(u, i)[1], distance(u, i) / 2, -leg.hem_balance / 2)


def _leg_line(leg: Leg, crease: float, half_crotch: float, wider: float) -> Points:
    """Crease, knee and hem: the knee midway from crotch to hem, raised 2 in.

    The knee keeps 35 % of what the leg narrows from crotch to hem (common practice,
    no source).
    """
    half_hem = leg.hem_girth / 4 + wider
    half_knee = half_hem + 0.35 * (half_crotch - half_hem)
    knee = (leg.rise + leg.hem_down) / 2 - 4 * HALF_INCH
    return {
        "crease": (leg.rise, crease),
        "knee": (knee, crease),
        "knee side": (knee, crease - half_knee),
        "knee inside": (knee, crease + half_knee),
        "hem side": (leg.hem_down, crease - half_hem),
        "hem inside": (leg.hem_down, crease + half_hem),
    }


def draw_front(leg: Leg) -> LegPanel:
    """The front panel's lines."""
    p = front_points(leg)
    inside_leg, crotch = front_fork(leg)
    waist_end = move(p["Q"], across=0.4 * leg.front_waist)
    waist = curve(p["X"], move(p["X"], across=-0.3 * leg.front_waist), waist_end, p["Q"])
    return LegPanel(
        points=p,
        side=_side(leg, p, p["Q"]),
        hem=line(p["hem side"], p["hem inside"]),
        inside_leg=inside_leg,
        crotch=crotch,
        waist=waist,
    )


def front_fork(leg: Leg) -> tuple[Path, Path]:
    """The front's inside leg up to the fork, and its crotch seam from there to the waist."""
    p = front_points(leg)
    inside_leg = _inside(leg, p, p["I"])
    curve_mm = min(HALF_INCH, leg.front_fork / 4)
    curved = _fork_curve(inside_leg, (p["X"], p["J"]), curve_mm)
    return inside_leg, join(curved, line(curved[-1], p["X"]))


def back_points(leg: Leg) -> Points:
    """The back's construction about the front's crease.

    H is the front's corner; K the centre back at the waist, leaning in and raised;
    N the back fork before it is trued.
    """
    front = front_points(leg)
    h = front["H"]
    lean = leg.hip / 32
    k = (-leg.seat_raise + leg.half_inch, h[1] - lean)
    n = move(front["I"], across=leg.hip / 18)
    crease = front["crease"][1]
    points = {"H": h, "K": k, "N": n, "P": (0.0, k[1] - leg.back_waist)}
    half_crotch = distance(front["U"], front["I"]) / 2 + leg.hip / 36
    return points | _leg_line(leg, crease, half_crotch, leg.hem_balance / 2)


def draw_back(leg: Leg, front: LegPanel) -> LegPanel:
    """The back panel's lines, side and inside leg trued to the front's lengths.

    The side lies so that the back is as wide at the hip's level as it is to be: what the
    leaning seat seam takes there is given back.
    """
    p = back_points(leg)
    wanted_side = length(front.side)
    inside_leg = back_inside(leg, length(front.inside_leg))
    crotch = back_crotch(leg, inside_leg)
    at_hip = _across_at(crotch, leg.hip_level) - leg.hip / 4 - leg.back_fullness
    p |= {"fork": inside_leg[-1], "U": (leg.rise, at_hip)}

    def side(raised: float) -> Path:
        return _side(leg, p, move(p["P"], down=-raised))

    raised = solve(lambda r: length(side(r)) - wanted_side, -60.0, 80.0)
    top = p["Q"] = move(p["P"], down=-raised)
    waist = curve(
        p["K"],
        move(between(p["K"], top, 0.3), down=2.0),
        move(top, across=0.35 * leg.back_waist),
        top,
    )
    return LegPanel(
        points=p, side=side(raised), hem=line(p["hem side"], p["hem inside"]),
        inside_leg=inside_leg, crotch=crotch, waist=waist,
    )


def back_inside(leg: Leg, wanted_mm: float) -> Path:
    """The back's inside leg, its fork lowered until it is as long as the front's."""
    p = back_points(leg)

    def inside(drop: float) -> Path:
        return _inside(leg, p, move(p["N"], down=drop))

    below = p["knee inside"] if leg.with_knee else p["hem inside"]
    lowest = FORK_LOWEST * (below[0] - p["N"][0])
    drop = solve(lambda d: wanted_mm - length(inside(d)), FORK_HIGHEST_MM, lowest)
    return inside(drop)


def back_crotch(leg: Leg, inside_leg: Path) -> Path:
    """From the fork through its curve to the leaning seat seam, up to the waist."""
    p = back_points(leg)
    fork, h, k = inside_leg[-1], p["H"], p["K"]
    start = between(h, k, 0.95 * (fork[1] - h[1]) / distance(h, k))
    curved = _fork_curve(inside_leg, (k, start))
    return join(curved, line(curved[-1], k))


def _fork_curve(inside_leg: Path, seam: Path, pull_mm: float | None = None) -> Path:
    """The crotch curve from the fork to the lower end of a straight ``seam``, or to where the
    corner leaves room for one: on very short legs the fork lies high and slants.

    It leaves the fork square to the inside leg, so that the curve runs on through the
    other leg without a corner, and is pulled ``pull_mm`` into the corner from its chord,
    else by 0.36 of what can be (common practice, no source).
    """
    fork, (top, end) = inside_leg[-1], seam
    down, across = towards(fork, inside_leg[-2], 1.0)
    square = (fork[0] + across - fork[1], fork[1] - (down - fork[0]))
    first = towards(fork, square, SQUARE_MM)
    corner = crossing(fork, square, top, end)
    room = min(distance(first, corner), distance(top, corner)) * LEAST_ROUND
    if distance(top, end) > distance(top, corner) - room:
        end = towards(corner, top, room)
    reach = distance(between(first, end), corner)
    return join((fork,), scoop(first, corner, end, pull_mm=pull_mm or 0.36 * reach))


def _across_at(path: Path, down: float) -> float:
    """How far across a path that runs up passes a level; its end when it ends below."""
    for (x0, y0), (x1, y1) in zip(path, path[1:], strict=False):
        if min(x0, x1) <= down <= max(x0, x1) and x0 != x1:
            return y0 + (y1 - y0) * (down - x0) / (x1 - x0)
    return path[-1][1]


def _side(leg: Leg, p: Points, top: Point) -> Path:
    """From the waist over the hip, easing into the knee and straight to the hem."""
    u = p["U"]
    end = p["knee side"] if leg.with_knee else p["hem side"]
    hip = (leg.hip_level, u[1])
    over_hip = curve(top, between(top, hip, 0.5), move(hip, down=-0.3 * hip[0]), hip)
    fall = end[0] - hip[0]
    straight = between(end, p["hem side"], -0.35 * fall / max(1.0, p["hem side"][0] - end[0]))
    pull = straight if leg.with_knee else between(end, u, 0.5)
    to_leg = curve(hip, move(hip, down=0.45 * fall), pull, end)
    return join(over_hip, to_leg, line(end, p["hem side"]) if leg.with_knee else (end,))


def _inside(leg: Leg, p: Points, fork: Point) -> Path:
    """From the hem straight to the knee, then hollowed up to the fork."""
    hem = p["hem inside"]
    if not leg.with_knee:
        return line(hem, fork)
    knee = p["knee inside"]
    run = knee[0] - fork[0]
    up = between(knee, hem, -0.45 * run / max(1.0, hem[0] - knee[0]))
    hollow = between(fork, knee, 0.35)
    return join(line(hem, knee), curve(knee, up, move(hollow, across=-0.02 * run), fork))
