"""Patterns of her own, drafts, plans and shopping on their pages."""

import io

import pypdf
import pytest
from until import once_over

from stash.model import Person


@pytest.fixture
def odile(web_stash):
    """A person with what trousers need."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))


def wait(client, where: str) -> str:
    """The page of a job once it is over."""
    return client.get(once_over(client, where)).text


def test_typed_pieces_become_a_pattern_that_can_be_asked_for(web_client, web_stash):
    """A rectangle on the fold and a mirrored pair with widths."""
    web_client.post("/patterns/typed", data={
        "name": "Sail bag", "piece-0": "body", "length-0": "40", "width-0": "20", "fold-0": "1",
        "piece-1": "strap", "length-1": "80", "width-1": "6-10", "quantity-1": "2",
        "mirrored-1": "1"})

    body, strap = web_stash.patterns.get("Sail bag").pieces
    assert (body.on_fold, strap.mirrored_pair, strap.quantity) == (True, True, 2)
    assert "Sail bag" in web_client.get("/become/").text
    assert "<svg" in web_client.get("/patterns/own/Sail bag").text


def test_a_drawing_saved_here_comes_back_as_it_was(web_client, web_stash, odile):
    """SVG and DXF round trips keep the pieces' sizes to a tenth of a millimetre."""
    query = "?person=Odile"
    for form in ("svg", "dxf"):
        saved = web_client.get(f"/drafts/trousers/pattern.{form}{query}")
        assert saved.status_code == 200

        web_client.post("/patterns/import", data={
            "file": (io.BytesIO(saved.data), f"{form} trousers.{form}")})

        pieces = web_stash.patterns.get(f"{form} trousers").pieces
        assert {p.name for p in pieces} >= {"front", "back"}
        assert all(p.quantity == 2 for p in pieces if p.name in ("front", "back"))


@pytest.mark.parametrize(("name", "content"), [
    ("trousers.svg", b"<svg xmlns='http://www.w3.org/2000/svg' width='10' height='10'/>"),
    ("trousers.dxf", b"nonsense"), ("trousers.pdf", b"%PDF-1.4"), ("trousers.svg", b"\xff\xfe\0"),
])
def test_a_file_that_is_no_pattern_is_refused(web_client, web_stash, name, content):
    """One sentence each, nothing kept."""
    answer = web_client.post("/patterns/import", data={"file": (io.BytesIO(content), name)})

    assert answer.status_code == 422
    assert web_stash.patterns.all() == []


def test_a_draft_is_drawn_with_its_measurements_and_saved_full_size(web_client, odile):
    """What was estimated is named; the pages to print are a PDF."""
    page = web_client.get("/drafts/trousers?person=Odile&option-hem=3").text

    assert "<svg" in page
    assert "please measure:" in page
    pdf = web_client.get("/drafts/trousers/pattern.a4.pdf?person=Odile")
    assert pdf.data.startswith(b"%PDF")


def test_the_pages_of_a_draft_are_called_as_it_is_called(web_client, odile):
    """In the reader's language, never by the word a program uses."""
    pdf = web_client.get("/drafts/straight-skirt/pattern.a4.pdf?person=Odile",
                         headers={"Accept-Language": "de"}).data
    said = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].extract_text()

    assert "Gerader Rock" in said and "straight-skirt" not in said


def test_a_draft_for_someone_not_on_record(web_client):
    """Measurements may be typed for once."""
    page = web_client.get("/drafts/trousers?person=&measure-hip=100&measure-waist=80").text

    assert "<svg" in page
    assert web_client.get(
        "/drafts/trousers?person=&measure-hip=100&measure-waist=10").status_code == 422
    assert web_client.get("/drafts/cuirass").status_code == 404


def test_shopping_says_how_much_at_each_width_and_gives_a_card(web_client, odile):
    """Nothing is in the stash, so everything is to buy; wider cloth takes no more length."""
    started = web_client.post("/shopping/begin", data={
        "garment": "trousers", "person": "Odile", "price": "12.50"})
    page = wait(web_client, started.location)

    assert "Cloth for trousers for Odile" in page
    assert "150 cm" in page
    card = web_client.get(f"{started.location}/card.html")
    assert "http" not in card.text.replace("http-equiv", "").replace("http://www.w3.org", "")
    assert web_client.get(f"{started.location}/card.pdf").data.startswith(b"%PDF")


def test_a_plan_is_begun_shopped_for_and_given_up(web_client, web_stash, odile):
    """A plan without cloth says what to buy."""
    web_client.post("/plans/", data={
        "name": "Gale trousers", "garment": "trousers", "person": "Odile"})
    assert web_stash.plans.get("Gale trousers").garments[0].person == "Odile"

    started = web_client.post("/shopping/begin", data={"plan": "Gale trousers"})
    assert "Cloth for trousers" in wait(web_client, started.location)

    web_client.post("/plans/of/Gale trousers/remove", data={})
    assert web_stash.plans.all() == []


def test_do_i_own_one_like_this(web_client, web_stash):
    """Nothing asked is refused; nothing found is said."""
    assert web_client.get("/shopping/like").status_code == 422
    assert "Nothing like it" in web_client.get("/shopping/like?words=velvet").text


def test_a_photograph_without_a_calibration_sheet_cannot_be_traced(web_client):
    """The tracing ends in one sentence."""
    from PIL import Image

    picture = io.BytesIO()
    Image.new("RGB", (800, 600), "white").save(picture, "JPEG")
    picture.seek(0)

    started = web_client.post("/tracing/", data={"photo": (picture, "floor.jpg")})

    assert "alert" in wait(web_client, started.location)
    assert web_client.get("/patterns/calibration-sheet.pdf").data.startswith(b"%PDF")
