"""Pages in French and German: no English is left, numbers and dates in the reader's manner.

A name that somebody gave stands as it was given; everything else is translated.
"""

import io
import re
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
from babel.messages.mofile import read_mo
from babel.messages.pofile import read_po
from until import once_over

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
from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import DOMAIN, FOLDER, translated
from web.error_pages import SENTENCES

OTHERS = LANGUAGES[1:]
PAGES = (
    "/", "/bins/", "/scan/", "/become/", "/plans/", "/shopping/", "/patterns/", "/labels/",
    "/drafts/", "/people/", "/places/", "/stocktake/", "/history/", "/settings/",
    "/settings/secure", "/settings/copies", "/cuts/new", "/bins/new", "/people/new",
    "/people/Zo%C3%A9", "/plans/of/X1", "/places/P1", "/stocktake/P1", "/shopping/like",
    "/drafts/trousers?person=Zo%C3%A9", "/drafts/shirt?person=Zo%C3%A9", "/nowhere",
)
# Words that no French or German sentence has.
ENGLISH = re.compile(
    r"\b(the|and|of|with|from|this|is|are|cloth|length|width|save|cut|by|not|which|what|it|"
    r"fits?|wash(?:ed)?|pieces?|woven|open|shirt|trousers|buttons?|thread)\b", re.IGNORECASE)
NOT_WORDS = re.compile(r"\bby: \S+|--[\w-]+|\bhttps?:\S+")


class Words(HTMLParser):
    """What a page says: its text, and the words in its attributes."""

    def __init__(self, page):
        super().__init__()
        self.said, self._silent = [], 0
        self.feed(page)

    def handle_starttag(self, tag, attributes):
        """Words in attributes are read out, or shown in an empty field."""
        self._silent += tag in ("script", "style", "code")
        self.said += [v for k, v in attributes if k in ("aria-label", "alt", "placeholder") and v]

    def handle_endtag(self, tag):
        """Scripts and styles say nothing."""
        self._silent -= tag in ("script", "style", "code")

    def handle_data(self, data):
        """Text that is shown."""
        if not self._silent and data.strip():
            self.said.append(" ".join(data.split()))


@pytest.fixture
def furnished(web_client, web_stash):
    """A stash with one of everything, whose names are of no language."""
    web_stash.people.save(Person(name="Zoé", measurements_mm={"hip": 1046, "waist": 830}))
    cloth = Cloth(
        name="X7", fibres=(FibreShare("flax", 55), FibreShare("cotton", 45)), mass_gsm=180,
        construction=Construction.WOVEN, repeat=Repeat(lengthwise_mm=64, crosswise_mm=32),
        shrink_along_pct=4, opaque=False, price_minor_per_m=1850,
    )
    cut = web_stash.cuts.receive(Cut(
        code="", cloth=cloth, outline=Outline.rectangle(2512, 1384), place="P1")).code
    web_stash.cuts.cut_off(cut, 123)
    bins = [
        web_stash.bins.receive(Bin(
            code="", place="P1", amount=7 if kind.counted else 2345,
            notion=Notion(kind=kind, name="N3", size_mm=15.2))).code
        for kind in NotionKind
    ]
    web_client.post("/plans/", data={"name": "X1", "garment": ["trousers"], "person": ["Zoé"]})
    web_client.get("/")  # what was said in English when it was saved is said once
    return [f"/c/{code}" for code in (cut, *bins)] + [
        f"/cuts/{cut}/facts", f"/bins/{bins[0]}/facts", f"/tracing/remnant/{cut}"]


@pytest.mark.parametrize("language", OTHERS)
def test_no_english_is_left_on_any_page(web_client, furnished, language):
    """Every text of every page that a stash can open."""
    left = []
    for page in (*PAGES, *furnished):
        answer = web_client.get(page, headers={"Accept-Language": language}, follow_redirects=True)
        assert f'<html lang="{language}">' in answer.text, page
        left += [(page, said) for said in Words(answer.text).said
                 if ENGLISH.search(NOT_WORDS.sub("", said))]

    assert not left, "\n".join(f"{page}: {said}" for page, said in dict.fromkeys(left))


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize(("where", "asked"), [
    ("/become/", {"garment": "trousers"}),
    ("/far/trousers/", {"grow": "length"}),
    ("/shopping/begin", {"garment": "trousers"}),
])
def test_no_english_is_left_while_waiting_nor_in_the_answer(
    web_client, furnished, kernels, language, where, asked
):
    """The page that waits, the answer it becomes, and every page that the answer leads to."""
    reads = {"Accept-Language": language}
    at = web_client.post(where, data={**asked, "person": "Zoé", "seconds": "1"}, headers=reads)
    pages = [web_client.get(at.location, headers=reads).text]
    pages.append(web_client.get(once_over(web_client, at.location), headers=reads).text)
    links = set(re.findall(rf'href="({re.escape(at.location)}/[^"?#]+)"', pages[-1]))
    pages += [web_client.get(link, headers=reads).text for link in sorted(links)
              if not link.endswith((".pdf", ".svg", ".html"))]

    left = {said for page in pages for said in Words(page).said
            if ENGLISH.search(NOT_WORDS.sub("", said))}
    assert left == set()


@pytest.mark.parametrize("language", OTHERS)
def test_a_catalogue_has_every_text_and_is_compiled(language):
    """``python tests/bench/renew_catalogues.py`` renews it; nothing waits for a translator."""
    sys.path.insert(0, str(Path("tests/bench").resolve()))
    from renew_catalogues import every_text, missing

    folder = FOLDER / language / "LC_MESSAGES"
    texts = read_po(io.BytesIO((folder / f"{DOMAIN}.po").read_bytes()), locale=language)
    compiled = read_mo(io.BytesIO((folder / f"{DOMAIN}.mo").read_bytes()))

    assert missing(texts) == []
    known = {m.id if isinstance(m.id, str) else m.id[0] for m in texts if m.id}
    assert {t if isinstance(t, str) else t[0] for t in every_text()} <= known
    said = [{str(tuple(m.id)): tuple(m.string) for m in c if m.id} for c in (compiled, texts)]
    assert said[0] == said[1]


@pytest.mark.parametrize("language", OTHERS)
def test_a_translation_says_the_same_values(language):
    """A place for a value that is lost, or made up, would break the sentence."""
    folder = FOLDER / language / "LC_MESSAGES"
    places = re.compile(r"\{\w+\}|%\(\w+\)[sdg]|%%")
    for m in read_po(io.BytesIO((folder / f"{DOMAIN}.po").read_bytes()), locale=language):
        own, other = (
            {p for text in ((t,) if isinstance(t, str) else t) for p in places.findall(text)}
            for t in (m.id, m.string))
        assert own == other, m.id


@pytest.mark.parametrize(("asked", "shown"), [
    ("en", ("2.39 m", "138.4 cm", "55 % linen")), ("fr", ("2,39 m", "138,4 cm", "55 % lin")),
    ("de", ("2,39 m", "138,4 cm", "55 % Leinen")),
])
def test_numbers_are_written_as_the_reader_writes_them(web_client, furnished, asked, shown):
    """The decimal mark of each language (Unicode CLDR, through babel)."""
    page = web_client.get(furnished[0], headers={"Accept-Language": asked}).text

    for figure in shown:
        assert figure in page


def test_a_decimal_comma_is_read_as_it_is_written(web_client, web_stash):
    """What a page proposes in German, its form takes."""
    web_client.post("/people/new", data={"name": "Zoé", "hip": "104,6 cm", "waist": "32 1/2 Zoll"},
                    headers={"Accept-Language": "de"})

    assert web_stash.people.get("Zoé").measurements_mm == pytest.approx(
        {"hip": 1046, "waist": 825.5})


def test_the_setting_is_stronger_than_the_browser(web_client, web_stash):
    """She may read German on a borrowed French telephone."""
    web_stash.settings.set("language", "de")

    assert '<html lang="de">' in web_client.get("/", headers={"Accept-Language": "fr"}).text


def test_a_refusal_is_said_in_the_readers_language(web_client):
    """The fact is the same; the sentence is hers, and so is the number it gives as an example."""
    answer = web_client.post("/people/new", data={"name": "Zoé", "hip": "wide"},
                             headers={"Accept-Language": "fr"})

    assert "n’est pas une longueur utilisable" in answer.text
    assert "par exemple 104,5" in answer.text


@pytest.mark.parametrize(("language", "said"), [
    ("fr", "Ce fichier est trop volumineux"), ("de", "Diese Datei ist zu groß")])
def test_what_is_too_large_is_refused_in_the_readers_language(web_client, language, said):
    """The size that may be sent stands in the sentence, and so it was left untranslated once."""
    answer = web_client.post("/people/new", data={"name": "x" * 2_100_000},
                             headers={"Accept-Language": language})

    assert answer.status_code == 413
    assert said in answer.text


@pytest.mark.parametrize("language", ["fr", "de"])
def test_every_error_of_the_web_has_its_sentence(language):
    """None of them is shown in English to whoever reads another language."""
    for status, sentence in SENTENCES.items():
        assert translated(sentence, language) != sentence, status
