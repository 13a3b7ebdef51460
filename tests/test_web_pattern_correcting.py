"""A pattern of her own is set right on its own page."""

from __future__ import annotations

from stash.model import Part
from stash.pattern.typed import parse_typed
from stash.workroom import patterns


def kept(web_stash):
    """A smock of two typed pieces."""
    pieces = [parse_typed(t) for t in ("front, 70cm x 30cm, cut 1", "pocket, 18cm x 15cm")]
    patterns.keep(web_stash, "Smock", pieces, "typed")


def form(client, **values):
    """The form with a once-only token."""
    page = client.get("/patterns/own/Smock").get_data(as_text=True)
    token = page.split('name="token" value="')[1].split('"')[0]
    return client.post("/patterns/own/Smock/correct", data={"token": token, **values})


def test_what_is_changed_on_the_page_is_a_new_version(web_client, web_stash):
    """The pocket becomes a pocket, turned; the front a half that is opened out; notions come."""
    kept(web_stash)

    sent = form(web_client, **{
        "wearer": "Odile", "weight": "90-200",
        "kind-new-0": "button", "amount-new-0": "5", "size-new-0": "15 mm",
        "kind-new-1": "zip", "amount-new-1": "1", "size-new-1": "20 cm",
        "part-0": "front", "role-0": "main", "quantity-0": "1", "lie-0": "single",
        "fold-0": "fold", "part-1": "pocket", "role-1": "main", "quantity-1": "1",
        "lie-1": "single", "fold-1": "", "grain-1": "90", "allowed-1": "add",
        "allowance-1": "1.5 cm"})

    assert sent.status_code == 303
    made = web_stash.patterns.kept("Smock")
    front, pocket = made.pattern.pieces
    assert made.version == 2 and made.pattern.wearer == "Odile"
    assert (front.part, front.on_fold, pocket.part) == (Part.FRONT, True, Part.POCKET)
    assert pocket.allowances_mm == (("edge", 15.0),)
    assert [n.kind.value for n in made.pattern.notions] == ["button", "zip"]
    assert made.pattern.wants.mass_gsm == (90, 200)


def test_saved_untouched_it_says_that_nothing_was_changed(web_client, web_stash):
    """No version is kept for a form that was only opened."""
    kept(web_stash)

    sent = form(web_client, **{
        "part-0": "front", "role-0": "main", "quantity-0": "1", "lie-0": "single",
        "part-1": "pocket", "role-1": "main", "quantity-1": "1", "lie-1": "single"})

    assert sent.status_code == 422
    assert "Say what is to be different" in sent.get_data(as_text=True)
    assert web_stash.patterns.kept("Smock").version == 1


def test_what_cannot_be_is_said_and_nothing_is_lost(web_client, web_stash):
    """An odd number of a mirrored pair."""
    kept(web_stash)

    sent = form(web_client, **{"lie-1": "pair", "quantity-1": "3", "wearer": "Odile"})

    page = sent.get_data(as_text=True)
    assert sent.status_code == 422
    assert "must be even" in page and 'value="Odile"' in page


def test_the_draft_page_says_whose_table_filled_it_in(web_client, web_stash):
    """And asks, where nobody said whose body it is."""
    page = web_client.get(
        "/drafts/trousers?measure-hip=100&measure-waist=95").get_data(as_text=True)

    assert "the waist is 95 % of the hip" in page.replace("&#39;", "'")
    assert "please say which" in page
