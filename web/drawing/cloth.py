"""Cuts of cloth drawn to scale, in their own colours."""

from __future__ import annotations

import re

from markupsafe import Markup

from stash.model import Cut, Outline
from stash.model.outline import Point

HEX = re.compile(r"#[0-9a-fA-F]{6}")
BARE = "#c9bfa9"
STRIPE_MM = 60


def colours_of(colours: tuple[str, ...]) -> tuple[str, ...]:
    """The colours that can be drawn; bare paper when none is on record."""
    return tuple(c for c in colours if HEX.fullmatch(c)) or (BARE,)


def path(outline: Outline) -> str:
    """The outline, holes and all, as an SVG path in millimetres."""
    left, low, _, _ = outline.bounds_mm
    return "".join(_ring(ring, left, low) for ring in (outline.ring_mm, *outline.holes_mm))


def bar(cut: Cut, extent_mm: float) -> Markup:
    """One bar of the stash, to the page's scale both ways."""
    fill, stripes = _fill(cut.cloth.colours, f"b{cut.code}")
    height = max(cut.width_mm, 1.0)
    return Markup(
        f'<svg viewBox="0 0 {extent_mm:.0f} {height:.0f}" aria-hidden="true">{stripes}'
        f'<path class="cloth-edge" fill="{fill}" fill-rule="evenodd" '
        f'd="{path(cut.outline)}"/></svg>'
    )


def whole(outline: Outline, colours: tuple[str, ...], extent_mm: float, title: str) -> Markup:
    """What is left of a cut, true to scale both ways; selvedges above and below."""
    fill, stripes = _fill(colours, "w")
    height = max(outline.width_mm, 1.0)
    return Markup(
        f'<svg viewBox="-4 -4 {extent_mm + 8:.0f} {height + 8:.0f}" role="img" '
        f'aria-label="{Markup.escape(title)}">{stripes}'
        f'<path class="cloth-edge" fill="{fill}" fill-rule="evenodd" d="{path(outline)}"/></svg>'
    )


def swatch(colours: tuple[str, ...]) -> Markup:
    """A round swatch of the colours on record."""
    fill, stripes = _fill(colours, "s" + "".join(c.lstrip("#") for c in colours))
    return Markup(
        f'<svg class="swatch" viewBox="0 0 200 200" aria-hidden="true">{stripes}'
        f'<rect width="200" height="200" rx="100" fill="{fill}"/></svg>'
    )


def _ring(ring: tuple[Point, ...], left: float, low: float) -> str:
    return "M" + "L".join(f"{x - left:.1f} {y - low:.1f}" for x, y in ring) + "Z"


def _fill(colours: tuple[str, ...], key: str) -> tuple[str, str]:
    """A paint, and the stripe pattern it needs when there are several colours."""
    shown = colours_of(colours)
    if len(shown) == 1:
        return shown[0], ""
    name = "p" + re.sub(r"\W", "", key)
    bands = "".join(
        f'<rect y="{i * STRIPE_MM}" width="60" height="{STRIPE_MM}" fill="{c}"/>'
        for i, c in enumerate(shown)
    )
    return f"url(#{name})", (
        f'<defs><pattern id="{name}" width="60" height="{STRIPE_MM * len(shown)}" '
        f'patternUnits="userSpaceOnUse">{bands}</pattern></defs>'
    )
