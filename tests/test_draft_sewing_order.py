"""Someone given only the printed pages can sew it: what each page says, over every garment."""

from __future__ import annotations

import io
from dataclasses import replace
from itertools import product

import pypdf
import pytest
import shapely
from shapely.geometry import box

from stash.draft.catalogue import about, draft, garments
from stash.draft.garment import Choice
from stash.draft.sewing_order import ORDERS, order_of_sewing
from stash.fact import fact
from stash.model import MarkKind, Pattern, Role
from stash.pattern.legend import edge_term
from stash.pattern.lettering import Style
from stash.pattern.seam_list import seam_lines
from stash.pattern.tiles import GLUE_MM, tile
from stash.pattern.wanted_list import wanted_lines
from stash.sentences import METRIC, say
from stash.sentences.quantities import written
from stash.sentences.translations import translated
from stash.sentences.wording.sewing_order import SENTENCES
from stash.workroom.drafts import title_of
from stash.workroom.pattern_files import content

WOMAN = {"bust": 940.0, "hip": 1020.0, "waist": 780.0}
LANGUAGES = ("en", "fr", "de")
DECIDES = {"waist", "top", "lining", "pockets", "sleeve", "skirt", "opening", "belt", "facing",
           "style", "closure", "edge", "cuff", "back", "handles", "heading", "ties"}


def ways(name: str) -> list[Pattern]:
    """A draft with every word of each choice that changes how it is sewn, one changed at a time,
    and the first two together.
    """
    choices = [o for o in about(name).options if isinstance(o, Choice) and o.name in DECIDES]
    picked: list[dict[str, object]] = [{}]
    picked += [{o.name: word} for o in choices for word in o.words[1:]]
    picked += [{a.name: x, b.name: y} for a, b in zip(choices, choices[1:], strict=False)
               for x, y in product(a.words[1:], b.words[1:])]
    return [draft(name, WOMAN, chosen, "women") for chosen in picked]


def test_every_garment_has_an_order_of_sewing():
    """Every step is one of some garment's, and is said in the three languages."""
    assert set(ORDERS) == set(garments())
    kinds = {kind for kind in SENTENCES if kind.startswith("sew_")}
    taken = {
        step.kind: step for name in garments() for pattern in ways_once(name)
        for step in order_of_sewing(pattern)
    }
    for kind in kinds:
        step = taken.get(kind, fact(kind))
        assert len({say(step, replace(METRIC, language=one)) for one in LANGUAGES}) == 3, kind

    # panel seams come of an alteration, a boxed base of its depth
    assert kinds == set(taken) | {"sew_panel_seams", "sew_boxed_base"}


_WAYS: dict[str, list[Pattern]] = {}


def ways_once(name: str) -> list[Pattern]:
    """The same, drawn once."""
    if name not in _WAYS:
        _WAYS[name] = ways(name)
    return _WAYS[name]


@pytest.mark.parametrize("name", garments())
def test_the_steps_are_of_what_the_garment_has(name):
    """Darts are sewn where there are darts, interfacing fused where there is some, linings put in
    where they are cut, a zip or elastic where it is needed; no step twice.
    """
    for pattern in ways_once(name):
        steps = [step.kind for step in order_of_sewing(pattern)]
        roles = {p.role for p in pattern.pieces}
        kinds = {need.kind.value for need in pattern.notions}

        assert len(steps) == len(set(steps)), steps
        assert ("sew_fuse" in steps) == (Role.INTERFACING in roles), pattern.options
        assert ("sew_lining" in steps) == (Role.LINING in roles), pattern.options
        if name not in {"cushion-cover", "wrap", "pillowcase", "curtain", "tote-bag"}:
            zips = {"sew_fly", "sew_back_zip", "sew_seams_and_zip", "sew_open_zip"}
            assert bool(zips & set(steps)) == ("zip" in kinds), pattern.options
            elastic = {"sew_casing", "sew_casing_band", "sew_elastic_cuffs"}
            assert bool(elastic & set(steps)) == ("elastic" in kinds), pattern.options


@pytest.mark.parametrize("name", garments())
def test_the_printed_pages_are_enough(name):
    """The first pages say the garment in words, the wearer, the day, every piece and how many of
    it, its allowance in figures, the order of sewing and every seam; each piece's own pages say
    its name again.
    """
    pattern = replace(draft(name, WOMAN, body="women"), wearer="Odile Farrant")
    pdf = pypdf.PdfReader(io.BytesIO(
        content(pattern, "a4.pdf", title_of(name), METRIC, "2025-03-01")))
    texts = [" ".join(page.extract_text().split()) for page in pdf.pages]

    assert title_of(name) in texts[0]
    assert "Odile Farrant · 2025-03-01" in texts[0]
    assert "50 mm (1.97 in)" in texts[0]
    assert all(p.name in texts[0] for p in pattern.pieces[:20])
    allowed = texts[0].split(pattern.pieces[0].name, 1)[1]
    assert "mm allowed" in allowed or "seams counted in" in allowed
    assert "The order of sewing" in texts[1]
    said = " ".join(texts[1:4])
    assert all(" ".join(line.edges.split()[:3]) in said for line in seam_lines(pattern, METRIC))
    tiles = " ".join(texts[2:])
    assert all(p.name in tiles for p in pattern.pieces)


@pytest.mark.parametrize("name", garments())
def test_the_steps_name_only_what_is_there(name):
    """Notches only where there are some, tops and sleeves by the notches they have; a hem is
    tried on by a person, never by a curtain.
    """
    for pattern in ways_once(name):
        steps = {step.kind for step in order_of_sewing(pattern)}
        pieces = {p.name: p for p in pattern.pieces}

        if "sew_prepare" in steps:
            assert any(p.notches_mm for p in pattern.pieces)
        if "sew_sleeves_flat" in steps:
            caps = [e for e in pieces["sleeve"].edges if e.name == "cap"]
            assert caps and caps[0].notches_mm and caps[0].double_notches_mm, pattern.options
        if "sew_sleeves_by_middle" in steps:
            assert pieces["sleeve"].on_fold
        if not about(name).measurements:
            assert "sew_hems" not in steps
        if "sew_patch_pocket" in steps:
            assert any(m.kind is MarkKind.POCKET for p in pattern.pieces for m in p.marks)
        if "sew_belt_loops" in steps:
            assert any(m.kind is MarkKind.PLACE for m in pieces["front"].marks)
    assert "sew_boxed_base" in {
        s.kind for s in order_of_sewing(draft("tote-bag", {}, {"depth": "10cm"}))}


@pytest.mark.parametrize("name", garments())
@pytest.mark.parametrize("form", ["letter.pdf", "a0.pdf"])
def test_the_paper_says_what_it_takes_and_how_it_is_sewn(name, form):
    """On pages and on the full sheet alike: for whom it is drawn, the cautions, every notion and
    every step, in whole words.
    """
    pattern = draft(name, WOMAN, body="women")
    pdf = pypdf.PdfReader(io.BytesIO(content(pattern, form, title_of(name), METRIC)))
    said = " ".join(" ".join(p.extract_text() for p in pdf.pages[:6]).split())

    for step in order_of_sewing(pattern):
        assert say(step, METRIC) in said
    for line in (*wanted_lines(pattern, METRIC), *pattern.cautions):
        assert " ".join(line.split()) in said
    if "hip" in about(name).measurements:
        assert "Drawn for:" in said and "hip 102 cm" in said


def test_no_seam_is_told_by_a_number():
    """A sewist calls no edge “side 2”: it is the other side, or a band's long edge."""
    for name in garments():
        for seam in seam_lines(draft(name, WOMAN, body="women"), METRIC):
            assert "side 2" not in seam.edges
    band = seam_lines(draft("straight-skirt", WOMAN), METRIC)
    assert {"front, waist – waistband, long edge", "back, waist – waistband, long edge"} <= {
        seam.edges for seam in band}


@pytest.mark.parametrize("name", garments())
def test_every_edge_is_said_in_every_language(name):
    """Not one edge of a draft is left in English: neither in the seams nor in the allowances."""
    alike = {("fr", "point"), ("fr", "bord"), ("de", "Saum")}
    for pattern in ways_once(name):
        edges = {edge for p in pattern.pieces for edge, _ in p.allowances_mm}
        edges |= {edge for join in pattern.joins for _, edge in (join.a, join.b)}
        for edge in edges:
            for language in LANGUAGES[1:]:
                said = translated(edge_term(edge), language)
                assert said != str(edge_term(edge)) or (language, edge) in alike, (edge, language)


def test_no_word_is_cut_off_at_the_last_page():
    """Whatever a figure shows lies on pages that are printed, its words from end to end."""
    style = Style(half_on_fold=True, dimensions=False, complete=True, says="a shirt " * 6)
    for paper in ("a4", "letter"):
        tiling = tile(draft("yoke-shirt", WOMAN).pieces, paper, style)
        wide, tall = tiling.step_mm
        printed = shapely.union_all([
            box(t.left_mm, t.top_mm, t.left_mm + wide, t.top_mm + tall) for t in tiling.tiles])
        for figure in tiling.sheet.figures:
            assert all(printed.buffer(GLUE_MM).covers(w.spot) for w in figure.words)


def test_a_pattern_from_elsewhere_has_no_order():
    """Nobody knows how a traced piece is sewn."""
    traced = Pattern(garment="hers", pieces=draft("apron", WOMAN).pieces)

    assert order_of_sewing(traced) == ()


@pytest.mark.parametrize("name", garments())
def test_a_rectangle_need_not_be_printed(name):
    """The first page says how large each is cut, along the grain and across, and that it may be
    chalked by that; nothing is written over the square to measure.
    """
    pattern = draft(name, WOMAN, body="women")
    page = pypdf.PdfReader(io.BytesIO(content(pattern, "a4.pdf", title_of(name), METRIC))).pages[0]
    said, heights = " ".join(page.extract_text().split()), {}
    page.extract_text(visitor_text=lambda text, _cm, tm, _font, _size: heights.update(
        {text.strip(): tm[5]}))
    oblong = [p for p in pattern.pieces if rectangle(p)]

    assert ("is a rectangle" in said) == bool(oblong)
    for piece in oblong:
        along, across = (max(xs) - min(xs) for xs in zip(*piece.outline_mm, strict=True))
        sizes = [written("measure_mm", mm, METRIC) for mm in (along, across)]
        assert f"{sizes[0]} along the grain × {sizes[1]} across" in said, piece.name
    steps = [y for text, y in heights.items() if text[:2] in ("1.", "2.", "3.", "4.", "5.", "6.")]
    square = heights["This square must be"] + 24 * 72 / 25.4
    assert len(steps) >= 4 and min(steps) > square


def rectangle(piece) -> bool:
    """Four sides along the thread."""
    shape = shapely.Polygon(piece.outline_mm)
    return not piece.grain_turn_deg and abs(shape.area - shape.envelope.area) < 1


def test_a_vent_is_sewn_and_marked_where_it_folds():
    """A straight skirt has one with a zip and with elastic; an A-line has none."""
    for options in ({}, {"waist": "elastic"}):
        skirt = draft("straight-skirt", WOMAN, options, "women")
        back = next(p for p in skirt.pieces if p.name == "back")

        assert "sew_vent" in {s.kind for s in order_of_sewing(skirt)}
        assert MarkKind.CENTRE in {m.kind for m in back.marks}
    assert "sew_vent" not in {
        s.kind for s in order_of_sewing(draft("a-line-skirt", WOMAN, body="women"))}


def test_a_buttoned_slit_goes_through_its_facing():
    """The facing bears the mark, and the order says what becomes of its ends."""
    shirt = draft("nightshirt", WOMAN, {"opening": "buttons", "facing": "facing"}, "women")
    facing = next(p for p in shirt.pieces if p.name == "front facing")
    steps = [s.kind for s in order_of_sewing(shirt)]

    assert MarkKind.SLIT in {m.kind for m in facing.marks}
    assert steps.index("sew_facing_ends") < steps.index("sew_neck_facing")


@pytest.mark.parametrize("heading", ["casing", "tape", "tabs"])
def test_a_curtain_cut_to_size_says_how_far_everything_is_turned(heading):
    """What is turned at the top and at the foot is what was added to the finished drop; a lining
    is shorter by the hem.
    """
    chosen = {"heading": heading, "lining": "full", "hem": "12cm", "seam": "2cm"}
    curtain = draft("curtain", {}, chosen)
    turned = {s.kind: dict(s.values) for s in order_of_sewing(curtain)}
    long = {p.name: max(x for x, _ in p.outline_mm) for p in curtain.pieces}
    top = turned[f"sew_curtain_{heading}"]

    assert turned["sew_curtain_hem"]["hem_small_mm"] == 120.0
    over = {
        "casing": lambda: top["turn_small_mm"] + top["down_small_mm"] + top["header_small_mm"],
        "tape": lambda: top["down_small_mm"], "tabs": lambda: top["seam_small_mm"],
    }[heading]()
    assert long["drop"] == pytest.approx(1400.0 + over + 120.0)
    assert long["lining drop"] == pytest.approx(long["drop"] - 120.0)
