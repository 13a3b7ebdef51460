"""What is left of a cut, measured where it lies on the floor, in one or several photographs.

Photographs are joined by the calibration sheets that lie in more than one of them. The
arrow card on the cloth says where its grain runs; without it the longest axis is taken.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon, Polygon

from stash.errors import InvalidInput
from stash.eye.floor.find_sheets import SeenSheet, find_sheets
from stash.eye.floor.joined_floors import Pose, chained
from stash.eye.floor.seen_floor import Floor, fit_floor, turned
from stash.eye.floor.straightened import FloorPlan, paper_on_floor, straighten
from stash.eye.floor.upright import read_picture
from stash.eye.outlines.along_x import laid, onto_floor
from stash.eye.outlines.arrow import SeenArrow, find_arrow, without_card
from stash.eye.outlines.backdrop import Backdrop, backdrop
from stash.eye.outlines.measure import Traced, found_edges, measured
from stash.eye.outlines.selvedge import SelvedgeLine, selvedges
from stash.eye.outlines.straight import straight_edges
from stash.eye.outlines.trace import BOARD_CORNERS, paper_corners, printed_scale
from stash.model import Outline
from stash.model.calibration import BOARD
from stash.model.outline import Point

RIM_MM = 6.0  # within this of the edge of what was seen, an edge of cloth may go on
JOIN_MM = 3.0  # by which two photographs of one floor may disagree
ARROW_ERROR_DEG, AXIS_ERROR_DEG = 0.5, 5.0


@dataclass(frozen=True, kw_only=True)
class Remnant(Traced):
    """The cloth laid with its grain along x from (0, 0).

    ``grain`` is "arrow" or "longest": what said where the grain runs, within
    ``grain_error_deg`` besides how the card was laid. ``selvedges`` are straight edges along it.
    """

    grain: str
    grain_error_deg: float
    selvedges: tuple[SelvedgeLine, ...] = ()
    backdrop: Backdrop | None = None


@dataclass(frozen=True)
class _View:
    """One photograph: the cloth and the seen floor as polygons on its own floor, y down."""

    image: NDArray[np.uint8]
    floor: Floor
    cloth: Polygon
    seen: Polygon
    sheets: dict[int, Pose]
    arrow: SeenArrow | None
    error_mm: float


def trace_remnant(
    photos: bytes | Sequence[bytes], *, ruler_mm: float | None = None
) -> Remnant:
    """The largest shape of the photographs, holes included.

    Raises InvalidInput when no sheet joins the photographs, when nothing stands out from
    the floor, or when the cloth runs out of all that was photographed.
    """
    contents = [photos] if isinstance(photos, bytes) else list(photos)
    scale = printed_scale(ruler_mm, BOARD)
    views = [_view(data, scale, whole=len(contents) == 1) for data in contents]
    poses = _joined(views)
    cloth = _whole(views, poses) if len(views) > 1 else views[0].cloth
    arrow = next(((view.arrow.turn_deg + np.degrees(pose[2])) for view, pose in
                  zip(views, poses, strict=True) if view.arrow), None)
    upright = Outline(*_rings(cloth))
    turn = -arrow if arrow is not None else _long_axis_deg(upright)
    outline, corner = laid(upright, turn)
    shown = [
        (view.image, view.floor, onto_floor(turn, corner, pose))
        for view, pose in zip(views, poses, strict=True)
    ]
    return Remnant(
        outline=outline,
        error_mm=round(_error_mm(views, outline, by_card=arrow is not None), 1),
        grain="arrow" if arrow is not None else "longest",
        grain_error_deg=ARROW_ERROR_DEG if arrow is not None else AXIS_ERROR_DEG,
        selvedges=selvedges(outline) if arrow is not None else (),
        backdrop=backdrop(shown, (outline.length_mm, outline.width_mm)))


def _error_mm(views: Sequence[_View], outline: Outline, *, by_card: bool) -> float:
    """Two standard errors of its length along the grain.

    Each photograph brings its own, and where the card's direction is a little off, the other
    side of the cloth reaches into its length.
    """
    own = float(np.hypot.reduce([view.error_mm for view in views]))
    reach = outline.width_mm * np.sin(np.radians(ARROW_ERROR_DEG)) if by_card else 0.0
    return float(np.hypot(own, reach))


def _view(data: bytes, scale: float, *, whole: bool) -> _View:
    image = read_picture(data)
    grey = cv2.cvtColor(image, cv2.COLOR_BGR2GRAY)
    sheets = find_sheets(grey)
    size = image.shape[1], image.shape[0]
    floor = fit_floor(sheets, size, scale)
    plan = straighten(image, floor, paper_on_floor(floor, len(sheets), paper_corners(BOARD), scale))
    card = find_arrow(grey, floor)
    bare = plan if card is None else without_card(plan, card)
    edges, _notes = found_edges([(image, floor)], bare, whole=whole)
    lines = list(straight_edges(edges[0][0], floor)) if whole else []
    better = fit_floor(sheets, size, scale, lines)
    shape = measured(edges[0], floor, better)
    ring, holes = shape.outline.ring_mm, shape.outline.holes_mm
    cloth = Polygon([(x, -y) for x, y in ring], [[(x, -y) for x, y in hole] for hole in holes])
    return _View(image, better, cloth.buffer(0), _seen(plan), _poses_of(better, sheets),
                 find_arrow(grey, better), shape.error_mm)


def _seen(plan: FloorPlan) -> Polygon:
    """The floor in view, without the calibration sheets' own places taken out."""
    found, _ = cv2.findContours(plan.seen.astype(np.uint8), cv2.RETR_EXTERNAL,
                                cv2.CHAIN_APPROX_SIMPLE)
    largest = max(found, key=cv2.contourArea).reshape(-1, 2)
    return Polygon(plan.to_floor(largest)).buffer(0)


def _poses_of(floor: Floor, sheets: Sequence[SeenSheet]) -> dict[int, Pose]:
    return {sheet.number: floor.sheet_pose(i) for i, sheet in enumerate(sheets)}


def _joined(views: Sequence[_View]) -> list[Pose]:
    """(x, y, turn) that brings each photograph's floor onto that of the first."""
    poses = chained([view.sheets for view in views], BOARD_CORNERS)
    if any(pose is None for pose in poses):
        raise InvalidInput("photographs_not_joined", field="photo")
    return [pose for pose in poses if pose is not None]


def _whole(views: Sequence[_View], poses: Sequence[Pose]) -> Polygon:
    """All the cloth of all photographs as one shape, which none of it may run out of."""
    placed = [_moved(view.cloth, pose) for view, pose in zip(views, poses, strict=True)]
    seen = shapely.union_all(
        [_moved(view.seen, pose) for view, pose in zip(views, poses, strict=True)])
    cloth = shapely.union_all(placed).buffer(JOIN_MM, join_style="mitre").buffer(
        -JOIN_MM, join_style="mitre")
    if isinstance(cloth, MultiPolygon):
        cloth = max(cloth.geoms, key=lambda part: part.area)
    if not seen.buffer(-RIM_MM).contains(cloth):
        raise InvalidInput("remnant_runs_out", field="photo")
    simple = cloth.simplify(0.4)
    assert isinstance(simple, Polygon)  # keeping its topology, a polygon stays one
    return simple


def _moved(shape: Polygon, pose: Pose) -> Polygon:
    def move(points: NDArray[np.float64]) -> NDArray[np.float64]:
        return turned(points, pose[2]) + pose[:2]

    return shapely.transform(shape, move)


def _rings(cloth: Polygon) -> tuple[tuple[Point, ...], tuple[tuple[Point, ...], ...]]:
    """The rings as an outline has them: y upwards, not closed."""
    def ring(line: shapely.LinearRing) -> tuple[Point, ...]:
        return tuple((float(x), -float(y)) for x, y in line.coords[:-1])

    return ring(cloth.exterior), tuple(ring(hole) for hole in cloth.interiors)


def _long_axis_deg(outline: Outline) -> float:
    """The direction of the long side of the smallest rectangle around an outline."""
    around = shapely.minimum_rotated_rectangle(Polygon(outline.ring_mm))
    assert isinstance(around, Polygon)  # an outline has an area
    corners = np.array(around.exterior.coords)
    sides = np.diff(corners[:3], axis=0)
    across, up = sides[np.hypot(*sides.T).argmax()]
    return float(np.degrees(np.arctan2(up, across)))
