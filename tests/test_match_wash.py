"""The first wash: measured, as a sister cut did, or prudently presumed, and never confused."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from stash.match.cloth.shrinkage import WashHabit, as_laid, presumed, shrink_status
from stash.model import Cloth, Construction, Cut, FibreShare, Outline, Person, ShrinkStatus
from stash.store import Stash, open_stash
from stash.workroom import cuts
from stash.workroom.questions.answer_json import fit_json
from stash.workroom.questions.fitting import Asking, FitAnswer, ask_fit
from stash.workroom.questions.orders import orders_for
from stash.workroom.settings import reader
from web.command import main

COTTON, WOVEN = (FibreShare("cotton", 100),), Construction.WOVEN
# Rows of shrinkage_presumed.csv, each the upper end of what is published and rounded
# (common practice; sources in the file): (fibres, construction, mass) -> along, across.
ROWS = [
    (COTTON, WOVEN, 200.0, 6.0, 4.0),
    (COTTON, Construction.KNIT, 200.0, 7.0, 5.0),
    ((FibreShare("flax", 100),), WOVEN, 190.0, 7.0, 5.0),
    ((FibreShare("viscose", 100),), WOVEN, 140.0, 10.0, 6.0),
    ((FibreShare("wool", 100),), WOVEN, 290.0, 5.0, 4.0),
    ((FibreShare("silk", 100),), WOVEN, 60.0, 5.0, 3.0),
    ((FibreShare("polyester", 100),), WOVEN, 120.0, 1.0, 1.0),
    ((FibreShare("cotton", 65), FibreShare("polyester", 35)), WOVEN, 120.0, 3.5, 2.5),
    ((FibreShare("cotton", 97), FibreShare("elastane", 3)), WOVEN, 365.0, 3.0, 12.0),
    ((), WOVEN, 200.0, 7.0, 5.0),
    ((), Construction.KNIT, 200.0, 8.0, 6.0),
]


def denim(code: str = "", length_mm: float = 1300.0, **more) -> Cut:
    """Unwashed denim 1.50 m wide whose shrinkage nobody measured."""
    cloth = Cloth(name="Denim", construction=WOVEN, fibres=COTTON, mass_gsm=365.0, **more)
    return Cut(code=code, cloth=cloth, outline=Outline.rectangle(length_mm, 1500.0))


@pytest.fixture
def stash(tmp_path: Path):
    """A man and nothing else."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(name="Bram", body="men", measurements_mm={
            "hip": 1010.0, "waist": 880.0, "height": 1760.0}))
        yield opened


def ask(stash: Stash, **more) -> FitAnswer:
    """Trousers for the man."""
    return ask_fit(stash, orders_for(stash, ["trousers"]), Asking(seconds=0.6, **more))


@pytest.mark.parametrize(("fibres", "made", "mass", "along", "across"), ROWS)
def test_what_is_presumed_is_the_prudent_row_of_its_fibre_and_making(
    fibres, made, mass, along, across
):
    """And each says where it is from, and that it is a stand-in."""
    row = presumed(Cloth(name="c", fibres=fibres, construction=made, mass_gsm=mass))

    assert (row.along_pct, row.across_pct) == (along, across)
    assert row.source
    assert "stand-in" in row.status


def test_unwashed_cloth_that_nobody_measured_is_laid_for_a_presumed_shrinkage():
    """The presumption is in the question only, and the record knows nothing of it."""
    laid = as_laid(denim(), WashHabit.FIRST)

    assert (laid.cloth.shrink_along_pct, shrink_status(laid)) == (6.0, ShrinkStatus.PRESUMED)
    assert as_laid(denim(), WashHabit.FIRST, presume=False) == denim()


def test_a_measure_of_her_own_wins_even_when_it_is_nothing():
    """She washed a swatch, and it lost nothing."""
    measured = denim(shrink_status=ShrinkStatus.MEASURED)

    assert as_laid(measured, WashHabit.FIRST) == measured
    assert shrink_status(measured) is ShrinkStatus.MEASURED


def test_dry_clean_only_cloth_is_never_washed_and_nothing_is_presumed_of_it():
    """The wool coat stays as long as it is."""
    coat = denim(dry_clean_only=True)

    assert as_laid(coat, WashHabit.FIRST) == coat


def test_what_fits_only_unwashed_is_a_yes_if_and_comes_after_what_fits_washed(stash: Stash):
    """Long enough as it lies, too short once it lost 6 per cent of its length."""
    need = ask(stash_with(stash, denim(length_mm=3000.0))).fit.fits[0].laid.lay.length_mm
    short = stash.cuts.receive(denim(length_mm=need * 1.01)).code

    fits = ask(stash).fit.fits

    assert [c.verdict.unwashed for c in fits] == [False, True]
    assert fits[1].cut.code == short
    assert fits[1].verdict.told.kind == "fits_only_unwashed"


def stash_with(stash: Stash, cut: Cut) -> Stash:
    """The stash with one more cut."""
    stash.cuts.receive(cut)
    return stash


def test_cloth_may_be_laid_unwashed_on_purpose(stash: Stash):
    """Then the whole of it counts, and the answer says that nothing is reckoned for a wash."""
    stash.cuts.receive(denim(length_mm=3000.0))

    first, as_it_lies = ask(stash), ask(stash, wash=WashHabit.AS_IT_LIES)

    assert first.fit.fits[0].laid.cloth.length_mm == pytest.approx(3000 * 0.94)
    assert as_it_lies.fit.fits[0].laid.cloth.length_mm == 3000.0


def test_a_measured_wash_serves_the_other_cuts_of_its_cloth(stash: Stash):
    """1.00 m became 0.95 m: the sister is laid for 5 per cent, and says whose they are."""
    washed = stash.cuts.receive(denim(length_mm=1000.0)).code
    sister = stash.cuts.receive(denim(length_mm=3000.0)).code
    cuts.wash(stash, washed, 950.0, 1470.0)

    told = fit_json(ask(stash, only_cut=sister), reader(stash))["candidates"][0]["washed"]

    assert told == {"along_pct": 5.0, "across_pct": 2.0, "status": "sister", "done": False,
                    "from": washed}
    assert stash.cuts.get(sister).cloth.shrink_from == washed


def test_the_command_presumes_unless_told_not_to(stash: Stash, tmp_path: Path):
    """Each candidate says what its wash is reckoned to take, and how that is known."""
    stash.cuts.receive(denim(length_mm=3000.0))

    def washed(*more: str) -> dict:
        result = CliRunner().invoke(main, [
            "--data", str(tmp_path), "fit", "trousers", "--seconds", "0.5", "--json", *more])
        return json.loads(result.output)["candidates"][0]["washed"]

    assert (washed()["status"], washed()["along_pct"]) == ("presumed", 6.0)
    assert washed("--presume-shrink", "no")["status"] == "none"
