"""Labels on paper, rendered at 300 dpi and measured; read by a decoder that we do not scan with."""

from __future__ import annotations

import re
import subprocess
from random import Random

import cv2
import numpy as np
import pypdfium2
import pytest

from labels.content import Label, LabelKind, blank
from labels.face import DOT_MM
from labels.pdf import Layout, Printing, sheet_pdf
from labels.qr import QUIET_MODULES
from labels.ruler import STRIP_MM, margin_strip
from labels.sheets import SHEETS, roll, sheet_named
from stash.errors import InvalidInput
from stash.model import Code, Notion, NotionKind

DPI = 300
PX_PER_MM = DPI / 25.4
ADDRESS = "http://stash.local:5000"
TOO_SMALL = [("a4-65", Layout.FOLD_OVER), ("12mm", Layout.FOLD_OVER)]
LONG = "Donaudampfschifffahrtsgesellschaftskapitänsuniformstoff in a very long-winded check"


def printed(labels, sheet, start=1, **how) -> bytes:
    """A sheet of labels as a PDF."""
    return sheet_pdf(labels, Printing(sheet=sheet, start=start, **how))


def codes(count: int) -> list[str]:
    """So many codes, always the same."""
    random = Random(11)
    return [Code.draw(random).text for _ in range(count)]


def full(code: str, name: str = "Washed linen, harbour blue") -> Label:
    """A label with every line filled."""
    return Label(
        code=code, name=name, size="138 cm × 2.40 m", fibre="55% linen, 45% cotton",
        place="Shelf 3", kind=LabelKind.CUT,
        notion=Notion(kind=NotionKind.BUTTON, name="horn", size_mm=11.4),
    )


def pages(pdf: bytes, dpi: float = DPI) -> list[np.ndarray]:
    """Every page as a grey picture."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [page.render(scale=dpi / 72, grayscale=True).to_numpy().squeeze()
                for page in document]


def read_independently(grey: np.ndarray) -> str:
    """What OpenCV's own decoder, no part of our cascade, reads on one label."""
    framed = cv2.copyMakeBorder(grey, 40, 40, 40, 40, cv2.BORDER_CONSTANT, value=255)
    return cv2.QRCodeDetector().detectAndDecode(framed)[0]


def cell(page: np.ndarray, sheet, position: int) -> np.ndarray:
    """The part of a rendered page where one label lies."""
    x, y = (round(v * PX_PER_MM) for v in sheet.corner_mm(position))
    width, height = (round(v * PX_PER_MM) for v in sheet.label_mm)
    return page[y : y + height, x : x + width]


@pytest.mark.parametrize("layout", Layout)
@pytest.mark.parametrize("name", [*SHEETS, "60mm", "30mm", "12mm", "60x80mm"])
def test_every_layout_on_every_sheet_is_read_by_an_independent_decoder(name, layout):
    """OpenCV's QRCodeDetector reads the first and the last label of each."""
    if (name, layout) in TOO_SMALL:
        return
    sheet = SHEETS.get(name) or roll(name)
    labels = [full(code) for code in codes(2)]
    # The last place of one sheet and the first of the next.
    last, first = pages(
        printed(labels, sheet, sheet.per_page, address=ADDRESS, layout=layout)
    )

    for label, seen in zip(labels, (cell(last, sheet, sheet.per_page - 1), cell(first, sheet, 0)),
                           strict=True):
        # A fold-over label shows its code twice: one face is enough here.
        face = seen[: _fold_px(seen, sheet, label is labels[0])] if (
            layout is Layout.FOLD_OVER) else seen
        assert read_independently(face).endswith(label.code)


def _fold_px(seen: np.ndarray, sheet, first_printed: bool) -> int:
    """Where the fold lies; without margins the ruler takes the foot of the first one printed."""
    ruled = first_printed and margin_strip(sheet) is None
    return round((len(seen) - (STRIP_MM * PX_PER_MM if ruled else 0)) / 2)


@pytest.mark.parametrize(("name", "layout"), TOO_SMALL)
def test_a_label_too_small_for_a_readable_symbol_is_refused(name, layout, sentence):
    """Modules under 0.3 mm are beyond most cameras at arm's length."""
    with pytest.raises(InvalidInput) as refused:
        printed([full(codes(1)[0])], SHEETS.get(name) or roll(name), layout=layout)
    assert re.search("take larger labels", sentence(refused.value))


@pytest.mark.parametrize("name", ["a4-24", "a4-24-wide", "a4-21", "a4-65", "letter-30"])
def test_labels_lie_where_the_sheet_says_to_a_fifth_of_a_millimetre(name):
    """The symbol's dark corner against the grid: every label's offset in its cell is the same."""
    sheet = SHEETS[name]
    page = pages(printed([blank(c) for c in codes(sheet.per_page)], sheet, address=ADDRESS))[0]
    offsets = []
    for n in range(sheet.per_page):
        x, y = sheet.corner_mm(n)
        if _at_the_edge(sheet, x, y):
            continue
        dark = np.argwhere(cell(page, sheet, n) < 128)
        corner = dark.min(axis=0)[::-1] + (round(x * PX_PER_MM), round(y * PX_PER_MM))
        offsets.append(corner / PX_PER_MM - (x, y))

    assert np.ptp(np.array(offsets), axis=0).max() <= 0.2


def _at_the_edge(sheet, x: float, y: float) -> bool:
    """Labels that reach into what printers cannot print are drawn further in."""
    right, foot = x + sheet.label_mm[0], y + sheet.label_mm[1]
    return min(x, y, sheet.page_mm[0] - right, sheet.page_mm[1] - foot) < 4.0


def test_nothing_lies_where_a_desktop_printer_cannot_print():
    """4 mm all round the page, on a sheet whose labels reach its edges."""
    sheet = sheet_named("a4-24-wide")
    page = pages(printed([full(c, LONG) for c in codes(24)], sheet, address=ADDRESS))[0]
    edge = int(4.0 * PX_PER_MM)
    page = page.copy()
    page[edge:-edge, edge:-edge] = 255

    assert page.min() == 255


@pytest.mark.parametrize("name", [LONG, "Washed linen, harbour blue", "льняная ткань синяя", "x"])
def test_size_and_fibre_stay_on_the_smallest_sheet_however_long_the_name(name):
    """What a label is for: code, name, width x length, fibre."""
    pdf = printed([full(codes(1)[0], name)], sheet_named("a4-65"), address=ADDRESS)
    with pypdfium2.PdfDocument(pdf) as document:
        text = " ".join(document[0].get_textpage().get_text_range().split())

    assert all(part in text for part in (codes(1)[0], "138 cm × 2.40 m", "linen", "cotton"))


def test_a_module_is_as_large_as_meant_to_a_hundredth_of_a_millimetre():
    """Whole dots of a 300 dpi printer; measured over the 29 modules of the symbol."""
    sheet = sheet_named("a4-24")
    page = pages(printed([blank(codes(1)[0])], sheet, address=ADDRESS), dpi=1200)[0]
    x, y = (v * 1200 / 25.4 for v in sheet.corner_mm(0))
    symbol = page[round(y) : round(y + 33.9 * 47.24), round(x) : round(x + 30 * 47.24)]
    dark = np.argwhere(symbol < 128)
    modules = np.ptp(dark, axis=0) / (1200 / 25.4) / 29

    assert modules == pytest.approx([9 * DOT_MM] * 2, abs=0.01)


def test_the_quiet_zone_is_four_modules_of_paper():
    """ISO/IEC 18004, 6.3.8: at least four modules all round."""
    sheet = sheet_named("a4-24")
    page = pages(printed([full(codes(1)[0], LONG)], sheet, address=ADDRESS))[0]
    label = cell(page, sheet, 0)
    dark = np.argwhere(label[:, : round(30 * PX_PER_MM)] < 128)
    (top, left), (foot, _) = dark.min(axis=0), dark.max(axis=0)
    quiet = round(QUIET_MODULES * 9 * DOT_MM * PX_PER_MM) - 1
    side = foot - top

    assert label[max(0, top - quiet) : foot + quiet, left - 8 : left].min() == 255
    assert label[top:foot, left + side + 2 : left + side + quiet].min() > 200


@pytest.mark.parametrize("name", ["a4-24", "a4-65", "60mm", "12mm"])
@pytest.mark.parametrize("words", [LONG, "麻布" * 40, "льняная " * 30, "कपास का कपड़ा " * 12, ""])
def test_nothing_is_printed_outside_its_label(name, words):
    """One label alone: every dark pixel of the page is in its cell or in the margin's ruler."""
    sheet = SHEETS.get(name) or roll(name)
    middle = sheet.per_page // 2 + 1
    pdf = printed([full(codes(1)[0], words)], sheet, middle, address=ADDRESS)
    page = pages(pdf)[0].copy()
    page[: round(sheet.top_mm * PX_PER_MM)] = 255
    cell(page, sheet, middle - 1)[:] = 255

    assert page.min() == 255


def test_the_ruler_measures_a_true_hundred_millimetres():
    """Its end ticks are 100 mm apart on the rendered page."""
    page = pages(printed([blank(codes(1)[0])], sheet_named("a4-24"), address=ADDRESS))[0]
    strip = page[: round(12.9 * PX_PER_MM)]
    base = strip[np.argmax((strip < 160).sum(axis=1))] < 160

    assert np.ptp(np.argwhere(base)) / PX_PER_MM == pytest.approx(100.0, abs=0.2)


def test_printing_starts_at_the_free_place():
    """The fifth place holds the first label; the four before it stay empty."""
    sheet = sheet_named("a4-24")
    page = pages(printed([full(c) for c in codes(2)], sheet, 5, address=ADDRESS))[0]

    assert all(cell(page, sheet, n).min() == 255 for n in range(4))
    assert read_independently(cell(page, sheet, 4)).endswith(codes(1)[0])


def test_words_can_be_searched_and_fonts_are_embedded():
    """The text layer holds code and name, and every font program is in the file."""
    pdf = printed([full(codes(1)[0], "麻布 linen")], sheet_named("a4-21"), address=ADDRESS)
    with pypdfium2.PdfDocument(pdf) as document:
        text = document[0].get_textpage().get_text_range()

    assert codes(1)[0] in text
    assert "linen" in text
    assert pdf.count(b"/FontFile2") == pdf.count(b"/Type /FontDescriptor") >= 2


def test_the_printer_is_asked_not_to_scale():
    """ISO 32000-1, 12.2: /PrintScaling /None."""
    pdf = printed([blank(codes(1)[0])], sheet_named("a4-21"))

    assert b"/PrintScaling /None" in pdf


def test_the_smallest_labels_hold_the_bare_code():
    """On a 12 mm tape an address would have modules no phone can see."""
    page = pages(printed([full(codes(1)[0])], roll("12mm"), address=ADDRESS))[0]

    assert read_independently(page) == codes(1)[0]


def test_a_bands_end_label_folds_to_read_from_both_sides():
    """A fold-over tag carries its symbol twice, the upper one head down."""
    page = pages(printed([full(codes(1)[0])], sheet_named("a4-8"), address=ADDRESS,
                           layout=Layout.FOLD_OVER))[0]
    label = cell(page, sheet_named("a4-8"), 0)
    half = len(label) // 2

    assert read_independently(label[:half]) == read_independently(label[half:]) != ""


def test_nothing_to_print_is_said(sentence):
    """An empty choice is a sentence, not an empty file."""
    with pytest.raises(InvalidInput) as refused:
        printed([], sheet_named("a4-24"))
    assert re.search("at least one label", sentence(refused.value))


@pytest.mark.poppler
def test_another_renderer_shows_the_same_labels(tmp_path):
    """poppler's pdftoppm draws what pypdfium2 draws: the same code is read."""
    (tmp_path / "sheet.pdf").write_bytes(
        printed([full(c) for c in codes(24)], sheet_named("a4-24"), address=ADDRESS)
    )
    subprocess.run(
        ["pdftoppm", "-r", "300", "-png", "-gray", tmp_path / "sheet.pdf", tmp_path / "page"],
        check=True,
    )
    page = cv2.imread(str(next(tmp_path.glob("page*.png"))), cv2.IMREAD_GRAYSCALE)

    assert read_independently(cell(page, sheet_named("a4-24"), 23)).endswith(codes(24)[23])
