"""What one needs at the table to cut a plan: what to fetch, how to spread it, where to chalk."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from stash.fact import Fact
from stash.lay import Position
from stash.model import Bin, Laid
from stash.store import Stash
from stash.store.naming import key_of
from stash.workroom.questions.drawing import positions
from stash.workroom.questions.held import laid_for_the_wash
from stash.workroom.questions.plan_view import show_plan
from stash.workroom.questions.since_held import drawn_since, short_bins
from stash.workroom.questions.strayed import strayed_from

APART = "|"


def apart(values: Iterable[str]) -> list[str]:
    """The pieces in such values, one by one."""
    return [piece for value in values for piece in value.split(APART) if piece]


@dataclass(frozen=True, kw_only=True)
class OnTheTable:
    """One cut on the table: its lay, and every piece in the order it is cut in.

    ``wash_first`` where the lay is for the cloth once washed and it is not washed yet;
    ``strayed`` says that the cloth does not bear the lay any more.
    """

    code: str
    laid: Laid
    positions: tuple[Position, ...]
    wash_first: bool
    strayed: tuple[Fact, ...]

    @staticmethod
    def copies(position: Position) -> str:
        """Every piece that one cut of the scissors gives (two on a fold), as one value."""
        name = position.piece.rpartition("#")[0]
        return APART.join(f"{name}#{number}" for number in position.copies)


@dataclass(frozen=True, kw_only=True)
class SetOut:
    """A bin to be set out, and how much of it the plan holds."""

    bin: Bin
    amount: float


@dataclass(frozen=True, kw_only=True)
class CuttingDay:
    """A plan at the cutting table; cuts and bins come in the order of their places."""

    plan: str
    tables: tuple[OnTheTable, ...]
    bins: tuple[SetOut, ...]
    since: tuple[Fact, ...]


def cutting_day(stash: Stash, name: str) -> CuttingDay:
    """What a plan holds, made ready to be fetched, spread and cut."""
    view = show_plan(stash, name)
    tables = []
    for code, laid in view.lays.items():
        cut, hold = stash.cuts.get(code), view.holdings.cuts[code]
        tables.append(OnTheTable(
            code=code, laid=laid, positions=positions(laid),
            wash_first=laid_for_the_wash(hold, cut), strayed=strayed_from(cut, (hold,))))
    bins = [
        SetOut(bin=stash.bins.get(code), amount=hold.amount)
        for code, hold in view.holdings.bins.items()
    ]
    return CuttingDay(
        plan=view.plan.name,
        tables=tuple(sorted(tables, key=lambda t: key_of(t.laid.cut.place or "~"))),
        bins=tuple(sorted(bins, key=lambda b: key_of(b.bin.place or "~"))),
        since=(*drawn_since(stash, view),
               *(one for said in short_bins(stash, view).values() for one in said)),
    )
