"""Drafts looked at by code of its own: what shapely says of the pieces of any body and any options.

Geometry by shapely, a general library; random bodies about the rows of the published tables.
"""

from __future__ import annotations

import math
from random import Random

import pytest
import shapely
from bodies_of_tables import varied
from shapely.affinity import scale
from shapely.geometry import LineString, Point, Polygon

from stash.draft.catalogue import about, draft, garments
from stash.draft.garment import Choice
from stash.errors import StashError
from stash.model import Pattern, Piece, SewnEdge

BODIES = 7  # each with options of its own


def chosen(name: str, random: Random) -> dict[str, object]:
    """About a third of the options: any word, or a length about the usual one."""
    picked: dict[str, object] = {}
    for option in about(name).options:
        if random.random() > 0.35:
            continue
        if isinstance(option, Choice):
            picked[option.name] = random.choice(option.words)
        else:
            usual = option.default or (option.least_mm + option.most_mm) / 2
            mm = usual * random.uniform(0.7, 1.3)
            picked[option.name] = min(max(mm, option.least_mm), option.most_mm)
    return picked


def drawn(name: str) -> list[Pattern]:
    """Those that can be drawn; a refusal is one of the family of errors, never anything else."""
    random, found = Random(f"{name} on its own"), []
    for measured, body in random.sample(varied(60), BODIES):
        try:
            found.append(draft(name, measured, chosen(name, random), body))
        except StashError:
            continue
    return found


def outward(edge: SewnEdge, share: float, inside: Polygon) -> tuple[Point, LineString]:
    """A place on an edge, and the way square to it out of the piece."""
    path = LineString(edge.path_mm)
    at, step = share * path.length, min(0.5, path.length / 8)
    here, a, b = (path.interpolate(mm) for mm in (at, at - step, at + step))
    long = math.hypot(b.x - a.x, b.y - a.y)
    nx, ny = -(b.y - a.y) / long, (b.x - a.x) / long
    if inside.contains(Point(here.x + nx * 0.3, here.y + ny * 0.3)):
        nx, ny = -nx, -ny
    return here, LineString([here, (here.x + 400 * nx, here.y + 400 * ny)])


def bends(edge: SewnEdge, here: Point) -> bool:
    """A corner of the seam line is near: there what is square to it says nothing."""
    near = here.buffer(2.5 * edge.allowance_mm)
    return any(turn > 18 and near.covers(Point(at))
               for turn, at in zip(turns_deg(edge), edge.path_mm[1:], strict=False))


def not_allowed(piece: Piece) -> list[str]:
    """Edges beyond which less than their allowance is cut, square to them, or more, anywhere.

    Beside a corner, what is square to an edge may be more.
    """
    cut, sewn, wrong = Polygon(piece.outline_mm), Polygon(piece.stitch_mm), []
    for edge in piece.edges:
        short = LineString(edge.path_mm).length < max(20.0, 5 * edge.allowance_mm)
        if edge.name == "fold" or edge.turned or short:
            continue
        for share in (0.3, 0.5, 0.7):
            here, way = outward(edge, share, sewn.buffer(-0.01))
            if bends(edge, here):
                continue
            least = cut.exterior.distance(here)
            square = here.distance(way.intersection(cut.exterior)) if least > 0.05 else 0.0
            if square < edge.allowance_mm - 1.0 or least > edge.allowance_mm + 1.0:
                wrong.append(f"{piece.name} {edge.name}: {square:.1f} for {edge.allowance_mm:.1f}")
    return wrong


@pytest.mark.parametrize("name", garments())
def test_every_piece_is_sound(name):
    """No line crosses itself, the seam line lies in the piece, what is cut on the fold is alike on
    both sides, every mark lies in its piece and every snip on its edge.
    """
    for pattern in drawn(name):
        for piece in pattern.pieces:
            cut = Polygon(piece.outline_mm)
            where = f"{piece.name} {pattern.measurements_mm} {pattern.options}"

            assert cut.is_valid and cut.area > 100, where
            if piece.stitch_mm:
                sewn = Polygon(piece.stitch_mm)
                assert sewn.is_valid and sewn.difference(cut.buffer(0.2)).area < 1, where
            if piece.on_fold:
                assert cut.symmetric_difference(scale(cut, 1, -1, origin=(0, 0))).area < 5, where
            for mark in piece.marks:
                shape = LineString(mark.at_mm) if len(mark.at_mm) > 1 else Point(mark.at_mm[0])
                assert cut.buffer(1.0).covers(shape), f"{mark.kind.value} of {where}"
            for snip in piece.notches_mm:
                assert cut.exterior.distance(Point(snip)) < 1.0, where


@pytest.mark.parametrize("measures", [
    {"bust": 1244.0, "waist": 1071.0, "hip": 1178.0},
    {"bust": 940.0, "waist": 740.0, "hip": 1000.0},
])
@pytest.mark.parametrize("length_mm", [405.0, 430.0, 480.0])
def test_the_crotch_of_short_legs_has_no_barb(measures, length_mm):
    """However short the inside leg: the seam turns by less than 20 degrees from one point of its
    curve to the next, and never back.
    """
    for options in ({}, {"ease": 228.0}):
        try:
            shorts = draft("shorts", measures, {"length": length_mm, **options}, "women")
        except StashError:
            continue
        for piece in shorts.pieces:
            for edge in piece.edges:
                if edge.name == "crotch":
                    assert max(turns_deg(edge)) < 20, piece.name


def turns_deg(edge: SewnEdge) -> list[float]:
    """By how much the line turns at each of its points."""
    path = edge.path_mm
    return [
        abs(math.degrees(math.atan2(
            (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]),
            (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]))))
        for a, b, c in zip(path, path[1:], path[2:], strict=False)
    ]


@pytest.mark.parametrize("name", garments())
def test_beyond_every_seam_lies_its_allowance(name):
    """Measured square to the seam at three places, to a millimetre."""
    for pattern in drawn(name):
        for piece in pattern.pieces:
            if piece.stitch_mm and shapely.is_valid(Polygon(piece.stitch_mm)):
                assert not_allowed(piece) == [], f"{pattern.measurements_mm} {pattern.options}"


@pytest.mark.parametrize("name", garments())
def test_snips_meet_where_edges_meet(name):
    """Two edges of one length that are sewn together have their snips at the same places, or one
    ends where the other is snipped.
    """
    for pattern in drawn(name):
        edges = {(p.name, e.name): e for p in pattern.pieces for e in p.edges}
        for join in pattern.joins:
            a, b = edges.get(join.a), edges.get(join.b)
            if a is None or b is None or a is b or abs(join.ease_mm) > 0.5:
                continue
            long = LineString(a.path_mm).length
            if abs(long - LineString(b.path_mm).length) < 1.0 and abs(long - join.a_mm) < 1.0:
                assert meeting(snips(a), snips(b), long), f"{join} {pattern.options}"


def snips(edge: SewnEdge) -> list[float]:
    """Single and double ones, mm from its beginning."""
    return [*edge.notches_mm, *edge.double_notches_mm]


def meeting(a: list[float], b: list[float], long: float) -> bool:
    """From the same end or from opposite ends; what is snipped at an end is met by the end."""
    within = [[mm for mm in own if 1.0 < mm < long - 1.0] for own in (a, b)]
    return any(
        len(within[0]) == len(other)
        and all(abs(x - y) < 1.0 for x, y in zip(sorted(within[0]), sorted(other), strict=True))
        for other in (within[1], [long - mm for mm in within[1]]))
