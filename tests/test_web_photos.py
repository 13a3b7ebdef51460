"""Photographs on the pages of cuts and bins."""

import io

import pytest
from PIL import Image

from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline


@pytest.fixture
def cut(web_stash):
    """A cut to photograph."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(900, 900))).code


def picture(kind: str = "JPEG") -> tuple[io.BytesIO, str]:
    """A photograph as a phone sends it."""
    content = io.BytesIO()
    Image.new("RGB", (640, 480), (122, 31, 43)).save(content, kind)
    content.seek(0)
    return content, f"cloth.{kind.lower()}"


def test_a_photograph_is_kept_shown_and_taken_off(web_client, web_stash, cut):
    """The page shows it small, the link whole; undo stays possible."""
    web_client.post(f"/photos/{cut}", data={"photo": picture(), "token": "one-photo"})
    [kept] = web_stash.photos.of(cut)
    page = web_client.get(f"/c/{cut}").text
    assert f"/photos/{cut}/{kept.id}" in page
    shown = web_client.get(f"/photos/{cut}/{kept.id}")
    assert Image.open(io.BytesIO(shown.data)).size == (640, 480)
    shown.close()

    web_client.post(f"/photos/{cut}/{kept.id}/remove", data={})

    assert web_stash.photos.of(cut) == []


def test_what_is_no_photograph_is_refused(web_client, web_stash, cut):
    """A text file under a picture's name."""
    answer = web_client.post(
        f"/photos/{cut}", data={"photo": (io.BytesIO(b"hello"), "cloth.jpg")})

    assert answer.status_code == 422
    assert web_stash.photos.of(cut) == []


@pytest.mark.parametrize("path", ["../../stash.db", "0" * 20, "x"])
def test_only_photographs_of_this_code_are_served(web_client, cut, path):
    """No name leads out of the folder of photographs."""
    assert web_client.get(f"/photos/{cut}/{path}").status_code == 404


def test_the_facts_of_a_bin_can_be_corrected(web_client, web_stash):
    """Name, size and colour; how much is in it stays."""
    code = web_stash.bins.receive(Bin(
        code="", amount=9, notion=Notion(kind=NotionKind.BUTTON, name="Shel", size_mm=11))).code

    web_client.post(f"/bins/{code}/facts", data={
        "name": "Shell", "size": "18L", "colour": "#ece5d8"})

    held = web_stash.bins.get(code)
    assert (held.notion.name, held.amount) == ("Shell", 9)
    assert held.notion.size_mm == pytest.approx(11.43)
