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

from stash.model.calibration import BOARD

DENSITY = 4.0  # floor texels per mm
PAPER = (232, 236, 238)
A4_MM = (210.0, 297.0)


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What lies on the floor. Sheets are (x, y, turn_deg, number) of the board's upper left."""

    pieces: Sequence[Sequence[tuple[float, float]]]
    sheets: Sequence[tuple[float, float, float, int]] = ((0.0, 0.0, 0.0, 1),)
    paper: tuple[int, int, int] = PAPER
    floor: tuple[int, int, int] = (62, 84, 112)
    planks: bool = True
    shadow: float = 0.0
    hard_shadow: bool = False
    writing: bool = False
    window: tuple[float, float, float, float] = (-700.0, -700.0, 1100.0, 900.0)
    seed: int = 1


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
    light_from: float = field(default=0.0)


def photograph(scene: Scene, camera: Camera) -> bytes:
    """The JPEG bytes of the scene as the camera takes it."""
    texture = floor_texture(scene)
    picture = seen(texture, scene, camera)
    picture = cv2.GaussianBlur(picture, (0, 0), camera.blur_px)
    random = np.random.default_rng(scene.seed)
    grains = random.standard_normal(picture.shape[:2], dtype=np.float32) * camera.noise
    noisy = picture.astype(np.float32) + grains[..., None]
    flat = np.clip(noisy, 0, 255).astype(np.uint8)
    return cv2.imencode(".jpg", flat, [cv2.IMWRITE_JPEG_QUALITY, camera.quality])[1].tobytes()


def floor_texture(scene: Scene) -> np.ndarray:
    """The floor from above, with everything on it, at ``DENSITY`` texels per mm."""
    left, top, right, foot = scene.window
    width, height = int((right - left) * DENSITY), int((foot - top) * DENSITY)
    image = _planks(scene, width, height)
    for x, y, turn, number in scene.sheets:
        _lay_sheet(image, scene, (x, y, turn), number)
    for ring in scene.pieces:
        cv2.fillPoly(image, [_texels(ring, scene)], scene.paper, cv2.LINE_AA, shift=8)
        if scene.writing:
            _write_on(image, ring, scene)
    return _lit(image, scene)


def _planks(scene: Scene, width: int, height: int) -> np.ndarray:
    random = np.random.default_rng(scene.seed)
    grain = random.normal(0, 1, (height // 8 + 1, width // 64 + 1)).astype(np.float32)
    noise = cv2.resize(grain, (width, height), interpolation=cv2.INTER_CUBIC)
    strength = 14 if scene.planks else 4
    image = np.clip(np.array(scene.floor, np.float32) + strength * noise[..., None], 0, 255)
    if scene.planks:
        for y in range(0, height, int(120 * DENSITY)):
            image[y : y + int(1.5 * DENSITY)] *= 0.55
    return image.astype(np.uint8)


def _texels(ring: Sequence[tuple[float, float]], scene: Scene) -> np.ndarray:
    """Points in 1/256 texel, where whole numbers are texel centres."""
    left, top = scene.window[:2]
    points = (np.array(ring, float) - (left, top)) * DENSITY - 0.5
    return np.round(points * 256).astype(np.int32)


def _lay_sheet(image: np.ndarray, scene: Scene, pose: tuple[float, float, float], n: int) -> None:
    margin_x, margin_y = (A4_MM[0] - BOARD.width_mm) / 2, 15.0
    paper = [(-margin_x, -margin_y), (A4_MM[0] - margin_x, -margin_y)]
    paper += [(A4_MM[0] - margin_x, A4_MM[1] - margin_y), (-margin_x, A4_MM[1] - margin_y)]

    def place(points: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
        x, y, turn = pose
        c, s = cos(radians(turn)), sin(radians(turn))
        return [(x + px * c - py * s, y + px * s + py * c) for px, py in points]

    def fill(points: Sequence[tuple[float, float]], colour: tuple[int, int, int]) -> None:
        cv2.fillPoly(image, [_texels(place(points), scene)], colour, cv2.LINE_AA, shift=8)

    fill(paper, (240, 242, 243))
    black, side = (28, 28, 28), BOARD.square_mm
    for row in range(BOARD.rows):
        for column in range(BOARD.columns):
            if (row + column) % 2 == 0:
                x, y = column * side, row * side
                fill([(x, y), (x + side, y), (x + side, y + side), (x, y + side)], black)
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, BOARD.dictionary))
    for index in range(BOARD.markers_per_sheet):
        corners = BOARD.marker_corners(index)
        bits = words.generateImageMarker((n - 1) * BOARD.markers_per_sheet + index, 6)
        cell = BOARD.marker_mm / 6
        for r, c in zip(*np.nonzero(bits == 0), strict=True):
            x, y = corners[0][0] + c * cell, corners[0][1] + r * cell
            fill([(x, y), (x + cell, y), (x + cell, y + cell), (x, y + cell)], black)


def _write_on(image: np.ndarray, ring: Sequence[tuple[float, float]], scene: Scene) -> None:
    """A pencilled stitching line 10 mm in, and a word."""
    middle = np.mean(np.array(ring), axis=0)
    inner = [tuple(middle + (np.array(p) - middle) * 0.9) for p in ring]
    cv2.polylines(image, [_texels(inner, scene)], True, (120, 110, 110), 3, cv2.LINE_AA, shift=8)
    at = _texels([tuple(middle)], scene)[0] // 256
    cv2.putText(image, "FRONT", tuple(int(v) for v in at), 0, 4, (60, 60, 60), 10, cv2.LINE_AA)


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
    return np.clip(image * light[..., None], 0, 255).astype(np.uint8)


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


def floor_points(pixels: np.ndarray, camera: Camera) -> np.ndarray:
    """Where the rays of the pixels meet the floor, shape (n, 2)."""
    width, height = camera.size_px
    radius = np.hypot(width, height) / 2
    seen_at = (pixels - (np.array([width, height]) - 1) / 2) / radius
    ideal = seen_at.copy()
    for _ in range(12):
        r2 = (ideal**2).sum(axis=1, keepdims=True)
        ideal = seen_at / (1 + camera.bend[0] * r2 + camera.bend[1] * r2**2)
    focal = camera.focal * max(width, height) / radius
    rays = np.concatenate([ideal, np.full((len(ideal), 1), focal)], axis=1)
    position, rows = axes(camera)
    rays = rays @ rows
    reach = -position[2] / rays[:, 2:]
    reach[rays[:, 2:] > -1e-6] = 1e9
    return (position + reach * rays)[:, :2] * (1, -1)


def seen(texture: np.ndarray, scene: Scene, camera: Camera) -> np.ndarray:
    """The texture through the camera, in strips to spare memory."""
    width, height = camera.size_px
    left, top = scene.window[:2]
    picture = np.empty((height, width, 3), np.uint8)
    columns = np.arange(width)
    for start in range(0, height, 250):
        rows = np.arange(start, min(height, start + 250))
        grid = np.stack(np.meshgrid(columns, rows), axis=-1).reshape(-1, 2).astype(float)
        spots = ((floor_points(grid, camera) - (left, top)) * DENSITY - 0.5).astype(np.float32)
        spots = np.clip(spots, -9e3, 3e4).reshape(len(rows), width, 2)
        picture[rows] = cv2.remap(
            texture, spots, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REFLECT_101
        )
    return picture
