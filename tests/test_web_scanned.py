"""What a label opens: the address in its square is the whole interface of the phone's camera."""

import pytest

from stash.model import Bin, Cloth, Cut, Notion, NotionKind, Outline


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m x 1.4 m."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune linen"), outline=Outline.rectangle(3000, 1400))
    ).code


def test_a_label_opens_its_cut_whatever_the_case_and_the_host(web_client, cut):
    """Phones lower-case what they read, and old labels carry an old host."""
    for path, host in ((f"/C/{cut}", "stash.local:5000"), (f"/c/{cut.lower()}", "10.0.0.7:8080"),
                       (f"/c/{cut}/", "an-old-name.example")):
        answer = web_client.get(path, headers={"Host": host})

        assert answer.status_code == 200
        assert "Dune linen" in answer.text


def test_a_label_opens_its_bin(web_client, web_stash):
    """A bin's label opens the bin's page."""
    code = web_stash.bins.receive(Bin(
        code="", notion=Notion(kind=NotionKind.BUTTON, name="Shell", size_mm=11.4), amount=9)).code

    answer = web_client.get(f"/c/{code}")

    assert "Shell" in answer.text
    assert "11.4 mm (18L)" in answer.text


def test_a_label_opens_its_place(web_client, web_stash):
    """A shelf's label opens the shelf."""
    code = web_stash.places.receive("Loft shelf 1").code

    assert "Loft shelf 1" in web_client.get(f"/c/{code}").text


def test_a_damaged_code_is_refused_with_a_sentence(web_client, cut):
    """One wrong character is never read as another label."""
    wrong = cut[:-1] + ("2" if cut[-1] != "2" else "3")

    answer = web_client.get(f"/c/{wrong}")

    assert answer.status_code == 404
    assert "check character" in answer.text


@pytest.mark.parametrize("code", ["", "X", "0000000", "a" * 400, "../../etc", "%00", "<script>"])
def test_no_code_at_all_is_refused_without_a_traceback(web_client, code):
    """Whatever stands after /c/, the answer is a page."""
    answer = web_client.get(f"/c/{code}")

    assert answer.status_code == 404
    assert "<script>" not in answer.text.replace('<script type="module"', "")


def test_a_code_that_was_never_given_out_here_says_so_and_can_be_adopted(web_client, web_stash):
    """A label of another stash is not mistaken for one of ours."""
    code = web_stash.labels.new_code()

    answer = web_client.get(f"/c/{code}")

    assert answer.status_code == 404
    assert "not given out here" in answer.text
    assert "What is this?" in web_client.get(f"/c/{code}?adopt=1").text


def test_a_blank_label_asks_what_it_is_on_and_records_a_cut(web_client, web_stash):
    """One short form puts a name to a blank label."""
    [code] = web_stash.labels.reserve(1)
    assert "What is this?" in web_client.get(f"/c/{code}").text

    answer = web_client.post(f"/c/{code}", data={
        "what": "cut", "cloth": "Tide drill", "length": "2.4 m", "width": "140",
        "fibres": "cotton 100", "mass": "245", "token": "first-tap-1"}, follow_redirects=True)

    assert "Saved: Tide drill." in answer.text
    cut = web_stash.cuts.get(code)
    assert (cut.length_mm, cut.width_mm, cut.cloth.mass_gsm) == (2400, 1400, 245)


def test_a_blank_label_records_a_bin_and_a_place(web_client, web_stash):
    """The same form takes notions and shelves."""
    first, second = web_stash.labels.reserve(2)

    web_client.post(f"/c/{first}", data={
        "what": "bin", "kind": "button", "name": "Horn", "size": "24L", "amount": "9"})
    web_client.post(f"/c/{second}", data={"what": "place", "place_name": "Tin row A"})

    held = web_stash.bins.get(first)
    assert (held.amount, round(held.notion.size_mm, 2)) == (9, 15.24)
    assert web_stash.places.get(second).name == "Tin row A"


def test_a_cloth_on_record_brings_its_facts_to_the_next_cut(web_client, web_stash):
    """What is left empty is taken from the cloth of the same name."""
    web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune linen", mass_gsm=190, shrink_along_pct=4),
        outline=Outline.rectangle(1000, 1400)))
    [code] = web_stash.labels.reserve(1)

    web_client.post(f"/c/{code}", data={
        "what": "cut", "cloth": "dune LINEN", "length": "2 m", "width": "140 cm"})

    assert web_stash.cuts.get(code).cloth.mass_gsm == 190


@pytest.mark.parametrize(("field", "typed"), [
    ("length", "-2 m"), ("length", "abc"), ("length", "90000 km"), ("width", "9 m"),
    ("mass", "9999999"), ("fibres", "unobtainium 40"), ("colour", "reddish"),
])
def test_what_cannot_be_is_refused_and_what_was_typed_stays(web_client, web_stash, field, typed):
    """A refusal loses nothing that was typed, and records nothing."""
    [code] = web_stash.labels.reserve(1)
    form = {"what": "cut", "cloth": "Tide drill", "length": "2 m", "width": "140 cm"}

    answer = web_client.post(f"/c/{code}", data=form | {field: typed})

    assert answer.status_code == 422
    assert 'value="Tide drill"' in answer.text
    assert 'role="alert"' in answer.text
    assert web_stash.labels.state(code) == "blank"
