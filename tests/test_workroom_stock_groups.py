"""The stash in groups: nothing is lost between them, and each cut is in one."""

from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.model import Cloth, Cut, FibreShare, Outline
from stash.store import open_stash
from stash.workroom.stock_groups import GroupedBy, stock_groups

TODAY = date(2026, 6, 1)
CUTS = st.lists(st.tuples(
    st.floats(60.0, 9000.0), st.sampled_from(("cotton", "wool", "")),
    st.sampled_from(("#7a1f2b", "#245a73", "")), st.sampled_from(("2020-10-10", "2026", "", "x"))),
    max_size=8)


@given(cuts=CUTS)
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_cut_is_in_one_group_and_all_metres_are_there(tmp_path_factory, cuts):
    """By fibre, colour, length and age alike; running metres of whole cloth are its lengths."""
    with open_stash(tmp_path_factory.mktemp("groups")) as stash:
        for n, (length_mm, fibre, colour, came) in enumerate(cuts):
            stash.cuts.receive(Cut(code="", outline=Outline.rectangle(length_mm, 1400.0),
                                   acquired=came or None, cloth=Cloth(
                name=f"Cloth {n}", colours=(colour,) if colour else (),
                fibres=(FibreShare(fibre, 100),) if fibre else ())))
        for by in GroupedBy:
            found = stock_groups(stash, by, TODAY)
            assert sum(group.cuts for group in found) == len(cuts)
            assert sum(group.running_mm for group in found) == pytest.approx(
                sum(length for length, *_rest in cuts))


def test_ages_are_counted_to_the_day(tmp_path):
    """One that came on 2 June 2025 is not a year old on 1 June 2026; a bare year begins it."""
    with open_stash(tmp_path) as stash:
        for came in ("2025-06-02", "2025", "2010-01"):
            stash.cuts.receive(Cut(code="", outline=Outline.rectangle(1000.0, 1400.0),
                                   acquired=came, cloth=Cloth(name=f"Came {came}")))
        found = {group.least: group.cuts for group in stock_groups(stash, GroupedBy.AGE, TODAY)}
    assert found == {0.0: 1, 1.0: 1, 10.0: 1}
