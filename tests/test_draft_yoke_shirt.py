"""The shirt with a yoke, a collar on a stand and cuffs, over every body of the tables."""

from __future__ import annotations

from functools import cache
from math import atan2, degrees

import pytest
from bodies_of_tables import varied

from stash.draft import yoke_shirt
from stash.draft.body import complete
from stash.draft.catalogue import draft
from stash.draft.geometry import distance, length
from stash.draft.yoke import yoke_down_mm
from stash.model import MarkKind, NotionKind
from stash.notions.buttons import best_count, respace

INCH = 25.4


def drawn(measured, kind, **options):
    """The lines before allowances, and the completed body."""
    body = complete(measured, yoke_shirt.ESTIMATES, kind)
    return yoke_shirt.draw(body, yoke_shirt.GARMENT.read_options(options)), body


@cache
def all_drawn():
    """Every body of the tables with its lines, drawn once."""
    return [(measured, kind, *drawn(measured, kind)) for measured, kind in varied(60, ("bust",))]


def test_the_yoke_line_is_baldts():
    """L. I. Baldt, Clothing for Women (1916), Fig. 45 (public domain; the number computed): on a
    back length of 16 in the yoke ends 4 3/4 in below the nape.
    """
    assert yoke_down_mm(16 * INCH, 1.0) == pytest.approx(4.75 * INCH)


def test_collar_and_stand_fit_the_neck():
    """The stand is as long as the neck and the bands, the neck as long as the body's and 2 cm; the
    fall is as long as the stand's upper edge: each to a millimetre.
    """
    for measured, kind, lines, body in all_drawn():
        size = lines.bodice.size
        assert 2 * lines.neck_mm == pytest.approx(body["neck_base"] + 20 * size, abs=1), measured
        assert length(lines.stand.neck) == pytest.approx(lines.neck_mm + 17.5, abs=1), kind
        pattern = draft("yoke-shirt", measured, body=kind)
        fall = next(j for j in pattern.joins if j.a == ("collar", "neck"))
        assert fall.ease_mm == pytest.approx(0, abs=0.5)


def test_the_yoke_fits_back_and_front():
    """Its front edge is the front's line, its back edge the back's to a tenth of a millimetre,
    the armhole trued to it, square to the centre back.
    """
    for measured, kind, lines, _ in all_drawn():
        yoke = lines.yoke
        assert length(yoke.forward) == pytest.approx(length(yoke.front_top), abs=0.1), measured
        assert length(yoke.back_top) == pytest.approx(length(yoke.lower), abs=0.1), (measured, kind)
        assert distance(yoke.armhole[-1], yoke.lower[0]) < 0.01
        assert square(yoke.lower[-2], yoke.lower[-1], yoke.neck[0]) == pytest.approx(90, abs=0.1)


def square(a, b, c) -> float:
    """The angle at b."""
    first = atan2(a[1] - b[1], a[0] - b[0]) - atan2(c[1] - b[1], c[0] - b[0])
    return abs((degrees(first) + 180) % 360 - 180)


def test_the_cap_fits_the_armhole_over_the_yoke():
    """1 cm of ease in all, half behind the shoulder and half before it."""
    for measured, kind, lines, body in all_drawn():
        behind, before = lines.armholes_mm
        assert length(lines.sleeve.back_cap) == pytest.approx(behind + 5, abs=0.5), measured
        assert length(lines.sleeve.front_cap) == pytest.approx(before + 5, abs=0.5), kind
        assert lines.sleeve.girth_mm >= body["upper_arm"] + 50


def test_the_sleeve_goes_into_the_cuff():
    """With its pleats laid and its laps sewn on, the lower edge is as long as the cuff; buttoned,
    the cuff goes round the wrist with 5 cm to spare (less on a child).
    """
    for measured, _kind, lines, body in all_drawn():
        cuff = lines.cuff
        assert length(lines.sleeve.hem) == pytest.approx(cuff.hem, abs=0.5), measured
        assert cuff.hem - cuff.taken + cuff.laps == pytest.approx(cuff.long, abs=0.01)
        closed = cuff.long - 2 * 15 * cuff.size
        assert closed == pytest.approx(body["wrist"] + 50 * cuff.size, abs=0.1)
        assert sum(cuff.pleats) == pytest.approx(cuff.taken)


def test_the_placket_is_ingalls():
    """C. Ingalls, Text-Book on Domestic Art (1911), Shirt Waist Sleeve (public domain): an under
    lap 1/2 in finished with 1/4 in seams, an over lap an inch longer at its point.
    """
    pattern = draft("yoke-shirt", {"bust": 980}, body="men")
    under, over = (next(p for p in pattern.pieces if p.name == n) for n in ("under lap",
                                                                            "over lap"))

    assert max(y for _, y in under.stitch_mm) == pytest.approx(2 * INCH / 2)
    assert dict(under.allowances_mm)["side"] == pytest.approx(INCH / 4)
    slit = max(x for x, _ in under.stitch_mm)
    assert max(x for x, _ in over.stitch_mm) >= slit + INCH - 1


def test_every_button_is_counted():
    """The front's by its spacing, one on the stand, on each sleeve one on the cuff and one on the
    placket; all have holes, and those on the bands lie where they are respaced.
    """
    pattern = draft("yoke-shirt", {"bust": 920}, body="women")
    front, loose = (n for n in pattern.notions if n.kind is NotionKind.BUTTON)
    band = next(p for p in pattern.pieces if p.name == "button band")
    stand = next(p for p in pattern.pieces if p.name == "collar stand")

    assert front.count == best_count(pattern.closure)
    assert loose.count == 1 + 2 * 2
    places = [m.at_mm[0][0] for m in band.marks if m.kind is MarkKind.BUTTON]
    assert places == pytest.approx(respace(pattern.closure, front.count))
    assert len([m for m in stand.marks if m.kind is MarkKind.BUTTON]) == 1
    assert len([m for m in stand.marks if m.kind is MarkKind.BUTTONHOLE]) == 1


def test_a_pleated_back_is_only_wider():
    """The pleat takes in 5 cm across the back; the yoke it is sewn to stays the same."""
    plain, pleated = (
        draft("yoke-shirt", {"bust": 920}, {"back": b}, "women") for b in ("plain", "pleat")
    )

    def width(pattern, name):
        piece = next(p for p in pattern.pieces if p.name == name)
        return max(y for _, y in piece.stitch_mm) - min(y for _, y in piece.stitch_mm)

    assert width(pleated, "back") - width(plain, "back") == pytest.approx(50 * 920 / 950, abs=0.5)
    assert width(pleated, "yoke") == width(plain, "yoke")
    back = next(p for p in pleated.pieces if p.name == "back")
    assert {MarkKind.PLEAT_FOLD, MarkKind.PLEAT_TO} <= {m.kind for m in back.marks}
