"""Where nothing fits: the joins that the trade hides, tried one at a time, then in pairs.

What a draft can do by itself (a skirt in four panels) is among the changes and is tried
before. The piece that the proof names comes first, then the least harm. Each way is
screened before it is laid, first lays go before searches, and three fits are enough.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from stash.errors import InvalidInput
from stash.fact import fact
from stash.lay import Budget, LayAnswer, LayTask, first_lay, screen, solve
from stash.match.fit.question import Effort, Stop
from stash.match.piecing.seam_places import piecing_rules, places
from stash.match.piecing.split import Split, in_parts, joined, joins
from stash.match.rescue.changes import Attempt, Change, narrower_seams
from stash.match.rescue.rescues import Rescue
from stash.match.strip_lays import Strips, at_origin
from stash.model import Cut, Laid, Lay, Piece

ENOUGH = 3
MOST_PAIRS = 60
# A way that misses by more than this share of the cut is not searched for.
WITHIN_REACH = 0.25
SWEEPS = 250
LEGS = {"trousers", "shorts", "leggings"}

Way = tuple[Split, ...]


def pieced(
    attempt: Attempt, cut: Cut, effort: Effort, short_mm: float | None = None
) -> tuple[Rescue, ...]:
    """The rescues by one join or two, then with narrow seams besides; fits only.

    ``short_mm`` is what the answer says the cut is short by: savings are told against it.
    """
    stop = effort.stage()
    for base, before in _bases(attempt):
        bench = _Bench(base, before, cut, effort)
        found = bench.searched(stop)
        if found:
            return tuple(bench.rescue(way, lay, parts, short_mm) for way, lay, parts in found)
        if stop():
            break
    return ()


def _bases(attempt: Attempt) -> Iterator[tuple[Attempt, tuple[Change, ...]]]:
    """As it is, and with narrow seams where they are wider now."""
    yield attempt, ()
    for change in narrower_seams(attempt):
        try:
            yield change.apply(attempt), (change,)
        except InvalidInput:
            continue


_Found = tuple[Way, Lay, tuple[Piece, ...]]


@dataclass
class _Bench:
    """The whole pieces, drafted once, and every way to cut them in parts on one cut."""

    attempt: Attempt
    before: tuple[Change, ...]
    cut: Cut
    effort: Effort

    def __post_init__(self) -> None:
        self.outline = at_origin(self.cut.outline_washed)
        self.whole = self.attempt.pieces()
        legs = any(order.garment in LEGS for order in self.attempt.orders)
        named = self._named()
        splits = list(places(self.whole, trousers=legs))
        splits.sort(key=lambda s: (s.piece != named, piecing_rules()[s.place].harm))
        self.splits = splits

    def searched(self, stop: Stop) -> list[_Found]:
        """Up to three fits: singles before pairs, first lays before searches."""
        found: list[_Found] = []
        for ways in ([(one,) for one in self.splits], self._pairs()):
            near: list[tuple[float, Way, tuple[Piece, ...]]] = []
            for way in ways:
                if len(found) >= ENOUGH or stop():
                    return found
                parts = self._parts(way)
                if parts is None or screen(self._task(parts)) is not None:
                    continue
                answer = first_lay(self._task(parts))
                if answer.lay:
                    found.append((way, answer.lay, parts))
                elif answer.short_mm is not None:
                    near.append((answer.short_mm, way, parts))
            found += self._harder(near, ENOUGH - len(found), stop)
        return found

    def _harder(
        self, near: list[tuple[float, Way, tuple[Piece, ...]]], wanted: int, stop: Stop
    ) -> list[_Found]:
        """The ways that missed by least, searched for."""
        found: list[_Found] = []
        reach = WITHIN_REACH * self.outline.length_mm
        for short, way, parts in sorted(near, key=lambda n: n[0]):
            if len(found) >= wanted or short > reach or stop():
                break
            answer: LayAnswer = solve(
                self._task(parts), Budget(seed=self.effort.seed, iterations=SWEEPS, stop=stop)
            )
            if answer.lay:
                found.append((way, answer.lay, parts))
        return found

    def rescue(
        self, way: Way, lay: Lay, parts: tuple[Piece, ...], short_mm: float | None
    ) -> Rescue:
        """A fit told as a rescue: its changes, its lay, what it saves."""
        left, low, _, _ = self.cut.outline_washed.bounds_mm
        garments = tuple(order.drafted() for order in self.attempt.orders)
        pieces = {piece.name: piece for piece in self.whole}
        return Rescue(
            cut=self.cut, orders=self.attempt.orders, pieces=parts,
            changes=(*self.before, *(_change(pieces[s.piece], s, self.cut) for s in way)),
            saves_mm=max(self._before_mm(short_mm) - lay.length_mm, 0.0),
            laid=Laid(
                cut=self.cut, lay=lay.shifted(left, low), pieces=parts,
                garments=tuple(g.planned for g in garments), one_way=self.attempt.one_way,
            ),
            splits=joined(self.whole, way),
        )

    def _before_mm(self, short_mm: float | None) -> float:
        if short_mm is not None:
            return self.outline.length_mm + short_mm
        strip = Strips(self.whole, self.attempt.table).first(
            self.outline.width_mm, one_way=self.attempt.one_way, repeat=self.cut.cloth.repeat
        )
        return strip.lay.length_mm if strip.lay else self.outline.length_mm

    def _named(self) -> object:
        """The piece that the proof of "too small" names, if it names one."""
        impossible = screen(self._task(self.whole))
        return impossible.proof.values.get("piece") if impossible else None

    def _parts(self, way: Way) -> tuple[Piece, ...] | None:
        try:
            return tuple(part for piece in self.whole for part in in_parts(piece, way))
        except InvalidInput:
            return None

    def _pairs(self) -> list[Way]:
        """Two joins of two pieces, least harm first."""
        pairs = [(a, b) for a, b in combinations(self.splits, 2) if a.piece != b.piece]
        pairs.sort(key=lambda p: sum(piecing_rules()[s.place].harm for s in p))
        return list(pairs[:MOST_PAIRS])

    def _task(self, pieces: Sequence[Piece]) -> LayTask:
        return self.attempt.table.task(
            tuple(pieces), cloth=self.outline, one_way=self.attempt.one_way,
            repeat=self.cut.cloth.repeat,
        )


def _change(piece: Piece, split: Split, cut: Cut) -> Change:
    seams = joins(piece, split)
    matched = cut.cloth.repeat is not None
    return Change(
        kind="pieced",
        told=fact(
            f"pieced_{split.place.replace(' ', '_')}", piece=piece.name,
            parts=float(len(split.at_mm) + 1),
        ),
        costs=fact(
            "extra_seam_on_a_check" if matched else "extra_seam",
            count=len(seams) * piece.quantity,
            seam_mm=sum(seam.length_mm for seam in seams), allowance_mm=split.allowance_mm,
        ),
        apply=_with(split),
    )


def _with(split: Split) -> Callable[[Attempt], Attempt]:
    def apply(attempt: Attempt) -> Attempt:
        return replace(attempt, splits=(*attempt.splits, split))

    return apply
