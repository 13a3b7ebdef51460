"""As far as it goes: the largest value of an option that still has a lay, cut by cut."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline, never
from stash.draft.catalogue import about
from stash.draft.garment import Measure
from stash.errors import InvalidInput
from stash.fact import Fact, Term, fact
from stash.match.cloth.shrinkage import WashHabit
from stash.match.cloth.suitability import suit_all
from stash.match.far.growing import COPIES, STEP_MM, Growing, can_grow, growing
from stash.match.far.reach import Ended, Reach, reach
from stash.match.far.trade_off import CurvePoint, curve, points_between
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.model import Cut, Laid, Spread
from stash.model.wire import lay_json, piece_json
from stash.store import Stash
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.settings import habits

# Halving stops when its seconds are over; as many again and more try a little farther.
POLISH_SHARE = 2.0
LEAST_SECONDS = 0.15


@dataclass(frozen=True, kw_only=True)
class Farther:
    """What is to grow, on one cut or on the whole stash, and for how long each is tried.

    ``against`` names a second option, whose values make a curve on the best cut.
    """

    grow: str
    against: str | None = None
    cut: str | None = None
    seconds: float = 1.0
    spread: Spread | None = Spread.OPEN
    stop: Callable[[], bool] = never
    progress: Callable[[int, int], None] = lambda done, of: None


@dataclass(frozen=True, kw_only=True)
class FartherAnswer:
    """The farthest of each cut that goes anywhere, best first, and the curve if asked for."""

    order: Order
    grow: str
    reaches: tuple[Reach, ...]
    against: str = ""
    curve: tuple[CurvePoint, ...] = field(default=())

    def laid(self, one: Reach) -> Laid:
        """One of the lays in the shape that pages draw."""
        return Laid(
            cut=one.cut, lay=one.lay, pieces=one.pieces, one_way=one.cut.cloth.one_way,
            garments=(self.order.drafted().planned,),
        )

    def named(self, key: str) -> Reach | None:
        """The reach of a cut by its code, or of a point of the curve, ``at-3``."""
        if key.startswith("at-") and key[3:].isdigit() and int(key[3:]) < len(self.curve):
            return self.curve[int(key[3:])].reach
        return next((one for one in self.reaches if one.cut.code == key), None)

    def told(self) -> list[Fact]:
        """One fact a cut, and one a point of the curve."""
        if not self.reaches:
            return [fact("far_nothing")]
        lines = [
            reach_told(one, f"{one.cut.code}  {one.cut.cloth.name}", self.grow)
            for one in self.reaches
        ]
        for point in self.curve:
            what = fact("far_against", option=Term(self.against), against_mm=point.against)
            lines.append(
                reach_told(point.reach, what, self.grow) if point.reach
                else fact("far_point_nothing", what=what)
            )
        return lines

    def to_json(self) -> dict[str, object]:
        """``{"answers": [{"cut", "option", "value_mm", ...}], "curve": [...]}``."""
        return {
            "garment": self.order.garment,
            "answers": [_reach_json(one, self.grow) for one in self.reaches],
            "against": self.against or None,
            "curve": [
                {"against_mm": point.against, **_reach_json(point.reach, self.grow)}
                for point in self.curve
            ],
        }


def ask_far(stash: Stash, order: Order, farther: Farther) -> FartherAnswer:
    """How far the option goes on each suitable free cut; InvalidInput says what can grow."""
    what = growing(order, farther.grow)
    table = habits(stash, farther.spread)
    cuts = _cuts(stash, order, farther)
    found = []
    for done, cut in enumerate(sorted(cuts, key=lambda c: -c.outline_washed.area_mm2)):
        if farther.stop():
            break
        farther.progress(done, len(cuts))
        one = reach(what, cut, table, _effort(farther))
        if one:
            found.append(one)
    found.sort(key=lambda r: (-r.value, r.cut.outline_washed.area_mm2))
    answer = FartherAnswer(order=order, grow=farther.grow, reaches=tuple(found))
    if not farther.against or not found:
        return answer
    points = _curve(order, farther, found[0].cut, stash)
    return replace(answer, against=farther.against, curve=points)


def reach_told(one: Reach, what: str | Fact, grow: str) -> Fact:
    """How far it goes, and whether a proof, the draft or the search ended it."""
    if grow == COPIES:
        return fact("far_found_count", what=what, count=round(one.value))
    if one.ended is Ended.OPTION:
        return fact("far_option_ends", what=what, value_mm=one.value)
    if one.proved_at_most is None:
        return fact("far_found", what=what, value_mm=one.value)
    kind = "far_proved" if one.ended is Ended.PROOF else "far_between"
    return fact(kind, what=what, value_mm=one.value, most_mm=one.proved_at_most)


def grows(order: Order) -> tuple[str, ...]:
    """What can grow of this garment."""
    return can_grow(order)


def _cuts(stash: Stash, order: Order, farther: Farther) -> tuple[Cut, ...]:
    free = free_stash(stash).washed(WashHabit.FIRST, presume=True).cuts
    if farther.cut is not None:
        code = stash.cuts.get(farther.cut).code
        free = tuple(cut for cut in free if cut.code == code)
    wants = {order.garment: order.drafted().pattern.wants}
    return tuple(cut for cut in free if suit_all(cut, wants).suits)


def _effort(farther: Farther) -> Effort:
    seconds = max(farther.seconds, LEAST_SECONDS)
    return Effort(
        halt=farther.stop,
        searching=lambda: Deadline.after(seconds),
        each=lambda: Deadline.after(seconds * POLISH_SHARE),
    )


def _curve(
    order: Order, farther: Farther, cut: Cut, stash: Stash
) -> tuple[CurvePoint, ...]:
    """The first option for several values of the second, between its ends."""
    name = str(farther.against)
    if name == farther.grow or name == COPIES:
        raise InvalidInput("cannot_grow_against_itself", typed=name, field="against")
    known = {o.name: o for o in about(order.garment).options if isinstance(o, Measure)}
    if order.pattern or name not in known:
        raise InvalidInput("cannot_grow", typed=name, known=tuple(known), field="against")
    range_ = _drafted_range(order, known[name])

    def at(value: float) -> Growing:
        return growing(order.with_options(**{name: value}), farther.grow)

    return curve(
        at, points_between(*range_, STEP_MM), cut, habits(stash, farther.spread), _effort(farther)
    )


def _drafted_range(order: Order, option: Measure) -> tuple[float, float]:
    """The part of an option's range that the draft accepts, found from its ends inwards."""
    def drafts(value: float) -> bool:
        try:
            order.with_options(**{option.name: value}).drafted()
        except InvalidInput:
            return False
        return True

    values = points_between(option.least_mm, option.most_mm, STEP_MM, 9)
    good = [value for value in values if drafts(value)]
    return (good[0], good[-1]) if good else (option.least_mm, option.most_mm)


def _reach_json(one: Reach | None, option: str) -> dict[str, object]:
    if one is None:
        return {"cut": None, "option": option, "value_mm": None, "lay": None, "pieces": []}
    counted = option == COPIES
    return {
        "cut": one.cut.code,
        "name": one.cut.cloth.name,
        "option": option,
        "count": round(one.value) if counted else None,
        "value_mm": None if counted else one.value,
        "proved_at_most_mm": None if counted else one.proved_at_most,
        "proved_at_most": one.proved_at_most if counted else None,
        "ended": one.ended.value,
        "lay": lay_json(one.lay),
        "pieces": [piece_json(piece) for piece in one.pieces],
    }
