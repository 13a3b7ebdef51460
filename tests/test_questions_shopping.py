"""What must be bought, and the card that is carried to the shop."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pypdfium2
import pytest
from click.testing import CliRunner

from stash.fact import Fact, fact
from stash.match.shop.card import Card, ClothToBuy, NotionToBuy, swatch_said
from stash.match.shop.card_html import card_html
from stash.match.shop.card_pdf import card_pdf
from stash.match.shop.lengths import Length
from stash.model import Person
from stash.sentences import Reader, say
from stash.store import open_stash
from stash.units import System
from stash.workroom.questions.fitting import Asking
from stash.workroom.questions.orders import orders_for
from stash.workroom.questions.shop_json import shop_json
from stash.workroom.questions.shopping import Shop, ShopAnswer, ask_shop
from web.command import main

QUICK = Asking(seconds=0.5)
READER = Reader(System.METRIC)


def as_said(text: str) -> Fact:
    """A line that is said as it stands."""
    return fact("for_the_garments", garments=(text,))


CARD = Card(
    title="To buy for the tour",
    cloths=(ClothToBuy(
        what=as_said("shirt for Bram Okell"),
        lengths=(
            Length(width_mm=900, length_mm=None),
            Length(width_mm=1150, length_mm=2300, cost_minor=2990),
        ),
        notes=(fact("wash_is_added", along_pct=5.0, across_pct=3.0),),
        colours=(("Dune linen", "#c9b691"),),
    ),),
    notions=(
        NotionToBuy(what=as_said("7 buttons, 11.4 mm (18L)"), kind="button", count=7, size_mm=11.43,
                    colour="#c9b691", nearest=(as_said("Nearest: 3 of 15 mm (24L)."),)),
        NotionToBuy(what=as_said("71 cm of elastic, 25 mm wide"), kind="elastic", length_mm=710,
                    size_mm=25.0),
    ),
    currency="EUR",
)


@pytest.fixture
def stash(tmp_path: Path):
    """A child and nothing else."""
    with open_stash(tmp_path) as opened:
        opened.people.save(Person(
            name="Pip Okell", body="children",
            measurements_mm={"hip": 700.0, "waist": 600.0, "chest": 660.0, "height": 1310.0},
        ))
        yield opened


def test_an_empty_stash_buys_cloth_at_every_width_and_all_notions(stash):
    """Lengths go down as the bolt gets wider."""
    orders = orders_for(stash, ["shorts"], ["Pip Okell"])

    answer = ask_shop(stash, orders, Shop(widths_mm=(900.0, 1150.0, 1500.0)), QUICK)

    (cloth,) = answer.card.cloths
    bought = [row.length_mm for row in cloth.lengths]
    assert bought == sorted(bought, reverse=True)
    assert all(length % 100 == 0 for length in bought)
    assert {n.kind for n in answer.card.notions} == {"elastic", "thread"}


def test_each_length_holds_its_lay_once_washed(stash):
    """Bought, shrunk by 5 %, it is still at least as long as the lay."""
    orders = orders_for(stash, ["shorts"], ["Pip Okell"])

    answer = ask_shop(stash, orders, Shop(widths_mm=(1150.0, 1500.0)), QUICK)

    for row in answer.card.cloths[0].lengths:
        assert row.length_mm * 0.95 >= row.lay_mm - 0.5


def test_two_garments_are_also_priced_as_one_length(stash):
    """One bolt for both, beside each alone; together never more than apart."""
    orders = orders_for(stash, ["shorts", "shirt"], ["Pip Okell", "Pip Okell"])

    answer = ask_shop(stash, orders, Shop(widths_mm=(1500.0,)), QUICK)

    shorts, shirt, both = answer.card.cloths
    assert [say(one.what, READER) for one in (shorts, shirt, both)] == [
        "shorts for Pip Okell", "shirt for Pip Okell", "shorts and shirt for Pip Okell"
    ]
    apart = shorts.lengths[0].lay_mm + shirt.lengths[0].lay_mm
    assert both.lengths[0].lay_mm <= apart * 1.02


def test_the_json_has_the_shape_other_programs_read():
    """``{"buy": [{"what", "lengths": [{"width_mm", "length_mm"}], "count", "size_mm"}]}``."""
    buy = shop_json(ShopAnswer(card=CARD), READER)["buy"]

    assert all(line.keys() >= {"what", "lengths", "count", "size_mm"} for line in buy)
    assert buy[0]["lengths"][1]["length_mm"] == 2300
    assert (buy[1]["count"], buy[1]["size_mm"]) == (7, 11.43)


def as_read(page: str) -> str:
    """The card with a space wherever a reader sees one, broken at or not."""
    return page.replace("\u00a0", " ")


def test_the_html_card_needs_no_network():
    """One file: nothing is fetched, linked or imported."""
    page = as_read(card_html(CARD, READER))

    assert not re.search(r"(src|href)\s*=|@import|url\(|https?:", page)
    assert "too narrow" in page
    assert "2.30 m" in page
    assert "29.90 EUR" in page


def test_the_card_speaks_the_persons_language():
    """In German no word of ours is left in English, and a price has its comma."""
    page = as_read(card_html(CARD, Reader(System.METRIC, "de")))

    for said in ("Stoff: ", "zu schmal", "29,90 EUR", "Kurzwaren", "Knopfloch", 'lang="de"'):
        assert said in page
    for english in ("bolt", "buy<", "costs", "across", "drawings"):
        assert english not in page.partition("</style>")[2]


def test_the_html_card_draws_buttons_in_millimetres_of_a_bank_card():
    """85.60 mm, ISO/IEC 7810 ID-1, makes the drawing true on any screen."""
    page = card_html(CARD, READER)

    assert "width:calc(11.43 * var(--mm))" in page
    assert "width:calc(85.6 * var(--mm))" in page


def test_names_cannot_smuggle_markup_into_the_card():
    """Escaped, whatever she calls her plan."""
    page = card_html(Card(title="<script>x</script>", cloths=(), notions=()), READER)

    assert "<script>x" not in page
    assert "&lt;script&gt;" in page


def test_the_pdf_card_draws_a_button_true_to_the_millimetre():
    """18 ligne are 11.43 mm (40 lignes are 1 inch), read back by PDFium.

    The bounds of a drawn shape hold its line; the tick boxes, 4 mm square, say how much.
    """
    pdf = pypdfium2.PdfDocument(card_pdf(CARD, READER))
    try:
        squares = sorted(
            (right - left) / 72 * 25.4
            for page in pdf
            for shape in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
            for left, bottom, right, top in [shape.get_bounds()]
            if abs((right - left) - (top - bottom)) < 0.1
        )
    finally:
        pdf.close()

    tick, *_, button = squares
    assert button - (tick - 4.0) == pytest.approx(11.43, abs=0.05)


def test_the_same_card_is_the_same_file():
    """No clock in it."""
    assert card_pdf(CARD, READER) == card_pdf(CARD, READER)


def test_letters_a_pdf_face_lacks_do_not_stop_the_card():
    """A name in another script is still a card."""
    card = Card(title="Þórunn, Łucja, 織", cloths=(), notions=())

    assert card_pdf(card, READER).startswith(b"%PDF")


def test_shop_saves_a_card_and_refuses_an_unknown_kind(stash, tmp_path: Path, tmp_path_factory):
    """HTML and PDF; anything else is said plainly and nothing is written."""
    cards = tmp_path_factory.mktemp("cards")

    def shop(name: str):
        return CliRunner().invoke(main, [
            "--data", str(tmp_path), "shop", "shorts", "--for", "Pip Okell", "--widths", "115cm",
            "--seconds", "0.5", "--card", str(cards / name), "--json",
        ])

    saved, refused = shop("card.html"), shop("card.docx")

    assert json.loads(saved.output)["buy"][0]["lengths"][0]["width_mm"] == 1150
    assert "shorts for Pip Okell" in (cards / "card.html").read_text()
    assert refused.exit_code == 1
    assert "FILE.html or FILE.pdf" in refused.output


def test_nothing_to_shop_for_is_one_sentence(tmp_path: Path):
    """No plan, no garment."""
    result = CliRunner().invoke(main, ["--data", str(tmp_path), "shop"])

    assert result.exit_code == 1
    assert result.output.strip() == (
        "There is no plan to shop for: name a garment or a plan."
    )


@pytest.mark.parametrize(("language", "said"), [
    ("en", "Dune linen: sand"), ("fr", "Dune linen\N{NO-BREAK SPACE}: sable"),
    ("de", "Dune linen: sand")])
def test_a_colour_to_match_is_told_by_its_name(language, said):
    """#c9b691 says nothing at a counter; as three figures it is the same colour's kin."""
    reader = Reader(System.METRIC, language)

    assert swatch_said("Dune linen", "#c9b691", reader) == said
    assert "#" not in swatch_said("Dune linen", "#cb9", reader)
