"""Photographs drawn by computation, so that what lies in them is known to the last millimetre.

A pinhole camera with radial lens bending (Brown's forward model, not the inverse one that
the tracing fits), a floor with texture, soft and hard shadows, uneven light, blur, noise and
JPEG. Floor coordinates are mm as seen from above, x to the right and y downwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import cos, radians, sin

import cv2
import numpy as np

from stash.model.arrow_card import ARROW
from stash.model.calibration import BOARD

FINE = 4  # finer again while the edge of a piece is drawn
PRINT = 8  # pixels per mm of a printed sheet
STRIP = 8
SHEET_TOP_MM = 15.0  # of the board on its paper
PAPER = (232, 236, 238)
A4_MM = (210.0, 297.0)


@dataclass(frozen=True, kw_only=True)
class Ink:
    """A line, a filled shape or a word drawn on paper; a word begins at the first point."""

    points: Sequence[tuple[float, float]]
    width_mm: float = 0.8
    grey: int = 70
    filled: bool = False
    word: str = ""
    letter_mm: float = 6.0


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What lies on the floor. Sheets are (x, y, turn_deg, number) of the board's upper left."""

    pieces: Sequence[Sequence[tuple[float, float]]]
    sheets: Sequence[tuple[float, float, float, int]] = ((0.0, 0.0, 0.0, 1),)
    cards: Sequence[tuple[float, float, float]] = ()  # arrow cards: (x, y, turn_deg)
    paper: tuple[int, int, int] = PAPER
    floor: tuple[int, int, int] = (62, 84, 112)
    planks: bool = True
    shadow: float = 0.0
    hard_shadow: bool = False
    writing: bool = False
    ink: Sequence[Ink] = ()
    window: tuple[float, float, float, float] = (-650.0, -600.0, 850.0, 850.0)
    seed: int = 1
    density: float = 3.5  # texels per mm


@dataclass(frozen=True, kw_only=True)
class Camera:
    """Where the camera is and how it sees. Tilt 0 looks straight down on ``target_mm``."""

    target_mm: tuple[float, float] = (200.0, 100.0)
    height_mm: float = 1300.0
    tilt_deg: float = 0.0
    towards_deg: float = 90.0
    roll_deg: float = 0.0
    size_px: tuple[int, int] = (4000, 3000)
    focal: float = 0.74  # of the picture's long side: a phone's main camera
    bend: tuple[float, float] = (0.0, 0.0)  # of the half diagonal
    blur_px: float = 0.8
    noise: float = 2.5
    quality: int = 90
    exposure: float = 1.0
    light_from: float = field(default=0.0)


def photograph(scene: Scene, camera: Camera) -> bytes:
    """The JPEG bytes of the scene as the camera takes it."""
    return photographs(scene, [camera])[0]


def photographs(scene: Scene, cameras: Sequence[Camera]) -> list[bytes]:
    """The same of several cameras, the floor drawn once; each has its own noise but the first."""
    texture = floor_texture(scene)
    return [taken(texture, scene, camera, scene.seed + 100 * n)
            for n, camera in enumerate(cameras)]


def taken(texture: np.ndarray, scene: Scene, camera: Camera, seed: int) -> bytes:
    """The JPEG bytes of a floor that was drawn, as the camera takes it."""
    picture = seen(blurred(texture, scene, camera), scene, camera)
    random = np.random.default_rng(seed)
    grains = random.standard_normal(picture.shape[:2], dtype=np.float32) * camera.noise
    lit = cv2.convertScaleAbs(picture, alpha=camera.exposure)
    flat = cv2.add(lit, cv2.merge([grains] * 3), dtype=cv2.CV_8U)
    return cv2.imencode(".jpg", flat, [cv2.IMWRITE_JPEG_QUALITY, camera.quality])[1].tobytes()


def blurred(texture: np.ndarray, scene: Scene, camera: Camera) -> np.ndarray:
    """The camera's blur, before it samples: a lens and a pixel average, they do not skip."""
    distance = camera.height_mm / cos(radians(camera.tilt_deg))
    px_per_mm = camera.focal * max(camera.size_px) / distance
    return cv2.GaussianBlur(texture, (0, 0), camera.blur_px * scene.density / px_per_mm)


def floor_texture(scene: Scene) -> np.ndarray:
    """The floor from above, with everything on it, at its density of texels per mm."""
    left, top, right, foot = scene.window
    width, height = int((right - left) * scene.density), int((foot - top) * scene.density)
    image = _planks(scene, width, height)
    for x, y, turn, number in scene.sheets:
        _lay_sheet(image, scene, (x, y, turn), number)
    for ring in scene.pieces:
        _lay_piece(image, scene, ring)
        if scene.writing:
            _write_on(image, ring, scene)
    for stroke in scene.ink:
        _draw(image, stroke, scene)
    for pose in scene.cards:
        _lay_print(image, scene, pose, card_image(), (0.0, 0.0))
    return _lit(image, scene)


def _planks(scene: Scene, width: int, height: int) -> np.ndarray:
    random = np.random.default_rng(scene.seed)
    strength = 14 if scene.planks else 4
    grain = random.normal(0, strength, (height // 8 + 1, width // 64 + 1)) + 128
    small = np.clip(grain, 0, 255).astype(np.uint8)
    noise = cv2.resize(small, (width, height), interpolation=cv2.INTER_CUBIC)
    table = np.arange(256)[:, None] - 128 + np.array(scene.floor)
    image = cv2.LUT(cv2.merge([noise] * 3), np.clip(table, 0, 255).astype(np.uint8)[None])
    if scene.planks:
        for y in range(int(60 * scene.density), height, int(120 * scene.density)):
            image[y : y + int(1.5 * scene.density)] //= 2
    return image


def _texels(points: Sequence[tuple[float, float]], scene: Scene, fine: int = 1) -> np.ndarray:
    """Points in 1/256 texel, where whole numbers are texel centres."""
    left, top = scene.window[:2]
    placed = (np.array(points, float) - (left, top)) * scene.density * fine - 0.5
    return np.round(placed * 256).astype(np.int32)


def _lay_piece(image: np.ndarray, scene: Scene, ring: Sequence[tuple[float, float]]) -> None:
    """A piece of paper with edges true to a tenth of a texel: drawn finely, then averaged."""
    low = np.floor((np.min(ring, axis=0) - scene.window[:2]) * scene.density).astype(int) - 2
    high = np.ceil((np.max(ring, axis=0) - scene.window[:2]) * scene.density).astype(int) + 2
    width, height = high - low
    mask = np.zeros((height * FINE, width * FINE), np.uint8)
    points = _texels(ring, scene, FINE) - low.astype(np.int32) * FINE * 256
    cv2.fillPoly(mask, [points], 255, cv2.LINE_8, shift=8)
    share = cv2.resize(mask, (int(width), int(height)), interpolation=cv2.INTER_AREA)
    _blend(image[low[1] : high[1], low[0] : high[0]], np.array(scene.paper, np.uint8), share)


def _blend(part: np.ndarray, colour: np.ndarray, share: np.ndarray) -> None:
    weight = share[..., None].astype(np.float32) / 255
    part[:] = (part * (1 - weight) + colour * weight + 0.5).astype(np.uint8)


def sheet_image(number: int) -> np.ndarray:
    """A printed A4 sheet at ``PRINT`` pixels a mm, grey."""
    width, height = (round(side * PRINT) for side in A4_MM)
    image = np.full((height, width), 241, np.uint8)
    left, top = round((A4_MM[0] - BOARD.width_mm) / 2 * PRINT), round(SHEET_TOP_MM * PRINT)
    side = round(BOARD.square_mm * PRINT)
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, BOARD.dictionary))
    size = round(BOARD.marker_mm * PRINT)
    for row in range(BOARD.rows):
        for column in range(BOARD.columns):
            if (row + column) % 2 == 0:
                y, x = top + row * side, left + column * side
                image[y : y + side, x : x + side] = 28
    for index in range(BOARD.markers_per_sheet):
        (x, y), *_ = BOARD.marker_corners(index)
        bits = words.generateImageMarker((number - 1) * BOARD.markers_per_sheet + index, size)
        at_y, at_x = top + round(y * PRINT), left + round(x * PRINT)
        image[at_y : at_y + size, at_x : at_x + size] = np.where(bits > 0, 241, 28)
    return image


def _lay_sheet(image: np.ndarray, scene: Scene, pose: tuple[float, float, float], n: int) -> None:
    """The printed sheet, its board's upper left corner at the pose."""
    corner = (A4_MM[0] - BOARD.width_mm) / 2, SHEET_TOP_MM
    _lay_print(image, scene, pose, sheet_image(n), corner)


def card_image() -> np.ndarray:
    """A printed arrow card at ``PRINT`` pixels a mm, grey."""
    image = np.full((round(ARROW.height_mm * PRINT), round(ARROW.width_mm * PRINT)), 241, np.uint8)
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, ARROW.dictionary))
    size = round(ARROW.marker_mm * PRINT)
    for index in range(ARROW.markers):
        (x, y), *_ = ARROW.marker_corners(index)
        bits = words.generateImageMarker(ARROW.first_id + index, size)
        at_y, at_x = round(y * PRINT), round(x * PRINT)
        image[at_y : at_y + size, at_x : at_x + size] = np.where(bits > 0, 241, 28)
    return image


def _lay_print(
    image: np.ndarray, scene: Scene, pose: tuple[float, float, float], printed: np.ndarray,
    corner_mm: tuple[float, float],
) -> None:
    """Something printed, the point ``corner_mm`` of it at the pose."""
    printed = cv2.GaussianBlur(printed, (0, 0), 0.4 * PRINT / scene.density)
    x, y, turn = pose
    c, s = cos(radians(turn)), sin(radians(turn))
    off_x, off_y = corner_mm
    spin = np.array([[c, -s], [s, c]])
    # sheet pixel -> board mm -> floor mm -> texel, whole numbers being centres throughout
    scale = scene.density / PRINT
    half = np.array([0.5, 0.5])
    shift = spin @ (half / PRINT - (off_x, off_y)) + (x, y) - np.array(scene.window[:2])
    affine = np.column_stack([spin * scale, shift * scene.density - half])
    size = image.shape[1], image.shape[0]
    warped = cv2.warpAffine(printed, affine, size, flags=cv2.INTER_LINEAR)
    share = cv2.warpAffine(np.full_like(printed, 255), affine, size, flags=cv2.INTER_LINEAR)
    rows, columns = np.nonzero(share.any(axis=1))[0], np.nonzero(share.any(axis=0))[0]
    box = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    _blend(image[box], cv2.merge([warped[box]] * 3), share[box])


def _draw(image: np.ndarray, stroke: Ink, scene: Scene) -> None:
    """One stroke of ink, as wide as a whole number of texels."""
    colour, spots = (stroke.grey,) * 3, _texels(stroke.points, scene)
    wide = max(1, round(stroke.width_mm * scene.density))
    if stroke.word:
        size = stroke.letter_mm * scene.density / 22
        at = tuple(map(int, spots[0] // 256))
        cv2.putText(image, stroke.word, at, 0, size, colour, max(1, round(wide / 2)), cv2.LINE_AA)
    elif stroke.filled:
        cv2.fillPoly(image, [spots], colour, cv2.LINE_AA, shift=8)
    else:
        cv2.polylines(image, [spots], False, colour, wide, cv2.LINE_AA, shift=8)


def _write_on(image: np.ndarray, ring: Sequence[tuple[float, float]], scene: Scene) -> None:
    """A pencilled stitching line 10 mm in, and a word."""
    middle = np.mean(np.array(ring), axis=0)
    inner = [tuple(middle + (np.array(p) - middle) * 0.9) for p in ring]
    cv2.polylines(image, [_texels(inner, scene)], True, (120, 110, 110), 3, cv2.LINE_AA, shift=8)
    at = _texels([(middle[0] - 45, middle[1])], scene)[0] // 256
    size = 0.55 * scene.density
    cv2.putText(image, "FRONT", tuple(map(int, at)), 0, size, (60, 60, 60), 5, cv2.LINE_AA)


def _lit(image: np.ndarray, scene: Scene) -> np.ndarray:
    """Shadows: a soft one across the floor, a hard-edged one over part of it."""
    if not scene.shadow and not scene.hard_shadow:
        return image
    height, width = image.shape[:2]
    small = np.ones((height // 16, width // 16), np.float32)
    if scene.shadow:
        ramp = np.linspace(1.0, 1.0 - scene.shadow, small.shape[1], dtype=np.float32)
        small *= ramp
        blob = np.zeros_like(small)
        cv2.circle(blob, (small.shape[1] // 2, small.shape[0] // 3), small.shape[1] // 5, 1.0, -1)
        small *= 1 - 0.6 * scene.shadow * cv2.GaussianBlur(blob, (0, 0), small.shape[1] / 20)
    light = cv2.resize(small, (width, height), interpolation=cv2.INTER_LINEAR)
    if scene.hard_shadow:
        corner = [(0.45 * width, 0), (width, 0), (width, 0.55 * height)]
        cast = np.ones((height // 4, width // 4), np.float32)
        cv2.fillPoly(cast, [np.array(corner).astype(np.int32) // 4], 0.55, cv2.LINE_AA)
        cast = cv2.GaussianBlur(cast, (0, 0), 4.0)
        light *= cv2.resize(cast, (width, height), interpolation=cv2.INTER_LINEAR)
    return cv2.multiply(image, cv2.merge([light] * 3), dtype=cv2.CV_8U)


def axes(camera: Camera) -> tuple[np.ndarray, np.ndarray]:
    """(camera position, rows right, down, forward) in mm, y up the picture, z off the floor."""
    tilt, towards, roll = (
        radians(camera.tilt_deg), radians(camera.towards_deg), radians(camera.roll_deg)
    )
    forward = np.array([sin(tilt) * cos(towards), sin(tilt) * sin(towards), -cos(tilt)])
    level = np.array([sin(towards), -cos(towards), 0.0])
    down = np.cross(forward, level)
    right = cos(roll) * level + sin(roll) * down
    down = -sin(roll) * level + cos(roll) * down
    distance = camera.height_mm / cos(tilt)
    position = np.array([camera.target_mm[0], -camera.target_mm[1], 0.0]) - forward * distance
    return position, np.array([right, down, forward])


def rays(pixels: np.ndarray, camera: Camera) -> tuple[np.ndarray, np.ndarray]:
    """(camera position, direction of the ray of each pixel), y up the picture, z off the floor."""
    width, height = camera.size_px
    radius = np.hypot(width, height) / 2
    seen_at = (pixels - (np.array([width, height]) - 1) / 2) / radius
    ideal = seen_at.copy()
    for _ in range(12):
        r2 = (ideal**2).sum(axis=1, keepdims=True)
        ideal = seen_at / (1 + camera.bend[0] * r2 + camera.bend[1] * r2**2)
    focal = camera.focal * max(width, height) / radius
    directions = np.concatenate([ideal, np.full((len(ideal), 1), focal)], axis=1)
    position, rows = axes(camera)
    return position, directions @ rows


def floor_points(pixels: np.ndarray, camera: Camera) -> np.ndarray:
    """Where the rays of the pixels meet the floor, shape (n, 2)."""
    position, directions = rays(pixels, camera)
    reach = -position[2] / directions[:, 2:]
    reach[directions[:, 2:] > -1e-6] = 1e9
    return (position + reach * directions)[:, :2] * (1, -1)


def seen(texture: np.ndarray, scene: Scene, camera: Camera) -> np.ndarray:
    """The texture through the camera, in strips to spare memory.

    Rays are traced for every eighth pixel and interpolated: perspective bends so slowly
    that this moves nothing by more than a thousandth of a millimetre.
    """
    width, height = camera.size_px
    columns = np.arange(0, width + STRIP, STRIP)
    picture = np.empty((height, width, 3), np.uint8)
    above = _texel_row(0, columns, scene, camera)
    for start in range(0, height, STRIP):
        below = _texel_row(start + STRIP, columns, scene, camera)
        share = (np.arange(STRIP) / STRIP)[:, None, None]
        spots = (above + share * (below - above)).astype(np.float32)[: height - start]
        picture[start : start + STRIP] = cv2.remap(
            texture, spots, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE
        )
        above = below
    return picture


def _texel_row(row: int, columns: np.ndarray, scene: Scene, camera: Camera) -> np.ndarray:
    """Where one row of pixels falls on the texture, shape (width, 2)."""
    pixels = np.stack([columns, np.full(len(columns), row)], axis=1).astype(float)
    spots = (floor_points(pixels, camera) - scene.window[:2]) * scene.density - 0.5
    spots = np.clip(spots, -9e3, 3e4)
    every = np.arange(camera.size_px[0])
    return np.stack([np.interp(every, columns, spots[:, k]) for k in (0, 1)], axis=1)
