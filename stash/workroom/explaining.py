"""Figures that explain themselves: how much is left of a cut, and why."""

from __future__ import annotations

from dataclasses import dataclass

from stash.fact import Fact, Value, fact
from stash.ledger import Event, Kind
from stash.ledger.bins import so_much
from stash.ledger.explained import Step, explained, explained_bin
from stash.ledger.whole import Whole, whole
from stash.model import Outline
from stash.store import Stash

__all__ = ["Whole", "whole"]

LEAST_MM = 0.5

KINDS = {
    Kind.RECEIPT: "left_came_in", Kind.CUT_OFF: "left_cut_off", Kind.CUT_OUT: "left_cut_out",
    Kind.WASH: "left_wash_lost", Kind.REMEASURE: "left_measured", Kind.GIFT: "left_given",
    Kind.SELL: "left_sold", Kind.DISCARD: "left_thrown", Kind.JOIN: "left_joined",
}


BIN_KINDS = {
    Kind.RECEIPT: "bin_came_in", Kind.TAKE: "bin_taken", Kind.PUT: "bin_put_in",
    Kind.GIFT: "bin_given", Kind.DISCARD: "bin_thrown",
}


@dataclass(frozen=True, kw_only=True)
class Remaining:
    """One line of the account: a change in length, and the fact that says why."""

    mm: float
    area_mm2: float
    kind: str
    why: Fact


@dataclass(frozen=True, kw_only=True)
class Account:
    """What is left of a cut: ``lines`` add up to ``length_mm``; ``whole`` is what is unbitten."""

    length_mm: float
    area_mm2: float
    whole: Whole
    parent: str | None
    lines: tuple[Remaining, ...]


def account(stash: Stash, code: str) -> Account:
    """How much there is of a cut, and how it came to that."""
    card = stash.cuts.card(code)
    outline, events = card.cut.outline, stash.ledger.history(card.cut.code)
    return Account(
        length_mm=0.0 if card.gone else outline.length_mm,
        area_mm2=0.0 if card.gone else outline.area_mm2,
        whole=whole(outline), parent=card.cut.came_from,
        lines=tuple(_line(step, card.cut.code) for step in explained(events, card.cut.code)),
    )


@dataclass(frozen=True, kw_only=True)
class BinLine:
    """One line of a bin's account: a count or millimetres, and the fact that says why."""

    amount: float
    kind: str
    why: Fact


def bin_account(stash: Stash, code: str) -> tuple[BinLine, ...]:
    """How it came to what is in a bin; the amounts add up to it."""
    card = stash.bins.card(code)
    notion = card.bin.notion
    lines = []
    for step in explained_bin(stash.ledger.history(card.bin.code), card.bin.code):
        kind, plan = _kind(step.event, card.bin.code)
        name = BIN_KINDS.get(kind, "bin_changed")
        if kind is Kind.COUNT:
            name = "bin_counted_more" if step.amount > 0 else "bin_counted_less"
        values: dict[str, Value] = {
            "much": so_much(notion, abs(step.amount)), "on": step.event.at[:10]}
        if plan and kind is Kind.TAKE:
            name, values["plan"] = "bin_taken_for", plan
        lines.append(BinLine(amount=step.amount, kind=kind.value, why=fact(name, **values)))
    return tuple(lines)


def whole_mm(outline: Outline) -> tuple[float, float]:
    """Length and width of the largest rectangle in an outline."""
    found = whole(outline)
    return found.length_mm, found.width_mm


def _line(step: Step, code: str) -> Remaining:
    kind, plan = _kind(step.event, code)
    name = KINDS.get(kind, "left_changed")
    if kind is Kind.REMEASURE and step.length_mm > 0:
        name = "left_measured_more"
    if abs(step.length_mm) < LEAST_MM:
        name = "left_bitten"
    values: dict[str, Value] = {
        "length_mm": abs(step.length_mm), "area_mm2": abs(step.area_mm2),
        "on": step.event.at[:10]}
    if plan and name == "left_cut_out":
        name, values["plan"] = "left_cut_out_for", plan
    return Remaining(
        mm=step.length_mm, area_mm2=step.area_mm2, kind=kind.value, why=fact(name, **values))


def _kind(event: Event, code: str) -> tuple[Kind, str | None]:
    """What happened to this cut in the event, and for which plan."""
    part = event.change[code]
    kind = event.kind
    for step in part.get("steps", ()):
        if Kind(step["kind"]) in (KINDS | BIN_KINDS):
            kind, part = Kind(step["kind"]), step["part"]
    if "cut" in part or "bin" in part:
        return Kind.RECEIPT, None
    return kind, part.get("plan")
