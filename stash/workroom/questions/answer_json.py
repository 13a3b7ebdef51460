"""Answers as other programs read them: the facts, and beside them the sentences.

Lengths are millimetres, lays lie in the frame of the washed cloth. Fields of earlier
versions are kept for one version: ``reason``, ``suitability``, ``companions``, ``says``.
"""

from __future__ import annotations

from collections.abc import Iterable

from stash.fact import Fact
from stash.match.cloth.shrinkage import shrink_status
from stash.match.cloth.similar import Likeness
from stash.match.cloth.suitability import Suitability
from stash.match.fit.cut_verdicts import CutVerdict, Fits, NotTried
from stash.match.fit.fit_answer import Candidate, RoleLine, SetAside
from stash.match.notions.allocation import missing
from stash.match.order import Order
from stash.match.rescue.rescues import Rescue
from stash.model import Cut, Role
from stash.model.wire import facts_json, lay_json, tenths
from stash.sentences import Reader, say, tell
from stash.workroom.questions.assignment import Made, MakingAnswer
from stash.workroom.questions.fitting import FitAnswer
from stash.workroom.questions.needing import NeedAnswer
from stash.workroom.questions.notions_json import line_json
from stash.workroom.questions.plan_json import Json, laid_json, pieces_json
from stash.workroom.questions.spreading import Spreads

# A large stash has hundreds of fits; nobody reads further than this.
MOST_TOLD = 200


def fit_json(answer: FitAnswer, reader: Reader, spreads: Spreads | None = None) -> Json:
    """The whole answer to ``fit``; ``spreads`` are those of the best candidate."""
    tried = [c for c in answer.fit.candidates if not isinstance(c.verdict, NotTried)]
    lacking = missing(answer.notions)
    return {
        "candidates": [candidate_json(c, reader) for c in tried[:MOST_TOLD]],
        "set_aside": [_set_aside(s, reader) for s in answer.fit.set_aside],
        "roles": [
            *(role_json(_main(c), reader) for c in answer.fit.fits[:1]),
            *(role_json(line, reader) for line in answer.fit.roles),
        ],
        "companions": [
            _companion(line, reader) for line in answer.fit.roles
            if line.role is not Role.INTERFACING
        ],
        "missing_notions": [line_json(line, reader) for line in lacking],
        "notions": [line_json(line, reader) for line in answer.notions if line.chosen],
        "untried": answer.fit.untried,
        "pieces": pieces_json(answer.fit.pieces),
        "rescues": [rescue_json(rescue, reader) for rescue in answer.rescues],
        "held_whole": [
            {"cut": code, "held_by": list(plans)} for code, plans in answer.taken_whole.items()
        ],
        "garments": [_garment(order) for order in answer.orders],
        "spreads": spreads_json(spreads) if spreads else [],
        "spreads_say": say(spreads.told, reader) if spreads else None,
    }


def spreads_json(spreads: Spreads) -> list[Json]:
    """``[{"spread", "length_mm", "cuts", "fits"}]``: open, folded lengthwise, crosswise."""
    return [
        {**way.to_json(), "length_mm": tenths(spreads.length_mm(way))} for way in spreads.ways
    ]


def candidate_json(candidate: Candidate, reader: Reader) -> Json:
    """One cut: its verdict with the facts, the reasons for and against, its lay."""
    verdict, laid = candidate.verdict, candidate.laid
    spare = verdict.spare_mm if isinstance(verdict, Fits) else None
    return {
        "cut": candidate.cut.code,
        "name": candidate.cut.cloth.name,
        "fits": candidate.fits,
        "verdict": verdict_json(verdict, reader),
        "reasons": reasons_json(candidate.suitability, reader),
        "washed": washed_json(candidate.cut),
        "spare_mm": tenths(spare),
        "short_mm": tenths(candidate.short_mm),
        "hangs_on": _hangs_on(candidate.hangs_on, reader),
        "held_by": list(candidate.held_by),
        "outline": (laid.cloth if laid else candidate.cut.outline_washed).to_json(),
        "lay": lay_json(laid.lay) if laid else None,
        "reason": say(verdict.told, reader),
        "suitability": _suitability(candidate.suitability, reader),
    }


def _hangs_on(told: Iterable[Fact], reader: Reader) -> list[Json]:
    """``[{"kind", ...facts, "says"}]``: the presumed figures that decide it."""
    return [{**one.to_json(), "says": say(one, reader)} for one in told]


def verdict_json(verdict: CutVerdict, reader: Reader) -> Json:
    """``{"kind": "fits"|"impossible"|"not_found"..., ...facts, "says"}``."""
    told = verdict.told
    facts = {name: value for name, value in told.to_json().items() if name != "kind"}
    more: Json = {"short_mm": verdict.short_mm} if verdict.short_mm is not None else {}
    if isinstance(verdict, Fits):
        more = {"spare_mm": tenths(verdict.spare_mm), "only_unwashed": verdict.unwashed}
    return {"kind": verdict.kind, "because": told.kind, **facts, **more,
            "says": say(told, reader)}


def reasons_json(suitability: Suitability, reader: Reader) -> list[Json]:
    """``[{"kind", ...facts, "bears": "hard"|"soft"|"note", "says"}]``, hard ones first."""
    return [
        {**reason.to_json(), "bears": bears, "says": say(reason, reader)}
        for bears, reasons in _by_weight(suitability) for reason in reasons
    ]


def washed_json(cut: Cut) -> Json:
    """What the wash is reckoned to take, and how that is known; nothing of a washed cut."""
    cloth = cut.cloth
    return {
        "along_pct": 0.0 if cut.washed else cloth.shrink_along_pct,
        "across_pct": 0.0 if cut.washed else cloth.shrink_across_pct,
        "status": shrink_status(cut).value,
        "done": cut.washed,
        "from": None if cut.washed else cloth.shrink_from,
    }


def role_json(line: RoleLine, reader: Reader) -> Json:
    """``{"role", "cut", "verdict", "reasons", "lay", "pieces"}``."""
    return {
        "role": line.role.value,
        "cut": line.cut.code if line.cut else None,
        "name": line.cut.cloth.name if line.cut else None,
        "fits": line.laid is not None,
        "reasons": reasons_json(line.suitability, reader),
        "washed": washed_json(line.cut) if line.cut else None,
        "lay": lay_json(line.laid.lay) if line.laid else None,
        "pieces": pieces_json(line.pieces),
        "says": tell(line.told, reader),
    }


def _main(best: Candidate) -> RoleLine:
    """The main cloth as a line like the others."""
    pieces = best.laid.pieces if best.laid else ()
    return RoleLine(
        role=Role.MAIN, pieces=pieces, laid=best.laid, suitability=best.suitability)


def rescue_json(rescue: Rescue, reader: Reader) -> Json:
    """``{"kind", "cut", "changes", "saves_mm", "fits", "short_mm", "lay", ...}``."""
    beside = rescue.beside.laid if rescue.beside else None
    return {
        "kind": "pieced" if rescue.splits else "changed",
        "cut": rescue.cut.code,
        "splits": [
            {
                "piece": one.split.piece, "place": one.split.place,
                "line_mm": [[list(end) for end in line] for line in one.lines_mm],
                "allowance_mm": one.split.allowance_mm,
            }
            for one in rescue.splits
        ],
        "changes": facts_json(rescue.told),
        "change": tell(rescue.told, reader),
        "costs": tell(rescue.costs, reader),
        "costs_facts": facts_json(rescue.costs),
        "saves_mm": round(rescue.saves_mm, 1),
        "fits": rescue.fits,
        "short_mm": tenths(rescue.short_mm),
        "lay": lay_json(rescue.laid.lay) if rescue.laid else None,
        "pieces": pieces_json(rescue.pieces),
        "moved": beside and {"cut": beside.cut.code, **laid_json(beside)},
    }


def making_json(answer: MakingAnswer, reader: Reader) -> Json:
    """``{"made": [...], "unmade": [...], "missing_notions": [...], "notions": [...]}``."""
    return {
        "made": [made_json(made, reader) for made in answer.made],
        "unmade": list(answer.unmade),
        "missing_notions": [line_json(line, reader) for line in missing(answer.notions)],
        "notions": [line_json(line, reader) for line in answer.notions if line.chosen],
        "proven": answer.proven,
        "nearest": [
            {"garment": label, "fact": told.to_json(), "says": say(told, reader)}
            for label, told in answer.nearest
        ],
    }


def need_answer_json(answer: NeedAnswer, reader: Reader) -> Json:
    """``{"length_mm", "utilisation", "lay", "pieces", ...}``."""
    lay, told = answer.answer.lay, answer.answer.told
    return {
        "answer": answer.answer.verdict.value,
        "verdict": {**told.to_json(), "kind": answer.answer.kind, "because": told.kind},
        "reason": say(told, reader),
        "length_mm": round(lay.length_mm, 2) if lay else None,
        "width_mm": answer.width_mm,
        "utilisation": round(lay.utilisation, 4) if lay else None,
        "lay": lay_json(lay) if lay else None,
        "pieces": pieces_json(answer.pieces),
    }


def like_json(like: Likeness, reader: Reader) -> Json:
    """``{"cut", "name", "difference", "kind", "says"}``."""
    return {
        "cut": like.cut.code,
        "name": like.cut.cloth.name,
        "difference": None if like.difference is None else round(like.difference, 2),
        "kind": like.nearness.kind,
        "says": say(like.nearness, reader),
    }


def _set_aside(aside: SetAside, reader: Reader) -> Json:
    return {
        "cut": aside.cut.code,
        "name": aside.cut.cloth.name,
        "reasons": reasons_json(aside.suitability, reader),
        "reason": say(aside.suitability.hard[0], reader),
        "suitability": _suitability(aside.suitability, reader),
        "hangs_on": _hangs_on(aside.suitability.hangs_on, reader),
    }


def _companion(line: RoleLine, reader: Reader) -> Json:
    return {
        "role": line.role.value,
        "cut": line.cut.code if line.cut else None,
        "reason": tell(line.told, reader),
        "lay": lay_json(line.laid.lay) if line.laid else None,
        "pieces": pieces_json(line.pieces),
    }


def _suitability(suitability: Suitability, reader: Reader) -> list[Json]:
    return [
        {"kind": bears, "says": say(reason, reader)}
        for bears, reasons in _by_weight(suitability) for reason in reasons
    ]


def _by_weight(suitability: Suitability) -> tuple[tuple[str, tuple[Fact, ...]], ...]:
    return ("hard", suitability.hard), ("soft", suitability.soft), ("note", suitability.notes)


def made_json(made: Made, reader: Reader) -> Json:
    """What was made from one cut, with its lay and how the stretch of a knit is known."""
    return {
        "cut": made.cut.code,
        "name": made.cut.cloth.name,
        "garments": list(made.labels),
        "left_mm": round(made.left_mm, 1),
        "washed": washed_json(made.cut),
        "stretch": _stretch(made, reader),
        **laid_json(made.laid),
    }


def _stretch(made: Made, reader: Reader) -> Json | None:
    """``{"status": "measured"|"presumed", "stretch_across_pct", ..., "reasons"}``; None of
    what does not rely on stretch."""
    if made.stretch is None:
        return None
    cloth = made.cut.cloth
    return {
        "status": "measured" if made.stretch.measured else "presumed",
        "stretch_across_pct": cloth.stretch_across_pct or None,
        "stretch_along_pct": cloth.stretch_along_pct or None,
        "reasons": [{**one.to_json(), "says": say(one, reader)} for one in made.stretch.told],
    }


def _garment(order: Order) -> Json:
    pattern = order.drafted().pattern
    return {
        "garment": order.garment,
        "person": order.person,
        "estimated": list(pattern.estimated),
        "cautions": list(pattern.cautions),
    }
