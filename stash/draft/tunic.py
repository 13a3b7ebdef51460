"""A collarless tunic that is pulled on over the head: back and front on the fold, two sleeves.

1. Draw back and front (``bodice``), then widen and lower the neck until the head passes.
2. Measure both armholes and draw the sleeve to them (``sleeve``).
3. Draw the neck facings 6 cm deep along the neckline, or bind it.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.bodice import (
    Bodice,
    Half,
    back_neck,
    back_points,
    bodice_for,
    draw_back,
    draw_front,
    fold_panel,
    front_neck,
    front_points,
    shoulder_part,
)
from stash.draft.body import Body
from stash.draft.bound_edges import bought_binding, is_bound, own_strips
from stash.draft.cloth_wants import FLOWING
from stash.draft.cutting_line import Edge
from stash.draft.garment import Allowances, Garment, allowances, choice, hem, measure
from stash.draft.geometry import curve, length, line, move, solve
from stash.draft.lining import Lining, lined_as, lining_of
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join, seams, sewing_needs
from stash.draft.shirt_sleeve import (
    SleevedOptions,
    body_meetings,
    shirt_joins,
    shirt_sleeve,
    with_arm_room,
)
from stash.draft.sleeve import DrawnSleeve, sleeve_panel
from stash.errors import InvalidInput
from stash.model import Joined, Mark, Part, Pattern, Role
from stash.notions.interfacing import interfacing_need

ESTIMATES = (
    "bust", "hip", "neck_base", "back_width", "shoulder", "scye_depth", "back_waist",
    "waist_to_hip", "arm_length", "upper_arm", "wrist", "head",
)
# Common practice, no source, where none is named.
HEAD_EASE_MM = 20.0
FACING_MM = 60.0


Pockets = Literal["none", "patch"]


@dataclass(frozen=True, kw_only=True)
class TunicOptions(SleevedOptions):
    """Options of the tunic."""

    length: float | None = measure("finished length from the nape to the hem", 300, 1500)
    hem: float = hem(25.0)
    ease: float | None = measure("ease round the bust: usually 160 mm", 80, 500)
    pockets: Pockets = choice(Pockets, "pockets")
    lining: Lining = choice(Lining, "a lining")


@dataclass(frozen=True)
class TunicLines:
    """Everything drawn before any allowance is added."""

    bodice: Bodice
    back: Half
    front: Half
    sleeve: DrawnSleeve

    @property
    def neck_mm(self) -> float:
        """The whole neckline."""
        return neckline(self.bodice)


def neckline(bodice: Bodice) -> float:
    """Length of the whole neckline of a bodice, mm."""
    back, front = back_neck(back_points(bodice)), front_neck(front_points(bodice))
    return 2 * (length(back) + length(front))


def draw(body: Body, options: TunicOptions) -> TunicLines:
    """Bodice, neck opened for the head, sleeve."""
    ease = options.ease or min(160.0, 0.17 * body["bust"])
    plain = bodice_for(
        body, length=_length(body, options), ease=ease, full_bust=options.full_bust,
        side=options.side, sway_back=options.sway_back, round_back=options.round_back,
    )
    roomy = with_arm_room(plain, body["upper_arm"])
    bodice = opened_neck(roomy, body["head"] + HEAD_EASE_MM)
    back, front = draw_back(bodice), draw_front(bodice)
    return TunicLines(bodice, back, front, shirt_sleeve(body, options, back, front))


def _length(body: Body, options: TunicOptions) -> float:
    usual = body["back_waist"] + 1.6 * body["waist_to_hip"]
    down, least = float(options.length or usual), body["scye_depth"] + 150
    if down < least:
        raise InvalidInput(
            "tunic_too_short", asked_measure_mm=down, least_measure_mm=least, field="length",
        )
    return down


def opened_neck(bodice: Bodice, around: float) -> Bodice:
    """The bodice with a neckline at least ``around`` long: wider by 1 for each 2 deeper."""

    def opened(mm: float) -> Bodice:
        return replace(bodice, neck_widen=15 * bodice.size + mm / 2, neck_drop=mm)

    return opened(solve(lambda mm: neckline(opened(mm)) - around, 20.0 * bodice.size, 300.0))


def draft(body: Body, options: TunicOptions) -> Pattern:
    """Draw, then cut out."""
    options = replace(options, length=_length(body, options))
    drawn = draw(body, options)
    panels = _panels(drawn, options)
    pieces = tuple(p.piece() for p in panels)
    joins, finish = _joins(drawn), options.finish
    if options.lining == "full":
        joins += [replace(j, name=f"lining, {j.name}", raw_edges=0) for j in joins]
    needs = list(sewing_needs(joins, finish))
    fused = [p for p in pieces if p.role is Role.INTERFACING]
    if fused:
        needs.append(interfacing_need(fused))
    needs += bought_binding(drawn.neck_mm, "neck", options)
    return Pattern(
        garment="tunic", joins=_meetings(panels), pieces=pieces, notions=tuple(needs),
        seams=seams(joins, finish), wants=FLOWING,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body),
    )


def _panels(drawn: TunicLines, options: TunicOptions) -> list[Panel]:
    allow, faced = allowances(options), not is_bound(options)
    panels = [
        fold_panel(Part.FRONT, drawn.front, allow, bound_neck=not faced).marked(
            _pocket_places(drawn, options)
        ),
        fold_panel(Part.BACK, drawn.back, allow, bound_neck=not faced),
        sleeve_panel(drawn.sleeve, allow),
    ]
    if options.lining == "full":
        panels += [lining_of(p) for p in panels]
    elif faced:
        for name, half in (("front facing", drawn.front), ("back facing", drawn.back)):
            facing = neck_facing(name, half, FACING_MM * drawn.bodice.size, allow)
            panels += [facing, facing.fused(f"{name} interfacing", 1)]
    panels += own_strips(drawn.neck_mm, options)
    if options.pockets == "patch":
        size = drawn.bodice.size
        panels.append(patch_pocket("pocket", 150 * size, 165 * size, allow.seam, quantity=2))
    return panels


def _meetings(panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which."""
    by_name = {p.name: p for p in panels}
    front, back = by_name["front"], by_name["back"]
    joins = body_meetings(front, back, by_name["sleeve"])
    if "front lining" in by_name:
        joins += lined_as(joins, ("front", "back", "sleeve"))
        joins += [joined((by_name[f"{n} lining"], "neck"), (by_name[n], "neck"))
                  for n in ("front", "back")]
    if faced := by_name.get("front facing"):
        behind = by_name["back facing"]
        joins += [
            joined((faced, "neck"), (front, "neck")), joined((behind, "neck"), (back, "neck")),
            joined((behind, "shoulder"), (faced, "shoulder")),
        ]
    return tuple(joins)


def _pocket_places(drawn: TunicLines, options: TunicOptions) -> tuple[Mark, ...]:
    """Two patches on the front, their tops 6 cm below the waist (common practice, no source)."""
    if options.pockets != "patch":
        return ()
    size, b = drawn.bodice.size, drawn.bodice
    top = min(0.62 * b.hip_down + 60 * size, b.length - 200 * size)
    return (pocket_mark((top, 40 * size), 150 * size, 165 * size),)


def neck_facing(name: str, half: Half, deep: float, allow: Allowances) -> Panel:
    """Half a facing: the neckline itself, a part of the shoulder, and a curve below."""
    on_shoulder = min(deep, 0.8 * length(half.shoulder))
    top = shoulder_part(half, on_shoulder)
    centre = half.neck[0]
    foot = move(centre, down=deep)
    lower = curve(
        top, move(top, down=0.5 * (foot[0] - top[0])), move(foot, across=0.6 * top[1]), foot
    )
    edges = (
        Edge("neck", half.neck, allow.at("neck")),
        Edge("shoulder", line(half.neck[-1], top), allow.at("shoulder")),
        Edge("lower", lower, 0.0), Edge("fold", line(foot, centre)),
    )
    return Panel(
        name=name, edges=edges, cutting=Cutting(part=Part.FACING), on_fold=True,
        notches=(("neck", 0.0),),
    )


def _joins(drawn: TunicLines) -> list[Join]:
    joins = shirt_joins(drawn.back, drawn.front, drawn.sleeve)
    return [*joins, Join("neck", drawn.neck_mm, 2, 0)]


GARMENT = Garment(
    name="tunic", title="Collarless tunic", measurements=("bust|chest",), estimates=ESTIMATES,
    takes=TunicOptions,
    draft=draft,
)
