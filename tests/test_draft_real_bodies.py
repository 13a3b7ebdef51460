"""Every garment for 200 bodies drawn from real body tables: no piece may be broken."""

from __future__ import annotations

from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, Polygon

from stash.draft.body import RANGE_MM
from stash.draft.body_table import percentile
from stash.draft.catalogue import about, draft, garments
from stash.draft.garment import Choice
from stash.draft.soundness import broken
from stash.errors import InvalidInput
from stash.model import Pattern, Piece, Role
from stash.reference import table

MEASURED = ("hip", "waist", "bust")


def real_bodies(count: int) -> list[tuple[dict[str, float], str]]:
    """Bodies of the tables (ANSUR II medians by hip, children's by height), each girth
    varied by 5 % as real girths vary about the median of their hip; always the same ones.
    """
    random = Random(8559)
    rows = [*table("bodies_adult"), *table("bodies_children")]
    bodies = []
    for _ in range(count):
        row = random.choice(rows)
        girths = {m: float(row[f"{m}_cm"]) * 10 * random.gauss(1, 0.05) for m in MEASURED}
        bodies.append((girths, row["body"]))
    return bodies


BODIES = real_bodies(200)


def varied(name: str, random: Random) -> dict[str, str]:
    """Some of the garment's choices, at random."""
    choices = [o for o in about(name).options if isinstance(o, Choice)]
    return {o.name: random.choice(o.words) for o in choices if random.random() < 0.5}


def sewn_inside_cut(piece: Piece) -> bool:
    """The stitching line lies within the cutting line."""
    return Polygon(piece.outline_mm).buffer(0.5).covers(Polygon(piece.stitch_mm))


@pytest.mark.parametrize("name", garments())
def test_two_hundred_real_bodies(name: str):
    """Each draft is sound: simple outlines, at most 110 points, quantities that pair."""
    random = Random(1)
    for girths, kind in BODIES:
        pattern = draft(name, girths, varied(name, random), kind)

        assert broken(pattern) == [], (girths, kind, pattern.options)
        for piece in pattern.pieces:
            assert Polygon(piece.outline_mm).is_valid
            assert len(piece.outline_mm) <= 110
            assert piece.quantity % 2 == 0 or not piece.mirrored_pair
            assert not piece.stitch_mm or sewn_inside_cut(piece)


@pytest.mark.parametrize("name", garments())
def test_what_a_pattern_says_of_itself(name: str):
    """Unique piece names, a main piece, thread, estimates that were not given, options all set."""
    girths, kind = BODIES[0]
    pattern = draft(name, girths, body=kind)

    names = [p.name for p in pattern.pieces]
    assert len(set(names)) == len(names)
    assert any(p.role is Role.MAIN for p in pattern.pieces)
    assert not set(pattern.estimated) & set(girths)
    assert set(pattern.options) == {o.name for o in about(name).options}


@pytest.mark.parametrize("kind", ["women", "men"])
@pytest.mark.parametrize("which", ["p05", "p50", "p95"])
@pytest.mark.parametrize("name", ["trousers", "shorts", "shirt", "tunic", "straight-skirt"])
def test_the_ends_of_the_scale(name: str, kind: str, which: str):
    """ANSUR II 5th, 50th and 95th percentiles of hip, waist and bust."""
    girths = {m: percentile(kind, m, which) for m in MEASURED}

    assert broken(draft(name, girths, body=kind)) == []


def test_pieces_grow_with_the_body():
    """A bigger hip never makes a smaller pair of trousers."""

    def area(pattern: Pattern) -> float:
        return sum(Polygon(p.outline_mm).area * p.quantity for p in pattern.pieces)

    areas = [area(draft("trousers", {"hip": hip, "waist": 0.8 * hip})) for hip in
             range(850, 1300, 50)]

    assert areas == sorted(areas)


def test_a_pattern_is_the_same_every_time():
    """Nothing is left to chance: the same measurements give the same pieces."""
    girths, kind = BODIES[3]

    assert draft("shirt", girths, body=kind) == draft("shirt", girths, body=kind)


@pytest.mark.parametrize("name", ["trousers", "shorts", "shirt", "tunic", "straight-skirt"])
def test_prints_match_where_the_seams_meet(name: str):
    """Back and front carry their match point at one level below the waist or nape, so stripes
    across meet at the side seams; it lies inside the piece, and interfacing has none.
    """
    pattern = draft(name, {"hip": 1000, "waist": 780, "bust": 920}, body="women")
    points = {p.name: p.match_points_mm for p in pattern.pieces}

    assert points["front"][0][0] == pytest.approx(points["back"][0][0])
    for piece in pattern.pieces:
        assert piece.role is Role.MAIN or not piece.match_points_mm
        assert all(Polygon(piece.outline_mm).buffer(0.1).covers(Point(p)) for p in
                   piece.match_points_mm)


EVERY = tuple(sorted({m for name in garments() for m in about(name).estimates} | {*MEASURED}))


@pytest.mark.parametrize("name", garments())
@given(st.data(), st.sampled_from(BODIES))
@settings(max_examples=25, deadline=None)
def test_any_measurement_gives_whole_pieces_or_a_sentence(name: str, sentence, data, body):
    """One measurement far from the others: a sound draft, or one sentence that names it."""
    girths, kind = body
    odd = data.draw(st.sampled_from(EVERY))
    measured = {**girths, odd: data.draw(st.floats(*RANGE_MM[odd]))}
    try:
        pattern = draft(name, measured, body=kind)
    except InvalidInput as refused:
        assert sentence(refused).endswith(".")
        assert refused.field in {*measured, "length", "leg_width", "sleeve_length"}
    else:
        assert broken(pattern) == []
