"""Two lengths against each other: a small curve with its axes named."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from markupsafe import Markup, escape

WIDE, HIGH, LEFT, FOOT, TOP = 640, 340, 100, 64, 44


def curve(
    points: Sequence[tuple[float, float | None]], names: tuple[str, str],
    shown: Callable[[float], str],
) -> Markup:
    """SVG text of (across_mm, up_mm) points; one without a value is left out of the line.

    ``names`` are of the axis across and the axis up, ``shown`` writes a length. The table
    beside it says the same in figures, so the drawing is hidden from a screen reader.
    """
    known = [(x, y) for x, y in points if y is not None]
    xs, ys = [x for x, _ in points], [y for _, y in known] or [0.0]
    span_x, top = max(max(xs) - min(xs), 1.0), max(max(ys), 1.0)

    def at(x: float, y: float) -> tuple[float, float]:
        along = LEFT + (x - min(xs)) / span_x * (WIDE - LEFT - 24)
        return along, HIGH - FOOT - y / top * (HIGH - FOOT - TOP)

    line = " ".join(f"{px:.1f},{py:.1f}" for px, py in (at(x, y) for x, y in known))
    dots = "".join(
        f'<circle cx="{px:.1f}" cy="{py:.1f}" r="5"/>' for px, py in (at(x, y) for x, y in known)
    )
    foot = "".join(
        f'<text x="{at(x, 0)[0]:.1f}" y="{HIGH - FOOT + 24}" text-anchor="middle">'
        f"{escape(shown(x))}</text>"
        for x in xs
    )
    side = "".join(
        f'<text x="{LEFT - 8}" y="{at(xs[0], y)[1] + 5:.1f}" text-anchor="end">'
        f"{escape(shown(y))}</text>"
        for y in (0.0, max(ys)) if y or not known
    )
    across, up = map(escape, names)
    return Markup(
        f'<svg class="curve" viewBox="0 0 {WIDE} {HIGH}" aria-hidden="true">'
        f'<path class="axes" d="M{LEFT} {TOP}V{HIGH - FOOT}H{WIDE - 16}"/>'
        f'<polyline points="{line}"/>{dots}{foot}{side}'
        f'<text x="{WIDE - 16}" y="{HIGH - 6}" text-anchor="end">{across}</text>'
        f'<text x="{LEFT + 6}" y="{TOP - 20}">{up}</text></svg>'
    )
