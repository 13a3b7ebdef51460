"""Many garments over many cuts: as many as come out, and proven only when it is."""

from __future__ import annotations

import pytest

from stash.lay import LayTask, check
from stash.match.fit.question import Effort, Question
from stash.match.gather import DraftedGarment
from stash.match.notions.allocation import missing, promise, promised
from stash.match.notions.wanted import Wanted
from stash.match.order import Order
from stash.match.sharing.share import share
from stash.model import Bin, Cloth, Construction, Cut, Need, Notion, NotionKind, Outline

CLOTH = Cloth(name="Middle", construction=Construction.WOVEN, mass_gsm=200)
QUICK = Effort(iterations=60)


def cut(code: str, length_mm: float, width_mm: float = 1400.0) -> Cut:
    """A washed plain length that suits trousers and shirts alike."""
    return Cut(code=code, cloth=CLOTH, washed=True, outline=Outline.rectangle(length_mm, width_mm))


def garments(count: int) -> tuple[DraftedGarment, ...]:
    """Shorts, skirts and aprons for bodies of their own."""
    names = ("shorts", "a-line-skirt", "apron")
    return tuple(
        Order(garment=names[n % 3], person=f"P{n}", body="women", measurements_mm={
            "hip": 900.0 + 15 * n, "waist": 700.0 + 15 * n, "height": 1650.0}).drafted()
        for n in range(count)
    )


def test_eighteen_garments_come_out_of_eight_long_cuts():
    """More than three from a cut, every lay sound, and nothing left to prove."""
    question = Question(
        garments=garments(18), cuts=tuple(cut(f"C{n}", 3000.0) for n in range(8)))

    found = share(question, QUICK).assignment

    assert (len(found.made), found.unmade, found.proven) == (18, (), True)
    for option in found.chosen:
        assert check(LayTask(pieces=option.laid.pieces, cloth=option.laid.cloth),
                     option.laid.lay) == []


def test_no_garment_and_no_cut_is_used_twice():
    """An assignment can be carried out."""
    question = Question(
        garments=garments(9), cuts=tuple(cut(f"C{n}", 2500.0) for n in range(4)))

    chosen = share(question, QUICK).assignment.chosen

    assert len({o.cut for o in chosen}) == len(chosen)
    assert len({g for o in chosen for g in o.garments}) == sum(len(o.garments) for o in chosen)


def test_what_areas_leave_open_is_not_called_proven():
    """A cut whose area would hold one more, though no lay of it was found."""
    three = garments(3)
    alone = [share(Question(garments=(g,), cuts=(cut("ANY", 4000.0),)), QUICK) for g in three]
    need = max(a.assignment.chosen[0].laid.lay.length_mm for a in alone)
    question = Question(garments=three, cuts=(cut("TIGHT", need * 1.25),))

    found = share(question, QUICK).assignment

    assert found.unmade
    assert not found.proven


def test_what_the_areas_rule_out_is_proven():
    """One small cut cannot hold two pairs of shorts, whoever lays them."""
    two = (garments(1)[0], garments(4)[3])
    question = Question(garments=two, cuts=(cut("SMALL", 650.0),))

    found = share(question, QUICK).assignment

    assert len(found.unmade) >= 1
    assert found.proven


@pytest.mark.parametrize("needs", [30, 60])
def test_the_bins_of_dozens_of_garments_are_shared_out_and_it_ends(needs: int):
    """Thread for as many garments from half as many reels: none promised twice."""
    wanted = [
        Wanted(garment=f"g{n}", need=Need(
            kind=NotionKind.THREAD, why="all seams", length_mm=90_000.0 + 3_100.0 * (n % 7)))
        for n in range(needs)
    ]
    reels = [
        Bin(code=f"R{n}", amount=200_000.0 + 9_000.0 * n,
            notion=Notion(kind=NotionKind.THREAD, name=f"reel {n}"))
        for n in range(needs // 3)
    ]

    lines = promise(wanted, reels)

    taken = promised(lines)
    assert all(taken.get(reel.code, 0.0) <= reel.amount + 0.5 for reel in reels)
    assert len(missing(lines)) < needs / 2
