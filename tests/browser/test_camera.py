"""The live camera in a real browser, fed from a film of rendered labels."""

import pytest
from playwright.sync_api import expect

from stash.model import Cloth, Cut, Outline

pytestmark = pytest.mark.browser


def test_a_label_before_the_camera_opens_its_page(loft, filmed):
    """One tap starts the camera; reading the label goes to its cut."""
    address, _, made = loft
    page = filmed(made["cuts"][:1])
    asked = []
    page.on("request", lambda request: asked.append(request.url))

    page.goto(f"{address}/scan/")
    page.get_by_role("button", name="Start the camera").click()

    page.wait_for_url(f"**/c/{made['cuts'][0]}")
    assert all(url.startswith((address, "blob:", "data:")) for url in asked)


def test_many_labels_join_a_list(loft, filmed):
    """With “many” ticked the camera goes on, and each label is listed once."""
    address, _, made = loft
    page = filmed(made["cuts"][:8])

    page.goto(f"{address}/scan/")
    page.get_by_label("Many, one after the other").check()
    page.get_by_role("button", name="Start the camera").click()

    page.locator("[data-count]", has_text="8").wait_for()
    expect(page.locator("[data-list] li")).to_have_count(8)


def test_a_stock_take_of_sixty_labels_ends_complete(loft, filmed, record):
    """Sixty cuts on one shelf pass before the camera; nothing is typed, nothing is missing."""
    address, _, _ = loft
    place = "Long shelf"
    with record.together():
        codes = [
            record.cuts.receive(Cut(
                code="", cloth=Cloth(name="Shelf drill"), place=place,
                outline=Outline.rectangle(1000 + n, 1400))).code
            for n in range(60)
        ]
    page = filmed(codes)

    page.goto(f"{address}/stock-take/in/{place}")
    page.get_by_role("button", name="Start the camera").click()

    expect(page.locator("[data-complete=yes]")).to_contain_text("60 of 60 found")
    page.get_by_role("button", name="Finish").click()
    page.get_by_text("found: 60").wait_for()
    assert record.settings.get(f"stock-take {place}")["missing"] == []


def test_over_plain_http_by_name_a_photograph_does_the_job(own_browser, loft, tmp_path, scene_of):
    """A phone on the network has no live camera there; the page says so and reads a photograph."""
    address, _, made = loft
    port = address.rpartition(":")[2]
    shot = tmp_path / "shelf.jpg"
    shot.write_bytes(scene_of(made["cuts"][:4]))
    page = own_browser("--host-resolver-rules=MAP stash.local 127.0.0.1")

    page.goto(f"http://stash.local:{port}/scan/")
    page.get_by_text("The live camera needs a secure connection").wait_for()
    page.get_by_label("Photograph", exact=True).set_input_files(shot)

    page.get_by_text("4 labels read").wait_for()


def test_over_a_secure_connection_the_live_camera_works(loft, filmed, tmp_path):
    """With the workroom's own certificate accepted, the camera opens and reads."""
    from web import create_app
    from web.http_server import answering
    from web.secure.certificate import certificate_for

    _, data, made = loft
    paper = certificate_for(tmp_path / "secure", ["localhost"], ["127.0.0.1"])
    page = filmed(made["cuts"][:1], ignore_https_errors=True)

    with answering(create_app(data), "127.0.0.1", 0, paper) as pages:
        page.goto(f"https://127.0.0.1:{pages.port}/scan/")
        page.get_by_role("button", name="Start the camera").click()

        page.wait_for_url(f"**/c/{made['cuts'][0]}")
        page.close()
