"""Handfuls of buttons as they fall: kinds, colours and places drawn from a seed."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import numpy as np
from eye_scene import Body, Table, tilted
from trace_photo import Camera

from stash.model.tray import TRAY

COLOURS = {
    "white": (0.78, 0.78, 0.76), "black": (0.03, 0.03, 0.03), "cream": (0.7, 0.62, 0.45),
    "grey": (0.3, 0.3, 0.3), "red": (0.42, 0.04, 0.05), "navy": (0.03, 0.04, 0.12),
    "brown": (0.16, 0.08, 0.04), "green": (0.07, 0.2, 0.09), "brass": (0.5, 0.35, 0.12),
    "steel": (0.45, 0.46, 0.48),
}
KINDS = ("four holes", "two holes", "shank", "translucent", "snap", "ring", "bead")


def thing(kind: str, diameter_mm: float, colour: str, random: np.random.Generator) -> Body:
    """One thing of a kind, not placed yet."""
    r = diameter_mm / 2
    body = Body(at_mm=(0, 0), radius_mm=r, colour=COLOURS[colour], tall_mm=1.2 + 0.09 * diameter_mm,
                hole_mm=max(0.07 * diameter_mm, 0.8))
    if kind == "two holes":
        return replace(body, holes=2, lip=False, gloss=0.1)
    if kind == "translucent":
        return replace(body, clear=float(random.uniform(0.25, 0.6)), gloss=0.5)
    if kind == "clear":
        return replace(body, clear=0.85, gloss=0.6)
    if kind == "shank":
        tall = 0.28 * diameter_mm
        dome = (r**2 + (0.8 * tall) ** 2) / (2 * 0.8 * tall)
        return replace(body, holes=0, lip=False, tall_mm=tall, dome_mm=dome, gloss=0.5)
    if kind == "snap":
        return replace(body, tall_mm=0.22 * diameter_mm, holes=4, hole_mm=0.06 * diameter_mm,
                       gloss=0.8)
    if kind == "ring":
        return replace(body, tall_mm=0.12 * diameter_mm, holes=0, lip=False, hollow_mm=0.68 * r,
                       gloss=0.8)
    if kind == "bead":
        return replace(body, tall_mm=diameter_mm * 0.96, dome_mm=r, holes=0, lip=False, gloss=0.7)
    return body


def poured(things: list[Body], random: np.random.Generator, shank: bool = False) -> list[Body]:
    """The things thrown near one spot and pushed apart until none lies in another."""
    x0, y0, x1, y1 = TRAY.check_mm
    radii = np.array([b.radius_mm for b in things])
    spread = 1.1 * np.sqrt((radii**2).sum() * pi) / 2.2 + 6
    middle = np.array([(x0 + x1) / 2, (y0 + y1) / 2]) + random.normal(0, 12, 2)
    at = middle + random.normal(0, spread * 0.75, (len(things), 2))
    room = radii[:, None] + 1.0
    least = radii[:, None] + radii[None] + 0.05
    for _ in range(4000):
        at = np.clip(at, (x0, y0) + room, (x1, y1) - room)
        gap = at[:, None] - at[None]
        away = np.hypot(gap[..., 0], gap[..., 1]) + np.eye(len(at)) * 1e9
        push = np.maximum(least - away, 0)
        if push.max() < 0.04:
            break
        at += (gap / np.maximum(away, 1e-6)[..., None] * push[..., None]).sum(axis=1) * 0.42
    placed = []
    for body, place in zip(things, at, strict=True):
        turn = tilted(random.uniform(0, 360), random.uniform(6, 22)) if shank else np.eye(3)
        placed.append(replace(body, at_mm=(float(place[0]), float(place[1])), turn=turn,
                              seed=int(random.integers(1 << 30))))
    return placed


def heaped(bodies: list[Body]) -> list[Body]:
    """With one more, like the first, lying across the two that are closest to each other."""
    at = np.array([body.at_mm for body in bodies])
    apart = np.hypot(*(at[:, None] - at[None]).transpose(2, 0, 1)) + 1e9 * np.eye(len(at))
    one, other = np.unravel_index(int(apart.argmin()), apart.shape)
    middle = (at[one] + at[other]) / 2
    return [*bodies, replace(bodies[0], at_mm=(float(middle[0]), float(middle[1])),
                             base_mm=bodies[0].tall_mm)]


def a_pour(seed: int, kind: str | None = None, sizes: int = 1, count: int | None = None,
           megapixels: float | None = None) -> tuple[Table, Camera]:
    """A photograph of one pour: everything not said is drawn from the seed."""
    random = np.random.default_rng(seed)
    kind = kind or str(random.choice(KINDS, p=(0.34, 0.2, 0.14, 0.14, 0.08, 0.05, 0.05)))
    small, large = {"bead": (6, 12), "snap": (8, 15), "ring": (10, 20)}.get(kind, (9, 28))
    colours = {"snap": ("steel", "brass", "black"), "ring": ("steel", "brass")}
    colour = str(random.choice(colours.get(kind, list(COLOURS)[:8])))
    diameters = [float(random.uniform(small, large))]
    while len(diameters) < sizes:
        another = float(random.uniform(small, large))
        if min(abs(another - d) for d in diameters) > 2.0:
            diameters.append(another)
    x0, y0, x1, y1 = TRAY.check_mm
    most = int(0.42 * (x1 - x0) * (y1 - y0) / (pi * (max(diameters) / 2) ** 2))
    count = count or int(np.clip(np.exp(random.uniform(np.log(5), np.log(121))), 5, max(5, most)))
    things = [thing(kind, diameters[i % sizes], colour, random) for i in range(count)]
    if kind == "translucent":
        things = [replace(b, clear=things[0].clear) for b in things]
    towards = random.uniform(0, 2 * pi)
    table = Table(
        bodies=poured(things, random, shank=kind == "shank"),
        wood=tuple(np.array((0.22, 0.12, 0.06)) * random.uniform(0.4, 2.5)),
        light=(float(np.cos(towards)) * 0.8, float(np.sin(towards)) * 0.8, 1.0),
        soft=float(random.uniform(0.03, 0.35)), ambient=float(random.uniform(0.3, 0.65)),
        warmth=(1.0, float(random.uniform(0.86, 1.0)), float(random.uniform(0.65, 1.05))),
        exposure=float(random.uniform(0.7, 1.15)),
        shade=float(random.choice((0.0, 0.0, random.uniform(0.2, 0.55)))),
        curl_mm=float(random.uniform(0, 2)), seed=seed,
    )
    megapixels = megapixels or float(random.choice((3.0, 7.0)))
    wide = int((megapixels * 1e6 * 0.75) ** 0.5) // 8 * 8
    tilt, towards = float(random.uniform(0, 25)), float(random.uniform(0, 360))
    camera = Camera(
        target_mm=(97.5 + float(random.normal(0, 4)), 127.5 + float(random.normal(0, 4))),
        height_mm=float(random.uniform(290, 340)), tilt_deg=tilt, towards_deg=towards,
        roll_deg=90 - towards + float(random.normal(0, 6)),  # the page stands upright in it
        size_px=(wide, wide * 4 // 3), focal=0.74,
        bend=(float(random.uniform(-0.03, 0)), 0.004),
        blur_px=float(random.uniform(0.6, 1.1)), noise=float(random.uniform(1, 4)),
        quality=int(random.integers(80, 95)),
    )
    return table, camera
