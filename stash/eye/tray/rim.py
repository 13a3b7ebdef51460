"""Finding the rim of the printed tray in a photograph."""

from __future__ import annotations

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import SeenSheet
from stash.model.tray import TRAY, TrayBoard

LEAST_MARKERS = 12
STRAY_SHARE = 0.15  # of a marker's side


def find_rim(grey: NDArray[np.uint8], tray: TrayBoard = TRAY) -> SeenSheet | None:
    """The corners of the rim's markers, on the tray in mm and in the picture in pixels.

    None when no tray lies in the picture. Raises InvalidInput when too little of its rim
    can be seen to measure by.
    """
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, tray.dictionary))
    settings = cv2.aruco.DetectorParameters()
    settings.cornerRefinementMethod = cv2.aruco.CORNER_REFINE_SUBPIX
    settings.adaptiveThreshWinSizeMin, settings.adaptiveThreshWinSizeMax = 9, 49
    settings.adaptiveThreshWinSizeStep = 20
    settings.minMarkerPerimeterRate = 0.02
    corners, ids, _ = cv2.aruco.ArucoDetector(words, settings).detectMarkers(grey)
    seen = {
        int(number): quad.reshape(4, 2).astype(float)
        for quad, number in zip(corners, [] if ids is None else ids.ravel(), strict=True)
        if number < len(tray.rim)
    }
    if len(seen) < 4:
        return None
    on_tray = np.array([p for n in seen for p in tray.marker_corners(n)])
    in_image = np.concatenate(list(seen.values()))
    side = float(np.median(np.hypot(*(in_image[1::4] - in_image[0::4]).T)))
    _, kept = cv2.findHomography(on_tray, in_image, cv2.RANSAC, max(2.0, STRAY_SHARE * side))
    good = kept.ravel() > 0
    rows = on_tray[good][:, 1] > tray.height_mm / 2
    columns = on_tray[good][:, 0] > tray.width_mm / 2
    if good.sum() < 4 * LEAST_MARKERS or len({*zip(rows, columns, strict=True)}) < 4:
        raise InvalidInput("rim_hidden", field="photo")
    return SeenSheet(0, on_tray[good], in_image[good])
