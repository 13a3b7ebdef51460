"""No page has a serious finding of axe (WCAG 2.2 A and AA), on a phone and a desk, light and dark.

axe-core's rules are those of the W3C's Accessibility Conformance Testing; the package that
carries them is ``axe-playwright-python``.
"""

import pytest
from axe_playwright_python.sync_playwright import Axe

pytestmark = pytest.mark.browser

SERIOUS = ("serious", "critical")
RULES = {"runOnly": {"type": "tag", "values": [
    "wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}}
STANDING = (
    "/", "/more", "/bins/", "/bins/new", "/cuts/new", "/places/", "/people/", "/people/new",
    "/scan/", "/stock-take/", "/become/", "/far/", "/labels/", "/shopping/", "/plans/",
    "/drafts/", "/drafts/trousers", "/patterns/", "/history/", "/settings/", "/record/",
    "/devices/", "/measure/", "/report/", "/asked/", "/entry/", "/several/", "/spreadsheet/",
    "/pocket/", "/help/", "/help/first-hour/", "/no-such-page",
)


@pytest.fixture(params=["light", "dark"])
def theme(request):
    """What the person's screen prefers."""
    return request.param


def serious(page) -> list[str]:
    """Each serious finding as "rule: where"."""
    told = Axe().run(page, options=RULES).response
    assert told["passes"]  # it did look
    return [
        f"{page.url} {one['id']}: {node['target']}" for one in told["violations"]
        if one["impact"] in SERIOUS for node in one["nodes"]
    ]


def test_no_page_has_a_serious_finding(page, loft, theme):
    """Every page that stands by itself, a cut, a bin, a draft and a person of the demo."""
    address, _data, made = loft
    page.emulate_media(color_scheme=theme, reduced_motion="reduce")
    found = []
    for path in (*STANDING, *of_the_demo(made)):
        page.goto(address + path)
        found += serious(page)
    assert found == []


def of_the_demo(made) -> list[str]:
    """Pages of single things."""
    cut, tin = made["cuts"][0], made["bins"][0]
    return [
        f"/c/{cut}", f"/c/{tin}", f"/cuts/{cut}/facts",
        f"/bins/{tin}/facts", "/drafts/trousers?person=Odile+Farrant",
        "/people/Odile%20Farrant", "/fit/?name=Odile+Farrant", "/measured/?name=Odile+Farrant",
        "/alter/?of=fitted-bodice&person=Odile+Farrant",
    ]
