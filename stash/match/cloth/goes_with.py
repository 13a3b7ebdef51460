"""What goes with a cloth: its lining, its contrast and its interfacing."""

from __future__ import annotations

from collections.abc import Iterator

from stash.fact import Fact, Term, fact
from stash.match.cloth.suitability import Suitability
from stash.model import Cloth, Construction, Cut, FibreShare, Notion, Role

# All common practice, no source: the trade judges these by hand and eye.
LINING_SHARE = 1.0
CONTRAST_BETWEEN = (0.6, 1.5)
INTERFACING_BEST_SHARE = 0.75
INTERFACING_MOST_SHARE = 1.1
SHRINK_APART_PCT = 2.0
# What a lining weighs: 35 to 120 g/m2, best 50 to 90 (common practice, drawn from cloth
# makers' tables; a maker's eye is worth more). Heavier cloth lines a coat, with a remark.
LINING_MOST_GSM = 120.0
# Half as much again is no lining whatever it lies beside; common practice, no source.
LINING_NEVER_GSM = 180.0
# Fibres that soften, glaze or shrink under a fusing iron; common practice, no source.
HEAT_SHY = {"acetate", "triacetate", "acrylic", "modacrylic", "chlorofibre", "polypropylene",
            "polyethylene", "elastane"}
HEAT_SHY_SHARE_PCT = 10.0


def goes_with(cut: Cut, main: Cut, role: Role) -> Suitability:
    """Whether ``cut`` can be the lining or contrast of a garment whose cloth is ``main``."""
    if cut.cloth.construction is Construction.NONWOVEN:
        return Suitability((fact("nonwoven_wears_badly"),))
    weigh = _lining if role is Role.LINING else _contrast
    judged = weigh(cut.cloth, main.cloth)
    return Suitability(judged.hard, (*judged.soft, *_wash_alike(cut, main)))


def interfacing_suits(notion: Notion, cloth: Cloth) -> Suitability:
    """Whether an interfacing stands right behind a cloth: never heavier than it is."""
    hard: list[Fact] = []
    soft: list[Fact] = []
    if notion.mass_gsm and cloth.mass_gsm:
        share = notion.mass_gsm / cloth.mass_gsm
        pair = {"mass_gsm": notion.mass_gsm, "cloth_gsm": cloth.mass_gsm}
        if share > INTERFACING_MOST_SHARE:
            hard.append(fact("interfacing_too_heavy", **pair))
        elif share > INTERFACING_BEST_SHARE:
            soft.append(fact("interfacing_rather_stiff", **pair))
    elif notion.mass_gsm is None:
        soft.append(fact("interfacing_mass_unknown"))
    if notion.fusible and (shy := _heat_shy(cloth.fibres)):
        soft.append(fact("fibre_shuns_iron", fibre=Term(shy)))
    return Suitability(tuple(hard), tuple(soft))


def _lining(cloth: Cloth, main: Cloth) -> Suitability:
    if cloth.mass_gsm is None:
        return Suitability(soft=(fact("lining_mass_unknown"),))
    heavier = main.mass_gsm and cloth.mass_gsm > main.mass_gsm * LINING_SHARE
    if heavier or cloth.mass_gsm > LINING_NEVER_GSM:
        return Suitability((fact("lining_too_heavy", mass_gsm=cloth.mass_gsm),))
    if cloth.mass_gsm > LINING_MOST_GSM:
        return Suitability(soft=(fact("lining_rather_heavy", mass_gsm=cloth.mass_gsm),))
    return Suitability()


def _contrast(cloth: Cloth, main: Cloth) -> Suitability:
    known = cloth.construction and main.construction
    if known and cloth.construction is not main.construction:
        return Suitability((fact("knit_beside_woven"),))
    if not cloth.mass_gsm or not main.mass_gsm:
        return Suitability()
    low, high = CONTRAST_BETWEEN
    share = cloth.mass_gsm / main.mass_gsm
    if low <= share <= high:
        return Suitability()
    kind = "much_heavier_beside" if share > 1 else "much_lighter_beside"
    return Suitability(soft=(fact(kind, mass_gsm=cloth.mass_gsm, main_gsm=main.mass_gsm),))


def _wash_alike(cut: Cut, main: Cut) -> Iterator[Fact]:
    apart = abs(_left_to_shrink(cut) - _left_to_shrink(main))
    if apart >= SHRINK_APART_PCT:
        yield fact("shrink_apart", apart_pct=round(apart, 1))
    if cut.cloth.dry_clean_only and not main.cloth.dry_clean_only:
        yield fact("dry_clean_only_beside")


def _left_to_shrink(cut: Cut) -> float:
    return 0.0 if cut.washed else cut.cloth.shrink_along_pct


def _heat_shy(fibres: tuple[FibreShare, ...]) -> str:
    return next(
        (
            share.fibre
            for share in fibres
            if share.fibre.lower() in HEAT_SHY and share.percent >= HEAT_SHY_SHARE_PCT
        ),
        "",
    )
