"""Labels in trouble: what the cascade reads that no single decoder does.

Frames come from the bench's own scenes, a few seeds of each; the rates are in
docs/scanning.md.
"""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest

from labels.camera import newcomers, sights
from labels.reading import Thoroughness, decoders, look
from labels.reading.cascade import as_grey


@pytest.fixture(scope="module")
def scenes():
    """The bench's scenes, loaded from their file: tests/ is no package."""
    path = Path(__file__).parent / "bench" / "scan_scenes.py"
    spec = importlib.util.spec_from_file_location("scan_scenes", path)
    module = importlib.util.module_from_spec(spec)
    sys.modules["scan_scenes"] = module
    spec.loader.exec_module(module)
    yield module
    del sys.modules["scan_scenes"]


def rate(scenes, frames: int, effort: Thoroughness = Thoroughness.FULL, **trouble) -> float:
    """Share of frames whose label is read."""
    made = [scenes.frame(scenes.Scene(**trouble), 77_000 + n) for n in range(frames)]
    return sum([r.code for r in look(image, effort).readings] == [code]
               for image, code in made) / frames


def test_a_label_round_a_bolt_over_a_quarter_turn_is_unrolled(scenes):
    """90 degrees of arc: zxing-cpp alone reads hardly any, the cascade at least every second."""
    made = [scenes.frame(scenes.Scene(arc_deg=90), 77_000 + n) for n in range(8)]
    plain = sum(bool(decoders.zxing(as_grey(image))) for image, _ in made)

    assert plain <= 2
    assert rate(scenes, 8, arc_deg=90) >= 0.5


@pytest.mark.parametrize(
    "trouble",
    [{"ppm": 2.0}, {"tilt_deg": 50}, {"crease_deg": 40}, {"noise": 40}, {"light": 0.08},
     {"contrast": 0.25}, {"thread": 1.0}, {"pin": 1.4}, {"finder": 0.5}, {"tape": 0.1},
     {"jpeg": 15}, {"blur": 0.4}, {"motion": 1.0}, {"shadow": 0.7}, {"glare": 0.1}],
    ids=lambda t: " ".join(f"{k} {v}" for k, v in t.items()),
)
def test_trouble_of_middling_strength_is_mastered(scenes, trouble):
    """At least five of six frames."""
    assert rate(scenes, 6, **trouble) >= 5 / 6


def test_a_lost_eye_is_painted_in_whichever_of_the_three_it_is(scenes):
    """A finder pattern half gone: eight frames, the corner differs from frame to frame."""
    assert rate(scenes, 8, finder=0.5) >= 7 / 8


def test_video_frames_get_by_with_the_quick_part(scenes):
    """Dim and noisy frames, as a webcam gives them."""
    assert rate(scenes, 6, Thoroughness.FAST, light=0.15, noise=10) >= 5 / 6


def test_a_bent_label_held_before_the_camera_is_read_within_a_few_frames(scenes):
    """Round a bolt over a quarter turn: too much for the quick part, not for every sixth frame."""
    image, code = scenes.frame(scenes.Scene(arc_deg=90), 77_003)

    assert [r.code for r in newcomers(sights([image] * 12))] == [code]


def test_frames_without_a_label_give_none(scenes):
    """Every kind of empty frame, cloth only."""
    for n, scene in enumerate(scenes.BLANKS * 2):
        assert look(scenes.frame(scene, 88_000 + n)[0]).readings == ()
