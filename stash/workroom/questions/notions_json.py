"""What the bins give and what must be bought, as other programs read it."""

from __future__ import annotations

from stash.fact import Fact
from stash.match.notions.wanted import Line, Supply, what_to_buy
from stash.model.wire import facts_json, lay_json, need_json, tenths
from stash.sentences import Reader, say, tell
from stash.workroom.questions.plan_json import Json


def line_json(line: Line, reader: Reader) -> Json:
    """The need, the choice, the other ways, and for a missing one what to buy."""
    bought: Json = {} if line.chosen else {
        "buy": say(what_to_buy(line.wanted), reader),
        "nearest": tell(line.nearest, reader),
        "nearest_facts": facts_json(line.nearest),
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
        "facts": facts_json(choice.told),
        "says": tell(choice.told, reader),
        "positions_mm": [round(p, 1) for p in choice.positions_mm],
        "buttonhole_mm": tenths(choice.buttonhole_mm),
        "lay": lay_json(choice.lay) if choice.lay else None,
    }


def line_to_buy(line: Line) -> Fact:
    """What to ask for in the shop where the stash cannot supply a need."""
    return what_to_buy(line.wanted)
