"""Notions on bin fronts are drawn at their true size."""

from __future__ import annotations

import numpy as np
import pypdfium2
import pytest

from labels.canvas import Canvas
from labels.content import for_bin, notion_size
from labels.face import Box
from labels.notion_drawing import draw_notion, holes_of
from stash.model import Bin, Notion, NotionKind
from stash.sentences import METRIC, Reader
from stash.units import System

DPI = 1200
PX_PER_MM = DPI / 25.4
ROOM = Box(10, 10, 60, 70)


def drawn_mm(notion: Notion) -> tuple[float, float]:
    """(width, height) of what is drawn, without the words under it."""
    with Canvas((80, 100)) as canvas:
        canvas.add_page()
        assert draw_notion(canvas, notion, ROOM) > 0
        pdf = bytes(canvas.output())
    with pypdfium2.PdfDocument(pdf) as document:
        page = document[0].render(scale=DPI / 72, grayscale=True).to_numpy().squeeze()
    rows = np.flatnonzero((page < 250).any(axis=1))
    # The drawing is the first unbroken run of rows; the words come after a strip of paper.
    end = rows[np.flatnonzero(np.diff(rows) > 1)[0]] if (np.diff(rows) > 1).any() else rows[-1]
    part = page[rows[0] : end + 1] < 250
    columns = np.flatnonzero(part.any(axis=0))
    return (np.ptp(columns) + 1) / PX_PER_MM, len(part) / PX_PER_MM


@pytest.mark.parametrize("kind", [NotionKind.BUTTON, NotionKind.SNAP])
@pytest.mark.parametrize("lignes", [14, 18, 24, 40])
def test_a_button_is_drawn_at_its_diameter_to_a_tenth_of_a_millimetre(kind, lignes):
    """40 lignes are one inch of 25.4 mm, so the drawing of a 40L button is an inch across."""
    across = lignes * 25.4 / 40

    assert drawn_mm(Notion(kind=kind, name="x", size_mm=across)) == pytest.approx(
        (across, across), abs=0.1
    )


@pytest.mark.parametrize("kind", [NotionKind.ELASTIC, NotionKind.BINDING, NotionKind.CORD])
@pytest.mark.parametrize("width_mm", [4.0, 10.0, 25.0])
def test_a_band_is_drawn_at_its_width(kind, width_mm):
    """Edge to edge, to a tenth of a millimetre."""
    assert drawn_mm(Notion(kind=kind, name="x", size_mm=width_mm))[1] == pytest.approx(
        width_mm, abs=0.1
    )


def test_what_is_larger_than_the_room_is_left_out_not_shrunk():
    """A drawing of another size would mislead."""
    with Canvas((80, 100)) as canvas:
        canvas.add_page()

        assert draw_notion(canvas, Notion(kind=NotionKind.BUTTON, name="x", size_mm=65), ROOM) == 0
        assert draw_notion(canvas, Notion(kind=NotionKind.THREAD, name="x"), ROOM) == 0


@pytest.mark.parametrize(
    ("size_mm", "notes", "holes"), [(15, "two holes", 2), (9, "", 2), (15, "", 4), (18, "Shank", 0)]
)
def test_a_button_shows_its_thread_holes(size_mm, notes, holes):
    """As the notes say; otherwise by its size."""
    button = Notion(kind=NotionKind.BUTTON, name="x", size_mm=size_mm, notes=notes)

    assert holes_of(button) == holes


def test_a_bin_says_its_size_in_the_trades_units():
    """Buttons in mm and lignes, bands by width, zips by length."""
    said = {kind: notion_size(Notion(kind=kind, name="x", size_mm=size), METRIC)
            for kind, size in ((NotionKind.BUTTON, 11.43), (NotionKind.ELASTIC, 20),
                               (NotionKind.ZIP, 180))}

    assert list(said.values()) == ["11.4 mm (18L)", "20 mm wide", "18 cm long"]
    assert notion_size(Notion(kind=NotionKind.THREAD, name="x"), METRIC) == ""
    zip_ = Notion(kind=NotionKind.ZIP, name="x", size_mm=203.2)
    assert notion_size(zip_, Reader(System.INCHES)) == "8 in long"


def test_a_bins_label_carries_what_it_draws():
    """The notion goes along, with name, place and material as words."""
    notion = Notion(kind=NotionKind.BUTTON, name="Horn buttons", size_mm=15, material="horn")
    label = for_bin(Bin(code="234567", notion=notion, amount=9, place="Drawer 2"), METRIC)

    assert (label.name, label.fibre, label.place, label.notion) == (
        "Horn buttons", "horn", "Drawer 2", notion
    )
