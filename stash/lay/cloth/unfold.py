"""From the working frame of a folded sheet back to placements in the opened-out cloth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stash.lay.cloth.repeat import placed as placed_point
from stash.lay.cloth.spread import SECOND, SpreadCloth
from stash.lay.cloth.stances import Item, Stance
from stash.model import Placement, Spread


def placements(
    sheet: SpreadCloth, placed: Sequence[tuple[Item, Stance, float, float]]
) -> tuple[Placement, ...]:
    """One placement a copy, in the order of the pieces."""
    return tuple(p for item, stance, x, y in placed for p in _copies(sheet, item, stance, x, y))


def _copies(
    sheet: SpreadCloth, item: Item, stance: Stance, x: float, y: float
) -> Iterator[Placement]:
    names = [f"{item.piece.name}#{k}" for k in item.copies]
    if item.on_fold:
        yield Placement(names[0], x, fold_of(sheet), stance.turn_deg, False)
    elif len(names) == 1 and stance.layers == SECOND:
        yield _under(sheet, names[0], stance, x, y)
    else:
        upper = _upper(sheet, names[0], stance, x, y)
        if len(names) == 1:
            yield upper
        else:
            lower = _twin(sheet, names[1], item, upper)
            yield from _plain_first(names, upper, lower)


def fold_of(sheet: SpreadCloth) -> float:
    """Where the fold lies; open cloth has none, and none is asked for."""
    return sheet.fold_mm or 0.0


def _upper(sheet: SpreadCloth, name: str, stance: Stance, x: float, y: float) -> Placement:
    across = fold_of(sheet) if sheet.spread is Spread.LENGTHWISE else 0.0
    return Placement(name, x, y + across, stance.turn_deg, stance.mirrored)


def _under(sheet: SpreadCloth, name: str, stance: Stance, x: float, y: float) -> Placement:
    """A single copy on the lower layer: its origin seen through the cloth."""
    if sheet.spread is Spread.LENGTHWISE:
        return Placement(name, x, fold_of(sheet) - y, stance.turn_deg, stance.mirrored)
    return Placement(name, 2 * fold_of(sheet) - x, y, stance.turn_deg, stance.mirrored)


def _twin(sheet: SpreadCloth, name: str, item: Item, upper: Placement) -> Placement:
    """The copy cut from the lower layer: the mirror image of the upper one about the fold.

    Mirroring about the grain keeps x: M R(t) M^m = R(-t) M^(m+1); about a line across it,
    R(180 - t) M^(m+1). A symmetrical piece equals its own mirror image shifted across
    by ``twin_shift_mm`` before turning, so its twin need not be called mirrored.
    """
    if sheet.spread is Spread.LENGTHWISE:
        x, y, turn = upper.x_mm, 2 * fold_of(sheet) - upper.y_mm, -upper.turn_deg % 360
    else:
        x, y, turn = 2 * fold_of(sheet) - upper.x_mm, upper.y_mm, (180 - upper.turn_deg) % 360
    if item.twin_shift_mm is None:
        return Placement(name, x, y, turn, not upper.mirrored)
    dx, dy = placed_point((0.0, -item.twin_shift_mm), turn, False)
    return Placement(name, x + dx, y + dy, turn, upper.mirrored)


def _plain_first(names: list[str], a: Placement, b: Placement) -> Iterator[Placement]:
    """Copy 1 of a pair is the plain one, copy 2 its mirror image."""
    if a.mirrored and not b.mirrored:
        a, b = b, a
    for name, p in zip(names, (a, b), strict=True):
        yield Placement(name, p.x_mm, p.y_mm, p.turn_deg, p.mirrored)
