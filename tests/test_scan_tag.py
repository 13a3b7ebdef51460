"""The tag of a bolt: its bar code or QR code is read and offered as the note."""

from __future__ import annotations

import io

import numpy as np
import pytest
import qrcode
from PIL import Image

from labels.reading.tag_codes import read_tag

# GS1 General Specifications, section 5.2.1 (EAN-13), from memory: the sets A and C of seven
# modules a digit, B being C backwards, and which set each of the left six takes.
A = [
    "0001101", "0011001", "0010011", "0111101", "0100011",
    "0110001", "0101111", "0111011", "0110111", "0001011",
]
C = ["".join("10"[int(bit)] for bit in digit) for digit in A]
B = [digit[::-1] for digit in C]
LEFT = [
    "AAAAAA", "AABABB", "AABBAB", "AABBBA", "ABAABB",
    "ABBAAB", "ABBBAA", "ABABAB", "ABABBA", "ABBABA",
]


def ean13(digits: str) -> np.ndarray:
    """A bar code drawn by hand, with its quiet zones."""
    sets = zip(LEFT[int(digits[0])], digits[1:7], strict=True)
    left = "".join((A if which == "A" else B)[int(digit)] for which, digit in sets)
    right = "".join(C[int(digit)] for digit in digits[7:])
    modules = f"{'0' * 11}101{left}01010{right}101{'0' * 11}"
    row = np.repeat([0 if bit == "1" else 235 for bit in modules], 4).astype(np.uint8)
    return np.tile(row, (160, 1))


def tag(*symbols: np.ndarray) -> bytes:
    """A photograph of a tag with these symbols, one below the other."""
    paper = np.full((900, 700), 235, np.uint8)
    top = 60
    for symbol in symbols:
        paper[top : top + symbol.shape[0], 60 : 60 + symbol.shape[1]] = symbol
        top += symbol.shape[0] + 60
    kept = io.BytesIO()
    Image.fromarray(paper).save(kept, "JPEG", quality=85)
    return kept.getvalue()


def qr(text: str) -> np.ndarray:
    """A QR code by another library than the one that reads it."""
    return np.array(qrcode.make(text, box_size=8).convert("L"))


def test_a_bar_code_and_a_qr_code_are_both_read():
    """4006381333931 is a number whose check digit agrees: 3 times the even places, plus the odd."""
    seen = read_tag(tag(ean13("4006381333931"), qr("Linen 55/45, 140 cm")))

    assert sorted(seen) == ["4006381333931", "Linen 55/45, 140 cm"]


def test_a_tag_without_a_code_says_nothing():
    """An empty answer, which the page turns into what to do."""
    assert read_tag(tag()) == ()


@pytest.mark.parametrize("typed", [{}, {"note": "sorrel", "width": "140 cm"}])
def test_without_scripts_the_stash_reads_the_tag(web_client, typed):
    """The code joins the note, and what was typed stays."""
    page = web_client.post("/pocket/tag", data={
        **typed, "tag": (io.BytesIO(tag(qr("No 7 sorrel"))), "tag.jpg")})

    note = ", ".join(filter(None, [typed.get("note"), "No 7 sorrel"]))
    assert f'value="{note}"' in page.text
    assert typed.get("width", "") in page.text


def test_a_tag_that_cannot_be_read_says_what_to_do(web_client):
    """The form stays as it was."""
    page = web_client.post("/pocket/tag", data={
        "price": "12.50", "tag": (io.BytesIO(tag()), "tag.jpg")})

    assert page.status_code == 422
    assert "No bar code and no QR code is seen on it" in page.text
    assert 'value="12.50"' in page.text
