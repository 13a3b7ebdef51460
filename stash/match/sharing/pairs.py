"""Each garment on each cut by itself: whether the cloth suits, and about how much it takes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import floor

import numpy as np

from stash.lay import Budget, screen_cuts
from stash.match.cloth.suitability import suit
from stash.match.fit.question import Question, Stop
from stash.match.fit.ranking import kept_m2, unsuited_m2
from stash.match.gather import DraftedGarment, area_mm2, labels, of_role
from stash.match.strip_lays import Strips
from stash.model import Cut, Piece

# Widths this near share one strip: what is laid for the narrower lies on the wider. Of
# more classes than so many a few are laid, spread over the cuts.
CLASS_MM = 60.0
MOST_CLASSES = 5


@dataclass(frozen=True, kw_only=True)
class Pair:
    """One garment on one cut: the strip it takes of the cut's width, and what speaks against.

    ``length_mm`` None: it was not laid, because the time was up.
    """

    garment: str
    cut: str
    length_mm: float | None
    against_m2: float


@dataclass(frozen=True, kw_only=True)
class Pairs:
    """What is known of the garments one by one; ``area_mm2`` is of each garment's pieces, the
    least of any cut it is drafted for.

    ``possible`` are the pairs that nothing rules out, laid or not.
    """

    garments: Mapping[str, DraftedGarment]
    cuts: Mapping[str, Cut]
    area_mm2: Mapping[str, float]
    possible: frozenset[tuple[str, str]]
    laid: Mapping[tuple[str, str], Pair] = field(default_factory=dict)


def pairs(question: Question, stop: Stop) -> Pairs:
    """Every garment with every cut that suits it and is not proved too small."""
    names = labels(question.garments)
    named = dict(zip(names, question.garments, strict=True))
    cuts = {cut.code: cut for cut in question.cuts}
    possible: dict[tuple[str, str], float] = {}
    pieces: dict[tuple[str, str], tuple[Piece, ...]] = {}
    least = {n: area_mm2(of_role(g.pattern.pieces, question.role)) for n, g in named.items()}
    for drafts, alike in question.alike:
        for name, garment in zip(names, drafts, strict=True):
            own = of_role(garment.pattern.pieces, question.role)
            least[name] = min(least[name], area_mm2(own))
            for code, against in _possible(question, garment, own, alike).items():
                possible[name, code], pieces[name, code] = against, own
    return Pairs(
        garments=named, cuts=cuts, possible=frozenset(possible), area_mm2=least,
        laid=_laid(question, pieces, cuts, possible, stop),
    )


def _possible(
    question: Question, garment: DraftedGarment, pieces: tuple[Piece, ...], cuts: Sequence[Cut]
) -> dict[str, float]:
    """The cuts that suit one garment and may hold it, each with what speaks against it."""
    found = {}
    for cut in cuts:
        judged = suit(cut, garment.pattern.wants, garments=[garment.name])
        if judged.suits:
            found[cut.code] = unsuited_m2(judged.soft) + kept_m2(
                cut, (garment.name,), question.weights)
    suited = [cut for cut in cuts if cut.code in found]
    if not suited or not pieces:
        return found
    edge = 2 * question.table.edge_mm
    outlines = [cut.outline_washed for cut in suited]
    sizes = np.array([[o.length_mm, o.width_mm, o.area_mm2] for o in outlines])
    one_way = np.array([cut.cloth.one_way for cut in suited], bool)
    for way in (False, True):
        rows = np.flatnonzero(one_way == way)
        if not len(rows):
            continue
        open_ = screen_cuts(
            pieces, sizes[rows, 0] - edge, sizes[rows, 1] - edge, one_way=way,
            areas_mm2=sizes[rows, 2], off_grain_deg=question.table.off_grain_deg,
        )
        for row in rows[~np.asarray(open_, bool)]:
            del found[suited[int(row)].code]
    return found


def _laid(
    question: Question, pieces: Mapping[tuple[str, str], tuple[Piece, ...]],
    cuts: Mapping[str, Cut], possible: Mapping[tuple[str, str], float], stop: Stop,
) -> dict[tuple[str, str], Pair]:
    """A strip for each garment and class of width; alike garments share theirs."""
    strips: dict[tuple[Piece, ...], Strips] = {}
    classes = _classes([cut.outline_washed.width_mm for cut in cuts.values()])
    found = {}
    for (name, code), against in possible.items():
        if stop():
            break
        cut = cuts[code]
        cut_from = pieces[name, code]
        own = strips.setdefault(
            cut_from, Strips(cut_from, question.table, step_mm=CLASS_MM))
        found[name, code] = Pair(
            garment=name, cut=code, against_m2=against, length_mm=_strip_mm(own, cut, classes)
        )
    return found


def _classes(widths_mm: Sequence[float]) -> list[float]:
    """The widths that strips are laid for, narrowest first, more of them where cuts are many."""
    classed = sorted(max(floor(width / CLASS_MM) * CLASS_MM, 1.0) for width in widths_mm)
    distinct = list(dict.fromkeys(classed))
    if len(distinct) <= MOST_CLASSES:
        return distinct
    last = len(classed) - 1
    spread = (classed[round(n * last / (MOST_CLASSES - 1))] for n in range(MOST_CLASSES))
    return list(dict.fromkeys(spread))


def _strip_mm(strips: Strips, cut: Cut, classes: Sequence[float]) -> float | None:
    """The length a first lay takes off the roll; a print costs a repeat more, about."""
    width = cut.outline_washed.width_mm
    classed = max((c for c in classes if c <= width), default=width)
    for width_mm in (classed, width):
        answer = strips.best(width_mm, Budget(iterations=0), one_way=cut.cloth.one_way)
        if answer.lay:
            repeat = cut.cloth.repeat
            return answer.lay.length_mm + ((repeat.lengthwise_mm or 0.0) if repeat else 0.0)
    return None
