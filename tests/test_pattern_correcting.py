"""A pattern of her own is set right: halves opened, pieces turned, allowances, notions, wishes."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.affinity import scale, translate
from shapely.geometry import Point as Place
from shapely.geometry import Polygon

from stash.errors import InvalidInput
from stash.model import Construction, MarkKind, NotionKind, Part, Piece, Role
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.length_line import lengthened
from stash.pattern.piece_words import parse_change, parse_need
from stash.store import open_stash
from stash.workroom import patterns
from stash.workroom.questions.orders import orders_for
from web.command import main

# Half a back as it is often drawn: the centre back is the straight edge at y = 0.
HALF = Piece(
    name="back", outline_mm=((0, 0), (0, 90), (40, 160), (250, 210), (700, 240), (700, 0)),
    notches_mm=((250.0, 210.0),), marks_mm=(((100.0, 30.0), (180.0, 60.0)),),
)
SKEW = Piece(name="sleeve", outline_mm=((0, 0), (400, 30), (380, 260), (20, 230)), quantity=1)


def test_a_half_recognised_as_a_half_opens_out():
    """About its straight edge: twice the area, the same on both sides of y = 0, and what was
    marked on it is marked on both sides.
    """
    whole = corrected(HALF, PieceChange(fold="fold", quantity=1))
    shape = Polygon(whole.outline_mm)

    assert whole.on_fold and whole.quantity == 1
    assert shape.area == pytest.approx(2 * Polygon(HALF.outline_mm).area)
    assert shape.symmetric_difference(scale(shape, yfact=-1, origin=(0, 0))).area < 1
    assert len(whole.notches_mm) == len(whole.marks_mm) == 2


def test_a_fold_may_be_on_the_other_side():
    """Two straight edges along the grain: the one that is named is the fold."""
    strip = Piece(name="band", outline_mm=((0, 0), (500, 0), (500, 60), (0, 60)))
    for side in ("fold left", "fold right"):
        whole = corrected(strip, PieceChange(fold=side))
        assert Polygon(whole.outline_mm).area == pytest.approx(500 * 120)


@settings(max_examples=50, deadline=None)
@given(st.floats(-180, 180))
def test_a_piece_that_lies_turned_is_turned(grain):
    """Its shape stays; what ran at that angle now runs along x, and turning it back is itself."""
    turned = corrected(SKEW, PieceChange(grain_deg=grain))
    again = corrected(turned, PieceChange(grain_deg=-grain))

    assert Polygon(turned.outline_mm).area == pytest.approx(Polygon(SKEW.outline_mm).area)
    shape, was = Polygon(again.outline_mm), Polygon(SKEW.outline_mm)
    moved = translate(shape, was.bounds[0] - shape.bounds[0], was.bounds[1] - shape.bounds[1])
    assert moved.symmetric_difference(was).area < 1


@settings(max_examples=50, deadline=None)
@given(st.floats(3, 40))
def test_an_allowance_is_added_all_round(mm):
    """The outline becomes the stitching line; every point of the new edge is so far from it,
    corners mitred.
    """
    cut = corrected(SKEW, PieceChange(allowance_mm=mm))

    assert cut.stitch_mm == SKEW.outline_mm
    sewn = Polygon(SKEW.outline_mm)
    assert min(Polygon(cut.outline_mm).exterior.distance(sewn) for _ in "1") == pytest.approx(mm)
    x0, _, x1, _ = Polygon(cut.outline_mm).bounds
    assert x1 - x0 >= 400 + 1.9 * mm


def test_an_allowance_that_is_there_is_found_inside():
    """Drawn with its 15 mm, the piece keeps its outline and gets its stitching line."""
    known = corrected(SKEW, PieceChange(included_mm=15))

    assert known.outline_mm == SKEW.outline_mm
    assert Polygon(known.outline_mm).exterior.distance(Polygon(known.stitch_mm)) == pytest.approx(
        15, abs=1e-6)


@settings(max_examples=50, deadline=None)
@given(st.floats(3, 40), st.floats(3, 40))
def test_an_allowance_is_changed_afterwards_and_taken_away_again(first, then):
    """Cut beyond the same seam line each time; with none, the seam line itself is cut."""
    once = corrected(SKEW, PieceChange(allowance_mm=first))
    again = corrected(once, PieceChange(allowance_mm=then))
    none = corrected(again, PieceChange(allowance_mm=0.0))

    assert again == corrected(SKEW, PieceChange(allowance_mm=then))
    assert none.outline_mm == none.stitch_mm == SKEW.outline_mm
    notched = corrected(corrected(SKEW, PieceChange(notch_at_mm=(200.0, 0.0))), PieceChange(
        allowance_mm=first))
    (notch,) = notched.notches_mm
    assert Polygon(notched.outline_mm).exterior.distance(Place(notch)) < 1e-6
    assert none.allowances_mm == (("edge", 0.0),)


def test_a_notch_comes_off_on_both_sides_of_a_fold():
    """The one that is pointed at, near enough; another stays."""
    whole = corrected(HALF, PieceChange(fold="fold", notch_at_mm=(600.0, 470.0)))
    assert len(whole.notches_mm) == 4
    low = min(y for _, y in whole.outline_mm)
    bare = corrected(whole, PieceChange(unnotch_at_mm=(255.0, 205.0 - low)))

    assert sorted(bare.notches_mm) == sorted(n for n in whole.notches_mm if n[0] > 300)
    with pytest.raises(InvalidInput):
        corrected(bare, PieceChange(unnotch_at_mm=(10.0, 20.0)))


def test_a_piece_comes_off_its_fold_whole():
    """Nothing of its outline is lost; it lies from 0 on as other pieces do."""
    whole = corrected(HALF, PieceChange(fold="fold"))
    flat = corrected(whole, PieceChange(fold="flat"))

    assert not flat.on_fold
    assert Polygon(flat.outline_mm).bounds == pytest.approx((0, 0, 700, 480))
    assert corrected(flat, PieceChange(pair=True)).quantity == 2


def test_what_is_marked_stays_marked_when_a_half_is_opened():
    """Its line for lengthening goes right across, its notch is one on both sides still."""
    lined = corrected(HALF, PieceChange(lengthen_at_mm=400.0, length_most_mm=60.0))
    whole = corrected(lined, PieceChange(fold="fold"))
    (line,) = [m for m in whole.marks if m.kind is MarkKind.LENGTHEN]

    assert line.at_mm[0][1] == -line.at_mm[1][1] and whole.length_most_mm == 60
    assert sum(m.kind is MarkKind.NOTCH for m in whole.marks) == len(whole.notches_mm) == 2
    gone = corrected(whole, PieceChange(lengthen_at_mm=0.0))
    assert not [m for m in gone.marks if m.kind is MarkKind.LENGTHEN]
    assert line.at_mm not in gone.marks_mm


@settings(max_examples=80, deadline=None)
@given(st.floats(60, 640), st.floats(-40, 120))
def test_a_piece_is_longer_by_exactly_what_was_asked(at, more):
    """Cut along its line and spread: as much longer, as much larger as the strip put in (or
    smaller by what is folded up), above the line nothing moves.
    """
    line = corrected(HALF, PieceChange(lengthen_at_mm=at))
    if at - more > 690:
        return
    longer = lengthened(line, more)
    shape, was = Polygon(longer.outline_mm), Polygon(HALF.outline_mm)

    assert shape.is_valid
    assert shape.bounds[2] - was.bounds[2] == pytest.approx(more)
    (mark,) = [m for m in longer.marks if m.kind is MarkKind.LENGTHEN]
    wide = mark.at_mm[1][1] - mark.at_mm[0][1]
    if more >= 0:
        assert shape.area - was.area == pytest.approx(wide * more, rel=1e-6, abs=1e-3)
        assert lengthened(longer, -0.0) is longer


@pytest.mark.parametrize(
    ("typed", "name", "change"),
    [
        ("back: fold, cut 1, grain 90", "back", PieceChange(fold="fold", quantity=1,
                                                            grain_deg=90)),
        ("Sleeve left: pair, cut 2, one way", "Sleeve left",
         PieceChange(pair=True, quantity=2, one_way=True)),
        ("collar: collar, lining, allowance 1.5, name Top Collar", "collar",
         PieceChange(part=Part.COLLAR, role=Role.LINING, allowance_mm=15, name="Top Collar")),
        ("leg: allowance in 15 mm, lengthen at 60cm", "leg",
         PieceChange(included_mm=15, lengthen_at_mm=600)),
        ("leg: allowance none, lengthen at 60cm by 6cm", "leg",
         PieceChange(allowance_mm=0, lengthen_at_mm=600, length_most_mm=60)),
        ("leg: flat, no notch at 3cm down 8cm across, lengthen by at most 4cm", "leg",
         PieceChange(fold="flat", unnotch_at_mm=(30, 80), length_most_mm=40)),
        ("leg: lengthen nowhere", "leg", PieceChange(lengthen_at_mm=0)),
    ],
)
def test_a_correction_is_read_as_it_is_typed(typed, name, change):
    """Words between commas; bare lengths are centimetres, as on a tape."""
    assert parse_change(typed) == (name, change)


@pytest.mark.parametrize(
    ("typed", "kind", "count", "length", "size"),
    [
        ("5 buttons 15 mm", NotionKind.BUTTON, 5, None, 15),
        ("1 zip 20 cm", NotionKind.ZIP, 1, None, 200),
        ("elastic 90cm, 25mm wide", NotionKind.ELASTIC, None, 900, 25),
        ("1.2 m elastic 2.5 cm", NotionKind.ELASTIC, None, 1200, 25),
    ],
)
def test_a_notion_is_read_as_it_is_written_on_a_pattern(typed, kind, count, length, size):
    """How many or how much, of what, what size."""
    need = parse_need(typed)

    assert (need.kind, need.count, need.length_mm) == (kind, count, length)
    assert need.size_mm[1] == pytest.approx(size)


@pytest.mark.parametrize("typed", ["back", "back:", "back: fold it", "back: grain up", ": fold"])
def test_what_is_no_correction_is_told_how_to_write_one(typed, sentence):
    """One sentence with an example."""
    with pytest.raises(InvalidInput) as refused:
        parse_change(typed)
    assert "write" in sentence(refused.value) or "turn" in sentence(refused.value)


def test_a_pattern_is_corrected_as_one_version_with_one_undo(tmp_path):
    """Earlier versions stay; an undo takes the new one back."""
    with open_stash(tmp_path) as stash:
        patterns.keep(stash, "Paper blouse", (HALF, SKEW), "typed")
        event, kept = patterns.correct(stash, "Paper blouse", patterns.PatternChange(
            wearer="Odile", pieces=(parse_change("back: fold"), parse_change("sleeve: pair")),
            needs=(parse_need("5 buttons 15 mm"),), mass_gsm=(80, 180), stretch_pct=10,
            constructions=(Construction.KNIT,), cautions=("Mind the pins.",), one_way=True))

        assert kept.version == 2 and kept.source == "typed"
        assert kept.pattern.wearer == "Odile"
        assert kept.pattern.wants.mass_gsm == (80, 180)
        assert kept.pattern.wants.constructions == (Construction.KNIT,)
        assert {p.name: p.quantity for p in kept.pattern.pieces} == {"back": 1, "sleeve": 2}
        assert all(p.turns_deg == (0.0,) for p in kept.pattern.pieces)
        stash.ledger.undo(event.id)
        assert stash.patterns.kept("Paper blouse").version == 1


def test_her_own_pattern_is_asked_for_longer(tmp_path):
    """``lengthen`` is its option, as a draft has a length."""
    with open_stash(tmp_path) as stash:
        patterns.keep(stash, "Paper blouse", (HALF,), "typed")
        patterns.correct(stash, "Paper blouse", patterns.PatternChange(
            pieces=(parse_change("back: fold, lengthen at 40cm"),)))
        (usual,) = orders_for(stash, ["Paper blouse"])
        (longer,) = orders_for(stash, ["Paper blouse"], options={"lengthen": "3cm"})
        (shorter,) = orders_for(stash, ["Paper blouse"], options={"lengthen": "-2cm"})

    reach = [max(x for x, _ in o.drafted().pattern.pieces[0].outline_mm)
             for o in (usual, longer, shorter)]
    assert reach == pytest.approx([700, 730, 680])


def test_the_command_sets_a_pattern_right(tmp_path):
    """``pattern set`` as it is written, and its JSON."""
    def run(*arguments):
        result = CliRunner().invoke(main, ["--data", str(tmp_path), *arguments])
        assert result.exit_code == 0, result.output
        return result.output

    run("pattern", "add", "Smock", "--piece", "front, 70cm x 30cm, cut 1",
        "--piece", "pocket, 18cm x 15cm")
    value = json.loads(run(
        "pattern", "set", "Smock", "--wearer", "Odile", "--piece", "front: front, fold, cut 1",
        "--piece", "pocket: pocket, grain 90", "--needs", "5 buttons 15 mm", "--weight", "90-200",
        "--json"))

    assert value["version"] == 2 and value["wearer"] == "Odile"
    front, pocket = value["pieces"]
    assert front["fold"] and front["part"] == "front" and pocket["part"] == "pocket"
    assert max(y for _, y in pocket["outline_mm"]) == pytest.approx(180)
    assert value["notions"][0]["count"] == 5

    value = json.loads(run(
        "pattern", "set", "Smock", "--needs", "none", "--caution", "none", "--weight", "any",
        "--piece", "front: name centre front, allowance 1.5cm, lengthen at 30cm by 6cm",
        "--piece", "pocket: allowance none", "--json"))
    front, pocket = value["pieces"]
    assert front["name"] == "centre front" and front["allowance_mm"] == {"edge": 15}
    assert pocket["allowance_mm"] == {"edge": 0} and value["notions"] == []
    with open_stash(tmp_path) as stash:
        kept = stash.patterns.get("Smock")
        assert kept.wants.mass_gsm == patterns.ANY_MASS_GSM
        assert kept.pieces[0].length_most_mm == 60
