"""One alteration done: the pieces that come of it, what is said of it, and what was proved."""

from __future__ import annotations

from dataclasses import dataclass
from math import sin

from stash.draft.altering.agreed import (
    Agreed,
    area_kept,
    edge_kept,
    edges_kept,
    facing_agrees,
    held,
    legs_agree,
    parts_agree,
    seam_agrees,
    wedge_mm2,
)
from stash.draft.altering.blend import blended, rounded
from stash.draft.altering.cut_panel import LineEnd, StyleLine, cut_panel, two_named, unfolded
from stash.draft.altering.edge_darts import (
    OpenDart,
    dart_at,
    darts_of,
    pinned,
    tip_short_mm,
)
from stash.draft.altering.facing import facing
from stash.draft.altering.gather_dart import gather_dart, gathered_mm
from stash.draft.altering.move_dart import move_dart
from stash.draft.altering.on_paper import OnPaper, whole_mm
from stash.draft.altering.rigid import opening_rad
from stash.draft.altering.ring import point_at, spot_on
from stash.draft.altering.slash_and_spread import Slashes, slash_lengths, spread
from stash.draft.altering.steps import (
    AddFacing,
    Alteration,
    CutFold,
    CutPanel,
    GatherDart,
    MoveDart,
    SlashAndSpread,
    Where,
)
from stash.draft.cutting_line import FOLD
from stash.draft.geometry import distance
from stash.fact import Fact, Term, fact
from stash.model import Part, Point

ALLOWANCE_MM = 15.0  # common practice, no source: where a piece has no seam to follow
PANEL_SEAM = "panel seam"
BLEND_MM = 40.0  # how far an edge is blended beside what opened in it: chosen here


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """``parts`` take the place of the piece, ``beside`` are new; ``seam`` is the one added."""

    parts: tuple[OnPaper, ...]
    said: Fact
    agreed: tuple[Agreed, ...]
    beside: tuple[OnPaper, ...] = ()
    seam: str = ""


def done(paper: OnPaper, step: Alteration) -> Outcome:
    """The alteration of this piece; InvalidInput when it cannot be made, or not exactly."""
    match step:
        case MoveDart():
            return _moved(paper, step)
        case GatherDart():
            return _gathered(paper, step)
        case CutPanel():
            return _cut(paper, step)
        case CutFold():
            return _unfolded(paper, step)
        case SlashAndSpread():
            return _spread(paper, step)
        case AddFacing():
            return _faced(paper, step)


def _moved(paper: OnPaper, step: MoveDart) -> Outcome:
    dart = dart_at(paper, step.dart.edge, step.dart.dart)
    to = spot_on(paper, step.to.edge, step.to.mm)
    after = move_dart(paper, dart, to, as_flare=step.as_flare)
    short, beyond = tip_short_mm(paper, dart), 0.0
    if step.as_flare:
        beyond = short * distance(dart.first, dart.last) / 2
        dart = pinned(paper, dart)
        gap = 2 * distance(point_at(paper.edges, to), dart.tip) * sin(_half_angle(dart))
        proofs = [
            *edges_kept(paper, after, but=[to.edge]), edge_kept(paper, after, to.edge, gap),
            area_kept(paper, [after], _isosceles_mm2(
                distance(point_at(paper.edges, to), dart.tip), 2 * _half_angle(dart)) - beyond),
        ]
        said = fact(_kind("dart_to_flare", paper), piece=paper.piece.name, edge=Term(dart.edge),
                    to=Term(to.edge), by_measure_mm=gap)
        smooth = blended(after, to.edge, 2 * gap + BLEND_MM)
        agreed = held([*proofs, edge_kept(after, smooth, to.edge)])
        return Outcome(parts=(smooth,), said=said, agreed=agreed)
    new = _new_dart(paper, after)
    wider = distance(new.first, new.last) - distance(dart.first, dart.last)
    proofs = [
        *edges_kept(paper, after), area_kept(paper, [after], wider * short / 2),
        legs_agree(after, new),
    ]
    said = fact("dart_moved", piece=paper.piece.name, edge=Term(dart.edge), to=Term(to.edge),
                intake_measure_mm=distance(new.first, new.last))
    return Outcome(parts=(after,), said=said, agreed=held(proofs))


def _kind(kind: str, paper: OnPaper) -> str:
    """What is said of a piece on the fold is true of each of its halves."""
    return f"{kind}_each_half" if paper.on_fold else kind


def _half_angle(dart: OpenDart) -> float:
    wide, leg = distance(dart.first, dart.last), distance(dart.first, dart.tip)
    return (opening_rad(dart.tip, dart.first, wide) or 0.0) / 2 if leg else 0.0


def _isosceles_mm2(leg_mm: float, rad: float) -> float:
    return leg_mm * leg_mm * sin(rad) / 2


def _new_dart(before: OnPaper, after: OnPaper) -> OpenDart:
    """The dart that was not there, the last of the marks."""
    mark = after.marks[-1]
    return next(d for d in darts_of(after) if d.mark is mark)


def _gathered(paper: OnPaper, step: GatherDart) -> Outcome:
    dart = dart_at(paper, step.dart.edge, step.dart.dart)
    after, more = gather_dart(paper, dart), gathered_mm(dart)
    added = wedge_mm2(dart.first, dart.tip, dart.last)
    proofs = [
        *edges_kept(paper, after, but=[dart.edge]), edge_kept(paper, after, dart.edge, more),
        area_kept(paper, [after], added),
    ]
    said = fact("dart_gathered", piece=paper.piece.name, edge=Term(dart.edge),
                by_measure_mm=more)
    return Outcome(parts=(after,), said=said, agreed=held(proofs))


def _cut(paper: OnPaper, step: CutPanel) -> Outcome:
    start, end = _end(paper, step.start), _end(paper, step.end)
    line = StyleLine(
        start=start, end=end, via=tuple(_point(paper, p) for p in step.via_mm),
        seam=_seam_name(paper), allowance_mm=_allowance(paper, step.allowance_mm),
    )
    parts = two_named(cut_panel(paper, line), (_at(paper, start), _at(paper, end)))
    proofs = [
        seam_agrees(*parts, line.seam),
        area_kept(paper, parts),
        *(parts_agree(paper, parts, e.name) for e in paper.edges if e.name != FOLD),
    ]
    said = fact("panel_cut", piece=paper.piece.name, parts=tuple(p.piece.name for p in parts),
                seam_measure_mm=whole_mm(parts[0].edge(line.seam)))
    agreed = held(proofs)
    if isinstance(start, OpenDart) and isinstance(end, OpenDart):
        parts = rounded(parts, line.seam)
        agreed = held([*proofs, seam_agrees(*parts, line.seam)])
    return Outcome(parts=parts, said=said, agreed=agreed, seam=line.seam)


def _end(paper: OnPaper, where: Where) -> LineEnd:
    if where.at_dart:
        return dart_at(paper, where.edge, where.dart)
    if where.edge == FOLD:
        paper.edge(FOLD)
    return spot_on(paper, where.edge, where.mm)


def _at(paper: OnPaper, end: LineEnd) -> Point:
    return end.first if isinstance(end, OpenDart) else point_at(paper.edges, end)


def _point(paper: OnPaper, via: Point) -> Point:
    """A point so far below the top and so far from the fold, or from the inner edge."""
    ring = paper.ring
    side = 1.0 if sum(y for _, y in ring) > 0 else -1.0
    inner = 0.0 if paper.on_fold else min((y for _, y in ring), key=lambda y: side * y)
    return min(x for x, _ in ring) + via[0], inner + side * via[1]


def _seam_name(paper: OnPaper) -> str:
    taken, number, name = {e.name for e in paper.edges}, 1, PANEL_SEAM
    while name in taken:
        number += 1
        name = f"{PANEL_SEAM} {number}"
    return name


def _allowance(paper: OnPaper, asked_mm: float | None) -> float:
    """As asked for, else what most of its seams have."""
    if asked_mm is not None:
        return asked_mm
    own = [e.allowance_mm for e in paper.edges if e.name != FOLD and not e.turned]
    return max(own, key=own.count, default=ALLOWANCE_MM)


def _unfolded(paper: OnPaper, step: CutFold) -> Outcome:
    part = paper.piece.part
    seam = f"centre {part.value}" if part in (Part.FRONT, Part.BACK) else "centre"
    after = unfolded(paper, seam, _allowance(paper, step.allowance_mm))
    proofs = [*edges_kept(paper, after), area_kept(paper, [after])]
    said = fact("fold_cut", piece=paper.piece.name,
                seam_measure_mm=whole_mm(after.edge(seam)))
    return Outcome(parts=(after,), said=said, agreed=held(proofs), seam=seam)


def _spread(paper: OnPaper, step: SlashAndSpread) -> Outcome:
    slashes = Slashes(hinge=step.hinge, edge=step.edge, cuts=step.cuts,
                      amount_mm=step.amount_mm, evenly=step.evenly)
    after = spread(paper, slashes)
    grown, reach = step.cuts * step.amount_mm, slash_lengths(paper, slashes)
    if step.evenly:
        added = sum(r * step.amount_mm for r in reach)
    else:
        added = sum(_isosceles_mm2(r, _rad(r, step.amount_mm)) for r in reach)
    proofs = [
        *edges_kept(paper, after, but=[step.edge, step.hinge]),
        edge_kept(paper, after, step.edge, grown),
        edge_kept(paper, after, step.hinge, grown if step.evenly else 0.0),
        area_kept(paper, [after], added),
    ]
    said = fact(_kind("piece_spread", paper), piece=paper.piece.name, edge=Term(step.edge),
                cuts=step.cuts, by_measure_mm=grown)
    smooth = after
    for edge in (step.edge, step.hinge):
        smooth = blended(smooth, edge, whole_mm(after.edge(edge)) / (step.cuts + 1))
    agreed = held([*proofs, *(edge_kept(after, smooth, e) for e in (step.edge, step.hinge))])
    return Outcome(parts=(smooth,), said=said, agreed=agreed)


def _rad(radius_mm: float, gap_mm: float) -> float:
    return opening_rad((0.0, 0.0), (radius_mm, 0.0), gap_mm) or 0.0


def _faced(paper: OnPaper, step: AddFacing) -> Outcome:
    new = facing(paper, step.edge, step.width_mm)
    said = fact("facing_added", piece=paper.piece.name, edge=Term(step.edge),
                width_measure_mm=step.width_mm)
    proofs = facing_agrees(paper, new, step.edge, step.width_mm)
    return Outcome(parts=(paper,), beside=(new,), said=said, agreed=held(proofs),
                   seam=step.edge)
