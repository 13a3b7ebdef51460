"""The one page where everything that is known of a pattern is set right, field by field."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape

import pytest
from werkzeug.datastructures import MultiDict

from stash.model import Construction, MarkKind, NotionKind, Outline, Part, Piece, Role, Underlay
from stash.pattern.correcting import PieceChange, corrected
from stash.pattern.dxf_writing import write_dxf
from stash.pattern.typed import parse_typed
from stash.workroom import patterns
from web.question_form import asked as asked_for

BACK = Piece(name="back", outline_mm=((0, 0), (0, 200.0), (451.27, 260.0), (451.27, 0)),
             notches_mm=((451.27, 100.0),))
POCKET = Piece(name="pocket: left", outline_mm=((0, 0), (150, 0), (150, 130), (0, 130)))


SVG = (
    b'<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="500mm" viewBox="0 0 300 500">'
    b'<path id="back" d="M10 10H210L270 461.27H10z"/></svg>')
CAME_IN = {
    "typed": lambda: (parse_typed("back, 45.127cm x 23cm"),),
    "svg": lambda: patterns.read_pattern(SVG).pieces,
    "dxf": lambda: patterns.read_pattern(write_dxf([BACK])).pieces,
    "traced": lambda: (replace(BACK, under=Underlay(
        photo="0" * 20, corners_mm=((-40, 300), (500, 300), (-40, -40)))),),
}


@pytest.mark.parametrize("source", CAME_IN)
def test_however_it_came_in_every_field_is_set_on_one_page(web_client, web_stash, source):
    """Typed, SVG, DXF or traced: untouched nothing changes; then everything at once."""
    patterns.keep(web_stash, "Ferry top", CAME_IN[source](), source)
    before = web_stash.patterns.get("Ferry top").pieces[0]
    form = Form(web_client, "/patterns/own/Ferry top")
    assert form.send().status_code == 422

    answer = form.send(
        wearer="Odile", weight="90-200", stretch="5", direction="one-way", cautions="Steam only.",
        kind_new_0="button", amount_new_0="5", size_new_0="15 mm", name_0="centre back",
        part_0="back", role_0="contrast", fold_0="fold left", allowed_0="in",
        allowance_0="1 cm", line_0="20", most_0="6")
    assert answer.status_code == 303, answer.text
    made = web_stash.patterns.get("Ferry top")
    (back,) = made.pieces
    assert (made.wearer, made.cautions, made.wants.stretch_across_pct) == (
        "Odile", ("Steam only.",), 5)
    assert made.notions[0].count == 5 and back.turns_deg == (0.0,)
    assert (back.name, back.part, back.role) == ("centre back", Part.BACK, Role.CONTRAST)
    assert back.on_fold and back.length_most_mm == 60 and patterns.allowance_mm(back) == 10
    whole, half = Outline(back.outline_mm), Outline(before.outline_mm)
    assert whole.length_mm == pytest.approx(half.length_mm)
    assert whole.area_mm2 == pytest.approx(2 * half.area_mm2, rel=1e-4)
    assert (back.under is None) == (source != "traced")


@pytest.fixture
def page(web_client, web_stash):
    """The page of a pattern of two pieces, as a browser would send its form."""
    lined = corrected(BACK, PieceChange(lengthen_at_mm=201.234, allowance_mm=9.87))
    patterns.keep(web_stash, "Ferry top", (lined, POCKET), "typed")
    patterns.correct(web_stash, "Ferry top", patterns.PatternChange(
        wearer="Odile", mass_gsm=(90, 200), stretch_pct=12.5, cautions=("Press the yoke dry.",),
        needs=(patterns.parse_need("5 buttons 15 mm"), patterns.parse_need("1 zip 20 cm"))))
    return Form(web_client, "/patterns/own/Ferry top")


class Form:
    """The correcting form with every field as the page shows it."""

    def __init__(self, client, where):
        self.client, self.where = client, where

    def shown(self) -> dict[str, str]:
        """What a browser sends when nothing was touched."""
        text = self.client.get(self.where).text
        form = re.search(r'<form[^>]*/correct".*?</form>', text, re.S)[0]
        sent = {}
        for tag in re.findall(r"<input[^>]*>", form):
            said = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
            if said.get("type") != "checkbox":
                sent[said["name"]] = unescape(said.get("value", ""))
            elif "checked" in tag:
                sent[said["name"]] = "on"
        for name, inside in re.findall(r'<select[^>]*name="([^"]*)".*?>(.*?)</select>', form, re.S):
            chosen = re.search(r'<option value="([^"]*)"\s+selected', inside)
            sent[name] = chosen[1] if chosen else re.search(r'value="([^"]*)"', inside)[1]
        for name, inside in re.findall(r'<textarea[^>]*name="([^"]*)".*?>(.*?)</textarea>', form,
                                       re.S):
            sent[name] = unescape(inside)
        return sent

    def send(self, **changed):
        """The form sent with some fields typed otherwise; None takes a tick away."""
        sent = self.shown() | {key.replace("_", "-"): value for key, value in changed.items()}
        return self.client.post(f"{self.where}/correct",
                                data={k: v for k, v in sent.items() if v is not None})


def test_opening_and_saving_changes_nothing(page, web_stash):
    """Nothing is rounded, nothing taken for a change: there is nothing to set."""
    answer = page.send()

    assert answer.status_code == 422 and "what is to be different" in answer.text
    assert web_stash.patterns.kept("Ferry top").version == 2


def test_one_field_changed_leaves_every_other_exact(page, web_stash):
    """The line at 20.1234 cm and the allowance of 9.87 mm are shown in tenths and kept whole."""
    before = web_stash.patterns.get("Ferry top")
    assert page.send(wearer="Bram").status_code == 303
    after = web_stash.patterns.get("Ferry top")

    assert after.wearer == "Bram"
    assert (after.pieces, after.notions, after.wants) == (
        before.pieces, before.notions, before.wants)


@pytest.mark.parametrize(("typed", "found", "value"), [
    ({"cloth": ""}, lambda p: p.wants.constructions, tuple(Construction)),
    ({"cloth": "knit"}, lambda p: p.wants.constructions, (Construction.KNIT,)),
    ({"weight": ""}, lambda p: p.wants.mass_gsm, patterns.ANY_MASS_GSM),
    ({"weight": "100-150"}, lambda p: p.wants.mass_gsm, (100, 150)),
    ({"stretch": ""}, lambda p: p.wants.stretch_across_pct, 0),
    ({"direction": "one-way"}, lambda p: {piece.turns_deg for piece in p.pieces}, {(0.0,)}),
    ({"cautions": ""}, lambda p: p.cautions, ()),
    ({"need_0": None}, lambda p: [n.kind for n in p.notions], [NotionKind.ZIP]),
    ({"need_0": None, "need_1": None}, lambda p: p.notions, ()),
    ({"kind_new_0": "elastic", "amount_new_0": "90 cm", "size_new_0": "25 mm"},
     lambda p: (p.notions[2].kind, p.notions[2].length_mm, round(p.notions[2].size_mm[1])),
     (NotionKind.ELASTIC, 900, 25)),
    ({"name_0": "centre back"}, lambda p: p.pieces[0].name, "centre back"),
    ({"name_1": "pocket, right: top"}, lambda p: p.pieces[1].name, "pocket, right: top"),
    ({"part_1": "pocket"}, lambda p: p.pieces[1].part, Part.POCKET),
    ({"role_1": "lining"}, lambda p: p.pieces[1].role, Role.LINING),
    ({"quantity_1": "3"}, lambda p: p.pieces[1].quantity, 3),
    ({"lie_1": "pair"}, lambda p: (p.pieces[1].mirrored_pair, p.pieces[1].quantity), (True, 2)),
    ({"fold_1": "fold"}, lambda p: p.pieces[1].on_fold, True),
    ({"grain_1": "90"}, lambda p: Outline(p.pieces[1].outline_mm).length_mm, 130),
    ({"allowed_1": "add", "allowance_1": "1 cm"},
     lambda p: Outline(p.pieces[1].outline_mm).length_mm, 170),
    ({"allowed_1": "in", "allowance_1": "1 cm"},
     lambda p: (Outline(p.pieces[1].outline_mm).length_mm,
                Outline(p.pieces[1].stitch_mm).length_mm), (150, 130)),
    ({"allowed_1": "none"}, lambda p: p.pieces[1].stitch_mm == p.pieces[1].outline_mm, True),
    ({"allowed_0": "none"}, lambda p: Outline(p.pieces[0].outline_mm).width_mm, 260),
    ({"allowed_0": "add", "allowance_0": "15 mm"},
     lambda p: round(Outline(p.pieces[0].outline_mm).length_mm, 2), 481.27),
    ({"line_1": "7"}, lambda p: [m.at_mm[0][0] for m in p.pieces[1].marks], [70]),
    ({"most_0": "4 cm"}, lambda p: p.pieces[0].length_most_mm, 40),
    ({"line_0": ""}, lambda p: [m for m in p.pieces[0].marks if m.kind is MarkKind.LENGTHEN], []),
])
def test_every_field_sets_what_it_says(page, web_stash, typed, found, value):
    """And keeps a new version of it, with its undo."""
    answer = page.send(**typed)

    assert answer.status_code == 303, answer.text
    assert found(web_stash.patterns.get("Ferry top")) == value
    assert web_stash.patterns.kept("Ferry top").version == 3


@pytest.mark.parametrize("typed", [
    {"weight": "light"}, {"stretch": "a lot"}, {"quantity_1": "two"}, {"grain_1": "upwards"},
    {"allowed_1": "add"}, {"allowance_1": "1 cm"}, {"line_1": "3 m"}, {"most_1": "4 cm"},
    {"kind_new_0": "button"}, {"amount_new_0": "5"}, {"lie_1": "pair", "quantity_1": "3"},
    {"name_0": ""}, {"name_0": "pocket: left"},
])
def test_what_cannot_be_is_refused_and_everything_typed_stays(page, web_stash, typed):
    """One sentence, and the form as it was sent."""
    answer = page.send(**typed, wearer="Somebody else", need_1=None)

    assert answer.status_code == 422 and 'role="alert"' in answer.text
    assert web_stash.patterns.kept("Ferry top").version == 2
    form = re.search(r'<form[^>]*/correct".*?</form>', answer.text, re.S)[0]
    assert "Somebody else" in form
    assert re.search(r'name="need-0"[^>]*checked', form)
    assert not re.search(r'name="need-1"[^>]*checked', form)
    for key, value in typed.items():
        assert not value or value in unescape(form), key


def test_a_notch_is_taken_off_by_pointing(page, web_client, web_stash):
    """A tap on it, or its place typed; where there is none nothing is taken."""
    where = "/patterns/own/Ferry top/point-0"
    gone = web_client.post(where, data={"what": "unnotch", "down": "46.1", "across": "11"})
    assert gone.status_code == 303
    assert web_stash.patterns.get("Ferry top").pieces[0].notches_mm == ()
    again = web_client.post(where, data={"what": "unnotch", "down": "46.1", "across": "11"})
    assert again.status_code == 422 and "no notch" in again.text


def test_how_long_it_is_cut_is_asked_with_the_question(page, web_client, web_stash):
    """Where it may be lengthened the question has a field for it, in her unit, and takes it."""
    (long_mm,) = {patterns.cut_long_mm(web_stash.patterns.get("Ferry top"))}
    asked = web_client.get("/become/?garment=Ferry top").text
    assert 'name="option-Ferry top.length"' in asked and f"{long_mm / 10:.1f} cm" in asked

    with web_client.application.test_request_context():
        values = MultiDict({"garment": "Ferry top", "option-Ferry top.length": "49 cm"})
        (order,) = asked_for(values).orders(web_stash)
    back = order.drafted().pattern.pieces[0]
    assert Outline(back.outline_mm).length_mm == pytest.approx(490)
    assert "option-" not in web_client.get("/become/?garment=No such pattern").text
