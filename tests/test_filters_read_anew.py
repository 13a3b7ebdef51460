"""A template is compiled once and read by many: what it says of a constant is each reader's own."""


def test_an_example_is_in_the_manner_of_whoever_reads_it(web_client):
    """An Englishwoman looked first; the Frenchwoman after her still reads a comma."""
    for language, example in (("en", "1.5 m"), ("fr", "1,5 m"), ("en", "1.5 m")):
        page = web_client.get("/pocket/", headers={"Accept-Language": language}).text
        assert f'placeholder="{example}"' in page


def test_a_field_proposes_the_units_that_were_chosen_after_it_was_first_shown(web_client):
    """Inches chosen while the pages are served are proposed at once, not after the next start."""
    page = "/drafts/trousers"
    assert 'placeholder="cm"' in web_client.get(page).text
    web_client.post("/settings/units", data={"units": "inches"})
    assert 'placeholder="in"' in web_client.get(page).text
