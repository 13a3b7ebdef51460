"""Photographs of a poured tray, drawn by computation, so that every button's place is known.

Each button is a convex body (a cylinder between two planes, within a sphere where it is
domed) met by a ray for every quarter of a pixel, so parallax, side walls and what hides
what come out of the geometry. The floor, the lens and the camera are those of
``trace_photo``. Floor coordinates are mm, x to the right, y down the page, z off it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import cos, pi, radians, sin

import cv2
import numpy as np
from trace_photo import Camera, axes, floor_points, rays

from stash.model.calibration import INK_SHARES
from stash.model.tray import TRAY

DENSITY = 8  # texels per mm of the printed page
WINDOW = (-45.0, -45.0, 240.0, 330.0)
PAPER, INK = 0.80, 0.045  # reflectances of office paper and toner, common practice, no source
LIGHTS = 5


@dataclass(frozen=True, kw_only=True)
class Body:
    """One thing on the tray; ``turn`` brings its own frame (z its axis) into the tray's."""

    at_mm: tuple[float, float]
    radius_mm: float
    tall_mm: float = 2.5
    dome_mm: float | None = None  # radius of the sphere its top is part of
    turn: np.ndarray = field(default_factory=lambda: np.eye(3))
    colour: tuple[float, float, float] = (0.5, 0.5, 0.5)  # linear RGB reflectance
    clear: float = 0.0  # share of the ground that shows through
    gloss: float = 0.25
    holes: int = 4
    hole_mm: float = 1.0  # radius
    hollow_mm: float = 0.0  # inner radius of a ring
    lip: bool = True
    base_mm: float = 0.0
    seed: int = 0

    @property
    def lift_mm(self) -> float:
        """How far its own origin lies over the page, so that it just touches."""
        ring = np.array([(cos(a), sin(a), 0) for a in np.linspace(0, 2 * pi, 24, False)])
        return float(-(ring * self.radius_mm @ self.turn.T)[:, 2].min()) + self.base_mm


@dataclass(frozen=True, kw_only=True)
class Table:
    """Everything in the photograph but the camera."""

    bodies: Sequence[Body]
    wood: tuple[float, float, float] = (0.22, 0.12, 0.06)
    light: tuple[float, float, float] = (0.5, -0.4, 1.0)
    soft: float = 0.15  # spread of the light's directions
    ambient: float = 0.45
    warmth: tuple[float, float, float] = (1.0, 0.97, 0.92)
    exposure: float = 1.05
    shade: float = 0.0  # depth of a wide soft shadow over the page
    curl_mm: float = 0.0
    page: str = "tray"
    seed: int = 1


def photograph(table: Table, camera: Camera) -> bytes:
    """The JPEG bytes of the table as the camera takes it."""
    picture = _ground_seen(table, camera)
    position = axes(camera)[0] * (1, -1, 1)
    def away(body: Body) -> float:
        return -float(np.hypot(*(np.array(body.at_mm) - position[:2])) - 1e3 * body.base_mm)
    for body in sorted(table.bodies, key=away):
        _draw(picture, body, table, camera)
    picture = cv2.GaussianBlur(picture, (0, 0), camera.blur_px)
    srgb = np.where(picture <= 0.0031308, 12.92 * picture,
                    1.055 * np.maximum(picture, 1e-6) ** (1 / 2.4) - 0.055)
    random = np.random.default_rng(table.seed)
    grains = random.standard_normal(srgb.shape[:2], dtype=np.float32) * camera.noise
    flat = np.clip(srgb * 255 + grains[..., None] + 0.5, 0, 255).astype(np.uint8)
    return cv2.imencode(".jpg", flat[..., ::-1], [cv2.IMWRITE_JPEG_QUALITY, camera.quality])[
        1].tobytes()


def tray_page() -> np.ndarray:
    """The printed page at ``DENSITY`` texels a mm, as reflectance; its frame starts at the rim."""
    left, top, right, foot = -7.5, -12.0, 202.5, 285.0
    wide, high = round((right - left) * DENSITY), round((foot - top) * DENSITY)
    page = np.full((high, wide), PAPER, np.float32)
    words = cv2.aruco.getPredefinedDictionary(getattr(cv2.aruco, TRAY.dictionary))
    side = round(TRAY.marker_mm * DENSITY)
    for index in range(len(TRAY.rim)):
        (x, y), *_ = TRAY.marker_corners(index)
        at_x, at_y = round((x - left) * DENSITY), round((y - top) * DENSITY)
        bits = words.generateImageMarker(index, 7)
        big = cv2.resize(bits, (side, side), interpolation=cv2.INTER_NEAREST)
        page[at_y : at_y + side, at_x : at_x + side] = np.where(big > 0, PAPER, INK)
    for (x0, y0, x1, y1), ink in zip(TRAY.grey_boxes, INK_SHARES, strict=True):
        rows = slice(round((y0 - top) * DENSITY), round((y1 - top) * DENSITY))
        columns = slice(round((x0 - left) * DENSITY), round((x1 - left) * DENSITY))
        covered = ink + 4 * 0.16 * ink * (1 - ink)
        page[rows, columns] = PAPER * (1 - covered) + INK * covered
    x0, y0, x1, y1 = TRAY.check_mm
    square = round(TRAY.square_mm * DENSITY)
    rows, columns = round((y1 - y0) / TRAY.square_mm), round((x1 - x0) / TRAY.square_mm)
    check = (np.add.outer(np.arange(rows), np.arange(columns)) % 2 == 0)
    check = np.kron(check, np.ones((square, square), bool))
    at_x, at_y = round((x0 - left) * DENSITY), round((y0 - top) * DENSITY)
    page[at_y : at_y + check.shape[0], at_x : at_x + check.shape[1]] = np.where(check, INK, PAPER)
    return cv2.GaussianBlur(page, (0, 0), 0.08 * DENSITY)


def _ground(table: Table) -> np.ndarray:
    """The lit ground from above, linear RGB."""
    left, top, right, foot = WINDOW
    wide, high = int((right - left) * DENSITY), int((foot - top) * DENSITY)
    random = np.random.default_rng(table.seed)
    grain = random.normal(1, 0.18, (high // 6, wide // 90)).astype(np.float32)
    grain = cv2.resize(grain, (wide, high), interpolation=cv2.INTER_CUBIC)
    if table.page == "tray":
        ground = np.clip(grain, 0.3, 2)[..., None] * np.array(table.wood, np.float32)
        page = tray_page()
        at_x, at_y = round((-7.5 - left) * DENSITY), round((-12.0 - top) * DENSITY)
        ground[at_y : at_y + page.shape[0], at_x : at_x + page.shape[1]] = page[..., None]
    else:
        raise ValueError(table.page)
    light = _light_on_page(table)
    light = cv2.resize(light, (wide, high), interpolation=cv2.INTER_LINEAR)
    return ground * light[..., None] * np.array(table.warmth, np.float32) * table.exposure


def _directions(table: Table) -> np.ndarray:
    random = np.random.default_rng(7)
    spread = random.normal(0, table.soft, (LIGHTS, 3)) * (1, 1, 0)
    toward = np.array(table.light) + spread
    return toward / np.linalg.norm(toward, axis=1, keepdims=True)


def _light_on_page(table: Table, cell: float = 0.5) -> np.ndarray:
    """How much light each half millimetre of the ground gets: shadows of all bodies, shade."""
    left, top, right, foot = WINDOW
    wide, high = int((right - left) / cell), int((foot - top) / cell)
    xs, ys = left + (np.arange(wide) + 0.5) * cell, top + (np.arange(high) + 0.5) * cell
    direct = np.ones((high, wide), np.float32)
    sky = np.ones((high, wide), np.float32)
    for body in table.bodies:
        reach = body.radius_mm + 2 * body.tall_mm + body.lift_mm * 2 + 6
        c0, r0 = (int((body.at_mm[k] - reach - WINDOW[k]) / cell) for k in (0, 1))
        c1, r1 = (int((body.at_mm[k] + reach - WINDOW[k]) / cell) + 1 for k in (0, 1))
        c0, r0, c1, r1 = max(c0, 0), max(r0, 0), min(c1, wide), min(r1, high)
        gx, gy = np.meshgrid(xs[c0:c1], ys[r0:r1])
        spots = np.stack([gx.ravel(), gy.ravel(), np.zeros(gx.size)], axis=1)
        hidden = np.zeros(len(spots))
        for toward in _directions(table):
            near, far, _ = _met(body, spots, np.broadcast_to(toward, spots.shape))
            hidden += (near < far) & (far > 0)
        share = (hidden / LIGHTS).reshape(gx.shape) * (1 - 0.7 * body.clear)
        part = direct[r0:r1, c0:c1]
        part[:] = np.minimum(part, 1 - share)
        gap = np.hypot(gx - body.at_mm[0], gy - body.at_mm[1]) - body.radius_mm
        near = np.exp(-np.maximum(gap, 0) / max(0.5 * body.tall_mm, 0.3))
        sky[r0:r1, c0:c1] *= 1 - 0.45 * near * (1 - 0.7 * body.clear)
    light = table.ambient * sky + (1 - table.ambient) * direct
    if table.shade:
        gx, gy = np.meshgrid(np.linspace(0, 1, wide), np.linspace(0, 1, high))
        edge = 1 / (1 + np.exp(-(gx * 0.8 + gy - 0.9) / 0.06))
        light *= 1 - table.shade * edge
    return light.astype(np.float32)


def _ground_seen(table: Table, camera: Camera) -> np.ndarray:
    """The ground through the camera, the page curling where it is not flat."""
    ground = _ground(table)
    position = axes(camera)[0]
    px_per_mm = camera.focal * max(camera.size_px) / np.linalg.norm(position - (100, -125, 0))
    ground = cv2.GaussianBlur(ground, (0, 0), max(0.35 * DENSITY / px_per_mm, 0.3))
    width, height = camera.size_px
    step = 8
    columns, rows = np.arange(0, width + step, step), np.arange(0, height + step, step)
    cx, cy = np.meshgrid(columns, rows)
    pixels = np.stack([cx.ravel(), cy.ravel()], axis=1).astype(float)
    spots = floor_points(pixels, camera)
    if table.curl_mm:
        _, toward = rays(pixels, camera)
        z = table.curl_mm * np.sin(pi * np.clip(spots[:, :1] / TRAY.width_mm, 0, 1))
        z = z * (spots[:, 1:] > -12) * (spots[:, 1:] < 285)
        spots = spots + z * toward[:, :2] * (1, -1) / toward[:, 2:]
    texels = ((spots - WINDOW[:2]) * DENSITY - 0.5).reshape(*cx.shape, 2).astype(np.float32)
    full = cv2.resize(texels, (cx.shape[1] * step, cx.shape[0] * step),
                      interpolation=cv2.INTER_LINEAR)
    # resize lines up centres of cells: the grid's corner k*step lies at k*step + (step-1)/2
    shift = (step - 1) / 2
    affine = np.array([[1, 0, -shift], [0, 1, -shift]], np.float32)
    full = cv2.warpAffine(full, affine, (width, height), flags=cv2.INTER_LINEAR)
    return cv2.remap(ground, full, None, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)


def _met(body: Body, origin: np.ndarray, toward: np.ndarray):
    """(where each ray enters, where it leaves, which surface: 0 side, 1 foot or top, 2 dome)."""
    lift = np.array([*body.at_mm, body.lift_mm])
    o, d = (origin - lift) @ body.turn, toward @ body.turn
    a = (d[:, :2] ** 2).sum(axis=1) + 1e-12
    b = (o[:, :2] * d[:, :2]).sum(axis=1)
    c = (o[:, :2] ** 2).sum(axis=1) - body.radius_mm**2
    root = np.sqrt(np.maximum(b * b - a * c, 0))
    out = b * b < a * c
    near, far = np.where(out, np.inf, (-b - root) / a), np.where(out, -np.inf, (-b + root) / a)
    surface = np.zeros(len(o), int)
    dz = np.where(np.abs(d[:, 2]) < 1e-9, 1e-9, d[:, 2])
    low, high = sorted_pair(-o[:, 2] / dz, (body.tall_mm - o[:, 2]) / dz)
    surface[low > near] = 1
    near, far = np.maximum(near, low), np.minimum(far, high)
    if body.dome_mm:
        centre = np.array([0, 0, body.tall_mm - body.dome_mm])
        p = o - centre
        a, b = (d**2).sum(axis=1), (p * d).sum(axis=1)
        c = (p**2).sum(axis=1) - body.dome_mm**2
        root = np.sqrt(np.maximum(b * b - a * c, 0))
        out = b * b < a * c
        enter = np.where(out, np.inf, (-b - root) / a)
        surface[enter > near] = 2
        near, far = np.maximum(near, enter), np.minimum(
            far, np.where(out, -np.inf, (-b + root) / a))
    return near, far, surface


def sorted_pair(one: np.ndarray, other: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The lesser and the greater of two arrays, element by element."""
    return np.minimum(one, other), np.maximum(one, other)


def projected(points: np.ndarray, camera: Camera) -> np.ndarray:
    """Pixels of points (n, 3) in the tray's frame."""
    position, rows = axes(camera)
    local = (points * (1, -1, 1) - position) @ rows.T
    width, height = camera.size_px
    radius = np.hypot(width, height) / 2
    ideal = local[:, :2] / local[:, 2:] * camera.focal * max(width, height) / radius
    r2 = (ideal**2).sum(axis=1, keepdims=True)
    seen = ideal * (1 + camera.bend[0] * r2 + camera.bend[1] * r2**2)
    return seen * radius + (np.array([width, height]) - 1) / 2


def _draw(picture: np.ndarray, body: Body, table: Table, camera: Camera) -> None:
    """One body over what is there already; four rays a pixel."""
    r, tall = body.radius_mm, body.tall_mm
    box = np.array([(x, y, z) for x in (-r, r) for y in (-r, r) for z in (0, tall)])
    corners = box @ body.turn.T + (*body.at_mm, body.lift_mm)
    pixels = projected(corners, camera)
    height, width = picture.shape[:2]
    x0, y0 = np.maximum(np.floor(pixels.min(axis=0)).astype(int) - 2, 0)
    x1, y1 = np.minimum(np.ceil(pixels.max(axis=0)).astype(int) + 3, (width, height))
    if x0 >= x1 or y0 >= y1:
        return
    xs = x0 + (np.arange(2 * (x1 - x0)) + 0.5) / 2 - 0.5
    ys = y0 + (np.arange(2 * (y1 - y0)) + 0.5) / 2 - 0.5
    gx, gy = np.meshgrid(xs, ys)
    position, toward = rays(np.stack([gx.ravel(), gy.ravel()], axis=1), camera)
    position, toward = position * (1, -1, 1), toward * (1, -1, 1)
    toward = toward / np.linalg.norm(toward, axis=1, keepdims=True)
    origin = np.broadcast_to(position, toward.shape)
    near, far, surface = _met(body, origin, toward)
    hit = near < far
    colour, through = _shaded(body, table, origin, toward, near, surface)
    share = (hit & ~through).astype(np.float32) * (1 - body.clear)
    share = np.where(hit & ~through & (surface == 0), np.maximum(share, 0.6 * (hit > 0)), share)
    share = share.reshape(gx.shape)
    colour = colour.reshape(*gx.shape, 3)
    small = (x1 - x0, y1 - y0)
    alpha = cv2.resize(share, small, interpolation=cv2.INTER_AREA)[..., None]
    paint = cv2.resize((colour * share[..., None]).astype(np.float32), small,
                       interpolation=cv2.INTER_AREA)
    part = picture[y0:y1, x0:x1]
    part[:] = part * (1 - alpha) + paint


def _shaded(body, table, origin, toward, near, surface):
    """(linear RGB where each ray meets the body, whether it goes through a hole)."""
    t = np.where(np.isfinite(near), near, 0)
    lift = np.array([*body.at_mm, body.lift_mm])
    local = (origin + t[:, None] * toward - lift) @ body.turn
    reach = np.hypot(local[:, 0], local[:, 1])
    normal = np.zeros_like(local)
    side = surface == 0
    normal[side, :2] = local[side, :2] / body.radius_mm
    up = np.sign(-(toward @ body.turn)[:, 2])
    normal[surface == 1, 2] = up[surface == 1]
    if body.dome_mm:
        dome = surface == 2
        normal[dome] = (local[dome] - (0, 0, body.tall_mm - body.dome_mm)) / body.dome_mm
    if body.lip:
        on = (surface == 1) & (np.abs(reach / body.radius_mm - 0.78) < 0.06)
        normal[on, :2] -= 0.7 * local[on, :2] / np.maximum(reach[on, None], 1e-6)
        rim = (surface == 1) & (reach > 0.93 * body.radius_mm)
        normal[rim, :2] += 0.6 * local[rim, :2] / np.maximum(reach[rim, None], 1e-6)
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-9)
    world = normal @ body.turn.T
    light = np.array(table.light) / np.linalg.norm(table.light)
    diffuse = table.ambient * (0.75 + 0.25 * world[:, 2]) + (1 - table.ambient) * np.maximum(
        world @ light, 0)
    half = light - toward
    half /= np.linalg.norm(half, axis=1, keepdims=True)
    shine = body.gloss * np.maximum((world * half).sum(axis=1), 0) ** 40
    random = np.random.default_rng(body.seed)
    waves = random.normal(0, 0.5, (3, 2))
    cloud = 1 + 0.05 * np.sin(local[:, :2] @ waves.T + random.uniform(0, 6, 3)).sum(axis=1)
    colour = np.array(body.colour) * (diffuse * cloud)[:, None] + shine[:, None]
    colour = colour * np.array(table.warmth) * table.exposure
    through = np.zeros(len(local), bool)
    if body.holes:
        angles = 2 * pi * np.arange(body.holes) / body.holes + body.seed
        for a in angles:
            off = 1.9 * body.hole_mm
            inside = np.hypot(local[:, 0] - off * cos(a), local[:, 1] - off * sin(a)) < body.hole_mm
            colour[inside & (surface > 0)] *= 0.12
    if body.hollow_mm:
        through = reach < body.hollow_mm
    return colour, through


def tilted(towards_deg: float, tilt_deg: float) -> np.ndarray:
    """A turn of a body's axis away from upright."""
    a, t = radians(towards_deg), radians(tilt_deg)
    axis = np.array([-sin(a), cos(a), 0])
    k = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
    return np.eye(3) + sin(t) * k + (1 - cos(t)) * (k @ k)
