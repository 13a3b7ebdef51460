"""A body cut straight with straight sleeves: the block of nightshirt and robe.

Widths after the kimono gown in L. I. Baldt, Clothing for Women (1916), Fig. 60: at the
underarm bust/4 + 2 in from the centre, and the underarm half the armhole + 2 in down.
The sleeve is a separate length set on a straight armhole, so that narrow
cloth serves.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.draft.body import Body
from stash.draft.cutting_line import Edge
from stash.draft.garment import Sewn, fit
from stash.draft.geometry import Path, curve, distance, line
from stash.draft.panel import Cutting, Panel, joined
from stash.errors import InvalidInput
from stash.model import Joined, Part, Point

MEASUREMENTS = ("bust|chest",)
ESTIMATES = (
    "bust", "hip", "waist", "height", "neck_base", "scye_depth", "shoulder", "arm_length",
    "upper_arm", "wrist", "head", "back_waist",
)
UNDERARM_MM = 51.0  # Baldt's 2 in below half the armhole
ARMHOLE_LESS_MM = 50.0  # armhole = twice the scye depth less 5 cm: common practice, no source
NECK_EASE_MM = 10.0  # Baldt: neck/6, up to 3/8 in more
NAPE_MM = 20.0
SHOULDER_SLOPE = 0.12  # a loose garment's shoulder falls less than the body's
LEAST_SIDE_MM = 150.0
FLARE = 0.04  # each quarter gains this share of its length: common practice, no source


@dataclass(frozen=True, kw_only=True)
class StraightOptions(Sewn):
    """What everything cut straight can have changed after a toile."""

    side: float = fit("take in at each side seam, front and back", -30, 30)
    longer_sleeve: float = fit("lengthen the sleeve, for a longer arm", -60, 60)
    fuller_arm: float = fit("more room round the upper arm", 0, 60)


@dataclass(frozen=True, kw_only=True)
class StraightBlock:
    """Points of the half body, mm: x down from the neck point, y out from the centre."""

    neck: Point
    nape: Point
    shoulder: Point
    underarm: Point
    hem: Point
    sleeve_mm: float
    cuff_mm: float

    @property
    def armhole_mm(self) -> float:
        """Front or back armhole, straight; a sleeve is twice as wide."""
        return distance(self.shoulder, self.underarm)

    @property
    def side(self) -> Path:
        """The side seam, underarm to hem."""
        return line(self.underarm, self.hem)

    @property
    def back_neck(self) -> Path:
        """Half of the back neck, centre to shoulder."""
        return neck_curve(self.nape, self.neck)


def straight_block(
    body: Body, ease_mm: float, length_mm: float, sleeve: str, options: StraightOptions
) -> StraightBlock:
    """The block for the wider of bust and hip; ``sleeve`` is short or long."""
    half = max(body["bust"], body["hip"]) / 4 + ease_mm / 4 - options.side
    neck = (0.0, body["neck_base"] / 6 + NECK_EASE_MM)
    shoulder = (SHOULDER_SLOPE * (half - neck[1]), half)
    armhole = max(
        (2 * body["scye_depth"] - ARMHOLE_LESS_MM) / 2 + UNDERARM_MM - shoulder[0],
        0.5 * body["upper_arm"] + 60,
    ) + options.fuller_arm / 2
    underarm = (shoulder[0] + armhole, half)
    least = underarm[0] + LEAST_SIDE_MM
    if length_mm < least:
        raise InvalidInput(
            "gown_too_short", asked_measure_mm=length_mm, least_measure_mm=least, field="length",
        )
    arm = body["shoulder"] + body["arm_length"] - distance(neck, shoulder)
    long = sleeve == "long"
    return StraightBlock(
        neck=neck, nape=(NAPE_MM, 0.0), shoulder=shoulder, underarm=underarm,
        hem=(length_mm, half + FLARE * (length_mm - underarm[0])),
        sleeve_mm=max(arm if long else 0.35 * arm, 80.0) + options.longer_sleeve,
        cuff_mm=max((0.75 if long else 0.92) * armhole, body["wrist"] / 2 + 50),
    )


def block_meetings(front: Panel, back: Panel, arm: Panel) -> list[Joined]:
    """Shoulder, side, and the straight sleeve, half of it to the front and half to the back."""
    return [
        joined((back, "shoulder"), (front, "shoulder")), joined((back, "side"), (front, "side")),
        *(
            Joined(("sleeve", "armhole"), (p.name, "armhole"), arm.length("armhole"),
                   p.length("armhole"))
            for p in (front, back)
        ),
    ]


def neck_curve(centre: Point, shoulder: Point) -> Path:
    """Half a neckline: square to the centre, square to the shoulder's neck point."""
    deep, wide = centre[0] - shoulder[0], shoulder[1] - centre[1]
    return curve(
        centre, (centre[0], centre[1] + 0.55 * wide), (shoulder[0] + 0.45 * deep, shoulder[1]),
        shoulder,
    )


def half_body(part: Part, block: StraightBlock, neck: Edge, seam: float, hem: float) -> Panel:
    """A back or front on the fold, its neck given from the centre to the shoulder."""
    foot = (block.hem[0], 0.0)
    edges = (
        neck, Edge("shoulder", line(block.neck, block.shoulder), seam),
        Edge("armhole", line(block.shoulder, block.underarm), seam),
        Edge("side", block.side, seam), Edge("hem", line(block.hem, foot), hem, turned=hem > 0),
        Edge("fold", line(foot, neck.path[0])),
    )
    notch = ("side", 0.5 * distance(block.underarm, block.hem))
    rear = part is Part.BACK
    return Panel(
        name=part.value, edges=edges, cutting=Cutting(part=part), on_fold=True,
        notches=() if rear else (notch,), doubles=(notch,) if rear else (),
    )


def sleeve(block: StraightBlock, seam: float, hem: float) -> Panel:
    """A tapered straight sleeve, folded along the top of the arm."""
    top, cuff = block.armhole_mm, min(block.cuff_mm, block.armhole_mm)
    a, b, c, d = (0.0, 0.0), (0.0, top), (block.sleeve_mm, cuff), (block.sleeve_mm, 0.0)
    edges = (
        Edge("armhole", line(a, b), seam), Edge("underarm", line(b, c), seam),
        Edge("hem", line(c, d), hem, turned=hem > 0), Edge("fold", line(d, a)),
    )
    two = Cutting(quantity=2, part=Part.SLEEVE)
    return Panel(name="sleeve", edges=edges, cutting=two, on_fold=True)
