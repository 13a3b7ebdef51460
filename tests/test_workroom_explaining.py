"""Why there is as much in a bin as there is."""

from datetime import datetime, timedelta, timezone

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.model import Bin, Notion, NotionKind
from stash.sentences import METRIC
from stash.sentences.manner import minute
from stash.store import open_stash
from stash.store.ledger import Hand
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


def test_what_happened_late_in_the_evening_happened_on_that_day(tmp_path):
    """The day is the one on her wall: in New York at eleven it is tomorrow in Greenwich."""
    late = datetime(2026, 3, 3, 23, 0, tzinfo=timezone(timedelta(hours=-5)))
    with open_stash(tmp_path, hand=Hand(clock=lambda: late)) as stash:
        stash.bins.receive(Bin(
            code="K7F2QQ", notion=Notion(kind=NotionKind.BUTTON, name="Shell"), amount=60.0))
        at = stash.ledger.history("K7F2QQ")[0].at

        assert minute(at, METRIC) == "2026-03-03 23:00"
        assert bin_account(stash, "K7F2QQ")[0].why.values["on"] == "2026-03-03"


def test_the_clock_of_a_record_is_the_one_of_this_computer():
    """Its hour, and what that is off UTC, so that no moment is in doubt."""
    now = Hand().clock()
    assert now.utcoffset() == datetime.now().astimezone().utcoffset()
