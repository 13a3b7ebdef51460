"""Stock-take: found, missing, out of place, each set right with one tap."""

import pytest

from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline


@pytest.fixture
def shelf(web_stash):
    """Two cuts on the shelf, a bin on another, and the shelf's own label."""
    cuts = [
        web_stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=f"Cloth {n}"), outline=Outline.rectangle(1000, 1400),
            place="Loft shelf 1")).code
        for n in range(2)
    ]
    stray = web_stash.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.TAPE, name="Tape"), amount=900, place="Tin")).code
    label = web_stash.places.receive("Loft shelf 1").code
    return {"here": cuts, "stray": stray, "label": label}


def scan(client, code: str):
    """What a hand scanner types into the stock-take of the shelf."""
    return client.post("/stock-take/in/Loft shelf 1/seen", data={"code": code})


def test_what_is_scanned_is_found_and_the_rest_is_missing(web_client, shelf):
    """One of two."""
    scan(web_client, f"HTTP://STASH.LOCAL/C/{shelf['here'][0]}")

    page = web_client.get("/stock-take/in/Loft shelf 1").text

    assert "1 of 2 found" in page
    assert page.index("Missing so far") < page.index("Cloth 1")


def test_a_stray_is_moved_here_with_one_tap(web_client, web_stash, shelf):
    """What belongs elsewhere may stay."""
    scan(web_client, shelf["stray"])
    assert "recorded in Tin" in web_client.get("/stock-take/in/Loft shelf 1").text

    web_client.post("/stock-take/in/Loft shelf 1/here", data={"code": shelf["stray"]})

    assert web_stash.bins.get(shelf["stray"]).place == "Loft shelf 1"


def test_all_missing_are_put_right_with_one_tap(web_client, web_stash, shelf):
    """Nobody knows where they are, and the record says so."""
    web_client.post("/stock-take/in/Loft shelf 1/missing", data={})

    assert [web_stash.cuts.get(code).place for code in shelf["here"]] == [None, None]


def test_a_complete_shelf_says_so_and_is_written_down(web_client, web_stash, shelf):
    """Scanning twice counts once; the end of it stands in the ledger."""
    for code in (*shelf["here"], *shelf["here"]):
        scan(web_client, code)
    assert "all here" in web_client.get("/stock-take/in/Loft shelf 1").text

    web_client.post("/stock-take/in/Loft shelf 1/done", data={})

    assert web_stash.settings.get("stock-take Loft shelf 1")["found"] == 2
    assert "0 of 2 found" in web_client.get("/stock-take/in/Loft shelf 1").text


def test_scanning_a_places_label_goes_on_in_that_place(web_client, web_stash, shelf):
    """The next shelf begins with its own label."""
    web_stash.places.receive("Tin")
    tin = web_stash.places.find("Tin").code

    answer = web_client.post("/stock-take/in/Loft shelf 1/seen", data={"code": tin},
                             headers={"Accept": "application/json"})

    assert answer.json["go"] == "/stock-take/in/Tin"


def test_a_wrong_code_is_refused_and_the_list_stays(web_client, shelf):
    """A misread code changes nothing."""
    scan(web_client, shelf["here"][0])

    answer = scan(web_client, "222223")

    assert answer.status_code == 422
    assert "1 of 2 found" in answer.text
