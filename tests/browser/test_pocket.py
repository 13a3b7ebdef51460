"""In her pocket: read without a network, recorded in a queue, sent once, told what was refused."""

import pytest
import qrcode
from playwright.sync_api import expect

from stash.demo import fill
from stash.ledger import CutHold
from stash.model import (
    Bin,
    Cloth,
    Cut,
    Laid,
    Lay,
    Notion,
    NotionKind,
    Outline,
    Piece,
    Placement,
    Plan,
)
from stash.store import open_stash
from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser


@pytest.fixture
def code(record):
    """Two metres of a cloth that no other is like."""
    return record.cuts.receive(Cut(
        code="", cloth=Cloth(name="Kelp twill", colours=("#2f4f3a",)), place="Loft shelf 2",
        outline=Outline.rectangle(2000.0, 1400.0))).code


@pytest.fixture
def tin(record):
    """Forty buttons."""
    return record.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.BUTTON, name="Corozo disc"), amount=40.0)).code


def keep_a_copy(page, address):
    """Press the button, and wait until the copy is there."""
    page.goto(f"{address}/pocket/")
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.get_by_role("button", name="Keep a copy now").click()
    page.get_by_text("A copy is kept on this device.").wait_for()


def lost(page):
    """The network is gone."""
    page.context.set_offline(True)


def found(page, address, words):
    """The line of what these words find, opened."""
    page.goto(f"{address}/pocket/")
    page.locator("#f-words").fill(words)
    page.locator("[data-found] details").first.locator("summary").click()
    return page.locator("[data-found] details").first


def test_the_stash_is_searched_and_a_use_is_sent_once(page, loft, record, code, twice):
    """Found by its name without a network; a double tap is one use; sent when it is back."""
    keep_a_copy(page, loft[0])
    lost(page)
    line = found(page, loft[0], "kelp")
    expect(line).to_contain_text(f"{code} · Loft shelf 2")
    line.get_by_label("Cut off").fill("50 cm")
    twice(line.get_by_role("button", name="Save").first)
    expect(page.locator("[data-acts] li")).to_have_count(1)
    expect(page.locator("[data-acts]")).to_contain_text("Cut off · 50 cm · Kelp twill")
    page.reload()
    page.locator("[data-acts] li").wait_for()
    assert record.cuts.get(code).length_mm == 2000.0

    page.context.set_offline(False)
    page.get_by_text("Cut off 50 cm. 1.50 m is left.").wait_for()
    assert record.cuts.get(code).length_mm == pytest.approx(1500.0)
    expect(page.get_by_text("Nothing waits to be sent.")).to_be_visible()


def test_what_is_refused_says_why_and_stays(page, loft, record, code):
    """More than there is: the reason stands beside it until it is forgotten."""
    keep_a_copy(page, loft[0])
    lost(page)
    line = found(page, loft[0], code)
    line.get_by_label("Cut off").fill("9 m")
    line.get_by_role("button", name="Save").first.click()
    page.locator("[data-acts] li").wait_for()
    page.context.set_offline(False)
    page.locator("[data-acts]", has_text="cannot be cut off").wait_for()
    assert record.cuts.get(code).length_mm == 2000.0
    page.get_by_role("button", name="Forget it").click()
    page.get_by_text("Nothing waits to be sent.").wait_for()


def test_two_devices_take_from_one_tin(open_page, loft, record, tin):
    """Three on one phone and five on another, both without a network: eight are gone."""
    phones = []
    for taken in ("3", "5"):
        page = open_page()
        keep_a_copy(page, loft[0])
        lost(page)
        line = found(page, loft[0], "corozo disc")
        line.get_by_label("Took some").fill(taken)
        line.get_by_role("button", name="Save").first.click()
        page.locator("[data-acts] li").wait_for()
        phones.append(page)
    for page in phones:
        page.context.set_offline(False)
        page.get_by_text("Nothing waits to be sent.").wait_for()
    assert record.bins.get(tin).amount == 32.0


def test_a_plain_page_of_the_copy_records_too(page, loft, record, code):
    """A plan, its list and the page of the stash are read from the copy, and say so."""
    record.plans.save(Plan(name="Pocket plan"))
    keep_a_copy(page, loft[0])
    lost(page)
    for path in ("/plans/", "/plans/of/Pocket%20plan", "/shopping/", "/"):
        page.goto(f"{loft[0]}{path}")
        expect(page.locator("[data-pocket-kept]"), path).to_be_visible()
    page.goto(f"{loft[0]}/plans/of/Pocket%20plan")
    page.get_by_role("button", name="Give the plan up").click()
    page.get_by_text("This needs the network").wait_for()
    assert record.plans.get("Pocket plan")
    page.goto(f"{loft[0]}/c/{code}")
    page.locator(f"#length-{code}").wait_for()
    expect(page).to_have_url(f"{loft[0]}/pocket/#{code}")


@pytest.fixture
def held(record, code):
    """A plan whose panel takes 1.2 m of a cloth 1.3 m wide."""
    record.plans.save(Plan(name="Screen"))
    panel = Piece(
        name="panel", outline_mm=((0, 0), (1200, 0), (1200, 1300), (0, 1300)), quantity=1)
    lay = Lay(placements=(Placement(piece="panel#1", x_mm=0.0, y_mm=0.0),),
              length_mm=1200.0, width_mm=1300.0, utilisation=1.0)
    laid = Laid(cut=record.cuts.get(code), lay=lay, pieces=(panel,))
    record.plans.hold("Screen", cuts={code: CutHold(
        plan="", from_mm=0.0, to_mm=1200.0, laid=laid)})
    return "Screen"


@pytest.mark.parametrize(("width", "length", "says"), [
    ("140 cm", "1.6 m", "Yes: 126.3 cm of it is enough, 33.7 cm to spare. It costs 16.00."),
    ("140 cm", "1.2 m", "No: 126.3 cm of it is needed, 6.3 cm more than that. It costs 12.63."),
    ("112 cm", "3 m", "No lay is known on cloth so narrow"),
])
def test_in_the_shop_it_is_said_whether_it_is_enough(
        page, loft, record, held, width, length, says):
    """1.2 m washed are 1.263 m unwashed at 5 per cent: computed, 1200 / 0.95."""
    keep_a_copy(page, loft[0])
    lost(page)
    page.goto(f"{loft[0]}/pocket/")
    page.locator("[data-find]").wait_for()
    page.get_by_label("For", exact=True).select_option(index=0)
    page.get_by_label("Width of the bolt").fill(width)
    page.get_by_label("How much of it").fill(length)
    page.get_by_label("Price a metre").fill("10")
    page.get_by_role("button", name="Is it enough?").click()
    expect(page.locator("[data-enough]")).to_contain_text(says)
    page.context.set_offline(False)
    record.plans.remove("Screen")


def test_without_scripts_the_stash_says_whether_it_is_enough(open_page, loft, record, held):
    """The same question as a plain form."""
    page = open_page(java_script_enabled=False)
    page.goto(f"{loft[0]}/pocket/")
    page.get_by_label("Width of the bolt").fill("140 cm")
    page.get_by_label("How much of it").fill("1.6 m")
    page.get_by_role("button", name="Is it enough?").click()
    expect(page.get_by_text("Yes: 1.26 m of it is enough")).to_be_visible()
    record.plans.remove("Screen")


def test_a_revoked_device_loses_its_copy_at_the_next_contact(own_browser, tmp_path):
    """Known no longer, it is refused; without a network there is nothing left to read."""
    with open_stash(tmp_path / "stash") as stash:
        fill(stash)
    app, known = create_app(tmp_path / "stash"), {"here": True}
    inner = app.wsgi_app

    def through(environ, start):
        if not known["here"]:
            environ["REMOTE_ADDR"] = "192.168.1.77"
        return inner(environ, start)

    app.wsgi_app = through
    with answering(app, "127.0.0.1", 0) as pages:
        page = own_browser()
        address = f"http://127.0.0.1:{pages.port}"
        keep_a_copy(page, address)
        known["here"] = False
        page.goto(f"{address}/plans/")
        expect(page.locator("body")).to_contain_text("not paired")
        page.context.set_offline(True)
        page.goto(f"{address}/pocket/")
        expect(page.locator("body")).to_contain_text("never kept on this device")


def test_a_bolt_is_kept_with_its_tag_without_a_network(page, loft, tmp_path, until):
    """The code on the tag becomes the note; picture, width and price are there after a reload."""
    keep_a_copy(page, loft[0])
    lost(page)
    page.goto(f"{loft[0]}/pocket/")
    picture = tmp_path / "tag.png"
    qrcode.make("No 7 sorrel", box_size=8).save(picture)
    page.locator("#f-tag").set_input_files(picture)
    expect(page.locator("[name=note]").first).to_have_value("No 7 sorrel")
    page.get_by_label("Width of the bolt").fill("140 cm")
    page.get_by_label("Price a metre").fill("12.50")
    page.get_by_role("button", name="Keep this bolt in mind").click()
    page.locator("[data-bolts] li").wait_for()
    page.reload()
    bolt = page.locator("[data-bolts] li")
    bolt.wait_for()
    expect(bolt).to_contain_text("No 7 sorrel · 140 cm · 12.50")
    until(page, "document.querySelector('[data-bolts] img').naturalWidth > 100")
    bolt.get_by_role("button", name="Forget it").click()
    bolt.wait_for(state="detached")


def test_a_bare_number_of_tape_is_asked_about_at_once(page, loft, record, until):
    """Metres to one and centimetres to another: nothing is sent before it is said."""
    record.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.TAPE, name="Sorrel ribbon"), amount=4000.0))
    keep_a_copy(page, loft[0])
    line = found(page, loft[0], "sorrel ribbon")
    field = line.get_by_label("There are now")
    asks = "(words) => document.querySelector('[name=there]').validationMessage.includes(words)"
    field.fill("93")
    line.get_by_role("button", name="Save").last.click()
    until(page, asks, "93 m or 93 cm")
    field.fill("93 cm")
    expect(field).to_have_js_property("validationMessage", "")


def test_one_like_this_is_found_by_weight(page, loft, record):
    """Within 15 per cent of what was typed."""
    for name, mass in (("Sorrel voile", 80.0), ("Sorrel drill", 300.0)):
        record.cuts.receive(Cut(
            code="", cloth=Cloth(name=name, mass_gsm=mass),
            outline=Outline.rectangle(1000.0, 1400.0)))
    keep_a_copy(page, loft[0])
    page.goto(f"{loft[0]}/pocket/")
    page.locator("#f-words").fill("sorrel")
    page.locator("#f-weight").fill("290")
    lines = page.locator("[data-found] summary")
    expect(lines.filter(has_not_text="Sorrel drill · ")).to_have_count(0)
    expect(lines.filter(has_text="Sorrel drill · ")).not_to_have_count(0)
