"""A second cut beside the main one: lining and contrast, each from a cloth of its own."""

from __future__ import annotations

from stash.lay import LayTask, check
from stash.match.fit.companion_cut import Beside, companion, roles_beside
from stash.match.gather import DraftedGarment
from stash.match.strip_lays import Table
from stash.model import Cloth, Construction, Cut, Outline, Pattern, Piece, Role


def cut(code: str, length: float = 1500, mass: float = 80, **more) -> Cut:
    """Washed woven lining cloth, 1.50 x 1.40 m."""
    cloth = Cloth(name=code, construction=Construction.WOVEN, mass_gsm=mass)
    return Cut(code=code, washed=True, cloth=cloth, outline=Outline.rectangle(length, 1400),
               **more)


def piece(role: Role, name: str, long_mm: float = 500) -> Piece:
    """A rectangle 40 cm wide."""
    ring = ((0, 0), (long_mm, 0), (long_mm, 400), (0, 400))
    return Piece(name=name, outline_mm=ring, role=role)


MAIN = cut("MAIN", 3000, mass=280)
LINING = Beside(role=Role.LINING, pieces=(piece(Role.LINING, "lining"),))


def chosen(*others: Cut, beside: Beside = LINING) -> str | None:
    """The code of the cut that goes beside the main one."""
    line = companion(beside, MAIN, others, Table())
    return line and line.cut.code


def test_a_remnant_goes_before_a_length_and_the_smallest_first():
    """A long length is not begun for a pocket."""
    assert chosen(cut("LONG", 4000), cut("SHORT", 600)) == "SHORT"
    assert chosen(cut("LONGER", 5000), cut("LONG", 4000)) == "LONG"


def test_what_is_kept_for_something_comes_after_what_is_not():
    """Of two alike, the one with a purpose stays for it."""
    assert chosen(cut("A", keep_for="the tent"), cut("B")) == "B"


def test_the_next_one_serves_where_the_first_is_too_small():
    """The pieces must come out of it."""
    assert chosen(cut("TOO_SHORT", 300), cut("ENOUGH", 900)) == "ENOUGH"


def test_none_serves_where_none_is_big_enough_or_only_the_main_cut_is_left():
    """The main cut is never beside itself."""
    assert chosen(cut("TOO_SHORT", 300)) is None
    assert chosen(MAIN) is None
    assert chosen() is None


def test_the_lay_on_it_is_sound_by_the_separate_check():
    """Where the cut begins is where the lay begins."""
    ring = ((200, 0), (1700, 0), (1700, 1400), (200, 1400))
    later = Cut(code="LATER", washed=True, cloth=cut("LATER").cloth, outline=Outline(ring_mm=ring))
    line = companion(LINING, MAIN, [later], Table())

    assert check(LayTask(pieces=line.pieces, cloth=later.outline), line.laid.lay) == []


def test_lining_and_contrast_come_from_two_cuts():
    """What one takes is not offered to the other; a role with no cloth is still told."""
    pieces = (piece(Role.MAIN, "front"), piece(Role.LINING, "lining"),
              piece(Role.CONTRAST, "yoke"))
    garments = (DraftedGarment(pattern=Pattern(garment="coat", pieces=pieces)),)

    both = list(roles_beside(garments, MAIN, [cut("A", 600), cut("B", 700)], Table()))
    one = list(roles_beside(garments, MAIN, [cut("A", 600)], Table()))

    assert [line.role for line in both] == [Role.LINING, Role.CONTRAST]
    assert sorted(line.cut.code for line in both) == ["A", "B"]
    assert [line.cut and line.cut.code for line in one] == ["A", None]


def test_what_asks_for_no_other_cloth_is_told_no_other():
    """Main pieces alone."""
    bag = Pattern(garment="bag", pieces=(piece(Role.MAIN, "front"),))
    garments = (DraftedGarment(pattern=bag),)

    assert list(roles_beside(garments, MAIN, [cut("A")], Table())) == []


def test_a_knit_is_no_contrast_for_a_woven():
    """Common practice, no source: a contrast is built as the main cloth is."""
    knit = Cut(code="KNIT", washed=True, outline=Outline.rectangle(600, 1400),
               cloth=Cloth(name="Jersey", construction=Construction.KNIT, mass_gsm=280))
    contrast = Beside(role=Role.CONTRAST, pieces=(piece(Role.CONTRAST, "yoke"),))

    assert chosen(knit, beside=contrast) is None
    assert chosen(cut("WOVEN", mass=280), beside=contrast) == "WOVEN"
