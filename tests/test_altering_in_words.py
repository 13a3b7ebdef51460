"""The forms that alter a pattern speak of its pieces and edges in the reader's language."""

from __future__ import annotations

import re

from stash.workroom import people

SAID = re.compile(r"<option value=\"[^\"]*\"[^>]*>([^<]*)</option>")


def test_pieces_edges_and_darts_are_offered_in_german(web_client, web_stash):
    """As the drawing above the form names them; what is sent stays the same in every language."""
    people.add(web_stash, "Zoé", {"hip": 1040.0, "waist": 820.0})

    page = web_client.get("/alter/?of=straight-skirt&person=Zoé",
                          headers={"Accept-Language": "de"}).text

    offered = {" ".join(said.split()) for said in SAID.findall(page)}
    assert {"Vorderteil: Saum", "Bund: andere Seite", "Vorderteil"} <= offered
    assert not [said for said in offered if said.startswith(("front", "back"))]
    assert 'value="front|hem"' in page
