"""What ``need`` asks and how its answer is said; it lays, and is loaded only when it does."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from stash.cli import written
from stash.cli.draft_option import parse_option
from stash.cli.frame import Desk, reader
from stash.cli.open_record import open_record
from stash.cli.person import parse_measure
from stash.cli.words import _
from stash.errors import InvalidInput
from stash.model import Repeat, Spread
from stash.quantity import Quantity, read_length, read_size
from stash.sentences import Reader
from stash.sentences import say as said
from stash.workroom.questions.answer_json import need_answer_json
from stash.workroom.questions.needing import NeedAnswer, Roll, ask_need
from stash.workroom.questions.orders import measured_orders
from stash.workroom.questions.plan_json import Json
from stash.workroom.settings import habits

WIDEST_MM = 10_000.0


def needed(desk: Desk, typed: Mapping[str, Any]) -> tuple[Json, str]:
    """The answer to the options typed, for a program and for a person."""
    roll = Roll(width_mm=_width(typed["width"]), one_way=typed["one_way"],
                repeat=_repeat(typed["repeat"]))
    spread = typed["spread"]
    with open_record(desk) as stash:
        table = habits(stash, None if spread == "any" else Spread(spread))
        orders = measured_orders(
            stash, typed["garments"], typed["people"], dict(map(parse_measure, typed["measures"])),
            typed["body"], dict(map(parse_option, typed["choices"])))
        whose = reader()
    answer = ask_need(orders, roll, table, seconds=typed["seconds"], workers=2)
    return need_answer_json(answer, whose), _text(answer, whose)


def _width(text: str) -> float:
    width_mm = read_length(text, Quantity.WIDTH, field="width")
    if width_mm > WIDEST_MM:
        raise InvalidInput("cloth_too_wide", most_width_mm=WIDEST_MM, field="width")
    return width_mm


def _repeat(text: str | None) -> Repeat | None:
    if text is None:
        return None
    along, across = read_size(text, Quantity.REPEAT, Quantity.REPEAT, field="repeat")
    return Repeat(lengthwise_mm=along or None, crosswise_mm=across or None)


def _text(answer: NeedAnswer, whose: Reader) -> str:
    lay = answer.answer.lay
    if not lay:
        return said(answer.answer.told, whose)
    return (
        _(
            "{length} of cloth {width} wide; {utilisation} of it becomes the garment.",
            length=written.cut_length(lay.length_mm), width=written.width(answer.width_mm),
            utilisation=written.share(lay.utilisation),
        )
    )
