"""An afternoon of entry on a phone: twelve cuts in under six minutes, at five seconds a field."""

from __future__ import annotations

import io

import pytest
import qrcode
from PIL import Image

from stash.demo import fill
from stash.store import open_stash
from web import create_app
from web.http_server import answering

pytestmark = pytest.mark.browser

# colour, length, a width where it is not the last one's, what is said of the cloth, a new place
TWELVE = (
    ("#2b3c66", "1.5 m", "140 cm", ("kind", "denim"), "Loft shelf 1"),
    ("#2b3c66", "70", "", ("same", ""), ""),
    ("#e6dcc4", "2.2 m", "", ("cloth", "Quay linen"), ""),
    ("#6c6a34", "1.1 m", "150 cm", ("kind", "twill"), ""),
    ("#8b0000", "95", "", ("kind", "corduroy"), "Loft shelf 2"),
    ("#c9c9c7", "1.8 m", "", ("kind", "jersey"), ""),
    ("#c9c9c7", "60", "", ("same", ""), ""),
    ("#1f4030", "3 m", "110 cm", ("kind", "lawn"), ""),
    ("#f2cf2e", "1.25 m", "", ("cloth", "Skiff stripe"), ""),
    ("#b97f80", "2 m", "", ("kind", "poplin"), "Cedar chest"),
    ("#3d4146", "1.4 m", "150 cm", ("kind", "suiting"), ""),
    ("#000000", "80", "", ("kind", "lining"), ""),
)
SECONDS_A_FIELD = 5
LONGEST_S = 6 * 60


@pytest.fixture
def empty(tmp_path):
    """A workroom with blank labels and nothing else, served."""
    data = tmp_path / "stash"
    with open_stash(data) as stash:
        codes = stash.labels.reserve(len(TWELVE))
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        yield f"http://127.0.0.1:{pages.port}", data, codes


def photograph(colour, code):
    """Cloth of one colour with its label on it."""
    picture = Image.new("RGB", (1200, 900), colour)
    label = qrcode.make(f"http://loft.local:5000/c/{code}", border=4).convert("RGB")
    picture.paste(label.resize((360, 360), Image.NEAREST), (60, 500))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92)
    return {"name": "cloth.jpg", "mimeType": "image/jpeg", "buffer": out.getvalue()}


def enter(page, cut, code):
    """One cut; how many fields and buttons were touched for it."""
    colour, length, width, (what, said), place = cut
    touched = 3  # the photograph, the length, and the button
    page.get_by_label("Photograph", exact=True).set_input_files(photograph(colour, code))
    page.get_by_text("Taken from the photograph").wait_for()
    page.get_by_label("Length there is").fill(length)
    if width:
        page.locator(".chip", has_text=width).click()
        touched += 1
    if what == "kind":
        page.get_by_label("Kind of cloth").select_option(said)
    elif what == "cloth":
        page.get_by_label("Cloth", exact=True).fill(said)
    else:
        page.get_by_text("The same cloth again").click()
    touched += 1
    if place:
        page.get_by_label("Where it lies").fill(place)
        touched += 1
    page.get_by_role("button", name="Save, and the next one").click()
    page.get_by_text(f"Saved as {code}").wait_for()
    page.wait_for_load_state()
    return touched


def test_twelve_cuts_take_less_than_six_minutes_of_fields(open_page, empty):
    """Label and colour come from the photograph, shelf and width from the last one."""
    address, data, codes = empty
    page = open_page()
    page.goto(f"{address}/entry/")

    touched = sum(enter(page, cut, code) for cut, code in zip(TWELVE, codes, strict=True))

    assert touched * SECONDS_A_FIELD < LONGEST_S
    with open_stash(data) as stash:
        cuts = {cut.code: cut for cut in stash.cuts.all()}
        assert set(cuts) == set(codes)
        assert cuts[codes[0]].cloth.name == "Dark blue denim"
        assert cuts[codes[0]].cloth == cuts[codes[1]].cloth
        assert {cut.place for cut in cuts.values()} == {
            "Loft shelf 1", "Loft shelf 2", "Cedar chest"}
        assert all(cut.cloth.colours for cut in cuts.values())
        assert all(stash.photos.of(code) for code in codes)


def test_the_entry_screen_fits_the_phone_and_the_desk(page, tmp_path):
    """Nothing runs off, and everything to tap is 44 CSS pixels high (WCAG 2.2, 2.5.5)."""
    data = tmp_path / "stash"
    with open_stash(data) as stash:
        fill(stash)
    with answering(create_app(data), "127.0.0.1", 0) as pages:
        for path in ("/entry/", "/spreadsheet/"):
            page.goto(f"http://127.0.0.1:{pages.port}{path}")

            wide = page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            low = page.evaluate(
                "[...document.querySelectorAll('button, .button, select, summary, .chip span')]"
                ".filter(e => e.offsetParent && e.getBoundingClientRect().height < 43.5).length")
            assert (wide, low) == (0, 0), path
