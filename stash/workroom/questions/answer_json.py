"""Answers as other programs read them: the facts, and beside them the sentences.

Lengths are millimetres, lays lie in the frame of the washed cloth. Fields of earlier
versions are kept for one version: ``reason``, ``suitability``, ``companions``, ``says``.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from stash.fact import Fact
from stash.match.cloth.shrinkage import shrink_status
from stash.match.cloth.similar import Likeness
from stash.match.cloth.suitability import Suitability
from stash.match.fit.cut_verdicts import CutVerdict, Fits, NotTried
from stash.match.fit.fit_answer import Candidate, RoleLine, SetAside
from stash.match.notions.allocation import missing
from stash.match.notions.wanted import Line, Supply, what_to_buy
from stash.match.order import Order
from stash.match.rescue.rescues import Rescue
from stash.match.shop.card import Card, ClothToBuy, NotionToBuy
from stash.match.shop.lengths import Length
from stash.model import Cut, Laid, NotionKind, Piece, Role
from stash.model.wire import lay_json, need_json, piece_json
from stash.notions.as_sold import Sold
from stash.sentences import Reader, quantities, say
from stash.workroom.questions.assignment import Made, MakingAnswer
from stash.workroom.questions.fitting import FitAnswer
from stash.workroom.questions.needing import NeedAnswer
from stash.workroom.questions.planning import PlanView
from stash.workroom.questions.shopping import ShopAnswer
from stash.workroom.questions.spreading import Spreads

Json = dict[str, Any]
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
        "pieces": _pieces(answer.fit.pieces),
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
        {**way.to_json(), "length_mm": _round(spreads.length_mm(way))} for way in spreads.ways
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
        "spare_mm": _round(spare),
        "short_mm": _round(candidate.short_mm),
        "held_by": list(candidate.held_by),
        "outline": (laid.cloth if laid else candidate.cut.outline_washed).to_json(),
        "lay": lay_json(laid.lay) if laid else None,
        "reason": say(verdict.told, reader),
        "suitability": _suitability(candidate.suitability, reader),
    }


def verdict_json(verdict: CutVerdict, reader: Reader) -> Json:
    """``{"kind": "fits"|"impossible"|"not_found"..., ...facts, "says"}``."""
    told = verdict.told
    facts = {name: value for name, value in told.to_json().items() if name != "kind"}
    more: Json = {"short_mm": verdict.short_mm} if verdict.short_mm is not None else {}
    if isinstance(verdict, Fits):
        more = {"spare_mm": _round(verdict.spare_mm), "only_unwashed": verdict.unwashed}
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
        "pieces": _pieces(line.pieces),
        "says": tell(line.told, reader),
    }


def _main(best: Candidate) -> RoleLine:
    """The main cloth as a line like the others."""
    pieces = best.laid.pieces if best.laid else ()
    return RoleLine(
        role=Role.MAIN, pieces=pieces, laid=best.laid, suitability=best.suitability)


def line_json(line: Line, reader: Reader) -> Json:
    """The need, the choice, the other ways, and for a missing one what to buy."""
    bought: Json = {} if line.chosen else {
        "buy": say(what_to_buy(line.wanted), reader),
        "nearest": tell(line.nearest, reader),
        "nearest_facts": _facts(line.nearest),
    }
    return {
        "garment": line.wanted.garment,
        **need_json(line.wanted.need),
        "chosen": line.chosen and choice_json(line.chosen, reader),
        "others": [choice_json(choice, reader) for choice in line.others],
        **bought,
    }


def choice_json(choice: Supply, reader: Reader) -> Json:
    """``{"how", "take": [{"bin", "amount"}], "facts", "says", ...}``."""
    return {
        "how": choice.how.value,
        "take": [{"bin": code, "amount": round(amount, 1)} for code, amount in choice.parts],
        "facts": _facts(choice.told),
        "says": tell(choice.told, reader),
        "positions_mm": [round(p, 1) for p in choice.positions_mm],
        "buttonhole_mm": _round(choice.buttonhole_mm),
        "lay": lay_json(choice.lay) if choice.lay else None,
    }


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
        "changes": _facts(rescue.told),
        "change": tell(rescue.told, reader),
        "costs": tell(rescue.costs, reader),
        "costs_facts": _facts(rescue.costs),
        "saves_mm": round(rescue.saves_mm, 1),
        "fits": rescue.fits,
        "short_mm": _round(rescue.short_mm),
        "lay": lay_json(rescue.laid.lay) if rescue.laid else None,
        "pieces": _pieces(rescue.pieces),
        "moved": beside and {"cut": beside.cut.code, **laid_json(beside)},
    }


def laid_json(laid: Laid) -> Json:
    """``{"lay", "pieces"}``."""
    return {"lay": lay_json(laid.lay), "pieces": _pieces(laid.pieces)}


def making_json(answer: MakingAnswer, reader: Reader) -> Json:
    """``{"made": [...], "unmade": [...], "missing_notions": [...], "notions": [...]}``."""
    return {
        "made": [_made(made) for made in answer.made],
        "unmade": list(answer.unmade),
        "missing_notions": [line_json(line, reader) for line in missing(answer.notions)],
        "notions": [line_json(line, reader) for line in answer.notions if line.chosen],
        "proven": answer.proven,
        "nearest": [
            {"garment": label, "fact": told.to_json(), "says": say(told, reader)}
            for label, told in answer.nearest
        ],
    }


def shop_json(answer: ShopAnswer, reader: Reader) -> Json:
    """``{"buy": [...], "from_stash": [...]}``, cloth first."""
    made = answer.making.made if answer.making else ()
    return {"buy": _buy(answer.card, reader), "from_stash": [_made(one) for one in made]}


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
        "pieces": _pieces(answer.pieces),
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


def plan_json(view: PlanView) -> Json:
    """``{"name", "garments", "holds": {"cuts", "bins"}}``."""
    return {
        "name": view.plan.name,
        "notes": view.plan.notes,
        "made": view.plan.made,
        "garments": [
            {"garment": g.garment, "person": g.person, "options": dict(g.options)}
            for g in view.plan.garments
        ],
        "holds": {
            "cuts": [
                {"cut": code, "from_mm": hold.from_mm, "to_mm": hold.to_mm,
                 "lay": _held(view.lays.get(code))}
                for code, hold in view.holdings.cuts.items()
            ],
            "bins": [
                {"bin": code, "amount": hold.amount}
                for code, hold in view.holdings.bins.items()
            ],
        },
    }


def line_to_buy(line: Line) -> Fact:
    """What to ask for in the shop where the stash cannot supply a need."""
    return what_to_buy(line.wanted)


def tell(told: Iterable[Fact], reader: Reader) -> str:
    """Facts as sentences, one after another."""
    return " ".join(say(one, reader) for one in told)


def _held(laid: Laid | None) -> Json | None:
    if laid is None:
        return None
    return {**lay_json(laid.lay), "pieces": _pieces(laid.pieces), "role": laid.role.value}


def _set_aside(aside: SetAside, reader: Reader) -> Json:
    return {
        "cut": aside.cut.code,
        "name": aside.cut.cloth.name,
        "reasons": reasons_json(aside.suitability, reader),
        "reason": say(aside.suitability.hard[0], reader),
        "suitability": _suitability(aside.suitability, reader),
    }


def _companion(line: RoleLine, reader: Reader) -> Json:
    return {
        "role": line.role.value,
        "cut": line.cut.code if line.cut else None,
        "reason": tell(line.told, reader),
        "lay": lay_json(line.laid.lay) if line.laid else None,
        "pieces": _pieces(line.pieces),
    }


def _suitability(suitability: Suitability, reader: Reader) -> list[Json]:
    return [
        {"kind": bears, "says": say(reason, reader)}
        for bears, reasons in _by_weight(suitability) for reason in reasons
    ]


def _by_weight(suitability: Suitability) -> tuple[tuple[str, tuple[Fact, ...]], ...]:
    return ("hard", suitability.hard), ("soft", suitability.soft), ("note", suitability.notes)


def _made(made: Made) -> Json:
    return {
        "cut": made.cut.code,
        "name": made.cut.cloth.name,
        "garments": list(made.labels),
        "left_mm": round(made.left_mm, 1),
        "washed": washed_json(made.cut),
        **laid_json(made.laid),
    }


def _buy(card: Card, reader: Reader) -> list[Json]:
    return [
        *(_cloth_to_buy(cloth, reader) for cloth in card.cloths),
        *(_notion_to_buy(notion, reader) for notion in card.notions),
    ]


def _cloth_to_buy(cloth: ClothToBuy, reader: Reader) -> Json:
    return {
        "what": say(cloth.what, reader),
        "what_fact": cloth.what.to_json(),
        "kind": "cloth",
        "lengths": [_length(length, reader) for length in cloth.lengths],
        "notes": [say(note, reader) for note in cloth.notes],
        "note_facts": _facts(cloth.notes),
        "count": None,
        "size_mm": None,
    }


def _length(length: Length, reader: Reader) -> Json:
    return {
        "width_mm": length.width_mm,
        "length_mm": _round(length.length_mm),
        "lay_mm": _round(length.lay_mm),
        "cost_minor": length.cost_minor,
        "reason": say(length.because, reader) if length.because else "",
    }


def _notion_to_buy(notion: NotionToBuy, reader: Reader) -> Json:
    return {
        "what": notion.kind,
        "says": say(notion.what, reader),
        "what_fact": notion.what.to_json(),
        "kind": notion.kind,
        "count": notion.count,
        **(_sold(notion.sold, reader) if notion.sold else {}),
        "length_mm": _round(notion.length_mm),
        "size_mm": notion.size_mm and round(notion.size_mm, 2),
        "nearest": tell(notion.nearest, reader),
        "lengths": [],
    }


def _sold(sold: Sold, reader: Reader) -> Json:
    """How a shop sells it; thread by the spool, each of ``put_up_m``."""
    if sold.kind is NotionKind.THREAD:
        return {
            "use": sold.use, "spools": sold.count, "count": sold.count, "put_up": sold.put_up,
            "put_up_m": (sold.put_up_mm or 0.0) / 1000,
            "metres": round((sold.needed_mm or 0.0) / 1000, 1),
            "sold_as": quantities.thread(sold.put_up_mm or 0.0, reader),
        }
    size = sold.size_mm
    if sold.kind is NotionKind.BUTTON and size is not None:
        size_text = quantities.button(size, reader)
    else:
        size_text = quantities.written("size_mm", size, reader) if size is not None else ""
    return {
        "count": sold.count if sold.kind.counted else None,
        "sold_as": size_text if sold.kind.counted or not sold.length_mm
        else quantities.length(sold.length_mm, reader),
    }


def _garment(order: Order) -> Json:
    pattern = order.drafted().pattern
    return {
        "garment": order.garment,
        "person": order.person,
        "estimated": list(pattern.estimated),
        "cautions": list(pattern.cautions),
    }


def _facts(told: Sequence[Fact]) -> list[Json]:
    return [one.to_json() for one in told]


def _pieces(pieces: Iterable[Piece]) -> list[Json]:
    return [piece_json(piece) for piece in pieces]


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 1)
