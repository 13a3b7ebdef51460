"""As far as it goes: the largest value of an option that still has a lay, cut by cut."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from stash.deadline import Deadline, Stopwatch, never
from stash.draft.catalogue import about
from stash.draft.garment import Measure
from stash.errors import InvalidInput
from stash.fact import Fact, Term, fact
from stash.match.cloth.shrinkage import WashHabit
from stash.match.cloth.suitability import suit_all
from stash.match.far.growing import COPIES, STEP_MM, Growing, can_grow, growing
from stash.match.far.over_cuts import Seconds, over_cuts
from stash.match.far.reach import Ended, Growth, Reach, grow_on
from stash.match.far.trade_off import CurvePoint, curve, points_between
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.strip_lays import Table
from stash.model import Cut, Spread
from stash.model.wire import lay_json, piece_json
from stash.store import Stash
from stash.workroom.questions.free_stock import free_stash
from stash.workroom.searching import SECONDS
from stash.workroom.settings import habits

# Of the seconds for one cut a third halves; the rest tries a little farther.
HALVING_SHARE = 1 / 3
LEAST_SECONDS = 0.15
# Of the seconds for one cut, what each point of a curve on it gets.
POINT_SHARE = 1 / 3


@dataclass(frozen=True, kw_only=True)
class Farther:
    """What is to grow, on one cut or on the whole stash, and how long the question may take.

    ``seconds`` None: the usual time of one cut or of a stash. ``against`` names a second
    option, whose values make a curve on the best cut, in time of its own. ``found`` is told
    the answer so far whenever a cut goes farther.
    """

    grow: str
    against: str | None = None
    cut: str | None = None
    seconds: float | None = None
    spread: Spread | None = Spread.OPEN
    stop: Callable[[], bool] = never
    found: Callable[[FartherAnswer], None] = lambda answer: None

    @property
    def time_s(self) -> float:
        """The seconds of the whole question."""
        usual = SECONDS["far"] if self.cut is None else SECONDS["far_on_one"]
        return max(usual if self.seconds is None else self.seconds, LEAST_SECONDS)


@dataclass(frozen=True, kw_only=True)
class FartherAnswer:
    """The farthest of each cut that goes anywhere, best first, and the curve if asked for.

    ``suitable`` cuts there are; ``tried`` of them were laid, the others not
    for want of time. ``took_s`` is how long it was looked for.
    """

    order: Order
    grow: str
    reaches: tuple[Reach, ...]
    suitable: int = 0
    tried: int = 0
    took_s: float = 0.0
    against: str = ""
    curve: tuple[CurvePoint, ...] = field(default=())

    def named(self, key: str) -> Reach | None:
        """The reach of a cut by its code, or of a point of the curve, ``at-3``."""
        if key.startswith("at-") and key[3:].isdecimal() and int(key[3:]) < len(self.curve):
            return self.curve[int(key[3:])].reach
        return next((one for one in self.reaches if one.cut.code == key), None)

    def told(self) -> list[Fact]:
        """One fact a cut, and one a point of the curve."""
        if not self.reaches:
            return [fact("far_nothing"), *self.effort_told()]
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
        return [*lines, *self.effort_told()]

    def effort_told(self) -> list[Fact]:
        """How long it was looked for, what holds nothing, and what there was no time for."""
        told = [fact("far_took", count=max(1, round(self.took_s)))]
        if none := self.tried - len(self.reaches):
            told.append(fact("far_none_on", count=none))
        if untried := self.suitable - self.tried:
            told.append(fact("far_untried", count=untried))
        return told

    def to_json(self) -> dict[str, object]:
        """``{"answers": [{"cut", "option", "value_mm", ...}], "curve": [...]}``."""
        return {
            "garment": self.order.garment,
            "answers": [_reach_json(one, self.grow) for one in self.reaches],
            "suitable": self.suitable,
            "untried": self.suitable - self.tried,
            "took_s": round(self.took_s, 1),
            "against": self.against or None,
            "curve": [
                {"against_mm": point.against, **_reach_json(point.reach, self.grow)}
                for point in self.curve
            ],
        }


def ask_far(stash: Stash, order: Order, farther: Farther) -> FartherAnswer:
    """How far the option goes on each suitable free cut; InvalidInput says what can grow."""
    what = growing(order, farther.grow)
    table, cuts = habits(stash, farther.spread), suitable_cuts(stash, order, farther.cut)
    watch = Stopwatch()

    def answered(growths: Sequence[Growth]) -> FartherAnswer:
        planned = (order.drafted().planned,)
        found = [one for growth in growths if (one := growth.reach(planned))]
        found.sort(key=lambda r: (-r.value, r.cut.outline_washed.area_mm2))
        return FartherAnswer(
            order=order, grow=farther.grow, reaches=tuple(found), suitable=len(cuts),
            tried=sum(growth.looked for growth in growths), took_s=watch.seconds,
        )

    if len(cuts) == 1:
        answer = answered([_on_one(what, cuts[0], table, farther)])
    else:
        answer = answered(over_cuts(
            what, cuts, table, _seconds(farther), lambda g: farther.found(answered(g))
        ))
    if not farther.against or not answer.reaches:
        return answer
    points = _curve(order, farther, answer.reaches[0].cut, stash)
    return replace(answer, against=farther.against, curve=points, took_s=watch.seconds)


def _on_one(what: Growing, cut: Cut, table: Table, farther: Farther) -> Growth:
    return grow_on(what, cut, table, _effort(farther, farther.time_s))


def _seconds(farther: Farther) -> Seconds:
    end = Deadline.after(farther.time_s)
    return Seconds(share=end.share, over=end, halt=farther.stop)


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


def suitable_cuts(stash: Stash, order: Order, only: str | None = None) -> tuple[Cut, ...]:
    """The free cuts whose cloth will do for it, each as it will be once washed."""
    free = free_stash(stash).washed(WashHabit.FIRST, presume=True).cuts
    if only is not None:
        code = stash.cuts.get(only).code
        free = tuple(cut for cut in free if cut.code == code)
    wants = {order.garment: order.drafted().pattern.wants}
    return tuple(cut for cut in free if suit_all(cut, wants).suits)


def _effort(farther: Farther, seconds: float) -> Effort:
    halving = seconds * HALVING_SHARE
    return Effort(
        halt=farther.stop,
        searching=lambda: Deadline.after(halving),
        each=lambda: Deadline.after(seconds - halving),
    )


def _curve(
    order: Order, farther: Farther, cut: Cut, stash: Stash
) -> tuple[CurvePoint, ...]:
    """The first option for several values of the second, between its ends."""
    name = str(farther.against)
    if name == farther.grow or name == COPIES:
        raise InvalidInput("cannot_grow_against_itself", typed=name, field="against")
    known = {} if order.pattern else {
        o.name: o for o in about(order.garment).options if isinstance(o, Measure)}
    if name not in known:
        raise InvalidInput("cannot_grow", typed=name, known=tuple(known), field="against")
    range_ = _drafted_range(order, known[name])
    seconds = POINT_SHARE * min(farther.time_s, SECONDS["far_on_one"])

    def at(value: float) -> Growing:
        return growing(order.with_options(**{name: value}), farther.grow)

    return curve(
        at, points_between(*range_, STEP_MM), cut, habits(stash, farther.spread),
        _effort(farther, seconds),
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
        "lay": lay_json(one.laid.lay),
        "pieces": [piece_json(piece) for piece in one.laid.pieces],
    }
