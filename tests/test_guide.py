"""The guide says what the screen says, in each language, and the app serves it."""

import re

import pytest
from renew_catalogues import every_text
from renew_guide import PICTURES

from stash.sentences.reader import LANGUAGES
from stash.sentences.translations import translated
from web.guide_texts import FOLDER, guide, picture

IN_BOLD = re.compile(r"\*\*([^*]+)\*\*")
SHOWN = re.compile(r"!\[[^\]]+\]\(\.\./pictures/(\w\w)/([a-z]+\.webp)\)")


def texts(language: str) -> dict[str, str]:
    """The pages of a language by file name."""
    return {path.name: path.read_text(encoding="utf-8")
            for path in sorted((FOLDER / language).glob("*.md"))}


@pytest.mark.parametrize("language", LANGUAGES)
def test_there_are_the_same_ten_pages_in_every_language(language):
    """A reader finds every page in her own."""
    assert len(texts(language)) == 10
    assert list(texts(language)) == list(texts("en"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_word_in_bold_is_a_word_on_the_screen(language):
    """A button that is renamed, or translated otherwise, is renamed in the guide too."""
    on_screen = {translated(text, language) for text in every_text() if isinstance(text, str)}
    for name, text in texts(language).items():
        for word in IN_BOLD.findall(text):
            assert re.sub(r"\n *", " ", word) in on_screen, (name, word)


@pytest.mark.parametrize("language", LANGUAGES)
def test_pages_are_short_and_have_a_picture_of_their_language(language):
    """Short enough to be read standing."""
    for name, text in texts(language).items():
        assert len(text.split()) < 330, name
        shown = SHOWN.findall(text)
        assert shown, name
        for of_language, file in shown:
            assert of_language == language
            assert file.removesuffix(".webp") in PICTURES
            assert picture(language, file), (name, file)


@pytest.mark.parametrize("language", LANGUAGES)
def test_help_is_served_in_the_language_of_the_browser(web_client, language):
    """Each page and its pictures, and nothing beside the guide's folder."""
    index = web_client.get("/help/", headers={"Accept-Language": language}).text
    for one in guide(language):
        assert one.title in index.replace("&#39;", "'")
        shown = web_client.get(f"/help/{one.name}/", headers={"Accept-Language": language})
        assert shown.status_code == 200
        assert "<img" in shown.text
    assert web_client.get("/help/pictures/xx/make.webp").status_code == 404
    assert web_client.get("/help/pictures/en/..%2F..%2FREADME.md").status_code == 404
    assert web_client.get("/help/no-such-page/").status_code == 404


def test_a_picture_is_served(web_client):
    """As what it is."""
    with web_client.get(f"/help/pictures/en/{next(iter(PICTURES))}.webp") as answer:
        assert answer.mimetype == "image/webp"
        assert answer.data[:4] == b"RIFF"


SAID_OTHERWISE = {
    "de": ("Legeplan", "Rechner", "Bestand", "Flicken", "Dose", "Tablett"),
    "fr": ("placement",),
}
"""Words of the trade that the pages do without: they have another word for the thing."""


@pytest.mark.parametrize("language", SAID_OTHERWISE)
def test_the_guide_calls_things_as_the_pages_do(language):
    """Whoever reads *Legeplan* looks for it in vain where the page says *Schnittlage*."""
    on_screen = " ".join(translated(text, language) for text in every_text()
                         if isinstance(text, str))
    for word in SAID_OTHERWISE[language]:
        known = re.compile(rf"\b{word}", re.IGNORECASE)
        assert not known.search(on_screen), word
        for name, text in texts(language).items():
            assert not known.search(text), (name, word)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_figure_keeps_to_its_unit_and_a_mark_to_its_word(language):
    """No line of the help begins with "%", "cm" or, in French, with a question mark."""
    for one in guide(language):
        assert not re.search(r"\d (?:%|cm|m)\b|\d %", one.html), one.name
        assert not re.search(r" [?!;:»]", one.html), one.name
