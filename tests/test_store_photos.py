"""Photographs are checked, turned upright, made smaller, and stripped of where they were taken."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from stash.errors import InvalidInput, NotFound
from stash.store import open_stash


@pytest.fixture
def stash(tmp_path):
    """An empty stash of its own."""
    with open_stash(tmp_path) as stash:
        yield stash


@pytest.fixture
def code(stash):
    """A label code."""
    return stash.labels.reserve(1)[0]


def jpeg(width=40, height=20, *, turned=False):
    """A JPEG, red on its left half; ``turned`` adds the camera's rotation and a location."""
    image = Image.new("RGB", (width, height), "white")
    image.paste("red", (0, 0, width // 2, height))
    exif = Image.Exif()
    if turned:
        exif[0x0112] = 6  # Exif 2.3 tag Orientation: the row 0 side is to be shown on the right
        exif.get_ifd(0x8825)[1] = "N"  # GPS IFD
    out = io.BytesIO()
    image.save(out, "JPEG", exif=exif)
    return out.getvalue()


def test_a_photograph_is_upright_and_does_not_say_where_it_was_taken(stash, code):
    """40 x 20 pixels with orientation 6 is 20 x 40; its left half is on top; no EXIF is left."""
    stash.photos.add(code, jpeg(turned=True))
    photo = stash.photos.of(code)[0]
    assert (photo.width_px, photo.height_px) == (20, 40)
    with Image.open(stash.photos.file(code, photo.id)) as image:
        assert dict(image.getexif()) == {}
        top, bottom = image.getpixel((10, 5)), image.getpixel((10, 35))
    assert top[1] < 100 < bottom[1]


def test_a_large_photograph_is_made_smaller(stash, code):
    """At most 1600 pixels a side, and 320 for the small one."""
    stash.photos.add(code, jpeg(4000, 2000))
    photo = stash.photos.of(code)[0]
    assert (photo.width_px, photo.height_px) == (1600, 800)
    with Image.open(stash.photos.file(code, photo.id, small=True)) as image:
        assert max(image.size) == 320


@pytest.mark.parametrize(
    "content", [b"", b"hello, not a picture", jpeg()[:200], b"\xff\xd8\xff" + b"\0" * 50,
                b"GIF89a" + b"\xff" * 20, b"<svg xmlns='http://www.w3.org/2000/svg'/>"],
)
def test_what_is_not_a_photograph_is_refused(stash, code, content):
    """Text named .jpg, half a file, nonsense: one sentence, and nothing is kept."""
    with pytest.raises(InvalidInput, match="not_a_picture|picture_empty|picture_damaged"):
        stash.photos.add(code, content)
    assert stash.photos.of(code) == []


def test_a_file_of_more_than_fifty_megabytes_is_refused(stash, code):
    """Before it is even looked at."""
    with pytest.raises(InvalidInput, match="picture_too_many_bytes"):
        stash.photos.add(code, b"\0" * 50_000_001)


def test_a_photograph_can_be_taken_off_and_brought_back(stash, code):
    """The file stays, so undo finds it."""
    stash.photos.add(code, jpeg())
    photo = stash.photos.of(code)[0]
    event = stash.photos.remove(code, photo.id)
    assert stash.photos.of(code) == []
    with pytest.raises(NotFound):
        stash.photos.file(code, photo.id)
    stash.ledger.undo(event.id)
    assert stash.photos.file(code, photo.id).is_file()


def test_a_path_is_not_a_photograph(stash, code):
    """Only known ids lead to a file."""
    for bad in ("../../stash", "..", "x/y"):
        with pytest.raises(NotFound):
            stash.photos.file(code, bad)
