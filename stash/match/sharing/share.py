"""Garments shared out over cuts: proposed by length, laid, and what fails proposed anew."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.match.cloth.suitability import suit
from stash.match.fit.fit_answer import Candidate
from stash.match.fit.question import Effort, Question, Stop
from stash.match.fit.which_cuts import fit
from stash.match.gather import DraftedGarment, labels
from stash.match.sharing.assign import Assignment, LaidOption, Supplied, assign
from stash.match.sharing.options import LaidOptions
from stash.match.sharing.pairs import Pairs, pairs
from stash.match.sharing.proposal import TOGETHER, most_at_all, propose, room_mm
from stash.model import Cut

# Proposals from the beginning, each with what was learnt; the first settles most.
ROUNDS = 4
# Of a garment that comes out of none, so many cuts are looked at for the nearest miss.
LOOKED_AT = 3
# What a set that failed teaches: there is room for so much less than it took.
SHORTER = 0.98


@dataclass(frozen=True, kw_only=True)
class Shared:
    """The best assignment found, and of garments that come out of no cut the nearest miss.

    ``assignment.proven``: no way makes more garments than this one.
    """

    assignment: Assignment
    nearest: tuple[tuple[str, Candidate], ...] = ()


def share(
    question: Question, effort: Effort, supplied: Supplied = lambda chosen: True
) -> Shared:
    """As many of the garments as are found to come out of the cuts, then at the least cost.

    ``supplied`` says of some options together whether the bins hold their notions.
    """
    names = labels(question.garments)
    known = pairs(question, effort.halt)
    stop = effort.stage()
    table = LaidOptions(question, effort, dict(known.garments))
    room = {code: room_mm(cut) for code, cut in known.cuts.items()}
    for turn in range(ROUNDS):
        made = _round(question, known, table, room, stop)
        if len(made) == len(names) or (turn and stop()) or effort.halt():
            break
    for option in list(table.options.values()):
        for name in option.garments:
            if len(option.garments) > 1 and not effort.halt():
                table.laid(option.cut, (name,), stop)
    found = assign(names, list(table.options.values()), supplied=supplied)
    most = most_at_all(known)
    proven = not found.unmade or (most is not None and len(found.made) >= most)
    return Shared(
        assignment=replace(found, proven=proven),
        nearest=tuple(_nearest(question, known, found, effort)),
    )


def _round(
    question: Question, known: Pairs, table: LaidOptions, room: dict[str, float], stop: Stop
) -> set[str]:
    """One way from the beginning: what is laid stays, and the rest is proposed anew."""
    left, free = list(known.garments), dict(room)
    made: set[str] = set()
    while left and not (made and stop()):
        proposal = propose(question, known, left, free)
        if not proposal:
            break
        for code, names in proposal.items():
            option = table.laid(code, names, stop)
            took = _took_mm(known, code, names)
            if option is None:
                share_that_fits = _share_that_fits(table, code, names)
                free[code] = room[code] = min(free[code], took * share_that_fits)
                continue
            made |= option.garments
            left = [name for name in left if name not in option.garments]
            room[code] = max(room[code], took + TOGETHER * _spare_mm(option))
            del free[code]
    return made


def _took_mm(known: Pairs, code: str, names: Sequence[str]) -> float:
    """What the proposal reckoned for these garments on this cut."""
    found = (known.laid[name, code].length_mm for name in names)
    return sum(length or 0.0 for length in found) * TOGETHER


def _share_that_fits(table: LaidOptions, code: str, names: Sequence[str]) -> float:
    """How much of what was reckoned there is truly room for, after a failure."""
    short = table.short.get((code, frozenset(names)))
    length = table.cuts[code].outline_washed.length_mm
    return min(SHORTER, length / (length + short)) if short else SHORTER


def _spare_mm(option: LaidOption) -> float:
    return option.laid.spare_mm if option.laid else 0.0


def _nearest(
    question: Question, known: Pairs, found: Assignment, effort: Effort
) -> list[tuple[str, Candidate]]:
    """How near each garment came that no cut could hold even alone."""
    near = []
    for name in found.unmade:
        if effort.halt():
            break
        place = tuple(known.garments).index(name)
        hopeful = replace(question, cuts=_hopeful(known, known.garments[name], name))
        for drafts, cuts in hopeful.alike:
            alone = replace(question, garments=(drafts[place],), cuts=cuts, own={})
            answer = fit(alone, replace(effort, most=0))
            if answer.candidates and not answer.fits:
                near.append((name, answer.candidates[0]))
                break
    return near


def _hopeful(known: Pairs, garment: DraftedGarment, name: str) -> tuple[Cut, ...]:
    """The cuts that suit a garment and seem to miss it by least."""
    suited = [
        cut for cut in known.cuts.values()
        if suit(cut, garment.pattern.wants, garments=[garment.name]).suits
    ]

    def missing(cut: Cut) -> float:
        pair = known.laid.get((name, cut.code))
        if pair and pair.length_mm:
            return pair.length_mm - cut.outline_washed.length_mm
        return known.area_mm2[name] / cut.outline_washed.area_mm2 * cut.outline_washed.length_mm

    return tuple(sorted(suited, key=missing)[:LOOKED_AT])
