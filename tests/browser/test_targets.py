"""What is tapped is as large as a finger: 44 CSS pixels each way (WCAG 2.2, 2.5.5 Target Size).

The rule's own exception is the only one made: a link in running text, which is as large as its
line. What a tap on a label, or on something that lies in the control, reaches counts to it.
"""

import pytest

pytestmark = pytest.mark.browser

STANDING = (
    "/", "/?view=list", "/?view=table", "/?tick=1", "/more", "/bins/", "/bins/new", "/cuts/new",
    "/places/", "/people/", "/people/new", "/scan/", "/stock-take/", "/become/", "/far/",
    "/far/trousers/", "/labels/", "/shopping/", "/shopping/like?words=linen", "/plans/",
    "/drafts/", "/drafts/trousers", "/patterns/", "/history/", "/settings/", "/settings/secure",
    "/record/", "/devices/", "/measure/", "/report/", "/asked/", "/entry/", "/spreadsheet/",
    "/pocket/", "/help/", "/help/first-hour/", "/no-such-page",
)
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
    if (!tapped || e.matches(".skip") || inSentence(e)) continue;  // .skip is shown to keys only
    const [width, height] = hit(e).map(Math.round);
    if (width < 44 || height < 44) small.push(`${width}x${height} ${e.outerHTML.slice(0, 110)}`);
  }
  return small;
}"""


def of_the_demo(made, record) -> list[str]:
    """Pages of single things."""
    cut, tin, who = made["cuts"][0], made["bins"][0], "Odile+Farrant"
    [blank], place = record.labels.reserve(1), record.places.names()[0]
    return [
        f"/c/{cut}", f"/c/{tin}", f"/c/{blank}", "/c/nothing", f"/cuts/{cut}/facts",
        f"/cuts/{cut}/as-cut", f"/cuts/{cut}/grain", f"/bins/{tin}/facts", f"/weigh/cut/{cut}",
        f"/weigh/bin/{tin}", f"/several/?code={cut}", f"/become/?cut={cut}",
        f"/tracing/remnant/{cut}", f"/people/one?name={who}", f"/fit/?name={who}",
        f"/measured/?name={who}", f"/drafts/trousers?person={who}",
        f"/alter/?of=fitted-bodice&person={who}", f"/places/named/{place}",
        f"/stock-take/in/{place}",
    ]


def test_everything_to_tap_is_as_large_as_a_finger(page, loft, record):
    """On every page, with all that can be opened open."""
    address, _, made = loft
    small = []
    for path in (*STANDING, *of_the_demo(made, record)):
        page.goto(address + path)
        page.locator("main").evaluate(
            "(m) => m.querySelectorAll('details').forEach((d) => { d.open = true; })")
        small += [f"{path} {one}" for one in page.evaluate(TOO_SMALL)]
    assert small == []
