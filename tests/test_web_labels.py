"""Printing from the page: a PDF, and codes that stay reserved."""

import pypdfium2
import pytest
import zxingcpp

from stash.model import Cloth, Cut, Outline


def read_back(pdf: bytes) -> set[str]:
    """The codes on every page at 300 dpi, by a decoder of its own."""
    document = pypdfium2.PdfDocument(pdf)
    codes = set()
    for page in document:
        picture = page.render(scale=300 / 72).to_pil().convert("L")
        codes |= {found.text.rpartition("/")[2] for found in zxingcpp.read_barcodes(picture)}
    document.close()
    return codes


def test_blank_labels_are_reserved_as_they_are_printed(web_client, web_stash):
    """24 codes on the sheet are the 24 blank ones on record."""
    answer = web_client.post("/labels/", data={
        "which": "blank", "blank": "24", "sheet": "a4-24", "start": "1"})

    assert answer.mimetype == "application/pdf"
    assert read_back(answer.data) == set(web_stash.labels.blank())
    assert len(web_stash.labels.blank()) == 24


def test_chosen_cuts_are_printed_and_remembered(web_client, web_stash):
    """The label says what the record said; a change makes it due again."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(3000, 1400))).code

    answer = web_client.post("/labels/", data={
        "which": "chosen", "code": code, "sheet": "a4-65", "start": "3"})
    assert read_back(answer.data) == {code}

    due = {"which": "changed", "sheet": "a4-24", "start": "1"}
    assert web_client.post("/labels/", data=due).status_code == 422
    web_stash.cuts.cut_off(code, 500)
    assert read_back(web_client.post("/labels/", data=due).data) == {code}


@pytest.mark.parametrize(("form", "sentence"), [
    ({"which": "blank", "blank": "0"}, "must lie between"),
    ({"which": "blank", "blank": "24", "start": "99"}, "has places 1 to 24"),
    ({"which": "blank", "blank": "24", "sheet": "grid", "grid": "nonsense"}, "is not a grid"),
    ({"which": "chosen"}, "Tick at least one"),
    ({"which": "place", "place": "Nowhere"}, "Nothing on record lies"),
])
def test_what_cannot_be_printed_is_refused_and_nothing_is_reserved(
    web_client, web_stash, form, sentence
):
    """A refusal wastes no codes."""
    answer = web_client.post("/labels/", data={"sheet": "a4-24", "start": "1"} | form)

    assert answer.status_code in (404, 422)
    assert sentence in answer.text
    assert web_stash.labels.blank() == []


def test_every_place_gets_a_label(web_client, web_stash):
    """A shelf that is only named so far is given a code as its label is printed."""
    web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(900, 900), place="Loft"))

    answer = web_client.post("/labels/", data={
        "which": "places", "sheet": "a4-24", "start": "1", "layout": "place-front"})

    assert read_back(answer.data) == {web_stash.places.find("Loft").code}
