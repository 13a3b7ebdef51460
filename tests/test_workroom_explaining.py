"""Why there is as much in a bin as there is."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.model import Bin, Notion, NotionKind
from stash.store import open_stash
from stash.workroom.explaining import bin_account


@given(takes=st.lists(st.integers(1, 9), max_size=6), counted=st.integers(0, 50))
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_what_is_in_a_bin_explains_itself(tmp_path_factory, takes, counted):
    """Its lines add up to what is there, whatever was taken, counted and undone."""
    with open_stash(tmp_path_factory.mktemp("bin")) as stash:
        code = stash.bins.receive(Bin(
            code="", notion=Notion(kind=NotionKind.BUTTON, name="Shell"), amount=60.0)).code
        for n, take in enumerate(takes):
            event = stash.bins.take(code, take, plan="Shirt" if n % 2 else None)
            if n % 3 == 2:
                stash.ledger.undo(event.id)
        stash.bins.count(code, float(counted))
        lines = bin_account(stash, code)
        assert sum(line.amount for line in lines) == pytest.approx(counted)
        assert lines[0].why.kind == "bin_came_in"
