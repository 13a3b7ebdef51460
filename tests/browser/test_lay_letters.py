"""On a phone every letter of a drawn lay can be read: none is under 9 CSS pixels high."""

import pytest
from playwright.sync_api import expect

from stash.ledger import CutHold
from stash.model import Cloth, Cut, Laid, Lay, Outline, Piece, Placement, Plan

pytestmark = pytest.mark.browser

LEAST_PX = 9.0  # the least this house prints on a phone; a rule of our own
HEIGHTS = """(svg) => [...svg.querySelectorAll("text")].map((one) => {
  const at = one.getScreenCTM();
  return [one.textContent, parseFloat(getComputedStyle(one).fontSize) * Math.hypot(at.a, at.b)];
})"""
OUTSIDE = """(svg) => { const all = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter((one) => {
    const box = one.getBoundingClientRect();
    return box.left < all.left - 1 || box.right > all.right + 1 || box.top < all.top - 1
      || box.bottom > all.bottom + 1;
  }).map((one) => one.textContent); }"""

BODY = Piece(name="body", outline_mm=((0, 0), (900, 0), (900, 600), (0, 600)), quantity=2)
CUFF = Piece(name="cuff", outline_mm=((0, 0), (240, 0), (240, 60), (0, 60)), quantity=4)
TIE = Piece(name="tie with rather a long name", quantity=1,
            outline_mm=((0, 0), (1500, 0), (1500, 25), (0, 25)))
LAY = Lay(
    placements=(
        Placement(piece="body#1", x_mm=0.0, y_mm=0.0),
        Placement(piece="body#2", x_mm=0.0, y_mm=610.0, turn_deg=0.0),
        *(Placement(piece=f"cuff#{n}", x_mm=910.0, y_mm=70.0 * n) for n in range(1, 5)),
        Placement(piece="tie with rather a long name#1", x_mm=0.0, y_mm=1300.0)),
    length_mm=1500.0, width_mm=1400.0, utilisation=0.6)


@pytest.fixture
def held(record):
    """A plan whose lay has large pieces, cuffs close together and a narrow tie."""
    name = f"Small letters {len(record.plans.all())}"
    code = record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(2000.0, 1400.0))).code
    record.plans.save(Plan(name=name))
    laid = Laid(cut=record.cuts.get(code), lay=LAY, pieces=(BODY, CUFF, TIE))
    record.plans.hold(name, cuts={code: CutHold(plan="", from_mm=0.0, to_mm=1500.0, laid=laid)})
    return name


def readable(drawing) -> None:
    """Every letter is high enough, and nothing runs out of the drawing."""
    expect(drawing).to_be_visible()
    heights = drawing.evaluate(HEIGHTS)
    assert heights
    assert [one for one in heights if one[1] < LEAST_PX] == []
    assert drawing.evaluate(OUTSIDE) == []


@pytest.mark.parametrize("language", ["en", "fr", "de"])
def test_every_letter_of_a_lay_on_the_cutting_table_can_be_read(open_page, loft, held, language):
    """The whole lay, and each piece alone; what has no room for its name is told by number."""
    page = open_page("phone", locale=language)
    page.goto(f"{loft[0]}/cutting/{held}")
    lay = page.locator(".whole-lay > svg.on-phone")
    readable(lay)
    expect(lay.locator("text.number")).to_have_count(2 * (4 + 1))
    expect(lay.locator("text.row", has_text="tie with rather a long name")).not_to_have_count(0)
    page.goto(f"{loft[0]}/cutting/{held}#{page.locator('.alone').last.get_attribute('id')}")
    readable(page.locator(".alone svg >> visible=true"))


def test_every_letter_of_a_lay_in_a_card_can_be_read(open_page, loft, held):
    """The plan's drawing is a file of its own: opened as wide as the card shows it."""
    page = open_page("phone")
    page.goto(f"{loft[0]}/plans/of/{held}")
    picture = page.locator(".lay-drawing img:visible")
    expect(picture).not_to_have_js_property("naturalWidth", 0)
    wide = picture.bounding_box()["width"]
    sources = page.locator(".lay-drawing img").evaluate_all("(all) => all.map((one) => one.src)")
    assert len(set(sources)) == 2
    page.goto(loft[0] + page.locator(".lay-drawing img.on-phone").get_attribute("src"))
    page.locator("svg").evaluate(f"(svg) => svg.setAttribute('width', {wide})")
    readable(page.locator("svg"))
