"""Which cuts make these garments: sifted, screened, laid, and only then searched."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.errors import StashError
from stash.match.cloth.suitability import suit_all
from stash.match.fit.cut_verdicts import Fits, Impossible, NoneFound, NotJudged
from stash.match.fit.fit_answer import Candidate, Fit, SetAside
from stash.match.fit.judging import WHOLE_STASH, Judging
from stash.match.fit.question import Effort, Question, Stop

__all__ = ["Effort", "FitProgress", "Question", "fit", "merged"]

FitProgress = Callable[[Fit], None]
# A miss beyond this share of the lay's length is not worth searching for.
NEAR_MISS = 0.3
# No cloth loses more than this in the wash: a larger miss is none of the wash's doing.
MOST_SHRINKAGE = 0.2
# Utilisation a first lay reaches, for ordering only; home lays run 65 to 78 %
# (common practice, no source).
USUAL_UTILISATION = 0.72
# Where, in the order of widths, a large stash is first laid.
ANCHOR_WIDTHS = (0.9, 0.5, 0.1)


def fit(question: Question, effort: Effort, progress: FitProgress | None = None) -> Fit:
    """Every cut judged: fits first, then what misses least; ``progress`` sees it improve."""
    suited, aside = _sift(question)
    judging = Judging(question, question.pieces, effort)
    found = judging.screened(suited)

    def report() -> Fit:
        answer = Fit(
            garments=question.garments, pieces=question.pieces, candidates=_ordered(found),
            set_aside=aside,
        )
        if progress:
            progress(answer)
        return answer

    _lay_contenders(judging, found, report)
    report()
    stage = effort.stage()
    _search_near_misses(judging, found, stage)
    _tighten_best(judging, found, stage)
    _try_unwashed(judging, found)
    return report()


def merged(found: Sequence[Fit]) -> Fit:
    """Several answers about different cuts as one; its garments are as the best cut has them."""
    candidates = _ordered([c for one in found for c in one.candidates])
    best = next(iter(candidates), None)
    whose = next((one for one in found if best in one.candidates), found[0])
    return replace(
        whose, candidates=candidates, set_aside=tuple(s for one in found for s in one.set_aside),
    )


def _sift(question: Question) -> tuple[list[Candidate], tuple[SetAside, ...]]:
    wants = {g.name: g.pattern.wants for g in question.garments}
    suited, aside = [], []
    for cut in question.cuts:
        suitability = suit_all(cut, wants)
        if suitability.suits:
            held = tuple(question.held_by.get(cut.code, ()))
            suited.append(Candidate(cut=cut, suitability=suitability, held_by=held))
        else:
            aside.append(SetAside(cut=cut, suitability=suitability))
    return suited, tuple(aside)


def _lay_contenders(
    judging: Judging, found: list[Candidate], report: Callable[[], Fit]
) -> None:
    """First lays in the order of likely cost; all of a small stash, enough of a large one.

    The first fit is reported at once, so that a person has something to look at.
    """
    large, effort = len(found) > WHOLE_STASH, judging.effort
    stop = effort.stage() if large else effort.halt
    if large:
        _lay_by_width(judging, found, stop)
    fits = sum(c.fits for c in found)
    if fits:
        report()
    order = [i for i, c in enumerate(found) if not c.fits]
    order.sort(key=lambda i: _likely(judging, found[i]))
    for place, i in enumerate(order):
        if stop() or (large and fits >= effort.most and place >= WHOLE_STASH):
            return
        found[i] = _judged(judging, found[i])
        fits += found[i].fits
        if fits == 1 and found[i].fits:
            report()


def _judged(judging: Judging, candidate: Candidate) -> Candidate:
    """The candidate laid; one that cannot be judged is told apart and spoils no other."""
    try:
        return judging.laid(candidate)
    except StashError as error:
        return Candidate(
            cut=candidate.cut, suitability=candidate.suitability, held_by=candidate.held_by,
            verdict=NotJudged(because=error.fact),
        )


def _lay_by_width(judging: Judging, found: list[Candidate], stop: Stop) -> None:
    """A few lays off the roll settle every plain length that is surely long enough.

    They are laid one way on widths spread over the stash, so that they lie on any
    plain cloth as wide or wider.
    """
    plain = [i for i, c in enumerate(found) if not c.tried
             and not c.cut.cloth.repeat and c.cut.outline_washed.is_rectangle]
    widths = sorted(found[i].cut.outline_washed.width_mm for i in plain)
    for share in ANCHOR_WIDTHS:
        if widths and not stop():
            judging.strips.first(widths[int(share * (len(widths) - 1))], one_way=True)
    for i in plain:
        outline, one_way = found[i].cut.outline_washed, found[i].cut.cloth.one_way
        known = judging.strips.known(outline.width_mm, one_way=one_way)
        if known and known.lay and known.lay.length_mm <= outline.length_mm:
            found[i] = judging.fitting(found[i], known.lay)


def _likely(judging: Judging, candidate: Candidate) -> tuple[bool, bool, float]:
    """Proved impossible last, too short for a usual lay next, then least cloth beyond need."""
    outline = candidate.cut.outline_washed
    likely_mm2 = judging.area_mm2 / USUAL_UTILISATION
    beyond = outline.area_mm2 - likely_mm2
    return isinstance(candidate.verdict, Impossible), beyond < 0, abs(beyond)


def _search_near_misses(judging: Judging, found: list[Candidate], stage: Stop) -> None:
    """The cuts that miss by least, one after another; each lay found may serve others too."""
    for _ in range(judging.effort.most):
        near = [i for i, c in enumerate(found) if _near_miss(c) and not judging.was_searched(c)]
        if stage() or not near:
            break
        best = min(near, key=lambda i: found[i].short_mm or 0.0)
        found[best] = judging.searched(found[best], stage)
        found[:] = [judging.reviewed(c) for c in found]


def _near_miss(candidate: Candidate) -> bool:
    if not isinstance(candidate.verdict, NoneFound):
        return False
    return (candidate.short_mm or 0.0) <= NEAR_MISS * candidate.cut.outline_washed.length_mm


def _tighten_best(judging: Judging, found: list[Candidate], stage: Stop) -> None:
    """The best fits searched for a shorter lay still, so that more is left."""
    best = sorted((i for i, c in enumerate(found) if c.fits), key=lambda i: found[i].cost_m2)
    for i in best[: (judging.effort.most + 1) // 2]:
        if stage():
            break
        if not judging.was_searched(found[i]) and found[i].cut.outline_washed.is_rectangle:
            found[i] = judging.searched(found[i], stage)
    found[:] = [judging.reviewed(c) for c in found]


def _try_unwashed(judging: Judging, found: list[Candidate]) -> None:
    """Cuts that only the wash makes too small: said to fit unwashed, which is a yes, if."""
    if not judging.question.unwashed_too:
        return
    for i, candidate in enumerate(found):
        missed = isinstance(candidate.verdict, NoneFound | Impossible)
        within = (candidate.short_mm or 0.0) <= MOST_SHRINKAGE * candidate.cut.length_mm
        if missed and within and not judging.effort.halt():
            found[i] = judging.as_it_lies(candidate)


def _ordered(found: Sequence[Candidate]) -> tuple[Candidate, ...]:
    def key(c: Candidate) -> tuple[bool, bool, float, bool, float, str]:
        short = float("inf") if c.short_mm is None else c.short_mm
        unwashed = isinstance(c.verdict, Fits) and c.verdict.unwashed
        return not c.fits, unwashed, c.cost_m2, not c.tried, short, c.cut.code

    return tuple(sorted(found, key=key))
