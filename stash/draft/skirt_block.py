"""The block of straight and A-line skirts: quarters of the hip, darts, a band or a casing.

A quarter of the hip with its ease across at the hip line (Rosenfeld 1911, Lesson 106:
half the hip for half the skirt; Burton 1916: 2 in on the hip when the hem is narrow).
What the hip is more than the waist goes half into the side and half into darts.
x runs down from the waist, y from the centre to the side.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from stash.draft.body import Body
from stash.draft.darts import Dart, darts, sewn_length
from stash.draft.garment import Sewn, choice, fit, measure, seam_of
from stash.draft.geometry import Path, between, curve, join, length, line, move
from stash.draft.lining import Lining
from stash.draft.waist_facing import WaistTop
from stash.errors import InvalidInput
from stash.model import Point
from stash.notions.fastenings import opening_least_mm

MEASUREMENTS = ("hip", "waist")
ESTIMATES = ("waist_to_hip", "height")
# Common practice, no source, where none is named.
WAIST_EASE_MM = 10.0
SIDE_MOST_MM = 40.0
SIDE_RAISE_MM = 12.0
BACK_DROP_MM = 10.0
BALANCE_MM, FRONT_DART_MOST_MM = 10.0, 25.0


Waist = Literal["fitted", "elastic"]
Elastic = Literal["usual", "tight"]


@dataclass(frozen=True, kw_only=True)
class SkirtOptions(Sewn):
    """Options of straight and A-line skirts."""

    ease: float = measure("ease round the hip", 20, 300, 50.0)
    length: float | None = measure("finished length from the waist down", 200, 1300)
    waist: Waist = choice(Waist, "how the waist holds")
    elastic: Elastic = choice(Elastic, "how close the elastic of the waist is cut")
    lining: Lining = choice(Lining, "a lining")
    top: WaistTop = choice(WaistTop, "how a fitted waist is finished: a band, or a facing")
    sway_back: float = fit("lower the waist at the centre back, for a sway back", 0, 40)
    side: float = fit("take in at each side seam, front and back", -30, 30)
    centre_back: float = fit("raise the waist at the centre back, for a full seat", 0, 30)
    full_front: float = fit("raise the waist at the centre front, for a full front", 0, 30)
    hip_curve: float = fit("let the sides out between waist and hip, for high hips", -10, 15)
    dart_length: float = fit("longer darts, or shorter ones", -40, 40)
    seam_side: float | None = seam_of("side")
    seam_centre_back: float | None = seam_of("centre back")


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
    """Both quarters as drawn, before allowances; ``opens_mm`` where the opening is given."""

    front: Quarter
    back: Quarter
    fitted: bool
    hip_down: float
    length: float
    opening_least_mm: float = 0.0
    opens_mm: float | None = None

    @property
    def waist_mm(self) -> float:
        """The whole waist once the darts are sewn."""
        front = sewn_length(self.front.waist, self.front.darts)
        return 2 * (front + sewn_length(self.back.waist, self.back.darts))

    @property
    def hem_mm(self) -> float:
        """The whole hem."""
        return 2 * (length(self.front.hem) + length(self.back.hem))


@dataclass(frozen=True, kw_only=True)
class _Widths:
    """A quarter of the hip and, fitted, of the waist; where hip and hem lie; the flare."""

    across: float
    waist: float
    hip_down: float
    down: float
    flare: float
    hip_curve: float = 0.0
    dart_more: float = 0.0


def draw_skirt(body: Body, options: SkirtOptions, flare: float) -> Skirt:
    """Front and back quarters, of one width, so that the sides are one curve."""
    fitted = options.waist == "fitted"
    widest = body["hip"] if fitted else max(body["hip"], body["waist"])
    widths = _Widths(
        across=(widest + options.ease) / 4 - options.side,
        waist=(body["waist"] + WAIST_EASE_MM) / 4 - options.side,
        hip_down=body["waist_to_hip"], down=length_mm(body, options), flare=flare,
        hip_curve=options.hip_curve, dart_more=options.dart_length,
    )
    lower = options.sway_back - options.centre_back
    if fitted:
        front = _fitted(widths, -options.full_front, rear=False)
        back = _fitted(widths, BACK_DROP_MM + lower, rear=True)
    else:
        front, back = _straight_up(widths, -options.full_front), _straight_up(widths, lower)
    least = opening_least_mm(body["hip"], body["waist"])
    return Skirt(front, back, fitted, widths.hip_down, widths.down, least)


def length_mm(body: Body, options: SkirtOptions) -> float:
    """As asked for, else to the knee: 0.37 of the height (common practice, no source)."""
    down, least = float(options.length or 0.37 * body["height"]), body["waist_to_hip"] + 60
    if down < least:
        raise InvalidInput(
            "skirt_too_short", asked_measure_mm=down, least_measure_mm=least, field="length",
        )
    return down


def _straight_up(w: _Widths, drop: float) -> Quarter:
    """A quarter for elastic: from the waist straight to the hem, so that it passes the hips;
    lowered by ``drop`` at the centre.
    """
    top, foot = (0.0, w.across), _foot(w, w.flare / w.down)
    waist = line((0.0, 0.0), top)
    if drop:
        waist = curve((drop, 0.0), (drop, 0.4 * w.across), (0.0, 0.6 * w.across), top)
    return Quarter(
        waist=waist, side=line(top, foot), hem=_hem(w, foot), darts=(),
        hip_at=w.hip_down,
    )


def _fitted(w: _Widths, drop: float, *, rear: bool) -> Quarter:
    """A quarter shaped to the waist, lowered by ``drop`` at its centre.

    The back takes in more than the front, in two darts to the front's one: half the
    front's waist is by so much over a quarter, half the back's under it.
    """
    over = max(0.0, w.across - w.waist)
    at_side = max(w.across - min(over / 2, SIDE_MOST_MM), w.waist)
    top, hip = (-SIDE_RAISE_MM, at_side), (w.hip_down, w.across)
    slope = w.flare / (w.down - w.hip_down)
    foot = _foot(w, slope)
    out = w.hip_curve / 0.75  # arithmetic: half way down a curve lies out by 3/4 of its pulls
    over_hip = curve(
        top, move(between(top, (hip[0], top[1]), 0.4), across=out),
        move(hip, down=-0.35 * w.hip_down, across=out - 0.35 * w.hip_down * slope), hip,
    )
    waistline = curve(
        (drop, 0.0), (drop, 0.4 * at_side), move(top, down=2.0, across=-0.4 * at_side), top
    )
    in_darts = length(waistline) - w.waist
    shift = max(min(BALANCE_MM, in_darts / 2), in_darts - FRONT_DART_MOST_MM, 0.0)
    return Quarter(
        waist=waistline, side=join(over_hip, line(hip, foot)), hem=_hem(w, foot),
        darts=darts(
            waistline, w.waist - shift if rear else w.waist + shift,
            0.55 * w.hip_down + 2 * max(drop, 0.0) + w.dart_more, most=2 if rear else 1,
        ),
        hip_at=length(over_hip),
    )


def _foot(w: _Widths, slope: float) -> Point:
    """The hem at the side: out by the flare, and up until the hem meets the side squarely."""
    out = w.across + w.flare
    return w.down - 0.25 * out * slope, out


def _hem(w: _Widths, foot: Point) -> Path:
    return curve(foot, (w.down, 0.75 * foot[1]), (w.down, 0.4 * foot[1]), (w.down, 0.0))
