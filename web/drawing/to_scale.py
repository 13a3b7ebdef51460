"""Cuts of cloth drawn to scale, in their own colours."""

from __future__ import annotations

import re
from collections.abc import Sequence

from markupsafe import Markup

from stash.model import Cut, Outline
from stash.model.outline import Point, SelvedgeLine
from stash.workroom.grain import StraightEdge

HEX = re.compile(r"#[0-9a-fA-F]{6}")
BARE = "#c9bfa9"
DOT_MM = 42.0


def colours_of(colours: tuple[str, ...]) -> tuple[str, ...]:
    """The colours that can be drawn; bare paper when none is on record."""
    return tuple(c for c in colours if HEX.fullmatch(c)) or (BARE,)


def path(outline: Outline) -> str:
    """The outline, holes and all, as an SVG path in millimetres, y up as on the table."""
    return "".join(_ring(ring, outline) for ring in (outline.ring_mm, *outline.holes_mm))


def bar(cut: Cut, extent_mm: float) -> Markup:
    """One bar of the stash, to the page's scale both ways."""
    height = max(cut.width_mm, 1.0)
    return Markup(
        f'<svg viewBox="0 0 {extent_mm:.0f} {height:.0f}" aria-hidden="true">'
        f"{_cloth(cut.outline, cut.cloth.colours, cut.code)}</svg>"
    )


def whole(
    outline: Outline, colours: tuple[str, ...], extent_mm: float, title: str,
    selvedges_mm: Sequence[SelvedgeLine] = (),
) -> Markup:
    """What is left of a cut, true to scale both ways, the edges known as selvedge drawn thick."""
    height = max(outline.width_mm, 1.0)
    left, _, _, high = outline.bounds_mm
    edges = "".join(
        f'<line class="selvedge" x1="{x0 - left:.1f}" y1="{high - y0:.1f}" x2="{x1 - left:.1f}" '
        f'y2="{high - y1:.1f}"/>' for (x0, y0), (x1, y1) in selvedges_mm)
    return Markup(
        f'<svg viewBox="-4 -4 {extent_mm + 8:.0f} {height + 8:.0f}" role="img" '
        f'aria-label="{Markup.escape(title)}">{_cloth(outline, colours, "whole")}{edges}</svg>'
    )


def framed(outline: Outline, colours: tuple[str, ...], title: str) -> Markup:
    """What is there of a cut with a frame round it, which a script lets one drag."""
    wide, high = outline.length_mm, max(outline.width_mm, 1.0)
    room = 0.06 * max(wide, high)
    corners = f"0,0 {wide:.1f},0 {wide:.1f},{high:.1f} 0,{high:.1f}"
    return Markup(
        f'<svg viewBox="{-room:.0f} {-room:.0f} {wide + 2 * room:.0f} {high + 2 * room:.0f}" '
        f'role="img" aria-label="{Markup.escape(title)}" data-frame data-wide="{wide:.3f}" '
        f'data-high="{high:.3f}">{_cloth(outline, colours, "framed")}'
        f'<polygon class="frame" points="{corners}"/></svg>'
    )


def with_edges(outline: Outline, colours: tuple[str, ...], edges: Sequence[StraightEdge],
               title: str) -> Markup:
    """The outline with its straight edges numbered, and an arrow that a script turns."""
    left, low, right, high = outline.bounds_mm
    size = max(right - left, high - low)
    room, middle = 0.14 * size, ((right - left) / 2, (high - low) / 2)
    lines = []
    for n, edge in enumerate(edges, 1):
        (x0, y0), (x1, y1) = ((x - left, high - y) for x, y in (edge.start_mm, edge.stop_mm))
        out = 0.055 * size / max(edge.length_mm, 1.0)  # to the left of the way round: outside
        x, y = (x0 + x1) / 2 + out * (y0 - y1), (y0 + y1) / 2 + out * (x1 - x0)
        lines.append(
            f'<g data-edge="{n}" data-turn="{edge.turn_deg:.2f}">'
            f'<line class="edge-hold" x1="{x0:.1f}" y1="{y0:.1f}" x2="{x1:.1f}" y2="{y1:.1f}"/>'
            f'<line class="edge-seen" x1="{x0:.1f}" y1="{y0:.1f}" x2="{x1:.1f}" y2="{y1:.1f}"/>'
            f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size / 18:.1f}">{n}</text></g>')
    reach, tip = 0.3 * size, 0.035 * size
    arrow = (
        f'<g class="turned-arrow" data-arrow data-x="{middle[0]:.1f}" data-y="{middle[1]:.1f}">'
        f'<path d="M{middle[0] - reach:.1f} {middle[1]:.1f}h{2 * reach:.1f}m{-tip:.1f} {-tip:.1f}'
        f'l{tip:.1f} {tip:.1f}l{-tip:.1f} {tip:.1f}"/></g>')
    return Markup(
        f'<svg viewBox="{-room:.0f} {-room:.0f} {right - left + 2 * room:.0f} '
        f'{high - low + 2 * room:.0f}" role="img" data-grain '
        f'aria-label="{Markup.escape(title)}">{_cloth(outline, colours, "grain")}'
        f"{''.join(lines)}{arrow}</svg>"
    )


def swatch(colours: tuple[str, ...]) -> Markup:
    """A round swatch of the colours on record, side by side."""
    shown = colours_of(colours)
    wide = 200 / len(shown)
    bands = "".join(
        f'<rect x="{n * wide:.1f}" width="{wide:.1f}" height="200" fill="{colour}"/>'
        for n, colour in enumerate(shown)
    )
    return Markup(f'<svg class="swatch" viewBox="0 0 200 200" aria-hidden="true">{bands}</svg>')


def _cloth(outline: Outline, colours: tuple[str, ...], key: str) -> str:
    """The ground in its first colour; several colours stand as dots along the selvedge.

    So printers mark them on the cloth itself (common practice, no source): how they are
    spread over it only the photograph can show.
    """
    ground, *others = colours_of(colours)
    edge = path(outline)
    drawn = f'<path class="cloth-edge" fill="{ground}" fill-rule="evenodd" d="{edge}"/>'
    if not others:
        return drawn
    left, low, _, high = outline.bounds_mm
    x, y = min(outline.ring_mm, key=lambda point: point[0] - left + point[1] - low)
    name = "cloth-" + re.sub(r"\W", "", key)
    dots = "".join(
        f'<circle class="cloth-edge colour-dot" r="{DOT_MM}" '
        f'cx="{x - left + DOT_MM * (1.8 + 2.6 * n):.0f}" '
        f'cy="{high - y - DOT_MM * 1.8:.0f}" fill="{colour}"/>'
        for n, colour in enumerate((ground, *others))
    )
    return (
        f'{drawn}<clipPath id="{name}"><path d="{edge}"/></clipPath>'
        f'<g clip-path="url(#{name})">{dots}</g>'
    )


def _ring(ring: tuple[Point, ...], outline: Outline) -> str:
    left, _, _, high = outline.bounds_mm
    return "M" + "L".join(f"{x - left:.1f} {high - y:.1f}" for x, y in ring) + "Z"
