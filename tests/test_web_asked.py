"""Answers survive a restart: found again in the list and under the plan, sifted, side by side."""

import re

import pytest
from until import once_over

from stash.demo import fill
from stash.model import Cloth, Cut, FibreShare, Outline, Person, Plan
from stash.model.exact import to_plain
from stash.store.answers import MOST_KEPT, AnswerFiles
from stash.store.counting import facet_counts
from stash.store.finding import CutQuery, worded
from stash.store.folder import DataFolder
from stash.workroom.asked_lately import kept
from stash.workroom.cut_facets import FACETS, facets_now, sifted
from stash.workroom.questions.planning import held_stretch
from web import create_app


@pytest.fixture
def two(web_stash, kernels):
    """Odile, a washed and an unwashed length of drill, and a scrap."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1040, "waist": 820}))
    cloth = Cloth(name="Gull drill", construction="woven", mass_gsm=230)
    linen = Cloth(name="Dune linen", construction="woven", mass_gsm=190,
                  fibres=(FibreShare("flax", 100),))
    web_stash.cuts.receive(Cut(code="", cloth=linen, outline=Outline.rectangle(300, 300)))
    sizes = ((2500, 1400, True), (2600, 1400, False), (400, 400, True))
    return [web_stash.cuts.receive(Cut(
        code="", cloth=cloth, outline=Outline.rectangle(x, y), washed=w)).code
        for x, y, w in sizes]


@pytest.fixture
def answered(web_client, two) -> str:
    """The key of an answer on an A-line skirt."""
    sent = web_client.post("/become/", data={"garment": "a-line-skirt", "person": "Odile"})
    return ended(web_client, sent)


def restarted(client, stash):
    """Another app on the same folder, read as the first."""
    again = create_app(stash.folder.path).test_client()
    again.response_wrapper = client.response_wrapper
    return again


def ended(client, sent) -> str:
    """The key of what was asked, once it is answered."""
    assert sent.status_code == 303, sent.text
    return once_over(client, sent.location).rpartition("/")[2]


def test_an_answer_is_found_again_after_a_restart(web_client, web_stash, two, answered):
    """Another app on the same folder: its old address leads there, and its lay is drawn."""
    again = restarted(web_client, web_stash)
    moved = again.get(f"/become/{answered}", follow_redirects=True)

    assert "A-line skirt" in again.get("/asked/").text
    assert moved.status_code == 200
    assert "Nothing has changed since." in moved.text
    assert again.get(f"/asked/{answered}/lay/{two[0]}.svg").text.startswith("<svg")


def test_a_lay_is_found_large_after_a_restart(web_client, web_stash, two, answered):
    """A tab that was left open on a lay: its address, and that of its drawing, lead to the kept."""
    again = restarted(web_client, web_stash)
    large = again.get(f"/become/{answered}/lay/{two[0]}", follow_redirects=True)
    drawn = again.get(f"/become/{answered}/lay/{two[0]}.svg", follow_redirects=True)

    assert large.status_code == 200
    assert "From the selvedge" in large.text and "Nothing has changed since." in large.text
    assert drawn.text.startswith("<svg")
    assert again.get(f"/become/{answered}/lay/ZZZZZZ").status_code == 404


def test_an_answer_is_headed_in_the_language_of_whoever_reads_it(web_client, two, answered):
    """Asked in English, read in German: on the answer and on its lay."""
    german = {"Accept-Language": "de"}
    for path in (f"/become/{answered}", f"/become/{answered}/lay/{two[0]}"):
        page = web_client.get(path, headers=german).text
        assert "für Odile</h1>" in page and "A-line skirt" not in page


SINCE = "Since this was asked"


def where_it_is_drawn(client, key, code) -> list[str]:
    """The pages that draw this lay: the answer, the lay alone, the answer kept, its lay alone."""
    return [client.get(path).text for path in (
        f"/become/{key}", f"/become/{key}/lay/{code}", f"/asked/{key}",
        f"/asked/{key}/lay/{code}")]


def test_a_cut_that_became_shorter_since_is_told_wherever_its_lay_is_drawn(
        web_client, web_stash, two, answered):
    """Asked in the morning, used at noon: in the evening nobody cuts by the morning's lay."""
    assert not any(SINCE in page for page in where_it_is_drawn(web_client, answered, two[0]))

    outline = web_stash.cuts.get(two[0]).outline
    web_stash.cuts.cut_off(two[0], outline.length_mm - 300)

    told = where_it_is_drawn(web_client, answered, two[0])
    assert all("of this lay reach" in page and SINCE in page for page in told)


def test_a_cut_that_left_since_is_told(web_client, web_stash, two, answered):
    """Given away: its lay is still drawn, and says that the cloth is gone."""
    web_stash.cuts.gift(two[0])

    told = where_it_is_drawn(web_client, answered, two[0])
    assert all("has left the stash" in page for page in told)


def test_cloth_held_since_is_told_but_not_for_the_lay_s_own_plan(
        web_client, web_stash, two, answered):
    """Holding this very lay is no reason to ask again; another plan's hold on it is."""
    held = web_client.post("/plans/hold", data={
        "job": answered, "which": two[0], "plan": "Own skirt"})
    assert held.status_code == 303
    assert not any(SINCE in page for page in where_it_is_drawn(web_client, answered, two[0]))

    web_stash.plans.release("Own skirt")
    other = kept(web_stash, answered).line(two[0])
    web_stash.plans.save(Plan(name="Other skirt"))
    web_stash.plans.hold("Other skirt", {two[0]: held_stretch(other.laid, "Other skirt")}, {})

    told = where_it_is_drawn(web_client, answered, two[0])
    assert all("is held for “Other skirt”" in page for page in told)


def test_what_was_told_and_laid_is_kept_exactly(web_client, web_stash, two, answered):
    """The lay of the washed length, to the last bit, and the facts as facts."""
    line = kept(web_stash, answered).line(two[0])

    assert line.laid.cut == web_stash.cuts.get(two[0])
    assert line.kind == "fits"
    assert line.told[0].kind == "fits"
    assert line.laid.lay.placements


def test_a_change_of_the_stash_since_is_said(web_client, web_stash, answered):
    """One more person on record is an event."""
    web_stash.people.save(Person(name="Bram", measurements_mm={"hip": 1000}))

    assert "The stash has changed since" in web_client.get(f"/asked/{answered}").text


def test_it_is_sifted_without_scripts(web_client, two, answered):
    """By verdict, and by whether the cloth is washed."""
    all_of, fits, small, washed = (
        web_client.get(f"/asked/{answered}?{query}").text
        for query in ("", "show=fits", "show=small", "show=fits&washed=yes"))

    assert all(code in all_of for code in two)
    assert two[0] in fits and two[1] in fits and two[2] not in fits
    assert two[2] in small and two[0] not in small
    assert two[0] in washed and two[1] not in washed


def test_ticked_lays_stand_side_by_side_at_one_scale(web_client, two, answered):
    """Each drawn as wide as it is long, one picture beside the other and one below."""
    page = web_client.get(f"/asked/{answered}?side={two[0]}&side={two[1]}").text

    assert page.count("<image ") == 4
    assert "Side by side, at one scale" in page


def test_an_answer_of_another_version_is_passed_over(web_client, web_stash):
    """What cannot be read is not listed, and its address says to ask again."""
    web_stash.answers.keep("unreadable-1", {"title": "?"}, {"lines": [{"key": 1}]})
    web_stash.answers.keep("unreadable-2", {
        "kind": "fit", "title": "?", "query": "", "asked_on": "2026-11-30T10:00", "event": 1,
        "plans": []}, {"lines": [{"key": 1}]})

    web_stash.answers.keep("unreadable-3", {
        "kind": "fit", "title": "?", "query": "", "asked_on": "2026-11-30T10:00", "event": 1,
        "plans": []}, {"lines": [{
            "key": "K7QW", "kind": "impossible", "laid": None, "what": [],
            "cut": to_plain(Cut(code="K7QW", cloth=Cloth(name="Drill"),
                                outline=Outline.rectangle(400, 400))),
            "told": [{"kind": "too_wide_side_by_side", "values": {"length_mm": 400.0}}]}]})

    assert "unreadable-1" not in web_client.get("/asked/").text
    assert web_client.get("/asked/unreadable-1").status_code == 404
    assert web_client.get("/asked/unreadable-2").status_code == 404
    assert web_client.get("/asked/unreadable-3").status_code == 404
    assert web_client.get("/asked/..%2Fsecret").status_code == 404


def test_only_so_many_are_kept(tmp_path):
    """The oldest go first."""
    files = AnswerFiles(DataFolder(tmp_path))
    for n in range(MOST_KEPT + 3):
        files.keep(f"answer-{n:04}", {"n": n})

    found = [head["n"] for _, head in files.heads()]
    assert len(found) == MOST_KEPT
    assert max(found) == MOST_KEPT + 2


def test_a_title_is_told_in_the_language_it_is_read_in(web_client, web_stash, two, answered):
    """Asked in English, read in German and French, on the list and on its own page; one that an
    earlier version kept stands as it was.
    """
    for language, said in (("de", "A-Linien-Rock für Odile"), ("fr", "Jupe trapèze pour Odile")):
        for page in ("/asked/", f"/asked/{answered}"):
            assert said in web_client.get(page, headers={"Accept-Language": language}).text, page

    web_stash.answers.amend(answered, about=None)
    old = web_client.get("/asked/", headers={"Accept-Language": "de"}).text
    assert "A-line skirt for Odile" in old


def test_how_far_it_goes_is_found_again_after_a_restart(web_client, web_stash, two):
    """At its old address, and listed: every value with what ended it, and its lay drawn."""
    key = ended(web_client, web_client.post(
        "/far/a-line-skirt/", data={"grow": "length", "person": "Odile", "cut": two[0]}))
    again = restarted(web_client, web_stash)
    before, after = (some.get(f"/far/answer/{key}").text for some in (web_client, again))

    value = re.compile(r'class="big"><strong>([^<]+)</strong>')
    assert value.findall(before) and value.findall(before) == value.findall(after)
    assert "Nothing has changed since." in after
    assert f"/far/answer/{key}" in again.get("/asked/").text
    assert again.get(f"/far/answer/{key}/lay/{two[0]}.svg").text.startswith("<svg")
    assert kept(web_stash, key).far.reaches[0].laid.cut == web_stash.cuts.get(two[0])

    web_stash.cuts.cut_off(two[0], 500)
    assert "The stash has changed since" in web_client.get(f"/far/answer/{key}").text


def test_a_shopping_list_is_found_again_and_says_what_was_bought(web_client, web_stash, two):
    """After a restart the card is made of it, a line is put on record, and is told apart."""
    key = ended(web_client, web_client.post(
        "/shopping/begin", data={"garment": "trousers", "person": "Odile", "all_cloth": "1"}))
    before = web_client.get(f"/shopping/{key}").text
    again = restarted(web_client, web_stash)
    after = again.get(f"/shopping/{key}").text
    done = again.post(f"/shopping/{key}/bought", data={"line": "0"})
    code = done.location.rpartition("/")[2]
    only, left = (again.get(f"/shopping/{key}?bought={which}").text for which in ("yes", "no"))

    lengths = re.compile(r"<strong>([\d.]+ c?m)</strong>")
    assert lengths.findall(before) and lengths.findall(before) == lengths.findall(after)
    assert f"/shopping/{key}" in again.get("/asked/").text
    assert again.get(f"/shopping/{key}/card.pdf").data.startswith(b"%PDF")
    assert done.status_code == 303, done.text
    assert code in only and "Cloth for" not in only
    assert code not in left and "Cloth for" in left


def test_a_shopping_list_says_that_something_else_was_recorded_since(web_client, web_stash, two):
    """What was bought of the list itself is no change; what came another way may be on it."""
    key = ended(web_client, web_client.post(
        "/shopping/begin", data={"garment": "trousers", "person": "Odile", "all_cloth": "1"}))
    web_client.post(f"/shopping/{key}/bought", data={"line": "0"})
    assert "ask again before you shop" not in web_client.get(f"/shopping/{key}").text

    web_stash.cuts.cut_off(two[0], 500)
    assert "ask again before you shop" in web_client.get(f"/shopping/{key}").text


def test_what_was_bought_and_undone_is_still_to_buy(web_client, web_stash, two):
    """The mark goes with the bin that it stands for."""
    key = ended(web_client, web_client.post(
        "/shopping/begin", data={"garment": "trousers", "person": "Odile", "all_cloth": "1"}))
    web_client.post(f"/shopping/{key}/bought", data={"line": "0"})
    assert 'class="tag good"' in web_client.get(f"/shopping/{key}").text

    web_stash.ledger.undo(web_stash.ledger.newest())

    assert 'class="tag good"' not in web_client.get(f"/shopping/{key}").text


def test_a_plan_lists_the_answers_that_were_asked_or_held_for_it(web_client, two, answered):
    """Asked from its page, or a lay of it held: found under the plan, and named in the list."""
    web_client.post("/plans/hold", data={"plan": "Harbour day", "job": answered, "which": two[0]})
    asked = ended(web_client, web_client.post("/become/", data={
        "garment": "a-line-skirt@Odile", "giving_up": "Harbour day", "for_plan": "Harbour day"}))
    bought = ended(web_client, web_client.post("/shopping/begin", data={"plan": "harbour day"}))
    page = web_client.get("/plans/of/Harbour day").text

    for address in (f"/asked/{answered}", f"/asked/{asked}", f"/shopping/{bought}"):
        assert address in page
    assert "for the plan Harbour day" in web_client.get("/asked/").text
    assert 'value="Harbour day" list="plan-names"' in web_client.get(f"/become/{asked}").text


def test_it_is_sifted_by_cloth_place_and_what_is_held(web_client, web_stash, two, answered):
    """Each facet with how many it leaves, in the values that the stash is found by."""
    web_stash.cuts.move(two[0], "top shelf")
    page, linen, light, shelf = (
        web_client.get(f"/asked/{answered}?{query}").text
        for query in ("", "fibre=flax", "weight=light&fibre=flax&held=no", "place=top shelf"))

    assert '<option value="top shelf"' in page and "Linen (1)" in page
    for some in (linen, light):
        assert "Dune linen" in some and two[1] not in some
    assert two[0] in shelf and two[1] not in shelf and "Dune linen" not in shelf
    assert "None of these." in web_client.get(f"/asked/{answered}?fibre=nonsense").text


def test_an_answer_is_sifted_by_the_values_that_the_stash_is_found_by(web_stash):
    """Over the demo: every facet counts the same cuts as the search of the stash does."""
    fill(web_stash)
    every = web_stash.cuts.all()

    _left, counts = sifted(every, lambda cut: facets_now(web_stash, cut), {})

    with worded(web_stash.ledger.db, CutQuery()) as here:
        found = facet_counts(here, CutQuery())
    for name in FACETS:
        assert dict(counts[name]) == dict(found[name]), name
