"""What can it become: the question, the search in the background, the answer and its lays."""

import re

import pytest
from until import once_over

from stash.model import Bin, Cloth, Cut, FibreShare, Notion, NotionKind, Outline, Person
from web.pages.become import found


@pytest.fixture
def loft(web_stash, kernels):
    """Odile, a good length of drill, a scrap of it, a jersey, and some elastic."""
    drill = Cloth(name="Gull drill", fibres=(FibreShare("cotton", 100),), mass_gsm=230)
    jersey = Cloth(name="Eel jersey", construction="knit", mass_gsm=180, stretch_across_pct=40)
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    cuts = [
        Cut(code="", cloth=drill, outline=Outline.rectangle(2600, 1480), washed=True),
        Cut(code="", cloth=drill, outline=Outline.rectangle(500, 1480), washed=True),
        Cut(code="", cloth=jersey, outline=Outline.rectangle(2600, 1480), washed=True),
    ]
    web_stash.bins.receive(Bin(code="", amount=2600, notion=Notion(
        kind=NotionKind.ELASTIC, name="Waist elastic", size_mm=25)))
    return [web_stash.cuts.receive(cut).code for cut in cuts]


def waiting(where: str, what: str) -> str:
    """Where the page of an answer asks how far it is."""
    return f"/waiting/{where.rpartition('/')[2]}/{what}"


def ask(client, **form) -> str:
    """Ask and wait until the search is over; the address of the answer."""
    answer = client.post("/become/", data=form)
    assert answer.status_code == 303, answer.text
    return once_over(client, answer.location)


def test_trousers_come_out_of_the_length_and_not_of_the_scrap_or_the_jersey(web_client, loft):
    """Fits, too small, and set aside are three different answers."""
    page = web_client.get(ask(web_client, garment="trousers", person="Odile")).text

    assert "1 cut is big enough." in page
    assert f'id="{loft[0]}"' in page
    assert "1 cut of suitable cloth is too small" in page
    assert "1 cut is not suitable" in page
    assert "knit" in page
    assert "please measure: " in page


def test_a_lay_opens_large_with_a_table_of_positions_and_a_drawing(web_client, loft):
    """Two fronts and two backs, each in the table; the drawing is an SVG."""
    where = ask(web_client, garment="trousers", person="Odile")

    page = web_client.get(f"{where}/lay/{loft[0]}").text
    address = re.search(rf'src="([^"]*/lay/{loft[0]}\.svg[^"]*)"', page)[1]
    drawing = web_client.get(address)

    assert all(piece in page for piece in ("front 1", "front 2", "back 1", "back 2"))
    assert drawing.mimetype == "image/svg+xml"
    assert drawing.text.startswith("<svg")
    assert re.search(r"used=\d+", address), "a better lay must not hide behind an older picture"


def test_a_lay_compares_single_and_double_each_drawn_one_tap_away(web_client, loft):
    """Open, folded lengthwise and crosswise: length and cuts of the scissors."""
    where = ask(web_client, garment="trousers", person="Odile")

    page = web_client.get(f"{where}/lay/{loft[0]}").text
    folded = web_client.get(f"{where}/lay/{loft[0]}?spread=lengthwise").text

    assert "cuts of the scissors" in page
    for way in ("open, in a single layer", "folded lengthwise", "folded crosswise"):
        assert way in page
    assert 'href="?spread=lengthwise"' in page
    assert "cut double" in folded
    assert web_client.get(f"{where}/lay/{loft[0]}.svg?spread=lengthwise").text.startswith("<svg")
    assert web_client.get(f"{where}/lay/{loft[0]}?spread=scrunched").status_code == 404


def options_on(page: str) -> set[str]:
    """The names of the options that a form offers."""
    return set(re.findall(r'name="option-([^"]+)"', page))


def test_the_options_shown_are_those_of_the_ticked_garments(web_client, loft):
    """Each under its own garment when there are two; no other garment's."""
    assert options_on(web_client.get("/become/").text) == set()
    assert not any("." in o for o in options_on(web_client.get("/become/?garment=shirt").text))

    page = web_client.get("/become/?garment=shirt&garment=trousers").text

    assert {"shirt.length", "trousers.length"} <= options_on(page)
    assert {name.partition(".")[0] for name in options_on(page)} == {"shirt", "trousers"}


def test_a_length_of_the_shirt_goes_to_the_shirt_alone(web_client, web_stash, loft):
    """Two garments asked together, the shirt 70 cm long: the trousers stay as drafted."""
    web_stash.people.save(Person(name="Orla", measurements_mm={
        "hip": 1040, "waist": 820, "chest": 960, "height": 1680}))
    where = ask(web_client, **{"garment": ["shirt", "trousers"], "person": "Orla",
                               "option-shirt.length": "70 cm"})

    with web_client.application.app_context():
        shirt, trousers = found(where.rpartition("/")[2]).question.orders

    assert dict(shirt.options)["length"] == 700
    assert "length" not in dict(trousers.options)


def test_only_one_cut_is_asked_when_its_code_is_given(web_client, loft):
    """From the page of a cut, the question is about that cut."""
    page = web_client.get(
        ask(web_client, garment="trousers", person="Odile", cut=loft[1])).text

    assert "This cut is not big enough for it as it is." in page
    assert f'id="{loft[0]}"' not in page


def test_a_lay_is_held_for_a_plan_and_other_answers_see_the_rest(web_client, web_stash, loft):
    """The cloth and the elastic are promised once."""
    where = ask(web_client, garment="trousers", person="Odile")

    web_client.post("/plans/hold", data={
        "job": where.rpartition("/")[2], "which": loft[0], "plan": "Odile's trousers"})

    held = web_stash.plans.holdings("Odile's trousers")
    assert set(held.cuts) == {loft[0]}
    assert len(held.bins) == 1
    assert [g.garment for g in web_stash.plans.get("Odile's trousers").garments] == ["trousers"]
    assert "Held for" in web_client.get(f"/c/{loft[0]}").text
    page = web_client.get("/plans/of/Odile's trousers").text
    assert f"/plans/of/Odile's%20trousers/lay/{loft[0]}.svg" in page.replace("&#39;", "'")

    web_client.post("/plans/of/Odile's trousers/release", data={})
    assert web_stash.plans.holdings("Odile's trousers").cuts == {}


@pytest.mark.parametrize(("form", "sentence"), [
    ({}, "Choose at least one garment"),
    ({"garment": "cuirass", "person": "Odile"}, "There is no draft or pattern"),
    ({"garment": "trousers", "person": "Nobody"}, "Nobody called"),
    ({"garment": "trousers", "person": "Odile", "option-length": "a mile"}, "not a length"),
    ({"garment": "trousers", "person": "Odile", "option-length": "9 m"}, "can be from"),
])
def test_a_question_that_cannot_be_asked_is_refused_on_the_form(web_client, loft, form, sentence):
    """One sentence, and what was ticked stays ticked."""
    answer = web_client.post("/become/", data=form)

    assert answer.status_code in (404, 422)
    assert sentence in answer.text
    assert "Look through the stash" in answer.text


def test_an_empty_stash_and_an_empty_list_of_people_say_so(web_client):
    """Nothing here yet is a sentence, not an error."""
    assert "Nobody is on record yet" in web_client.get("/become/").text


def test_a_forgotten_answer_says_to_ask_again(web_client):
    """Answers live as long as the app runs."""
    answer = web_client.get("/become/never-asked")

    assert answer.status_code == 404
    assert "Ask again" in answer.text


def test_a_search_can_be_stopped(web_client, loft):
    """Stopping ends with the best there is."""
    started = web_client.post("/become/", data={
        "garment": "trousers", "person": "Odile", "seconds": "60"})

    web_client.post(waiting(started.location, "stop"))

    assert web_client.get(once_over(web_client, started.location)).status_code == 200


def test_a_small_change_is_held_as_it_is_then_made(web_client, web_stash, loft):
    """Too short as drafted: the plan that takes a change keeps the changed garment."""
    web_stash.cuts.remains(loft[0], 1250)
    where = ask(web_client, garment="trousers", person="Odile", cut=loft[0])
    page = web_client.get(where).text
    assert "With a small change it fits" in page

    web_client.post("/plans/hold", data={
        "job": where.rpartition("/")[2], "which": "change-0", "plan": "Changed"})

    planned = web_stash.plans.get("Changed").garments[0]
    assert planned.garment == "shorts" or planned.options
    assert loft[0] in web_stash.plans.holdings("Changed").cuts


@pytest.mark.parametrize(("across", "says"), [
    (0, "which nobody measured on this cut: stretch 10 cm of it"),
    (60, "Drawn for this cloth as it was measured: it stretches 60 % across"),
])
def test_of_several_each_knit_says_how_its_stretch_is_known(
    web_client, web_stash, kernels, across, says
):
    """A top by each cut: measured, or presumed and how to measure it."""
    cloth = Cloth(name="Smelt jersey", construction="knit", mass_gsm=190,
                  stretch_across_pct=across, fibres=(FibreShare("cotton", 100),))
    web_stash.people.save(Person(name="Odile", measurements_mm={
        "hip": 1000, "waist": 740, "bust": 940}))
    web_stash.cuts.receive(Cut(
        code="", cloth=cloth, outline=Outline.rectangle(2600, 1600), washed=True))
    page = web_client.get(ask(web_client, **{
        "garment": ["knit-top", "leggings"], "person": "Odile", "from": "apart"})).text

    assert says in page.replace("\u00a0", " ")


def test_several_garments_come_each_from_the_cut_that_serves_it(web_client, web_stash, loft):
    """Trousers and shorts from two cuts, held together."""
    other = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Tide drill", mass_gsm=220), washed=True,
        outline=Outline.rectangle(1500, 1480))).code
    where = ask(web_client, **{"garment": ["trousers", "shorts"], "person": "Odile",
                               "from": "apart"})
    page = web_client.get(where).text
    assert "Not from what is here" not in page

    web_client.post("/plans/hold", data={
        "job": where.rpartition("/")[2], "which": "all", "plan": "Both"})

    held = web_stash.plans.holdings("Both").cuts
    assert set(held) <= {loft[0], other}
    assert len(web_stash.plans.get("Both").garments) == 2


def test_what_was_cut_leaves_its_true_shape_on_record(web_client, web_stash, loft):
    """After “I have cut it” the cut is smaller by at least the pieces, and undo restores it."""
    where = ask(web_client, garment="shorts", person="Odile")
    web_client.post("/plans/hold", data={
        "job": where.rpartition("/")[2], "which": loft[0], "plan": "Shorts"})
    before = web_stash.cuts.get(loft[0]).outline.area_mm2

    answer = web_client.post("/plans/of/Shorts/cut", data={"code": loft[0]},
                             follow_redirects=True)

    assert "true to its shape" in answer.text
    left = web_stash.cuts.card(loft[0])
    assert left.gone or left.cut.outline.area_mm2 < before - 4 * 100_000
    web_stash.ledger.undo(web_stash.ledger.history(loft[0])[0].id)
    assert web_stash.cuts.get(loft[0]).outline.area_mm2 == pytest.approx(before)


def test_when_it_is_sewn_the_notions_leave_their_bins(web_client, web_stash, loft):
    """Once the cloth is cut, one tap takes what was held for the plan; undo brings it back."""
    (elastic,) = web_stash.bins.all()
    where = ask(web_client, garment="shorts", person="Odile")
    web_client.post("/plans/hold", data={
        "job": where.rpartition("/")[2], "which": loft[0], "plan": "Shorts"})
    held = web_stash.plans.holdings("Shorts").bins[elastic.code].amount
    assert "It is sewn" not in web_client.get("/plans/of/Shorts").text
    web_client.post("/plans/of/Shorts/cut", data={"code": loft[0]})
    assert "It is sewn" in web_client.get("/plans/of/Shorts").text

    page = web_client.post("/plans/of/Shorts/made", data={}, follow_redirects=True).text

    assert "It is made" in page
    assert web_stash.bins.get(elastic.code).amount == pytest.approx(elastic.amount - held)
    web_stash.ledger.undo(web_stash.ledger.latest(1)[0].id)
    assert web_stash.bins.get(elastic.code).amount == elastic.amount
