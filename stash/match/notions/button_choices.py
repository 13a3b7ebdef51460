"""Buttons: the very ones, near in size, fewer and respaced, or from two bins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from stash.fact import Fact, fact
from stash.match.notions.wanted import How, Supply, Wanted
from stash.model import Bin
from stash.notions.buttons import (
    ButtonPlan,
    button_plan,
    buttonhole_for,
    buttonhole_mm,
    counts_that_hold,
    mixed_plan,
    overlap_least_mm,
)
from stash.notions.rules import value

ONE_LIGNE_MM = 0.635
BASE_COST = {How.EXACT: 0.0, How.NEAR: 1.0, How.FEWER: 2.0, How.MIXED: 4.0}
MOST_MIXED_BINS = 6


@dataclass(frozen=True)
class _Sewn:
    """Where buttons go on a front, None on a cuff or pocket, and the longest hole they want."""

    plan: ButtonPlan | None
    hole_mm: float


def button_choices(wanted: Wanted, bins: Sequence[Bin]) -> list[Supply]:
    """Every way these bins button the garment, in no order; colour is not judged here."""
    usable = [b for b in bins if _in_range(wanted, b)]
    found = [choice for b in usable if (choice := _from_one(wanted, b))]
    scarce = [b for b in usable if 1 <= b.amount < wanted.amount][:MOST_MIXED_BINS]
    for pair in combinations(scarce, 2):
        if mixed := _from_two(wanted, pair):
            found.append(mixed)
    return found


def why_not(wanted: Wanted, bins: Sequence[Bin]) -> Fact:
    """The nearest thing in the bins, and what is wrong with it."""
    if not bins:
        return fact("no_buttons")
    if wanted.need.size_mm is None:
        return fact("no_bin_holds", number=wanted.amount)
    _, best, most = wanted.need.size_mm
    near = min(bins, key=lambda b: (b.amount < wanted.amount, abs((b.notion.size_mm or 0) - best)))
    size = near.notion.size_mm or 0.0
    if size > most and wanted.closure:
        return fact(
            "nearest_buttons_too_wide", number=near.amount, diameter_mm=size,
            needed_small_mm=overlap_least_mm(size), overlap_small_mm=wanted.closure.overlap_mm,
        )
    return fact(
        "nearest_buttons", number=near.amount, diameter_mm=size, wanted_number=wanted.amount
    )


def _in_range(wanted: Wanted, bin_: Bin) -> bool:
    if wanted.need.size_mm is None:
        return True
    least, _, most = wanted.need.size_mm
    size = bin_.notion.size_mm
    return size is not None and least - 0.05 <= size <= most + 0.05


def _from_one(wanted: Wanted, bin_: Bin) -> Supply | None:
    size, count = bin_.notion.size_mm or 0.0, int(wanted.amount)
    if bin_.amount < count:
        return _fewer(wanted, bin_)
    plan = button_plan(wanted.closure, [size] * count) if wanted.closure else None
    if plan and not plan.holds:
        return None
    best = wanted.need.size_mm[1] if wanted.need.size_mm else size
    hole = buttonhole_for(bin_.notion)
    off = abs(size - best)
    how = How.EXACT if off <= ONE_LIGNE_MM else How.NEAR
    name = bin_.notion.name
    told = (
        _as_asked(count, bin_) if how is How.EXACT
        else fact("buttons_near", number=count, name=name, diameter_mm=size,
                  asked_diameter_mm=best, buttonhole_mm=hole)
    )
    return _choice(how, ((bin_.code, float(count)),), (told,), _Sewn(plan, hole), off / 5)


def _as_asked(count: int, bin_: Bin) -> Fact:
    """Their hole is said when it is longer than the draft draws it for a flat button."""
    button, size = bin_.notion, bin_.notion.size_mm or 0.0
    hole = buttonhole_for(button)
    if hole <= buttonhole_mm(size):
        return fact("buttons", number=count, name=button.name, diameter_mm=size)
    return fact("buttons_in_longer_holes", number=count, name=button.name, diameter_mm=size,
                buttonhole_mm=hole)


def _fewer(wanted: Wanted, bin_: Bin) -> Supply | None:
    """Respaced with what the bin holds, if the front still closes."""
    size = bin_.notion.size_mm or 0.0
    if not wanted.closure or bin_.amount < 1:
        return None
    counts = [n for n in counts_that_hold(wanted.closure, size) if n <= bin_.amount]
    if not counts:
        return None
    count = max(counts)
    plan = button_plan(wanted.closure, [size] * count)
    if not plan.holds:
        return None
    hole = buttonhole_for(bin_.notion)
    told = fact(
        "buttons_respaced_at_bust" if _at_bust(wanted, plan) else "buttons_respaced",
        number=count, name=bin_.notion.name, wanted_number=wanted.amount,
        positions_mm=plan.positions_mm, buttonhole_mm=hole,
    )
    missing = (wanted.amount - count) / wanted.amount
    return _choice(
        How.FEWER, ((bin_.code, float(count)),), (told, plan.reason),
        _Sewn(plan, hole), missing,
    )


def _from_two(wanted: Wanted, pair: tuple[Bin, Bin]) -> Supply | None:
    """As many as asked, from two bins that each hold too few."""
    count = int(wanted.amount)
    if sum(int(b.amount) for b in pair) < count:
        return None
    larger, smaller = sorted(pair, key=lambda b: -b.amount)
    parts = (
        (larger.code, float(int(larger.amount))),
        (smaller.code, float(count - int(larger.amount))),
    )
    sizes = [larger.notion.size_mm or 0.0, smaller.notion.size_mm or 0.0]
    plan = None
    if wanted.closure:
        stock = [(size, int(n)) for size, (_, n) in zip(sizes, parts, strict=True)]
        plan = mixed_plan(wanted.closure, stock, count)
        if not plan.holds:
            return None
    told = fact(
        "buttons_mixed_down_the_front" if plan else "buttons_mixed",
        number=parts[0][1], name=larger.notion.name, other_number=parts[1][1],
        other=smaller.notion.name,
    )
    apart = abs(sizes[0] - sizes[1])
    hole = max(buttonhole_for(b.notion) for b in pair)
    return _choice(How.MIXED, parts, (told,), _Sewn(plan, hole), apart / 5)


def _at_bust(wanted: Wanted, plan: ButtonPlan) -> bool:
    bust = wanted.closure.bust_mm if wanted.closure else 0.0
    near = value("bust_tolerance") + 1e-6
    return any(abs(p - bust) <= near for p in plan.positions_mm)


def _choice(
    how: How, parts: tuple[tuple[str, float], ...], told: tuple[Fact, ...], sewn: _Sewn,
    extra: float,
) -> Supply:
    return Supply(
        how=how,
        parts=parts,
        told=told,
        cost=BASE_COST[how] + extra,
        positions_mm=sewn.plan.positions_mm if sewn.plan else (),
        buttonhole_mm=sewn.hole_mm,
    )
