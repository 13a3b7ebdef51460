"""How happenings change one cut of cloth."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from stash.errors import Conflict, Held, InvalidInput, NotEnough
from stash.fact import Term, fact
from stash.ledger.bites import Bite, End, bitten
from stash.ledger.event import Kind
from stash.ledger.selvedges import shifted as moved_along
from stash.ledger.selvedges import still_edges, stretched
from stash.ledger.shapes import (
    SLACK_MM,
    area_between_mm2,
    at_origin,
    checked,
    scaled,
    shortened,
    without_stretch,
)
from stash.model import Laid, Outline
from stash.model.exact import from_plain
from stash.model.outline import SelvedgeLine

LOST_MM2 = 100.0
"""A held stretch may lose this much to the rounding of a traced outline."""


@dataclass(frozen=True, kw_only=True)
class CutHold:
    """The stretch of a cut, along its length, that a plan holds, and its lay.

    ``lay`` is the lay as versions before 0.2 wrote it down.
    """

    plan: str
    from_mm: float
    to_mm: float
    laid: Laid | None = None
    lay: Mapping[str, Any] | None = None


@dataclass(frozen=True, kw_only=True)
class CutState:
    """A cut as the ledger knows it; ``cloth`` is the subject that describes the cloth.

    ``gone`` says what became of a cut that is no longer here ("used up",
    "given away", "sold", "joined", "discarded"); its last outline stays on record.
    ``lent`` names whoever has it meanwhile. ``selvedges_mm`` are the edges that are selvedge.
    ``width_presumed`` until somebody measures across it.
    """

    cloth: str
    outline: Outline
    washed: bool = False
    place: str | None = None
    acquired: str | None = None
    keep_for: str | None = None
    came_from: str | None = None
    gone: str | None = None
    holds: tuple[CutHold, ...] = ()
    lent: str | None = None
    selvedges_mm: tuple[SelvedgeLine, ...] = ()
    width_presumed: bool = False

    @property
    def free_outline(self) -> Outline | None:
        """The largest part that no plan holds; None when all of it is held."""
        free: Outline | None = self.outline
        for hold in self.holds:
            free = without_stretch(free, hold.from_mm, hold.to_mm) if free else None
        return free


def received(part: Mapping[str, Any]) -> CutState:
    """The cut that a receipt, or a cutting out that left a remnant, brings in."""
    state = from_plain(CutState, part)
    return _shaped(state, checked(state.outline))


def changed(state: CutState, kind: Kind, part: Mapping[str, Any], code: str) -> CutState:
    """The cut after this happening; Conflict or NotEnough when it cannot be."""
    if state.gone:
        raise Conflict("cut_gone", code=code, how=Term(state.gone))
    if kind not in STEPS:
        raise Conflict("not_for_cuts", what=kind.called)
    return STEPS[kind](state, part)


def _cut_off(state: CutState, part: Mapping[str, Any]) -> CutState:
    if "bites" in part:
        bites = from_plain(tuple[Bite, ...], part["bites"])
        return _reduced(state, bitten(state.outline, bites), state.holds, part)
    length = state.outline.length_mm
    left = part["left_mm"] if "left_mm" in part else length - part["length_mm"]
    if left < -SLACK_MM or left > length + SLACK_MM:
        raise _not_enough(part, length, left)
    if left <= SLACK_MM:
        _respect_holds(state, 0.0, part)
        return replace(state, gone="used up", holds=())
    if part.get("end") == End.NEAR:
        off = Bite(length_mm=length - left, end=End.NEAR)
        return _reduced(state, bitten(state.outline, (off,)), state.holds, part)
    _respect_holds(state, left, part)
    rest = shortened(state.outline, left)
    return replace(state, outline=rest, selvedges_mm=still_edges(state.selvedges_mm, rest))


def _not_enough(part: Mapping[str, Any], length: float, left: float) -> NotEnough:
    asked = part.get("length_mm", left)
    kind = "cannot_be_left" if "left_mm" in part else "cannot_be_cut_off"
    return NotEnough(
        fact(kind, wanted_length_mm=asked, there_length_mm=length), asked=asked, available=length)


def _respect_holds(state: CutState, left_mm: float, part: Mapping[str, Any]) -> None:
    holders = tuple(h.plan for h in state.holds if h.to_mm > left_mm + SLACK_MM)
    if holders and not part.get("despite_hold"):
        furthest = max(h.to_mm for h in state.holds)
        free = max(state.outline.length_mm - furthest, 0.0)
        held = fact("cut_held_in_part", plans=holders, free_length_mm=free)
        raise Held(held if free > SLACK_MM else fact("cut_held", plans=holders), plans=holders)


def _cut_out(state: CutState, part: Mapping[str, Any]) -> CutState:
    plan = part.get("plan")
    others = tuple(h for h in state.holds if h.plan != plan)
    if part.get("outline") is None:
        _respect_holds(replace(state, holds=others), 0.0, part)
        return replace(state, gone="used up", holds=())
    outline = checked(from_plain(Outline, part["outline"]))
    if outline.area_mm2 > state.outline.area_mm2 + 1:
        raise InvalidInput("more_left_than_there_was", field="outline")
    if part.get("held") is not None:  # some pieces only: the plan holds the others still
        others = (*others, replace(from_plain(CutHold, part["held"]), plan=str(plan)))
    return _reduced(state, outline, others, part)


def _reduced(
    state: CutState, outline: Outline, holds: tuple[CutHold, ...], part: Mapping[str, Any]
) -> CutState:
    """The cut with only this outline left; Held when that takes cloth that is held."""
    own = part.get("plan")
    taken = tuple(h for h in holds if h.plan != own and _loses(h, state.outline, outline))
    _respect_holds(replace(state, holds=taken), 0.0, part)
    x_min, y_min, _, _ = outline.bounds_mm
    kept = (_moved(hold, x_min, y_min) for hold in holds)
    left = tuple(hold for hold in kept if hold.to_mm > SLACK_MM)
    return replace(_shaped(state, outline), holds=left)


def _shaped(state: CutState, outline: Outline, selvedges: tuple[SelvedgeLine, ...] | None = None
            ) -> CutState:
    """The cut with this outline, moved to where a cut begins, and its selvedges along."""
    x_min, y_min, _, _ = outline.bounds_mm
    edges = still_edges(state.selvedges_mm if selvedges is None else selvedges, outline)
    return replace(state, outline=at_origin(outline),
                   selvedges_mm=moved_along(edges, -x_min, -y_min))


def _moved(hold: CutHold, x_mm: float, y_mm: float) -> CutHold:
    """The hold, and its lay, seen from where the cloth now begins."""
    lay = hold.lay
    if lay is not None and "placements" in lay:
        placements = [
            {**p, "x_mm": p["x_mm"] - x_mm, "y_mm": p["y_mm"] - y_mm} for p in lay["placements"]
        ]
        lay = {**lay, "placements": placements}
    return replace(
        hold, from_mm=max(hold.from_mm - x_mm, 0.0), to_mm=max(hold.to_mm - x_mm, 0.0), lay=lay,
        laid=hold.laid and hold.laid.shifted(-x_mm, -y_mm),
    )


def _loses(hold: CutHold, before: Outline, after: Outline) -> bool:
    had, has = (area_between_mm2(o, hold.from_mm, hold.to_mm) for o in (before, after))
    return had - has > LOST_MM2


def _remeasure(state: CutState, part: Mapping[str, Any]) -> CutState:
    told = part.get("selvedges_mm")
    lines = None if told is None else from_plain(tuple[SelvedgeLine, ...], told)
    shaped = _shaped(state, checked(from_plain(Outline, part["outline"])), lines)
    return replace(shaped, width_presumed=bool(part.get("width_presumed")))


def _wash(state: CutState, part: Mapping[str, Any]) -> CutState:
    if state.washed:
        raise Conflict("already_washed")
    if "outline" in part:
        outline = at_origin(checked(from_plain(Outline, part["outline"])))
    else:
        outline = scaled(state.outline, part["along"], part["across"])
    factor = outline.length_mm / state.outline.length_mm
    holds = tuple(
        replace(h, from_mm=h.from_mm * factor, to_mm=h.to_mm * factor) for h in state.holds
    )
    edges = stretched(state.selvedges_mm, factor, outline.width_mm / state.outline.width_mm)
    return replace(
        state, washed=True, outline=outline, holds=holds, selvedges_mm=edges,
        width_presumed=state.width_presumed and "outline" not in part)


def _move(state: CutState, part: Mapping[str, Any]) -> CutState:
    return replace(state, place=part["place"])


def _hold(state: CutState, part: Mapping[str, Any]) -> CutState:
    hold = from_plain(CutHold, part)
    length = state.outline.length_mm
    if not 0 <= hold.from_mm < hold.to_mm <= length + SLACK_MM:
        raise NotEnough(
            fact("length_cannot_be_held", wanted_length_mm=hold.to_mm, there_length_mm=length),
            asked=hold.to_mm, available=length,
        )
    others = tuple(h for h in state.holds if h.plan != hold.plan)
    crossing = tuple(
        h.plan for h in others
        if h.from_mm < hold.to_mm - SLACK_MM and hold.from_mm < h.to_mm - SLACK_MM
    )
    if crossing:
        raise Held(fact("already_held", plans=crossing), plans=crossing)
    return replace(state, holds=(*others, hold))


def _release(state: CutState, part: Mapping[str, Any]) -> CutState:
    kept = tuple(h for h in state.holds if h.plan != part["plan"])
    if len(kept) == len(state.holds):
        raise Conflict("plan_holds_none_of_cut", plan=part['plan'])
    return replace(state, holds=kept)


def _leave(why: str) -> Callable[[CutState, Mapping[str, Any]], CutState]:
    def step(state: CutState, part: Mapping[str, Any]) -> CutState:
        _respect_holds(state, 0.0, part)
        return replace(state, gone=why, holds=())

    return step


def _lend(state: CutState, part: Mapping[str, Any]) -> CutState:
    if state.lent:
        raise Conflict("already_lent", to=state.lent)
    _respect_holds(state, 0.0, part)
    return replace(state, lent=part["to"])


def _back(state: CutState, part: Mapping[str, Any]) -> CutState:
    if not state.lent:
        raise Conflict("not_lent")
    return replace(state, lent=None)


def _correct(state: CutState, part: Mapping[str, Any]) -> CutState:
    return replace(state, **part["set"])


STEPS: dict[Kind, Callable[[CutState, Mapping[str, Any]], CutState]] = {
    Kind.CUT_OFF: _cut_off,
    Kind.CUT_OUT: _cut_out,
    Kind.REMEASURE: _remeasure,
    Kind.WASH: _wash,
    Kind.MOVE: _move,
    Kind.HOLD: _hold,
    Kind.RELEASE: _release,
    Kind.GIFT: _leave("given away"),
    Kind.DISCARD: _leave("discarded"),
    Kind.SELL: _leave("sold"),
    Kind.JOIN: _leave("joined"),
    Kind.LEND: _lend,
    Kind.BACK: _back,
    Kind.CORRECTION: _correct,
}
