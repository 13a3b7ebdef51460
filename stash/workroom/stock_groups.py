"""The stash in groups, for pictures with their tables: by fibre, colour, length and age."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum
from typing import Any

from stash.colours import colour_named
from stash.model.came import first_day
from stash.store import Stash
from stash.store.turnover import SIZES_MM, KeptTrait


class GroupedBy(StrEnum):
    """What the groups are."""

    FIBRE = "fibre"
    COLOUR = "colour"
    LENGTH = "length"
    AGE = "age"


TRAITS = {GroupedBy.FIBRE: "fibre", GroupedBy.COLOUR: "colour", GroupedBy.LENGTH: "size",
          GroupedBy.AGE: "acquired"}
AGES_YEARS = (0.0, 1.0, 2.0, 5.0, 10.0)
DAYS_A_YEAR = 365.25


@dataclass(frozen=True, kw_only=True)
class StockGroup:
    """Cuts that belong together: ``running_mm`` is their area over their widths.

    ``key`` is a fibre's or a colour's name, empty where nothing is on record; of lengths (mm)
    and ages (years) ``least`` is where the group begins and ``most`` where the next one does.
    """

    key: str = ""
    least: float | None = None
    most: float | None = None
    colour: str | None = None
    cuts: int = 0
    running_mm: float = 0.0


def stock_groups(stash: Stash, by: GroupedBy, today: date) -> tuple[StockGroup, ...]:
    """The cuts that are here; fibres and colours by how much there is, the rest in order."""
    with stash.turnover.now() as kept:
        traits = kept.stock(TRAITS[by])
    group_of = _rule(by, today)
    found: dict[StockGroup, list[KeptTrait]] = {}
    for trait in traits:
        found.setdefault(group_of(trait.value), []).append(trait)
    groups = [_filled(group, parts) for group, parts in found.items()]
    if by in (GroupedBy.FIBRE, GroupedBy.COLOUR):
        return tuple(sorted(groups, key=lambda group: (not group.key, -group.running_mm)))
    return tuple(sorted(groups, key=lambda group: (group.least is None, group.least or 0.0)))


def _rule(by: GroupedBy, today: date) -> Callable[[Any], StockGroup]:
    return {
        GroupedBy.FIBRE: lambda fibre: StockGroup(key=fibre), GroupedBy.COLOUR: _by_colour,
        GroupedBy.LENGTH: lambda size: _between(size, SIZES_MM),
        GroupedBy.AGE: lambda acquired: _by_age(acquired, today),
    }[by]


def _by_colour(name: str) -> StockGroup:
    return StockGroup(key=name, colour=colour_named(name).hex) if name else StockGroup()


def _by_age(said: str, today: date) -> StockGroup:
    came = first_day(said)
    if came is None:
        return StockGroup()
    return _between(max((today - came).days, 0) / DAYS_A_YEAR, AGES_YEARS)


def _between(value: float, steps: tuple[float, ...]) -> StockGroup:
    least = max(step for step in steps if step <= value)
    later = [step for step in steps if step > value]
    return StockGroup(least=least, most=min(later) if later else None)


def _filled(group: StockGroup, parts: list[KeptTrait]) -> StockGroup:
    return replace(group, cuts=sum(part.cuts for part in parts),
                   running_mm=sum(part.running_mm for part in parts))
