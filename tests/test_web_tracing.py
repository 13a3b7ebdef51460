"""A traced outline corrected without scripts: its points as numbers, one a line."""

import pytest

from stash.errors import InvalidInput
from web.pages.tracing import TracedPhotos, TracedShape, _ring

SQUARE = ((0.0, 0.0), (100.04, 0.0), (100.04, 80.0), (0.0, 80.0))


def ring_of(web_client, **typed):
    """What the form of one traced square gives."""
    traced = TracedPhotos(shapes=(TracedShape(ring_mm=SQUARE, error_mm=0.5),))
    with web_client.application.test_request_context(method="POST", data=typed):
        return _ring(0, traced)


def test_points_that_were_not_touched_stay_exact(web_client):
    """They are shown to a tenth of a millimetre; the record keeps the hundredth."""
    shown = TracedShape(ring_mm=SQUARE, error_mm=0.5).points

    assert ring_of(web_client, **{"points-0": shown.replace("\n", "\r\n")}) == SQUARE


@pytest.mark.parametrize("typed", ["0 0\n120 0\n120 80\n0 80", "0;0\n120,0;0\n120 80,0\n\n0 80\n"])
def test_points_are_corrected_as_numbers(web_client, typed):
    """A comma is a decimal point, an empty line nothing."""
    ring = ring_of(web_client, **{"points-0": typed})

    assert sorted(ring) == [(0, 0), (0, 80), (120, 0), (120, 80)]


@pytest.mark.parametrize("typed", ["0 0\nmuch", "1 2 3\n4 5 6\n7 8 9"])
def test_what_is_no_point_is_refused(web_client, typed):
    """In one sentence, about the field."""
    with pytest.raises(InvalidInput) as refused:
        ring_of(web_client, **{"points-0": typed})
    assert refused.value.field == "points-0"
