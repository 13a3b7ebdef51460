"""A facing for a fitted waist in place of a band: the top of a panel with its darts folded away.

How deep it is, is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2
from typing import Literal

from shapely import LineString
from shapely import Point as Place

from stash.draft.cutting_line import FOLD, Edge
from stash.draft.darts import Dart
from stash.draft.edge_facing import FacingCut, facing_from
from stash.draft.geometry import Path, back, join, length, line, parted, turned
from stash.draft.panel import Panel
from stash.model import Point

WaistTop = Literal["band", "facing"]
WAIST_FACING_MM, REACH = 50.0, 2.5  # common practice; how far down the panel is drawn, chosen here


@dataclass(frozen=True, kw_only=True)
class PanelTop:
    """The top of a panel: its waist from the centre to the side, the seams down from both ends,
    and their allowances: of the waist, the side and the centre.
    """

    waist: Path
    side: Path
    centre: Path
    darts: Sequence[Dart]
    allow: tuple[float, float, float]


def waist_facing(top: PanelTop, cut: FacingCut) -> Panel:
    """The facing for one panel; its waist is as long as the panel's once its darts are sewn."""
    reach = REACH * cut.deep_mm
    waist, side = _closed(top.waist, _down(top.side, reach), top.darts)
    centre = _down(top.centre, reach)
    sewn, beside, middle = top.allow
    edges = (
        Edge(FOLD if cut.on_fold else "centre", back(centre), 0.0 if cut.on_fold else middle),
        Edge("waist", waist, sewn), Edge("side", side, beside),
        Edge("foot", line(side[-1], centre[-1])),
    )
    return facing_from(Panel(name="top", edges=edges), "waist", cut)


def _down(path: Path, mm: float) -> Path:
    """The first part of a path."""
    return parted(path, min(mm, 0.9 * length(path)))[0]


def _closed(waist: Path, side: Path, darts: Sequence[Dart]) -> tuple[Path, Path]:
    """The waist without its darts, and the side as it lies then."""
    rest = waist
    beyond = side
    for dart in reversed(darts):
        left, tip, right = dart.mark
        at = [_reach(rest, p) for p in (left, right)]
        before, after = parted(rest, min(at))[0], parted(rest, max(at))[1]
        first, last = (left, right) if at[0] < at[1] else (right, left)
        turn = _angle(tip, last) - _angle(tip, first)
        rest = join(before, turned(after, tip, turn))
        beyond = turned(beyond, tip, turn)
    return rest, beyond


def _angle(tip: Point, p: Point) -> float:
    return atan2(p[1] - tip[1], p[0] - tip[0])


def _reach(path: Path, point: Point) -> float:
    """How far along a path a point on it lies."""
    return float(LineString(path).project(Place(point)))
