"""The ways a stash of bins can supply one notion, best first."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.eye.colour.difference import CLOSE, NEAR, apart, is_colour
from stash.fact import Fact, Term, fact
from stash.match.cloth.goes_with import interfacing_suits
from stash.match.notions import button_choices as buttons
from stash.match.notions.wanted import How, Supply, Wanted, much
from stash.model import Bin, NotionKind
from stash.notions.binding import bias_strips, strip_width_mm
from stash.notions.elastic import casing_allowance_mm, casing_mm
from stash.notions.fastenings import zip_serves

MOST_CHOICES = 8
# Elastic from two thirds to one and a half of the drafted width still holds a waist when
# its casing is cut to suit; common practice, no source.
CASING_SHARE = (0.66, 1.5)


def choices(
    wanted: Wanted, bins: Sequence[Bin], *, most: int = MOST_CHOICES
) -> tuple[Supply, ...]:
    """At most so many ways to supply ``wanted``, best first; empty when there is none."""
    kind = wanted.need.kind
    same = [b for b in bins if b.notion.kind is kind]
    if kind is NotionKind.BUTTON:
        found = buttons.button_choices(wanted, same)
    elif kind is NotionKind.THREAD:
        found = _threads(wanted, same)
    else:
        one = ONE_BIN.get(kind, _sized)
        found = [choice for b in same if (choice := one(wanted, b))]
    if kind is NotionKind.BINDING:
        found += _own_binding(wanted)
    if kind is NotionKind.ELASTIC:
        found += [choice for b in same if (choice := _other_casing(wanted, b))]
    judged = [_coloured(wanted, choice, same) for choice in found]
    return tuple(sorted(judged, key=lambda c: (c.cost, c.parts))[:most])


def nearest(wanted: Wanted, bins: Sequence[Bin]) -> tuple[Fact, ...]:
    """What comes nearest when nothing serves, so that a maker can judge for herself."""
    same = [b for b in bins if b.notion.kind is wanted.need.kind]
    if wanted.need.kind is NotionKind.BUTTON:
        return (buttons.why_not(wanted, same),)
    if not same:
        return (fact("none_of_this_kind", thing=Term(wanted.need.kind.value)),)
    if wanted.need.kind is NotionKind.ZIP and wanted.need.size_mm:
        best = wanted.need.size_mm[1]
        near = min(same, key=lambda b: abs((b.notion.size_mm or 0.0) - best))
        return (fact("nearest_is", name=near.notion.name),
                zip_serves(near.notion, best, wanted.need.trimmed).why)
    near = min(same, key=lambda b: (_off_size(wanted, b), _hue(wanted, b), -b.amount))
    size = near.notion.size_mm
    left = much(near.notion.kind, near.amount)
    if size:
        return (fact("nearest_is_wide", name=near.notion.name, size_mm=size, left=left),)
    return (fact("nearest_is_left", name=near.notion.name, left=left),)


def _sized(wanted: Wanted, bin_: Bin) -> Supply | None:
    """Elastic, tape, cord, binding, snaps and hooks: a size in range and enough of it."""
    if bin_.amount < wanted.amount or _off_size(wanted, bin_):
        return None
    best = wanted.need.size_mm[1] if wanted.need.size_mm else None
    size = bin_.notion.size_mm
    off = abs(size - best) / best if size and best else 0.0
    kind = "take_of" if not size else "take_of_size" if off <= 0.02 else "take_of_size_instead"
    told = fact(kind, much=_asked(wanted), name=bin_.notion.name, size_mm=size, asked_mm=best)
    how = How.EXACT if off <= 0.02 else How.NEAR
    return Supply(how=how, parts=((bin_.code, wanted.amount),), told=(told,), cost=2 * off)


def _other_casing(wanted: Wanted, bin_: Bin) -> Supply | None:
    """Elastic of another width, when the casing is cut to suit it."""
    size, need = bin_.notion.size_mm, wanted.need.size_mm
    if not size or not need or bin_.amount < wanted.amount or not _off_size(wanted, bin_):
        return None
    best = need[1]
    if not best * CASING_SHARE[0] <= size <= best * CASING_SHARE[1]:
        return None
    more = casing_allowance_mm(size) - casing_allowance_mm(best)
    told = fact(
        "take_and_deepen_casing" if more > 0 else "take_and_narrow_casing",
        much=_asked(wanted), name=bin_.notion.name, size_mm=size, edge_mm=abs(more),
        casing_mm=casing_mm(size),
    )
    return Supply(
        how=How.NEAR, parts=((bin_.code, wanted.amount),), told=(told,),
        cost=2.0 + abs(size - best) / best,
    )


def _zip(wanted: Wanted, bin_: Bin) -> Supply | None:
    if bin_.amount < wanted.amount or not wanted.need.size_mm:
        return None
    opening = wanted.need.size_mm[1]
    verdict = zip_serves(bin_.notion, opening, wanted.need.trimmed)
    size = bin_.notion.size_mm
    if not verdict.serves or size is None:
        return None
    off = abs(size - opening)
    return Supply(
        how=How.EXACT if off <= 5 else How.NEAR,
        parts=((bin_.code, wanted.amount),),
        told=(fact("zip_of", name=bin_.notion.name, size_mm=size), verdict.why),
        cost=off / 100,
    )


def _threads(wanted: Wanted, bins: Sequence[Bin]) -> list[Supply]:
    """One reel with enough, or two of near colours; a reel of another colour does not serve.

    Where several run at once, as many reels as that, or one to wind off from.
    """
    if wanted.need.spools_at_once > 1:
        return _running_together(wanted, bins)
    near = [b for b in bins if b.amount > 0 and _hue(wanted, b) <= NEAR]
    found = [
        Supply(
            how=How.EXACT,
            parts=((b.code, wanted.amount),),
            told=(fact("thread_of", thread_mm=wanted.amount, name=b.notion.name,
                       left_thread_mm=b.amount),),
            cost=0.0,
        )
        for b in near
        if b.amount >= wanted.amount
    ]
    short = sorted((b for b in near if b.amount < wanted.amount), key=lambda b: -b.amount)
    if not found and len(short) >= 2 and short[0].amount + short[1].amount >= wanted.amount:
        first, second = short[0], short[1]
        rest = wanted.amount - first.amount
        told = fact(
            "thread_of_two", thread_mm=first.amount, name=first.notion.name,
            rest_thread_mm=rest, other=second.notion.name,
        )
        parts = ((first.code, first.amount), (second.code, rest))
        found.append(Supply(how=How.MIXED, parts=parts, told=(told,), cost=2.0))
    return found


def _running_together(wanted: Wanted, bins: Sequence[Bin]) -> list[Supply]:
    """A reel for each thread that runs at once; else one with enough, wound off."""
    at_once, total = wanted.need.spools_at_once, wanted.amount
    each = max(wanted.need.most_each_mm or 0.0, total / at_once)
    near = sorted((b for b in bins if b.amount > 0 and _hue(wanted, b) <= NEAR),
                  key=lambda b: (_hue(wanted, b), -b.amount))
    use, found = Term(wanted.need.group), []
    enough = [b for b in near if b.amount >= each][:at_once]
    if len(enough) == at_once:
        names = tuple(b.notion.name for b in enough)
        told = fact("thread_on_spools", thread_mm=total, use=use, name=names)
        parts = tuple((b.code, total / at_once) for b in enough)
        found.append(Supply(how=How.EXACT, parts=parts, told=(told,), cost=0.0))
    for b in near:
        if b.amount >= total:
            told = fact("thread_wound_off", thread_mm=total, use=use, name=b.notion.name,
                        count=at_once)
            found.append(Supply(how=How.NEAR, parts=((b.code, total),), told=(told,), cost=1.0))
    return found


def _interfacing(wanted: Wanted, bin_: Bin) -> Supply | None:
    """The pieces laid on the bin's own width; by length alone when there are no pieces."""
    verdict = interfacing_suits(bin_.notion, wanted.cloth) if wanted.cloth else None
    if verdict and not verdict.suits:
        return None
    lay = wanted.lay_on(bin_) if wanted.lay_on else None
    if wanted.lay_on and lay is None:
        return None
    taken = lay.length_mm if lay else wanted.amount
    if taken > bin_.amount:
        return None
    told = [fact("length_of", length_mm=taken, name=bin_.notion.name)]
    cost = 0.0
    if wanted.need.fusible is not None and wanted.need.fusible != bin_.notion.fusible:
        told.append(fact("sewn_in_not_fused" if wanted.need.fusible else "fused_not_sewn_in"))
        cost += 1.0
    if verdict:
        told += verdict.soft
        cost += 0.5 * len(verdict.soft)
    how = How.EXACT if cost == 0 else How.NEAR
    return Supply(how=how, parts=((bin_.code, taken),), told=tuple(told), cost=cost, lay=lay)


def _own_binding(wanted: Wanted) -> list[Supply]:
    """Bias strips from the garment's own cloth: always the right colour, costs cloth."""
    if not wanted.cloth_width_mm or not wanted.need.size_mm:
        return []
    strip = strip_width_mm(wanted.need.size_mm[1])
    if wanted.cloth_width_mm <= 2 * strip:
        return []
    cut = bias_strips(wanted.amount, strip, wanted.cloth_width_mm)
    told = fact(
        "binding_from_cloth", count=cut.strips, strip_mm=strip, joins=cut.joins,
        cloth_mm=cut.cloth_length_mm,
    )
    return [Supply(how=How.FROM_CLOTH, parts=(), told=(told,), cost=3.0)]


def _coloured(wanted: Wanted, choice: Supply, bins: Sequence[Bin]) -> Supply:
    """The choice with its colour judged: dearer, and said, when it does not match."""
    if not wanted.need.match_colour or not choice.parts:
        return choice
    used = [b for b in bins if b.code in dict(choice.parts)]
    worst = max((_hue(wanted, b) for b in used), default=0.0)
    if worst <= CLOSE:
        return choice
    return replace(
        choice,
        how=How.NEAR if choice.how is How.EXACT else choice.how,
        told=(*choice.told, fact("of_near_colour" if worst <= NEAR else "of_another_colour")),
        cost=choice.cost + min(worst, 60.0) / 12,
    )


def _asked(wanted: Wanted) -> Fact:
    return much(wanted.need.kind, wanted.amount)


def _hue(wanted: Wanted, bin_: Bin) -> float:
    """CIEDE2000 to the colour wanted; 0 where either is not recorded."""
    asked, own = wanted.colour, bin_.notion.colour
    if asked is None or own is None or not is_colour(asked) or not is_colour(own):
        return 0.0
    return apart(asked, own)


def _off_size(wanted: Wanted, bin_: Bin) -> float:
    """How far the bin's size lies outside the range that serves, 0 inside."""
    if wanted.need.size_mm is None:
        return 0.0
    least, best, most = wanted.need.size_mm
    size = bin_.notion.size_mm
    if size is None:
        return best
    return max(least - size, size - most, 0.0)


ONE_BIN: dict[NotionKind, Callable[[Wanted, Bin], Supply | None]] = {
    NotionKind.ZIP: _zip, NotionKind.INTERFACING: _interfacing,
}
