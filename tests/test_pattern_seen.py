"""What was seen on the paper is offered on the command line as on the page."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stash.eye.outlines.backdrop import Backdrop
from stash.eye.paper_marks.drawn_on import PaperMarks
from stash.eye.paper_marks.grain_line import SeenGrain
from stash.eye.paper_marks.notches import SeenNotch
from stash.model import Piece
from stash.pattern.drawn import Reading
from stash.pattern.traced import TracedOver, lies_under
from stash.store import open_stash
from stash.workroom import tracing
from web.command import main

RING = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))
UNDER = Backdrop(b"a picture", (-40.0, -40.0, 280.0, 180.0))
SEEN = PaperMarks(
    (SeenNotch((100.0, 0.0), (100.0, 9.0), "line"),
     SeenNotch((200.0, 50.0), (190.0, 50.0), "line")),
    SeenGrain((50.0, 20.0), (50.0, 80.0), 2))


@pytest.fixture
def trace(tmp_path, monkeypatch):
    """``pattern trace`` of a photograph in which one piece with its marks is seen."""
    piece = Piece(name="piece", outline_mm=RING, under=lies_under(UNDER))
    found = TracedOver(Reading((piece,), ((100.0, 200.0),)), (0.5,), (UNDER,), (), (SEEN,), (30.0,))
    monkeypatch.setattr(tracing, "trace_over", lambda *_, **__: found)
    photo = tmp_path / "floor.jpg"
    photo.write_bytes(b"jpeg")

    def run(*words):
        result = CliRunner().invoke(main, [
            "--data", str(tmp_path / "loft"), "pattern", "trace", str(photo), *words])
        return result.exit_code, result.output

    return run


def test_json_names_what_was_seen(trace):
    """Notches where they meet the edge and where they end, and how the arrow runs."""
    _, output = trace("--json")
    (piece,) = json.loads(output)["pieces"]

    assert [notch["at_mm"] for notch in piece["seen"]["notches"]] == [[100, 0], [200, 50]]
    assert piece["seen"]["grain_deg"] == 90 and piece["error_mm"] == 0.5


def test_the_text_offers_them(trace):
    """By piece and number, as the option takes them."""
    _, output = trace()
    assert "1.1, 1.2" in output and "--grain arrow" in output


@pytest.mark.parametrize(("asked", "count"), [((), 0), (("--notch", "1.2"), 1),
                                              (("--notch", "all"), 2)])
def test_only_those_asked_for_are_kept(trace, tmp_path, asked, count):
    """With the photograph under the piece."""
    assert trace("--name", "yoke", *asked)[0] == 0
    with open_stash(tmp_path / "loft") as stash:
        (piece,) = stash.patterns.get("yoke").pieces
        assert len(piece.notches_mm) == count
        assert stash.piece_photos.under(stash.patterns.get("yoke"), piece.under.photo)


def test_the_arrow_turns_the_piece_with_its_notches(trace, tmp_path):
    """Drawn across, the grain comes to lie along the length."""
    assert trace("--name", "yoke", "--notch", "all", "--grain", "arrow")[0] == 0
    with open_stash(tmp_path / "loft") as stash:
        (piece,) = stash.patterns.get("yoke").pieces
    assert max(x for x, _ in piece.outline_mm) == pytest.approx(100)
    assert {(round(x), round(y)) for x, y in piece.notches_mm} == {(0, 100), (50, 0)}


def test_a_notch_that_was_not_seen_is_refused(trace):
    """It says which were."""
    code, output = trace("--notch", "2.1")
    assert code == 1 and "1.1" in output and "1.2" in output
