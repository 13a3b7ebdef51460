"""How much cloth does it take? The shortest lay off the roll, before there is any cloth."""

from __future__ import annotations

from dataclasses import dataclass

from stash.deadline import Deadline
from stash.lay import Budget, LayAnswer
from stash.match.gather import gather, of_role
from stash.match.order import Order
from stash.match.strip_lays import Strips, Table
from stash.model import Piece, Repeat, Role


@dataclass(frozen=True, kw_only=True)
class Roll:
    """Cloth off the roll: usable width, direction and repeat."""

    width_mm: float
    one_way: bool = False
    repeat: Repeat | None = None


@dataclass(frozen=True, kw_only=True)
class NeedAnswer:
    """The shortest lay found on a roll, or the reason why there is none."""

    answer: LayAnswer
    pieces: tuple[Piece, ...]
    width_mm: float


def ask_need(
    orders: tuple[Order, ...], roll: Roll, table: Table, *, seconds: float = 3.0, workers: int = 1,
    role: Role = Role.MAIN,
) -> NeedAnswer:
    """The length these garments take on this roll, searched for some seconds."""
    pieces = of_role(gather([order.drafted() for order in orders]), role)
    strips = Strips(pieces, table, step_mm=0.0)
    budget = Budget(workers=workers, stop=Deadline.after(seconds))
    answer = strips.best(roll.width_mm, budget, one_way=roll.one_way, repeat=roll.repeat)
    return NeedAnswer(answer=answer, pieces=pieces, width_mm=roll.width_mm)
