"""How much there is of each group, as lying bars; the table beside them says the same."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup

ROW, WIDE, ROOM = 40.0, 340.0, 4.0
"""Units of the drawing, so that at 360 px a letter is as high as one of the page."""


@dataclass(frozen=True)
class Bar:
    """One bar: what it is of, how long it is, what stands at its end, its own colour if any."""

    name: str
    size: float
    said: str
    colour: str | None = None


def bars(found: Sequence[Bar], title: str) -> Markup:
    """The bars one below the other, the longest over the whole width."""
    most = max([1e-9, *(bar.size for bar in found)])
    rows = "".join(_row(n, bar, most) for n, bar in enumerate(found))
    words = "; ".join(f"{bar.name} {bar.said}" for bar in found)
    return Markup(
        f'<svg class="bars" viewBox="0 0 {WIDE:.0f} {ROW * len(found) + ROOM:.0f}" role="img" '
        f'aria-label="{Markup.escape(title)}: {Markup.escape(words)}">{rows}</svg>'
    )


def _row(n: int, bar: Bar, most: float) -> str:
    top, wide = n * ROW, max((WIDE - 2 * ROOM) * bar.size / most, 1.5)
    own = f' fill="{bar.colour}"' if bar.colour else ""
    return (
        f'<text x="{ROOM:.0f}" y="{top + 15:.0f}">{Markup.escape(bar.name)}</text>'
        f'<text class="end" x="{WIDE - ROOM:.0f}" y="{top + 15:.0f}">'
        f"{Markup.escape(bar.said)}</text>"
        f'<rect class="{"own" if bar.colour else "plain"}" x="{ROOM:.0f}" y="{top + 21:.0f}" '
        f'width="{wide:.1f}" height="13"{own}/>'
    )
