"""Saving the trip: what small change makes the garment come out of the cut after all.

Each change drafts again and lays again, and says exactly how much length it saves.
Single changes first, then pairs; both in the order a cutter would try them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.lay import Budget, LayAnswer, LayTask, screen, shortfall, solve
from stash.match.fit.companion_cut import Beside, companion
from stash.match.fit.fit_answer import RoleLine
from stash.match.fit.question import Effort
from stash.match.order import Order
from stash.match.piecing.split import SplitLines, joined
from stash.match.rescue.changes import Attempt, Change, changes
from stash.match.strip_lays import Strips, at_origin
from stash.model import Cut, Laid, Lay, Piece, Role

# A strip this much longer than the cut is worth a strong search on the cut itself.
WITHIN_REACH = 0.06
SWEEPS = 300


@dataclass(frozen=True, kw_only=True)
class Rescue:
    """One or two changes tried on one cut, and the orders as they are then made.

    ``saves_mm`` is by how much the shortest lay known becomes shorter, ``short_mm`` what
    is then still missing, None when it fits: on a cut that is short by a length, what is
    saved and what is still short add up to it. ``beside`` is what another cut gives.
    """

    cut: Cut
    changes: tuple[Change, ...]
    orders: tuple[Order, ...]
    pieces: tuple[Piece, ...]
    saves_mm: float
    laid: Laid | None = None
    short_mm: float | None = None
    beside: RoleLine | None = None
    splits: tuple[SplitLines, ...] = ()

    @property
    def kind(self) -> str:
        """"pieced" where a piece is cut in parts, else the kind of its first change."""
        return "pieced" if self.splits else self.changes[0].kind

    @property
    def fits(self) -> bool:
        """True when there is a lay."""
        return self.laid is not None

    @property
    def drastic(self) -> bool:
        """True when it is another garment then."""
        return any(change.drastic for change in self.changes)

    @property
    def told(self) -> tuple[Fact, ...]:
        """What to do, one fact a change."""
        return tuple(change.told for change in self.changes)

    @property
    def costs(self) -> tuple[Fact, ...]:
        """What the garment loses by it."""
        return tuple(change.costs for change in self.changes)

    @property
    def saving(self) -> Fact:
        """What it saves, and whether that is enough."""
        if self.short_mm:
            return fact("saves_still_short", saves_mm=self.saves_mm, short_mm=self.short_mm)
        return fact("saves", saves_mm=self.saves_mm)


def rescues(
    attempt: Attempt, cut: Cut, others: Sequence[Cut], effort: Effort,
    short_mm: float | None = None,
) -> tuple[Rescue, ...]:
    """Every change that saves cloth; pairs too when no small one is enough by itself.

    ``short_mm`` is what the answer says the cut is short by: savings are told against it.
    """
    rescuer = _Rescuer(attempt, cut, others, effort, short_mm)
    known = changes(attempt, cut.cloth)
    hopeful, hopeless = rescuer.sorted_out([(c,) for c in known if not c.drastic])
    found = rescuer.tried(hopeful)
    if not any(r.fits for r in found):
        # What is too little alone may be half of what is enough.
        found += rescuer.tried(hopeless)
        hopeless = []
        pairs, _ = rescuer.sorted_out(_pairs(found, attempt, cut, rescuer.missing_mm))
        found += rescuer.tried(pairs)
    drastic, _ = rescuer.sorted_out([(c,) for c in known if c.drastic])
    found += [*rescuer.tried(drastic), *rescuer.tried(hopeless)]
    return _ordered(found, [c.told for c in known])


def _pairs(
    small: Sequence[Rescue], attempt: Attempt, cut: Cut, missing_mm: float
) -> list[tuple[Change, ...]]:
    """Two small changes; those whose savings add up to what is missing come first."""
    saves = {r.changes[0].told: r.saves_mm for r in small}
    pairs = [
        (first, second)
        for first in (r.changes[0] for r in small)
        for second in _later(first, attempt, cut)
    ]
    return sorted(pairs, key=lambda p: sum(saves.get(c.told, 0.0) for c in p) < missing_mm)


def _later(first: Change, attempt: Attempt, cut: Cut) -> list[Change]:
    """The changes that come after ``first`` in a cutter's order and can be added to it."""
    order = [c.told for c in changes(attempt, cut.cloth)]
    try:
        after = changes(first.apply(attempt), cut.cloth)
    except InvalidInput:
        return []
    place = order.index(first.told)
    later = [c for c in after if c.told not in order or order.index(c.told) > place]
    return [c for c in later if c.kind != first.kind and not c.drastic]


def _ordered(found: Sequence[Rescue], order: Sequence[Fact]) -> tuple[Rescue, ...]:
    """What fits first, least harm first, each kind of change once; then what saves most."""
    def harm(rescue: Rescue) -> tuple[bool, int, list[int]]:
        places = [order.index(c.told) if c.told in order else len(order) for c in rescue.changes]
        return any(c.drastic for c in rescue.changes), len(places), places

    fits: dict[tuple[object, ...], Rescue] = {}
    for rescue in sorted((r for r in found if r.fits), key=harm):
        told = [c.told if c.kind == "set" else c.kind for c in rescue.changes]
        fits.setdefault(tuple(told), rescue)
    rest = sorted((r for r in found if not r.fits), key=lambda r: -r.saves_mm)
    return (*fits.values(), *rest)


@dataclass(frozen=True)
class _Case:
    """Changes carried out: what is then laid on the cut, and what on another."""

    way: tuple[Change, ...]
    attempt: Attempt
    pieces: tuple[Piece, ...]
    moved: tuple[Piece, ...]


class _Rescuer:
    """One cut that is too small, and what is known about laying on it."""

    def __init__(
        self, attempt: Attempt, cut: Cut, others: Sequence[Cut], effort: Effort,
        short_mm: float | None,
    ):
        self.attempt = attempt
        self.cut = cut
        self.others = [o for o in others if o.code != cut.code]
        self.effort = effort
        self.stage = effort.stage()
        self.outline = at_origin(cut.outline_washed)
        self.before_mm = self._before(short_mm)

    def _before(self, short_mm: float | None) -> float | None:
        """Length of the lay unchanged: the cut and what is short, where length is short."""
        if short_mm is None:
            strip = _length(self._strip(self.attempt, self.attempt.pieces()))
            short_mm = strip and shortfall(strip - self.outline.length_mm)
            if short_mm is None:
                return strip
        return self.outline.length_mm + short_mm

    @property
    def missing_mm(self) -> float:
        """How much longer the lay is than the cut, unchanged."""
        return (self.before_mm or 0.0) - self.outline.length_mm

    def sorted_out(
        self, ways: Sequence[tuple[Change, ...]]
    ) -> tuple[list[_Case], list[_Case]]:
        """The ways carried out: those that may be enough, and those proved too little."""
        cases = [case for way in ways if not self.stage() and (case := self._case(way))]
        hopeful = [case for case in cases if not self._too_little(case)]
        return hopeful, [case for case in cases if case not in hopeful]

    def tried(self, cases: Sequence[_Case]) -> list[Rescue]:
        """The cases that save something, each laid, while there is time."""
        found = []
        for case in cases:
            if self.stage():
                break
            if rescue := self._laid(case):
                found.append(rescue)
        return found

    def _case(self, way: tuple[Change, ...]) -> _Case | None:
        """The changes carried out; None when a draft does not go that small."""
        attempt = self.attempt
        try:
            for change in way:
                attempt = change.apply(attempt)
            case = _Case(way, attempt, attempt.pieces(), attempt.moved())
        except InvalidInput:
            return None
        return case if case.pieces else None

    def _too_little(self, case: _Case) -> bool:
        """True when even with the changes no arrangement can fit."""
        return screen(self._task(case)) is not None

    def _laid(self, case: _Case) -> Rescue | None:
        strip = self._strip(case.attempt, case.pieces)
        after = _length(strip)
        if self.before_mm is None or after is None or self.before_mm - after < 1:
            return None
        garments = tuple(order.drafted() for order in case.attempt.orders)
        beside = None
        if case.moved:
            moved = Beside(role=Role.CONTRAST, pieces=case.moved, garments=garments)
            beside = companion(moved, self.cut, self.others, case.attempt.table)
            if beside is None:
                return None
        lay = self._lay(case, strip)
        left, low, _, _ = self.cut.outline_washed.bounds_mm
        short = None if lay else shortfall(after - self.outline.length_mm)
        return Rescue(
            cut=self.cut, changes=case.way, orders=case.attempt.orders, pieces=case.pieces,
            saves_mm=self.before_mm - (self.outline.length_mm + short if short else after),
            laid=None if lay is None else Laid(
                cut=self.cut, lay=lay.shifted(left, low), pieces=case.pieces,
                garments=tuple(g.planned for g in garments), one_way=case.attempt.one_way,
            ),
            short_mm=short, beside=beside,
            splits=joined(replace(case.attempt, splits=()).pieces(), case.attempt.splits)
            if case.attempt.splits else (),
        )

    def _task(self, case: _Case) -> LayTask:
        return case.attempt.table.task(
            case.pieces, cloth=self.outline, one_way=case.attempt.one_way,
            repeat=self.cut.cloth.repeat,
        )

    def _strip(self, attempt: Attempt, pieces: tuple[Piece, ...]) -> LayAnswer:
        """The strip with and without changes gets the same search, so the saving is fair."""
        budget = Budget(seed=self.effort.seed, iterations=SWEEPS, stop=self.effort.halt)
        return Strips(pieces, attempt.table).best(
            self.outline.width_mm, budget, one_way=attempt.one_way, repeat=self.cut.cloth.repeat
        )

    def _lay(self, case: _Case, strip: LayAnswer) -> Lay | None:
        """A lay on the cut itself: the strip's, or one searched for when it is within reach."""
        length = self.outline.length_mm
        strip_mm = _length(strip) or 0.0
        if self.outline.is_rectangle and strip_mm <= length:
            return strip.lay
        if strip_mm > length * (1 + WITHIN_REACH):
            return None
        return solve(self._task(case), self.effort.budget(self.stage)).lay


def _length(answer: LayAnswer) -> float | None:
    return answer.lay.length_mm if answer.lay else None
