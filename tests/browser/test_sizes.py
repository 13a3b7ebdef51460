"""What is typed stands in one row under its label, in every language."""

import pytest

pytestmark = pytest.mark.browser


def addresses(made, record) -> list[str]:
    """One address of every kind of page."""
    [blank] = record.labels.reserve(1)
    place = record.places.names()[0]
    return [
        "/", "/more", "/bins/", "/bins/new", "/cuts/new", f"/c/{made['cuts'][0]}",
        f"/c/{made['bins'][0]}", f"/c/{blank}", "/c/nothing", f"/cuts/{made['cuts'][0]}/facts",
        "/people/", f"/people/{made['people'][0]}", "/places/", f"/places/named/{place}", "/scan/",
        "/stock-take/", f"/stock-take/in/{place}", "/labels/", "/settings/", "/settings/secure",
        "/history/", "/drafts/", f"/drafts/trousers?person={made['people'][0]}", "/become/",
        "/plans/", "/shopping/", "/shopping/like?words=linen", "/patterns/",
        f"/tracing/remnant/{made['cuts'][0]}",
    ]


ROWS = """() => [...document.querySelectorAll('.typed')].filter(row =>
    row.checkVisibility()).map(row => {
  const wide = (one) => one.getBoundingClientRect().width;
  const button = row.querySelector('button, .button');
  const shown = getComputedStyle(button);
  const lines = Math.round((button.clientHeight - 2 * parseFloat(shown.paddingBlock))
    / parseFloat(shown.lineHeight));
  return [row.querySelector('label').innerText, wide(row.querySelector('label')) / wide(row),
    button.innerText, wide(button) / wide(row) < 0.99 ? lines : 1];
})"""


@pytest.mark.parametrize("locale", ["en", "fr", "de"])
def test_a_label_has_its_whole_row_and_no_button_is_squeezed(open_page, loft, record, locale):
    """What is typed stands below its label, and the button beside it only where its words fit."""
    address, _, made = loft
    page, seen = open_page(locale=locale), 0
    for path in addresses(made, record):
        page.goto(address + path)
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        for label, share, words, lines in page.evaluate(ROWS):
            seen += 1
            assert share > 0.99, (path, label)
            assert lines <= 1, (path, words)
    assert seen > 6
