"""The revere-collar shirt, checked as a cutter checks it."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon

from stash.draft import shirt
from stash.draft.bodice import back_points, bodice_for, front_points
from stash.draft.body import complete
from stash.draft.catalogue import draft
from stash.draft.garment import Allowances
from stash.draft.geometry import distance, length
from stash.draft.revere import collar_panel, facing_panel, under_collar_panel
from stash.draft.shirt import ShirtLines
from stash.draft.sleeve import Sleeve
from stash.errors import InvalidInput
from stash.model import NotionKind, Outline, Role

INCH = 25.4
bodies = st.builds(
    lambda bust, kind: ({"bust": bust}, kind), st.floats(780, 1300),
    st.sampled_from(["women", "men"]),
) | st.builds(lambda bust: ({"chest": bust}, "children"), st.floats(500, 860))
sleeves = st.sampled_from(["short", "long"])


def drawn(body, **options) -> tuple[ShirtLines, object]:
    """The lines of the shirt before allowances, and the completed body."""
    measured, kind = body
    whole = complete(measured, shirt.GARMENT.estimates, kind)
    return shirt.draw(whole, shirt.GARMENT.read_options(options)), whole


def armhole(lines: ShirtLines) -> float:
    """Length of one whole armhole on the stitching line."""
    return length(lines.back.armhole) + length(lines.front.armhole)


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_front_and_back_meet_at_shoulder_and_side(body):
    """The seams are equally long within half a millimetre."""
    lines, _ = drawn(body)

    assert length(lines.front.shoulder) == pytest.approx(length(lines.back.shoulder), abs=0.5)
    assert length(lines.front.side) == pytest.approx(length(lines.back.side), abs=0.5)


@settings(max_examples=50, deadline=None)
@given(bodies, sleeves)
def test_the_sleeve_cap_fits_the_armhole(body, sleeve):
    """The cap is 0 to 40 mm longer than the armhole, and each half fits its own half."""
    lines, _ = drawn(body, sleeve=sleeve)
    front, back = length(lines.sleeve.front_cap), length(lines.sleeve.back_cap)

    assert 0 <= front + back - armhole(lines) <= 40
    assert front == pytest.approx(length(lines.front.armhole) + 5, abs=0.5)
    assert back == pytest.approx(length(lines.back.armhole) + 5, abs=0.5)


@settings(max_examples=50, deadline=None)
@given(bodies, sleeves)
def test_the_arm_has_room(body, sleeve):
    """The sleeve is at least 5 cm wider than the arm; a long one lets the hand through."""
    lines, whole = drawn(body, sleeve=sleeve)

    assert lines.sleeve.girth_mm >= whole["upper_arm"] + 50
    assert length(lines.sleeve.hem) >= whole["wrist"] + 60


def test_a_big_arm_that_was_measured_has_room_too():
    """An upper arm of 43 cm with a bust of 92 cm deepens the armhole, and the cap follows."""
    lines, _ = drawn(({"bust": 920, "upper_arm": 430}, "women"))
    usual, _ = drawn(({"bust": 920}, "women"))

    assert lines.sleeve.girth_mm >= 490 - 0.01
    assert lines.bodice.scye_depth > usual.bodice.scye_depth
    assert length(lines.sleeve.front_cap) == pytest.approx(length(lines.front.armhole) + 5, abs=0.5)


@pytest.mark.parametrize(("odd", "named"), [
    ({"scye_depth": 100.0}, "scye_depth"), ({"upper_arm": 800.0}, "upper_arm"),
])
def test_what_leaves_the_arm_no_room_is_named(odd, named):
    """The scye depth, where an arm would find room in the usual one; else the arm itself."""
    with pytest.raises(InvalidInput) as refused:
        draft("shirt", {"hip": 1061.0, "waist": 798.0, "bust": 1068.0, **odd}, body="men")

    assert refused.value.field == named


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_collar_fits_the_neck(body):
    """Half the collar's neck edge is half the neckline, from centre back to centre front."""
    lines, _ = drawn(body)
    neckline = length(lines.back.neck) + length(lines.front.neck)

    collar = collar_panel(neckline, 75, Allowances(15, 25))

    assert collar.length("neck") == pytest.approx(neckline, abs=0.5)


@settings(max_examples=50, deadline=None)
@given(bodies, st.sampled_from(["straight", "bias"]))
def test_the_under_collar_is_sewn_to_the_top_collar(body, grain):
    """Edge by edge they are as long as each other; the under collar's cut edges lie 2 mm
    inside the top collar's, and it may lie on the bias.
    """
    lines, _ = drawn(body)
    neck = length(lines.back.neck) + length(lines.front.neck)
    allow = Allowances(15, 25)
    top = collar_panel(neck, 75, allow)
    under = under_collar_panel(neck, 75, allow, bias=grain == "bias")

    assert [under.length(e) for e in ("neck", "end", "outer")] == [
        top.length(e) for e in ("neck", "end", "outer")
    ]
    half = Polygon(top.piece().outline_mm).area / 2
    assert half - Polygon(under.piece().outline_mm).area < half
    assert under.cutting.grain_turn_deg == (45 if grain == "bias" else 0)


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_facing_is_the_front_again(body):
    """The facing's front edge, revere and neck are the front's own lines."""
    lines, _ = drawn(body)

    facing = facing_panel(lines.front, lines.edge, lines.revere, Allowances(15, 25))

    assert facing.edge("front edge").path == lines.edge.front_edge
    assert facing.edge("notch").path == lines.edge.notch
    assert facing.edge("neck").path == lines.front.neck


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_facing_lies_inside_the_front(body):
    """Laid on the front, nothing of the facing hangs over it."""
    lines, _ = drawn(body)
    pattern = draft("shirt", body[0], body=body[1])
    front, facing = (
        Polygon(next(p for p in pattern.pieces if p.name == name).stitch_mm)
        for name in ("front", "facing")
    )

    assert facing.difference(front.buffer(0.2)).area == pytest.approx(0, abs=1)
    assert LineString(lines.edge.front_edge).is_simple


@settings(max_examples=50, deadline=None)
@given(bodies)
def test_the_shirt_goes_round_the_body(body):
    """Round the chest as the ease says; a hem at or below the hips goes round them too."""
    lines, whole = drawn(body)

    round_chest = 2 * (lines.back.points["underarm"][1] + lines.front.points["underarm"][1])
    round_hem = 2 * (lines.back.points["hem side"][1] + lines.front.points["hem side"][1])

    assert round_chest == pytest.approx(whole["bust"] + lines.bodice.ease)
    assert round_hem >= whole["hip"] + 59


def test_neck_and_cap_are_baldts():
    """L. I. Baldt, Clothing for Women (1916), Figs. 44 to 46A: half the back neck is neck/6
    (and up to 3/8 in), raised 3/4 in; the front neck is as deep as neck/6; the cap of the
    sleeve is a quarter of the armhole.
    """
    body = complete({"bust": 950, "neck_base": 372}, shirt.GARMENT.estimates, "women")
    bodice = bodice_for(body, length=700, ease=200)
    back, front = back_points(bodice), front_points(bodice)

    assert 0 <= back["neck"][1] - 372 / 6 <= 3 / 8 * INCH
    assert back["neck"][0] == pytest.approx(-0.75 * INCH)
    assert front["centre"][0] - front["neck"][0] == pytest.approx(372 / 6 + 20)
    assert Sleeve(back_armhole=250, front_armhole=230, length=240, hem_girth=380).cap == 120


def test_pieces_of_a_shirt():
    """Two fronts with facings, a back, two sleeves, a top collar on the fold, an under collar
    in two halves, and fused parts.
    """
    pattern = draft("shirt", {"bust": 920})

    cut = {p.name: (p.quantity, p.mirrored_pair, p.on_fold, p.role) for p in pattern.pieces}

    assert cut == {
        "front": (2, True, False, Role.MAIN),
        "back": (1, False, True, Role.MAIN),
        "sleeve": (2, True, False, Role.MAIN),
        "collar": (1, False, True, Role.MAIN),
        "under collar": (2, True, False, Role.MAIN),
        "facing": (2, True, False, Role.MAIN),
        "collar interfacing": (2, True, False, Role.INTERFACING),
        "facing interfacing": (2, True, False, Role.INTERFACING),
    }


def test_a_back_on_the_fold_is_symmetrical():
    """Mirrored in y = 0, the cutting outline is itself."""
    back = next(p for p in draft("shirt", {"bust": 920}).pieces if p.name == "back")
    shape = Polygon(back.outline_mm)
    other = Polygon([(x, -y) for x, y in back.outline_mm])

    assert shape.symmetric_difference(other).area == pytest.approx(0, abs=1e-6)


def test_binding_takes_the_facings_place():
    """Bound, a shirt has no facings; it needs binding for edges cut without allowance."""
    faced, bound = (draft("shirt", {"bust": 920}, {"facing": f}) for f in ("facing", "binding"))

    assert "facing" not in {p.name for p in bound.pieces}
    assert [n.why for n in bound.notions if n.kind is NotionKind.BINDING]
    assert not [n for n in faced.notions if n.kind is NotionKind.BINDING]


def test_buttons_hold_the_front_below_the_revere():
    """The first button sits where the revere breaks; one is at the bust or near it."""
    pattern = draft("shirt", {"bust": 920})
    buttons = next(n for n in pattern.notions if n.kind is NotionKind.BUTTON)

    assert pattern.closure is not None
    assert pattern.closure.first_mm < pattern.closure.bust_mm < pattern.closure.last_mm
    assert 4 <= buttons.count <= 7
    assert buttons.size_mm[2] * 0.75 <= pattern.closure.overlap_mm + 1e-6


def test_a_longer_sleeve_is_only_longer():
    """6 cm more sleeve make the piece 6 cm longer; the cap stays."""
    usual, longer = (
        next(
            p for p in draft("shirt", {"bust": 920}, {"sleeve_length": mm}).pieces
            if p.name == "sleeve"
        )
        for mm in (240, 300)
    )

    grown = Outline(longer.outline_mm).length_mm - Outline(usual.outline_mm).length_mm

    assert grown == pytest.approx(60, abs=0.5)


def test_a_sleeve_that_ends_above_the_armpit_is_refused(sentence):
    """The sentence says from which length it can be drafted."""
    with pytest.raises(InvalidInput) as refused:
        draft("shirt", {"bust": 920}, {"sleeve_length": 90})
    assert re.search("ends above the armpit", sentence(refused.value))

    assert "ends above the armpit" in sentence(refused.value)


def test_a_shirt_for_a_small_child_warns_of_buttons():
    """16 CFR 1501 (small parts), and the nightwear rules, since shirts are slept in."""
    cautions = " ".join(draft("shirt", {"chest": 540}, body="children").cautions)

    assert "16 CFR 1501" in cautions
    assert "16 CFR 1615" in cautions
    assert draft("shirt", {"bust": 920}).cautions == ()


def test_a_chest_will_do_for_a_bust(sentence):
    """Bust or chest: one of them is asked for, and both mean the same girth."""
    with pytest.raises(InvalidInput) as refused:
        draft("shirt", {"hip": 1000})
    assert re.search("bust or chest", sentence(refused.value))

    assert "bust or chest" in sentence(refused.value)

    assert draft("shirt", {"chest": 1000}, body="men").pieces == draft(
        "shirt", {"bust": 1000}, body="men"
    ).pieces


def test_shoulders_are_no_shorter_than_the_body():
    """A casual shoulder falls over the point of the shoulder by up to 5 cm."""
    lines, whole = drawn(({"bust": 920}, "women"))
    seam = distance(lines.back.points["neck"], lines.back.points["shoulder"])

    assert 0 <= seam - whole["shoulder"] <= 50


def test_bound_in_its_own_cloth_it_gives_bias_strips():
    """Strips at 45 degrees, four times 8 mm wide, long enough for the edges, their ends
    (5 cm) and the joins; nothing to buy.
    """
    pattern = draft("shirt", {"bust": 920}, {"facing": "own-binding"}, body="women")
    lines, _ = drawn(({"bust": 920}, "women"))
    strip = next(p for p in pattern.pieces if p.name == "bias strip")
    size = Outline(strip.outline_mm)
    joins = (strip.quantity - 1) * 2 * 6 * 2**0.5

    assert strip.grain_turn_deg == 45
    assert size.width_mm == pytest.approx(32)
    assert strip.quantity * size.length_mm - joins == pytest.approx(2 * lines.edge.length_mm + 50)
    assert not [n for n in pattern.notions if n.kind is NotionKind.BINDING]
