"""The floor as a camera sees it: perspective and lens bending, fitted to the sheets' corners.

The lens is taken to bend radially about the middle of the picture: an ideal point
lies at (1 + a r^2 + b r^4) times the seen one, r = 1 in the corner of the picture
(the inverse of the radial terms of D. C. Brown, Photogrammetric Engineering 32, 1966).
Perspective of a plane is a homography. All sheets share both; every sheet but the
first also has its own place and turn on the floor. The fit is Levenberg-Marquardt.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import hypot
from typing import Protocol

import cv2
import numpy as np
from numpy.typing import NDArray

from stash.eye.floor.bow import bow
from stash.eye.floor.find_sheets import Array, SeenSheet

BEND_PRIOR = np.array([0.03, 0.015])  # of a phone's lens, a and b; common practice, no source
CORNER_NOISE_PX = 0.05
STEPS = 60
FARTHEST = 3.0  # half diagonals from the middle: beyond, the lens tells nothing


@dataclass(frozen=True)
class Straight:
    """Evenly spread points of an edge that should be straight, and how far it may bow."""

    image_px: Array
    error_px: float


@dataclass(frozen=True)
class Floor:
    """Maps between picture (pixels) and floor (mm, in the frame of the first sheet).

    ``values`` are eight numbers of the homography (its ninth is 1), the bends a and b
    and then (x, y, turn) of each further sheet; ``spread`` are their correlated standard
    errors, one column an independent error.
    """

    width_px: int
    height_px: int
    values: Array
    spread: Array
    residual_px: float

    @property
    def radius_px(self) -> float:
        """From the middle of the picture to its corner."""
        return hypot(self.width_px, self.height_px) / 2

    def to_floor(self, image_px: Array, values: Array | None = None) -> Array:
        """Floor points under picture points, shape (n, 2)."""
        chosen = self.values if values is None else values
        ideal = straightened(self.unit(image_px), chosen[8:10])
        return through(np.asarray(np.linalg.inv(matrix(chosen)), float), ideal)

    def to_image(self, floor_mm: Array) -> Array:
        """Picture points of floor points, shape (n, 2)."""
        ideal = through(matrix(self.values), floor_mm)
        return bent(ideal, self.values[8:10]) * self.radius_px + self._middle

    def in_front(self, floor_mm: Array) -> NDArray[np.bool_]:
        """Which floor points lie before the camera and not beyond the horizon."""
        return floor_mm @ self.values[6:8] + 1 > 0.05

    def sheet_pose(self, index: int) -> tuple[float, float, float]:
        """(x_mm, y_mm, turn in radians) of the index-th sheet on the floor."""
        x, y, turn = (0.0, 0.0, 0.0) if index == 0 else self.values[7 + 3 * index : 10 + 3 * index]
        return float(x), float(y), float(turn)

    @property
    def _middle(self) -> Array:
        return np.array([(self.width_px - 1) / 2, (self.height_px - 1) / 2])

    def unit(self, image_px: Array) -> Array:
        """Picture points from its middle, in half diagonals."""
        return (np.asarray(image_px, float) - self._middle) / self.radius_px


def matrix(values: Array) -> Array:
    """The homography from floor to ideal picture."""
    return np.append(values[:8], 1.0).reshape(3, 3)


def through(homography: Array, points: Array) -> Array:
    """Points sent through a homography."""
    moved = points @ homography[:, :2].T + homography[:, 2]
    return moved[:, :2] / moved[:, 2:]


def straightened(seen: Array, bend: Array) -> Array:
    """Ideal points from seen ones."""
    r2 = (seen**2).sum(axis=1, keepdims=True)
    return seen * (1 + bend[0] * r2 + bend[1] * r2**2)


def bent(ideal: Array, bend: Array) -> Array:
    """Seen points from ideal ones, by Newton's method on the radius."""
    target = np.sqrt((ideal**2).sum(axis=1, keepdims=True))
    r = np.minimum(target, 1.6)
    for _ in range(6):
        value = r * (1 + bend[0] * r**2 + bend[1] * r**4) - target
        slope = 1 + 3 * bend[0] * r**2 + 5 * bend[1] * r**4
        r = np.minimum(r - value / np.maximum(slope, 0.2), FARTHEST)
    return ideal * (r / np.maximum(target, 1e-12))


def fit_floor(
    sheets: Sequence[SeenSheet],
    size_px: tuple[int, int],
    scale: float = 1.0,
    straight: Sequence[Straight] = (),
) -> Floor:
    """The floor that explains the corners of all sheets best, and keeps straight edges straight.

    ``size_px`` is (width, height) of the picture, ``scale`` the printed size of the
    sheets over their nominal one. With one sheet only the first bend is fitted.
    """
    blank = Floor(*size_px, np.zeros(10), np.zeros((10, 0)), 0.0)
    boards = [s.board_mm * scale for s in sheets]
    seen = [blank.unit(s.image_px) for s in sheets]
    start = _first_guess(boards, seen)
    free = np.ones(len(start), bool)
    free[9] = len(sheets) > 1
    noise = CORNER_NOISE_PX / blank.radius_px
    edges = [Straight(blank.unit(e.image_px), e.error_px / blank.radius_px) for e in straight]
    for _ in range(2):
        problem = _Problem(boards, seen, noise, free, edges)
        start = least_squares(problem, start)
        rms = float(np.sqrt(np.mean(problem.corner_misfit(start) ** 2))) * noise
        noise = max(CORNER_NOISE_PX / blank.radius_px, rms)
    spread = np.zeros((len(start), int(free.sum())))
    spread[free] = root_covariance(problem.slopes(start))
    return Floor(*size_px, start, spread, rms * blank.radius_px)


def _first_guess(boards: Sequence[Array], seen: Sequence[Array]) -> Array:
    """Perspective from the first sheet, no bending, the others by where they then lie."""
    homography, _ = cv2.findHomography(boards[0], seen[0])
    values = [*(homography / homography[2, 2]).ravel()[:8], 0.0, 0.0]
    for board, points in zip(boards[1:], seen[1:], strict=True):
        there = through(np.linalg.inv(homography), points)
        values += pose_between(board, there)
    return np.array(values)


def pose_between(board: Array, there: Array) -> tuple[float, float, float]:
    """(x, y, turn) that brings points nearest to measured ones (Kabsch's rotation)."""
    a, b = board - board.mean(axis=0), there - there.mean(axis=0)
    turn = np.arctan2((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum(), (a * b).sum())
    shift = there.mean(axis=0) - turned(board, turn).mean(axis=0)
    return float(shift[0]), float(shift[1]), float(turn)


def turned(points: Array, turn: float) -> Array:
    """Points turned about the origin by radians."""
    c, s = np.cos(turn), np.sin(turn)
    return points @ np.array([[c, s], [-s, c]])


@dataclass(frozen=True)
class _Problem:
    """Least squares over all corners and straight edges, and two equations on lenses in general."""

    boards: Sequence[Array]
    seen: Sequence[Array]
    noise: float
    free: NDArray[np.bool_]
    straight: Sequence[Straight] = ()

    def misfit(self, values: Array) -> Array:
        """All differences, in standard deviations."""
        bend = values[8:10]
        bows = np.array([bow(straightened(e.image_px, bend)) / e.error_px for e in self.straight])
        # Cauchy's loss: an edge that is truly curved is soon let go.
        trusted = np.sign(bows) * np.sqrt(np.log1p(bows**2))
        return np.concatenate([self.corner_misfit(values), trusted, bend / BEND_PRIOR])

    def corner_misfit(self, values: Array) -> Array:
        """Differences of the sheets' corners, in standard deviations."""
        parts = []
        for i, (board, points) in enumerate(zip(self.boards, self.seen, strict=True)):
            placed = board
            if i:
                x, y, turn = values[7 + 3 * i : 10 + 3 * i]
                placed = turned(board, turn) + (x, y)
            ideal = through(matrix(values), placed)
            parts.append((bent(ideal, values[8:10]) - points).ravel() / self.noise)
        return np.concatenate(parts)

    def slopes(self, values: Array) -> Array:
        """The Jacobian, of the values that are free."""
        return slopes(self.misfit, values)[:, self.free]


class LeastSquares(Protocol):
    """Differences to be made small, and their Jacobian in the values that are ``free``."""

    @property
    def free(self) -> NDArray[np.bool_]:
        """Which of the values may change."""

    def misfit(self, values: Array) -> Array:
        """All differences, in standard deviations."""

    def slopes(self, values: Array) -> Array:
        """The Jacobian, one column a free value."""


def slopes(misfit: Callable[[Array], Array], values: Array) -> Array:
    """A Jacobian by central differences."""
    columns = []
    for i, value in enumerate(values):
        step = 1e-6 * max(abs(value), 1e-4)
        up, down = values.copy(), values.copy()
        up[i], down[i] = value + step, value - step
        columns.append((misfit(up) - misfit(down)) / (2 * step))
    return np.array(columns).T


def least_squares(problem: LeastSquares, values: Array) -> Array:
    """Levenberg-Marquardt from a first guess."""
    damping, error = 1e-3, float((problem.misfit(values) ** 2).sum())
    for _ in range(STEPS):
        jacobian = problem.slopes(values)
        normal, gradient = jacobian.T @ jacobian, jacobian.T @ problem.misfit(values)
        scaled = normal + damping * np.diag(np.diag(normal))
        trial = values.copy()
        trial[problem.free] -= np.linalg.solve(scaled, gradient)
        tried = float((problem.misfit(trial) ** 2).sum())
        if tried < error:
            finished = error - tried < 1e-9 * error
            values, error, damping = trial, tried, damping / 5
            if finished:
                break
        else:
            damping *= 10
            if damping > 1e8:
                break
    return values


def root_covariance(jacobian: Array) -> Array:
    """Independent standard errors as columns: their outer product is the covariance."""
    _, singular, directions = np.linalg.svd(jacobian, full_matrices=False)
    return directions.T / np.maximum(singular, 1e-12)
