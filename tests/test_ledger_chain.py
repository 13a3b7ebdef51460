"""Events are chained by checksum: an altered or lost one is found and named."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.ledger import Event, Kind
from stash.ledger.chain import BEGINNING, Break, Broken, broken, checksum


def chain(count):
    """Events 1 to ``count``, each linked to the one before."""
    events, before = [], BEGINNING
    for number in range(1, count + 1):
        event = Event(
            id=number, at=f"2026-03-01T09:{number:02d}:00.000+00:00", kind=Kind.CUT_OFF,
            code="K7MN4P", change={"K7MN4P": {"length_mm": 1 / number, "é": [None, True]}},
        )
        before = checksum(before, event)
        events.append(replace(event, checksum=before))
    return events


def test_a_chain_that_nobody_touched_holds():
    """Nothing is said of it, nor of an empty one."""
    assert list(broken(chain(20), newest=20)) == []
    assert list(broken([], newest=0)) == []


@pytest.mark.parametrize("change", [
    {"at": "2026-03-02T09:00:00.000+00:00"}, {"kind": Kind.TAKE}, {"code": "AAAAAA"},
    {"change": {}}, {"who": "somebody"}, {"device": "other"}, {"token": "t"}, {"undoes": 1},
    {"checksum": "0" * 64},
])
def test_whatever_is_altered_in_an_event_is_found(change):
    """Each field counts, and only the altered event is named, not all that follow it."""
    events = chain(9)
    events[4] = replace(events[4], **change)

    found = [b.first for b in broken(events)]

    assert found[0] == 5
    assert set(found) <= {5, 6}  # a new checksum no longer fits what follows either


@given(st.integers(1, 12), st.integers(1, 12))
def test_events_taken_out_are_named(first, last):
    """In the middle, at the beginning, and at the end, where the highest number is known."""
    first, last = sorted((first, last))
    left = [e for e in chain(12) if not first <= e.id <= last]

    assert list(broken(left, newest=12)) == [Broken(Break.MISSING, first, last)]


def test_the_checksum_is_sha_256_over_json():
    """It can be worked out without Lengthwise (FIPS 180-4, RFC 8259)."""
    import hashlib

    event = Event(id=1, at="t", kind=Kind.PUT, code="c", change={"c": {"b": 2, "a": 1}})
    text = '["",1,"t","put","c",{"c":{"a":1,"b":2}},"","",null,null]'

    assert checksum("", event) == hashlib.sha256(text.encode()).hexdigest()
