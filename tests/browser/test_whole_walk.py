"""Cutting day from the question to the last undo, on a phone, the network lost in the middle."""

import json
import os
from pathlib import Path

import pytest
from playwright.sync_api import expect

from stash.model.exact import to_plain
from stash.workroom import labels, settings

pytestmark = pytest.mark.browser

CLOTH, PLAN, NEXT = "Plover crepe", "Holiday set", "Rehearsal trousers"


def state_of(record) -> bytes:
    """Everything that the events add up to, as bytes."""
    states = {subject: to_plain(state) for subject, state in record.ledger.cached().items()}
    return json.dumps(states, sort_keys=True, default=str).encode()


@pytest.fixture
def picture(tmp_path):
    """Takes a numbered picture of a step; kept where PICTURES names a folder."""
    folder = Path(os.environ.get("PICTURES", tmp_path))
    taken = []

    def take(page, name):
        taken.append(name)
        page.screenshot(path=folder / f"{len(taken):02}-{name}.png")

    return take


def hold(page, address, code, garments, person, plan):
    """Ask for garments on this cut, and hold the lay for a plan."""
    page.goto(f"{address}/become/?cut={code}")
    for garment in garments:
        page.locator(f"[name=garment][value='{garment}']").check()
    page.locator(f"[name=person][value='{person}']").check()
    page.locator("[name=seconds]").evaluate("(s) => { s.selectedIndex = s.options.length - 1; }")
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]")
    page.locator(f"[id='{code}']").get_by_text("Hold it for a plan").click()
    page.locator(f"[id='{code}']").get_by_label("Name of the plan").fill(plan)
    page.locator(f"[id='{code}']").get_by_role("button", name="Hold", exact=True).click()
    page.get_by_text(f"Held for “{plan}”").wait_for()


def test_cutting_day_from_the_question_to_the_last_undo(loft, record, filmed, picture):
    """Planned, laid, fetched by scan, ticked with the network lost, one facing cut again, two
    remnants labelled from a sheet; trousers laid on the bitten cut; all undone, byte for byte."""
    address, _, made = loft
    cloth = [cut for cut in record.cuts.all() if cut.cloth.name == CLOTH]
    code = max(cloth, key=lambda cut: cut.length_mm).code
    settings.change(record, {"remnant_mm": "6 cm"})
    sheet = labels.reserve(record, 24)
    first, newest = state_of(record), record.ledger.newest()
    page = filmed([code])

    hold(page, address, code, ["shirt", "shorts"], made["people"][3], PLAN)
    picture(page, "held")
    page.get_by_role("link", name="To the cutting table").click()
    page.wait_for_url("**/cutting/**")
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.reload()  # what a phone does when it wakes; now the page is kept as well

    page.get_by_text("By photograph or live camera").click()
    page.get_by_role("button", name="Start the camera").click()
    page.locator("[data-fetched]", has_text="Yes: it belongs to this plan.").wait_for()
    picture(page, "fetched")
    page.get_by_role("button", name="Stop").click()

    pieces = page.locator("[data-alone]")
    all_pieces = pieces.count()
    page.locator(".whole-lay a").first.evaluate("(a) => { location.hash = a.href.baseVal; }")
    page.goto(f"{address}/cutting/{PLAN}#piece-{code}-1")
    picture(page, "alone")
    page.locator(f"[id='piece-{code}-1'] [data-done]").click()
    expect(page.locator(f"[id='piece-{code}-2']")).to_be_visible()
    page.context.set_offline(True)
    page.locator(f"[id='piece-{code}-2'] [data-done]").click()
    page.reload()
    picture(page, "offline")
    expect(page.locator("[data-pocket-kept]")).to_be_visible()
    page.goto(f"{address}/cutting/{PLAN}#lay-{code}")
    expect(page.locator("[name=piece]:checked")).to_have_count(2)
    page.get_by_role("button", name="Record what is ticked").click()
    page.locator("[data-waiting]").wait_for(state="visible")
    picture(page, "waiting")
    assert record.ledger.newest() == newest + 1
    page.context.set_offline(False)
    page.get_by_text("Cut. What is left is on record").wait_for()
    picture(page, "sent")
    assert record.ledger.newest() == newest + 2

    page.goto(f"{address}/cutting/{PLAN}")
    rest = page.locator("[name=piece]")
    expect(rest).to_have_count(all_pieces - 2)
    for n in range(rest.count()):
        rest.nth(n).check()
    page.locator("tr", has_text="facing").first.get_by_label("spoiled, cut again").check()
    page.get_by_label("Blank labels you stuck").fill(" ".join(sheet[:2]))
    picture(page, "spoiled")
    page.get_by_role("button", name="Record what is ticked").click()
    page.get_by_text("Cut. What is left is on record").wait_for()
    picture(page, "remnants")
    assert {record.cuts.get(blank).came_from for blank in sheet[:2]} == {code}
    assert not record.cuts.get(code).outline.is_rectangle

    hold(page, address, code, ["trousers"], made["people"][3], NEXT)
    picture(page, "trousers")
    assert record.plans.held_by(code) == (NEXT,)

    while record.ledger.newest() > newest and state_of(record) != first:
        page.goto(f"{address}/history/")
        page.get_by_role("button", name="Undo").first.click()
        page.locator(".note", has_text="Taken back.").wait_for()
    picture(page, "undone")
    assert state_of(record) == first
