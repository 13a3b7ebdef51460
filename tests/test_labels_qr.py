"""QR symbols against the standard's worked examples and other libraries."""

import re
from random import Random

import numpy as np
import pytest
import segno
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays
from qrcode import util

from labels.mask import penalties
from labels.payload import compose
from labels.qr import QUIET_MODULES, symbol
from stash.errors import InvalidInput
from stash.model import Code

CODE = Code.draw(Random(7)).text
ADDRESS = compose(CODE, "stash.local:5000")


def picture(made, module_px=4):
    """The symbol as a grey picture with its quiet zone."""
    light = ~np.pad(made.modules, QUIET_MODULES)
    return np.kron(light, np.ones((module_px, module_px))).astype(np.uint8) * 255


def codewords(text, mode, level=0):
    """Data and error correction codewords of version 1 as the qrcode library makes them."""
    return bytes(util.create_data(1, level, [util.QRData(text, mode=mode)])).hex(" ").upper()


def test_worked_example_of_numeric_mode():
    """01234567 at 1-M: ISO/IEC 18004 Annex I and JIS X 0510, the standard's own example."""
    assert codewords("01234567", util.MODE_NUMBER) == (
        "10 20 0C 56 61 80 EC 11 EC 11 EC 11 EC 11 EC 11 "
        "A5 24 D4 C1 ED 36 C7 87 2C 55"
    )


def test_worked_example_of_alphanumeric_mode():
    """AC-42: ISO/IEC 18004, 7.4.4, mode and count and three groups of bits."""
    bits = "0010 000000101 00111001110 11100111001 000010".replace(" ", "")
    made = bytes(util.create_data(1, 1, [util.QRData("AC-42", mode=util.MODE_ALPHA_NUM)]))

    assert f"{int.from_bytes(made):0{8 * len(made)}b}".startswith(bits)


def test_worked_example_of_error_correction():
    """HELLO WORLD at 1-M, a worked example published in many tutorials (value from memory)."""
    assert codewords("HELLO WORLD", util.MODE_ALPHA_NUM) == (
        "20 5B 0B 78 D1 72 DC 4D 43 40 EC 11 EC 11 EC 11 "
        "C4 23 27 77 EB D7 E7 E2 5D 17"
    )


def test_an_address_is_version_3_at_level_h_as_zxing_reports():
    """An address is version 3 at level h as zxing reports."""
    seen = zxingcpp.read_barcodes(picture(symbol(ADDRESS)))[0]

    assert (seen.text, seen.extra["Version"], seen.ec_level) == (ADDRESS, "3", "H")


def test_an_address_is_in_alphanumeric_mode():
    """Byte mode holds 24 characters in 3-H, alphanumeric 35 (ISO/IEC 18004, table 7)."""
    assert 24 < len(ADDRESS) <= 35
    assert symbol(ADDRESS).version == 3
    assert segno.make_qr(ADDRESS, error="h", boost_error=False).mode == "alphanumeric"


def test_a_bare_code_is_version_1_at_level_h():
    """A bare code is version 1 at level h."""
    made = symbol(CODE)

    assert (made.version, made.level, made.side) == (1, "H", 21 + 8)


def test_a_longer_address_keeps_version_3_at_a_weaker_level():
    """A longer address keeps version 3 at a weaker level."""
    made = symbol(compose(CODE, "harbour-loft.local:5000"))

    assert (made.version, made.level) == (3, "Q")


def test_an_address_too_long_for_any_label_is_refused(sentence):
    """An address too long for any label is refused."""
    with pytest.raises(InvalidInput) as refused:
        symbol(compose(CODE, "x" * 120))
    assert re.search("too long", sentence(refused.value))


@pytest.mark.parametrize("text", [CODE, ADDRESS, compose(CODE, "10.0.0.12:80")])
def test_another_library_makes_the_same_modules(text):
    """segno, given the version, level and mask that zxing-cpp reports of ours, agrees exactly."""
    made = symbol(text)
    seen = zxingcpp.read_barcodes(picture(made))[0]
    theirs = segno.make_qr(
        text, version=made.version, error=made.level, mask=int(seen.extra["DataMask"]),
        boost_error=False,
    )

    assert (made.modules == np.array([list(row) for row in theirs.matrix], dtype=bool)).all()


def test_the_mask_printed_is_the_least_disturbing_of_all_eight():
    """The mask printed is the least disturbing of all eight."""
    masks = [
        np.array(segno.make_qr(ADDRESS, version=3, error="h", mask=m, boost_error=False).matrix,
                 dtype=bool)
        for m in range(8)
    ]

    assert penalties(symbol(ADDRESS).modules[None])[0] == penalties(np.stack(masks)).min()


@given(arrays(bool, (21, 21)))
def test_penalties_agree_with_the_qrcode_library(modules):
    """Penalties agree with the qrcode library."""
    assert penalties(modules[None])[0] == util.lost_point(modules.tolist())


@given(st.integers(0, 10**6))
def test_every_code_reads_back(seed):
    """Every code reads back."""
    code = Code.draw(Random(seed)).text
    seen = zxingcpp.read_barcodes(picture(symbol(compose(code, "stash.local:5000")), 3))

    assert [b.text for b in seen] == [f"HTTP://STASH.LOCAL:5000/C/{code}"]
