"""Saving the trip: what small change makes the garment come out of the cut after all.

Each change drafts again and lays again, and says exactly how much length it saves.
Single changes first, then pairs; both in the order a cutter would try them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.errors import InvalidInput
from stash.lay import Answer, Budget, LayTask, Verdict, screen, solve
from stash.match.fit.companion_cut import host
from stash.match.fit.fit import Effort
from stash.match.rescue.changes import Attempt, Change, changes
from stash.match.strip_lays import Strips, at_origin, shifted
from stash.model import Cut, Lay, Piece, Role
from stash.model.wire import lay_json, piece_json
from stash.units import System, format_length

# A strip this much longer than the cut is worth a strong search on the cut itself.
WITHIN_REACH = 0.06
SWEEPS = 300


@dataclass(frozen=True, kw_only=True)
class Rescue:
    """One or two changes tried on one cut.

    ``saves_mm`` is the length by which the shortest lay known on this width becomes
    shorter; ``short_mm`` what is then still missing, None when it fits.
    """

    cut: Cut
    changes: tuple[Change, ...]
    saves_mm: float
    fits: bool
    pieces: tuple[Piece, ...]
    lay: Lay | None = None
    short_mm: float | None = None
    moved_to: Cut | None = None
    moved_lay: Lay | None = None
    moved_pieces: tuple[Piece, ...] = ()

    @property
    def change(self) -> str:
        """What to do, one sentence a change."""
        return " ".join(c.says for c in self.changes)

    def says(self, system: System = System.METRIC) -> str:
        """The change, what it saves, and whether that is enough."""
        saved = f"It saves {format_length(self.saves_mm, system)}."
        if self.fits:
            return f"{self.change} {saved}"
        short = f" Still {format_length(self.short_mm, system)} short." if self.short_mm else ""
        return f"{self.change} {saved}{short}"

    def to_json(self) -> dict:
        """``{"cut", "change", "costs", "saves_mm", "fits", "short_mm", "lay", ...}``."""
        return {
            "cut": self.cut.code,
            "change": self.change,
            "costs": " ".join(c.costs for c in self.changes),
            "saves_mm": round(self.saves_mm, 1),
            "fits": self.fits,
            "short_mm": self.short_mm and round(self.short_mm, 1),
            "lay": lay_json(self.lay) if self.lay else None,
            "pieces": [piece_json(p) for p in self.pieces],
            "moved": self.moved_to and {
                "cut": self.moved_to.code,
                "lay": self.moved_lay and lay_json(self.moved_lay),
                "pieces": [piece_json(p) for p in self.moved_pieces],
            },
        }


def rescues(
    attempt: Attempt, cut: Cut, others: Sequence[Cut], effort: Effort
) -> tuple[Rescue, ...]:
    """Every change that saves cloth; pairs too when no small one is enough by itself."""
    doctor = _Doctor(attempt, cut, others, effort)
    known = changes(attempt, cut.cloth)
    hopeful, hopeless = doctor.sorted_out([(c,) for c in known if not c.drastic])
    found = doctor.tried(hopeful)
    if not any(r.fits for r in found):
        pairs, _ = doctor.sorted_out(_pairs(found, attempt, cut, doctor.missing_mm))
        found += doctor.tried(pairs)
    drastic, _ = doctor.sorted_out([(c,) for c in known if c.drastic])
    found += [*doctor.tried(drastic), *doctor.tried(hopeless)]
    return _ordered(found, [c.says for c in known])


def _pairs(
    small: Sequence[Rescue], attempt: Attempt, cut: Cut, missing_mm: float
) -> list[tuple[Change, ...]]:
    """Two small changes; those whose savings add up to what is missing come first."""
    saves = {r.changes[0].says: r.saves_mm for r in small}
    pairs = [
        (first, second)
        for first in (r.changes[0] for r in small)
        for second in _later(first, attempt, cut)
    ]
    return sorted(pairs, key=lambda p: sum(saves.get(c.says, 0.0) for c in p) < missing_mm)


def _later(first: Change, attempt: Attempt, cut: Cut) -> list[Change]:
    """The changes that come after ``first`` in a cutter's order and can be added to it."""
    order = [c.says for c in changes(attempt, cut.cloth)]
    try:
        after = changes(first.apply(attempt), cut.cloth)
    except InvalidInput:
        return []
    place = order.index(first.says)
    later = [c for c in after if c.says not in order or order.index(c.says) > place]
    return [c for c in later if c.kind != first.kind and not c.drastic]


def _ordered(found: Sequence[Rescue], order: Sequence[str]) -> tuple[Rescue, ...]:
    """What fits first, least harm first, each kind of change once; then what saves most."""
    def harm(rescue: Rescue) -> tuple:
        places = [order.index(c.says) if c.says in order else len(order) for c in rescue.changes]
        return any(c.drastic for c in rescue.changes), len(places), places

    fits: dict[tuple[str, ...], Rescue] = {}
    for rescue in sorted((r for r in found if r.fits), key=harm):
        told = [c.says if c.kind == "set" else c.kind for c in rescue.changes]
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


class _Doctor:
    """One cut that is too small, and what is known about laying on it."""

    def __init__(self, attempt: Attempt, cut: Cut, others: Sequence[Cut], effort: Effort):
        self.attempt = attempt
        self.cut = cut
        self.others = [o for o in others if o.code != cut.code]
        self.effort = effort
        self.stage = effort.stage()
        self.outline = at_origin(cut.outline_washed)
        self.before_mm = _length(self._strip(attempt, attempt.pieces()))

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
        found = None
        if case.moved:
            found = host(case.moved, self.cut, self.others, Role.CONTRAST, case.attempt.table)
            if found is None:
                return None
        lay = self._lay(case, strip)
        left, low, _, _ = self.cut.outline_washed.bounds_mm
        over = after - self.outline.length_mm
        return Rescue(
            cut=self.cut, changes=case.way, saves_mm=self.before_mm - after, fits=lay is not None,
            pieces=case.pieces, lay=lay and shifted(lay, left, low),
            short_mm=over if lay is None and over > 0 else None,
            moved_to=found and found[0], moved_lay=found and found[1], moved_pieces=case.moved,
        )

    def _task(self, case: _Case) -> LayTask:
        return case.attempt.table.task(
            case.pieces, cloth=self.outline, one_way=case.attempt.one_way,
            repeat=self.cut.cloth.repeat,
        )

    def _strip(self, attempt: Attempt, pieces: tuple[Piece, ...]) -> Answer:
        """The strip with and without changes gets the same search, so the saving is fair."""
        budget = Budget(seed=self.effort.seed, iterations=SWEEPS, stop=self.effort.halt)
        return Strips(pieces, attempt.table).best(
            self.outline.width_mm, budget, one_way=attempt.one_way, repeat=self.cut.cloth.repeat
        )

    def _lay(self, case: _Case, strip: Answer) -> Lay | None:
        """A lay on the cut itself: the strip's, or one searched for when it is within reach."""
        length = self.outline.length_mm
        strip_mm = _length(strip) or 0.0
        if self.outline.is_rectangle and strip_mm <= length:
            return strip.lay
        if strip_mm > length * (1 + WITHIN_REACH):
            return None
        answer = solve(self._task(case), self.effort.budget(self.stage))
        return answer.lay if answer.verdict is Verdict.FITS else None


def _length(answer: Answer) -> float | None:
    return answer.lay.length_mm if answer.lay else None
