"""What is marked on the pieces, so that someone given only the paper can sew them."""

from __future__ import annotations

from math import atan2, cos, hypot, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from stash.draft.catalogue import draft, garments
from stash.draft.darts import darts, folded_line
from stash.draft.geometry import curve, length
from stash.draft.shirt import GARMENT as SHIRT
from stash.model import Mark, MarkKind, Pattern, Piece, Role
from stash.notions.buttons import best_count, buttonhole_mm, respace

WOMAN = {"hip": 1000.0, "waist": 740.0, "bust": 940.0}
BODIES = [
    ({"hip": 880.0, "waist": 700.0, "bust": 830.0}, "women"), (WOMAN, "women"),
    ({"hip": 1220.0, "waist": 1080.0, "bust": 1180.0}, "women"),
    ({"hip": 1040.0, "waist": 960.0, "bust": 1080.0}, "men"),
    ({"hip": 640.0, "waist": 560.0, "bust": 600.0}, "children"),
]
# What is eased, mm: a shirt's cap into each half of its armhole (``stash.draft.sleeve``); on the
# fitted block half of its stated ease, and the back's shoulder onto the front's.
EASED = {("sleeve", "cap"): 5.5}
FITTED = {
    (piece + end, edge): mm for end in ("", " lining")
    for piece, edge, mm in (("sleeve", "cap", 13.0), ("back", "shoulder", 5.5))
}
# The hollow of a shirt's back is eased onto its yoke.
STATED = {
    "fitted-bodice": FITTED, "dress": FITTED,
    "yoke-shirt": {("sleeve", "cap"): 5.5, ("back", "yoke"): 1.5},
    "gathered-skirt": {("panel", "waist"): 2000.0},
    # A knit's neck is drawn onto its band by a tenth.
    "knit-top": {("front", "neck"): 25.0, ("back", "neck"): 25.0},
}


def kinds(piece: Piece) -> set[MarkKind]:
    """The kinds of mark on a piece."""
    return {m.kind for m in piece.marks}


def piece(pattern: Pattern, name: str) -> Piece:
    """One piece of a pattern."""
    return next(p for p in pattern.pieces if p.name == name)


@pytest.mark.parametrize("name", garments())
@pytest.mark.parametrize(("girths", "kind"), BODIES, ids=lambda v: str(v)[:20])
def test_edges_that_are_sewn_together_agree(name, girths, kind):
    """To half a millimetre, but for a cap's ease; and every pair names edges that exist."""
    for waist in ("fitted", "elastic"):
        options = {"waist": waist} if name in {
            "trousers", "shorts", "straight-skirt", "a-line-skirt", "circle-skirt"} else {}
        pattern = draft(name, girths, options, kind)
        edges = {(p.name, edge) for p in pattern.pieces for edge, _ in p.allowances_mm}
        for join in pattern.joins:
            eased = STATED.get(name, EASED).get(join.a, 0.5)
            assert 0 <= join.ease_mm + 0.5 <= eased + 0.5, join
            assert {join.a, join.b} <= edges | {("collar", "fold")}, join


@settings(max_examples=100, deadline=None)
@given(st.floats(20, 58), st.floats(70, 150), st.floats(-25, 25), st.floats(0, 20))
def test_a_folded_dart_closes_to_one_line(over, depth, rise, hollow):
    """The dart's legs are equally long; folded, its edge lies on the waistline beside it to a
    tenth of a millimetre, and what is left of the waistline is as long as it is to be.
    """
    waist = curve((0, 0), (hollow, 80), (rise, 160), (rise, 240))
    taken = darts(waist, length(waist) - over, depth)
    line = LineString(folded_line(waist, taken))

    for dart in taken:
        left, tip, right = dart.mark
        assert hypot(left[0] - tip[0], left[1] - tip[1]) == pytest.approx(
            hypot(right[0] - tip[0], right[1] - tip[1]))
        peak = line.interpolate((line.project(Point(left)) + line.project(Point(right))) / 2)
        folded = mirrored_in((peak.x, peak.y), left, tip)
        beside = LineString(waist)
        assert beside.distance(Point(folded)) < 1.0
    assert length(waist) - sum(d.intake_mm for d in taken) == pytest.approx(length(waist) - over)


def mirrored_in(p, a, b):
    """The image of a point in the line through a and b."""
    turn = 2 * atan2(b[1] - a[1], b[0] - a[0])
    x, y = p[0] - a[0], p[1] - a[1]
    return a[0] + x * cos(turn) + y * sin(turn), a[1] + x * sin(turn) - y * cos(turn)


@pytest.mark.parametrize("name", ["trousers", "straight-skirt", "a-line-skirt"])
def test_the_cut_edge_peaks_where_a_dart_is_folded(name):
    """Between the legs of each dart the seam line stands out beyond their straight chord."""
    pattern = draft(name, WOMAN, {"waist": "fitted"})
    for part in (piece(pattern, "front"), piece(pattern, "back")):
        ring = LineString([*part.stitch_mm, part.stitch_mm[0]])
        for mark in (m for m in part.marks if m.kind is MarkKind.DART):
            left, tip, right = mark.at_mm
            chord = ((left[0] + right[0]) / 2, (left[1] + right[1]) / 2)
            out = max(
                (hypot(x - tip[0], y - tip[1]) for x, y in ring.coords
                 if hypot(x - chord[0], y - chord[1]) < 12), default=0.0)
            assert out > hypot(chord[0] - tip[0], chord[1] - tip[1])


@pytest.mark.parametrize(("girths", "kind"), BODIES, ids=lambda v: str(v)[:20])
def test_buttons_and_buttonholes_lie_where_they_are_respaced(girths, kind):
    """On the centre front, first and last where the closure says, each hole as long as the
    rule for its button says and starting 3 mm beyond the centre.
    """
    pattern = draft("shirt", girths, {}, kind)
    front, closure = piece(pattern, "front"), pattern.closure
    assert closure is not None
    (centre,) = [m for m in front.marks if m.kind is MarkKind.CENTRE]
    neck = centre.at_mm[0][0]
    buttons = [m.at_mm[0] for m in front.marks if m.kind is MarkKind.BUTTON]
    holes = [m.at_mm for m in front.marks if m.kind is MarkKind.BUTTONHOLE]

    assert [x - neck for x, _ in buttons] == pytest.approx(
        respace(closure, best_count(closure)))
    assert all(y == 0 for _, y in buttons)
    button = next(n for n in pattern.notions if n.why == "front")
    assert len(buttons) == len(holes) == button.count
    for (x0, y0), (x1, y1) in holes:
        assert (x0, y0) == (x1, -3.0)
        assert y1 - y0 == pytest.approx(buttonhole_mm(button.size_mm[1]))
        assert Polygon(front.stitch_mm).covers(Point(x0, y0))
    assert SHIRT.name == "shirt"


@pytest.mark.parametrize("name", ["trousers", "shorts", "straight-skirt", "circle-skirt"])
def test_a_waistband_says_what_it_meets(name):
    """Its fold, the centre opposite its opening, both side seams and where the overlap starts;
    the distances between them are the waist's.
    """
    pattern = draft(name, WOMAN, {"waist": "fitted"})
    band = piece(pattern, "waistband")
    at = {k: sorted(m.at_mm[0][0] for m in band.marks if m.kind is k) for k in kinds(band)}
    (overlap,), (centre,), sides = (
        at[MarkKind.OVERLAP], at[MarkKind.CENTRE], at[MarkKind.SIDE_SEAM])

    assert centre == pytest.approx(overlap / 2)
    assert sides[0] == pytest.approx(overlap - sides[1])
    assert overlap == pytest.approx(740, abs=30)
    assert MarkKind.FOLD in kinds(band)
    assert len([m for m in band.marks if m.kind is MarkKind.NOTCH]) == 4


def along(panel: Piece, kind: MarkKind) -> list[Mark]:
    """Marks of a kind."""
    return [m for m in panel.marks if m.kind is kind]


@pytest.mark.parametrize("name", ["trousers", "shorts", "shirt", "tunic", "robe", "nightshirt",
                                  "straight-skirt", "a-line-skirt"])
def test_notches_tell_front_from_back(name):
    """Single ones on the front where the back has double ones, two snips 8 mm apart."""
    pattern = draft(name, WOMAN)
    front, back = piece(pattern, "front"), piece(pattern, "back")

    assert along(front, MarkKind.NOTCH) and not along(front, MarkKind.DOUBLE_NOTCH)
    doubles = along(back, MarkKind.DOUBLE_NOTCH)
    assert doubles
    for mark in doubles:
        (x0, y0), (x1, y1) = mark.at_mm
        assert 5 < hypot(x1 - x0, y1 - y0) < 10


@pytest.mark.parametrize("garment", ["trousers", "shorts"])
def test_pull_on_trousers_have_hip_and_crotch_lines(garment):
    """Both legs carry the level of the hip and of the crotch, at the same height."""
    pattern = draft(garment, WOMAN)
    for kind in (MarkKind.HIP, MarkKind.CROTCH):
        (front,), (back,) = (along(piece(pattern, n), kind) for n in ("front", "back"))
        assert front.at_mm[0][0] == pytest.approx(back.at_mm[0][0])


@pytest.mark.parametrize("name", garments())
def test_marks_lie_on_the_piece(name):
    """Nothing is marked beyond the cutting line, and each piece says its allowances."""
    for options in ({}, {"pockets": "patch"} if name in {
            "trousers", "shirt", "tunic", "robe", "nightshirt", "apron"} else {}):
        for part in draft(name, WOMAN, options).pieces:
            cut = Polygon(part.outline_mm).buffer(1.0)
            for mark in part.marks:
                if mark.kind is not MarkKind.ROLL:  # it runs on to beyond the neck
                    assert all(cut.covers(Point(p)) for p in mark.at_mm), (part.name, mark)
            assert part.role is not Role.MAIN or part.allowances_mm


@pytest.mark.parametrize("name", garments())
@pytest.mark.parametrize(("girths", "kind"), BODIES, ids=lambda v: str(v)[:20])
def test_notches_meet_where_edges_are_sewn(name, girths, kind):
    """Where two whole edges are sewn as they lie, a notch on one lies opposite a notch on the
    other, to 3 mm; an edge with a dart in it is left to the test of darts.
    """
    pattern = draft(name, girths, {}, kind)
    edges = {(p.name, e.name): e for p in pattern.pieces for e in p.edges}
    for join in pattern.joins:
        a, b = edges[join.a], edges[join.b]
        whole = [length(e.path_mm) for e in (a, b)]
        cap = "cap" in (a.name, b.name)
        if cap or abs(whole[0] - join.a_mm) > 1 or abs(whole[1] - join.b_mm) > 1:
            continue
        one, two = ([mm for mm in (*e.notches_mm, *e.double_notches_mm) if 1 < mm < long - 1]
                    for e, long in zip((a, b), whole, strict=True))
        turned = [whole[1] - mm for mm in two]
        assert not (one and two) or sorted(one) == pytest.approx(sorted(two), abs=3) or (
            sorted(one) == pytest.approx(sorted(turned), abs=3)), join


@pytest.mark.parametrize("name", ["shirt", "yoke-shirt", "tunic", "fitted-bodice", "knit-top"])
def test_the_top_of_a_sleeve_finds_the_shoulder(name):
    """From the front's underarm: the armhole as far as the shoulder and the cap as far as its top
    notch differ by no more than the ease; a yoke, which has no shoulder seam, bears a notch there.
    """
    pattern = draft(name, WOMAN)
    edges = {(p.name, e.name): e for p in pattern.pieces for e in p.edges}
    cap = edges["sleeve", "cap"]
    joins = [j for j in pattern.joins if j.a == ("sleeve", "cap")]
    front = next(j for j in joins if j.b == ("front", "armhole"))
    top = sorted((*cap.notches_mm, *cap.double_notches_mm))[1]
    ahead = front.b_mm
    if name == "yoke-shirt":
        (shoulder,) = edges["yoke", "armhole"].notches_mm
        ahead += shoulder
    eased = sum(j.ease_mm for j in joins)

    assert -0.5 <= top - ahead <= eased + 0.5 or -0.5 <= length(cap.path_mm) - top - ahead <= (
        eased + 0.5)
