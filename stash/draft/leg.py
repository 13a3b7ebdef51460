"""One trouser leg, front and back, for trousers and shorts of every kind.

The front follows I. Rosenfeld, The Practical Designer (1911), Lesson 82, and for
Misses' Underwear (1918), Lessons 411 and 427; his letters name the points. The back
is laid out on the front about the same crease, as a trousers-drafting course slide
and a US manual (Library of Congress, ark:/13960/t5t73268j) give it: the fork goes
hip/18 beyond the front's, the seat rises 2 1/2 in above the front top.
x runs down from the waist, y from the side across to the inside leg.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.geometry import (
    Path,
    between,
    curve,
    distance,
    join,
    length,
    line,
    move,
    scoop,
    solve,
)
from stash.model import Point

HALF_INCH = 12.7
Points = dict[str, Point]


@dataclass(frozen=True, kw_only=True)
class Leg:
    """What a leg is drafted from, mm.

    ``front_fullness`` and ``back_fullness`` are added at the side beyond hip/4, a
    quarter of the garment at a time; ``front_waist`` and ``back_waist`` are the
    quarters' widths at the waist; ``hem_down`` is where the hem lies below the
    waist; ``hem_balance`` is by how much the back hem is wider than the front's at
    each side; ``seat_raise`` how far the centre back stands above the front top.
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
    hem_balance: float = 20.0
    with_knee: bool = True

    @property
    def half_inch(self) -> float:
        """Rosenfeld's half inch of shaping at the waist, less on a hip under 90 cm."""
        return HALF_INCH * min(1.0, self.hip / 900)


@dataclass(frozen=True)
class Drawn:
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


def draw_front(leg: Leg) -> Drawn:
    """The front panel's lines."""
    p = front_points(leg)
    crotch = join(
        scoop(p["I"], p["H"], p["J"], pull_mm=min(HALF_INCH, leg.front_fork / 4)),
        line(p["J"], p["X"]),
    )
    waist_end = move(p["Q"], across=0.4 * leg.front_waist)
    waist = curve(p["X"], move(p["X"], across=-0.3 * leg.front_waist), waist_end, p["Q"])
    return Drawn(
        points=p,
        side=_side(leg, p, p["Q"]),
        hem=line(p["hem side"], p["hem inside"]),
        inside_leg=_inside(leg, p, p["I"]),
        crotch=crotch,
        waist=waist,
    )


def back_points(leg: Leg) -> Points:
    """The back's construction about the front's crease.

    H is the front's corner; K the centre back at the waist, leaning in and raised;
    N the back fork before it is trued; U the side at the crotch line.
    """
    front = front_points(leg)
    h = front["H"]
    lean = leg.hip / 32
    k = (-leg.seat_raise + leg.half_inch, h[1] - lean)
    n = move(front["I"], across=leg.hip / 18)
    u = move(h, across=-(leg.hip / 4 + leg.back_fullness))
    crease = front["crease"][1]
    points = {"H": h, "K": k, "N": n, "U": u, "P": (0.0, k[1] - leg.back_waist)}
    half_crotch = distance(front["U"], front["I"]) / 2 + leg.hip / 36
    return points | _leg_line(leg, crease, half_crotch, leg.hem_balance / 2)


def draw_back(leg: Leg, front: Drawn) -> Drawn:
    """The back panel's lines, side and inside leg trued to the front's lengths."""
    p = back_points(leg)
    wanted_inside, wanted_side = length(front.inside_leg), length(front.side)

    def inside(drop: float) -> Path:
        return _inside(leg, p, move(p["N"], down=drop))

    def side(raised: float) -> Path:
        return _side(leg, p, move(p["P"], down=-raised))

    drop = solve(lambda d: wanted_inside - length(inside(d)), -30.0, 60.0)
    raised = solve(lambda r: length(side(r)) - wanted_side, -60.0, 80.0)
    fork, top = move(p["N"], down=drop), move(p["P"], down=-raised)
    p |= {"fork": fork, "Q": top}
    depth = (fork[1] - p["H"][1]) * 0.95
    start = between(p["H"], p["K"], depth / distance(p["H"], p["K"]))
    corner = (fork[0], p["H"][1] + (fork[0] - p["H"][0]) * 0.1)
    crotch = join(
        scoop(fork, corner, start, pull_mm=0.36 * distance(between(fork, start), corner)),
        line(start, p["K"]),
    )
    waist = curve(
        p["K"],
        move(between(p["K"], top, 0.3), down=2.0),
        move(top, across=0.35 * leg.back_waist),
        top,
    )
    return Drawn(
        points=p, side=side(raised), hem=line(p["hem side"], p["hem inside"]),
        inside_leg=inside(drop), crotch=crotch, waist=waist,
    )


def _side(leg: Leg, p: Points, top: Point) -> Path:
    """From the waist over the hip, easing into the knee and straight to the hem."""
    u = p["U"]
    end = p["knee side"] if leg.with_knee else p["hem side"]
    hip = move(u, down=-0.35 * leg.rise)
    over_hip = curve(top, between(top, (hip[0], u[1]), 0.5), move(hip, down=-0.2 * leg.rise), hip)
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
