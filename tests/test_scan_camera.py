"""A camera watched for labels; here it is a film."""

from __future__ import annotations

import json
import re
from random import Random

import cv2
import numpy as np
import pytest
from click.testing import CliRunner

from labels.camera import FRAMES_A_SECOND, frames, newcomers, sights
from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from labels.reading.readings import LabelReading, PhotoReadings
from stash.errors import Unavailable
from stash.model import Bin, Cloth, Code, Cut, Notion, NotionKind, Outline
from stash.store import open_stash
from web.command import main

CODES = [Code.draw(random).text for random in [Random(9)] for _ in range(3)]


def frame(code: str | None) -> np.ndarray:
    """One BGR frame with a label, or cloth alone."""
    picture = np.full((240, 320, 3), 160, np.uint8)
    if code:
        light = ~np.pad(symbol(compose(code, "stash.local:5000")).modules, QUIET_MODULES)
        part = np.kron(light, np.ones((4, 4))).astype(np.uint8)[..., None] * 255
        picture[40 : 40 + len(part), 60 : 60 + len(part)] = part
    return picture


@pytest.fixture
def film(tmp_path):
    """Numbered pictures: each of three labels for five frames, a gap after each."""
    shown = [code for c in CODES for code in [c] * 5 + [None] * 3]
    for n, code in enumerate(shown):
        cv2.imwrite(str(tmp_path / f"f_{n:03d}.png"), frame(code))
    return str(tmp_path / "f_%03d.png")


def test_each_label_is_told_once_as_it_comes_into_view(film):
    """Five frames of it, one telling."""
    assert [r.code for r in newcomers(sights(frames(film)))] == CODES


def test_a_label_shown_again_after_a_while_is_told_again():
    """Out of view for longer than the span, or not."""
    seen = PhotoReadings((LabelReading(CODES[0], ((0, 0),) * 4, "zxing", ""),))
    views = [seen] + [PhotoReadings(())] * 3 + [seen] + [PhotoReadings(())] * 9 + [seen]

    assert len(list(newcomers(views, forget_after_s=5 / FRAMES_A_SECOND))) == 2


@pytest.mark.parametrize("source", ["no-such-film.avi", "f_%03d.png"])
def test_a_film_that_is_not_there_is_said(source, tmp_path, monkeypatch, sentence):
    """One sentence, no exception of the camera library."""
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Unavailable) as refused:
        next(frames(source))
    assert re.search("cannot be opened", sentence(refused.value))


def test_a_camera_that_is_not_there_is_said(sentence):
    """Camera 97 exists nowhere."""
    with pytest.raises(Unavailable) as refused:
        next(frames("97"))
    assert re.search("plug it in", sentence(refused.value))


def test_the_command_streams_json_lines(film, tmp_path):
    """One line a label, ready for another program."""
    answer = _scan(["--camera", film, "--json"], tmp_path)
    told = [json.loads(line) for line in answer.stdout.splitlines()]

    assert [t["code"] for t in told] == CODES
    assert set(told[0]) == {"code", "corners_px", "decoder"}


def test_the_command_opens_each_label_in_the_browser(film, tmp_path, monkeypatch):
    """At the address where the app runs."""
    opened = []
    monkeypatch.setattr("webbrowser.open", opened.append)
    _scan(["--camera", film, "--open", "--at", "http://127.0.0.1:8080/"], tmp_path)

    assert opened == [f"http://127.0.0.1:8080/c/{code}" for code in CODES]


def test_the_command_without_a_camera_is_one_sentence(tmp_path):
    """Status 1."""
    answer = _scan(["--camera", "97"], tmp_path)

    assert answer.exit_code == 1
    assert answer.stderr.strip().endswith(".")


def _scan(args, tmp_path, typed=""):
    return CliRunner().invoke(main, ["--data", str(tmp_path / "loft"), "scan", *args], input=typed)


def test_a_use_is_recorded_as_the_label_is_seen(film, tmp_path):
    """Cut off 40 cm of the first, take 5 of the second, nothing of the third."""
    linen, horn = Cloth(name="Linen"), Notion(kind=NotionKind.BUTTON, name="Horn", size_mm=15)
    with open_stash(tmp_path / "loft") as stash:
        for code in (CODES[0], CODES[2]):
            stash.cuts.receive(
                Cut(code="", cloth=linen, outline=Outline.rectangle(2000, 1400)), code=code
            )
        stash.bins.receive(Bin(code="", notion=horn, amount=9), code=CODES[1])
    answer = _scan(["--camera", film, "--record"], tmp_path, "40\n5\n\n")

    assert "Linen, 2.00 m x 140 cm" in answer.stdout
    with open_stash(tmp_path / "loft") as stash:
        assert answer.exit_code == 0
        assert [stash.cuts.get(CODES[n]).length_mm for n in (0, 2)] == [1600, 2000]
        assert stash.bins.get(CODES[1]).amount == 4


def test_more_than_there_is_is_said_and_the_watching_goes_on(film, tmp_path):
    """Nothing is recorded for the first; the other labels are still told."""
    with open_stash(tmp_path / "loft") as stash:
        stash.cuts.receive(
            Cut(code="", cloth=Cloth(name="Linen"), outline=Outline.rectangle(300, 1400)),
            code=CODES[0],
        )
    answer = _scan(["--camera", film, "--record"], tmp_path, "2 m\n")

    assert answer.exit_code == 0
    assert CODES[2] in answer.stdout
    with open_stash(tmp_path / "loft") as stash:
        assert stash.cuts.get(CODES[0]).length_mm == 300
