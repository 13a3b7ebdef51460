"""Whether a cloth will do for a garment, and the reasons: hard limits and preferences apart.

A hard reason takes the cloth out of the running; a soft one is said aloud and
costs it a place in the order; a note is to be known before cutting and costs nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from stash.fact import Fact, Term, Value, fact
from stash.match.cloth.hangs_on import on_the_cloth
from stash.model import Cloth, ClothWants, Construction, Cut, ShrinkStatus

# Stretch a draft for rigid cloth can ignore; a large print; common practice, no source.
RIGID_STRETCH_PCT = 10.0
LARGE_REPEAT_MM = 100.0


@dataclass(frozen=True)
class Suitability:
    """``hard``: why it cannot serve; ``soft``: why another would serve better;
    ``hangs_on``: the presumed figures that decide it."""

    hard: tuple[Fact, ...] = ()
    soft: tuple[Fact, ...] = ()
    notes: tuple[Fact, ...] = ()
    hangs_on: tuple[Fact, ...] = ()

    @property
    def suits(self) -> bool:
        """True when nothing rules the cloth out."""
        return not self.hard


def suit(cut: Cut, wants: ClothWants, *, garments: Sequence[str] = ()) -> Suitability:
    """What the main cloth of these garments asks, put to one cut."""
    cloth, named = cut.cloth, tuple(map(Term, garments)) or (Term("garment"),)
    hard = (*_construction(cloth, wants), *_mass_hard(cloth, wants, named),
            *_stretch_hard(cloth, wants))
    soft = (*_construction_unknown(cloth, wants), *_mass_soft(cloth, wants, named),
            *_stretch_soft(cloth, wants), *_sheer(cloth, wants), *_kept(cut, garments))
    return Suitability(
        hard, soft, (*_still_worn(cloth, wants), *_notes(cut)), tuple(on_the_cloth(cloth, wants))
    )


def suit_all(cut: Cut, wants: Mapping[str, ClothWants]) -> Suitability:
    """One cloth for several garments, by name: what any of them rules out is ruled out."""
    alike: dict[ClothWants, list[str]] = {}
    for name, want in wants.items():
        alike.setdefault(want, []).append(name)
    each = [suit(cut, want, garments=names) for want, names in alike.items()]
    return Suitability(
        hard=tuple(dict.fromkeys(reason for one in each for reason in one.hard)),
        soft=tuple(dict.fromkeys(reason for one in each for reason in one.soft)),
        notes=each[0].notes if each else (),
        hangs_on=tuple(dict.fromkeys(told for one in each for told in one.hangs_on)),
    )


def either(words: Sequence[str]) -> Value:
    """"woven", "woven or knit" as a value of a fact."""
    if len(words) == 1:
        return Term(words[0])
    return fact("either", first=tuple(map(Term, words[:-1])), last=Term(words[-1]))


def _construction(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    if cloth.construction and cloth.construction not in wants.constructions:
        asked = either([c.value for c in wants.constructions])
        yield fact(f"draft_not_for_{cloth.construction.value}", asked=asked)


def _construction_unknown(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    if cloth.construction is None and len(wants.constructions) < len(Construction):
        yield fact("construction_unknown", asked=either([c.value for c in wants.constructions]))


def _mass_hard(cloth: Cloth, wants: ClothWants, garments: tuple[Term, ...]) -> Iterator[Fact]:
    least, most = wants.mass_gsm
    if cloth.mass_gsm is None:
        return
    if cloth.mass_gsm > most:
        yield fact("too_heavy", mass_gsm=cloth.mass_gsm, most_gsm=most, garments=garments)
    elif cloth.mass_gsm < least:
        yield fact("too_thin", mass_gsm=cloth.mass_gsm, least_gsm=least, garments=garments)


def _mass_soft(cloth: Cloth, wants: ClothWants, garments: tuple[Term, ...]) -> Iterator[Fact]:
    least, most = wants.mass_best_gsm
    if cloth.mass_gsm is None:
        yield fact("mass_unknown")
        return
    inside = wants.mass_gsm[0] <= cloth.mass_gsm <= wants.mass_gsm[1]
    if inside and not least <= cloth.mass_gsm <= most:
        kind = "rather_heavy" if cloth.mass_gsm > most else "rather_light"
        yield fact(kind, mass_gsm=float(cloth.mass_gsm), least_gsm=float(least),
                   most_gsm=float(most), garments=garments)


def _still_worn(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    """Where the published tables disagree about a weight, that is said."""
    worn, mass = wants.mass_worn_gsm, cloth.mass_gsm
    if worn and mass and wants.mass_best_gsm[1] < mass <= worn:
        yield fact("tables_disagree_on_weight", worn_gsm=worn)


def _stretch_hard(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    if _stretch_unknown(cloth, wants):
        return
    if cloth.stretch_across_pct < wants.stretch_across_pct:
        yield fact("too_little_stretch", stretch_across_pct=cloth.stretch_across_pct,
                   wanted_across_pct=wants.stretch_across_pct)


def _stretch_unknown(cloth: Cloth, wants: ClothWants) -> bool:
    """A knit whose stretch nobody recorded: every knit stretches."""
    knit = cloth.construction is Construction.KNIT
    return bool(wants.stretch_across_pct) and knit and not cloth.stretch_across_pct


def _stretch_soft(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    if _stretch_unknown(cloth, wants):
        yield fact("stretch_unknown", wanted_across_pct=wants.stretch_across_pct)
        return
    if 0 < cloth.stretch_along_pct < wants.stretch_along_pct:
        yield fact("little_stretch_along", stretch_along_pct=cloth.stretch_along_pct,
                   wanted_along_pct=wants.stretch_along_pct)
    if wants.stretch_across_pct or cloth.stretch_across_pct <= RIGID_STRETCH_PCT:
        return
    if cloth.construction is None or cloth.construction in wants.constructions:
        yield fact("more_stretch_than_used", stretch_across_pct=cloth.stretch_across_pct)


def _sheer(cloth: Cloth, wants: ClothWants) -> Iterator[Fact]:
    if wants.opaque and cloth.opaque is False:
        yield fact("seen_through")


def _kept(cut: Cut, garments: Sequence[str]) -> Iterator[Fact]:
    kept = (cut.keep_for or "").casefold()
    if kept and not any(name.casefold() in kept for name in garments):
        yield fact("kept_for", what=cut.keep_for or "")


def _notes(cut: Cut) -> Iterator[Fact]:
    """What to know before cutting; costs the cloth nothing."""
    cloth = cut.cloth
    if not cut.washed:
        yield from _washing(cloth)
    if cloth.one_way:
        yield fact("one_way_cloth")
    if cloth.repeat:
        largest = max(cloth.repeat.lengthwise_mm or 0.0, cloth.repeat.crosswise_mm or 0.0)
        if largest >= LARGE_REPEAT_MM:
            yield fact("large_repeat", repeat_mm=largest)


def _washing(cloth: Cloth) -> Iterator[Fact]:
    if cloth.dry_clean_only:
        return
    if not cloth.shrink_known:
        yield fact("shrinkage_unknown")
    elif cloth.shrink_along_pct or cloth.shrink_across_pct:
        status = cloth.shrink_status
        kind = {ShrinkStatus.PRESUMED: "wash_first_presumed", ShrinkStatus.SISTER:
                "wash_first_as_sister"}.get(status, "wash_first")
        more: dict[str, Value] = {"sister": cloth.shrink_from} if cloth.shrink_from else {}
        yield fact(kind, along_pct=cloth.shrink_along_pct, across_pct=cloth.shrink_across_pct,
                   **more)
