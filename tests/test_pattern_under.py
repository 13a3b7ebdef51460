"""The photograph of a traced piece stays under it: wherever the piece goes, and in every copy."""

from __future__ import annotations

import io
import stat
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from stash.errors import InvalidInput, NotFound
from stash.model import Piece, Underlay
from stash.model.underlay import photo_number
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.reshaping import edited_ring
from stash.store import open_stash
from stash.store.backup.backup_file import back_up
from stash.store.backup.export import export
from stash.store.backup.integrity import check
from stash.store.backup.restore import restore
from stash.store.backup.verify import verify
from stash.workroom import patterns
from stash.workroom.questions.orders import orders_for


def picture(colour: str = "white") -> bytes:
    """A small JPEG."""
    out = io.BytesIO()
    Image.new("RGB", (40, 80), colour).save(out, "JPEG")
    return out.getvalue()


JPEG = picture()
# Half a back, its fold at y = 0, over a photograph that shows a little more of the floor.
HALF = Piece(
    name="back", outline_mm=((0.0, 0.0), (0.0, 90.0), (250.0, 210.0), (700.0, 240.0), (700.0, 0.0)),
    under=Underlay(photo=photo_number(JPEG), corners_mm=((-40.0, 280.0), (740.0, 280.0),
                                                         (-40.0, -40.0))),
)


def seen_at(piece: Piece, point: tuple[float, float]) -> np.ndarray:
    """Where a point of the piece is seen in its photograph, as shares of width and height."""
    upper_left, upper_right, lower_left = np.array(piece.under.corners_mm)
    sides = np.column_stack((upper_right - upper_left, lower_left - upper_left))
    return np.linalg.solve(sides, np.array(point) - upper_left)


@settings(max_examples=40, deadline=None)
@given(st.floats(-180, 180))
def test_turned_with_its_piece(grain):
    """Each corner of the outline is seen where it was seen before."""
    turned = corrected(HALF, PieceChange(grain_deg=grain))

    assert len(turned.outline_mm) == len(HALF.outline_mm)
    for before, after in zip(HALF.outline_mm, turned.outline_mm, strict=True):
        assert seen_at(turned, after) == pytest.approx(seen_at(HALF, before), abs=1e-6)


def test_it_stays_under_the_half_that_was_photographed():
    """Opened out about its fold, and the hem then moved on that half: the other follows."""
    whole = corrected(HALF, PieceChange(fold="fold"))
    half = edited_ring(whole)
    assert seen_at(whole, (700.0, 240.0)) == pytest.approx(seen_at(HALF, (700.0, 240.0)))
    assert {y >= 0 for _, y in half} == {True}

    moved = [(720.0, 250.0) if p == (700.0, 240.0) else p for p in half]
    longer = corrected(whole, PieceChange(outline_mm=tuple(moved)))
    assert longer.on_fold
    assert {(720.0, 250.0), (720.0, -250.0)} <= set(longer.outline_mm)
    assert seen_at(longer, (700.0, 0.0)) == pytest.approx(seen_at(HALF, (700.0, 0.0)))


def test_an_outline_drawn_from_another_corner_takes_it_along():
    """A point moved beyond the old top: the piece begins at 0 again, and the picture with it."""
    moved = ((-20.0, 0.0), *HALF.outline_mm[1:])
    piece = corrected(HALF, PieceChange(outline_mm=moved))

    assert min(x for x, _ in piece.outline_mm) == 0
    assert seen_at(piece, (720.0, 240.0)) == pytest.approx(seen_at(HALF, (700.0, 240.0)))


def test_what_is_laid_knows_no_photograph(stash):
    """An answer, a plan and a lay are of the piece alone."""
    kept(stash)
    (order,) = orders_for(stash, ["Paper top"])
    assert order.drafted().pattern.pieces[0].under is None


@pytest.fixture
def stash(tmp_path):
    """An empty stash."""
    with open_stash(tmp_path / "loft") as opened:
        yield opened


def kept(stash):
    """The traced half kept, with its photograph and one that nothing lies over."""
    patterns.keep(stash, "Paper top", (HALF,), "traced", photographs=[JPEG, picture("red")])
    return stash.folder.photos / "pieces" / f"{HALF.under.photo}.jpg"


def test_it_is_kept_for_its_owner_only_and_in_every_version(stash):
    """The correction names it too; a number that no piece names is not given out."""
    file = kept(stash)
    assert [f.name for f in file.parent.iterdir()] == [file.name]
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    event, _ = patterns.correct(stash, "Paper top", patterns.PatternChange(
        pieces=(("back", PieceChange(fold="fold")),)))

    assert patterns.photograph(stash, "Paper top", HALF.under.photo) == JPEG
    assert stash.patterns.get("Paper top").pieces[0].on_fold
    stash.ledger.undo(event.id)
    assert stash.patterns.get("Paper top").pieces[0] == HALF
    with pytest.raises(NotFound):
        patterns.photograph(stash, "Paper top", "0" * 20)


def test_taken_off_the_list_it_is_shown_no_more_and_an_undo_brings_it_back(stash):
    """As with every photograph, the file stays for the undo."""
    kept(stash)
    event = patterns.remove(stash, "Paper top")
    with pytest.raises(NotFound):
        patterns.photograph(stash, "Paper top", HALF.under.photo)
    stash.ledger.undo(event.id)
    assert patterns.photograph(stash, "Paper top", HALF.under.photo) == JPEG


def test_a_backup_holds_it_and_brings_it_back(stash, tmp_path):
    """Backed up, looked through, and restored to another place."""
    kept(stash)
    back_up(stash, tmp_path / "loft.zip")
    assert verify(tmp_path / "loft.zip").ok
    assert restore(tmp_path / "loft.zip", tmp_path / "elsewhere").ok
    with open_stash(tmp_path / "elsewhere") as again:
        assert patterns.photograph(again, "Paper top", HALF.under.photo) == JPEG
    assert check(tmp_path / "elsewhere").ok


@pytest.mark.parametrize(("harm", "fault"), [
    (lambda file: file.unlink(), "piece_photo_missing"),
    (lambda file: file.write_bytes(b"other"), "piece_photo_damaged"),
])
def test_one_that_is_gone_or_altered_is_named(stash, tmp_path, harm, fault):
    """By the check of the record, and of a backup made of it."""
    file = kept(stash)
    harm(file)
    back_up(stash, tmp_path / "loft.zip")

    assert [f.kind for f in check(tmp_path / "loft").faults] == [fault]
    assert not verify(tmp_path / "loft.zip").ok


def test_it_is_taken_out_only_when_photographs_are_asked_for(stash, tmp_path):
    """As all photographs."""
    kept(stash)
    assert export(stash, tmp_path / "plain.zip").photos == 0
    assert export(stash, tmp_path / "all.zip", photos=True, measurements=True).photos == 1


def test_the_page_lays_the_piece_over_it(web_client, web_stash):
    """A picture under the drawing, and none for a number that no piece names."""
    patterns.keep(web_stash, "Paper top", (HALF,), "traced", photographs=[JPEG])
    page = web_client.get("/patterns/own/Paper top").text
    where = f"/patterns/own/Paper%20top/photograph-{HALF.under.photo}.jpg"

    assert page.count(where) == 2
    answer = web_client.get(where)
    assert answer.data == JPEG and answer.mimetype == "image/jpeg"
    assert "private" in answer.headers["Cache-Control"]
    assert web_client.get(where.replace(HALF.under.photo, "0" * 20)).status_code == 404


def test_an_outline_comes_back_exact_where_it_was_not_touched(web_client, web_stash):
    """The page shows tenths; a point that was not dragged keeps its thousandths."""
    fine = replace(HALF, outline_mm=((0.0, 0.0), (0.0, 90.123), (700.456, 240.0), (700.456, 0.0)))
    patterns.keep(web_stash, "Paper top", (fine,), "traced", photographs=[JPEG])
    page = web_client.get("/patterns/own/Paper top").text
    token = page.split('name="token" value="')[1].split('"')[0]
    answer = web_client.post("/patterns/own/Paper top/outline-0", data={
        "token": token, "points-0": "0 0\n0 90.1\n710,5 250\n700.5 0"})

    assert answer.status_code == 303
    ring = web_stash.patterns.get("Paper top").pieces[0].outline_mm
    assert set(ring) == {(0.0, 0.0), (0.0, 90.123), (710.5, 250.0), (700.456, 0.0)}
    crossed = web_client.post("/patterns/own/Paper top/outline-0", data={
        "points-0": "0 0\n700 240\n0 240\n700 0"})
    assert crossed.status_code == 422 and "700 240" in crossed.text
    assert web_client.post("/patterns/own/Paper top/outline-0", data={}).status_code == 422


def test_an_outline_that_leaves_its_fold_is_refused():
    """The half must still lie on the fold."""
    whole = corrected(HALF, PieceChange(fold="fold"))
    away = tuple((x, y + 30) for x, y in edited_ring(whole))
    with pytest.raises(InvalidInput):
        corrected(whole, PieceChange(outline_mm=away))
