"""Camera frames of labels, made badly on purpose: one knob for each thing that goes wrong.

Every frame is synthetic and follows from its seed. ``ppm`` is camera pixels a module; blur
and motion are in modules, noise in grey levels of 255, angles in degrees. Severities are
chosen to run from easy to impossible; no published distribution of workroom photographs
is known to us.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from random import Random

import cv2
import numpy as np

from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from stash.model import Code

FRAME = (480, 360)
FINE = 8
"""Pixels a module in the flat drawing that the camera looks at."""
ADDRESS = "heron.local:5000"


@dataclass(frozen=True, kw_only=True)
class Scene:
    """What the camera meets; the defaults are an easy label."""

    ppm: float = 3.5
    tilt_deg: float = 0.0
    arc_deg: float = 0.0
    crease_deg: float = 0.0
    blur: float = 0.12
    motion: float = 0.0
    noise: float = 2.0
    light: float = 1.0
    contrast: float = 1.0
    shadow: float = 0.0
    glare: float = 0.0
    thread: float = 0.0
    pin: float = 0.0
    finder: float = 0.0
    tape: float = 0.0
    stock: tuple[tuple[int, int, int], tuple[int, int, int]] | None = None
    jpeg: int = 0
    label: bool = True


def _family(knob: str, *values, **also) -> tuple[Scene, ...]:
    return tuple(Scene(**{knob: value, **also}) for value in values)


# Ink and paper of coloured stock, BGR: black on five papers, then white and grey inks.
STOCKS = (
    ((20, 20, 20), (150, 220, 250)), ((20, 20, 20), (120, 160, 90)), ((20, 20, 20), (60, 60, 200)),
    ((20, 20, 20), (90, 40, 30)), ((110, 60, 30), (240, 240, 240)), ((90, 90, 90), (190, 200, 210)),
    ((235, 235, 235), (70, 50, 30)), ((30, 30, 160), (210, 220, 235)),
)

FAMILIES: dict[str, tuple[Scene, ...]] = {
    "1.5-6 pixels a module": _family("ppm", 1.5, 1.75, 2.0, 2.5, 3.0, 4.0, 6.0),
    "tilt 15-60": _family("tilt_deg", 15, 30, 40, 50, 60),
    "bend 30-150 arc": _family("arc_deg", 30, 60, 90, 120, 150),
    "crease": _family("crease_deg", 15, 30, 45, 60),
    "blur": _family("blur", 0.3, 0.4, 0.5, 0.6, 0.7),
    "motion": _family("motion", 0.5, 1.0, 1.5, 2.0, 2.5),
    "noise": _family("noise", 15, 30, 45, 60),
    "dark": _family("light", 0.3, 0.15, 0.08, 0.05),
    "contrast": _family("contrast", 0.7, 0.4, 0.25, 0.12),
    "hard shadow": _family("shadow", 0.5, 0.7, 0.85, 0.93),
    "glare": _family("glare", 0.1, 0.2, 0.3, 0.4),
    "thread": _family("thread", 0.6, 1.0, 1.6, 2.2),
    "pin": _family("pin", 0.8, 1.4, 2.0),
    "finder damaged": _family("finder", 0.15, 0.3, 0.5),
    "tape": _family("tape", 0.03, 0.06, 0.1, 0.15, 0.2),
    "coloured stock": _family("stock", *STOCKS),
    "JPEG 8-60": _family("jpeg", 60, 30, 15, 8),
}
BLANKS: tuple[Scene, ...] = tuple(
    Scene(label=False, noise=noise, light=light) for noise in (2, 20, 50) for light in (1.0, 0.2)
)


def frame(scene: Scene, seed: int) -> tuple[np.ndarray, str | None]:
    """(BGR picture of 480 x 360, the code on its label or None)."""
    rng = np.random.default_rng(seed)
    code = Code.draw(Random(seed)).text if scene.label else None
    drawing, side = _drawing(code, scene, rng)
    seen = _seen(drawing, side, scene, rng)
    return _sensor(_lit(seen, scene, rng), scene, rng), code


def with_ppm(scene: Scene, ppm: float) -> Scene:
    """The same trouble from another distance."""
    return replace(scene, ppm=ppm)


def variants(image: np.ndarray, seed: int) -> list[np.ndarray]:
    """Eight different pictures of one frame: much cheaper than eight frames.

    As it is, turned and noisier, blurred, hard JPEG, pale and noisy, coarser, smeared, dim.
    """
    rng = np.random.default_rng(seed)
    coarse = cv2.resize(image, None, fx=0.6, fy=0.6, interpolation=cv2.INTER_AREA)
    hard = cv2.imencode(".jpg", image, [cv2.IMWRITE_JPEG_QUALITY, int(rng.integers(5, 25))])[1]
    return [
        image,
        _noisy(cv2.rotate(image, cv2.ROTATE_90_CLOCKWISE), 20, rng),
        cv2.GaussianBlur(image, (0, 0), rng.uniform(0.8, 2.0)),
        cv2.imdecode(hard, cv2.IMREAD_COLOR),
        _noisy(cv2.convertScaleAbs(image, alpha=0.35, beta=90), 10, rng),
        cv2.resize(coarse, image.shape[1::-1], interpolation=cv2.INTER_CUBIC),
        cv2.filter2D(image, -1, _smear(rng.uniform(2, 7), rng)),
        _noisy(cv2.convertScaleAbs(image, alpha=0.15), 4, rng),
    ]


def _noisy(image: np.ndarray, strength: float, rng) -> np.ndarray:
    noise = np.empty(image.shape[:2], np.int16)
    cv2.randn(noise, 0, strength)
    return np.clip(image + noise[..., None], 0, 255).astype(np.uint8)


def _drawing(code: str | None, scene: Scene, rng) -> tuple[np.ndarray, int]:
    """The flat label, reflectance 0 to 1, and its symbol's side in modules with quiet zone."""
    if code is None:
        return _cloth(rng, (37 * FINE, 60 * FINE)), 37
    made = symbol(compose(code, ADDRESS))
    paper = np.full((made.side * FINE, int(made.side * 1.7) * FINE), 255, np.uint8)
    for n, text in enumerate((code, "linen 138 cm", "2.40 m")):
        at = (made.side * FINE + 8, 60 + 60 * n)
        cv2.putText(paper, text, at, cv2.FONT_HERSHEY_SIMPLEX, 1.1, 0, 3)
    card = (paper / 255).astype(np.float32)
    ink = np.kron(~np.pad(made.modules, QUIET_MODULES), np.ones((FINE, FINE)))
    card[:, : ink.shape[1]] = ink
    _damage(card, made.side, scene, rng)
    return 0.05 + 0.9 * (0.5 + (card - 0.5) * scene.contrast), made.side


def _damage(card: np.ndarray, side: int, scene: Scene, rng) -> None:
    whole = side * FINE
    if scene.thread:
        _thread(card, whole, scene.thread, rng)
    if scene.pin:
        start, angle = rng.uniform(0.2, 0.8, 2) * whole, rng.uniform(0, np.pi)
        reach = np.array([np.cos(angle), np.sin(angle)]) * whole * 0.6
        a, b = (tuple(int(v) for v in start + s * reach) for s in (-1, 1))
        cv2.line(card, a, b, 0.62, max(1, int(scene.pin * FINE)))
        cv2.line(card, a, b, 0.95, max(1, int(scene.pin * FINE / 3)))
    if scene.finder:
        corner = rng.integers(3)
        x, y = ((4, 4), (side - 11, 4), (4, side - 11))[corner]
        size = 7 * np.sqrt(scene.finder)
        x0, y0 = x + rng.uniform(0, 7 - size), y + rng.uniform(0, 7 - size)
        box = [int(v * FINE) for v in (x0, y0, x0 + size, y0 + size)]
        card[box[1] : box[3], box[0] : box[2]] = rng.choice([0.0, 0.5, 1.0])
    if scene.tape:
        area = scene.tape * (side - 8) ** 2
        wide = np.sqrt(area * rng.uniform(0.5, 2))
        x0, y0 = rng.uniform(4, side - 4, 2) - np.array([wide, area / wide]) / 2
        box = [max(0, int(v * FINE)) for v in (x0, y0, x0 + wide, y0 + area / wide)]
        card[box[1] : box[3], box[0] : box[2]] = rng.choice([0.15, 0.5, 0.85])


def _thread(card: np.ndarray, whole: int, thick: float, rng) -> None:
    along = np.linspace(0, whole, 40)
    wave = rng.uniform(0.1, 0.9) * whole + rng.uniform(4, 25) * np.sin(
        along / whole * rng.uniform(2, 9) + rng.uniform(0, 6)
    ) + (along - whole / 2) * rng.uniform(-0.7, 0.7)
    points = np.stack([along, wave] if rng.random() < 0.5 else [wave, along], axis=1)
    cv2.polylines(
        card, [points.astype(np.int32)], False, float(rng.choice([0.1, 0.4, 0.75])),
        max(1, int(thick * FINE)),
    )


def _cloth(rng, shape: tuple[int, int]) -> np.ndarray:
    """A weave: two waves at right angles with coarse blotches."""
    rows, columns = np.mgrid[: shape[0], : shape[1]].astype(np.float32)
    pitch = rng.uniform(3, 9)
    weave = np.sin(rows * 2 * np.pi / pitch) * np.sin(columns * 2 * np.pi / pitch)
    blotch = cv2.resize(
        rng.random((6, 8), dtype=np.float32), shape[::-1], interpolation=cv2.INTER_CUBIC
    )
    return (0.35 + 0.12 * weave + 0.3 * blotch).astype(np.float32).clip(0, 1)


def _seen(drawing: np.ndarray, side: int, scene: Scene, rng) -> np.ndarray:
    """The drawing as the camera's lens throws it, twice as fine as the sensor, on cloth."""
    width, height = FRAME[0] * 2, FRAME[1] * 2
    rows, columns = np.mgrid[:height, :width].astype(np.float32)
    wander = rng.uniform(-0.06, 0.06, 2) * (width, height)
    scale = 2 * scene.ppm
    turn = rng.uniform(0, 2 * np.pi)
    x, y = (columns - width / 2 - wander[0]) / scale, (rows - height / 2 - wander[1]) / scale
    x, y = _turned(x, y, turn)
    x, y, seen = _folded(*_tilted(x, y, side, scene, rng), side, scene, rng)
    in_x, in_y = (x + side / 2) * FINE, (y + side / 2) * FINE
    shrink = max(1.0, FINE / scale)
    fine = cv2.GaussianBlur(drawing, (0, 0), 0.45 * shrink) if shrink > 1.2 else drawing
    label = cv2.remap(
        fine, in_x.astype(np.float32), in_y.astype(np.float32), cv2.INTER_LINEAR,
        borderMode=cv2.BORDER_CONSTANT, borderValue=-1.0,
    )
    on_card = (
        (in_x >= 0) & (in_x < drawing.shape[1] - 1) & (in_y >= 0) & (in_y < drawing.shape[0] - 1)
    ) & seen
    return np.where(on_card, label, _cloth(rng, (height, width)))


def _turned(x, y, angle):
    return x * np.cos(angle) - y * np.sin(angle), x * np.sin(angle) + y * np.cos(angle)


def _tilted(x, y, side: int, scene: Scene, rng):
    """Where a ray meets a label tilted about a random line, from five label widths away."""
    if not scene.tilt_deg:
        return x, y
    axis = rng.uniform(0, np.pi)
    x, y = _turned(x, y, axis)
    tilt, far = np.radians(scene.tilt_deg), 5.0 * side
    ray = x / far
    along = ray * far / (np.cos(tilt) - ray * np.sin(tilt))
    depth = 1 + along * np.sin(tilt) / far
    return _turned(along, y * depth, -axis)


def _folded(x, y, side: int, scene: Scene, rng):
    """Bent round a bolt or creased; also where the label faces the camera at all."""
    seen = np.ones_like(x, dtype=bool)
    if scene.arc_deg:
        axis = rng.choice([0.0, np.pi / 2]) + rng.normal(0, 0.12)
        x, y = _turned(x, y, axis)
        radius, far = (side - 8) / np.radians(scene.arc_deg), 6.0 * side
        off = radius * rng.uniform(-0.15, 0.15)
        ray = x / far
        # The near meeting of the ray with the cylinder: x = ray * (far + z), x² + (z - r)² = r².
        a, b, c = 1 + ray**2, ray**2 * far - radius, ray**2 * far**2
        inside = b**2 - a * c
        seen = inside > 0
        depth = (-b - np.sqrt(np.maximum(inside, 0))) / a
        angle = np.arctan2(ray * (far + depth), radius - depth)
        x, y = _turned(radius * angle + off, y * (1 + depth / far), -axis)
    if scene.crease_deg:
        axis, at = rng.uniform(0, np.pi), rng.uniform(-0.25, 0.25) * side
        x, y = _turned(x, y, axis)
        far_side = (x - at) / np.cos(np.radians(scene.crease_deg))
        x, y = _turned(np.where(x > at, at + far_side, x), y, -axis)
    return x, y, seen


def _lit(seen: np.ndarray, scene: Scene, rng) -> np.ndarray:
    height, width = seen.shape
    rows, columns = np.mgrid[:height, :width].astype(np.float32)
    fall = 1 + rng.uniform(-0.15, 0.15) * (columns / width - 0.5)
    light = seen * fall * scene.light
    if scene.shadow:
        angle, through = rng.uniform(0, 2 * np.pi), rng.uniform(-0.08, 0.08) * width
        edge = _turned(columns - width / 2, rows - height / 2, angle)[0] > through
        light = np.where(edge, light * (1 - scene.shadow), light)
    if scene.glare:
        reach = scene.glare * 29 * scene.ppm * 2
        x, y = width / 2 + rng.normal(0, 0.25, 2) * 29 * scene.ppm * 2
        y += (height - width) / 2
        spot = np.exp(-(((columns - x) ** 2 + (rows - y) ** 2) / (2 * reach**2)))
        light = light + 1.8 * spot
    return light


def _sensor(light: np.ndarray, scene: Scene, rng) -> np.ndarray:
    light = np.minimum(light, 1.15).astype(np.float32)
    blur = scene.blur * scene.ppm * 2
    if blur > 0.3:
        light = cv2.GaussianBlur(light, (0, 0), blur)
    if scene.motion:
        light = cv2.filter2D(light, -1, _smear(scene.motion * scene.ppm * 2, rng))
    grey = cv2.resize(light, FRAME, interpolation=cv2.INTER_AREA)[..., None]
    ink, paper = (np.array(c, np.float32) for c in scene.stock or ((0, 0, 0), (255, 255, 255)))
    # Little light means few photons: what noise there is grows against the signal.
    noise = scene.noise * (1.0 if scene.light > 0.5 else 0.8)
    picture = ink + (paper - ink) * grey + rng.normal(0, noise, (*FRAME[::-1], 1))
    picture = np.clip(picture, 0, 255).astype(np.uint8)
    if scene.jpeg:
        picture = cv2.imdecode(
            cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, scene.jpeg])[1], 1
        )
    return picture


def _smear(length: float, rng) -> np.ndarray:
    reach = int(np.ceil(length)) | 1
    line = np.zeros((reach + 2, reach + 2), np.float32)
    angle, middle = rng.uniform(0, np.pi), (reach + 1) / 2
    step = np.array([np.cos(angle), np.sin(angle)]) * length / 2
    for t in np.linspace(-1, 1, 4 * reach):
        x, y = middle + t * step
        line[int(round(y)), int(round(x))] += 1
    return line / line.sum()
