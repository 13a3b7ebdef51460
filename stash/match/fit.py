"""Which cuts make these garments: sifted, screened, laid, and only then searched."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from stash.deadline import never
from stash.lay import Answer, Budget, LayTask, Verdict, check, first_lay, screen, screen_cuts, solve
from stash.match.answers import Candidate, Fit, SetAside
from stash.match.gather import Garment, area_mm2, gather, of_role
from stash.match.ranking import Weights, cost
from stash.match.sound import sound
from stash.match.strips import Strips, Table, at_origin, shifted
from stash.match.suitability import suit_all
from stash.model import Cut, Lay, Piece, Role
from stash.units import System, format_length

# A stash this small is always laid whole; a larger one until enough fits are found.
WHOLE_STASH = 150
# A miss beyond this share of the lay's length is not worth searching for.
NEAR_MISS = 0.3
# Utilisation a first lay reaches, for ordering only; home lays run 65 to 78 %
# (common practice, no source).
USUAL_UTILISATION = 0.72
# Where, in the order of widths, a large stash is first laid.
ANCHOR_WIDTHS = (0.9, 0.5, 0.1)


Progress = Callable[[Fit], None]
Stop = Callable[[], bool]


@dataclass(frozen=True, kw_only=True)
class Question:
    """The garments, the cuts as they are free, and how the maker lays and chooses.

    ``held_by`` names the plans that hold part of a cut, by its code.
    """

    garments: tuple[Garment, ...]
    cuts: tuple[Cut, ...]
    table: Table = field(default_factory=Table)
    weights: Weights = field(default_factory=Weights)
    held_by: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    system: System = System.METRIC
    role: Role = Role.MAIN

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The pieces that must come from one cut."""
        return of_role(gather(self.garments), self.role)

    @property
    def title(self) -> str:
        """"trousers", or "set" for several garments."""
        names = {g.name for g in self.garments}
        return names.pop() if len(names) == 1 else "set"


@dataclass(frozen=True, kw_only=True)
class Effort:
    """How much searching is allowed: the stop rules are made where the clock is.

    ``halt`` is the person's own stop. ``searching`` starts the clock of one stage (first
    lays of a large stash, then the strong searches together), ``each`` that of one
    strong search. ``most`` is how many contenders are searched, and how many fits are
    enough in a large stash.
    """

    halt: Stop = never
    searching: Callable[[], Stop] = lambda: never
    each: Callable[[], Stop] = lambda: never
    most: int = 10
    seed: int = 1
    workers: int = 1
    iterations: int | None = None

    def stage(self) -> Stop:
        """A stop rule for one stage, its clock starting now."""
        clock, halt = self.searching(), self.halt
        return lambda: clock() or halt()

    def budget(self, stage: Stop) -> Budget:
        """The budget of one strong search within a stage."""
        one = self.each()
        return Budget(
            seed=self.seed, workers=self.workers, iterations=self.iterations,
            stop=lambda: one() or stage(),
        )


def fit(question: Question, effort: Effort, progress: Progress | None = None) -> Fit:
    """Every cut judged: fits first, then what misses least; ``progress`` sees it improve."""
    pieces = question.pieces
    suited, aside = _sift(question)
    bench = Bench(question, pieces, effort)
    found = bench.screened(suited)

    def report() -> Fit:
        answer = Fit(pieces=pieces, candidates=_ordered(found), set_aside=aside)
        if progress:
            progress(answer)
        return answer

    _lay_contenders(bench, found, report)
    report()
    stage = effort.stage()
    _search_near_misses(bench, found, stage)
    _tighten_best(bench, found, stage)
    return report()


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
        for strip in (known, None):
            strip = strip or self._strip(candidate)
            if strip.lay and self._lies_on(candidate, strip.lay):
                return self.fitting(candidate, strip.lay)
        if outline.is_rectangle and strip.lay:
            return self.placed(candidate, strip)
        short = _short(strip, outline.length_mm)
        if candidate.verdict is Verdict.IMPOSSIBLE:
            return replace(candidate, short_mm=short)
        return self.judged(candidate, self._first(candidate), short)

    def _lies_on(self, candidate: Candidate, lay: Lay) -> bool:
        """True when a strip's lay lies on this very cut as it is."""
        outline = at_origin(candidate.cut.outline_washed)
        if candidate.verdict is Verdict.IMPOSSIBLE or lay.length_mm > outline.length_mm + 1e-6:
            return False
        return outline.is_rectangle or not check(self.task(candidate), lay)

    def searched(self, candidate: Candidate, stage: Stop) -> Candidate:
        """The strong search: the shortest strip on a plain length, else on the very cut."""
        self._searched.add(candidate.cut.code)
        outline = at_origin(candidate.cut.outline_washed)
        if not outline.is_rectangle:
            answer = sound(solve, self.task(candidate), self.effort.budget(stage))
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
        short = strip.lay.length_mm - length
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
        price = cost(
            cut, lay, self.area_mm2, soft=len(candidate.suitability.soft),
            garment=question.title, weights=question.weights,
        )
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
        return sound(lambda task, _: first_lay(task), self.task(candidate), Budget())

    def _strip(self, candidate: Candidate) -> Answer:
        cloth = candidate.cut.cloth
        return self.strips.first(
            candidate.cut.outline_washed.width_mm, one_way=cloth.one_way, repeat=cloth.repeat
        )


def _sift(question: Question) -> tuple[list[Candidate], tuple[SetAside, ...]]:
    wants = {g.name: g.pattern.wants for g in question.garments}
    suited, aside = [], []
    for cut in question.cuts:
        verdict = suit_all(cut, wants, system=question.system)
        if verdict.suits:
            held = tuple(question.held_by.get(cut.code, ()))
            suited.append(Candidate(
                cut=cut, verdict=None, reason="Not laid yet.", suitability=verdict, held_by=held
            ))
        else:
            aside.append(SetAside(cut=cut, suitability=verdict))
    return suited, tuple(aside)


def _lay_contenders(bench: Bench, found: list[Candidate], report: Callable[[], Fit]) -> None:
    """First lays in the order of likely cost; all of a small stash, enough of a large one.

    The first fit is reported at once, so that a person has something to look at.
    """
    large, effort = len(found) > WHOLE_STASH, bench.effort
    stop = effort.stage() if large else effort.halt
    if large:
        _lay_by_width(bench, found, stop)
    fits = sum(c.fits for c in found)
    if fits:
        report()
    order = [i for i, c in enumerate(found) if not c.fits]
    order.sort(key=lambda i: _likely(bench, found[i]))
    for place, i in enumerate(order):
        if stop() or (large and fits >= effort.most and place >= WHOLE_STASH):
            return
        found[i] = bench.laid(found[i])
        fits += found[i].fits
        if fits == 1 and found[i].fits:
            report()


def _lay_by_width(bench: Bench, found: list[Candidate], stop: Stop) -> None:
    """A few lays off the roll settle every plain length that is surely long enough.

    They are laid one way on widths spread over the stash, so that they lie on any
    plain cloth as wide or wider.
    """
    plain = [i for i, c in enumerate(found) if c.verdict is None
             and not c.cut.cloth.repeat and c.cut.outline_washed.is_rectangle]
    widths = sorted(found[i].cut.outline_washed.width_mm for i in plain)
    for share in ANCHOR_WIDTHS:
        if widths and not stop():
            bench.strips.first(widths[int(share * (len(widths) - 1))], one_way=True)
    for i in plain:
        outline, one_way = found[i].cut.outline_washed, found[i].cut.cloth.one_way
        known = bench.strips.known(outline.width_mm, one_way=one_way)
        if known and known.lay.length_mm <= outline.length_mm:
            found[i] = bench.fitting(found[i], known.lay)


def _likely(bench: Bench, candidate: Candidate) -> tuple[bool, bool, float]:
    """Proved impossible last, too short for a usual lay next, then least cloth beyond need."""
    outline = candidate.cut.outline_washed
    likely_mm2 = bench.area_mm2 / USUAL_UTILISATION
    beyond = outline.area_mm2 - likely_mm2
    return candidate.verdict is Verdict.IMPOSSIBLE, beyond < 0, abs(beyond)


def _search_near_misses(bench: Bench, found: list[Candidate], stage: Stop) -> None:
    """The cuts that miss by least, one after another; each lay found may serve others too."""
    for _ in range(bench.effort.most):
        near = [i for i, c in enumerate(found) if _near_miss(c) and not bench.was_searched(c)]
        if stage() or not near:
            break
        best = min(near, key=lambda i: found[i].short_mm or 0.0)
        found[best] = bench.searched(found[best], stage)
        found[:] = [bench.reviewed(c) for c in found]


def _near_miss(candidate: Candidate) -> bool:
    if candidate.verdict is not Verdict.NOT_FOUND:
        return False
    return (candidate.short_mm or 0.0) <= NEAR_MISS * candidate.cut.outline_washed.length_mm


def _tighten_best(bench: Bench, found: list[Candidate], stage: Stop) -> None:
    """The best fits searched for a shorter lay still, so that more is left."""
    best = sorted((i for i, c in enumerate(found) if c.fits), key=lambda i: found[i].cost_m2)
    for i in best[: (bench.effort.most + 1) // 2]:
        if stage():
            break
        if not bench.was_searched(found[i]) and found[i].cut.outline_washed.is_rectangle:
            found[i] = bench.searched(found[i], stage)
    found[:] = [bench.reviewed(c) for c in found]


def _ordered(found: Sequence[Candidate]) -> tuple[Candidate, ...]:
    def key(c: Candidate) -> tuple:
        short = float("inf") if c.short_mm is None else c.short_mm
        return (not c.fits, c.cost_m2, c.verdict is None, short, c.cut.code)

    return tuple(sorted(found, key=key))


def _short(strip: Answer, length_mm: float) -> float | None:
    """How much longer than the cut the strip is; None when there is no strip, or it is not."""
    if not strip.lay or strip.lay.length_mm <= length_mm:
        return None
    return strip.lay.length_mm - length_mm
