"""A table on the pages: sent, its columns shown, every row's fate told, saved or not."""

import io
import re
from html import unescape

import pytest

LOFT = "Name;Länge;Breite (cm);Regal\nDüne;150;140;Loft 1\nTide;2,5 m;138;Loft 2\n"


def hidden(page):
    """Every field of the form, as it stands."""
    fields = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', page))
    for name, options in re.findall(r'<select name="([^"]+)"[^>]*>(.*?)</select>', page, re.S):
        chosen = re.search(r'<option(?: value="([^"]*)")?[^>]*selected[^>]*>\s*([^<]*)', options)
        fields[name] = (chosen[1] or chosen[2].strip()) if chosen else ""
    return {name: unescape(value) for name, value in fields.items()}


@pytest.fixture
def sent(web_client):
    """The page after a table was sent."""

    def send(text, name="loft.csv"):
        return web_client.post("/spreadsheet/", data={
            "file": (io.BytesIO(text.encode() if isinstance(text, str) else text), name)},
            content_type="multipart/form-data")

    return send


def test_a_column_without_a_unit_is_asked_for_before_any_fate_is_told(web_client, web_stash, sent):
    """Then the fates are shown, and only the button saves."""
    asked = sent(LOFT)
    assert "numbers without a unit in Länge" in asked.text

    fields = hidden(asked.text) | {"unit-1": "cm"}
    told = web_client.post("/spreadsheet/", data=fields)
    assert "Comes in: Düne, 1.50 m" in unescape(told.text)
    assert web_stash.cuts.all() == []

    saved = web_client.post("/spreadsheet/", data=hidden(told.text) | {"act": "write"},
                            follow_redirects=True)
    assert "2 rows saved." in saved.text
    assert {cut.length_mm for cut in web_stash.cuts.all()} == {1500.0, 2500.0}


def test_a_table_that_is_saved_can_be_taken_back_at_once(web_client, web_stash, sent):
    """One undo for all of its rows."""
    told = sent(LOFT.replace("Länge", "Länge (cm)"))
    saved = web_client.post("/spreadsheet/", data=hidden(told.text) | {"act": "write"},
                            follow_redirects=True)
    event = re.search(r'name="event" value="(\d+)"', saved.text)[1]

    web_client.post("/history/undo", data={"event": event})

    assert web_stash.cuts.all() == []


def test_a_double_tap_on_save_saves_once(web_client, web_stash, sent):
    """The same form twice is one act."""
    fields = hidden(sent(LOFT.replace("Länge", "Länge (cm)")).text) | {"act": "write"}

    for _ in range(2):
        assert web_client.post("/spreadsheet/", data=fields).status_code == 303
    assert len(web_stash.cuts.all()) == 2


def test_a_column_may_be_corrected_and_left_out(web_client, sent):
    """Two columns cannot say the same; a column that is left out says nothing."""
    fields = hidden(sent(LOFT.replace("Länge", "Länge (cm)")).text)

    twice = web_client.post("/spreadsheet/", data=fields | {"meaning-3": "name"})
    without = web_client.post("/spreadsheet/", data=fields | {"meaning-0": ""})

    assert "are to say the same" in twice.text
    assert "No column says what things are called" in unescape(without.text)


def test_while_a_row_is_refused_there_is_no_button_to_save(sent):
    """All or none."""
    page = sent("Name,Length (cm),Width (cm)\nDune,150,140\nTide,,138\n")

    assert page.status_code == 422
    assert "The length is missing." in page.text
    assert 'value="write"' not in page.text


@pytest.mark.parametrize("content", [b"", b"\0\1\2", b"PK\x03\x04no"])
def test_what_is_no_table_is_refused_on_the_page(sent, content):
    """One sentence, and the form again."""
    page = sent(content, "x.ods")

    assert page.status_code == 422
    assert 'role="alert"' in page.text


def test_the_form_refuses_a_packed_file_that_is_none(web_client):
    """What travels in the form is checked like what was sent."""
    assert web_client.post("/spreadsheet/", data={"packed": "%%%"}).status_code == 422


@pytest.mark.parametrize("kind", ["csv", "xlsx", "ods"])
def test_the_page_gives_out_a_template_and_the_stash(web_client, kind):
    """Each in three kinds of file."""
    for name in ("template", "stash"):
        answer = web_client.get(f"/spreadsheet/{name}.{kind}")
        assert answer.status_code == 200
        assert kind in answer.headers["Content-Disposition"]
    assert web_client.get("/spreadsheet/stash.exe").status_code == 422
