"""Rings: the ground is seen through them, so a round gap in what hides it is filled first."""

from __future__ import annotations

import cv2
import numpy as np

from stash.eye.rounds.circle import Map

ROUND = 0.72  # 4 pi area / girth squared; of a gap between three discs it is far less
SOLID = 0.78  # of its hull
LEAST_MM, MOST_MM = 2.5, 30.0  # across


def filled(hidden: Map, cell_mm: float) -> Map:
    """The map with round gaps closed; gaps between touching discs have corners and stay."""
    outer, tree = cv2.findContours(
        (hidden > 0.5).astype(np.uint8), cv2.RETR_CCOMP, cv2.CHAIN_APPROX_NONE)
    result = hidden.copy()
    for index, line in enumerate(outer):
        if tree[0, index, 3] < 0 or len(line) < 8:
            continue
        area = cv2.contourArea(line) * cell_mm**2
        hull = cv2.convexHull(line)
        solid = cv2.contourArea(line) / max(cv2.contourArea(hull), 1e-6)
        girth = cv2.arcLength(hull, True) * cell_mm
        across = 2 * (area / np.pi) ** 0.5
        if LEAST_MM < across < MOST_MM and solid > SOLID and 4 * np.pi * area > ROUND * girth**2:
            cv2.drawContours(result, outer, index, 1.0, cv2.FILLED)
            cv2.drawContours(result, outer, index, 1.0, 3)
    return result
