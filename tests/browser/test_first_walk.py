"""A new workroom, from the first screen: a cut, its label, her measures, the trousers; a tin.

Nothing is on record but what is recorded here; each step is taken from where the last one led.
Every page on the way says what it is for in one sentence.
"""

import re
import subprocess

import pytest
from playwright.sync_api import expect

from labels.reading import look_apart
from stash.workroom.opening import open_stash
from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser

MOST_TAPS = 16


@pytest.fixture
def empty(tmp_path, kernels):
    """The address of a workroom with nothing on record, and its folder."""
    data = tmp_path / "new"
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        yield f"http://127.0.0.1:{pages.port}", data


@pytest.fixture
def taps(page):
    """How often somebody tapped or clicked so far."""
    counted = []
    page.expose_function("tapped", lambda what: counted.append(what))
    page.add_init_script(
        "addEventListener('click', (e) => {"
        " if (e.isTrusted && e.detail) tapped(e.target.tagName); }, true)")
    return counted


def says_a_sentence_at_most(page, way: str) -> None:
    """The page at this address says of itself one sentence, or a line of facts."""
    page.wait_for_url(way)
    leads = page.locator(".lead").all_inner_texts()[:1]
    assert len(re.findall(r"[.!?](?=\s|$)", " ".join(leads))) <= 1, leads


def test_from_the_first_screen_to_trousers(page, empty, taps, tmp_path):
    """Cloth recorded, its label printed and read back, a person measured, and trousers laid."""
    address, data = empty
    page.goto(address)
    page.get_by_role("link", name="Record the first cut").click()
    says_a_sentence_at_most(page, "**/entry/**")
    page.get_by_label("Length there is").fill("3 m")
    page.get_by_label("150 cm").check()
    page.get_by_label("Cloth", exact=True).fill("blue denim")
    page.get_by_role("button", name="Save, and the next one").click()
    page.get_by_text("Saved as").wait_for()

    page.get_by_role("link", name="Print its label").click()
    with page.expect_download() as printed:
        page.get_by_role("button", name="Make the sheet").click()
    [code] = codes_on(printed.value, tmp_path)
    page.get_by_role("link", name=f"Back to {code}").click()

    page.get_by_role("link", name="What can I make?").click()
    page.get_by_role("link", name="Add a person").click()
    says_a_sentence_at_most(page, "**/people/new**")
    page.get_by_label("Name").fill("Ida Marlow")
    page.get_by_label("Hip", exact=True).fill("98")
    page.get_by_label("Waist", exact=True).fill("74")
    page.get_by_role("button", name="Save").click()
    page.get_by_role("heading", name="What can I make?", level=1).wait_for()
    page.get_by_label("Trousers (pants)", exact=True).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.wait_for_selector("[data-over=yes]")

    expect(page.get_by_text("1 cut is big enough.")).to_be_visible()
    expect(page.locator(".lay-drawing img:visible")).to_have_count(1)
    assert len(taps) <= MOST_TAPS, taps
    with open_stash(data) as stash:
        [cloth] = [card.cut.cloth for card in stash.cuts.cards()]
    assert {"mass_gsm", "construction"} <= set(cloth.presumed)


def codes_on(printed, tmp_path) -> list[str]:
    """The codes that a scan of the printed sheet reads."""
    printed.save_as(tmp_path / "label.pdf")
    subprocess.run(["pdftoppm", "-r", "200", "-png", "-singlefile", tmp_path / "label.pdf",
                    tmp_path / "label"], check=True)
    return [one.code for one in look_apart((tmp_path / "label.png").read_bytes()).readings]


def test_metres_are_never_taken_for_centimetres(page, empty):
    """3 of cloth is asked back, and what else was typed stands there still."""
    page.goto(f"{empty[0]}/entry/")
    page.get_by_label("Length there is").fill("3")
    page.get_by_label("150 cm").check()
    page.get_by_label("Cloth", exact=True).fill("blue denim")
    page.get_by_role("button", name="Save, and the next one").click()

    expect(page.get_by_role("alert")).to_contain_text("Is that 3 cm or 3 m?")
    expect(page.get_by_label("Cloth", exact=True)).to_have_value("blue denim")
    expect(page.get_by_label("150 cm")).to_be_checked()


def test_a_second_tap_saves_one_tin(page, empty, twice):
    """The first tin of buttons, tapped twice: the list has one."""
    page.goto(f"{empty[0]}/bins/")
    page.get_by_role("link", name="Add a bin").click()
    page.get_by_label("Name").fill("Shell buttons")
    page.get_by_label("Size").fill("15 mm")
    page.get_by_label("How much").fill("12")
    twice(page.get_by_role("button", name="Save the bin"))
    page.get_by_role("heading", name="Shell buttons", level=1).wait_for()

    page.goto(f"{empty[0]}/bins/")
    expect(page.locator("a.tile")).to_have_count(1)


def test_a_remnant_comes_in_as_it_is(page, empty):
    """An L is recorded by a tap on the corner that is gone, and drawn so."""
    page.goto(f"{empty[0]}/entry/")
    page.get_by_role("link", name="All its facts, or a part missing").click()
    page.get_by_label("Cloth", exact=True).fill("Heron drill")
    page.get_by_label("Length there is").fill("80")
    page.get_by_label("Usable width").fill("140")
    page.get_by_text("A part of it is missing already").click()
    page.get_by_role("button", name="Corner: far end, upper edge").click()
    page.get_by_label("Length of the missing part").first.fill("30")
    page.get_by_label("Its width").first.fill("60")
    page.get_by_role("button", name="Save the cut").click()

    page.get_by_role("heading", name="Heron drill", level=1).wait_for()
    with open_stash(empty[1]) as stash:
        [cut] = [card.cut for card in stash.cuts.cards()]
    assert cut.outline.area_mm2 == pytest.approx(800 * 1400 - 300 * 600)


def test_a_lost_network_loses_no_form(page, empty, until):
    """Saved without a network: the page says so, all that was typed stands, and saves later."""
    fill_in(page, empty[0])
    page.context.set_offline(True)
    page.get_by_role("button", name="Save, and the next one").click()
    page.get_by_text("The stash does not answer").wait_for()
    expect(page.get_by_label("Cloth", exact=True)).to_have_value("Plover twill")

    page.context.set_offline(False)
    until(page, "navigator.onLine")
    page.get_by_role("button", name="Save, and the next one").click()
    page.get_by_text("Saved as").wait_for()
    assert names(empty[1]) == ["Plover twill"]


def test_a_stash_that_is_switched_off_loses_no_form(page, tmp_path, kernels):
    """The network is there and the stash is not: the same."""
    data = tmp_path / "new"
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        fill_in(page, f"http://127.0.0.1:{pages.port}")
    pages.thread.join()
    page.get_by_role("button", name="Save, and the next one").click()
    page.get_by_text("The stash does not answer").wait_for()
    expect(page.get_by_label("Cloth", exact=True)).to_have_value("Plover twill")

    with answering(create_app(data), "127.0.0.1", pages.port):
        page.get_by_role("button", name="Save, and the next one").click()
        page.get_by_text("Saved as").wait_for()
    assert names(data) == ["Plover twill"]


def test_a_plain_connection_loses_no_form(own_browser, tmp_path, kernels):
    """Plain http by a name has no service worker: the page itself asks before the form goes."""
    data, page = tmp_path / "new", own_browser("--host-resolver-rules=MAP stash.local 127.0.0.1")
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        page.goto(f"http://stash.local:{pages.port}/people/new")
        assert not page.evaluate("'serviceWorker' in navigator")
        page.get_by_label("Name").fill("Ida Marlow")
        page.get_by_label("Hip", exact=True).fill("98 cm")
    pages.thread.join()
    page.get_by_role("button", name="Save").click()
    page.get_by_text("The stash does not answer").wait_for()
    expect(page.get_by_label("Hip", exact=True)).to_have_value("98 cm")

    with answering(create_app(data), "127.0.0.1", pages.port):
        page.get_by_role("button", name="Save").click()
        page.get_by_role("heading", name="Ida Marlow", level=1).wait_for()
    with open_stash(data) as stash:
        assert stash.people.get("Ida Marlow").measurements_mm == {"hip": 980}


def fill_in(page, address) -> None:
    """A cut on the entry screen, not yet saved, of a page that the service worker minds."""
    page.goto(f"{address}/entry/")
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.reload()
    page.get_by_label("Length there is").fill("2 m")
    page.get_by_label("150 cm").check()
    page.get_by_label("Cloth", exact=True).fill("Plover twill")


def names(data) -> list[str]:
    """The cloths on record."""
    with open_stash(data) as stash:
        return [card.cut.cloth.name for card in stash.cuts.cards()]


def test_what_was_sent_once_is_no_answer_without_a_network(page, empty):
    """Two uses, the second without a network: it waits, though the first one went."""
    address, data = empty
    page.goto(f"{address}/bins/new")
    page.get_by_label("Name").fill("Shell buttons")
    page.get_by_label("Size").fill("15 mm")
    page.get_by_label("How much").fill("12")
    page.get_by_role("button", name="Save the bin").click()
    page.get_by_role("heading", name="Shell buttons", level=1).wait_for()
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.reload()  # from here on the copy answers where the stash does not
    page.get_by_role("button", name="1", exact=True).click()
    page.get_by_text("Took 1.").wait_for()
    page.wait_for_load_state()

    page.context.set_offline(True)
    page.get_by_role("button", name="2", exact=True).click()
    page.locator("[data-pocket-waiting]").wait_for(state="visible")
    page.context.set_offline(False)
    page.get_by_text("Took 2.").wait_for()
    with open_stash(data) as stash:
        assert [card.bin.amount for card in stash.bins.cards()] == [9]
