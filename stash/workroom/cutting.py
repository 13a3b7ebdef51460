"""Cutting a planned lay: the cloth it was held on becomes what is left, true to its shape."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import shapely
from shapely.geometry import Polygon

from stash.deadline import Deadline
from stash.errors import Conflict, NotFound
from stash.lay import Budget, LayTask, solve
from stash.lay.check import placed_polygon
from stash.ledger import CutHold, Event
from stash.ledger.leftover import leftover
from stash.ledger.shapes import from_polygon, polygon
from stash.model import Cut, Laid, Outline, Placement
from stash.store import Stash
from stash.workroom.questions.held import held_laid, laid_for_the_wash
from stash.workroom.questions.strayed import off_the_cloth, piece_of, shape_of
from stash.workroom.searching import SECONDS
from stash.workroom.settings import preferences


@dataclass(frozen=True)
class Done:
    """What she says was cut: only these pieces (none named: all), and these once more."""

    only: tuple[str, ...]
    again: tuple[str, ...]


def cut_plan(
    stash: Stash, name: str, code: str | None = None, token: str | None = None, *,
    only: Sequence[str] = (), again: Sequence[str] = (), labels: Sequence[str] = (),
) -> tuple[Event, ...]:
    """Record that the lays a plan holds were cut, on all its cuts or on one.

    It is one event with one undo, told cut by cut: of each, ``arrivals`` are the codes of
    its remnants. The plan's hold on that cloth ends; with ``only`` some pieces were cut and
    it holds the others still. A piece named in ``again`` was spoiled and cut once more, so
    the cloth of both is gone: Conflict when there is no room for it in what is left.
    ``labels`` are blank ones that were stuck on the remnants, the largest first.
    A piece is named as in the lay ("front#1"), or all its copies at once ("front").

    Conflict when it holds none, when the cloth has yet to be washed, or when the lay no
    longer lies on the cloth.
    """
    with stash.act(token) as act:
        if act.earlier:
            return _cut_by_cut(act.earlier)
        held = _held(stash, name, code)
        _refuse_unknown(stash, held, (*only, *again))
        blank = iter(labels)
        for cut, hold in held:
            _cut_one(stash, stash.cuts.get(cut), hold, Done(tuple(only), tuple(again)), blank)
        if not act.entries:
            raise Conflict("nothing_of_that_was_laid", plan=name)
    return _cut_by_cut(act.became)


def _held(stash: Stash, name: str, code: str | None) -> list[tuple[str, CutHold]]:
    plan = stash.plans.get(name)
    held = sorted(stash.plans.holdings(name).cuts.items())
    if code is not None:
        wanted = stash.cuts.get(code).code
        held = [(c, hold) for c, hold in held if c == wanted]
    if not held:
        raise Conflict("plan_holds_no_lay", plan=plan.name)
    return held


def _refuse_unknown(
    stash: Stash, held: Sequence[tuple[str, CutHold]], asked: Sequence[str]
) -> None:
    """NotFound for a piece that lies on none of these cuts."""
    if not asked:
        return
    laid = [held_laid(hold, stash.cuts.get(code)) for code, hold in held]
    names = [p.piece for one in laid if one for p in one.lay.placements]
    for name in asked:
        if not any(_named(piece, (name,)) for piece in names):
            raise NotFound("no_such_piece", typed=name, known=tuple(dict.fromkeys(names)))


def _named(piece: str, asked: Sequence[str]) -> bool:
    """Whether "front#2" is meant by one of these: itself, or "front" for all its copies."""
    wanted = {name.strip().casefold() for name in asked}
    return piece.casefold() in wanted or piece.rpartition("#")[0].casefold() in wanted


def _cut_by_cut(event: Event) -> tuple[Event, ...]:
    """What one event says of each cut that was cut out, with the remnants of that cut."""
    remnants = {code: event.change[code]["cut"]["came_from"] for code in event.arrivals}
    return tuple(
        replace(event, code=code, change={
            code: part, **{r: event.change[r] for r, parent in remnants.items() if parent == code}
        })
        for code, part in event.change.items() if code not in remnants
    )


def _cut_one(
    stash: Stash, cut: Cut, hold: CutHold, said: Done, blank: Iterator[str]
) -> None:
    if laid_for_the_wash(hold, cut):
        raise Conflict("wash_before_cutting", cut=cut.code)
    held = held_laid(hold, cut)
    if held is None:
        raise _stale(hold, cut)
    done = [p for p in held.lay.placements if not said.only or _named(p.piece, said.only)]
    if not done:
        return
    rest = [p for p in held.lay.placements if p not in done]
    gone = _laid(cut, hold, held, done)
    gone += _cut_again(cut, held, rest, gone, said.again)
    left = leftover(cut.outline, gone, least_mm=preferences(stash).remnant_mm,
                    keep=[shape_of(held, placement) for placement in rest])
    stash.cuts.cut_out(
        cut.code, left.rest, lay=hold.laid or hold.lay, plan=hold.plan,
        remnants=[(next(blank, None), outline) for outline in left.remnants],
        held=_still_held(hold, held, rest) if rest else None, waste_mm2=left.waste_mm2,
    )


def _laid(cut: Cut, hold: CutHold, held: Laid, done: Sequence[Placement]) -> list[Polygon]:
    """The pieces where they were laid; Conflict when they do not lie on the cloth."""
    if set(off_the_cloth(held)) & {placement.piece for placement in done}:
        raise _stale(hold, cut)
    return [shape_of(held, placement) for placement in done]


def _still_held(hold: CutHold, held: Laid, rest: Sequence[Placement]) -> CutHold:
    """The hold with only the pieces that are not cut yet."""
    lay = replace(held.lay, placements=tuple(rest))
    return replace(hold, laid=replace(held, lay=lay), lay=None)


def _cut_again(
    cut: Cut, held: Laid, rest: Sequence[Placement], gone: Sequence[Polygon],
    again: Sequence[str],
) -> list[Polygon]:
    """Where spoiled pieces were cut once more: in what neither cut nor held pieces need."""
    spoiled = [p.piece for p in held.lay.placements if again and _named(p.piece, again)]
    if not spoiled:
        return []
    taken = [*gone, *(shape_of(held, placement) for placement in rest)]
    free = shapely.difference(polygon(cut.outline), shapely.union_all(taken))
    pieces = [
        replace(piece_of(held, copy), name=copy.replace("#", " again "), quantity=1,
                mirrored_pair=False, match_points_mm=()) for copy in spoiled]
    for part in sorted(shapely.get_parts(free), key=lambda part: part.area):
        if not isinstance(part, Polygon) or part.area < sum(
                Outline(piece.outline_mm).area_mm2 for piece in pieces):
            continue
        task = LayTask(pieces=tuple(pieces), cloth=from_polygon(part), one_way=held.one_way)
        lay = solve(task, Budget(stop=Deadline.after(SECONDS["again"]))).lay
        if lay:
            named = {piece.name: piece for piece in pieces}
            return [placed_polygon(named[p.piece.rpartition("#")[0]], p) for p in lay.placements]
    raise Conflict("no_room_to_cut_again", pieces=tuple(spoiled), cut=cut.code)


def _stale(hold: CutHold, cut: Cut) -> Conflict:
    return Conflict("lay_is_stale", plan=hold.plan, cut=cut.code)
