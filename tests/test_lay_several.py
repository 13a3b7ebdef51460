"""Several cuts at once, and which garments go first when not all of them fit."""

from __future__ import annotations

from stash.lay import Budget, LayTask, Verdict, check, largest_set, over_cuts
from stash.model import Outline, Piece

BUDGET = Budget(iterations=30)


def rectangle(name: str, length: float, width: float, **given) -> Piece:
    """A rectangular piece."""
    return Piece(
        name=name, outline_mm=((0, 0), (length, 0), (length, width), (0, width)), **given
    )


def test_the_remnant_is_filled_first_and_the_cut_takes_the_rest():
    """Two pockets go on the remnant; the leg, too long for it, on the cut."""
    pieces = (rectangle("leg", 900, 300), rectangle("pocket", 150, 150, quantity=2))
    remnant, cut = Outline.rectangle(320, 200), Outline.rectangle(1000, 400)
    spread = over_cuts(LayTask(pieces=pieces), (remnant, cut), BUDGET)
    assert [[p.piece for p in lay.placements] for lay in spread.lays] == [
        ["pocket#1", "pocket#2"], ["leg#1"],
    ]
    assert spread.left_out == ()
    for task, lay in zip(spread.tasks, spread.lays, strict=True):
        assert check(task, lay) == []


def test_what_fits_nowhere_is_named():
    """The leg fits neither cut; the remnant that takes nothing has no lay."""
    pieces = (rectangle("leg", 900, 300), rectangle("pocket", 150, 150))
    spread = over_cuts(
        LayTask(pieces=pieces), (Outline.rectangle(100, 100), Outline.rectangle(300, 200)), BUDGET
    )
    assert spread.lays[0] is None
    assert [p.name for p in spread.left_out] == ["leg"]


GARMENTS = {
    "trousers": (rectangle("trouser leg", 1000, 400, quantity=2),),
    "shirt": (rectangle("shirt back", 700, 500), rectangle("shirt front", 700, 300, quantity=2)),
    "shorts": (rectangle("shorts leg", 450, 400, quantity=2),),
}


def test_two_of_three_garments_come_out_the_most_important_first():
    """1.5 m of 140 cm holds trousers and shorts, not the shirt as well."""
    task = LayTask(pieces=(), cloth=Outline.rectangle(1500, 1000))
    names, answer = largest_set(GARMENTS, task, BUDGET)
    assert names == ("trousers", "shorts")
    assert answer.verdict is Verdict.FITS


def test_all_of_them_when_there_is_cloth_enough():
    """Nothing is left out without need."""
    task = LayTask(pieces=(), cloth=Outline.rectangle(2500, 1400))
    assert largest_set(GARMENTS, task, BUDGET)[0] == ("trousers", "shirt", "shorts")


def test_none_of_them_when_even_one_is_too_much():
    """The last refusal says why."""
    task = LayTask(pieces=(), cloth=Outline.rectangle(300, 300))
    names, answer = largest_set(GARMENTS, task, BUDGET)
    assert names == ()
    assert answer.verdict is Verdict.IMPOSSIBLE
