"""A traced pattern is corrected over its photograph on its own page, at any time later."""

import io

import pytest
from PIL import Image, ImageDraw
from playwright.sync_api import expect

from stash.model import Piece, Underlay
from stash.model.underlay import photo_number
from stash.workroom import patterns

pytestmark = pytest.mark.browser

DRAWN = ("(n) => [...document.querySelectorAll('image')].filter(i => i.getBBox().width > 0).length"
         " === n")
RING = ((0.0, 0.0), (0.0, 180.0), (200.0, 220.0), (420.0, 240.0), (420.0, 0.0))


def photographed() -> bytes:
    """White paper on a brown floor, 2 mm a pixel, 40 mm of floor around it."""
    image = Image.new("RGB", (250, 160), "saddlebrown")
    ImageDraw.Draw(image).polygon(
        [((x + 40) / 2, (280 - y) / 2) for x, y in RING], fill="white")
    out = io.BytesIO()
    image.save(out, "JPEG")
    return out.getvalue()


@pytest.fixture
def paper(record, page, request):
    """The half kept as it was traced, one notch on its side."""
    jpeg = photographed()
    name = f"Jetty top {page.viewport_size['width']} {len(request.function.__name__)}"
    piece = Piece(
        name="back", outline_mm=RING, notches_mm=((310.0, 230.0),),
        under=Underlay(photo=photo_number(jpeg),
                       corners_mm=((-40.0, 280.0), (460.0, 280.0), (-40.0, -40.0))))
    patterns.keep(record, name, (piece,), "traced", photographs=[jpeg])
    patterns.correct(record, name, patterns.PatternChange(
        pieces=(patterns.parse_change("back: fold"),)))
    return name


def test_its_outline_is_dragged_over_the_photograph(page, loft, record, paper, until):
    """The corner of the hem, on the half that was photographed: the other half follows, and an
    undo takes it back.
    """
    page.goto(f"{loft[0]}/patterns/own/{paper}")
    page.get_by_text("Point at the drawing").click()
    page.get_by_text("Correct its outline").click()
    until(page, DRAWN, 2)
    svg = page.locator('svg[data-trace="0"]')
    svg.click(trial=True)  # it lies still, in view
    corner = svg.evaluate(
        "s => { const p = [...s.querySelector('polygon.traced').points].reduce("
        "(a, b) => a.x + a.y > b.x + b.y ? a : b).matrixTransform(s.getScreenCTM());"
        " return [p.x, p.y]; }")
    page.mouse.move(*corner)
    page.mouse.down()
    page.mouse.move(corner[0] - 12, corner[1] - 12, steps=3)
    page.mouse.up()
    page.get_by_role("button", name="Save this outline").click()
    expect(page.locator(".lead")).to_contain_text("version 3")

    (piece,) = record.patterns.get(paper).pieces
    sides = sorted((x, y) for x, y in piece.outline_mm if abs(y) > 150 and x > 250)
    assert len(sides) == 2 and sides[0][0] == pytest.approx(sides[1][0])
    assert sides[0][1] == pytest.approx(-sides[1][1]) and abs(sides[0][1]) < 236
    page.get_by_role("button", name="Undo").first.click()
    expect(page.locator(".lead")).to_contain_text("version 2")
    assert record.patterns.get(paper).pieces[0].on_fold


def test_it_is_hidden_by_a_tick_and_stays_so(page, loft, record, paper, fits):
    """A notch is taken off by a tap meanwhile; ticked off again the photograph is there."""
    page.goto(f"{loft[0]}/patterns/own/{paper}")
    page.get_by_text("Point at the drawing").click()
    under = page.locator(".pointed .under")
    expect(under).to_be_visible()
    page.get_by_label("Hide the photograph").check()
    expect(under).to_be_hidden()
    page.get_by_label("a notch to take off").check()
    picture = page.locator('input[type="image"]')
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    scale = (box["width"] - 28) / 480
    picture.click(position={"x": 14 + (240 + 230) * scale, "y": 14 + 310 * scale})
    expect(page.locator(".lead")).to_contain_text("version 3")

    assert record.patterns.get(paper).pieces[0].notches_mm == ()
    expect(page.get_by_label("Hide the photograph")).to_be_checked()
    expect(under).to_be_hidden()
    page.get_by_label("Hide the photograph").uncheck()
    expect(under).to_be_visible()
    fits(page)
