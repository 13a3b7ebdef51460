"""A bin's page: taking, counting, putting in; each checked in the record."""

import re

import pytest

from stash.model import Bin, Notion, NotionKind


@pytest.fixture
def buttons(web_stash):
    """A jar of 14 shell buttons."""
    notion = Notion(kind=NotionKind.BUTTON, name="Shell buttons", size_mm=11.5)
    return web_stash.bins.receive(Bin(code="", notion=notion, amount=14)).code


@pytest.fixture
def elastic(web_stash):
    """2.6 m of waist elastic."""
    notion = Notion(kind=NotionKind.ELASTIC, name="Waist elastic", size_mm=25)
    return web_stash.bins.receive(Bin(code="", notion=notion, amount=2600)).code


def test_taking_five_is_one_tap(web_client, web_stash, buttons):
    """14 less 5 are 9."""
    answer = web_client.post(f"/bins/{buttons}/take", data={"quick": "5"}, follow_redirects=True)

    assert "Took 5. 9 are left." in answer.text
    assert web_stash.bins.get(buttons).amount == 9


@pytest.mark.parametrize(("there", "offered"), [
    (14, ["1", "2", "3", "5", "6", "7"]), (5, ["1", "2", "3"]), (1, []), (0, [])])
def test_no_more_is_offered_than_there_is(web_client, web_stash, buttons, there, offered):
    """Of five buttons a tap takes three at most, or "all of it"; of none nothing."""
    web_stash.bins.count(buttons, there)
    page = web_client.get(f"/c/{buttons}").text

    assert re.findall(r'name="quick" value="(\d+)"', page) == offered
    assert ("all of it" in page) is (there > 0)


def test_a_spool_is_told_in_whole_metres(web_client, web_stash):
    """As its label tells it; what was measured to the centimetre stays so."""
    notion = Notion(kind=NotionKind.THREAD, name="Moss")
    code = web_stash.bins.receive(Bin(code="", notion=notion, amount=175_000)).code

    assert "175 m" in (page := web_client.get("/bins/").text) and "175.00 m" not in page
    web_stash.bins.count(code, 174_500)
    assert "174.50 m" in web_client.get("/bins/").text


def test_an_example_is_in_the_language_of_who_reads(web_client):
    """Whoever opened the page before: "3.5 m" to one, "3,5 m" to the next."""
    for language, example in ("en", "3.5 m"), ("de", "3,5 m"), ("en", "3.5 m"):
        page = web_client.get("/bins/new", headers={"Accept-Language": language}).text
        assert example in page, language


def test_bins_of_one_name_are_told_apart_in_their_place(web_client, web_stash):
    """By their width, on the page of the place and at the stock-take."""
    for wide in 15, 25:
        notion = Notion(kind=NotionKind.BINDING, name="Bias binding", size_mm=wide)
        web_stash.bins.receive(Bin(code="", notion=notion, amount=2000, place="Drawer"))

    for path in "/places/named/Drawer", "/stock-take/in/Drawer":
        page = web_client.get(path).text
        assert "15 mm wide" in page and "25 mm wide" in page, path


def test_a_double_tap_takes_once(web_client, web_stash, buttons):
    """The token of the form makes the second tap nothing."""
    for _ in range(2):
        web_client.post(f"/bins/{buttons}/take", data={"quick": "5", "token": "tapped-twice"})

    assert web_stash.bins.get(buttons).amount == 9


def test_more_than_there_is_offers_a_count(web_client, web_stash, buttons):
    """15 of 14 cannot be taken; the count is one tap away."""
    answer = web_client.post(f"/bins/{buttons}/take", data={"amount": "15"})

    assert answer.status_code == 409
    assert "Count again" in answer.text
    assert web_stash.bins.get(buttons).amount == 14


def test_a_count_becomes_the_record(web_client, web_stash, buttons):
    """What was counted wins, nothing included."""
    web_client.post(f"/bins/{buttons}/count", data={"there": "0"})

    assert web_stash.bins.get(buttons).amount == 0


def test_half_a_button_is_refused(web_client, web_stash, buttons):
    """Things are counted in whole numbers."""
    assert web_client.post(f"/bins/{buttons}/take", data={"amount": "1.5"}).status_code == 422
    assert web_stash.bins.get(buttons).amount == 14


def test_what_a_button_is_shaped_like_says_its_buttonhole(web_client, web_stash, buttons):
    """11.5 mm, on a shank and 3 mm thick: 17.5 mm (twice the thickness, common practice)."""
    form = web_client.get(f"/bins/{buttons}/facts").text
    assert "Fusible" not in form and "can be shortened" not in form

    answer = web_client.post(f"/bins/{buttons}/facts", data={
        "name": "Shell buttons", "size": "11.5 mm", "thickness": "3 mm", "shank": "1",
    }, follow_redirects=True)

    assert "17.5 mm" in answer.text
    kept = web_stash.bins.get(buttons).notion
    assert (kept.thickness_mm, kept.shank) == (3.0, True)


def test_a_new_button_that_is_said_to_be_ironed_on_is_asked_about(web_client, web_stash):
    """The sentence stands in the form, what was typed stays, nothing is recorded."""
    before = len(web_stash.bins.all())
    answer = web_client.post("/bins/new", data={
        "kind": "button", "name": "Horn buttons", "size": "15 mm", "amount": "8", "fusible": "1",
    })

    assert answer.status_code == 422
    assert "Only interfacing is ironed on" in answer.text
    assert "Horn buttons" in answer.text
    assert len(web_stash.bins.all()) == before


def test_elastic_is_taken_by_length(web_client, web_stash, elastic):
    """2.6 m less 75 cm is 1.85 m."""
    web_client.post(f"/bins/{elastic}/take", data={"amount": "75 cm"})

    assert web_stash.bins.get(elastic).amount == pytest.approx(1850)
    assert "Took: 75 cm" in web_client.get(f"/c/{elastic}").text


def test_put_in_move_and_leave(web_client, web_stash, elastic):
    """The rest of a bin's life."""
    web_client.post(f"/bins/{elastic}/put", data={"more": "1 m"})
    web_client.post(f"/bins/{elastic}/move", data={"place": "Tin row B"})
    assert web_stash.bins.get(elastic).amount == pytest.approx(3600)
    assert web_stash.bins.get(elastic).place == "Tin row B"

    web_client.post(f"/bins/{elastic}/leave", data={"how": "discard"})

    assert web_stash.bins.card(elastic).gone == "discarded"


def test_the_list_groups_by_kind_and_finds_by_word(web_client, buttons, elastic):
    """Notions are found by name, kind and place."""
    assert "Waist elastic" not in web_client.get("/bins/?kind=button").text
    assert "Shell buttons" not in web_client.get("/bins/?q=waist").text
    assert "No bin answers" in web_client.get("/bins/?q=anvil").text


def test_small_parts_carry_the_usual_caution(web_client, buttons, elastic):
    """Buttons come off and are swallowed; elastic is not."""
    assert "Small parts" in web_client.get(f"/c/{buttons}").text
    assert "Small parts" not in web_client.get(f"/c/{elastic}").text
