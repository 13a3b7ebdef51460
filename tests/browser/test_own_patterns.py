"""Patterns of her own that were typed or drawn elsewhere, set right on their page by pointing."""

import io

import ezdxf
import pytest
from playwright.sync_api import expect

from stash.model import MarkKind, NotionKind, Part, Person, Piece, Role

pytestmark = pytest.mark.browser

SIZES = ("38", "40", "42")
GIRTHS = "38: bust 84 cm, hip 92 cm\n40: bust 96 cm, hip 104 cm\n42: bust 110 cm, hip 118 cm"
LONG, WIDE, SLEEVE = 600.0, 200.0, (300.0, 180.0)


def half_and_sleeve(n: int) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Half a back, its centre the straight left edge, and a sleeve drawn lying across."""
    x, y, wide = 50.0, 20.0, WIDE + 10 * n
    back = [(x, y), (x + wide - 40, y), (x + wide, y + 200), (x + wide, y + LONG), (x, y + LONG)]
    x = 400.0
    long, high = SLEEVE[0] + 10 * n, SLEEVE[1] + 10 * n
    return back, [(x, y), (x + long, y), (x + long, y + high), (x, y + high - 30)]


def as_svg() -> bytes:
    """Three sizes, each on a layer of its own, in millimetres."""
    layers = "".join(
        f'<g id="{size}">' + "".join(
            f'<path id="{name}" d="M{" L".join(f"{x} {y}" for x, y in ring)} Z"/>'
            for name, ring in zip(("back", "sleeve"), half_and_sleeve(n), strict=True)) + "</g>"
        for n, size in enumerate(SIZES))
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="700mm" '
            f'viewBox="0 0 900 700">{layers}</svg>').encode()


def as_dxf() -> bytes:
    """The same, each size on a layer; where no grain is drawn it runs along x."""
    document = ezdxf.new("R2000", setup=True)
    document.header["$INSUNITS"] = 4
    for n, size in enumerate(SIZES):
        for ring in half_and_sleeve(n):
            document.modelspace().add_lwpolyline(
                [(y, x) for x, y in ring], close=True, dxfattribs={"layer": f"SIZE_{size}"})
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


@pytest.fixture
def phone(open_page):
    """A page in one hand; an error in its script fails the test."""
    opened, errors = open_page("phone"), []
    opened.on("pageerror", lambda error: errors.append(str(error)))
    yield opened
    assert errors == []


@pytest.fixture
def her(record):
    """Somebody on record whose bust and hip are nearest to the middle size."""
    record.people.save(Person(name="Size Middle", measurements_mm={"bust": 950.0, "hip": 1030.0}))
    return "Size Middle"


def imported(page, address: str, file: str, content: bytes, name: str, whom: str) -> None:
    """The form of the patterns' page, the size left to her measures."""
    page.goto(f"{address}/patterns/")
    page.get_by_label("SVG or DXF").set_input_files(
        {"name": file, "mimeType": "application/octet-stream", "buffer": content})
    form = page.locator("form", has=page.get_by_label("SVG or DXF"))
    form.get_by_label("Name", exact=True).fill(name)
    form.get_by_text("Several sizes in one drawing").click()
    form.get_by_label("or the one nearest to").select_option(whom)
    form.get_by_label("Whom each size is for, a line each").fill(GIRTHS)
    form.get_by_role("button", name="Import").click()
    expect(page.get_by_role("heading", name=name, level=1)).to_be_visible()


def tap(page, n: int, what: str, right: float, down: float, version: int) -> None:
    """Points at a place of piece n, in shares of its drawing, and waits for the new version."""
    page.wait_for_load_state()
    card = page.locator(f"#piece-{n}")
    if not card.is_visible():
        page.get_by_text("Point at the drawing").click()
    card.get_by_label(what).check()
    picture = card.locator('input[type="image"]')
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    picture.click(position={"x": 14 + right * (box["width"] - 28),
                            "y": 14 + down * (box["height"] - 28)})
    expect(page.get_by_text(f"version {version}").first).to_be_visible()


def upright(piece: Piece) -> tuple[float, float]:
    """How long along the grain and how wide across."""
    xs, ys = zip(*piece.outline_mm, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


@pytest.mark.parametrize(("file", "content"), [("tide.svg", as_svg()), ("tide.dxf", as_dxf())])
def test_a_drawing_of_several_sizes_becomes_her_pattern(
    phone, loft, record, her, fits, file, content
):
    """The size nearest to her measures; the half opened out at its fold, the lying piece turned,
    its notch, length line and place pointed at; all else said in one form.
    """
    page, name = phone, f"Tide top {file}"
    imported(page, loft[0], file, content, name, her)
    expect(page.get_by_text(f"Size 40 was taken for {her}")).to_be_visible()
    pieces = record.patterns.get(name).pieces
    back = next(n for n, p in enumerate(pieces) if max(upright(p)) > 500)
    sleeve = 1 - back
    assert upright(pieces[back]) == pytest.approx((LONG, WIDE + 10), abs=0.2)

    tap(page, back, "the fold of a half", 0.02, 0.6, 2)
    opened = record.patterns.get(name).pieces[back]
    assert opened.on_fold and upright(opened) == pytest.approx((LONG, 2 * WIDE + 20), abs=0.4)
    tap(page, sleeve, "an edge along which the grain runs", 0.5, 0.01, 3)
    turned = record.patterns.get(name).pieces[sleeve]
    assert upright(turned) == pytest.approx((SLEEVE[0] + 10, SLEEVE[1] + 10), abs=0.4)
    tap(page, back, "where it may be lengthened", 0.5, 0.5, 4)
    tap(page, back, "a notch on the edge", 0.98, 0.7, 5)
    tap(page, back, "a place to mark", 0.3, 0.3, 6)
    fits(page)

    page.get_by_text("Set it right", exact=True).click()
    form = page.locator("form", has=page.get_by_label("Made for"))
    form.get_by_label("Made for").fill(her)
    form.get_by_label("Cloth", exact=True).select_option("woven")
    form.get_by_label("Cloth weight in g/m², from-to").fill("80-260")
    form.get_by_label("Direction of the cloth").select_option("one-way")
    form.get_by_label("One more notion").first.select_option("button")
    form.get_by_label("How many, or how long").first.fill("5")
    form.get_by_label("Of which size").first.fill("15 mm")
    form.get_by_label("Cautions, a line each").fill("Small parts")
    form.locator(f"#f-name-{back}").fill("back")
    form.locator(f"#f-part-{back}").select_option("back")
    form.locator(f"#f-allowed-{back}").select_option("add")
    form.locator(f"#f-allowance-{back}").fill("1.5 cm")
    form.locator(f"#f-most-{back}").fill("6 cm")
    form.locator(f"#f-name-{sleeve}").fill("sleeve")
    form.locator(f"#f-part-{sleeve}").select_option("sleeve")
    form.locator(f"#f-role-{sleeve}").select_option("contrast")
    form.locator(f"#f-quantity-{sleeve}").fill("2")
    form.locator(f"#f-lie-{sleeve}").select_option("pair")
    form.get_by_role("button", name="Save as a new version").click()
    expect(page.get_by_text("version 7").first).to_be_visible()
    fits(page)

    kept = record.patterns.get(name)
    body, arm = kept.pieces[back], kept.pieces[sleeve]
    assert kept.wearer == her and kept.wants.mass_gsm == (80.0, 260.0)
    assert kept.cautions == ("Small parts",)
    assert (kept.notions[0].kind, kept.notions[0].count) == (NotionKind.BUTTON, 5)
    assert body.part is Part.BACK and body.length_most_mm == 60.0 and len(body.notches_mm) == 2
    assert upright(body) == pytest.approx((LONG + 30, 2 * WIDE + 20 + 30), abs=0.5)
    assert {MarkKind.PLACE, MarkKind.LENGTHEN} <= {m.kind for m in body.marks}
    assert arm.part is Part.SLEEVE and arm.role is Role.CONTRAST
    assert arm.mirrored_pair and arm.quantity == 2 and arm.turns_deg == (0.0,)


def test_typed_pieces_are_set_right_where_they_are_drawn(phone, loft, record, fits):
    """A half that was typed as a whole is opened out, a notch set and taken off again, the outline
    corrected by numbers; each a version of its own, the last undone.
    """
    page, name = phone, "Typed tide"
    page.goto(f"{loft[0]}/patterns/")
    page.get_by_text("Type the pieces").click()
    page.get_by_label("Name of the pattern").fill(name)
    for field, typed in (("piece", "back"), ("length", "60"), ("width", "16-20-20")):
        page.locator(f"#f-{field}-0").fill(typed)
    page.get_by_role("button", name="Save the pattern").click()
    expect(page.get_by_role("heading", name=name, level=1)).to_be_visible()
    (drawn,) = record.patterns.get(name).pieces
    tap(page, 0, "the fold of a half", 0.02 if straight_left(drawn) else 0.98, 0.7, 2)
    (opened,) = record.patterns.get(name).pieces
    assert opened.on_fold and upright(opened)[1] == pytest.approx(400, abs=0.5)

    tap(page, 0, "a notch on the edge", 0.98, 0.7, 3)
    assert len(record.patterns.get(name).pieces[0].notches_mm) == 2
    tap(page, 0, "a notch to take off", 0.98, 0.7, 4)
    assert record.patterns.get(name).pieces[0].notches_mm == ()
    card = page.locator("#piece-0")
    card.get_by_text("Type the place instead").click()
    card.get_by_label("where it may be lengthened").check()
    card.get_by_label("Down from its top").fill("30 cm")
    card.get_by_role("button", name="Set it right there").click()
    expect(page.get_by_text("version 5").first).to_be_visible()
    fits(page)

    assert MarkKind.LENGTHEN in {m.kind for m in record.patterns.get(name).pieces[0].marks}
    page.get_by_role("button", name="Undo").first.click()
    expect(page.get_by_text("version 4").first).to_be_visible()
    assert MarkKind.LENGTHEN not in {m.kind for m in record.patterns.get(name).pieces[0].marks}


def straight_left(piece: Piece) -> bool:
    """Its left edge runs straight from top to foot."""
    least = min(y for _, y in piece.outline_mm)
    return sum(abs(y - least) < 0.5 for _, y in piece.outline_mm) >= 2
