"""The life of a cut on its page: which end, bites, loans, and figures that explain themselves."""

from __future__ import annotations

import pytest

from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline, Plan
from stash.workroom.report import By, report

BITTEN = Outline(((0, 0), (2000, 0), (2000, 1100), (1600, 1100), (1600, 1400), (0, 1400)))


@pytest.fixture
def cut(web_stash):
    """2 m x 1.4 m, its far left corner of 40 x 30 cm gone."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune linen"), outline=BITTEN)).code


@pytest.fixture
def send(web_client, cut):
    """Sends one of the forms of its page; the text of the page that follows."""
    return lambda act, **form: web_client.post(
        f"/cuts/{cut}/{act}", data=form, follow_redirects=True).text


def test_the_title_never_claims_a_rectangle_that_is_not_there(web_client, cut):
    """What is whole stands beside the size; the account of what is left below the drawing."""
    page = web_client.get(f"/c/{cut}").text
    assert "of which 1.60 m × 140 cm whole" in page
    assert "2.00 m put on record" in page


def test_a_quick_cut_off_a_bitten_one_asks_which_end(send, web_stash, cut):
    """Without an end it is refused with a sentence; with one it is done."""
    assert "near or far" in send("cut-off", quick="50 cm")
    send("cut-off", quick="50 cm", end="near")
    assert web_stash.cuts.get(cut).outline.area_mm2 == pytest.approx(BITTEN.area_mm2 - 500 * 1400)


def test_a_strip_and_two_squares(send, web_stash, cut):
    """From the lower edge all along; then off the near end, side by side."""
    send("part", part_width="20 cm", edge="right")
    send("part", count="2", part_length="40 cm", part_width="40 cm", end="near", edge="left")
    left = BITTEN.area_mm2 - 2000 * 200 - 2 * 400 * 400
    assert web_stash.cuts.get(cut).outline.area_mm2 == pytest.approx(left)


def test_a_flaw_is_a_hole_and_the_ragged_end_is_squared_off(send, web_stash, cut):
    """A hole of 10 cm in the middle; then the largest rectangle alone."""
    send("missing", end="", edge="", from_near="30 cm", from_right="20 cm",
         part_length="10 cm", part_width="10 cm")
    assert len(web_stash.cuts.get(cut).outline.holes_mm) == 1
    send("square")
    assert web_stash.cuts.get(cut).outline.is_rectangle


def test_lent_back_and_sold(send, web_stash, cut):
    """Who has it is said; sold it is gone, and undoing says what it was."""
    assert "Bram Okell has it" in send("lend", to="Bram Okell")
    assert "It is back." in send("back")
    send("leave", how="sell", price="12")
    assert web_stash.cuts.card(cut).gone == "sold"
    event = web_stash.ledger.latest(1)[0]
    web_stash.ledger.undo(event.id)
    assert "Taken back: Sold" in send("lend", to="Ada")


def test_a_cut_may_come_in_with_a_corner_missing(web_client, web_stash):
    """The form of a new cut takes one bite."""
    web_client.post("/cuts/new", data={
        "cloth": "Drill", "length": "2 m", "width": "1.4 m", "end": "far", "edge": "left",
        "part_length": "40 cm", "part_width": "30 cm"})
    (cut,) = web_stash.cuts.all()
    assert cut.outline.area_mm2 == pytest.approx(BITTEN.area_mm2)


def test_about_half_for_a_plan_is_used_for_it(web_client, web_stash):
    """Of a cut and of a bin; looking back by plan finds the cloth."""
    cut = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Drill"), outline=Outline.rectangle(2000.0, 1400.0))).code
    web_stash.plans.save(Plan(name="Curtains"))
    web_client.post(f"/cuts/{cut}/cut-off", data={"share": "0.5", "plan": "Curtains"})
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(1000.0)
    rows = {row.key: row for row in report(web_stash, By.PLAN).rows}
    assert rows["Curtains"].mm["used"] == pytest.approx(1000.0)
    held = web_stash.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.THREAD, name="Grey thread"), amount=100_000.0)).code
    web_client.post(f"/bins/{held}/take", data={"share": "0.5", "plan": "Curtains"})
    assert web_stash.bins.get(held).amount == pytest.approx(50_000.0)


def test_two_cuts_are_joined_on_a_page_and_undone(web_client, web_stash, cut):
    """Both are gone into a new one with a code of its own; undone, both are back."""
    other = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Drill"), outline=Outline.rectangle(500.0, 1400.0))).code
    before = web_stash.ledger.cached()
    answer = web_client.post(f"/cuts/{cut}/join", data={
        "other": other, "joined_length": "1.2 m", "joined_width": "1.4 m"})
    joined = answer.headers["Location"].rpartition("/")[2]
    assert web_stash.cuts.get(joined).length_mm == pytest.approx(1200.0)
    assert web_stash.cuts.card(cut).gone == web_stash.cuts.card(other).gone == "joined"
    web_stash.ledger.undo(web_stash.ledger.latest(1)[0].id)
    assert web_stash.ledger.cached() == before
    assert web_client.post(f"/cuts/{cut}/join", data={
        "other": cut, "joined_length": "1 m", "joined_width": "1 m"}).status_code == 422
