"""Notions drawn in true millimetres: a button's diameter, a band's width, a cord's thickness."""

from __future__ import annotations

from labels.canvas import GREY, Canvas
from labels.face import Box
from stash.fonts.document import line_mm
from stash.model import Notion, NotionKind

AIR_MM = 2.0
PAPER, DARK, MIDDLE = 255, 40, 190
BANDS = frozenset({NotionKind.ELASTIC, NotionKind.BINDING, NotionKind.TAPE, NotionKind.CORD})
NOTE_PT = 5.0


def draw_notion(canvas: Canvas, notion: Notion, room: Box) -> float:
    """Draw it at the left of ``room``; returns the width used, 0 when nothing is drawn.

    What is larger than the room is left out rather than drawn small: beside a real one
    a drawing of another size would mislead.
    """
    if notion.size_mm is None:
        return 0.0
    if notion.kind in {NotionKind.BUTTON, NotionKind.SNAP}:
        return _round(canvas, notion, notion.size_mm, room)
    if notion.kind in BANDS:
        return _band(canvas, notion.size_mm, room)
    return 0.0


def _round(canvas: Canvas, notion: Notion, across_mm: float, room: Box) -> float:
    if across_mm > min(room.width - AIR_MM, room.height - line_mm(NOTE_PT)):
        return 0.0
    wide = max(across_mm, canvas.width_mm(canvas.said("true_size"), NOTE_PT))
    x, y = room.x + wide / 2, room.y + (room.height - line_mm(NOTE_PT)) / 2
    canvas.disc(x, y, across_mm, grey=DARK)
    canvas.disc(x, y, across_mm - 0.5, grey=MIDDLE)
    canvas.disc(x, y, 0.72 * across_mm, grey=225)
    if notion.kind is NotionKind.SNAP:
        canvas.disc(x, y, 0.3 * across_mm, grey=DARK)
    else:
        _holes(canvas, (x, y), across_mm, holes_of(notion))
    _note(canvas, (x, y + across_mm / 2))
    return wide + AIR_MM


def holes_of(notion: Notion) -> int:
    """Thread holes as its name or notes say, none with a shank; else two on a small button.

    Under 10 mm two, above it four: common practice, no source.
    """
    said = f"{notion.name} {notion.notes}".lower()
    for word, holes in (("shank", 0), ("two hole", 2), ("four hole", 4)):
        if word in said:
            return holes
    return 2 if notion.size_mm is not None and notion.size_mm < 10 else 4


def _holes(canvas: Canvas, at: tuple[float, float], across_mm: float, count: int) -> None:
    apart, hole = 0.11 * across_mm, max(0.7, 0.09 * across_mm)
    places = {0: (), 2: ((-1, 0), (1, 0)), 4: ((-1, -1), (1, -1), (-1, 1), (1, 1))}[count]
    for dx, dy in places:
        canvas.disc(at[0] + dx * apart, at[1] + dy * apart, hole, grey=DARK)


def _band(canvas: Canvas, width_mm: float, room: Box) -> float:
    """A piece of band lying along the label, its two edges exactly as far apart as the width."""
    tall = room.height - line_mm(NOTE_PT)
    if width_mm > tall:
        return 0.0
    top, long = room.y + (tall - width_mm) / 2, min(room.width - AIR_MM, 22.0)
    canvas.bar(room.x, top, long, width_mm, grey=DARK)
    edge = min(0.2, width_mm / 4)
    canvas.bar(room.x, top + edge, long, width_mm - 2 * edge, grey=225)
    for n in range(1, int(long / 2)):
        canvas.rule(room.x + 2 * n, top + edge, room.x + 2 * n, top + width_mm - edge,
                    thick_mm=0.1, grey=GREY)
    _note(canvas, (room.x + long / 2, top + width_mm))
    return long + AIR_MM


def _note(canvas: Canvas, under: tuple[float, float]) -> None:
    """The words that say what the drawing is good for, centred under it."""
    note = canvas.said("true_size")
    left = under[0] - canvas.width_mm(note, NOTE_PT) / 2
    canvas.words(note, (left, under[1]), NOTE_PT)
