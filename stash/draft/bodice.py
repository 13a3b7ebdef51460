"""The upper body of shirts, tunics and gowns: back and front without darts, loosely cut.

Neck width, shoulder and back width follow L. I. Baldt, Clothing for Women (1916),
To Draft Shirt, Figs. 44 and 45 (neck/6, raised 3/4 in at the shoulder, widths from
half the back), with the looser shoulder of a modern casual block (half back + 4 cm).
x runs down from the nape, y from the centre line to the side.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from stash.draft.body import Body
from stash.draft.cutting_line import Edge
from stash.draft.garment import Allowances
from stash.draft.geometry import Path, curve, distance, length, line, move, towards
from stash.draft.panel import Cutting, Panel
from stash.model import Part, Point

NAPE_RAISE = 19.05  # Baldt Fig. 45: EF is 3/4 in, on a neck of about 370 mm
BACK_SLOPE, FRONT_SLOPE = 0.26, 0.34  # fall of the shoulder seam along its run; common practice
ADULT_BUST = 950.0
HIP_EASE = 60.0
Points = dict[str, Point]


@dataclass(frozen=True, kw_only=True)
class Bodice:
    """What a bodice is drafted from, mm: the body, its ease, and the length from the nape.

    ``full_bust`` widens half the front and lengthens its centre by half of it, ``side`` takes
    in each side seam, ``sway_back`` shortens the centre back, ``round_back`` raises the back
    neck. ``drop_shoulder`` lengthens the shoulder beyond half the back,
    ``neck_drop`` lowers the front neck beyond its usual depth, ``neck_widen`` opens the neck
    at the shoulder.
    """

    bust: float
    hip: float
    neck_base: float
    back_width: float
    shoulder: float
    scye_depth: float
    hip_down: float
    length: float
    ease: float
    drop_shoulder: float = 40.0
    neck_drop: float = 0.0
    neck_widen: float = 0.0
    full_bust: float = 0.0
    side: float = 0.0
    sway_back: float = 0.0
    round_back: float = 0.0

    @property
    def size(self) -> float:
        """How big this body is beside an adult with a bust of 95 cm; small allowances shrink."""
        return min(1.0, self.bust / ADULT_BUST)


def bodice_for(body: Body, *, length: float, ease: float, **shape: float) -> Bodice:
    """The bodice's measures from a completed body."""
    return Bodice(
        bust=body["bust"], hip=body["hip"], neck_base=body["neck_base"],
        back_width=body["back_width"], shoulder=body["shoulder"],
        scye_depth=body["scye_depth"],
        hip_down=body["back_waist"] + body["waist_to_hip"], length=length, ease=ease, **shape,
    )


@dataclass(frozen=True)
class Half:
    """Half a back or front: points, and its edges from the neck round to the hem."""

    points: Points
    neck: Path
    shoulder: Path
    armhole: Path
    side: Path
    hem: Path


def back_points(b: Bodice) -> Points:
    """nape; neck and shoulder end of the shoulder seam; underarm; hem at side and centre."""
    raised, side_neck = NAPE_RAISE * b.size, b.neck_base / 6 + 5 * b.size
    neck = (-raised, side_neck + b.neck_widen)
    out = _shoulder_out(b, side_neck)
    shoulder = (neck[0] + BACK_SLOPE * (out - neck[1]), out)
    nape, lower = (-b.round_back, 0.0), _lower(b)
    lower["hem"] = move(lower["hem"], down=-b.sway_back)
    return {"nape": nape, "neck": neck, "shoulder": shoulder} | lower


def _shoulder_out(b: Bodice, side_neck: float) -> float:
    """How far out the shoulder ends: over half the back by ``drop_shoulder``, but not much
    beyond the body's own shoulder where the back is broad.
    """
    half_back, drop = b.back_width / 2, b.drop_shoulder * b.size
    over_own = side_neck + b.shoulder + drop
    return max(half_back + drop / 4, min(half_back + drop, over_own))


def front_points(b: Bodice) -> Points:
    """As the back's; ``centre`` is the centre front at the neck.

    The neck is as deep as it is wide, and 15 mm (Baldt, Fig. 44: neck/6 for both).
    The shoulder seam is exactly as long as the back's.
    """
    back = back_points(b)
    neck = back["neck"]
    run = distance(neck, back["shoulder"]) / sqrt(1 + FRONT_SLOPE**2)
    shoulder = move(neck, down=FRONT_SLOPE * run, across=run)
    centre = (neck[0] + b.neck_base / 6 + 20 * b.size + b.neck_drop, 0.0)
    return {"centre": centre, "neck": neck, "shoulder": shoulder} | _full(b, _lower(b))


def _full(b: Bodice, lower: Points) -> Points:
    """The front below the arm with the width and length of a full bust."""
    more = b.full_bust / 2
    return {
        "underarm": move(lower["underarm"], across=more),
        "hem side": move(lower["hem side"], across=more), "hem": move(lower["hem"], down=more),
    }


def _lower(b: Bodice) -> Points:
    """Underarm a quarter of the eased bust across; the side falls clear of the hip."""
    underarm = (b.scye_depth + 20 * b.size, (b.bust + b.ease) / 4)
    out = max(underarm[1], (b.hip + HIP_EASE) / 4)
    if b.length > b.hip_down:
        fall = (b.length - underarm[0]) / (b.hip_down - underarm[0])
        out = underarm[1] + (out - underarm[1]) * fall
    side = move(underarm, across=-b.side)
    return {"underarm": side, "hem side": (b.length, out - b.side), "hem": (b.length, 0.0)}


def draw_back(b: Bodice) -> Half:
    """Half a back, from the nape."""
    p = back_points(b)
    return _half(p, back_neck(p), hollow=10 * b.size)


def back_neck(p: Points) -> Path:
    """Half the back neckline, from the nape to the shoulder."""
    return curve(
        p["nape"], move(p["nape"], across=0.55 * p["neck"][1]),
        move(
            p["neck"], down=0.55 * (p["nape"][0] - p["neck"][0]), across=-0.16 * p["neck"][1]
        ), p["neck"],
    )


def draw_front(b: Bodice) -> Half:
    """Half a front, from the centre front at the neck."""
    p = front_points(b)
    return _half(p, front_neck(p), hollow=26 * b.size)


def front_neck(p: Points) -> Path:
    """Half the front neckline, from the centre front to the shoulder."""
    deep = p["centre"][0] - p["neck"][0]
    return curve(
        p["centre"], move(p["centre"], across=0.55 * p["neck"][1]),
        move(p["neck"], down=0.55 * deep), p["neck"],
    )


def _half(p: Points, neck: Path, *, hollow: float) -> Half:
    """The edges; ``hollow`` is how far the armhole is cut in beyond the shoulder's end."""
    shoulder, underarm = p["shoulder"], p["underarm"]
    deep = underarm[0] - shoulder[0]
    in_line = shoulder[1] - hollow
    armhole = curve(
        shoulder,
        move(shoulder, down=0.5 * deep, across=-hollow * 1.6),
        (underarm[0], in_line + 0.12 * (underarm[1] - in_line)),
        underarm,
    )
    return Half(
        points=p, neck=neck, shoulder=line(p["neck"], shoulder), armhole=armhole,
        side=line(underarm, p["hem side"]), hem=line(p["hem side"], p["hem"]),
    )


def fold_panel(
    part: Part, half: Half, allow: Allowances, *, bound_neck: bool = False
) -> Panel:
    """A back or front in one piece on the fold; the back has two notches in its armhole.

    A bound neck gets no allowance.
    """
    edges = (
        Edge("neck", half.neck, 0.0 if bound_neck else allow.at("neck")),
        Edge("shoulder", half.shoulder, allow.at("shoulder")),
        Edge("armhole", half.armhole, allow.at("armhole")),
        Edge("side", half.side, allow.at("side")),
        Edge("hem", half.hem, allow.hem, turned=allow.hem > 0),
        Edge("fold", line(half.hem[-1], half.neck[0])),
    )
    at = 0.6 * length(half.armhole)
    in_armhole, rear = ("armhole", at), part is Part.BACK
    half_side = ("side", 0.5 * length(half.side))
    return Panel(
        name=part.value, edges=edges, cutting=Cutting(part=part), on_fold=True,
        notches=(("neck", 0.0),) if rear else (("neck", 0.0), in_armhole, half_side),
        doubles=(in_armhole, half_side) if rear else (), match=chest_centre(half),
    )


def chest_centre(half: Half) -> Point:
    """The centre line at the underarm: there stripes of back, fronts and sleeves meet."""
    return half.points["underarm"][0], 0.0


def shoulder_part(half: Half, mm: float) -> Point:
    """The point on the shoulder seam ``mm`` from the neck: where a facing ends."""
    return towards(half.points["neck"], half.points["shoulder"], mm)
