"""The judging of cuts for one question: its pieces, and everything known about laying them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from stash import lay as room
from stash.lay import LayAnswer, LayTask, check, first_lay, screen, screen_cuts, shortfall, solve
from stash.match.cloth.shrinkage import unshrunk, will_shrink
from stash.match.fit.cut_verdicts import CutVerdict, Fits, Impossible, NoneFound
from stash.match.fit.fit_answer import Candidate
from stash.match.fit.question import Effort, Question, Stop
from stash.match.fit.ranking import Making, cost
from stash.match.gather import area_mm2
from stash.match.strip_lays import Strips, at_origin
from stash.model import Cut, Laid, Lay, Piece

# A stash this small is always laid whole, and each proof explained.
WHOLE_STASH = 150
TOUCH_MM = 1e-6


class Judging:
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
        proof = screen(self.task(candidate.cut)) if explain else None
        return replace(candidate, verdict=Impossible(proof=proof.proof if proof else None))

    def laid(self, candidate: Candidate) -> Candidate:
        """A first lay at once; when it misses, by how much."""
        cut, outline = candidate.cut, at_origin(candidate.cut.outline_washed)
        known = self._known(cut)
        if isinstance(candidate.verdict, Impossible):
            short = _short(known or self._strip(cut), outline.length_mm)
            return replace(candidate, verdict=replace(candidate.verdict, short_mm=short))
        strip: LayAnswer = self._strip(cut)
        for one in (known, strip):
            if one and one.lay and self._lies_on(cut, one.lay):
                return self.fitting(candidate, one.lay)
        if outline.is_rectangle and strip.lay:
            return self.placed(candidate, strip)
        return self.judged(
            candidate, first_lay(self.task(cut)), _short(strip, outline.length_mm)
        )

    def as_it_lies(self, candidate: Candidate) -> Candidate:
        """An unwashed cut that is too small once washed, laid as it lies: fits only unwashed."""
        if candidate.fits or not will_shrink(candidate.cut):
            return candidate
        bare = unshrunk(candidate.cut)
        found = self.laid(replace(candidate, cut=bare, verdict=NoneFound()))
        if not isinstance(found.verdict, Fits):
            return candidate
        return replace(candidate, verdict=replace(found.verdict, unwashed=True))

    def _lies_on(self, cut: Cut, lay: Lay) -> bool:
        """True when a strip's lay lies on this very cut as it is."""
        outline = at_origin(cut.outline_washed)
        if lay.length_mm > outline.length_mm + TOUCH_MM:
            return False
        return outline.is_rectangle or not check(self.task(cut), lay)

    def searched(self, candidate: Candidate, stage: Stop) -> Candidate:
        """The strong search: the shortest strip on a plain length, else on the very cut."""
        cut = candidate.cut
        self._searched.add(cut.code)
        if not cut.outline_washed.is_rectangle:
            answer = solve(self.task(cut), self.effort.budget(stage))
            return self.judged(candidate, answer, candidate.short_mm)
        found = self.strips.best(
            cut.outline_washed.width_mm, self.effort.budget(stage),
            one_way=cut.cloth.one_way, repeat=cut.cloth.repeat,
        )
        return self.placed(candidate, found)

    def was_searched(self, candidate: Candidate) -> bool:
        """True when the strong search was already spent on this cut."""
        return candidate.cut.code in self._searched

    def placed(self, candidate: Candidate, strip: LayAnswer | None) -> Candidate:
        """A plain length judged by a strip: it fits, or misses by so much."""
        length = candidate.cut.outline_washed.length_mm
        if not strip or not strip.lay:
            return candidate
        if strip.lay.length_mm <= length + TOUCH_MM:
            return self.fitting(candidate, strip.lay)
        short = shortfall(strip.lay.length_mm - length)
        if isinstance(candidate.verdict, Impossible):
            return replace(candidate, verdict=replace(candidate.verdict, short_mm=short))
        return replace(candidate, verdict=NoneFound(short_mm=short))

    def reviewed(self, candidate: Candidate) -> Candidate:
        """Judged again by what was found meanwhile for cuts of the same width or narrower."""
        unwashed = isinstance(candidate.verdict, Fits) and candidate.verdict.unwashed
        if not candidate.tried or unwashed or not candidate.cut.outline_washed.is_rectangle:
            return candidate
        return self.placed(candidate, self._known(candidate.cut))

    def judged(self, candidate: Candidate, answer: LayAnswer, short: float | None) -> Candidate:
        """The candidate with what the lay room answered."""
        if isinstance(answer, room.LayFound):
            return self.fitting(candidate, answer.lay)
        known = [s for s in (short, answer.short_mm) if s is not None]
        least = min(known, default=None)
        verdict: CutVerdict = (
            Impossible(proof=answer.proof, short_mm=least) if isinstance(answer, room.NoLayPossible)
            else NoneFound(short_mm=least, because=None if least else answer.because)
        )
        return replace(candidate, verdict=verdict)

    def fitting(self, candidate: Candidate, lay: Lay) -> Candidate:
        """A fit, its lay moved to where the cut begins; one that takes less is kept."""
        cut, question = candidate.cut, self.question
        left, low, _, _ = cut.outline_washed.bounds_mm
        laid = Laid(
            cut=cut, lay=lay.shifted(left, low), pieces=self.pieces, garments=question.planned,
            role=question.role, one_way=cut.cloth.one_way,
        )
        before = candidate.laid
        if before and before.lay.length_mm <= laid.lay.length_mm:
            return candidate
        making = Making(
            pieces_mm2=self.area_mm2, soft=candidate.suitability.soft,
            garments=question.names,
        )
        price = cost(cut, lay, making, question.weights)
        return replace(candidate, verdict=Fits(laid=laid, cost=price))

    def task(self, cut: Cut) -> LayTask:
        """The lay on this cut, its outline moved to the origin."""
        return self.question.table.task(
            self.pieces, cloth=at_origin(cut.outline_washed), one_way=cut.cloth.one_way,
            repeat=cut.cloth.repeat,
        )

    def _known(self, cut: Cut) -> LayAnswer | None:
        return self.strips.known(
            cut.outline_washed.width_mm, one_way=cut.cloth.one_way, repeat=cut.cloth.repeat
        )

    def _strip(self, cut: Cut) -> LayAnswer:
        return self.strips.first(
            cut.outline_washed.width_mm, one_way=cut.cloth.one_way, repeat=cut.cloth.repeat
        )


def _short(strip: LayAnswer, length_mm: float) -> float | None:
    """How much longer than the cut the strip is; None when there is no strip, or it is not."""
    return shortfall(strip.lay.length_mm - length_mm) if strip.lay else None

