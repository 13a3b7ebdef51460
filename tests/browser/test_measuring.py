"""A poured handful of buttons, from the photograph to its printed label, in four taps."""

from __future__ import annotations

import pytest
from eye_pours import a_pour
from eye_scene import photograph
from playwright.sync_api import expect
from until import until

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def handful(tmp_path_factory):
    """A computed photograph of a pour: (file, how many, their diameter in mm)."""
    table, camera = a_pour(31, kind="four holes", count=14, megapixels=2.0)
    file = tmp_path_factory.mktemp("tray") / "pour.jpg"
    file.write_bytes(photograph(table, camera))
    return file, len(table.bodies), 2 * table.bodies[0].radius_mm


def test_a_handful_is_on_record_with_its_label_in_four_taps(page, loft, record, handful):
    """Count by photograph, the photograph, record, make the sheet: the number and size are true."""
    address, (file, count, diameter_mm) = loft[0], handful
    before = {held.code for held in record.bins.all()}
    page.goto(f"{address}/bins/")

    page.get_by_role("link", name="Count by photograph").click()
    page.wait_for_url("**/measure/**")
    with page.expect_file_chooser() as chooser:
        page.locator("form[data-at-once]").first.get_by_text("Take the photograph").click()
    chooser.value.set_files(file)
    page.get_by_role("button", name="Record, and print its label").click()
    with page.expect_download() as sheet:
        page.get_by_role("button", name="Make the sheet").click()

    assert sheet.value.suggested_filename.endswith(".pdf")
    [new] = [held for held in record.bins.all() if held.code not in before]
    assert new.amount == count
    assert new.notion.size_mm == pytest.approx(diameter_mm, abs=0.4)
    assert new.notion.kind.value == "button"


def test_nothing_spills_over_the_edge_of_a_phone(page, loft, handful, fits):
    """What was found is drawn within the width of the screen."""
    page.goto(f"{loft[0]}/measure/")
    page.locator("input[type=file]").first.set_input_files(handful[0])
    page.get_by_role("button", name="Record, and print its label").wait_for()

    fits(page)


def test_the_tray_fills_the_picture(page, loft, handful):
    """What lies around the tray is left out, so that each button can be seen on a phone."""
    page.goto(f"{loft[0]}/measure/")
    page.locator("input[type=file]").first.set_input_files(handful[0])
    page.get_by_role("button", name="Record, and print its label").wait_for()
    page.wait_for_load_state()

    picture = page.locator(".drawing.photo svg")
    box, first = picture.bounding_box(), picture.locator("circle.counted").first.bounding_box()
    left, top, wide, high = map(int, picture.get_attribute("viewBox").split())
    whole = picture.locator("image")
    assert (wide, high) < (int(whole.get_attribute("width")), int(whole.get_attribute("height")))
    for circle in picture.locator("circle.counted").all():
        x, y, r = (float(circle.get_attribute(name)) for name in ("cx", "cy", "r"))
        assert left <= x - r and x + r <= left + wide and top <= y - r and y + r <= top + high
    assert first["width"] > 0.03 * box["width"]


def test_a_tap_tells_a_colour_and_a_second_one_whether_they_match(
        page, loft, sheet_photo, fits, tap):
    """The sheet of this picture has no greys, so the page says so and shows what is like it."""
    page.goto(f"{loft[0]}/measure/")
    page.locator("#f-photo-colours").set_input_files(sheet_photo)
    svg = page.locator("[data-spots] svg")
    svg.wait_for()
    page.wait_for_load_state()

    tap(svg, 0.6, 0.3)
    page.locator("[data-light].note").filter(has_text="No greys were seen").wait_for()
    expect(page.locator("[data-chips] > span")).to_have_count(1)
    tap(svg, 0.7, 0.3)
    page.locator("[data-match]").filter(has_text="match").wait_for()
    expect(page.locator("[data-chips] > span")).to_have_count(2)
    fits(page)
    page.get_by_role("link", name="What I have in about the first colour").click()
    page.get_by_role("heading", name="Notions in about this colour").wait_for()


def test_two_taps_tell_how_far_apart_two_places_are(page, loft, record, sheet_photo, fits, tap):
    """A length that is told is put on record as a zip's."""
    before = {held.code for held in record.bins.all()}
    page.goto(f"{loft[0]}/measure/")
    page.locator("#f-photo-places").set_input_files(sheet_photo)
    svg = page.locator("[data-places] svg")
    svg.wait_for()
    page.wait_for_load_state()

    for share in (0.3, 0.7):
        tap(svg, share, 0.5)

    page.locator("[data-said]").filter(has_text="give or take").wait_for()
    expect(page.locator(".tapped")).to_have_count(2)
    fits(page)
    told_mm = 10 * float(page.locator("[data-said]").inner_text().split()[0])
    page.get_by_role("button", name="Record it").click()
    page.get_by_text("On record as").wait_for()
    [zip_] = [held for held in record.bins.all() if held.code not in before]
    assert (zip_.notion.kind.value, zip_.amount) == ("zip", 1)
    assert zip_.notion.size_mm == pytest.approx(told_mm, abs=0.6)


IN_SIGHT = """() => {
    const seen = document.querySelector("[data-zoom].larger")?.getBoundingClientRect();
    return seen && [...document.querySelectorAll("circle.counted")].some((circle) => {
        const at = circle.getBoundingClientRect();
        return at.left >= seen.left && at.right <= seen.right
            && at.top >= seen.top && at.bottom <= seen.bottom;
    });
}"""


def test_shown_larger_the_buttons_are_in_sight(page, loft, handful):
    """Not the empty corner of the tray, though they lie in its middle."""
    page.goto(f"{loft[0]}/measure/")
    page.locator("input[type=file]").first.set_input_files(handful[0])
    larger = page.get_by_role("button", name="Larger")
    larger.wait_for()
    page.wait_for_load_state()

    larger.click()

    expect(larger).to_have_attribute("aria-pressed", "true")
    until(lambda: page.evaluate(IN_SIGHT))
