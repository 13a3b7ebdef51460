"""What a form shows is never what it saves, unless it was edited.

Each form is opened for random exact values, in both systems, and sent back exactly as a
browser would send it: no event is written, and no figure moves.
"""

from html.parser import HTMLParser

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stash.model import (
    Bin,
    Cloth,
    Construction,
    Cut,
    FibreShare,
    Notion,
    NotionKind,
    Outline,
    Person,
    Repeat,
)
from stash.units import System


class Forms(HTMLParser):
    """The forms of a page, as a browser without scripts would send them untouched."""

    def __init__(self, text):
        super().__init__()
        self.forms, self._select = [], None
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        """Collect what would be sent."""
        a = dict(attributes)
        if tag == "form":
            self.forms.append((a.get("action"), []))
        elif tag == "input" and self.forms and a.get("name"):
            kind = a.get("type", "text")
            if kind in ("checkbox", "radio"):
                if "checked" in a:
                    self.forms[-1][1].append((a["name"], a.get("value") or "on"))
            elif kind != "file":
                self.forms[-1][1].append((a["name"], a.get("value") or ""))
        elif tag == "select":
            self._select = a["name"]
        elif tag == "option" and self._select and "selected" in a:
            self.forms[-1][1].append((self._select, a.get("value") or ""))

    def send(self, client, page, ending=None):
        """Post the form whose action ends so, or that posts to its own page."""
        (values,) = (v for action, v in self.forms
                     if (action or "").endswith(ending or "\0") or (not ending and not action))
        sent = {}
        for name, value in values:
            sent.setdefault(name, []).append(value)
        return client.post(page if not ending else ending_of(self, ending), data=sent)


def ending_of(page, ending):
    """The address a form is sent to."""
    return next(action for action, _ in page.forms if action and action.endswith(ending))


def events(stash):
    """How many events there are."""
    return stash.ledger.db.execute("SELECT count(*) FROM event").fetchone()[0]


def lengths(least, most):
    """Exact values, as a tape, a wash or a computation leaves them."""
    return st.floats(least, most, allow_nan=False)


EACH = settings(
    max_examples=12, deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow])
SYSTEMS = st.sampled_from([s.value for s in System])


def untouched(client, stash, page, ending=None):
    """Open a page, send its form back as it is, and see that nothing was written."""
    shown = client.get(page)
    assert shown.status_code == 200, shown.text
    before = events(stash)
    answer = Forms(shown.text).send(client, page, ending)
    assert answer.status_code == 303, answer.text
    assert events(stash) == before


@EACH
@given(hip=lengths(900, 1200), waist=lengths(700, 880), bust=lengths(850, 1100), system=SYSTEMS)
def test_a_person_opened_and_saved_keeps_every_measure(
    web_client, web_stash, hip, waist, bust, system
):
    """A hip of 104.6 cm is not stored as 105.0, and never as a yard and an eighth."""
    web_stash.settings.set("units", system)
    measures = {"hip": hip, "waist": waist, "bust": bust}
    web_stash.people.save(Person(name="Odile", measurements_mm=measures))

    untouched(web_client, web_stash, "/people/Odile")

    assert web_stash.people.get("Odile").measurements_mm == measures


@EACH
@given(length=lengths(100, 9000), width=lengths(300, 1800), system=SYSTEMS)
def test_a_cut_measured_again_without_a_new_measure_stays_as_it_is(
    web_client, web_stash, length, width, system
):
    """A cut of 2.00 m does not become 1.943 by being looked at in yards."""
    web_stash.settings.set("units", system)
    outline = Outline.rectangle(length, width)
    code = web_stash.cuts.receive(Cut(code="", cloth=Cloth(name="Dune"), outline=outline)).code

    untouched(web_client, web_stash, f"/c/{code}", "/re-measure")

    assert web_stash.cuts.get(code).outline == outline


@EACH
@given(
    mass=lengths(20, 900), along=lengths(0, 40), across=lengths(0, 40), stretch=lengths(0, 300),
    repeat=lengths(3, 900), price=st.integers(1, 100_000), share=lengths(1, 99),
    opaque=st.sampled_from([None, True, False]), system=SYSTEMS,
    made=st.sampled_from(list(Construction)),
)
def test_the_facts_of_a_cloth_opened_and_saved_stay_exact(
    web_client, web_stash, mass, along, across, stretch, repeat, price, share, opaque, system, made
):
    """Weight, shrinkage, repeat, price, and what was never said about seeing through it."""
    web_stash.settings.set("units", system)
    cloth = Cloth(
        name="Dune", mass_gsm=mass, shrink_along_pct=along, shrink_across_pct=across,
        stretch_across_pct=stretch, price_minor_per_m=price, opaque=opaque, construction=made,
        fibres=(FibreShare("flax", share), FibreShare("cotton", 100 - share)), care="40 °C " * 60,
        repeat=Repeat(lengthwise_mm=repeat, half_drop=True), colours=("#1F3A7A",),
    )
    code = web_stash.cuts.receive(
        Cut(code="", cloth=cloth, outline=Outline.rectangle(900, 700))).code

    untouched(web_client, web_stash, f"/cuts/{code}/facts")

    assert web_stash.cuts.get(code).cloth == cloth


@EACH
@given(
    kind=st.sampled_from(list(NotionKind)), size=lengths(2, 900), amount=lengths(1, 9000),
    mass=lengths(10, 300), system=SYSTEMS,
)
def test_a_bin_and_its_notion_opened_and_saved_stay_exact(
    web_client, web_stash, kind, size, amount, mass, system
):
    """The size of what is in it, and how much there is."""
    web_stash.settings.set("units", system)
    notion = Notion(
        kind=kind, name="Box", size_mm=size, mass_gsm=mass, colour="#1F3A7A", notes="x" * 900)
    held = Bin(code="", notion=notion, amount=round(amount) if kind.counted else amount)
    code = web_stash.bins.receive(held).code

    untouched(web_client, web_stash, f"/bins/{code}/facts")
    untouched(web_client, web_stash, f"/c/{code}", "/count")

    kept = web_stash.bins.get(code)
    assert (kept.notion, kept.amount) == (notion, held.amount)


@EACH
@given(
    edge=lengths(0, 90), clearance=lengths(0, 90), tilt=lengths(0, 14), step=lengths(5, 900),
    widths=st.lists(lengths(300, 3000), min_size=1, max_size=8), system=SYSTEMS,
)
def test_the_settings_opened_and_saved_stay_exact(
    web_client, web_stash, edge, clearance, tilt, step, widths, system
):
    """Margins, the tilt off the grain, the shop's step and its widths."""
    for name, value in (("units", system), ("edge_mm", edge), ("clearance_mm", clearance),
                        ("off_grain_deg", tilt), ("increment_mm", step),
                        ("widths_mm", sorted(widths))):
        web_stash.settings.set(name, value)

    untouched(web_client, web_stash, "/settings/")


@EACH
@given(length=lengths(100, 9000), width=lengths(300, 1800), along=lengths(0, 30), system=SYSTEMS)
def test_a_wash_without_measures_takes_the_shrinkage_on_record_exactly(
    web_client, web_stash, length, width, along, system
):
    """The one thing such a form records is the wash."""
    web_stash.settings.set("units", system)
    cloth = Cloth(name="Dune", shrink_along_pct=along)
    code = web_stash.cuts.receive(
        Cut(code="", cloth=cloth, outline=Outline.rectangle(length, width))).code
    after = web_stash.cuts.get(code).outline_washed
    page = Forms(web_client.get(f"/c/{code}").text)

    page.send(web_client, f"/c/{code}", "/wash")

    washed = web_stash.cuts.get(code).outline
    assert (washed.length_mm, washed.width_mm) == pytest.approx(
        (after.length_mm, after.width_mm), rel=1e-12)


@pytest.mark.parametrize("typed", ["3 yd", "3yd", "3 yards"])
def test_yards_are_taken_from_whoever_reads_metres(web_client, web_stash, typed):
    """1 yd = 914.4 mm exactly (international yard, 1959)."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(4000, 1400))).code

    web_client.post(f"/cuts/{code}/cut-off", data={"length": typed})

    assert web_stash.cuts.get(code).length_mm == pytest.approx(4000 - 2743.2)


def test_what_was_edited_is_what_is_saved(web_client, web_stash):
    """Only the untouched fields keep what they had."""
    web_stash.people.save(Person(name="Odile", measurements_mm={"hip": 1046.3, "waist": 821.7}))

    shown = {"hip-as-shown": "104.6 cm", "hip-exact": "1046.3", "hip": "104.6 cm",
             "waist-as-shown": "82.2 cm", "waist-exact": "821.7", "waist": "83 cm"}
    web_client.post("/people/Odile", data=shown)

    assert web_stash.people.get("Odile").measurements_mm == {"hip": 1046.3, "waist": 830.0}


@pytest.mark.parametrize("exact", ["nan", "1e999", "[]", "\"x\"", "{", "true", "-5", "null"])
def test_a_hidden_value_that_is_no_number_is_not_believed(web_client, web_stash, exact):
    """Then what is shown is read as if it had been typed."""
    web_client.post("/people/new", data={
        "name": "Odile", "hip": "104.6 cm", "hip-as-shown": "104.6 cm", "hip-exact": exact})

    people = web_stash.people.all()
    assert [p.measurements_mm for p in people] in ([], [{"hip": 1046.0}])
