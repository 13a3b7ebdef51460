"""On a page and on paper no line ends between a number and its unit; a command's text and what
a program reads keep the plain space, and either is understood when it is typed back.
"""

import io
import re

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from labels.content import for_cut
from labels.words_in_box import fit
from stash import units
from stash.model import Cloth, Cut, NotionKind, Outline
from stash.model.amounts import read_amount, read_notion_size
from stash.quantity import Quantity, read_length, read_new_length
from stash.sentences import Reader
from stash.sentences.quantities import shown, written
from stash.sentences.reader import LANGUAGES
from stash.sentences.unbroken import units_kept
from stash.units import System

NO_BREAK = "\u00a0"
READERS = [Reader(system, language, unbroken=unbroken)
           for system in System for language in LANGUAGES for unbroken in (False, True)]
LENGTHS = [q for q in Quantity if q not in (Quantity.BUTTON,)]
# A number, and a unit that a line could begin with.
BROKEN = re.compile(r"\d (?:mm|cm|m|yd|po|Zoll|Yard|g|g/m²|%|m²|°C|×)(?![\w’])")


@pytest.mark.parametrize(("text", "said"), [
    ("5 mm or 1/4 in; 0 lays", "5_mm or 1/4 in; 0 lays"),
    ("%(length)s × %(width)s whole", "%(length)s_×_%(width)s whole"),
    ("à 30 °C, 12 €", "à 30_°C, 12_€"),
    ("{count} × {size}", "{count}_×_{size}"),
    ("%(along)g %% shorter", "%(along)g_%% shorter"),
    ("%(colour)s %(cloth)s", "%(colour)s %(cloth)s"),
    ("2 mètres, 3 minutes, 5 gens", "2 mètres, 3 minutes, 5 gens"),
    ("1,60 / m", "1,60_/ m"),
])
def test_a_sentence_keeps_a_number_to_its_unit(text, said):
    """Only there: a line must be able to end somewhere."""
    assert units_kept(text) == said.replace("_", NO_BREAK)


@pytest.mark.parametrize("reader", READERS, ids=str)
@given(mm=st.floats(1, 90_000), kind=st.sampled_from(LENGTHS))
def test_a_length_that_is_shown_is_read_again(reader, mm, kind):
    """Whatever stands on a page may be copied into a field: at most its last figure is lost.

    Much thread is told in whole yards, as on its spool; other lengths to an eighth of one.
    """
    said = shown(mm, kind, reader)
    yards = 458 if kind is Quantity.THREAD_LENGTH else 115
    assert (" " in said, NO_BREAK in said) == (not reader.unbroken, reader.unbroken), said

    again = read_length(said, kind) if re.search("[1-9]", said) else 0.0
    assert again == pytest.approx(mm, abs=yards if "yd" in said or "Yard" in said else 5.1)


@pytest.mark.parametrize("reader", READERS, ids=str)
@given(mm=st.floats(100, 90_000))
def test_what_is_left_of_a_cut_is_read_again(reader, mm):
    """As on the page of a cut, and as a sentence says it."""
    for said in (shown(mm, Quantity.CUT_LENGTH, reader), written("left_mm", mm, reader)):
        assert read_new_length(said) == pytest.approx(mm, abs=60)


@pytest.mark.parametrize("reader", READERS, ids=str)
@given(gsm=st.floats(20, 900))
def test_a_weight_that_is_shown_is_read_again(reader, gsm):
    """180 g/m², or 5.3 oz/yd²."""
    assert units.parse_mass(written("_gsm", gsm, reader)) == pytest.approx(gsm, abs=2)


@pytest.mark.parametrize("reader", READERS, ids=str)
@given(much=st.integers(0, 9_999_999))
def test_a_count_that_is_shown_is_read_again(reader, much):
    """Also where thousands are set apart, as 1 234 or 1.234."""
    assert read_amount(NotionKind.BUTTON, written("", float(much), reader)) == much


@pytest.mark.parametrize("typed", ["15\u00a0mm", "15\u202fmm", "15 mm"])
def test_any_space_is_a_space_to_whoever_reads_a_size(typed):
    """From a page, from a table, from the keyboard."""
    assert read_notion_size(NotionKind.BUTTON, typed) == 15


def test_a_page_breaks_no_number_from_its_unit(web_client, web_stash):
    """The bytes themselves; a script that asks for JSON is answered with plain spaces."""
    cut = Cut(code="", cloth=Cloth(name="X7", mass_gsm=180), place="P1",
              outline=Outline.rectangle(2512, 1384))
    code = web_stash.cuts.receive(cut).code
    for page in ("/", f"/cuts/{code}", f"/cuts/{code}/facts", "/cuts/new", "/settings/"):
        answer = web_client.get(page, follow_redirects=True)
        drawn = re.compile(r"<svg.*?</svg>", re.DOTALL)  # a line of it ends nowhere
        text = re.sub(r"<[^>]*>", " ", drawn.sub("", answer.data.decode()))
        assert not BROKEN.search(text), (page, BROKEN.search(text))
    script = web_client.post(f"/cuts/{code}/off", data={"length": "9 m"},
                             headers={"Accept": "application/json"})
    assert NO_BREAK not in script.data.decode()


def test_a_label_breaks_no_number_from_its_unit_and_its_text_is_kept_plain():
    """What a label says is compared with what it said when it was printed."""
    cut = Cut(code="K7QW2M", cloth=Cloth(name="X7"), outline=Outline.rectangle(2512, 1384))
    plain = for_cut(cut, Reader(System.METRIC)).size
    assert plain == "2.51 m × 138.4 cm"

    lines = fit(plain, 12.0, 4, (1.0, 1.0), len).lines
    assert lines == (f"2.51{NO_BREAK}m{NO_BREAK}×", f"138.4{NO_BREAK}cm")[:2] or all(
        not re.fullmatch(r"[\d.]+|m|cm", line) for line in lines)


def test_a_pdf_keeps_the_space_at_which_no_line_ends():
    """The space has a glyph, and no box in its place."""
    from labels.calibration_on_paper import calibration_sheet_pdf

    sheet = calibration_sheet_pdf((1,), "a4", reader=Reader(System.METRIC, "fr"))
    text = pypdf.PdfReader(io.BytesIO(sheet)).pages[0].extract_text()
    assert "▯" not in text
