"""What goes with a cloth: its lining, its contrast and its interfacing."""

from __future__ import annotations

from stash.match.cloth.suitability import Suitability
from stash.model import Cloth, Construction, Cut, FibreShare, Notion, Role
from stash.units import System, format_mass

# All common practice, no source: the trade judges these by hand and eye.
LINING_MOST_GSM = 150.0
LINING_SHARE = 1.0
CONTRAST_BETWEEN = (0.6, 1.5)
INTERFACING_BEST_SHARE = 0.75
INTERFACING_MOST_SHARE = 1.1
SHRINK_APART_PCT = 2.0
# Fibres that soften, glaze or shrink under a fusing iron; common practice, no source.
HEAT_SHY = {"acetate", "triacetate", "acrylic", "modacrylic", "chlorofibre", "polypropylene",
            "polyethylene", "elastane"}
HEAT_SHY_SHARE_PCT = 10.0


def goes_with(cut: Cut, main: Cut, role: Role, *, system: System = System.METRIC) -> Suitability:
    """Whether ``cut`` can be the lining or contrast of a garment whose cloth is ``main``."""
    if cut.cloth.construction is Construction.NONWOVEN:
        return Suitability(("A nonwoven bags out and tears: not for a worn piece.",))
    weigh = _lining if role is Role.LINING else _contrast
    hard, soft = weigh(cut.cloth, main.cloth, system)
    return Suitability(tuple(hard), (*soft, *_wash_alike(cut, main)))


def interfacing_suits(
    notion: Notion, cloth: Cloth, *, system: System = System.METRIC
) -> Suitability:
    """Whether an interfacing stands right behind a cloth: never heavier than it is."""
    hard: list[str] = []
    soft: list[str] = []
    if notion.mass_gsm and cloth.mass_gsm:
        share = notion.mass_gsm / cloth.mass_gsm
        behind = format_mass(cloth.mass_gsm, system)
        pair = f"{format_mass(notion.mass_gsm, system)} behind {behind}"
        if share > INTERFACING_MOST_SHARE:
            hard.append(f"Too heavy for this cloth: {pair} stands stiff as card.")
        elif share > INTERFACING_BEST_SHARE:
            soft.append(f"Rather stiff: {pair}; about half the cloth's weight sits better.")
    elif notion.mass_gsm is None:
        soft.append("Its weight is not recorded: try it on a scrap before fusing or sewing it in.")
    if notion.fusible and (shy := _heat_shy(cloth.fibres)):
        soft.append(
            f"{shy.capitalize()} does not bear a hot iron: use a cool press cloth, test a scrap, "
            "or sew the interfacing in."
        )
    return Suitability(tuple(hard), tuple(soft))


def _lining(cloth: Cloth, main: Cloth, system: System) -> tuple[list[str], list[str]]:
    if cloth.mass_gsm is None:
        return [], ["Its weight is not recorded: a lining is lighter than its cloth."]
    mass = format_mass(cloth.mass_gsm, system)
    if main.mass_gsm and cloth.mass_gsm > main.mass_gsm * LINING_SHARE:
        return [f"Heavier than the cloth it would line ({mass}): it would hang wrong."], []
    if cloth.mass_gsm > LINING_MOST_GSM:
        return [], [f"Heavy for a lining at {mass}: it adds bulk at every seam."]
    return [], []


def _contrast(cloth: Cloth, main: Cloth, system: System) -> tuple[list[str], list[str]]:
    if cloth.construction is not main.construction:
        return ["A knit beside a woven pulls the seam between them."], []
    if not cloth.mass_gsm or not main.mass_gsm:
        return [], []
    low, high = CONTRAST_BETWEEN
    share = cloth.mass_gsm / main.mass_gsm
    if low <= share <= high:
        return [], []
    weight = "heavier" if share > 1 else "lighter"
    pair = f"{format_mass(cloth.mass_gsm, system)} beside {format_mass(main.mass_gsm, system)}"
    return [], [f"Much {weight} than the main cloth ({pair}): keep it to small pieces."]


def _wash_alike(cut: Cut, main: Cut) -> list[str]:
    soft = []
    apart = abs(_left_to_shrink(cut) - _left_to_shrink(main))
    if apart >= SHRINK_APART_PCT:
        soft.append(
            f"The two shrink {apart:.1f} % apart: wash both before cutting, or the seam puckers."
        )
    if _dry_only(cut.cloth) and not _dry_only(main.cloth):
        soft.append("It is dry-clean only, and the garment could then not be washed.")
    return soft


def _left_to_shrink(cut: Cut) -> float:
    return 0.0 if cut.washed else cut.cloth.shrink_along_pct


def _dry_only(cloth: Cloth) -> bool:
    return "dry" in cloth.care.lower() and "clean" in cloth.care.lower()


def _heat_shy(fibres: tuple[FibreShare, ...]) -> str:
    return next(
        (
            share.fibre
            for share in fibres
            if share.fibre.lower() in HEAT_SHY and share.percent >= HEAT_SHY_SHARE_PCT
        ),
        "",
    )
