"""Every page of the tour, on a phone and a desk: within its width, large enough to tap, for all.

The pages are those of ``tests/bench/tour_pages.py``: each by itself, with what is folded away
open, the answers, and what becomes of a photograph, a table or a form that is refused.
axe-core's rules are those of the W3C's Accessibility Conformance Testing; the package that
carries them is ``axe-playwright-python``. What is tapped is 44 CSS pixels each way (WCAG 2.2,
2.5.5 Target Size); the rule's own exception is the only one made: a link in running text.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe
from tour_pages import stops
from tour_workroom import ask, workroom

pytestmark = pytest.mark.browser

RULES = {"runOnly": {"type": "tag", "values": [
    "wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}}
SERIOUS = ("serious", "critical")
WIDE = "document.documentElement.scrollWidth - window.innerWidth"
TOO_SMALL = """() => {
  const seen = (e) => e.checkVisibility({ visibilityProperty: true });
  // What a tap on any of these reaches the control: itself, its label, what lies in it.
  const parts = (e) => [e, ...(e.labels ?? []), ...e.children];
  const hit = (e) => {
    const boxes = parts(e).filter(seen).map((p) => p.getBoundingClientRect());
    return [Math.max(...boxes.map((b) => b.width)), Math.max(...boxes.map((b) => b.height))];
  };
  const inSentence = (e) => {
    if (e.tagName !== "A" || getComputedStyle(e).display !== "inline") return false;
    let block = e.parentElement;
    while (getComputedStyle(block).display.startsWith("inline")) block = block.parentElement;
    const copy = block.cloneNode(true);
    for (const one of copy.querySelectorAll("a, button, label")) one.remove();
    return /\\p{L}/u.test(copy.textContent);
  };
  const all = document.querySelectorAll(
    "a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button]");
  const small = [];
  for (const e of all) {
    const tapped = seen(e) && getComputedStyle(e).pointerEvents !== "none";
    // .skip is shown to keys only; a piece in a drawing is as large as it is drawn.
    if (!tapped || e.matches(".skip") || e.closest("svg") || inSentence(e)) continue;
    const [width, height] = hit(e).map(Math.round);
    if (!width && !height) continue;  // folded away
    if (width < 44 || height < 44) small.push(`${width}x${height} ${e.outerHTML.slice(0, 110)}`);
  }
  return small;
}"""


@pytest.fixture(scope="module")
def room(tmp_path_factory, kernels, browser):
    """The demo, asked and planned, as the tour meets it."""
    with workroom(tmp_path_factory.mktemp("tour")) as made:
        ask(browser, made)
        yield made


def wrong(page, theme: str) -> list[str]:
    """Each serious finding of axe on the page as it is shown in this theme."""
    page.emulate_media(color_scheme=theme, reduced_motion="reduce")
    told = Axe().run(page, options=RULES).response
    assert told["passes"]  # it did look
    return [f"{theme}: {one['id']} {node['target']}" for one in told["violations"]
            if one["impact"] in SERIOUS for node in one["nodes"]]


@pytest.mark.parametrize("stop", list(stops()), ids=lambda stop: stop.name)
def test_a_page_fits_can_be_tapped_and_serves_everybody(page, room, stop):
    """Nothing runs off sideways, nothing is too small, nothing shuts anybody out."""
    stop.go(page, room)

    assert page.evaluate(WIDE) <= 0
    assert page.evaluate(TOO_SMALL) == []
    # As tall as all of it: what the ways at the foot cover for the moment can be scrolled to.
    high = page.evaluate("document.documentElement.scrollHeight")
    page.set_viewport_size({"width": page.viewport_size["width"], "height": high})
    assert [*wrong(page, "light"), *wrong(page, "dark")] == []
