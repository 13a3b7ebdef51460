"""A phone is paired by the code on the computer's screen, seen, and revoked, in Chromium.

The computer's browser asks by 127.0.0.1; the phone is a second browser that comes over the
network's address and the secure connection, with cookies of its own.
"""

from __future__ import annotations

import io
import re
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect
from pyzbar import pyzbar

from labels.local_name import lan_address
from stash.model import Cloth, Cut, Outline, Person
from stash.store import open_stash
from web import create_app
from web.http_server import answering
from web.secure.certificate import certificate_for

pytestmark = [pytest.mark.browser, pytest.mark.zbar]
NAME = "Wren’s phone"
USED = "This offer to pair was used already"


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    """A stash shared on the network: (address on the computer itself, folder, code of a cut)."""
    if (lan := lan_address()) is None:
        pytest.skip("this machine has no address on a network; connect it to one")
    data = tmp_path_factory.mktemp("shared") / "stash"
    with open_stash(data) as stash:
        code = stash.cuts.receive(Cut(
            code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code
        stash.people.save(Person(name="Pip Okell", measurements_mm={"chest": 660.0}))
    app = create_app(data)
    paper = certificate_for(data / "secure", ["localhost"], ["127.0.0.1", lan])
    with (answering(app, "127.0.0.1", 0) as plain,
          answering(app, "0.0.0.0", 0, paper) as secure):
        app.config["SECURE_PORT"] = secure.port
        yield f"http://127.0.0.1:{plain.port}", data, code


@pytest.fixture(params=["phone", "desk"])
def two(request, open_page, shared):
    """The computer's page and a phone's, each at the size; the computer's folder is clean."""
    size = request.param
    return open_page(size), open_page(size, ignore_https_errors=True), size


@pytest.fixture
def pictured(fits, tmp_path_factory):
    """A way to say that no line is wider than the screen; the picture is kept to be looked at."""
    folder = Path(tmp_path_factory.getbasetemp()) / "devices"
    folder.mkdir(exist_ok=True)

    def kept(page, name: str) -> None:
        fits(page)
        page.screenshot(path=folder / f"{name}.png", full_page=True)

    return kept


def offered(desk, address: str, role: str) -> str:
    """What the code on the computer's screen says, read from its picture by zbar."""
    desk.goto(f"{address}/devices/")
    desk.get_by_label("The name of the device").fill(NAME)
    desk.get_by_label("What it may do").select_option(role)
    desk.get_by_role("button", name="Show the code").click()
    drawing = desk.locator("svg.pairing")
    expect(drawing).to_be_visible()
    desk.wait_for_load_state()
    (found,) = pyzbar.decode(Image.open(io.BytesIO(drawing.screenshot())))
    return found.data.decode()


def test_a_phone_is_paired_used_and_revoked(two, shared, pictured):
    """Nothing before, its role after, its name beside what it records, nothing once revoked."""
    desk, phone, size = two
    address, data, code = shared
    url = offered(desk, address, "record")
    secure = url.partition("/devices/")[0]
    pictured(desk, f"code-{size}")

    assert phone.goto(f"{secure}/c/{code}").status == 403
    pictured(phone, f"stranger-{size}")
    phone.goto(url)
    pictured(phone, f"pair-{size}")
    phone.get_by_role("button", name="Pair").click()
    expect(phone.get_by_text(NAME)).to_be_visible()
    pictured(phone, f"paired-{size}")

    phone.goto(f"{secure}/c/{code}")
    expect(phone.get_by_role("heading", name="Dune").first).to_be_visible()
    assert phone.goto(f"{secure}/people/").status == 403
    pictured(phone, f"too-small-{size}")
    answer = phone.request.post(f"{secure}/cuts/{code}/move", form={"place": f"Shelf {size}"},
                                headers={"Origin": secure}, timeout=180_000)
    assert answer.ok
    with open_stash(data) as stash:
        newest = stash.ledger.latest(1)[0]
    assert (newest.device, newest.kind.value) == (NAME, "move")

    desk.goto(f"{address}/devices/")
    expect(desk.get_by_role("listitem").filter(has_text=NAME)).to_contain_text(
        re.compile(r"last used\s+20\d\d-"))
    expect(desk.get_by_role("listitem").filter(has_text=NAME)).to_contain_text("look and record")
    pictured(desk, f"list-{size}")
    desk.get_by_role("button", name="Revoke").click()
    expect(desk.get_by_text("is let in no more")).to_be_visible()
    pictured(desk, f"revoked-{size}")
    assert phone.goto(f"{secure}/c/{code}").status == 403


def test_a_code_read_a_second_time_pairs_nobody(two, shared, pictured):
    """Whoever photographs the screen later gets nothing but a sentence."""
    desk, phone, size = two
    url = offered(desk, shared[0], "look")
    phone.goto(url)
    phone.get_by_role("button", name="Pair").click()
    expect(phone.get_by_text(NAME)).to_be_visible()
    phone.context.clear_cookies()
    phone.goto(url)
    phone.get_by_role("button", name="Pair").click()
    expect(phone.get_by_text(USED)).to_be_visible()
    pictured(phone, f"used-{size}")
    assert phone.context.cookies() == [] or all(
        cookie["name"] != "lengthwise-device" for cookie in phone.context.cookies())
    desk.goto(f"{shared[0]}/devices/")
    desk.get_by_role("button", name="Revoke").click()
    expect(desk.get_by_text("is let in no more")).to_be_visible()
