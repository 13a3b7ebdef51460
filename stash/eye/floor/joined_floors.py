"""Several photographs of one floor, joined by the calibration sheets that lie in more than one.

Photographs that share a sheet are chained first, then all of them and all sheets are fitted
together: every sheet has one place on the floor, whichever photographs show it. Pictures of
one size are taken to come from one lens, which may bend a little differently each time.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stash.errors import InvalidInput
from stash.eye.floor.bow import bow
from stash.eye.floor.find_sheets import Array, SeenSheet
from stash.eye.floor.seen_floor import (
    BEND_PRIOR,
    CORNER_NOISE_PX,
    Floor,
    Straight,
    bent,
    least_squares,
    matrix,
    pose_between,
    root_covariance,
    slopes,
    straightened,
    through,
    turned,
)

Pose = tuple[float, float, float]
SAME_LENS = np.array([0.003, 0.002])  # by which one lens bends differently next time: chosen here
MOVED_MM = 12.0  # by which a sheet seen twice may seem to lie elsewhere before they are fitted


@dataclass(frozen=True)
class Photographed:
    """One photograph of a floor: its picture, the sheets in it, the floor as it alone shows it."""

    image: NDArray[np.uint8]
    sheets: Sequence[SeenSheet]
    floor: Floor

    def poses(self) -> dict[int, Pose]:
        """Where each sheet lies on this photograph's own floor, by its number."""
        return {sheet.number: self.floor.sheet_pose(i) for i, sheet in enumerate(self.sheets)}


@dataclass(frozen=True)
class JoinedFloors:
    """A floor for each photograph, all in one frame, and where each sheet lies in it.

    The columns of the floors' ``spread`` are the same independent errors.
    """

    floors: tuple[Floor, ...]
    sheets: dict[int, Pose]


def chained(seen: Sequence[dict[int, Pose]], corners_mm: Array) -> list[Pose | None]:
    """(x, y, turn) that brings each photograph's floor onto that of the first; None for those
    that no sheet joins to it.

    ``seen`` holds for each photograph where the sheets lie on its own floor, ``corners_mm``
    the corners of a sheet.
    """
    poses: list[Pose | None] = [(0.0, 0.0, 0.0), *([None] * (len(seen) - 1))]
    known = dict(seen[0])
    for _ in seen:
        for k, sheets in enumerate(seen):
            shared = [n for n in sheets if n in known]
            if poses[k] is None and shared:
                here = np.concatenate([lying(corners_mm, sheets[n]) for n in shared])
                there = np.concatenate([lying(corners_mm, known[n]) for n in shared])
                pose = pose_between(here, there)
                poses[k] = pose
                for n, at in sheets.items():
                    known.setdefault(n, after(at, pose))
    return poses


def lying(points: Array, pose: Pose) -> Array:
    """Points of a sheet where it lies."""
    return turned(points, pose[2]) + pose[:2]


def after(pose: Pose, moved: Pose) -> Pose:
    """A pose, moved by another."""
    x, y = turned(np.array([pose[:2]]), moved[2])[0] + moved[:2]
    return float(x), float(y), pose[2] + moved[2]


def backwards(pose: Pose) -> Pose:
    """The pose that undoes one."""
    x, y = turned(np.array([pose[:2]]), -pose[2])[0]
    return -float(x), -float(y), -pose[2]


def fit_together(
    views: Sequence[Photographed], poses: Sequence[Pose], scale: float = 1.0,
    straight: Sequence[Sequence[Straight]] = (),
) -> JoinedFloors:
    """The floors that explain the corners of all sheets best, in the frame of the very first.

    ``poses`` bring each photograph's own floor onto that of the first; ``straight`` are edges
    for each photograph that should be straight. Raises InvalidInput where a sheet was moved.
    """
    numbers = _sheets_at(views, poses)
    order = [n for n in numbers if n != views[0].sheets[0].number]
    problem = _Together(views, order, scale, straight or [()] * len(views))
    start = np.concatenate([
        *(brought(v.floor, pose).values for v, pose in zip(views, poses, strict=True)),
        *(numbers[n] for n in order)])
    values = least_squares(problem, start)
    spread = root_covariance(problem.slopes(values))
    floors = tuple(
        replace(view.floor, values=values[10 * k : 10 * k + 10],
                spread=spread[10 * k : 10 * k + 10], residual_px=problem.residual_px(k, values))
        for k, view in enumerate(views))
    first = {views[0].sheets[0].number: (0.0, 0.0, 0.0)}
    return JoinedFloors(floors, first | {n: problem.pose(n, values) for n in order})


def _sheets_at(views: Sequence[Photographed], poses: Sequence[Pose]) -> dict[int, Pose]:
    """Where each sheet lies by the first photograph that shows it; all others must agree."""
    found: dict[int, Pose] = {}
    for view, pose in zip(views, poses, strict=True):
        for number, own in view.poses().items():
            at = after(own, pose)
            there = found.setdefault(number, at)
            if np.hypot(at[0] - there[0], at[1] - there[1]) > MOVED_MM:
                raise InvalidInput("sheet_moved", number=number, field="photo")
    return found


def brought(floor: Floor, pose: Pose) -> Floor:
    """A photograph's floor, its points given in the frame that a pose brings it onto."""
    x, y, turn = backwards(pose)
    c, s = np.cos(turn), np.sin(turn)
    back = np.array([[c, -s, x], [s, c, y], [0, 0, 1]])
    both = matrix(floor.values) @ back
    values = np.append((both / both[2, 2]).ravel()[:8], floor.values[8:10])
    return replace(floor, values=values, spread=np.zeros((10, 0)))


@dataclass(frozen=True)
class _Together:
    """Least squares over the corners of every sheet in every photograph; ten values each."""

    views: Sequence[Photographed]
    order: Sequence[int]
    scale: float
    straight: Sequence[Sequence[Straight]]

    def pose(self, number: int, values: Array) -> Pose:
        """Where a sheet lies; the first one is the frame."""
        if number not in self.order:
            return 0.0, 0.0, 0.0
        at = 10 * len(self.views) + 3 * self.order.index(number)
        x, y, turn = values[at : at + 3]
        return float(x), float(y), float(turn)

    def misfit(self, values: Array) -> Array:
        """All differences, in standard deviations."""
        parts = [self._of_view(k, values) for k in range(len(self.views))]
        return np.concatenate([*parts, self._lenses(values)])

    def _lenses(self, values: Array) -> Array:
        """How the lens bends differently from picture to picture, and from other lenses."""
        bends = values[: 10 * len(self.views)].reshape(-1, 10)[:, 8:]
        sizes = [(v.floor.width_px, v.floor.height_px) for v in self.views]
        parts = []
        for size in sorted(set(sizes)):
            alike = bends[[k for k, other in enumerate(sizes) if other == size]]
            parts += [((alike - alike.mean(axis=0)) / SAME_LENS).ravel(),
                      alike.mean(axis=0) / BEND_PRIOR]
        return np.concatenate(parts)

    def _of_view(self, k: int, values: Array) -> Array:
        """The differences in one photograph: corners, and how far straight edges bow."""
        floor, mine = self.views[k].floor, values[10 * k : 10 * k + 10]
        noise = max(CORNER_NOISE_PX, floor.residual_px) / floor.radius_px
        parts = [self._corners(k, values) / noise]
        bows = np.array([
            bow(straightened(floor.unit(e.image_px), mine[8:10])) * floor.radius_px / e.error_px
            for e in self.straight[k]])
        # Cauchy's loss, as for one photograph: an edge that is truly curved is soon let go.
        return np.concatenate([*parts, np.sign(bows) * np.sqrt(np.log1p(bows**2))])

    def _corners(self, k: int, values: Array) -> Array:
        view, mine = self.views[k], values[10 * k : 10 * k + 10]
        parts = []
        for sheet in view.sheets:
            placed = lying(sheet.board_mm * self.scale, self.pose(sheet.number, values))
            seen = bent(through(matrix(mine), placed), mine[8:10])
            parts.append((seen - view.floor.unit(sheet.image_px)).ravel())
        return np.concatenate(parts)

    def residual_px(self, k: int, values: Array) -> float:
        """How far the corners of one photograph lie from where they should."""
        misfit = self._corners(k, values)
        return float(np.sqrt(np.mean(misfit**2))) * self.views[k].floor.radius_px

    @property
    def free(self) -> NDArray[np.bool_]:
        """All of them."""
        return np.ones(10 * len(self.views) + 3 * len(self.order), bool)

    def slopes(self, values: Array) -> Array:
        """The Jacobian, one column a value: each is looked at where it matters alone."""
        rows = np.cumsum([0, *(len(self._of_view(k, values)) for k in range(len(self.views)))])
        whole = np.zeros((rows[-1] + len(self._lenses(values)), len(values)))
        for k, view in enumerate(self.views):
            mine = [*range(10 * k, 10 * k + 10), *(
                10 * len(self.views) + 3 * self.order.index(sheet.number) + n
                for sheet in view.sheets if sheet.number in self.order for n in range(3))]

            def of_view(some: Array, k: int = k, mine: Sequence[int] = mine) -> Array:
                every = values.copy()
                every[mine] = some
                return self._of_view(k, every)

            whole[rows[k] : rows[k + 1], mine] = slopes(of_view, values[mine])
        whole[rows[-1] :] = slopes(self._lenses, values)
        return whole
