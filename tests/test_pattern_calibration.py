"""The printed calibration sheet: what is printed is what is looked for."""

from __future__ import annotations

import re

import cv2
import numpy as np
import pypdfium2
import pytest

from labels.calibration_on_paper import calibration_sheet_pdf
from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import find_sheets
from stash.model.calibration import BOARD

DPI = 254
PX_PER_MM = DPI / 25.4


def page(pdf: bytes, number: int = 0) -> np.ndarray:
    """One page in grey, ten pixels a millimetre."""
    document = pypdfium2.PdfDocument(pdf)
    image = document[number].render(scale=DPI / 72, grayscale=True).to_numpy().squeeze().copy()
    document.close()
    return image


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_printed_board_is_found_whole_and_true_to_scale(paper):
    """All 48 corners, ten pixels a millimetre to 0.05 mm anywhere on the sheet."""
    (sheet,) = find_sheets(page(calibration_sheet_pdf((3,), paper)))
    offset = (sheet.image_px / PX_PER_MM - sheet.board_mm).mean(axis=0)

    assert sheet.number == 3
    assert len(sheet.board_mm) == len(BOARD.inner_corners) == 48
    assert np.abs(sheet.image_px / PX_PER_MM - sheet.board_mm - offset).max() < 0.05


def test_opencvs_own_board_of_this_kind_agrees():
    """OpenCV's ChArUco detector, told only sizes and dictionary, sees the same corners."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, BOARD.dictionary))
    size = (BOARD.columns, BOARD.rows)
    board = cv2.aruco.CharucoBoard(size, BOARD.square_mm, BOARD.marker_mm, words)
    corners, ids, _, _ = cv2.aruco.CharucoDetector(board).detectBoard(
        page(calibration_sheet_pdf((1,)))
    )
    true = np.array(board.getChessboardCorners())[ids.ravel(), :2]
    offset = (corners.reshape(-1, 2) / PX_PER_MM - true).mean(axis=0)

    assert len(ids) == 48
    assert np.abs(corners.reshape(-1, 2) / PX_PER_MM - true - offset).max() < 0.05


def test_its_ruler_is_150_mm():
    """The base line of the ruler, measured on the page."""
    image = page(calibration_sheet_pdf((1,)))
    rows = image[round((15 + BOARD.height_mm + 8) * PX_PER_MM) :][: round(2 * PX_PER_MM)]
    spans = [np.ptp(np.nonzero(row < 128)[0]) for row in rows if (row < 128).sum() > 1000]

    assert max(spans) / PX_PER_MM == pytest.approx(150.0, abs=0.3)


def test_sheets_differ_so_that_several_can_lie_together():
    """Sheets 1 to 8 share no marker."""
    seen = set()
    for number in range(1, BOARD.sheets + 1):
        ids = {(number - 1) * BOARD.markers_per_sheet + i for i in range(BOARD.markers_per_sheet)}
        assert not ids & seen
        seen |= ids
    assert max(seen) < 250


def test_the_board_fits_both_papers():
    """A4 is 210 x 297 mm (ISO 216), Letter 215.9 x 279.4 mm; 10 mm stay free on each side."""
    assert BOARD.width_mm <= 210 - 20
    assert BOARD.height_mm <= 279.4 - 20


@pytest.mark.parametrize("numbers", [(), (0,), (9,)])
def test_only_numbered_sheets_are_printed(numbers, sentence):
    """There are eight."""
    with pytest.raises(InvalidInput) as refused:
        calibration_sheet_pdf(numbers)
    assert re.search("1 to 8", sentence(refused.value))
