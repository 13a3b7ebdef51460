"""The block of straight and A-line skirts: quarters of the hip, darts, a band or a casing.

A quarter of the hip with its ease across at the hip line (Rosenfeld 1911, Lesson 106:
half the hip for half the skirt; Burton 1916: 2 in on the hip when the hem is narrow).
What the hip is more than the waist goes half into the side and half into darts.
x runs down from the waist, y from the centre to the side.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.darts import Dart, darts, sewn_length
from stash.draft.garment import Choice, Measure, Options, seam_of
from stash.draft.geometry import Path, between, curve, join, length, line, move
from stash.errors import InvalidInput
from stash.units import format_length

MEASUREMENTS = ("hip", "waist")
ESTIMATES = ("waist_to_hip", "height")
LENGTH = Measure(
    name="length", about="finished length from the waist down", least_mm=200, most_mm=1300
)
WAIST = Choice(name="waist", about="how the waist holds", words=("fitted", "elastic"))
LINING = Choice(name="lining", about="a lining", words=("none", "full"))
SEAMS = tuple(map(seam_of, ("side", "centre back")))
WAIST_EASE_MM = 10.0
SIDE_MOST_MM = 40.0
SIDE_RAISE_MM = 12.0
BACK_DROP_MM = 10.0


@dataclass(frozen=True)
class Quarter:
    """Half a front or back: its edges, its darts, and how far down the side the hip lies."""

    waist: Path
    side: Path
    hem: Path
    darts: tuple[Dart, ...]
    hip_at: float


@dataclass(frozen=True)
class Skirt:
    """Both quarters as drawn, before allowances."""

    front: Quarter
    back: Quarter
    fitted: bool
    hip_down: float
    length: float

    @property
    def waist_mm(self) -> float:
        """The whole waist once the darts are sewn."""
        front = sewn_length(self.front.waist, self.front.darts)
        return 2 * (front + sewn_length(self.back.waist, self.back.darts))

    @property
    def hem_mm(self) -> float:
        """The whole hem."""
        return 2 * (length(self.front.hem) + length(self.back.hem))


def draw_skirt(body: Body, options: Options, flare: float) -> Skirt:
    """Front and back quarters, of one width, so that the sides are one curve."""
    hip_down, down = body["waist_to_hip"], length_mm(body, options)
    fitted = options["waist"] == "fitted"
    widest = body["hip"] if fitted else max(body["hip"], body["waist"])
    across = (widest + float(options["ease"])) / 4
    taken = 0.0 if not fitted else (body["waist"] + WAIST_EASE_MM) / 4
    front, back = (
        _quarter(across, down, hip_down, flare, taken, drop) for drop in (0.0, BACK_DROP_MM)
    )
    return Skirt(front, back, fitted, hip_down, down)


def length_mm(body: Body, options: Options) -> float:
    """As asked for, else to the knee: 0.37 of the height (common practice, no source)."""
    down, least = float(options["length"] or 0.37 * body["height"]), body["waist_to_hip"] + 60
    if down < least:
        raise InvalidInput(
            f"A skirt {format_length(down)} long ends above the hips: the option length can be "
            f"{format_length(least)} or more.",
            field="length",
        )
    return down


def _quarter(
    across: float, down: float, hip_down: float, flare: float, waist: float, drop: float
) -> Quarter:
    """One quarter; ``waist`` 0 leaves it straight up for elastic.

    The hem rises at a flared side until it meets it squarely.
    """
    over = max(0.0, across - waist) if waist else 0.0
    at_side = max(across - min(over / 2, SIDE_MOST_MM), waist)
    top = (-SIDE_RAISE_MM if waist else 0.0, at_side)
    centre = (drop if waist else 0.0, 0.0)
    hip = (hip_down, across)
    foot_out = across + flare
    slope = flare / (down - hip_down if waist else down)
    foot = (down - 0.25 * foot_out * slope, foot_out)
    over_hip = line(top) if not waist else curve(
        top, between(top, (hip[0], top[1]), 0.4),
        move(hip, down=-0.35 * hip_down, across=-0.35 * hip_down * slope), hip,
    )
    waistline = line(centre, top) if not waist else curve(
        centre, move(centre, across=0.4 * at_side), move(top, down=2.0, across=-0.4 * at_side), top
    )
    hem = curve(foot, (down, 0.75 * foot_out), (down, 0.4 * foot_out), (down, 0.0))
    sewn = darts(waistline, waist, 0.55 * hip_down + 2 * drop) if waist else ()
    side = join(over_hip, line(over_hip[-1], foot))
    return Quarter(waistline, side, hem, sewn, hip_at=length(over_hip) or hip_down)
