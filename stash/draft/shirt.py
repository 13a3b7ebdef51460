"""A revere-collar shirt: two fronts with facings, back, two sleeves, a collar.

1. Draw back and front (``bodice``); the front's shoulder is as long as the back's.
2. Beyond the centre front add the overlap and the revere (``revere``); trace the facing
   off the front's edge and neck.
3. Measure both armholes and draw the sleeve to them (``sleeve``).
4. Measure back and front neck and draw the collar to them.
5. Allow seams and hems; fuse the under collar and the facings.

Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from stash.draft.bodice import (
    Bodice,
    Half,
    bodice_for,
    chest_centre,
    draw_back,
    draw_front,
    fold_panel,
)
from stash.draft.body import Body
from stash.draft.bound_edges import bought_binding, is_bound, own_strips
from stash.draft.button_marks import button_marks
from stash.draft.cloth_wants import SHIRTS
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, allowances, choice, hem, measure
from stash.draft.geometry import length, line
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.pockets import patch_pocket, pocket_mark
from stash.draft.revere import (
    Revere,
    RevereFront,
    collar_panel,
    draw_revere,
    facing_panel,
    under_collar_panel,
)
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
from stash.model import Closure, Joined, Mark, MarkKind, Part, Pattern, Role
from stash.notions.buttons import SHIRT_BUTTON_MM, best_count, button_need
from stash.notions.interfacing import interfacing_need

MEASUREMENTS = ("bust|chest",)
ESTIMATES = (
    "bust", "hip", "neck_base", "back_width", "shoulder", "scye_depth", "back_waist",
    "waist_to_hip", "arm_length", "upper_arm", "wrist",
)
OVERLAP_MM = 20.0  # common practice, no source
POCKET_MM = (115.0, 130.0)  # an adult's breast pocket: common practice, no source


Pockets = Literal["none", "patch"]
UnderCollar = Literal["straight", "bias"]


@dataclass(frozen=True, kw_only=True)
class ShirtOptions(SleevedOptions):
    """Options of the shirt."""

    length: float | None = measure("finished length from the nape to the hem", 250, 1500)
    hem: float = hem(25.0)
    ease: float | None = measure("ease round the bust: usually 200 mm", 80, 500)
    pockets: Pockets = choice(Pockets, "a breast pocket")
    under_collar: UnderCollar = choice(
        UnderCollar, "grain of the under collar: straight, or on the bias to roll softly"
    )


@dataclass(frozen=True)
class ShirtLines:
    """Everything drawn before any allowance is added."""

    bodice: Bodice
    back: Half
    front: Half
    revere: Revere
    edge: RevereFront
    sleeve: DrawnSleeve


def draft(body: Body, options: ShirtOptions) -> Pattern:
    """Draw, then cut out."""
    options = replace(options, length=_length(body, options))
    drawn = draw(body, options)
    allow = allowances(options)
    neck, size = length(drawn.back.neck) + length(drawn.front.neck), drawn.bodice.size
    shoulder = (("neck", length(drawn.back.neck)),)
    collar = collar_panel(neck, 75 * size, allow).marked((), notches=shoulder)
    under = under_collar_panel(
        neck, 75 * size, allow, bias=options.under_collar == "bias"
    ).marked((), notches=shoulder)
    panels = [
        front_panel(drawn.front, drawn.edge, options, drawn.revere).marked(
            _front_marks(drawn, options)
        ),
        fold_panel(Part.BACK, drawn.back, allow), sleeve_panel(drawn.sleeve, allow),
        collar, under, under.fused("collar interfacing", 2, pair=True),
    ]
    if not is_bound(options):
        facing = facing_panel(drawn.front, drawn.edge, drawn.revere, allow)
        panels += [facing, facing.fused("facing interfacing", 2, pair=True)]
    panels += own_strips(2 * drawn.edge.length_mm, options)
    if options.pockets == "patch":
        panels.append(patch_pocket("pocket", POCKET_MM[0] * size, POCKET_MM[1] * size, allow.seam))
    joins = [
        *shirt_joins(drawn.back, drawn.front, drawn.sleeve),
        *_collar_joins(collar, drawn.edge, options),
    ]
    return _pattern(body, options, panels, joins, drawn)


def _front_marks(drawn: ShirtLines, options: ShirtOptions) -> tuple[Mark, ...]:
    """Buttons and holes where they are respaced, and the pocket below the armhole's level."""
    closure = closure_of(drawn)
    buttons = button_marks(
        closure, best_count(closure), SHIRT_BUTTON_MM, drawn.front.points["centre"]
    )
    if options.pockets != "patch":
        return buttons
    wide, deep = (mm * drawn.bodice.size for mm in POCKET_MM)
    down, out = drawn.front.points["underarm"]
    top = (down - 20 * drawn.bodice.size, 0.52 * out - wide / 2)
    return (*buttons, pocket_mark(top, wide, deep))


def _meetings(panels: Sequence[Panel]) -> tuple[Joined, ...]:
    """Which edge is sewn to which; a cap has its ease, a collar runs over both necks."""
    by_name = {p.name: p for p in panels}
    front, back = by_name["front"], by_name["back"]
    top, under = by_name["collar"], by_name["under collar"]
    neck = top.length("neck")
    joins = [
        *body_meetings(front, back, by_name["sleeve"]),
        *(joined((top, e), (under, e)) for e in ("outer", "end")),
        Joined(("collar", "neck"), ("front", "neck"), neck - back.length("neck"),
               front.length("neck")),
        Joined(("collar", "neck"), ("back", "neck"), neck - front.length("neck"),
               back.length("neck")),
    ]
    if facing := by_name.get("facing"):
        joins += [joined((facing, e), (front, e)) for e in ("front edge", "notch", "neck")]
    return tuple(joins)


def draw(body: Body, options: ShirtOptions) -> ShirtLines:
    """Back, front and revere, then the sleeve to the armholes."""
    ease = options.ease or min(200.0, 0.21 * body["bust"])
    plain = bodice_for(
        body, length=_length(body, options), ease=ease, full_bust=options.full_bust,
        side=options.side, sway_back=options.sway_back, round_back=options.round_back,
    )
    bodice = with_arm_room(plain, body["upper_arm"])
    back, front = draw_back(bodice), draw_front(bodice)
    revere = revere_for(bodice.size)
    return ShirtLines(
        bodice, back, front, revere, draw_revere(front, revere),
        shirt_sleeve(body, options, back, front),
    )


def _pattern(
    body: Body, options: ShirtOptions, panels: list[Panel], joins: list[Join], drawn: ShirtLines
) -> Pattern:
    closure = closure_of(drawn)
    pieces = tuple(p.piece() for p in panels)
    buttons = button_need(closure)
    needs = [buttons, interfacing_need([p for p in pieces if p.role is Role.INTERFACING])]
    finish = options.finish
    needs += sewing_needs(joins, finish, buttonholes=buttons.count or 0)
    needs += bought_binding(2 * drawn.edge.length_mm, "front edges and reveres", options)
    return Pattern(
        garment="shirt", joins=_meetings(panels), pieces=pieces, notions=tuple(needs),
        seams=seams(joins, finish), wants=SHIRTS, closure=closure,
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(),
        cautions=cautions_for(body, buttons=True),
    )


def _length(body: Body, options: ShirtOptions) -> float:
    usual = body["back_waist"] + 1.15 * body["waist_to_hip"]
    asked = options.length or usual
    least = body["scye_depth"] + 120
    if asked < least:
        raise InvalidInput(
            "shirt_too_short", asked_measure_mm=asked, least_measure_mm=least, field="length",
        )
    return asked


def revere_for(size: float) -> Revere:
    """The revere of an adult, smaller in proportion on a child; the overlap stays."""
    return Revere(
        overlap=OVERLAP_MM, break_down=105 * size, out=22 * size, facing=75 * size,
        at_shoulder=45 * size,
    )


def front_panel(front: Half, drawn: RevereFront, options: ShirtOptions, revere: Revere) -> Panel:
    """The front with overlap and revere, cut as a pair; bound edges get no allowance."""
    allow, bound = allowances(options), is_bound(options)
    corner = (front.points["hem"][0], -revere.overlap)
    edges = (
        Edge("front edge", drawn.front_edge, 0.0 if bound else allow.seam),
        Edge("notch", drawn.notch, 0.0 if bound else allow.at("neck")),
        Edge("neck", front.neck, allow.at("neck")),
        Edge("shoulder", front.shoulder, allow.at("shoulder")),
        Edge("armhole", front.armhole, allow.at("armhole")),
        Edge("side", front.side, allow.at("side")),
        Edge("hem", line(front.points["hem side"], corner), allow.hem, turned=allow.hem > 0),
    )
    return Panel(
        name="front", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.FRONT),
        notches=(
            ("notch", length(drawn.notch)), ("armhole", 0.6 * length(front.armhole)),
            ("side", 0.5 * length(front.side)),
        ),
        match=chest_centre(front),
        marks=(
            Mark(MarkKind.CENTRE, line(front.points["centre"], front.points["hem"])),
            Mark(MarkKind.ROLL, drawn.roll),
        ),
    )


def closure_of(drawn: ShirtLines) -> Closure:
    """The buttoned front: from the break of the revere to 9 cm above the hem.

    The bust lies 3 cm below the scye line (common practice, no source).
    """
    points = drawn.front.points
    centre, hem_down = points["centre"][0], points["hem"][0]
    whole = hem_down - centre
    return Closure(
        length_mm=whole,
        bust_mm=drawn.bodice.scye_depth + 30 * drawn.bodice.size - centre,
        overlap_mm=drawn.revere.overlap, first_mm=drawn.revere.break_down,
        last_mm=whole - min(90.0, 0.2 * whole),
    )


def _collar_joins(collar: Panel, drawn: RevereFront, options: ShirtOptions) -> list[Join]:
    joins = [
        Join("collar edge", 2 * (collar.length("outer") + collar.length("end")), 1, 0),
        Join("collar to neck", 2 * collar.length("neck"), 2, 0),
        Join("under collar centre back", collar.length("fold"), 1, 0),
    ]
    joins.append(Join("front edge", drawn.length_mm, 2, 0))
    if not is_bound(options):
        joins.append(Join("facing, inner edge", length(drawn.inner), 2, 1))
    if options.pockets == "patch":
        joins.append(Join("pocket", 400.0, 1, 0))
    return joins


GARMENT = Garment(
    name="shirt", title="Shirt with revere collar", measurements=MEASUREMENTS,
    estimates=ESTIMATES,
    takes=ShirtOptions,
    draft=draft,
)
