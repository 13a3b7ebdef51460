"""Full-size pages, rendered by PDFium and measured in pixels."""

from __future__ import annotations

import io
import re

import numpy as np
import pypdf
import pypdfium2
import pytest

from stash.errors import InvalidInput
from stash.model import Piece
from stash.pattern.figure import Style
from stash.pattern.print_pages import tiled_pdf
from stash.pattern.tiles import GLUE_MM, INSET_MM, PRINTER_MARGIN_MM, row_name, tile
from stash.sentences import Reader
from stash.units import System

DPI = 200
PX = DPI / 25.4
PLATE = Piece(name="plate", outline_mm=((0, 0), (500, 0), (500, 330), (0, 330)))
HOOK = Piece(
    name="hook", outline_mm=((0, 0), (60, 0), (60, 440), (560, 440), (560, 500), (0, 500))
)


def pages(pdf: bytes) -> list[np.ndarray]:
    """Every page in grey at 200 dpi."""
    document = pypdfium2.PdfDocument(pdf)
    images = [page.render(scale=DPI / 72, grayscale=True).to_numpy().squeeze() for page in document]
    document.close()
    return images


def dark_span(line: np.ndarray) -> float:
    """Millimetres from the middle of the first dark run to the middle of the last."""
    dark = np.nonzero(line < 140)[0]
    runs = np.split(dark, np.nonzero(np.diff(dark) > 1)[0] + 1)
    return (runs[-1].mean() - runs[0].mean()) / PX


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_test_square_measures_50_mm_on_the_page(paper):
    """On the rendered page its sides are 50 mm to 0.2 mm."""
    page = pages(tiled_pdf([PLATE], paper))[0]
    across = page[round(70 * PX), round(12 * PX) : round(70 * PX)]
    down = page[round(56 * PX) : round(115 * PX), round(20 * PX)]

    assert dark_span(across) == pytest.approx(50.0, abs=0.2)
    assert dark_span(down) == pytest.approx(50.0, abs=0.2)


@pytest.mark.parametrize(("paper", "size"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])
def test_pages_have_the_papers_size(paper, size):
    """A4 is 210 x 297 mm (ISO 216), Letter 8.5 x 11 in (ANSI/ASME Y14.1)."""
    for page in pypdf.PdfReader(io.BytesIO(tiled_pdf([PLATE], paper))).pages:
        box = page.mediabox
        mm = float(box.width) * 25.4 / 72, float(box.height) * 25.4 / 72
        assert mm == pytest.approx(size, abs=0.05)


def assembled(pieces: list[Piece], paper: str) -> np.ndarray:
    """All tiles laid together at their crosses, as glueing does."""
    tiling = tile(pieces, paper, Style(half_on_fold=True, dimensions=False))
    width, height = (round(side * PX) for side in tiling.step_mm)
    whole = np.full((tiling.rows * height, tiling.columns * width), 255, np.uint8)
    start = round(PRINTER_MARGIN_MM * PX)
    for where, page in zip(tiling.tiles, pages(tiled_pdf(pieces, paper))[1:], strict=True):
        top, left = round(where.top_mm * PX), round(where.left_mm * PX)
        part = page[start : start + height, start : start + width]
        target = whole[top : top + part.shape[0], left : left + part.shape[1]]
        target[:] = part[: target.shape[0], : target.shape[1]]
    return whole


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_a_piece_joined_from_its_pages_has_its_true_size(paper):
    """500 x 330 mm over several pages, measured along a row and a column, to 0.3 mm."""
    whole = assembled([PLATE], paper)
    row = whole[round(150 * PX), : round(345 * PX)]
    column = whole[: round(515 * PX), round(100 * PX)]

    assert dark_span(np.where(row < 60, 0, 255)) == pytest.approx(330.0, abs=0.3)
    assert dark_span(np.where(column < 60, 0, 255)) == pytest.approx(500.0, abs=0.3)


def test_pages_overlap_by_the_glue_strip():
    """What stands on the strip to the right stands again at the left of the next page."""
    first, second = pages(tiled_pdf([PLATE]))[1:3]
    tiling = tile([PLATE], "a4", Style(half_on_fold=True, dimensions=False))
    strip = round((PRINTER_MARGIN_MM + 1 + tiling.step_mm[0]) * PX)
    start, wide = round((PRINTER_MARGIN_MM + 1) * PX), round((GLUE_MM - 6) * PX)
    edge = round((PRINTER_MARGIN_MM + INSET_MM) * PX)
    top_edge = slice(edge - 5, edge + 5)

    assert (first[top_edge, strip : strip + wide].min(axis=0) < 100).all()
    assert (second[top_edge, start : start + wide].min(axis=0) < 100).all()


def test_pages_that_would_be_empty_are_left_out():
    """An L-shaped piece leaves pages of its bounding box out."""
    tiling = tile([HOOK], "a4", Style(half_on_fold=True, dimensions=False))

    assert len(tiling.tiles) < tiling.rows * tiling.columns
    assert len(pages(tiled_pdf([HOOK]))) == len(tiling.tiles) + 1


def test_every_page_names_itself_and_its_neighbours():
    """A1 says where A2 and B1 are glued; the first page lists the pieces."""
    texts = [p.extract_text() for p in pypdf.PdfReader(io.BytesIO(tiled_pdf([PLATE]))).pages]

    assert "plate" in texts[0]
    assert "A1" in texts[1]
    assert "glue A2 here" in texts[1]
    assert "glue B1 here" in texts[1]


def test_a_fold_piece_is_printed_as_its_half():
    """It says where the fold goes."""
    yoke = Piece(
        name="yoke", outline_mm=((0, -150), (0, 150), (190, 150), (190, -150)), on_fold=True
    )
    texts = [p.extract_text() for p in pypdf.PdfReader(io.BytesIO(tiled_pdf([yoke]))).pages]

    assert "15 cm × 19 cm" in " ".join(" ".join(texts).split())
    assert "place on the fold" in " ".join(texts)


def test_rows_run_from_a_to_z_and_on():
    """The 27th row is AA."""
    assert [row_name(i) for i in (0, 25, 26, 27)] == ["A", "Z", "AA", "AB"]


def test_unknown_paper_and_no_pieces_are_refused(sentence):
    """One sentence each."""
    with pytest.raises(InvalidInput) as refused:
        tiled_pdf([PLATE], "a3")
    assert re.search("Print on one of: a4 and letter", sentence(refused.value))
    with pytest.raises(InvalidInput) as refused:
        tiled_pdf([])
    assert re.search("no pieces", sentence(refused.value))


def test_a_name_in_any_script_is_printed_as_it_is_written():
    """Greek, Polish and Hindi names stand in the text of the page, in embedded letters."""
    for name in ("μανίκι", "Łucja: przód", "आस्तीन"):
        pdf = tiled_pdf([Piece(name=name, outline_mm=PLATE.outline_mm)])

        with pypdfium2.PdfDocument(pdf) as document:
            text = document[0].get_textpage().get_text_range()
        assert name[:3] in text
        assert b"/FontFile2" in pdf


@pytest.mark.parametrize(("language", "said"), [
    ("en", "2026-11-03"), ("fr", "03/11/2026"), ("de", "03.11.2026"),
])
def test_the_day_it_was_drawn_is_written_as_its_reader_writes_it(language, said):
    """On every page, beside the name."""
    reader = Reader(System.METRIC, language)
    sheet = tiled_pdf([PLATE], title="X", drawn_on="2026-11-03", reader=reader)

    assert said in pypdf.PdfReader(io.BytesIO(sheet)).pages[0].extract_text()
