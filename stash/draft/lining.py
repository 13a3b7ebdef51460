"""Linings: the same panels cut from another cloth, and how they are sewn to each other.

A lining ends where the garment does (its hem takes up the hem's allowance): common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from stash.draft.panel import Panel
from stash.model import Joined, MarkKind, Role

Lining = Literal["none", "full"]
LINED = " lining"


def lining_of(panel: Panel, plain: float | None = None) -> Panel:
    """The same panel from the lining, its hem as long as the garment is finished.

    ``plain`` is what is allowed where the garment turns a casing.
    """
    edges = tuple(
        replace(e, allowance_mm=0.0, turned=False) if e.name == "hem"
        else replace(e, allowance_mm=plain, turned=False) if plain is not None and e.turned
        else e
        for e in panel.edges
    )
    return replace(
        panel, name=f"{panel.name}{LINED}", edges=edges, match=None,
        cutting=replace(panel.cutting, role=Role.LINING), one_side=(),
        marks=tuple(m for m in panel.marks if m.kind is MarkKind.DART),
    )


def lined_as(joins: Sequence[Joined], names: Sequence[str]) -> list[Joined]:
    """The seams between these panels once more, in the lining."""
    return [
        Joined((j.a[0] + LINED, j.a[1]), (j.b[0] + LINED, j.b[1]), j.a_mm, j.b_mm)
        for j in joins if j.a[0] in names and j.b[0] in names
    ]
