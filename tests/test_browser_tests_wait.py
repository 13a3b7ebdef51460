"""A browser test waits for what it asserts: what is read once, at once, is a matter of luck."""

from __future__ import annotations

import re
from pathlib import Path

TESTS = sorted((Path(__file__).parent / "browser").glob("test_*.py"))
# What Playwright reads of a page as it is at that moment; its ``expect`` asks until it is so.
READ_ONCE = re.compile(
    r"assert\b.*(is_(visible|hidden|checked|enabled|disabled)\(|\.count\(\)|inner_text|text_content"
    r"|all_(inner_texts|text_contents)\(|input_value\(|\.content\(|page\.url\.|page\.url ==)")
# It asks again out of the page, which runs no text as a script, and then fails. ``until`` does.
ASKS_THE_PAGE = re.compile(r"wait_for_function")
A_TIME = re.compile(r"wait_for_timeout|\bsleep\(|networkidle")
TOO_SHORT = re.compile(r"timeout=(\d[\d_]*)")
OWN = re.compile(r"\.new_(context|page)\(")
PATIENCE_MS = 120_000


def lines() -> list[tuple[str, str]]:
    """(where, what stands there), of all tests in a browser."""
    return [(f"{path.name}:{n}", line) for path in TESTS
            for n, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)]


def test_nothing_is_asserted_of_a_page_without_waiting():
    """``expect(...)`` or ``until(...)``, not a look at what happens to be there."""
    assert [where for where, line in lines() if READ_ONCE.search(line)] == []
    assert [where for where, line in lines() if ASKS_THE_PAGE.search(line)] == []


def test_nothing_waits_for_a_time():
    """Only for a thing."""
    assert [where for where, line in lines() if A_TIME.search(line)] == []


def test_nothing_is_less_patient_than_all_the_others():
    """A time-out of one's own is a longer one; a page of one's own is opened by the fixtures."""
    short = [where for where, line in lines() for ms in TOO_SHORT.findall(line)
             if int(ms.replace("_", "")) < PATIENCE_MS]
    assert short == []
    assert [where for where, line in lines() if OWN.search(line)] == []
