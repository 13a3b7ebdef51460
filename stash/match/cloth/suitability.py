"""Whether a cloth will do for a garment, and the reasons: hard limits and preferences apart.

A hard reason takes the cloth out of the running; a soft one is said aloud and
costs it a place in the order. Every reason is one sentence a maker could act on.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stash.match.cloth.shrinkage import typical
from stash.model import Cloth, ClothWants, Construction, Cut
from stash.units import System, format_length, format_mass

# Stretch a draft for rigid cloth can ignore; a large print; common practice, no source.
RIGID_STRETCH_PCT = 10.0
LARGE_REPEAT_MM = 100.0
_GROWS = {
    Construction.KNIT: "it would stretch out of shape on seams drafted for woven cloth",
    Construction.NONWOVEN: "it has no grain and tears where a garment bends",
    Construction.WOVEN: "the draft relies on a knit's stretch",
}


@dataclass(frozen=True)
class Suitability:
    """``hard``: why it cannot serve; ``soft``: why another would serve better."""

    hard: tuple[str, ...] = ()
    soft: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()

    @property
    def suits(self) -> bool:
        """True when nothing rules the cloth out."""
        return not self.hard

    def to_json(self) -> list[dict]:
        """``[{"kind": "hard"|"soft"|"note", "says"}, ...]``, hard reasons first."""
        told = (("hard", self.hard), ("soft", self.soft), ("note", self.notes))
        return [{"kind": kind, "says": says} for kind, lines in told for says in lines]


def suit(
    cut: Cut, wants: ClothWants, *, garment: str = "garment", system: System = System.METRIC
) -> Suitability:
    """What a garment's main cloth asks, put to one cut."""
    cloth = cut.cloth
    hard = [*_construction(cloth, wants), *_mass_hard(cloth, wants, garment, system),
            *_stretch_hard(cloth, wants)]
    soft = [*_mass_soft(cloth, wants, garment, system), *_stretch_soft(cloth, wants),
            *_sheer(cloth, wants), *_kept(cut, garment)]
    return Suitability(tuple(hard), tuple(soft), tuple(_notes(cut, system)))


def suit_all(
    cut: Cut, wants: Mapping[str, ClothWants], *, system: System = System.METRIC
) -> Suitability:
    """One cloth for several garments, by name: what any of them rules out is ruled out."""
    alike: dict[ClothWants, list[str]] = {}
    for name, want in wants.items():
        alike.setdefault(want, []).append(name)
    each = [
        suit(cut, want, garment=" and ".join(names), system=system)
        for want, names in alike.items()
    ]
    return Suitability(
        hard=tuple(dict.fromkeys(reason for one in each for reason in one.hard)),
        soft=tuple(dict.fromkeys(reason for one in each for reason in one.soft)),
        notes=each[0].notes if each else (),
    )


def _construction(cloth: Cloth, wants: ClothWants) -> list[str]:
    if cloth.construction in wants.constructions:
        return []
    asked = " or ".join(c.value for c in wants.constructions)
    why = _GROWS[cloth.construction]
    return [f"This is a {cloth.construction.value} and the draft is for {asked} cloth: {why}."]


def _mass_hard(cloth: Cloth, wants: ClothWants, garment: str, system: System) -> list[str]:
    least, most = wants.mass_gsm
    if cloth.mass_gsm is None or least <= cloth.mass_gsm <= most:
        return []
    mass = format_mass(cloth.mass_gsm, system)
    if cloth.mass_gsm > most:
        return [
            f"Too heavy at {mass}: {_does(garment, 'take')} at most {format_mass(most, system)}."
        ]
    return [f"Too thin at {mass}: {_does(garment, 'take')} at least {format_mass(least, system)}."]


def _mass_soft(cloth: Cloth, wants: ClothWants, garment: str, system: System) -> list[str]:
    least, most = wants.mass_best_gsm
    if cloth.mass_gsm is None:
        return [
            "Its weight is not recorded: weigh a 10 x 10 cm swatch, and the grams times 100 "
            "are g/m²."
        ]
    inside = wants.mass_gsm[0] <= cloth.mass_gsm <= wants.mass_gsm[1]
    if not inside or least <= cloth.mass_gsm <= most:
        return []
    side = "heavy" if cloth.mass_gsm > most else "light"
    return [
        f"On the {side} side at {format_mass(cloth.mass_gsm, system)}: "
        f"{_does(garment, 'like')} {format_mass(least, system)} to {format_mass(most, system)}."
    ]


def _does(garment: str, verb: str) -> str:
    """"trousers take", "shirt and shorts take", but "a shirt takes"."""
    several = garment.endswith("s") or " and " in garment
    return f"{garment} {verb}" if several else f"a {garment} {verb}s"


def _stretch_hard(cloth: Cloth, wants: ClothWants) -> list[str]:
    if cloth.stretch_across_pct >= wants.stretch_across_pct:
        return []
    return [
        f"It gives {cloth.stretch_across_pct:.0f} % across and the draft relies on "
        f"{wants.stretch_across_pct:.0f} %: it could not be put on."
    ]


def _stretch_soft(cloth: Cloth, wants: ClothWants) -> list[str]:
    if wants.stretch_across_pct or cloth.stretch_across_pct <= RIGID_STRETCH_PCT:
        return []
    if cloth.construction not in wants.constructions:
        return []
    return [
        f"It gives {cloth.stretch_across_pct:.0f} % across, which the draft does not use: "
        "it will come out roomy."
    ]


def _sheer(cloth: Cloth, wants: ClothWants) -> list[str]:
    if not wants.opaque or cloth.opaque is not False:
        return []
    return ["It can be seen through: it would want a lining or something worn under it."]


def _kept(cut: Cut, garment: str) -> list[str]:
    kept = (cut.keep_for or "").lower()
    if not kept or any(name in kept for name in garment.lower().split(" and ")):
        return []
    return [f"You are keeping it for {cut.keep_for}."]


def _notes(cut: Cut, system: System) -> list[str]:
    """What to know before cutting; costs the cloth nothing."""
    cloth, notes = cut.cloth, []
    if not cut.washed:
        notes.append(_washing(cloth))
    if cloth.one_way:
        notes.append("One-way: every piece points the same way.")
    if cloth.repeat and max(_repeats(cloth)) >= LARGE_REPEAT_MM:
        size = format_length(max(_repeats(cloth)), system)
        notes.append(f"Large repeat ({size}): place the print before chalking.")
    return notes


def _washing(cloth: Cloth) -> str:
    along, across = cloth.shrink_along_pct, cloth.shrink_across_pct
    if along or across:
        return (
            f"Not washed yet: laid as it will be after shrinking {along:g} % along and "
            f"{across:g} % across, so wash it before cutting."
        )
    usual = typical(cloth.fibres)
    return (
        "Not washed yet and its shrinkage is not recorded: wash it before cutting; "
        f"{usual.name} commonly loses about {usual.along_pct:g} % along."
    )


def _repeats(cloth: Cloth) -> tuple[float, float]:
    repeat = cloth.repeat
    return (repeat.lengthwise_mm or 0.0, repeat.crosswise_mm or 0.0) if repeat else (0.0, 0.0)


