"""Gathered and pleated skirts: what is drawn up is what the panels are wider than the waist."""

from __future__ import annotations

import pytest
from bodies_of_tables import every_row
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.draft import pleated_skirt
from stash.draft.body import complete
from stash.draft.catalogue import draft
from stash.draft.pleats import Pleats, fold_lines
from stash.errors import InvalidInput
from stash.model import MarkKind, NotionKind, Outline
from stash.notions.fastenings import opening_least_mm

WOMAN = {"hip": 1000.0, "waist": 760.0}


def finished(piece) -> float:
    """How wide a panel is between its seams."""
    return Outline(piece.stitch_mm).width_mm


@pytest.mark.parametrize("kind", ["knife", "box"])
@pytest.mark.parametrize("count", ["8", "12", "16", "20", "24", "32"])
@pytest.mark.parametrize("panels", ["2", "4"])
def test_pleats_take_in_what_the_panels_are_wider_than_the_waist(kind, count, panels):
    """Over every body of the tables, to a millimetre: panels less take-up are the waist and
    its 1 cm; flat, the panels go round the hips with 6 cm to spare; the zip lets the hips through.
    """
    for measured, body in every_row(("hip", "waist")):
        pattern = draft("pleated-skirt", measured,
                        {"pleats": kind, "count": count, "panels": panels}, body)
        panel = next(p for p in pattern.pieces if p.name == "panel")
        folds = [m for m in panel.marks if m.kind is MarkKind.PLEAT_FOLD]
        whole = panel.quantity * finished(panel)
        made = pleated_skirt.pleats_of(
            complete(measured, pleated_skirt.ESTIMATES, body),
            pleated_skirt.GARMENT.read_options({"pleats": kind, "count": count}))

        assert len(folds) * panel.quantity == int(count) * (1 if kind == "knife" else 2)
        assert whole - made.taken == pytest.approx(measured["waist"] + 10, abs=1)
        assert whole >= measured["hip"] + 60 - 1
        (zip_,) = [n for n in pattern.notions if n.kind is NotionKind.ZIP]
        assert zip_.size_mm[1] >= opening_least_mm(measured["hip"], measured["waist"] + 10) - 1


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(["knife", "box"]), st.sampled_from([8, 12, 16, 24]), st.floats(8, 60),
       st.floats(500, 1400))
def test_laid_pleats_close_up(kind, count, depth, waist):
    """Each fold laid on its line moves by twice the depth, and between the folds what shows of all
    pleats is the waist.
    """
    p = Pleats(kind=kind, count=count, depth=depth, waist=waist)
    marks = fold_lines(p, 2, 600.0)
    folds = sorted(m.at_mm[0][1] for m in marks if m.kind is MarkKind.PLEAT_FOLD)
    laid = sorted(m.at_mm[0][1] for m in marks if m.kind is MarkKind.PLEAT_TO)

    if kind == "knife":
        for to, fold in zip(laid, folds[1:], strict=False):
            assert fold - to == pytest.approx(2 * depth)
        assert folds[0] == pytest.approx(depth)
        assert p.flat / 2 - laid[-1] == pytest.approx(depth)
    else:
        for left, right in zip(folds[::2], folds[1::2], strict=True):
            assert right - left == pytest.approx(p.shows)
        for to in laid:
            assert min(abs(f - to) for f in folds) == pytest.approx(2 * depth)
    assert p.flat - p.taken == pytest.approx(waist)


@pytest.mark.parametrize(("depth", "says"), [(60.0, "overlap behind"), (8.0, "do not open over")])
def test_pleats_that_cannot_be_laid_name_the_depth(depth, says, sentence):
    """Sixteen pleats on a waist of 77 cm show 48 mm each: no deeper; and 8 mm would not pass a hip
    of 1.20 m.
    """
    with pytest.raises(InvalidInput) as refused:
        draft("pleated-skirt", {"hip": 1200.0, "waist": 760.0}, {"depth": depth})

    assert says in sentence(refused.value)
    assert refused.value.field == "depth"


@pytest.mark.parametrize("fullness", ["1.5", "2", "2.5", "3"])
def test_a_gathered_skirt_is_as_full_as_was_asked(fullness):
    """So many times its waist, and never too narrow for the hips; its join says what is
    gathered.
    """
    for measured, body in every_row(("hip", "waist")):
        pattern = draft("gathered-skirt", measured, {"fullness": fullness}, body)
        panel = next(p for p in pattern.pieces if p.name == "panel")
        flat, waist = panel.quantity * finished(panel), measured["waist"] + 10
        join = next(j for j in pattern.joins if j.b[0] == "waistband")

        assert flat == pytest.approx(max(float(fullness) * waist, measured["hip"] + 60), abs=1)
        assert panel.quantity * join.ease_mm == pytest.approx(flat - waist, abs=1)
        assert any(m.kind is MarkKind.GATHER for m in panel.marks)


@pytest.mark.parametrize("name", ["straight-skirt", "a-line-skirt"])
@pytest.mark.parametrize("hip", [880.0, 1000.0, 1200.0])
def test_a_faced_waist_is_as_long_as_the_skirts(name, hip):
    """Drawn from the edge with its darts folded away: the facing's waist is the sewn waist to a
    millimetre, and it takes the band's place.
    """
    pattern = draft(name, {"hip": hip, "waist": 0.76 * hip}, {"top": "facing"}, "women")
    joins = [j for j in pattern.joins if j.a[0].endswith("waist facing")]

    assert len(joins) == 2
    for join in joins:
        assert join.ease_mm == pytest.approx(0, abs=1), join
    assert "waistband" not in {p.name for p in pattern.pieces}


@pytest.mark.parametrize(("name", "options"), [
    ("trousers", {}), ("trousers", {"waist": "fitted"}), ("shorts", {}), ("tunic", {}),
    ("robe", {}), ("straight-skirt", {}), ("a-line-skirt", {}), ("gathered-skirt", {}),
    ("pleated-skirt", {}), ("fitted-bodice", {}), ("dress", {}),
])
def test_a_lining_is_the_garment_again(name, options):
    """Cut from cloth of its own role, sewn by the same stitching lines, its hem as long as the
    garment is finished.
    """
    measured = {**WOMAN, "bust": 920.0}
    pattern = draft(name, measured, {**options, "lining": "full"}, "women")
    by_name = {p.name: p for p in pattern.pieces}
    lined = [p for p in pattern.pieces if p.role.value == "lining"]

    assert lined
    for piece in lined:
        outer = by_name[piece.name.removesuffix(" lining")]
        if name not in {"straight-skirt"}:  # its lining has no vent
            assert piece.stitch_mm == outer.stitch_mm
        assert piece.quantity == outer.quantity
        assert dict(piece.allowances_mm).get("hem", 0) == 0
