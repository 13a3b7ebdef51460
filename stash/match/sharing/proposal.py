"""Who comes out of what, by rule of thumb: a choice whose lengths seem to fit, to be laid then."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from stash.match.best_choice import Row, best_choice
from stash.match.fit.question import Question
from stash.match.fit.ranking import is_remnant, spoiling
from stash.match.sharing.pairs import Pair, Pairs
from stash.model import Cut

# Garments laid together take less than each by itself (measured: docs/match.md).
TOGETHER = 0.95
PER_M2 = 1000


def room_mm(cut: Cut) -> float:
    """The mean length of a cut: what its area would be at its full width."""
    outline = cut.outline_washed
    return outline.area_mm2 / outline.width_mm


def propose(
    question: Question, known: Pairs, garments: Sequence[str], room: Mapping[str, float]
) -> dict[str, tuple[str, ...]]:
    """As many of these garments as the lengths allow, then the least cost, by cut.

    ``room`` is the length each cut offers to the strips of the garments, one after another.
    """
    wanted = set(garments)
    options = [
        pair for (name, code), pair in known.laid.items()
        if name in wanted and code in room and pair.length_mm is not None
        and pair.length_mm * TOGETHER <= room[code]
    ]
    rows = _rows(options, room)
    most = best_choice([1] * len(options), rows)
    if most is None or not most.things:
        return {}
    kept = Row(range(len(options)), [1] * len(options), least=len(most.things))
    worths = [-round(_cost_m2(question, known, pair) * PER_M2) for pair in options]
    found = best_choice(worths, [*rows, kept]) or most
    chosen: dict[str, list[str]] = defaultdict(list)
    for n in found.things:
        chosen[options[n].cut].append(options[n].garment)
    return {code: tuple(names) for code, names in chosen.items()}


def most_at_all(known: Pairs) -> int | None:
    """More than so many cannot be made, whoever lays them; None when that is not proved.

    Only what is certain counts: the cloth suits, the garment alone may fit, and the areas
    of the garments add up to no more than the area of the cut.
    """
    options = sorted(known.possible)
    rows = []
    for name in known.garments:
        rows.append(_sum([n for n, (g, _) in enumerate(options) if g == name]))
    for code, cut in known.cuts.items():
        own = [n for n, (_, c) in enumerate(options) if c == code]
        area = cut.outline_washed.area_mm2
        shares = [known.area_mm2[options[n][0]] / area for n in own]
        rows.append(Row(own, shares, most=1.0 + 1e-9))
    found = best_choice([1] * len(options), [row for row in rows if row.things])
    return len(found.things) if found and found.proven else None


def _rows(options: Sequence[Pair], room: Mapping[str, float]) -> list[Row]:
    """Each garment once, and on each cut no more than it has room for."""
    by_garment: dict[str, list[int]] = defaultdict(list)
    by_cut: dict[str, list[int]] = defaultdict(list)
    for n, pair in enumerate(options):
        by_garment[pair.garment].append(n)
        by_cut[pair.cut].append(n)
    rows = [_sum(things) for things in by_garment.values()]
    for code, things in by_cut.items():
        lengths = [(options[n].length_mm or 0.0) * TOGETHER / room[code] for n in things]
        rows.append(Row(things, lengths, most=1.0 + 1e-9))
    return rows


def _sum(things: Sequence[int]) -> Row:
    return Row(things, [1.0] * len(things), most=1.0)


def _cost_m2(question: Question, known: Pairs, pair: Pair) -> float:
    """Cloth lost to later garments: waste, what is spoiled of the cut, and what does not suit."""
    cut = known.cuts[pair.cut]
    taken = (pair.length_mm or 0.0) * cut.outline_washed.width_mm
    waste = max(taken - known.area_mm2[pair.garment], 0.0)
    left = max(cut.outline_washed.area_mm2 - taken, 0.0)
    spoiled = question.weights.use_up * spoiling(is_remnant(cut)) * left
    return (waste + spoiled) / 1e6 + pair.against_m2
