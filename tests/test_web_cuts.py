"""Recording use on a cut's page: two taps, once only, with undo; each checked in the record."""

import re

import pytest

from stash.ledger import CutHold
from stash.model import Cloth, Cut, Outline, Plan


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m x 1.4 m that shrinks by 4 and 2 per cent."""
    cloth = Cloth(name="Dune linen", shrink_along_pct=4, shrink_across_pct=2)
    return web_stash.cuts.receive(
        Cut(code="", cloth=cloth, outline=Outline.rectangle(3000, 1400))).code


def test_cutting_off_a_quick_amount_takes_one_tap_and_says_what_is_left(
    web_client, web_stash, cut
):
    """1.2 m off 3 m leaves 1.8 m."""
    answer = web_client.post(f"/cuts/{cut}/cut-off", data={"quick": "1.2 m"},
                             follow_redirects=True)

    assert "Cut off 1.20 m. 1.80 m is left." in answer.text
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(1800)


def test_a_typed_length_is_centimetres_unless_it_says_otherwise(web_client, web_stash, cut):
    """62 is 62 cm."""
    web_client.post(f"/cuts/{cut}/cut-off", data={"length": "62"})

    assert web_stash.cuts.get(cut).length_mm == pytest.approx(2380)


def test_a_double_tap_records_once(web_client, web_stash, cut):
    """The same form sent twice is one happening."""
    page = web_client.get(f"/c/{cut}").text
    token = re.search(r'name="token" value="([^"]+)"', page)[1]

    for _ in range(2):
        answer = web_client.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m", "token": token})

        assert answer.status_code == 303
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(2000)
    assert len(web_stash.ledger.history(cut)) == 2


def test_undo_right_after_brings_the_length_back(web_client, web_stash, cut):
    """The button beside the message takes back exactly that."""
    page = web_client.post(
        f"/cuts/{cut}/cut-off", data={"quick": "1 m"}, follow_redirects=True).text
    event = re.search(r'name="event" value="(\d+)"', page)[1]

    answer = web_client.post("/history/undo", data={"event": event, "back": f"/c/{cut}"},
                             follow_redirects=True)

    assert "Taken back." in answer.text
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(3000)


def test_more_than_there_is_is_refused_and_a_re_measure_is_offered(web_client, web_stash, cut):
    """The refusal keeps the record and opens the form for the true size."""
    answer = web_client.post(f"/cuts/{cut}/cut-off", data={"length": "4 m"})

    assert answer.status_code == 409
    assert "Measure it again" in answer.text
    assert '<details id="measure" open>' in answer.text
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(3000)


def test_a_re_measure_becomes_the_record_and_a_missing_corner_its_shape(
    web_client, web_stash, cut
):
    """4.1 m long with a corner of 50 x 40 cm gone."""
    web_client.post(f"/cuts/{cut}/re-measure", data={
        "true_length": "4.1 m", "true_width": "138 cm", "corner_length": "50",
        "corner_width": "40"})

    outline = web_stash.cuts.get(cut).outline
    assert (outline.length_mm, outline.width_mm) == (4100, 1380)
    assert outline.area_mm2 == pytest.approx(4100 * 1380 - 500 * 400)


def test_this_much_is_left_and_nothing_is_left(web_client, web_stash, cut):
    """What remains may be said instead of what was used."""
    web_client.post(f"/cuts/{cut}/remains", data={"left": "80 cm"})
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(800)

    answer = web_client.post(f"/cuts/{cut}/remains", data={"nothing": "1"}, follow_redirects=True)

    assert "no longer here" in answer.text
    assert web_stash.cuts.card(cut).gone == "used up"


def test_a_wash_takes_the_measure_given_or_the_shrinkage_on_record(web_client, web_stash, cut):
    """3 m that shrinks by 4 per cent is 2.88 m."""
    web_client.post(f"/cuts/{cut}/wash", data={})

    washed = web_stash.cuts.get(cut)
    assert washed.washed
    assert washed.length_mm == pytest.approx(2880)


def test_move_and_leave(web_client, web_stash, cut):
    """Where it lies, and that it is gone, are one form each."""
    web_client.post(f"/cuts/{cut}/move", data={"place": "Drawer B"})
    assert web_stash.cuts.get(cut).place == "Drawer B"

    web_client.post(f"/cuts/{cut}/leave", data={"how": "gift"})

    assert web_stash.cuts.card(cut).gone == "given away"
    assert web_client.get(f"/c/{cut}").status_code == 200


def test_held_cloth_is_refused_until_the_person_says_all_the_same(web_client, web_stash, cut):
    """The refusal names the plan; one more tap uses the cloth in spite of it."""
    web_stash.plans.save(Plan(name="Gale coat"))
    web_stash.plans.hold("Gale coat", {cut: CutHold(plan="", from_mm=0, to_mm=2500)})

    refused = web_client.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m"})
    assert refused.status_code == 409
    assert "Gale coat" in refused.text
    assert 'name="despite_hold" value="1"' in refused.text

    web_client.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m", "despite_hold": "1"})
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(2000)


@pytest.mark.parametrize("typed", ["", "-1", "1e9 m", "nan", "∞", "1/0 yd", "a" * 5000])
def test_absurd_lengths_are_refused_in_one_sentence(web_client, web_stash, cut, typed):
    """Nothing is recorded and nothing breaks."""
    answer = web_client.post(f"/cuts/{cut}/cut-off", data={"length": typed})

    assert answer.status_code == 422
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(3000)


def test_correcting_the_facts_holds_for_every_cut_of_the_cloth(web_client, web_stash, cut):
    """Weight and fibres are told once."""
    web_client.post(f"/cuts/{cut}/facts", data={
        "facts": "1", "name": "Dune union", "fibres": "linen 60 cotton 40",
        "mass": "175 g/m2", "keep_for": "Pip"})

    corrected = web_stash.cuts.get(cut)
    assert (corrected.cloth.name, corrected.cloth.mass_gsm) == ("Dune union", 175)
    assert [f.fibre for f in corrected.cloth.fibres] == ["flax", "cotton"]
    assert corrected.keep_for == "Pip"


def test_the_home_page_draws_every_cut_and_finds_by_word_and_length(web_client, web_stash, cut):
    """Search, filter and the drawing speak of the same cuts."""
    web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Gull drill"), outline=Outline.rectangle(800, 1400)))

    assert web_client.get("/").text.count('class="bar"') == 2
    assert "Gull drill" not in web_client.get("/?q=linen").text
    assert "Gull drill" not in web_client.get("/?least=1 m").text
    assert web_client.get("/?least=long").status_code == 422


def test_a_large_stash_is_shown_a_part_at_a_time(web_client, web_stash):
    """70 cuts: 60 and then 10, with what was searched for kept."""
    with web_stash.together():
        for n in range(70):
            web_stash.cuts.receive(Cut(
                code="", cloth=Cloth(name="Gull drill"), outline=Outline.rectangle(900 + n, 1400)))

    assert web_client.get("/").text.count('class="bar"') == 60
    page = web_client.get("/?q=drill&first=60").text
    assert page.count('class="bar"') == 10
    assert "/?first=0&amp;q=drill" in page


@pytest.mark.parametrize(("language", "shown"), [("fr", "18,50"), ("de", "18,50"), ("en", "18.50")])
@pytest.mark.parametrize(("typed", "minor"), [("18,75", 1875), ("18.75", 1875)])
def test_a_price_is_shown_as_it_is_read_here_and_typed_with_either_mark(
        web_client, web_stash, language, shown, typed, minor):
    """A comma in French and German, and whichever is typed is read (as Unicode's CLDR has it)."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Priced drill", price_minor_per_m=1850),
        outline=Outline.rectangle(2000, 1400))).code
    page = web_client.get(f"/cuts/{code}/facts", headers={"Accept-Language": language}).text
    assert f'name="price" type="text"\n      value="{shown}"' in page

    web_client.post(f"/cuts/{code}/facts", data={
        "facts": "1", "name": "Priced drill", "price": typed, "price-as-shown": shown,
        "price-exact": "18.5"}, headers={"Accept-Language": language})
    assert web_stash.cuts.get(code).cloth.price_minor_per_m == minor


def test_what_was_recorded_is_shown_back_to_its_beginning(web_client, web_stash):
    """A hundred at once, and the way to the older ones; a number from nowhere is no error."""
    with web_stash.together():
        codes = [web_stash.cuts.receive(Cut(
            code="", cloth=Cloth(name=f"Cloth {n}"), outline=Outline.rectangle(900.0, 900.0))).code
            for n in range(103)]
    newest = web_client.get("/history/").text
    [way] = re.findall(r'href="(/history/\?before=\d+)"', newest)
    oldest = web_client.get(way).text

    assert codes[-1] in newest and codes[0] not in newest
    assert codes[0] in oldest and codes[-1] not in oldest
    assert "before=" not in oldest and "The newest" in oldest
    for far in (10**30, -5, "x"):
        assert codes[-1] in web_client.get(f"/history/?before={far}").text
