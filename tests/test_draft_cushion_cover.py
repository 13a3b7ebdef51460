"""The cushion cover: envelope or zip, plain or corded."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft.catalogue import draft
from stash.model import Notion, NotionKind
from stash.notions import zip_serves


def need(pattern, kind: NotionKind):
    """The one need of a kind, or None."""
    return next((n for n in pattern.notions if n.kind is kind), None)


@given(st.floats(200, 1200), st.floats(200, 1200), st.floats(50, 200))
def test_the_backs_of_an_envelope_cover_the_front_and_lap(long, wide, lap):
    """Their finished lengths add up to the cushion and the lap."""
    front, back = draft(
        "cushion-cover", {}, {"length": long, "width": wide, "lap": lap}
    ).pieces
    finished = [Polygon(p.stitch_mm).bounds for p in (front, back)]
    along = [x1 - x0 for x0, _, x1, _ in finished]

    assert back.quantity == 2
    assert 2 * along[1] == pytest.approx(along[0] + lap)


def test_a_zip_is_5_cm_shorter_than_the_cushion_and_saves_the_lap():
    """25 mm stay sewn at each end: common practice, no source."""
    zipped, envelope = (draft("cushion-cover", {}, {"closure": c}) for c in ("zip", "envelope"))
    area = [
        sum(Polygon(p.outline_mm).area * p.quantity for p in s.pieces) for s in (zipped, envelope)
    ]

    assert need(zipped, NotionKind.ZIP).size_mm[1] == 400
    assert zip_serves(Notion(kind=NotionKind.ZIP, name="coil", size_mm=400.0), 400.0).serves
    assert area[0] < area[1]


def test_a_corded_edge_asks_for_cord_and_for_binding_over_it():
    """Once round, 1.8 m, and a little to join."""
    corded = draft("cushion-cover", {}, {"edge": "corded"})

    assert need(corded, NotionKind.CORD).length_mm == 1850
    assert need(corded, NotionKind.BINDING).length_mm == 1850


def test_snaps_or_buttons_hold_a_narrower_lap():
    """40 cm of opening: snaps at most 5 cm apart, three buttons; 4 cm of lap instead of 12."""
    envelope, snaps, buttons = (
        draft("cushion-cover", {}, {"closure": c}) for c in ("envelope", "snaps", "buttons")
    )

    assert need(snaps, NotionKind.SNAP).count == 9
    assert need(buttons, NotionKind.BUTTON).count == 3
    assert Polygon(snaps.pieces[1].outline_mm).area < Polygon(envelope.pieces[1].outline_mm).area
