"""What is written is what was drafted: read back by ezdxf, svgelements, pypdf and poppler."""

from __future__ import annotations

import io
from collections import defaultdict
from dataclasses import replace
from math import dist

import ezdxf
import pypdf
import pytest
import svgelements
from shapely.geometry import LinearRing, LineString, Polygon

from stash.draft.altering.alterations import alter
from stash.draft.catalogue import draft, garments
from stash.model import MarkKind, Pattern, Piece
from stash.pattern.dxf_writing import block_names, write_dxf
from stash.pattern.figure import Ink, draw_piece
from stash.pattern.full_sheet import full_sheet_pdf
from stash.pattern.importing import read_pattern
from stash.pattern.lettering import Style
from stash.pattern.marked import drill_points
from stash.pattern.pieces_svg import preview_svg, write_svg
from stash.pattern.print_pages import tiled_pdf
from stash.pattern.roll_strips import LAP_MM, fitted
from stash.pattern.seam_list import seam_lines
from stash.sentences import METRIC

WOMAN = {"hip": 1000.0, "waist": 740.0, "bust": 940.0}
POINT_MM = 25.4 / 72


def pattern(name: str) -> Pattern:
    """One garment, with a wearer."""
    fitted = {"waist": "fitted"} if name in {"trousers", "shorts"} else {}
    return replace(draft(name, WOMAN, fitted), wearer="Odile Brandt")


# Drafts altered by hand: their lines go out and come back as exactly as any draft's.
ALTERED = {
    "straight-skirt, panels": (
        "straight-skirt", ["move dart front waist to side 9cm",
                           "cut panel back from dart waist 1 to hem"]),
    "bodice, princess": (
        "fitted-bodice", ["move dart front side to armhole",
                          "cut panel front from dart waist to dart armhole"]),
    "shirt, yoke and fuller sleeve": (
        "shirt", ["add seam back from armhole 10cm to fold 12cm",
                  "slash and spread sleeve from hem to cap, 3 cuts, 1cm each",
                  "add facing back upper neck 5cm"]),
}


def made_of(name: str) -> Pattern:
    """A draft, or one of those that were altered."""
    if name not in ALTERED:
        return pattern(name)
    base, steps = ALTERED[name]
    fitted = {"waist": "fitted"} if base == "straight-skirt" else {}
    return replace(alter(draft(base, WOMAN, fitted), steps).pattern, wearer="Odile Brandt")


@pytest.mark.parametrize("name", [*garments(), *ALTERED])
def test_dxf_keeps_areas_and_seam_lengths(name):
    """Each block's boundary (layer 1) and sew line (layer 14, ASTM D6673-10) as ezdxf reads
    them: area of the piece and length of its stitching line to 0.1 mm.
    """
    made = made_of(name)
    document = ezdxf.read(io.StringIO(write_dxf(made).decode("ascii")))

    for piece, block_name in zip(
        made.pieces, block_names(p.name for p in made.pieces), strict=True
    ):
        block = document.blocks.get(block_name)
        (cut,) = [ring(e) for e in block.query('POLYLINE[layer=="1"]')]
        (sewn,) = [ring(e) for e in block.query('POLYLINE[layer=="14"]')]
        boundary = LinearRing(piece.outline_mm).length
        assert abs(Polygon(cut).area - Polygon(piece.outline_mm).area) < 0.1 * boundary
        assert LinearRing(cut).length == pytest.approx(boundary, abs=0.1)
        assert LinearRing(sewn).length == pytest.approx(
            LinearRing(piece.stitch_mm).length, abs=0.1)


def ring(entity) -> list[tuple[float, float]]:
    """The points of a polyline."""
    return [(v.dxf.location.x, v.dxf.location.y) for v in entity.vertices]


def test_dxf_puts_every_mark_on_its_layer():
    """Notches on 4, internal lines on 8, drill holes on 13, texts on 15 (ASTM D6673-10): the
    shirt's six buttons are drilled, its holes, centre and roll line drawn.
    """
    made = pattern("shirt")
    front = next(p for p in made.pieces if p.name == "front")
    block = ezdxf.read(io.StringIO(write_dxf(made, drawn_on="2026-11-30").decode())).blocks.get(
        "FRONT")
    buttons = sum(m.kind is MarkKind.BUTTON for m in front.marks)
    lines = sum(len(m.at_mm) > 1 for m in front.marks)

    assert len(block.query('POINT[layer=="13"]')) == buttons == 6
    assert len(block.query('POLYLINE[layer=="8"]')) == lines
    assert len(block.query('POINT[layer=="4"]')) == len(front.notches_mm)
    said = " / ".join(t.dxf.text for t in block.query('TEXT[layer=="15"]'))
    for words in ("Odile Brandt", "2026-11-30", "seams 15 mm allowed, hem 25 mm", "mirrored pair"):
        assert words in said


@pytest.mark.parametrize("name", garments())
def test_dxf_keeps_every_mark_of_every_garment(name):
    """On each block: as many notches as the piece has (layer 4), as many internal lines as marks
    with two points or more (8), drill holes for buttons, dart tips and places (13), one grain line
    (7), a mirror line where it is cut on the fold (6), and its name (15); ASTM D6673-10.
    """
    made = pattern(name)
    document = ezdxf.read(io.StringIO(write_dxf(made).decode("ascii")))
    names = block_names(p.name for p in made.pieces)
    for piece, block_name in zip(made.pieces, names, strict=True):
        block = document.blocks.get(block_name)
        typed = [m for m in piece.marks
                 if m.kind not in (MarkKind.NOTCH, MarkKind.DOUBLE_NOTCH)]

        assert len(block.query('POINT[layer=="4"]')) == len(piece.notches_mm)
        assert len(block.query('POLYLINE[layer=="8"]')) == sum(
            len(m.at_mm) > 1 for m in typed) if piece.marks else True
        assert len(block.query('POINT[layer=="13"]')) == len(list(drill_points(piece)))
        assert len(block.query('LINE[layer=="7"]')) == 1
        assert len(block.query('LINE[layer=="6"]')) == piece.on_fold
        assert any(piece.name in t.dxf.text for t in block.query('TEXT[layer=="15"]'))


@pytest.mark.parametrize("name", garments())
def test_svg_keeps_areas_and_stitching_lines(name, tmp_path):
    """As svgelements reads it: the area inside each cutting line and the length of each stitching
    line, to 0.1 mm along the edge.
    """
    made = pattern(name)
    file = tmp_path / "made.svg"
    file.write_text(write_svg(made), encoding="utf-8")
    read = svgelements.SVG.parse(str(file), ppi=25.4)
    paths = {kind: list(read.select(lambda e, kind=kind: isinstance(e, svgelements.Path)
                                    and e.values.get("class") == kind))
             for kind in ("cut", "stitch")}
    rings = sorted(Polygon([s.end for s in p if s.end is not None]).area for p in paths["cut"])
    edge = max(LinearRing(p.outline_mm).length for p in made.pieces)
    sewn = sum(LinearRing(p.stitch_mm).length for p in made.pieces if len(p.stitch_mm) > 2)

    assert rings == pytest.approx(
        sorted(Polygon(p.outline_mm).area for p in made.pieces), abs=0.1 * edge)
    assert sum(map(svg_length, paths["stitch"])) == pytest.approx(
        sewn, abs=0.1 * len(made.pieces))


@pytest.mark.parametrize("name", [*garments(), *ALTERED])
def test_svg_keeps_every_cutting_line(name, tmp_path):
    """As svgelements reads it, one user unit a millimetre: the length of every cutting line
    to 0.1 mm, in the order of the pieces.
    """
    made = made_of(name)
    file = tmp_path / "made.svg"
    file.write_text(write_svg(made), encoding="utf-8")
    cut = svgelements.SVG.parse(str(file), ppi=25.4).select(
        lambda e: isinstance(e, svgelements.Path) and e.values.get("class") == "cut")

    lengths = sorted(svg_length(path) for path in cut)

    assert lengths == pytest.approx(
        sorted(LinearRing(p.outline_mm).length for p in made.pieces), abs=0.1)


def svg_length(path) -> float:
    """Length of a path of straight lines."""
    points = [path.first_point, *(s.end for s in path if s.end is not None)]
    return sum(dist(a, b) for a, b in zip(points, points[1:], strict=False))


@pytest.mark.parametrize("name", ALTERED)
def test_what_was_altered_reads_back_as_the_same_pieces(name):
    """Written as DXF and as SVG and read in again: each piece's area and stitching line, to
    0.1 mm along its edge, and how many to cut.
    """
    made = made_of(name)
    for written in (write_dxf(made), write_svg(made).encode()):
        again = {p.name.lower(): p for p in read_pattern(written).pieces}
        assert set(again) == {p.name.lower() for p in made.pieces}
        for piece in made.pieces:
            back = again[piece.name.lower()]
            edge = LinearRing(piece.outline_mm).length
            assert abs(Polygon(back.outline_mm).area - Polygon(piece.outline_mm).area) < 0.1 * edge
            assert (back.quantity, back.on_fold) == (piece.quantity, piece.on_fold)


@pytest.mark.parametrize("name", ["trousers", "shirt", "straight-skirt", "robe", "tote-bag",
                                  *ALTERED])
@pytest.mark.parametrize("paper", ["a4", "letter", "a0"])
def test_every_piece_says_what_it_is_on_paper(name, paper):
    """Name, number, cloth, allowance, garment, wearer and day stand on the printed pages as
    often as there are pieces.
    """
    made = made_of(name)
    said = {"title": name, "drawn_on": "2026-11-30"}
    data = full_sheet_pdf(made, **said) if paper == "a0" else tiled_pdf(made, paper, **said)
    text = "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages)

    assert text.count("Odile Brandt") >= len(made.pieces)
    assert text.count("2026-11-30") >= len(made.pieces)
    for piece in made.pieces:
        assert piece.name in text
    assert "allowed" in text


def test_a_full_sheet_is_as_wide_as_the_roll():
    """A0 is 841 mm wide (ISO 216); one page, as long as the pieces need."""
    (page,) = pypdf.PdfReader(io.BytesIO(full_sheet_pdf(pattern("trousers")))).pages

    assert float(page.mediabox.width) * POINT_MM == pytest.approx(841, abs=0.1)
    assert 1100 < float(page.mediabox.height) * POINT_MM < 5000


def test_a_full_sheet_lists_its_pieces_and_its_seams_in_order():
    """Every piece by number with how it is cut, every join with its length, above the drawing."""
    made = pattern("shirt")
    (page,) = pypdf.PdfReader(io.BytesIO(full_sheet_pdf(made))).pages
    text = page.extract_text()

    assert all(f"{n}. {piece.name}" in text for n, piece in enumerate(made.pieces, 1))
    assert all(seam.edges in text for seam in seam_lines(made, METRIC))
    assert "back, shoulder \N{EN DASH} front, shoulder" in text


def test_what_is_wider_than_the_roll_is_turned_or_joined():
    """On 811 mm of paper (A0 less 15 mm at each edge): 1.0 m by 60 cm is turned; 1.2 m by 1.2 m
    comes in two strips that show the same line, 20 mm of the second again on the first, and
    together every millimetre of its edge.
    """
    style = Style(half_on_fold=True, dimensions=False)
    long = Piece(name="panel", outline_mm=((0, 0), (600, 0), (600, 1000), (0, 1000)))
    plate = Piece(name="plate", outline_mm=((0, 0), (1200, 0), (1200, 1200), (0, 1200)))

    (turned,) = fitted(draw_piece(long, style), 811.0, style)
    strips = fitted(draw_piece(plate, style), 811.0, style)

    assert turned.shape.bounds[2] - turned.shape.bounds[0] == pytest.approx(600)
    assert len(strips) == 2 and all(s.width_mm <= 811 for s in strips)
    assert all("plate: join on line 1" in [w.text for w in s.words] for s in strips)
    lap = sum(s.shape.area for s in strips) - 1200 * 1200
    assert lap == pytest.approx(LAP_MM * 1200, rel=1e-3)
    edge = sum(LineString(t.points_mm).length for s in strips for t in s.strokes
               if t.ink is Ink.CUT)
    assert edge == pytest.approx(4800 + 2 * LAP_MM, abs=0.1)


@pytest.mark.parametrize("name", ["gathered-skirt", "circle-skirt", "pleated-skirt", "curtain",
                                  "wrap", "pillowcase", "robe"])
def test_the_widest_garments_go_on_full_sheets(name):
    """For a hip of 145 cm; no sheet is wider than A0 or longer than a page of PDF may be."""
    measured = {"hip": 1450.0, "waist": 1340.0, "bust": 1400.0}
    for page in pypdf.PdfReader(
            io.BytesIO(full_sheet_pdf(draft(name, measured, body="women")))).pages:
        assert float(page.mediabox.width) * POINT_MM == pytest.approx(841, abs=0.1)
        assert float(page.mediabox.height) * POINT_MM <= 5000.1


@pytest.mark.parametrize("writer", [write_svg, preview_svg])
def test_marks_are_drawn_and_named(writer):
    """The preview too shows darts, buttonholes and the lines a garment is balanced by."""
    skirt, shirt = writer(pattern("straight-skirt")), writer(pattern("shirt"))

    assert skirt.count('class="mark"') >= 8
    assert "hip line" in skirt
    assert shirt.count('class="mark"') >= 6 * 6
    assert "roll line" in shirt or writer is preview_svg


def test_a_double_notch_is_two_strokes():
    """The back's sides carry two snips where the front's carry one."""
    made = pattern("straight-skirt")
    strokes = defaultdict(int)
    for group in write_svg(made).split("<g ")[1:]:
        name = group.split('data-piece="')[1].split('"')[0]
        strokes[name] = group.count('class="notch"')

    assert strokes["front"] == 2
    assert strokes["back"] == 3  # two on the side, and the end of the opening


def test_the_page_after_the_first_says_what_is_sewn_to_what():
    """Each seam once, by its pieces and edges, with its length, what is eased into what, and which
    notches meet.
    """
    made = made_of("bodice, princess")
    page = pypdf.PdfReader(io.BytesIO(tiled_pdf(made, "a4"))).pages[1].extract_text()
    page = " ".join(page.split())

    seam = next(j for j in made.joins if j.a[1] == "panel seam")
    assert f"{seam.a[0]}, panel seam – {seam.b[0]}, panel seam" in page
    assert f"{seam.a_mm / 10:.1f} cm" in page
    assert page.count(" – ") == len([j for j in made.joins if j.a != j.b])
    assert "→" in page and "ease in" in page
    assert "double notch to single notch" in page
