"""Photographs as files: read, or one sentence each; never a traceback."""

from __future__ import annotations

import io
import json
import re
from random import Random

import numpy as np
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from labels.reading import look_bytes, read_bytes
from labels.reading.photographs import photographs, read_file
from stash.errors import InvalidInput
from stash.model import Code
from web.command import main

CODE = Code.draw(Random(5)).text


def label_picture(size=(600, 400), at=(60, 40)) -> Image.Image:
    """A photograph of one label, wider than high."""
    light = ~np.pad(symbol(compose(CODE, "stash.local:5000")).modules, QUIET_MODULES)
    part = Image.fromarray(np.kron(light, np.ones((4, 4))).astype(np.uint8) * 255)
    picture = Image.new("RGB", size, (210, 205, 200))
    picture.paste(part, at)
    return picture


def encoded(picture: Image.Image, form: str = "JPEG", **options) -> bytes:
    """The picture as a file's bytes."""
    held = io.BytesIO()
    picture.save(held, form, **options)
    return held.getvalue()


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "BMP", "TIFF", "GIF"])
def test_every_common_picture_file_is_read(form):
    """Whatever its name ends in: the bytes decide."""
    assert [r.code for r in read_bytes(encoded(label_picture(), form))] == [CODE]


@pytest.mark.parametrize("mode", ["L", "LA", "P", "RGBA", "CMYK", "1", "I;16"])
def test_every_kind_of_pixel_is_read(mode):
    """Grey, palettes, transparency, print colours, sixteen bits."""
    picture = label_picture().convert("L" if mode == "I;16" else mode)
    if mode == "I;16":
        picture = Image.fromarray(np.asarray(picture).astype(np.uint16) * 257)
    form = "TIFF" if mode in {"CMYK", "I;16"} else "PNG"

    assert [r.code for r in read_bytes(encoded(picture, form))] == [CODE]


@pytest.mark.parametrize("orientation", range(1, 9))
def test_exif_orientation_is_obeyed(orientation):
    """Corners lie in the picture as it is shown (Exif 2.3, tag 0x0112); mirrored ones read too."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    undo = {2: 0, 3: 3, 4: 1, 5: 5, 6: 2, 7: 6, 8: 4}
    stored = label_picture()
    if orientation > 1:
        stored = stored.transpose(Image.Transpose(undo[orientation]))
    readings = read_bytes(encoded(stored, exif=exif))

    assert [r.code for r in readings] == [CODE]
    assert readings[0].corners_px[0] == pytest.approx((76, 56), abs=4)


def test_a_photograph_of_forty_megabytes_is_read():
    """60 megapixels of noise round one label: shrunk on the way in, corners as in the original."""
    noise = np.random.default_rng(1).integers(0, 255, (6000, 7000), dtype=np.uint8)
    picture = Image.fromarray(noise)
    picture.paste(label_picture().convert("L").resize((2400, 1600)), (2000, 2000))
    data = encoded(picture, "PNG", compress_level=0)
    assert len(data) > 40_000_000

    reading = read_bytes(data)[0]

    assert reading.code == CODE
    assert reading.corners_px[0] == pytest.approx((2000 + 4 * 76, 2000 + 4 * 56), abs=12)


def heic() -> bytes:
    """The first bytes of a HEIC file (ISO/IEC 23008-12: an ftyp box of brand heic)."""
    return b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic" + bytes(400)


BAD = {
    "empty": (b"", "empty"),
    "text": (b"dear diary, today I cut the linen", "not a photograph"),
    "heic": (heic(), "HEIC"),
    "cut short": (encoded(label_picture())[:3000], "cut short"),
    "only a beginning": (encoded(label_picture(), "PNG")[:40], "cut short|not a photograph"),
    "pdf": (b"%PDF-1.7\n", "not a photograph"),
}


@pytest.mark.parametrize("name", BAD)
def test_what_is_no_photograph_is_one_sentence(name, sentence):
    """It says what to do."""
    data, said = BAD[name]
    with pytest.raises(InvalidInput) as refused:
        read_bytes(data)
    assert re.search(said, sentence(refused.value))

    assert sentence(refused.value).endswith(".")


def test_a_file_larger_than_any_photograph_is_refused_unread(tmp_path, sentence):
    """A sparse file of 200 MB costs nothing to refuse."""
    path = tmp_path / "huge.jpg"
    with path.open("wb") as file:
        file.truncate(200_000_000)

    assert "200 MB" in sentence(InvalidInput(read_file(path).error))


@settings(deadline=None, max_examples=60)
@given(st.data())
def test_a_damaged_photograph_never_raises_anything_else(data):
    """Any byte changed, any length cut: the right code, none, or the one refusal."""
    whole = bytearray(encoded(label_picture()))
    for _ in range(data.draw(st.integers(0, 8))):
        whole[data.draw(st.integers(0, len(whole) - 1))] = data.draw(st.integers(0, 255))
    cut = bytes(whole[: data.draw(st.integers(0, len(whole)))])
    try:
        readings = look_bytes(cut).readings
    except InvalidInput:
        return

    assert {r.code for r in readings} <= {CODE}


def test_a_folder_stands_for_its_pictures_by_name(tmp_path):
    """Other files in it are passed over."""
    for name in ("b.JPG", "a.png", "notes.txt", "c.heic"):
        (tmp_path / name).touch()

    assert [p.name for p in photographs([tmp_path])] == ["a.png", "b.JPG", "c.heic"]


def scan(*args: str):
    """``lengthwise scan`` as a person types it."""
    return CliRunner().invoke(main, ["scan", *args])


def test_scan_tells_codes_corners_decoder_and_time(tmp_path):
    """The shape other programs rely on."""
    (tmp_path / "a.jpg").write_bytes(encoded(label_picture()))
    answer = scan(str(tmp_path / "a.jpg"), "--json")
    result = json.loads(answer.stdout)["results"][0]

    assert answer.exit_code == 0
    assert result["file"].endswith("a.jpg")
    assert result["ms"] > 0
    assert (result["codes"][0]["code"], result["codes"][0]["decoder"]) == (CODE, "zxing")
    assert np.array(result["codes"][0]["corners_px"]).shape == (4, 2)


def test_one_bad_file_among_good_ones_is_told_beside_them(tmp_path):
    """Status 0: something was read."""
    (tmp_path / "a.jpg").write_bytes(encoded(label_picture()))
    (tmp_path / "b.jpg").write_bytes(b"text")
    answer = scan(str(tmp_path), "--json")
    good, bad = json.loads(answer.stdout)["results"]

    assert answer.exit_code == 0
    assert ("error" in good, bad["codes"]) == (False, [])
    assert bad["error"].endswith(".")


@pytest.mark.parametrize("content", [b"", b"text", encoded(Image.new("L", (200, 200), 128))])
def test_when_nothing_was_read_the_status_says_so(tmp_path, content):
    """Status 1, the sentence in the answer, no traceback."""
    (tmp_path / "a.jpg").write_bytes(content)
    answer = scan(str(tmp_path / "a.jpg"), "--json")

    assert answer.exit_code == 1
    assert json.loads(answer.stdout)["results"][0]["error"].endswith(".")
    assert "Traceback" not in answer.output


def test_a_missing_file_and_an_empty_folder_are_said(tmp_path):
    """Both in a sentence."""
    assert "no file" in scan(str(tmp_path / "gone.jpg")).stdout
    (tmp_path / "empty").mkdir()
    assert "no pictures" in scan(str(tmp_path / "empty")).stderr


def test_scan_without_anything_says_what_to_give():
    """Neither a file nor a camera."""
    answer = scan()

    assert (answer.exit_code, "--camera" in answer.stderr) == (1, True)
