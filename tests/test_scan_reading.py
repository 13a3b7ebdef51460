"""LabelReading labels from pictures: what must hold whatever decoder does the work."""

from __future__ import annotations

from random import Random

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from labels.reading import Thoroughness, decoders, look, read
from labels.reading.readings import LabelReading, in_reading_order
from stash.model import Code

ADDRESS = "stash.local:5000"


def codes(count: int) -> list[str]:
    """So many codes, always the same."""
    random = Random(3)
    return [Code.draw(random).text for _ in range(count)]


def drawn(text: str, module_px: int = 4) -> np.ndarray:
    """A symbol in grey with its quiet zone."""
    light = ~np.pad(symbol(text).modules, QUIET_MODULES)
    return np.kron(light, np.ones((module_px, module_px))).astype(np.uint8) * 255


def sheet(texts: list[str], columns: int = 3, askew: float = 0.0) -> np.ndarray:
    """Symbols in rows on one picture, each row falling by ``askew`` of its length."""
    cell = 220
    rows = -(-len(texts) // columns)
    fall = int(askew * columns * cell)
    picture = np.full((rows * cell + 80 + fall, columns * cell + 40), 230, np.uint8)
    for n, text in enumerate(texts):
        row, column = divmod(n, columns)
        part = drawn(text)
        x, y = 30 + column * cell, 30 + row * cell + int(askew * column * cell)
        picture[y : y + len(part), x : x + len(part)] = part
    return picture


@pytest.mark.parametrize("effort", Thoroughness)
def test_many_labels_come_in_reading_order(effort):
    """Row by row from the top left, all of them."""
    wanted = codes(9)
    picture = sheet([compose(code, ADDRESS) for code in wanted])

    assert [r.code for r in read(picture, effort)] == wanted


def test_a_sheet_photographed_a_little_askew_keeps_its_order():
    """Rows that fall by a tenth of their length."""
    wanted = codes(9)
    picture = sheet([compose(code, ADDRESS) for code in wanted], askew=0.1)

    assert [r.code for r in read(picture)] == wanted


def test_corners_are_those_of_the_symbol_clockwise_from_its_own_top_left():
    """Drawn at (30, 30) with 4 pixels a module and 4 modules of quiet zone."""
    reading = read(sheet([compose(codes(1)[0], ADDRESS)], columns=1))[0]
    near, far = 30 + 16, 30 + 16 + 29 * 4

    for corner, expected in zip(
        reading.corners_px, [(near, near), (far, near), (far, far), (near, far)], strict=True
    ):
        assert corner == pytest.approx(expected, abs=3)


def test_a_reading_says_which_decoder_read_it_and_what():
    """The plain pass reads a plain picture."""
    code = codes(1)[0]
    reading = read(sheet([compose(code, ADDRESS)], columns=1))[0]

    assert (reading.decoder, reading.payload, reading.host) == (
        "zxing", f"HTTP://STASH.LOCAL:5000/C/{code}", ADDRESS
    )


@pytest.mark.parametrize("turn", [cv2.ROTATE_90_CLOCKWISE, cv2.ROTATE_180])
@pytest.mark.parametrize("channels", ["grey", "BGR", "BGRA"])
def test_any_turn_and_any_channels_will_do(turn, channels):
    """Grey, three channels or four, however the camera was held."""
    picture = cv2.rotate(sheet([codes(1)[0]], columns=1), turn)
    if channels != "grey":
        picture = cv2.cvtColor(picture, cv2.COLOR_GRAY2BGRA if channels == "BGRA" else 8)

    assert [r.code for r in read(picture)] == codes(1)


def test_the_same_label_twice_in_one_picture_is_two_readings():
    """A cut may carry two labels; the same place is never told twice."""
    picture = sheet([codes(1)[0]] * 2, columns=2)

    assert [r.code for r in read(picture)] == codes(1) * 2


def test_another_programs_code_is_a_stranger_not_a_label():
    """Told as what it says, with no code."""
    sight = look(sheet(["HTTP://EXAMPLE.ORG/"], columns=1))

    assert (sight.readings, sight.strangers) == ((), ("HTTP://EXAMPLE.ORG/",))


def test_a_wrong_check_character_is_never_a_reading():
    """A symbol that decodes perfectly to a code whose last character was changed."""
    code = codes(1)[0]
    wrong = code[:-1] + ("2" if code[-1] != "2" else "3")

    assert read(sheet(["HTTP://X.LOCAL/C/" + wrong], columns=1)) == []


def test_a_label_located_and_not_read_asks_to_come_closer(sentence):
    """Half its data gone, its three eyes whole."""
    picture = sheet([compose(codes(1)[0], ADDRESS)], columns=1)
    picture[80:160, 80:160] = np.random.default_rng(1).integers(0, 2, (20, 20)).repeat(
        4, 0).repeat(4, 1) * 255
    sight = look(picture)

    assert sight.readings == ()
    assert "move closer" in sentence(sight.hint)


@settings(deadline=None, max_examples=30)
@given(arrays(np.uint8, st.tuples(st.integers(1, 120), st.integers(1, 120))))
def test_no_picture_raises_or_invents_a_label(picture):
    """Down to one pixel."""
    assert read(picture) == []


def test_without_libzbar_the_rest_still_reads(monkeypatch):
    """The optional last step is simply not there."""
    monkeypatch.setattr(decoders, "zbar", lambda: None)
    picture = cv2.GaussianBlur(sheet([compose(codes(1)[0], ADDRESS)], columns=1), (0, 0), 1.4)

    assert [r.code for r in read(picture)] == codes(1)
    assert read(np.full((200, 200), 128, np.uint8)) == []


@pytest.mark.zbar
def test_with_libzbar_its_decoder_agrees():
    """An independent library reads the same text from the same symbol."""
    text = compose(codes(1)[0], ADDRESS)

    assert [found for found, _ in decoders.zbar()(drawn(text))] == [text]


@given(st.permutations(range(12)))
def test_reading_order_does_not_depend_on_the_order_of_finding(order):
    """Four columns, three rows."""
    placed = [
        LabelReading(str(n), tuple((x + 100 * (n % 4), y + 100 * (n // 4)) for x, y in
                              ((0, 0), (50, 0), (50, 50), (0, 50))), "zxing", "")
        for n in range(12)
    ]

    assert in_reading_order([placed[n] for n in order]) == placed
