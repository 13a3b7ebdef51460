"""A second cut beside the main one: for a lining, a contrast, or a facing moved to it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stash.lay import Verdict, first_lay
from stash.match.cloth.goes_with import goes_with
from stash.match.fit.answers import Companion
from stash.match.fit.ranking import is_remnant
from stash.match.gather import of_role
from stash.match.strip_lays import Table, at_origin, shifted
from stash.model import Cut, Lay, Piece, Role

COMPANION_ROLES = (Role.LINING, Role.CONTRAST)


def host(
    pieces: tuple[Piece, ...], main: Cut, others: Sequence[Cut], role: Role, table: Table
) -> tuple[Cut, Lay] | None:
    """The smallest cut that goes with ``main`` and takes the pieces; remnants before lengths."""
    order = sorted(others, key=lambda c: (not is_remnant(c), c.outline.area_mm2, c.code))
    for other in order:
        if other.code == main.code or not goes_with(other, main, role).suits:
            continue
        task = table.task(
            pieces, cloth=at_origin(other.outline_washed), one_way=other.cloth.one_way,
            repeat=other.cloth.repeat,
        )
        answer = first_lay(task)
        if answer.verdict is Verdict.FITS and answer.lay:
            left, low, _, _ = other.outline_washed.bounds_mm
            return other, shifted(answer.lay, left, low)
    return None


def companions(
    pieces: tuple[Piece, ...], main: Cut, others: Sequence[Cut], table: Table
) -> Iterator[Companion]:
    """The lining and the contrast that a garment asks for, each from a cut of its own."""
    for role in COMPANION_ROLES:
        own = of_role(pieces, role)
        if not own:
            continue
        found = host(own, main, others, role, table)
        if found:
            cut, lay = found
            doubts = goes_with(cut, main, role).soft
            reason = " ".join([f"{cut.cloth.name} goes with it.", *doubts])
            yield Companion(role=role.value, cut=cut, reason=reason, pieces=own, lay=lay)
        else:
            reason = f"No cut in the stash serves as its {role.value}."
            yield Companion(role=role.value, cut=None, reason=reason, pieces=own)
