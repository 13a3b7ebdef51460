"""As far as it goes, on its page: chosen, searched in the background, and drawn."""

import re

import pytest
from until import once_over

from stash.model import Cloth, Cut, Outline, Person


@pytest.fixture
def drill(web_stash, kernels):
    """Odile, and 1.5 m of washed drill."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    cloth = Cloth(name="Gull drill", construction="woven", mass_gsm=230)
    cut = Cut(code="", cloth=cloth, outline=Outline.rectangle(1500, 1140), washed=True)
    return web_stash.cuts.receive(cut).code


def ask(client, garment: str, **form) -> str:
    """Ask and wait until the search is over; the address of the answer."""
    sent = client.post(f"/far/{garment}/", data=form)
    assert sent.status_code == 303, sent.text
    return once_over(client, sent.location)


def test_each_garment_offers_what_of_it_can_grow(web_client, drill):
    """A skirt's length and flare, and how many of it; a circle skirt's own."""
    assert "/far/a-line-skirt/" in web_client.get("/far/").text
    page = web_client.get("/far/a-line-skirt/").text

    assert 'value="length"' in page
    assert 'value="flare"' in page
    assert 'value="copies"' in page


def test_a_cut_says_how_long_the_skirt_can_be_and_draws_it(web_client, drill):
    """The value, what ended it, and the lay to scale."""
    where = ask(web_client, "a-line-skirt", grow="length", person="Odile", cut=drill)
    page = web_client.get(where).text

    assert re.search("would not fit|can never fit", page)
    picture = re.search(r'src="([^"]*/lay/[^"]*\.svg[^"]*)"', page)[1]
    assert web_client.get(picture).text.startswith("<svg")


def test_two_options_are_set_against_each_other_as_a_curve_and_a_table(web_client, drill):
    """A row and a dot for each value of the second."""
    where = ask(web_client, "a-line-skirt", grow="length", against="flare", person="Odile",
                cut=drill)
    page = web_client.get(where).text

    assert 'class="curve"' in page
    assert page.count("<circle") >= 3
    assert "/lay/at-0.svg" in page


def test_what_cannot_grow_is_said_on_the_form(web_client, drill):
    """A forged choice is one sentence, and the form stays."""
    answer = web_client.post("/far/a-line-skirt/", data={"grow": "waist", "person": "Odile"})
    assert answer.status_code == 422
    nothing = web_client.post("/far/a-line-skirt/", data={"person": "Odile"})

    assert nothing.status_code == 422
    assert "Choose what is to grow." in nothing.text


def test_a_german_noun_keeps_its_capital_wherever_it_stands(web_client, drill):
    """"Fertige Länge von der Taille abwärts", not "länge"."""
    page = web_client.get("/far/a-line-skirt/", headers={"Accept-Language": "de"}).text

    assert "Fertige Länge von der Taille abwärts" in page
