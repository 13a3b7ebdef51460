"""Waiting for an answer: the page renews itself, also where the network falters."""

import pytest
from playwright.sync_api import expect

pytestmark = pytest.mark.browser


def ask(page, loft) -> None:
    """A question that takes some seconds: the whole stash for two garments."""
    address, _, made = loft
    # A service worker fetches pages itself, past the routes of a test.
    page.add_init_script("delete Navigator.prototype.serviceWorker")
    page.goto(f"{address}/become/")
    page.get_by_label("Trousers (pants)", exact=True).check()
    page.locator("input[name=garment][value=shirt]").check()
    page.get_by_label(made["people"][0]).check()
    page.get_by_role("button", name="Look through the stash").click()


def test_an_answer_still_comes_when_requests_fail(page, loft, unhurried):
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
    with page.expect_response(lambda answer: answer.status == 503):
        ask(page, loft)
    unhurried.set()

    page.wait_for_selector("[data-over=yes]")
    assert sorted(lost) == [False, True]


def test_a_page_whose_search_is_forgotten_is_loaded_anew(page, loft):
    """The app was started again meanwhile; the page itself then says what to do."""
    loaded, waited = [], []

    def still_at_work(route):
        answer = route.fetch()
        route.fulfill(response=answer,
                      body=answer.text().replace('data-over="yes"', 'data-over="no"'))

    def forgotten(route):
        waited.append(page.locator("[data-over=no]").count())
        route.fulfill(status=404, body="")

    ask(page, loft)
    page.wait_for_selector("[data-over=yes]")
    page.on("request", lambda request: request.resource_type == "document"
            and loaded.append(request.url))
    page.route(page.url, still_at_work, times=1)
    page.route("**/waiting/*/state", forgotten, times=1)
    page.reload()

    page.wait_for_selector("[data-over=yes]")
    assert (loaded, waited) == ([page.url, page.url], [1])


def test_a_page_whose_answer_is_gone_for_good_says_to_ask_again(page, loft):
    """Its address leads to nothing more: no page waits for ever."""
    ask(page, loft)
    page.wait_for_selector("[data-over=yes]")
    own = page.url

    def of_yesterday(route):
        answer = route.fetch(url=own)
        route.fulfill(response=answer, body=answer.text()
                      .replace('data-over="yes"', 'data-over="no"')
                      .replace(own.rsplit("/", 1)[1], "of-yesterday"))

    gone = f"{loft[0]}/become/of-yesterday"
    page.route(gone, of_yesterday, times=1)
    with page.expect_response("**/waiting/of-yesterday/state"):
        page.goto(gone)

    page.get_by_text("no longer kept").wait_for()
    expect(page.locator("[data-job]")).to_have_count(0)
