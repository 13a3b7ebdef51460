"""The cutting table of one question: its pieces, and everything known about laying them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from stash.lay import (
    Answer,
    LayTask,
    Verdict,
    check,
    first_lay,
    screen,
    screen_cuts,
    shortfall,
    solve,
)
from stash.match.fit.answers import Candidate
from stash.match.fit.question import Effort, Question, Stop
from stash.match.fit.ranking import Making, cost
from stash.match.gather import area_mm2
from stash.match.strip_lays import Strips, at_origin, shifted
from stash.model import Lay, Piece
from stash.units import format_length

# A stash this small is always laid whole, and each proof explained.
WHOLE_STASH = 150


class Bench:
    """One set of pieces and everything already known about laying them."""

    def __init__(self, question: Question, pieces: tuple[Piece, ...], effort: Effort):
        self.question = question
        self.pieces = pieces
        self.effort = effort
        self.area_mm2 = area_mm2(pieces)
        self.strips = Strips(pieces, question.table, seed=effort.seed)
        self._searched: set[str] = set()

    def screened(self, suited: Sequence[Candidate]) -> list[Candidate]:
        """What necessary conditions prove impossible, for all cuts at once."""
        outlines = [c.cut.outline_washed for c in suited]
        sizes = np.array([[o.length_mm, o.width_mm, o.area_mm2] for o in outlines]).reshape(-1, 3)
        sizes[:, :2] -= 2 * self.question.table.edge_mm
        one_way = np.array([c.cut.cloth.one_way for c in suited], bool)
        possible = np.ones(len(suited), bool)
        for way in (False, True):
            rows = one_way == way
            if rows.any():
                possible[rows] = screen_cuts(
                    self.pieces, sizes[rows, 0], sizes[rows, 1], one_way=way,
                    areas_mm2=sizes[rows, 2],
                    off_grain_deg=self.question.table.off_grain_deg,
                )
        return [
            c if can else self._impossible(c, explain=len(suited) <= WHOLE_STASH)
            for c, can in zip(suited, possible, strict=True)
        ]

    def _impossible(self, candidate: Candidate, *, explain: bool) -> Candidate:
        """Proved too small; the plainest proof is looked up only where it will be read."""
        proof = screen(self.task(candidate)) if explain else None
        reason = proof.reason if proof else "Too small: no arrangement of the pieces can fit."
        return replace(candidate, verdict=Verdict.IMPOSSIBLE, reason=reason)

    def laid(self, candidate: Candidate) -> Candidate:
        """A first lay at once; when it misses, by how much."""
        cloth, outline = candidate.cut.cloth, at_origin(candidate.cut.outline_washed)
        known = self.strips.known(
            outline.width_mm, one_way=cloth.one_way, repeat=cloth.repeat
        )
        if candidate.verdict is Verdict.IMPOSSIBLE:
            short = _short(known or self._strip(candidate), outline.length_mm)
            return replace(candidate, short_mm=short)
        for strip in (known, None):
            strip = strip or self._strip(candidate)
            if strip.lay and self._lies_on(candidate, strip.lay):
                return self.fitting(candidate, strip.lay)
        if outline.is_rectangle and strip.lay:
            return self.placed(candidate, strip)
        return self.judged(
            candidate, self._first(candidate), _short(strip, outline.length_mm)
        )

    def _lies_on(self, candidate: Candidate, lay: Lay) -> bool:
        """True when a strip's lay lies on this very cut as it is."""
        outline = at_origin(candidate.cut.outline_washed)
        if lay.length_mm > outline.length_mm + 1e-6:
            return False
        return outline.is_rectangle or not check(self.task(candidate), lay)

    def searched(self, candidate: Candidate, stage: Stop) -> Candidate:
        """The strong search: the shortest strip on a plain length, else on the very cut."""
        self._searched.add(candidate.cut.code)
        outline = at_origin(candidate.cut.outline_washed)
        if not outline.is_rectangle:
            answer = solve(self.task(candidate), self.effort.budget(stage))
            return self.judged(candidate, answer, candidate.short_mm)
        cloth = candidate.cut.cloth
        found = self.strips.best(
            outline.width_mm, self.effort.budget(stage), one_way=cloth.one_way,
            repeat=cloth.repeat,
        )
        return self.placed(candidate, found)

    def was_searched(self, candidate: Candidate) -> bool:
        """True when the strong search was already spent on this cut."""
        return candidate.cut.code in self._searched

    def placed(self, candidate: Candidate, strip: Answer | None) -> Candidate:
        """A plain length judged by a strip: it fits, or misses by so much."""
        length = candidate.cut.outline_washed.length_mm
        if not strip or not strip.lay:
            return candidate
        if strip.lay.length_mm <= length + 1e-6:
            shorter = not candidate.fits or strip.lay.length_mm < length - candidate.spare_mm
            return self.fitting(candidate, strip.lay) if shorter else candidate
        short = shortfall(strip.lay.length_mm - length)
        if candidate.verdict is Verdict.IMPOSSIBLE:
            return replace(candidate, short_mm=short)
        text = format_length(short, self.question.system)
        return replace(
            candidate, verdict=Verdict.NOT_FOUND, short_mm=short,
            reason=f"No lay was found: the shortest one known is {text} longer than the cut.",
        )

    def reviewed(self, candidate: Candidate) -> Candidate:
        """Judged again by what was found meanwhile for cuts of the same width or narrower."""
        cut = candidate.cut
        if candidate.verdict is None or not cut.outline_washed.is_rectangle:
            return candidate
        return self.placed(candidate, self.strips.known(
            cut.outline_washed.width_mm, one_way=cut.cloth.one_way, repeat=cut.cloth.repeat
        ))

    def judged(self, candidate: Candidate, answer: Answer, short: float | None) -> Candidate:
        """The candidate with what the lay room answered."""
        if answer.lay and answer.verdict is Verdict.FITS:
            return self.fitting(candidate, answer.lay)
        known = [s for s in (short, answer.short_mm) if s is not None]
        return replace(
            candidate, verdict=answer.verdict, reason=answer.reason,
            short_mm=min(known, default=None),
        )

    def fitting(self, candidate: Candidate, lay: Lay) -> Candidate:
        """A fit: the lay moved to where the cut begins, and what is left beyond it."""
        cut, question = candidate.cut, self.question
        outline = cut.outline_washed
        left, low, _, _ = outline.bounds_mm
        spare = max(outline.length_mm - lay.length_mm, 0.0)
        making = Making(
            pieces_mm2=self.area_mm2, soft=len(candidate.suitability.soft),
            garment=question.title,
        )
        price = cost(cut, lay, making, question.weights)
        spare_text = format_length(spare, question.system) if spare >= 1 else "nothing"
        return replace(
            candidate, verdict=Verdict.FITS, lay=shifted(lay, left, low), spare_mm=spare,
            short_mm=None, cost_m2=price.total_m2, reason=f"Fits with {spare_text} to spare.",
        )

    def task(self, candidate: Candidate) -> LayTask:
        """The lay on this cut, its outline moved to the origin."""
        cut = candidate.cut
        return self.question.table.task(
            self.pieces, cloth=at_origin(cut.outline_washed), one_way=cut.cloth.one_way,
            repeat=cut.cloth.repeat,
        )

    def _first(self, candidate: Candidate) -> Answer:
        return first_lay(self.task(candidate))

    def _strip(self, candidate: Candidate) -> Answer:
        cloth = candidate.cut.cloth
        return self.strips.first(
            candidate.cut.outline_washed.width_mm, one_way=cloth.one_way, repeat=cloth.repeat
        )


def _short(strip: Answer, length_mm: float) -> float | None:
    """How much longer than the cut the strip is; None when there is no strip, or it is not."""
    return shortfall(strip.lay.length_mm - length_mm) if strip.lay else None
