"""A paper pattern: photographed, set right on its page by a tap, asked for on the stash."""

import importlib.util
import re
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect

from stash.model import NotionKind, Part

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def photographed(tmp_path_factory):
    """Half a back, its centre back straight and a notch drawn on its side, in two photographs
    that overlap: neither shows all of it, both the calibration sheet.
    """
    source = Path(__file__).parents[1] / "bench" / "trace_photo.py"
    spec = importlib.util.spec_from_file_location("trace_photo", source)
    studio = importlib.util.module_from_spec(spec)
    sys.modules["trace_photo"] = studio
    spec.loader.exec_module(studio)
    half = [(260, -80), (460, -80), (520, 370), (260, 370)]
    notch = studio.Ink(points=[(490, 145), (480.1, 146.3)], grey=60)
    scene = studio.Scene(pieces=[half], ink=[notch], window=(-350, -450, 850, 800), density=3.0)
    over = [studio.Camera(tilt_deg=4, target_mm=(230, y), height_mm=640, size_px=(2400, 1800))
            for y in (20, 290)]
    floor = tmp_path_factory.mktemp("floor")
    files = []
    for n, photo in enumerate(studio.photographs(scene, over)):
        files.append(floor / f"half {n + 1}.jpg")
        files[-1].write_bytes(photo)
    return files


def test_from_the_paper_to_the_cut_that_makes_it(page, loft, record, photographed):
    """Two photographs are put together, the notch that was drawn is kept, the half is opened out
    by a tap on its straight edge, its notions and its cloth are said, and the stash answers
    which cut makes it and what of the buttons is there.
    """
    address, _, _ = loft
    name = f"Paper top {page.viewport_size['width']}"
    page.goto(f"{address}/patterns/")
    page.get_by_label("One or several photographs").set_input_files(photographed)
    page.get_by_role("button", name="Trace").click()
    page.locator('svg[data-trace="0"]').wait_for()
    page.get_by_text("Photographs 1, 2 were put together").wait_for()
    page.wait_for_load_state()
    page.locator('[data-offer="0-0"]').click()
    expect(page.locator('[data-notch="0-0"]')).to_be_checked()
    page.get_by_label("Name of the pattern").fill(name)
    page.get_by_label("Name", exact=True).fill("back")
    page.get_by_role("button", name="Save the pattern").click()

    page.get_by_text("Point at the drawing").click()
    page.get_by_label("the fold of a half: open it out there").check()
    picture = page.locator('input[type="image"]')
    page.wait_for_load_state()
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    (piece,) = record.patterns.get(name).pieces
    straight = min(piece.outline_mm, key=lambda p: p[1])[1]
    ends = sum(abs(y - straight) < 8 for _, y in piece.outline_mm)
    side = 16 if ends >= 2 else box["width"] - 16
    picture.click(position={"x": side, "y": box["height"] / 2})
    expect(page.locator(".lead")).to_contain_text("version 2")
    expect(page.get_by_text("on the fold").filter(visible=True)).not_to_have_count(0)

    page.get_by_text("Set it right", exact=True).click()
    page.get_by_label("One more notion").first.select_option("button")
    page.get_by_label("How many, or how long").first.fill("5")
    page.get_by_label("Of which size").first.fill("15 mm")
    page.get_by_label("Cloth weight in g/m², from-to").fill("80-260")
    page.get_by_label("What it is").select_option("back")
    page.get_by_role("button", name="Save as a new version").click()
    expect(page.locator(".lead")).to_contain_text("version 3")
    page.get_by_role("link", name="Which cut makes it?").click()
    page.get_by_role("button", name="Look through the stash").click()

    page.get_by_text("big enough").wait_for()
    made = record.patterns.get(name)
    assert made.pieces[0].on_fold and made.pieces[0].part is Part.BACK
    wide = max(y for _, y in made.pieces[0].outline_mm)
    assert wide == pytest.approx(260, abs=4)
    assert len(made.pieces[0].notches_mm) == 2
    assert made.notions[0].kind is NotionKind.BUTTON
    said = page.locator("main").get_by_text(re.compile("button", re.IGNORECASE)).first
    said.wait_for()
