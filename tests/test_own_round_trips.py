"""Her own patterns go out and come back: read by svgelements and ezdxf, and by Lengthwise again.

Areas and seam lengths to 0.1 mm (an area to 0.1 mm all along its edge), with notches, a seam
allowance, a fold, a length line, and in several sizes.
"""

from __future__ import annotations

import io
from math import dist

import ezdxf
import pytest
import svgelements
from shapely.geometry import LinearRing, Polygon
from shapely.geometry import Point as Place

from stash.model import Pattern, Piece
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.dxf_writing import block_names, write_dxf, write_dxf_sizes
from stash.pattern.importing import read_pattern
from stash.pattern.length_line import lengthened
from stash.pattern.pieces_svg import write_svg
from stash.pattern.typed import parse_typed

CLASSES = ("cut", "stitch", "notch")
# A half back as it might be traced: no two edges square, its fold the edge at y = 0.
TRACED = Piece(name="back", outline_mm=(
    (0, 0), (3.21, 81.44), (31.7, 140.02), (90.33, 171.9), (212.4, 158.66), (236.05, 191.3),
    (701.55, 243.71), (706.2, 0)))
OWN = {
    "allowance added": [corrected(TRACED, PieceChange(
        fold="fold", allowance_mm=15.0, notch_at_mm=(480.0, 480.0)))],
    "allowance in the outline": [corrected(TRACED, PieceChange(
        fold="fold", included_mm=10.0, notch_at_mm=(300.0, 30.0), lengthen_at_mm=400.0))],
    "no allowance, folded shorter": [lengthened(corrected(TRACED, PieceChange(
        allowance_mm=0.0, lengthen_at_mm=400.0, notch_at_mm=(600.0, 200.0))), -30.0)],
    "typed, a pair and a whole": [
        corrected(parse_typed("sleeve, 52cm x 38cm-24cm, cut 2, mirrored"), PieceChange(
            allowance_mm=12.5, notch_at_mm=(100.0, 0.0))),
        parse_typed("belt, 120cm x 6cm")],
}


def rings(path_class: str, text: str, tmp_path) -> list[list[tuple[float, float]]]:
    """The lines of a class of an SVG, one user unit a millimetre, as svgelements reads them."""
    file = tmp_path / "own.svg"
    file.write_text(text, encoding="utf-8")
    found = svgelements.SVG.parse(str(file), ppi=25.4).select(
        lambda e: isinstance(e, svgelements.Path) and e.values.get("class") == path_class)
    return [[(p.x, p.y) for p in (one.first_point, *(s.end for s in one if s.end is not None))]
            for one in found]


def close(read, true) -> bool:
    """Whether area and length of a ring are those of another, to 0.1 mm."""
    long = LinearRing(true).length
    return (abs(LinearRing(read).length - long) < 0.1
            and abs(Polygon(read).area - Polygon(true).area) < 0.1 * long)


@pytest.mark.parametrize("name", OWN)
def test_svgelements_reads_the_drawing(name, tmp_path):
    """Cutting lines, seam lines and as many notches."""
    pieces = OWN[name]
    text = write_svg(pieces)
    cut, sewn, notches = (rings(one, text, tmp_path) for one in CLASSES)
    with_seam = [p for p in pieces if p.stitch_mm]

    assert all(map(close, cut, [p.outline_mm for p in pieces]))
    assert len(sewn) == len(with_seam)
    assert all(map(close, sewn, [p.stitch_mm for p in with_seam]))
    assert len(notches) == sum(len(p.notches_mm) for p in pieces)


@pytest.mark.parametrize("name", OWN)
def test_ezdxf_reads_the_exchange_file(name):
    """Boundary on layer 1, seam line on 14, notches on 4 (ASTM D6673-10)."""
    pieces = OWN[name]
    document = ezdxf.read(io.StringIO(write_dxf(pieces).decode()))
    for piece, block_name in zip(pieces, block_names(p.name for p in pieces), strict=True):
        block = document.blocks.get(block_name)

        def drawn(layer, block=block):
            return [[(v.dxf.location.x, v.dxf.location.y) for v in e.vertices]
                    for e in block.query(f'POLYLINE[layer=="{layer}"]')]

        assert all(map(close, drawn(1), [piece.outline_mm])) and len(drawn(1)) == 1
        assert len(drawn(14)) == bool(piece.stitch_mm)
        assert all(map(close, drawn(14), [piece.stitch_mm]))
        spots = [e.dxf.location for e in block.query('POINT[layer=="4"]')]
        assert len(spots) == len(piece.notches_mm)
        edge = LinearRing(drawn(1)[0])
        before = LinearRing(piece.outline_mm)
        from_ends = sorted(edge.project(Place(s.x, s.y)) for s in spots)
        true = sorted(before.project(Place(x, y)) for x, y in piece.notches_mm)
        assert from_ends == pytest.approx(true, abs=0.1)


@pytest.mark.parametrize("name", OWN)
@pytest.mark.parametrize("form", ["svg", "dxf"])
def test_brought_in_again_it_is_the_same_pattern(name, form):
    """Sizes, seam lines, notches, how many, mirrored, on the fold."""
    pieces = OWN[name]
    data = write_svg(pieces).encode() if form == "svg" else write_dxf(pieces)
    read = read_pattern(data).pieces

    assert [p.name for p in read] == [p.name for p in pieces]
    for again, piece in zip(read, pieces, strict=True):
        assert (again.quantity, again.mirrored_pair, again.on_fold) == (
            piece.quantity, piece.mirrored_pair, piece.on_fold)
        assert close(again.outline_mm, piece.outline_mm)
        assert bool(again.stitch_mm) == bool(piece.stitch_mm)
        assert not piece.stitch_mm or close(again.stitch_mm, piece.stitch_mm)
        corner = min(x for x, _ in piece.outline_mm), min(y for _, y in piece.outline_mm)
        aside = min(x for x, _ in again.outline_mm), min(y for _, y in again.outline_mm)
        here = [(x - aside[0], y - aside[1]) for x, y in again.notches_mm]
        there = [(x - corner[0], y - corner[1]) for x, y in piece.notches_mm]
        assert len(here) == len(there)
        assert all(min(dist(a, b) for b in there) < 0.1 for a in here)


def test_several_sizes_keep_seams_and_notches():
    """Each size brought in is the one that went out, allowance, fold and all."""
    sizes = [(f"{38 + 2 * n}", Pattern(garment="top", pieces=(corrected(
        Piece(name="back", outline_mm=tuple((x, y + (4 * n if y else 0))
                                            for x, y in TRACED.outline_mm)),
        PieceChange(fold="fold", allowance_mm=15.0, notch_at_mm=(480.0, 480.0))),)))
        for n in range(3)]
    data = write_dxf_sizes(sizes, title="top")
    for size, pattern in sizes:
        (again,) = read_pattern(data, size=size).pieces
        (piece,) = pattern.pieces
        assert again.on_fold and close(again.outline_mm, piece.outline_mm)
        assert close(again.stitch_mm, piece.stitch_mm)
        assert len(again.notches_mm) == len(piece.notches_mm) == 2
