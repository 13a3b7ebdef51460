"""Every way garments can share cuts: the options that an assignment chooses from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from stash.match.fit.answers import Candidate
from stash.match.fit.fit import Effort, Question, fit
from stash.match.gather import Garment, area_mm2, labels
from stash.match.sharing.assign import Option
from stash.model import Cut

MOST_TOGETHER = 3
# Garments that would fill a cut beyond this are not tried on it together.
FULLEST = 0.9


@dataclass(frozen=True)
class Ways:
    """The options found, and for garments that come out of no cut the nearest miss."""

    options: tuple[Option, ...]
    nearest: tuple[tuple[str, Candidate], ...] = ()


def ways(question: Question, effort: Effort) -> Ways:
    """Sets of up to three garments that come out of one cut, each with its lay.

    Single garments first; a set is tried only on cuts that serve each of its members.
    """
    names = labels(question.garments)
    named = dict(zip(names, question.garments, strict=True))
    found: list[Option] = []
    nearest: list[tuple[str, Candidate]] = []
    serves: dict[frozenset[str], dict[str, Cut]] = {}
    for name in names:
        alone = fit(_only(question, [named[name]]), replace(effort, most=2))
        serves[frozenset({name})] = {c.cut.code: c.cut for c in alone.fits}
        found += [_option(c, (name,)) for c in alone.fits]
        if not alone.fits and alone.candidates:
            nearest.append((name, alone.candidates[0]))
    stage = effort.stage()
    for size in range(2, min(len(names), MOST_TOGETHER) + 1):
        for group in combinations(names, size):
            if stage():
                return Ways(tuple(found), tuple(nearest))
            members = [named[n] for n in group]
            together = _together(members, _shared(group, serves), question, effort)
            serves[frozenset(group)] = {c.cut.code: c.cut for c in together}
            found += [_option(c, group) for c in together]
    return Ways(tuple(found), tuple(nearest))


def _together(
    garments: list[Garment], cuts: Sequence[Cut], question: Question, effort: Effort
) -> list[Candidate]:
    """First lays of a set on the cuts that could hold it."""
    own = _only(question, garments)
    area = area_mm2(own.pieces)
    roomy = tuple(c for c in cuts if c.outline_washed.area_mm2 * FULLEST >= area)
    if not roomy:
        return []
    return list(fit(replace(own, cuts=roomy), replace(effort, most=0)).fits)


def _shared(group: Sequence[str], serves: dict[frozenset[str], dict[str, Cut]]) -> list[Cut]:
    """The cuts that serve every smaller set of the group."""
    smaller = [serves.get(frozenset(part), {}) for part in combinations(group, len(group) - 1)]
    return [cut for code, cut in smaller[0].items() if all(code in other for other in smaller)]


def _only(question: Question, garments: Sequence[Garment]) -> Question:
    return replace(question, garments=tuple(garments))


def _option(candidate: Candidate, names: Sequence[str]) -> Option:
    return Option(candidate.cut.code, frozenset(names), candidate.cost_m2, candidate.laid)
