"""The stash in groups, for pictures with their tables: by fibre, colour, length and age."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.colours import nearest
from stash.model import Cut
from stash.store import Stash


class GroupedBy(StrEnum):
    """What the groups are."""

    FIBRE = "fibre"
    COLOUR = "colour"
    LENGTH = "length"
    AGE = "age"


LENGTHS_MM = (0.0, 500.0, 1000.0, 1500.0, 2000.0, 3000.0, 5000.0)
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
    group_of = _rule(by, today)
    found: dict[StockGroup, list[Cut]] = {}
    for cut in stash.cuts.all():
        found.setdefault(group_of(cut), []).append(cut)
    groups = [_filled(group, cuts) for group, cuts in found.items()]
    if by in (GroupedBy.FIBRE, GroupedBy.COLOUR):
        return tuple(sorted(groups, key=lambda group: (not group.key, -group.running_mm)))
    return tuple(sorted(groups, key=lambda group: (group.least is None, group.least or 0.0)))


def _rule(by: GroupedBy, today: date) -> Callable[[Cut], StockGroup]:
    return {
        GroupedBy.FIBRE: _by_fibre, GroupedBy.COLOUR: _by_colour,
        GroupedBy.LENGTH: lambda cut: _between(cut.length_mm, LENGTHS_MM),
        GroupedBy.AGE: lambda cut: _by_age(cut, today),
    }[by]


def _by_fibre(cut: Cut) -> StockGroup:
    shares = sorted(cut.cloth.fibres, key=lambda share: -share.percent)
    return StockGroup(key=shares[0].fibre if shares else "")


def _by_colour(cut: Cut) -> StockGroup:
    if not cut.cloth.colours:
        return StockGroup()
    name = nearest(cut.cloth.colours[0])
    return StockGroup(key=name.name, colour=name.hex)


def _by_age(cut: Cut, today: date) -> StockGroup:
    said = cut.acquired or ""
    try:  # a year, or a year and a month, begins on its first day
        came = date.fromisoformat(said + {4: "-01-01", 7: "-01"}.get(len(said), ""))
    except ValueError:
        return StockGroup()
    return _between(max((today - came).days, 0) / DAYS_A_YEAR, AGES_YEARS)


def _between(value: float, steps: tuple[float, ...]) -> StockGroup:
    least = max(step for step in steps if step <= value)
    later = [step for step in steps if step > value]
    return StockGroup(least=least, most=min(later) if later else None)


def _filled(group: StockGroup, cuts: Iterable[Cut]) -> StockGroup:
    cuts = list(cuts)
    running = sum(cut.outline.area_mm2 / cut.outline.width_mm for cut in cuts)
    return StockGroup(
        key=group.key, least=group.least, most=group.most, colour=group.colour, cuts=len(cuts),
        running_mm=running)
