"""Double or single: a lay of an answer beside the same pieces spread the other ways."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.deadline import Deadline
from stash.fact import Fact, Term, Value, fact
from stash.lay import Budget, SpreadAnswer, compared
from stash.match.strip_lays import Table, at_origin
from stash.model import Laid, Spread

# Sweeps of all ways together, so that a busy machine answers the same, only later.
SWEEPS = 900
LONGEST_S = 6.0
"""For the ways that are not known yet, side by side: a person waits for them."""
ALIKE_MM = 5.0  # nobody chalks finer than this along a cut
WAYS = {
    Spread.OPEN: "open, in a single layer",
    Spread.LENGTHWISE: "folded lengthwise",
    Spread.CROSSWISE: "folded crosswise",
}


@dataclass(frozen=True, kw_only=True)
class Spreads:
    """``laid`` as it was answered, and every way to spread its cloth, ``laid``'s own among them."""

    laid: Laid
    ways: tuple[SpreadAnswer, ...]

    @property
    def own(self) -> SpreadAnswer:
        """The way of the lay itself."""
        return next(way for way in self.ways if way.spread is self.laid.lay.spread)

    @property
    def told(self) -> Fact:
        """What the handiest other way takes in length and in cuts, against the lay itself."""
        cuts = self.own.cuts or 0
        others = [w for w in self.ways if w.answer.lay and w.cuts and w is not self.own]
        if not others:
            return fact("spread_no_other_way")
        better = [w for w in others if (w.cuts or 0) < cuts or self._more_mm(w) <= -ALIKE_MM]
        if not better:
            return fact("spread_no_better")
        best = min(better, key=lambda w: (w.cuts or 0, self._more_mm(w)))
        more = self._more_mm(best)
        said: dict[str, Value] = {
            "way": Term(WAYS[best.spread]), "count": best.cuts, "own_cuts": cuts}
        if abs(more) < ALIKE_MM:
            return fact("spread_takes_as_much", **said)
        if more > 0:
            return fact("spread_takes_more", more_measure_mm=more, **said)
        return fact("spread_takes_less", less_measure_mm=-more, **said)

    def length_mm(self, way: SpreadAnswer) -> float | None:
        """What it takes; of a way that misses, the length it would take, where that is known."""
        if way.answer.lay:
            return way.answer.lay.length_mm
        short = way.answer.short_mm
        return None if short is None else at_origin(self.laid.cloth).length_mm + short

    def laid_so(self, spread: Spread) -> Laid | None:
        """The lay of one way on the same cut; None where there is none."""
        if spread is self.laid.lay.spread:
            return self.laid
        lay = next(way.answer.lay for way in self.ways if way.spread is spread)
        left, low, _, _ = self.laid.cloth.bounds_mm
        return replace(self.laid, lay=lay.shifted(left, low)) if lay else None

    def _more_mm(self, way: SpreadAnswer) -> float:
        return (self.length_mm(way) or 0.0) - (self.length_mm(self.own) or 0.0)


def spreads_of(laid: Laid, table: Table, longest_s: float = LONGEST_S) -> Spreads:
    """Every way to spread the cloth for this lay, by the maker's own margins."""
    left, low, _, _ = laid.cloth.bounds_mm
    task = table.task(
        laid.pieces, cloth=at_origin(laid.cloth), one_way=laid.one_way,
        repeat=laid.cut.cloth.repeat,
    )
    budget = Budget(iterations=SWEEPS, stop=Deadline.after(longest_s), workers=2)
    return Spreads(laid=laid, ways=compared(task, budget, laid.lay.shifted(-left, -low)))
