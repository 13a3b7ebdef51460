"""Pleats at a waist: how many, how deep, and where they are folded, so that they take in exactly
what the panels are wider than the waist.

A knife pleat takes in twice its depth. A box pleat folds back at both its edges, each by its depth
and out again, so it takes in four times its depth (arithmetic). Pleats deeper than what shows
between them would overlap behind.
"""

from __future__ import annotations

from dataclasses import dataclass

from stash.model import Mark, MarkKind

FOLDS = {"knife": 2, "box": 4}


@dataclass(frozen=True, kw_only=True)
class Pleats:
    """Pleats round a waist, mm: their kind, how many go round, how deep each folds back."""

    kind: str
    count: int
    depth: float
    waist: float

    @property
    def shows(self) -> float:
        """What is seen of one pleat at the waist."""
        return self.waist / self.count

    @property
    def each_takes(self) -> float:
        """What one pleat takes in."""
        return FOLDS[self.kind] * self.depth

    @property
    def taken(self) -> float:
        """What all pleats take in."""
        return self.count * self.each_takes

    @property
    def flat(self) -> float:
        """The waist before it is pleated."""
        return self.waist + self.taken

    @property
    def deepest(self) -> float:
        """How deep a pleat can be before it overlaps the next one behind."""
        return self.shows if self.kind == "knife" else self.shows / 2


def fold_lines(p: Pleats, panels: int, down: float) -> tuple[Mark, ...]:
    """The lines of one panel's pleats, from the seam at y = 0: each is folded along one line and
    laid on another. The seams between panels lie hidden behind the pleats.
    """
    inside = p.each_takes / 2
    marks = []
    for i in range(p.count // panels):
        start = i * (p.shows + p.each_takes)
        left, right = start + inside, start + inside + p.shows
        folds, laid = ([left], [right]) if p.kind == "knife" else ([left, right], [])
        if p.kind == "box" and i:
            laid.append(start)
        marks += [_line(MarkKind.PLEAT_FOLD, y, down) for y in folds]
        marks += [_line(MarkKind.PLEAT_TO, y, down) for y in laid]
    return tuple(marks)


def _line(kind: MarkKind, across: float, down: float) -> Mark:
    return Mark(kind, ((0.0, across), (down, across)))
