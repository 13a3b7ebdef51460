"""The entry screen without scripts: what is typed, presumed and remembered, each in the record."""

import io
import re
from html import unescape

import pytest
import qrcode
from PIL import Image

from stash.model import Cloth, Construction, Cut, FibreShare, Outline
from stash.reference import table

SELECT = r'<select[^>]*name="([^"]+)"[^>]*>(.*?)</select>'


def photograph(colour, text=""):
    """A photograph of cloth of one colour, with a label in its corner where there is a text."""
    picture = Image.new("RGB", (1200, 900), colour)
    if text:
        label = qrcode.make(text, border=4).convert("RGB").resize((360, 360), Image.NEAREST)
        picture.paste(label, (60, 500))
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=92)
    return out.getvalue()


@pytest.fixture
def saved(web_client, web_stash):
    """Saves what is said, beside what the screen shows, as a browser does; the new cut."""

    def save(photo=None, **said):
        page = web_client.get("/entry/").text
        fields = {}
        for tag in re.findall(r"<input[^>]*>", page):
            at = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
            if "name" in at and at.get("type") not in ("file", "radio", "checkbox"):
                fields[at["name"]] = unescape(at.get("value", ""))
            if "name" in at and re.search(r"\bchecked\b", tag):
                fields[at["name"]] = at.get("value", "on")
        for name, options in re.findall(SELECT, page, re.S):
            chosen = re.search(r'<option value="([^"]*)" selected', options)
            fields[name] = chosen[1] if chosen else ""
        if photo:
            said["photo"] = (io.BytesIO(photo), "cloth.jpg")
        before = {cut.code for cut in web_stash.cuts.all()}
        answer = web_client.post("/entry/", data=fields | said,
                                 content_type="multipart/form-data")
        assert answer.status_code == 303, answer.text
        [new] = [cut for cut in web_stash.cuts.all() if cut.code not in before]
        return new

    return save


def test_denim_suggests_weight_and_weave_and_both_are_marked_as_presumed(saved):
    """Most jeans weigh 407 to 475 g/m2 (denham glossary; heddels.com): the middle is presumed."""
    cut = saved(cloth="Harbour denim", length="1.5 m", width="140")

    assert (cut.cloth.mass_gsm, cut.cloth.construction) == (441.0, Construction.WOVEN)
    assert cut.cloth.presumed == ("construction", "mass_gsm")
    assert cut.cloth.fibres == ()


def test_a_weight_that_is_read_off_the_label_is_not_presumed(saved):
    """What is typed wins over what the name suggests."""
    cut = saved(cloth="Harbour denim", length="1.5 m", width="140", mass="12 oz/yd2")

    assert cut.cloth.mass_gsm == pytest.approx(406.9, abs=0.1)
    assert "mass_gsm" not in cut.cloth.presumed


def test_medium_is_a_weight_by_the_hand_and_presumed(saved, web_client):
    """237 to 373 g/m2 (pnwkyne.com): the middle, said to be presumed on the page of the cut."""
    cut = saved(cloth="Kelp", length="1.5 m", width="140", weight_word="medium")

    assert (cut.cloth.mass_gsm, cut.cloth.presumed) == (305.0, ("mass_gsm",))
    assert "presumed" in web_client.get(f"/c/{cut.code}").text


def test_the_shelf_the_width_and_the_facts_are_as_the_last_ones(saved):
    """Only the length and the name are new; the weight of another cloth is presumed."""
    saved(cloth="Dune", length="1.5 m", width_chip="1400.0", place="Loft shelf 1",
          fibres="linen 55 cotton 45", construction="woven", mass="180 g/m2", washed="on")

    cut = saved(cloth="Tide", length="90 cm")

    assert (cut.place, cut.width_mm, cut.washed) == ("Loft shelf 1", 1400.0, True)
    assert cut.cloth.fibres == (FibreShare("flax", 55), FibreShare("cotton", 45))
    assert (cut.cloth.mass_gsm, cut.cloth.presumed) == (180.0, ("mass_gsm",))


@pytest.mark.parametrize(("typed", "presumed"), [
    ({"width": "140"}, False), ({"width_chip": "1400.0"}, True)])
def test_a_usual_width_taken_by_a_tap_is_presumed(saved, typed, presumed):
    """What was typed is hers; a chip, also the last one's left as it stood, nobody measured."""
    assert saved(cloth="Dune", length="1.5 m", **typed).width_presumed is presumed


def test_the_kind_of_the_new_cloth_wins_over_what_the_last_one_was(saved):
    """After woven denim a jersey is knitted."""
    saved(cloth="Harbour denim", length="1.5 m", width="140")

    cut = saved(cloth="Froth", length="1 m", kind="jersey")

    assert cut.cloth.construction is Construction.KNIT
    assert cut.cloth.mass_gsm == pytest.approx(168)


def test_a_cloth_on_record_keeps_its_facts_whatever_the_last_one_was(saved, web_stash):
    """Nothing of the last cloth runs into another that is known."""
    known = Cloth(name="Tide drill", mass_gsm=240, construction=Construction.WOVEN)
    web_stash.cuts.receive(Cut(code="", cloth=known, outline=Outline.rectangle(1000, 1380)))
    saved(cloth="Dune", length="1.5 m", width="140", fibres="linen", mass="150")

    assert saved(cloth="tide drill", length="2 m").cloth == known


def test_the_same_cloth_again_takes_one_tick(saved):
    """A second length of it, and it is one cloth."""
    first = saved(cloth="Dune", length="1.5 m", width="140", fibres="linen")

    assert saved(same="on", length="70 cm").cloth == first.cloth


def test_a_photograph_gives_the_colour_and_the_label_that_lies_in_it(saved, web_stash):
    """Dark red cloth with a blank label: both are read, the picture is kept, all as one event."""
    [code] = web_stash.labels.reserve(1)

    cut = saved(photograph("#8b0000", f"http://loft.local:5000/c/{code}"), length="1 m",
                width="140", kind="corduroy")

    assert cut.code == code
    assert cut.cloth.name == "Dark red corduroy"
    red, green, blue = (int(cut.cloth.colours[0][i : i + 2], 16) for i in (1, 3, 5))
    assert red > 110 and max(green, blue) < 40
    assert len(web_stash.photos.of(code)) == 1
    assert len(web_stash.ledger.history(code)) == 1


def test_a_colour_that_is_said_wins_over_the_photograph(saved):
    """"natural" is a colour; nobody types figures."""
    cut = saved(photograph("#707070"), cloth="Dune", length="1 m", width="140", colour="natural")

    assert cut.cloth.colours == ("#e6dcc4",)


def test_what_is_missing_is_asked_for_and_what_was_typed_stays(web_client, web_stash):
    """A refusal keeps the form as it was."""
    answer = web_client.post("/entry/", data={"cloth": "Dune", "length": "abc", "width": "140"})

    assert answer.status_code == 422
    assert 'value="abc"' in answer.text and 'value="Dune"' in answer.text
    assert web_stash.cuts.all() == []


@pytest.mark.parametrize("name", ["cloth_widths", "weight_words", "cloth_kinds"])
def test_every_row_of_what_is_presumed_says_where_it_is_from(name):
    """Status and source, or that there is none."""
    assert all(row["status"] and row["source"] for row in table(name))


def test_a_photograph_that_came_with_what_was_refused_is_to_be_chosen_again(web_client):
    """A browser cannot be given it back: the page says so, and only where there was one."""
    def refused(**sent):
        return web_client.post("/entry/", data={"length": "3"} | sent,
                               content_type="multipart/form-data")

    without, with_one = refused(), refused(photo=(io.BytesIO(photograph("#446688")), "cloth.jpg"))

    assert without.status_code == with_one.status_code == 422
    assert "choose it again" not in without.text
    assert "It was not kept with the rest: choose it again." in with_one.text
