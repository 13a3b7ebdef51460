"""A second cut beside the main one: for a lining, a contrast, or a facing moved to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.lay import first_lay
from stash.match.cloth.goes_with import goes_with
from stash.match.cloth.suitability import Suitability
from stash.match.fit.fit_answer import RoleLine
from stash.match.fit.ranking import KEPT_M2, is_remnant
from stash.match.gather import DraftedGarment, gather, of_role
from stash.match.strip_lays import Table, at_origin
from stash.model import Cut, Laid, Piece, Role

COMPANION_ROLES = (Role.LINING, Role.CONTRAST)


@dataclass(frozen=True, kw_only=True)
class Beside:
    """What is cut from another cloth than the main one: its pieces, and what they are for."""

    role: Role
    pieces: tuple[Piece, ...]
    garments: tuple[DraftedGarment, ...] = ()


def companion(
    beside: Beside, main: Cut, others: Sequence[Cut], table: Table
) -> RoleLine | None:
    """The cut that goes best with ``main`` and takes the pieces; None when none does.

    Cloth with fewer things against it comes first, then remnants before lengths, then
    the smallest, so that a long length is not begun for a pocket.
    """
    judged = [
        (goes_with(other, main, beside.role), other)
        for other in others if other.code != main.code
    ]
    suited = [(verdict, other) for verdict, other in judged if verdict.suits]
    for verdict, other in sorted(suited, key=lambda pair: _order(*pair)):
        task = table.task(
            beside.pieces, cloth=at_origin(other.outline_washed), one_way=other.cloth.one_way,
            repeat=other.cloth.repeat,
        )
        if lay := first_lay(task).lay:
            left, low, _, _ = other.outline_washed.bounds_mm
            laid = Laid(
                cut=other, lay=lay.shifted(left, low), pieces=beside.pieces, role=beside.role,
                garments=tuple(g.planned for g in beside.garments), one_way=other.cloth.one_way,
            )
            return RoleLine(
                role=beside.role, pieces=beside.pieces, laid=laid, suitability=verdict
            )
    return None


def roles_beside(
    garments: tuple[DraftedGarment, ...], main: Cut, others: Sequence[Cut], table: Table
) -> Iterator[RoleLine]:
    """The lining and the contrast that garments ask for, each from a cut of its own."""
    taken: set[str] = set()
    for role in COMPANION_ROLES:
        pieces = of_role(gather(garments), role)
        if not pieces:
            continue
        beside = Beside(role=role, pieces=pieces, garments=garments)
        free = [cut for cut in others if cut.code not in taken]
        line = companion(beside, main, free, table)
        if line and line.cut:
            taken.add(line.cut.code)
        yield line or RoleLine(role=role, pieces=pieces)


def _order(verdict: Suitability, cut: Cut) -> tuple[float, bool, float, str]:
    against = len(verdict.soft) + (KEPT_M2 if cut.keep_for else 0.0)
    return against, not is_remnant(cut), cut.outline.area_mm2, cut.code
