"""Cloth drawn against the rule: what the drawing says in millimetres is what is there."""

import re

import pytest

from stash.model import Cloth, Cut, Outline
from stash.units import System
from web.drawing.rule import rule
from web.drawing.to_scale import bar, path, whole


def corners(d: str) -> list[tuple[float, float]]:
    """The points of a path."""
    return [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", d)]


def test_a_cut_is_drawn_in_millimetres_to_one_scale_both_ways():
    """The drawing spans the page's extent, and the cut takes its own part of it."""
    cut = Cut(code="AAAAAA", cloth=Cloth(name="Dune"), outline=Outline.rectangle(2000, 1400))

    drawn = str(bar(cut, 4000))

    assert 'viewBox="0 0 4000 1400"' in drawn
    points = corners(re.search(r' d="([^"]+)"', drawn)[1])
    assert max(x for x, _ in points) == 2000
    assert max(y for _, y in points) == 1400


def test_the_selvedge_at_y_zero_lies_at_the_foot_as_in_a_lay():
    """A corner missing at the far side of the cloth is missing at the top of the drawing."""
    outline = Outline(((0, 0), (1000, 0), (1000, 900), (600, 900), (600, 1400), (0, 1400)))

    points = corners(path(outline))

    assert (1000, 0) not in points
    assert (1000, 500) in points
    assert (1000, 1400) in points


def test_holes_are_holes():
    """A flaw is cut out of the drawing."""
    outline = Outline(
        Outline.rectangle(1000, 1000).ring_mm, (((100, 100), (200, 100), (200, 200)),))

    assert path(outline).count("Z") == 2
    assert 'fill-rule="evenodd"' in whole(outline, (), 1000, "a flaw")


def test_an_edge_known_as_selvedge_is_drawn_thick_along_it():
    """At the foot, as in a lay; without one on record no edge is."""
    cloth = Outline.rectangle(900, 400)

    drawn = str(whole(cloth, (), 1000, "remnant", (((0.0, 0.0), (700.0, 0.0)),)))

    assert 'class="selvedge" x1="0.0" y1="400.0" x2="700.0" y2="400.0"' in drawn
    assert "selvedge" not in str(whole(cloth, (), 1000, "remnant"))


def test_several_colours_stand_as_dots_along_the_selvedge():
    """Each colour on record is shown once beside the others."""
    drawn = str(whole(Outline.rectangle(900, 900), ("#112233", "#445566"), 1000, "print"))

    assert drawn.count("<circle") == 2
    assert drawn.count("#112233") == 2


@pytest.mark.parametrize(("system", "extent_mm", "words"), [
    (System.METRIC, 3200, ["1 m", "2 m", "3 m"]),
    (System.INCHES, 1900, ["1 yd", "2 yd"]),
])
def test_the_rule_stands_at_every_whole_metre_or_yard(system, extent_mm, words):
    """Percentages of the extent, so that they agree with the drawings below."""
    drawn = str(rule(extent_mm, system))

    assert re.findall(r">(\d+ \w+)</text>", drawn) == words
    unit = 1000 if system is System.METRIC else 914.4
    at = float(re.search(r'<text x="([\d.]+)%"', drawn)[1])
    assert at == pytest.approx(unit / extent_mm * 100, abs=0.001)
