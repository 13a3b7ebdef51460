"""Leggings of a knit that stretches: one piece a leg, without a side seam; elastic in a casing.

One piece a leg about its middle line, each girth half to each side of it, and in from the thigh up
the rises (coolleggings.wordpress.com, undated); girths are cut smaller by the cloth's stretch,
lengths are not. The forks reach about half as far as a woven leg's (from memory). The seat's seam
is shorter than the body by what the cloth gives lengthwise.
x runs down from the waist, y from the back (negative) to the front.
Sizes and proportions are common practice, no source, where none is named.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.draft.body import Body
from stash.draft.body_table import crotch_round
from stash.draft.cloth_wants import LEGGINGS
from stash.draft.cutting_line import Edge
from stash.draft.garment import Garment, allowances, choice, fit, hem, measure
from stash.draft.geometry import (
    Path,
    back,
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
    thinned,
)
from stash.draft.knit_ease import (
    AlongStretch,
    KnitOptions,
    Stretched,
    along_asked,
    along_pct,
    asked,
    knit_seams,
    knit_thread,
    stretched,
    wants_stretch,
)
from stash.draft.panel import Cutting, Panel, joined
from stash.draft.safety import cautions_for
from stash.draft.sewing import Join
from stash.errors import InvalidInput
from stash.model import Mark, MarkKind, Part, Pattern, Point
from stash.notions.elastic import casing_allowance_mm, casing_mm, elastic_need

ESTIMATES = (
    "body_rise", "inside_leg", "thigh", "knee", "ankle", "foot_entry", "waist_to_hip",
)
PRESUMED_PCT, MOST_OFF_PCT = 40.0, 15.0  # common practice; suzannealise.com 2021
ALONG_PCT = 15.0  # what such cloth gives lengthwise: chosen here
ELASTIC_MM = 25.0  # common practice, no source
# Common practice, no source: where the seat lies, and how much the centre seams lean in.
BACK_MORE, FRONT_FORK, LEAST_FORK = 0.03, 0.34, 0.07
WAIST_IN_MOST, FRONT_IN, FRONT_DROP_MM, RAISE_MM = 0.1, 0.25, 12.0, (10.0, 90.0)
KNEE_UP_MM, CROTCH_DEEPER_MM = 50.0, 60.0


@dataclass(frozen=True, kw_only=True)
class LeggingsOptions(KnitOptions):
    """Options of leggings."""

    length: float | None = measure("finished length down the side, waist to hem", 250, 1300)
    hem: float = hem(20.0)
    rise: float = fit("deepen the crotch, for a longer rise", -20, 40)
    fuller_leg: float = fit("more room round thigh, knee and ankle", -20, 60)
    stretch_along: AlongStretch = choice(
        AlongStretch, "how far the cloth stretches along its length, in per cent"
    )


@dataclass(frozen=True, kw_only=True)
class KnitLeg:
    """What a leg is drafted from, mm: half girths as they are cut, and levels below the waist."""

    hip: float
    fork: float
    knee: float
    hem: float
    waist: float
    rise: float
    down: float
    knee_down: float
    raised: float = RAISE_MM[0]

    @property
    def front(self) -> float:
        """The front's share of the hip."""
        return self.hip * (0.5 - BACK_MORE)


@dataclass(frozen=True)
class LeggingsLines:
    """The edges of one leg, and the cloth it is drawn for."""

    cloth: Stretched
    leg: KnitLeg
    waist: Path
    front_crotch: Path
    front_inside: Path
    hem: Path
    back_inside: Path
    back_crotch: Path

    @property
    def crotch_mm(self) -> float:
        """The seam from the front waist to the back waist."""
        return length(self.front_crotch) + length(self.back_crotch)


def draw(body: Body, options: LeggingsOptions) -> LeggingsLines:
    """The leg, the seat raised and the crotch lowered until its seam is long enough."""
    cloth = stretched(options, PRESUMED_PCT, MOST_OFF_PCT)
    wanted = seat_mm(body, along_pct(options.stretch_along, ALONG_PCT)) + 2 * options.rise
    leg = _leg(body, options, cloth)

    def raised(mm: float) -> LeggingsLines:
        more = max(0.0, mm - RAISE_MM[1])
        return _drawn(cloth, replace(
            leg, raised=min(mm, RAISE_MM[1]), rise=leg.rise + more, down=max(
                leg.down, leg.rise + more + 60)))

    return raised(solve(
        lambda mm: raised(mm).crotch_mm - wanted, RAISE_MM[0], RAISE_MM[1] + CROTCH_DEEPER_MM))


def seat_mm(body: Body, along: float) -> float:
    """The seat's seam: the body's crotch length less what the cloth gives lengthwise."""
    measured = body.values.get("crotch_length") if "crotch_length" in body.given else None
    whole = measured or crotch_round(body.kind, body["hip"], body["body_rise"])
    return whole / (1 + along / 100)


def _leg(body: Body, options: LeggingsOptions, cloth: Stretched) -> KnitLeg:
    hip, thigh = cloth.girth(body["hip"]) / 2, cloth.girth(body["thigh"]) + options.fuller_leg
    down = options.length or body["body_rise"] + body["inside_leg"] - 30
    rise = body["body_rise"] + options.rise
    if down < rise + 60:
        raise InvalidInput(
            "shorts_too_short", asked_measure_mm=down, least_measure_mm=rise + 60, field="length",
        )
    passes = body["foot_entry"] / (1 + cloth.pct / 100)
    whole = body["body_rise"] + body["inside_leg"]
    knee_down = (rise + whole) / 2 - KNEE_UP_MM * min(1.0, body["inside_leg"] / 700)
    knee = cloth.girth(body["knee"]) + options.fuller_leg
    ankle = max(cloth.girth(body["ankle"]) + options.fuller_leg, passes)
    around = max(thigh - hip, LEAST_FORK * body["hip"])
    waist = max(cloth.girth(body["waist"]) / 2, (1 - WAIST_IN_MOST) * hip)
    leg = KnitLeg(
        hip=hip, fork=around, knee=min(max(knee, passes), 0.98 * (hip + around)), hem=ankle,
        waist=waist, rise=rise, down=down, knee_down=knee_down,
    )
    return _cut_short(leg, whole)


def _cut_short(leg: KnitLeg, whole: float) -> KnitLeg:
    """A hem above the ankle is as wide as the leg is there."""
    if leg.down >= whole - 60:
        return leg
    if leg.down > leg.knee_down + 40:
        part = (leg.down - leg.knee_down) / (whole - leg.knee_down)
        return replace(leg, hem=leg.knee + (leg.hem - leg.knee) * part)
    part = (leg.down - leg.rise) / (leg.knee_down + 40 - leg.rise)
    thigh = leg.hip + leg.fork
    return replace(leg, hem=thigh + (leg.knee - thigh) * part, knee_down=leg.down)


def _drawn(cloth: Stretched, leg: KnitLeg) -> LeggingsLines:
    fork_front = (leg.rise, leg.front + FRONT_FORK * leg.fork)
    in_all = leg.hip - leg.waist
    front_waist = (FRONT_DROP_MM, leg.front - FRONT_IN * in_all)
    back_waist = (-leg.raised, -(leg.hip - leg.front) + (1 - FRONT_IN) * in_all)
    front_inside = _inside(leg, fork_front, 1.0)
    wanted = length(front_inside)
    out = -(leg.hip - leg.front) - (1 - FRONT_FORK) * leg.fork

    def rear(drop: float) -> Path:
        return _inside(leg, (leg.rise + drop, out), -1.0)

    drop = solve(lambda mm: wanted - length(rear(mm)), -60.0, 0.5 * (leg.knee_down - leg.rise))
    back_inside = rear(drop)
    half = leg.hem / 2
    return LeggingsLines(
        cloth=cloth, leg=leg,
        waist=thinned(curve(
            back_waist, move(back_waist, across=0.3 * -back_waist[1], down=0.15 * leg.raised),
            move(front_waist, across=-0.4 * front_waist[1]), front_waist)),
        front_crotch=_crotch(leg, front_waist, fork_front, leg.front),
        front_inside=back(front_inside), hem=line((leg.down, half), (leg.down, -half)),
        back_inside=back_inside, back_crotch=back(_crotch(
            leg, back_waist, back_inside[-1], -(leg.hip - leg.front))),
    )


def _inside(leg: KnitLeg, fork: Point, side: float) -> Path:
    """From the hem to the knee, then hollowed up to the fork."""
    hem_at, knee = (leg.down, side * leg.hem / 2), (leg.knee_down, side * leg.knee / 2)
    if leg.knee_down >= leg.down - 1:
        return line(hem_at, fork)
    run = knee[0] - fork[0]
    up = between(knee, hem_at, -0.35 * run / max(1.0, hem_at[0] - knee[0]))
    return join(line(hem_at, knee), thinned(
        curve(knee, up, move(between(fork, knee, 0.3), across=-0.02 * side * run), fork)))


def _crotch(leg: KnitLeg, top: Point, fork: Point, at_hip: float) -> Path:
    """From the waist down the centre line, then round to the fork."""
    start = (leg.rise - max(0.22 * leg.rise, 1.1 * abs(fork[1] - at_hip)), at_hip)
    corner = crossing(top, start, fork, move(fork, across=1.0))
    reach = distance(between(start, fork), corner)
    return thinned(join(line(top, start), scoop(start, corner, fork, pull_mm=0.42 * reach)))


def draft(body: Body, options: LeggingsOptions) -> Pattern:
    """Draw, then cut out."""
    drawn = draw(body, options)
    options = replace(options, length=drawn.leg.down)
    panel = _panel(drawn, options)
    joins, finish = _joins(drawn), options.finish
    return Pattern(
        garment="leggings", pieces=(panel.piece(),), notions=(
            elastic_need(body["waist"], casing_mm(ELASTIC_MM)), *knit_thread(joins, finish)),
        seams=knit_seams(joins, finish), joins=(
            joined((panel, "back inside leg"), (panel, "front inside leg")),
            *(joined((panel, e), (panel, e)) for e in ("front crotch", "back crotch"))),
        wants=wants_stretch(
            LEGGINGS, drawn.cloth, along_pct(options.stretch_along, ALONG_PCT)),
        measurements_mm=dict(body.values), estimated=body.estimated,
        options=options.to_json(), cautions=cautions_for(body), facts=(
            *asked(drawn.cloth), *along_asked(options.stretch_along, ALONG_PCT)),
    )


def _panel(drawn: LeggingsLines, options: LeggingsOptions) -> Panel:
    allow, leg = allowances(options), drawn.leg
    edges = (
        Edge("waist", drawn.waist, casing_allowance_mm(ELASTIC_MM), turned=True),
        Edge("front crotch", drawn.front_crotch, allow.seam),
        Edge("front inside leg", drawn.front_inside, allow.seam),
        Edge("hem", drawn.hem, allow.hem, turned=allow.hem > 0),
        Edge("back inside leg", drawn.back_inside, allow.seam),
        Edge("back crotch", drawn.back_crotch, allow.seam),
    )
    half = 0.5 * length(drawn.front_inside)
    at_hip = (leg.rise - 0.24 * leg.rise, 0.0)
    return Panel(
        name="leg", edges=edges, cutting=Cutting(quantity=2, pair=True, part=Part.BODY),
        notches=(("front inside leg", half), ("front crotch", 0.5 * length(drawn.front_crotch))),
        doubles=(("back inside leg", length(drawn.back_inside) - half),
                 ("back crotch", 0.5 * length(drawn.back_crotch))),
        marks=(
            Mark(MarkKind.FOLD, drawn.waist),
            Mark(MarkKind.CROTCH, ((leg.rise, -leg.hip / 2), (leg.rise, leg.hip / 2))),
            Mark(MarkKind.CREASE, ((leg.rise, 0.0), (leg.down, 0.0))),
        ),
        match=at_hip,
    )


def _joins(drawn: LeggingsLines) -> list[Join]:
    return [
        Join("inside leg", length(drawn.front_inside), 2), Join("crotch", drawn.crotch_mm, 1),
        Join("waist", 2 * length(drawn.waist), 1, 0), Join("hem", length(drawn.hem), 2, 0),
    ]


GARMENT = Garment(
    name="leggings", title="Leggings", measurements=("hip", "waist"), estimates=ESTIMATES,
    takes=LeggingsOptions, draft=draft,
)
