"""The best assignment of garments to cuts, against trying them all."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.match.sharing.assign import Assignment, LaidOption, assign

GARMENTS = ("trousers", "shorts", "shirt", "apron")
CUTS = ("C1", "C2", "C3")
options = st.lists(
    st.builds(
        LaidOption,
        st.sampled_from(CUTS),
        st.frozensets(st.sampled_from(GARMENTS), min_size=1, max_size=3),
        st.integers(0, 40).map(lambda cost: cost / 10),
    ),
    max_size=10,
)


def by_trying_all(found: list[LaidOption]) -> tuple[int, float]:
    """(most garments, least cost in square metres) over every way to use each cut once."""
    best = (0, 0.0)
    ways = [[None, *(o for o in found if o.cut == cut)] for cut in CUTS]
    for pick in product(*ways):
        chosen = [o for o in pick if o]
        made = [g for o in chosen for g in o.garments]
        if len(made) == len(set(made)):
            best = max(best, (len(made), -sum(o.cost_m2 for o in chosen)))
    return best[0], -best[1]


@settings(deadline=None, max_examples=60)
@given(options)
def test_assignment_is_as_good_as_trying_every_one(found: list[LaidOption]):
    """Most garments first, then least cost; brute force over three cuts and four garments."""
    answer = assign(GARMENTS, found)

    most, least_cost = by_trying_all(found)
    assert answer.proven
    assert len(answer.made) == most
    assert answer.cost_m2 == pytest.approx(least_cost)


@settings(deadline=None, max_examples=40)
@given(options)
def test_no_cut_is_used_twice_and_no_garment_is_made_twice(found: list[LaidOption]):
    """An assignment can be carried out."""
    chosen = assign(GARMENTS, found).chosen

    assert len({o.cut for o in chosen}) == len(chosen)
    assert len({g for o in chosen for g in o.garments}) == sum(len(o.garments) for o in chosen)


def test_two_garments_from_two_remnants_beat_one_from_the_long_length():
    """The long length would hold only the trousers."""
    found = [
        LaidOption("LONG", frozenset({"trousers"}), 0.1),
        LaidOption("LONG", frozenset({"shirt"}), 0.1),
        LaidOption("REMNANT", frozenset({"trousers"}), 0.9),
    ]

    answer = assign(("trousers", "shirt"), found)

    assert {(o.cut, *o.garments) for o in answer.chosen} == {
        ("REMNANT", "trousers"), ("LONG", "shirt")
    }


def test_what_the_bins_cannot_supply_is_left_unmade():
    """Elastic for one pair only: shorts or trousers, and the first asked for wins."""
    found = [
        LaidOption("A", frozenset({"trousers"}), 1.0), LaidOption("B", frozenset({"shorts"}), 1.0)]

    answer = assign(
        ("trousers", "shorts"), found, supplied=lambda chosen: len(chosen) < 2
    )

    assert answer.made == {"trousers"}
    assert answer.unmade == ("shorts",)


def test_nothing_to_choose_from_makes_nothing():
    """An empty stash is an answer."""
    assert assign(GARMENTS, []) == Assignment(chosen=(), unmade=GARMENTS)
