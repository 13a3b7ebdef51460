"""Finding the calibration sheets in a photograph, corner by corner."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.model.calibration import BOARD, CalibrationBoard

Array = NDArray[np.float64]
LEAST_MARKERS = 4
LEAST_CORNERS = 8
SHARP_SHARE = 0.11  # of a square: half the window in which a corner is refined
NEAREST_MARKERS = 4


@dataclass(frozen=True)
class SeenSheet:
    """One sheet: its number, its corners on the board in mm and in the picture in pixels."""

    number: int
    board_mm: Array
    image_px: Array


def find_sheets(grey: NDArray[np.uint8], board: CalibrationBoard = BOARD) -> list[SeenSheet]:
    """Every calibration sheet in a grey picture, those with most corners first.

    Raises InvalidInput when there is none with enough corners to measure by.
    """
    markers = _markers(grey, board)
    sheets = [
        sheet
        for number in range(1, board.sheets + 1)
        if (sheet := _sheet(grey, board, number, markers)) is not None
    ]
    if not sheets:
        raise InvalidInput("too_little_of_sheet" if markers else "no_calibration_sheet")
    return sorted(sheets, key=lambda s: -len(s.board_mm))


def _markers(grey: NDArray[np.uint8], board: CalibrationBoard) -> dict[int, Array]:
    """Corners in pixels of every marker seen, by its id."""
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, board.dictionary))
    settings = cv2.aruco.DetectorParameters()
    settings.adaptiveThreshWinSizeMin = 7
    settings.adaptiveThreshWinSizeMax = 47
    settings.adaptiveThreshWinSizeStep = 20
    settings.minMarkerPerimeterRate = 0.01
    corners, ids, _ = cv2.aruco.ArucoDetector(words, settings).detectMarkers(grey)
    if ids is None:
        return {}
    if len(ids) - len(np.unique(ids)) >= LEAST_MARKERS:
        raise InvalidInput("two_sheets_alike")
    found: dict[int, Array] = {}
    for quad, number in zip(corners, ids.ravel(), strict=True):
        found.setdefault(int(number), quad.reshape(4, 2).astype(float))
    return found


def _sheet(
    grey: NDArray[np.uint8], board: CalibrationBoard, number: int, markers: dict[int, Array]
) -> SeenSheet | None:
    """The corners of one sheet, found from the markers around each."""
    first = (number - 1) * board.markers_per_sheet
    indices = [i for i in range(board.markers_per_sheet) if first + i in markers]
    if len(indices) < LEAST_MARKERS:
        return None
    on_board = np.array([board.marker_corners(i) for i in indices])
    in_image = np.array([markers[first + i] for i in indices])
    whole, kept = cv2.findHomography(
        on_board.reshape(-1, 2), in_image.reshape(-1, 2), cv2.RANSAC, 12.0
    )
    if whole is None or kept.sum() < 4 * LEAST_MARKERS - 4:
        return None
    good = kept.reshape(-1, 4).all(axis=1)
    on_board, in_image = on_board[good], in_image[good]
    if len(on_board) < LEAST_MARKERS - 1:
        return None
    corners = np.array(board.inner_corners)
    near = _beside_a_marker(corners, on_board, board)
    corners = corners[near]
    guesses = np.array([_guess(corner, on_board, in_image) for corner in corners])
    shown = ((guesses >= 0) & (guesses <= np.array(grey.shape[::-1]) - 1)).all(axis=1)
    corners, guesses = corners[shown], guesses[shown]
    if len(corners) < LEAST_CORNERS:  # a sheet that runs out of the picture
        return None
    refined, sound = _refined(grey, guesses, _square_px(on_board, in_image, board))
    if sound.sum() < LEAST_CORNERS:
        return None
    return SeenSheet(number, corners[sound], refined[sound])


def _beside_a_marker(corners: Array, on_board: Array, board: CalibrationBoard) -> NDArray[np.bool_]:
    """Corners that touch a square whose marker was seen, and so are not hidden."""
    centres = on_board.mean(axis=1)
    gaps = np.abs(corners[:, None, :] - centres[None, :, :]).max(axis=2)
    return (gaps < 0.6 * board.square_mm).any(axis=1)


def _guess(corner: Array, on_board: Array, in_image: Array) -> Array:
    """Where a corner should be, by the markers nearest to it; lens distortion is small there."""
    distance = np.hypot(*(on_board.mean(axis=1) - corner).T)
    nearest = np.argsort(distance)[:NEAREST_MARKERS]
    here, there = on_board[nearest].reshape(-1, 2), in_image[nearest].reshape(-1, 2)
    local, _ = cv2.findHomography(here, there)
    return cv2.perspectiveTransform(corner.reshape(1, 1, 2), local).reshape(2)


def _square_px(on_board: Array, in_image: Array, board: CalibrationBoard) -> float:
    """The shortest side of a square of this sheet in pixels."""
    sides = np.hypot(*np.moveaxis(in_image - np.roll(in_image, 1, axis=1), 2, 0))
    return float(np.percentile(sides, 5)) * board.square_mm / board.marker_mm


def _refined(
    grey: NDArray[np.uint8], guesses: Array, square_px: float
) -> tuple[Array, NDArray[np.bool_]]:
    """Corners to a fraction of a pixel, and which of them could be trusted."""
    half = max(3, round(SHARP_SHARE * square_px))
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_MAX_ITER, 60, 0.001)
    start = guesses.astype(np.float32).reshape(-1, 1, 2)
    refined = cv2.cornerSubPix(grey, start.copy(), (half, half), (-1, -1), stop).reshape(-1, 2)
    moved = np.abs(refined - guesses).max(axis=1)
    height, width = grey.shape
    inside = (refined > half).all(axis=1) & (refined < (width - half, height - half)).all(axis=1)
    return refined.astype(float), (moved < 0.8 * half) & inside
