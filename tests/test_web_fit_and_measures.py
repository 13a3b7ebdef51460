"""Her fit and her measurements have pages of their own: kept, drawn again, undone."""

from __future__ import annotations

import pytest

from stash.model import Person
from stash.workroom import people

WOMAN = {"hip": 1000.0, "waist": 780.0, "bust": 940.0}


@pytest.fixture
def odile(web_stash):
    """Somebody measured in spring."""
    web_stash.people.save(Person(name="Odile", measurements_mm=WOMAN, body="women",
                                 measured_on="2026-03-01"))
    return web_stash


def sent(client, address: str, **values):
    """The form of a page, sent with its once-only token."""
    page = client.get(address).get_data(as_text=True)
    form = page.split("<form method=\"post\"")[1]
    token = form.split('name="token" value="')[1].split('"')[0]
    return client.post(address, data={"token": token, **values})


def test_what_a_toile_showed_is_typed_on_a_page_and_drawn_next_time(web_client, odile):
    """Raise the centre back by 1.5 cm, let out the side: the draft says both; undone, neither."""
    done = sent(web_client, "/fit/?name=Odile&garment=trousers", centre_back="1.5", side="-0.5",
                rise="", sway_back="0")
    assert done.status_code == 303
    assert odile.people.get("Odile").adjustments_mm == {
        "trousers": {"centre_back": 15.0, "side": -5.0}}
    draft = web_client.get("/drafts/trousers?person=Odile").get_data(as_text=True)
    assert "raise the centre back, for a full seat (1.5 cm)" in draft

    web_client.post("/history/undo", data={"event": odile.ledger.newest()})
    assert odile.people.get("Odile").adjustments_mm == {}



def test_an_emptied_field_takes_a_change_back(web_client, odile):
    """As 0 does; what is shown is what is kept."""
    people.adjust(odile, "Odile", "tunic", {"sway_back": 10, "longer_sleeve": -20})
    page = web_client.get("/fit/?name=Odile&garment=tunic").get_data(as_text=True)
    assert 'value="1 cm"' in page and 'value="−2 cm"' in page

    sent(web_client, "/fit/?name=Odile&garment=tunic", sway_back="", longer_sleeve="−2 cm")
    assert odile.people.get("Odile").adjustments_mm == {"tunic": {"longer_sleeve": -20.0}}


@pytest.mark.parametrize("garment", [
    "trousers", "shorts", "shirt", "tunic", "robe", "nightshirt", "straight-skirt",
    "a-line-skirt"])
def test_every_garment_with_a_fit_has_its_form(web_client, odile, garment):
    """A field for each change, with how far it may go."""
    page = web_client.get(f"/fit/?name=Odile&garment={garment}").get_data(as_text=True)
    for option in people.fit_of(garment):
        assert f'name="{option.name}"' in page


def test_what_cannot_be_is_said_beside_what_was_typed(web_client, odile):
    """A sway back of half a metre; nothing is kept."""
    refused = sent(web_client, "/fit/?name=Odile&garment=trousers", sway_back="50")
    assert refused.status_code == 422 and 'value="50"' in refused.get_data(as_text=True)
    assert odile.people.get("Odile").adjustments_mm == {}


def test_a_second_set_of_measurements_keeps_the_first(web_client, odile):
    """The page shows both days and what changed; the draft by the newest says so, and the one
    by the earlier day is still there.
    """
    done = sent(web_client, "/measured/?name=Odile", day="2026-11-30", hip="102")
    assert done.status_code == 303
    page = web_client.get("/measured/?name=Odile").get_data(as_text=True)
    assert page.index("2026-11-30") < page.index("2026-03-01") and "(+2 cm)" in page

    now = web_client.get("/drafts/trousers?person=Odile").get_data(as_text=True)
    assert "measurements of 2026-11-30" in now and "Since 2026-03-01" in now
    then = web_client.get("/drafts/trousers?person=Odile&measured=2026-03-01")
    assert "measurements of 2026-03-01" in then.get_data(as_text=True)


@pytest.mark.parametrize(("typed", "said"), [
    ({"day": "yesterday", "hip": "102"}, "is not a day"),
    ({"day": "2026-03-01", "hip": "102"}, "already"),
    ({"day": "2026-11-30"}, "measure"), ({"day": "2026-11-30", "hip": "9"}, "hip"),
])
def test_a_set_that_cannot_be_is_refused(web_client, odile, typed, said):
    """Nothing is kept of it."""
    refused = sent(web_client, "/measured/?name=Odile", **typed)
    assert refused.status_code == 422 and said in refused.get_data(as_text=True)
    assert odile.people.get("Odile").earlier == ()
