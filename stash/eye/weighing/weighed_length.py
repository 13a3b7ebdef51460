"""How long a cut is, from its weight and its width."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt

from stash.eye.weighing.scale import Scale
from stash.fact import Fact, fact
from stash.model.measured import Measured, Origin

USELESS = 0.25  # an error of a quarter of the length says nothing that a look does not
WIDTH_ERROR_MM = 6.0
FINE_STEP_G = 0.1


@dataclass(frozen=True, kw_only=True)
class ByWeight:
    """A length or a count, or None where the error makes it useless; then what would help."""

    figure: Measured
    useful: bool
    because: tuple[Fact, ...]
    would_help: tuple[Fact, ...] = ()


@dataclass(frozen=True, kw_only=True)
class WeighedCloth:
    """What is known of a cut on the scale; ``moisture_share`` is that of one weighing.

    ``mass_gsm`` may come from a weighing too, and then moisture moves both.
    """

    grams: float
    width_mm: float
    mass_gsm: Measured
    moisture_share: float
    scale: Scale


def length_by_weight(cloth: WeighedCloth) -> ByWeight:
    """Length = mass / (mass per area x width), the errors added in squares."""
    weighed = cloth.scale.reading(cloth.grams)
    length = weighed.value / (cloth.mass_gsm.value * cloth.width_mm) * 1e6
    both_weighed = cloth.mass_gsm.origin is not Origin.PRESUMED
    shares = {
        "scale_share": weighed.share,
        "mass_share": cloth.mass_gsm.share,
        "moisture_share": cloth.moisture_share * (sqrt(2) if both_weighed else 1.0),
        "width_share": WIDTH_ERROR_MM / cloth.width_mm,
    }
    share = hypot(*shares.values())
    figure = Measured(value=length, error=share * length, origin=Origin.WEIGHED)
    because = fact("length_by_weight", mass_gsm=cloth.mass_gsm.value,
                   wide_width_mm=cloth.width_mm, error_pct=round(100 * share, 1),
                   **{f"{name[:-6]}_pct": round(100 * value, 1) for name, value in shares.items()})
    said = (because,) if both_weighed else (because, fact("mass_presumed_settles"))
    return ByWeight(figure=figure, useful=share <= USELESS, because=said,
                    would_help=_would_help(shares, cloth))


def _would_help(shares: dict[str, float], cloth: WeighedCloth) -> tuple[Fact, ...]:
    """The one thing that would lessen the largest error, where it is worth it."""
    worst = max(shares, key=lambda name: shares[name])
    if shares[worst] < 0.04:
        return ()
    if worst == "scale_share" and cloth.scale.step_g > FINE_STEP_G:
        return (fact("finer_scale_helps", step_g=FINE_STEP_G), fact("tape_helps"))
    if worst == "mass_share":
        presumed = cloth.mass_gsm.origin is Origin.PRESUMED  # which is said already
        return () if presumed else (fact("larger_swatch_helps"),)
    return (fact("tape_helps"),)
