"""From paper back to the record: printed, rendered as a photograph, scanned."""

from __future__ import annotations

import json

import cv2
import numpy as np
import pypdfium2
import pytest
from click.testing import CliRunner
from PIL import Image

from web.command import main


def run(folder, *args: str) -> dict:
    """One command with --json; its answer."""
    answer = CliRunner().invoke(main, ["--data", str(folder / "loft"), *args, "--json"])
    assert answer.exit_code == 0, answer.output
    return json.loads(answer.stdout)


def rendered(path) -> np.ndarray:
    """The first page at 200 dpi, grey."""
    with pypdfium2.PdfDocument(path) as document:
        return document[0].render(scale=200 / 72, grayscale=True).to_numpy().squeeze()


def askew(page: np.ndarray) -> np.ndarray:
    """The sheet as a hand-held camera sees it: perspective, uneven light, noise, a little blur."""
    height, width = page.shape
    corners = np.float32([(0, 0), (width, 0), (width, height), (0, height)])
    seen = np.float32([(150, 90), (width - 60, 40), (width + 40, height), (30, height - 130)])
    view = cv2.getPerspectiveTransform(corners, seen)
    picture = cv2.warpPerspective(page, view, (width + 80, height + 40), borderValue=120)
    light = np.linspace(0.55, 1.0, picture.shape[1])[None, :]
    noise = np.random.default_rng(4).normal(0, 5, picture.shape)
    return np.clip(cv2.GaussianBlur(picture, (0, 0), 1.0) * light + noise, 0, 255).astype(np.uint8)


@pytest.mark.parametrize("sheet", ["a4-24", "a4-24-wide", "a4-21", "letter-30"])
def test_a_sheet_of_blank_labels_photographed_gives_its_codes_in_order(sheet, tmp_path):
    """Every label of the page, row by row, from one photograph."""
    count = {"a4-21": 21, "letter-30": 30}.get(sheet, 24)
    printed = run(tmp_path, "labels", "--blank", str(count), "--sheet", sheet,
                  "--out", str(tmp_path / "sheet.pdf"))
    photograph = tmp_path / "photo.jpg"
    Image.fromarray(askew(rendered(tmp_path / "sheet.pdf"))).save(photograph, quality=80)
    scanned = run(tmp_path, "scan", str(photograph))["results"][0]

    assert [seen["code"] for seen in scanned["codes"]] == printed["codes"]


def test_the_smallest_labels_are_read_from_a_photograph_too(tmp_path):
    """65 on a page; at least 63 from one photograph of it, none of them wrong."""
    printed = run(tmp_path, "labels", "--blank", "65", "--sheet", "a4-65",
                  "--out", str(tmp_path / "sheet.pdf"))
    photograph = tmp_path / "photo.jpg"
    Image.fromarray(askew(rendered(tmp_path / "sheet.pdf"))).save(photograph, quality=85)
    scanned = run(tmp_path, "scan", str(photograph))["results"][0]
    codes = [seen["code"] for seen in scanned["codes"]]

    assert len(codes) >= 63
    assert set(codes) <= set(printed["codes"])
