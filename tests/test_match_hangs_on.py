"""An answer that hangs on a presumed figure says which, and what would settle it."""

from __future__ import annotations

import pytest

from stash.match.cloth.hangs_on import on_the_cloth, on_the_wash, on_the_width
from stash.model import (
    Cloth,
    ClothWants,
    Construction,
    Cut,
    Laid,
    Lay,
    Outline,
    Piece,
    Placement,
    ShrinkStatus,
)

WANTS = ClothWants(mass_gsm=(110, 475), mass_best_gsm=(170, 370))


def kinds(told) -> list[str]:
    """What is said, by kind."""
    return [one.kind for one in told]


@pytest.mark.parametrize(("mass_gsm", "presumed", "said"), [
    (168.0, ("mass_gsm",), ["hangs_on_weight"]),   # a fifth more would be well chosen
    (270.0, ("mass_gsm",), []),                    # 216 to 324: well chosen either way
    (441.0, ("mass_gsm",), ["hangs_on_weight"]),   # denim by name, 353 to 529
    (560.0, ("mass_gsm",), ["hangs_on_weight"]),   # refused at 560, served at 448
    (700.0, ("mass_gsm",), []),                    # refused whatever it weighs
    (168.0, (), []),                               # weighed: nothing hangs on it
])
def test_a_presumed_weight_is_named_where_a_fifth_would_change_the_answer(
    mass_gsm, presumed, said
):
    """135 to 200 g/m2 (sewmesunshine.co.uk) is its middle and a fifth either way."""
    cloth = Cloth(name="?", construction=Construction.WOVEN, mass_gsm=mass_gsm, presumed=presumed)

    assert kinds(on_the_cloth(cloth, WANTS)) == said


def test_a_presumed_making_is_named_where_it_rules_the_cloth_out():
    """A knit by its name alone, for a draft of wovens."""
    knit = Cloth(name="jersey", construction=Construction.KNIT, presumed=("construction",))

    assert kinds(on_the_cloth(knit, WANTS)) == ["hangs_on_construction"]


def laid(length_mm: float, lay_mm: float, status: ShrinkStatus, *, washed: bool = False):
    """A cut that is taken to lose 6 % along, and a lay on it."""
    cloth = Cloth(name="poplin", shrink_along_pct=6.0, shrink_across_pct=4.0, shrink_status=status)
    cut = Cut(code="C", cloth=cloth, outline=Outline.rectangle(length_mm, 1400), washed=washed)
    lay = Lay(placements=(), length_mm=lay_mm, width_mm=1400, utilisation=0.7)
    return cut, Laid(cut=cut, lay=lay, pieces=())


@pytest.mark.parametrize(("lay_mm", "most_pct"), [(930.0, 7.0), (935.0, 6.5), (940.0, 6.0)])
def test_a_presumed_shrinkage_is_named_where_two_points_more_would_not_fit(lay_mm, most_pct):
    """On 1 m a lay of 93 cm bears a loss of 7 %: arithmetic, no source needed."""
    (told,) = on_the_wash(*laid(1000, lay_mm, ShrinkStatus.PRESUMED), unwashed=False)

    assert told.kind == "hangs_on_shrinkage"
    assert told.values["most_pct"] == pytest.approx(most_pct)


@pytest.mark.parametrize(("lay_mm", "status", "washed"), [
    (900.0, ShrinkStatus.PRESUMED, False), (935.0, ShrinkStatus.MEASURED, False),
    (935.0, ShrinkStatus.PRESUMED, True),
])
def test_with_room_to_spare_or_a_measured_wash_nothing_hangs_on_it(lay_mm, status, washed):
    """Ten per cent of room, a measured swatch, a washed cut."""
    assert not list(on_the_wash(*laid(1000, lay_mm, status, washed=washed), unwashed=False))


def test_what_fits_only_unwashed_says_from_which_loss_it_would_fit_washed():
    """A lay of 97 cm on 1 m: under 3 % it may still fit."""
    (told,) = on_the_wash(*laid(1000, 970.0, ShrinkStatus.PRESUMED), unwashed=True)

    assert told.kind == "hangs_on_shrinkage_to_fit"
    assert told.values["most_pct"] == pytest.approx(3.0)


def across(reach_mm: float, *, presumed: bool = True):
    """A cut of 2 m x 1.4 m, and a lay of one piece that takes so much of its width."""
    cut = Cut(code="C", cloth=Cloth(name="drill"), outline=Outline.rectangle(2000, 1400),
              width_presumed=presumed)
    piece = Piece(name="front#lined", outline_mm=((0, 0), (500, 0), (500, 300), (0, 300)))
    placements = (Placement(piece="front#lined#1", x_mm=0, y_mm=0),
                  Placement(piece="front#lined#2", x_mm=0, y_mm=reach_mm, mirrored=True))
    lay = Lay(placements=placements, length_mm=500, width_mm=1400, utilisation=0.5)
    return cut, Laid(cut=cut, lay=lay, pieces=(piece,))


@pytest.mark.parametrize(("reach_mm", "presumed", "said"), [
    (1390.0, True, ["hangs_on_width"]), (1390.0, False, []), (1300.0, True, [])])
def test_a_presumed_width_is_named_where_three_centimetres_less_would_not_do(
    reach_mm, presumed, said
):
    """A lay that takes 139 of 140 cm; one that leaves 10 cm; a width that was measured."""
    cut, laid = across(reach_mm, presumed=presumed)

    assert kinds(on_the_width(cut, laid, None)) == said


@pytest.mark.parametrize(("short_mm", "said"), [
    (40.0, ["hangs_on_width_to_fit"]), (300.0, []), (None, [])])
def test_a_presumed_width_is_named_where_a_little_more_might_fit(short_mm, said):
    """3 cm more over 2 m are 43 mm of length at 1.4 m: arithmetic, no source needed."""
    cut, _ = across(1390.0)

    assert kinds(on_the_width(cut, None, short_mm)) == said
