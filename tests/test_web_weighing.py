"""The pages of the kitchen scale and of the roll: reckoned, told with its error, then kept."""

import pytest

from stash.model import Bin, Cloth, Cut, FibreShare, Notion, NotionKind
from stash.model.measured import Measured, Origin
from stash.model.outline import Outline
from stash.workroom.cuts import traced
from stash.workroom.figures import figure_of
from stash.workroom.measuring import count_seen


@pytest.fixture
def cut(web_stash):
    """The code of 2 m of cotton, 1.4 m wide, 180 g/m2 by its label."""
    cloth = Cloth(name="Sailcloth", mass_gsm=180, fibres=(FibreShare("cotton", 100),))
    return web_stash.cuts.receive(
        Cut(code="", cloth=cloth, outline=Outline.rectangle(2000.0, 1400.0))).code


@pytest.fixture
def buttons(web_stash):
    """The code of a jar of 40 buttons, counted by hand."""
    notion = Notion(kind=NotionKind.BUTTON, name="Horn", size_mm=15)
    return web_stash.bins.receive(Bin(code="", notion=notion, amount=40)).code


def test_a_weight_is_told_as_a_length_with_its_error_and_not_yet_kept(web_client, web_stash, cut):
    """504 g at 180 g/m2 and 1.4 m are 2 m; the label's weight is presumed, and the page says so."""
    before = web_stash.ledger.newest()
    typed = {"by": "weight", "grams": "504", "step": "1"}
    answer = web_client.post(f"/weigh/cut/{cut}", data=typed)

    assert answer.status_code == 200
    assert "2.00 m, give or take 11 cm" in answer.text
    assert "presumed" in answer.text
    assert web_stash.ledger.newest() == before


def test_a_worse_figure_is_refused_and_a_tick_overrules(web_client, web_stash, cut):
    """2 m by the tape stay; ticked, 1.9 m by the scale take their place, with their origin."""
    typed = {"by": "weight", "grams": "480", "step": "1", "keep": "1"}
    refused = web_client.post(f"/weigh/cut/{cut}", data=typed)

    assert refused.status_code == 409
    assert 'name="replace"' in refused.text
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(2000)

    web_client.post(f"/weigh/cut/{cut}", data={**typed, "replace": "on"})
    assert web_stash.cuts.get(cut).length_mm == pytest.approx(1904.8, abs=0.1)
    assert figure_of(web_stash, cut).origin is Origin.WEIGHED
    assert "Weighed: it may be out by" in web_client.get(f"/c/{cut}", follow_redirects=True).text


def test_where_the_error_makes_it_useless_the_page_refuses_and_says_what_helps(web_client, cut):
    """A swatch of 10 x 10 cm on a scale of 1 g is out by more than half; a finer scale is named."""
    answer = web_client.post(f"/weigh/cut/{cut}", data={
        "by": "weight", "grams": "504", "step": "1", "swatch_length": "10 cm",
        "swatch_width": "10 cm", "swatch_grams": "2", "keep": "1"})

    assert answer.status_code == 200
    assert "does not tell" in answer.text
    assert "larger swatch" in answer.text
    assert "Put it on record" not in answer.text


def test_a_roll_is_reckoned_by_its_turns(web_client, cut):
    """22 turns between 4 and 14 cm: 22 x pi x 9 cm = 6.22 m (by hand)."""
    answer = web_client.post(f"/weigh/cut/{cut}", data={
        "by": "turns", "turns": "22", "outer": "14 cm", "core": "4 cm"})

    assert "6.22 m, give or take" in answer.text


def test_a_true_cut_tells_what_its_cloth_weighs(web_client, web_stash, cut):
    """504 g over 2.8 m2 are 180 g/m2; the cut's page then says weighed, not presumed."""
    web_client.post(f"/weigh/cut/{cut}", data={"by": "known", "known_grams": "504", "step": "1"})

    assert "Weight of the cloth weighed" in web_client.get(f"/c/{cut}", follow_redirects=True).text


def test_a_bin_is_weighed_against_a_known_amount(web_client, web_stash, buttons):
    """Forty weigh 22 g, so 110 g are 200; counted by hand stays until overruled."""
    typed = {"by": "weight", "grams": "110", "step": "0.1", "known_amount": "40",
             "known_grams": "22"}
    assert "200, give or take" in web_client.post(f"/weigh/bin/{buttons}", data=typed).text

    assert web_client.post(
        f"/weigh/bin/{buttons}", data={**typed, "keep": "1"}).status_code == 409
    web_client.post(f"/weigh/bin/{buttons}", data={**typed, "keep": "1", "replace": "on"})
    assert web_stash.bins.get(buttons).amount == 200


def test_thread_is_told_as_enough_or_not(web_client, web_stash):
    """A spool is never told in metres."""
    notion = Notion(kind=NotionKind.THREAD, name="Sewing thread")
    code = web_stash.bins.receive(Bin(code="", notion=notion, amount=500_000)).code
    answer = web_client.post(f"/weigh/bin/{code}", data={
        "by": "weight", "grams": "40", "step": "1", "empty": "10", "per_metre": "0.03",
        "need": "200 m"})

    assert "surely enough" in answer.text
    assert "Put it on record" not in answer.text


def test_a_wrong_gram_is_refused_in_one_sentence(web_client, cut, buttons):
    """What was typed stays in the form."""
    for path in (f"/weigh/cut/{cut}", f"/weigh/bin/{buttons}"):
        answer = web_client.post(path, data={"by": "weight", "grams": "much", "step": "1"})
        assert answer.status_code == 422
        assert 'value="much"' in answer.text


def test_a_photograph_that_is_unsure_does_not_replace_a_count_by_hand(web_stash, buttons):
    """One rule for every door: the refusal is the same as of weighing; told to, it goes on."""
    from stash.errors import SurerFigure

    unsure = Measured(value=38.0, error=2.0, origin=Origin.PHOTOGRAPHED)
    with pytest.raises(SurerFigure):
        count_seen(web_stash, buttons, unsure)
    count_seen(web_stash, buttons, unsure, replace=True)

    assert web_stash.bins.get(buttons).amount == 38


def test_a_rough_tracing_does_not_replace_the_tape(web_stash, cut):
    """4 cm of error are more than the tape's centimetre; a tracing within 2 mm is better."""
    from stash.errors import SurerFigure

    outline = Outline.rectangle(1990.0, 1400.0)
    with pytest.raises(SurerFigure):
        traced(web_stash, cut, outline, 40.0)
    traced(web_stash, cut, outline, 2.0)

    assert web_stash.cuts.get(cut).length_mm == pytest.approx(1990)


def test_every_figure_of_a_cut_and_of_a_bin_says_its_origin(web_client, cut, buttons):
    """By hand too: length, width and weight of the cloth; number and size."""
    page = web_client.get(f"/c/{cut}", follow_redirects=True).text
    for said in ("Measured: it may be out by 1 cm", "Width measured", "presumed from its label"):
        assert said in page
    page = web_client.get(f"/c/{buttons}", follow_redirects=True).text
    assert "Counted." in page
    assert "Size as it was sold" in page
