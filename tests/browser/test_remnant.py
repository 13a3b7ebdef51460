"""A remnant on the floor keeps its grain and its selvedge, corrected over its own photograph."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from trace_photo import Camera, Scene
from trace_photo import photograph as taken

from stash.model import Cloth, Cut, Outline

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def remnant_photo(tmp_path_factory):
    """42 x 30 cm of cloth with the arrow card on it, beside the calibration sheet."""
    spots = [(260, -90), (680, -90), (680, 210), (260, 210)]
    scene = Scene(pieces=(spots,), cards=((380, 38, 0.0),), paper=(120, 80, 60),
                  floor=(190, 200, 205), planks=False, density=2.5, window=(-500, -600, 1200, 900))
    file = tmp_path_factory.mktemp("remnant") / "floor.jpg"
    file.write_bytes(taken(scene, Camera(
        target_mm=(330, 80), height_mm=1050, tilt_deg=12, size_px=(2000, 1500),
        bend=(-0.02, 0.006))))
    return file


def test_the_selvedge_is_ticked_over_the_photograph_and_kept(
        page, loft, record, remnant_photo, fits):
    """Two straight edges are taken for it; the one that was cut is unticked, the other recorded."""
    code = record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(600, 400))).code
    page.goto(f"{loft[0]}/tracing/remnant/{code}")
    page.get_by_label("One or several photographs").set_input_files(remnant_photo)
    page.get_by_role("button", name="Trace").click()
    drawing = page.locator('svg[data-trace="0"]')
    drawing.wait_for()
    page.wait_for_load_state()

    expect(drawing.locator("image")).to_have_count(1)
    ticks = page.locator("[data-selvedge]")
    expect(ticks).to_have_count(2)
    for tick in ticks.all():
        expect(tick).to_be_checked()
    ticks.nth(1).uncheck()
    expect(drawing.locator(".selvedge-line.unticked")).to_have_count(1)
    fits(page)
    page.get_by_role("button", name="Save this outline").click()
    page.get_by_text("The record now has the traced outline.").wait_for()

    cut = record.cuts.get(code)
    [(start, stop)] = cut.selvedges_mm
    assert abs(stop[0] - start[0]) == pytest.approx(420, abs=6)
    assert cut.width_mm == pytest.approx(300, abs=5)
    page.get_by_text("Thick edges are selvedge").wait_for()
    expect(page.locator(".drawing line.selvedge")).to_have_count(1)
    fits(page)
