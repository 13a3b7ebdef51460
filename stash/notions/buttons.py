"""Buttons on a front: how many, how big, where, and whether the front still closes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from stash.errors import InvalidInput
from stash.fact import Fact, fact
from stash.model import Closure, Need, Notion, NotionKind
from stash.notions.rules import value

SHIRT_BUTTON_MM = 11.43
MOST_BUTTONS = 60
DIAMETERS_MM = (4.0, 80.0)


@dataclass(frozen=True)
class ButtonPlan:
    """Where buttons of one or more diameters go, from the neck down along the centre line.

    ``diameters_mm[i]`` sits at ``positions_mm[i]`` in a buttonhole of ``buttonholes_mm[i]``.
    ``gap_mm`` is the longest stretch that no button holds; ``holds`` is True when the
    front lies closed and every button stays inside the overlap; ``reason`` says why.
    """

    positions_mm: tuple[float, ...]
    diameters_mm: tuple[float, ...]
    buttonholes_mm: tuple[float, ...]
    gap_mm: float
    holds: bool
    reason: Fact

    @property
    def count(self) -> int:
        """How many buttons are sewn on."""
        return len(self.positions_mm)


def buttonhole_mm(
    diameter_mm: float, thickness_mm: float | None = None, *, shank: bool = False
) -> float:
    """Length of the hole: the diameter and what the thickness adds.

    A button whose thickness nobody measured is taken for a flat one (rule
    ``buttonhole_over_button``), which is also the least; a domed or shank button
    passes on its edge and adds twice its thickness.
    """
    least = value("buttonhole_over_button")
    share = value("buttonhole_domed") if shank else value("buttonhole_adds_thickness")
    return diameter_mm + max(least, share * (least if thickness_mm is None else thickness_mm))


def buttonhole_for(button: Notion) -> float:
    """Length of the hole for a button on record, by all that is known of its shape."""
    return buttonhole_mm(button.size_mm or 0.0, button.thickness_mm, shank=button.shank)


def overlap_least_mm(diameter_mm: float) -> float:
    """Least distance from centre line to finished edge (rule ``overlap_per_diameter``)."""
    return diameter_mm * value("overlap_per_diameter")


def overlap_strict_mm(diameter_mm: float) -> float:
    """The stricter published overlap: half the diameter and 1/4 in."""
    return diameter_mm / 2 + value("overlap_strict_extra")


def widest_button_mm(overlap_mm: float) -> float:
    """The widest button an overlap still covers."""
    return overlap_mm / value("overlap_per_diameter")


def first_button_mm(diameter_mm: float) -> float:
    """From neck edge to the centre of the first button (rule ``first_below_neck``)."""
    return diameter_mm / 2 + value("first_below_neck")


def closure_for(
    front_mm: float,
    diameter_mm: float,
    bust_mm: float | None = None,
    overlap_mm: float | None = None,
) -> Closure:
    """The buttoned front of a plain edge ``front_mm`` long from neck to hem.

    Without ``bust_mm`` the buttons are spread evenly; without ``overlap_mm`` the
    overlap is the least that the button allows.
    """
    if not DIAMETERS_MM[0] <= diameter_mm <= DIAMETERS_MM[1]:
        raise InvalidInput(
            "not_a_button", least_small_mm=DIAMETERS_MM[0], most_small_mm=DIAMETERS_MM[1],
            given_small_mm=diameter_mm, field="diameter",
        )
    first = first_button_mm(diameter_mm)
    last = front_mm - min(value("last_above_hem"), value("last_above_hem_share") * front_mm)
    if last <= first:
        raise InvalidInput(
            "front_too_short", front_measure_mm=front_mm, button_small_mm=diameter_mm,
            field="front",
        )
    return Closure(
        length_mm=front_mm,
        bust_mm=bust_mm or 0.0,
        overlap_mm=overlap_least_mm(diameter_mm) if overlap_mm is None else overlap_mm,
        first_mm=first,
        last_mm=last,
    )


def respace(closure: Closure, count: int) -> tuple[float, ...]:
    """Where ``count`` buttons go: as even as they can be with one at the bust.

    First and last are kept (of only two, sometimes one alone); one button lies within
    ``bust_tolerance`` of the bust, and how many lie above it is chosen so that the longest
    opening is least. A bust level outside first to last, or beside either, leaves all even.
    One button more never opens a front that fewer hold closed.
    """
    if not 1 <= count <= MOST_BUTTONS:
        raise InvalidInput(
            "buttons_cannot_be_spaced", wanted=count, most=MOST_BUTTONS, field="count")
    first, bust, last = closure.first_mm, closure.bust_mm, closure.last_mm
    near = value("bust_tolerance")
    if count == 1:
        return (bust if first <= bust <= last else (first + last) / 2,)
    if count == 2:
        return _two(first, bust, last)
    if not first + near < bust < last - near:
        return _even(first, last, count - 1)
    step = (last - first) / (count - 1)
    choices = []
    for above in range(1, count - 1):
        level = min(max(first + above * step, bust - near), bust + near)
        choices.append(_even(first, level, above)[:-1] + _even(level, last, count - 1 - above))
    return min(choices, key=lambda places: widest_gap_mm(closure, places))


def widest_gap_mm(closure: Closure, positions_mm: Sequence[float]) -> float:
    """The longest stretch between first and last that no button holds."""
    stops = [closure.first_mm, *positions_mm, closure.last_mm]
    return max(after - before for before, after in zip(stops, stops[1:], strict=False))


def counts_that_hold(closure: Closure, diameter_mm: float) -> tuple[int, ...]:
    """Every count that closes the front without crowding, fewest first.

    Fewest by the rule ``most_button_gap``, most by ``least_gap_per_diameter``.
    """
    run, least_gap = closure.last_mm - closure.first_mm, value("least_gap_per_diameter")
    most = min(MOST_BUTTONS, 1 + int(run / (least_gap * diameter_mm)))
    return tuple(
        count
        for count in range(1, most + 1)
        if widest_gap_mm(closure, respace(closure, count)) <= value("most_button_gap")
    )


def with_spare(count: int) -> int:
    """How many to buy for ``count`` sewn on (rule ``spare_buttons``)."""
    return ceil(count * (1 + value("spare_buttons") / 100))


def best_count(closure: Closure) -> int:
    """The fewest buttons with which the front lies well (rule ``best_button_gap``)."""
    for count in range(1, MOST_BUTTONS):
        if widest_gap_mm(closure, respace(closure, count)) <= value("best_button_gap"):
            return count
    return MOST_BUTTONS


def button_plan(closure: Closure, diameters_mm: Sequence[float]) -> ButtonPlan:
    """Buttons as they are at hand, one diameter each in their order, spaced on a front."""
    places = respace(closure, len(diameters_mm))
    gap = widest_gap_mm(closure, places)
    apart = min((b - a for a, b in zip(places, places[1:], strict=False)), default=gap)
    widest, most = max(diameters_mm), value("most_button_gap")
    holds = False
    if widest > widest_button_mm(closure.overlap_mm) + 1e-6:
        reason = fact(
            "button_wants_overlap", button_small_mm=widest,
            needed_small_mm=overlap_least_mm(widest), overlap_small_mm=closure.overlap_mm)
    elif gap > most:
        reason = fact("gap_too_wide", number=len(places), gap_small_mm=gap, most_small_mm=most)
    elif len(places) > 1 and apart < widest:
        reason = fact("buttons_overlap", number=len(places))
    else:
        holds, reason = True, fact("front_stays_closed", gap_small_mm=gap)
    return ButtonPlan(
        tuple(places), tuple(diameters_mm), tuple(buttonhole_mm(d) for d in diameters_mm),
        gap, holds, reason,
    )


def mixed_plan(closure: Closure, stock: Sequence[tuple[float, int]], count: int) -> ButtonPlan:
    """``count`` buttons from several bins of (diameter_mm, how many), sizes interleaved evenly."""
    if sum(number for _, number in stock) < count:
        raise InvalidInput("fewer_buttons_here", wanted=count, field="count")
    chosen: list[tuple[float, float]] = []
    left = count
    for diameter, number in sorted(stock, key=lambda bin_: -bin_[1]):
        used = min(number, left)
        left -= used
        chosen += [((i + 0.5) / used, diameter) for i in range(used)]
    return button_plan(closure, [diameter for _, diameter in sorted(chosen)])


def button_need(
    closure: Closure,
    *,
    best_mm: float = SHIRT_BUTTON_MM,
    count: int | None = None,
    why: str = "front",
    group: str = "front",
) -> Need:
    """The buttons of a front; by default as many as let it lie well.

    Sizes run from a fifth under ``best_mm`` to the widest the overlap covers.
    """
    most = max(best_mm, widest_button_mm(closure.overlap_mm))
    return Need(
        kind=NotionKind.BUTTON,
        why=why,
        count=count or best_count(closure),
        size_mm=(best_mm * (1 - value("near_button_share")), best_mm, most),
        group=group,
        match_colour=True,
    )


def loose_button_need(count: int, best_mm: float, why: str, *, group: str = "") -> Need:
    """Buttons that close no front: cuffs, a pocket, a waistband."""
    near = value("near_button_share")
    return Need(
        kind=NotionKind.BUTTON,
        why=why,
        count=count,
        size_mm=(best_mm * (1 - near), best_mm, best_mm * (1 + near)),
        group=group or why,
        match_colour=True,
    )


def _two(first: float, bust: float, last: float) -> tuple[float, float]:
    """First and last where these close the front; else one of them and one towards the middle."""
    near, middle = value("bust_tolerance"), (first + last) / 2
    if first + near < bust < last - near:
        return first, min(max(middle, bust - near), bust + near)
    if last - first <= value("most_button_gap"):
        return first, last
    if last - near <= bust <= last:
        return middle, last
    return first, middle


def _even(start: float, end: float, intervals: int) -> tuple[float, ...]:
    """``intervals`` + 1 places from start to end; one place when there are none."""
    if intervals == 0:
        return (start,)
    return tuple(start + (end - start) * i / intervals for i in range(intervals + 1))
