"""The same first walk in yards and inches, on a phone: nothing that is read is in centimetres.

From the first screen: the units are chosen, a cut with its photograph, its label, her measures, a
tin of buttons, elastic, trousers laid, held and cut out, taken back, and what must be bought.
Buttons alone keep their millimetres, beside the lignes they are sold by (the trade's own units).
"""

import io
import re

import pytest
from PIL import Image
from playwright.sync_api import expect

from stash.workroom.opening import open_stash
from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser

METRIC = re.compile(r"\d\s?(?:cm|mm|m|g/m2|g/m²)\b|centimet|\bmetre", re.IGNORECASE)
BOTH = re.compile(
    r"[\d.]+ mm \(\d+L\)|15 mm or 24L|30 cm, 1/2 yd|5 mm or 1/4 in|metres and centimetres"
    r"|labels of [\d.]+ × [\d.]+ mm|yd, in, m or cm|shell, 15 mm|^50mm $|100\.5 mm, 4 in"
    r"|^centimetres$")
"""Where a unit is said beside the other, or the thing itself is sold by it: buttons, labels."""


CODE = re.compile(r"\b(?=\w*\d)[0-9A-Z]{6}\b")
"""What stands on a label by chance: "4XJX2M" is not two metres."""


class Seen:
    """A phone in the hand of somebody who reads inches; every screen is read as it is passed."""

    def __init__(self, page, address):
        self.page, self.address, self.metric = page, address, []

    def at(self, path: str) -> None:
        """Opens a page and reads it."""
        self.page.goto(self.address + path)
        self.read()

    def read(self) -> None:
        """What stands on the page and proposes itself in its fields, and what is metric of it."""
        said = self.page.locator("main").inner_text().split("\n")
        said += self.page.eval_on_selector_all(
            "main input:not([type=hidden])", "all => all.map(i => i.placeholder + ' ' + i.value)")
        said = [re.sub(r"[^\S ]", " ", line) for line in said]  # a figure is glued to its unit
        self.metric += [f"{self.page.url}: {line}" for line in said
                        if METRIC.search(CODE.sub("", BOTH.sub("", line)))]
        assert self.page.evaluate("document.documentElement.scrollWidth") <= 360, self.page.url

    def tap(self, name: str, *, then: str) -> None:
        """Presses a button, waits for the sentence or heading that answers, and reads."""
        self.page.get_by_role("button", name=name, exact=True).first.click()
        expect(self.page.get_by_text(then).first).to_be_visible()
        self.read()


@pytest.fixture(params=["en-US", "en-GB"])
def seen(request, open_page, tmp_path, kernels):
    """An empty stash in yards and inches, and its folder."""
    data = tmp_path / "new"
    page = open_page("phone", locale=request.param)
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        walk = Seen(page, f"http://127.0.0.1:{pages.port}")
        walk.page.goto(walk.address)
        walk.tap("Yards and inches", then="Lengths are in yards and inches")
        yield walk, data


def test_from_the_first_screen_to_the_shop_in_inches(seen):
    """Fractions of an inch and of a yard all the way, on record as exactly as they were typed."""
    walk, data = seen
    record_cloth(walk)
    measure_her(walk)
    fill_tins(walk)
    make_trousers(walk)
    ask_the_shop(walk)

    for path in ("/", "/report/", "/pocket/", "/far/trousers/", "/patterns/", "/cuts/new",
                 "/drafts/trousers?person=Ida+Marlow", "/measured/?name=Ida+Marlow"):
        walk.at(path)
    assert sorted(set(walk.metric)) == []
    with open_stash(data) as stash:
        cuts = [card.cut for card in stash.cuts.cards() if card.cut.cloth.name == "blue denim"]
        assert cuts[0].outline.bounds_mm[2] == pytest.approx(3.25 * 914.4)
        assert cuts[0].width_mm == pytest.approx(58.5 * 25.4)
        hip = stash.people.get("Ida Marlow").measurements_mm["hip"]
        assert hip == pytest.approx(38.5 * 25.4)


def photo() -> dict:
    """A picture of plain blue cloth."""
    out = io.BytesIO()
    Image.new("RGB", (1200, 900), (40, 60, 110)).save(out, "JPEG")
    return {"name": "cloth.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def record_cloth(walk) -> None:
    """3 1/4 yards of denim, washed, with its photograph, and its label."""
    page = walk.page
    walk.at("/")
    page.get_by_role("link", name="Record the first cut").click()
    page.get_by_label("Photograph", exact=True).set_input_files(photo())
    expect(page.get_by_label("Colour", exact=True)).not_to_have_value("")
    page.get_by_label("Length there is").fill("3 1/4 yd")
    page.get_by_label("Or another width").fill("58 1/2 in")
    page.get_by_label("Cloth", exact=True).fill("blue denim")
    page.get_by_text("More of the cloth").click()
    page.get_by_label("Already washed").check()
    walk.tap("Save, and the next one", then="Saved as")
    expect(page.get_by_text("3 1/4 yd × 58 1/2 in").first).to_be_visible()
    page.get_by_role("link", name="Print its label").click()
    page.get_by_role("heading", name="Print labels").wait_for()
    walk.read()
    with page.expect_download():
        page.get_by_role("button", name="Make the sheet").click()


def measure_her(walk) -> None:
    """Hip and waist, bust for the shirt."""
    walk.at("/people/new")
    for label, typed in (("Name", "Ida Marlow"), ("Hip", "38 1/2 in"), ("Waist", "29 1/4 in"),
                         ("Bust or chest", "36 3/4 in")):
        walk.page.get_by_label(label, exact=True).fill(typed)
    walk.tap("Save", then="Ida Marlow is saved.")


def fill_tins(walk) -> None:
    """Twelve buttons, and elastic by the yard."""
    for kind, name, size, amount in (("button", "Shell buttons", "5/8 in", "12"),
                                     ("elastic", "Waist elastic", "1 in", "2 1/2 yd")):
        walk.at("/bins/new")
        walk.page.get_by_label("What is in it").select_option(kind)
        walk.page.get_by_label("Name", exact=True).fill(name)
        walk.page.get_by_label("Size", exact=True).fill(size)
        walk.page.get_by_label("How much", exact=True).fill(amount)
        walk.tap("Save the bin", then="Its code is")
    walk.at("/bins/")


def make_trousers(walk) -> None:
    """Laid, held, cut out, and taken back."""
    page = walk.page
    walk.at("/become/")
    page.get_by_label("Trousers (pants)" if page.get_by_label("Trousers (pants)").count()
                      else "Trousers", exact=True).check()
    page.get_by_role("button", name="Look through the stash").click()
    page.locator("[data-over=yes]").wait_for()
    walk.read()
    page.get_by_role("link", name="Open the lay large").click()
    page.get_by_role("heading", name="Single or double").wait_for()
    walk.read()
    page.go_back()
    page.get_by_text("Hold it for a plan").click()
    page.get_by_label("Name of the plan").fill("Denim trousers")
    walk.tap("Hold", then="Held for")
    page.get_by_role("link", name="To the cutting table").click()
    page.get_by_role("heading", name="Fetch").wait_for()
    walk.read()
    for box in page.locator("input[name=piece]").all():
        box.check()
    page.get_by_role("button", name="Record what is ticked").click()
    page.wait_for_url(lambda url: "/cutting/" not in url)
    walk.read()
    walk.at("/history/")
    page.get_by_role("button", name=re.compile("^Undo: ")).first.click()
    expect(page.get_by_text("Taken back.")).to_be_visible()
    walk.read()


def ask_the_shop(walk) -> None:
    """Cloth for a shirt at the widths a shop in inches sells, and one length of it bought."""
    page = walk.page
    walk.at("/shopping/")
    page.get_by_label("Shirt with revere collar").check()
    page.get_by_text("The cloth hoped for").click()
    page.get_by_label("Buy cloth even where the stash has it").check()
    page.get_by_role("button", name="What must I buy?").click()
    page.locator("[data-over=yes]").wait_for()
    walk.read()
    expect(page.get_by_role("rowheader", name=re.compile("^45 in"))).to_be_visible()
    walk.tap("I bought this", then="It is on record.")
