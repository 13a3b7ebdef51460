"""What was typed into a form stays on the page that refuses it, whichever form it is.

Every form that is reached from the demo's pages, and from the pages of answers, is filled with
words that no length, number or code can be, then with more letters than a name may have, and sent
by each of its buttons; where that is refused, a sentence says why and every word stands in its
field again.
"""

from __future__ import annotations

import shutil
import time
from dataclasses import dataclass, field
from urllib.parse import urlsplit

import pytest
from lxml import html

from stash.demo import fill
from stash.model import Plan
from stash.store import open_stash
from web import create_app

STANDING = (
    "/", "/bins/", "/bins/new", "/cuts/new", "/places/", "/people/new", "/scan/", "/stock-take/",
    "/become/", "/far/", "/far/trousers/", "/labels/", "/shopping/", "/plans/", "/drafts/trousers",
    "/patterns/", "/settings/", "/record/", "/devices/", "/measure/", "/entry/",
    "/spreadsheet/", "/pocket/",
)
TYPED = {"text", "search", "number", "tel", ""}
REFUSED = range(400, 500)
WORDS = {"nonsense": "zq{} nonsense", "far too long": "zq{}" + " and on" * 100}


@dataclass
class Sent:
    """One form by one of its buttons: where it stands, where it goes, and what was typed."""

    page: str
    action: str
    typed: dict[str, str]
    rest: list[tuple[str, str]] = field(default_factory=list)

    def __str__(self) -> str:
        return f"{self.page} -> {self.action}"


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    """The demo's workroom on disk, filled once, and what it holds."""
    folder = tmp_path_factory.mktemp("typed") / "stash"
    with open_stash(folder) as stash:
        made = fill(stash)
        [blank] = stash.labels.reserve(1)
        place, plan = stash.places.names()[0], "Kept words"
        stash.plans.save(Plan(name=plan))
    return folder, {**made, "blank": blank, "place": place, "plan": plan}


def pages(made) -> list[str]:
    """Pages of single things beside those that stand by themselves."""
    cut, tin, who = made["cuts"][0], made["bins"][0], made["people"][0]
    return [
        *STANDING, f"/c/{cut}", f"/c/{tin}", f"/c/{made['blank']}", f"/cuts/{cut}/facts",
        f"/cuts/{cut}/as-cut", f"/bins/{tin}/facts", f"/people/one?name={who}",
        f"/fit/?name={who}", f"/measured/?name={who}", f"/weigh/cut/{cut}", f"/weigh/bin/{tin}",
        f"/places/named/{made['place']}", f"/stock-take/in/{made['place']}",
        f"/several/?code={cut}", f"/tracing/remnant/{cut}", f"/plans/of/{made['plan']}",
    ]


def typed_fields(form) -> list:
    """The fields that a person types into."""
    return [
        one for one in form.xpath(".//input[@name] | .//textarea[@name]")
        if one.tag == "textarea" or one.get("type", "text") in TYPED]


def sent_by(page: str, form, button, words: str) -> Sent:
    """The form as it is sent by a button, with such words in every field."""
    fields = typed_fields(form)
    typed = {one.get("name"): words.format(n) for n, one in enumerate(fields)}
    rest = [(name, value) for name, value in form.form_values() if name not in typed]
    if button is not None and button.get("name"):
        rest.append((button.get("name"), button.get("value", "")))
    action = (button is not None and button.get("formaction")) or form.get("action") or page
    return Sent(page, action, typed, rest)


def forms_of(page: str, text: str, words: str) -> list[Sent]:
    """Every form of a page that is posted and typed into, by each of its buttons."""
    found = []
    for form in html.fromstring(text).xpath("//form[@method='post']"):
        if not typed_fields(form):
            continue
        buttons = [one for one in form.xpath(".//button") if one.get("type", "submit") == "submit"
                   and one.get("formmethod", "post") == "post"]
        found += [sent_by(page, form, button, words) for button in buttons or [None]]
    return found


def lost(sent: Sent, text: str) -> list[str]:
    """The names of the fields whose words are not on the page any more."""
    page = html.fromstring(text)
    stands = {(one.get("name"), one.get("value", "")) for one in page.xpath("//input[@name]")}
    stands |= {(one.get("name"), one.text_content().strip()) for one in page.xpath("//textarea")}
    return [name for name, value in sent.typed.items() if (name, value) not in stands]


class Workroom:
    """The pages over a copy of the demo; after something was recorded, over a fresh copy."""

    def __init__(self, folder, copies):
        self.folder, self.copies, self.made = folder, copies, 0
        self.begin_anew()

    def begin_anew(self) -> None:
        """As the demo was."""
        self.made += 1
        copy = self.copies / str(self.made)
        shutil.copytree(self.folder, copy)
        self.client = create_app(copy, {"TESTING": True}).test_client()

    def send(self, sent: Sent):
        """The answer to a form."""
        data = {name: [v for k, v in sent.rest if k == name] for name, _ in sent.rest}
        answer = self.client.post(
            sent.action, data={**data, **sent.typed}, content_type="multipart/form-data")
        if answer.status_code not in REFUSED:
            self.begin_anew()
        return answer


@pytest.mark.parametrize("words", WORDS.values(), ids=WORDS)
def test_every_refused_form_keeps_every_word(demo, tmp_path, words):
    """Each form is sent to the demo as it was, so that none hangs on another."""
    folder, made = demo
    workroom, wrong, refused = Workroom(folder, tmp_path), [], set()
    for page in pages(made):
        shown = workroom.client.get(page, follow_redirects=True)
        assert shown.status_code == 200, page
        for sent in forms_of(page, shown.text, words):
            answer = workroom.send(sent)
            if answer.status_code not in REFUSED:
                continue
            refused.add(urlsplit(sent.action).path)
            wrong += amiss(sent, answer.text)
    assert wrong == []
    assert len(refused) >= 35, sorted(refused)


def amiss(sent: Sent, text: str) -> list[str]:
    """What the page that refuses a form does not say or keep."""
    silent = [] if 'role="alert"' in text else [f"{sent}: no sentence"]
    return silent + [f"{sent}: {name}" for name in lost(sent, text)]


@pytest.fixture
def answers(demo, tmp_path, kernels):
    """The demo's pages, and the addresses of an answer of each kind that has a form."""
    folder, made = demo
    copy = tmp_path / "asked"
    shutil.copytree(folder, copy)
    client = create_app(copy, {"TESTING": True}).test_client()
    who = made["people"][0]
    begun = [
        client.post(where, data={"garment": "apron", "person": who, **more}).location
        for where, more in (("/become/", {}), ("/become/", {"garment": ["apron", "tote-bag"],
                                                            "from": "apart"}),
                            ("/shopping/begin", {"all_cloth": "on"}))]
    yield client, [ended(client, where) for where in begun]
    client.application.extensions["jobs"].close()


def ended(client, where: str) -> str:
    """The same address, once its search is over."""
    state = f"/waiting/{where.rpartition('/')[2]}/state"
    while not client.get(state).json["over"]:
        time.sleep(0.05)
    return where


def test_a_refused_form_of_an_answer_keeps_its_words_beside_the_sentence(answers):
    """A plan's name, and what was bought: the answer stands as it was, the field says what is
    wrong with it.
    """
    client, addresses = answers
    for page in addresses:
        forms = forms_of(page, client.get(page).text, WORDS["far too long"])
        assert forms, page
        for sent in forms:
            refused = client.post(sent.action, data={**dict(sent.rest), **sent.typed})

            assert refused.status_code == 422, sent
            assert amiss(sent, refused.text) == []
            [field] = html.fromstring(refused.text).xpath("//input[@aria-invalid='true']")
            assert field.get("value") in sent.typed.values()
            assert field.getparent().xpath(".//*[@class='wrong']")
