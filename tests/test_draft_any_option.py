"""Any option within its range gives whole pieces, or a sentence that names what to change."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from stash.draft.catalogue import about, draft, garments
from stash.draft.garment import Measure, Option
from stash.errors import InvalidInput
from stash.model.need import SEWN_AT

PEOPLE = (
    {"bust": 920.0, "waist": 780.0, "hip": 1000.0, "height": 1650.0},
    {"bust": 1280.0, "waist": 1200.0, "hip": 1300.0, "height": 1550.0},
    {"chest": 540.0, "waist": 530.0, "hip": 580.0, "height": 920.0},
)


def any_value(option: Option) -> st.SearchStrategy:
    """A word, or a length from one end of the range to the other, ends often."""
    if isinstance(option, Measure):
        ends = st.sampled_from((option.least_mm, option.most_mm))
        return st.one_of(st.none(), ends, st.floats(option.least_mm, option.most_mm))
    return st.sampled_from(option.words)


def extent(piece) -> tuple[float, float]:
    """Length and width between the stitching lines."""
    x0, y0, x1, y1 = Polygon(piece.stitch_mm).bounds
    return x1 - x0, y1 - y0


def assert_sizes_add_up(name: str, pattern) -> None:
    """What is sewn together comes out as long as was asked for."""
    sizes = {p.name: extent(p) for p in pattern.pieces}
    if name == "pillowcase" and "border" in sizes:
        finished = sizes["body"][0] + sizes["border"][0] / 2
        assert finished == pytest.approx(pattern.options["length"])
    if name in {"robe", "nightshirt"}:
        front, back = (sizes[n][0] for n in ("front", "back"))
        assert front == pytest.approx(back, abs=40)
        assert back > 1.5 * sizes["sleeve"][1] / 2


@pytest.mark.parametrize("name", garments())
@given(st.data(), st.sampled_from(PEOPLE))
@settings(max_examples=40, deadline=None)
def test_any_option_within_its_range_gives_whole_pieces_or_a_sentence(
    name, sentence, data, person
):
    """Each outline is one simple shape inside the allowances asked for."""
    options = {o.name: data.draw(any_value(o), label=o.name) for o in about(name).options}
    try:
        pattern = draft(name, person, options)
    except InvalidInput as refusal:
        assert sentence(refusal).endswith(".")
        assert refusal.field in {*options, *person, "bust"}
        return

    for piece in pattern.pieces:
        shape = Polygon(piece.outline_mm)
        assert shape.is_valid
        assert shape.area > 500
        assert Polygon(piece.stitch_mm).is_valid
        assert shape.buffer(0.2).covers(Polygon(piece.stitch_mm))
    assert_sizes_add_up(name, pattern)
    for need in pattern.notions:
        assert (need.count or 0) > 0 or need.length_mm > 0
        assert need.why in SEWN_AT


@pytest.mark.parametrize(("name", "person", "options"), [
    ("trousers", PEOPLE[1], {"length": 470.0, "waistband": "cut-on", "seam_inside_leg": 50.0}),
    ("shorts", PEOPLE[2], {"length": 400.0, "seam": 0.0, "leg_width": 1400.0,
                           "waistband": "cut-on", "seam_crotch": 50.0}),
])
def test_allowances_that_cut_into_each_other_are_refused(name, person, options, sentence):
    """Where a wide allowance meets a corner it has no room in, by less than half a millimetre."""
    with pytest.raises(InvalidInput) as refused:
        draft(name, person, options)

    assert "check these measurements and the options" in sentence(refused.value)
