"""Garments laid together on one cut: the options that an assignment chooses from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from stash.lay import screen
from stash.match.cloth.suitability import suit_all
from stash.match.fit.cut_verdicts import NoneFound
from stash.match.fit.fit_answer import Candidate
from stash.match.fit.judging import Judging
from stash.match.fit.question import Effort, Question, Stop
from stash.match.gather import DraftedGarment
from stash.match.sharing.assign import LaidOption
from stash.model import Cut

# A set that misses by no more than this share of the cut is worth a search.
NEAR = 0.12
# Sweeps of one such search: there are many sets to lay, and another may serve as well.
SWEEPS = 200


class LaidOptions:
    """What was laid for one question: each set of garments on each cut once."""

    def __init__(self, question: Question, effort: Effort, garments: dict[str, DraftedGarment]):
        self.question = question
        self.effort = replace(effort, iterations=effort.iterations or SWEEPS)
        self.garments = garments
        self.cuts = {cut.code: cut for cut in question.cuts}
        self.options: dict[tuple[str, frozenset[str]], LaidOption] = {}
        self.short: dict[tuple[str, frozenset[str]], float | None] = {}

    def laid(self, code: str, names: Sequence[str], stop: Stop) -> LaidOption | None:
        """The option of these garments from this cut; None when no lay was found."""
        key = (code, frozenset(names))
        if key not in self.options and key not in self.short:
            found = self._candidate(self.cuts[code], names, stop)
            if found.laid:
                self.options[key] = LaidOption(code, key[1], found.cost_m2, found.laid)
            else:
                self.short[key] = found.short_mm
        return self.options.get(key)

    def _candidate(self, cut: Cut, names: Sequence[str], stop: Stop) -> Candidate:
        drafts = dict(zip(self.garments, self.question.garments_on(cut.code), strict=True))
        own = tuple(drafts[name] for name in names)
        question = replace(self.question, garments=own, cuts=(cut,), own={})
        judging = Judging(question, question.pieces, self.effort)
        wants = {g.name: g.pattern.wants for g in own}
        candidate = Candidate(cut=cut, suitability=suit_all(cut, wants))
        if screen(judging.task(cut)) is not None:
            return candidate
        found = judging.laid(candidate)
        near = (found.short_mm or 0.0) <= NEAR * cut.outline_washed.length_mm
        if isinstance(found.verdict, NoneFound) and near and not stop():
            found = judging.searched(found, stop)
        return found
