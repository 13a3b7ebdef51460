"""The cutting table on a phone: fetched by scan, ticked with a thumb, the network cut off."""

import pytest
from playwright.sync_api import expect

from stash.ledger import CutHold
from stash.model import Cloth, Cut, Laid, Lay, Outline, Piece, Placement, Plan

pytestmark = pytest.mark.browser

PANEL = Piece(name="panel", outline_mm=((0, 0), (600, 0), (600, 700), (0, 700)), quantity=2)
FACING = Piece(name="facing", outline_mm=((0, 0), (400, 0), (400, 200), (0, 200)), quantity=1)


@pytest.fixture
def held(record):
    """A plan that holds two panels and a facing on 2 m x 1.4 m; (its name, the cut's code)."""
    name = f"Tunic {len(record.plans.all())}"
    code = record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(2000.0, 1400.0),
        place="Loft shelf 2")).code
    record.plans.save(Plan(name=name))
    lay = Lay(
        placements=(
            Placement(piece="panel#1", x_mm=0.0, y_mm=0.0),
            Placement(piece="panel#2", x_mm=0.0, y_mm=700.0),
            Placement(piece="facing#1", x_mm=600.0, y_mm=0.0)),
        length_mm=1000.0, width_mm=1400.0, utilisation=0.66)
    laid = Laid(cut=record.cuts.get(code), lay=lay, pieces=(PANEL, FACING))
    record.plans.hold(name, cuts={code: CutHold(plan="", from_mm=0.0, to_mm=1000.0, laid=laid)})
    return name, code


def test_pieces_are_ticked_and_recorded_when_the_network_is_back(page, loft, record, held):
    """Two panels now, the facing later; a facing is spoiled and cut again; then all is undone."""
    name, code = held
    before = record.ledger.cached()
    page.goto(f"{loft[0]}/plans/of/{name}")
    page.get_by_role("link", name="To the cutting table").click()
    page.wait_for_url("**/cutting/**")
    said = page.locator("[data-fetched]")

    page.get_by_label("Scan or type the label").fill("AAAAAA")
    page.get_by_role("button", name="Is it right?").click()
    expect(said).to_contain_text("No: that one is not for this plan.")
    page.get_by_label("Scan or type the label").fill(f"http://stash.local:5000/c/{code.lower()}")
    page.get_by_role("button", name="Is it right?").click()
    expect(said).to_contain_text("Yes: it belongs to this plan.")
    expect(page.locator(f"[data-code='{code}']")).to_be_checked()

    page.get_by_role("checkbox", name="panel 1").check()
    page.reload()  # the phone slept
    expect(page.get_by_role("checkbox", name="panel 1")).to_be_checked()
    page.get_by_role("checkbox", name="panel 2").check()

    page.context.set_offline(True)
    page.get_by_role("button", name="Record what is ticked").click()
    page.locator("[data-waiting]").wait_for(state="visible")
    assert record.cuts.get(code).length_mm == 2000.0
    page.context.set_offline(False)
    page.get_by_text("Cut. What is left is on record").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(1400.0)
    assert record.plans.held_by(code) == (name,)

    page.goto(f"{loft[0]}/cutting/{name}")
    page.get_by_role("checkbox", name="facing", exact=True).check()
    page.get_by_label("spoiled, cut again").check()
    page.get_by_role("button", name="Record what is ticked").click()
    page.get_by_text("Cut. What is left is on record").wait_for()
    assert record.plans.held_by(code) == ()
    left = record.cuts.get(code).outline.area_mm2
    assert left < 1400 * 1400 - 2 * 400 * 200 + 1

    for event in [e for e in record.ledger.history(code) if e.kind == "cut-out"]:
        record.ledger.undo(event.id)
    assert record.ledger.cached() == before


def test_the_table_fits_a_phone(page, loft, held, fits):
    """Nothing runs off the side of the page; the drawing scrolls by itself when it is larger."""
    page.goto(f"{loft[0]}/cutting/{held[0]}")
    fits(page)
    larger = page.get_by_role("button", name="Larger")
    larger.click()
    expect(larger).to_have_attribute("aria-pressed", "true")
    fits(page)


def test_a_tapped_piece_is_seen_alone_with_its_chalk_marks(page, loft, held):
    """From the lay to one piece, to the next in cutting order, and back; ticked on the way."""
    name, code = held
    page.goto(f"{loft[0]}/cutting/{name}")
    page.locator(f".whole-lay a[href='#piece-{code}-1']").first.dispatch_event("click")
    page.goto(f"{loft[0]}/cutting/{name}#piece-{code}-1")
    alone = page.locator(f"#piece-{code}-1")
    expect(alone).to_be_visible()
    expect(page.locator("#fetch")).to_be_hidden()
    for measure in ("0 cm", "60 cm", "70 cm"):
        expect(alone.locator("text.measure").get_by_text(measure, exact=True)).not_to_have_count(0)
    alone.get_by_role("button", name="It is cut").click()
    expect(page.locator(f"#piece-{code}-2")).to_be_visible()
    expect(alone).to_be_hidden()
    page.locator(f"#piece-{code}-2").get_by_role("link", name="Whole lay").click()
    expect(page.locator(".whole-lay")).to_be_visible()
    expect(page.get_by_role("checkbox", name="panel 1")).to_be_checked()


def test_the_table_opens_again_without_a_network(page, loft, held):
    """The page is reloaded offline: ticks, drawings and pieces alone are all there."""
    name, code = held
    page.goto(f"{loft[0]}/cutting/{name}")
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.reload()
    page.get_by_role("checkbox", name="panel 1").check()
    page.context.set_offline(True)
    page.reload()
    expect(page.locator("[data-pocket-kept]")).to_be_visible()
    expect(page.get_by_role("checkbox", name="panel 1")).to_be_checked()
    expect(page.locator(".lay .piece").first).not_to_have_css("fill", "rgb(0, 0, 0)")
    page.goto(f"{loft[0]}/cutting/{name}#piece-{code}-2")
    expect(page.locator(f"#piece-{code}-2")).to_be_visible()
    page.context.set_offline(False)


def test_without_scripts_it_is_said_whether_the_right_cut_lies_there(open_page, loft, record, held):
    """Typed labels are answered by the page itself, one after the other."""
    name, code = held
    other = loft[2]["cuts"][0]
    page = open_page(java_script_enabled=False)
    page.goto(f"{loft[0]}/cutting/{name}")
    right = f"Yes: it belongs to this plan. Dune linen {code}"
    for typed, answer in ((code, right), (other, "No: that one is not for this plan.")):
        page.get_by_label("Scan or type the label").fill(typed)
        page.get_by_role("button", name="Is it right?").click()
        expect(page.locator("[data-fetched]")).to_contain_text(answer)
    expect(page.locator("[data-fetched]")).to_contain_text(right)
    expect(page.locator("[data-fetched]")).to_contain_text(other)


def test_the_live_camera_confirms_what_lies_on_the_table(loft, filmed, held):
    """The label before the camera belongs to the plan: its line is ticked."""
    name, code = held
    page = filmed([code])
    page.goto(f"{loft[0]}/cutting/{name}")
    page.get_by_text("By photograph or live camera").click()
    page.get_by_role("button", name="Start the camera").click()
    page.locator("[data-fetched]", has_text="Yes: it belongs to this plan.").wait_for()
    expect(page.locator(f"[data-code='{code}']")).to_be_checked()
