"""Quick hands and slow answers: what comes late undoes nothing, a second tap does nothing twice."""

import io

import pytest
from PIL import Image
from playwright.sync_api import expect

from stash.model import Cloth, Cut, Outline

pytestmark = pytest.mark.browser


@pytest.fixture
def unminded(page):
    """The page without its service worker, which fetches past the routes of a test."""
    page.add_init_script("delete Navigator.prototype.serviceWorker")
    return page


def plain(colour: str) -> dict:
    """A photograph of nothing but one colour."""
    out = io.BytesIO()
    Image.new("RGB", (1200, 900), colour).save(out, "JPEG")
    return {"name": f"{colour}.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def held_back(page, which):
    """The next request for this is answered only once what comes back is called."""
    held = []
    page.route(which, lambda route: held.append((route, route.fetch())), times=1)

    def let_go() -> None:
        while not held:
            page.evaluate("null")  # meanwhile what the stash answered comes in
        route, answer = held.pop()
        with page.expect_event("requestfinished", lambda one: one == route.request):
            route.fulfill(response=answer)
        page.evaluate("new Promise((done) => setTimeout(done))")  # the page has dealt with it

    return let_go


def test_an_answer_to_fewer_letters_does_not_undo_a_newer_one(unminded, loft):
    """The first comes after the second: list, address and field agree on the second."""
    page, (address, _, _) = unminded, loft
    page.goto(address)
    field, titles = page.get_by_label("Find", exact=True), page.locator("[data-row] .title")
    let_go = held_back(page, "**/?q=linen")

    with page.expect_request("**/?q=linen"):
        field.fill("linen")
    field.fill("voile")
    expect(titles.filter(has_not_text="voile")).to_have_count(0)
    let_go()

    expect(titles.filter(has_not_text="voile")).to_have_count(0)
    expect(page).to_have_url(f"{address}/?q=voile")


def test_a_facet_tapped_before_the_answer_keeps_what_was_typed(unminded, loft):
    """Both narrow the list down."""
    page, (address, _, _) = unminded, loft
    page.goto(address)
    page.route("**/?q=voile", lambda _: None)  # this answer never comes

    with page.expect_request("**/?q=voile"):
        page.get_by_label("Find", exact=True).fill("voile")
    page.get_by_role("link", name="Pictures", exact=True).click()

    expect(page.get_by_label("Find", exact=True)).to_have_value("voile")
    expect(page.locator(".pictured [data-row]")).not_to_have_count(0)
    expect(page.locator("[data-row]").filter(has_not_text="voile")).to_have_count(0)


def test_a_row_that_has_the_focus_keeps_it_when_the_list_is_renewed(unminded, loft):
    """Typed, and down by the arrow before the answer is there."""
    page, (address, _, _) = unminded, loft
    page.goto(f"{address}/?q=voile")
    let_go = held_back(page, "**/?q=voil")

    with page.expect_request("**/?q=voil"):
        page.get_by_label("Find", exact=True).press("End")
        page.keyboard.press("Backspace")
    page.keyboard.press("ArrowDown")
    row = page.locator("[data-row]").first
    expect(row).to_be_focused()
    let_go()

    expect(page).to_have_url(f"{address}/?q=voil")
    expect(row).to_be_focused()


def test_a_second_photograph_of_a_cut_tells_its_colour(unminded, loft):
    """What is told of the first one comes after that, and is let go."""
    page = unminded
    page.goto(f"{loft[0]}/entry/")
    let_go = held_back(page, "**/entry/look")
    photo, looked = page.get_by_label("Photograph", exact=True), page.locator("[data-looked]")

    with page.expect_request("**/entry/look"):
        photo.set_input_files(plain("white"))
    photo.set_input_files(plain("black"))
    expect(looked).to_contain_text("black")
    let_go()

    expect(looked).to_contain_text("black")
    expect(page.get_by_label("Colour", exact=True)).to_have_value("black")


def test_a_colour_told_late_does_not_undo_the_second_tap(unminded, loft, sheet_photo, tap):
    """Two places are tapped at once; the answer to the first comes last."""
    page = unminded
    page.goto(f"{loft[0]}/measure/")
    page.locator("#f-photo-colours").set_input_files(sheet_photo)
    svg = page.locator("[data-spots] svg")
    svg.wait_for()
    page.wait_for_load_state()
    let_go = held_back(page, "**other=")

    with page.expect_request("**other="):
        tap(svg, 0.6, 0.3)
    tap(svg, 0.7, 0.3)
    expect(page.locator("[data-chips] > span")).to_have_count(2)
    let_go()

    expect(page.locator("[data-chips] > span")).to_have_count(2)
    expect(page.locator("[data-match]")).to_contain_text("match")


def test_a_bolt_kept_at_once_has_its_photograph_and_is_kept_once(page, loft, tmp_path, twice):
    """Kept by a double tap before the picture is drawn small."""
    page.goto(f"{loft[0]}/pocket/")
    picture = tmp_path / "tag.jpg"
    Image.effect_noise((4000, 3000), 80).convert("RGB").save(picture)
    page.get_by_label("Price a metre").fill("12.50")
    page.locator("#f-tag").set_input_files(picture)
    twice(page.get_by_role("button", name="Keep this bolt in mind"))

    expect(page.locator("[data-bolts] li img")).to_have_count(1)
    expect(page.get_by_role("button", name="Keep this bolt in mind")).to_be_enabled()
    expect(page.locator("[data-bolts] li")).to_have_count(1)


@pytest.fixture
def shelf(record, request):
    """A place with two cuts: (its name, their codes)."""
    place = f"Shelf of {request.node.name}".replace("[", " ").replace("]", "")
    return place, [record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Shelf drill"), place=place,
        outline=Outline.rectangle(1000, 1400))).code for _ in range(2)]


def add(page, code: str) -> None:
    """A code typed at the stock-take."""
    page.get_by_label("Code", exact=True).fill(code)
    page.get_by_role("button", name="Add", exact=True).click()


def test_an_older_list_of_a_stock_take_gives_way_to_the_newer(unminded, loft, shelf):
    """Two codes one after the other; the list with one of them arrives last."""
    page, (place, codes) = unminded, shelf
    page.goto(f"{loft[0]}/stock-take/in/{place}")
    let_go = held_back(page, page.url)

    with page.expect_request(page.url):
        add(page, codes[0])
    add(page, codes[1])
    expect(page.locator("[data-complete]")).to_contain_text("2 of 2 found")
    let_go()

    expect(page.locator("[data-complete]")).to_contain_text("2 of 2 found")


def test_a_code_typed_without_a_network_stands_there_still(page, loft, shelf, until):
    """It is said, and the same code is added when the stash answers."""
    place, codes = shelf
    page.goto(f"{loft[0]}/stock-take/in/{place}")
    page.context.set_offline(True)
    add(page, codes[0])
    page.get_by_text("The stash does not answer").wait_for()
    expect(page.get_by_label("Code", exact=True)).to_have_value(codes[0])

    page.context.set_offline(False)
    until(page, "navigator.onLine")
    page.get_by_role("button", name="Add", exact=True).click()
    expect(page.locator("[data-complete]")).to_contain_text("1 of 2 found")
    expect(page.get_by_text("The stash does not answer")).to_be_hidden()


def test_a_camera_started_twice_is_open_once(loft, filmed, twice, until):
    """A double tap leaves no second stream behind, whose light would stay on."""
    page = filmed(loft[2]["cuts"][:1])
    page.add_init_script("""
        window.opened = [];
        const open = navigator.mediaDevices?.getUserMedia.bind(navigator.mediaDevices);
        if (open) navigator.mediaDevices.getUserMedia = async (wanted) => {
          const stream = await open(wanted);
          opened.push(stream);
          return stream;
        };""")
    page.goto(f"{loft[0]}/scan/")
    page.get_by_label("Many, one after the other").check()
    twice(page.get_by_role("button", name="Start the camera"))

    until(
        page, "opened.length === 2 && opened.filter((stream) => stream.active).length === 1")
    expect(page.locator("[data-list] li")).to_have_count(1)
    expect(page.locator("[data-part=trouble]")).to_be_hidden()
