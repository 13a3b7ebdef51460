"""From a photograph of paper pieces to a lay on a cut, without leaving the page."""

import importlib.util
from pathlib import Path

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def photographed(tmp_path_factory):
    """A computed photograph of a 26 x 45 cm piece beside a calibration sheet."""
    source = Path(__file__).parents[1] / "bench" / "trace_photo.py"
    spec = importlib.util.spec_from_file_location("trace_photo", source)
    studio = importlib.util.module_from_spec(spec)
    import sys

    sys.modules["trace_photo"] = studio
    spec.loader.exec_module(studio)
    piece = [(260, -80), (520, -60), (500, 300), (420, 380), (270, 330)]
    file = tmp_path_factory.mktemp("floor") / "floor.jpg"
    file.write_bytes(studio.photograph(
        studio.Scene(pieces=[piece], window=(-250, -250, 800, 600)),
        studio.Camera(tilt_deg=15, target_mm=(200, 120), size_px=(2400, 1800))))
    return file


def test_a_traced_piece_is_dragged_kept_and_laid(page, loft, record, photographed):
    """The dragged corner is in the record, and some cut gives the piece."""
    address, _, _ = loft
    name = f"Traced yoke {page.viewport_size['width']}"
    page.goto(f"{address}/patterns/")
    page.get_by_label("One or several photographs").set_input_files(photographed)
    page.get_by_role("button", name="Trace").click()
    drawing = page.locator('svg[data-trace="0"]')
    drawing.wait_for()
    page.wait_for_load_state()
    drawing.click(trial=True)  # it lies still, in view
    x, y = drawing.evaluate(
        "s => { const p = s.querySelector('polygon.traced').points[0]"
        ".matrixTransform(s.getScreenCTM()); return [p.x, p.y]; }")

    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 20, y + 20, steps=3)
    page.mouse.up()
    page.get_by_label("Name of the pattern").fill(name)
    page.get_by_label("Name", exact=True).fill("yoke")
    page.get_by_role("button", name="Save the pattern").click()
    page.get_by_role("link", name="Which cut makes it?").click()
    page.get_by_role("button", name="Look through the stash").click()

    page.get_by_text("big enough").wait_for()
    [piece] = record.patterns.get(name).pieces
    assert piece.name == "yoke"
    assert 420 < max(px for px, _ in piece.outline_mm) - min(px for px, _ in piece.outline_mm) < 560


def test_a_touch_adds_a_point_and_another_takes_one_away(
        page, loft, record, photographed, fits, until):
    """Over the photograph itself, which lies under the outline; the record has what was drawn."""
    name = f"Traced again {page.viewport_size['width']}"
    page.goto(f"{loft[0]}/patterns/")
    page.get_by_label("One or several photographs").set_input_files(photographed)
    page.get_by_role("button", name="Trace").click()
    drawing = page.locator('svg[data-trace="0"]')
    drawing.wait_for()
    page.wait_for_load_state()
    drawing.click(trial=True)  # it lies still, in view
    count = "s => s.querySelector('polygon.traced').points.length"

    def has(points: int) -> None:
        until(page, f"(n) => ({count})(document.querySelector('svg[data-trace]')) === n", points)

    middle = ("s => { const p = s.querySelector('polygon.traced').points, m = s.getScreenCTM();"
              "const a = p[0].matrixTransform(m), b = p[1].matrixTransform(m);"
              "return [(a.x + b.x) / 2, (a.y + b.y) / 2]; }")
    before = drawing.evaluate(count)

    expect(drawing.locator("image")).to_have_count(1)
    page.get_by_text("adds a point").click()
    drawing.evaluate("s => s.scrollIntoView({block: 'center'})")  # clear of the bar at the foot
    page.mouse.click(*drawing.evaluate(middle))
    has(before + 1)
    page.get_by_text("takes a point away").click()
    for n in (0, 1):
        page.mouse.click(*drawing.evaluate(
            "(s, n) => { const p = s.querySelector('polygon.traced').points[n]"
            ".matrixTransform(s.getScreenCTM()); return [p.x, p.y]; }", n))
    has(before - 1)

    page.get_by_label("Name of the pattern").fill(name)
    page.get_by_role("button", name="Save the pattern").click()
    page.get_by_role("heading", name=name).wait_for()
    assert len(record.patterns.get(name).pieces[0].outline_mm) == before - 1
    fits(page)
