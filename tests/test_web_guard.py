"""Who may ask, and what a page may load."""

import re

import pytest

from stash.model import Cloth, Cut, Outline


@pytest.fixture
def cut(web_stash):
    """A cut of 3 m."""
    return web_stash.cuts.receive(
        Cut(code="", cloth=Cloth(name="Dune"), outline=Outline.rectangle(3000, 1400))).code


@pytest.mark.parametrize(("headers", "allowed"), [
    ({"Sec-Fetch-Site": "same-origin"}, True),
    ({"Sec-Fetch-Site": "none"}, True),
    ({"Sec-Fetch-Site": "cross-site"}, False),
    ({"Sec-Fetch-Site": "same-site"}, False),
    ({"Origin": "http://localhost"}, True),
    ({"Origin": "http://evil.example"}, False),
    ({"Origin": "null"}, False),
    ({"Sec-Fetch-Site": "cross-site", "Origin": "http://localhost"}, False),
    ({}, True),
])
def test_another_sites_page_cannot_change_the_record(web_client, web_stash, cut, headers, allowed):
    """Both ways a browser tells: Sec-Fetch-Site, and Origin over plain http."""
    answer = web_client.post(f"/cuts/{cut}/cut-off", data={"quick": "1 m"}, headers=headers)

    assert answer.status_code == (303 if allowed else 403)
    assert web_stash.cuts.get(cut).length_mm == (2000 if allowed else 3000)


@pytest.mark.parametrize(("host", "status"), [
    ("127.0.0.1:5000", 200), ("192.168.1.20:5000", 200), ("[::1]:5000", 200),
    ("stash.local:5000", 200), ("workroom:5000", 200), ("rebound.example", 400),
    ("127.0.0.1.rebound.example:5000", 400),
])
def test_a_public_name_that_nobody_chose_is_refused(web_client, host, status):
    """A page elsewhere cannot point its own name at this computer and read the answers."""
    assert web_client.get("/", headers={"Host": host}).status_code == status


def test_a_chosen_address_is_answered(web_client, web_stash):
    """A name of her own, once it is in the settings."""
    web_stash.settings.set_address("https://stash.heron-loft.example")

    assert web_client.get("/", headers={"Host": "stash.heron-loft.example"}).status_code == 200


def pages(cut: str) -> list[str]:
    """An address of every page that needs nothing else on record."""
    return [
        "/", "/more", "/bins/", "/bins/new", "/cuts/new", f"/c/{cut}", f"/cuts/{cut}/facts",
        "/people/", "/people/new", "/places/", "/scan/", "/stock-take/", "/labels/", "/settings/",
        "/settings/secure", "/record/", "/history/", "/drafts/", "/drafts/trousers", "/become/",
        "/plans/", "/shopping/", "/patterns/", "/nowhere", f"/tracing/remnant/{cut}",
    ]


def test_every_page_answers_and_keeps_to_its_own_policy(web_client, cut):
    """No script, style or handler stands in a page itself, so the policy can forbid them all."""
    for path in pages(cut):
        answer = web_client.get(path)

        assert answer.status_code == (404 if path == "/nowhere" else 200), path
        assert "default-src 'none'" in answer.headers["Content-Security-Policy"]
        assert not re.findall(r"<style|\sstyle=|\son\w+=|<script(?![^>]*\ssrc=)", answer.text), path
        assert "{{" not in answer.text and "{%" not in answer.text, path


def test_every_field_has_a_label_and_every_form_counts_once(web_client, cut):
    """Each control is named for those who do not see it."""
    for path in pages(cut):
        page = web_client.get(path).text
        for control in re.findall(r"<(?:input|select|textarea)\b[^>]*>", page):
            if 'type="hidden"' in control or re.search(r'type="(checkbox|radio|color)"', control):
                continue
            named = re.search(r'id="([^"]+)"', control)
            labelled = named and f'for="{named[1]}"' in page
            assert "data-part" in control or labelled, (path, control)
        for form in re.findall(r'<form method="post".*?</form>', page, re.DOTALL):
            free = "/scan/" in form or "/stock-take/" in form
            assert 'name="token"' in form or free, (path, form)


def test_ids_on_a_page_are_different(web_client, web_stash, cut):
    """The form for a blank label holds three forms and no two controls of one name."""
    [blank] = web_stash.labels.reserve(1)
    for path in [*pages(cut), f"/c/{blank}"]:
        ids = re.findall(r'\sid="([^"]+)"', web_client.get(path).text)

        assert sorted({i for i in ids if ids.count(i) > 1}) == [], path


def test_names_with_markup_are_shown_as_they_are_typed(web_client, web_stash):
    """Nothing typed becomes part of the page."""
    code = web_stash.cuts.receive(Cut(
        code="", cloth=Cloth(name='<b onclick=x>"&', colours=('"><script>',)),
        outline=Outline.rectangle(900, 900))).code

    page = web_client.get(f"/c/{code}").text

    assert "<b onclick" not in page
    assert '"><script>' not in page


def test_errors_come_as_json_to_a_script(web_client):
    """A script gets the sentence, not a page."""
    answer = web_client.get("/cuts/AAAAAA/facts", headers={"Accept": "application/json"})

    assert answer.status_code in (404, 422)
    assert set(answer.json) >= {"error", "field"}


def test_the_secret_is_made_once_and_kept_private(web_client, web_data):
    """Cookies stay valid over a restart, and nobody else reads the key."""
    from web import create_app

    again = create_app(web_data)

    assert again.config["SECRET_KEY"] == web_client.application.config["SECRET_KEY"]
    assert (web_data / "secret.key").stat().st_mode & 0o077 == 0
