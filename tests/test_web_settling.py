"""What is presumed of a cloth is settled by one measurement, and then nothing hangs on it."""

from __future__ import annotations

import pytest

from stash.match.cloth.hangs_on import on_the_cloth
from stash.model import Cloth, ClothWants, Construction, Cut, Outline, ShrinkStatus
from stash.model.measured import Measured, Origin
from stash.workroom import cuts, history
from stash.workroom.figures import figure_of
from stash.workroom.weighing import record_length

WANTS = ClothWants(mass_gsm=(110, 475), mass_best_gsm=(170, 370))


@pytest.fixture
def cut(web_stash):
    """The code of 2 m x 1.4 m that is presumed to be a knit of 168 g/m2."""
    return web_stash.cuts.receive(Cut(code="", outline=Outline.rectangle(2000, 1400), cloth=Cloth(
        name="?", mass_gsm=168.0, construction=Construction.KNIT,
        presumed=("mass_gsm", "construction")))).code


def test_weighing_the_cut_settles_its_weight(web_client, web_stash, cut):
    """560 g over 2.8 m2 are 200 g/m2."""
    assert "168" in web_client.get(f"/settle/{cut}/weight").text

    answer = web_client.post(f"/settle/{cut}/weight", data={"known_grams": "560", "step": "1"})

    assert answer.status_code == 303
    cloth = web_stash.cuts.get(cut).cloth
    assert cloth.mass_gsm == pytest.approx(200)
    assert [one.kind for one in on_the_cloth(cloth, WANTS)] == ["hangs_on_construction"]


def test_a_weight_from_a_label_is_not_overwritten_by_the_scale(web_client, web_stash):
    """It is no guess; the weighing is kept beside it, and lengths are reckoned by that."""
    labelled = web_stash.cuts.receive(Cut(code="", outline=Outline.rectangle(2000, 1400),
                                          cloth=Cloth(name="Label", mass_gsm=180.0))).code

    web_client.post(f"/settle/{labelled}/weight", data={"known_grams": "560", "step": "1"})

    assert web_stash.cuts.get(labelled).cloth.mass_gsm == 180.0


def test_a_scrap_too_light_for_the_scale_is_refused(web_client, web_stash):
    """10 x 10 cm on a scale of one gram says less than the guess does."""
    scrap = web_stash.cuts.receive(Cut(code="", outline=Outline.rectangle(100, 100), cloth=Cloth(
        name="Scrap", mass_gsm=168.0, presumed=("mass_gsm",)))).code

    answer = web_client.post(f"/settle/{scrap}/weight", data={"known_grams": "2", "step": "1"})

    assert answer.status_code == 422
    assert "0.1 g" in answer.text
    assert "mass_gsm" in web_stash.cuts.get(scrap).cloth.presumed


def test_a_washed_swatch_settles_the_shrinkage(web_client, web_stash, cut):
    """20 cm that come out as 19.4 and 19.8 lost 3 and 1 per cent."""
    web_client.post(f"/settle/{cut}/shrinkage", data={
        "before_along": "20", "before_across": "20", "after_along": "19.4", "after_across": "19.8"})

    cloth = web_stash.cuts.get(cut).cloth
    assert (cloth.shrink_along_pct, cloth.shrink_across_pct) == (3.0, 1.0)
    assert cloth.shrink_status is ShrinkStatus.MEASURED


@pytest.mark.parametrize(("before", "after"), [("3", "2.9"), ("20", "2")])
def test_a_swatch_that_cannot_be_so_is_refused(web_client, web_stash, cut, before, after):
    """Too short to show it, or a slip of the pen."""
    answer = web_client.post(f"/settle/{cut}/shrinkage", data={
        "before_along": before, "before_across": before, "after_along": after,
        "after_across": after})

    assert answer.status_code == 422
    assert web_stash.cuts.get(cut).cloth.shrink_status is ShrinkStatus.NONE


def test_a_look_settles_how_it_is_made_and_leads_back_to_the_question(web_client, web_stash, cut):
    """Only within these pages."""
    for back, to in (("/become/?garment=trousers", "/become/?garment=trousers"),
                     ("//elsewhere.example/", f"/c/{cut}")):
        answer = web_client.post(f"/settle/{cut}/making", data={
            "construction": "woven", "back": back})
        assert answer.headers["Location"].casefold() == to.casefold()

    cloth = web_stash.cuts.get(cut).cloth
    assert cloth.construction is Construction.WOVEN and "construction" not in cloth.presumed


def test_the_tape_settles_a_width_and_leaves_the_length_as_it_is_known(web_client, web_stash):
    """A usual width, a length from the scale: measured across, it is presumed no longer."""
    weighed = Measured(value=1900.0, error=80.0, origin=Origin.WEIGHED)
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Drill"), outline=Outline.rectangle(2000, 1400),
        width_presumed=True)).code
    record_length(web_stash, code, weighed, replace=True)
    page = web_client.get(f"/c/{code}").text
    assert web_stash.cuts.get(code).width_presumed and f"/settle/{code}/width" in page

    answer = web_client.post(f"/settle/{code}/width", data={"width": "138"})

    assert answer.status_code == 303
    cut = web_stash.cuts.get(code)
    assert (cut.width_mm, cut.width_presumed) == (pytest.approx(1380), False)
    assert figure_of(web_stash, code) == weighed
    assert f"/settle/{code}/width" not in web_client.get(f"/c/{code}").text


def test_what_is_cut_off_washed_or_undone_keeps_a_width_presumed(web_stash):
    """Nobody measured across yet; a size after the wash is measured, and an undo takes it back."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Drill", shrink_along_pct=3.0),
        outline=Outline.rectangle(2000, 1400), width_presumed=True)).code
    web_stash.cuts.cut_off(code, 300.0)
    web_stash.cuts.wash(code)
    assert web_stash.cuts.get(code).width_presumed

    event = cuts.measure(web_stash, code, 1600.0, 1390.0).event
    assert not web_stash.cuts.get(code).width_presumed
    history.undo(web_stash, event.id)
    assert web_stash.cuts.get(code).width_presumed
