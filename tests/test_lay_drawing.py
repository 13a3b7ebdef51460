"""The drawing is to scale and says everything a cutter needs; the table needs no printer."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from shapely import LineString, Polygon

from stash.lay import LayTask, draw, positions_table
from stash.lay.drawing.on_table import cuts_of_the_scissors
from stash.model import Lay, Outline, Piece, Placement, Repeat, Spread
from stash.sentences import Reader
from stash.units import System

SVG = "{http://www.w3.org/2000/svg}"
LEG = Piece(
    name="leg", outline_mm=((0, 0), (400, 30), (400, 210), (0, 160)), quantity=2,
    mirrored_pair=True, match_points_mm=((100.0, 50.0),),
)
TASK = LayTask(pieces=(LEG,), cloth=Outline.rectangle(900, 500))
LAY = Lay(
    placements=(Placement("leg#1", 0, 0), Placement("leg#2", 400, 280, 180.0, True)),
    length_mm=400.0, width_mm=500.0, utilisation=0.68,
)


def read(task: LayTask = TASK, lay: Lay = LAY, **given) -> ET.Element:
    """The drawing, parsed as XML."""
    return ET.fromstring(draw(task, lay, **given))


def texts(root: ET.Element) -> list[str]:
    """Everything written on the drawing."""
    return [t.text for t in root.iter(f"{SVG}text")]


def by_class(root: ET.Element, name: str) -> list[ET.Element]:
    """Elements whose class attribute has this word."""
    return [e for e in root.iter() if name in (e.get("class") or "").split()]


def test_one_unit_is_one_millimetre():
    """The cloth's path has the cloth's own measures, and so has each piece."""
    root = read()
    cloth = by_class(root, "cloth")[0].get("d")
    points = [tuple(map(float, p.split(","))) for p in cloth.strip("MZ").split()]
    assert Polygon(points).area == pytest.approx(900 * 500)
    areas = []
    for piece in by_class(root, "piece"):
        ring = [tuple(map(float, p.split(","))) for p in piece.get("d").strip("MZ").split()]
        areas.append(Polygon(ring).area)
    assert areas == pytest.approx([Polygon(LEG.outline_mm).area] * 2, rel=1e-3)


def test_every_copy_has_its_name_and_how_it_lies():
    """Name and number; a mirrored copy lies face down, a turned one says so."""
    words = texts(read(title="Trousers & shorts"))
    assert {"leg 1", "leg 2", "turned 180°, turned over", "Trousers & shorts"} <= set(words)


def test_the_edges_are_measured_and_what_is_left_over_is_hatched():
    """In the units of the person who cuts."""
    root = read()
    assert {"40 cm used", "50 cm wide", "left over 50 cm", "selvedge"} <= set(texts(root))
    assert len(by_class(root, "rest")) == 1
    assert "15 3/4 in used" in texts(read(reader=Reader(System.INCHES)))


def test_one_way_cloth_shows_its_way_and_a_fold_its_line():
    """The arrow along the selvedge; the fold across or along the cloth."""
    assert "one way" in texts(read(replace(TASK, one_way=True)))
    folded = replace(LAY, spread=Spread.LENGTHWISE, fold_mm=250.0)
    assert "fold" in texts(read(lay=folded))
    assert "fold" not in texts(read())


def test_a_repeat_is_drawn_with_the_points_that_lie_on_it():
    """Lines every repeat, a spot on each matched point."""
    printed = replace(TASK, repeat=Repeat(lengthwise_mm=100, crosswise_mm=50))
    root = read(printed)
    assert len(by_class(root, "print")) == 10 + 11
    spots = [(float(s.get("cx")), float(s.get("cy"))) for s in by_class(root, "spot")]
    assert spots == [(100.0, 450.0), (300.0, 170.0)]


def test_a_half_drop_print_is_drawn_dropped():
    """Lines across the grain stand half a repeat further on in every second column."""
    printed = replace(TASK, repeat=Repeat(lengthwise_mm=100, crosswise_mm=50, half_drop=True))
    upright = [
        e for e in by_class(read(printed), "print") if e.get("x1") == e.get("x2")
    ]
    at = {(float(e.get("x1")) % 100) for e in upright}
    assert at == {0.0, 50.0}
    assert max(abs(float(e.get("y2")) - float(e.get("y1"))) for e in upright) == 50.0


def test_the_selvedge_is_drawn_only_where_the_cloth_has_one():
    """A remnant with a corner gone: 500 of its upper edge are left, all 900 of its lower."""
    lost = Outline(((0, 0), (900, 0), (900, 300), (500, 500), (0, 500)))
    edges = by_class(read(replace(TASK, cloth=lost)), "selvedge")
    spans = sorted(abs(float(e.get("x2")) - float(e.get("x1"))) for e in edges if e.get("x1"))
    assert spans == [500.0, 900.0]


def test_bias_pieces_are_lettered_along_their_grain():
    """So that a narrow strip still has a name large enough to read."""
    strip = Piece(name="strip", outline_mm=((0, 0), (300, 0), (300, 60), (0, 60)),
                  grain_turn_deg=45)
    lay = replace(LAY, placements=(Placement("strip#1", 200, 100, 45.0),))
    name, = [t for t in read(replace(TASK, pieces=(strip,)), lay).iter(f"{SVG}text")
             if t.text.startswith("strip")]
    assert name.get("transform").startswith("rotate(-45 ")


def test_a_tilted_piece_is_lettered_the_way_it_is_longer_as_a_straight_one_is():
    """A collar across the cloth, a little off the grain: one decimal, read along its length."""
    collar = Piece(name="collar", outline_mm=((0, 0), (90, 0), (90, 300), (0, 300)))
    task = LayTask(pieces=(collar,), cloth=Outline.rectangle(900, 500), off_grain_deg=2)
    lay = Lay(placements=(Placement("collar#1", 20, 20, 358.0744),), length_mm=130.0,
              width_mm=500.0, utilisation=0.4)
    root = read(task, lay)
    name, notes = (
        next(t for t in root.iter(f"{SVG}text") if t.text == words)
        for words in ("collar", "turned 358.1°")
    )
    assert name.get("transform").startswith("rotate(-88.07")
    assert notes.get("transform").startswith("rotate(-88.07")


def test_a_narrow_strip_is_lettered_in_one_line_behind_its_arrow():
    """20 mm of width hold one line as high as can be read, not two with an arrow between."""
    strip = Piece(name="tie", outline_mm=((0, 0), (700, 0), (700, 20), (0, 20)))
    lay = replace(LAY, placements=(Placement("tie#1", 750, 100, 180.0),))
    root = read(replace(TASK, pieces=(strip,)), lay)
    name, = [t for t in root.iter(f"{SVG}text") if t.text.startswith("tie")]
    assert name.text == "tie, turned 180°"
    assert float(name.get("y")) == pytest.approx(410, abs=0.2)
    assert float(name.get("font-size")) > 20 / 2
    arrow, = by_class(root, "grain")
    words = 0.6 * len(name.text) * float(name.get("font-size"))
    assert abs(float(arrow.get("x1")) - float(name.get("x"))) > words / 2


def test_what_is_written_below_stays_inside_the_drawing():
    """On a short, wide cut the caption goes over several lines."""
    short = replace(TASK, cloth=Outline.rectangle(300, 1400))
    lay = replace(LAY, length_mm=280.0, placements=())
    root = read(short, lay, note="Matching the print takes 5 cm of cloth.")
    left, _, wide, _ = map(float, root.get("viewBox").split())
    said = [t for t in root.iter(f"{SVG}text") if "faint" in (t.get("class") or "")]
    assert "Matching" in " ".join(t.text for t in said)
    for text in said:
        half = 0.56 * len(text.text) * float(text.get("font-size")) / 2
        assert left <= float(text.get("x")) - half
        assert float(text.get("x")) + half <= left + wide


def test_what_is_left_of_an_odd_shape_is_named_inside_it():
    """Beyond 700 mm only a foot of the cut is left, 300 mm wide; the end line keeps to it."""
    foot = Outline(((0, 0), (900, 0), (900, 300), (300, 300), (300, 1200), (0, 1200)))
    root = read(replace(TASK, cloth=foot), replace(LAY, length_mm=500.0, placements=()))
    words, = [t for t in root.iter(f"{SVG}text") if t.text.startswith("left over")]
    assert float(words.get("x")) == pytest.approx(700)
    assert 900 < float(words.get("y")) < 1200
    end, = [e for e in by_class(root, "edge") if e.get("stroke-dasharray")]
    assert {float(end.get("y1")), float(end.get("y2"))} == {900.0, 1200.0}


def test_names_are_written_safely():
    """A name with markup in it is text, not markup."""
    odd = replace(LEG, name='<leg & "co">')
    lay = replace(LAY, placements=tuple(
        replace(p, piece=p.piece.replace("leg", odd.name)) for p in LAY.placements
    ))
    assert '<leg & "co"> 1' in texts(read(replace(TASK, pieces=(odd,)), lay))


def test_the_table_measures_from_the_end_and_from_the_selvedge():
    """Rows in the order they are met along the cloth, from where the cut begins."""
    rows = positions_table(TASK, LAY)
    assert [(r.piece, r.from_end_mm, r.from_selvedge_mm) for r in rows] == [
        ("leg#1", 0.0, 0.0), ("leg#2", 0.0, pytest.approx(280.0)),
    ]
    assert (rows[1].turn_deg, rows[1].mirrored) == (180.0, True)
    shifted = replace(TASK, cloth=Outline(((-100, -20), (900, -20), (900, 500), (-100, 500))))
    assert positions_table(shifted, LAY)[0].from_end_mm == 100.0


def test_on_paper_what_lies_face_down_is_told_by_dots_not_by_colour():
    """Black and white print: the mirrored copy has dots, and only print shows them; the rule
    for print comes last, or the ones before it would win."""
    root = read()
    dotted, = by_class(root, "under")
    assert dotted.get("d") == by_class(root, "mirror")[0].get("d")
    style = root.find(f"{SVG}style").text
    assert style.index("@media print") > style.index(".lay .under{")


FRONT = Piece(name="front", outline_mm=((0, 0), (300, 20), (300, 150), (0, 120)), quantity=2,
              mirrored_pair=True)
YOKE = Piece(name="yoke", outline_mm=((0, -80), (100, -80), (100, 80), (0, 80)), on_fold=True)
DOUBLE = LayTask(pieces=(FRONT, YOKE), cloth=Outline.rectangle(600, 500),
                 spread=Spread.LENGTHWISE)
FOLDED = Lay(
    placements=(Placement("front#1", 0, 340), Placement("front#2", 0, 160, 0.0, True),
                Placement("yoke#1", 320, 250)),
    length_mm=420.0, width_mm=500.0, utilisation=0.4, spread=Spread.LENGTHWISE, fold_mm=250.0,
)


def test_folded_cloth_is_drawn_as_it_lies_on_the_table():
    """Half as wide, the fold and both selvedges named; a pair cut double is drawn once, of a
    piece on the fold the half that is cut."""
    root = read(DOUBLE, FOLDED)
    words = set(texts(root))
    assert {"fold", "both selvedges", "front 1 + 2", "cut double", "on the fold",
            "25 cm folded"} <= words
    areas = []
    for piece in by_class(root, "piece"):
        ring = [tuple(map(float, p.split(","))) for p in piece.get("d").strip("MZ").split()]
        areas.append(Polygon(ring).area)
    assert areas == pytest.approx([Polygon(FRONT.outline_mm).area, 100 * 80], rel=1e-3)


def test_a_fold_off_the_middle_shows_where_the_lower_layer_ends():
    """150 mm lie beneath 350."""
    aside = replace(FOLDED, placements=(Placement("yoke#1", 0, 150),), fold_mm=150.0)
    words = texts(read(replace(DOUBLE, pieces=(YOKE,)), aside))
    assert {"selvedge", "selvedge of the lower layer", "35 cm folded"} <= set(words)


def test_folded_crosswise_the_far_end_is_the_fold():
    """A pair end to end in the opened-out cloth is one cut through both layers."""
    pair = Lay(
        placements=(Placement("front#1", 0, 0), Placement("front#2", 620, 0, 180.0, True)),
        length_mm=620.0, width_mm=500.0, utilisation=0.4, spread=Spread.CROSSWISE, fold_mm=310.0,
    )
    task = replace(DOUBLE, pieces=(FRONT,), cloth=Outline.rectangle(1000, 500))
    words = texts(read(task, pair))
    assert {"fold", "front 1 + 2", "31 cm folded, 62 cm used"} <= set(words)
    assert cuts_of_the_scissors(task, pair) == 1


def test_the_table_of_folded_cloth_is_read_from_the_selvedge_and_names_each_cut_once():
    """Both fronts are 10 mm from the selvedges; the yoke lies at the fold, 170 mm from them."""
    rows = positions_table(DOUBLE, FOLDED)
    assert [(r.piece, r.copies, r.layers.value) for r in rows] == [
        ("front#1", (1, 2), "cut double"), ("yoke#1", (1,), "on the fold"),
    ]
    assert [(r.from_end_mm, r.from_selvedge_mm) for r in rows] == [(0.0, 10.0), (320.0, 170.0)]


def test_the_grain_arrow_of_a_bias_piece_lies_along_the_cloth():
    """Its paper lies askew; the thread of the cloth does not."""
    tape = Piece(name="tape", outline_mm=((0, 0), (200, 0), (200, 40), (0, 40)),
                 grain_turn_deg=45.0)
    lay = Lay(placements=(Placement("tape#1", 100, 100, 45.0),), length_mm=300.0,
              width_mm=500.0, utilisation=0.1)
    grain, = by_class(read(replace(TASK, pieces=(tape,)), lay), "grain")
    assert float(grain.get("y1")) == pytest.approx(float(grain.get("y2")), abs=0.11)


REMNANT = Outline(((0, 0), (900, 0), (900, 300), (500, 500), (0, 500)))
SLOPE = ((900.0, 300.0), (500.0, 500.0))


def drawn_selvedges(root):
    """(x, y, x, y) of each, as on the page."""
    return [tuple(float(e.get(name)) for name in ("x1", "y1", "x2", "y2"))
            for e in by_class(root, "selvedge") if e.get("x1")]


def test_of_a_remnant_only_the_edges_known_as_selvedge_are_drawn_so():
    """Where one was told, the outermost edges are no longer taken for selvedges; it is named."""
    root = read(replace(TASK, cloth=REMNANT, selvedges_mm=(SLOPE,)))

    assert drawn_selvedges(root) == [(500.0, 0.0, 900.0, 200.0)]
    [word] = [t for t in root.iter(f"{SVG}text") if t.text == "selvedge"]
    assert "rotate(26.565" in word.get("transform")


def test_known_selvedges_lie_where_they_are_on_folded_cloth():
    """The lower one's edge is seen through the cloth, mirrored about the fold."""
    low, high = ((0.0, 0.0), (900.0, 0.0)), ((900.0, 500.0), (0.0, 500.0))
    root = read(replace(TASK, selvedges_mm=(low, high), spread=Spread.LENGTHWISE),
                replace(LAY, placements=(), spread=Spread.LENGTHWISE, fold_mm=200.0))

    assert sorted(abs(y0 - y1) for _, y0, _, y1 in drawn_selvedges(root)) == [0.0, 0.0]
    assert {y for _, y, _, _ in drawn_selvedges(root)} == {0.0, 100.0}  # 300 and 200 off the fold
    assert {"selvedge", "selvedge of the lower layer"} <= set(texts(root))


@pytest.mark.parametrize(("language", "called", "said"), [
    ("fr", "plan de coupe",
     "ouvert, simple épaisseur\u00a0; 68\u00a0% du tissu utilisé est en pièces"),
    ("de", "Schnittlage", "offen, eine Lage; 68\u00a0% des benutzten Stoffs sind Teile"),
])
def test_who_hears_the_drawing_hears_her_own_language(language, called, said):
    """A lay without a title has a name too, and what is beneath it."""
    root = read(reader=Reader(System.METRIC, language))

    assert root.find(f"{SVG}title").text == called
    assert root.get("aria-label").replace(" %", "\u00a0%") == f"{called}: {said}"


def test_a_name_keeps_inside_its_piece():
    """On a sleeve set upright, narrow at the cap, the words end before its edge."""
    sleeve = Piece(name="sleeve with a name", quantity=1,
                   outline_mm=((0, 0), (200, 0), (220, 120), (110, 330), (90, 330), (-20, 120)))
    lay = replace(LAY, placements=(Placement("sleeve with a name#1", 100, 50),))
    root = read(replace(TASK, pieces=(sleeve,)), lay)
    name, = [t for t in root.iter(f"{SVG}text") if t.text == "sleeve with a name"]
    x, y, high = (float(name.get(k)) for k in ("x", "y", "font-size"))
    half = 0.28 * len(name.text) * high
    line = LineString([(x, y - half), (x, y + half)]).buffer(0.3 * high, cap_style="flat")
    piece, = by_class(root, "piece")
    ring = [tuple(map(float, p.split(","))) for p in piece.get("d").strip("MZ").split()]
    assert Polygon(ring).contains(line)


def test_for_a_phone_no_letter_is_smaller_than_a_unit_and_numbers_are_told():
    """A piece with no room for its name bears its place in the cutting order, named below."""
    tab = Piece(name="tab", outline_mm=((0, 0), (40, 0), (40, 30), (0, 30)))
    lay = replace(LAY, placements=(*LAY.placements, Placement("tab#1", 600, 100)))
    root = read(replace(TASK, pieces=(LEG, tab)), lay, on_phone=True)
    sizes = [float(t.get("font-size")) for t in root.iter(f"{SVG}text")]
    assert min(sizes) >= 900 / 24 - 0.1
    assert {"leg 1", "leg 2"} <= set(texts(root))
    assert [t.text for t in by_class(root, "number")] == ["3", "3"]
    assert [t.text for t in by_class(root, "row")] == ["tab"]
