"""An answer while it is looked for and afterwards: first fits at once, stopped, found, sifted."""

import re

import pytest
from playwright.sync_api import expect

from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser

LONG_MS = 300_000


def ask(page, address, made, look: str) -> None:
    """An A-line skirt out of the whole stash."""
    page.goto(f"{address}/become/")
    page.get_by_label("A-line skirt", exact=True).check()
    page.get_by_label(made["people"][0], exact=True).check()
    page.locator("summary", has_text="How it is laid").click()
    page.get_by_label("Search for").select_option(label=look)
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-job]")


def test_a_running_question_shows_its_first_fit_and_can_be_stopped(page, loft, fits, unhurried):
    """How long, what is tried, the first lay drawn, and a stop that keeps the best so far."""
    address, _, made = loft
    ask(page, address, made, "a thorough search")

    page.wait_for_selector("[data-over=no] .lay-drawing img:visible")
    status = page.get_by_role("status")
    expect(status).to_contain_text(re.compile(r"laid on \d+ cuts"))
    expect(status).to_contain_text(re.compile(r"\d+ s"))
    expect(page.locator("progress")).to_have_count(1)
    fits(page)
    page.get_by_role("button", name="Stop here, with the best so far").click()

    page.wait_for_selector("[data-over=yes]")
    expect(page.get_by_text("fits", exact=True)).not_to_have_count(0)
    expect(page.locator(".lay-drawing img:visible")).not_to_have_count(0)


def test_an_answer_is_found_after_a_restart_sifted_and_laid_side_by_side(page, loft, fits):
    """Another app on the same folder: from the list to the answer, a facet, two lays at a scale."""
    address, data, made = loft
    ask(page, address, made, "a quick look")
    page.wait_for_selector("[data-over=yes]")

    with answering(create_app(data), "127.0.0.1", 0) as again:
        page.goto(f"http://127.0.0.1:{again.port}/asked/")
        page.locator("main .card a").first.click()
        page.wait_for_url(re.compile("/asked/.+"))
        page.get_by_text("Asked on").wait_for()
        every = page.locator("li.card").count()
        fits(page)

        page.get_by_label("Washed", exact=True).select_option("yes")
        page.get_by_label("Fibre", exact=True).select_option("cotton")
        page.get_by_role("button", name="Show these").click()
        page.wait_for_url("**washed=yes**")
        expect(page.locator("li.card")).not_to_have_count(every)
        expect(page.locator("li.card")).not_to_have_count(0)

        boxes = page.locator("input[name=side]")
        boxes.nth(0).check()
        boxes.nth(1).check()
        page.get_by_role("button", name="Show these").click()
        page.get_by_text("Side by side, at one scale").wait_for()
        expect(page.locator("svg.sides:visible image")).to_have_count(2)
        fits(page)


def test_how_far_and_what_to_buy_outlive_the_app(page, loft):
    """Asked of one app; another on the same folder shows both at their old addresses."""
    address, data, made = loft
    page.goto(f"{address}/far/tote-bag/")
    page.get_by_role("button", name="Find out").click()
    page.wait_for_selector("[data-over=yes]", timeout=LONG_MS)
    far = page.url.removeprefix(address)
    reach = page.locator(".big").first.inner_text()

    page.goto(f"{address}/shopping/")
    page.get_by_label("Shorts", exact=True).check()
    page.get_by_label(made["people"][0], exact=True).check()
    page.get_by_role("button", name="What must I buy?").click()
    page.wait_for_selector("[data-over=yes]", timeout=LONG_MS)
    list_, told = page.url.removeprefix(address), page.locator("main li").all_inner_texts()

    with answering(create_app(data), "127.0.0.1", 0) as again:
        page.goto(f"http://127.0.0.1:{again.port}{far}")
        expect(page.locator(".big").first).to_have_text(reach, use_inner_text=True)
        page.goto(f"http://127.0.0.1:{again.port}{list_}")
        expect(page.locator("main li")).to_have_text(told, use_inner_text=True)
        page.goto(f"http://127.0.0.1:{again.port}/asked/")
        expect(page.locator("main .card a").nth(1)).to_be_visible()
