"""Waiting for an answer: the page renews itself, also where the network falters."""

import pytest

pytestmark = pytest.mark.browser


def ask(page, loft) -> None:
    """A question that takes some seconds: the whole stash for two garments."""
    address, _, made = loft
    page.goto(f"{address}/become/")
    page.get_by_label("Trousers", exact=True).check()
    page.locator("input[name=garment][value=shirt]").check()
    page.get_by_label(made["people"][0]).check()
    page.get_by_role("button", name="Look through the stash").click()


def test_an_answer_still_comes_when_requests_fail(page, loft):
    """Of what the script asks for, the first state is lost, and the first page is a refusal."""
    lost = []

    def falter(route):
        state = route.request.url.endswith("/state")
        if route.request.resource_type != "fetch" or state in lost:
            return route.continue_()
        lost.append(state)
        return route.abort() if state else route.fulfill(status=503, body="<p>Busy.</p>")

    page.route("**/become/**", falter)
    page.route("**/waiting/**", falter)
    ask(page, loft)

    page.wait_for_selector("[data-over=yes]", timeout=120_000)
    assert sorted(lost) == [False, True]


def test_a_page_whose_search_is_forgotten_is_loaded_anew(page, loft):
    """The app was started again meanwhile; the page itself then says what to do."""
    loaded = []
    page.on("request", lambda request: request.resource_type == "document"
            and loaded.append(request.url))
    page.route("**/waiting/*/state", lambda route: route.fulfill(status=404, body=""), times=1)
    ask(page, loft)

    page.wait_for_selector("[data-over=yes]", timeout=120_000)
    assert loaded.count(page.url) == 2
