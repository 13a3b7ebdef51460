"""Small drawings of notions, so that a bin is recognised before it is read."""

from __future__ import annotations

from markupsafe import Markup

from stash.model import Notion, NotionKind
from web.drawing.to_scale import colours_of


def _edged(path: str, thick: int) -> str:
    """A thick line in the notion's colour with an edge around it, to be seen on any ground."""
    edge, line = (
        f'<path {said} d="{path}" fill="none" stroke-width="{wide}" stroke-linecap="round"/>'
        for said, wide in (('class="line-edge"', thick + 4), ('stroke="{c}"', thick)))
    return edge + line


HOLES = '<circle cx="{x}" cy="{y}" r="5" fill="#fff" stroke="#444" stroke-width="2"/>'
SHAPES = {
    NotionKind.SNAP: '<circle class="cloth-edge" cx="50" cy="50" r="34" fill="{c}"/>'
    '<circle class="cloth-edge" cx="50" cy="50" r="12" fill="#fff"/>',
    NotionKind.HOOK: _edged("M30 78V38a20 20 0 0 1 40 0v10", 9),
    NotionKind.ZIP: '<path class="cloth-edge" d="M37 8h26v84H37z" fill="{c}"/>'
    '<path d="M50 8v84" stroke="#777" stroke-width="9" stroke-dasharray="4 3"/>'
    '<rect x="43" y="30" width="14" height="22" rx="3" fill="#999" stroke="#444"/>',
    NotionKind.ELASTIC: '<path class="cloth-edge" d="M4 38q12-9 23 0t23 0 23 0 23 0v24'
    'q-12 9-23 0t-23 0-23 0-23 0z" fill="{c}"/>',
    NotionKind.THREAD: '<path d="M30 14h40v9H30zM30 77h40v9H30z" fill="#b59a6a" stroke="#444"/>'
    '<rect class="cloth-edge" x="34" y="23" width="32" height="54" fill="{c}"/>'
    '<path d="M34 34h32M34 45h32M34 56h32M34 67h32" stroke="#0004" stroke-width="2"/>',
    NotionKind.INTERFACING: '<path class="cloth-edge" d="M14 14h72v72H14z" fill="{c}"/>'
    '<g fill="#0004"><circle cx="32" cy="32" r="4"/><circle cx="68" cy="32" r="4"/>'
    '<circle cx="50" cy="50" r="4"/><circle cx="32" cy="68" r="4"/>'
    '<circle cx="68" cy="68" r="4"/></g>',
    NotionKind.CORD: _edged("M10 70c20-60 40 40 80-40", 10),
}
STRIP = (
    '<path class="cloth-edge" d="M4 36h92v28H4z" fill="{c}"/>'
    '<path d="M4 50h92" stroke="#0005" stroke-dasharray="6 5" stroke-width="2"/>'
)


def drawing(notion: Notion, side_px: int = 72) -> Markup:
    """The kind of notion, in its colour; a button shows its holes."""
    colour = colours_of((notion.colour,) if notion.colour else ())[0]
    shape = _button(colour) if notion.kind is NotionKind.BUTTON else (
        SHAPES.get(notion.kind, STRIP).format(c=colour)
    )
    return Markup(
        f'<svg viewBox="0 0 100 100" width="{side_px}" height="{side_px}" '
        f'aria-hidden="true">{shape}</svg>'
    )


def _button(colour: str) -> str:
    holes = "".join(HOLES.format(x=x, y=y) for x in (42, 58) for y in (42, 58))
    return (
        f'<circle class="cloth-edge" cx="50" cy="50" r="40" fill="{colour}"/>'
        f'<circle cx="50" cy="50" r="31" fill="none" stroke="#0004" stroke-width="2"/>{holes}'
    )
